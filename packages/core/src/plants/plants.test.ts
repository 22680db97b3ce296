import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { plants } from "../facts/index.ts";
import { evaluate, type RawInputs, RelationError } from "../relation/index.ts";
import { parseUnit } from "../units/index.ts";
import {
  acclimatedShare,
  algaTemperature,
  ammoniumShare,
  bedDiffusion,
  betaTemperature,
  biomassAfter,
  boundaryLayerUptake,
  canopyLight,
  canopyMeanLight,
  carbonFactor,
  cardinalTemperature,
  co2Factor,
  compensationLight,
  coverOf,
  doseForAfter,
  doseForBefore,
  excretion,
  filmAlgae,
  filmFlow,
  filmGrowth,
  filmLight,
  grossRate,
  leafLight,
  molarMass,
  molCarbonPerGram,
  mortalityRate,
  type PatchConditions,
  patchGrowth,
  patchParameters,
  periodWithUptake,
  photosyntheticQuotient,
  quotas,
  relations,
  respirationRate,
  rootShareOf,
  saltContent,
  saltForRise,
  saltNames,
  slopeSafety,
  soakedGravity,
  sources,
  spreadGain,
  standHeight,
  steadyBiomass,
  steadyStore,
  steadyWithLoss,
  steadyWithSaturatingUptake,
  steadyWithUptake,
  steepestSlope,
  storeFactor,
  temperatureFactor,
  tissue,
  twoSubstrateFactor,
  uptakeRate,
} from "./index.ts";

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const anyPlant = fc.constantFrom(...plants);
const conditions: fc.Arbitrary<PatchConditions> = fc.record({
  photoperiod: real(0, 24),
  temperature: real(2, 38),
  ppfd: real(0, 1000),
  co2: real(0, 1500),
  bicarbonate: real(0, 5000),
  nutrients: real(0, 1),
  rootShare: real(0, 0.5),
  acclimation: real(0.3, 1),
});

describe("light", () => {
  test("the canopy mean equals quadrature of the leaf response", () => {
    fc.assert(
      fc.property(real(0.1, 2000), real(1, 500), real(1e-9, 20), (ppfd, half, depth) => {
        // Gauss-Legendre, five points, on 200 slices
        const nodes = [0, 0.5384693101056831, -0.5384693101056831, 0.906179845938664, -0.906179845938664];
        const weights = [
          0.5688888888888889, 0.47862867049936647, 0.47862867049936647, 0.23692688505618908, 0.23692688505618908,
        ];
        let sum = 0;
        for (let n = 0; n < 200; n++) {
          for (let k = 0; k < 5; k++) {
            const x = ((n + 0.5 + nodes[k]! / 2) / 200) * depth;
            sum += (weights[k]! / 400) * leafLight(ppfd * Math.exp(-x), half);
          }
        }
        expect(Math.abs(canopyMeanLight(ppfd, half, depth) / sum - 1)).toBeLessThan(1e-10);
      }),
      { numRuns: 50 },
    );
  });

  test("edges: no light, no plants, no half-saturation", () => {
    expect(canopyMeanLight(0, 50, 1)).toBe(0);
    expect(canopyMeanLight(100, 50, 0)).toBe(leafLight(100, 50));
    expect(canopyMeanLight(100, 50, 1e-14)).toBeCloseTo(leafLight(100, 50), 12);
    expect(canopyMeanLight(100, 0, 3)).toBe(1);
    expect(canopyMeanLight(100, 1e-9, 50)).toBeLessThanOrEqual(1);
    expect(canopyMeanLight(100, 1e-30, 2000)).toBeLessThan(1);
    expect(canopyMeanLight(0, 0, 3)).toBe(0);
  });

  test("warmth does not help in dim light: the gain per light is the same", () => {
    const p = patchParameters(plants[0]!);
    const dim = 0.01;
    const warm = temperatureFactor(p.tOpt, p) * canopyLight(dim, p, 0, temperatureFactor(p.tOpt, p));
    const cool = temperatureFactor(p.tOpt - 8, p) * canopyLight(dim, p, 0, temperatureFactor(p.tOpt - 8, p));
    expect(Math.abs(cool / warm - 1)).toBeLessThan(1e-3);
  });
});

