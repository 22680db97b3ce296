import { checkField, type HeightField } from "../geometry/index.ts";
import { overlapVolume } from "./columns.ts";
import { createPiece, keepBelow, type Piece, setTriangle } from "./cut.ts";
import { lineBefore, linesOf } from "./ground.ts";
import { meshBounds } from "./measure.ts";
import type { Mesh } from "./mesh.ts";
import type { Point3 } from "./vector.ts";

/** Where a piece comes to rest. */
export interface Resting {
  /** Added to its heights so that it just touches, m. */
  readonly shift: number;
  /** What it touches first: the ground, or the position of a piece among the others. */
  readonly on: "ground" | number;
  /** Where it touches, m, after the shift. */
  readonly at: Point3;
}

/**
 * The shift at which a piece dropped straight down, from above everything, first touches the ground or another piece. It
 * does not turn or sink in. Exact for the triangles and for the bilinear ground.
 */
export function restingHeight(mesh: Mesh, ground: HeightField, others: readonly Mesh[] = []): Resting {
  checkField(ground);
  const best: Best = { rise: Number.NEGATIVE_INFINITY, on: "ground", x: 0, y: 0, z: 0 };
  overGround(mesh, ground, (rise, x, y, z) => keep(best, "ground", rise, x, y, z));
  others.forEach((other, k) => {
    overMesh(
      mesh,
      other,
      () => best.rise,
      (rise, x, y, z) => keep(best, k, rise, x, y, z),
    );
  });
  return { shift: best.rise, on: best.on, at: [best.x, best.y, best.z + best.rise] };
}

interface Best {
  rise: number;
  on: "ground" | number;
  x: number;
  y: number;
  z: number;
}

function keep(best: Best, on: "ground" | number, rise: number, x: number, y: number, z: number): void {
  if (rise > best.rise) Object.assign(best, { rise, on, x, y, z });
}

/** Told how far the support rises above the piece at a place, and the height of the piece there. */
type Found = (rise: number, x: number, y: number, z: number) => void;

/** Places where the ground may rise furthest above the lower faces of a piece. */
function overGround({ positions, triangles }: Mesh, ground: HeightField, found: Found): void {
  const { xs, ys, heights } = linesOf(ground);
  const [whole, strip, cell, spare] = [createPiece(), createPiece(), createPiece(), createPiece()];
  const columns = xs.length;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    if (!(facing(positions, a, b, c) < 0)) continue;
    setTriangle(whole, positions, a, b, c);
    const [front, back] = range(positions, a, b, c, 1);
    const [left, right] = range(positions, a, b, c, 0);
    for (let j = lineBefore(ys, front); j <= lineBefore(ys, back); j++) {
      between(whole, 1, ys[j]!, ys[j + 1]!, spare, strip);
      for (let i = lineBefore(xs, left); i <= lineBefore(xs, right); i++) {
        between(strip, 0, xs[i]!, xs[i + 1]!, spare, cell);
        const at = j * columns + i;
        const fl = heights[at]!;
        const alongX = (heights[at + 1]! - fl) / (xs[i + 1]! - xs[i]!);
        const [bl, br] = [heights[at + columns]!, heights[at + columns + 1]!];
        const alongY = (bl - fl) / (ys[j + 1]! - ys[j]!);
        const twist = ((br - bl) / (xs[i + 1]! - xs[i]!) - alongX) / (ys[j + 1]! - ys[j]!);
        const height = (x: number, y: number): number =>
          fl + alongX * (x - xs[i]!) + (alongY + twist * (x - xs[i]!)) * (y - ys[j]!);
        alongEdges(cell, height, found);
      }
    }
  }
}

