import type { HeightField } from "../geometry/index.ts";
import { createPiece, keepBelow, type Piece, prism, setTriangle } from "./cut.ts";
import { type Ground, groundOf, lineBefore } from "./ground.ts";
import { meshVolume } from "./measure.ts";
import type { Mesh } from "./mesh.ts";

/**
 * Volume of a closed mesh below a level, m³; exact. The flow of (0, 0, z - level) through its surface below the level: on
 * the level itself that is nothing, so the cut needs no lid.
 */
export function volumeBelowLevel({ positions, triangles }: Mesh, level: number): number {
  const piece = createPiece();
  const cut = createPiece();
  let volume = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    const low = Math.min(positions[a + 2]!, positions[b + 2]!, positions[c + 2]!);
    if (low >= level) continue;
    setTriangle(piece, positions, a, b, c);
    keepBelow(piece, 0, 0, 1, level, cut);
    volume += prism(cut, 0, 0, level);
  }
  return volume;
}

/**
 * Volume of a closed mesh below the ground, m³: what lies buried. With a `cap` it is the part that also lies below that
 * level. The ground counts beyond the panes too, as high as at them. Exact for a ground without twisted cells; elsewhere
 * the ground is met within micrometres.
 */
export function volumeBelowField(mesh: Mesh, field: HeightField, cap = Number.POSITIVE_INFINITY): number {
  const ground = groundOf(field);
  const most = Math.min(cap, Math.max(...field.heights));
  const { positions, triangles } = mesh;
  const walk = createWalk(ground, cap);
  let volume = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    const low = Math.min(positions[a + 2]!, positions[b + 2]!, positions[c + 2]!);
    // What lies above the ground has no part in it: the flow is that of (0, 0, z - ground), and nothing above.
    if (low >= most) continue;
    volume += walk(positions, a, b, c);
  }
  return volume;
}

/** Integral of z - min(ground, cap) under the part of a triangle that lies below both, cell by cell. */
function createWalk({ xs, ys, heights }: Ground, cap: number) {
  const [whole, row, cell, half, quarter, dry, under] = Array.from({ length: 7 }, createPiece) as [
    Piece,
    Piece,
    Piece,
    Piece,
    Piece,
    Piece,
    Piece,
  ];
  const columns = xs.length;

  /** The part within one plane triangle of the ground: z = p x + q y + s. */
  function within(piece: Piece, p: number, q: number, s: number): number {
    if (piece.count < 3) return 0;
    keepBelow(piece, p, q, 0, cap - s, dry);
    keepBelow(dry, -p, -q, 1, s, under);
    let volume = prism(under, p, q, s);
    if (reaches(piece, p, q, cap - s)) {
      keepBelow(piece, -p, -q, 0, s - cap, dry);
      keepBelow(dry, 0, 0, 1, cap, under);
      volume += prism(under, 0, 0, cap);
    }
    return volume;
  }

  /** Whether a plane rises above the cap anywhere over a piece. */
  function reaches({ corners, count }: Piece, p: number, q: number, s: number): boolean {
    for (let k = 0; k < 3 * count; k += 3) if (p * corners[k]! + q * corners[k + 1]! - s > 0) return true;
    return false;
  }

  function inCell(i: number, j: number): number {
    const [left, right, front, back] = [xs[i]!, xs[i + 1]!, ys[j]!, ys[j + 1]!];
    const at = j * columns + i;
    const [fl, fr, bl, br] = [heights[at]!, heights[at + 1]!, heights[at + columns]!, heights[at + columns + 1]!];
    const [w, d] = [right - left, back - front];
    const middle = (fl + fr + bl + br) / 4;
    // Rising and falling diagonal: d (x - left) - w (y - front) = 0 and d (x - left) + w (y - front) = w d.
    const rising = d * left - w * front;
    const falling = d * left + w * front + w * d;
    let volume = 0;
    for (const lower of [false, true]) {
      if (lower) keepBelow(cell, -d, w, 0, -rising, half);
      else keepBelow(cell, d, -w, 0, rising, half);
      for (const far of [false, true]) {
        if (far) keepBelow(half, -d, -w, 0, -falling, quarter);
        else keepBelow(half, d, w, 0, falling, quarter);
        // Below the rising diagonal lie the front and the right triangle, above it the left and the back one.
        let p: number;
        let q: number;
        if (lower !== far) {
          p = lower ? (fr - fl) / w : (br - bl) / w;
          q = lower ? (2 * (middle - (fl + fr) / 2)) / d : (2 * ((bl + br) / 2 - middle)) / d;
        } else {
          p = lower ? (2 * ((fr + br) / 2 - middle)) / w : (2 * (middle - (fl + bl) / 2)) / w;
          q = lower ? (br - fr) / d : (bl - fl) / d;
        }
        volume += within(quarter, p, q, middle - p * (left + w / 2) - q * (front + d / 2));
      }
    }
    return volume;
  }

  return (positions: Float64Array, a: number, b: number, c: number): number => {
    setTriangle(whole, positions, a, b, c);
    const [ax, bx, cx] = [positions[a]!, positions[b]!, positions[c]!];
    const [ay, by, cy] = [positions[a + 1]!, positions[b + 1]!, positions[c + 1]!];
    const firstRow = lineBefore(ys, Math.min(ay, by, cy));
    const lastRow = lineBefore(ys, Math.max(ay, by, cy));
    const first = lineBefore(xs, Math.min(ax, bx, cx));
    const last = lineBefore(xs, Math.max(ax, bx, cx));
    let volume = 0;
    for (let j = firstRow; j <= lastRow; j++) {
      keepBelow(whole, 0, -1, 0, -ys[j]!, cell);
      keepBelow(cell, 0, 1, 0, ys[j + 1]!, row);
      for (let i = first; i <= last; i++) {
        keepBelow(row, -1, 0, 0, -xs[i]!, half);
        keepBelow(half, 1, 0, 0, xs[i + 1]!, cell);
        if (cell.count >= 3) volume += inCell(i, j);
      }
    }
    return volume;
  };
}

/** A closed mesh parted by the ground and the water line, m³. */
export interface SolidParts {
  readonly volume: number;
  /** Under the ground, whether or not the ground stands above the water. */
  readonly buried: number;
  /** Above the ground and below the water line: the open water it displaces. */
  readonly inWater: number;
  /** Above both. */
  readonly inAir: number;
}

/** Parts a piece by the ground and the water line, m above the floor. */
export function partSolid(mesh: Mesh, ground: HeightField, waterLine: number): SolidParts {
  if (!Number.isFinite(waterLine)) throw new RangeError(`water line ${waterLine} m: it must be a number`);
  const volume = meshVolume(mesh);
  const buried = volumeBelowField(mesh, ground);
  const inWater = volumeBelowLevel(mesh, waterLine) - volumeBelowField(mesh, ground, waterLine);
  return { volume, buried, inWater, inAir: volume - buried - inWater };
}
