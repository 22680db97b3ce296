import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  CO2_CRITICAL,
  co2Density,
  co2HeatOfEvaporation,
  co2LiquidDensity,
  co2Pressure,
  co2VapourDensity,
  co2VapourPressure,
  contentsAtGaugeFall,
  contentsFromPressure,
  cylinderCautions,
  cylinderPressure,
  exposureLimits,
  instantRelease,
  type Leak,
  largestCharge,
  leakLevel,
  leakMean,
  massFromPpm,
  oxygenLeft,
  ppmFromMass,
  runningTime,
  smallestRoom,
  timeToFall,
} from "./index.ts";

describe("equation of state", () => {
  test("meets the ancillary equations on both sides of the phase change", () => {
    for (const t of [-20, 0, 10, 20, 25, 28, 30]) {
      const p = co2VapourPressure(t);
      expect(Math.abs(co2Pressure(co2VapourDensity(t), t) / p - 1)).toBeLessThan(0.0005);
      // Dense liquid turns 0.01 % of density into 0.1 % of pressure and more.
      expect(Math.abs(co2Pressure(co2LiquidDensity(t), t) / p - 1)).toBeLessThan(0.005);
    }
  });

  test("the heat of evaporation agrees with the slope of the vapour pressure (Clapeyron)", () => {
    for (const t of [-10, 0, 10, 20, 25]) {
      const slope = ((co2VapourPressure(t + 0.01) - co2VapourPressure(t - 0.01)) / 0.02) * 1e5;
      const heat = ((t + 273.15) * slope * (1 / co2VapourDensity(t) - 1 / co2LiquidDensity(t))) / 1000;
      expect(Math.abs(heat / co2HeatOfEvaporation(t) - 1)).toBeLessThan(0.003);
    }
  });

  test("the short density formula agrees with it at the pressures of a bubble counter", () => {
    for (const t of [0, 10, 20, 30]) {
      for (const bar of [1.01325, 2, 3])
        expect(Math.abs(co2Pressure(co2Density(t, bar), t) / bar - 1)).toBeLessThan(0.001);
    }
  });

  test("there is no liquid above the critical point", () => {
    expect(() => co2VapourPressure(31)).toThrow(RangeError);
    expect(co2VapourPressure(CO2_CRITICAL.t)).toBeCloseTo(CO2_CRITICAL.bar, 6);
  });
});

describe("cylinder", () => {
  test("the gauge is flat while mass falls, then falls with it", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 29, noNaN: true }),
        fc.double({ min: 0.02, max: 0.68, noNaN: true }),
        (t, c) => {
          const p = cylinderPressure(c, t);
          const flat = co2VapourPressure(t);
          const dry = contentsAtGaugeFall(t);
          if (c > dry && c * 1000 < co2LiquidDensity(t)) expect(p).toBe(flat);
          if (c < dry) {
            expect(p).toBeLessThanOrEqual(flat);
            expect(cylinderPressure(c * 0.9, t)).toBeLessThan(p);
          }
        },
      ),
    );
  });

  test("pressure rises with warmth at any fill", () => {
    for (const fill of [0.1, 0.3, 0.68, 0.75]) {
      for (let t = 0; t < 60; t += 1) expect(cylinderPressure(fill, t + 1)).toBeGreaterThan(cylinderPressure(fill, t));
    }
  });

  test("contents come back from a falling gauge, and a flat gauge tells nothing", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 29, noNaN: true }),
        fc.double({ min: 0.05, max: 0.9, noNaN: true }),
        (t, s) => {
          const contents = s * contentsAtGaugeFall(t);
          expect(contentsFromPressure(cylinderPressure(contents, t), t)).toBeCloseTo(contents, 6);
        },
      ),
    );
    expect(contentsFromPressure(57.29, 20)).toBeNull();
  });

  test("a charge lasts in proportion", () => {
    expect(runningTime(2, 0.65, 9)).toBeCloseTo(4 * runningTime(0.5, 0.65, 9), 9);
  });
});

describe("room", () => {
  const leak: Leak = { kg: 2, hours: 1, roomM3: 30, airChanges: 0.5 };

  test("the mean of a leak is the area under its curve", () => {
    for (const n of [0, 0.5, 2]) {
      for (const span of [0.5, 4, 8]) {
        const steps = 20000;
        let sum = 0;
        for (let i = 0; i < steps; i++) sum += leakLevel({ ...leak, airChanges: n }, ((i + 0.5) * span) / steps);
        expect(leakMean({ ...leak, airChanges: n }, span)).toBeCloseTo(sum / steps, 7);
      }
    }
  });

  test("the time to fall is when the curve crosses the limit", () => {
    const peak = leakLevel(leak, 1);
    expect(leakLevel(leak, 1 + timeToFall(peak, 0.005, 0.5))).toBeCloseTo(0.005, 9);
    expect(timeToFall(0.004, 0.005, 0.5)).toBe(0);
    expect(timeToFall(0.02, 0.005, 0)).toBe(Number.POSITIVE_INFINITY);
  });

  test("more gas, a smaller room and less air are worse", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 10, noNaN: true }),
        fc.double({ min: 8, max: 200, noNaN: true }),
        fc.double({ min: 0.05, max: 5, noNaN: true }),
        (kg, roomM3, airChanges) => {
          const here: Leak = { kg, hours: 2, roomM3, airChanges };
          const peak = leakLevel(here, 2);
          expect(leakLevel({ ...here, kg: kg * 1.1 }, 2)).toBeGreaterThan(peak);
          expect(leakLevel({ ...here, roomM3: roomM3 * 1.1 }, 2)).toBeLessThan(peak);
          expect(leakLevel({ ...here, airChanges: airChanges * 1.1 }, 2)).toBeLessThan(peak);
          expect(leakLevel({ ...here, airChanges: 0 }, 2)).toBeGreaterThan(peak);
          expect(instantRelease(kg, roomM3)).toBeLessThan(1);
          expect(smallestRoom(largestCharge(0.03, roomM3), 0.03)).toBeCloseTo(roomM3, 8);
        },
      ),
    );
  });

  test("the simple largest charge is on the safe side of the full release", () => {
    for (const room of [12, 30, 50])
      expect(instantRelease(largestCharge(0.03, room), room)).toBeLessThan(0.03 + 420e-6);
  });

  test("an oxygen alarm would sleep at a CO2 level above the danger mark", () => {
    // 5 % CO2 leaves 19.9 % oxygen; alarms are set at 19.5 % as a rule.
    expect(100 * oxygenLeft(0.05)).toBeCloseTo(19.9, 1);
    expect(0.05).toBeGreaterThan((exposureLimits.find((l) => l.name.startsWith("immediately"))?.ppm ?? 0) * 1e-6);
  });

  test("mass and share of CO2 in air turn into each other", () => {
    expect(ppmFromMass(massFromPpm(5000, 21), 21)).toBeCloseTo(5000, 8);
  });

  test("limits of four bodies are there, 5000 ppm over a shift in each, and the cautions defer to codes and supplier", () => {
    for (const body of ["NIOSH, United States", "OSHA, United States", "European Union", "United Kingdom"]) {
      expect(exposureLimits.some((l) => l.body === body && l.ppm === 5000)).toBe(true);
    }
    expect(exposureLimits.find((l) => l.name === "short-term WEL")?.ppm).toBe(15000);
    expect(exposureLimits.find((l) => l.name === "short-term REL")?.ppm).toBe(30000);
    expect(cylinderCautions.at(-1)).toMatch(/Local codes, the gas supplier/);
  });
});
