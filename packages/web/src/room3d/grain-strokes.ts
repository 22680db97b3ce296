import { add, cross, dot, minus, times, unit, type Vector } from "@lentic/core/model3d";
import { createRandom } from "@lentic/core/numerics";
import type { Mesh } from "@lentic/core/solids";
import { edgeNeighbours } from "./solid-surface.ts";

/** Strokes on a square metre of wood, and fewest and most on a piece. Design values. */
const perArea = 7000;
const [fewest, mostStrokes] = [40, 900];

/** Most triangles that a stroke runs over. Design value. */
const mostSteps = 24;

/** Height of the strokes over the surface, m, so that they are seen. */
const lift = 0.00015;

/** Rounds in which the way of the grain is evened out over neighbours. Design value. */
const rounds = 3;

/**
 * Strokes along the grain of a piece of wood: the ends of their lines, m. Along a branch the normals of the bark lie
 * square to it, so that the grain runs where they do not point: the weakest axis of the normals around.
 */
export function grainStrokes(mesh: Mesh, grain: Vector, seed: number): Float32Array {
  const { positions, triangles } = mesh;
  const count = triangles.length / 3;
  const across = edgeNeighbours(mesh);
  const axes = grainAxes(mesh, grain);
  const corner = (k: number): Vector => [positions[3 * k]!, positions[3 * k + 1]!, positions[3 * k + 2]!];
  const ends: number[] = [];
  let area = 0;
  for (let t = 0; t < count; t++) {
    const [a, b, c] = [0, 1, 2].map((k) => corner(triangles[3 * t + k]!));
    area += Math.hypot(...cross(minus(b!, a!), minus(c!, a!))) / 2;
    ends.push(area);
  }
  if (!(area > 0)) return new Float32Array(0);
  const random = createRandom(seed | 0, 31);
  const lines: number[] = [];
  const strokes = Math.min(mostStrokes, Math.max(fewest, Math.round(area * perArea)));
  for (let s = 0; s < strokes; s++) {
    const place = random.uniform() * area;
    let t = ends.findIndex((end) => end >= place);
    const root = Math.sqrt(random.uniform());
    const share = random.uniform();
    let weights: Vector = [1 - root, root * (1 - share), root * share];
    let way: Vector = times(axisIn(t), random.uniform() < 0.5 ? -1 : 1);
    let left = Math.sqrt(area) * (0.03 + 0.09 * random.uniform());
    for (let step = 0; step < mostSteps && left > 0 && t >= 0; step++) {
      const [ka, kb, kc] = [triangles[3 * t]!, triangles[3 * t + 1]!, triangles[3 * t + 2]!];
      const [a, b, c] = [corner(ka), corner(kb), corner(kc)];
      const [ab, ac] = [minus(b, a), minus(c, a)];
      const normal = unit(cross(ab, ac));
      const axis = axisIn(t);
      const along = times(axis, dot(axis, way) < 0 ? -1 : 1);
      const run = unit(minus(along, times(normal, dot(along, normal))));
      // rates at which the three weights change along the stroke
      const [p, q, r, u, v] = [dot(ab, ab), dot(ab, ac), dot(ac, ac), dot(run, ab), dot(run, ac)];
      const whole = p * r - q * q;
      if (!(whole > 1e-20)) break;
      const rb = (r * u - q * v) / whole;
      const rc = (p * v - q * u) / whole;
      const rates: Vector = [-rb - rc, rb, rc];
      let length = left;
      let exit = -1;
      for (let k = 0; k < 3; k++) {
        if (rates[k]! < -1e-9 && -weights[k]! / rates[k]! < length) {
          length = -weights[k]! / rates[k]!;
          exit = k;
        }
      }
      const at = (w: Vector): Vector =>
        add(add(add(times(a, w[0]), times(b, w[1])), times(c, w[2])), times(normal, lift));
      const next: Vector = [
        weights[0] + rates[0] * length,
        weights[1] + rates[1] * length,
        weights[2] + rates[2] * length,
      ];
      lines.push(...at(weights), ...at(next));
      left -= Math.max(length, 1e-6);
      way = run;
      if (exit < 0) break;
      // the edge across from the corner that the stroke leaves behind
      const edge = across[3 * t + ((exit + 1) % 3)]!;
      if (edge < 0) break;
      t = Math.floor(edge / 3);
      const [first, second] = [next[(exit + 1) % 3]!, next[(exit + 2) % 3]!];
      const over: [number, number, number] = [0, 0, 0];
      over[edge % 3] = second;
      over[((edge % 3) + 1) % 3] = first;
      weights = over;
    }
  }
  return Float32Array.from(lines);

  function axisIn(t: number): Vector {
    let sum: Vector = [0, 0, 0];
    for (let k = 0; k < 3; k++) {
      const at = 3 * triangles[3 * t + k]!;
      const axis: Vector = [axes[at]!, axes[at + 1]!, axes[at + 2]!];
      sum = add(sum, times(axis, dot(axis, sum) < 0 ? -1 : 1));
    }
    return unit(sum);
  }
}

/** The way of the grain at each corner. */
function grainAxes({ positions, triangles }: Mesh, grain: Vector): Float64Array {
  const corners = positions.length / 3;
  const corner = (k: number): Vector => [positions[3 * k]!, positions[3 * k + 1]!, positions[3 * k + 2]!];
  // xx, xy, xz, yy, yz, zz of the normals around each corner, by area
  let tensors = new Float64Array(6 * corners);
  for (let t = 0; t + 2 < triangles.length; t += 3) {
    const a = corner(triangles[t]!);
    const product = cross(minus(corner(triangles[t + 1]!), a), minus(corner(triangles[t + 2]!), a));
    const size = Math.hypot(...product);
    if (!(size > 0)) continue;
    const [x, y, z] = times(product, 1 / size);
    const parts = [x * x, x * y, x * z, y * y, y * z, z * z];
    for (let k = 0; k < 3; k++) for (let i = 0; i < 6; i++) tensors[6 * triangles[t + k]! + i]! += parts[i]! * size;
  }
  for (let round = 0; round < rounds; round++) {
    const next = Float64Array.from(tensors);
    for (let t = 0; t + 2 < triangles.length; t += 3) {
      for (let i = 0; i < 6; i++) {
        const sum =
          tensors[6 * triangles[t]! + i]! + tensors[6 * triangles[t + 1]! + i]! + tensors[6 * triangles[t + 2]! + i]!;
        for (let k = 0; k < 3; k++) next[6 * triangles[t + k]! + i]! += sum / 6;
      }
    }
    tensors = next;
  }
  const axes = new Float64Array(3 * corners);
  for (let k = 0; k < corners; k++) axes.set(weakestAxis(tensors.subarray(6 * k, 6 * k + 6), grain), 3 * k);
  return axes;
}

/** Axis along which a sum of squares is least, by repeated multiplication with what it lacks to its trace. */
function weakestAxis([xx, xy, xz, yy, yz, zz]: ArrayLike<number> & Iterable<number>, start: Vector): Vector {
  const whole = xx! + yy! + zz!;
  if (!(whole > 0)) return start;
  let axis = unit(add(start, [0.013, 0.017, 0.011]));
  for (let k = 0; k < 14; k++) {
    const [x, y, z] = axis;
    axis = unit([
      (whole - xx!) * x - xy! * y - xz! * z,
      (whole - yy!) * y - xy! * x - yz! * z,
      (whole - zz!) * z - xz! * x - yz! * y,
    ]);
  }
  return axis;
}
