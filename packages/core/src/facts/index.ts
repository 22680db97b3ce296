export type { AnimalFact, AnimalKind, BodyClass } from "./animal-fact.ts";
export { animals } from "./animals.ts";
export {
  type FactKind,
  findAnimal,
  findMaterial,
  findPlant,
  findStone,
  findSubstrate,
  findWood,
  materials,
  nearest,
} from "./find.ts";
export type { Carbonate, MaterialFact, Spread, StoneFact, SubstrateFact, WoodFact } from "./material-fact.ts";
export type { GrowthForm, PlantFact, PlantZone } from "./plant-fact.ts";
export { plants } from "./plants.ts";
export { sources } from "./sources.ts";
export { stones } from "./stones.ts";
export { substrates } from "./substrates.ts";
export { woods } from "./woods.ts";
