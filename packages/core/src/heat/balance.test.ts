import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { tankHeatLoss } from "./balance.ts";
import { createHeatBalance } from "./fast-balance.ts";
import type { HeatTank } from "./tank.ts";

const large: HeatTank = {
  length: 1.2,
  width: 0.6,
  height: 0.45,
  glass: 0.012,
  base: 0.012,
  waterDepth: 0.41,
  cover: "open",
};

const anyTank: fc.Arbitrary<HeatTank> = fc.record({
  length: fc.double({ min: 0.3, max: 2.5, noNaN: true }),
  width: fc.double({ min: 0.2, max: 1, noNaN: true }),
  height: fc.double({ min: 0.95, max: 1, noNaN: true }),
  glass: fc.double({ min: 0.004, max: 0.02, noNaN: true }),
  base: fc.constant(0.01),
  waterDepth: fc.double({ min: 0.15, max: 0.9, noNaN: true }),
  cover: fc.constantFrom("open" as const, "lid" as const),
  airSpeed: fc.constantFrom(0, 0, 0.5, 2),
  evaporationFactor: fc.double({ min: 0.5, max: 2, noNaN: true }),
  pressure: fc.double({ min: 75_000, max: 104_000, noNaN: true }),
});
const water = fc.double({ min: 5, max: 40, noNaN: true });
const difference = fc.double({ min: -15, max: 25, noNaN: true });
const humidity = fc.double({ min: 0.1, max: 0.95, noNaN: true });

function total(out: Float64Array): number {
  return out.reduce((a, b) => a + b, 0);
}

describe("fast balance", () => {
  test("every part agrees with the solved balance within 0.5 % (2 mW near balance)", () => {
    let worst = 0;
    fc.assert(
      fc.property(anyTank, water, difference, humidity, (tank, w, d, rh) => {
        fc.pre(w - d >= 0 && w - d <= 40);
        const out = new Float64Array(5);
        const rate = createHeatBalance(tank).losses(w, w - d, rh, out);
        const slow = tankHeatLoss(tank, w, w - d, rh);
        const pairs = [
          [out[0], slow.panes],
          [out[1], slow.base],
          [out[2], slow.convection],
          [out[3], slow.radiation],
          [out[4], slow.evaporation],
        ] as const;
        for (const [fast, exact] of pairs) {
          // Below a twentieth of a kelvin the rounded cusp shows, where the flux itself is next to nothing.
          expect(Math.abs((fast as number) - exact)).toBeLessThanOrEqual(
            0.005 * Math.abs(exact) + (Math.abs(d) < 0.05 ? 0.05 : 2e-3),
          );
          if (Math.abs(d) > 0.5 && exact !== 0) worst = Math.max(worst, Math.abs((fast as number) / exact - 1));
        }
        expect(rate).toBeCloseTo(slow.evaporationRate, 12);
        expect(Math.abs(total(out) - slow.total)).toBeLessThanOrEqual(0.005 * Math.abs(slow.panes) + 0.05);
      }),
      { numRuns: 500 },
    );
    expect(worst).toBeLessThan(0.005);
  });

  test("the panes agree within 0.5 % on a whole grid of glass, depth and temperatures", () => {
    const out = new Float64Array(5);
    let worst = 0;
    for (const glass of [0.004, 0.008, 0.012, 0.019, 0.025]) {
      for (const waterDepth of [0.15, 0.4, 0.9]) {
        const tank: HeatTank = { ...large, length: 2, width: 1, height: 1, glass, waterDepth };
        const fast = createHeatBalance(tank);
        for (let w = 5; w <= 45; w += 10) {
          for (let d = -15; d <= 25; d += 0.83) {
            if (w - d < 0) continue;
            fast.losses(w, w - d, 0.5, out);
            worst = Math.max(worst, Math.abs((out[0] as number) / tankHeatLoss(tank, w, w - d, 0.5).panes - 1));
          }
        }
      }
    }
    expect(worst).toBeLessThan(0.005);
    // The comparison is a real one: an uncorrected guess would be exact nowhere.
    expect(worst).toBeGreaterThan(1e-5);
  });

  // The tank table of checks/heat.yaml (recomputed independently), here for the fast form.
  test.each([
    [0.6, 0.3, 0.36, 0.005, 0.32, 20, 53.5, 0.82],
    [0.9, 0.45, 0.45, 0.008, 0.4, 20, 105.4, 1.66],
    [1.2, 0.6, 0.45, 0.012, 0.41, 20, 163.0, 2.72],
    [1.5, 0.6, 0.6, 0.015, 0.55, 20, 213.5, 3.32],
    [1.2, 0.6, 0.45, 0.012, 0.41, 22, 115.4, 2.31],
    [1.2, 0.6, 0.45, 0.012, 0.41, 15, 281.8, 3.59],
  ])(
    "%d x %d x %d m: whole loss and water lost within 2 %%",
    (length, width, height, glass, waterDepth, room, watts, litres) => {
      const out = new Float64Array(5);
      const tank: HeatTank = { length, width, height, glass, base: glass, waterDepth, cover: "open" };
      const rate = createHeatBalance(tank).losses(25, room, 0.5, out);
      expect(Math.abs(total(out) / watts - 1)).toBeLessThan(0.02);
      expect(Math.abs((rate * 86_400) / 0.99705 / litres - 1)).toBeLessThan(0.02);
    },
  );

  test("is smooth: the slope of the whole loss never steps, open, covered or under a fan", () => {
    for (const variant of [{}, { cover: "lid" as const }, { airSpeed: 1 }]) {
      const balance = createHeatBalance({ ...large, ...variant });
      const scale = balance.conductanceAt(25, 20, 0.5);
      let before = balance.conductanceAt(5, 20, 0.5);
      for (let w = 5.02; w <= 45; w += 0.02) {
        const now = balance.conductanceAt(w, 20, 0.5);
        // A step would not shrink with the step of w; the steepest honest change is the blended plate law.
        expect(Math.abs(now - before)).toBeLessThan(0.2 * scale);
        before = now;
      }
    }
  });

  test("conductance is the slope of the loss", () => {
    const balance = createHeatBalance(large);
    const slope = (tankHeatLoss(large, 25.5, 20, 0.5).total - tankHeatLoss(large, 24.5, 20, 0.5).total) / 1;
    expect(balance.conductanceAt(25, 20, 0.5) / slope).toBeCloseTo(1, 2);
  });

  test("takes less than a microsecond", () => {
    const balance = createHeatBalance(large);
    const out = new Float64Array(5);
    const calls = 20_000;
    let best = Number.POSITIVE_INFINITY;
    let keep = 0;
    for (let batch = 0; batch < 40; batch++) {
      const start = performance.now();
      for (let i = 0; i < calls; i++) keep += balance.losses(20 + (i % 100) * 0.1, 18 + (i % 77) * 0.1, 0.5, out);
      best = Math.min(best, (performance.now() - start) / calls);
    }
    expect(keep).toBeGreaterThan(0);
    expect(best * 1000).toBeLessThan(1);
  });
});

