/** Linear least squares by Householder reflections (`golub_van_loan_2013`, ch. 5). */

export interface LeastSquares {
  readonly x: Float64Array;
  /** (A^T A)^-1, columns x columns, row-major: times the residual variance it is the covariance of x. */
  readonly inverseNormal: Float64Array;
  /** Sum of squared residuals. */
  readonly sumOfSquares: number;
}

/** The columns of a least-squares problem do not determine its unknowns. */
export class RankError extends Error {
  readonly column: number;
  constructor(column: number) {
    super(`the data do not determine unknown ${column} apart from the others`);
    this.name = "RankError";
    this.column = column;
  }
}

/**
 * Minimises |A x - b|.
 * @param a rows x columns, row-major; not changed. Needs rows >= columns.
 * @throws RankError when a column is, to rounding, a combination of the ones before it.
 */
export function leastSquares(a: Float64Array, b: Float64Array, columns: number): LeastSquares {
  const rows = b.length;
  if (a.length !== rows * columns) throw new RangeError(`${a.length} numbers do not make ${rows} x ${columns}`);
  if (rows < columns) throw new RangeError(`${rows} equations cannot fix ${columns} unknowns`);
  const r = a.slice();
  const y = b.slice();
  for (let k = 0; k < columns; k++) {
    let whole = 0;
    let below = 0;
    for (let i = 0; i < rows; i++) {
      whole = Math.hypot(whole, r[i * columns + k]!);
      if (i >= k) below = Math.hypot(below, r[i * columns + k]!);
    }
    if (!(below > 1e-14 * whole)) throw new RankError(k);
    const pivot = r[k * columns + k]!;
    const alpha = pivot > 0 ? -below : below;
    // Reflector v = column - alpha e_k, stored in the column itself below the diagonal.
    const head = pivot - alpha;
    const scale = -1 / (alpha * head);
    r[k * columns + k] = head;
    for (let j = k + 1; j <= columns; j++) {
      let dot = 0;
      for (let i = k; i < rows; i++) dot += r[i * columns + k]! * (j < columns ? r[i * columns + j]! : y[i]!);
      dot *= scale;
      for (let i = k; i < rows; i++) {
        if (j < columns) r[i * columns + j] = r[i * columns + j]! - dot * r[i * columns + k]!;
        else y[i] = y[i]! - dot * r[i * columns + k]!;
      }
    }
    r[k * columns + k] = alpha;
  }
  const x = new Float64Array(columns);
  for (let i = columns - 1; i >= 0; i--) {
    let sum = y[i]!;
    for (let j = i + 1; j < columns; j++) sum -= r[i * columns + j]! * x[j]!;
    x[i] = sum / r[i * columns + i]!;
  }
  const inverse = new Float64Array(columns * columns);
  for (let c = 0; c < columns; c++) {
    for (let i = c; i >= 0; i--) {
      let sum = i === c ? 1 : 0;
      for (let j = i + 1; j <= c; j++) sum -= r[i * columns + j]! * inverse[j * columns + c]!;
      inverse[i * columns + c] = sum / r[i * columns + i]!;
    }
  }
  const inverseNormal = new Float64Array(columns * columns);
  for (let i = 0; i < columns; i++) {
    for (let j = 0; j < columns; j++) {
      let sum = 0;
      for (let k = Math.max(i, j); k < columns; k++) sum += inverse[i * columns + k]! * inverse[j * columns + k]!;
      inverseNormal[i * columns + j] = sum;
    }
  }
  let sumOfSquares = 0;
  for (let i = columns; i < rows; i++) sumOfSquares += y[i]! * y[i]!;
  return { x, inverseNormal, sumOfSquares };
}
