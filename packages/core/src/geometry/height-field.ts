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

/** The cell of a place along one axis and the share of the way through it; places outside count as on the edge. */
function cellOf(place: number, extent: number, nodes: number): readonly [cell: number, share: number] {
  const at = Math.min(Math.max((place / extent) * (nodes - 1), 0), nodes - 1);
  const cell = Math.min(Math.floor(at), nodes - 2);
  return [cell, at - cell];
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
