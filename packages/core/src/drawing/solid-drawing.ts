/** A stone or a piece of wood drawn from its mesh: faces by how the light falls, lines of its material, outlines. */
import type { Mesh } from "../solids/index.ts";
import type { Box, Point } from "./geometry.ts";
import { type DrawingNode, paths } from "./node.ts";
import { Pen } from "./pen.ts";
import type { Random } from "./random.ts";
import type { ScapePiece } from "./scape-scene.ts";
import type { View } from "./scape-view.ts";
import { bark } from "./solid-bark.ts";
import { outlinesOf, type SolidFace, type SolidFaces, solidFaces } from "./solid-faces.ts";
import { edgeLines, footGrains, pointsOf, slices, stippled } from "./solid-lines.ts";
import { SolidRaster } from "./solid-raster.ts";

export interface DrawnSolid {
  /** Nothing where the piece is buried. */
  readonly nodes: readonly DrawingNode[];
  /** What is seen of it on the page; its outline as path data, for finding it again. */
  readonly box: Box | undefined;
  readonly outline: string;
  /** Middle of the corners seen: how far it lies from the eye. */
  readonly away: number;
}

/** 1 in full light to 4 in shade. Design values. */
const stoneTone = (lit: number): number => (lit > 0.66 ? 1 : lit > 0.42 ? 2 : lit > 0.18 ? 3 : 4);
const woodTone = (lit: number): number => (lit > 0.74 ? 1 : lit > 0.3 ? 2 : 3);

export function drawSolid(
  piece: Pick<ScapePiece, "kind" | "texture" | "grain">,
  mesh: Mesh,
  view: View,
  ground: (x: number, y: number) => number,
  random: Random,
  compact: boolean,
): DrawnSolid {
  const solid = solidFaces(mesh, view, ground);
  const raster = new SolidRaster(solid, view.keep);
  const whole: SolidFace[] = [];
  const part: SolidFace[] = [];
  solid.faces.forEach((face, f) => {
    const seen = raster.visibility(f);
    if (seen === "whole") whole.push(face);
    else if (seen === "part") part.push(face);
  });
  const faces = [...part, ...whole];
  if (faces.length === 0) return { nodes: [], box: undefined, outline: "", away: 0 };

  const [kind, toneOf] = piece.kind === "wood" ? (["wood", woodTone] as const) : (["stone", stoneTone] as const);
  const keep = view.keep;
  const filled = (list: readonly SolidFace[]): string => {
    const pen = new Pen(keep);
    for (const loop of outlinesOf(list)) pen.polyline(pointsOf(solid, loop), true);
    return pen.d;
  };
  const outline = filled(faces);
  const nodes: DrawingNode[] = paths([`d-solid d-${kind}-base`, outline]);

  // What others partly hide comes first, the furthest before; then the rest, which hide nothing of each other.
  const distance = (face: SolidFace): number =>
    face.corners.reduce((sum, k) => sum + solid.away[k]!, 0) / face.corners.length;
  const queue = part.map((face) => ({ face, away: distance(face) })).sort((a, b) => b.away - a.away);
  for (let i = 0; i < queue.length; ) {
    const tone = toneOf(queue[i]!.face.lit);
    const same: SolidFace[] = [];
    while (i < queue.length && toneOf(queue[i]!.face.lit) === tone) same.push(queue[i++]!.face);
    nodes.push(...paths([`d-${kind}-${tone}`, filled(same)]));
  }
  for (const tone of [1, 2, 3, 4]) {
    const same = whole.filter((face) => toneOf(face.lit) === tone);
    nodes.push(...paths([`d-${kind}-${tone}`, filled(same)]));
  }

  const [strokes, dots] = [new Pen(keep), new Pen(keep)];
  if (piece.kind === "wood") bark(strokes, mesh, solid, view, raster, random, compact);
  else inked(piece, solid, faces, view, raster, strokes, dots, random, compact);
  const lines = edgeLines(solid, faces, raster, piece.kind === "wood" ? -0.2 : 0.87);
  const drawn = (list: readonly (readonly number[])[]): string => {
    const pen = new Pen(keep);
    for (const line of list) pen.polyline(pointsOf(solid, line));
    return pen.d;
  };
  const grains = new Pen(keep);
  for (const line of lines.feet) footGrains(grains, pointsOf(solid, line), random);
  nodes.push(
    ...paths(
      [kind === "wood" ? "d-bark" : "d-bed", strokes.d],
      ["d-stone-dots", dots.d],
      [`d-crease d-${kind}-crease`, drawn(lines.creases)],
      [`d-rim d-${kind}-rim`, drawn(lines.outlines)],
      ["d-foot", drawn(lines.feet)],
      ["d-foot-grain", grains.d],
    ),
  );
  return { nodes, box: boxOf(solid, faces, keep), outline, away: middleAway(solid, faces) };
}

