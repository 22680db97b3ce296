import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  airStone,
  CO2_PER_O2_AT_SURFACE,
  chemicalEnhancement,
  co2Henry,
  co2PerO2,
  convectionTransfer,
  driftTransfer,
  filmEnhancement,
  henryDimensionless,
  lidTransfer,
  nearestSurfaceClass,
  oxygenHenry,
  oxygenSaturation,
  rateFromTransfer,
  returnJet,
  scaleTransfer,
  schmidt,
  smallEddyTransfer,
  surfaceClasses,
  surfaceFlow,
  surfaceTransfer,
  transferFactorOfPower,
  transferFromRate,
  transferInUse,
} from "./index.ts";

const usual = fc.double({ min: 10, max: 35, noNaN: true });

describe("Schmidt numbers", () => {
  test("fall with warmth over the whole range of the recommended set", () => {
    for (let t = -2; t < 40; t += 0.5) {
      expect(schmidt("co2", t + 0.5)).toBeLessThan(schmidt("co2", t));
      expect(schmidt("o2", t + 0.5)).toBeLessThan(schmidt("o2", t));
    }
  });

  test("CO2 at 20 °C is 600 by convention", () => {
    expect(Math.abs(schmidt("co2", 20) - 600)).toBeLessThan(0.5);
    expect(scaleTransfer(5, "co2", 20)).toBeCloseTo(5, 2);
  });

  test("the older set refuses what its cubic cannot bear (0.6 for oxygen at 40 °C)", () => {
    expect(() => schmidt("o2", 40, "wanninkhof-1992")).toThrow(RangeError);
    expect(() => schmidt("co2", 3, "raymond-2012")).toThrow(RangeError);
  });

  test("CO2 over oxygen stays within 0.92 +- 0.01 and the published span 0.89 to 0.94", () => {
    for (let t = 15; t <= 30; t++) expect(Math.abs(co2PerO2(t) - CO2_PER_O2_AT_SURFACE.value)).toBeLessThan(0.01);
    for (const set of ["wanninkhof-2014", "wanninkhof-1992", "raymond-2012", "jaehne-ferrell"] as const) {
      for (const n of [0.5, 2 / 3]) {
        // Printed to two decimals: 0.889 and 0.942 are the outermost.
        expect(co2PerO2(25, n, set)).toBeGreaterThan(CO2_PER_O2_AT_SURFACE.low - 0.005);
        expect(co2PerO2(25, n, set)).toBeLessThan(CO2_PER_O2_AT_SURFACE.high + 0.005);
      }
    }
  });
});

describe("surface", () => {
  test("flow vanishes at equilibrium and turns its sign there", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 30, noNaN: true }), usual, (k600, t) => {
        const k = scaleTransfer(k600, "o2", t);
        const even = oxygenSaturation(t);
        expect(surfaceFlow(k, 0.5, even, even)).toBe(0);
        expect(surfaceFlow(k, 0.5, even + 1e-6, even)).toBeGreaterThan(0);
        expect(surfaceFlow(k, 0.5, even - 1e-6, even)).toBeLessThan(0);
        expect(transferInUse(10, t, even)).toBeCloseTo(0, 10);
      }),
    );
  });

  test("doubling area and volume leaves the rate", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 30, noNaN: true }),
        fc.double({ min: 0.05, max: 3, noNaN: true }),
        fc.double({ min: 10, max: 1000, noNaN: true }),
        (k, area, volume) => {
          const rate = rateFromTransfer(k, area, volume);
          expect(rateFromTransfer(k, 2 * area, 2 * volume)).toBeCloseTo(rate, 12);
          expect(transferFromRate(rate, area, volume)).toBeCloseTo(k, 9);
        },
      ),
    );
  });

  test("reference tank: 4 cm/h on 0.60 m2 and 270 L is 0.088889 1/h", () => {
    expect(rateFromTransfer(4, 0.6, 270)).toBeCloseTo(0.0888889, 6);
  });

  test("transfer rises with warmth, drift, heat loss and a cleaner surface, and falls with depth", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 150, noNaN: true }),
        fc.double({ min: 0.001, max: 0.2, noNaN: true }),
        fc.double({ min: 0.2, max: 0.8, noNaN: true }),
        (heat, speed, depth) => {
          const base = surfaceTransfer(heat, speed, depth);
          expect(surfaceTransfer(heat * 1.1, speed, depth)).toBeGreaterThan(base);
          expect(surfaceTransfer(heat, speed * 1.1, depth)).toBeGreaterThan(base);
          expect(surfaceTransfer(heat, speed, depth * 1.1)).toBeLessThan(base);
          expect(surfaceTransfer(heat, speed, depth, 1)).toBeCloseTo(base / 0.7, 9);
          expect(scaleTransfer(base, "co2", 28)).toBeGreaterThan(scaleTransfer(base, "co2", 22));
          expect(scaleTransfer(base, "o2", 25)).toBeGreaterThan(scaleTransfer(base, "co2", 25));
        },
      ),
    );
    expect(convectionTransfer(0)).toBe(0);
    expect(convectionTransfer(-20)).toBe(0);
    expect(surfaceTransfer(0, 0.05, 0.45, 1)).toBeCloseTo(driftTransfer(0.05, 0.45), 12);
  });

  test("the constant of the drift part is 15.10", () => {
    expect(driftTransfer(0.3, 0.3)).toBeCloseTo(15.1, 2);
  });

  test("the jet law scales by P^1/4 and, through one nozzle, Q^3/4", () => {
    const ratio = returnJet(2000, 16, 25).power / returnJet(1000, 16, 25).power;
    expect(ratio).toBeCloseTo(8, 9);
    expect(transferFactorOfPower(ratio)).toBeCloseTo(2 ** 0.75, 9);
    expect(smallEddyTransfer(2e-6, 25, 469) / smallEddyTransfer(1e-6, 25, 469)).toBeCloseTo(2 ** 0.25, 9);
  });

  test("classes rise, and a class is nearest to itself", () => {
    surfaceClasses.forEach((c, i) => {
      expect(c.id).toBe(i);
      expect(nearestSurfaceClass(c.k600).id).toBe(c.id);
      if (i > 0) expect(c.k600).toBeGreaterThan(surfaceClasses[i - 1]!.k600);
    });
  });

  test("a lid cuts CO2 and hardly oxygen, never above the open surface", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 200, noNaN: true }),
        fc.double({ min: 0.005, max: 10, noNaN: true }),
        usual,
        (open, air, t) => {
          const co2 = lidTransfer(open, air, henryDimensionless(co2Henry(t), t)) / open;
          const o2 = lidTransfer(open, air, henryDimensionless(oxygenHenry(t), t)) / open;
          expect(co2).toBeLessThan(o2);
          expect(o2).toBeLessThan(1);
        },
      ),
    );
    // 24 L/h under a lid that lets 0.05 m3/h through: oxygen keeps 98 %.
    expect(lidTransfer(24, 0.05, 32.12) / 24).toBeGreaterThan(0.98);
  });
});

