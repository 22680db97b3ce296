/** Dense LU decomposition with partial pivoting, row-major, in place, without allocation (`golub_van_loan_2013`, ch. 3). */

/**
 * Replaces the n x n row-major matrix `a` by its factors: unit lower triangle below the diagonal, upper triangle on and
 * above it; `pivots[k]` is the row that was exchanged with row k. Zero multipliers are skipped, so a matrix whose rows
 * touch few columns costs less than n^3/3.
 * @returns false when a pivot is zero or not finite; the contents are then of no use.
 */
export function luFactor(a: Float64Array, n: number, pivots: Int32Array): boolean {
  for (let k = 0; k < n; k++) {
    let p = k;
    let largest = Math.abs(a[k * n + k]!);
    for (let i = k + 1; i < n; i++) {
      const size = Math.abs(a[i * n + k]!);
      if (size > largest) {
        largest = size;
        p = i;
      }
    }
    pivots[k] = p;
    if (!(largest > 0 && largest < Number.POSITIVE_INFINITY)) return false;
    const rowK = k * n;
    if (p !== k) {
      const rowP = p * n;
      for (let j = 0; j < n; j++) {
        const swap = a[rowK + j]!;
        a[rowK + j] = a[rowP + j]!;
        a[rowP + j] = swap;
      }
    }
    const inverse = 1 / a[rowK + k]!;
    for (let i = k + 1; i < n; i++) {
      const rowI = i * n;
      const entry = a[rowI + k]!;
      if (entry === 0) continue;
      const multiplier = entry * inverse;
      a[rowI + k] = multiplier;
      for (let j = k + 1; j < n; j++) a[rowI + j] = a[rowI + j]! - multiplier * a[rowK + j]!;
    }
  }
  return true;
}

/** Solves A x = b for factors from `luFactor`; b occupies `b[offset .. offset + n)` and is replaced by x. */
export function luSolve(a: Float64Array, n: number, pivots: Int32Array, b: Float64Array, offset = 0): void {
  for (let k = 0; k < n; k++) {
    const p = pivots[k]!;
    if (p !== k) {
      const swap = b[offset + k]!;
      b[offset + k] = b[offset + p]!;
      b[offset + p] = swap;
    }
  }
  for (let i = 1; i < n; i++) {
    const row = i * n;
    let sum = b[offset + i]!;
    for (let j = 0; j < i; j++) sum -= a[row + j]! * b[offset + j]!;
    b[offset + i] = sum;
  }
  for (let i = n - 1; i >= 0; i--) {
    const row = i * n;
    let sum = b[offset + i]!;
    for (let j = i + 1; j < n; j++) sum -= a[row + j]! * b[offset + j]!;
    b[offset + i] = sum / a[row + i]!;
  }
}

/** Solves A X = B for `columns` right-hand sides at once; B is n x columns, row-major, and is replaced by X. */
export function luSolveColumns(a: Float64Array, n: number, pivots: Int32Array, b: Float64Array, columns: number): void {
  for (let k = 0; k < n; k++) {
    const p = pivots[k]!;
    if (p === k) continue;
    for (let c = 0; c < columns; c++) {
      const swap = b[k * columns + c]!;
      b[k * columns + c] = b[p * columns + c]!;
      b[p * columns + c] = swap;
    }
  }
  for (let i = 1; i < n; i++) {
    for (let j = 0; j < i; j++) {
      const factor = a[i * n + j]!;
      if (factor === 0) continue;
      for (let c = 0; c < columns; c++) b[i * columns + c] = b[i * columns + c]! - factor * b[j * columns + c]!;
    }
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let j = i + 1; j < n; j++) {
      const factor = a[i * n + j]!;
      if (factor === 0) continue;
      for (let c = 0; c < columns; c++) b[i * columns + c] = b[i * columns + c]! - factor * b[j * columns + c]!;
    }
    const inverse = 1 / a[i * n + i]!;
    for (let c = 0; c < columns; c++) b[i * columns + c] = b[i * columns + c]! * inverse;
  }
}

/** Sets the n x n row-major matrix to the identity. */
export function setIdentity(a: Float64Array, n: number): void {
  a.fill(0, 0, n * n);
  for (let i = 0; i < n; i++) a[i * n + i] = 1;
}

/** Raised by `solveLinear` for a matrix without an inverse. */
export class SingularMatrixError extends Error {
  constructor(n: number) {
    super(`the ${n} x ${n} matrix has no inverse (a pivot is zero or not finite)`);
    this.name = "SingularMatrixError";
  }
}

/**
 * Solution of A x = b; neither argument is changed.
 * @param a n x n, row-major.
 * @throws SingularMatrixError
 */
export function solveLinear(a: Float64Array, b: Float64Array): Float64Array {
  const n = b.length;
  if (a.length !== n * n) throw new RangeError(`matrix of ${a.length} numbers does not fit a vector of ${n}`);
  const factors = a.slice();
  const pivots = new Int32Array(n);
  if (!luFactor(factors, n, pivots)) throw new SingularMatrixError(n);
  const x = b.slice();
  luSolve(factors, n, pivots, x);
  return x;
}

/**
 * Eigenvalues and eigenvectors (columns) of a symmetric n x n matrix by Jacobi rotations (`golub_van_loan_2013`, ch. 8);
 * small eigenvalues are good to rounding of the largest.
 */
export function symmetricEigen(matrix: Float64Array, n: number): { values: Float64Array; vectors: Float64Array } {
  const a = matrix.slice();
  const vectors = new Float64Array(n * n);
  setIdentity(vectors, n);
  for (let sweep = 0; sweep < 60; sweep++) {
    let off = 0;
    let diagonal = 0;
    for (let i = 0; i < n; i++) {
      diagonal += a[i * n + i]! ** 2;
      for (let j = 0; j < i; j++) off += a[i * n + j]! ** 2;
    }
    if (!(off > 1e-34 * diagonal)) break;
    for (let p = 0; p < n; p++) {
      for (let q = p + 1; q < n; q++) {
        const apq = a[p * n + q]!;
        if (apq === 0) continue;
        const theta = (a[q * n + q]! - a[p * n + p]!) / (2 * apq);
        const t = (theta >= 0 ? 1 : -1) / (Math.abs(theta) + Math.hypot(theta, 1));
        const c = 1 / Math.hypot(t, 1);
        const s = t * c;
        for (let k = 0; k < n; k++) {
          const kp = a[k * n + p]!;
          const kq = a[k * n + q]!;
          a[k * n + p] = c * kp - s * kq;
          a[k * n + q] = s * kp + c * kq;
        }
        for (let k = 0; k < n; k++) {
          const pk = a[p * n + k]!;
          const qk = a[q * n + k]!;
          a[p * n + k] = c * pk - s * qk;
          a[q * n + k] = s * pk + c * qk;
          const vp = vectors[k * n + p]!;
          const vq = vectors[k * n + q]!;
          vectors[k * n + p] = c * vp - s * vq;
          vectors[k * n + q] = s * vp + c * vq;
        }
      }
    }
  }
  return { values: Float64Array.from({ length: n }, (_, i) => a[i * n + i]!), vectors };
}
