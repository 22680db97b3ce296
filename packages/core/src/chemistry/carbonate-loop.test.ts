import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { createCarbonateLoop } from "./carbonate-loop.ts";
import { ChemistryError } from "./chemistry-error.ts";
import { createSpeciator } from "./speciator.ts";
import { alkalinityFromIons, type WaterTotals, waterTotals } from "./species.ts";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const logarithmic = (low: number, high: number) => between(Math.log10(low), Math.log10(high)).map((x) => 10 ** x);

/** Tank waters, mol/kg, from soft and fertilised to hard and salty. */
const tank: fc.Arbitrary<WaterTotals> = fc.record({
  ca: logarithmic(5e-5, 4e-3),
  mg: logarithmic(3e-5, 3e-3),
  na: logarithmic(1e-5, 8e-3),
  k: logarithmic(1e-5, 2e-3),
  cl: logarithmic(1e-5, 5e-3),
  so4: fc.oneof(fc.constant(0), logarithmic(1e-5, 4e-3)),
  no3: fc.oneof(fc.constant(0), logarithmic(1e-5, 1e-3)),
  po4: fc.oneof(fc.constant(0), logarithmic(1e-7, 5e-5)),
  nh4: fc.oneof(fc.constant(0), logarithmic(1e-7, 1e-4)),
  b: fc.oneof(fc.constant(0), logarithmic(1e-7, 5e-5)),
});
const alkalinity = logarithmic(1e-4, 6e-3);
const full = createSpeciator();

describe("against the full speciation", () => {
  test("0.002 pH and 0.3 % CO2 for 0.2 to 5 times the carbon and 5 K each way", () => {
    let worstPh = 0;
    let worstCo2 = 0;
    fc.assert(
      fc.property(
        tank,
        alkalinity,
        between(6, 8.5),
        between(15, 32),
        fc.array(fc.tuple(logarithmic(0.2, 5), between(-5, 5), between(0.9, 1.1)), { minLength: 8, maxLength: 8 }),
        (w, alk, ph, t, steps) => {
          full.solve(w, t, "ph-alk", ph, alk);
          const dic = full.dic;
          const loop = createCarbonateLoop(w, alk, dic, t);
          for (const [f, dt, a] of steps) {
            loop.solve(alk * a, dic * f, t + dt);
            full.solve(w, t + dt, "dic-alk", dic * f, alk * a);
            const offPh = Math.abs(loop.ph - full.ph);
            const offCo2 = Math.abs(loop.co2 / full.co2 - 1);
            worstPh = Math.max(worstPh, offPh);
            worstCo2 = Math.max(worstCo2, offCo2);
            expect(offPh).toBeLessThan(0.002);
            expect(offCo2).toBeLessThan(0.003);
            expect(Math.abs(loop.hco3 / full.molality[3]! - 1)).toBeLessThan(0.003);
            expect(Math.abs(loop.co3 / full.molality[4]! - 1)).toBeLessThan(0.01);
          }
        },
      ),
      { numRuns: 300 },
    );
    // It is in fact much closer; a slip would show here first.
    expect(worstPh).toBeLessThan(0.0005);
    expect(worstCo2).toBeLessThan(0.001);
  });

  test("at the reference it is the full speciation", () => {
    fc.assert(
      fc.property(tank, alkalinity, logarithmic(1e-4, 6e-3), between(15, 32), (w, alk, dic, t) => {
        const loop = createCarbonateLoop(w, alk, dic, t);
        full.solve(w, t, "dic-alk", dic, alk);
        expect(Math.abs(loop.ph - full.ph)).toBeLessThan(1e-6);
        expect(Math.abs(loop.co2 / full.co2 - 1)).toBeLessThan(1e-5);
      }),
      { numRuns: 100 },
    );
  });
});