describe("factors", () => {
  test("all lie between 0 and 1 and never turn into NaN", () => {
    fc.assert(
      fc.property(anyPlant, conditions, real(0, 600), (plant, c, biomass) => {
        const p = patchParameters(plant);
        const fT = temperatureFactor(c.temperature, p);
        for (const f of [fT, canopyLight(c.ppfd, p, biomass, fT), carbonFactor(c.co2, c.bicarbonate, c.ppfd, p)]) {
          expect(f).toBeGreaterThanOrEqual(0);
          // a logarithm near 1 may be off in its last bits
          expect(f).toBeLessThanOrEqual(1 + 1e-14);
        }
      }),
    );
  });

  test("more light, carbon dioxide, nutrients never mean less growth; more biomass never means more per gram", () => {
    fc.assert(
      fc.property(anyPlant, conditions, real(0, 400), real(1, 3), (plant, c, biomass, more) => {
        const p = patchParameters(plant);
        const base = patchGrowth(p, c, biomass).gross;
        const tiny = 1e-12;
        expect(patchGrowth(p, { ...c, ppfd: c.ppfd * more }, biomass).gross).toBeGreaterThanOrEqual(base - tiny);
        expect(
          patchGrowth(p, { ...c, nutrients: Math.min(1, c.nutrients * more) }, biomass).gross,
        ).toBeGreaterThanOrEqual(base - tiny);
        expect(patchGrowth(p, c, biomass * more).gross).toBeLessThanOrEqual(base + tiny);
        expect(patchGrowth(p, { ...c, co2: c.co2 * more }, biomass).gross).toBeGreaterThanOrEqual(base - tiny);
      }),
    );
  });

  test("temperature responses peak at their best temperature and rise and fall about it", () => {
    fc.assert(
      fc.property(real(0, 15), real(18, 30), real(3, 15), real(0, 1), real(0, 1), (min, best, over, a, b) => {
        const max = best + over;
        const [low, high] = a < b ? [a, b] : [b, a];
        const below = (u: number) => min + u * (best - min);
        const above = (u: number) => max - u * over;
        const responses = [(t: number) => betaTemperature(t, min, best, max)];
        if (best > (min + max) / 2 + 0.5) responses.push((t) => cardinalTemperature(t, min, best, max));
        for (const f of responses) {
          expect(f(best)).toBeCloseTo(1, 12);
          expect(f(below(high))).toBeGreaterThanOrEqual(f(below(low)) - 1e-12);
          expect(f(above(high))).toBeGreaterThanOrEqual(f(above(low)) - 1e-12);
          expect(f(min - 1)).toBe(0);
          expect(f(max + 1)).toBe(0);
        }
      }),
    );
    expect(algaTemperature(27, 27, 45)).toBeCloseTo(1, 12);
    expect(algaTemperature(46, 27, 45)).toBe(0);
  });

  test("temperatures out of order are refused", () => {
    const beta = relations.find((r) => r.id === "beta-temperature")!;
    expect(() => evaluate(beta, { temperature: 20, temperature_min: 30, temperature_best: 25 })).toThrow(RelationError);
    const cardinal = relations.find((r) => r.id === "cardinal-temperature")!;
    expect(() => evaluate(cardinal, { temperature_min: 10, temperature_best: 20, temperature_max: 36 })).toThrow(
      "23 °C",
    );
  });

  test("inputs that contradict each other are refused in words, with what is allowed", () => {
    const ask = (id: string, given: RawInputs) => () => evaluate(relations.find((r) => r.id === id)!, given);
    const salt = (given: RawInputs) => ask("salt-for-rise", { rise: 10, volume: 60, ...given });
    expect(salt({ salt: "KH2PO4", nutrient: "nitrate" })).toThrow(
      "nutrient: KH2PO4 holds no nitrate; allowed: phosphate, potassium, phosphorus",
    );
    expect(salt({ salt: "KH2PO4", nutrient: "nitrate", rise: 0 })).toThrow("holds no nitrate");
    expect(salt({ salt: "KNO3", rise: 0 })().mass).toBe(0);
    const bell = (width: number) =>
      ask("bell-temperature", { temperature: 25, temperature_best: 25, reference: 5, width });
    expect(bell(5)).toThrow("width: 5 °C is too narrow where the factor is to be 1 at 5 °C, 20 °C from the best");
    expect(bell(5)).toThrow("at least 5.4 °C is allowed");
    expect(bell(5.4)().factor).toBeLessThanOrEqual(1000);
    const oxygen = (given: RawInputs) => ask("respiration-from-oxygen", { rate_low: 30, rate_high: 60, ...given });
    expect(oxygen({ temperature_high: 15.5 })).toThrow("temperature_high: must lie at least 1 °C above 15 °C");
    expect(oxygen({ rate_high: 900 })).toThrow(
      "rate_high: from 30 to 900 umol/g/h over 10 °C is no respiration's rise",
    );
    expect(oxygen({ rate_high: 900 })).toThrow("3.00 to 600 umol/g/h is allowed");
    expect(oxygen({})().q10).toBeCloseTo(2, 12);
    const patch = { mu_max: 0.2, respiration_20: 0, mortality: 0, half_saturation_light: 50, half_saturation_co2: 50 };
    const around = { extinction: 0.02, photoperiod: 0, temperature: 25, ppfd_top: 50, co2: 10, nutrient_factor: 1 };
    expect(ask("compensation-light", { ...patch, ...around })().ppfd).toBe(0);
    expect(ask("compensation-light", { ...patch, ...around, temperature_best: 40 })).toThrow(
      "temperature_best: must lie above 8 °C and below the upper end",
    );
    expect(ask("patch-growth", { ...patch, ...around, biomass: 10, temperature_best: 5 })).toThrow("temperature_best");
  });

  test("two substrates: bicarbonate adds where carbon dioxide is scarce, and is gone without light", () => {
    expect(twoSubstrateFactor(0, 1000, 60)).toBeCloseTo(0.25, 12);
    expect(twoSubstrateFactor(100, 0, 60)).toBeCloseTo(co2Factor(100, 60), 12);
    const user = patchParameters(plants.find((p) => p.bicarbonate === "yes")!);
    expect(carbonFactor(10, 2000, 30, user)).toBeCloseTo(carbonFactor(10, 0, 300, user), 12);
    expect(carbonFactor(10, 2000, 300, user)).toBeGreaterThan(2 * carbonFactor(10, 0, 300, user));
  });

  test("a still layer only ever lowers uptake, and thin ones leave it alone", () => {
    fc.assert(
      fc.property(real(0, 2000), real(0.01, 3), real(0.5, 20), real(10, 500), (bulk, mm, greatest, half) => {
        const free = greatest * co2Factor(bulk, half);
        const uptake = boundaryLayerUptake(bulk, mm / 1000, greatest, half);
        expect(uptake).toBeLessThanOrEqual(free * (1 + 1e-12) + 1e-15);
        expect(uptake).toBeGreaterThanOrEqual(0);
        const supply = (1000 * 1.92e-9 * bulk) / (mm / 1000);
        expect(uptake).toBeLessThanOrEqual(supply * (1 + 1e-9) + 1e-15);
        expect(boundaryLayerUptake(bulk, 1e-9, greatest, half)).toBeCloseTo(free, 2);
      }),
    );
  });
});

