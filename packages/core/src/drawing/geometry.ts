/** Plane geometry in page px: x to the right, y down. A heading is in rad, 0 = up, positive to the right. */

export type Point = readonly [x: number, y: number];

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export const clamp = (value: number, low: number, high: number): number => Math.max(low, Math.min(value, high));

export const mix = (a: number, b: number, t: number): number => a + (b - a) * t;

export const mixPoint = (a: Point, b: Point, t: number): Point => [mix(a[0], b[0], t), mix(a[1], b[1], t)];

/** Cubic ease from 0 to 1. */
export function smooth(t: number): number {
  const u = clamp(t, 0, 1);
  return u * u * (3 - 2 * u);
}

/** The point `length` away from `from` along a heading. */
export const along = (from: Point, heading: number, length: number): Point => [
  from[0] + Math.sin(heading) * length,
  from[1] - Math.cos(heading) * length,
];

export const distance = (a: Point, b: Point): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** Point of the quadratic curve a-b-c at t. */
export function quadAt(a: Point, b: Point, c: Point, t: number): Point {
  const u = 1 - t;
  return [u * u * a[0] + 2 * u * t * b[0] + t * t * c[0], u * u * a[1] + 2 * u * t * b[1] + t * t * c[1]];
}

/** Unit tangent of the quadratic curve a-b-c at t. */
export function quadTangent(a: Point, b: Point, c: Point, t: number): Point {
  const x = (1 - t) * (b[0] - a[0]) + t * (c[0] - b[0]);
  const y = (1 - t) * (b[1] - a[1]) + t * (c[1] - b[1]);
  const length = Math.hypot(x, y) || 1;
  return [x / length, y / length];
}

/** Samples of the Catmull-Rom curve through the points, ends included. */
export function splineSamples(points: readonly Point[], perSpan: number): Point[] {
  const at = (i: number): Point => points[clamp(i, 0, points.length - 1)] ?? [0, 0];
  const out: Point[] = [];
  for (let i = 0; i < points.length - 1; i++) {
    const [a, b, c, d] = [at(i - 1), at(i), at(i + 1), at(i + 2)];
    for (let k = 0; k < perSpan; k++) {
      const t = k / perSpan;
      const pick = (j: 0 | 1) =>
        0.5 *
        (2 * b[j] +
          (c[j] - a[j]) * t +
          (2 * a[j] - 5 * b[j] + 4 * c[j] - d[j]) * t * t +
          (3 * b[j] - a[j] - 3 * c[j] + d[j]) * t * t * t);
      out.push([pick(0), pick(1)]);
    }
  }
  out.push(at(points.length - 1));
  return out;
}

export function isInside(point: Point, polygon: readonly Point[]): boolean {
  let inside = false;
  for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i++) {
    const a = polygon[i] as Point;
    const b = polygon[j] as Point;
    if (a[1] > point[1] !== b[1] > point[1]) {
      const x = ((b[0] - a[0]) * (point[1] - a[1])) / (b[1] - a[1]) + a[0];
      if (point[0] < x) inside = !inside;
    }
  }
  return inside;
}

/** The part of a convex polygon where `side(point) >= 0`; `side` must be linear. */
export function cutPolygon(polygon: readonly Point[], side: (p: Point) => number): Point[] {
  const out: Point[] = [];
  for (let i = 0; i < polygon.length; i++) {
    const a = polygon[i] as Point;
    const b = polygon[(i + 1) % polygon.length] as Point;
    const sa = side(a);
    const sb = side(b);
    if (sa >= 0) out.push(a);
    if (sa >= 0 !== sb >= 0) out.push(mixPoint(a, b, sa / (sa - sb)));
  }
  return out;
}

/** The pieces of the segment a-b that lie inside a polygon. */
export function cutSegment(a: Point, b: Point, polygon: readonly Point[]): (readonly [Point, Point])[] {
  const cuts = [0, 1];
  for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i++) {
    const p = polygon[i] as Point;
    const q = polygon[j] as Point;
    const d = (b[0] - a[0]) * (q[1] - p[1]) - (b[1] - a[1]) * (q[0] - p[0]);
    if (Math.abs(d) < 1e-9) continue;
    const t = ((p[0] - a[0]) * (q[1] - p[1]) - (p[1] - a[1]) * (q[0] - p[0])) / d;
    const u = ((p[0] - a[0]) * (b[1] - a[1]) - (p[1] - a[1]) * (b[0] - a[0])) / d;
    if (t > 0 && t < 1 && u >= 0 && u <= 1) cuts.push(t);
  }
  cuts.sort((x, y) => x - y);
  const out: (readonly [Point, Point])[] = [];
  for (let i = 0; i < cuts.length - 1; i++) {
    const from = cuts[i] as number;
    const to = cuts[i + 1] as number;
    if (isInside(mixPoint(a, b, (from + to) / 2), polygon)) out.push([mixPoint(a, b, from), mixPoint(a, b, to)]);
  }
  return out;
}

/** The box round points. */
export function boxOf(points: readonly Point[]): Box {
  let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const [x, y] of points) {
    left = Math.min(left, x);
    right = Math.max(right, x);
    top = Math.min(top, y);
    bottom = Math.max(bottom, y);
  }
  return { left, right, top, bottom };
}

export const overlap = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

export const grown = (box: Box, by: number): Box => ({
  left: box.left - by,
  top: box.top - by,
  right: box.right + by,
  bottom: box.bottom + by,
});

/** Whether the segment a-b touches the box (Liang and Barsky 1984). */
export function segmentMeets(a: Point, b: Point, box: Box): boolean {
  let from = 0;
  let to = 1;
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  for (const [p, q] of [
    [-dx, a[0] - box.left],
    [dx, box.right - a[0]],
    [-dy, a[1] - box.top],
    [dy, box.bottom - a[1]],
  ] as const) {
    if (p === 0) {
      if (q < 0) return false;
    } else if (p < 0) from = Math.max(from, q / p);
    else to = Math.min(to, q / p);
    if (from > to) return false;
  }
  return true;
}
