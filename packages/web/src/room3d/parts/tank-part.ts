import type { ScapeTank } from "@lentic/core/drawing";
import { BoxGeometry, type BufferGeometry, Group, Mesh } from "three";
import { Ink, type SharedInk } from "../ink.ts";
import type { Theme } from "../look.ts";
import { flatVertex, tintFragment, waterFragment } from "../shaders.ts";
import { boxEdges, geometryOf, lineInk, lines } from "./geometry.ts";
import type { Part } from "./part.ts";

/** Thickness at which a lid is drawn, m. Design value. */
const lid = 0.006;

type Corner = readonly [number, number, number];

function box(min: Corner, max: Corner): BufferGeometry {
  const made = new BoxGeometry(max[0] - min[0], max[1] - min[1], max[2] - min[2]);
  return made.translate((min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2);
}

/** Glass as thin ink lines with a pale tint, the water behind it and its surface. */
export class TankPart implements Part {
  readonly object = new Group();
  readonly #inks: Ink[];
  readonly #surface: Ink;

  constructor({ length, width, height, glass, base, waterLine, cover }: ScapeTank, shared: SharedInk) {
    const ink = lineInk(shared, { token: "--ink", pale: 0.25 });
    const inner = lineInk(shared, { token: "--ink-2", alpha: 0.55, pale: 0.5 });
    const level = lineInk(shared, { token: "--water", pale: 0.2, nearer: 0.001 });
    const water = new Ink(shared, {
      vertex: flatVertex,
      fragment: waterFragment,
      uniforms: { uLine0: Math.max(0.01, waterLine) },
      tokens: { uDeep: "--d-water", uLit: "--d-lit", uEngraved: "--d-engraved" },
      side: "back",
    });
    const surface = new Ink(shared, {
      vertex: flatVertex,
      fragment: tintFragment,
      uniforms: { uAlpha: 0.26 },
      tokens: { uTint: "--d-lit" },
      side: "both",
      see: true,
    });
    const pane = new Ink(shared, {
      vertex: flatVertex,
      fragment: tintFragment,
      uniforms: { uAlpha: 0.5 },
      tokens: { uTint: "--d-glass" },
      side: "both",
      see: true,
    });
    this.#surface = surface;
    this.#inks = [ink, inner, level, water, surface, pane];
    const dry = Math.max(waterLine, 0.001);
    this.object.add(new Mesh(box([0, 0, 0], [length, width, dry]), water.material));
    const top = new Mesh(
      geometryOf(
        { position: [Float32Array.from([0, 0, dry, length, 0, dry, length, width, dry, 0, width, dry]), 3] },
        Uint32Array.from([0, 1, 2, 0, 2, 3]),
      ),
      surface.material,
    );
    top.renderOrder = 3;
    this.object.add(top);
    if (glass > 0) {
      const rim = new Mesh(glassEdges({ length, width, height, glass, base }), pane.material);
      rim.renderOrder = 4;
      this.object.add(rim);
    }
    this.object.add(
      lines(boxEdges([-glass, -glass, -base], [length + glass, width + glass, height]), ink),
      lines(boxEdges([0, 0, 0], [length, width, height]), inner),
      lines(boxEdges([0, 0, dry], [length, width, dry]), level),
    );
    if (cover === "lid")
      this.object.add(lines(boxEdges([-glass, -glass, height], [length + glass, width + glass, height + lid]), inner));
    for (const child of this.object.children) child.frustumCulled = false;
  }

  /** Seen from above the surface is clearer, so that the bed is seen through it. */
  fromAbove(above: boolean): void {
    this.#surface.set("uAlpha", above ? 0.08 : 0.26);
  }

  dress(theme: Theme): void {
    for (const ink of this.#inks) ink.dress(theme);
  }

  choose(): void {}

  dispose(): void {
    for (const child of this.object.children) (child as Mesh).geometry.dispose();
    for (const ink of this.#inks) ink.dispose();
  }
}

/** Where the thickness of the glass is seen: the rim, the upright edges and the bottom pane; not the panes looked through. */
function glassEdges({ length, width, height, glass, base }: Omit<ScapeTank, "waterLine" | "cover">): BufferGeometry {
  const positions: number[] = [];
  const triangles: number[] = [];
  const face = (...corners: readonly Corner[]): void => {
    const at = positions.length / 3;
    positions.push(...corners.flat());
    triangles.push(at, at + 1, at + 2, at, at + 2, at + 3);
  };
  const [l, r, f, b] = [-glass, length + glass, -glass, width + glass];
  const flat = (x0: number, x1: number, y0: number, y1: number): void =>
    face([x0, y0, height], [x1, y0, height], [x1, y1, height], [x0, y1, height]);
  flat(l, 0, f, b);
  flat(length, r, f, b);
  flat(0, length, f, 0);
  flat(0, length, width, b);
  for (const y of [f, b]) {
    for (const [x0, x1] of [
      [l, 0],
      [length, r],
    ] as const)
      face([x0, y, 0], [x1, y, 0], [x1, y, height], [x0, y, height]);
    face([l, y, -base], [r, y, -base], [r, y, 0], [l, y, 0]);
  }
  for (const x of [l, r]) {
    for (const [y0, y1] of [
      [f, 0],
      [width, b],
    ] as const)
      face([x, y0, 0], [x, y1, 0], [x, y1, height], [x, y0, height]);
    face([x, f, -base], [x, b, -base], [x, b, 0], [x, f, 0]);
  }
  return geometryOf({ position: [Float32Array.from(positions), 3] }, Uint32Array.from(triangles));
}
