import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { findMinimum, findRoot, findRootNewton, goldenSection, RootError } from "./index.ts";

describe("roots", () => {
  test("Dottie number, cube root, a root at an end", () => {
    expect(findRoot((x) => Math.cos(x) - x, 0, 1)).toBeCloseTo(0.7390851332151607, 15);
    expect(findRoot((x) => x ** 3 - 2, 0, 2)).toBeCloseTo(Math.cbrt(2), 15);
    expect(findRoot((x) => x, 0, 5)).toBe(0);
    expect(findRoot((x) => x - 5, 0, 5)).toBe(5);
  });

  test("Brent's own example of slow secants: (x + 3)(x - 1)^2 from [-4, 4/3]", () => {
    expect(findRoot((x) => (x + 3) * (x - 1) ** 2, -4, 4 / 3)).toBeCloseTo(-3, 13);
  });

  test("random cubics: the sign changes where the root is said to be", () => {
    const p = fc.record({
      r: fc.double({ min: -5, max: 5, noNaN: true }),
      k: fc.double({ min: 0.01, max: 100, noNaN: true }),
      c: fc.double({ min: 0, max: 10, noNaN: true }),
    });
    fc.assert(
      fc.property(p, ({ r, k, c }) => {
        const f = (x: number): number => k * (x - r) * ((x - r) ** 2 + c);
        const slope = (x: number): number => k * (3 * (x - r) ** 2 + c);
        // f is flat near a triple root: f itself underflows there, x is then only good to the cube root of that.
        const allowed = c > 1e-3 ? 1e-12 : 1e-5;
        expect(Math.abs(findRoot(f, -11, 12) - r)).toBeLessThan(allowed);
        expect(Math.abs(findRootNewton(f, slope, -11, 12) - r)).toBeLessThan(allowed);
      }),
    );
  });

  test("few calls on a smooth function, bounded calls on a wild one", () => {
    let calls = 0;
    const counted =
      (f: (x: number) => number) =>
      (x: number): number => {
        calls++;
        return f(x);
      };
    findRoot(
      counted((x) => Math.exp(x) - 5),
      -4,
      10,
      { xtol: 1e-12 },
    );
    expect(calls).toBeLessThan(16);
    calls = 0;
    findRoot(
      counted((x) => Math.sign(x - 0.3) * Math.abs(x - 0.3) ** 0.01),
      -1e6,
      1e6,
      { xtol: 1e-9 },
    );
    expect(calls).toBeLessThan(180);
  });

  test("xtol and ftol are honoured", () => {
    expect(Math.abs(findRoot((x) => x - 0.123456789, 0, 1, { xtol: 1e-3 }) - 0.123456789)).toBeLessThan(1e-3);
    const x = findRoot((v) => v * v - 2, 0, 2, { ftol: 1e-4 });
    expect(Math.abs(x * x - 2)).toBeLessThanOrEqual(1e-4);
  });

  test("Newton in a bracket survives a bad derivative, a flat start and an overshoot", () => {
    expect(findRootNewton(Math.atan, (x) => 1 / (1 + x * x), -3, 40)).toBeCloseTo(0, 12);
    expect(
      findRootNewton(
        (x) => x - 1,
        () => Number.NaN,
        0,
        3,
        { xtol: 1e-10 },
      ),
    ).toBeCloseTo(1, 9);
    expect(
      findRootNewton(
        (x) => x ** 9 - 1e-3,
        (x) => 9 * x ** 8,
        0,
        5,
      ),
    ).toBeCloseTo(1e-3 ** (1 / 9), 12);
  });

  test("an interval without a sign change says so, with both values", () => {
    for (const call of [
      () => findRoot((x) => x * x + 1, -1, 2),
      () =>
        findRootNewton(
          (x) => x * x + 1,
          (x) => 2 * x,
          -1,
          2,
        ),
    ]) {
      expect(call).toThrow(RootError);
      expect(call).toThrow(/same sign: f\(-1\) = 2, f\(2\) = 5/);
    }
    expect(() => findRoot(() => Number.NaN, 0, 1)).toThrow(/no value at an end/);
    expect(() => findRoot((x) => (x > 0.2 && x < 0.8 ? Number.NaN : x - 0.5), 0, 1)).toThrow(/inside the interval/);
    expect(() => findRoot((x) => x, Number.NEGATIVE_INFINITY, 1)).toThrow(/not finite/);
  });
});

describe("minima of one variable", () => {
  test("a parabola, an asymmetric dip, a kink", () => {
    for (const find of [findMinimum, goldenSection]) {
      expect(find((x) => (x - 1.7) ** 2, -3, 10).x).toBeCloseTo(1.7, 6);
      // x - ln x has its minimum 1 at 1.
      const dip = find((x) => x - Math.log(x), 0.05, 20);
      expect(dip.x).toBeCloseTo(1, 6);
      expect(dip.value).toBeCloseTo(1, 12);
      expect(find((x) => Math.abs(x + 0.4), -1, 5, { xtol: 1e-9 }).x).toBeCloseTo(-0.4, 7);
    }
  });

  test("parabolic steps save calls; a minimum at an end is approached", () => {
    const f = (x: number): number => Math.cosh(x - 0.2);
    expect(findMinimum(f, -5, 5).evaluations).toBeLessThan(0.6 * goldenSection(f, -5, 5).evaluations);
    expect(findMinimum((x) => x, 2, 9).x).toBeCloseTo(2, 6);
    expect(() => findMinimum(f, 3, 3)).toThrow(/no interval/);
  });
});
