import { checkOutline, type Point2, pointToSegment } from "./polygon.ts";

/**
 * A line with fewer points, nowhere further than `tolerance` m from those left out; its ends stay. Source: Douglas &
 * Peucker 1973, Cartographica 10:112-122 (from memory).
 */
export function simplifyLine(points: readonly Point2[], tolerance: number): readonly Point2[] {
  checkTolerance(tolerance);
  const keep = new Uint8Array(points.length);
  const open: [number, number][] = [[0, points.length - 1]];
  for (let span = open.pop(); span; span = open.pop()) {
    const [from, to] = span;
    keep[from] = 1;
    keep[to] = 1;
    let furthest = -1;
    let distance = tolerance;
    for (let k = from + 1; k < to; k++) {
      const away = pointToSegment(points[k]!, points[from]!, points[to]!);
      if (away > distance) {
        furthest = k;
        distance = away;
      }
    }
    if (furthest >= 0) open.push([from, furthest], [furthest, to]);
  }
  return points.filter((_, k) => keep[k]);
}

/** The same for an outline: parted at its first point and the one furthest from it. It keeps three points or more. */
export function simplifyOutline(outline: readonly Point2[], tolerance: number): readonly Point2[] {
  checkOutline(outline);
  checkTolerance(tolerance);
  const first = outline[0]!;
  const away = outline.map(([x, y]) => Math.hypot(x - first[0], y - first[1]));
  const furthest = away.indexOf(Math.max(...away));
  const there = simplifyLine(outline.slice(0, furthest + 1), tolerance);
  const back = simplifyLine([...outline.slice(furthest), first], tolerance);
  const simple = [...there.slice(0, -1), ...back.slice(0, -1)];
  return simple.length >= 3 ? simple : outline;
}

function checkTolerance(tolerance: number): void {
  if (!(tolerance >= 0 && Number.isFinite(tolerance)))
    throw new RangeError(`tolerance ${tolerance} m: it must be 0 or more`);
}

/**
 * A smooth closed curve through points: a Catmull-Rom curve in its centripetal form, which makes no loops within a
 * span. `perSpan` points for each span, the given one first. Source:
 * Yuksel et al. 2011, Computer-Aided Design 43:747-755 (from memory).
 */
export function smoothOutline(points: readonly Point2[], perSpan = 8): readonly Point2[] {
  checkOutline(points);
  if (!(Number.isInteger(perSpan) && perSpan >= 1 && perSpan <= 64))
    throw new RangeError(`${perSpan} points a span: 1 to 64 are allowed`);
  const ring = points.filter((p, k) => gap(points[(k + points.length - 1) % points.length]!, p) > 0);
  if (ring.length < 3) throw new RangeError("the points of an outline fall together: three different ones are needed");
  const at = (k: number): Point2 => ring[(k + ring.length) % ring.length]!;
  return ring.flatMap((_, k) =>
    Array.from({ length: perSpan }, (_, n) => spanPoint(at(k - 1), at(k), at(k + 1), at(k + 2), n / perSpan)),
  );
}

function gap(a: Point2, b: Point2): number {
  return Math.sqrt(Math.hypot(b[0] - a[0], b[1] - a[1]));
}

/** A point of the span from b to c, a share of its parameter on (pyramid of straight interpolations). */
function spanPoint(a: Point2, b: Point2, c: Point2, d: Point2, share: number): Point2 {
  if (share === 0) return b;
  const tb = gap(a, b);
  const tc = tb + gap(b, c);
  const td = tc + gap(c, d);
  const t = tb + (tc - tb) * share;
  const ab = between(a, b, t / tb);
  const bc = between(b, c, (t - tb) / (tc - tb));
  const cd = between(c, d, (t - tc) / (td - tc));
  return between(between(ab, bc, t / tc), between(bc, cd, (t - tb) / (td - tb)), (t - tb) / (tc - tb));
}

function between(a: Point2, b: Point2, share: number): Point2 {
  return [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];
}
