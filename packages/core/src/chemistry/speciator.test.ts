import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { ChemistryError } from "./chemistry-error.ts";
import { type Given, speciate } from "./speciate.ts";
import { createSpeciator, type GivenPair, givenPairs } from "./speciator.ts";
import { alkalinityFromIons, pureWater, speciesTable, type WaterTotals, waterTotals } from "./species.ts";

const logarithmic = (low: number, high: number) =>
  fc.double({ min: Math.log10(low), max: Math.log10(high), noNaN: true }).map((x) => 10 ** x);
const maybe = (low: number, high: number) => fc.oneof(fc.constant(0), logarithmic(low, high), logarithmic(low, high));

/** Waters from rain to hard, mol/kg, with and without each constituent. */
const water: fc.Arbitrary<WaterTotals> = fc.record({
  ca: maybe(1e-6, 5e-3),
  mg: maybe(1e-6, 3e-3),
  na: maybe(1e-6, 1e-2),
  k: maybe(1e-6, 3e-3),
  cl: maybe(1e-6, 1e-2),
  so4: maybe(1e-6, 5e-3),
  no3: maybe(1e-6, 2e-3),
  po4: maybe(1e-7, 1e-4),
  nh4: maybe(1e-7, 3e-4),
  b: maybe(1e-7, 1e-4),
});
const temperature = fc.double({ min: 5, max: 35, noNaN: true });
const carbon = logarithmic(1e-5, 1e-2);
const alkalinity = fc.oneof(
  logarithmic(1e-5, 1e-2),
  logarithmic(1e-5, 1e-2),
  fc.constant(0),
  logarithmic(1e-6, 1e-3).map((x) => -x),
);

const medtap = waterTotals({ ca: 1.5e-3, mg: 4e-4, na: 8e-4, k: 8e-5, cl: 4.8e-4, so4: 6e-4, no3: 2e-4 });

type Known = Record<"ph" | "alk" | "dic" | "co2" | "pco2", number>;

function givenOf(pair: GivenPair, v: Known): Given {
  const [a, b] = pair.split("-") as [keyof Known, keyof Known];
  return { [a]: v[a], [b]: v[b] } as unknown as Given;
}

describe("any two give the rest and back", () => {
  test("every pair returns the same water to 1e-8", () => {
    fc.assert(
      fc.property(water, temperature, carbon, alkalinity, (w, t, dic, alk) => {
        const first = speciate(w, t, { dic, alk });
        for (const pair of givenPairs) {
          if (pair === "dic-alk") continue;
          const back = speciate(w, t, givenOf(pair, first));
          // A small difference of large numbers cannot be had closer than the numbers themselves: alkalinity tells
          // little carbon in acid or caustic water, carbon and CO2 tell little HCO3 in acid water.
          const acidity = first.species.H! + first.species.OH! + first.species.HSO4!;
          const sharpness =
            pair === "ph-alk"
              ? (Math.abs(alk) + acidity + w.po4 + w.b + w.nh4) / (first.hco3 + 2 * first.co3)
              : pair === "dic-co2" || pair === "dic-pco2"
                ? dic / (first.dic - first.co2)
                : 1 + acidity / dic;
          const tolerance = 1e-8 * Math.max(1, sharpness / 10);
          const what = `${pair} at pH ${first.ph}`;
          expect(Math.abs(back.ph - first.ph), what).toBeLessThan(tolerance);
          expect(Math.abs(back.dic - first.dic) / first.dic, what).toBeLessThan(tolerance);
          expect(Math.abs(back.co2 - first.co2) / first.co2, what).toBeLessThan(tolerance);
          expect(Math.abs(back.alk - first.alk) / (Math.abs(first.alk) + acidity + dic), what).toBeLessThan(tolerance);
        }
      }),
      { numRuns: 400 },
    );
  });

  test("in ordinary water the round trip needs no allowance", () => {
    fc.assert(
      fc.property(fc.double({ min: 6, max: 9, noNaN: true }), temperature, (ph, t) => {
        const first = speciate(medtap, t, { ph, alk: 2.8e-3 });
        for (const pair of givenPairs) {
          const back = speciate(medtap, t, givenOf(pair, first));
          expect(Math.abs(back.ph - ph), pair).toBeLessThan(1e-8);
          expect(Math.abs(back.dic / first.dic - 1), pair).toBeLessThan(1e-8);
          expect(Math.abs(back.pco2 / first.pco2 - 1), pair).toBeLessThan(1e-8);
          expect(Math.abs(back.alk / first.alk - 1), pair).toBeLessThan(1e-8);
        }
      }),
      { numRuns: 100 },
    );
  });
});

