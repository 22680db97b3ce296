import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { materials } from "../facts/index.ts";
import {
  albedoOf,
  albedoSpectra,
  albedos,
  algalAbsorption,
  BAND_EDGES,
  bandsOf,
  bandTransmittance,
  compensationLight,
  diffuseThroughLeaves,
  gaussianSpectrum,
  grossRateAt,
  hazeClasses,
  leafExtinction,
  lightClasses,
  massExtinction,
  plantSurfaces,
  platinumColour,
  pureWaterAbsorption,
  standHyperbola,
  standTanh,
  tanninClasses,
  tanninFromColour,
  transmittance,
  waterScattering,
  whiteSpectrum,
} from "./index.ts";

const clear = { a440: 0, chlorophyll: 0, turbidity: 0 };

describe("bands", () => {
  test("means of pure water over 50 and 100 nm, as integrated from Pope & Fry 1997", () => {
    const mean = (from: number, to: number): number => {
      let total = 0;
      for (let nm = from; nm < to; nm += 1) total += pureWaterAbsorption(nm);
      return total / (to - from);
    };
    // those means come from the table by 2.5 nm, this room holds every fourth of its points: 1.5 %
    for (const [i, want] of [0.0056, 0.0125, 0.0406, 0.0973, 0.287, 0.4617].entries()) {
      expect(Math.abs(mean(BAND_EDGES[i]!, BAND_EDGES[i + 1]!) / want - 1), `band ${i}`).toBeLessThan(0.015);
    }
    for (const [i, want] of [0.009, 0.069, 0.3744].entries()) {
      expect(Math.abs(mean(400 + 100 * i, 500 + 100 * i) / want - 1), `band ${i}`).toBeLessThan(0.015);
    }
  });

  test("a band without light still has the water's absorption in it", () => {
    const { share, absorption } = bandsOf(gaussianSpectrum(430, 10), clear);
    expect(share[5]).toBe(0);
    expect(absorption[5]).toBeGreaterThan(pureWaterAbsorption(650));
    expect(absorption[5]).toBeLessThan(pureWaterAbsorption(700));
  });

  test("shares add up to 1 and bands let through a little less than the spectrum (Jensen), within 0.3 %", () => {
    const amount = fc.double({ min: 0, max: 3, noNaN: true });
    fc.assert(
      fc.property(fc.integer({ min: 2700, max: 6600 }), amount, amount, (kelvin, a440, chlorophyll) => {
        const water = { a440, chlorophyll, turbidity: 0.3 };
        const white = whiteSpectrum(kelvin);
        const bands = bandsOf(white, water);
        expect(bands.share.reduce((a, b) => a + b)).toBeCloseTo(1, 12);
        expect(bands.absorption).toHaveLength(BAND_EDGES.length - 1);
        const exact = transmittance(white, water, 0.4);
        const banded = bandTransmittance(bands, 0.4);
        expect(banded).toBeLessThanOrEqual(exact * (1 + 1e-12));
        expect(banded / exact).toBeGreaterThan(0.997);
      }),
      { numRuns: 30, seed: 11 },
    );
  });

  test("water, its colours and its haze only ever take", () => {
    const white = whiteSpectrum(6500);
    expect(transmittance(white, { ...clear, turbidity: 50 }, 0)).toBe(1);
    const [one, two] = [0.5, 1].map((a440) => transmittance(white, { ...clear, a440 }, 0.4));
    expect(two!).toBeLessThan(one!);
    expect(() => transmittance(white, { ...clear, a440: -1 }, 0.4)).toThrow("a440 is -1");
    expect(() => transmittance(white, clear, Number.NaN)).toThrow("path through water");
    expect(() => bandsOf(white, { ...clear, turbidity: Number.NaN })).toThrow("turbidity is NaN");
  });

  test("haze scatters about 1 per metre and NTU at 550 nm, more in the blue", () => {
    const hazy = { ...clear, turbidity: 3 };
    expect(waterScattering(550, hazy)).toBeCloseTo(3, 2);
    // published exponents -0.5 to -1 (common practice): between 1.2 and 1.44 times as much at 450 as at 650 nm
    const ratio = waterScattering(450, hazy) / waterScattering(650, hazy);
    expect(ratio).toBeGreaterThan(1.2);
    expect(ratio).toBeLessThan(1.44);
  });

  test("wavelengths outside the tables are refused", () => {
    expect(() => pureWaterAbsorption(399)).toThrow("allowed is 400 to 720 nm");
    expect(() => algalAbsorption(701, 1)).toThrow("allowed is 400 to 700 nm");
    expect(algalAbsorption(445, 10)).toBeCloseTo((algalAbsorption(440, 10) + algalAbsorption(450, 10)) / 2, 12);
    expect(algalAbsorption(550, 0)).toBe(0);
    expect(algalAbsorption(400, 1)).toBeCloseTo(0.0263, 12);
  });

  test("colour of water there and back; classes follow one another", () => {
    expect(tanninFromColour(platinumColour(2))).toBeCloseTo(2, 12);
    expect(platinumColour(0)).toBe(0);
    for (const classes of [tanninClasses, hazeClasses]) {
      for (const [i, c] of classes.entries()) {
        expect(c.low < c.value && c.value < c.high).toBe(true);
        if (i > 0) expect(c.low).toBeGreaterThanOrEqual(classes[i - 1]!.high);
      }
    }
  });
});

