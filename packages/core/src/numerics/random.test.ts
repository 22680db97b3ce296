import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  createRandom,
  mean,
  normalQuantile,
  quantile,
  quantileSorted,
  SOBOL_DIMENSIONS,
  sobolPoints,
  standardDeviation,
} from "./index.ts";

describe("random stream", () => {
  test("xoshiro128** gives its published first outputs from the state 1, 2, 3, 4", () => {
    // First ten outputs of the authors' reference program, as several public libraries test them (read).
    const stream = createRandom([1, 2, 3, 4]);
    const first = Array.from({ length: 10 }, () => stream.next32());
    expect(first).toEqual([
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ]);
  });

  test("the same seed repeats, other seeds and streams differ, a saved state carries on", () => {
    const draw = (seed: number, stream?: number): number[] => {
      const r = createRandom(seed, stream);
      return Array.from({ length: 20 }, () => r.uniform());
    };
    expect(draw(5)).toEqual(draw(5));
    expect(draw(5)).toEqual(draw(5, 0));
    const firsts = new Set<number>();
    for (let seed = 0; seed < 40; seed++)
      for (let stream = 0; stream < 40; stream++) firsts.add(draw(seed, stream)[0]!);
    expect(firsts.size).toBe(1600);
    const r = createRandom(9);
    r.uniform();
    const twin = createRandom(r.words());
    expect(twin.uniform()).toBe(r.uniform());
    expect(() => createRandom([0, 0, 0, 0])).toThrow(/zero/);
    expect(() => createRandom(1.5)).toThrow(/integers/);
  });

  test("uniforms: range, mean, spread, flat histogram, no lag-one correlation", () => {
    const r = createRandom(2024);
    const n = 200_000;
    const u = Float64Array.from({ length: n }, () => r.uniform());
    expect(u.every((v) => v >= 0 && v < 1)).toBe(true);
    expect(Math.abs(mean(u) - 0.5)).toBeLessThan(4 / Math.sqrt(12 * n));
    const bins = new Float64Array(100);
    for (const v of u) bins[Math.floor(v * 100)]!++;
    const chi = bins.reduce((s, b) => s + (b - n / 100) ** 2 / (n / 100), 0);
    // Chi-square with 99 degrees of freedom: mean 99, standard deviation 14.
    expect(Math.abs(chi - 99)).toBeLessThan(4 * 14.1);
    let lag = 0;
    for (let i = 1; i < n; i++) lag += (u[i]! - 0.5) * (u[i - 1]! - 0.5) * 12;
    expect(Math.abs(lag / n)).toBeLessThan(4 / Math.sqrt(n));
  });

  test("streams of one seed are uncorrelated", () => {
    const a = createRandom(3, 1);
    const b = createRandom(3, 2);
    let sum = 0;
    const n = 50_000;
    for (let i = 0; i < n; i++) sum += (a.uniform() - 0.5) * (b.uniform() - 0.5) * 12;
    expect(Math.abs(sum / n)).toBeLessThan(4 / Math.sqrt(n));
  });

  test("normals: mean 0, sd 1, kurtosis 3, quantiles of the normal law", () => {
    const r = createRandom(77);
    const n = 200_000;
    const z = Float64Array.from({ length: n }, () => r.normal());
    expect(Math.abs(mean(z))).toBeLessThan(4 / Math.sqrt(n));
    expect(Math.abs(standardDeviation(z) - 1)).toBeLessThan(4 / Math.sqrt(2 * n));
    expect(Math.abs(mean(z.map((v) => v ** 4)) - 3)).toBeLessThan(4 * Math.sqrt(96 / n));
    z.sort();
    for (const p of [0.01, 0.1, 0.5, 0.9, 0.99]) {
      expect(Math.abs(quantileSorted(z, p) - normalQuantile(p))).toBeLessThan(0.03);
    }
  });
});

describe("normal quantile", () => {
  test("agrees with values of another program to 1e-14", () => {
    // SciPy 1.17.1: scipy.special.ndtri(p).
    const table: [number, number][] = [
      [1e-300, -37.0470962993612],
      [1e-20, -9.262340089798409],
      [1e-9, -5.9978070150076865],
      [0.001, -3.090232306167813],
      [0.025, -1.9599639845400545],
      [0.0749, -1.4402382675279635],
      [0.08, -1.4050715603096329],
      [0.3, -0.5244005127080409],
      [0.6, 0.2533471031357997],
      [0.9, 1.2815515655446004],
      [0.975, 1.959963984540054],
      [0.999999, 4.753424308817087],
    ];
    for (const [p, z] of table) expect(Math.abs(normalQuantile(p) / z - 1)).toBeLessThan(1e-14);
    expect(normalQuantile(0.5)).toBe(0);
    expect(normalQuantile(0)).toBe(Number.NEGATIVE_INFINITY);
    expect(normalQuantile(1)).toBe(Number.POSITIVE_INFINITY);
    expect(normalQuantile(1.01)).toBeNaN();
  });

  test("is odd about one half and rising", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 0.5, noNaN: true }), (p) => {
        expect(normalQuantile(1 - p)).toBeCloseTo(-normalQuantile(p), 8);
        expect(normalQuantile(p)).toBeLessThanOrEqual(normalQuantile(p * (1 + 1e-9)));
      }),
    );
  });
});

