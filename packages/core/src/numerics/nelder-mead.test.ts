import fc from "fast-check";
import { expect, test } from "vitest";
import { nelderMead } from "./index.ts";

const rosenbrock = (x: Float64Array): number => 100 * (x[1]! - x[0]! ** 2) ** 2 + (1 - x[0]!) ** 2;

test("Rosenbrock's valley from (-1.2, 1) ends at (1, 1)", () => {
  const result = nelderMead(rosenbrock, [-1.2, 1]);
  expect(result.converged).toBe(true);
  expect(result.x[0]).toBeCloseTo(1, 5);
  expect(result.x[1]).toBeCloseTo(1, 5);
});

test("Powell's singular function in four variables", () => {
  const powell = (x: Float64Array): number => {
    const [a, b, c, d] = x as unknown as [number, number, number, number];
    return (a + 10 * b) ** 2 + 5 * (c - d) ** 2 + (b - 2 * c) ** 4 + 10 * (a - d) ** 4;
  };
  const result = nelderMead(powell, [3, -1, 0, 1], { maxEvaluations: 4000 });
  expect(result.value).toBeLessThan(1e-8);
});

test("random convex bowls in up to six dimensions", () => {
  const bowls = fc.array(
    fc.record({ at: fc.double({ min: -4, max: 4, noNaN: true }), k: fc.double({ min: 0.3, max: 30, noNaN: true }) }),
    { minLength: 1, maxLength: 6 },
  );
  fc.assert(
    fc.property(bowls, (bowl) => {
      const f = (x: Float64Array): number => bowl.reduce((s, { at, k }, j) => s + k * (x[j]! - at) ** 2, 0);
      const result = nelderMead(
        f,
        bowl.map(() => 1),
        { size: bowl.map(() => 1), ftol: 1e-12, maxEvaluations: 20_000 },
      );
      bowl.forEach(({ at }, j) => {
        expect(Math.abs(result.x[j]! - at)).toBeLessThan(1e-3);
      });
    }),
    { numRuns: 50 },
  );
});

test("bounds hold at every call, and a minimum on a bound is found", () => {
  const outside: number[] = [];
  const result = nelderMead(
    (x) => {
      if (x[0]! < 0 || x[0]! > 0.5 || x[1]! < -2 || x[1]! > 0.1) outside.push(x[0]!, x[1]!);
      return rosenbrock(x);
    },
    [0.1, -1],
    { lower: [0, -2], upper: [0.5, 0.1] },
  );
  expect(outside).toEqual([]);
  // On x1 = 0.1 the valley's best x0 solves 400 x (x^2 - 0.1) = 2 (1 - x): 0.3245...
  expect(result.x[1]).toBeCloseTo(0.1, 5);
  expect(Math.abs(400 * result.x[0]! * (result.x[0]! ** 2 - 0.1) - 2 * (1 - result.x[0]!))).toBeLessThan(1e-2);
});

test("gaps in the function are walked around; the budget is kept and said", () => {
  const gap = nelderMead((x) => (x[0]! > 2 ? Number.NaN : (x[0]! - 1.9) ** 2), [0], { size: [1] });
  expect(gap.x[0]).toBeCloseTo(1.9, 4);
  const short = nelderMead(rosenbrock, [-1.2, 1], { maxEvaluations: 30 });
  expect(short.converged).toBe(false);
  expect(short.evaluations).toBeLessThanOrEqual(33);
  expect(() => nelderMead(rosenbrock, [0, 0], { lower: [1, 0], upper: [0, 1] })).toThrow(/variable 0 are crossed/);
});
