import type { ScapeLamp } from "@lentic/core/drawing";
import { cross, dot, lampAxes, lampThickness, minus, type Stand, type Vector } from "@lentic/core/model3d";
import type { Mesh } from "@lentic/core/solids";

/** A line of sight, m; the direction need not have length 1. */
export interface Ray {
  readonly from: Vector;
  readonly way: Vector;
}

/** Share of the ray at which it enters a box, or infinity. */
export function meetBox({ from, way }: Ray, min: Vector, max: Vector): number {
  let [near, far] = [0, Number.POSITIVE_INFINITY];
  for (let axis = 0; axis < 3; axis++) {
    const [a, b] = [(min[axis]! - from[axis]!) / way[axis]!, (max[axis]! - from[axis]!) / way[axis]!];
    if (Number.isNaN(a) || Number.isNaN(b)) continue;
    near = Math.max(near, Math.min(a, b));
    far = Math.min(far, Math.max(a, b));
  }
  return near <= far ? near : Number.POSITIVE_INFINITY;
}

/** Share of the ray at which it first meets a mesh, or infinity (Möller & Trumbore 1997, from memory). */
export function meetMesh({ from, way }: Ray, { positions, triangles }: Mesh): number {
  let nearest = Number.POSITIVE_INFINITY;
  const corner = (k: number): Vector => [positions[3 * k]!, positions[3 * k + 1]!, positions[3 * k + 2]!];
  for (let t = 0; t + 2 < triangles.length; t += 3) {
    const a = corner(triangles[t]!);
    const [ab, ac] = [minus(corner(triangles[t + 1]!), a), minus(corner(triangles[t + 2]!), a)];
    const p = cross(way, ac);
    const whole = dot(ab, p);
    if (Math.abs(whole) < 1e-18) continue;
    const s = minus(from, a);
    const u = dot(s, p) / whole;
    if (u < 0 || u > 1) continue;
    const q = cross(s, ab);
    const v = dot(way, q) / whole;
    if (v < 0 || u + v > 1) continue;
    const share = dot(ac, q) / whole;
    if (share > 0 && share < nearest) nearest = share;
  }
  return nearest;
}

/** Share of the ray at which it meets the nearest of upright egg-shaped plants, or infinity. */
export function meetPlants(ray: Ray, stands: readonly Stand[], width: number, height: number): number {
  let nearest = Number.POSITIVE_INFINITY;
  for (const { at, up, size, broad } of stands) {
    const [a, c] = [(width * size * broad) / 2, (Math.abs(height) * size) / 2];
    const k = (height * size) / 2;
    const middle: Vector = [at[0] + up[0] * k, at[1] + up[1] * k, at[2] + up[2] * k];
    const scaled = (v: Vector): Vector => [v[0] / a, v[1] / a, v[2] / Math.max(c, 0.002)];
    const [o, d] = [scaled(minus(ray.from, middle)), scaled(ray.way)];
    const [dd, od, oo] = [dot(d, d), dot(o, d), dot(o, o) - 1];
    const root = od * od - dd * oo;
    if (root < 0) continue;
    const share = (-od - Math.sqrt(root)) / dd;
    if (share > 0 && share < nearest) nearest = share;
  }
  return nearest;
}

export function meetLamp({ from, way }: Ray, lamp: ScapeLamp): number {
  const axes = lampAxes(lamp);
  const own = (v: Vector): Vector => [dot(v, axes[0]), dot(v, axes[1]), -dot(v, axes[2])];
  const half = [Math.max(lamp.length, 0.02) / 2, Math.max(lamp.width, 0.02) / 2] as const;
  const ray: Ray = { from: own(minus(from, [lamp.x, lamp.y, lamp.z])), way: own(way) };
  return meetBox(ray, [-half[0], -half[1], 0], [half[0], half[1], lampThickness[lamp.kind]]);
}

/** Where a ray meets the level at a height, m, or null where it runs away from it. */
export function meetLevel({ from, way }: Ray, z: number): readonly [x: number, y: number] | null {
  const share = (z - from[2]) / way[2];
  return share > 0 && Number.isFinite(share) ? [from[0] + way[0] * share, from[1] + way[1] * share] : null;
}
