/**
 * Irradiance below lamps in air, on a plane parallel to the lamp; matt emitters (Lambertian) unless told otherwise.
 * All are exact. Lengths in m, flux in umol/s, results in umol/m2/s.
 */

const checkHeight = (height: number): void => {
  if (!(height > 0)) throw new RangeError(`height above the plane: ${height} m; allowed is above 0`);
};

/** Below a point. @param intensity towards the receiver, umol/s/sr; @param offset horizontal distance */
export function pointInAir(intensity: number, height: number, offset: number): number {
  checkHeight(height);
  const square = height * height + offset * offset;
  return (intensity * height) / (square * Math.sqrt(square));
}

/** On the axis of a matt disc. */
export function discInAir(flux: number, radius: number, height: number): number {
  checkHeight(height);
  return flux / (Math.PI * (radius * radius + height * height));
}

/** Below the middle of a matt strip that is narrow against its height. @param offset across the strip */
export function stripInAir(flux: number, length: number, height: number, offset: number): number {
  checkHeight(height);
  const distance = Math.hypot(height, offset);
  const u = length / (2 * distance);
  // per length, so that the strip may shrink to a point
  const bracket = u > 1e-4 ? (u / (1 + u * u) + Math.atan(u)) / length : (1 - (2 * u * u) / 3) / distance;
  return ((flux / Math.PI) * (height * height * bracket)) / distance ** 3;
}

/**
 * Share of the half-space's cosine-weighted view, seen from a small plane, that a parallel rectangle fills whose corner
 * stands opposite it. @param a @param b sides over distance; negative sides count negative
 * @returns -0.25..0.25. Source: howell-catalogue
 */
export function cornerFactor(a: number, b: number): number {
  const ra = Math.hypot(1, a);
  const rb = Math.hypot(1, b);
  return ((a / ra) * Math.atan(b / ra) + (b / rb) * Math.atan(a / rb)) / (2 * Math.PI);
}

/**
 * Below any point of a matt rectangle, as four corner rectangles added and taken away.
 * @param x @param y place from the middle, along length and width
 */
export function panelInAir(flux: number, length: number, width: number, height: number, x: number, y: number): number {
  checkHeight(height);
  if (!(length > 0 && width > 0)) throw new RangeError(`panel: ${length} by ${width} m; both must be above 0`);
  const right = (length / 2 - x) / height;
  const left = (-length / 2 - x) / height;
  const far = (width / 2 - y) / height;
  const near = (-width / 2 - y) / height;
  const view =
    cornerFactor(right, far) - cornerFactor(left, far) - cornerFactor(right, near) + cornerFactor(left, near);
  return (view * flux) / (length * width);
}

/** One small source as a receiver sees it. */
export interface SeenSource {
  /** Intensity towards the receiver, umol/s/sr (or cd, for lux). */
  readonly intensity: number;
  /** Cosine of the angle between the receiver's normal and the source. */
  readonly cosine: number;
  /** m. */
  readonly distance: number;
}

/** Several small sources, point by point; those behind the receiver give nothing. */
export function pointByPoint(sources: readonly SeenSource[]): number {
  return sources.reduce((sum, { intensity, cosine, distance }, i) => {
    if (!(distance > 0)) throw new RangeError(`source ${i + 1}: distance ${distance} m; allowed is above 0`);
    return sum + (intensity * Math.max(0, cosine)) / (distance * distance);
  }, 0);
}

/** A rectangle in its own plane, m. */
export interface Rectangle {
  readonly x: readonly [from: number, to: number];
  readonly y: readonly [from: number, to: number];
}

/**
 * Share of a matt panel's flux that falls into a parallel opening anywhere below it (view factor, closed form).
 * @param gap distance between the planes, m, above 0
 * @returns 0..1. Source: howell-catalogue
 */
export function panelToOpening(panel: Rectangle, opening: Rectangle, gap: number): number {
  checkHeight(gap);
  const area = (panel.x[1] - panel.x[0]) * (panel.y[1] - panel.y[0]);
  if (!(area > 0 && opening.x[1] > opening.x[0] && opening.y[1] > opening.y[0])) {
    throw new RangeError("panel and opening: each must run from a lower to a higher end along x and y");
  }
  // sizes against the gap, so that squares of very small or large lengths keep their digits
  const g = (dx: number, dy: number): number => {
    const rx = Math.hypot(1, dx);
    const ry = Math.hypot(1, dy);
    return dy * rx * Math.atan(dy / rx) + dx * ry * Math.atan(dx / ry) - 0.5 * Math.log(1 + dx * dx + dy * dy);
  };
  let sum = 0;
  for (const i of [0, 1] as const) {
    for (const j of [0, 1] as const) {
      for (const k of [0, 1] as const) {
        for (const l of [0, 1] as const) {
          const sign = (i + j + k + l) % 2 === 0 ? 1 : -1;
          sum += sign * g((panel.x[i] - opening.x[k]) / gap, (panel.y[j] - opening.y[l]) / gap);
        }
      }
    }
  }
  // sixteen terms cancel to leave little when the gap is large: below their rounding there is nothing to tell
  return Math.min(1, Math.max(0, (sum * gap * gap) / (2 * Math.PI * area)));
}

/** A rectangle by its size and middle, m. */
export const rectangle = (length: number, width: number, x = 0, y = 0): Rectangle => ({
  x: [x - length / 2, x + length / 2],
  y: [y - width / 2, y + width / 2],
});
