/** A piece as columns seen from above: where nothing can root, and where something can sit on it. */
import { fieldHeight, type HeightField, type Rectangle } from "../geometry/index.ts";
import type { Mesh } from "../solids/index.ts";
import { groundUnderPiece } from "./ground-under.ts";

/** Least side of a column, m, and most columns along a side. Design values. */
const LEAST = 0.005;
const MOST = 80;
/** A piece this close over the ground leaves no room for a plant under it, m. Design value. */
const ROOM = 0.02;

export interface PieceCells {
  /** Round the piece, m. */
  readonly bounds: Rectangle;
  /** Whether the piece lies on or near the ground here, so that nothing can be planted. */
  readonly blocks: (x: number, y: number) => boolean;
  /** Highest place of the piece here, m, or undefined beside it and where it is buried. */
  readonly top: (x: number, y: number) => number | undefined;
  /** Middles of the columns that stand out of the ground, with their tops; m. */
  readonly seats: readonly (readonly [x: number, y: number, z: number])[];
}

const known = new WeakMap<Mesh, { ground: HeightField; cells: PieceCells }>();

export function pieceCells(mesh: Mesh, ground: HeightField): PieceCells {
  const before = known.get(mesh);
  const under = groundUnderPiece(mesh, ground);
  if (before?.ground === under) return before.cells;
  const cells = made(mesh, under);
  known.set(mesh, { ground: under, cells });
  return cells;
}

function made({ positions, triangles }: Mesh, ground: HeightField): PieceCells {
  let [left, right, front, back] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let k = 0; k + 2 < positions.length; k += 3) {
    left = Math.min(left, positions[k]!);
    right = Math.max(right, positions[k]!);
    front = Math.min(front, positions[k + 1]!);
    back = Math.max(back, positions[k + 1]!);
  }
  if (!(Number.isFinite(right - left) && Number.isFinite(back - front)))
    return { bounds: { left, right, front, back }, blocks: () => false, top: () => undefined, seats: [] };
  const side = Math.max(LEAST, (right - left) / MOST, (back - front) / MOST);
  const columns = Math.max(1, Math.ceil((right - left) / side));
  const rows = Math.max(1, Math.ceil((back - front) / side));
  const high = new Float64Array(columns * rows).fill(Number.NEGATIVE_INFINITY);
  const low = new Float64Array(columns * rows).fill(Number.POSITIVE_INFINITY);
  for (let t = 0; t + 2 < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    const [ax, ay, bx, by] = [positions[a]!, positions[a + 1]!, positions[b]!, positions[b + 1]!];
    const [cx, cy] = [positions[c]!, positions[c + 1]!];
    const area = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
    if (!(Math.abs(area) > 1e-12)) continue;
    const i0 = Math.max(0, Math.ceil((Math.min(ax, bx, cx) - left) / side - 0.5));
    const i1 = Math.min(columns - 1, Math.floor((Math.max(ax, bx, cx) - left) / side - 0.5));
    const j0 = Math.max(0, Math.ceil((Math.min(ay, by, cy) - front) / side - 0.5));
    const j1 = Math.min(rows - 1, Math.floor((Math.max(ay, by, cy) - front) / side - 0.5));
    for (let j = j0; j <= j1; j++) {
      for (let i = i0; i <= i1; i++) {
        const [x, y] = [left + (i + 0.5) * side, front + (j + 0.5) * side];
        const v = ((x - ax) * (cy - ay) - (y - ay) * (cx - ax)) / area;
        const w = ((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / area;
        if (v < 0 || w < 0 || v + w > 1) continue;
        const z =
          positions[a + 2]! + (positions[b + 2]! - positions[a + 2]!) * v + (positions[c + 2]! - positions[a + 2]!) * w;
        const at = j * columns + i;
        high[at] = Math.max(high[at]!, z);
        low[at] = Math.min(low[at]!, z);
      }
    }
  }
  const seats: [number, number, number][] = [];
  const blocked = new Uint8Array(columns * rows);
  const bare = new Uint8Array(columns * rows);
  for (let j = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++) {
      const at = j * columns + i;
      const [x, y] = [left + (i + 0.5) * side, front + (j + 0.5) * side];
      const floor = fieldHeight(ground, x, y);
      if (!(high[at]! > floor)) continue;
      seats.push([x, y, high[at]!]);
      bare[at] = 1;
      if (low[at]! < floor + ROOM) blocked[at] = 1;
    }
  }
  const cellAt = (x: number, y: number): number => {
    const [i, j] = [Math.floor((x - left) / side), Math.floor((y - front) / side)];
    return i < 0 || j < 0 || i >= columns || j >= rows ? -1 : j * columns + i;
  };
  return {
    bounds: { left, right, front, back },
    seats,
    blocks: (x, y) => {
      const at = cellAt(x, y);
      return at >= 0 && blocked[at] === 1;
    },
    top: (x, y) => {
      const at = cellAt(x, y);
      return at >= 0 && bare[at] === 1 ? high[at] : undefined;
    },
  };
}
