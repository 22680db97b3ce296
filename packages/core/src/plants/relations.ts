import { type AnyRelation, joined } from "../relation/index.ts";
import { algaeRelations } from "./algae.ts";
import { carbonRelations } from "./carbon.ts";
import { dosingRelations } from "./dosing.ts";
import { formRelations } from "./form.ts";
import { groundRelations } from "./ground.ts";
import { growthRelations } from "./growth.ts";
import { hardscapeRelations } from "./hardscape.ts";
import { lightRelations } from "./light.ts";
import { nutrientRelations } from "./nutrients.ts";
import { saltRelations } from "./salts.ts";
import { stoichiometryRelations } from "./stoichiometry.ts";
import { transitionRelations } from "./transition.ts";
import { warmthRelations } from "./warmth.ts";

/** Every relation of the plants room. */
export const relations: readonly AnyRelation[] = joined(
  growthRelations,
  lightRelations,
  warmthRelations,
  carbonRelations,
  nutrientRelations,
  stoichiometryRelations,
  formRelations,
  transitionRelations,
  algaeRelations,
  dosingRelations,
  saltRelations,
  groundRelations,
  hardscapeRelations,
);
