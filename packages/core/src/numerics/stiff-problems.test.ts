import { describe, expect, test } from "vitest";
import { createIntegrator, integrate, type ReferenceProblem, referenceProblems, sources } from "./index.ts";

/** Largest difference from the reference over its times, relative to the state's size plus its scale. */
function worstError(problem: ReferenceProblem, rtol: number, method: "rodas" | "rodas4p2"): number {
  const atol = Float64Array.from(problem.scale, (s) => s * rtol);
  const integrator = createIntegrator(problem.system, { rtol, atol, method });
  const y = Float64Array.from(problem.start);
  let t = 0;
  let hNext: number | undefined;
  let worst = 0;
  for (const row of problem.solution) {
    const result = integrator.run(t, row.t, y, hNext);
    expect(result.status).toBe("done");
    hNext = result.hNext;
    t = row.t;
    row.y.forEach((v, i) => {
      worst = Math.max(worst, Math.abs(y[i]! - v) / (Math.abs(v) + problem.scale[i]!));
    });
  }
  return worst;
}

/**
 * Allowed relative error of the worst state at the worst time. It exceeds rtol where the problem itself amplifies small
 * errors: by 10 in OREGO and 50 in van der Pol, whose relaxation oscillations keep an error of phase.
 */
const cases: readonly [ReferenceProblem, number, number][] = [
  [referenceProblems.robertson, 1e-4, 2e-4],
  [referenceProblems.robertson, 1e-6, 1e-6],
  [referenceProblems.robertson, 1e-8, 2e-8],
  [referenceProblems.hires, 1e-4, 2e-4],
  [referenceProblems.hires, 1e-6, 2e-6],
  [referenceProblems.hires, 1e-8, 1e-8],
  [referenceProblems.orego, 1e-4, 1e-3],
  [referenceProblems.orego, 1e-6, 1e-5],
  [referenceProblems.orego, 1e-8, 1e-7],
  [referenceProblems.vanDerPol, 1e-4, 5e-3],
  [referenceProblems.vanDerPol, 1e-6, 5e-5],
  [referenceProblems.vanDerPol, 1e-8, 5e-7],
];

describe("reference problems of the stiff literature", () => {
  for (const [problem, rtol, allowed] of cases) {
    test.each(["rodas", "rodas4p2"] as const)(`${problem.name}, rtol ${rtol}, %s`, (method) => {
      expect(worstError(problem, rtol, method)).toBeLessThan(allowed);
    });
  }

  test("a much tighter run of our own meets every recalled or read reference value", () => {
    for (const problem of [
      referenceProblems.robertson,
      referenceProblems.hires,
      referenceProblems.orego,
      referenceProblems.vanDerPol,
    ]) {
      expect(worstError(problem, 1e-11, "rodas4p2"), problem.name).toBeLessThan(1e-9);
    }
  });

  test("their sources are in the bibliography", () => {
    for (const problem of Object.values(referenceProblems)) {
      for (const key of problem.sources) expect(sources).toHaveProperty(key);
    }
  });

  test("stiffness does not set the step: Robertson to 1e11 in a few hundred steps", () => {
    const { system, start, scale } = referenceProblems.robertson;
    const result = integrate(system, Float64Array.from(start), 0, 1e11, {
      rtol: 1e-4,
      atol: Float64Array.from(scale, (s) => s * 1e-4),
    });
    expect(result.steps + result.rejected).toBeLessThan(300);
  });

  test("Robertson's mass stays at 1 to rounding at rtol 1e-2", () => {
    const { system, start, scale } = referenceProblems.robertson;
    const y = Float64Array.from(start);
    integrate(system, y, 0, 4e10, { rtol: 1e-2, atol: Float64Array.from(scale, (s) => s * 1e-2) });
    expect(Math.abs(y[0]! + y[1]! + y[2]! - 1)).toBeLessThan(1e-13);
  });
});
