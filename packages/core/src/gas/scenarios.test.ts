/**
 * Keepers' cases from public list archives of 1992, 1997 and 2003, as far as single relations carry them. Kits read to
 * about +-2 mg/L of CO2.
 */
import { describe, expect, test } from "vitest";
import {
  bubbleMass,
  classDoubt,
  co2AirEquilibrium,
  co2Density,
  decayFromTwo,
  devices,
  fitDecay,
  levelAfter,
  nearestSurfaceClass,
  rateFromBalance,
  rateFromBubbles,
  rateFromTransfer,
  runningTime,
  scaleTransfer,
  steadyLevel,
  surfaceClasses,
  surfaceTransfer,
  transferFromRate,
} from "./index.ts";

describe("how fast CO2 leaves: four set-ups, one tank of 299 L, 26.1 °C, 0.557 m2", () => {
  const t = 26.1;
  const volume = 299;
  const area = 0.557;
  const depth = volume / 1000 / area;
  const end = 0.5;
  const cases = {
    a: { look: "trickle and surface turbulence", readings: [33, 21, 13.5], k: [0.46, 0.46], kL: [25, 25], class: 4 },
    b: { look: "vigorous ripples, no splash", readings: [33, 24, 17], k: [0.32, 0.35], kL: [17, 19], class: 3 },
    c: { look: "trickle, quiet surface", readings: [33, 28], k: [0.17, 0.17], kL: [9, 9], class: 2 },
    d: { look: "smooth drift of 0.3 ft/s", readings: [33, 28.5], k: [0.15, 0.15], kL: [8, 8], class: 2 },
  } as const;
  const fitted = (id: keyof typeof cases) => {
    const { readings } = cases[id];
    return readings.length === 2
      ? decayFromTwo(1, readings[0], readings[1], end)
      : fitDecay([0, 1, 2], readings, { cInf: end }).k;
  };
  const k600 = (id: keyof typeof cases) => transferFromRate(fitted(id), area, volume) / scaleTransfer(1, "co2", t);

  test.each(["a", "b", "c", "d"] as const)("%s: rate and transfer velocity within 20 %", (id) => {
    const { k, kL } = cases[id];
    const rate = fitted(id);
    expect(rate).toBeGreaterThan(k[0] * 0.8);
    expect(rate).toBeLessThan(k[1] * 1.2);
    const velocity = transferFromRate(rate, area, volume);
    expect(velocity).toBeGreaterThan(kL[0] * 0.8);
    expect(velocity).toBeLessThan(kL[1] * 1.2);
  });

  test("the order is a > b > c > d", () => {
    expect(fitted("a")).toBeGreaterThan(fitted("b"));
    expect(fitted("b")).toBeGreaterThan(fitted("c"));
    expect(fitted("c")).toBeGreaterThan(fitted("d"));
  });

  test("loss is one exponential within the error of the kit", () => {
    for (const id of ["a", "b"] as const) {
      const k = fitted(id);
      cases[id].readings.forEach((reading, hour) => {
        expect(Math.abs(levelAfter({ k, cEq: end }, 0, 33, hour) - reading)).toBeLessThan(2);
      });
    }
  });

  test("the closure foretells the smooth drift (d) within 20 %, with a clean surface", () => {
    // Film factor 1 fits the case; 0.7 (ordinary) would be 36 % low. The state of the surface is not told.
    const predicted = scaleTransfer(surfaceTransfer(60, 0.3 * 0.3048, depth, 1, t), "co2", t);
    expect(predicted / 100 / depth).toBeGreaterThan(0.15 * 0.8);
    expect(predicted / 100 / depth).toBeLessThan(0.15 * 1.2);
  });

  const byEye = (id: keyof typeof cases) => surfaceClasses[cases[id].class]!.k600;

  test("the class by eye foretells the order", () => {
    expect(byEye("a")).toBeGreaterThan(byEye("b"));
    expect(byEye("b")).toBeGreaterThan(byEye("d"));
    expect(nearestSurfaceClass(k600("a")).id).toBe(4);
  });

  // All lie above their class. Whether the classes are low or the tank's plants took a part is not told: 1 mg/L an hour
  // of uptake would explain a fifth of (d) and a twelfth of (a). In (c) the trickle itself takes a part, and the drift
  // of (d), 9 cm/s, is more than "hardly a ripple". The law of heat loss and drift foretells (d); the classes stay.
  test.each([
    ["a", 1.4],
    ["b", 2.2],
    ["c", 2.2],
    ["d", 2.0],
  ] as const)("measured over class by eye: %s %f, within the doubt that is told", (id, ratio) => {
    expect(k600(id) / byEye(id)).toBeCloseTo(ratio, 1);
    expect(k600(id) / byEye(id)).toBeGreaterThan(classDoubt.low);
    expect(k600(id) / byEye(id)).toBeLessThan(classDoubt.high * 1.01);
  });
});

