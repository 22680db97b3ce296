import type { Mesh } from "./mesh.ts";
import type { Pace } from "./pace.ts";

/** Triangles of a leaf. Design value. */
const leafSize = 4;

/** Upright boxes within boxes over the triangles of a mesh, so that those near each other are found fast. */
export interface BoxTree {
  /** Triangles in the order of the leaves. */
  readonly order: Uint32Array;
  /** Low x, y, z and high x, y, z of each triangle in that order. */
  readonly boxes: Float64Array;
  readonly leaves: number;
  /** Tells each pair of triangles once whose boxes meet, by their places in `order`; for leaves `from` up to `to`. */
  readonly pairs: (from: number, to: number, visit: (a: number, b: number) => void) => void;
}

/**
 * Sorts triangles along a curve that fills space (Morton 1966, from memory) and puts boxes over runs of them, two by two:
 * a tree without pointers.
 */
export async function boxTree({ positions, triangles }: Mesh, pace: Pace): Promise<BoxTree> {
  const count = triangles.length / 3;
  const unsorted = new Float64Array(6 * count);
  const low = [Infinity, Infinity, Infinity];
  let extent = 0;
  await pace.slices(count, 16384, (from, to) => {
    for (let t = from; t < to; t++) {
      for (let axis = 0; axis < 3; axis++) {
        const a = positions[3 * triangles[3 * t]! + axis]!;
        const b = positions[3 * triangles[3 * t + 1]! + axis]!;
        const c = positions[3 * triangles[3 * t + 2]! + axis]!;
        unsorted[6 * t + axis] = Math.min(a, b, c);
        unsorted[6 * t + 3 + axis] = Math.max(a, b, c);
        low[axis] = Math.min(low[axis]!, a, b, c);
      }
    }
  });
  await pace.slices(count, 65536, (from, to) => {
    for (let k = 6 * from; k < 6 * to; k += 6) {
      for (let axis = 0; axis < 3; axis++) extent = Math.max(extent, unsorted[k + 3 + axis]! - low[axis]!);
    }
  });
  const keys = new Uint32Array(count);
  const scale = 511.999 / (extent || 1);
  await pace.slices(count, 16384, (from, to) => {
    for (let t = from; t < to; t++) {
      let key = 0;
      for (let axis = 0; axis < 3; axis++) {
        const twice = unsorted[6 * t + axis]! + unsorted[6 * t + 3 + axis]! - 2 * low[axis]!;
        key |= spread(Math.floor(twice * scale)) << axis;
      }
      keys[t] = key;
    }
  });
  const order = await sorted(keys, pace);
  const boxes = new Float64Array(6 * count);
  const leaves = Math.max(1, Math.ceil(count / leafSize));
  let width = 1;
  while (width < leaves) width *= 2;
  const nodes = new Float64Array(12 * width);
  const last = new Int32Array(2 * width);
  for (let k = 0; k < nodes.length; k += 6) nodes.fill(Infinity, k, k + 3).fill(-Infinity, k + 3, k + 6);
  await pace.turn();
  await pace.slices(count, 16384, (from, to) => {
    for (let k = from; k < to; k++) {
      const node = 6 * (width + Math.floor(k / leafSize));
      for (let n = 0; n < 6; n++) {
        const value = unsorted[6 * order[k]! + n]!;
        boxes[6 * k + n] = value;
        nodes[node + n] = n < 3 ? Math.min(nodes[node + n]!, value) : Math.max(nodes[node + n]!, value);
      }
    }
  });
  for (let leaf = 0; leaf < width; leaf++) last[width + leaf] = leaf;
  for (let node = width - 1; node >= 1; node--) {
    last[node] = last[2 * node + 1]!;
    for (let n = 0; n < 6; n++) {
      const [a, b] = [nodes[12 * node + n]!, nodes[12 * node + 6 + n]!];
      nodes[6 * node + n] = n < 3 ? Math.min(a, b) : Math.max(a, b);
    }
  }
  await pace.turn();
  const stack = new Int32Array(64);

  function pairs(from: number, to: number, visit: (a: number, b: number) => void): void {
    for (let leaf = from; leaf < to; leaf++) {
      const own = 6 * (width + leaf);
      let top = 0;
      stack[top++] = 1;
      while (top > 0) {
        const node = stack[--top]!;
        if (last[node]! < leaf || !boxesMeet(nodes, own, nodes, 6 * node)) continue;
        if (node < width) {
          stack[top++] = 2 * node;
          stack[top++] = 2 * node + 1;
          continue;
        }
        const other = node - width;
        const end = Math.min(count, leafSize * (leaf + 1));
        const otherEnd = Math.min(count, leafSize * (other + 1));
        for (let a = leafSize * leaf; a < end; a++) {
          for (let b = other === leaf ? a + 1 : leafSize * other; b < otherEnd; b++) {
            if (boxesMeet(boxes, 6 * a, boxes, 6 * b)) visit(a, b);
          }
        }
      }
    }
  }
  return { order, boxes, leaves, pairs };
}

/** Whether two boxes, of low x, y, z and high x, y, z each, have a place in common. */
export function boxesMeet(one: Float64Array, a: number, other: Float64Array, b: number): boolean {
  return (
    one[a]! <= other[b + 3]! &&
    one[a + 3]! >= other[b]! &&
    one[a + 1]! <= other[b + 4]! &&
    one[a + 4]! >= other[b + 1]! &&
    one[a + 2]! <= other[b + 5]! &&
    one[a + 5]! >= other[b + 2]!
  );
}

/** Ten bits with two empty ones after each. */
function spread(value: number): number {
  let v = value & 1023;
  v = (v | (v << 16)) & 0x030000ff;
  v = (v | (v << 8)) & 0x0300f00f;
  v = (v | (v << 4)) & 0x030c30c3;
  return (v | (v << 2)) & 0x09249249;
}

/** Positions in the order of their keys of 30 bits, 10 bits at a time. */
async function sorted(keys: Uint32Array, pace: Pace): Promise<Uint32Array> {
  const count = keys.length;
  let order = new Uint32Array(count);
  for (let k = 0; k < count; k++) order[k] = k;
  let spare = new Uint32Array(count);
  for (let shift = 0; shift < 30; shift += 10) {
    const starts = new Uint32Array(1025);
    await pace.slices(count, 1 << 17, (from, to) => {
      for (let k = from; k < to; k++) starts[((keys[k]! >>> shift) & 1023) + 1]! += 1;
    });
    for (let k = 1; k < 1025; k++) starts[k]! += starts[k - 1]!;
    await pace.slices(count, 65536, (from, to) => {
      for (let k = from; k < to; k++) {
        const digit = (keys[order[k]!]! >>> shift) & 1023;
        spare[starts[digit]!] = order[k]!;
        starts[digit]! += 1;
      }
    });
    [order, spare] = [spare, order];
  }
  return order;
}
