/** Lines of equal value with their figure on the line: the line is broken where the figure stands. */
import { type Box, overlap, type Point } from "./geometry.ts";
import { turnedBox } from "./lettering.ts";
import { Pen } from "./pen.ts";
import { textWidth } from "./text.ts";

export interface ValueLine {
  /** px */
  readonly points: readonly Point[];
  readonly closed: boolean;
  readonly figure: string;
}

export interface FiguredLines {
  readonly d: string;
  readonly figures: readonly {
    readonly x: number;
    readonly y: number;
    readonly angle: number;
    readonly text: string;
  }[];
  readonly boxes: readonly Box[];
}

/** Shorter lines are specks, and lines this short have no figure; px. Design values. */
const SPECK = 14;
const SHORT = 44;
/** One more figure for each such length, px. */
const AGAIN = 620;

export function figuredLines(
  lines: readonly ValueLine[],
  size: number,
  within: Box,
  taken: readonly Box[],
  hidden: (x: number, y: number) => boolean,
): FiguredLines {
  const pen = new Pen(within);
  const boxes: Box[] = [];
  const figures: { x: number; y: number; angle: number; text: string }[] = [];
  for (const line of lines) {
    const { figure } = line;
    const even = evens.get(line) ?? evenly(line);
    evens.set(line, even);
    const length = (even.length - 1) * STEP;
    if (length < SPECK) continue;
    const gap = textWidth(figure, size) + 6;
    const wanted = length < Math.max(SHORT, gap * 2) ? 0 : 1 + Math.floor(length / AGAIN);
    const half = Math.ceil(gap / 2 / STEP);
    const cuts: number[] = [];
    for (let n = 0; n < wanted; n++) {
      let best: { at: number; cost: number; angle: number; box: Box } | undefined;
      for (let at = half + 1; at < even.length - half - 1; at += 2) {
        if (cuts.some((c) => Math.abs(c - at) < (even.length / (wanted + 1)) * 0.7)) continue;
        const [a, b, p] = [even[at - half]!, even[at + half]!, even[at]!];
        const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
        const chord = Math.hypot(dx, dy) / (2 * half * STEP);
        if (chord < 0.86) continue;
        let angle = (Math.atan2(dy, dx) * 180) / Math.PI;
        if (angle > 90) angle -= 180;
        if (angle < -90) angle += 180;
        const [x, y] = [(a[0] + b[0]) / 4 + p[0] / 2, (a[1] + b[1]) / 4 + p[1] / 2];
        const box = turnedBox(x, y, angle, gap, size);
        if (box.left < within.left + 1 || box.right > within.right - 1) continue;
        if (box.top < within.top + 1 || box.bottom > within.bottom - 1) continue;
        if (taken.some((t) => overlap(t, box)) || boxes.some((t) => overlap(t, box))) continue;
        if (hidden(x, y) || hidden(a[0], a[1]) || hidden(b[0], b[1])) continue;
        const cost = Math.abs(angle) / 45 + (1 - chord) * 12 + Math.abs(at / even.length - 0.5) * 0.8;
        if (!best || cost < best.cost) best = { at, cost, angle, box };
      }
      if (!best) break;
      cuts.push(best.at);
      boxes.push(best.box);
      figures.push({
        x: (best.box.left + best.box.right) / 2,
        y: (best.box.top + best.box.bottom) / 2,
        angle: best.angle,
        text: figure,
      });
    }
    for (const run of without(even, cuts, half)) pen.curve(run);
  }
  return { d: pen.d, figures, boxes };
}

/** Places on a line this far apart, px. */
const STEP = 3;

/** Lines that were parted before: those of ground and light stay while pieces are moved. */
const evens = new WeakMap<ValueLine, Point[]>();

function evenly({ points, closed }: ValueLine): Point[] {
  const ring = closed && points[0] ? [...points, points[0]] : points;
  const out: Point[] = ring[0] ? [ring[0]] : [];
  let left = STEP;
  for (let i = 0; i + 1 < ring.length; i++) {
    const [a, b] = [ring[i]!, ring[i + 1]!];
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    let at = left;
    for (; at <= length; at += STEP)
      out.push([a[0] + ((b[0] - a[0]) * at) / length, a[1] + ((b[1] - a[1]) * at) / length]);
    left = at - length;
  }
  return out;
}

/** The line without its broken places, thinned to every third point. */
function without(points: readonly Point[], cuts: readonly number[], half: number): Point[][] {
  const out: Point[][] = [];
  let from = 0;
  for (const at of [...cuts].sort((a, b) => a - b)) {
    out.push(points.slice(from, at - half + 1));
    from = at + half;
  }
  out.push(points.slice(from));
  return out.filter((run) => run.length > 1).map((run) => run.filter((_, i) => i % 3 === 0 || i === run.length - 1));
}
