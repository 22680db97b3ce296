import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  humidityRatio,
  humidityRatioFromWetBulb,
  moistAir,
  psychrometerVapourPressure,
  vapourPressure,
  wetBulb,
} from "./moist-air.ts";
import { dewPoint, magnusPressure, saturationPressure } from "./saturation.ts";
import { waterDensity, waterExpansion } from "./water-properties.ts";

const temperature = fc.double({ min: 0, max: 45, noNaN: true });
const humidity = fc.double({ min: 0.05, max: 1, noNaN: true });

describe("moist air", () => {
  test("dew point gives back the temperature of saturated air, over ice too", () => {
    fc.assert(
      fc.property(fc.double({ min: -60, max: 90, noNaN: true }), (t) => {
        // At the triple point the two branches differ by 2e-6 of the pressure, which is 3e-5 K.
        expect(Math.abs(dewPoint(saturationPressure(t)) - t)).toBeLessThan(1e-4);
      }),
    );
  });

  test("dew point <= wet bulb <= temperature, all equal when saturated", () => {
    fc.assert(
      fc.property(temperature, humidity, (t, rh) => {
        const air = moistAir(t, rh);
        expect(air.dewPoint).toBeLessThanOrEqual(air.wetBulb + 1e-6);
        expect(air.wetBulb).toBeLessThanOrEqual(t + 1e-6);
      }),
    );
    const full = moistAir(25, 1);
    expect(full.wetBulb).toBeCloseTo(25, 6);
    expect(full.dewPoint).toBeCloseTo(25, 6);
  });

  test("wet bulb inverts the balance of adiabatic saturation", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 10, max: 45, noNaN: true }),
        fc.double({ min: 0.3, max: 1, noNaN: true }),
        (t, rh) => {
          const vapour = vapourPressure(t, rh);
          const back = humidityRatioFromWetBulb(t, wetBulb(t, vapour));
          expect(Math.abs(back - humidityRatio(vapour))).toBeLessThan(1e-9);
        },
      ),
    );
  });

  test("the aspirated pair agrees with the wet-bulb balance within 0.005 in relative humidity at 18-32 °C, 40-95 %", () => {
    for (let t = 18; t <= 32; t++) {
      for (let rh = 0.4; rh <= 0.95; rh += 0.05) {
        const wet = wetBulb(t, vapourPressure(t, rh));
        expect(Math.abs(psychrometerVapourPressure(t, wet) / saturationPressure(t) - rh)).toBeLessThan(0.005);
      }
    }
  });

  test("the Magnus form runs 0.1-0.3 % low at 5-30 °C", () => {
    for (let t = 5; t <= 30; t++) {
      const low = 1 - magnusPressure(t) / saturationPressure(t);
      expect(low).toBeGreaterThan(0.0005);
      expect(low).toBeLessThan(0.0035);
    }
  });

  test("moist air is lighter than dry air", () => {
    expect(moistAir(25, 0.9).density).toBeLessThan(moistAir(25, 0.1).density);
  });
});

describe("water", () => {
  test("expansion is the slope of density", () => {
    for (let t = 1; t <= 60; t += 0.5) {
      const slope = (waterDensity(t + 0.01) - waterDensity(t - 0.01)) / 0.02;
      expect(waterExpansion(t)).toBeCloseTo(-slope / waterDensity(t), 8);
    }
  });

  test("water is densest near 4 °C", () => {
    expect(waterExpansion(3.9)).toBeLessThan(0);
    expect(waterExpansion(4.1)).toBeGreaterThan(0);
  });
});
