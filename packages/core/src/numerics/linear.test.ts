import fc from "fast-check";
import { expect, test } from "vitest";
import {
  leastSquares,
  luFactor,
  luSolve,
  luSolveColumns,
  RankError,
  SingularMatrixError,
  solveLinear,
  symmetricEigen,
} from "./index.ts";

const entries = (count: number) =>
  fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: count, maxLength: count });
const systems = fc
  .integer({ min: 1, max: 12 })
  .chain((n) => fc.record({ n: fc.constant(n), a: entries(n * n), b: entries(n), zeros: entries(n * n) }));

/** Largest residual of A x = b, relative to |A| |x| + |b| in maximum norms: the quantity partial pivoting keeps small. */
function residual(a: Float64Array, x: Float64Array, b: ArrayLike<number>): number {
  const n = x.length;
  let worst = 0;
  let rowSize = 0;
  let size = 0;
  for (let i = 0; i < n; i++) {
    let sum = -b[i]!;
    let row = 0;
    for (let j = 0; j < n; j++) {
      sum += a[i * n + j]! * x[j]!;
      row += Math.abs(a[i * n + j]!);
    }
    worst = Math.max(worst, Math.abs(sum));
    rowSize = Math.max(rowSize, row);
    size = Math.max(size, Math.abs(b[i]!));
  }
  return worst / Math.max(rowSize * x.reduce((m, v) => Math.max(m, Math.abs(v)), 0) + size, 1e-300);
}

test("LU solves any regular system backward-stably, dense or with many zeros", () => {
  fc.assert(
    fc.property(systems, ({ n, a, b, zeros }) => {
      const sparse = Float64Array.from(a, (v, k) => (zeros[k]! > 3 ? 0 : v));
      for (let i = 0; i < n; i++) sparse[i * n + i] = sparse[i * n + i]! + 25;
      const x = solveLinear(sparse, Float64Array.from(b));
      expect(residual(sparse, x, b)).toBeLessThan(1e-14);
    }),
  );
});

test("partial pivoting handles a zero in the first place and tiny pivots", () => {
  expect(Array.from(solveLinear(Float64Array.from([0, 1, 1, 0]), Float64Array.from([2, 3])))).toEqual([3, 2]);
  const x = solveLinear(Float64Array.from([1e-20, 1, 1, 1]), Float64Array.from([1, 2]));
  expect(x[0]).toBeCloseTo(1, 12);
  expect(x[1]).toBeCloseTo(1, 12);
});

test("a Hilbert matrix of order 5 has the known inverse", () => {
  // Inverse of H5: integer entries, first row 25 -300 1050 -1400 630 (Golub & Van Loan; standard result).
  const n = 5;
  const h = Float64Array.from({ length: 25 }, (_, k) => 1 / (Math.floor(k / n) + (k % n) + 1));
  const first = solveLinear(h, Float64Array.from([1, 0, 0, 0, 0]));
  [25, -300, 1050, -1400, 630].forEach((v, i) => {
    expect(Math.abs(first[i]! / v - 1)).toBeLessThan(1e-10);
  });
});

test("many right-hand sides at once give the same as one by one", () => {
  fc.assert(
    fc.property(systems, ({ n, a }) => {
      const factors = Float64Array.from(a);
      for (let i = 0; i < n; i++) factors[i * n + i] = factors[i * n + i]! - 30;
      const pivots = new Int32Array(n);
      expect(luFactor(factors, n, pivots)).toBe(true);
      const columns = 3;
      const right = Float64Array.from({ length: n * columns }, (_, k) => Math.cos(k));
      const all = right.slice();
      luSolveColumns(factors, n, pivots, all, columns);
      for (let c = 0; c < columns; c++) {
        const one = Float64Array.from({ length: n + 2 }, (_, i) => (i < 2 ? 7 : right[(i - 2) * columns + c]!));
        luSolve(factors, n, pivots, one, 2);
        expect([one[0], one[1]]).toEqual([7, 7]);
        for (let i = 0; i < n; i++) expect(Math.abs(one[i + 2]! - all[i * columns + c]!)).toBeLessThan(1e-12);
      }
    }),
  );
});

test("singular and non-finite matrices are reported", () => {
  expect(() => solveLinear(Float64Array.from([1, 2, 2, 4]), Float64Array.from([1, 1]))).toThrow(SingularMatrixError);
  expect(luFactor(Float64Array.from([Number.NaN, 1, 1, 1]), 2, new Int32Array(2))).toBe(false);
  expect(luFactor(Float64Array.from([Number.POSITIVE_INFINITY, 1, 1, 1]), 2, new Int32Array(2))).toBe(false);
  expect(() => solveLinear(new Float64Array(3), new Float64Array(2))).toThrow(/does not fit/);
});

test("least squares: the residual is orthogonal to the columns", () => {
  const cases = fc.record({ rows: fc.integer({ min: 4, max: 15 }), seed: entries(15 * 4 + 15) });
  fc.assert(
    fc.property(cases, ({ rows, seed }) => {
      const columns = 3;
      const a = Float64Array.from({ length: rows * columns }, (_, k) => seed[k]! + (k % (columns + 1) === 0 ? 20 : 0));
      const b = Float64Array.from({ length: rows }, (_, i) => seed[45 + i]!);
      const fit = leastSquares(a, b, columns);
      const rest = b.map((v, i) => v - [0, 1, 2].reduce((s, j) => s + a[i * columns + j]! * fit.x[j]!, 0));
      expect(rest.reduce((s, v) => s + v * v, 0)).toBeCloseTo(fit.sumOfSquares, 8);
      for (let j = 0; j < columns; j++) {
        expect(Math.abs(rest.reduce((s, v, i) => s + v * a[i * columns + j]!, 0))).toBeLessThan(1e-9);
      }
    }),
  );
});

test("least squares names the column that the others already explain", () => {
  const a = Float64Array.from([1, 2, 3, 1, 4, 5, 1, 6, 7, 1, 8, 9]);
  expect(() => leastSquares(a, new Float64Array(4), 3)).toThrow(RankError);
  expect(() => leastSquares(a, new Float64Array(4), 3)).toThrow(/unknown 2/);
  expect(() => leastSquares(new Float64Array(2), new Float64Array(1), 2)).toThrow(/1 equations/);
});

test("eigenvalues of a symmetric matrix: known ones, and A v = lambda v for any", () => {
  // Second-difference matrix of order 4: 2 - 2 cos(k pi / 5) (standard result).
  const second = Float64Array.from([2, -1, 0, 0, -1, 2, -1, 0, 0, -1, 2, -1, 0, 0, -1, 2]);
  const known = [1, 2, 3, 4].map((k) => 2 - 2 * Math.cos((k * Math.PI) / 5));
  symmetricEigen(second, 4)
    .values.sort()
    .forEach((v, i) => {
      expect(v).toBeCloseTo(known[i]!, 13);
    });
  fc.assert(
    fc.property(systems, ({ n, a }) => {
      const matrix = Float64Array.from(a, (v, k) => v + a[(k % n) * n + Math.floor(k / n)]!);
      const { values, vectors } = symmetricEigen(matrix, n);
      const size = Math.max(1, ...values.map(Math.abs));
      for (let k = 0; k < n; k++) {
        for (let i = 0; i < n; i++) {
          let sum = 0;
          for (let j = 0; j < n; j++) sum += matrix[i * n + j]! * vectors[j * n + k]!;
          expect(Math.abs(sum - values[k]! * vectors[i * n + k]!)).toBeLessThan(1e-12 * size);
        }
      }
    }),
  );
});
