import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  co2AirEquilibrium,
  co2FromPartialPressure,
  co2Henry,
  co2HenryPerKg,
  co2HenryPlummerBusenberg,
  co2PartialPressure,
  dissolvedGasPressure,
  guidelineHenryPerKg,
  henryDimensionless,
  nitrogenAirEquilibrium,
  nitrogenHenry,
  oxygenHenry,
  oxygenPercent,
  oxygenSaturation,
  oxygenSaturationGarciaGordon,
  pressureAtAltitude,
  surfaceTension,
  waterDensity,
  waterExpansion,
} from "./index.ts";

const warmth = fc.double({ min: 0, max: 40, noNaN: true });

describe("water", () => {
  test("surface tension by the international formulation", () => {
    // Quoted as 0.0728 N/m at 20 °C and 0.0720 at 25 °C; the first is 0.09 % above the formula's 0.07274.
    expect(Math.abs(surfaceTension(20) - 0.0728)).toBeLessThan(1e-4);
    expect(surfaceTension(25)).toBeCloseTo(0.072, 4);
  });

  test("expansion is the slope of the density and vanishes near 4 °C", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 39.9, noNaN: true }), (t) => {
        const slope = (waterDensity(t + 1e-3) - waterDensity(t - 1e-3)) / 2e-3;
        expect(waterExpansion(t)).toBeCloseTo(-slope / waterDensity(t), 8);
      }),
    );
    expect(waterExpansion(3.5)).toBeLessThan(0);
    expect(waterExpansion(4.5)).toBeGreaterThan(0);
  });
});

describe("solubility", () => {
  test("the two forms of Weiss differ by the density alone", () => {
    // 0.02 % from 5 to 30 °C, as the fits were made on the same measurements.
    for (const t of [5, 10, 15, 20, 25, 30]) {
      expect(Math.abs(co2Henry(t) / (co2HenryPerKg(t) * (waterDensity(t) / 1000)) - 1)).toBeLessThan(2e-4);
    }
  });

  test("the carbonate form deviates from Weiss as published comparisons say", () => {
    const deviation = (t: number) => 100 * (co2HenryPlummerBusenberg(t) / co2HenryPerKg(t) - 1);
    expect(deviation(5)).toBeCloseTo(0.3, 1);
    expect(Math.abs(deviation(20))).toBeLessThan(0.07);
    expect(Math.abs(deviation(25))).toBeLessThan(0.07);
    expect(deviation(30)).toBeCloseTo(-0.2, 1);
    expect(deviation(40)).toBeCloseTo(-0.7, 1);
  });

  test("the guideline bears out all three gases from 16 to 30 °C within 1.5 %, and not CO2 in cold water", () => {
    for (let t = 16; t <= 30; t += 2) {
      const litres = waterDensity(t) / 1000;
      expect(Math.abs((guidelineHenryPerKg("co2", t) * litres) / co2Henry(t) - 1)).toBeLessThan(0.015);
      expect(Math.abs((guidelineHenryPerKg("o2", t) * litres) / oxygenHenry(t) - 1)).toBeLessThan(0.015);
      expect(Math.abs((guidelineHenryPerKg("n2", t) * litres) / nitrogenHenry(t) - 1)).toBeLessThan(0.015);
    }
    const cold = (t: number) => 100 * (guidelineHenryPerKg("co2", t) / co2HenryPerKg(t) - 1);
    expect(cold(15)).toBeCloseTo(-1.6, 0);
    expect(cold(10)).toBeCloseTo(-2.4, 0);
    expect(cold(5)).toBeCloseTo(-3.5, 0);
  });

  test("the second oxygen fit agrees within 0.001 mg/L from 5 to 40 °C", () => {
    for (let t = 5; t <= 40; t++) {
      expect(Math.abs(oxygenSaturationGarciaGordon(t) - oxygenSaturation(t))).toBeLessThan(0.001);
    }
  });

  test("plain proportion to pressure and the older tables of aquaculture are not what this returns", () => {
    // 30 °C, 0.8 atm: 5.982 mg/L against 6.047 by proportion. Older tables: 9.17 at 20 °C, 8.38 at 25, 7.63 at 30.
    expect((0.8 * oxygenSaturation(30)) / oxygenSaturation(30, 0.8)).toBeCloseTo(1.011, 3);
    for (const [t, old] of [
      [20, 9.17],
      [25, 8.38],
      [30, 7.63],
    ] as const) {
      expect(old / oxygenSaturation(t) - 1).toBeGreaterThan(0.008);
    }
  });

  test("all solubilities and saturations fall with warmth", () => {
    fc.assert(
      fc.property(warmth, warmth, (a, b) => {
        fc.pre(a < b - 1e-3);
        expect(co2Henry(a)).toBeGreaterThan(co2Henry(b));
        expect(oxygenHenry(a)).toBeGreaterThan(oxygenHenry(b));
        expect(nitrogenHenry(a)).toBeGreaterThan(nitrogenHenry(b));
        expect(oxygenSaturation(a)).toBeGreaterThan(oxygenSaturation(b));
        expect(co2AirEquilibrium(a, 425)).toBeGreaterThan(co2AirEquilibrium(b, 425));
      }),
    );
  });

  test("height and salt lower the saturation", () => {
    fc.assert(
      fc.property(warmth, fc.double({ min: 10, max: 3000, noNaN: true }), (t, h) => {
        const p = pressureAtAltitude(h);
        expect(oxygenSaturation(t, p)).toBeLessThan(oxygenSaturation(t));
        expect(co2AirEquilibrium(t, 600, p)).toBeLessThan(co2AirEquilibrium(t, 600));
        expect(oxygenSaturation(t, 1, 5)).toBeLessThan(oxygenSaturation(t));
      }),
    );
  });

  test("conversion between mg/L and pressure of CO2 goes both ways", () => {
    fc.assert(
      fc.property(warmth, fc.double({ min: 0, max: 300, noNaN: true }), (t, c) => {
        expect(co2FromPartialPressure(co2PartialPressure(c, t), t)).toBeCloseTo(c, 9);
      }),
    );
  });

  test("henry numbers turn back into solubility", () => {
    expect(henryDimensionless(co2Henry(25), 25)).toBeCloseTo(1.2034, 3);
    expect(oxygenPercent(oxygenSaturation(26, 0.95), 26, 0.95)).toBeCloseTo(100, 10);
  });

  test("water at equilibrium with the air presses as hard as the air, less argon and CO2", () => {
    fc.assert(
      fc.property(fc.double({ min: 5, max: 35, noNaN: true }), (t) => {
        const total = dissolvedGasPressure(
          { o2MgL: oxygenSaturation(t), n2MgL: nitrogenAirEquilibrium(t), co2MgL: co2AirEquilibrium(t, 425) },
          t,
        );
        // Argon is 0.93 % of dry air.
        expect(total).toBeGreaterThan(0.9895);
        expect(total).toBeLessThan(0.9925);
      }),
    );
  });
});