/** A bilinear surface less a plane is highest on the border of any figure, and runs as a parabola along each side. */
function alongEdges({ corners, count }: Piece, height: (x: number, y: number) => number, found: Found): void {
  for (let k = 0; k < count; k++) {
    const from = 3 * k;
    const to = 3 * ((k + 1) % count);
    const [ax, ay, az] = [corners[from]!, corners[from + 1]!, corners[from + 2]!];
    const [bx, by, bz] = [corners[to]!, corners[to + 1]!, corners[to + 2]!];
    const start = height(ax, ay) - az;
    const half = height((ax + bx) / 2, (ay + by) / 2) - (az + bz) / 2;
    const end = height(bx, by) - bz;
    found(start, ax, ay, az);
    const bend = 2 * (start - 2 * half + end);
    const share = bend < 0 ? (3 * start - 4 * half + end) / (2 * bend) : 0;
    if (!(share > 0 && share < 1)) continue;
    const [x, y, z] = [ax + (bx - ax) * share, ay + (by - ay) * share, az + (bz - az) * share];
    found(height(x, y) - z, x, y, z);
  }
}

/** Places where the upper faces of one mesh may rise furthest above the lower faces of another; `least` lets pairs go. */
function overMesh(mesh: Mesh, below: Mesh, least: () => number, found: Found): void {
  const index = upperFaces(below);
  const { positions, triangles } = mesh;
  const [whole, one, two] = [createPiece(), createPiece(), createPiece()];
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    if (!(facing(positions, a, b, c) < 0)) continue;
    const low = Math.min(positions[a + 2]!, positions[b + 2]!, positions[c + 2]!);
    setTriangle(whole, positions, a, b, c);
    index.visit(range(positions, a, b, c, 0), range(positions, a, b, c, 1), (face) => {
      const p = below.positions;
      const [ka, kb, kc] = [3 * below.triangles[face]!, 3 * below.triangles[face + 1]!, 3 * below.triangles[face + 2]!];
      if (Math.max(p[ka + 2]!, p[kb + 2]!, p[kc + 2]!) - low <= least()) return;
      inside(whole, p, ka, kb, one);
      inside(one, p, kb, kc, two);
      inside(two, p, kc, ka, one);
      if (one.count === 0) return;
      const twice = facing(p, ka, kb, kc);
      for (let k = 0; k < one.count; k++) {
        const [x, y, z] = [one.corners[3 * k]!, one.corners[3 * k + 1]!, one.corners[3 * k + 2]!];
        const overB = (x - p[ka]!) * (p[kc + 1]! - p[ka + 1]!) - (p[kc]! - p[ka]!) * (y - p[ka + 1]!);
        const overC = (p[kb]! - p[ka]!) * (y - p[ka + 1]!) - (x - p[ka]!) * (p[kb + 1]! - p[ka + 1]!);
        const top = p[ka + 2]! + (overB * (p[kb + 2]! - p[ka + 2]!) + overC * (p[kc + 2]! - p[ka + 2]!)) / twice;
        found(top - z, x, y, z);
      }
    });
  }
}

/** The part of a piece to the left of an edge seen from above. */
function inside(piece: Piece, p: Float64Array, from: number, to: number, into: Piece): void {
  const dx = p[to]! - p[from]!;
  const dy = p[to + 1]! - p[from + 1]!;
  keepBelow(piece, dy, -dx, 0, dy * p[from]! - dx * p[from + 1]!, into);
}

function between(piece: Piece, axis: 0 | 1, low: number, high: number, spare: Piece, into: Piece): void {
  keepBelow(piece, axis === 0 ? -1 : 0, axis === 1 ? -1 : 0, 0, -low, spare);
  keepBelow(spare, axis === 0 ? 1 : 0, axis === 1 ? 1 : 0, 0, high, into);
}

/** Twice the area of a triangle seen from above; below 0 when it faces down. */
function facing(positions: Float64Array, a: number, b: number, c: number): number {
  const [x, y] = [positions[a]!, positions[a + 1]!];
  return (positions[b]! - x) * (positions[c + 1]! - y) - (positions[c]! - x) * (positions[b + 1]! - y);
}

