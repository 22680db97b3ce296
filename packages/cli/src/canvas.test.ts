import fc from "fast-check";
import { expect, test } from "vitest";
import { Canvas } from "./canvas.ts";

const plain = { colour: false, width: 80 };

/** Rows of dots set in a column of dots, from the top, read back from the braille characters. */
function dotsAt(lines: readonly string[], column: number): number[] {
  const bits = column % 2 === 0 ? [0x01, 0x02, 0x04, 0x40] : [0x08, 0x10, 0x20, 0x80];
  return lines.flatMap((line, row) => {
    const code = ([...line][column >> 1] ?? " ").codePointAt(0)!;
    if (code < 0x2800) return [];
    return bits.flatMap((bit, k) => ((code - 0x2800) & bit ? [row * 4 + k] : []));
  });
}

test("a curve in braille stands where it should, to half a dot, without gaps", () => {
  const shape = fc.record({
    width: fc.integer({ min: 12, max: 60 }),
    height: fc.integer({ min: 2, max: 10 }),
    a: fc.double({ min: 0, max: 1, noNaN: true }),
    b: fc.double({ min: 0, max: 1, noNaN: true }),
    turns: fc.integer({ min: 0, max: 4 }),
  });
  fc.assert(
    fc.property(shape, ({ width, height, a, b, turns }) => {
      const at = (share: number): number =>
        Math.min(a, b) + (Math.abs(a - b) * (1 + Math.sin(turns * Math.PI * share))) / 2;
      const canvas = new Canvas(width, height);
      canvas.curve(at, false);
      const lines = canvas.lines(plain);
      let before: number[] | null = null;
      for (let i = 0; i < 2 * width; i += 1) {
        const dots = dotsAt(lines, i);
        // rows are as far apart as figures of the axis: the curve's 0 and 1 lie in the middle of the outer rows
        const wanted = (at(i / (2 * width - 1)) * (height - 1) + 0.5) * 4 - 0.5;
        expect(Math.min(...dots.map((d) => Math.abs(d - wanted)))).toBeLessThanOrEqual(0.5 + 1e-9);
        expect(dots).toHaveLength(dots.at(-1)! - dots[0]! + 1);
        if (before) {
          const apart = Math.max(dots[0]! - before.at(-1)!, before[0]! - dots.at(-1)!);
          expect(apart).toBeLessThanOrEqual(1);
        }
        before = dots;
      }
    }),
    { numRuns: 60 },
  );
});

test("in ASCII too", () => {
  const canvas = new Canvas(9, 2);
  canvas.curve((share) => share, true);
  // thirds of a cell, from the middle of the first row to the middle of the last
  expect(canvas.lines(plain)).toEqual(["--..", "    '''--"]);
});

test("words cover lines, never curves", () => {
  const canvas = new Canvas(20, 1);
  canvas.under(9, 0, "#", "curve");
  canvas.across(0, 0, 19, "-", "limit");
  expect(canvas.write(0, "eleven long", "limit", [0])).toBe(false);
  expect(canvas.write(0, "words", "limit", [4, 18, 12, 0])).toBe(true);
  expect(canvas.lines(plain)).toEqual(["---------#-- words -"]);
  canvas.over(40, 0, "x", "curve");
  canvas.over(3, 5, "x", "curve");
  expect(canvas.lines(plain)).toHaveLength(1);
});

test("colours only where they are wanted", () => {
  const canvas = new Canvas(4, 1);
  canvas.across(0, 1, 2, "=", "limit");
  expect(canvas.lines(plain)).toEqual([" =="]);
  const code = String.fromCharCode(27);
  expect(canvas.lines({ ...plain, colour: true })).toEqual([` ${code}[31m==${code}[39m`]);
});
