/** A small seeded generator (mulberry32, Tommy Ettinger 2017, public domain; from memory): the same seed draws the same tank. */
export type Random = () => number;

export function randomFrom(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** One stream for each thing drawn, so that adding a plant leaves the stones as they are. FNV-1a hash, 32 bit. */
export function streamOf(seed: number, ...words: readonly (string | number)[]): Random {
  let hash = 0x811c9dc5 ^ seed;
  for (const character of words.join("/")) {
    hash ^= character.codePointAt(0) ?? 0;
    hash = Math.imul(hash, 0x01000193);
  }
  return randomFrom(hash ^ (hash >>> 13));
}

/** A number between `from` and `to`. */
export function between(random: Random, from: number, to: number): number {
  return from + (to - from) * random();
}
