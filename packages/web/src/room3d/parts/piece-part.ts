import type { ScapePiece } from "@lentic/core/drawing";
import { type Mesh as Solid, thinMesh } from "@lentic/core/solids";
import { type BufferGeometry, Group, LineSegments, Mesh, Vector3 } from "three";
import { grainStrokes } from "../grain-strokes.ts";
import { Ink, type SharedInk } from "../ink.ts";
import type { Theme } from "../look.ts";
import { hullVertex, lineFragment, solidFragment, solidVertex } from "../shaders.ts";
import { solidSurface } from "../solid-surface.ts";
import { geometryOf, lineInk } from "./geometry.ts";
import type { Part } from "./part.ts";

/** Most triangles of a piece that are drawn; finer ones are thinned for the eye. Design value. */
const mostDrawn = 20_000;

const styles: Readonly<Record<ScapePiece["texture"], number>> = { layered: 0, faceted: 1, irregular: 1, rounded: 2 };
const woodStyle = 3;

/** Way between the beds that are drawn, m. Design value. */
const beds = 0.0052;

const [thin, thick] = [1.15, 2.4];

/** A stone or a piece of wood: toned faces, its creases and grain, its outline. */
export class PiecePart implements Part {
  readonly object = new Group();
  /** What the mesh has been moved by since it was drawn, m. */
  shift: readonly [number, number, number] = [0, 0, 0];
  readonly #fill: Ink;
  readonly #hull: Ink;
  readonly #crease: Ink;
  #geometries: BufferGeometry[] = [];
  #theme: Theme = "paper";
  readonly #line: "--d-wood-line" | "--d-stone-line";
  #stop = new AbortController();

  /** @param redraw asked for when a fine mesh has been thinned. */
  constructor(piece: ScapePiece, seed: number, shared: SharedInk, redraw: () => void) {
    const wood = piece.kind === "wood";
    this.#fill = new Ink(shared, {
      vertex: solidVertex,
      fragment: solidFragment,
      uniforms: { uGrain: new Vector3(...piece.grain), uStyle: wood ? woodStyle : styles[piece.texture], uBeds: beds },
      tokens: wood
        ? {
            uTone0: "--d-wood-light",
            uTone1: "--d-wood",
            uTone2: "--d-wood",
            uTone3: "--d-wood-shade",
            uLine: "--d-wood-line",
            uWater: "--d-water",
          }
        : {
            uTone0: "--d-stone-1",
            uTone1: "--d-stone-2",
            uTone2: "--d-stone-3",
            uTone3: "--d-stone-4",
            uLine: "--d-stone-line",
            uWater: "--d-water",
          },
      behind: true,
    });
    this.#line = wood ? "--d-wood-line" : "--d-stone-line";
    this.#hull = new Ink(shared, {
      vertex: hullVertex,
      fragment: lineFragment,
      uniforms: { uWide: thin, uAlpha: 1, uDash: 0, uPale: 0.35 },
      tokens: { uLine: this.#line, uWater: "--d-water" },
      side: "back",
    });
    this.#crease = lineInk(shared, { token: this.#line, alpha: wood ? 0.62 : 0.9 });
    if (piece.mesh.triangles.length <= 3 * mostDrawn) this.#draw(piece.mesh, piece, seed);
    else void this.#thinned(piece, seed, redraw);
  }

  async #thinned(piece: ScapePiece, seed: number, redraw: () => void): Promise<void> {
    const { signal } = this.#stop;
    try {
      const fewer = await thinMesh(piece.mesh, mostDrawn, { signal });
      // a mesh thinned before the first breath is handed over without looking at the signal
      if (signal.aborted) return;
      this.#draw(fewer, piece, seed);
      redraw();
    } catch (fault) {
      if (!signal.aborted) throw fault;
    }
  }

  #draw(mesh: Solid, piece: ScapePiece, seed: number): void {
    const wood = piece.kind === "wood";
    const surface = solidSurface(mesh, wood || piece.texture === "rounded");
    const faces = geometryOf(
      { position: [surface.positions, 3], normal: [surface.normals, 3], outward: [surface.outward, 3] },
      surface.triangles,
    );
    const inked = [surface.creases];
    if (wood) inked.push(grainStrokes(mesh, piece.grain, seed));
    const ends = new Float32Array(inked.reduce((sum, list) => sum + list.length, 0));
    let at = 0;
    for (const list of inked) {
      ends.set(list, at);
      at += list.length;
    }
    const strokes = geometryOf({ position: [ends, 3] });
    this.#geometries = [faces, strokes];
    this.object.add(
      new Mesh(faces, this.#fill.material),
      new Mesh(faces, this.#hull.material),
      new LineSegments(strokes, this.#crease.material),
    );
  }

  moveBy([x, y, z]: readonly [number, number, number]): void {
    this.shift = [this.shift[0] + x, this.shift[1] + y, this.shift[2] + z];
    this.object.position.set(...this.shift);
  }

  dress(theme: Theme): void {
    this.#theme = theme;
    for (const ink of [this.#fill, this.#hull, this.#crease]) ink.dress(theme);
  }

  choose(chosen: boolean): void {
    this.#hull.retoken({ uLine: chosen ? "--drag" : this.#line });
    this.#hull.set("uWide", chosen ? thick : thin);
    this.#hull.dress(this.#theme);
  }

  dispose(): void {
    this.#stop.abort();
    for (const geometry of this.#geometries) geometry.dispose();
    for (const ink of [this.#fill, this.#hull, this.#crease]) ink.dispose();
  }
}
