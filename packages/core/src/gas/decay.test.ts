import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { decayFromThree, decayFromTwo, fitDecay, fitDecayFromPh, fitReaeration, rateFromBalance } from "./index.ts";

const curve = (times: readonly number[], k: number, c0: number, end: number) =>
  times.map((t) => end + (c0 - end) * Math.exp(-k * t));

describe("decay fit", () => {
  test("finds the curve that the readings were made from", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.03, max: 1.5, noNaN: true }),
        fc.double({ min: 15, max: 60, noNaN: true }),
        fc.double({ min: 0, max: 5, noNaN: true }),
        // A late start leaves little of the excess: two hours at most.
        fc.double({ min: 0, max: 2, noNaN: true }),
        (k, c0, end, start) => {
          const times = [0, 0.5, 1, 2, 3, 5, 8, 11].map((t) => t + start);
          const fit = fitDecay(times, curve(times, k, c0, end));
          expect(Math.abs(fit.k / k - 1)).toBeLessThan(1e-5);
          expect(Math.abs(fit.cInf - end)).toBeLessThan(1e-3);
          expect(Math.abs(fit.c0 / c0 - 1)).toBeLessThan(1e-4);
          expect(fit.kLow).toBeLessThanOrEqual(fit.k);
          expect(fit.kHigh).toBeGreaterThanOrEqual(fit.k);
        },
      ),
    );
  });

  test("takes rising readings too", () => {
    const times = [0, 1, 2, 4, 6];
    expect(fitDecay(times, curve(times, 0.2, 3, 8.2)).k).toBeCloseTo(0.2, 6);
  });

  test("the 95 % range holds the truth about 19 times in 20", () => {
    // A fixed sequence stands in for chance: linear congruential, twelve summed to a near-normal error.
    let seed = 20240501;
    const random = () => {
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
      return seed / 2 ** 32;
    };
    const normal = () => Array.from({ length: 12 }, random).reduce((a, b) => a + b, 0) - 6;
    const times = [0, 1, 2, 3, 4, 6, 8, 10, 12];
    const truth = curve(times, 0.15, 30, 2);
    let scatter = 0;
    let known = 0;
    const runs = 200;
    for (let i = 0; i < runs; i++) {
      const readings = truth.map((c) => c + 0.4 * normal());
      const own = fitDecay(times, readings);
      if (own.kLow <= 0.15 && own.kHigh >= 0.15) scatter++;
      const told = fitDecay(times, readings, { error: 0.4 });
      if (told.kLow <= 0.15 && told.kHigh >= 0.15) known++;
    }
    // Binomial spread of 200 runs: 95 % +- 3 points at two standard deviations.
    expect(scatter / runs).toBeGreaterThan(0.9);
    expect(scatter / runs).toBeLessThan(0.99);
    expect(known / runs).toBeGreaterThan(0.9);
    expect(known / runs).toBeLessThan(0.99);
  });

  test("three readings fit exactly and say nothing of the range unless their error is told", () => {
    const fit = fitDecay([0, 4, 8], [28, 18.279, 12.264]);
    expect(fit.k).toBeCloseTo(decayFromThree(4, 28, 18.279, 12.264).k, 6);
    expect(fit.kLow).toBe(0);
    expect(fit.kHigh).toBe(Number.POSITIVE_INFINITY);
    const told = fitDecay([0, 4, 8], [28, 18.279, 12.264], { error: 0.1 });
    expect(told.kLow).toBeGreaterThan(0.1);
    expect(told.kHigh).toBeLessThan(0.14);
  });

  test("rounding pH to 0.01 stays in the accepted band 0.110 to 0.135; the true rate lies in its range", () => {
    const fit = fitDecayFromPh([0, 1, 2, 4, 6, 8, 10, 12], [6.7, 6.75, 6.8, 6.89, 6.98, 7.06, 7.14, 7.22], 1.43, 25);
    expect(fit.k).toBeGreaterThan(0.11);
    expect(fit.k).toBeLessThan(0.135);
    expect(fit.kLow).toBeLessThan(0.12);
    expect(fit.kHigh).toBeGreaterThan(0.12);
  });

  test("refuses what is no decay", () => {
    expect(() => fitDecay([0, 1], [3, 2])).toThrow(RangeError);
    expect(() => fitDecay([0, 2, 1], [3, 2, 1])).toThrow(RangeError);
    expect(() => fitDecay([0, 1, 2], [3, 2])).toThrow(RangeError);
    expect(() => fitDecay([0, 1, 2, 3], [30, 29, 27, 23])).toThrow(/do not bend/);
  });
});

describe("short ways", () => {
  test("two readings with a known end", () => {
    expect(decayFromTwo(3, 28, 2.5 + 25.5 * Math.exp(-0.36), 2.5)).toBeCloseTo(0.12, 12);
    expect(decayFromTwo(3, 28, 1, 2.5)).toBeNaN();
  });

  test("three readings also give the end", () => {
    expect(decayFromThree(2, 30, 5 + 25 * Math.exp(-0.4), 5 + 25 * Math.exp(-0.8)).cInf).toBeCloseTo(5, 9);
  });

  test("reaeration refuses readings at or above saturation", () => {
    expect(() => fitReaeration([0, 1], [7, 8.3], 8.263)).toThrow(RangeError);
  });

  test("balance returns the rate that holds the level", () => {
    // 1 g/h in 270 L holds 42.287 mg/L at 0.088889 1/h over 0.62 mg/L.
    expect(rateFromBalance(1, 270, 42.287, 0.62)).toBeCloseTo(0.088889, 5);
  });
});
