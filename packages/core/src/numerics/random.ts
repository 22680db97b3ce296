/** A stream of pseudo-random numbers that repeats exactly for the same seed. */
export interface RandomStream {
  /** Next integer, 0 to 2^32 - 1. */
  next32(): number;
  /** Uniform on [0, 1), 53 bits. */
  uniform(): number;
  /** Normal, mean 0, standard deviation 1 (`marsaglia_bray_1964`). */
  normal(): number;
  /** The four 32-bit words of the state: `createRandom(words)` carries on from here (a held-back normal is lost). */
  words(): [number, number, number, number];
}

const STRIDE = 0x9e3779b9;

/** Finaliser that scatters the bits of a 32-bit integer (the one of MurmurHash3, public domain). */
function scatter(value: number): number {
  let z = value >>> 0;
  z = Math.imul(z ^ (z >>> 16), 0x85ebca6b);
  z = Math.imul(z ^ (z >>> 13), 0xc2b2ae35);
  return (z ^ (z >>> 16)) >>> 0;
}

const rotate = (x: number, k: number): number => (x << k) | (x >>> (32 - k));

/**
 * Generator xoshiro128** 1.1 (`blackman_vigna_2021`; period 2^128 - 1). Its four words are filled from a 32-bit seed by
 * a counter with stride 0x9e3779b9 and a scattering finaliser (`steele_lea_flood_2014`), exclusive-ored with four words
 * made likewise from the stream number, so that members of an ensemble draw from unrelated sequences.
 * Not for secrets.
 * @param seed 32-bit integer, or the four words of a state (not all zero).
 * @param stream 32-bit integer.
 */
export function createRandom(seed: number | readonly [number, number, number, number], stream = 0): RandomStream {
  let s0: number;
  let s1: number;
  let s2: number;
  let s3: number;
  if (typeof seed === "number") {
    if (!Number.isInteger(seed) || !Number.isInteger(stream)) throw new RangeError("seed and stream must be integers");
    const side = scatter(stream ^ 0x6a09e667);
    const word = (i: number): number => (scatter(seed + i * STRIDE) ^ scatter(side + i * STRIDE)) | 0;
    [s0, s1, s2, s3] = [word(1), word(2), word(3), word(4)];
    if ((s0 | s1 | s2 | s3) === 0) s0 = 1;
  } else {
    [s0, s1, s2, s3] = [seed[0] | 0, seed[1] | 0, seed[2] | 0, seed[3] | 0];
    if ((s0 | s1 | s2 | s3) === 0) throw new RangeError("the four words of a state must not all be zero");
  }
  let spare = Number.NaN;

  function next32(): number {
    const out = Math.imul(rotate(Math.imul(s1, 5), 7), 9) >>> 0;
    const shifted = s1 << 9;
    s2 ^= s0;
    s3 ^= s1;
    s1 ^= s2;
    s0 ^= s3;
    s2 ^= shifted;
    s3 = rotate(s3, 11);
    return out;
  }
  function uniform(): number {
    return ((next32() >>> 5) * 67108864 + (next32() >>> 6)) / 9007199254740992;
  }
  function normal(): number {
    if (!Number.isNaN(spare)) {
      const kept = spare;
      spare = Number.NaN;
      return kept;
    }
    for (;;) {
      const a = 2 * uniform() - 1;
      const b = 2 * uniform() - 1;
      const square = a * a + b * b;
      if (square >= 1 || square === 0) continue;
      const factor = Math.sqrt((-2 * Math.log(square)) / square);
      spare = b * factor;
      return a * factor;
    }
  }
  return { next32, uniform, normal, words: () => [s0 >>> 0, s1 >>> 0, s2 >>> 0, s3 >>> 0] };
}