describe("growth", () => {
  test("the pieces a tank model uses add up to the day's net rate", () => {
    fc.assert(
      fc.property(anyPlant, conditions, real(1, 300), (plant, c, biomass) => {
        const p = patchParameters(plant);
        const fT = temperatureFactor(c.temperature, p);
        const gross = grossRate(
          p,
          fT,
          canopyLight(c.ppfd, p, biomass, fT),
          carbonFactor(c.co2, c.bicarbonate, c.ppfd, p),
          c.nutrients,
          biomass,
          c.rootShare,
          c.acclimation,
        );
        const day =
          (gross * c.photoperiod) / 24 - respirationRate(p, c.temperature, biomass) - mortalityRate(p, biomass);
        expect(day).toBeCloseTo(patchGrowth(p, c, biomass).net * biomass, 9);
      }),
    );
  });

  test("growth stops at the compensation light and at the steady biomass", () => {
    fc.assert(
      fc.property(anyPlant, real(30, 400), real(5, 600), (plant, ppfd, co2) => {
        const p = patchParameters(plant);
        const c: PatchConditions = {
          photoperiod: 10,
          temperature: plant.temperatureOpt,
          ppfd,
          co2,
          bicarbonate: 0,
          nutrients: 1,
          rootShare: 0,
          acclimation: 1,
        };
        const light = compensationLight(p, c);
        if (Number.isFinite(light)) expect(patchGrowth(p, { ...c, ppfd: light }, 0).net).toBeCloseTo(0, 10);
        const steady = steadyBiomass(p, c);
        expect(steady > 0).toBe(patchGrowth(p, c, 0).net > 0);
        if (steady > 0) expect(patchGrowth(p, c, steady).net).toBeCloseTo(0, 8);
      }),
    );
  });

  test("a stand creeps up to its steady biomass and never past it", () => {
    const p = patchParameters(plants.find((q) => q.name === "Rotala rotundifolia")!);
    const c = {
      photoperiod: 10,
      temperature: 24,
      ppfd: 110,
      co2: 450,
      bicarbonate: 0,
      nutrients: 1,
      rootShare: 0,
      acclimation: 1,
    };
    const steady = steadyBiomass(p, c);
    expect(biomassAfter(p, c, 5, 2000)).toBeCloseTo(steady, 3);
    expect(biomassAfter(p, c, 2 * steady, 60)).toBeGreaterThan(steady);
  });
});