describe("laws of the loss", () => {
  test("grows with the water's temperature", () => {
    fc.assert(
      fc.property(anyTank, water, difference, humidity, (tank, w, d, rh) => {
        fc.pre(w - d >= 0 && w - d <= 40);
        const cool = tankHeatLoss(tank, w, w - d, rh).total;
        expect(tankHeatLoss(tank, w + 0.5, w - d, rh).total).toBeGreaterThan(cool);
      }),
    );
  });

  test("a lid lowers the loss of water warmer than its room, and most of its evaporation", () => {
    fc.assert(
      fc.property(anyTank, water, fc.double({ min: 0, max: 25, noNaN: true }), humidity, (tank, w, d, rh) => {
        fc.pre(w - d >= 0);
        const open = tankHeatLoss({ ...tank, cover: "open" }, w, w - d, rh);
        const lid = tankHeatLoss({ ...tank, cover: "lid" }, w, w - d, rh);
        expect(lid.total).toBeLessThan(open.total);
        expect(lid.evaporationRate).toBeLessThanOrEqual(0.1 * open.evaporationRate);
      }),
    );
  });

  test("thicker glass and a drier room act as they should", () => {
    expect(tankHeatLoss({ ...large, glass: 0.019 }, 25, 20, 0.5).panes).toBeLessThan(
      tankHeatLoss(large, 25, 20, 0.5).panes,
    );
    expect(tankHeatLoss(large, 25, 20, 0.3).total).toBeGreaterThan(tankHeatLoss(large, 25, 20, 0.7).total);
  });

  test("parts sum to the whole", () => {
    fc.assert(
      fc.property(anyTank, water, humidity, (tank, w, rh) => {
        const loss = tankHeatLoss(tank, w, 20, rh);
        const sum = loss.panes + loss.base + loss.convection + loss.radiation + loss.evaporation;
        expect(loss.total).toBeCloseTo(sum, 9);
      }),
    );
  });

  test("the evaporation factor scales evaporation alone", () => {
    const one = tankHeatLoss(large, 25, 20, 0.5);
    const two = tankHeatLoss({ ...large, evaporationFactor: 2 }, 25, 20, 0.5);
    expect(two.evaporation).toBeCloseTo(2 * one.evaporation, 9);
    expect(two.total - one.total).toBeCloseTo(one.evaporation, 9);
  });

  test("sizes that cannot be are refused", () => {
    expect(() => createHeatBalance({ ...large, waterDepth: 0.5 })).toThrow(RangeError);
    expect(() => createHeatBalance({ ...large, glass: 0.4 })).toThrow(RangeError);
    expect(() => createHeatBalance({ ...large, airSpeed: 9 })).toThrow(RangeError);
    expect(() => createHeatBalance({ ...large, evaporationFactor: 3 })).toThrow(RangeError);
  });
});
