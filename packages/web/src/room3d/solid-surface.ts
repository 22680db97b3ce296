import { cross, dot, minus, unit, type Vector } from "@lentic/core/model3d";
import type { Mesh } from "@lentic/core/solids";

/** A piece as it is inked. */
export interface SolidSurface {
  /** Corners, m; those of flat faces belong to one triangle only. */
  readonly positions: Float32Array;
  /** Normal by which a place is toned. */
  readonly normals: Float32Array;
  /** Way in which the outline is drawn outwards. */
  readonly outward: Float32Array;
  readonly triangles: Uint32Array;
  /** Ends of the lines where faces meet, m. */
  readonly creases: Float32Array;
}

/** Angle between triangles up to which they are one flat face, and against the face's first triangle. Design values. */
const joined = Math.cos((24 * Math.PI) / 180);
const joinedInAll = Math.cos((30 * Math.PI) / 180);

/** Angle from which an edge of a smooth piece is drawn. Design value. */
const sharp = Math.cos((62 * Math.PI) / 180);

/** Normals of triangles times twice their area. */
function crossProducts({ positions, triangles }: Mesh): Float64Array {
  const out = new Float64Array(triangles.length);
  const corner = (k: number): Vector => [positions[3 * k]!, positions[3 * k + 1]!, positions[3 * k + 2]!];
  for (let t = 0; t + 2 < triangles.length; t += 3) {
    const a = corner(triangles[t]!);
    out.set(cross(minus(corner(triangles[t + 1]!), a), minus(corner(triangles[t + 2]!), a)), t);
  }
  return out;
}

/** Smooth normals at the corners: those of the triangles around, by their area. */
function cornerNormals({ positions, triangles }: Mesh, products: Float64Array): Float64Array {
  const sums = new Float64Array(positions.length);
  for (let t = 0; t < triangles.length; t++) {
    const face = 3 * Math.floor(t / 3);
    for (let axis = 0; axis < 3; axis++) sums[3 * triangles[t]! + axis]! += products[face + axis]!;
  }
  for (let k = 0; k < sums.length; k += 3) sums.set(unit([sums[k]!, sums[k + 1]!, sums[k + 2]!]), k);
  return sums;
}

/** Edge k of triangle t runs from its corner k to the next; the edge on its other side, or -1 where it is open. */
export function edgeNeighbours({ triangles, positions }: Mesh): Int32Array {
  const corners = positions.length / 3;
  const open = new Map<number, number>();
  const across = new Int32Array(triangles.length).fill(-1);
  for (let e = 0; e < triangles.length; e++) {
    const from = triangles[e]!;
    const to = triangles[e % 3 === 2 ? e - 2 : e + 1]!;
    const other = open.get(to * corners + from);
    if (other === undefined) open.set(from * corners + to, e);
    else {
      across[e] = other;
      across[other] = e;
      open.delete(to * corners + from);
    }
  }
  return across;
}

/** Flat faces of neighbouring triangles, grown from the largest triangle on: the face of each triangle. */
function flatFaces(products: Float64Array, across: Int32Array): { face: Int32Array; normals: readonly Vector[] } {
  const count = products.length / 3;
  const way = Array.from(
    { length: count },
    (_, t): Vector => unit([products[3 * t]!, products[3 * t + 1]!, products[3 * t + 2]!]),
  );
  const size = way.map((_, t) => Math.hypot(products[3 * t]!, products[3 * t + 1]!, products[3 * t + 2]!));
  const order = size.map((_, t) => t).sort((a, b) => size[b]! - size[a]! || a - b);
  const face = new Int32Array(count).fill(-1);
  const normals: Vector[] = [];
  for (const seed of order) {
    if (face[seed] !== -1) continue;
    const name = normals.length;
    face[seed] = name;
    const queue = [seed];
    let sum: Vector = [0, 0, 0];
    for (let t = queue.pop(); t !== undefined; t = queue.pop()) {
      sum = [sum[0] + products[3 * t]!, sum[1] + products[3 * t + 1]!, sum[2] + products[3 * t + 2]!];
      for (let k = 0; k < 3; k++) {
        const edge = across[3 * t + k]!;
        if (edge < 0) continue;
        const next = Math.floor(edge / 3);
        if (face[next] !== -1 || dot(way[t]!, way[next]!) < joined || dot(way[seed]!, way[next]!) < joinedInAll)
          continue;
        face[next] = name;
        queue.push(next);
      }
    }
    normals.push(unit(sum));
  }
  return { face, normals };
}

/** A mesh made ready for the pen: with flat faces, each of one tone, or smooth. */
export function solidSurface(mesh: Mesh, smooth: boolean): SolidSurface {
  const { positions, triangles } = mesh;
  const products = crossProducts(mesh);
  const corners = cornerNormals(mesh, products);
  const across = edgeNeighbours(mesh);
  if (smooth) {
    const creases: number[] = [];
    eachEdge(triangles, across, (e, other, from, to) => {
      const [a, b] = [3 * Math.floor(e / 3), 3 * Math.floor(other / 3)];
      const [n, m] = [a, b].map((t): Vector => unit([products[t]!, products[t + 1]!, products[t + 2]!]));
      if (dot(n!, m!) < sharp) pushEdge(creases, positions, from, to);
    });
    return {
      positions: Float32Array.from(positions),
      normals: Float32Array.from(corners),
      outward: Float32Array.from(corners),
      triangles: Uint32Array.from(triangles),
      creases: Float32Array.from(creases),
    };
  }
  const { face, normals } = flatFaces(products, across);
  const flat = {
    positions: new Float32Array(3 * triangles.length),
    normals: new Float32Array(3 * triangles.length),
    outward: new Float32Array(3 * triangles.length),
  };
  for (let t = 0; t < triangles.length; t++) {
    const corner = 3 * triangles[t]!;
    flat.normals.set(normals[face[Math.floor(t / 3)]!]!, 3 * t);
    for (let axis = 0; axis < 3; axis++) {
      flat.positions[3 * t + axis] = positions[corner + axis]!;
      flat.outward[3 * t + axis] = corners[corner + axis]!;
    }
  }
  const creases: number[] = [];
  eachEdge(triangles, across, (e, other, from, to) => {
    if (face[Math.floor(e / 3)] !== face[Math.floor(other / 3)]) pushEdge(creases, positions, from, to);
  });
  return { ...flat, triangles: Uint32Array.from(triangles, (_, k) => k), creases: Float32Array.from(creases) };
}

function eachEdge(
  triangles: Uint32Array,
  across: Int32Array,
  visit: (edge: number, other: number, from: number, to: number) => void,
): void {
  for (let e = 0; e < triangles.length; e++) {
    const other = across[e]!;
    if (other > e) visit(e, other, triangles[e]!, triangles[e % 3 === 2 ? e - 2 : e + 1]!);
  }
}

function pushEdge(out: number[], positions: Float64Array, from: number, to: number): void {
  for (const k of [from, to]) out.push(positions[3 * k]!, positions[3 * k + 1]!, positions[3 * k + 2]!);
}
