import type { AnimalFact } from "./animal-fact.ts";
import { animals } from "./animals.ts";
import type { MaterialFact, StoneFact, SubstrateFact, WoodFact } from "./material-fact.ts";
import type { PlantFact } from "./plant-fact.ts";
import { plants } from "./plants.ts";
import { stones } from "./stones.ts";
import { substrates } from "./substrates.ts";
import { woods } from "./woods.ts";
import { lettersApart, plainWords } from "./words.ts";

export type FactKind = "plant" | "animal" | "substrate" | "stone" | "wood";

/** Every substrate, stone and wood. */
export const materials: readonly MaterialFact[] = [...substrates, ...stones, ...woods];

function index<F>(facts: readonly F[], names: (fact: F) => readonly string[]): ReadonlyMap<string, F> {
  const map = new Map<string, F>();
  // Current names go in before synonyms and common names, so that an old name never hides a present one.
  const depth = Math.max(...facts.map((f) => names(f).length));
  for (let i = 0; i < depth; i++) {
    for (const fact of facts) {
      const key = plainWords(names(fact)[i] ?? "");
      if (key && !map.has(key)) map.set(key, fact);
    }
  }
  return map;
}

const plantNames = (p: PlantFact) => [p.name, ...p.synonyms];
const animalNames = (a: AnimalFact) => [a.name, a.common, ...a.synonyms];

const plantIndex = index(plants, plantNames);
const animalIndex = index(animals, animalNames);
const substrateIndex = index(substrates, (m) => [m.id]);
const stoneIndex = index(stones, (m) => [m.id]);
const woodIndex = index(woods, (m) => [m.id]);

/** The plant of a botanical name (present or old) or id; case, dashes and spacing do not matter. */
export function findPlant(nameOrId: string): PlantFact | undefined {
  return plantIndex.get(plainWords(nameOrId));
}

/** The animal of a zoological name (present or old), common name or id; case, dashes and spacing do not matter. */
export function findAnimal(nameOrId: string): AnimalFact | undefined {
  return animalIndex.get(plainWords(nameOrId));
}

/** The substrate of that name; case, dashes and spacing do not matter. */
export function findSubstrate(nameOrId: string): SubstrateFact | undefined {
  return substrateIndex.get(plainWords(nameOrId));
}

/** The stone of that name; case, dashes and spacing do not matter. */
export function findStone(nameOrId: string): StoneFact | undefined {
  return stoneIndex.get(plainWords(nameOrId));
}

/** The wood of that name; case, dashes and spacing do not matter. */
export function findWood(nameOrId: string): WoodFact | undefined {
  return woodIndex.get(plainWords(nameOrId));
}

/** The substrate, stone or wood of that name. */
export function findMaterial(nameOrId: string): MaterialFact | undefined {
  return findSubstrate(nameOrId) ?? findStone(nameOrId) ?? findWood(nameOrId);
}

function named(kind: FactKind): readonly string[] {
  if (kind === "plant") return plants.flatMap((p) => plantNames(p));
  if (kind === "animal") return animals.flatMap((a) => animalNames(a));
  return materials.filter((m) => m.kind === kind).map((m) => m.id);
}

const everyKind: readonly FactKind[] = ["plant", "animal", "substrate", "stone", "wood"];

/**
 * Known names most like a mistyped one, best first, at most `count`; empty when nothing comes near.
 * A name counts as near when the whole, its beginning or one of its words differs by about a third of its letters.
 */
export function nearest(name: string, kinds: readonly FactKind[] = everyKind, count = 3): readonly string[] {
  const typed = plainWords(name);
  if (typed === "") return [];
  const limit = Math.max(2, Math.ceil(typed.length / 3));
  const scored: { readonly text: string; readonly score: number }[] = [];
  for (const text of kinds.flatMap(named)) {
    const known = plainWords(text);
    const words = known.split(" ");
    const whole = lettersApart(typed, known);
    const part = Math.min(
      lettersApart(typed, known.slice(0, typed.length)),
      ...words.map((w) => lettersApart(typed, w)),
    );
    const score = Math.min(whole, part + 0.5);
    if (score <= limit) scored.push({ text, score });
  }
  scored.sort((a, b) => a.score - b.score);
  return scored.slice(0, count).map((s) => s.text);
}
