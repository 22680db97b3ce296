import type { RandomStream } from "./random.ts";
import { DIRECTIONS } from "./sobol-directions.ts";

/** Most dimensions a Sobol sequence is made for here. */
export const SOBOL_DIMENSIONS = DIRECTIONS.length + 1;

const BITS = 32;
const CELL = 2 ** -BITS;

function directionNumbers(dimension: number): Uint32Array {
  const v = new Uint32Array(BITS);
  if (dimension === 0) {
    for (let i = 0; i < BITS; i++) v[i] = 1 << (BITS - 1 - i);
    return v;
  }
  const [polynomial = 0, ...m] = DIRECTIONS[dimension - 1]!;
  const degree = m.length;
  for (let i = 0; i < BITS; i++) {
    if (i < degree) v[i] = m[i]! << (BITS - 1 - i);
    else {
      let value = v[i - degree]! ^ (v[i - degree]! >>> degree);
      for (let k = 1; k < degree; k++) if ((polynomial >>> (degree - k)) & 1) value ^= v[i - k]!;
      v[i] = value;
    }
  }
  return v;
}

/**
 * Points that fill the unit cube evenly (Sobol sequence, `joe_kuo_2008`): a mean over `count` of them converges nearly
 * like 1/count for smooth functions, where random points give 1/sqrt(count). Best with `count` a power of two. Values
 * are the middles of cells of 2^-32, so never 0 or 1.
 * @param count points, up to 2^32.
 * @param dimensions 1 to `SOBOL_DIMENSIONS`.
 * @param shift random stream for a digital shift: makes averages unbiased and repeats comparable; none without it.
 * @returns count x dimensions, row-major.
 */
export function sobolPoints(count: number, dimensions: number, shift?: RandomStream): Float64Array {
  if (!(Number.isInteger(dimensions) && dimensions >= 1 && dimensions <= SOBOL_DIMENSIONS)) {
    throw new RangeError(`Sobol points have 1 to ${SOBOL_DIMENSIONS} dimensions here, not ${dimensions}`);
  }
  if (!(Number.isInteger(count) && count >= 0 && count <= 2 ** BITS)) throw new RangeError(`no ${count} points`);
  const points = new Float64Array(count * dimensions);
  for (let j = 0; j < dimensions; j++) {
    const v = directionNumbers(j);
    let bits = shift ? shift.next32() : 0;
    for (let i = 0; i < count; i++) {
      // Gray code order: point i differs from point i - 1 in the direction of the lowest zero bit of i - 1.
      if (i > 0) bits ^= v[31 - Math.clz32(~(i - 1) & i)]!;
      points[i * dimensions + j] = ((bits >>> 0) + 0.5) * CELL;
    }
  }
  return points;
}