describe("balances", () => {
  test("every total is the sum of its forms", () => {
    const holds: Readonly<Record<string, readonly [keyof WaterTotals, RegExp]>> = {
      calcium: ["ca", /^Ca/],
      magnesium: ["mg", /^Mg/],
      sodium: ["na", /^Na/],
      potassium: ["k", /^K/],
      sulfate: ["so4", /SO4$/],
      phosphate: ["po4", /PO4$/],
      ammonium: ["nh4", /^NH[34]$/],
      boron: ["b", /^B/],
    };
    fc.assert(
      fc.property(water, temperature, carbon, alkalinity, (w, t, dic, alk) => {
        const s = speciate(w, t, { dic, alk });
        for (const [name, [total, pattern]] of Object.entries(holds)) {
          const sum = Object.entries(s.species).reduce((a, [n, m]) => (pattern.test(n) ? a + m : a), 0);
          expect(Math.abs(sum - w[total]), name).toBeLessThanOrEqual(1e-9 * w[total]);
        }
        const inorganic = Object.entries(s.species).reduce((a, [n, m]) => (/CO[23]$/.test(n) ? a + m : a), 0);
        expect(Math.abs(inorganic - dic)).toBeLessThan(1e-9 * dic);
      }),
      { numRuns: 300 },
    );
  });

  test("charges left over are the alkalinity of the ions less the alkalinity", () => {
    fc.assert(
      fc.property(water, temperature, carbon, alkalinity, (w, t, dic, alk) => {
        const s = speciate(w, t, { dic, alk });
        expect(Math.abs(s.chargeBalance - (alkalinityFromIons(w) - alk))).toBeLessThan(1e-11);
      }),
      { numRuns: 300 },
    );
  });

  test("a water whose charges balance has the alkalinity of its ions", () => {
    fc.assert(
      fc.property(water, temperature, carbon, (w, t, dic) => {
        const alk = alkalinityFromIons(w);
        expect(Math.abs(speciate(w, t, { dic, alk }).chargeBalance)).toBeLessThan(1e-11);
      }),
      { numRuns: 200 },
    );
  });

  test("mass action holds for every pair and acid", () => {
    const s = speciate(waterTotals({ ...medtap, po4: 3e-5, nh4: 2e-5, b: 2e-5 }), 25, { ph: 8.2, alk: 2.8e-3 });
    const a = (name: string) => s.species[name]! * s.activityCoefficients[name]!;
    const h = 10 ** -s.ph;
    expect(a("H")).toBeCloseTo(h, 15);
    expect(Math.log10(a("CaCO3") / (a("Ca") * a("CO3")))).toBeCloseTo(3.2241, 3);
    expect(Math.log10(a("MgSO4") / (a("Mg") * a("SO4")))).toBeCloseTo(2.37, 6);
    expect(Math.log10((h * a("HCO3")) / a("CO2"))).toBeCloseTo(-6.3519, 3);
    expect(Math.log10((h * a("NH3")) / a("NH4"))).toBeCloseTo(-9.244, 2);
    expect(Math.log10(a("HPO4") / (a("PO4") * h))).toBeCloseTo(12.346, 6);
    expect(Math.log10(a("CaPO4") / (a("Ca") * a("PO4")))).toBeCloseTo(6.459, 6);
    const strength = speciesTable.reduce((sum, x) => sum + 0.5 * x.charge ** 2 * s.species[x.name]!, 0);
    expect(strength / s.ionicStrength).toBeCloseTo(1, 9);
  });
});

