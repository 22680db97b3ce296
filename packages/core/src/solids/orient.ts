import { nextSide } from "./edges.ts";
import { MeshFault } from "./fault.ts";
import type { Pace } from "./pace.ts";
import type { Point3 } from "./vector.ts";

/** Triangles turned alike within each part of a surface. */
export interface Oriented {
  readonly triangles: Uint32Array;
  /** Part of each triangle, 0 and up; parts meet at most where more than two triangles share an edge. */
  readonly parts: Int32Array;
  readonly count: number;
  /** Triangles that had to be turned. */
  readonly turned: number;
}

/**
 * Goes from triangle to triangle over edges that two share and turns each like the one before; the fewer of a part are
 * turned.
 * @throws MeshFault for a surface with one side only.
 */
export async function orient(
  positions: Float64Array,
  triangles: Uint32Array,
  mates: Int32Array,
  pace: Pace,
): Promise<Oriented> {
  const count = triangles.length / 3;
  const parts = new Int32Array(count).fill(-1);
  const flips = new Uint8Array(count);
  const queue = new Int32Array(count);
  let found = 0;
  let seeds = 0;
  let head = 0;
  let tail = 0;

  function enter(t: number, part: number, flip: number): void {
    parts[t] = part;
    flips[t] = flip;
    queue[tail] = t;
    tail += 1;
  }

  function spread(t: number): void {
    for (let side = 3 * t; side < 3 * t + 3; side++) {
      const mate = mates[side]!;
      if (mate === side || mates[mate] !== side) continue;
      const other = Math.floor(mate / 3);
      // Two triangles turned alike run through their edge in opposite directions.
      const flip = flips[t]! ^ (triangles[side] === triangles[mate] ? 1 : 0);
      if (parts[other]! < 0) enter(other, parts[t]!, flip);
      else if (flips[other] !== flip)
        throw new MeshFault(
          placeOf(middle(positions, triangles, side)),
          "the surface has one side only, like a twisted band, so it has no inside",
          "a surface with an inside and an outside",
        );
    }
  }

  await pace.slices(count, 8192, (from, to) => {
    for (let step = from; step < to; step++) {
      if (head === tail) {
        while (parts[seeds]! >= 0) seeds += 1;
        enter(seeds, found, 0);
        found += 1;
      }
      spread(queue[head]!);
      head += 1;
    }
  });
  const sizes = new Int32Array(found);
  const flipped = new Int32Array(found);
  await pace.slices(count, 65536, (from, to) => {
    for (let t = from; t < to; t++) {
      sizes[parts[t]!]! += 1;
      flipped[parts[t]!]! += flips[t]!;
    }
  });
  const list = triangles.slice();
  let turned = 0;
  await pace.slices(count, 65536, (from, to) => {
    for (let t = from; t < to; t++) {
      const part = parts[t]!;
      if (flips[t] === (2 * flipped[part]! > sizes[part]! ? 1 : 0)) continue;
      turned += 1;
      list[3 * t + 1] = triangles[3 * t + 2]!;
      list[3 * t + 2] = triangles[3 * t + 1]!;
    }
  });
  return { triangles: list, parts, count: found, turned };
}

export function middle(positions: Float64Array, triangles: Uint32Array, side: number): Point3 {
  const [a, b] = [3 * triangles[side]!, 3 * triangles[nextSide(side)]!];
  return [0, 1, 2].map((axis) => (positions[a + axis]! + positions[b + axis]!) / 2) as [number, number, number];
}

/** A place in the mesh's own units, as messages name it. */
export function placeOf(place: Point3): string {
  const largest = Math.max(...place.map(Math.abs), 1e-9);
  const step = 10 ** (Math.floor(Math.log10(largest)) - 3);
  // Dividing by a whole power keeps the digits short where multiplying by a fraction does not.
  return `at ${place.map((value) => Number((Math.round(value / step) * step).toPrecision(4)) + 0).join(", ")}`;
}
