export interface NelderMeadOptions {
  readonly lower?: readonly number[];
  readonly upper?: readonly number[];
  /** Size of the first simplex along each axis; default 10 % of x0, or of the bounds' distance where x0 is 0. */
  readonly size?: readonly number[];
  /** Simplex size, relative to the first one, at which the search ends; default 1e-6. */
  readonly xtol?: number;
  /** Spread of values over the simplex, relative to the best, at which it may end; default 1e-9. */
  readonly ftol?: number;
  /** Default 400 per dimension. */
  readonly maxEvaluations?: number;
  /** Fresh simplexes set up around the best point to see whether it holds; default 1. */
  readonly restarts?: number;
}

export interface NelderMeadResult {
  readonly x: Float64Array;
  readonly value: number;
  readonly evaluations: number;
  /** False when the evaluations ran out first. */
  readonly converged: boolean;
}

/**
 * Minimum of a function of a few variables without derivatives: simplex search (`nelder_mead_1965`) with coefficients
 * that fit the dimension (`gao_han_2012`). Points outside the bounds are moved onto them. A value that is not a number
 * counts as infinitely bad. Finds a local minimum; start it from several points where there may be more than one.
 */
export function nelderMead(
  f: (x: Float64Array) => number,
  x0: readonly number[] | Float64Array,
  options: NelderMeadOptions = {},
): NelderMeadResult {
  const n = x0.length;
  const { lower, upper, xtol = 1e-6, ftol = 1e-9, restarts = 1 } = options;
  const budget = options.maxEvaluations ?? 400 * n;
  const low = (j: number): number => lower?.[j] ?? Number.NEGATIVE_INFINITY;
  const high = (j: number): number => upper?.[j] ?? Number.POSITIVE_INFINITY;
  const size = Float64Array.from(x0, (value, j) => {
    const range = high(j) - low(j);
    return options.size?.[j] ?? (value !== 0 ? 0.1 * Math.abs(value) : Number.isFinite(range) ? 0.1 * range : 0.1);
  });
  for (let j = 0; j < n; j++) {
    if (!(low(j) <= high(j))) throw new RangeError(`bounds of variable ${j} are crossed: ${low(j)} above ${high(j)}`);
  }
  const expand = 1 + 2 / n;
  const contract = 0.75 - 1 / (2 * n);
  const shrink = n > 1 ? 1 - 1 / n : 0.5;

  let evaluations = 0;
  const evaluate = (x: Float64Array): number => {
    for (let j = 0; j < n; j++) x[j] = Math.min(high(j), Math.max(low(j), x[j]!));
    evaluations++;
    const value = f(x);
    return Number.isNaN(value) ? Number.POSITIVE_INFINITY : value;
  };
  const points = Array.from({ length: n + 1 }, () => ({ x: new Float64Array(n), value: 0 }));
  const centre = new Float64Array(n);
  const trial = new Float64Array(n);
  const second = new Float64Array(n);
  /** Writes centre + factor (worst - centre). */
  const along = (out: Float64Array, factor: number): void => {
    const worst = points[n]!.x;
    for (let j = 0; j < n; j++) out[j] = centre[j]! + factor * (worst[j]! - centre[j]!);
  };
  const replaceWorst = (x: Float64Array, value: number): void => {
    points[n]!.x.set(x);
    points[n]!.value = value;
  };

  const best = Float64Array.from(x0);
  let bestValue = evaluate(best);
  let converged = false;
  for (let round = 0; round <= restarts && evaluations < budget; round++) {
    const before = bestValue;
    points[0]!.x.set(best);
    points[0]!.value = bestValue;
    for (let i = 1; i <= n; i++) {
      const point = points[i]!;
      point.x.set(best);
      const j = i - 1;
      const offset = round % 2 === 0 ? size[j]! : -size[j]!;
      point.x[j] = best[j]! + (best[j]! + offset > high(j) || best[j]! + offset < low(j) ? -offset : offset);
      point.value = evaluate(point.x);
    }
    converged = false;
    while (evaluations < budget) {
      points.sort((p, q) => p.value - q.value);
      const top = points[0]!;
      const worst = points[n]!;
      let extent = 0;
      for (const point of points) {
        for (let j = 0; j < n; j++) extent = Math.max(extent, Math.abs(point.x[j]! - top.x[j]!) / (size[j]! || 1));
      }
      const spread = worst.value - top.value;
      if (
        extent <= xtol &&
        (spread <= ftol * Math.abs(top.value) || spread <= Number.MIN_VALUE || extent <= 1e-3 * xtol)
      ) {
        converged = true;
        break;
      }
      centre.fill(0);
      for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) centre[j] = centre[j]! + points[i]!.x[j]! / n;
      along(trial, -1);
      const reflected = evaluate(trial);
      if (reflected < top.value) {
        along(second, -expand);
        const expanded = evaluate(second);
        if (expanded < reflected) replaceWorst(second, expanded);
        else replaceWorst(trial, reflected);
        continue;
      }
      if (reflected < points[n - 1]!.value) {
        replaceWorst(trial, reflected);
        continue;
      }
      along(second, reflected < worst.value ? -contract : contract);
      const contracted = evaluate(second);
      if (contracted < Math.min(reflected, worst.value)) {
        replaceWorst(second, contracted);
        continue;
      }
      for (let i = 1; i <= n; i++) {
        const point = points[i]!;
        for (let j = 0; j < n; j++) point.x[j] = top.x[j]! + shrink * (point.x[j]! - top.x[j]!);
        point.value = evaluate(point.x);
      }
    }
    points.sort((p, q) => p.value - q.value);
    best.set(points[0]!.x);
    bestValue = points[0]!.value;
    if (round > 0 && !(bestValue < before - ftol * Math.abs(before))) break;
  }
  return { x: best, value: bestValue, evaluations, converged };
}
