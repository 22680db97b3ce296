/** A surface over a rectangle, straight along every edge, from its four corner heights (m). */
export interface Corners {
  readonly frontLeft: number;
  readonly frontRight: number;
  readonly backLeft: number;
  readonly backRight: number;
}

/** Height at a place given by fractions of the inside: `x` 0 left to 1 right, `z` 0 front to 1 back; m. */
export function heightAt(corners: Corners, x: number, z: number): number {
  const left = corners.frontLeft + (corners.backLeft - corners.frontLeft) * z;
  const right = corners.frontRight + (corners.backRight - corners.frontRight) * z;
  return left + (right - left) * x;
}

/** Mean height, m: the mean of the corners. */
export function meanHeight(corners: Corners): number {
  return (corners.frontLeft + corners.frontRight + corners.backLeft + corners.backRight) / 4;
}

/** How much of a surface lies above a level. */
export interface Above {
  /** Mean over the whole rectangle of what stands above the level, m. */
  readonly mean: number;
  /** Share of the rectangle that stands above the level, 0..1. */
  readonly share: number;
}

/** What of a surface stands above `level` m, in closed form. */
export function aboveLevel(corners: Corners, level: number): Above {
  // Along a line from left to right at depth z the height is straight, so only its two ends matter; both ends run
  // straight with z, so their crossings of the level part the depth into stretches of one kind each.
  const left = { start: corners.frontLeft - level, slope: corners.backLeft - corners.frontLeft };
  const right = { start: corners.frontRight - level, slope: corners.backRight - corners.frontRight };
  const cuts = [0, crossing(left), crossing(right), 1].filter((z) => z >= 0 && z <= 1).sort((a, b) => a - b);
  let mean = 0;
  let share = 0;
  for (let i = 1; i < cuts.length; i++) {
    const from = cuts[i - 1] as number;
    const to = cuts[i] as number;
    const middle = (from + to) / 2;
    const l = valueAt(left, middle);
    const r = valueAt(right, middle);
    if (l <= 0 && r <= 0) continue;
    if (l >= 0 && r >= 0) {
      mean += ((l + r) / 2) * (to - from);
      share += to - from;
      continue;
    }
    const part = l > 0 ? wedge(left, right, from, to) : wedge(right, left, from, to);
    mean += part.mean;
    share += part.share;
  }
  return { mean, share };
}

interface Line {
  readonly start: number;
  readonly slope: number;
}

function valueAt(line: Line, z: number): number {
  return line.start + line.slope * z;
}

function crossing(line: Line): number {
  return line.slope === 0 ? Number.NaN : -line.start / line.slope;
}

/**
 * Integrals over a stretch where one end (`high`) is above the level and the other below: h²/(2s) and h/s with the fall
 * s = high - low. All is told by the values at the two edges of the stretch, so that rounding stays in proportion.
 */
function wedge(high: Line, low: Line, from: number, to: number): Above {
  const width = to - from;
  const h = edges(high, from, to);
  const l = edges(low, from, to);
  const s = { from: h.from - l.from, to: h.to - l.to };
  // So small a fall is nothing, and squares and quotients of it would leave the range of numbers.
  if (s.from + s.to < 1e-100) return { mean: 0, share: 0 };
  const growth = s.to - s.from;
  if (Math.abs(growth) < 0.01 * (s.from + s.to)) return gaussWedge(h, s, width);
  // With h = ratio s + rest both integrands are sums of s, 1 and 1/s.
  const ratio = (h.to - h.from) / growth;
  const rest = h.from - ratio * s.from;
  // Where a fall ends in nothing, h does too and the rest is nothing.
  const log = s.from > 0 && s.to > 0 ? Math.log(s.to / s.from) : 0;
  const squares = (ratio * ratio * (s.from + s.to)) / 2 + 2 * ratio * rest + (rest * rest * log) / growth;
  return { mean: (width * squares) / 2, share: width * (ratio + (rest * log) / growth) };
}

interface Edges {
  readonly from: number;
  readonly to: number;
}

function edges(line: Line, from: number, to: number): Edges {
  return { from: valueAt(line, from), to: valueAt(line, to) };
}

const gaussOffset = Math.sqrt(0.6);

/** The same by three Gauss points, for a fall so nearly constant that the closed form would lose digits. */
function gaussWedge(high: Edges, fall: Edges, width: number): Above {
  let mean = 0;
  let share = 0;
  for (const [offset, weight] of [
    [-gaussOffset, 5 / 18],
    [0, 8 / 18],
    [gaussOffset, 5 / 18],
  ] as const) {
    const x = (1 + offset) / 2;
    const h = high.from + (high.to - high.from) * x;
    const s = fall.from + (fall.to - fall.from) * x;
    mean += (weight * width * h * h) / (2 * s);
    share += (weight * width * h) / s;
  }
  return { mean, share };
}

/** Slopes of a surface, degrees. */
export interface Slopes {
  /** Rise of the mean from front to back; negative = it falls. */
  readonly frontToBack: number;
  /** Rise of the mean from left to right. */
  readonly leftToRight: number;
  /** Steepest place, never negative. */
  readonly steepest: number;
}

/** Slopes of a surface over an inside of `length` by `width` m. */
export function slopes(corners: Corners, length: number, width: number): Slopes {
  const { frontLeft, frontRight, backLeft, backRight } = corners;
  const front = (frontRight - frontLeft) / length;
  const back = (backRight - backLeft) / length;
  const left = (backLeft - frontLeft) / width;
  const right = (backRight - frontRight) / width;
  // The gradient runs straight between the corners, so its length is greatest at one of them.
  const steepest = Math.max(
    Math.hypot(front, left),
    Math.hypot(front, right),
    Math.hypot(back, left),
    Math.hypot(back, right),
  );
  return {
    frontToBack: degrees((left + right) / 2),
    leftToRight: degrees((front + back) / 2),
    steepest: degrees(steepest),
  };
}

function degrees(tangent: number): number {
  return (Math.atan(tangent) * 180) / Math.PI;
}
