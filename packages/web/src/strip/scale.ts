/** Axis of one row: its limits and where it is labelled. */
export interface Scale {
  readonly low: number;
  readonly high: number;
  readonly ticks: readonly number[];
  /** Decimals of a tick's label. */
  readonly decimals: number;
}

const steps = [0.1, 0.2, 0.25, 0.5, 1, 2, 2.5, 5, 10, 20, 25, 50, 100, 200, 250, 500];

/**
 * An axis that holds all values with a little air, in round steps.
 * @param most labels at the most
 */
export function scaleFor(
  values: Iterable<number>,
  most: number,
  options: { floor?: number; pad?: number } = {},
): Scale {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const v of values) {
    if (!Number.isFinite(v)) continue;
    if (v < low) low = v;
    if (v > high) high = v;
  }
  if (low > high) {
    low = 0;
    high = 1;
  }
  const air = Math.max((high - low) * (options.pad ?? 0.08), 1e-6);
  low -= air;
  high += air;
  if (options.floor !== undefined) low = Math.max(low, options.floor);
  const step = steps.find((s) => (high - low) / s <= most) ?? 1000;
  const ticks: number[] = [];
  for (let k = Math.ceil(low / step - 1e-9); k * step <= high + 1e-9; k += 1)
    ticks.push(Math.round(k * step * 1000) / 1000);
  const decimals = step < 1 ? (Number.isInteger(step * 10) ? 1 : 2) : Number.isInteger(step) ? 0 : 1;
  return { low, high, ticks, decimals };
}

/** Keeps an axis still while values move: it grows when it must and never shrinks. */
export function widen(kept: Scale | undefined, fresh: Scale, most: number): Scale {
  if (!kept) return fresh;
  if (fresh.low >= kept.low && fresh.high <= kept.high) return kept;
  return scaleFor([Math.min(kept.low, fresh.low), Math.max(kept.high, fresh.high)], most, { pad: 0 });
}
