/** Writes path data: relative, rounded to 0.1 px, and on request kept inside a box. */
import type { Box, Point } from "./geometry.ts";

/** Whole tenths as text are asked for over and over: from -LIMIT to LIMIT they are kept. */
const LIMIT = 2048;
const known: (string | undefined)[] = new Array(2 * LIMIT + 1);

/** A whole number of tenths as the shortest decimal. */
function tenths(n: number): string {
  const kept = n >= -LIMIT && n <= LIMIT ? known[n + LIMIT] : undefined;
  if (kept !== undefined) return kept;
  let text = String(n / 10);
  if (text.startsWith("0.")) text = text.slice(1);
  else if (text.startsWith("-0.")) text = `-${text.slice(2)}`;
  if (n >= -LIMIT && n <= LIMIT) known[n + LIMIT] = text;
  return text;
}

/** Rounded to 0.1, for attributes. */
export const round1 = (value: number): number => Math.round(value * 10) / 10 + 0;

/** Two numbers; the minus sign parts them where there is one. */
const pair = (x: number, y: number): string => (y < 0 ? tenths(x) + tenths(y) : `${tenths(x)} ${tenths(y)}`);
const nextPair = (x: number, y: number): string => (x < 0 ? pair(x, y) : ` ${pair(x, y)}`);

export class Pen {
  #d = "";
  /** Where the pen stands and where its subpath began, in tenths of a px. */
  #x = 0;
  #y = 0;
  #startX = 0;
  #startY = 0;
  readonly #left: number;
  readonly #right: number;
  readonly #top: number;
  readonly #bottom: number;

  /** With a box, no point and no control point leaves it: leaves press flat against the glass. */
  constructor(box?: Box) {
    this.#left = box ? Math.ceil(box.left * 10) : -1e9;
    this.#right = box ? Math.floor(box.right * 10) : 1e9;
    this.#top = box ? Math.ceil(box.top * 10) : -1e9;
    this.#bottom = box ? Math.floor(box.bottom * 10) : 1e9;
  }

  get d(): string {
    return this.#d;
  }

  #tx(x: number): number {
    const n = Math.round(x * 10);
    return Math.max(this.#left, Math.min(n, this.#right));
  }

  #ty(y: number): number {
    const n = Math.round(y * 10);
    return Math.max(this.#top, Math.min(n, this.#bottom));
  }

  move(x: number, y: number): this {
    const a = this.#tx(x);
    const b = this.#ty(y);
    this.#d += this.#d === "" ? `M${pair(a, b)}` : `m${pair(a - this.#x, b - this.#y)}`;
    this.#x = this.#startX = a;
    this.#y = this.#startY = b;
    return this;
  }

  line(x: number, y: number): this {
    const a = this.#tx(x);
    const b = this.#ty(y);
    this.#d += `l${pair(a - this.#x, b - this.#y)}`;
    this.#x = a;
    this.#y = b;
    return this;
  }

  quad(cx: number, cy: number, x: number, y: number): this {
    const a = this.#tx(x);
    const b = this.#ty(y);
    this.#d += `q${pair(this.#tx(cx) - this.#x, this.#ty(cy) - this.#y)}${nextPair(a - this.#x, b - this.#y)}`;
    this.#x = a;
    this.#y = b;
    return this;
  }

  cubic(ax: number, ay: number, bx: number, by: number, x: number, y: number): this {
    const a = this.#tx(x);
    const b = this.#ty(y);
    const x0 = this.#x;
    const y0 = this.#y;
    this.#d += `c${pair(this.#tx(ax) - x0, this.#ty(ay) - y0)}${nextPair(this.#tx(bx) - x0, this.#ty(by) - y0)}${nextPair(a - x0, b - y0)}`;
    this.#x = a;
    this.#y = b;
    return this;
  }

  close(): this {
    this.#d += "z";
    this.#x = this.#startX;
    this.#y = this.#startY;
    return this;
  }

  /** A zero-length stroke: a round dot as wide as the stroke. */
  dot(x: number, y: number): this {
    this.move(x, y);
    this.#d += "h0";
    return this;
  }

  polyline(points: readonly Point[], closed = false): this {
    points.forEach((p, i) => {
      if (i === 0) this.move(p[0], p[1]);
      else this.line(p[0], p[1]);
    });
    return closed ? this.close() : this;
  }

  #span(a: Point, b: Point, c: Point, d: Point): void {
    this.cubic(
      b[0] + (c[0] - a[0]) / 6,
      b[1] + (c[1] - a[1]) / 6,
      c[0] - (d[0] - b[0]) / 6,
      c[1] - (d[1] - b[1]) / 6,
      c[0],
      c[1],
    );
  }

  /** Catmull-Rom curve through the points; `joined` goes on from where the pen stands, which must be the first point. */
  curve(points: readonly Point[], joined = false): this {
    const n = points.length;
    const first = points[0];
    if (!first) return this;
    if (!joined) this.move(first[0], first[1]);
    for (let i = 0; i < n - 1; i++) {
      const b = points[i] as Point;
      const c = points[i + 1] as Point;
      this.#span(points[i - 1] ?? b, b, c, points[i + 2] ?? c);
    }
    return this;
  }

  /** Closed Catmull-Rom curve through the points. */
  loop(points: readonly Point[]): this {
    const n = points.length;
    const first = points[0];
    if (!first) return this;
    this.move(first[0], first[1]);
    const at = (i: number): Point => points[(i + n) % n] as Point;
    for (let i = 0; i < n; i++) this.#span(at(i - 1), at(i), at(i + 1), at(i + 2));
    return this.close();
  }
}
