import { cellCorners, checkField, type HeightField } from "./height-field.ts";
import type { Point2 } from "./polygon.ts";

/** A line of one height; higher ground lies on its left. */
export interface Isoline {
  /** m */
  readonly level: number;
  /** Whether it ends where it began; if not, it ends at panes. */
  readonly closed: boolean;
  /** m; a closed line does not name its first point again. */
  readonly points: readonly Point2[];
}

/**
 * Lines of equal height, by marching squares; level by level in the order given. Saddles are parted as the
 * bilinear cell does (Nielson & Hamann 1991, from memory).
 * @throws RangeError for a bad level.
 */
export function isolines(field: HeightField, levels: readonly number[]): readonly Isoline[] {
  checkField(field);
  return levels.flatMap((level) => {
    if (!Number.isFinite(level)) throw new RangeError(`level ${level} m: it must be a number`);
    return linesAt(field, level);
  });
}

function linesAt(field: HeightField, level: number): readonly Isoline[] {
  const next = segments(field, level);
  const ends = new Set(next.values());
  const lines: Isoline[] = [];
  const follow = (start: number): void => {
    const edges = [start];
    let edge = next.get(start);
    next.delete(start);
    while (edge !== undefined && edge !== start) {
      edges.push(edge);
      const following = next.get(edge);
      next.delete(edge);
      edge = following;
    }
    const closed = edge === start;
    const points = distinct(
      edges.map((e) => crossing(field, level, e)),
      closed,
    );
    if (points.length >= (closed ? 3 : 2)) lines.push({ level, closed, points });
  };
  // Lines that start at a pane first; what is left then runs in rings.
  for (const start of [...next.keys()]) if (!ends.has(start)) follow(start);
  for (const start of [...next.keys()]) if (next.has(start)) follow(start);
  return lines;
}

/**
 * Pieces of the line in each cell, from one edge of the grid to the next. Edges are numbered: twice the node they start
 * at, one more for those that run back.
 */
function segments(field: HeightField, level: number): Map<number, number> {
  const { columns, rows } = field;
  const next = new Map<number, number>();
  for (let j = 0; j < rows - 1; j++) {
    for (let i = 0; i < columns - 1; i++) {
      const corners = cellCorners(field, i, j);
      const around = [corners.frontLeft, corners.frontRight, corners.backRight, corners.backLeft];
      const high = around.map((h) => h >= level);
      const at = 2 * (j * columns + i);
      const edges = [at, at + 3, at + 2 * columns, at + 1];
      const starts: number[] = [];
      const stops: number[] = [];
      // Going round counter-clockwise, a line comes in where the ground falls below the level and leaves where it rises.
      for (let k = 0; k < 4; k++) {
        if (high[k] && !high[(k + 1) % 4]) starts.push(k);
        if (!high[k] && high[(k + 1) % 4]) stops.push(k);
      }
      for (const k of starts) {
        const stop = stops.length === 1 || joinsHigh(around, level) ? firstAfter(k, stops) : firstBefore(k, stops);
        next.set(edges[k]!, edges[stop]!);
      }
    }
  }
  return next;
}

/** Whether the high corners of a saddle are joined: its middle height is that where both diagonals' products agree. */
function joinsHigh(around: readonly number[], level: number): boolean {
  const [a, b, c, d] = around.map((h) => h - level) as [number, number, number, number];
  return a * c - b * d > 0 === a + c > b + d;
}

function firstAfter(edge: number, stops: readonly number[]): number {
  return stops.find((s) => s === (edge + 1) % 4) ?? stops[0]!;
}

function firstBefore(edge: number, stops: readonly number[]): number {
  return stops.find((s) => s === (edge + 3) % 4) ?? stops[0]!;
}

function crossing(field: HeightField, level: number, edge: number): Point2 {
  const { columns, rows, length, width, heights } = field;
  const node = edge >> 1;
  const back = edge & 1;
  const from = heights[node]!;
  const to = heights[node + (back ? columns : 1)]!;
  const share = (level - from) / (to - from);
  const i = (node % columns) + (back ? 0 : share);
  const j = Math.floor(node / columns) + (back ? share : 0);
  return [(length * i) / (columns - 1), (width * j) / (rows - 1)];
}

/** Without points that repeat the one before, as where a level meets a node. */
function distinct(points: readonly Point2[], closed: boolean): readonly Point2[] {
  return points.filter(([x, y], k) => {
    const before = points[k - 1] ?? (closed ? points.at(-1) : undefined);
    return !before || Math.abs(before[0] - x) + Math.abs(before[1] - y) > 1e-12;
  });
}
