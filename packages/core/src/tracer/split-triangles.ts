/** A tree of boxes over triangles, node by node: the first child of a branch follows it. */
export interface TriangleTree {
  /** Triangles in the order of the leaves. */
  readonly order: Int32Array;
  /** Least x, y, z and greatest x, y, z of every node. */
  readonly bounds: readonly number[];
  /** Of a leaf its first triangle in `order`; of a branch its second child. */
  readonly first: readonly number[];
  /** Triangles of a leaf; 0 for a branch. */
  readonly held: readonly number[];
}

/** Slices that a node is tried to be cut at; triangles that are left together; cost of a box against a triangle. Design values. */
const SLICES = 12;
const FEW = 2;
const BOX_COST = 0.6;
/** Deepest tree, which the stack of a search must hold. */
export const DEEPEST = 60;

/**
 * Splits boxes where a ray that meets a node is likely to have the least to do: areas of both parts times what they hold
 * (surface area heuristic, MacDonald & Booth 1990), cut between slices of the middles (Wald 2007).
 * @param boxes least and greatest x, y, z of each triangle
 */
export function splitTriangles(boxes: Float64Array, count: number): TriangleTree {
  const order = Int32Array.from({ length: count }, (_, k) => k);
  const bounds: number[] = [];
  const first: number[] = [];
  const held: number[] = [];

  function around(from: number, to: number): number[] {
    const box = empty();
    for (let k = from; k < to; k++) grow(box, boxes, order[k]! * 6);
    return box;
  }
  const middle = (k: number, axis: number): number => boxes[k * 6 + axis]! + boxes[k * 6 + 3 + axis]!;

  /** The best cut of a node: its axis and the middle that parts it; null to leave it whole. */
  function cut(from: number, to: number, whole: readonly number[]): { axis: number; at: number } | null {
    let best = area(whole) * (to - from - BOX_COST);
    let found: { axis: number; at: number } | null = null;
    for (let axis = 0; axis < 3; axis++) {
      let low = Number.POSITIVE_INFINITY;
      let high = Number.NEGATIVE_INFINITY;
      for (let k = from; k < to; k++) {
        low = Math.min(low, middle(order[k]!, axis));
        high = Math.max(high, middle(order[k]!, axis));
      }
      if (!(high > low)) continue;
      for (let slice = 1; slice < SLICES; slice++) {
        const at = low + ((high - low) * slice) / SLICES;
        const parts = [empty(), empty()] as const;
        const counts = [0, 0] as [number, number];
        for (let k = from; k < to; k++) {
          const side = middle(order[k]!, axis) < at ? 0 : 1;
          grow(parts[side], boxes, order[k]! * 6);
          counts[side]++;
        }
        if (counts[0] === 0 || counts[1] === 0) continue;
        const cost = area(parts[0]) * counts[0] + area(parts[1]) * counts[1];
        if (cost >= best) continue;
        best = cost;
        found = { axis, at };
      }
    }
    return found;
  }

  function build(from: number, to: number, depth: number): void {
    const node = first.length;
    const box = around(from, to);
    bounds.push(...box);
    first.push(from);
    held.push(to - from);
    if (to - from <= FEW || depth >= DEEPEST) return;
    const best = cut(from, to, box);
    if (!best) return;
    const left: number[] = [];
    const right: number[] = [];
    for (let k = from; k < to; k++) (middle(order[k]!, best.axis) < best.at ? left : right).push(order[k]!);
    order.set(left, from);
    order.set(right, from + left.length);
    held[node] = 0;
    build(from, from + left.length, depth + 1);
    first[node] = first.length;
    build(from + left.length, to, depth + 1);
  }
  if (count > 0) build(0, count, 0);
  return { order, bounds, first, held };
}

const empty = (): number[] => [1, 1, 1, -1, -1, -1].map((sign) => sign * Number.POSITIVE_INFINITY);

function grow(box: number[], boxes: Float64Array, at: number): void {
  for (let axis = 0; axis < 3; axis++) {
    if (boxes[at + axis]! < box[axis]!) box[axis] = boxes[at + axis]!;
    if (boxes[at + 3 + axis]! > box[axis + 3]!) box[axis + 3] = boxes[at + 3 + axis]!;
  }
}

function area(box: readonly number[]): number {
  const [a, b, c] = [box[3]! - box[0]!, box[4]! - box[1]!, box[5]! - box[2]!];
  return a * b + b * c + c * a;
}
