/** Places for plants over an outline: even, not in rows, and moving with the outline. */
import { boundsOf, outlineArea, outlineCentroid, outlineContains } from "../geometry/index.ts";
import { between, type Random } from "./random.ts";
import type { Point2, ScapeZone } from "./scape-scene.ts";

/** Points of an outline that are numbers; three or more, or none. */
export function soundOutline(zone: Pick<ScapeZone, "outline">): readonly Point2[] {
  const points = zone.outline.filter(([x, y]) => Number.isFinite(x) && Number.isFinite(y));
  return points.length >= 3 ? points : [];
}

/** Middle of an outline, or of the points there are; none without points. */
export function middleOf(zone: Pick<ScapeZone, "outline">): Point2 | undefined {
  const outline = soundOutline(zone);
  if (outline.length > 0) return outlineCentroid(outline);
  return zone.outline.find(([x, y]) => Number.isFinite(x) && Number.isFinite(y));
}

/**
 * Places about `pitch` apart on a staggered grid from the outline's own corner, each a little out of line; no more than
 * `most`, at least one.
 */
export function scattered(outline: readonly Point2[], pitch: number, most: number, random: Random): Point2[] {
  const box = boundsOf(outline);
  const area = outlineArea(outline);
  // An even grid of triangles has one place for each 0.87 pitch².
  const step = Math.max(pitch, Math.sqrt(area / 0.87 / Math.max(1, most)), (box.right - box.left) / 600);
  const out: Point2[] = [];
  const rise = step * 0.87;
  let row = 0;
  for (let y = box.front + rise * 0.4; y < box.back && row < 600; y += rise, row++) {
    for (let x = box.left + (row % 2 ? 0.25 : 0.75) * step; x < box.right; x += step) {
      const place: Point2 = [x + between(random, -0.36, 0.36) * step, y + between(random, -0.36, 0.36) * rise];
      if (outlineContains(outline, place)) out.push(place);
    }
  }
  return out.length > 0 ? out : [outlineCentroid(outline)];
}