describe("stoichiometry", () => {
  test("constants of new growth", () => {
    expect(molCarbonPerGram).toBeCloseTo(0.4 / 12.011, 12);
    expect(photosyntheticQuotient).toBeCloseTo(1.1072, 4);
    expect(tissue.carbon + tissue.nitrogen + tissue.phosphorus + tissue.potassium).toBeLessThan(1);
    expect(molarMass.co2 - molarMass.oxygen).toBeCloseTo(molarMass.carbon, 2);
  });
});

describe("nutrients", () => {
  test("a closed pool of nitrogen runs into the plants and none is lost", () => {
    // 60 L at 1 mg N/L, 0.2 m2 of 40 g/m2 holding 2 %; growth 0.06 f - 0.01, affinity 0.06; fixed steps of 1/2000 d
    const quota = { ...quotas.nitrogen, affinity: 0.06 };
    const area = 0.2;
    const litres = 60;
    const slope = ([b, q, c]: readonly [number, number, number]): [number, number, number] => {
      const growth = 0.06 * storeFactor(q, quota.min, quota.max) - 0.01;
      const uptake = uptakeRate(c, q, quota);
      // losses leave nitrogen in the plant: only growth thins the store
      return [growth * b, uptake - Math.max(0, growth) * q, (-uptake * b * area * 1000) / litres];
    };
    let y: [number, number, number] = [40, 0.02, 1];
    const h = 1 / 2000;
    for (let n = 0; n < 14 * 2000; n++) {
      const k1 = slope(y);
      const k2 = slope([y[0] + (h / 2) * k1[0], y[1] + (h / 2) * k1[1], y[2] + (h / 2) * k1[2]]);
      const k3 = slope([y[0] + (h / 2) * k2[0], y[1] + (h / 2) * k2[1], y[2] + (h / 2) * k2[2]]);
      const k4 = slope([y[0] + h * k3[0], y[1] + h * k3[1], y[2] + h * k3[2]]);
      y = [0, 1, 2].map((j) => y[j]! + (h / 6) * (k1[j]! + 2 * k2[j]! + 2 * k3[j]! + k4[j]!)) as [
        number,
        number,
        number,
      ];
    }
    expect(y[0]).toBeCloseTo(64.32, 1);
    expect(y[1]).toBeCloseTo(0.017102, 5);
    expect(y[2]).toBeLessThan(1e-3);
    const total = y[0] * y[1] * area * 1000 + y[2] * litres;
    expect(Math.abs(total / 220 - 1)).toBeLessThan(1e-6);
  });

  test("stores stay inside their ends and richer water never means a poorer store", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...Object.values(quotas)),
        real(1e-5, 5),
        real(1, 5),
        real(0.01, 0.3),
        (quota, concentration, more, rate) => {
          const store = steadyStore(concentration, rate, quota);
          expect(store).toBeGreaterThanOrEqual(quota.min);
          expect(store).toBeLessThanOrEqual(quota.max);
          expect(steadyStore(concentration * more, rate, quota)).toBeGreaterThanOrEqual(store * (1 - 1e-9));
        },
      ),
    );
    expect(uptakeRate(10, quotas.nitrogen.max, quotas.nitrogen)).toBe(0);
    expect(uptakeRate(0, 0.02, quotas.nitrogen)).toBe(0);
    expect(storeFactor(0.005, 0.01, 0.035)).toBe(0);
  });

  test("ammonium and nitrate shares", () => {
    fc.assert(
      fc.property(real(1e-6, 20), real(0, 50), real(1e-4, 2), (ammonium, nitrate, half) => {
        const share = ammoniumShare(ammonium, nitrate, half);
        expect(share).toBeGreaterThan(0);
        expect(share).toBeLessThanOrEqual(1 + 1e-12);
      }),
    );
    expect(ammoniumShare(0, 0, 0.3)).toBe(0);
    expect(ammoniumShare(0.2, 0, 0.3)).toBeCloseTo(1, 12);
    expect(ammoniumShare(1, 1, 1e-9)).toBeCloseTo(1, 6);
  });

  test("roots: none for column feeders, half at most for those that do both", () => {
    expect(rootShareOf("column", 1000)).toBe(0);
    expect(rootShareOf("both", 1000)).toBe(0.5);
    expect(rootShareOf("root", 1000)).toBeGreaterThan(0.98);
    expect(rootShareOf("root", 0)).toBe(0);
    expect(excretion(0.035, 0.035, 1)).toBeCloseTo(0.035, 12);
    expect(excretion(0.01, 0.035, 1)).toBeLessThan(0.01);
  });
});

