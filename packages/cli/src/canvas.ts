import { type Paper, type Style, styled } from "./paper.ts";

/** What a cell is drawn for; the later ones must not be covered by a label. */
export type Ink = "blank" | "limit" | "wanted" | "time" | "bar" | "axis" | "label" | "curve" | "reading";

interface Cell {
  readonly text: string;
  readonly ink: Ink;
}

const blank: Cell = { text: " ", ink: "blank" };
const coverable: ReadonlySet<Ink> = new Set(["blank", "limit", "wanted", "time"]);

const styles: Readonly<Record<Ink, Style | null>> = {
  blank: null,
  limit: "red",
  wanted: "green",
  time: "dim",
  bar: "yellow",
  axis: "dim",
  label: null,
  curve: "cyan",
  reading: "magenta",
};

/** Bits of a braille cell by row of dots and side. */
const dots = [
  [0x01, 0x08],
  [0x02, 0x10],
  [0x04, 0x20],
  [0x40, 0x80],
] as const;

/** ASCII for the upper, middle and lower third of a cell. */
const strokes = ["'", "-", "."] as const;

/** A field of characters, drawn from the front to the back: what is there already stays. */
export class Canvas {
  readonly width: number;
  readonly height: number;
  private readonly cells: Cell[][];

  constructor(width: number, height: number) {
    this.width = width;
    this.height = height;
    this.cells = Array.from({ length: height }, () => new Array<Cell>(width).fill(blank));
  }

  /** Puts a character where nothing is yet; outside the field nothing happens. */
  under(x: number, y: number, text: string, ink: Ink): void {
    if (this.cells[y]?.[x] === blank) this.over(x, y, text, ink);
  }

  /** Puts a character over whatever is there. */
  over(x: number, y: number, text: string, ink: Ink): void {
    const row = this.cells[y];
    if (row && x >= 0 && x < this.width) row[x] = { text, ink };
  }

  /** A line across, behind what is there. */
  across(y: number, from: number, to: number, text: string, ink: Ink): void {
    for (let x = from; x <= to; x += 1) this.under(x, y, text, ink);
  }

  /** A line down, behind what is there. */
  down(x: number, text: string, ink: Ink): void {
    for (let y = 0; y < this.height; y += 1) this.under(x, y, text, ink);
  }

  /**
   * Writes words into a row where they cover no curve, a space on either side: at the first of the places that has room.
   * @param starts columns to try for the first space, in order of preference
   * @returns false when there is no room
   */
  write(y: number, words: string, ink: Ink, starts: Iterable<number>): boolean {
    const row = this.cells[y];
    if (!row) return false;
    const text = [...` ${words} `];
    for (const x of starts) {
      if (x < 0 || x + text.length > this.width) continue;
      if (!row.slice(x, x + text.length).every((c) => coverable.has(c.ink))) continue;
      text.forEach((c, k) => {
        this.over(x + k, y, c, ink);
      });
      return true;
    }
    return false;
  }

  /**
   * A curve over the whole width, in braille (two by four dots a cell) or ASCII strokes; a steep rise is drawn whole.
   * @param at height of the curve at a share of the width: 0 the middle of the top row to 1 the middle of the bottom row,
   * so that it meets lines and figures drawn in rows
   */
  curve(at: (share: number) => number, ascii: boolean): void {
    const [wide, high] = ascii ? [1, 3] : [2, 4];
    const across = this.width * wide;
    const down = this.height * high;
    const bits = Array.from({ length: this.height }, () => new Array<number>(this.width).fill(0));
    let before: number | null = null;
    for (let i = 0; i < across; i += 1) {
      const fall = at(i / (across - 1)) * (this.height - 1) + 0.5;
      const y = Math.max(0, Math.min(down - 1, Math.round(fall * high - 0.5)));
      // joined to the point before, which itself is not drawn twice
      const start = before === null ? y : before + Math.sign(y - before);
      for (let k = Math.min(start, y); k <= Math.max(start, y); k += 1) {
        const row = bits[Math.floor(k / high)]!;
        const x = Math.floor(i / wide);
        row[x] = row[x]! | (ascii ? 1 << (k % 3) : dots[k % 4]![i % 2]!);
      }
      before = y;
    }
    bits.forEach((row, y) => {
      row.forEach((b, x) => {
        if (b === 0) return;
        const stroke = b & (b - 1) ? "|" : strokes[Math.log2(b)]!;
        this.under(x, y, ascii ? stroke : String.fromCharCode(0x2800 + b), "curve");
      });
    });
  }

  /** The rows as text, runs of one ink in its colour, nothing after the last mark. */
  lines(paper: Paper): string[] {
    return this.cells.map((row) => {
      let end = row.length;
      while (end > 0 && row[end - 1]!.text === " ") end -= 1;
      let text = "";
      for (let i = 0; i < end; ) {
        const { ink } = row[i]!;
        let run = "";
        while (i < end && row[i]!.ink === ink) {
          run += row[i]!.text;
          i += 1;
        }
        const style = styles[ink];
        text += style === null ? run : styled(paper, style, run);
      }
      return text;
    });
  }
}
