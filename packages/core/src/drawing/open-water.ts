/** Finds where the picture is empty, so that a shoal can be seen. */
import { type Box, clamp } from "./geometry.ts";

const CELL = 9;

export class OpenWater {
  readonly #box: Box;
  readonly #columns: number;
  readonly #rows: number;
  readonly #taken: Float64Array;

  /** `ground` gives the page y of the ground at page x: below it nothing is open. */
  constructor(box: Box, ground: (x: number) => number) {
    this.#box = box;
    this.#columns = Math.max(1, Math.ceil((box.right - box.left) / CELL));
    this.#rows = Math.max(1, Math.ceil((box.bottom - box.top) / CELL));
    this.#taken = new Float64Array(this.#columns * this.#rows);
    for (let i = 0; i < this.#columns; i++) {
      const y = ground(box.left + (i + 0.5) * CELL);
      for (let j = 0; j < this.#rows; j++)
        if (box.top + (j + 0.5) * CELL > y - 4) this.#taken[j * this.#columns + i] = 3;
    }
  }

  /** Marks a box as taken, by `weight` (1 = full of leaves). */
  take(box: Box, weight: number): void {
    const [i0, i1] = [box.left, box.right].map((x) => Math.floor((x - this.#box.left) / CELL)) as [number, number];
    const [j0, j1] = [box.top, box.bottom].map((y) => Math.floor((y - this.#box.top) / CELL)) as [number, number];
    for (let j = Math.max(0, j0); j <= Math.min(this.#rows - 1, j1); j++) {
      for (let i = Math.max(0, i0); i <= Math.min(this.#columns - 1, i1); i++) {
        const k = j * this.#columns + i;
        this.#taken[k] = (this.#taken[k] ?? 0) + weight;
      }
    }
  }

  /** Middle of the emptiest window of the given size whose middle lies between the page heights `top` and `bottom`. */
  emptiest(width: number, height: number, top: number, bottom: number): { x: number; y: number } {
    const box = this.#box;
    const w = clamp(Math.round(width / CELL), 1, this.#columns);
    const h = clamp(Math.round(height / CELL), 1, this.#rows);
    // Sums over every rectangle that starts in the corner make each window four look-ups.
    const stride = this.#columns + 1;
    const sums = new Float64Array(stride * (this.#rows + 1));
    for (let j = 0; j < this.#rows; j++) {
      let row = 0;
      for (let i = 0; i < this.#columns; i++) {
        row += this.#taken[j * this.#columns + i] ?? 0;
        sums[(j + 1) * stride + i + 1] = (sums[j * stride + i + 1] ?? 0) + row;
      }
    }
    let best = { x: (box.left + box.right) / 2, y: clamp((top + bottom) / 2, box.top, box.bottom) };
    let least = Infinity;
    for (let j = 0; j + h <= this.#rows; j++) {
      const y = box.top + (j + h / 2) * CELL;
      if (y < top || y > bottom) continue;
      for (let i = 0; i + w <= this.#columns; i++) {
        const at = (a: number, b: number): number => sums[b * stride + a] ?? 0;
        const sum = at(i + w, j + h) - at(i, j + h) - at(i + w, j) + at(i, j);
        const x = box.left + (i + w / 2) * CELL;
        // Among equals the one nearer the middle of its layer.
        const score = sum / (w * h) + Math.abs(y - (top + bottom) / 2) / (box.bottom - box.top) / 4;
        if (score < least - 1e-9) [best, least] = [{ x, y }, score];
      }
    }
    return best;
  }
}
