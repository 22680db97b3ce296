import { describe, expect, test } from "vitest";
import { createRandom, fitCurve, fitPolynomial, mean, polynomialAt, RankError, standardDeviation } from "./index.ts";

/**
 * NIST Statistical Reference Datasets (nonlinear), from memory: data, both starts, certified parameters with their
 * standard deviations and the residual sum of squares. Recalled data and recalled results check each other.
 */
const strd = [
  {
    name: "Misra1a",
    model: (x: number, p: Float64Array) => p[0]! * (1 - Math.exp(-p[1]! * x)),
    x: [77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0],
    y: [10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.4, 75.47, 81.78],
    starts: [
      [500, 0.0001],
      [250, 0.0005],
    ],
    parameters: [2.3894212918e2, 5.5015643181e-4],
    errors: [2.7070075241, 7.2668688436e-6],
    sum: 1.2455138894e-1,
  },
  {
    name: "DanWood",
    model: (x: number, p: Float64Array) => p[0]! * x ** p[1]!,
    x: [1.309, 1.471, 1.49, 1.565, 1.611, 1.68],
    y: [2.138, 3.421, 3.597, 4.34, 4.882, 5.66],
    starts: [
      [1, 5],
      [0.7, 4],
    ],
    parameters: [7.6886226176e-1, 3.8604055871],
    errors: [1.828197386e-2, 5.1726610913e-2],
    sum: 4.3173084083e-3,
  },
  {
    name: "Rat42",
    model: (x: number, p: Float64Array) => p[0]! / (1 + Math.exp(p[1]! - p[2]! * x)),
    x: [9, 14, 21, 28, 42, 57, 63, 70, 79],
    y: [8.93, 10.8, 18.59, 22.33, 39.35, 56.11, 61.73, 64.62, 67.08],
    starts: [
      [100, 1, 0.1],
      [75, 2.5, 0.07],
    ],
    parameters: [7.2462237576e1, 2.6180768402, 6.7359200066e-2],
    errors: [1.7340283401, 8.8295217536e-2, 3.4465663377e-3],
    sum: 8.0565229338,
  },
];

const relative = (got: number, want: number): number => Math.abs(got / want - 1);

describe("curve fit", () => {
  for (const set of strd) {
    test.each([0, 1])(`${set.name} (nist_strd, from memory), start %d`, (start) => {
      const fit = fitCurve(set.model, set.x, set.y, set.starts[start]!);
      expect(fit.converged).toBe(true);
      set.parameters.forEach((v, j) => {
        expect(relative(fit.parameters[j]!, v)).toBeLessThan(1e-7);
      });
      set.errors.forEach((v, j) => {
        expect(relative(fit.standardErrors[j]!, v)).toBeLessThan(1e-6);
      });
      expect(relative(fit.sumOfSquares, set.sum)).toBeLessThan(1e-8);
      expect(relative(fit.residualSd, Math.sqrt(set.sum / (set.x.length - set.parameters.length)))).toBeLessThan(1e-8);
    });
  }

  test("standard errors cover the truth as often as they say (seeded repeats of a light curve)", () => {
    const light = [10, 25, 50, 80, 120, 180, 260, 400, 600, 900];
    const curve = (x: number, p: Float64Array): number => p[0]! * Math.tanh((p[1]! * x) / p[0]!) - p[2]!;
    const truth = Float64Array.from([12, 0.09, 1.5]);
    let inside = 0;
    let z = 0;
    const repeats = 400;
    for (let i = 0; i < repeats; i++) {
      const random = createRandom(11, i);
      const y = light.map((x) => curve(x, truth) + 0.4 * random.normal());
      const fit = fitCurve(curve, light, y, [8, 0.2, 1], { sd: light.map(() => 0.4), sdKnown: true });
      const deviation = (fit.parameters[0]! - truth[0]!) / fit.standardErrors[0]!;
      if (Math.abs(deviation) < 1.96) inside++;
      z += deviation / repeats;
    }
    // 95 % cover, binomial standard deviation 1.1 %.
    expect(inside / repeats).toBeGreaterThan(0.91);
    expect(inside / repeats).toBeLessThan(0.98);
    expect(Math.abs(z)).toBeLessThan(0.25);
  });

  test("bounds hold, and a parameter held at one has no standard error", () => {
    const x = [0, 1, 2, 3, 4];
    const y = [1, 2.1, 2.9, 4.1, 5];
    const line = (v: number, p: Float64Array): number => p[0]! + p[1]! * v;
    const fit = fitCurve(line, x, y, [0, 0.5], { upper: [10, 0.9] });
    expect(fit.converged).toBe(true);
    expect(fit.parameters[1]).toBe(0.9);
    expect(fit.standardErrors[1]).toBe(0);
    expect(fit.parameters[0]).toBeCloseTo(mean(y) - 0.9 * mean(x), 8);
  });

  test("an exact fit converges with a vanishing sum of squares", () => {
    const x = [1, 2, 3, 4, 5];
    const fit = fitCurve(
      (v, p) => p[0]! * v ** p[1]!,
      x,
      x.map((v) => 3 * v ** 1.5),
      [1, 1],
    );
    expect(fit.converged).toBe(true);
    expect(fit.parameters[0]).toBeCloseTo(3, 8);
    expect(fit.parameters[1]).toBeCloseTo(1.5, 8);
  });

  test("bad questions are refused", () => {
    const twins = (v: number, p: Float64Array): number => (p[0]! + p[1]!) * v;
    expect(() => fitCurve(twins, [1, 2, 3], [1, 2, 3.1], [1, 1])).toThrow(RankError);
    expect(() => fitCurve(twins, [1], [1], [1, 1])).toThrow(/1 points cannot fix 2/);
    expect(() => fitCurve(() => Number.NaN, [1, 2], [1, 2], [1])).toThrow(/no number at the starting/);
  });
});

