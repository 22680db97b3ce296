import type { RandomStream } from "../numerics/index.ts";

/** A smooth function of space about 0, within -1 and 1, that wanders over lengths of about 1. */
export type Noise = (x: number, y: number, z: number) => number;

const directions = [
  [1, 1, 0],
  [-1, 1, 0],
  [1, -1, 0],
  [-1, -1, 0],
  [1, 0, 1],
  [-1, 0, 1],
  [1, 0, -1],
  [-1, 0, -1],
  [0, 1, 1],
  [0, -1, 1],
  [0, 1, -1],
  [0, -1, -1],
] as const;

/** Gradient noise from a shuffled table. Source: Perlin 2002, Improving noise, ACM Trans. Graph. 21:681-682 (from memory). */
export function createNoise(random: RandomStream): Noise {
  const table = Uint8Array.from({ length: 256 }, (_, k) => k);
  for (let k = 255; k > 0; k--) {
    const other = Math.floor(random.uniform() * (k + 1));
    [table[k], table[other]] = [table[other]!, table[k]!];
  }
  const pick = (i: number, j: number, k: number): readonly [number, number, number] =>
    directions[table[(table[(table[i & 255]! + j) & 255]! + k) & 255]! % directions.length]!;
  return (x, y, z) => {
    const [i, j, k] = [Math.floor(x), Math.floor(y), Math.floor(z)];
    const [u, v, w] = [x - i, y - j, z - k];
    let sum = 0;
    for (let corner = 0; corner < 8; corner++) {
      const [a, b, c] = [corner & 1, (corner >> 1) & 1, corner >> 2];
      const [gx, gy, gz] = pick(i + a, j + b, k + c);
      const weight = ease(a ? u : 1 - u) * ease(b ? v : 1 - v) * ease(c ? w : 1 - w);
      sum += weight * (gx * (u - a) + gy * (v - b) + gz * (w - c));
    }
    return Math.max(-1, Math.min(1, sum));
  };
}

function ease(t: number): number {
  return t * t * t * (t * (6 * t - 15) + 10);
}
