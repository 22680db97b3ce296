/** Which face of a piece an eye sees at each place of the page: a small buffer of distances. */
import type { Box } from "./geometry.ts";
import type { SolidFaces } from "./solid-faces.ts";

/** Cells of the largest buffer; larger pieces get coarser cells. Design value. */
const MOST_CELLS = 150_000;
/** Two faces this close behind one another count as one, m. Design value. */
const CLOSE = 0.002;

export type Visibility = "whole" | "part" | "none";

export class SolidRaster {
  readonly left: number;
  readonly top: number;
  readonly columns: number;
  readonly rows: number;
  /** px */
  readonly cell: number;
  readonly #away: Float64Array;
  readonly #face: Int32Array;
  readonly #solid: SolidFaces;
  readonly #slack: number;

  constructor(solid: SolidFaces, keep: Box) {
    this.#solid = solid;
    let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
    for (const { corners } of solid.faces) {
      for (const k of corners) {
        left = Math.min(left, solid.px[k]!);
        right = Math.max(right, solid.px[k]!);
        top = Math.min(top, solid.py[k]!);
        bottom = Math.max(bottom, solid.py[k]!);
      }
    }
    left = Math.max(left, keep.left - 2);
    right = Math.min(right, keep.right + 2);
    top = Math.max(top, keep.top - 2);
    bottom = Math.min(bottom, keep.bottom + 2);
    const [wide, high] = [Math.max(0, right - left), Math.max(0, bottom - top)];
    this.cell = Math.max(1, Math.sqrt((wide * high) / MOST_CELLS) || 1);
    this.left = Number.isFinite(left) ? left - this.cell : 0;
    this.top = Number.isFinite(top) ? top - this.cell : 0;
    this.columns = Number.isFinite(wide) ? Math.ceil(wide / this.cell) + 2 : 1;
    this.rows = Number.isFinite(high) ? Math.ceil(high / this.cell) + 2 : 1;
    this.#slack = CLOSE;
    this.#away = new Float64Array(this.columns * this.rows).fill(Number.POSITIVE_INFINITY);
    this.#face = new Int32Array(this.columns * this.rows).fill(-1);
    solid.faces.forEach((_, f) => {
      this.#cover(f, (at, away) => {
        if (away < this.#away[at]!) {
          this.#away[at] = away;
          this.#face[at] = f;
        }
      });
    });
  }

  /** Calls back for every cell whose middle lies in a face. */
  #cover(f: number, found: (at: number, away: number) => void): void {
    const { px, py, away, faces } = this.#solid;
    const { corners } = faces[f]!;
    for (let k = 1; k + 1 < corners.length; k++) {
      const [a, b, c] = [corners[0]!, corners[k]!, corners[k + 1]!];
      const [ax, ay, bx, by, cx, cy] = [px[a]!, py[a]!, px[b]!, py[b]!, px[c]!, py[c]!];
      const area = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
      if (!(Math.abs(area) > 1e-9)) continue;
      const { cell, left, top } = this;
      const i0 = Math.max(0, Math.ceil((Math.min(ax, bx, cx) - left) / cell - 0.5));
      const i1 = Math.min(this.columns - 1, Math.floor((Math.max(ax, bx, cx) - left) / cell - 0.5));
      const j0 = Math.max(0, Math.ceil((Math.min(ay, by, cy) - top) / cell - 0.5));
      const j1 = Math.min(this.rows - 1, Math.floor((Math.max(ay, by, cy) - top) / cell - 0.5));
      const [za, zb, zc] = [away[a]!, away[b]!, away[c]!];
      for (let j = j0; j <= j1; j++) {
        const y = top + (j + 0.5) * cell;
        for (let i = i0; i <= i1; i++) {
          const x = left + (i + 0.5) * cell;
          const v = ((x - ax) * (cy - ay) - (y - ay) * (cx - ax)) / area;
          const w = ((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / area;
          if (v < 0 || w < 0 || v + w > 1) continue;
          found(j * this.columns + i, za + (zb - za) * v + (zc - za) * w);
        }
      }
    }
  }

  /** How much of a face is not hidden by others of the piece. */
  visibility(f: number): Visibility {
    let cells = 0;
    let hidden = 0;
    this.#cover(f, (at, away) => {
      cells++;
      if (this.#away[at]! < away - this.#slack) hidden++;
    });
    if (cells === 0) {
      const { corners } = this.#solid.faces[f]!;
      const middle = (list: readonly number[]): number =>
        corners.reduce((sum, k) => sum + list[k]!, 0) / corners.length;
      const { px, py, away } = this.#solid;
      return this.sees(middle(px), middle(py), middle(away)) ? "whole" : "none";
    }
    return hidden === 0 ? "whole" : hidden === cells ? "none" : "part";
  }

  #at(x: number, y: number): number {
    const i = Math.floor((x - this.left) / this.cell);
    const j = Math.floor((y - this.top) / this.cell);
    return i < 0 || j < 0 || i >= this.columns || j >= this.rows ? -1 : j * this.columns + i;
  }

  /** Whether nothing of the piece lies before a place at a distance. */
  sees(x: number, y: number, away: number, slack = this.#slack): boolean {
    const at = this.#at(x, y);
    return at < 0 || this.#away[at]! >= away - slack;
  }

  /** The face seen at a place of the page, -1 for none. */
  faceAt(x: number, y: number): number {
    const at = this.#at(x, y);
    return at < 0 ? -1 : this.#face[at]!;
  }

  awayAt(x: number, y: number): number {
    const at = this.#at(x, y);
    return at < 0 ? Number.POSITIVE_INFINITY : this.#away[at]!;
  }
}
