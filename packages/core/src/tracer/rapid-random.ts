import { createRandom } from "../numerics/index.ts";

/**
 * The four words of the seeded generator of `numerics` in an array: the same sequence, but drawn from without a closure,
 * whose words the engine would box at every draw.
 */
export function rapidRandom(seed: number, stream: number): Int32Array {
  return Int32Array.from(createRandom(seed, stream).words(), (word) => word | 0);
}

/** Uniform on [0, 1), 32 bits. */
export function uniform(s: Int32Array): number {
  const s0 = s[0]!;
  const s1 = s[1]!;
  const times5 = Math.imul(s1, 5);
  const out = Math.imul((times5 << 7) | (times5 >>> 25), 9) >>> 0;
  const s2 = s[2]! ^ s0;
  const s3 = s[3]! ^ s1;
  s[1] = s1 ^ s2;
  s[0] = s0 ^ s3;
  s[2] = s2 ^ (s1 << 9);
  s[3] = (s3 << 11) | (s3 >>> 21);
  return out * 2 ** -32;
}
