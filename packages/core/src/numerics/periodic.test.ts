import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  createIntegrator,
  findPeriodic,
  integrate,
  type OdeSystem,
  type PeriodMap,
  setIdentity,
  sink,
  solveLinear,
} from "./index.ts";

/** y -> A y + b with its exact sensitivity, or one that is off by `error`. */
function affine(a: Float64Array, b: Float64Array, error = 0): PeriodMap {
  const n = b.length;
  return (y, out, sensitivity) => {
    for (let i = 0; i < n; i++) {
      let sum = b[i]!;
      for (let j = 0; j < n; j++) sum += a[i * n + j]! * y[j]!;
      out[i] = sum;
    }
    sensitivity?.set(a.map((v, k) => v * (1 + error * Math.cos(7 * k))));
  };
}

function fixedPoint(a: Float64Array, b: Float64Array): Float64Array {
  const n = b.length;
  return solveLinear(
    a.map((v, k) => (k % (n + 1) === 0 ? 1 : 0) - v),
    b,
  );
}

const tables = fc.integer({ min: 1, max: 8 }).chain((n) =>
  fc.record({
    n: fc.constant(n),
    a: fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: n * n, maxLength: n * n }),
    b: fc.array(fc.double({ min: 0.1, max: 5, noNaN: true }), { minLength: n, maxLength: n }),
  }),
);

describe("linear period maps with a known answer", () => {
  test("an exact sensitivity needs two maps", () => {
    fc.assert(
      fc.property(tables, ({ n, a, b }) => {
        // Rows sum to at most 0.95: slow decay, as of a soil's stock from week to week.
        const matrix = Float64Array.from(a, (v, k) => (k % (n + 1) === 0 ? 0.6 * v + 0.35 : (0.3 * v) / n));
        const right = Float64Array.from(b);
        const exact = fixedPoint(matrix, right);
        const result = findPeriodic(affine(matrix, right), new Float64Array(n), { rtol: 1e-9, atol: 1e-9 });
        expect(result.converged).toBe(true);
        // two, one to confirm, and one where a state 1e4 times the others leaves the first answer a hair above 1e-9
        expect(result.maps).toBeLessThanOrEqual(4);
        exact.forEach((v, i) => {
          expect(Math.abs(result.y[i]! - v)).toBeLessThan(1e-6 * (1 + Math.abs(v)));
        });
      }),
    );
  });

  test("a sensitivity that is 10 % off still converges, with few maps", () => {
    fc.assert(
      fc.property(tables, ({ n, a, b }) => {
        const matrix = Float64Array.from(a, (v, k) => (k % (n + 1) === 0 ? 0.4 * v + 0.4 : (0.3 * v) / n));
        const right = Float64Array.from(b);
        const exact = fixedPoint(matrix, right);
        const result = findPeriodic(affine(matrix, right, 0.1), new Float64Array(n), { rtol: 1e-8, atol: 1e-8 });
        expect(result.converged).toBe(true);
        expect(result.maps).toBeLessThan(25);
        exact.forEach((v, i) => {
          expect(Math.abs(result.y[i]! - v)).toBeLessThan(1e-5 * (1 + Math.abs(v)));
        });
      }),
    );
  });

  test("without a sensitivity the fallback converges, far faster than repeating the period", () => {
    const matrix = Float64Array.from([0.97, 0.02, 0, 0, 0.9, 0.05, 0.01, 0, 0.3]);
    const right = Float64Array.from([1, 2, 3]);
    const exact = fixedPoint(matrix, right);
    const result = findPeriodic(affine(matrix, right), new Float64Array(3), { sensitivity: false, rtol: 1e-8 });
    expect(result.converged).toBe(true);
    expect(result.newtonSteps).toBe(0);
    // 0.97^k < 1e-8 would take 600 periods.
    expect(result.maps).toBeLessThan(20);
    exact.forEach((v, i) => {
      expect(Math.abs(result.y[i]! / v - 1)).toBeLessThan(1e-5);
    });
  });

  test("a conserved amount stays where it was put", () => {
    // Two pools exchange; their sum never changes.
    const matrix = Float64Array.from([0.8, 0.3, 0.2, 0.7]);
    const result = findPeriodic(affine(matrix, new Float64Array(2)), Float64Array.from([5, 0]), { rtol: 1e-8 });
    expect(result.converged).toBe(true);
    expect(result.y[0]! + result.y[1]!).toBeCloseTo(5, 4);
    expect(result.y[0]).toBeCloseTo(3, 4);
    expect(result.multiplier).toBeCloseTo(1, 3);
  });
});