describe("a cylinder lasts eight months: 114 L, 2.27 kg, gas day and night, about 1 bubble/s", () => {
  const gramsPerDay = 9.3;
  const volume = 114;
  const gain = (1000 * gramsPerDay) / 24 / volume;
  const end = co2AirEquilibrium(25, 600);

  test("the charge and the time agree", () => {
    expect(Math.abs(runningTime(2.27, gramsPerDay / 24, 24) / 244 - 1)).toBeLessThan(0.25);
    expect(gain * 24).toBeCloseTo(82, 0);
  });

  test("the bubble that this means is 0.05 to 0.06 mL", () => {
    const ml = gramsPerDay / 24 / rateFromBubbles(1, bubbleMass(1, 1.01325, 22));
    expect(ml).toBeGreaterThan(0.05);
    expect(ml).toBeLessThan(0.06);
  });

  test("24 to 28 mg/L means a loss of 0.13 to 0.15 1/h, within 25 %", () => {
    for (const level of [24, 28]) {
      const k = rateFromBalance(gramsPerDay / 24, volume, level, end);
      expect(k).toBeGreaterThan(0.13 * 0.75);
      expect(k).toBeLessThan(0.15 * 1.25);
    }
  });

  test("a quiet surface as measured above lands at 18 to 32 mg/L", () => {
    for (const k of [decayFromTwo(1, 33, 28, 0.5), decayFromTwo(1, 33, 28.5, 0.5)]) {
      const level = steadyLevel({ k, cEq: end }, gain);
      expect(level).toBeGreaterThan(18);
      expect(level).toBeLessThan(32);
    }
  });

  test("so does slow drift by the class table with a fine plate, at an assumed depth of 0.40 m", () => {
    const k = rateFromTransfer(scaleTransfer(surfaceClasses[2]!.k600, "co2", 25), volume / 1000 / 0.4, volume);
    const level = steadyLevel({ k, cEq: end }, gain * devices[0]!.dissolved);
    expect(level).toBeGreaterThan(18);
    expect(level).toBeLessThan(32);
  });
});

describe("counting bubbles into grams: 300 L, 62 bubbles a minute, 26 to the mL, 75 °F", () => {
  const t = (75 - 32) / 1.8;
  const mlPerMinute = 62 / 26;
  const gramsPerDay = 24 * rateFromBubbles(62 / 60, bubbleMass(1 / 26, 1.01325, t));

  test("volume, density and mass a day", () => {
    expect(mlPerMinute).toBeCloseTo(2.385, 3);
    expect(mlPerMinute * 1.44).toBeCloseTo(3.43, 2);
    // Given 1.817 g/L.
    expect(Math.abs(co2Density(t) / 1.817 - 1)).toBeLessThan(0.002);
    expect(Math.abs(gramsPerDay / 6.24 - 1)).toBeLessThan(0.005);
  });

  test("10.4 mg/L in 12 h without loss, less with the loss of a quiet surface", () => {
    const gain = (1000 * gramsPerDay) / 24 / 300;
    expect(gain * 12).toBeCloseTo(10.4, 1);
    const rise = levelAfter({ k: 0.05, cEq: 0.6 }, gain, 0.6, 12) - 0.6;
    expect(rise).toBeLessThan(10.4);
    expect(rise).toBeGreaterThan(0);
  });

  test("the cylinder lasts 361 to 364 days, not the 332 of the report", () => {
    const days = runningTime(2.268, gramsPerDay / 24, 24);
    expect(days).toBeGreaterThan(360.5);
    expect(days).toBeLessThan(364.5);
  });
});
