import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fanCooling } from "./cooling.ts";
import { heaterAdvice, heaterStanding } from "./heater.ts";
import { vapourPressure, wetBulb } from "./moist-air.ts";
import { lossFunction, steadyTemperature, tankHeatCapacity, timeToTemperature } from "./steady.ts";
import type { HeatTank } from "./tank.ts";
import { simpleWarmUp } from "./warm-up.ts";

const tank: HeatTank = {
  length: 1.2,
  width: 0.6,
  height: 0.45,
  glass: 0.012,
  base: 0.012,
  waterDepth: 0.41,
  cover: "open",
};
const room = { temperature: 20, humidity: 0.5 };

/** Classical fourth-order steps, as an independent way to the same time. */
function march(heat: number, from: number, to: number): number {
  const loss = lossFunction(tank, room);
  const capacity = tankHeatCapacity(tank);
  const rate = (t: number) => (heat - loss(t)) / capacity;
  const step = 20;
  let t = from;
  let time = 0;
  const up = to > from;
  for (;;) {
    const k1 = rate(t);
    const k2 = rate(t + (step * k1) / 2);
    const k3 = rate(t + (step * k2) / 2);
    const k4 = rate(t + step * k3);
    const next = t + (step * (k1 + 2 * k2 + 2 * k3 + k4)) / 6;
    if (up ? next >= to : next <= to) return time + (step * (to - t)) / (next - t);
    t = next;
    time += step;
  }
}

describe("time to a temperature", () => {
  test.each([
    [300, 18, 25],
    [500, 15, 26],
    [0, 25, 19.5],
    [60, 28, 23],
  ])("%d W from %d to %d °C equals marching in time", (heat, from, to) => {
    expect(timeToTemperature(tank, heat, room, from, to) / march(heat, from, to)).toBeCloseTo(1, 3);
  });

  test("splits at any temperature between", () => {
    fc.assert(
      fc.property(fc.double({ min: 18.5, max: 24.5, noNaN: true }), (middle) => {
        const whole = timeToTemperature(tank, 300, room, 18, 25);
        const parts = timeToTemperature(tank, 300, room, 18, middle) + timeToTemperature(tank, 300, room, middle, 25);
        expect(parts / whole).toBeCloseTo(1, 4);
      }),
    );
  });

  test("is nothing to stay and forever beyond reach", () => {
    expect(timeToTemperature(tank, 300, room, 22, 22)).toBe(0);
    expect(timeToTemperature(tank, 50, room, 20, 30)).toBe(Number.POSITIVE_INFINITY);
    expect(timeToTemperature(tank, 0, room, 25, 10)).toBe(Number.POSITIVE_INFINITY);
  });
});

describe("steady temperature", () => {
  test("is where loss equals gain", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 600, noNaN: true }),
        fc.double({ min: 10, max: 35, noNaN: true }),
        fc.double({ min: 0.2, max: 0.9, noNaN: true }),
        (gains, temperature, humidity) => {
          const air = { temperature, humidity };
          const t = steadyTemperature(tank, gains, air);
          expect(Math.abs(lossFunction(tank, air)(t) - gains)).toBeLessThan(1e-6);
        },
      ),
    );
  });

  test("no fan cools below the wet bulb", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 15, max: 38, noNaN: true }),
        fc.double({ min: 0.2, max: 0.95, noNaN: true }),
        fc.double({ min: 0.1, max: 5, noNaN: true }),
        (temperature, humidity, airSpeed) => {
          const t = steadyTemperature({ ...tank, airSpeed }, 0, { temperature, humidity });
          expect(t).toBeGreaterThan(wetBulb(temperature, vapourPressure(temperature, humidity)));
        },
      ),
    );
  });

  test("more air over the surface takes more heat and water", () => {
    let heat = Number.NEGATIVE_INFINITY;
    for (const speed of [0, 0.2, 0.5, 1, 2, 5]) {
      const now = fanCooling(tank, speed, 26, { temperature: 30, humidity: 0.45 });
      expect(now.loss).toBeGreaterThan(heat);
      heat = now.loss;
    }
  });
});

describe("closed form", () => {
  test("no loss warms in a straight line; a target past the limit is never met", () => {
    const straight = simpleWarmUp(1e6, 0, 100, 20, 20, 25);
    expect(straight.time).toBeCloseTo(5e4, 6);
    expect(simpleWarmUp(1e6, 25, 100, 20, 20, 25).time).toBe(Number.POSITIVE_INFINITY);
    expect(simpleWarmUp(1e6, 25, 0, 20, 22, 25).time).toBe(Number.POSITIVE_INFINITY);
    expect(simpleWarmUp(1e6, 0, 0, 20, 22, 25).time).toBe(Number.POSITIVE_INFINITY);
  });
});

describe("heater", () => {
  test("gains that suffice leave no need", () => {
    expect(heaterAdvice(tank, 22, room, 500).need).toBe(0);
  });

  test("standing marks ratings below 1.3 times the need", () => {
    expect(heaterStanding(129, 100).undersized).toBe(true);
    expect(heaterStanding(131, 100).undersized).toBe(false);
    expect(heaterStanding(80, 100)).toMatchObject({ duty: 1, shortfall: 20 });
  });
});
