import type { Solid } from "./scene.ts";
import { DEEPEST, splitTriangles } from "./split-triangles.ts";

/** Triangles of all solids as rays meet them, from either side. */
export interface Triangles {
  readonly count: number;
  readonly lowest: number;
  readonly highest: number;
  /** Position of the solid that a triangle belongs to. */
  solidOf(triangle: number): number;
  /** Into the first three places of `out`, length 1, on the side of its corners' turn. */
  normal(triangle: number, out: Float64Array): void;
  /** Length along the ray to the nearest triangle, or `most`; that triangle stands in `met`. */
  cast(x: number, y: number, z: number, dx: number, dy: number, dz: number, most: number): number;
  /** Whether any triangle lies nearer than `most`. */
  blocked(x: number, y: number, z: number, dx: number, dy: number, dz: number, most: number): boolean;
  /** Triangle of the last `cast` that met one. */
  readonly met: Int32Array;
}

/** Rays that start on a triangle pass over what is nearer than this, m. Design value. */
const SKIP = 1e-9;

/** A tree of boxes (`splitTriangles`), each ray walking down those that it meets. */
export function trianglesOf(solids: readonly Solid[]): Triangles {
  let count = 0;
  for (const { mesh } of solids) count += mesh.triangles.length / 3;
  // First corner, both edges from it, for every triangle.
  const raw = new Float64Array(count * 9);
  const rawSolid = new Int32Array(count);
  const boxes = new Float64Array(count * 6);
  let at = 0;
  solids.forEach(({ mesh: { positions, triangles } }, s) => {
    for (let t = 0; t < triangles.length; t += 3) {
      for (let axis = 0; axis < 3; axis++) {
        const a = positions[3 * triangles[t]! + axis]!;
        const b = positions[3 * triangles[t + 1]! + axis]!;
        const c = positions[3 * triangles[t + 2]! + axis]!;
        raw[at * 9 + axis] = a;
        raw[at * 9 + 3 + axis] = b - a;
        raw[at * 9 + 6 + axis] = c - a;
        boxes[at * 6 + axis] = Math.min(a, b, c);
        boxes[at * 6 + 3 + axis] = Math.max(a, b, c);
      }
      rawSolid[at++] = s;
    }
  });
  const { order, bounds, first, held } = splitTriangles(boxes, count);
  const box = Float64Array.from(bounds);
  const firstOf = Int32Array.from(first);
  const heldBy = Int32Array.from(held);
  const data = new Float64Array(count * 9);
  const solid = new Int32Array(count);
  order.forEach((k, place) => {
    data.set(raw.subarray(k * 9, k * 9 + 9), place * 9);
    solid[place] = rawSolid[k]!;
  });
  const stack = new Int32Array(DEEPEST + 2);
  const met = new Int32Array(1);

  /** Length to a triangle, from either side; `best` where it lies no nearer. */
  function meet(k: number, x: number, y: number, z: number, dx: number, dy: number, dz: number, best: number): number {
    const o = k * 9;
    const e1x = data[o + 3]!;
    const e1y = data[o + 4]!;
    const e1z = data[o + 5]!;
    const e2x = data[o + 6]!;
    const e2y = data[o + 7]!;
    const e2z = data[o + 8]!;
    const px = dy * e2z - dz * e2y;
    const py = dz * e2x - dx * e2z;
    const pz = dx * e2y - dy * e2x;
    const twice = e1x * px + e1y * py + e1z * pz;
    if (twice === 0) return best;
    const over = 1 / twice;
    const sx = x - data[o]!;
    const sy = y - data[o + 1]!;
    const sz = z - data[o + 2]!;
    const u = (sx * px + sy * py + sz * pz) * over;
    // A hair wide, so that nothing slips between neighbours.
    if (u < -1e-9 || u > 1 + 1e-9) return best;
    const qx = sy * e1z - sz * e1y;
    const qy = sz * e1x - sx * e1z;
    const qz = sx * e1y - sy * e1x;
    const v = (dx * qx + dy * qy + dz * qz) * over;
    if (v < -1e-9 || u + v > 1 + 1e-9) return best;
    const t = (e2x * qx + e2y * qy + e2z * qz) * over;
    return t > SKIP && t < best ? t : best;
  }

  function search(
    x: number,
    y: number,
    z: number,
    dx: number,
    dy: number,
    dz: number,
    most: number,
    any: boolean,
  ): number {
    if (count === 0) return most;
    const ix = 1 / dx;
    const iy = 1 / dy;
    const iz = 1 / dz;
    // Which of a box's two faces the ray meets first.
    const nearX = dx < 0 ? 3 : 0;
    const nearY = dy < 0 ? 3 : 0;
    const nearZ = dz < 0 ? 3 : 0;
    let best = most;
    let depth = 0;
    stack[depth++] = 0;
    while (depth > 0) {
      const node = stack[--depth]!;
      const b = node * 6;
      // A ray that runs in a face makes 0 x Infinity here, which is no number and leaves the box open.
      const near = Math.max(
        (box[b + nearX]! - x) * ix,
        (box[b + 1 + nearY]! - y) * iy,
        (box[b + 2 + nearZ]! - z) * iz,
        0,
      );
      const far = Math.min(
        (box[b + 3 - nearX]! - x) * ix,
        (box[b + 4 - nearY]! - y) * iy,
        (box[b + 5 - nearZ]! - z) * iz,
        best,
      );
      if (near > far + 1e-9) continue;
      const held = heldBy[node]!;
      if (held === 0) {
        stack[depth++] = firstOf[node]!;
        stack[depth++] = node + 1;
        continue;
      }
      const start = firstOf[node]!;
      for (let k = start; k < start + held; k++) {
        const t = meet(k, x, y, z, dx, dy, dz, best);
        if (t < best) {
          best = t;
          met[0] = k;
          if (any) return t;
        }
      }
    }
    return best;
  }

  return {
    count,
    lowest: count > 0 ? box[2]! : Number.POSITIVE_INFINITY,
    highest: count > 0 ? box[5]! : Number.NEGATIVE_INFINITY,
    met,
    solidOf: (triangle) => solid[triangle]!,
    normal(triangle, out) {
      const o = triangle * 9;
      const nx = data[o + 4]! * data[o + 8]! - data[o + 5]! * data[o + 7]!;
      const ny = data[o + 5]! * data[o + 6]! - data[o + 3]! * data[o + 8]!;
      const nz = data[o + 3]! * data[o + 7]! - data[o + 4]! * data[o + 6]!;
      const size = 1 / Math.sqrt(nx * nx + ny * ny + nz * nz);
      out[0] = nx * size;
      out[1] = ny * size;
      out[2] = nz * size;
    },
    cast: (x, y, z, dx, dy, dz, most) => search(x, y, z, dx, dy, dz, most, false),
    blocked: (x, y, z, dx, dy, dz, most) => search(x, y, z, dx, dy, dz, most, true) < most,
  };
}
