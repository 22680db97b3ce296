import { checkGrid, type FieldGrid } from "./height-field.ts";
import { type Point2, pointToSegment } from "./polygon.ts";

/**
 * Marks the cells of a grid that a line touches or comes within `distance` m of: steps held by an edging are not slopes
 * of loose grains. Row by row from the front, `(columns - 1) * (rows - 1)` marks of 0 or 1.
 * @throws RangeError for a bad grid, a negative distance or a place that is not finite.
 */
export function cellsNearLines(grid: FieldGrid, lines: readonly (readonly Point2[])[], distance = 0): Uint8Array {
  checkGrid(grid);
  if (!(distance >= 0 && Number.isFinite(distance)))
    throw new RangeError(`distance ${distance} m: it must be 0 or more`);
  const cells = new Uint8Array((grid.columns - 1) * (grid.rows - 1));
  for (const line of lines) {
    for (const [x, y] of line) {
      if (!(Number.isFinite(x) && Number.isFinite(y))) throw new RangeError(`place ${x}, ${y}: both must be numbers`);
    }
    line.forEach((to, k) => {
      markNear(grid, line[Math.max(k - 1, 0)]!, to, distance, cells);
    });
  }
  return cells;
}

function markNear(grid: FieldGrid, from: Point2, to: Point2, distance: number, cells: Uint8Array): void {
  const across = grid.columns - 1;
  const dx = grid.length / across;
  const dy = grid.width / (grid.rows - 1);
  const first = (a: number, b: number, step: number): number =>
    Math.max(0, Math.floor((Math.min(a, b) - distance) / step) - 1);
  const last = (a: number, b: number, step: number, count: number): number =>
    Math.min(count - 1, Math.floor((Math.max(a, b) + distance) / step) + 1);
  for (let j = first(from[1], to[1], dy); j <= last(from[1], to[1], dy, grid.rows - 1); j++) {
    for (let i = first(from[0], to[0], dx); i <= last(from[0], to[0], dx, across); i++) {
      const box = { left: i * dx, front: j * dy, right: (i + 1) * dx, back: (j + 1) * dy };
      if (segmentToBox(from, to, box) <= distance) cells[j * across + i] = 1;
    }
  }
}

interface Box {
  readonly left: number;
  readonly front: number;
  readonly right: number;
  readonly back: number;
}

function segmentToBox(from: Point2, to: Point2, box: Box): number {
  if (crosses(from, to, box)) return 0;
  let nearest = Math.min(pointToBox(from, box), pointToBox(to, box));
  for (const x of [box.left, box.right]) {
    for (const y of [box.front, box.back]) nearest = Math.min(nearest, pointToSegment([x, y], from, to));
  }
  return nearest;
}

/** Whether a segment has a point in a box: what each pair of sides leaves of it must not be nothing. */
function crosses(from: Point2, to: Point2, box: Box): boolean {
  let enter = 0;
  let leave = 1;
  for (const [start, way, low, high] of [
    [from[0], to[0] - from[0], box.left, box.right],
    [from[1], to[1] - from[1], box.front, box.back],
  ] as const) {
    if (way === 0) {
      if (start < low || start > high) return false;
      continue;
    }
    const a = (low - start) / way;
    const b = (high - start) / way;
    enter = Math.max(enter, Math.min(a, b));
    leave = Math.min(leave, Math.max(a, b));
  }
  return enter <= leave;
}

function pointToBox([x, y]: Point2, box: Box): number {
  return Math.hypot(Math.max(box.left - x, 0, x - box.right), Math.max(box.front - y, 0, y - box.back));
}