describe("Sobol points", () => {
  test("agree with another program's in every dimension class", () => {
    // SciPy 1.17.1: scipy.stats.qmc.Sobol(48, scramble=False).random(1024), rows 0-7, 777 and 1000, columns as named.
    const points = sobolPoints(1024, 48);
    const check = (row: number, columns: number[], want: number[]): void =>
      columns.forEach((c, i) => {
        expect(Math.abs(points[row * 48 + c]! - want[i]!), `row ${row} column ${c}`).toBeLessThan(1e-8);
      });
    const columns = [0, 1, 2, 5, 20, 47];
    const rows = [
      [0, 0, 0, 0, 0, 0],
      [0.5, 0.5, 0.5, 0.5, 0.5, 0.5],
      [0.75, 0.25, 0.25, 0.75, 0.25, 0.25],
      [0.25, 0.75, 0.75, 0.25, 0.75, 0.75],
      [0.375, 0.375, 0.625, 0.125, 0.125, 0.125],
      [0.875, 0.875, 0.125, 0.625, 0.625, 0.625],
      [0.625, 0.125, 0.875, 0.875, 0.375, 0.375],
      [0.125, 0.625, 0.375, 0.375, 0.875, 0.875],
    ];
    rows.forEach((want, row) => {
      check(row, columns, want);
    });
    check(1000, columns, [0.21972656, 0.09667969, 0.51855469, 0.90722656, 0.52246094, 0.91894531]);
    check(777, [3, 11, 30, 46], [0.27441406, 0.69628906, 0.54199219, 0.37597656]);
  });

  test("2^k points put exactly one in each of 2^k slices, in every dimension, shifted or not", () => {
    for (const shift of [undefined, createRandom(4)]) {
      const points = sobolPoints(256, SOBOL_DIMENSIONS, shift);
      for (let j = 0; j < SOBOL_DIMENSIONS; j++) {
        const slices = new Set<number>();
        for (let i = 0; i < 256; i++) slices.add(Math.floor(points[i * SOBOL_DIMENSIONS + j]! * 256));
        expect(slices.size).toBe(256);
      }
    }
  });

  test("averages converge much faster than with random points (20 seeded repeats)", () => {
    const d = 6;
    const n = 1024;
    const f = (x: (j: number) => number): number => {
      let product = 1;
      for (let j = 0; j < d; j++) product *= 1 + (x(j) - 0.5) / (j + 1);
      return product;
    };
    let even = 0;
    let scattered = 0;
    for (let repeat = 0; repeat < 20; repeat++) {
      const random = createRandom(1, repeat);
      const points = sobolPoints(n, d, random);
      let a = 0;
      let b = 0;
      for (let i = 0; i < n; i++) {
        a += f((j) => points[i * d + j]!) / n;
        b += f(() => random.uniform()) / n;
      }
      even += (a - 1) ** 2 / 20;
      scattered += (b - 1) ** 2 / 20;
    }
    expect(Math.sqrt(even)).toBeLessThan(0.05 * Math.sqrt(scattered));
    // Without a shift the first point is the corner: a bias of about d / (2 n), still below random scatter.
    const plain = sobolPoints(n, d);
    let mean = 0;
    for (let i = 0; i < n; i++) mean += f((j) => plain[i * d + j]!) / n;
    expect(Math.abs(mean - 1)).toBeLessThan(d / (2 * n));
  });

  test("all lie strictly inside the cube; senseless requests are refused", () => {
    expect(sobolPoints(64, 10).every((v) => v > 0 && v < 1)).toBe(true);
    expect(() => sobolPoints(4, SOBOL_DIMENSIONS + 1)).toThrow(/1 to 48 dimensions/);
    expect(() => sobolPoints(-1, 2)).toThrow(/no -1 points/);
  });
});

describe("statistics", () => {
  test("Michelson's first five speeds of light and a shifted copy (two-pass variance keeps its digits)", () => {
    const values = [850, 740, 900, 1070, 930];
    expect(mean(values)).toBe(898);
    // Sum of squared deviations 57880, by hand.
    expect(standardDeviation(values)).toBeCloseTo(Math.sqrt(57_880 / 4), 12);
    expect(standardDeviation(values.map((v) => v + 1e9))).toBeCloseTo(Math.sqrt(57_880 / 4), 6);
    expect(standardDeviation([1])).toBeNaN();
    expect(mean([])).toBeNaN();
  });

  test("quantiles, type 7", () => {
    // 1..4: 1.75, 2.5, 3.25 (hyndman_fan_1996, type 7: (n - 1) p + 1).
    expect([0.25, 0.5, 0.75].map((p) => quantile([4, 1, 3, 2], p))).toEqual([1.75, 2.5, 3.25]);
    expect(quantile([7], 0.3)).toBe(7);
    expect(quantile([1, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY], 0.75)).toBe(Number.POSITIVE_INFINITY);
    expect(quantile([], 0.5)).toBeNaN();
    expect(() => quantile([1, 2], 1.2)).toThrow(/between 0 and 1/);
  });

  test("a quantile lies within the data and rises with p", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { minLength: 1, maxLength: 30 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (values, p, q) => {
          const [low, high] = p < q ? [p, q] : [q, p];
          expect(quantile(values, low)).toBeLessThanOrEqual(quantile(values, high) + 1e-9);
          expect(quantile(values, low)).toBeGreaterThanOrEqual(Math.min(...values));
          expect(quantile(values, high)).toBeLessThanOrEqual(Math.max(...values));
        },
      ),
    );
  });
});
