import type { Pace } from "./pace.ts";

/**
 * The sides of triangles that lie on each other. A side is three times its triangle and 0, 1 or 2: from that corner to the
 * next. `mates` leads from each to another one of the same edge, in a ring; to itself where it is alone.
 */
export async function edgeMates(triangles: Uint32Array, pace: Pace): Promise<Int32Array> {
  const count = triangles.length;
  const mates = new Int32Array(count);
  let slots = 1024;
  while (slots < 1.5 * count) slots *= 2;
  const firsts = new Int32Array(slots).fill(-1);
  await pace.slices(count, 16384, (from, to) => {
    for (let side = from; side < to; side++) {
      const a = triangles[side]!;
      const b = triangles[nextSide(side)]!;
      const [low, high] = a < b ? [a, b] : [b, a];
      let hash = Math.imul(low, 0x9e3779b1) ^ Math.imul(high, 0x85ebca6b);
      hash = Math.imul(hash ^ (hash >>> 15), 0x2c1b3c6d);
      let slot = (hash ^ (hash >>> 13)) & (slots - 1);
      for (;;) {
        const first = firsts[slot]!;
        if (first < 0) {
          firsts[slot] = side;
          mates[side] = side;
          break;
        }
        const [c, d] = [triangles[first]!, triangles[nextSide(first)]!];
        if ((c === low && d === high) || (c === high && d === low)) {
          mates[side] = mates[first]!;
          mates[first] = side;
          break;
        }
        slot = (slot + 1) & (slots - 1);
      }
    }
  });
  return mates;
}

/** The side of the same triangle that starts where this one ends. */
export function nextSide(side: number): number {
  return side % 3 === 2 ? side - 2 : side + 1;
}

/** How many sides lie on an edge. */
export function sidesOn(mates: Int32Array, side: number): number {
  let count = 1;
  for (let mate = mates[side]!; mate !== side; mate = mates[mate]!) count += 1;
  return count;
}
