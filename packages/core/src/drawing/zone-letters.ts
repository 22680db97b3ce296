/** Finds room for the letter of each planting: inside it, off what lies in it, and off other lettering. */
import { type Box, boxOf, isInside, overlap, type Point } from "./geometry.ts";

export interface Lettered {
  readonly at: Point;
  readonly box: Box;
}

/** Half of the room a letter takes, px. */
const HALF: Point = [7.5, 9];

const boxAt = ([x, y]: Point): Box => ({
  left: x - HALF[0],
  right: x + HALF[0],
  top: y - HALF[1],
  bottom: y + HALF[1],
});

/** Least distance from a polygon's edge, px. */
function depthIn([x, y]: Point, polygon: readonly Point[]): number {
  let least = Infinity;
  for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i++) {
    const [a, b] = [polygon[j]!, polygon[i]!];
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    const t = Math.min(1, Math.max(0, ((x - a[0]) * dx + (y - a[1]) * dy) / (dx * dx + dy * dy || 1)));
    const [ex, ey] = [a[0] + dx * t - x, a[1] + dy * t - y];
    least = Math.min(least, ex * ex + ey * ey);
  }
  return Math.sqrt(least);
}

/**
 * A place for the letter of each polygon, or none where it is too crowded: the deepest free place inside, else the
 * nearest free one around it.
 */
export function placeLetters(
  polygons: readonly (readonly Point[])[],
  within: Box,
  taken: readonly Box[],
  covered: (x: number, y: number) => number,
): (Lettered | undefined)[] {
  const all: Box[] = [...taken];
  const free = (box: Box): boolean =>
    box.left >= within.left &&
    box.right <= within.right &&
    box.top >= within.top &&
    box.bottom <= within.bottom &&
    all.every((b) => !overlap(b, box));
  return polygons.map((polygon) => {
    if (polygon.length === 0) return undefined;
    const round = boxOf(polygon);
    const held = (value: number, low: number, high: number): number => Math.min(Math.max(value, low), high);
    const box: Box = {
      left: held(round.left, within.left, within.right),
      right: held(round.right, within.left, within.right),
      top: held(round.top, within.top, within.bottom),
      bottom: held(round.bottom, within.top, within.bottom),
    };
    const middle: Point = [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
    let best: { at: Point; cost: number } | undefined;
    const consider = (at: Point, dear: () => number): void => {
      if (!free(boxAt(at))) return;
      const cost = dear();
      if (!best || cost < best.cost) best = { at, cost };
    };
    const step = Math.max(5, Math.sqrt(((box.right - box.left) * (box.bottom - box.top)) / 160));
    for (let y = box.top + step / 2; y < box.bottom; y += step) {
      for (let x = box.left + step / 2; x < box.right; x += step) {
        if (!isInside([x, y], polygon)) continue;
        consider(
          [x, y],
          () =>
            20 -
            Math.min(16, depthIn([x, y], polygon)) +
            covered(x, y) * 14 +
            Math.hypot(x - middle[0], y - middle[1]) * 0.03,
        );
      }
    }
    for (const reach of [0, 10, 18, 26, 36, 48]) {
      if (best) break;
      for (let k = 0; k < 16; k++) {
        const a = (k / 16) * 2 * Math.PI;
        const [rx, ry] = [(box.right - box.left) / 2 + reach, (box.bottom - box.top) / 2 + reach];
        const at: Point = [middle[0] + Math.cos(a) * rx, middle[1] + Math.sin(a) * ry];
        consider(at, () => 40 + covered(at[0], at[1]) * 14);
      }
    }
    if (!best) return undefined;
    const placed = { at: best.at, box: boxAt(best.at) };
    all.push(placed.box);
    return placed;
  });
}
