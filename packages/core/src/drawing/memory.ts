/** Keeps what was drawn for a thing, so that only what changed is drawn anew. */

interface Entry<V> {
  readonly name: string;
  readonly others: readonly unknown[];
  readonly value: V;
}

/** Drawings of one thing that are kept at once: that of each page on which it stands. Design value. */
const MOST = 4;

export class Memory<K extends object, V> {
  readonly #kept = new WeakMap<K, Entry<V>[]>();

  /** The value made for this thing under this name while the others were the same objects; else made and kept. */
  of(thing: K, name: string, others: readonly unknown[], make: () => V): V {
    const entries = this.#kept.get(thing) ?? [];
    const found = entries.find((e) => e.name === name && e.others.every((o, i) => Object.is(o, others[i])));
    if (found) return found.value;
    const value = make();
    this.#kept.set(thing, [{ name, others, value }, ...entries.filter((e) => e.name !== name)].slice(0, MOST));
    return value;
  }
}
