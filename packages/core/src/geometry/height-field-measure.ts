import { aboveLevel } from "./bilinear.ts";
import { cellCorners, cellOf, checkField, type HeightField } from "./height-field.ts";

/** Lowest and highest place of a surface, m; both lie at nodes. */
export function fieldRange(field: HeightField): { readonly min: number; readonly max: number } {
  checkField(field);
  let min = Number.POSITIVE_INFINITY;
  let max = Number.NEGATIVE_INFINITY;
  for (const h of field.heights) {
    min = Math.min(min, h);
    max = Math.max(max, h);
  }
  return { min, max };
}

/** Mean height, m; exact, as the mean of a bilinear cell is that of its corners. */
export function fieldMean(field: HeightField): number {
  checkField(field);
  const { heights, columns, rows } = field;
  let sum = 0;
  for (let j = 0; j < rows; j++) {
    const side = j === 0 || j === rows - 1 ? 0.5 : 1;
    for (let i = 0; i < columns; i++) {
      sum += heights[j * columns + i]! * (i === 0 || i === columns - 1 ? 0.5 * side : side);
    }
  }
  return sum / ((columns - 1) * (rows - 1));
}

/** Volume between the floor and the surface, m³; exact. */
export function fieldVolume(field: HeightField): number {
  return fieldMean(field) * field.length * field.width;
}

/** What a level, such as the water line, parts of a surface. */
export interface FieldAtLevel {
  /** Volume under the surface and under the level, m³. */
  readonly below: number;
  /** Volume under the surface and above the level, m³. */
  readonly above: number;
  /** Volume between the surface and the level, where the surface lies lower, m³. */
  readonly over: number;
  /** Floor area where the surface stands above the level, m². */
  readonly dryArea: number;
}

/** Parts the room over the floor at `level` m above it; exact cell by cell. @throws RangeError for a level below 0. */
export function fieldAtLevel(field: HeightField, level: number): FieldAtLevel {
  if (!(level >= 0 && Number.isFinite(level))) throw new RangeError(`level ${level} m: it must be 0 or more`);
  const whole = fieldVolume(field);
  const { length, width, columns, rows } = field;
  let mean = 0;
  let share = 0;
  for (let j = 0; j < rows - 1; j++) {
    for (let i = 0; i < columns - 1; i++) {
      const cell = aboveLevel(cellCorners(field, i, j), level);
      mean += cell.mean;
      share += cell.share;
    }
  }
  const cellArea = (length * width) / ((columns - 1) * (rows - 1));
  const above = mean * cellArea;
  const below = whole - above;
  return { below, above, over: level * length * width - below, dryArea: share * cellArea };
}

/** How a surface lies at a place. */
export interface FieldSlope {
  /** Rise per metre to the right. */
  readonly dx: number;
  /** Rise per metre to the back. */
  readonly dy: number;
  /** Steepness, degrees. */
  readonly angle: number;
}

/** Slope at a place; beyond the panes that at the pane, on a line of the grid that of the cell to the right and back. */
export function slopeAt(field: HeightField, x: number, y: number): FieldSlope {
  const [i, u] = cellOf(x, field.length, field.columns);
  const [j, v] = cellOf(y, field.width, field.rows);
  return slopeIn(field, i, j, u, v);
}

function slopeIn(field: HeightField, i: number, j: number, u: number, v: number): FieldSlope {
  const { frontLeft, frontRight, backLeft, backRight } = cellCorners(field, i, j);
  const front = frontRight - frontLeft;
  const left = backLeft - frontLeft;
  const dx = ((front + (backRight - backLeft - front) * v) * (field.columns - 1)) / field.length;
  const dy = ((left + (backRight - frontRight - left) * u) * (field.rows - 1)) / field.width;
  return { dx, dy, angle: (Math.atan(Math.hypot(dx, dy)) * 180) / Math.PI };
}

/** The steepest place of a surface. */
export interface SteepestPlace {
  /** m */
  readonly x: number;
  /** m */
  readonly y: number;
  /** Degrees. */
  readonly angle: number;
}

/**
 * The steepest place, or null when every cell is left out. The gradient of a bilinear cell is greatest at one of its
 * corners. `leftOut` marks cells that do not count (`cellsNearLines`).
 */
export function steepestPlace(field: HeightField, leftOut?: Uint8Array): SteepestPlace | null {
  checkField(field);
  const { length, width, columns, rows } = field;
  const cells = (columns - 1) * (rows - 1);
  if (leftOut && leftOut.length !== cells)
    throw new RangeError(`${leftOut.length} marks for ${cells} cells: each cell needs one`);
  let steepest: SteepestPlace | null = null;
  for (let j = 0; j < rows - 1; j++) {
    for (let i = 0; i < columns - 1; i++) {
      if (leftOut?.[j * (columns - 1) + i]) continue;
      for (const [u, v] of cellEnds) {
        const { angle } = slopeIn(field, i, j, u, v);
        if (steepest && angle <= steepest.angle) continue;
        steepest = { x: (length * (i + u)) / (columns - 1), y: (width * (j + v)) / (rows - 1), angle };
      }
    }
  }
  return steepest;
}

const cellEnds = [
  [0, 0],
  [1, 0],
  [0, 1],
  [1, 1],
] as const;
