import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { ChemistryError } from "./chemistry-error.ts";
import { exchangeBalance, exchangeInWater, firstOrder, soilAcidity, soilTaking } from "./exchange-soil.ts";
import { waterTotals } from "./species.ts";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const cations = fc.record({
  ca: between(1e-5, 4e-3),
  mg: between(1e-5, 2e-3),
  na: between(1e-5, 4e-3),
  k: between(1e-5, 2e-3),
  nh4: fc.oneof(fc.constant(0), between(1e-6, 1e-3)),
});

describe("exchange of cations", () => {
  test("keeps every cation and the exchanger's charge", () => {
    fc.assert(
      fc.property(cations, cations, between(1, 200), (dissolved, held, water) => {
        const r = exchangeBalance(water, dissolved, held);
        let before = 0;
        let after = 0;
        for (const name of ["ca", "mg", "na", "k", "nh4"] as const) {
          const total = dissolved[name] * water + held[name];
          expect((r.dissolved[name] * water + r.held[name]) / (total || 1)).toBeCloseTo(total > 0 ? 1 : 0, 9);
          const charge = name === "ca" || name === "mg" ? 2 : 1;
          before += held[name] * charge;
          after += r.held[name] * charge;
        }
        expect(after / before).toBeCloseTo(1, 9);
        expect(Object.values(r.share).reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9);
      }),
    );
  });
  test("a soil full of potassium softens water", () => {
    const r = exchangeBalance(20, { ca: 5e-4, mg: 2.5e-4, k: 2.5e-4 }, { ca: 0.02, mg: 0.01, na: 0.02, k: 0.12 });
    expect(r.dissolved.ca).toBeLessThan(1e-5);
    expect(r.dissolved.k).toBeGreaterThan(1e-3);
  });
  test("pairs hold back a little", () => {
    const totals = waterTotals({ ca: 1.5e-3, mg: 4e-4, na: 8e-4, k: 8e-5, cl: 4.8e-4, so4: 6e-4, no3: 2e-4 });
    const held = { ca: 0.06, mg: 0.02, na: 0.02, k: 0.02 };
    const { water, balance } = exchangeInWater(10, { totals, alk: 2.8e-3, dic: 3e-3, temperature: 25 }, held);
    expect(water.totals.ca).toBe(balance.dissolved.ca);
    expect(balance.dissolved.ca).toBeGreaterThan(exchangeBalance(10, totals, held).dissolved.ca);
  });
  test("refuses an exchanger without charge and a vessel without water", () => {
    expect(() => exchangeBalance(1, { ca: 1e-3 }, {})).toThrow(ChemistryError);
    expect(() => exchangeBalance(0, { ca: 1e-3 }, { k: 1 })).toThrow(ChemistryError);
  });
});

describe("an acid soil", () => {
  test("what the water loses the soil gains, and repeated changes wear it out", () => {
    fc.assert(
      fc.property(between(20, 300), between(0.5, 5), between(5, 40), between(1, 30), (volume, alk, co2, mass) => {
        const soil = { mass, capacity: 0.03, ph: 5.8 };
        const first = soilTaking(volume, alk, co2, soil);
        expect(first.taken).toBeCloseTo(mass * 0.03 * (first.ph - 5.8), 9);
        const second = soilTaking(volume, alk, co2, { ...soil, ph: first.ph });
        if (first.ph > 5.8) expect(second.alk).toBeGreaterThanOrEqual(first.alk);
        expect(first.released).toBeCloseTo(alk - first.alk, 12);
      }),
    );
  });
  test("a soil above the water's balance gives alkalinity back", () => {
    expect(soilTaking(60, 0.5, 30, { mass: 9, capacity: 0.03, ph: 7 }).taken).toBeLessThan(0);
  });
  test("capacity and kinetics", () => {
    expect(soilAcidity(25, 0.4, 9)).toBeCloseTo(1.35, 9);
    expect(firstOrder(4, 1, 1.5, 1.5)).toBeCloseTo(2.5, 9);
    expect(() => soilTaking(60, 0, 20, { mass: 9, capacity: 0.03, ph: 5.8 })).toThrow(ChemistryError);
    expect(() => soilTaking(60, 1, 0, { mass: 9, capacity: 0.03, ph: 5.8 })).toThrow(ChemistryError);
  });
});