describe("form and transition", () => {
  test("cover and height rise with biomass, within water and species", () => {
    fc.assert(
      fc.property(anyPlant, real(0, 500), real(1, 3), real(0.1, 0.6), (plant, b, more, depth) => {
        const cover = coverOf(plant.form, b);
        expect(cover).toBeGreaterThanOrEqual(0);
        expect(cover).toBeLessThanOrEqual(1);
        expect(coverOf(plant.form, b * more)).toBeGreaterThanOrEqual(cover);
        const height = (x: number) => standHeight(plant.form, x, plant.heightMin, plant.heightMax, depth);
        expect(height(b * more)).toBeGreaterThanOrEqual(height(b) - 1e-12);
        expect(height(b)).toBeLessThanOrEqual(depth);
        if (plant.form !== "stem") expect(height(b)).toBeLessThanOrEqual(plant.heightMax + 1e-12);
      }),
    );
  });

  test("a carpet stays low until it closes, then thickens to its height at twice the closed stand", () => {
    expect(standHeight("carpet", 76, 0.01, 0.05, 1)).toBeCloseTo(0.01, 12);
    expect(standHeight("carpet", 200, 0.01, 0.05, 1)).toBeCloseTo(0.05, 12);
  });

  test("only a stand that covers half of its ground moves on", () => {
    expect(spreadGain("runner", 0.004, 7, 0.05, 20)).toBe(0);
    expect(spreadGain("runner", 0.004, 7, 0.05, 60)).toBeCloseTo(0.56 * 60, 9);
    expect(acclimatedShare(0, 10, 0.5)).toBe(0.5);
    expect(acclimatedShare(1e4, 10)).toBeCloseTo(1, 12);
  });
});

