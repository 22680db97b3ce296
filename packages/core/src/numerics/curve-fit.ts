import { leastSquares, RankError } from "./least-squares.ts";

export interface CurveFitOptions {
  /** Standard deviation of each y; default equal and unknown. */
  readonly sd?: ArrayLike<number>;
  /** True when `sd` is known outright: standard errors are then not scaled by the scatter about the curve. */
  readonly sdKnown?: boolean;
  readonly lower?: readonly number[];
  readonly upper?: readonly number[];
  /** Default 200. */
  readonly maxIterations?: number;
  /** Relative change of parameters and of the sum of squares at which the fit ends; default 1e-10. */
  readonly tolerance?: number;
}

export interface CurveFit {
  readonly parameters: Float64Array;
  /** One standard error each; 0 for a parameter held at a bound, NaN when the data leave no degree of freedom. */
  readonly standardErrors: Float64Array;
  /** k x k, row-major. */
  readonly covariance: Float64Array;
  /** Weighted sum of squared residuals. */
  readonly sumOfSquares: number;
  /** sqrt(sumOfSquares / degrees of freedom): in y's unit when `sd` was not given. */
  readonly residualSd: number;
  readonly iterations: number;
  readonly converged: boolean;
}

/**
 * Fits a curve y = model(x, p) with a few parameters by least squares (`marquardt_1963`), with bounds. Derivatives by
 * central differences. Standard errors come from the linearised model at the solution; they say nothing about a second
 * minimum elsewhere.
 * @throws RangeError for too few points or a start where the model gives no number; RankError when the points do not
 *   determine the parameters.
 */
export function fitCurve(
  model: (x: number, p: Float64Array) => number,
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  start: readonly number[],
  options: CurveFitOptions = {},
): CurveFit {
  const k = start.length;
  const rows = x.length;
  if (y.length !== rows) throw new RangeError(`${rows} x values against ${y.length} y values`);
  if (rows < k) throw new RangeError(`${rows} points cannot fix ${k} parameters`);
  const { maxIterations = 200, tolerance = 1e-10 } = options;
  const low = (j: number): number => options.lower?.[j] ?? Number.NEGATIVE_INFINITY;
  const high = (j: number): number => options.upper?.[j] ?? Number.POSITIVE_INFINITY;
  const clamp = (value: number, j: number): number => Math.min(high(j), Math.max(low(j), value));

  const residuals = (p: Float64Array, out: Float64Array): number => {
    let sum = 0;
    for (let i = 0; i < rows; i++) {
      const r = (y[i]! - model(x[i]!, p)) / (options.sd?.[i] ?? 1);
      out[i] = r;
      sum += r * r;
    }
    return sum;
  };
  const p = Float64Array.from(start, clamp);
  const trial = new Float64Array(k);
  const r = new Float64Array(rows);
  const rTrial = new Float64Array(rows);
  const jacobian = new Float64Array(rows * k);
  let sum = residuals(p, r);
  if (!Number.isFinite(sum)) throw new RangeError("the model gives no number at the starting parameters");

  const differentiate = (): void => {
    for (let j = 0; j < k; j++) {
      const kept = p[j]!;
      const h = 6e-6 * Math.max(Math.abs(kept), 1e-8);
      const up = clamp(kept + h, j);
      const down = clamp(kept - h, j);
      for (let i = 0; i < rows; i++) {
        p[j] = up;
        const above = model(x[i]!, p);
        p[j] = down;
        const below = model(x[i]!, p);
        jacobian[i * k + j] = up > down ? (above - below) / (up - down) / (options.sd?.[i] ?? 1) : 0;
      }
      p[j] = kept;
    }
  };
  /** A parameter at a bound that the data push outwards is held there. */
  const held = (j: number): boolean => {
    if (p[j]! > low(j) && p[j]! < high(j)) return false;
    let push = 0;
    for (let i = 0; i < rows; i++) push += jacobian[i * k + j]! * r[i]!;
    return (p[j]! <= low(j) && push <= 0) || (p[j]! >= high(j) && push >= 0);
  };

  let lambda = 1e-3;
  let iterations = 0;
  let converged = false;
  while (iterations < maxIterations && !converged) {
    iterations++;
    differentiate();
    const free: number[] = [];
    for (let j = 0; j < k; j++) if (!held(j)) free.push(j);
    if (free.length === 0) {
      converged = true;
      break;
    }
    const norms = free.map((j) => {
      let square = 0;
      for (let i = 0; i < rows; i++) square += jacobian[i * k + j]! ** 2;
      return Math.sqrt(square);
    });
    let improved = false;
    while (!improved) {
      // Damped normal equations as a least-squares problem with one more row per parameter.
      const columns = free.length;
      const a = new Float64Array((rows + columns) * columns);
      const b = new Float64Array(rows + columns);
      b.set(r);
      for (let i = 0; i < rows; i++) for (let c = 0; c < columns; c++) a[i * columns + c] = jacobian[i * k + free[c]!]!;
      for (let c = 0; c < columns; c++) a[(rows + c) * columns + c] = Math.sqrt(lambda) * (norms[c]! || 1);
      const { x: step } = leastSquares(a, b, columns);
      trial.set(p);
      let move = 0;
      for (let c = 0; c < columns; c++) {
        const j = free[c]!;
        trial[j] = clamp(p[j]! + step[c]!, j);
        move = Math.max(move, Math.abs(trial[j]! - p[j]!) / Math.max(Math.abs(p[j]!), 1e-12));
      }
      const trialSum = residuals(trial, rTrial);
      if (trialSum <= sum) {
        converged =
          move <= tolerance || (sum - trialSum <= tolerance * tolerance * sum && move <= Math.sqrt(tolerance));
        p.set(trial);
        r.set(rTrial);
        sum = trialSum;
        lambda = Math.max(lambda / 10, 1e-15);
        improved = true;
      } else {
        if (move <= tolerance || lambda > 1e12) {
          // No step, however small, lowers the sum: this is the minimum to rounding.
          converged = move <= tolerance;
          break;
        }
        lambda *= 10;
      }
    }
    if (!improved) break;
  }

  differentiate();
  const free: number[] = [];
  for (let j = 0; j < k; j++) if (!held(j)) free.push(j);
  const covariance = new Float64Array(k * k);
  const freedom = rows - free.length;
  const variance = freedom > 0 ? sum / freedom : Number.NaN;
  if (free.length > 0) {
    const columns = free.length;
    const a = new Float64Array(rows * columns);
    for (let i = 0; i < rows; i++) for (let c = 0; c < columns; c++) a[i * columns + c] = jacobian[i * k + free[c]!]!;
    let normal: Float64Array;
    try {
      normal = leastSquares(a, r, columns).inverseNormal;
    } catch (error) {
      if (error instanceof RankError) throw new RankError(free[error.column]!);
      throw error;
    }
    const scale = options.sdKnown ? 1 : variance;
    for (let c = 0; c < columns; c++) {
      for (let d = 0; d < columns; d++) covariance[free[c]! * k + free[d]!] = scale * normal[c * columns + d]!;
    }
  }
  return {
    parameters: p,
    standardErrors: Float64Array.from({ length: k }, (_, j) => Math.sqrt(covariance[j * k + j]!)),
    covariance,
    sumOfSquares: sum,
    residualSd: Math.sqrt(variance),
    iterations,
    converged,
  };
}
