import type { HeightField } from "../geometry/index.ts";
import { checkField, mostNodes, resampleField } from "../geometry/index.ts";

/** A ground to cut by: in each cell four plane triangles that meet at its middle, which keeps the volume of a bilinear cell. */
export interface Ground {
  /** Lines of the grid, m; the outermost lie far outside, with the heights at the panes. */
  readonly xs: Float64Array;
  readonly ys: Float64Array;
  /** Heights at the crossings of these lines, row by row, m. */
  readonly heights: Float64Array;
}

/** The outermost lines against the floor's own extent. */
const far = 1e3;

/** Most that the planes may stray from the bilinear surface, m. Design value. */
const stray = 1e-5;

/**
 * The ground as planes that lie within 10 micrometres of the field, or as near as `mostNodes` a side allow: twisted cells
 * are parted further, which is exact at their nodes.
 */
export function groundOf(field: HeightField): Ground {
  checkField(field);
  return linesOf(untwisted(field));
}

/** The nodes of a field with a ring of cells outside, which carry the heights at the panes on. */
export function linesOf({ length, width, columns, rows, heights }: HeightField): Ground {
  const xs = lines(length, columns);
  const ys = lines(width, rows);
  const padded = new Float64Array(xs.length * ys.length);
  for (let j = 0; j < ys.length; j++) {
    const row = Math.min(Math.max(j - 1, 0), rows - 1);
    for (let i = 0; i < xs.length; i++) {
      padded[j * xs.length + i] = heights[row * columns + Math.min(Math.max(i - 1, 0), columns - 1)]!;
    }
  }
  return { xs, ys, heights: padded };
}

function lines(extent: number, nodes: number): Float64Array {
  const places = Float64Array.from({ length: nodes + 2 }, (_, k) => (extent * (k - 1)) / (nodes - 1));
  places[0] = -far * extent;
  places[nodes + 1] = (1 + far) * extent;
  return places;
}

function untwisted(field: HeightField): HeightField {
  const { columns, rows, heights } = field;
  let twist = 0;
  for (let j = 0; j < rows - 1; j++) {
    for (let i = 0; i < columns - 1; i++) {
      const at = j * columns + i;
      const sum = heights[at]! + heights[at + columns + 1]! - heights[at + 1]! - heights[at + columns]!;
      twist = Math.max(twist, Math.abs(sum));
    }
  }
  // In a cell parted into k x k the planes stray at most a sixteenth of its own twist, which is 1/k² of the whole.
  const wanted = Math.ceil(Math.sqrt(twist / (16 * stray)));
  const part = (nodes: number): number => Math.max(1, Math.min(wanted, Math.floor((mostNodes - 1) / (nodes - 1))));
  return resampleField(field, (columns - 1) * part(columns) + 1, (rows - 1) * part(rows) + 1);
}

/** Position of the last line at or before a place. */
export function lineBefore(places: Float64Array, place: number): number {
  // The inner lines are even; only the first and the last cell are long.
  const inner = places[2]! - places[1]!;
  const guess = 1 + Math.floor((place - places[1]!) / inner);
  return Math.min(Math.max(guess, 0), places.length - 2);
}
