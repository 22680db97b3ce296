import type { ScapeLamp, ScapeTank } from "@lentic/core/drawing";
import { add, lampAxes, lampThickness, times, type Vector } from "@lentic/core/model3d";
import { Group, LineSegments, Mesh, Vector2 } from "three";
import { Ink, type SharedInk } from "../ink.ts";
import type { Theme } from "../look.ts";
import { beamFragment, flatVertex, tintFragment } from "../shaders.ts";
import { boxEdges, geometryOf, lineInk } from "./geometry.ts";
import type { Part } from "./part.ts";

/** Half of the angle of the light that is drawn, rad. Design value; the light that counts is worked out elsewhere. */
const spread = 0.36;

/** A lamp as a box, with the light under it as a pale shade. */
export class LampPart implements Part {
  readonly object = new Group();
  readonly #beam: Mesh;
  readonly #lit: boolean;
  readonly #solid: readonly Mesh[];
  #shown = true;
  #above = false;
  readonly #inks: Ink[];
  #theme: Theme = "paper";

  constructor(lamp: ScapeLamp, tank: ScapeTank, shared: SharedInk) {
    const axes = lampAxes(lamp);
    const [along, across] = [Math.max(lamp.length, 0.02) / 2, Math.max(lamp.width, 0.02) / 2];
    const place = (x: number, y: number, z: number): Vector =>
      add([lamp.x, lamp.y, lamp.z], add(add(times(axes[0], x), times(axes[1], y)), times(axes[2], -z)));
    const thick = lampThickness[lamp.kind];
    const body = new Ink(shared, {
      vertex: flatVertex,
      fragment: tintFragment,
      uniforms: { uAlpha: 1 },
      tokens: { uTint: "--raised" },
      side: "both",
      behind: true,
    });
    const face = new Ink(shared, {
      vertex: flatVertex,
      fragment: tintFragment,
      uniforms: { uAlpha: 1 },
      tokens: { uTint: lamp.strength > 0 ? "--d-led" : "--line" },
      side: "both",
      behind: true,
    });
    const edge = lineInk(shared, { token: "--ink", pale: 0.2 });
    // the light is drawn down to the middle of the water
    const floor = Math.min(tank.waterLine * 0.35, lamp.z - 0.01);
    const light = new Ink(shared, {
      vertex: flatVertex,
      fragment: beamFragment,
      uniforms: { uAlpha: 0.25 + 0.6 * lamp.strength, uSpan: new Vector2(floor, lamp.z) },
      tokens: { uTint: "--d-beam" },
      side: "back",
      see: true,
    });
    this.#inks = [body, face, edge, light];
    const corners = [0, 1, 2, 3, 4, 5, 6, 7].map((k) =>
      place(k & 1 ? along : -along, k & 2 ? across : -across, k & 4 ? thick : 0),
    );
    const upper = Float32Array.from(corners.flat());
    this.#solid = [
      new Mesh(geometryOf({ position: [upper, 3] }, Uint32Array.from(boxFaces.slice(6))), body.material),
      new Mesh(geometryOf({ position: [upper, 3] }, Uint32Array.from(boxFaces.slice(0, 6))), face.material),
    ];
    const edges = geometryOf({ position: [edgesOf(along, across, thick, place), 3] });
    this.object.add(...this.#solid, new LineSegments(edges, edge.material));
    const fall = lamp.z - floor;
    const wide = Math.tan(spread) * fall;
    const lower = [0, 1, 2, 3].map((k) => {
      const [x, y] = [k & 1 ? along + wide : -along - wide, k & 2 ? across + wide : -across - wide];
      const from = place(x, y, 0);
      return add(from, times(axes[2], fall / Math.max(0.3, -axes[2][2])));
    });
    const cone = Float32Array.from([...lower, ...corners.slice(0, 4)].flat());
    this.#beam = new Mesh(geometryOf({ position: [cone, 3] }, Uint32Array.from(boxFaces)), light.material);
    this.#beam.renderOrder = 2;
    this.#lit = lamp.strength > 0;
    this.object.add(this.#beam);
    this.#show();
  }

  /** Shows or hides the light under it. */
  light(shown: boolean): void {
    this.#shown = shown;
    this.#show();
  }

  /** Seen from above only its edges are drawn, so that it hides nothing. */
  fromAbove(above: boolean): void {
    this.#above = above;
    this.#show();
  }

  #show(): void {
    this.#beam.visible = this.#shown && this.#lit && !this.#above;
    for (const mesh of this.#solid) mesh.visible = !this.#above;
  }

  dress(theme: Theme): void {
    this.#theme = theme;
    for (const ink of this.#inks) ink.dress(theme);
  }

  choose(chosen: boolean): void {
    this.#inks[2]!.retoken({ uLine: chosen ? "--drag" : "--ink" });
    this.#inks[2]!.dress(this.#theme);
  }

  dispose(): void {
    for (const child of this.object.children) (child as Mesh).geometry.dispose();
    for (const ink of this.#inks) ink.dispose();
  }
}

/** Faces of a box whose corners are numbered by their bits x, y, z, seen from outside; the lower one first. */
const boxFaces = [
  0, 2, 3, 0, 3, 1, 4, 5, 7, 4, 7, 6, 0, 1, 5, 0, 5, 4, 2, 6, 7, 2, 7, 3, 0, 4, 6, 0, 6, 2, 1, 3, 7, 1, 7, 5,
];

function edgesOf(
  along: number,
  across: number,
  thick: number,
  place: (x: number, y: number, z: number) => Vector,
): Float32Array {
  const own = boxEdges([-along, -across, 0], [along, across, thick]);
  const out = new Float32Array(own.length);
  for (let k = 0; k < own.length; k += 3) out.set(place(own[k]!, own[k + 1]!, own[k + 2]!), k);
  return out;
}
