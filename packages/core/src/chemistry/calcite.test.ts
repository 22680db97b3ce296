import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { calciteBalanceClosed, calciteBalanceOpen } from "./calcite.ts";
import { ChemistryError } from "./chemistry-error.ts";
import { speciate } from "./speciate.ts";
import { pureWater, waterTotals } from "./species.ts";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const water = fc
  .record({
    ca: between(0, 4e-3),
    mg: between(0, 2e-3),
    na: between(0, 4e-3),
    so4: between(0, 2e-3),
    cl: between(0, 4e-3),
  })
  .map(waterTotals);

describe("balance with calcite", () => {
  test("closed: saturation 0, and calcium, carbon and alkalinity move as 1 : 1 : 2", () => {
    fc.assert(
      fc.property(water, between(1e-4, 5e-3), between(1e-4, 5e-3), between(5, 35), (w, alk, dic, t) => {
        const { water: after, precipitated: x } = calciteBalanceClosed(w, t, alk, dic);
        expect(Math.abs(after.siCalcite)).toBeLessThan(1e-6);
        expect(after.totals.ca).toBeCloseTo(w.ca - x, 12);
        expect(after.dic).toBeCloseTo(dic - x, 12);
        expect(after.alk).toBeCloseTo(alk - 2 * x, 12);
        expect(Math.sign(x)).toBe(Math.sign(speciate(w, t, { dic, alk }).siCalcite) || 1);
      }),
      { numRuns: 100 },
    );
  });

  test("open: saturation 0 at the given gas; more gas dissolves more", () => {
    fc.assert(
      fc.property(water, between(1e-4, 5e-3), between(-3.5, -1), between(5, 35), (w, alk, log, t) => {
        const a = calciteBalanceOpen(w, t, alk, 10 ** log);
        const b = calciteBalanceOpen(w, t, alk, 10 ** (log + 0.1));
        expect(Math.abs(a.water.siCalcite)).toBeLessThan(1e-6);
        expect(b.precipitated).toBeLessThan(a.precipitated);
      }),
      { numRuns: 60 },
    );
  });

  test("a supersaturated water gives its lime back from pure water's side", () => {
    const start = calciteBalanceClosed(pureWater, 25, 0, 1.0986e-3);
    const again = calciteBalanceClosed(start.water.totals, 25, start.water.alk, start.water.dic);
    expect(Math.abs(again.precipitated)).toBeLessThan(1e-9);
  });

  test("refuses a gas without CO2 and acid beyond reach", () => {
    expect(() => calciteBalanceOpen(pureWater, 25, 0, 0)).toThrow(ChemistryError);
    expect(() => calciteBalanceClosed(pureWater, 25, -0.3, 1e-3)).toThrow(ChemistryError);
  });
});
