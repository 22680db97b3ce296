import { meanFade } from "./interface.ts";
import type { PreparedWater } from "./prepare.ts";

export interface WaterWalk {
  /**
   * Walks a straight piece of a path through the water grid: takes what the water absorbs from the weights, adds weight x
   * length to the cells of `sums` if given, and stops where `free` mean free lengths are used up.
   * @returns length gone
   */
  go(
    x: number,
    y: number,
    z: number,
    dx: number,
    dy: number,
    dz: number,
    most: number,
    free: number,
    sums: Float64Array | null,
  ): number;
  /** After `go`: -1 where it went all the way, else the share of leaves in what stopped it. */
  readonly leaf: Float64Array;
}

/**
 * Walks cell by cell (Amanatides & Woo 1987).
 * @param w weights of the path, changed by `go`; @param band their places among `bands` values of a cell
 */
export function createWaterWalk(
  grid: PreparedWater,
  absorption: Float64Array,
  scattering: number,
  band: Int32Array,
  bands: number,
  w: Float64Array,
): WaterWalk {
  const { columns, rows, layers, stepX, stepY, stepZ, leaves } = grid;
  const many = band.length;
  const leaf = new Float64Array(1);
  const stops = leaves !== null || scattering > 0;

  function go(
    x: number,
    y: number,
    z: number,
    dx: number,
    dy: number,
    dz: number,
    most: number,
    free: number,
    sums: Float64Array | null,
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
    leaf[0] = -1;
    for (;;) {
      let to = Math.min(nextX, nextY, nextZ);
      const end = to >= most;
      if (end) to = most;
      const cell = (k * rows + j) * columns + i;
      let stopped = false;
      if (stops) {
        const stop = leaves ? leaves[cell]! + scattering : scattering;
        const used = stop * (to - at);
        if (used >= free && stop > 0) {
          to = at + free / stop;
          leaf[0] = leaves ? leaves[cell]! / stop : 0;
          stopped = true;
        } else free -= used;
      }
      const step = to - at;
      if (step > 0) {
        const place = cell * bands;
        for (let b = 0; b < many; b++) {
          const a = absorption[b]! * step;
          const mean = meanFade(a);
          const here = w[b]!;
          if (sums) sums[place + band[b]!] = sums[place + band[b]!]! + here * step * mean;
          w[b] = here - here * a * mean;
        }
      }
      if (stopped || end) return to;
      at = to;
      if (nextX <= to) {
        i += dx > 0 ? 1 : -1;
        if (i < 0 || i >= columns) i = i < 0 ? 0 : columns - 1;
        nextX += perX;
      } else if (nextY <= to) {
        j += dy > 0 ? 1 : -1;
        if (j < 0 || j >= rows) j = j < 0 ? 0 : rows - 1;
        nextY += perY;
      } else {
        k += dz > 0 ? 1 : -1;
        if (k < 0 || k >= layers) k = k < 0 ? 0 : layers - 1;
        nextZ += perZ;
      }
    }
  }

  return { go, leaf };
}
