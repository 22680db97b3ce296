/**
 * Flat pieces of triangles under the cutting of volumes. A piece is a convex polygon with a height at each corner:
 * `count` corners of x, y, z in a row.
 */
export interface Piece {
  readonly corners: Float64Array;
  count: number;
}

/** Room for a triangle cut by the borders of a cell, its diagonals, the surface and the water: one corner more each. */
export function createPiece(): Piece {
  return { corners: new Float64Array(3 * 16), count: 0 };
}

export function setTriangle(piece: Piece, positions: Float64Array, a: number, b: number, c: number): void {
  const { corners } = piece;
  for (let axis = 0; axis < 3; axis++) {
    corners[axis] = positions[a + axis]!;
    corners[3 + axis] = positions[b + axis]!;
    corners[6 + axis] = positions[c + axis]!;
  }
  piece.count = 3;
}

/** Writes to `into` the part of a piece where p x + q y + r z <= s. */
export function keepBelow(piece: Piece, p: number, q: number, r: number, s: number, into: Piece): void {
  const { corners, count } = piece;
  let kept = 0;
  let before = 3 * (count - 1);
  let was = count > 0 ? p * corners[before]! + q * corners[before + 1]! + r * corners[before + 2]! - s : 0;
  for (let k = 0; k < count; k++) {
    const at = 3 * k;
    const is = p * corners[at]! + q * corners[at + 1]! + r * corners[at + 2]! - s;
    if (is > 0 !== was > 0) {
      const share = was / (was - is);
      for (let axis = 0; axis < 3; axis++) {
        into.corners[kept + axis] = corners[before + axis]! + (corners[at + axis]! - corners[before + axis]!) * share;
      }
      kept += 3;
    }
    if (is <= 0) {
      into.corners[kept] = corners[at]!;
      into.corners[kept + 1] = corners[at + 1]!;
      into.corners[kept + 2] = corners[at + 2]!;
      kept += 3;
    }
    before = at;
    was = is;
  }
  into.count = kept / 3;
}

/** Integral over the floor of z - (p x + q y + s) under a piece, m³; its sign also turns with that of the piece. */
export function prism(piece: Piece, p: number, q: number, s: number): number {
  const { corners, count } = piece;
  if (count < 3) return 0;
  const [x0, y0] = [corners[0]!, corners[1]!];
  const first = corners[2]! - p * x0 - q * y0 - s;
  let sum = 0;
  for (let k = 2; k < count; k++) {
    const a = 3 * (k - 1);
    const b = 3 * k;
    const [ax, ay, bx, by] = [corners[a]!, corners[a + 1]!, corners[b]!, corners[b + 1]!];
    const second = corners[a + 2]! - p * ax - q * ay - s;
    const third = corners[b + 2]! - p * bx - q * by - s;
    sum += ((ax - x0) * (by - y0) - (bx - x0) * (ay - y0)) * (first + second + third);
  }
  return sum / 6;
}
