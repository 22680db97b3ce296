/** Lines on a piece: its outlines and folds, broken edges, bedding, hatching, stipple. */
import type { Point } from "./geometry.ts";
import type { Pen } from "./pen.ts";
import { between, type Random } from "./random.ts";
import type { SolidFace, SolidFaces } from "./solid-faces.ts";
import type { SolidRaster } from "./solid-raster.ts";

/** Lines are drawn on faces this close behind what the buffer holds, m: its cells are coarse at steep faces. */
const ON_FACE = 0.004;

/** A run of points without the closest ones, so that a line of many short pieces stays short on the page. */
export function thinned(points: readonly Point[], least: number): Point[] {
  const out: Point[] = [];
  points.forEach((p, i) => {
    const last = out.at(-1);
    if (!last || i === points.length - 1 || Math.hypot(p[0] - last[0], p[1] - last[1]) >= least) out.push(p);
  });
  return out;
}

/** Joins directed pieces of a line end to end; each piece runs from one key to another. */
function joined(pieces: readonly (readonly [from: number, to: number])[]): number[][] {
  const next = new Map<number, number[]>();
  const ends = new Set<number>();
  for (const [from, to] of pieces) {
    const list = next.get(from);
    if (list) list.push(to);
    else next.set(from, [to]);
    ends.add(to);
  }
  const lines: number[][] = [];
  const follow = (start: number): void => {
    const line = [start];
    for (let at = next.get(start)?.pop(); at !== undefined; at = next.get(at)?.pop()) line.push(at);
    if (line.length > 1) lines.push(line);
  };
  for (const start of next.keys()) if (!ends.has(start)) follow(start);
  for (const [start, list] of next) while (list.length > 0) follow(start);
  return lines;
}

/** Edges of the faces seen: outlines; creases between two faces and folds before others; feet, where ground begins. */
export function edgeLines(
  solid: SolidFaces,
  faces: readonly SolidFace[],
  raster: SolidRaster,
  sharp: number,
): { readonly outlines: number[][]; readonly creases: number[][]; readonly feet: number[][] } {
  const { px, py, away, places, firstCut } = solid;
  const count = places.length;
  const seen = (a: number, b: number): boolean => {
    let shown = 0;
    for (const t of [0.2, 0.5, 0.8]) {
      const [x, y, z] = [
        px[a]! + (px[b]! - px[a]!) * t,
        py[a]! + (py[b]! - py[a]!) * t,
        away[a]! + (away[b]! - away[a]!) * t,
      ];
      if (raster.sees(x, y, z, ON_FACE)) shown++;
    }
    return shown > 1;
  };
  const open = new Map<number, { from: number; to: number; face: SolidFace }>();
  const creases: (readonly [number, number])[] = [];
  for (const face of faces) {
    const { corners } = face;
    for (let k = 0; k < corners.length; k++) {
      const [a, b] = [corners[k]!, corners[(k + 1) % corners.length]!];
      const key = Math.min(a, b) * count + Math.max(a, b);
      const other = open.get(key);
      if (!other) {
        open.set(key, { from: a, to: b, face });
        continue;
      }
      open.delete(key);
      const [n, m] = [face.normal, other.face.normal];
      if (n[0] * m[0] + n[1] * m[1] + n[2] * m[2] < sharp && seen(a, b)) creases.push([a, b]);
    }
  }
  const borders: (readonly [number, number])[] = [];
  const feet: (readonly [number, number])[] = [];
  for (const { from, to } of open.values()) {
    if (!seen(from, to)) continue;
    if (from >= firstCut && to >= firstCut) {
      feet.push([from, to]);
      continue;
    }
    // With the piece itself on both sides it is a fold before another part of it.
    const [dx, dy] = [px[to]! - px[from]!, py[to]! - py[from]!];
    const length = Math.hypot(dx, dy) || 1;
    const [x, y] = [(px[from]! + px[to]!) / 2, (py[from]! + py[to]!) / 2];
    const out = 2 * raster.cell;
    const both = [1, -1].every((s) => raster.faceAt(x + (s * dy * out) / length, y - (s * dx * out) / length) >= 0);
    (both ? creases : borders).push([from, to]);
  }
  return { outlines: joined(borders), creases: joined(creases), feet: joined(feet) };
}

export const pointsOf = ({ px, py }: SolidFaces, line: readonly number[]): Point[] =>
  line.map((k): Point => [px[k]!, py[k]!]);

export interface SliceRules {
  /** Square to the planes that cut the piece, in the tank's coordinates. */
  readonly across: readonly [x: number, y: number, z: number];
  /** Distance of the planes, m. */
  readonly gap: number;
  /** Which of the planes show on a face: every one (1), every second (2) …; 0 for none. */
  readonly every: (face: SolidFace) => number;
  /** Longest stroke and longest gap in it, px. */
  readonly stroke: number;
  readonly rest: number;
}

