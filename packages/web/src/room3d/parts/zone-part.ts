import type { ScapeScene, ScapeZone } from "@lentic/core/drawing";
import { fieldHeight } from "@lentic/core/geometry";
import { createRandom } from "@lentic/core/numerics";
import { Group, InstancedBufferAttribute, InstancedMesh, type LineSegments, Matrix4, Vector3 } from "three";
import { laidLine } from "../ground-mesh.ts";
import { Ink, type SharedInk } from "../ink.ts";
import type { Theme, Tone } from "../look.ts";
import { type Stand, widthOf } from "../placement.ts";
import { growPlant } from "../plants/grow.ts";
import { cross, unit, type Vector } from "../plants/vector.ts";
import { plantFragment, plantVertex } from "../shaders.ts";
import { geometryOf, lineInk, lines } from "./geometry.ts";
import type { Part } from "./part.ts";

/** Different plants that are grown for one planting; the others are the same, turned and sized. Design value. */
const mostVariants = 3;

/** Plants of one planting up to which each is drawn closely. Design value. */
const looked = 40;

/** Room kept between leaves and panes, m. */
const inset = 0.0015;

/** A planting: a few plants grown, and set out as often as they stand. */
export class ZonePart implements Part {
  readonly object = new Group();
  readonly stands: readonly Stand[];
  readonly zone: ScapeZone;
  /** Width and height by which it is taken hold of, m; the height below 0 where it hangs. */
  readonly size: readonly [width: number, height: number];
  readonly #inks: Ink[];
  readonly #outline: LineSegments;

  constructor(zone: ScapeZone, tone: Tone, stands: readonly Stand[], scene: ScapeScene, shared: SharedInk) {
    this.zone = zone;
    this.stands = stands;
    const { tank, ground, seed } = scene;
    const afloat = zone.form === "floating";
    const height = Math.max(0.004, zone.height);
    const width = widthOf(zone);
    this.size = [width, afloat ? -height : Math.min(height, tank.waterLine)];
    const leaves = new Ink(shared, {
      vertex: plantVertex,
      fragment: plantFragment,
      uniforms: {
        uLow: new Vector3(inset, inset, 0),
        uHigh: new Vector3(tank.length - inset, tank.width - inset, afloat ? tank.height : tank.waterLine - inset),
        uChosen: 0,
      },
      tokens: {
        uFill: `--d-${tone}`,
        uFar: `--d-${tone}-far`,
        uLine: `--d-${tone}-line`,
        uRoot: "--d-root",
        uBody: zone.form === "moss" ? `--d-${tone}` : "--d-snail",
        uChosenLine: "--drag",
      },
      side: "both",
    });
    const outline = lineInk(shared, { token: "--drag", pale: 0, nearer: 0.002 });
    this.#inks = [leaves, outline];
    const variants = Math.min(mostVariants, stands.length);
    for (let variant = 0; variant < variants; variant++) {
      const own = stands.filter((_, k) => k % variants === variant);
      const deep = own.reduce((sum, { at }) => sum + at[2], 0) / own.length;
      const random = createRandom(Math.trunc(seed) | 0, 104_729 * (zone.index + 1) + variant);
      const room = afloat
        ? tank.waterLine - fieldHeight(ground, tank.length / 2, tank.width / 2)
        : tank.waterLine - deep;
      const plant = growPlant({
        form: zone.form,
        leaf: zone.leaf,
        height,
        spread: width,
        room: Math.max(0.01, room),
        detail: Math.min(1, Math.max(0.4, Math.sqrt(looked / stands.length))),
        random: () => random.uniform(),
      });
      const geometry = geometryOf({ position: [plant.positions, 3], marks: [plant.marks, 4] }, plant.triangles);
      geometry.setAttribute(
        "tint",
        new InstancedBufferAttribute(
          Float32Array.from(own, ({ tint }) => tint),
          1,
        ),
      );
      const drawn = new InstancedMesh(geometry, leaves.material, own.length);
      drawn.frustumCulled = false;
      own.forEach((stand, k) => {
        drawn.setMatrixAt(k, placed(stand, trailing(zone, tank.waterLine)));
      });
      this.object.add(drawn);
    }
    const level = afloat ? tank.waterLine : null;
    this.#outline = lines(
      laidLine(zone.outline, true, tank, (x, y) => (level ?? fieldHeight(ground, x, y)) + 0.001),
      outline,
    );
    this.#outline.visible = false;
    this.object.add(this.#outline);
  }

  dress(theme: Theme): void {
    for (const ink of this.#inks) ink.dress(theme);
  }

  choose(chosen: boolean): void {
    this.#inks[0]!.set("uChosen", chosen ? 1 : 0);
    this.#outline.visible = chosen;
  }

  dispose(): void {
    for (const child of this.object.children) {
      (child as InstancedMesh | LineSegments).geometry.dispose();
      if (child instanceof InstancedMesh) child.dispose();
    }
    for (const ink of this.#inks) ink.dispose();
  }
}

/** Whether its leaves lie along the surface, all the same way: then it is not turned freely. */
function trailing({ form, leaf, height }: ScapeZone, waterLine: number): boolean {
  return form === "runner" && leaf === "ribbon" && height > 0.75 * waterLine;
}

function placed({ at, up, turn, size, broad }: Stand, calm: boolean): Matrix4 {
  const angle = calm ? (turn - Math.PI) * 0.25 : turn;
  const start: Vector = [Math.cos(angle), Math.sin(angle), 0];
  const across = unit(cross(up, start));
  const along = cross(across, up);
  const wide = size * broad;
  return new Matrix4().set(
    along[0] * wide,
    across[0] * wide,
    up[0] * size,
    at[0],
    along[1] * wide,
    across[1] * wide,
    up[1] * size,
    at[1],
    along[2] * wide,
    across[2] * wide,
    up[2] * size,
    at[2],
    0,
    0,
    0,
    1,
  );
}