describe("how the answer moves", () => {
  test("pH rises with alkalinity and falls with carbon", () => {
    fc.assert(
      fc.property(water, temperature, carbon, alkalinity, (w, t, dic, alk) => {
        const here = speciate(w, t, { dic, alk });
        expect(speciate(w, t, { dic, alk: alk + 1e-5 }).ph).toBeGreaterThan(here.ph);
        expect(speciate(w, t, { dic: dic * 1.01, alk }).ph).toBeLessThanOrEqual(here.ph);
        expect(speciate(w, t, { dic: dic * 1.01, alk }).co2).toBeGreaterThan(here.co2);
      }),
      { numRuns: 200 },
    );
  });

  test("at fixed alkalinity CO2 falls with pH", () => {
    const co2 = [5.5, 6, 6.5, 7, 7.5, 8, 8.5, 9, 9.5].map((ph) => speciate(medtap, 25, { ph, alk: 2.8e-3 }).co2);
    for (let i = 1; i < co2.length; i++) expect(co2[i]!).toBeLessThan(co2[i - 1]!);
  });
});

describe("hard cases", () => {
  const waters: Readonly<Record<string, WaterTotals>> = {
    pure: pureWater,
    medtap,
    brackish: waterTotals({ ca: 4e-3, mg: 3e-3, na: 6e-3, k: 1e-3, cl: 6.5e-3, so4: 4.5e-3, no3: 5e-4 }),
    fertilised: waterTotals({ ca: 1e-3, mg: 5e-4, k: 2e-3, no3: 5e-4, po4: 1e-3, so4: 1e-3, nh4: 1e-3, b: 1e-3 }),
    bound: waterTotals({ ca: 1e-3, po4: 1e-3 }),
  };
  for (const [name, w] of Object.entries(waters)) {
    test(`${name}: from no alkalinity to acid and lye, from no carbon to much`, () => {
      for (const alk of [0, 1e-9, -1e-9, -1e-6, -1e-3, -1e-2, 1e-6, 1e-4, 1e-3, 1e-2]) {
        for (const dic of [0, 1e-12, 1e-8, 1e-5, 1e-3, 2e-2]) {
          for (const t of [5, 25, 35]) {
            const s = speciate(w, t, { dic, alk });
            expect(Number.isFinite(s.ph)).toBe(true);
            expect(Math.min(...Object.values(s.species))).toBeGreaterThanOrEqual(0);
            expect(Math.abs(s.chargeBalance - (alkalinityFromIons(w) - alk))).toBeLessThan(1e-10);
          }
        }
      }
    });
  }

  test("pH 3 to 11.5 with carbon, without carbon, and with CO2", () => {
    for (let ph = 3; ph <= 11.5; ph += 0.5) {
      for (const w of Object.values(waters)) {
        expect(speciate(w, 25, { ph, dic: 1e-3 }).alk).toBeGreaterThan(-0.1);
        const bare = speciate(w, 25, { ph, dic: 0 });
        expect(speciate(w, 25, { dic: 0, alk: bare.alk }).ph).toBeCloseTo(ph, 7);
        if (ph <= 9) expect(speciate(w, 25, { ph, co2: 1e-5 }).dic).toBeGreaterThan(1e-5);
      }
    }
  });

  test("totals too small for arithmetic count as none", () => {
    const tiny = waterTotals({ ca: 5e-324, mg: 1e-300, na: 1e-310, k: 5e-324, so4: 5e-324, po4: 1e-320, nh4: 5e-324 });
    expect(speciate(tiny, 25, { dic: 1e-3, alk: 1e-3 }).ph).toBeCloseTo(
      speciate(pureWater, 25, { dic: 1e-3, alk: 1e-3 }).ph,
      9,
    );
    expect(speciate(tiny, 25, { pco2: 1e-3, alk: 1e-3 }).dic).toBeGreaterThan(1e-3);
    expect(speciate(medtap, 25, { dic: 5e-324, alk: 1e-3 }).ph).toBeGreaterThan(10);
  });

  test("alkalinity that just leaves no carbon gives no carbon", () => {
    const bare = speciate(medtap, 25, { ph: 9, dic: 0 });
    const s = speciate(medtap, 25, { ph: 9, alk: bare.alk });
    expect(s.dic).toBeLessThan(1e-12);
  });
});

