import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  animalLimits,
  bubbleMass,
  co2AirEquilibrium,
  co2Day,
  co2Verdict,
  type Exchange,
  holdInjection,
  leadSource,
  levelAfter,
  orificeBubble,
  periodicLevels,
  rateFromBubbles,
  rateFromTransfer,
  riseTime,
  scaleTransfer,
  squareWave,
  steadyLevel,
  surfaceClasses,
  timeToLevel,
} from "./index.ts";

const rates = fc.double({ min: 0.02, max: 2, noNaN: true });
const sources = fc.double({ min: -2, max: 20, noNaN: true });
const levels = fc.double({ min: 0, max: 60, noNaN: true });
const reference: Exchange = { k: 0.0888889, cEq: 0.62 };

describe("closed forms", () => {
  test("what goes in less what leaves is what stays, to 1e-6", () => {
    fc.assert(
      fc.property(rates, sources, levels, fc.double({ min: 0.5, max: 24, noNaN: true }), (k, s, c0, hours) => {
        const exchange = { k, cEq: 0.6 };
        // Simpson's rule on the outflow k (C - C_eq).
        const n = 4000;
        let outflow = 0;
        for (let i = 0; i <= n; i++) {
          const weight = i === 0 || i === n ? 1 : i % 2 === 1 ? 4 : 2;
          outflow += weight * k * (levelAfter(exchange, s, c0, (i * hours) / n) - 0.6);
        }
        outflow *= hours / n / 3;
        const stays = levelAfter(exchange, s, c0, hours) - c0;
        expect(Math.abs(s * hours - outflow - stays)).toBeLessThan(1e-6 * (1 + Math.abs(s) * hours + c0));
      }),
      { numRuns: 50 },
    );
  });

  test("two steps are one long step, and the level runs to steady", () => {
    fc.assert(
      fc.property(rates, sources, levels, (k, s, c0) => {
        const exchange = { k, cEq: 0.6 };
        const half = levelAfter(exchange, s, levelAfter(exchange, s, c0, 2), 3);
        expect(half).toBeCloseTo(levelAfter(exchange, s, c0, 5), 9);
        expect(levelAfter(exchange, s, c0, 60 / k)).toBeCloseTo(steadyLevel(exchange, s), 6);
      }),
    );
  });

  test("more ripple lowers the steady excess and the rise time in proportion, not the first slope", () => {
    fc.assert(
      fc.property(rates, fc.double({ min: 0.1, max: 20, noNaN: true }), (k, s) => {
        const calm = { k, cEq: 0.6 };
        const rough = { k: 3 * k, cEq: 0.6 };
        expect(steadyLevel(rough, s) - 0.6).toBeCloseTo((steadyLevel(calm, s) - 0.6) / 3, 9);
        expect(riseTime(3 * k, 0.9)).toBeCloseTo(riseTime(k, 0.9) / 3, 9);
        const slope = (e: Exchange) => (levelAfter(e, s, 0.6, 1e-5) - 0.6) / 1e-5;
        expect(slope(rough) / slope(calm)).toBeCloseTo(1, 4);
        expect(slope(calm)).toBeCloseTo(s, 2);
      }),
    );
  });

  test("height lowers the equilibrium, not the rate of approach", () => {
    const sea = { k: 0.1, cEq: co2AirEquilibrium(25, 600) };
    const high = { k: 0.1, cEq: co2AirEquilibrium(25, 600, 0.8) };
    expect(high.cEq).toBeLessThan(sea.cEq);
    const excess = (e: Exchange) => levelAfter(e, 0, e.cEq + 10, 5) - e.cEq;
    expect(excess(high)).toBeCloseTo(excess(sea), 12);
  });

  test("time to a level is met by the curve, and never is infinite", () => {
    const hours = timeToLevel(reference, 3.7037, 7, 20);
    expect(levelAfter(reference, 3.7037, 7, hours)).toBeCloseTo(20, 9);
    expect(timeToLevel(reference, 3.7037, 7, 60)).toBe(Number.POSITIVE_INFINITY);
    expect(timeToLevel(reference, 3.7037, 20, 7)).toBe(Number.POSITIVE_INFINITY);
    expect(levelAfter(reference, 0, 20, timeToLevel(reference, 0, 20, 7))).toBeCloseTo(7, 9);
    expect(timeToLevel(reference, 1, 9, 9)).toBe(0);
  });

  test("lead injection meets its level and the hold keeps it", () => {
    fc.assert(
      fc.property(rates, levels, levels, fc.double({ min: 0.2, max: 8, noNaN: true }), (k, c0, c1, lead) => {
        const exchange = { k, cEq: 0.6 };
        const s = leadSource(exchange, c0, c1, lead);
        expect(levelAfter(exchange, s, c0, lead)).toBeCloseTo(c1, 8);
        const hold = holdInjection(exchange, c1, 1.2, 0.1);
        expect(levelAfter(exchange, hold - 1.2 + 0.1, c1, 7)).toBeCloseTo(c1, 8);
      }),
    );
  });
});