/** Strokes where parallel planes cut the faces: the beds of a layered stone, or hatching. */
export function slices(
  pen: Pen,
  solid: SolidFaces,
  faces: readonly SolidFace[],
  raster: SolidRaster,
  rules: SliceRules,
  random: Random,
): void {
  const { px, py, away, places } = solid;
  const [ax, ay, az] = rules.across;
  const count = places.length;
  const levels = new Map<number, { pieces: [number, number][]; points: Map<number, Point> }>();
  for (const face of faces) {
    const every = rules.every(face);
    if (every === 0) continue;
    const { corners } = face;
    const heights = corners.map((k) => {
      const [x, y, z] = places[k]!;
      return (x * ax + y * ay + z * az) / rules.gap;
    });
    const [low, high] = [Math.min(...heights), Math.max(...heights)];
    // A face that lies along the planes has no lines of its own; one that is far across would have too many.
    if (high - low > 400) continue;
    for (let level = Math.ceil(low); level < high; level++) {
      if (level % every !== 0) continue;
      const crossed: { key: number; at: Point; away: number; rising: boolean }[] = [];
      for (let k = 0; k < corners.length; k++) {
        const n = (k + 1) % corners.length;
        const [ha, hb] = [heights[k]!, heights[n]!];
        if (ha < level === hb < level) continue;
        const [a, b] = [corners[k]!, corners[n]!];
        const t = (level - ha) / (hb - ha);
        crossed.push({
          key: Math.min(a, b) * count + Math.max(a, b),
          at: [px[a]! + (px[b]! - px[a]!) * t, py[a]! + (py[b]! - py[a]!) * t],
          away: away[a]! + (away[b]! - away[a]!) * t,
          rising: hb > ha,
        });
      }
      if (crossed.length !== 2) continue;
      const [p, q] = crossed[0]!.rising ? [crossed[0]!, crossed[1]!] : [crossed[1]!, crossed[0]!];
      const [mx, my, mz] = [(p.at[0] + q.at[0]) / 2, (p.at[1] + q.at[1]) / 2, (p.away + q.away) / 2];
      if (!raster.sees(mx, my, mz, ON_FACE)) continue;
      let line = levels.get(level);
      if (!line) {
        line = { pieces: [], points: new Map() };
        levels.set(level, line);
      }
      line.pieces.push([p.key, q.key]);
      line.points.set(p.key, p.at).set(q.key, q.at);
    }
  }
  for (const { pieces, points } of levels.values()) {
    for (const line of joined(pieces))
      dashed(
        pen,
        line.map((k) => points.get(k)!),
        rules.stroke,
        rules.rest,
        random,
      );
  }
}

/** A line drawn as by hand: strokes of uneven length with short rests. */
function dashed(pen: Pen, points: readonly Point[], stroke: number, rest: number, random: Random): void {
  let drawing = random() < 0.8;
  let left = between(random, 0.3, 1) * (drawing ? stroke : rest);
  let run: Point[] = drawing ? [points[0]!] : [];
  const flush = (): void => {
    const first = run[0];
    const last = run.at(-1);
    if (first && last && Math.hypot(last[0] - first[0], last[1] - first[1]) > 1.6) pen.polyline(thinned(run, 2.4));
    run = [];
  };
  for (let i = 0; i + 1 < points.length; i++) {
    const [a, b] = [points[i]!, points[i + 1]!];
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    let at = 0;
    while (length - at > left) {
      at += left;
      const p: Point = [a[0] + ((b[0] - a[0]) * at) / length, a[1] + ((b[1] - a[1]) * at) / length];
      if (drawing) {
        run.push(p);
        flush();
      } else run = [p];
      drawing = !drawing;
      left = between(random, 0.35, 1) * (drawing ? stroke : rest);
    }
    left -= length - at;
    if (drawing) run.push(b);
  }
  flush();
}

/** Grains of the ground that lie against a piece's foot. */
export function footGrains(pen: Pen, line: readonly Point[], random: Random): void {
  for (let i = 0; i + 1 < line.length; i++) {
    const [a, b] = [line[i]!, line[i + 1]!];
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    for (let at = between(random, 0, 2.4); at < length; at += between(random, 1.4, 3.6)) {
      const t = at / length;
      pen.dot(
        a[0] + (b[0] - a[0]) * t + between(random, -1.2, 1.2),
        a[1] + (b[1] - a[1]) * t + between(random, -1.8, 1.2),
      );
    }
  }
}

/** Dots, the denser the darker the face. */
export function stippled(
  pen: Pen,
  solid: SolidFaces,
  raster: SolidRaster,
  pitch: number,
  chance: (lit: number) => number,
  random: Random,
): void {
  const [wide, high] = [raster.columns * raster.cell, raster.rows * raster.cell];
  const step = Math.max(pitch, Math.sqrt((wide * high) / 9000));
  for (let y = step / 2; y < high; y += step) {
    for (let x = step / 2; x < wide; x += step) {
      const at: Point = [
        raster.left + x + between(random, -0.5, 0.5) * step,
        raster.top + y + between(random, -0.5, 0.5) * step,
      ];
      const f = raster.faceAt(at[0], at[1]);
      if (f >= 0 && random() < chance(solid.faces[f]!.lit)) pen.dot(at[0], at[1]);
    }
  }
}
