import * as animals from "../animals/index.ts";
import * as chemistry from "../chemistry/index.ts";
import * as gas from "../gas/index.ts";
import * as geometry from "../geometry/index.ts";
import * as heat from "../heat/index.ts";
import * as light from "../light/index.ts";
import * as plants from "../plants/index.ts";
import type { AnyRelation, Source } from "../relation/index.ts";
import * as units from "../units/index.ts";

export {
  type AnyRelation,
  evaluate,
  type Input,
  type RawInputs,
  type RawOutputs,
  RelationError,
} from "../relation/index.ts";

export { usualValue } from "./usual.ts";

/** A relation with its sources in full. */
export interface CatalogueEntry {
  readonly relation: AnyRelation;
  readonly sources: readonly Source[];
}

interface Room {
  readonly relations: readonly AnyRelation[];
  readonly sources: Readonly<Record<string, Source>>;
}

const rooms: readonly Room[] = [units, geometry, chemistry, gas, heat, plants, animals, light];

/** Every relation of every room, in the rooms' order. */
export const catalogue: readonly CatalogueEntry[] = rooms.flatMap(({ relations, sources }) =>
  relations.map((relation) => ({ relation, sources: relation.sources.flatMap((key) => sources[key] ?? []) })),
);

/** The relation of that name, or undefined. */
export const findRelation = (id: string): CatalogueEntry | undefined => catalogue.find((e) => e.relation.id === id);

const wordsOf = (text: string): readonly string[] =>
  text
    .toLowerCase()
    .split(/[^a-z0-9]+/)
    .filter(Boolean);

/** Letters to add, drop, change or swap with a neighbour to turn one word into the other. */
function lettersApart(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)];
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const same = a[i - 1] === b[j - 1];
      let least = Math.min(rows[i - 1]![j - 1]! + (same ? 0 : 1), rows[i - 1]![j]! + 1, row[j - 1]! + 1);
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      if (swapped) least = Math.min(least, rows[i - 2]![j - 2]! + 1);
      row.push(least);
    }
    rows.push(row);
  }
  return rows[a.length]![b.length]!;
}

const longestWord = 40;

/** How much of a wanted word a word holds: 3 for the word itself, less for its beginning, a slip of the keys or a part. */
function likeness(word: string, wanted: string): number {
  if (word === wanted) return 3;
  if (wanted.length > 2 && (word.startsWith(wanted) || wanted.startsWith(word))) return 2;
  const slips = Math.floor(Math.min(word.length, wanted.length) / 4);
  if (slips > 0 && Math.abs(word.length - wanted.length) <= slips && lettersApart(word, wanted) <= slips) return 2.5;
  return wanted.length > 3 && word.includes(wanted.slice(0, 4)) ? 1 : 0;
}

/**
 * Names that resemble one that is not there, best first: by the words of the name, slips of the keys forgiven, then by
 * those of the title.
 */
export function nearestRelations(id: string, count = 5): readonly string[] {
  const wanted = [...new Set(wordsOf(id))].filter((w) => w.length <= longestWord).slice(0, 12);
  const held = (words: readonly string[]): number =>
    wanted.reduce((sum, w) => sum + words.reduce((best, word) => Math.max(best, likeness(word, w)), 0), 0);
  return catalogue
    .map(({ relation }) => {
      const name = wordsOf(relation.id);
      // a title speaks of more than its relation, and of two names that hold the same words the shorter is meant
      const points = held(name) + 0.15 * held(wordsOf(relation.title)) - 0.5 * Math.max(0, name.length - wanted.length);
      return { id: relation.id, points };
    })
    .filter((e) => e.points > 0.2)
    .sort((a, b) => b.points - a.points || (a.id < b.id ? -1 : 1))
    .slice(0, count)
    .map((e) => e.id);
}
