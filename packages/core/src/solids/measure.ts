import type { Mesh } from "./mesh.ts";
import type { Point3 } from "./vector.ts";

/** Smallest upright box around a mesh, m. */
export interface Bounds {
  readonly min: Point3;
  readonly max: Point3;
}

/** @throws RangeError for a mesh without triangles. */
export function meshBounds({ positions, triangles }: Mesh): Bounds {
  if (triangles.length === 0) throw new RangeError("a mesh without triangles has no bounds");
  const min: [number, number, number] = [Infinity, Infinity, Infinity];
  const max: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (let t = 0; t < triangles.length; t++) {
    const at = 3 * triangles[t]!;
    for (let axis = 0; axis < 3; axis++) {
      const value = positions[at + axis]!;
      if (value < min[axis]!) min[axis] = value;
      if (value > max[axis]!) max[axis] = value;
    }
  }
  return { min, max };
}

/** Surface, m². */
export function meshArea({ positions, triangles }: Mesh): number {
  let area = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    const ux = positions[b]! - positions[a]!;
    const uy = positions[b + 1]! - positions[a + 1]!;
    const uz = positions[b + 2]! - positions[a + 2]!;
    const vx = positions[c]! - positions[a]!;
    const vy = positions[c + 1]! - positions[a + 1]!;
    const vz = positions[c + 2]! - positions[a + 2]!;
    area += Math.hypot(uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx) / 2;
  }
  return area;
}

/** Volume of a closed mesh, m³ (divergence theorem); below 0 when it is turned inside out. */
export function meshVolume(mesh: Mesh): number {
  return moments(mesh).volume;
}

/** Centre of the volume of a closed mesh, m. @throws RangeError for a mesh that encloses nothing. */
export function meshCentroid(mesh: Mesh): Point3 {
  const { volume, centre } = moments(mesh);
  if (!(Math.abs(volume) > 0)) throw new RangeError("a mesh that encloses no volume has no centre");
  return centre;
}

/** Tetrahedra from one corner of the mesh to every triangle; taken about that corner, for the digits of far meshes. */
function moments({ positions, triangles }: Mesh): { readonly volume: number; readonly centre: Point3 } {
  if (triangles.length === 0) return { volume: 0, centre: [0, 0, 0] };
  const from = 3 * triangles[0]!;
  const [ox, oy, oz] = [positions[from]!, positions[from + 1]!, positions[from + 2]!];
  let six = 0;
  let x = 0;
  let y = 0;
  let z = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    const ax = positions[a]! - ox;
    const ay = positions[a + 1]! - oy;
    const az = positions[a + 2]! - oz;
    const bx = positions[b]! - ox;
    const by = positions[b + 1]! - oy;
    const bz = positions[b + 2]! - oz;
    const cx = positions[c]! - ox;
    const cy = positions[c + 1]! - oy;
    const cz = positions[c + 2]! - oz;
    const part = ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
    six += part;
    x += part * (ax + bx + cx);
    y += part * (ay + by + cy);
    z += part * (az + bz + cz);
  }
  return { volume: six / 6, centre: [ox + x / (4 * six), oy + y / (4 * six), oz + z / (4 * six)] };
}
