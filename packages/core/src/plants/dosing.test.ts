import fc from "fast-check";
import { expect, test } from "vitest";
import { afterSaturatingUptake } from "./dosing.ts";

/** The same course by many small fourth-order steps. */
function stepped(supply: number, greatest: number, half: number, start: number, days: number): number {
  const slope = (c: number): number => supply - (greatest * c) / (half + c);
  const steps = 4000;
  const h = days / steps;
  let c = start;
  for (let n = 0; n < steps; n += 1) {
    const k1 = slope(c);
    const k2 = slope(c + (h / 2) * k1);
    const k3 = slope(c + (h / 2) * k2);
    const k4 = slope(c + h * k3);
    c += (h / 6) * (k1 + 2 * k2 + 2 * k3 + k4);
  }
  return c;
}

test("saturating uptake in closed form is the course that small steps give", () => {
  const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  fc.assert(
    fc.property(number(0, 8), number(0, 8), number(0.05, 20), number(0, 40), number(0.1, 14), (s, v, k, c, days) => {
      const closed = afterSaturatingUptake(s, v, k, c, days);
      // 1e-5: where supply and uptake agree to six digits they are taken as one
      expect(Math.abs(closed - stepped(s, v, k, c, days))).toBeLessThanOrEqual(1e-5 * (1 + closed));
    }),
  );
});

test("supply and greatest uptake alike: the course is a square root", () => {
  expect(afterSaturatingUptake(2, 2, 3, 1, 5)).toBeCloseTo(stepped(2, 2, 3, 1, 5), 8);
});
