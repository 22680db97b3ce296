/** Scenes for the tests of this room. */
import type { Mesh } from "../solids/index.ts";
import { rectangleLamp } from "./rectangle.ts";
import type { Beam, Lamp, Scene } from "./scene.ts";

const lambertian: Beam = { kind: "lobe", exponent: 1 };

/** Flat level panel with its middle at a place. */
export function panel(
  [x, y, z]: readonly [number, number, number],
  length: number,
  width: number,
  surface: number,
  beam: Beam = lambertian,
): Lamp {
  return { ...rectangleLamp({ x, y, z, length, width }, surface), beam };
}

export function pointLamp(x: number, y: number, z: number, beam: Beam): Lamp {
  return { emitters: [{ x, y, z, share: 1 }], axis: [0, 0, -1], along: [1, 0, 0], beam };
}

/** The empty glass tank of the reference scenes: 0.60 x 0.30 m, 0.30 m of water, panel 0.40 x 0.12 m at 0.15 m. */
export function tank(changes: Partial<Scene> = {}): Scene {
  return {
    box: { length: 0.6, width: 0.3, surface: 0.3, index: 1.333 },
    bands: [{ absorption: 0 }],
    walls: { left: "bare", right: "bare", front: "bare", back: "bare" },
    materials: [{ albedo: [0] }],
    ground: null,
    cells: { columns: 30, rows: 15 },
    groundMaterial: 0,
    solids: [],
    water: null,
    lamps: [panel([0.3, 0.15, 0.45], 0.4, 0.12, 0.3)],
    ...changes,
  };
}

/** Opaque black on all four sides. */
export function blackWalls(bands = 1): Scene["walls"] {
  const black = { albedo: Array.from({ length: bands }, () => 0) };
  return { left: black, right: black, front: black, back: black };
}

/** A box of triangles that turn outwards, between two corners. */
export function block(
  [x0, y0, z0]: readonly [number, number, number],
  [x1, y1, z1]: readonly [number, number, number],
): Mesh {
  const positions = [z0, z1].flatMap((z) => [x0, y0, z, x1, y0, z, x1, y1, z, x0, y1, z]);
  const sides = [0, 1, 2, 3].flatMap((k) => {
    const next = (k + 1) % 4;
    return [k, next, 4 + next, k, 4 + next, 4 + k];
  });
  return {
    positions: Float64Array.from(positions),
    triangles: Uint32Array.from([0, 2, 1, 0, 3, 2, 4, 5, 6, 4, 6, 7, ...sides]),
  };
}

export const sumOf = (values: Iterable<number>): number => [...values].reduce((a, b) => a + b, 0);
export const meanOf = (values: ArrayLike<number>): number => sumOf(Array.from(values)) / values.length;

/** Value of the cell that a place lies in, places counted from the middle of the tank. */
export function cellAt(map: Float64Array, scene: Scene, x: number, y: number): number {
  const { box, cells } = scene;
  const i = Math.floor(((x + box.length / 2) / box.length) * cells.columns);
  const j = Math.floor(((y + box.width / 2) / box.width) * cells.rows);
  return map[j * cells.columns + i]!;
}

/** Means of the layers of the water grid, from the top down. */
export function layerMeans(map: Float64Array, layers: number): number[] {
  const each = map.length / layers;
  return Array.from({ length: layers }, (_, k) => meanOf(map.subarray(k * each, (k + 1) * each))).reverse();
}
