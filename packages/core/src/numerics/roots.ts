export interface RootOptions {
  /** Error allowed in x, absolute; default 0 (as close as the arithmetic goes). */
  readonly xtol?: number;
  /** A value of f this small counts as zero; default 0. */
  readonly ftol?: number;
  /** Default 500; only a root of high order at exactly 0 comes near it. */
  readonly maxIterations?: number;
}

/** A bracket this small, against the one at the start, is an answer even when the iterations are used up. */
const NARROW = 1e-15;

/** A root could not be had: the interval does not bracket one, or f gave no number. */
export class RootError extends Error {
  readonly a: number;
  readonly b: number;
  readonly fa: number;
  readonly fb: number;
  constructor(reason: string, a: number, b: number, fa: number, fb: number) {
    super(`${reason}: f(${a}) = ${fa}, f(${b}) = ${fb}`);
    this.name = "RootError";
    this.a = a;
    this.b = b;
    this.fa = fa;
    this.fb = fb;
  }
}

function checkBracket(a: number, b: number, fa: number, fb: number): void {
  if (!(Number.isFinite(a) && Number.isFinite(b))) throw new RootError("the interval is not finite", a, b, fa, fb);
  if (Number.isNaN(fa) || Number.isNaN(fb)) throw new RootError("the function has no value at an end", a, b, fa, fb);
  if (fa !== 0 && fb !== 0 && fa > 0 === fb > 0) {
    throw new RootError("no root is bracketed: both ends have the same sign", a, b, fa, fb);
  }
}

/**
 * Root of a continuous function between a and b, where it has opposite signs (`brent_1973`, ch. 4): inverse quadratic
 * interpolation, secant and bisection, never worse than bisection by more than a small factor.
 * @returns x with f(x) = 0 within `xtol`, or |f(x)| <= `ftol`.
 * @throws RootError when f(a) and f(b) have the same sign, or f is not a number somewhere.
 */
export function findRoot(f: (x: number) => number, a: number, b: number, options: RootOptions = {}): number {
  const { xtol = 0, ftol = 0, maxIterations = 500 } = options;
  let fa = f(a);
  let fb = f(b);
  checkBracket(a, b, fa, fb);
  if (Math.abs(fa) <= ftol) return a;
  if (Math.abs(fb) <= ftol) return b;
  // b is the best point so far, c the other end of the bracket, a the previous best.
  let previous = a;
  let best = b;
  let other = previous;
  let fOther = fa;
  let step = best - previous;
  let stepBefore = step;
  for (let i = 0; i < maxIterations; i++) {
    if (fb > 0 === fOther > 0) {
      other = previous;
      fOther = fa;
      step = best - previous;
      stepBefore = step;
    }
    if (Math.abs(fOther) < Math.abs(fb)) {
      previous = best;
      best = other;
      other = previous;
      fa = fb;
      fb = fOther;
      fOther = fa;
    }
    const tolerance = 2 * Number.EPSILON * Math.abs(best) + 0.5 * xtol;
    const half = 0.5 * (other - best);
    if (Math.abs(half) <= tolerance || Math.abs(fb) <= ftol) return best;
    if (Math.abs(stepBefore) >= tolerance && Math.abs(fa) > Math.abs(fb)) {
      const s = fb / fa;
      let p: number;
      let q: number;
      if (previous === other) {
        p = 2 * half * s;
        q = 1 - s;
      } else {
        const r = fb / fOther;
        const v = fa / fOther;
        p = s * (2 * half * v * (v - r) - (best - previous) * (r - 1));
        q = (v - 1) * (r - 1) * (s - 1);
      }
      if (p > 0) q = -q;
      p = Math.abs(p);
      if (2 * p < Math.min(3 * half * q - Math.abs(tolerance * q), Math.abs(stepBefore * q))) {
        stepBefore = step;
        step = p / q;
      } else {
        step = half;
        stepBefore = half;
      }
    } else {
      step = half;
      stepBefore = half;
    }
    previous = best;
    fa = fb;
    best += Math.abs(step) > tolerance ? step : half > 0 ? tolerance : -tolerance;
    fb = f(best);
    if (Number.isNaN(fb)) throw new RootError("the function has no value inside the interval", previous, best, fa, fb);
  }
  if (Math.abs(other - best) <= NARROW * Math.abs(b - a)) return best;
  throw new RootError(`no root within ${maxIterations} iterations`, best, other, fb, fOther);
}

/**
 * Root by Newton's method kept inside a bracket: a step that leaves the bracket, or fails to halve the function's
 * bracket fast enough, is replaced by bisection.
 * @param derivative df/dx; needs only be good near the root.
 * @throws RootError as `findRoot`.
 */
export function findRootNewton(
  f: (x: number) => number,
  derivative: (x: number) => number,
  a: number,
  b: number,
  options: RootOptions = {},
): number {
  const { xtol = 0, ftol = 0, maxIterations = 500 } = options;
  const fa = f(a);
  const fb = f(b);
  checkBracket(a, b, fa, fb);
  if (Math.abs(fa) <= ftol) return a;
  if (Math.abs(fb) <= ftol) return b;
  let below = fa < 0 ? a : b;
  let above = fa < 0 ? b : a;
  let x = 0.5 * (a + b);
  let stepBefore = Math.abs(b - a);
  for (let i = 0; i < maxIterations; i++) {
    const fx = f(x);
    if (Number.isNaN(fx)) throw new RootError("the function has no value inside the interval", below, above, fx, fx);
    if (Math.abs(fx) <= ftol) return x;
    if (fx < 0) below = x;
    else above = x;
    const tolerance = 2 * Number.EPSILON * Math.abs(x) + 0.5 * xtol;
    if (Math.abs(above - below) <= 2 * tolerance) return x;
    const newton = -fx / derivative(x);
    const target = x + newton;
    const inside = (target - below) * (target - above) < 0;
    if (inside && Math.abs(newton) <= tolerance) return target;
    const bisect = !inside || Math.abs(newton) > 0.5 * stepBefore;
    const next = bisect ? 0.5 * (below + above) : target;
    stepBefore = Math.abs(next - x);
    x = next;
  }
  if (Math.abs(above - below) <= NARROW * Math.abs(b - a)) return x;
  throw new RootError(`no root within ${maxIterations} iterations`, below, above, f(below), f(above));
}