describe("polynomial fit", () => {
  test("Pontius (nist_strd linear, from memory): quadratic calibration with large x", () => {
    const y = [
      0.11019, 0.21956, 0.32949, 0.43899, 0.54803, 0.65694, 0.76562, 0.87487, 0.98292, 1.09146, 1.20001, 1.30822,
      1.41599, 1.52399, 1.63194, 1.73947, 1.84646, 1.95392, 2.06128, 2.16844, 0.11052, 0.22018, 0.32939, 0.43886,
      0.54798, 0.65739, 0.76596, 0.87474, 0.983, 1.0915, 1.20004, 1.30818, 1.41613, 1.52408, 1.63159, 1.73965, 1.84696,
      1.95445, 2.06177, 2.16829,
    ];
    const x = y.map((_, i) => 150_000 * ((i % 20) + 1));
    const fit = fitPolynomial(x, y, 2);
    const certified = [0.673565789473684e-3, 0.732059160401003e-6, -0.316081871345029e-14];
    const errors = [0.107938612033077e-3, 0.157817399981659e-9, 0.486652849992036e-16];
    certified.forEach((v, j) => {
      expect(relative(fit.coefficients[j]!, v)).toBeLessThan(1e-9);
      expect(relative(fit.standardErrors[j]!, errors[j]!)).toBeLessThan(1e-9);
    });
    expect(relative(fit.residualSd, 0.205177424076185e-3)).toBeLessThan(1e-9);
  });

  test("gives back a polynomial exactly, far from zero, and weights decide between points", () => {
    const coefficients = [3, -2, 0.5, 0.01];
    const x = [100, 101, 102, 104, 107, 110];
    const fit = fitPolynomial(
      x,
      x.map((v) => polynomialAt(coefficients, v)),
      3,
    );
    expect(fit.at(105.5)).toBeCloseTo(polynomialAt(coefficients, 105.5), 7);
    const flat = fitPolynomial([1, 2], [10, 20], 0, [3, 1]);
    expect(flat.coefficients[0]).toBeCloseTo(12.5, 12);
    expect(fitPolynomial([1, 2], [10, 20], 1).residualSd).toBeNaN();
  });

  test("too few points or too few different ones are refused", () => {
    expect(() => fitPolynomial([1, 2], [1, 2], 2)).toThrow(/2 equations cannot fix 3/);
    expect(() => fitPolynomial([1, 1, 2, 2], [1, 2, 3, 4], 2)).toThrow(RankError);
  });

  test("the standard error of a mean is sd / sqrt(n)", () => {
    const y = [3.1, 2.7, 3.3, 2.9, 3.0];
    const fit = fitPolynomial([1, 2, 3, 4, 5], y, 0);
    expect(fit.standardErrors[0]).toBeCloseTo(standardDeviation(y) / Math.sqrt(5), 12);
  });
});
