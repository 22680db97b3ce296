import { type Corners, heightAt } from "./bilinear.ts";
import { checkField, checkGrid, type FieldGrid, fieldHeight, type HeightField, mostNodes } from "./height-field.ts";

/** Heights at every node of a grid from a function of the place, m. @throws RangeError for a bad grid or height. */
export function fieldFrom(grid: FieldGrid, height: (x: number, y: number) => number): HeightField {
  checkGrid(grid);
  const { length, width, columns, rows } = grid;
  const heights = new Float64Array(columns * rows);
  for (let j = 0; j < rows; j++) {
    const y = (width * j) / (rows - 1);
    for (let i = 0; i < columns; i++) heights[j * columns + i] = height((length * i) / (columns - 1), y);
  }
  const field = { length, width, columns, rows, heights };
  checkField(field);
  return field;
}

/** The surface that runs straight between four corners. @throws RangeError for a bad grid or a negative height. */
export function fieldFromCorners(grid: FieldGrid, corners: Corners): HeightField {
  return fieldFrom(grid, (x, y) => heightAt(corners, x / grid.length, y / grid.width));
}

/**
 * A surface from rows of heights, m: the front row first, each from left to right, all of one length.
 * @throws RangeError for rows of unequal length, a bad count or a bad height.
 */
export function fieldFromRows(length: number, width: number, heights: readonly (readonly number[])[]): HeightField {
  const columns = heights[0]?.length ?? 0;
  heights.forEach((row, j) => {
    if (row.length !== columns)
      throw new RangeError(`row ${j + 1} has ${row.length} heights, the first ${columns}: all need as many`);
  });
  const field = { length, width, columns, rows: heights.length, heights: Float64Array.from(heights.flat()) };
  checkField(field);
  return field;
}

/**
 * The surface at the nodes of another grid over the same floor. Exact everywhere when each side's cells are a whole
 * multiple of the old; a coarser grid keeps the heights at its own nodes only.
 */
export function resampleField(field: HeightField, columns: number, rows: number): HeightField {
  checkField(field);
  return fieldFrom({ length: field.length, width: field.width, columns, rows }, (x, y) => fieldHeight(field, x, y));
}

/**
 * Surfaces laid on each other. Without a `grid` it takes the coarsest grid that holds every one exactly, or, where that
 * would have more than `mostNodes` a side, the finest of their own (then exact at its nodes only).
 * @throws RangeError for no fields, or fields over different floors.
 */
export function sumFields(
  fields: readonly HeightField[],
  grid?: { readonly columns: number; readonly rows: number },
): HeightField {
  const first = fields[0];
  if (!first) throw new RangeError("no height fields to add: at least one is needed");
  fields.forEach((field, k) => {
    checkField(field);
    if (!near(field.length, first.length) || !near(field.width, first.width))
      throw new RangeError(
        `height field ${k + 1} covers ${field.length} m x ${field.width} m, the first ${first.length} m x ${first.width} m: all need the same floor`,
      );
  });
  const columns = grid?.columns ?? commonNodes(fields.map((f) => f.columns));
  const rows = grid?.rows ?? commonNodes(fields.map((f) => f.rows));
  return fieldFrom({ length: first.length, width: first.width, columns, rows }, (x, y) => {
    let sum = 0;
    for (const field of fields) sum += fieldHeight(field, x, y);
    return sum;
  });
}

function near(a: number, b: number): boolean {
  return Math.abs(a - b) <= 1e-9 * Math.abs(b);
}

function commonNodes(counts: readonly number[]): number {
  let cells = 1;
  for (const nodes of counts) cells = (cells / divisor(cells, nodes - 1)) * (nodes - 1);
  return cells < mostNodes ? cells + 1 : Math.max(...counts);
}

function divisor(a: number, b: number): number {
  return b === 0 ? a : divisor(b, a % b);
}