describe("algae", () => {
  test("films like light, flow and warmth up to their best, and nuisance needs growth", () => {
    fc.assert(
      fc.property(real(1, 400), real(1, 3), real(0, 30), real(5, 26), (ppfd, more, speed, t) => {
        const g = (p: number, u: number) => filmGrowth(filmAlgae.greens, t, p, 1, 0.1, u, 1).growth;
        expect(g(ppfd * more, speed)).toBeGreaterThanOrEqual(g(ppfd, speed) - 1e-12);
        expect(g(ppfd, speed * more)).toBeGreaterThanOrEqual(g(ppfd, speed) - 1e-12);
        expect(filmLight(ppfd, 176, 5)).toBeLessThanOrEqual(filmLight(ppfd, 176, 1));
      }),
    );
    expect(filmFlow(0)).toBe(0.2);
    expect(filmFlow(1e6)).toBe(1);
    expect(filmLight(0, 176, 1)).toBe(0);
  });
});

describe("dosing", () => {
  const routine = fc.record({
    dose: real(0, 5),
    days: fc.integer({ min: 1, max: 21 }),
    change: real(0.05, 1),
    incoming: real(0, 20),
  });

  test("the steady state returns to itself after a period, run day by day", () => {
    fc.assert(
      fc.property(routine, real(0, 6), (r, uptake) => {
        const s = steadyWithUptake(r, uptake);
        const period = periodWithUptake(r, uptake, s.after);
        expect(period.end).toBeCloseTo(s.before, 7);
        expect((1 - r.change) * period.end + r.change * r.incoming).toBeCloseTo(s.after, 7);
        expect(s.before).toBeGreaterThanOrEqual(0);
        expect(s.after).toBeGreaterThanOrEqual(-1e-12);
      }),
    );
  });

  test("a loss in proportion, run day by day, and no loss as its limit", () => {
    fc.assert(
      fc.property(routine, real(0.001, 2), (r, loss) => {
        const s = steadyWithLoss(r, loss);
        let c = s.after;
        for (let d = 0; d < r.days; d++) c = (c + r.dose) * Math.exp(-loss);
        expect(c).toBeCloseTo(s.before, 8);
        expect(s.before).toBeLessThanOrEqual(steadyWithUptake(r, 0).before + 1e-9);
      }),
    );
    const r = { dose: 1, days: 7, change: 0.5, incoming: 0 };
    expect(steadyWithLoss(r, 1e-9).before).toBeCloseTo(14, 6);
    expect(steadyWithLoss(r, 0).before).toBe(14);
  });

  test("doses for a wanted concentration are the inverse", () => {
    fc.assert(
      fc.property(routine, real(0.05, 0.9), real(5, 40), real(0, 2), (r, change, wanted, uptake) => {
        const base = { days: r.days, change, incoming: Math.min(r.incoming, wanted) };
        const before = doseForBefore(wanted, base, uptake);
        expect(steadyWithUptake({ ...base, dose: before }, uptake).before).toBeCloseTo(wanted, 8);
        const after = doseForAfter(wanted, base, uptake);
        expect(steadyWithUptake({ ...base, dose: after }, uptake).after).toBeCloseTo(wanted, 8);
      }),
    );
  });

  test("saturating uptake far from saturation behaves as a loss of supply spread over the day", () => {
    const s = steadyWithSaturatingUptake({ dose: 0.5, days: 7, change: 1, incoming: 0 }, 50, 500);
    // first-order k = 0.1: c = s/k (1 - e^-7k) from zero
    expect(s.before).toBeCloseTo(5 * (1 - Math.exp(-0.7)), 1);
    expect(s.after).toBe(0);
  });

  test("an empty tank says on how many days", () => {
    expect(steadyWithUptake({ dose: 0.5, days: 7, change: 0.5, incoming: 6 }, 1).empty).toBe(1);
    expect(steadyWithUptake({ dose: 0.1, days: 7, change: 0.5, incoming: 0 }, 1).empty).toBe(7);
  });

  test("a salt gives back what was asked of it", () => {
    fc.assert(
      fc.property(fc.constantFrom(...saltNames), real(0.01, 50), real(5, 1000), (salt, rise, volume) => {
        for (const nutrient of ["nitrate", "potassium", "magnesium", "calcium", "nitrogen"] as const) {
          if (saltContent(salt, nutrient) === 0) continue;
          const grams = saltForRise(salt, nutrient, rise, volume);
          expect((1000 * grams * saltContent(salt, nutrient)) / volume).toBeCloseTo(rise, 9);
        }
      }),
    );
    expect(saltContent("KNO3", "magnesium")).toBe(0);
    expect(saltForRise("KNO3", "magnesium", 1, 100)).toBe(Number.POSITIVE_INFINITY);
  });
});

