import { checkField, fieldHeight, type HeightField } from "./height-field.ts";

/** One stroke on a surface. */
export interface Brush {
  readonly kind: "raise" | "lower" | "smooth" | "level";
  /** Middle, m from the left pane and from the front pane. */
  readonly x: number;
  readonly y: number;
  /** m; the stroke fades to nothing there along half a cosine wave. */
  readonly radius: number;
  /** At the middle: m for raise and lower, share of the way (0..1) for smooth and level. */
  readonly strength: number;
  /** Height that `level` works towards, m; that at the middle by default. */
  readonly height?: number;
}

/** Reach of a smoothing against the radius of its stroke. Design value. */
const smoothingReach = 0.25;

/**
 * The surface after a stroke; never below the floor. Smoothing leaves planes and the heights at the four corners of
 * the tank as they are.
 * @throws RangeError for a bad surface, radius, strength or height.
 */
export function brushField(field: HeightField, brush: Brush): HeightField {
  checkField(field);
  checkBrush(brush);
  const { length, width, columns, rows } = field;
  const heights = Float64Array.from(field.heights);
  const target = brush.height ?? fieldHeight(field, brush.x, brush.y);
  const smooth = brush.kind === "smooth" ? smoothed(field, brush.radius * smoothingReach) : field.heights;
  for (let j = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++) {
      const away = Math.hypot((length * i) / (columns - 1) - brush.x, (width * j) / (rows - 1) - brush.y);
      if (away >= brush.radius) continue;
      const effect = (brush.strength * (1 + Math.cos((Math.PI * away) / brush.radius))) / 2;
      const at = j * columns + i;
      const height = heights[at]!;
      if (brush.kind === "raise") heights[at] = height + effect;
      else if (brush.kind === "lower") heights[at] = Math.max(0, height - effect);
      else heights[at] = height + (Math.max(0, brush.kind === "level" ? target : smooth[at]!) - height) * effect;
    }
  }
  return { length, width, columns, rows, heights };
}

function checkBrush({ kind, x, y, radius, strength, height }: Brush): void {
  if (!(Number.isFinite(x) && Number.isFinite(y))) throw new RangeError(`place ${x}, ${y}: both must be numbers`);
  if (!(radius > 0 && Number.isFinite(radius))) throw new RangeError(`radius ${radius} m: it must be above 0`);
  const most = kind === "raise" || kind === "lower" ? Number.MAX_VALUE : 1;
  if (!(strength >= 0 && strength <= most))
    throw new RangeError(`strength ${strength} of ${kind}: it must be ${most === 1 ? "0 to 1" : "0 or more, in m"}`);
  if (height !== undefined && !(height >= 0 && Number.isFinite(height)))
    throw new RangeError(`height ${height} m: it must be 0 or more`);
}

/**
 * A surface after diffusion over `reach` m along both axes, one implicit step each: it stays between the lowest and the
 * highest, and does not depend on how fine the grid is.
 */
function smoothed(field: HeightField, reach: number): Float64Array {
  const { length, width, columns, rows } = field;
  const heights = Float64Array.from(field.heights);
  const along = (reach * (columns - 1)) / length;
  const back = (reach * (rows - 1)) / width;
  for (let j = 0; j < rows; j++) diffuse(heights, j * columns, 1, columns, (along * along) / 2);
  for (let i = 0; i < columns; i++) diffuse(heights, i, columns, rows, (back * back) / 2);
  return heights;
}

/** Solves h - k h'' = given along a line of nodes; its ends stay, so that a straight line stays whole. */
function diffuse(heights: Float64Array, start: number, step: number, count: number, k: number): void {
  const upper = new Float64Array(count);
  for (let i = 1; i < count - 1; i++) {
    const at = start + i * step;
    const pivot = 1 + 2 * k - k * upper[i - 1]!;
    upper[i] = k / pivot;
    heights[at] = (heights[at]! + k * heights[at - step]!) / pivot;
  }
  for (let i = count - 2; i > 0; i--) {
    const at = start + i * step;
    heights[at] = heights[at]! + upper[i]! * heights[at + step]!;
  }
}
