import fc from "fast-check";
import { expect, test } from "vitest";
import { ChemistryError } from "./chemistry-error.ts";
import { blendShare, type CarriedWater, evaporate, mixWaters } from "./mixing.ts";
import { speciate } from "./speciate.ts";
import { alkalinityFromIons, pureWater, totalNames, type WaterTotals, waterTotals } from "./species.ts";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const totals = fc.record(Object.fromEntries(totalNames.map((n) => [n, between(0, 5e-3)]))) as fc.Arbitrary<WaterTotals>;
const carried: fc.Arbitrary<CarriedWater> = fc.record({
  totals,
  alk: between(-1e-3, 5e-3),
  dic: between(0, 5e-3),
  temperature: between(5, 35),
});

test("mixing conserves what it carries, and its twin of charges", () => {
  fc.assert(
    fc.property(fc.array(fc.tuple(carried, between(0.01, 100)), { minLength: 1, maxLength: 5 }), (parts) => {
      const mix = mixWaters(parts.map(([water, amount]) => ({ water, amount })));
      const sum = parts.reduce((a, [, amount]) => a + amount, 0);
      const carriedSum = (of: (w: CarriedWater) => number) => parts.reduce((a, [w, n]) => a + of(w) * n, 0);
      for (const n of totalNames)
        expect(mix.totals[n] * sum).toBeCloseTo(
          carriedSum((w) => w.totals[n]),
          12,
        );
      expect(mix.alk * sum).toBeCloseTo(
        carriedSum((w) => w.alk),
        12,
      );
      expect(mix.dic * sum).toBeCloseTo(
        carriedSum((w) => w.dic),
        12,
      );
      expect(mix.temperature * sum).toBeCloseTo(
        carriedSum((w) => w.temperature),
        8,
      );
      expect(alkalinityFromIons(mix.totals) * sum).toBeCloseTo(
        carriedSum((w) => alkalinityFromIons(w.totals)),
        12,
      );
    }),
  );
});

test("a pH is not the average of two", () => {
  const hard = waterTotals({ ca: 2.9e-3, mg: 2.5e-4, na: 9e-4, k: 1e-4, cl: 9e-4, so4: 5e-4, no3: 5e-4 });
  const a = speciate(hard, 25, { ph: 7.4, alk: 4.9e-3 });
  const b = speciate(pureWater, 25, { pco2: 10 ** -3.3767, alk: 0 });
  const mix = mixWaters([
    { water: a, amount: 1 },
    { water: b, amount: 1 },
  ]);
  const ph = speciate(mix.totals, mix.temperature, { dic: mix.dic, alk: mix.alk }).ph;
  expect(ph).toBeCloseTo(7.406, 2);
  expect(Math.abs(ph - (a.ph + b.ph) / 2)).toBeGreaterThan(0.8);
});

test("evaporation and dilution undo each other", () => {
  fc.assert(
    fc.property(carried, between(0, 0.9), (water, share) => {
      const thick = evaporate(water, share);
      const back = mixWaters([
        { water: thick, amount: 1 - share },
        { water: { totals: pureWater, alk: 0, dic: 0, temperature: water.temperature }, amount: share },
      ]);
      expect(back.alk).toBeCloseTo(water.alk, 12);
      expect(back.totals.ca).toBeCloseTo(water.totals.ca, 12);
    }),
  );
});

test("a blend meets its target or is refused", () => {
  // 30 % of a tap of 10 dKH with pure water makes 3 dKH.
  expect(blendShare(3, 10, 0)).toBeCloseTo(0.3, 12);
  expect(blendShare(6, 10, 2)).toBeCloseTo(0.5, 12);
  expect(() => blendShare(12, 10, 0)).toThrow(ChemistryError);
  expect(() => blendShare(1, 2, 2)).toThrow(ChemistryError);
  expect(() => mixWaters([])).toThrow(ChemistryError);
  expect(() => evaporate({ totals: pureWater, alk: 0, dic: 0, temperature: 25 }, 1)).toThrow(ChemistryError);
});
