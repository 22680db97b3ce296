import { type AnyRelation, joined } from "../../relation/index.ts";
import { carbonDioxideRelations } from "./carbon-dioxide.ts";
import { carbonateRelations } from "./carbonate.ts";
import { conductivityRelations } from "./conductivity.ts";
import { hardnessRelations } from "./hardness.ts";
import { nutrientRelations } from "./nutrients.ts";
import { processRelations } from "./processes.ts";
import { recipeRelations } from "./recipes.ts";

/** Relations of the chemistry room. */
export const relations: readonly AnyRelation[] = joined(
  carbonateRelations,
  hardnessRelations,
  carbonDioxideRelations,
  nutrientRelations,
  conductivityRelations,
  recipeRelations,
  processRelations,
);
