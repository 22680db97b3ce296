import { checkGrid, type FieldGrid } from "./height-field.ts";
import { boundsOf, checkOutline, outlineArea, type Point2, type Rectangle } from "./polygon.ts";

/**
 * The part of an outline inside a rectangle (Sutherland and Hodgman); empty when there is none. Parts of a hollow
 * outline that fall asunder stay joined by lines along the rectangle, which take no area. Source: Sutherland & Hodgman
 * 1974, Comm. ACM 17:32-42 (from memory).
 */
export function clipToRectangle(outline: readonly Point2[], rectangle: Rectangle): readonly Point2[] {
  checkOutline(outline);
  const across = strip(outline, 0, rectangle.left, rectangle.right);
  return strip(across, 1, rectangle.front, rectangle.back);
}

function strip(outline: readonly Point2[], axis: 0 | 1, low: number, high: number): readonly Point2[] {
  return clipAt(clipAt(outline, axis, low, 1), axis, high, -1);
}

/** What lies on the greater side (`way` 1) or the smaller (-1) of a line across an axis. */
function clipAt(outline: readonly Point2[], axis: 0 | 1, limit: number, way: 1 | -1): readonly Point2[] {
  const kept: Point2[] = [];
  let before = outline.at(-1);
  for (const point of outline) {
    const inside = way * (point[axis] - limit);
    const was = way * (before![axis] - limit);
    if (inside > 0 !== was > 0) {
      const share = was / (was - inside);
      const other = before![1 - axis]! + (point[1 - axis]! - before![1 - axis]!) * share;
      kept.push(axis === 0 ? [limit, other] : [other, limit]);
    }
    if (inside > 0) kept.push(point);
    before = point;
  }
  return kept;
}

/**
 * Area that an outline which does not cross itself covers of each cell of a grid, m², row by row from the front:
 * `(columns - 1) * (rows - 1)` of them; exact. What lies beyond the grid counts nowhere.
 */
export function cellOverlaps(outline: readonly Point2[], grid: FieldGrid): Float64Array {
  checkOutline(outline);
  checkGrid(grid);
  const across = grid.columns - 1;
  const deep = grid.rows - 1;
  const areas = new Float64Array(across * deep);
  const bounds = boundsOf(outline);
  const range = (low: number, high: number, extent: number, cells: number): readonly [number, number] => [
    Math.max(0, Math.floor((low / extent) * cells) - 1),
    Math.min(cells - 1, Math.floor((high / extent) * cells) + 1),
  ];
  const [firstRow, lastRow] = range(bounds.front, bounds.back, grid.width, deep);
  const [first, last] = range(bounds.left, bounds.right, grid.length, across);
  for (let j = firstRow; j <= lastRow; j++) {
    const row = strip(outline, 1, (grid.width * j) / deep, (grid.width * (j + 1)) / deep);
    if (row.length === 0) continue;
    for (let i = first; i <= last; i++) {
      const cell = strip(row, 0, (grid.length * i) / across, (grid.length * (i + 1)) / across);
      areas[j * across + i] = outlineArea(cell);
    }
  }
  return areas;
}
