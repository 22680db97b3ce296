import { meshArea, meshBounds } from "./measure.ts";
import type { Mesh } from "./mesh.ts";
import { Pace, type WorkOptions } from "./pace.ts";
import { tidy } from "./tidy.ts";

/**
 * A mesh of about so many triangles that looks like another; the same mesh where it has no more. Corners in one cell of a
 * grid become one, at the place that lies nearest to the planes of the triangles around, so that edges stay sharp. It is
 * for the eye: it may touch itself, and volumes are those of the whole mesh. Source: Lindstrom 2000, Out-of-core
 * simplification of large polygonal models, SIGGRAPH 259-262 (from memory).
 * @param triangles wanted, 50 to 2 million; the result has up to a fifth more or fewer, where the mesh allows.
 * @throws RangeError for a bad number or a mesh without triangles; the signal's reason when stopped.
 */
export async function thinMesh(mesh: Mesh, triangles: number, options: WorkOptions = {}): Promise<Mesh> {
  if (!(Number.isInteger(triangles) && triangles >= 50 && triangles <= 2_000_000))
    throw new RangeError(`${triangles} triangles: 50 to 2000000 are allowed`);
  const pace = new Pace(options);
  if (mesh.triangles.length <= 3 * triangles) return mesh;
  const { min, max } = meshBounds(mesh);
  const extent = Math.max(max[0] - min[0], max[1] - min[1], max[2] - min[2]);
  if (!(extent > 0)) throw new RangeError("a mesh whose corners lie in one place cannot be thinned");
  // A cell on the surface gives about one corner, and a corner two triangles.
  let cell = Math.max(extent / 1024, Math.sqrt((2 * meshArea(mesh)) / triangles));
  let best = await cluster(mesh, cell, pace);
  for (let tries = 0; tries < mostTries && offBy(best, triangles) > 0.2; tries++) {
    cell *= Math.min(3, Math.max(1 / 3, Math.sqrt(best.count / triangles)));
    const next = await cluster(mesh, cell, pace);
    if (offBy(next, triangles) < offBy(best, triangles)) best = next;
  }
  const positions = await representatives(mesh, best, pace);
  const clean = await tidy(best.triangles, pace);
  options.onProgress?.(1);
  return { positions, triangles: clean.triangles };
}

const mostTries = 8;

interface Clusters {
  /** Cluster of each corner. */
  readonly names: Int32Array;
  readonly clusters: number;
  /** Corners replaced by their clusters; triangles within one or two of them are gone. */
  readonly triangles: Uint32Array;
  readonly count: number;
  /** Size of a cell, m. */
  readonly cell: number;
}

function offBy(clusters: Clusters, triangles: number): number {
  return Math.abs(clusters.count / triangles - 1);
}

async function cluster({ positions, triangles }: Mesh, cell: number, pace: Pace): Promise<Clusters> {
  const corners = positions.length / 3;
  const names = new Int32Array(corners);
  const cells = new Map<number, number>();
  const { min, max } = meshBounds({ positions, triangles });
  const across = [0, 1].map((axis) => Math.floor((max[axis]! - min[axis]!) / cell) + 2) as [number, number];
  const place = (corner: number, axis: number): number =>
    Math.max(0, Math.floor((positions[3 * corner + axis]! - min[axis]!) / cell));
  await pace.slices(corners, 8192, (from, to) => {
    for (let corner = from; corner < to; corner++) {
      const key = place(corner, 0) + across[0] * (place(corner, 1) + across[1] * place(corner, 2));
      const known = cells.get(key);
      names[corner] = known ?? cells.size;
      if (known === undefined) cells.set(key, cells.size);
    }
  });
  const list = new Uint32Array(triangles.length);
  let count = 0;
  await pace.slices(triangles.length / 3, 16384, (from, to) => {
    for (let t = 3 * from; t < 3 * to; t += 3) {
      const [a, b, c] = [names[triangles[t]!]!, names[triangles[t + 1]!]!, names[triangles[t + 2]!]!];
      if (a === b || b === c || c === a) continue;
      list[3 * count] = a;
      list[3 * count + 1] = b;
      list[3 * count + 2] = c;
      count += 1;
    }
  });
  return { names, clusters: cells.size, triangles: list.slice(0, 3 * count), count, cell };
}