/** Distance of beds on the page, px; closer on dark faces, every other or third one on lit ones. */
const BED_GAP = 2.6;

function inked(
  piece: Pick<ScapePiece, "texture" | "grain">,
  solid: SolidFaces,
  faces: readonly SolidFace[],
  view: View,
  raster: SolidRaster,
  strokes: Pen,
  dots: Pen,
  random: Random,
  compact: boolean,
): void {
  const gap = (BED_GAP * (compact ? 1.5 : 1)) / view.scale;
  // Hatching leans from the lower left to the upper right of the page.
  const [c, s] = [Math.cos(-0.5), Math.sin(-0.5)];
  const lean = view.kind === "plan" ? ([c, s, 0] as const) : ([c, 0, s] as const);
  switch (piece.texture) {
    case "layered":
      slices(
        strokes,
        solid,
        faces,
        raster,
        {
          across: piece.grain,
          gap,
          every: ({ lit }) => [3, 2, 1, 1][stoneTone(lit) - 1]!,
          stroke: 46,
          rest: 9,
        },
        random,
      );
      slices(
        strokes,
        solid,
        faces,
        raster,
        {
          across: lean,
          gap: gap * 1.5,
          // Broken ends and tops, on which no beds show.
          every: ({ lit, normal }) =>
            Math.abs(normal[0] * piece.grain[0] + normal[1] * piece.grain[1] + normal[2] * piece.grain[2]) < 0.8
              ? 0
              : [4, 2, 1, 1][stoneTone(lit) - 1]!,
          stroke: 26,
          rest: 12,
        },
        random,
      );
      break;
    case "faceted":
      slices(
        strokes,
        solid,
        faces,
        raster,
        { across: lean, gap: gap * 1.15, every: ({ lit }) => [0, 4, 2, 1][stoneTone(lit) - 1]!, stroke: 40, rest: 7 },
        random,
      );
      break;
    case "rounded":
      stippled(dots, solid, raster, compact ? 3.6 : 2.7, (lit) => Math.min(0.85, 1.05 * (0.92 - lit)), random);
      break;
    case "irregular":
      slices(
        strokes,
        solid,
        faces,
        raster,
        { across: lean, gap: gap * 1.3, every: ({ lit }) => [0, 0, 2, 1][stoneTone(lit) - 1]!, stroke: 20, rest: 8 },
        random,
      );
      stippled(dots, solid, raster, compact ? 4.6 : 3.6, (lit) => Math.min(0.6, 0.7 * (0.85 - lit)), random);
  }
}

function boxOf(solid: SolidFaces, faces: readonly SolidFace[], keep: Box): Box {
  let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const { corners } of faces) {
    for (const k of corners) {
      left = Math.min(left, solid.px[k]!);
      right = Math.max(right, solid.px[k]!);
      top = Math.min(top, solid.py[k]!);
      bottom = Math.max(bottom, solid.py[k]!);
    }
  }
  const within = ([x, y]: Point): Point => [
    Math.min(Math.max(x, keep.left), keep.right),
    Math.min(Math.max(y, keep.top), keep.bottom),
  ];
  const [a, b] = [within([left, top]), within([right, bottom])];
  return { left: a[0], top: a[1], right: b[0], bottom: b[1] };
}

function middleAway(solid: SolidFaces, faces: readonly SolidFace[]): number {
  let [sum, count] = [0, 0];
  for (const { corners } of faces) {
    for (const k of corners) {
      sum += solid.away[k]!;
      count++;
    }
  }
  return sum / count;
}
