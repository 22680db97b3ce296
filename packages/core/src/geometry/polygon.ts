/** A place seen from above, m: x from the left pane, y from the front pane. */
export type Point2 = readonly [x: number, y: number];

/** A rectangle with its sides along the panes, m. */
export interface Rectangle {
  readonly left: number;
  readonly front: number;
  readonly right: number;
  readonly back: number;
}

/** @throws RangeError for an outline of fewer than three points or with a place that is not finite. */
export function checkOutline(outline: readonly Point2[]): void {
  if (outline.length < 3) throw new RangeError(`an outline of ${outline.length} points: it needs 3 or more`);
  const wrong = outline.findIndex(([x, y]) => !(Number.isFinite(x) && Number.isFinite(y)));
  if (wrong >= 0) throw new RangeError(`point ${wrong + 1} of an outline is ${outline[wrong]}: both must be numbers`);
}

/** Area with its sign: above 0 when the outline runs counter-clockwise; m². Taken about the first point, for its digits. */
function signedArea(outline: readonly Point2[]): number {
  const [x0, y0] = outline[0] ?? [0, 0];
  let twice = 0;
  for (let k = 2; k < outline.length; k++) {
    const [ax, ay] = outline[k - 1]!;
    const [bx, by] = outline[k]!;
    twice += (ax - x0) * (by - y0) - (bx - x0) * (ay - y0);
  }
  return twice / 2;
}

/** Area within an outline that does not cross itself, whichever way it runs; m². */
export function outlineArea(outline: readonly Point2[]): number {
  return Math.abs(signedArea(outline));
}

/** Centre of the area; of an outline without area the mean of its points. */
export function outlineCentroid(outline: readonly Point2[]): Point2 {
  checkOutline(outline);
  const [x0, y0] = outline[0]!;
  const area = signedArea(outline);
  let x = 0;
  let y = 0;
  if (area === 0) {
    for (const [px, py] of outline) {
      x += px - x0;
      y += py - y0;
    }
    return [x0 + x / outline.length, y0 + y / outline.length];
  }
  for (let k = 2; k < outline.length; k++) {
    const ax = outline[k - 1]![0] - x0;
    const ay = outline[k - 1]![1] - y0;
    const bx = outline[k]![0] - x0;
    const by = outline[k]![1] - y0;
    const twice = ax * by - bx * ay;
    x += (ax + bx) * twice;
    y += (ay + by) * twice;
  }
  return [x0 + x / (6 * area), y0 + y / (6 * area)];
}

/** Smallest rectangle around places. @throws RangeError for none. */
export function boundsOf(points: readonly Point2[]): Rectangle {
  if (points.length === 0) throw new RangeError("no points: bounds need one or more");
  let [left, front] = points[0]!;
  let [right, back] = points[0]!;
  for (const [x, y] of points) {
    left = Math.min(left, x);
    right = Math.max(right, x);
    front = Math.min(front, y);
    back = Math.max(back, y);
  }
  return { left, front, right, back };
}

/** Whether a place lies inside an outline; on the line itself either answer. */
export function outlineContains(outline: readonly Point2[], [x, y]: Point2): boolean {
  let inside = false;
  let [bx, by] = outline.at(-1) ?? [0, 0];
  for (const [ax, ay] of outline) {
    if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) inside = !inside;
    [bx, by] = [ax, ay];
  }
  return inside;
}

/** Where an outline meets itself. */
export interface SelfCrossing {
  /** m */
  readonly x: number;
  readonly y: number;
  /** Positions of the two sides; side k starts at point k. */
  readonly sides: readonly [number, number];
}

/** First place where two sides cross, touch or lie on each other, or a side turns straight back; null for none. */
export function selfCrossing(outline: readonly Point2[]): SelfCrossing | null {
  checkOutline(outline);
  const count = outline.length;
  for (let i = 0; i < count; i++) {
    for (let j = i + 1; j < count; j++) {
      const [a, b, c, d] = [outline[i]!, outline[(i + 1) % count]!, outline[j]!, outline[(j + 1) % count]!];
      const meets = j === i + 1 ? turnsBack(a, b, d) : (j + 1) % count === i ? turnsBack(c, a, b) : meeting(a, b, c, d);
      if (meets) return { x: meets[0], y: meets[1], sides: [i, j] };
    }
  }
  return null;
}

/** Twice the area of a triangle with its sign: which side of a-b the place c lies on. */
function side(a: Point2, b: Point2, c: Point2): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]);
}

/** Two sides a-b and b-c that share b: they meet elsewhere only when the second runs back along the first. */
function turnsBack(a: Point2, b: Point2, c: Point2): Point2 | null {
  const back = (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1]);
  return side(a, b, c) === 0 && back <= 0 ? b : null;
}

function meeting(a: Point2, b: Point2, c: Point2, d: Point2): Point2 | null {
  const [ca, cb] = [side(c, d, a), side(c, d, b)];
  const [ac, ad] = [side(a, b, c), side(a, b, d)];
  if (((ca > 0 && cb < 0) || (ca < 0 && cb > 0)) && ((ac > 0 && ad < 0) || (ac < 0 && ad > 0))) {
    const share = ca / (ca - cb);
    return [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];
  }
  for (const [value, point, from, to] of [
    [ca, a, c, d],
    [cb, b, c, d],
    [ac, c, a, b],
    [ad, d, a, b],
  ] as const) {
    if (value === 0 && between(point, from, to)) return point;
  }
  return null;
}

function between([x, y]: Point2, a: Point2, b: Point2): boolean {
  return (
    x >= Math.min(a[0], b[0]) && x <= Math.max(a[0], b[0]) && y >= Math.min(a[1], b[1]) && y <= Math.max(a[1], b[1])
  );
}

/** Distance of a point from a segment, m. */
export function pointToSegment([x, y]: Point2, from: Point2, to: Point2): number {
  const dx = to[0] - from[0];
  const dy = to[1] - from[1];
  const square = dx * dx + dy * dy;
  const along = square > 0 ? Math.min(1, Math.max(0, ((x - from[0]) * dx + (y - from[1]) * dy) / square)) : 0;
  return Math.hypot(x - from[0] - along * dx, y - from[1] - along * dy);
}
