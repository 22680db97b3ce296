import { type HeightField, type Rectangle, sameFieldWithin } from "../geometry/index.ts";
import type { Mesh } from "../solids/index.ts";

const before = new WeakMap<object, HeightField>();

/**
 * The ground under a thing, as one object for as long as it is the same there: ground shaped elsewhere does not have the
 * thing drawn anew.
 * @param bounds all of the floor that matters to the thing, m
 */
export function groundUnder(thing: object, bounds: Rectangle, ground: HeightField): HeightField {
  const last = before.get(thing);
  if (last && sameFieldWithin(last, ground, bounds)) return last;
  before.set(thing, ground);
  return ground;
}

const bounds = new WeakMap<Mesh, Rectangle>();

/** What a mesh covers of the floor, m, and a little round it. */
function around(mesh: Mesh): Rectangle {
  const known = bounds.get(mesh);
  if (known) return known;
  let [left, right, front, back] = [Infinity, -Infinity, Infinity, -Infinity];
  const { positions } = mesh;
  for (let k = 0; k + 2 < positions.length; k += 3) {
    left = Math.min(left, positions[k]!);
    right = Math.max(right, positions[k]!);
    front = Math.min(front, positions[k + 1]!);
    back = Math.max(back, positions[k + 1]!);
  }
  const rim = 0.005 + 0.02 * Math.max(0, right - left, back - front);
  const made = { left: left - rim, right: right + rim, front: front - rim, back: back + rim };
  bounds.set(mesh, made);
  return made;
}

/** The ground under a piece, in the same sense. A piece without a place has none of its own. */
export function groundUnderPiece(mesh: Mesh, ground: HeightField): HeightField {
  const own = around(mesh);
  return Number.isFinite(own.right - own.left + own.back - own.front) ? groundUnder(mesh, own, ground) : ground;
}
