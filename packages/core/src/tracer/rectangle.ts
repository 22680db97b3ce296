import type { Point3 } from "../solids/index.ts";
import { NEAREST_LAMP } from "./check-scene.ts";
import type { Emitter, Lamp } from "./scene.ts";

/** A flat lamp or one face of it. */
export interface RectangleLamp {
  /** Its middle, m. */
  readonly x: number;
  readonly y: number;
  readonly z: number;
  /** Sides, m, above 0: along x and along y as it hangs before it is turned. */
  readonly length: number;
  readonly width: number;
  /** Degrees about the vertical, counter-clockwise from above; default 0. */
  readonly turn?: number;
  /** Degrees about its long side before the turn, above 0: the beam goes to the back; default 0. */
  readonly tip?: number;
  /** Degrees about its short side before the turn, above 0: the beam goes to the right; default 0. */
  readonly lean?: number;
}

/** Smallest and most parts. Design values: each part is sampled at ever new places, so finer parts gain nothing. */
const SMALLEST = 0.004;
const MOST_A_SIDE = 64;

/**
 * A rectangle as parts that are no larger than a quarter of its height over the water (and not below 4 mm or more than
 * 64 a side), with the directions that go with it.
 * @param surface height of the water, m
 * @throws RangeError for sides that are not above 0, figures that are not numbers, or a part in the water
 */
export function rectangleLamp(lamp: RectangleLamp, surface: number): Pick<Lamp, "emitters" | "axis" | "along"> {
  const { x, y, z, length, width, turn = 0, tip = 0, lean = 0 } = lamp;
  if (!(length > 0 && width > 0 && Number.isFinite(length + width + x + y + z + turn + tip + lean)))
    throw new RangeError(
      `lamp of ${length} m x ${width} m at ${x}, ${y}, ${z} m, turn ${turn}, tip ${tip}, lean ${lean} degrees: sides must be above 0, all must be numbers`,
    );
  const turned = (p: Point3): Point3 => about(about(about(p, 0, tip), 1, -lean), 2, turn);
  const along = turned([1, 0, 0]);
  const across = turned([0, 1, 0]);
  const axis = turned([0, 0, -1]);
  const drop = (Math.abs(along[2]) * length + Math.abs(across[2]) * width) / 2;
  const clear = z - drop - surface;
  if (!(clear >= NEAREST_LAMP))
    throw new RangeError(
      `the lamp's lowest edge is ${clear * 1000} mm above the water: at least ${NEAREST_LAMP * 1000} mm are needed`,
    );
  const part = Math.max(SMALLEST, clear / 4);
  const parts = (side: number): number => Math.min(MOST_A_SIDE, Math.ceil(side / part - 1e-9));
  const [nx, ny] = [parts(length), parts(width)];
  const scaled = (p: Point3, by: number): Point3 => [p[0] * by, p[1] * by, p[2] * by];
  const halves: readonly [Point3, Point3] = [scaled(along, length / nx / 2), scaled(across, width / ny / 2)];
  const emitters: Emitter[] = [];
  for (let j = 0; j < ny; j++) {
    for (let i = 0; i < nx; i++) {
      const u = ((i + 0.5) / nx - 0.5) * length;
      const v = ((j + 0.5) / ny - 0.5) * width;
      emitters.push({
        x: x + along[0] * u + across[0] * v,
        y: y + along[1] * u + across[1] * v,
        z: z + along[2] * u + across[2] * v,
        share: 1 / (nx * ny),
        halves,
      });
    }
  }
  return { emitters, axis, along };
}

/** A direction turned about the x, y or z axis by degrees, by the right-hand rule. */
function about(p: Point3, axis: 0 | 1 | 2, degrees: number): Point3 {
  const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  const [a, b] = [(axis + 1) % 3, (axis + 2) % 3] as [number, number];
  const out: [number, number, number] = [p[0], p[1], p[2]];
  out[a] = c * p[a]! - s * p[b]!;
  out[b] = s * p[a]! + c * p[b]!;
  return out;
}