describe("which rhythm is found", () => {
  /** A stock that doubles per week while small and settles at 1; 0 is a rhythm too, one that it leaves. */
  const growth: PeriodMap = (y, out, s) => {
    out[0] = (2 * y[0]!) / (1 + y[0]!);
    if (s) s[0] = 2 / (1 + y[0]!) ** 2;
  };

  test("a growing stock is followed to where it settles, not extrapolated back to nothing", () => {
    for (const start of [1e-3, 0.2, 0.9, 30]) {
      const result = findPeriodic(growth, Float64Array.from([start]), { lower: new Float64Array(1) });
      expect(result.converged).toBe(true);
      expect(result.y[0]).toBeCloseTo(1, 5);
      expect(result.multiplier).toBeCloseTo(0.5, 4);
    }
  });

  test("a start on the rhythm that is left stays there and says so", () => {
    const result = findPeriodic(growth, Float64Array.from([0]), { maxMaps: 20 });
    expect(result.y[0]).toBe(0);
    expect(result.maps).toBeLessThanOrEqual(20);
  });

  test("the multiplier is the spectral radius, to a part in a thousand", () => {
    const result = findPeriodic(
      affine(Float64Array.from([0.5, 0.6, -0.6, 0.5]), Float64Array.from([1, 1])),
      new Float64Array(2),
    );
    expect(result.multiplier).toBeCloseTo(Math.hypot(0.5, 0.6), 3);
  });
});

describe("periods that do not close", () => {
  test("a stock that gains the same each period has none: bounded maps, converged false", () => {
    for (const sensitivity of [true, false]) {
      for (const maxMaps of [1, 7, 40]) {
        let calls = 0;
        const drift = affine(Float64Array.from([1, 0, 0, 0.5]), Float64Array.from([1, 1]));
        const result = findPeriodic(
          (y, out, s) => {
            calls++;
            drift(y, out, s);
          },
          new Float64Array(2),
          { sensitivity, maxMaps },
        );
        expect(result.converged).toBe(false);
        expect(result.residual).toBeGreaterThan(1);
        expect(result.maps).toBe(calls);
        expect(calls).toBeLessThanOrEqual(maxMaps);
      }
    }
  });

  test("chaos, and maps that give no numbers, end the same way", () => {
    const logistic: PeriodMap = (y, out, s) => {
      out[0] = 3.99 * y[0]! * (1 - y[0]!) + 1e-3 * Math.sin(1e4 * y[0]!);
      if (s) s[0] = Number.NaN;
    };
    const chaos = findPeriodic(logistic, Float64Array.from([0.2]), { rtol: 1e-12, atol: 1e-14, maxMaps: 30 });
    expect(chaos.maps).toBeLessThanOrEqual(30);
    expect(chaos.converged).toBe(chaos.residual <= 1);
    const broken = findPeriodic((_y, out) => void out.fill(Number.NaN), Float64Array.from([1]), { maxMaps: 30 });
    expect(broken.converged).toBe(false);
    expect(broken.maps).toBeLessThanOrEqual(30);
    expect(broken.y[0]).toBe(1);
  });

  test("whatever the map, the bound holds and converged tells the truth", () => {
    const wild = fc.record({
      p: fc.array(fc.double({ min: -4, max: 4, noNaN: true }), { minLength: 6, maxLength: 6 }),
      maxMaps: fc.integer({ min: 1, max: 25 }),
    });
    fc.assert(
      fc.property(wild, ({ p, maxMaps }) => {
        const map: PeriodMap = (y, out, s) => {
          out[0] = p[0]! * Math.sin(p[1]! * y[1]!) + p[2]! * y[0]!;
          out[1] = p[3]! * Math.cos(p[4]! * y[0]!) + p[5]! * y[1]!;
          s?.set([p[2]!, p[0]! * p[1]! * Math.cos(p[1]! * y[1]!), -p[3]! * p[4]! * Math.sin(p[4]! * y[0]!), p[5]!]);
        };
        const result = findPeriodic(map, Float64Array.from([0.3, -0.2]), { maxMaps });
        expect(result.maps).toBeLessThanOrEqual(maxMaps);
        const out = new Float64Array(2);
        map(result.y, out, null);
        const closes = out.every(
          (v, j) => Math.abs(v - result.y[j]!) <= 1e-9 + 1e-6 * Math.max(Math.abs(v), Math.abs(result.y[j]!)),
        );
        expect(result.converged).toBe(closes);
      }),
    );
  });
});

