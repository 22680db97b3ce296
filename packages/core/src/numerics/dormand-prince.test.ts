import { describe, expect, test } from "vitest";
import { dormandPrince, integrate, type OdeSystem, referenceProblems } from "./index.ts";

const forced: OdeSystem = {
  n: 2,
  flows: 1,
  rates(t, y, out) {
    out[0] = y[0]! * Math.cos(t);
    out[1] = -y[0]! * y[1]! * y[1]!;
    out[2] = y[0]! * y[1]! * y[1]!;
  },
};
const start = [1, 2, 0];

/** Largest error at the end and inside steps against a run at the limit of the arithmetic. */
function errors(steps: number): { end: number; inside: number } {
  const h = 3 / steps;
  const y = Float64Array.from(start);
  const at = new Float64Array(3);
  let inside = 0;
  dormandPrince(forced, y, 0, 3, {
    atol: 1e6,
    h0: h,
    hMax: h,
    onStep(step) {
      const t = 0.4 * step.start + 0.6 * step.end;
      step.at(t, at);
      inside = Math.max(inside, Math.abs(at[0]! - Math.exp(Math.sin(t))));
    },
  });
  return { end: Math.abs(y[0]! - Math.exp(Math.sin(3))), inside };
}

describe("Dormand-Prince 5(4)", () => {
  test("observed order 5 at step ends and 5 (4 + 1) inside", () => {
    const [a, b] = [errors(30), errors(60)];
    expect(Math.log2(a.end / b.end)).toBeGreaterThan(4.8);
    expect(Math.log2(a.inside / b.inside)).toBeGreaterThan(4.8);
  });

  test("closes the Arenstorf orbit (hairer_norsett_wanner_1993, from memory), and so does the stiff method", () => {
    const { system, start: from, solution } = referenceProblems.arenstorf;
    const { t, y: want } = solution[0]!;
    for (const run of [dormandPrince, integrate]) {
      const y = Float64Array.from(from);
      expect(run(system, y, 0, t, { rtol: 1e-11, atol: 1e-12 }).status).toBe("done");
      // The orbit amplifies early errors about a million times.
      want.forEach((v, i) => {
        expect(Math.abs(y[i]! - v)).toBeLessThan(1e-4);
      });
    }
  });

  test("keeps conserved sums of states and flows to rounding at rtol 1e-2", () => {
    const y = Float64Array.from(start);
    dormandPrince(forced, y, 0, 30, { rtol: 1e-2, atol: 1e-4 });
    expect(Math.abs(y[1]! + y[2]! - 2)).toBeLessThan(1e-14);
  });

  test("gives up within maxSteps on a stiff problem and says where", () => {
    const { system, start: from } = referenceProblems.robertson;
    const result = dormandPrince(system, Float64Array.from(from), 0, 4e4, { rtol: 1e-4, atol: 1e-8, maxSteps: 3000 });
    expect(result.status).toBe("too-many-steps");
    expect(result.t).toBeGreaterThan(0);
    expect(result.t).toBeLessThan(4e4);
  });

  test("uses six calls per step: the last stage of one is the first of the next", () => {
    const result = dormandPrince(forced, Float64Array.from(start), 0, 10, { h0: 0.05 });
    expect(result.rateCalls).toBe(1 + 6 * (result.steps + result.rejected));
  });
});
