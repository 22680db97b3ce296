import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { createRandom } from "../numerics/index.ts";
import { meanOf, sumOf } from "./scenes.testing.ts";
import { exchangeFor, smoothed, smoothedVariance } from "./smooth.ts";

describe("smoothing", () => {
  test("keeps the sum of any map", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 9 }),
        fc.integer({ min: 1, max: 9 }),
        fc.array(fc.double({ min: 0, max: 100, noNaN: true }), { minLength: 81, maxLength: 81 }),
        fc.double({ min: 0, max: 1e4, noNaN: true }),
        (columns, rows, values, variance) => {
          const map = Float64Array.from(values.slice(0, columns * rows));
          const out = smoothed(map, exchangeFor(columns, rows, map, new Float64Array(map.length).fill(variance)));
          expect(Math.abs(sumOf(out) - sumOf(map))).toBeLessThan(1e-9);
          expect(out.every((v) => v >= -1e-9)).toBe(true);
        },
      ),
    );
  });

  test("takes noise down to what it says (the binomial blur's 0.375 inside), and an even map stays as it is", () => {
    const random = createRandom(4);
    const noisy = Float64Array.from({ length: 4900 }, () => 10 + random.normal());
    const variance = new Float64Array(4900).fill(1);
    const exchange = exchangeFor(70, 70, noisy, variance);
    const spread = (map: Float64Array) => Math.sqrt(meanOf(map.map((v) => (v - 10) ** 2)));
    const said = Math.sqrt(meanOf(smoothedVariance(variance, exchange)));
    expect(said).toBeCloseTo(0.375, 1);
    // Pairs that differ most keep their difference, so slightly more is left than the weights say.
    expect(spread(smoothed(noisy, exchange)) / said).toBeGreaterThan(0.9);
    expect(spread(smoothed(noisy, exchange)) / said).toBeLessThan(1.25);
    const even = new Float64Array(25).fill(3);
    expect([...smoothed(even, exchangeFor(5, 5, even, new Float64Array(25).fill(1)))]).toEqual([...even]);
  });

  test("keeps a step that stands out of the noise, and cells that nothing met", () => {
    const step = Float64Array.from({ length: 36 }, (_, k) => (k % 6 < 3 ? 1 : 9));
    expect([...smoothed(step, exchangeFor(6, 6, step, new Float64Array(36).fill(0.01)))]).toEqual([...step]);
    const dark = Float64Array.of(0, 5, 6);
    const out = smoothed(dark, exchangeFor(3, 1, dark, Float64Array.of(0, 9, 9)));
    expect(out[0]).toBe(0);
    expect(out[1]).toBeGreaterThan(5);
  });
});
