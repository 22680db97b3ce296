import { createRandom } from "../../numerics/index.ts";

/** Seeded choices of one layout. */
export interface Dice {
  between(low: number, high: number): number;
  /** A whole number, low to high. */
  whole(low: number, high: number): number;
  chance(share: number): boolean;
  /** @throws RangeError for an empty list. */
  pick<T>(list: readonly T[]): T;
  /** One of a list, more often the higher its weight; undefined when no weight is above 0. */
  weighted<T>(list: readonly T[], weight: (item: T) => number): T | undefined;
}

/** @throws RangeError for a seed that is not a whole number. */
export function dice(seed: number, stream: number): Dice {
  if (!Number.isInteger(seed)) throw new RangeError(`seed ${seed}: a form needs a whole number`);
  const random = createRandom(seed, stream);
  const between = (low: number, high: number): number => low + (high - low) * random.uniform();
  const whole = (low: number, high: number): number => low + Math.floor((high - low + 1) * random.uniform());
  return {
    between,
    whole,
    chance: (share) => random.uniform() < share,
    pick: (list) => {
      if (list.length === 0) throw new RangeError("nothing to pick from: the list is empty");
      return list[whole(0, list.length - 1)]!;
    },
    weighted: (list, weight) => {
      const weights = list.map((item) => Math.max(0, weight(item)));
      let left = random.uniform() * weights.reduce((sum, w) => sum + w, 0);
      for (const [i, item] of list.entries()) {
        left -= weights[i]!;
        if (left < 0) return item;
      }
      return undefined;
    },
  };
}