describe("with the integrator", () => {
  /** Invented: a dosed nutrient, a stock that grows on it, a slow store; light by day, weekly removal. */
  const tank: OdeSystem = {
    n: 3,
    flows: 0,
    rates(t, y, out) {
      const light = Math.max(0, Math.sin(2 * Math.PI * t));
      const uptake = 0.8 * light * y[1]! * sink(y[0]!, 0.05);
      out[0] = 0.3 - uptake - 0.05 * (y[0]! - y[2]!);
      out[1] = 0.5 * uptake - 0.06 * y[1]!;
      out[2] = 0.004 * (y[0]! - y[2]!);
    },
  };

  test("the weekly rhythm is found in a few weeks of simulation, and it is one", () => {
    const s = new Float64Array(9);
    const plain = createIntegrator(tank, { rtol: 1e-7, atol: 1e-9, nonNegative: [0, 1, 2] });
    const tracked = createIntegrator(tank, { rtol: 1e-7, atol: 1e-9, nonNegative: [0, 1, 2], sensitivity: s });
    const week: PeriodMap = (y, out, sensitivity) => {
      out.set(y);
      setIdentity(s, 3);
      const integrator = sensitivity ? tracked : plain;
      for (let half = 0; half < 14; half++) integrator.run(half / 2, (half + 1) / 2, out);
      // Half of the water is changed: the jump multiplies the sensitivity's rows as well.
      out[0] = 0.5 * out[0]!;
      for (let j = 0; j < 3; j++) s[j] = 0.5 * s[j]!;
      sensitivity?.set(s);
    };
    const result = findPeriodic(week, Float64Array.from([0.5, 1, 0.5]), {
      rtol: 1e-5,
      atol: 1e-7,
      lower: new Float64Array(3),
    });
    expect(result.converged).toBe(true);
    expect(result.maps).toBeLessThan(20);
    expect(result.multiplier).toBeLessThan(1);
    expect(result.y[1]).toBeGreaterThan(1);
    // Checked by the other method at a tighter tolerance.
    const again = result.y.slice();
    for (let half = 0; half < 14; half++)
      integrate(tank, again, half / 2, (half + 1) / 2, { rtol: 1e-9, atol: 1e-11, method: "rodas" });
    again[0] = 0.5 * again[0]!;
    again.forEach((v, i) => {
      expect(Math.abs(v / result.y[i]! - 1)).toBeLessThan(1e-4);
    });
    // Repeating the period instead: the slow store (0.004 per day) is still far off after as many weeks.
    const plainWeeks = Float64Array.from([0.5, 1, 0.5]);
    const next = new Float64Array(3);
    for (let i = 0; i < result.maps; i++) {
      week(plainWeeks, next, null);
      plainWeeks.set(next);
    }
    expect(Math.abs(plainWeeks[2]! / result.y[2]! - 1)).toBeGreaterThan(0.01);
  });

  test("a forced oscillator's orbit equals the textbook amplitude and phase", () => {
    const forced: OdeSystem = {
      n: 2,
      flows: 0,
      rates(t, y, out) {
        out[0] = y[1]!;
        out[1] = -4 * y[0]! - 0.1 * y[1]! + Math.cos(1.7 * t);
      },
    };
    const period = (2 * Math.PI) / 1.7;
    const s = new Float64Array(4);
    const integrator = createIntegrator(forced, { rtol: 1e-9, atol: 1e-11, sensitivity: s });
    const result = findPeriodic(
      (y, out, sensitivity) => {
        out.set(y);
        setIdentity(s, 2);
        integrator.run(0, period, out);
        sensitivity?.set(s);
      },
      new Float64Array(2),
      { rtol: 1e-7, atol: 1e-7 },
    );
    expect(result.converged).toBe(true);
    // x = Re(e^{i w t} / (4 - w^2 + 0.1 i w)).
    const re = 4 - 1.7 ** 2;
    const im = 0.1 * 1.7;
    expect(Math.abs(result.y[0]! - re / (re * re + im * im))).toBeLessThan(1e-5);
    expect(Math.abs(result.y[1]! - (1.7 * im) / (re * re + im * im))).toBeLessThan(1e-5);
  });
});