describe("air stone", () => {
  test("lowers the share of CO2 over oxygen below that of the surface, never beyond the cap", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 300, noNaN: true }),
        fc.double({ min: 0.6, max: 6, noNaN: true }),
        fc.double({ min: 0.1, max: 0.8, noNaN: true }),
        usual,
        (flowLh, diameterMm, depthM, t) => {
          const stone = airStone({ flowLh, volumeL: 200, diameterMm, depthM, t });
          expect(stone.kCo2).toBeLessThan(stone.capCo2);
          expect(stone.kCo2 / stone.kO2).toBeLessThan(co2PerO2(t));
          const surface = 0.09;
          const total = (surface + stone.kCo2) / (surface / co2PerO2(t) + stone.kO2);
          expect(total).toBeLessThan(co2PerO2(t));
        },
      ),
    );
  });

  test("goes with the flow and against the volume", () => {
    const one = airStone({ flowLh: 60, volumeL: 270, diameterMm: 3, depthM: 0.4, t: 25 });
    const two = airStone({ flowLh: 120, volumeL: 540, diameterMm: 3, depthM: 0.4, t: 25 });
    expect(two.kCo2).toBeCloseTo(one.kCo2, 12);
  });
});

describe("chemical enhancement", () => {
  test("the film model with pH held is the closed form", () => {
    for (const [co2, alkalinity] of [
      [25, 1.4],
      [10, 1.4],
      [2, 2.9],
    ] as const) {
      for (const transfer of [1, 2, 4]) {
        const film = filmEnhancement({
          bulkMgL: co2,
          surfaceMgL: 0.6,
          alkalinity,
          transfer,
          t: 25,
          heldPh: true,
        });
        expect(film.factor).toBeCloseTo(chemicalEnhancement(film.bulkPh, transfer, 25), 4);
      }
    }
  });

  test("with pH free it lies between none and the closed form, and pH climbs towards the surface", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1.5, max: 40, noNaN: true }),
        fc.double({ min: 0.3, max: 4, noNaN: true }),
        fc.double({ min: 1, max: 15, noNaN: true }),
        (bulkMgL, alkalinity, transfer) => {
          const film = filmEnhancement({ bulkMgL, surfaceMgL: 0.6, alkalinity, transfer, t: 25 });
          expect(film.factor).toBeGreaterThan(0.9999);
          expect(film.factor).toBeLessThan(chemicalEnhancement(film.bulkPh, transfer, 25));
          expect(film.surfacePh).toBeGreaterThan(film.bulkPh);
        },
      ),
      { numRuns: 40 },
    );
  });

  test("it is below 3 % in an injected tank, so 1 is right there", () => {
    for (const co2 of [10, 20, 30, 40]) {
      expect(
        filmEnhancement({ bulkMgL: co2, surfaceMgL: 0.6, alkalinity: 1.4, transfer: 2, t: 25 }).factor,
      ).toBeLessThan(1.03);
    }
  });

  test("water that takes CO2 up is treated alike, and balance is refused", () => {
    const film = filmEnhancement({ bulkMgL: 0.4, surfaceMgL: 0.6, alkalinity: 1.4, transfer: 2, t: 25 });
    expect(film.factor).toBeGreaterThan(1);
    expect(film.surfacePh).toBeLessThan(film.bulkPh);
    expect(() => filmEnhancement({ bulkMgL: 0.6, surfaceMgL: 0.6, alkalinity: 1.4, transfer: 2, t: 25 })).toThrow(
      RangeError,
    );
  });
});
