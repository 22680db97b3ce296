import type { PreparedWater } from "./prepare.ts";

/**
 * How much of the leaves a straight piece of light meets: mean number of them, of which e^-depth passes all. Walks cell by
 * cell (Amanatides & Woo 1987).
 * @param most length of the piece, m
 */
export function leafDepth(
  { columns, rows, layers, stepX, stepY, stepZ }: PreparedWater,
  leaves: Float64Array,
  x: number,
  y: number,
  z: number,
  dx: number,
  dy: number,
  dz: number,
  most: number,
): number {
  let i = Math.min(columns - 1, Math.max(0, Math.floor(x / stepX)));
  let j = Math.min(rows - 1, Math.max(0, Math.floor(y / stepY)));
  let k = Math.min(layers - 1, Math.max(0, Math.floor(z / stepZ)));
  const perX = dx !== 0 ? stepX / Math.abs(dx) : Number.POSITIVE_INFINITY;
  const perY = dy !== 0 ? stepY / Math.abs(dy) : Number.POSITIVE_INFINITY;
  const perZ = dz !== 0 ? stepZ / Math.abs(dz) : Number.POSITIVE_INFINITY;
  let nextX = dx !== 0 ? ((dx > 0 ? i + 1 : i) * stepX - x) / dx : Number.POSITIVE_INFINITY;
  let nextY = dy !== 0 ? ((dy > 0 ? j + 1 : j) * stepY - y) / dy : Number.POSITIVE_INFINITY;
  let nextZ = dz !== 0 ? ((dz > 0 ? k + 1 : k) * stepZ - z) / dz : Number.POSITIVE_INFINITY;
  let at = 0;
  let sum = 0;
  for (;;) {
    const to = Math.min(nextX, nextY, nextZ, most);
    sum += leaves[(k * rows + j) * columns + i]! * (to - at);
    if (to >= most) return sum;
    at = to;
    if (nextX <= to) {
      i = Math.min(columns - 1, Math.max(0, i + (dx > 0 ? 1 : -1)));
      nextX += perX;
    } else if (nextY <= to) {
      j = Math.min(rows - 1, Math.max(0, j + (dy > 0 ? 1 : -1)));
      nextY += perY;
    } else {
      k = Math.min(layers - 1, Math.max(0, k + (dz > 0 ? 1 : -1)));
      nextZ += perZ;
    }
  }
}
