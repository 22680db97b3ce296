/** Arithmetic mean; NaN of nothing. */
export function mean(values: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i]!;
  return sum / values.length;
}

/** Sample standard deviation (divisor count - 1), two passes; NaN below two values. */
export function standardDeviation(values: ArrayLike<number>): number {
  if (values.length < 2) return Number.NaN;
  const centre = mean(values);
  let sum = 0;
  let drift = 0;
  for (let i = 0; i < values.length; i++) {
    const d = values[i]! - centre;
    sum += d * d;
    drift += d;
  }
  return Math.sqrt((sum - (drift * drift) / values.length) / (values.length - 1));
}

/** Quantile (p from 0 to 1) of values in ascending order, linear between order statistics (`hyndman_fan_1996`, type 7). */
export function quantileSorted(sorted: ArrayLike<number>, p: number): number {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`a quantile's share must lie between 0 and 1, not ${p}`);
  if (sorted.length === 0) return Number.NaN;
  const place = p * (sorted.length - 1);
  const below = Math.floor(place);
  const low = sorted[below]!;
  const high = sorted[Math.min(below + 1, sorted.length - 1)]!;
  return low === high ? low : low + (place - below) * (high - low);
}

/** Quantile of values in any order; see `quantileSorted`. */
export function quantile(values: ArrayLike<number>, p: number): number {
  return quantileSorted(Float64Array.from(values).sort(), p);
}
