import { isMap, type Json, type Path, type RawPlan } from "./plan.ts";

/**
 * The one way to alter a plan: reversible, and named for the undo list. In a list, `before` absent inserts at the
 * position and `after` absent takes the item out, so that a change and its inverse cancel.
 */
export interface Change {
  readonly name: string;
  readonly path: Path;
  /** The value before; undefined = absent. */
  readonly before: unknown;
  /** The value after; undefined = absent. */
  readonly after: unknown;
}

/** True when two plain values are equal; the order of keys does not count. */
export function sameJson(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (Array.isArray(a)) return Array.isArray(b) && a.length === b.length && a.every((v, i) => sameJson(v, b[i]));
  if (!isMap(a) || !isMap(b)) return false;
  const keys = Object.keys(a);
  return keys.length === Object.keys(b).length && keys.every((k) => Object.hasOwn(b, k) && sameJson(a[k], b[k]));
}

/** The value at a path, or undefined. */
export function valueAt(raw: Json | undefined, path: Path): Json | undefined {
  let value = raw;
  for (const segment of path) {
    if (typeof segment === "number") value = Array.isArray(value) ? (value as readonly Json[])[segment] : undefined;
    else value = isMap(value) && Object.hasOwn(value, segment) ? value[segment] : undefined;
  }
  return value;
}

function setIn(container: Json | undefined, path: Path, change: Change): Json | undefined {
  const [segment, ...rest] = path;
  if (segment === undefined) return change.after as Json | undefined;
  if (typeof segment === "number") {
    const list = Array.isArray(container) ? [...(container as readonly Json[])] : [];
    if (rest.length > 0) {
      const item = setIn(list[segment], rest, change);
      if (item !== undefined) list[Math.min(segment, list.length)] = item;
    } else if (change.after === undefined) {
      list.splice(segment, 1);
    } else {
      list.splice(segment, change.before === undefined ? 0 : 1, change.after as Json);
    }
    return list;
  }
  const map = new Map(isMap(container) ? Object.entries(container) : []);
  const value = setIn(map.get(segment), rest, change);
  if (value === undefined) map.delete(segment);
  else map.set(segment, value);
  return Object.fromEntries(map);
}

/** Applies changes in order; the raw plan given is not changed. */
export function applyToRaw(raw: RawPlan, changes: readonly Change[]): RawPlan {
  let result = raw;
  for (const change of changes) {
    const next = setIn(result, change.path, change);
    result = isMap(next) ? next : {};
  }
  return result;
}

/**
 * The change that makes `path` hold `after` (undefined takes it out). Where the parents do not exist yet, the change
 * stands at the first missing one, so that undoing it leaves no empty parent behind. In a list, the position after the
 * last appends.
 */
export function changeAt(raw: RawPlan, path: Path, after: unknown, name: string): Change {
  for (let depth = 1; depth < path.length; depth++) {
    const parent = valueAt(raw, path.slice(0, depth));
    const holds = typeof path[depth] === "number" ? Array.isArray(parent) : isMap(parent);
    if (holds) continue;
    const short = withinList(raw, path.slice(0, depth));
    if (after === undefined) return { name, path: short, before: parent, after: parent };
    let nested = after as Json;
    for (const segment of path.slice(depth).reverse()) {
      nested = typeof segment === "number" ? [nested] : Object.fromEntries([[segment, nested]]);
    }
    return { name, path: short, before: parent, after: nested };
  }
  return { name, path: withinList(raw, path), before: valueAt(raw, path), after };
}

/** The path with a list position beyond the end brought to the end. */
function withinList(raw: RawPlan, path: Path): Path {
  const last = path.at(-1);
  if (typeof last !== "number") return path;
  const list = valueAt(raw, path.slice(0, -1));
  return [...path.slice(0, -1), Math.min(last, Array.isArray(list) ? list.length : 0)];
}

/** The change that undoes one. */
export function invert(change: Change): Change {
  return { ...change, before: change.after, after: change.before };
}

/** Whether a change moves the later items of a list. */
function movesItems(change: Change): boolean {
  const last = change.path.at(-1);
  return typeof last === "number" && (change.before === undefined) !== (change.after === undefined);
}

/** The part of the plan that a change touches: the whole list where items move. */
function scope(change: Change): Path {
  return movesItems(change) ? change.path.slice(0, -1) : change.path;
}

function overlap(a: Path, b: Path): boolean {
  const n = Math.min(a.length, b.length);
  for (let i = 0; i < n; i++) if (a[i] !== b[i]) return false;
  return true;
}

function samePath(a: Path, b: Path): boolean {
  return a.length === b.length && overlap(a, b);
}

/** Two changes at one path as one, where that means the same; null where it does not. */
function joined(first: Change, second: Change): Change | null {
  if (!sameJson(first.after, second.before)) return null;
  return { name: second.name, path: first.path, before: first.before, after: second.after };
}

/** Puts a change at a position of the list, joined with an earlier one of the same place where nothing stands between. */
function place(kept: Change[], change: Change, position: number): void {
  if (sameJson(change.before, change.after)) return;
  for (let i = position - 1; i >= 0; i--) {
    const earlier = kept[i]!;
    if (samePath(earlier.path, change.path)) {
      const both = joined(earlier, change);
      if (!both) break;
      kept.splice(i, 1);
      // Taking an item out and putting one in made a replacement, which may now join what came before.
      place(kept, both, i);
      return;
    }
    if (overlap(scope(earlier), scope(change))) break;
  }
  kept.splice(position, 0, change);
}

/**
 * The same effect in fewer changes: changes of one place are joined (as a drag makes many), and those that come to
 * nothing fall away. A joined change bears the later name.
 */
export function squash(changes: readonly Change[]): Change[] {
  const kept: Change[] = [];
  for (const change of changes) place(kept, change, kept.length);
  return kept;
}