describe("refusals", () => {
  const fault = (run: () => unknown): ChemistryError => {
    try {
      run();
    } catch (error) {
      if (error instanceof ChemistryError) return error;
      throw error;
    }
    throw new Error("nothing was refused");
  };

  test("alkalinity below what water alone holds at that pH", () => {
    const e = fault(() => speciate(medtap, 25, { ph: 11, alk: 1e-4 }));
    expect(e.fault).toBe("no-solution");
    expect(e.where).toBe("alk");
    expect(e.message).toContain("at pH 11");
  });
  test("carbon not above its CO2", () => {
    expect(fault(() => speciate(medtap, 25, { dic: 1e-3, co2: 1e-3 })).where).toBe("dic");
    expect(fault(() => speciate(medtap, 25, { dic: 1e-3, co2: 2e-3 })).fault).toBe("no-solution");
    expect(fault(() => speciate(medtap, 25, { dic: 1e-3, co2: 0 })).where).toBe("co2");
    expect(fault(() => speciate(medtap, 25, { dic: 0, co2: 0 })).fault).toBe("no-solution");
    expect(fault(() => speciate(medtap, 25, { dic: 1e-4, pco2: 0.5 })).fault).toBe("no-solution");
  });
  test("CO2 beside pCO2, one quantity alone, three quantities", () => {
    const wrong = (given: object) => fault(() => speciate(medtap, 25, given as Given));
    expect(wrong({ co2: 1e-4, pco2: 1e-3 }).what).toContain("one quantity");
    expect(wrong({ alk: 1e-3 }).where).toBe("given");
    expect(wrong({}).fault).toBe("bad-input");
    expect(wrong({ ph: 7, alk: 1e-3, dic: 1e-3 }).fault).toBe("bad-input");
  });
  test("values that mean nothing", () => {
    expect(fault(() => speciate({ ...medtap, ca: -1e-3 }, 25, { ph: 7, alk: 1e-3 })).where).toBe("totals.ca");
    expect(fault(() => speciate({ ...medtap, so4: Number.NaN }, 25, { ph: 7, alk: 1e-3 })).where).toBe("totals.so4");
    expect(fault(() => speciate(medtap, 25, { ph: 15, alk: 1e-3 })).where).toBe("ph");
    expect(fault(() => speciate(medtap, 25, { ph: Number.NaN, alk: 1e-3 })).fault).toBe("bad-input");
    expect(fault(() => speciate(medtap, 25, { dic: -1e-3, alk: 1e-3 })).fault).toBe("bad-input");
    expect(fault(() => speciate(medtap, 120, { ph: 7, alk: 1e-3 })).where).toBe("temperature");
    expect(fault(() => createSpeciator().solve(medtap, 25, "ph-ph" as GivenPair, 7, 7)).where).toBe("given");
  });
  test("brine beyond the activity law", () => {
    expect(fault(() => speciate(medtap, 25, { ph: 11.5, co2: 1e-4 })).fault).toBe("out-of-range");
    expect(fault(() => speciate(waterTotals({ na: 1, cl: 1 }), 25, { ph: 7, dic: 1e-3 })).fault).toBe("out-of-range");
  });
});

describe("the workspace", () => {
  test("gives what speciate gives, in any order of use", () => {
    const s = createSpeciator();
    fc.assert(
      fc.property(water, temperature, carbon, alkalinity, (w, t, dic, alk) => {
        s.solve(w, t, "dic-alk", dic, alk);
        const fresh = createSpeciator();
        fresh.solve(w, t, "dic-alk", dic, alk);
        expect(s.ph).toBe(fresh.ph);
        expect([...s.molality]).toEqual([...fresh.molality]);
      }),
      { numRuns: 50 },
    );
  });
  test("ideal water is the textbook's", () => {
    const ideal = createSpeciator({ activity: "none", pairs: false });
    ideal.solve(waterTotals({ na: 1e-3 }), 25, "dic-alk", 1e-3, 1e-3);
    expect([...ideal.activityCoefficients()].every((g) => g === 1)).toBe(true);
    expect(ideal.ph).toBeCloseTo(8.298, 2);
  });
  test("saturation needs calcium and carbonate", () => {
    expect(speciate(pureWater, 25, { ph: 7, dic: 1e-3 }).siCalcite).toBe(Number.NEGATIVE_INFINITY);
    expect(speciate(medtap, 25, { ph: 7, dic: 0 }).siCalcite).toBe(Number.NEGATIVE_INFINITY);
  });
});