describe("repeating day", () => {
  test("the square wave is the two-stretch day", () => {
    fc.assert(
      fc.property(
        rates,
        fc.double({ min: 0, max: 20, noNaN: true }),
        fc.double({ min: 1, max: 23, noNaN: true }),
        (k, s, on) => {
          const exchange = { k, cEq: 0.6 };
          const [min, max] = periodicLevels(exchange, [
            { hours: on, source: s },
            { hours: 24 - on, source: 0 },
          ]);
          const wave = squareWave(exchange, s, on);
          expect(wave.max).toBeCloseTo(max!, 9);
          expect(wave.min).toBeCloseTo(min!, 9);
        },
      ),
    );
  });

  test("agrees with stepping the balance through twelve days", () => {
    const day = co2Day({
      ...reference,
      injection: 3.7037,
      gasOn: 0,
      gasOff: 9,
      lightOn: 2,
      lightOff: 10,
      uptake: 1,
      respiration: 0.1,
    });
    let c = 5;
    const dt = 0.001;
    let seen = 0;
    for (let i = 0; i < 12 * 24000; i++) {
      const hour = (i % 24000) * dt;
      if (i >= 11 * 24000 && i % 24000 === 2000) seen = c;
      const s = (hour < 9 ? 3.7037 : 0) - (hour >= 2 && hour < 10 ? 1 : 0) + 0.1;
      c += dt * (s - 0.0888889 * (c - 0.62));
    }
    expect(seen).toBeCloseTo(day.lightOn, 2);
    expect(c).toBeCloseTo(day.gasOn, 2);
  });

  test("does not care where midnight lies", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 24, noNaN: true }), rates, (shift, k) => {
        const base = { k, cEq: 0.6, injection: 3, uptake: 1, respiration: 0.1 };
        const a = co2Day({ ...base, gasOn: 0, gasOff: 9, lightOn: 2, lightOff: 10 });
        const b = co2Day({ ...base, gasOn: shift, gasOff: 9 + shift, lightOn: 2 + shift, lightOff: 10 + shift });
        for (const key of ["gasOn", "lightOn", "gasOff", "lightOff", "max", "min"] as const) {
          expect(b[key]).toBeCloseTo(a[key], 7);
        }
        expect(b.at(5 + shift)).toBeCloseTo(a.at(5), 7);
      }),
    );
  });

  test("gas all day, gas never, and a curve without jumps", () => {
    const base = { ...reference, injection: 3.7037, lightOn: 8, lightOff: 8, uptake: 0, respiration: 0 };
    const always = co2Day({ ...base, gasOn: 0, gasOff: 24 });
    expect(always.max).toBeCloseTo(42.287, 2);
    expect(always.min).toBeCloseTo(42.287, 2);
    expect(always.stuckValve).toBeCloseTo(42.287, 2);
    const never = co2Day({ ...base, gasOn: 6, gasOff: 6 });
    expect(never.max).toBeCloseTo(0.62, 9);
    const day = co2Day({ ...base, gasOn: 22, gasOff: 7, lightOn: 0, lightOff: 9, uptake: 1 });
    for (let h = 0; h < 48; h += 0.25) expect(Math.abs(day.at(h + 1e-6) - day.at(h - 1e-6))).toBeLessThan(1e-4);
    expect(day.gasOff).toBe(day.max);
  });

  test("closing the valve an hour early lets CO2 fall from 21.7 to 19.1 mg/L by lights-off", () => {
    const day = co2Day({
      ...reference,
      injection: 3.7037,
      gasOn: 0,
      gasOff: 9,
      lightOn: 2,
      lightOff: 10,
      uptake: 1,
      respiration: 0.1,
    });
    expect(day.gasOff).toBeCloseTo(21.7, 1);
    expect(day.lightOff).toBeCloseTo(19.1, 1);
  });
});

