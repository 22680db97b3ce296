import type { Corners } from "./bilinear.ts";
import type { Rectangle } from "./polygon.ts";

/**
 * A surface over the inside floor of a tank, given at the nodes of an even grid and bilinear within each cell.
 * Coordinates: x along the length from the left pane, y from the front pane to the back, heights above the inside floor; m.
 */
export interface HeightField {
  /** Inside length, m. */
  readonly length: number;
  /** Inside width, front to back, m. */
  readonly width: number;
  /** Nodes from left to right, 2 or more. */
  readonly columns: number;
  /** Nodes from front to back, 2 or more. */
  readonly rows: number;
  /** Heights above the floor, m, row by row from the front, each from left to right; `columns * rows` of them. */
  readonly heights: Float64Array;
}

/** The grid of a height field without its heights. */
export type FieldGrid = Pick<HeightField, "length" | "width" | "columns" | "rows">;

/** Most nodes a side: 128 cells, which halve seven times. Design value. */
export const mostNodes = 129;

/** @throws RangeError for an extent that is not above 0 or a count of nodes that is not whole and 2 to `mostNodes`. */
export function checkGrid(grid: FieldGrid): void {
  for (const [name, value] of [
    ["length", grid.length],
    ["width", grid.width],
  ] as const) {
    if (!(value > 0 && Number.isFinite(value)))
      throw new RangeError(`${name} ${value} m: a height field needs more than 0`);
  }
  for (const [name, value] of [
    ["columns", grid.columns],
    ["rows", grid.rows],
  ] as const) {
    if (!(Number.isInteger(value) && value >= 2 && value <= mostNodes))
      throw new RangeError(`${value} ${name}: a height field has 2 to ${mostNodes}`);
  }
}

/** @throws RangeError as `checkGrid`, and for heights that are too few or many, negative or not finite. */
export function checkField(field: HeightField): void {
  checkGrid(field);
  const { heights, columns, rows } = field;
  if (heights.length !== columns * rows)
    throw new RangeError(
      `${heights.length} heights for ${columns} columns and ${rows} rows: ${columns * rows} are needed`,
    );
  const wrong = heights.findIndex((h) => !(h >= 0 && Number.isFinite(h)));
  if (wrong >= 0) {
    const place = `column ${(wrong % columns) + 1}, row ${Math.floor(wrong / columns) + 1}`;
    throw new RangeError(`height ${heights[wrong]} m at ${place}: heights are 0 or more`);
  }
}

/** The cell of a place along one axis and the share of the way through it; places outside count as on the edge. */
export function cellOf(place: number, extent: number, nodes: number): readonly [cell: number, share: number] {
  const at = Math.min(Math.max((place / extent) * (nodes - 1), 0), nodes - 1);
  const cell = Math.min(Math.floor(at), nodes - 2);
  return [cell, at - cell];
}

/** The four corners of a cell, counted from the left front. */
export function cellCorners(field: HeightField, column: number, row: number): Corners {
  const { heights, columns } = field;
  const at = row * columns + column;
  return {
    frontLeft: heights[at]!,
    frontRight: heights[at + 1]!,
    backLeft: heights[at + columns]!,
    backRight: heights[at + columns + 1]!,
  };
}

/** Height of the surface at a place, m; beyond the panes the height at the pane. */
export function fieldHeight(field: HeightField, x: number, y: number): number {
  const [i, u] = cellOf(x, field.length, field.columns);
  const [j, v] = cellOf(y, field.width, field.rows);
  const { heights, columns } = field;
  const at = j * columns + i;
  const front = heights[at]! + (heights[at + 1]! - heights[at]!) * u;
  const back = heights[at + columns]! + (heights[at + columns + 1]! - heights[at + columns]!) * u;
  return front + (back - front) * v;
}

/** Whether two surfaces are the same over a rectangle, m; places beyond the panes count as at the pane. */
export function sameFieldWithin(a: HeightField, b: HeightField, within: Rectangle): boolean {
  if (a === b) return true;
  if (a.length !== b.length || a.width !== b.width || a.columns !== b.columns || a.rows !== b.rows) return false;
  const [left, right] = [cellOf(within.left, a.length, a.columns)[0], cellOf(within.right, a.length, a.columns)[0]];
  const [front, back] = [cellOf(within.front, a.width, a.rows)[0], cellOf(within.back, a.width, a.rows)[0]];
  for (let j = front; j <= back + 1; j++) {
    for (let i = left; i <= right + 1; i++) {
      const at = j * a.columns + i;
      if (a.heights[at] !== b.heights[at]) return false;
    }
  }
  return true;
}