/** Pull of the mean of a cluster's corners against the planes around it: keeps flat places where they are. Design value. */
const pull = 0.02;

/** The place of each cluster: least squares of the distances to the planes of all triangles at its corners. */
async function representatives({ positions, triangles }: Mesh, clusters: Clusters, pace: Pace): Promise<Float64Array> {
  const { names, clusters: count, cell } = clusters;
  const means = new Float64Array(3 * count);
  const sizes = new Float64Array(count);
  await pace.slices(names.length, 65536, (from, to) => {
    for (let corner = from; corner < to; corner++) {
      const name = names[corner]!;
      sizes[name]! += 1;
      for (let axis = 0; axis < 3; axis++) means[3 * name + axis]! += positions[3 * corner + axis]!;
    }
  });
  for (let k = 0; k < 3 * count; k++) means[k]! /= sizes[Math.floor(k / 3)]!;
  // xx, xy, xz, yy, yz, zz of the normals, then their distance from the mean along x, y and z.
  const sums = new Float64Array(9 * count);
  await pace.slices(triangles.length / 3, 8192, (from, to) => {
    for (let t = 3 * from; t < 3 * to; t += 3) addPlane(positions, triangles, t, names, means, sums);
  });
  const places = means;
  await pace.slices(count, 8192, (from, to) => {
    for (let name = from; name < to; name++) settle(places, name, sums, cell);
  });
  return places;
}

function addPlane(
  positions: Float64Array,
  triangles: Uint32Array,
  t: number,
  names: Int32Array,
  means: Float64Array,
  sums: Float64Array,
): void {
  const [a, b, c] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
  const ux = positions[b]! - positions[a]!;
  const uy = positions[b + 1]! - positions[a + 1]!;
  const uz = positions[b + 2]! - positions[a + 2]!;
  const vx = positions[c]! - positions[a]!;
  const vy = positions[c + 1]! - positions[a + 1]!;
  const vz = positions[c + 2]! - positions[a + 2]!;
  const x = uy * vz - uz * vy;
  const y = uz * vx - ux * vz;
  const z = ux * vy - uy * vx;
  const twice = Math.sqrt(x * x + y * y + z * z);
  if (!(twice > 0)) return;
  for (let k = 0; k < 3; k++) {
    const name = names[triangles[t + k]!]!;
    const away =
      x * (positions[a]! - means[3 * name]!) +
      y * (positions[a + 1]! - means[3 * name + 1]!) +
      z * (positions[a + 2]! - means[3 * name + 2]!);
    const at = 9 * name;
    // Normals count by the area of their triangle.
    sums[at]! += (x * x) / twice;
    sums[at + 1]! += (x * y) / twice;
    sums[at + 2]! += (x * z) / twice;
    sums[at + 3]! += (y * y) / twice;
    sums[at + 4]! += (y * z) / twice;
    sums[at + 5]! += (z * z) / twice;
    sums[at + 6]! += (x * away) / twice;
    sums[at + 7]! += (y * away) / twice;
    sums[at + 8]! += (z * away) / twice;
  }
}

/** Moves the mean of a cluster to where its planes meet, no further than a cell. */
function settle(places: Float64Array, name: number, sums: Float64Array, cell: number): void {
  const at = 9 * name;
  const keep = pull * (sums[at]! + sums[at + 3]! + sums[at + 5]!);
  if (!(keep > 0)) return;
  const [xx, xy, xz] = [sums[at]! + keep, sums[at + 1]!, sums[at + 2]!];
  const [yy, yz, zz] = [sums[at + 3]! + keep, sums[at + 4]!, sums[at + 5]! + keep];
  const [p, q, r] = [sums[at + 6]!, sums[at + 7]!, sums[at + 8]!];
  const cx = yy * zz - yz * yz;
  const cy = xz * yz - xy * zz;
  const cz = xy * yz - xz * yy;
  const whole = xx * cx + xy * cy + xz * cz;
  const moves = [
    (p * cx + q * cy + r * cz) / whole,
    (p * cy + q * (xx * zz - xz * xz) + r * (xy * xz - xx * yz)) / whole,
    (p * cz + q * (xy * xz - xx * yz) + r * (xx * yy - xy * xy)) / whole,
  ];
  for (let axis = 0; axis < 3; axis++) places[3 * name + axis]! += Math.min(cell, Math.max(-cell, moves[axis]!));
}
