/**
 * Exchange between neighbouring cells that takes out noise and keeps the sum: each pair of cells that touch gives the
 * same to each other, as in a 3 x 3 binomial blur. Pairs whose difference stands out of their noise keep it, and cells
 * that no path met (under a stone) take no part.
 */
export interface Exchange {
  /** Pairs of cells, and the share of their difference that they exchange. */
  readonly one: Int32Array;
  readonly other: Int32Array;
  readonly share: Float64Array;
}

/** Differences beyond this many standard errors are kept. Design value. */
const STANDS_OUT = 3;
const SIDE = 1 / 8;
const CORNER = 1 / 16;

/** @param value @param variance of every cell, row by row; the variance is that of the value's own noise */
export function exchangeFor(columns: number, rows: number, value: Float64Array, variance: Float64Array): Exchange {
  const one: number[] = [];
  const other: number[] = [];
  const share: number[] = [];
  const offer = (a: number, b: number, part: number): void => {
    if (variance[a]! === 0 || variance[b]! === 0) return;
    const apart = value[a]! - value[b]!;
    if (apart * apart > STANDS_OUT * STANDS_OUT * (variance[a]! + variance[b]!)) return;
    one.push(a);
    other.push(b);
    share.push(part);
  };
  for (let j = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++) {
      const cell = j * columns + i;
      if (i + 1 < columns) offer(cell, cell + 1, SIDE);
      if (j + 1 === rows) continue;
      offer(cell, cell + columns, SIDE);
      if (i + 1 < columns) offer(cell, cell + columns + 1, CORNER);
      if (i > 0) offer(cell, cell + columns - 1, CORNER);
    }
  }
  return { one: Int32Array.from(one), other: Int32Array.from(other), share: Float64Array.from(share) };
}

/** The map after the exchange; its sum is the same. */
export function smoothed(map: Float64Array, { one, other, share }: Exchange): Float64Array {
  const out = map.slice();
  for (let k = 0; k < one.length; k++) {
    const [a, b] = [one[k]!, other[k]!];
    const moved = share[k]! * (map[b]! - map[a]!);
    out[a] = out[a]! + moved;
    out[b] = out[b]! - moved;
  }
  return out;
}

/** Variance of the cells after the exchange, where their noise is independent. */
export function smoothedVariance(variance: Float64Array, { one, other, share }: Exchange): Float64Array {
  const kept = new Float64Array(variance.length).fill(1);
  const out = new Float64Array(variance.length);
  for (let k = 0; k < one.length; k++) {
    const [a, b] = [one[k]!, other[k]!];
    kept[a] = kept[a]! - share[k]!;
    kept[b] = kept[b]! - share[k]!;
    out[a] = out[a]! + share[k]! * share[k]! * variance[b]!;
    out[b] = out[b]! + share[k]! * share[k]! * variance[a]!;
  }
  for (let cell = 0; cell < out.length; cell++) out[cell] = out[cell]! + kept[cell]! * kept[cell]! * variance[cell]!;
  return out;
}
