import * as animals from "../animals/index.ts";
import * as chemistry from "../chemistry/index.ts";
import * as gas from "../gas/index.ts";
import * as geometry from "../geometry/index.ts";
import * as heat from "../heat/index.ts";
import * as plants from "../plants/index.ts";
import type { AnyRelation, Source } from "../relation/index.ts";
import * as units from "../units/index.ts";

export { type AnyRelation, evaluate, type Input, type RawInputs, RelationError } from "../relation/index.ts";

/** A relation with its sources in full. */
export interface CatalogueEntry {
  readonly relation: AnyRelation;
  readonly sources: readonly Source[];
}

interface Room {
  readonly relations: readonly AnyRelation[];
  readonly sources: Readonly<Record<string, Source>>;
}

const rooms: readonly Room[] = [units, geometry, chemistry, gas, heat, plants, animals];

/** Every relation of every room, in the rooms' order. */
export const catalogue: readonly CatalogueEntry[] = rooms.flatMap(({ relations, sources }) =>
  relations.map((relation) => ({ relation, sources: relation.sources.flatMap((key) => sources[key] ?? []) })),
);

/** The relation of that name, or undefined. */
export const findRelation = (id: string): CatalogueEntry | undefined => catalogue.find((e) => e.relation.id === id);

/** Names that resemble one that is not there, best first. */
export function nearestRelations(id: string, count = 5): readonly string[] {
  const wanted = new Set(
    id
      .toLowerCase()
      .split(/[^a-z0-9]+/)
      .filter(Boolean),
  );
  const score = (name: string): number => {
    let points = 0;
    for (const word of name.split("-")) {
      for (const w of wanted) {
        if (word === w) points += 3;
        else if (w.length > 2 && (word.startsWith(w) || w.startsWith(word))) points += 2;
        else if (w.length > 3 && word.includes(w.slice(0, 4))) points += 1;
      }
    }
    return points;
  };
  return catalogue
    .map((e) => ({ id: e.relation.id, points: score(e.relation.id) }))
    .filter((e) => e.points > 0)
    .sort((a, b) => b.points - a.points || (a.id < b.id ? -1 : 1))
    .slice(0, count)
    .map((e) => e.id);
}