test("from counted bubbles to the day: 300 L, 2.5 bubbles/s of a 2 mm tip at 1.2 bar", () => {
  // End-to-end example of the sheet, 3 %: 0.1004 mg, 0.903 g/h, 2.951 mg/L/h, 37.9 mg/L, 6.08 after 2 h, 22.9 and 7.4.
  const mass = bubbleMass(orificeBubble(2, 25).volumeMl, 1.2, 22);
  expect(Math.abs(mass / 0.1004 - 1)).toBeLessThan(0.03);
  const gramsPerHour = rateFromBubbles(2.5, mass);
  expect(Math.abs(gramsPerHour / 0.903 - 1)).toBeLessThan(0.03);
  const k = rateFromTransfer(scaleTransfer(surfaceClasses[2]!.k600, "co2", 25), 0.6, 300);
  expect(Math.abs(k / 0.0792 - 1)).toBeLessThan(0.03);
  const tank = { k, cEq: co2AirEquilibrium(25, 425) };
  const fine = (1000 * gramsPerHour * 0.98) / 300;
  expect(Math.abs(fine / 2.951 - 1)).toBeLessThan(0.03);
  expect(Math.abs(steadyLevel(tank, fine) / 37.9 - 1)).toBeLessThan(0.03);
  expect(Math.abs(levelAfter(tank, fine, tank.cEq, 2) / 6.08 - 1)).toBeLessThan(0.03);
  expect(Math.abs(squareWave(tank, fine, 9).max / 22.9 - 1)).toBeLessThan(0.03);
  expect(Math.abs(squareWave(tank, fine, 9).min / 7.4 - 1)).toBeLessThan(0.03);
  const open = (1000 * gramsPerHour * 0.14) / 300;
  expect(Math.abs(steadyLevel(tank, open) / 5.9 - 1)).toBeLessThan(0.03);
  expect(Math.abs(squareWave(tank, open, 9).max / 3.8 - 1)).toBeLessThan(0.03);
  expect(Math.abs(squareWave(tank, open, 9).min / 1.6 - 1)).toBeLessThan(0.03);
});

describe("animals", () => {
  test("verdicts follow level, rise and strain", () => {
    expect(co2Verdict(8)).toBe("low");
    expect(co2Verdict(22)).toBe("target");
    expect(co2Verdict(22, 12)).toBe("caution");
    expect(co2Verdict(33)).toBe("caution");
    expect(co2Verdict(41)).toBe("stop");
    expect(co2Verdict(33, 0, { lowOxygen: true })).toBe("stop");
    expect(co2Verdict(25, 0, { night: true })).toBe("caution");
  });

  test("strain tightens by 10 mg/L once, and leaves a target", () => {
    const eased = animalLimits();
    const tight = animalLimits({ night: true, lowOxygen: true, unacclimated: true, breedingInvertebrates: true });
    expect(tight.stop).toBe(eased.stop - 10);
    expect(tight.caution).toBe(eased.caution - 10);
    expect(tight.targetHigh).toBeGreaterThan(tight.targetLow);
  });
});
