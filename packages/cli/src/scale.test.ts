import fc from "fast-check";
import { expect, test } from "vitest";
import { scaleFor } from "./scale.ts";

test("round figures around the curve", () => {
  expect(scaleFor(2.6, 25, 4, 5)).toEqual({ low: 0, high: 25, ticks: [0, 5, 10, 15, 20, 25], decimals: 0 });
  expect(scaleFor(6.5, 7.7, 0.4, 5).ticks).toEqual([6.5, 7, 7.5, 8]);
  // a calm curve is not blown up, and nothing goes below zero
  expect(scaleFor(24, 24.02, 1, 3).ticks).toEqual([23.5, 24, 24.5, 25]);
  expect(scaleFor(0.1, 0.2, 4, 5).low).toBe(0);
});

test("any axis covers its curve with the smallest round step that has room", () => {
  const finite = fc.double({ min: -1e4, max: 1e4, noNaN: true });
  fc.assert(
    fc.property(
      finite,
      fc.double({ min: 0, max: 1e4, noNaN: true }),
      fc.integer({ min: 2, max: 8 }),
      (low, span, most) => {
        const high = low + span;
        const least = 0.1;
        const { ticks, decimals, ...scale } = scaleFor(low, high, least, most);
        const step = (scale.high - scale.low) / (ticks.length - 1);
        const near = 1e-6 * Math.max(1, Math.abs(low), Math.abs(high));
        expect(scale.low).toBeLessThanOrEqual(low + near);
        expect(scale.high).toBeGreaterThanOrEqual(high - near);
        expect(ticks.length - 1).toBeLessThanOrEqual(most);
        expect(new Set(ticks.map((t) => t.toFixed(decimals))).size).toBe(ticks.length);
        const digit = Math.round(step / 10 ** Math.floor(Math.log10(step) + 1e-9));
        expect([1, 2, 5]).toContain(digit);
        // the next finer round step would need more room
        const finer = digit === 5 ? step / 2.5 : step / 2;
        const covered = Math.max(span, least);
        expect(covered / finer).toBeGreaterThan(most - 2);
      },
    ),
  );
});