describe("ground and hardscape", () => {
  test("any fully soaked wood sinks", () => {
    fc.assert(fc.property(real(0.1, 1.3), (basic) => void expect(soakedGravity(basic)).toBeGreaterThan(1)));
  });

  test("the steepest slope has the factor asked for", () => {
    fc.assert(
      fc.property(real(15, 45), real(1, 3), (friction, factor) => {
        expect(slopeSafety(friction, steepestSlope(friction, factor))).toBeCloseTo(factor, 9);
      }),
    );
  });

  test("nutrients flow from rich to poor", () => {
    expect(bedDiffusion(1e-4, 0.4, 1, 5, 0.05, 20)).toBeLessThan(0);
    expect(bedDiffusion(1e-4, 0.4, 5, 5, 0.05, 20)).toBe(0);
  });
});

describe("relations", () => {
  test("every unit can be read", () => {
    for (const r of relations) {
      for (const { unit } of [...Object.values(r.inputs), ...Object.values(r.outputs)].filter((x) => "unit" in x)) {
        expect(() => parseUnit(unit), `${r.id}: ${unit}`).not.toThrow();
      }
    }
  });

  test("ids are unique, names are plain, sources exist", () => {
    expect(new Set(relations.map((r) => r.id)).size).toBe(relations.length);
    for (const r of relations) {
      expect(r.room).toBe("plants");
      expect(r.id).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/);
      for (const name of [...Object.keys(r.inputs), ...Object.keys(r.outputs)])
        expect(name).toMatch(/^[a-z0-9]+(_[a-z0-9]+)*$/);
      for (const key of r.sources) expect(Object.keys(sources), `${r.id}: ${key}`).toContain(key);
    }
  });

  test.each(relations.map((r) => [r.id, r] as const))(
    "%s gives every output as a number at ordinary inputs",
    (_, r) => {
      const inputs: Record<string, number | string> = {};
      for (const [name, spec] of Object.entries(r.inputs)) {
        if (spec.kind === "choice") inputs[name] = spec.default ?? spec.options[0]!;
        else if (spec.kind === "number") {
          if (spec.default !== undefined) {
            expect(spec.default).toBeGreaterThanOrEqual(spec.min);
            expect(spec.default).toBeLessThanOrEqual(spec.max);
          }
          inputs[name] = spec.default ?? Math.sqrt(Math.max(spec.min, 1e-3) * Math.max(spec.max, 1e-3));
        }
      }
      const out = evaluate(r, inputs);
      expect(Object.keys(out).sort()).toEqual(Object.keys(r.outputs).sort());
      for (const [name, value] of Object.entries(out)) expect(value, name).not.toBeNaN();
    },
  );
});