describe("smooth", () => {
  const w = waterTotals({ ca: 1e-3, mg: 3.5e-4, na: 5e-4, k: 4e-4, cl: 3.2e-4, so4: 6e-4, no3: 3e-4, po4: 1e-5 });

  test("the answer does not depend on where the last one was", () => {
    const loop = createCarbonateLoop(w, 1.78e-3, 2e-3, 25);
    fc.assert(
      fc.property(logarithmic(4e-4, 1e-2), between(-5e-4, 5e-3), between(20, 30), (dic, alk, t) => {
        const first = loop.solve(alk, dic, t);
        loop.solve(4e-3, 4.1e-4, 29);
        const fromBasic = loop.solve(alk, dic, t);
        loop.solve(-5e-4, 1e-2, 21);
        const fromAcid = loop.solve(alk, dic, t);
        expect(Math.abs(fromBasic - first)).toBeLessThan(1e-6);
        expect(Math.abs(fromAcid - first)).toBeLessThan(1e-6);
      }),
      { numRuns: 200 },
    );
  });

  test("differences are straight at small steps", () => {
    const loop = createCarbonateLoop(w, 1.78e-3, 2e-3, 25);
    for (const dic of [1.6e-3, 1.75e-3, 1.8e-3, 2e-3, 3e-3, 6e-3]) {
      for (const [da, dd, dt] of [
        [1e-7, 0, 0],
        [0, 1e-7, 0],
        [0, 0, 1e-3],
      ] as const) {
        const low = loop.solve(1.78e-3 - da, dic - dd, 25 - dt);
        const middle = loop.solve(1.78e-3, dic, 25);
        const high = loop.solve(1.78e-3 + da, dic + dd, 25 + dt);
        const slope = (high - low) / 2;
        expect(Math.abs(high - 2 * middle + low)).toBeLessThan(0.02 * Math.abs(slope) + 2e-7);
        expect(slope).not.toBe(0);
      }
    }
  });
});

describe("robust", () => {
  test("no carbon, no alkalinity, acid, and far temperatures still answer", () => {
    const w = waterTotals({ ca: 1e-3, na: 5e-4, k: 4e-4, so4: 6e-4, po4: 5e-5, nh4: 1e-4 });
    const loop = createCarbonateLoop(w, 1e-3, 1.2e-3, 25);
    for (const alk of [0, -1e-9, -1e-3, 1e-6, 5e-3]) {
      for (const dic of [0, -1e-9, 1e-9, 1e-5, 1e-2]) {
        for (const t of [5, 25, 40]) {
          const ph = loop.solve(alk, dic, t);
          full.solve(w, t, "dic-alk", Math.max(dic, 0), alk);
          expect(Math.abs(ph - full.ph)).toBeLessThan(0.02);
          expect(loop.co2).toBeGreaterThanOrEqual(0);
        }
      }
    }
  });

  test("an ion balance far from the alkalinity does not matter", () => {
    const w = waterTotals({ na: 1e-3 });
    expect(alkalinityFromIons(w)).toBeCloseTo(1e-3, 12);
    const loop = createCarbonateLoop(w, 3e-3, 3.2e-3, 25);
    full.solve(w, 25, "dic-alk", 3.2e-3, 3e-3);
    expect(loop.ph).toBeCloseTo(full.ph, 6);
  });

  test("a new reference replaces the old", () => {
    const loop = createCarbonateLoop(waterTotals({ na: 1e-3 }), 1e-3, 1.2e-3, 25);
    const hard = waterTotals({ ca: 2.9e-3, mg: 2.5e-4, so4: 5e-4, cl: 9e-4, po4: 1e-5 });
    loop.reference(hard, 4.9e-3, 5.6e-3, 15);
    full.solve(hard, 15, "dic-alk", 5.6e-3, 4.9e-3);
    expect(loop.ph).toBeCloseTo(full.ph, 6);
  });

  test("refuses what is no number", () => {
    const loop = createCarbonateLoop(waterTotals({ na: 1e-3 }), 1e-3, 1.2e-3, 25);
    const before = loop.solve(1e-3, 1.1e-3, 25);
    expect(() => loop.solve(Number.NaN, 1e-3, 25)).toThrow(ChemistryError);
    expect(() => loop.solve(1e-3, Number.POSITIVE_INFINITY, 25)).toThrow(ChemistryError);
    expect(() => loop.solve(1e-3, 1e-3, Number.NaN)).toThrow(ChemistryError);
    expect(() => createCarbonateLoop(waterTotals({}), 1e-3, 1e-3, 90)).toThrow(ChemistryError);
    expect(loop.solve(1e-3, 1.1e-3, 25)).toBeCloseTo(before, 8);
  });
});
