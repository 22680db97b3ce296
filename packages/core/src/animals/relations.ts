import { type AnyRelation, joined } from "../relation/index.ts";
import { ammoniaRelations } from "./ammonia.ts";
import { breathingRelations } from "./breathing.ts";
import { feedingRelations } from "./feeding.ts";
import { massRelations } from "./mass.ts";
import { nightRelations } from "./night.ts";
import { poisonRelations } from "./poisons.ts";
import { spaceRelations } from "./space.ts";

/** Every relation of the animals room. */
export const relations: readonly AnyRelation[] = joined(
  massRelations,
  breathingRelations,
  feedingRelations,
  nightRelations,
  ammoniaRelations,
  poisonRelations,
  spaceRelations,
);
