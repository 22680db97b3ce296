import { nextSide } from "./edges.ts";
import type { Pace } from "./pace.ts";
import { cross, dot, minus, type Point3, unit } from "./vector.ts";

/** A rim without a surface in it: corners in the order in which the surface around runs along it. */
export type Rim = readonly number[];

/** Every rim of a surface whose triangles are turned alike; a rim that meets itself comes as several. */
export async function rimsOf(triangles: Uint32Array, mates: Int32Array, pace: Pace): Promise<readonly Rim[]> {
  const outgoing = new Map<number, number[]>();
  await pace.slices(triangles.length, 1 << 17, (first, end) => {
    for (let side = first; side < end; side++) {
      if (mates[side] !== side) continue;
      const from = triangles[side]!;
      const to = triangles[nextSide(side)]!;
      const list = outgoing.get(from);
      if (list) list.push(to);
      else outgoing.set(from, [to]);
    }
  });
  const rims: Rim[] = [];
  for (const start of outgoing.keys()) {
    while ((outgoing.get(start)?.length ?? 0) > 0) {
      const path: number[] = [];
      const seen = new Map<number, number>();
      let at: number | undefined = start;
      while (at !== undefined) {
        const before = seen.get(at);
        if (before !== undefined) {
          rims.push(path.splice(before));
          for (const corner of rims.at(-1)!) seen.delete(corner);
        }
        seen.set(at, path.length);
        path.push(at);
        at = outgoing.get(at)?.pop();
      }
    }
  }
  return rims;
}

/** Most corners of a rim that is closed flat; longer ones get a corner in their middle. Design value. */
const mostEars = 400;

/** Triangles that close a rim, and the corner they need beside those of the rim, which counts as `next`. */
export interface Lid {
  readonly triangles: readonly number[];
  readonly middle: Point3 | null;
}

/** Closes a rim: flat, ear by ear, where its shadow along its own direction allows that, else with a fan to its middle. */
export function lidOf(rim: Rim, placeOf: (corner: number) => Point3, next: number): Lid {
  // The lid runs along the rim the other way round.
  const ring = [...rim].reverse();
  const places = ring.map(placeOf);
  if (ring.length <= mostEars) {
    const ears = earsOf(ring, flattened(places));
    if (ears) return { triangles: ears, middle: null };
  }
  const middle = [0, 1, 2].map((axis) => places.reduce((sum, p) => sum + p[axis]!, 0) / places.length);
  const triangles = ring.flatMap((corner, k) => [corner, ring[(k + 1) % ring.length]!, next]);
  return { triangles, middle: middle as [number, number, number] };
}

/** Places of a ring in the plane square to its area. */
function flattened(places: readonly Point3[]): readonly (readonly [number, number])[] {
  let area: Point3 = [0, 0, 0];
  const first = places[0]!;
  for (let k = 2; k < places.length; k++) {
    const part = cross(minus(places[k - 1]!, first), minus(places[k]!, first));
    area = [area[0] + part[0], area[1] + part[1], area[2] + part[2]];
  }
  const normal = unit(area);
  const u = unit(cross(Math.abs(normal[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0], normal));
  const v = cross(normal, u);
  return places.map((p) => [dot(minus(p, first), u), dot(minus(p, first), v)]);
}

type Flat = readonly [number, number];

/** Cuts ears off a ring that runs counter-clockwise; null when none is left to cut, as where the ring crosses itself. */
function earsOf(ring: readonly number[], flat: readonly Flat[]): readonly number[] | null {
  const left = ring.map((_, k) => k);
  const triangles: number[] = [];
  while (left.length > 3) {
    let best = -1;
    let most = 0;
    for (let k = 0; k < left.length; k++) {
      const value = earValue(left, flat, k);
      if (value > most) {
        most = value;
        best = k;
      }
    }
    if (best < 0) return null;
    const count = left.length;
    triangles.push(ring[left[(best + count - 1) % count]!]!, ring[left[best]!]!, ring[left[(best + 1) % count]!]!);
    left.splice(best, 1);
  }
  if (!(turnAt(flat[left[0]!]!, flat[left[1]!]!, flat[left[2]!]!) > 0)) return null;
  triangles.push(...left.map((k) => ring[k]!));
  return triangles;
}

/** How well shaped an ear is: its area against its longest side's square; 0 when it is none. */
function earValue(left: readonly number[], flat: readonly Flat[], k: number): number {
  const count = left.length;
  const [a, b, c] = [left[(k + count - 1) % count]!, left[k]!, left[(k + 1) % count]!];
  const [pa, pb, pc] = [flat[a]!, flat[b]!, flat[c]!];
  const twice = turnAt(pa, pb, pc);
  if (!(twice > 0)) return 0;
  for (const other of left) {
    if (other === a || other === b || other === c) continue;
    const p = flat[other]!;
    if (turnAt(pa, pb, p) >= 0 && turnAt(pb, pc, p) >= 0 && turnAt(pc, pa, p) >= 0) return 0;
  }
  const longest = Math.max(gap(pa, pb), gap(pb, pc), gap(pc, pa));
  return twice / (longest * longest);
}

function turnAt(a: Flat, b: Flat, c: Flat): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]);
}

function gap(a: Flat, b: Flat): number {
  return Math.hypot(b[0] - a[0], b[1] - a[1]);
}
