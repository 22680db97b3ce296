/** Below this the series of e^x to the sixth power is exact to rounding (3e-16). */
const limit = 0.02;
const c3 = 1 / 6;
const c4 = 1 / 24;
const c5 = 1 / 120;
const c6 = 1 / 720;

/** The series of e^x to the sixth power. */
function seriesExp(x: number): number {
  return 1 + x * (1 + x * (0.5 + x * (c3 + x * (c4 + x * (c5 + x * c6)))));
}

/** e^x, by its series where x is small, as the last steps of an iteration are: several times faster than `Math.exp`. */
export function smallExp(x: number): number {
  return x < limit && x > -limit ? seriesExp(x) : Math.exp(x);
}

const c12 = 1 / 12;

/**
 * e^x without a branch, for fitted constants that must stay smooth: the fourth power of a ratio of quadratics, always
 * positive; relative error 2e-7 at 0.5, 5e-6 at 1.
 */
export function smoothExp(x: number): number {
  const y = 0.25 * x;
  const even = 1 + c12 * y * y;
  const odd = 0.5 * y;
  const e = (even + odd) / (even - odd);
  const square = e * e;
  return square * square;
}
