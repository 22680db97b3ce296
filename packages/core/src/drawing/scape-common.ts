/** What plan and elevation share: pieces kept while nothing about them changes, where nothing can root, hit areas. */
import type { Mesh } from "../solids/index.ts";
import { clamp } from "./geometry.ts";
import { groundUnderPiece } from "./ground-under.ts";
import { Memory } from "./memory.ts";
import { type DrawingNode, element, paths } from "./node.ts";
import { type PieceCells, pieceCells } from "./piece-cells.ts";
import { streamOf } from "./random.ts";
import type { ScapeLamp, ScapePiece, ScapeScene } from "./scape-scene.ts";
import { groundOf, type View } from "./scape-view.ts";
import { type DrawnSolid, drawSolid } from "./solid-drawing.ts";

/** A piece with what is seen of it. */
export interface PlacedSolid {
  readonly piece: ScapePiece;
  readonly drawn: DrawnSolid;
}

/** Pages narrower than this are drawn with fewer strokes, px. */
const NARROW = 420;

const solids = new Memory<Mesh, DrawnSolid>();

/** The scene with the ground that its pieces and plants stand on. */
export const asItStands = (scene: ScapeScene): ScapeScene =>
  scene.standing ? { ...scene, ground: scene.standing } : scene;

/** The scene's pieces in a view, those not moved as they were drawn before. */
export function placedSolids(scene: ScapeScene, view: View, width: number): PlacedSolid[] {
  const ground = groundOf(scene);
  return scene.pieces.map((piece) => {
    const name = `${view.name} ${piece.kind} ${piece.texture} ${piece.grain.join(" ")} ${scene.seed} ${piece.index}`;
    const random = streamOf(scene.seed, view.kind, piece.kind, piece.index);
    return {
      piece,
      drawn: solids.of(piece.mesh, name, [groundUnderPiece(piece.mesh, scene.ground)], () =>
        drawSolid(piece, soundMesh(piece.mesh), view, ground, random, width < NARROW),
      ),
    };
  });
}

/** The mesh without triangles that have no place. */
function soundMesh(mesh: Mesh): Mesh {
  const { positions, triangles } = mesh;
  const sound = (k: number): boolean =>
    Number.isFinite(positions[3 * k]! + positions[3 * k + 1]! + positions[3 * k + 2]!);
  const kept: number[] = [];
  let whole = true;
  for (let t = 0; t + 2 < triangles.length; t += 3) {
    const [a, b, c] = [triangles[t]!, triangles[t + 1]!, triangles[t + 2]!];
    if (sound(a) && sound(b) && sound(c)) kept.push(a, b, c);
    else whole = false;
  }
  return whole ? mesh : { positions, triangles: Uint32Array.from(kept) };
}

type Ask = (cells: PieceCells, x: number, y: number) => boolean;

/** Cells of the floor by which pieces are found, along its longer side. */
const FINDER = 24;

/** Whether any piece answers yes at a place of the floor: only those are asked that reach there. */
function anyPiece(scene: ScapeScene, ask: Ask): (x: number, y: number) => boolean {
  const { length, width } = scene.tank;
  const side = Math.max(length, width) / FINDER;
  const [columns, rows] = [Math.ceil(length / side), Math.ceil(width / side)];
  const found: PieceCells[][] = Array.from({ length: columns * rows }, () => []);
  const cell = (place: number, most: number): number => clamp(Math.floor(place / side), 0, most - 1);
  for (const piece of scene.pieces) {
    const cells = pieceCells(piece.mesh, scene.ground);
    const { left, right, front, back } = cells.bounds;
    if (!(right >= left)) continue;
    for (let j = cell(front, rows); j <= cell(back, rows); j++)
      for (let i = cell(left, columns); i <= cell(right, columns); i++) found[j * columns + i]!.push(cells);
  }
  return (x, y) => found[cell(y, rows) * columns + cell(x, columns)]!.some((cells) => ask(cells, x, y));
}

/** Whether a stone or wood lies so low at a place that nothing can root there. */
export const blockedBy = (scene: ScapeScene): ((x: number, y: number) => boolean) =>
  anyPiece(scene, (cells, x, y) => cells.blocks(x, y));

/** Whether a stone or wood covers a place, seen from above. */
export const coveredBy = (scene: ScapeScene): ((x: number, y: number) => boolean) =>
  anyPiece(scene, (cells, x, y) => cells.top(x, y) !== undefined);

/** Lamps that have a size and a place. */
export const soundLamps = (scene: ScapeScene): ScapeLamp[] =>
  scene.lamps.filter(
    ({ length, width, x, y, z, turn, tilt }) =>
      Number.isFinite(x + y + z + turn + tilt) && length > 0 && width > 0 && length < 20 && width < 20,
  );

/** An unseen area over a thing, by which it can be taken; `line` takes only its outline. */
export function hitArea(figure: string, label: string, d: string, line = false): DrawingNode[] {
  if (d === "") return [];
  return [
    element("g", { class: "d-hit-group", "aria-label": label }, paths([line ? "d-hit-line" : "d-hit", d]), figure),
  ];
}