type Range = readonly [low: number, high: number];

function range(positions: Float64Array, a: number, b: number, c: number, axis: 0 | 1): Range {
  const [u, v, w] = [positions[a + axis]!, positions[b + axis]!, positions[c + axis]!];
  return [Math.min(u, v, w), Math.max(u, v, w)];
}

/** The upper faces of a mesh sorted into squares of the floor. */
function upperFaces(mesh: Mesh) {
  const { positions, triangles } = mesh;
  const { min, max } = meshBounds(mesh);
  const side = Math.min(256, Math.max(1, Math.ceil(Math.sqrt(triangles.length / 12))));
  const cells: number[][] = Array.from({ length: side * side }, () => []);
  const span = (axis: 0 | 1, [low, high]: Range): Range => {
    const step = (max[axis] - min[axis]) / side || 1;
    const place = (value: number): number => Math.min(side - 1, Math.max(0, Math.floor((value - min[axis]) / step)));
    return [place(low), place(high)];
  };
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    if (!(facing(positions, a, b, c) > 0)) continue;
    const [left, right] = span(0, range(positions, a, b, c, 0));
    const [front, back] = span(1, range(positions, a, b, c, 1));
    for (let j = front; j <= back; j++) for (let i = left; i <= right; i++) cells[j * side + i]!.push(t);
  }
  const seen = new Int32Array(triangles.length / 3).fill(-1);
  let turn = 0;
  return {
    /** Each upper face once whose squares a rectangle meets. */
    visit(x: Range, y: Range, with_: (face: number) => void): void {
      if (x[1] < min[0] || x[0] > max[0] || y[1] < min[1] || y[0] > max[1]) return;
      turn += 1;
      const [left, right] = span(0, x);
      const [front, back] = span(1, y);
      for (let j = front; j <= back; j++) {
        for (let i = left; i <= right; i++) {
          for (const face of cells[j * side + i]!) {
            if (seen[face / 3] === turn) continue;
            seen[face / 3] = turn;
            with_(face);
          }
        }
      }
    },
  };
}

/** Pieces that cut into each other by less than this touch, m. Design value: far above rounding, far below a grain. */
const touching = 1e-6;

/**
 * How far a piece hangs free above what is straight under it, m: 0 when it touches or cuts into the ground or another
 * piece anywhere. Exact as `restingHeight`; whether it cuts into another piece comes from columns.
 */
export function floatingGap(mesh: Mesh, ground: HeightField, others: readonly Mesh[] = []): number {
  checkField(ground);
  let gap = Number.POSITIVE_INFINITY;
  let cuts = false;
  const found: Found = (rise) => {
    if (rise <= touching) gap = Math.min(gap, Math.max(0, -rise));
    else cuts = true;
  };
  overGround(mesh, ground, found);
  if (cuts || others.some((other) => overlapVolume(mesh, other) > 0)) return 0;
  for (const other of others) overMesh(mesh, other, () => Number.NEGATIVE_INFINITY, found);
  return gap;
}

/** How far a piece reaches beyond the inside of a tank, m; 0 where it stays within. */
export interface BeyondBox {
  readonly left: number;
  readonly right: number;
  readonly front: number;
  readonly back: number;
  readonly floor: number;
  readonly top: number;
}

/** How far a piece cuts through the panes or stands out at the top; sizes of the inside, m. */
export function beyondBox(
  mesh: Mesh,
  box: { readonly length: number; readonly width: number; readonly height: number },
): BeyondBox {
  const { min, max } = meshBounds(mesh);
  return {
    left: Math.max(0, -min[0]),
    right: Math.max(0, max[0] - box.length),
    front: Math.max(0, -min[1]),
    back: Math.max(0, max[1] - box.width),
    floor: Math.max(0, -min[2]),
    top: Math.max(0, max[2] - box.height),
  };
}
