import type { ScapeScene, ScapeZone } from "@lentic/core/drawing";
import { fieldHeight } from "@lentic/core/geometry";
import { drawnHeight, laidLine, plantSets, type Stand, settingOf, widthOf } from "@lentic/core/model3d";
import { Group, InstancedBufferAttribute, InstancedMesh, type LineSegments, Matrix4, Vector3 } from "three";
import { Ink, type SharedInk } from "../ink.ts";
import type { Theme, Tone } from "../look.ts";
import { plantFragment, plantVertex } from "../shaders.ts";
import { geometryOf, lineInk, lines } from "./geometry.ts";
import type { Part } from "./part.ts";

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
    const { tank, ground } = scene;
    const afloat = zone.form === "floating";
    const height = drawnHeight(zone);
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
    for (const { plant, stands: own } of plantSets(zone, stands, scene)) {
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
        drawn.setMatrixAt(k, placed(stand, zone, tank.waterLine));
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

function placed(stand: Stand, zone: ScapeZone, waterLine: number): Matrix4 {
  const { along, across, up, wide, high } = settingOf(stand, zone, waterLine);
  const [x, y, z] = stand.at;
  return new Matrix4().set(
    along[0] * wide,
    across[0] * wide,
    up[0] * high,
    x,
    along[1] * wide,
    across[1] * wide,
    up[1] * high,
    y,
    along[2] * wide,
    across[2] * wide,
    up[2] * high,
    z,
    0,
    0,
    0,
    1,
  );
}
