import { leastSquares } from "./least-squares.ts";

export interface PolynomialFit {
  /** Ascending powers of x. */
  readonly coefficients: Float64Array;
  readonly standardErrors: Float64Array;
  /** Standard deviation of the residuals, degrees of freedom points - degree - 1; NaN when none is left. */
  readonly residualSd: number;
  /** Value of the fit; better conditioned than a sum of the coefficients. */
  readonly at: (x: number) => number;
}

/** Value at x of a polynomial given by ascending coefficients (Horner). */
export function polynomialAt(coefficients: ArrayLike<number>, x: number): number {
  let value = 0;
  for (let i = coefficients.length - 1; i >= 0; i--) value = value * x + coefficients[i]!;
  return value;
}

/**
 * Polynomial of a given degree through points by (weighted) least squares, solved in x moved and scaled to -1..1.
 * @param weights 1/variance of each point, up to a common factor; default equal.
 * @throws RangeError for too few points, RankError when fewer distinct x than coefficients.
 */
export function fitPolynomial(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  degree: number,
  weights?: ArrayLike<number>,
): PolynomialFit {
  const rows = x.length;
  const columns = degree + 1;
  if (y.length !== rows) throw new RangeError(`${rows} x values against ${y.length} y values`);
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < rows; i++) {
    low = Math.min(low, x[i]!);
    high = Math.max(high, x[i]!);
  }
  const centre = 0.5 * (low + high);
  const half = high > low ? 0.5 * (high - low) : 1;
  const matrix = new Float64Array(rows * columns);
  const right = new Float64Array(rows);
  for (let i = 0; i < rows; i++) {
    const root = Math.sqrt(weights?.[i] ?? 1);
    const t = (x[i]! - centre) / half;
    let power = root;
    for (let j = 0; j < columns; j++) {
      matrix[i * columns + j] = power;
      power *= t;
    }
    right[i] = root * y[i]!;
  }
  const fit = leastSquares(matrix, right, columns);
  // ((x - centre)/half)^k = sum_j transform[j][k] x^j
  const transform = new Float64Array(columns * columns);
  transform[0] = 1;
  for (let k = 1; k < columns; k++) {
    for (let j = 0; j <= k; j++) {
      const raised = j > 0 ? transform[(j - 1) * columns + k - 1]! : 0;
      transform[j * columns + k] = (raised - centre * transform[j * columns + k - 1]!) / half;
    }
  }
  const freedom = rows - columns;
  const variance = freedom > 0 ? fit.sumOfSquares / freedom : Number.NaN;
  const coefficients = new Float64Array(columns);
  const standardErrors = new Float64Array(columns);
  for (let j = 0; j < columns; j++) {
    let value = 0;
    let spread = 0;
    for (let k = 0; k < columns; k++) {
      value += transform[j * columns + k]! * fit.x[k]!;
      for (let l = 0; l < columns; l++) {
        spread += transform[j * columns + k]! * transform[j * columns + l]! * fit.inverseNormal[k * columns + l]!;
      }
    }
    coefficients[j] = value;
    standardErrors[j] = Math.sqrt(variance * spread);
  }
  return {
    coefficients,
    standardErrors,
    residualSd: Math.sqrt(variance),
    at: (value) => polynomialAt(fit.x, (value - centre) / half),
  };
}
