import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cellCo2, cellPh, co2OfColour, indicatorColour, indicatorColours } from "./indicator-cell.ts";
import { co2AfterDrop, dropFor, exactCo2, exactCoefficient, tradeCo2 } from "./trade-rule.ts";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe("the trade's rule", () => {
  test("meets the exact figure near 30 °C at I 0.006 to 0.01, or 25 °C at I 0.03", () => {
    expect(exactCoefficient(30, 0.008)).toBeCloseTo(3.0, 1);
    expect(exactCoefficient(25, 0.03)).toBeCloseTo(3.0, 2);
    expect(tradeCo2(4, 6.6)).toBeCloseTo(30.1, 1);
  });

  test("errs low in cool soft water, within a third in any tank", () => {
    fc.assert(
      fc.property(between(1, 12), between(6, 7.6), between(18, 30), (kh, ph, t) => {
        const ratio = tradeCo2(kh, ph) / exactCo2(kh, ph, t);
        expect(ratio).toBeGreaterThan(0.75);
        expect(ratio).toBeLessThan(1.01);
      }),
      { numRuns: 100 },
    );
  });

  test("a drop of one is tenfold, and the drop for a target is its inverse", () => {
    fc.assert(
      fc.property(between(0.3, 10), between(1, 60), (rest, wanted) => {
        expect(co2AfterDrop(rest, dropFor(wanted, rest))).toBeCloseTo(wanted, 9);
        expect(co2AfterDrop(rest, 1)).toBeCloseTo(10 * rest, 9);
      }),
    );
  });

  test("at constant alkalinity the exact drop is that of CO2 to 0.01 below pH 8", () => {
    for (const kh of [2, 4, 8]) {
      for (const [from, to] of [
        [7.5, 6.5],
        [7.8, 6.8],
        [7.2, 6.4],
      ] as const) {
        const drop = Math.log10(exactCo2(kh, to, 25) / exactCo2(kh, from, 25));
        expect(Math.abs(drop - (from - to))).toBeLessThan(0.01);
      }
    }
  });
});

describe("the indicator cell", () => {
  test("reads back what it shows", () => {
    fc.assert(
      fc.property(between(1, 80), between(1, 8), between(15, 32), (co2, kh, t) => {
        expect(cellCo2(cellPh(co2, kh, t), kh, t) / co2).toBeCloseTo(1, 7);
      }),
      { numRuns: 100 },
    );
  });

  test("either salt makes nearly the same cell", () => {
    expect(Math.abs(cellPh(30, 4, 25, "KHCO3") - cellPh(30, 4, 25, "NaHCO3"))).toBeLessThan(0.01);
  });

  test("30 mg/L in a 4 dKH cell at 25 °C is green, and green holds 30 mg/L", () => {
    expect(indicatorColour(cellPh(30, 4, 25))).toBe("green");
    const green = co2OfColour("green", 4, 25);
    expect(green.low).toBeLessThan(30);
    expect(green.high).toBeGreaterThan(30);
    expect(indicatorColour(cellPh(1, 4, 25))).toBe("blue");
    expect(indicatorColour(cellPh(200, 4, 25))).toBe("yellow");
  });

  test("the colours cover every CO2 without gap or overlap", () => {
    let edge = Number.POSITIVE_INFINITY;
    for (const colour of indicatorColours) {
      const range = co2OfColour(colour, 4, 24);
      expect(range.high).toBe(edge);
      expect(range.low).toBeLessThan(range.high);
      edge = range.low;
    }
    expect(edge).toBe(0);
  });
});