describe("albedos", () => {
  test("every substrate, stone and wood of the facts has one, found by its name however written", () => {
    for (const { id } of materials) expect(albedoOf(id), id).toBeDefined();
    expect(albedoOf("Quartz-Sand")?.id).toBe("quartz sand");
    expect(albedoOf("velvet")).toBeUndefined();
  });

  test("each lies within its span, and each name stands once", () => {
    for (const { low, value, high } of albedos) expect(0 < low && low <= value && value <= high && high < 1).toBe(true);
    expect(new Set(albedos.map((a) => a.id)).size).toBe(albedos.length);
    for (const { id, points } of albedoSpectra) {
      const { low, high } = albedoOf(id)!;
      // coral sand is told a little wider than its points to 520 nm
      for (const [, share] of points) expect(share >= low - 0.001 && share <= high + 0.001, id).toBe(true);
    }
  });
});

describe("leaves", () => {
  test("surface per mass of six plants gives 0.0105 to 0.026 m2/g, as models of lakes take (0.01 to 0.02)", () => {
    const all = plantSurfaces.map((p) => massExtinction(p.surface / 1e4));
    expect(Math.min(...all)).toBeCloseTo(0.0105, 4);
    expect(Math.max(...all)).toBeCloseTo(0.026, 3);
  });

  test("flat leaves shade more from above, grassy ones less; bare ground passes all", () => {
    expect(leafExtinction(0, 2)).toBeGreaterThan(leafExtinction(0, 1));
    expect(leafExtinction(0, 0.5)).toBeLessThan(leafExtinction(0, 1));
    expect(diffuseThroughLeaves(0, 1)).toBeCloseTo(1, 12);
    expect(diffuseThroughLeaves(2, 1, 0.7)).toBeGreaterThan(diffuseThroughLeaves(2, 1));
  });
});

describe("photosynthesis against light", () => {
  const laws = ["tanh", "exponential", "hyperbola"] as const;

  test("at the compensation light the gross rate is the loss", () => {
    for (const law of laws) {
      for (const loss of [0, 0.05, 0.3, 0.9]) {
        expect(grossRateAt(law, compensationLight(law, loss, 90), 1, 90)).toBeCloseTo(loss, 12);
      }
      expect(() => compensationLight(law, 1, 90)).toThrow("no light is enough");
    }
  });

  test("all start with the same slope and never pass the top", () => {
    for (const law of laws) {
      expect(grossRateAt(law, 1e-6, 10, 100) / 1e-7).toBeCloseTo(1, 6);
      expect(grossRateAt(law, 1e6, 10, 100)).toBeLessThanOrEqual(10);
    }
  });

  test("a stand summed by the closed form or by slices is the same", () => {
    const slices = (f: (light: number) => number, above: number, k: number, area: number): number => {
      let total = 0;
      for (let i = 0; i < 20_000; i += 1) total += f(above * Math.exp((-k * area * (i + 0.5)) / 20_000));
      return (total * area) / 20_000;
    };
    for (const [above, ik, k, area] of [
      [100, 50, 0.5, 4],
      [1500, 20, 1.2, 8],
      [5, 200, 0.3, 1],
      [3000, 1, 3, 20],
    ] as const) {
      expect(standHyperbola(above, ik, k, area)).toBeCloseTo(
        slices((i) => i / (i + ik), above, k, area),
        7,
      );
      expect(standTanh(above, ik, k, area)).toBeCloseTo(
        slices((i) => Math.tanh(i / ik), above, k, area),
        7,
      );
    }
    expect(standTanh(0, 90, 0.5, 4)).toBe(0);
  });

  test("classes of need rise together", () => {
    for (const [i, c] of lightClasses.entries()) {
      expect(c.compensation[1]).toBeLessThan(c.ik);
      if (i > 0) expect(c.ik).toBeGreaterThan(lightClasses[i - 1]!.ik);
    }
  });
});
