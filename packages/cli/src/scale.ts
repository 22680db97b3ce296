/** An axis with round figures. */
export interface Scale {
  readonly low: number;
  readonly high: number;
  /** From low to high. */
  readonly ticks: readonly number[];
  /** Decimals that tell the ticks apart. */
  readonly decimals: number;
}

/**
 * The axis with the smallest round step (1, 2 or 5 of some power of ten) that covers low to high in at most `most` steps.
 * @param least span shown at least, so that a calm curve looks calm; what cannot be negative stays above zero
 */
export function scaleFor(low: number, high: number, least: number, most: number): Scale {
  let from = low;
  let to = high;
  if (to - from < least) {
    const middle = (from + to) / 2;
    from = middle - least / 2;
    to = middle + least / 2;
    if (low >= 0 && from < 0) {
      to -= from;
      from = 0;
    }
  }
  const slack = 1e-9;
  let power = Math.floor(Math.log10((to - from) / most)) - 1;
  for (;;) {
    for (const factor of [1, 2, 5]) {
      const step = factor * 10 ** power;
      const first = Math.floor(from / step + slack);
      const last = Math.ceil(to / step - slack);
      if (last - first > most) continue;
      const decimals = Math.max(0, -power);
      const ticks = Array.from({ length: last - first + 1 }, (_, i) => Number(((first + i) * step).toFixed(decimals)));
      return { low: ticks[0]!, high: ticks.at(-1)!, ticks, decimals };
    }
    power += 1;
  }
}
