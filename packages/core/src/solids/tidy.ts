import { edgeMates, nextSide, sidesOn } from "./edges.ts";
import type { Pace } from "./pace.ts";

/** Triangles without those that bound nothing. */
export interface Tidied {
  readonly triangles: Uint32Array;
  /** Left out because two of their corners are one. */
  readonly degenerate: number;
  /** Left out because others lie on them. */
  readonly doubled: number;
}

/**
 * Leaves out triangles with two corners in one place, and those with the same three corners as another: of each such heap
 * one stays where the surface needs it, none where two sheets lie on each other.
 */
export async function tidy(triangles: Uint32Array, pace: Pace): Promise<Tidied> {
  const clean = triangles.slice();
  let kept = 0;
  await pace.slices(triangles.length / 3, 16384, (from, to) => {
    for (let t = 3 * from; t < 3 * to; t += 3) {
      const [a, b, c] = [triangles[t]!, triangles[t + 1]!, triangles[t + 2]!];
      if (a === b || b === c || c === a) continue;
      clean[kept] = a;
      clean[kept + 1] = b;
      clean[kept + 2] = c;
      kept += 3;
    }
  });
  const whole = clean.subarray(0, kept);
  const mates = await edgeMates(whole, pace);
  const out = new Uint8Array(kept / 3);
  let doubled = 0;
  await pace.slices(kept / 3, 16384, (from, to) => {
    for (let t = from; t < to; t++) {
      if (out[t]) continue;
      const heap = sameCorners(whole, mates, t);
      if (heap.length < 2) continue;
      // Without the heap an edge has so many sides; an odd count is where one of the heap must close it.
      let needing = 0;
      for (let k = 0; k < 3; k++) needing += (sidesOn(mates, 3 * t + k) - heap.length) % 2;
      const stays = needing >= 2 ? 1 : 0;
      for (const other of heap.slice(stays)) out[other] = 1;
      doubled += heap.length - stays;
    }
  });
  const degenerate = (triangles.length - kept) / 3;
  if (doubled === 0) return { triangles: whole.slice(), degenerate, doubled };
  return { triangles: whole.filter((_, k) => !out[Math.floor(k / 3)]), degenerate, doubled };
}

/** Triangles with the corners of one, itself first. */
function sameCorners(triangles: Uint32Array, mates: Int32Array, t: number): readonly number[] {
  const side = 3 * t;
  if (mates[mates[side]!] === side) {
    // Two sides on this edge: the usual case, decided without a list.
    if (mates[side] === side || third(triangles, mates[side]!) !== triangles[side + 2]) return [t];
  }
  const heap = [t];
  for (let mate = mates[side]!; mate !== side; mate = mates[mate]!) {
    if (third(triangles, mate) === triangles[side + 2]) heap.push(Math.floor(mate / 3));
  }
  return heap;
}

/** The corner across from a side. */
function third(triangles: Uint32Array, side: number): number {
  return triangles[nextSide(nextSide(side))]!;
}
