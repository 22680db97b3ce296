import { describe, expect, test } from "vitest";
import { solveLinear } from "./linear.ts";
import { RODAS, RODAS4P2, type RosenbrockCoefficients } from "./rodas-coefficients.ts";

const STAGES = 6;

/** Classical form: k_i = h f(y + sum alpha_ij k_j) + h J sum gamma_ij k_j, y1 = y + sum b_i k_i. */
function classical(method: RosenbrockCoefficients) {
  const entry = (rows: readonly (readonly number[])[], i: number, j: number): number => rows[i]?.[j] ?? 0;
  const inverseGamma = Float64Array.from({ length: STAGES * STAGES }, (_, k) => {
    const i = Math.floor(k / STAGES);
    const j = k % STAGES;
    return i === j ? 1 / method.gamma : -entry(method.C, i, j);
  });
  const gamma = Array.from({ length: STAGES }, () => new Array<number>(STAGES).fill(0));
  for (let c = 0; c < STAGES; c++) {
    const unit = new Float64Array(STAGES);
    unit[c] = 1;
    solveLinear(inverseGamma, unit).forEach((v, i) => {
      gamma[i]![c] = v;
    });
  }
  const timesGamma = (row: readonly number[]): number[] =>
    Array.from({ length: STAGES }, (_, j) => row.reduce((sum, v, k) => sum + v * gamma[k]![j]!, 0));
  const alpha = method.a.map(timesGamma);
  const beta = alpha.map((row, i) => row.map((v, j) => v + gamma[i]![j]!));
  const sums = (m: readonly (readonly number[])[]): number[] => m.map((row) => row.reduce((s, v) => s + v, 0));
  return { gamma, alpha, beta, gammaSums: sums(gamma), alphaSums: sums(alpha), betaSums: sums(beta), timesGamma };
}

/** Elementary weights up to order 4 for the weights b (`hairer_wanner_1996`, table IV.7.1). */
function weights(method: RosenbrockCoefficients, b: readonly number[]) {
  const { alpha, beta, alphaSums: a, betaSums: s } = classical(method);
  const apply = (m: readonly (readonly number[])[], v: readonly number[]): number[] =>
    m.map((row) => row.reduce((sum, x, j) => sum + x * v[j]!, 0));
  const dot = (v: readonly number[]): number => b.reduce((sum, x, i) => sum + x * v[i]!, 0);
  const betaS = apply(beta, s);
  return {
    order1: [dot(b.map(() => 1))],
    order2: [dot(s)],
    order3: [dot(a.map((v) => v * v)), dot(betaS)],
    order4: [
      dot(a.map((v) => v ** 3)),
      dot(apply(alpha, s).map((v, i) => v * a[i]!)),
      dot(
        apply(
          beta,
          a.map((v) => v * v),
        ),
      ),
      dot(apply(beta, betaS)),
    ],
  };
}

const close = (got: readonly number[], want: readonly number[], tolerance = 2e-13): void => {
  got.forEach((v, i) => {
    expect(Math.abs(v - want[i]!), `${v} against ${want[i]}`).toBeLessThan(tolerance);
  });
};

describe.each([
  ["RODAS", RODAS],
  ["RODAS4P2", RODAS4P2],
])("%s", (_name, method) => {
  test("meets the eight order conditions of order 4", () => {
    const w = weights(method, classical(method).timesGamma(method.m));
    close(w.order1, [1]);
    close(w.order2, [1 / 2]);
    close(w.order3, [1 / 3, 1 / 6]);
    close(w.order4, [1 / 4, 1 / 8, 1 / 12, 1 / 24]);
  });

  test("the embedded solution meets the conditions of order 3 and not all of order 4", () => {
    const embedded = [...method.m.slice(0, 5), 0];
    const w = weights(method, classical(method).timesGamma(embedded));
    close(w.order1, [1]);
    close(w.order2, [1 / 2]);
    close(w.order3, [1 / 3, 1 / 6]);
    const misses = w.order4.map((v, i) => Math.abs(v - [1 / 4, 1 / 8, 1 / 12, 1 / 24][i]!));
    expect(Math.max(...misses)).toBeGreaterThan(1e-3);
  });

  test("the interpolant meets the conditions of order 3 everywhere in the step", () => {
    for (const s of [0.1, 0.25, 0.5, 0.7, 0.9]) {
      const dense = method.m.map((m, j) => s * m + s * (1 - s) * (method.p[j]! + s * method.q[j]!));
      const w = weights(method, classical(method).timesGamma(dense));
      close(w.order1, [s]);
      close(w.order2, [s ** 2 / 2]);
      close(w.order3, [s ** 3 / 3, s ** 3 / 6]);
    }
  });

  test("stage times and time weights are the row sums of the classical form", () => {
    const { alphaSums, gammaSums } = classical(method);
    close(alphaSums, method.c);
    close(gammaSums, method.d, 5e-13);
  });

  /** Stability function by running the stages on y' = z y, h = 1, y = 1. */
  const stability = (re: number, im: number): number => {
    type Complex = readonly [number, number];
    const times = (x: Complex, y: Complex): Complex => [x[0] * y[0] - x[1] * y[1], x[0] * y[1] + x[1] * y[0]];
    const z: Complex = [re, im];
    const d: Complex = [1 / method.gamma - re, -im];
    const size = d[0] ** 2 + d[1] ** 2;
    const u: Complex[] = [];
    const sum = (weights: readonly number[], start: number): Complex =>
      weights.reduce<Complex>((s, w, j) => [s[0] + w * (u[j]?.[0] ?? 0), s[1] + w * (u[j]?.[1] ?? 0)], [start, 0]);
    for (let i = 0; i < STAGES; i++) {
      const f = times(z, sum(method.a[i]!, 1));
      const c = sum(method.C[i]!, 0);
      const right: Complex = [f[0] + c[0], f[1] + c[1]];
      u.push(times(right, [d[0] / size, -d[1] / size]));
    }
    return Math.hypot(...sum(method.m, 1));
  };

  test("is A-stable on the imaginary axis and L-stable", () => {
    for (let k = -3; k <= 5; k += 0.02) expect(stability(0, 10 ** k)).toBeLessThanOrEqual(1 + 1e-12);
    // R(z) falls like 1/z; its leading numerator coefficient is zero, so rounding of the recalled digits stays visible.
    expect(stability(-1e4, 0)).toBeLessThan(1e-3);
    expect(stability(-1e6, 0)).toBeLessThan(1e-5);
    expect(stability(-1e9, 0)).toBeLessThan(1e-8);
  });
});
