import { createRandom } from "../numerics/index.ts";
import { boundsOf, checkOutline, outlineArea, outlineContains, type Point2, pointToSegment } from "./polygon.ts";

/** Most places that are scattered at once. Design value. */
export const mostScattered = 4096;

/** Places tried for each one wanted. Design value. */
const triesEach = 14;

/** Least area against that of the rectangle around it, below which an outline counts as a line. Design value. */
const thinnest = 1 / 200;

/**
 * Places spread evenly but not in rows inside an outline, such as plants over their area: exactly `count`, the same for
 * the same seed. Each next one lies where there is most room, with half a spacing left at the edge, so that the first
 * few alone are spread evenly too.
 * @throws RangeError for an outline as thin as a line, a bad seed or a count that is not whole and 0 to `mostScattered`.
 */
export function scatterInside(outline: readonly Point2[], count: number, seed: number): readonly Point2[] {
  checkOutline(outline);
  if (!(Number.isInteger(count) && count >= 0 && count <= mostScattered))
    throw new RangeError(`${count} places: 0 to ${mostScattered} are allowed`);
  const { left, front, right, back } = boundsOf(outline);
  const area = outlineArea(outline);
  if (!(area > 0 && area >= thinnest * (right - left) * (back - front)))
    throw new RangeError(`an outline of ${area} m² is too thin to spread places over`);
  const places = candidates(outline, Math.max(64, triesEach * count), seed);
  const room = places.map((p) => 2 * edgeDistance(outline, p));
  return Array.from({ length: count }, () => {
    let most = 0;
    for (let k = 1; k < places.length; k++) if (room[k]! > room[most]!) most = k;
    const [x, y] = places[most]!;
    places.forEach(([px, py], k) => {
      const away = Math.hypot(px - x, py - y);
      if (away < room[k]!) room[k] = away;
    });
    return [x, y];
  });
}

/** At least `count` places inside, one at random in each square of a grid that meets the outline. */
function candidates(outline: readonly Point2[], count: number, seed: number): readonly Point2[] {
  const { left, front, right, back } = boundsOf(outline);
  for (let step = Math.sqrt(outlineArea(outline) / count); ; step /= 1.25) {
    const random = createRandom(seed);
    const places: Point2[] = [];
    for (let y = front; y < back; y += step) {
      for (let x = left; x < right; x += step) {
        const place: Point2 = [x + step * random.uniform(), y + step * random.uniform()];
        if (outlineContains(outline, place)) places.push(place);
      }
    }
    if (places.length >= count) return places;
  }
}

function edgeDistance(outline: readonly Point2[], place: Point2): number {
  let nearest = Number.POSITIVE_INFINITY;
  outline.forEach((to, k) => {
    nearest = Math.min(nearest, pointToSegment(place, outline.at(k - 1)!, to));
  });
  return nearest;
}
