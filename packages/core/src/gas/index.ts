import { type AnyRelation, joined } from "../relation/index.ts";
import { aerationRelations } from "./aeration.ts";
import { airRelations } from "./air.ts";
import { bubbleRelations } from "./bubble.ts";
import { carbonicRelations } from "./carbonic.ts";
import { co2StateRelations } from "./co2-state.ts";
import { cylinderRelations } from "./cylinder.ts";
import { dayCycleRelations } from "./day-cycle.ts";
import { decayRelations } from "./decay.ts";
import { diffusivityRelations } from "./diffusivity.ts";
import { dissolutionRelations } from "./dissolution.ts";
import { enhancementRelations } from "./enhancement.ts";
import { exposureRelations } from "./exposure.ts";
import { filmRelations } from "./film.ts";
import { meteringRelations } from "./metering.ts";
import { oxygenRelations } from "./oxygen.ts";
import { roomReleaseRelations } from "./room-release.ts";
import { schmidtRelations } from "./schmidt.ts";
import { solubilityRelations } from "./solubility.ts";
import { surfaceClassRelations } from "./surface-classes.ts";
import { surfaceLawRelations } from "./surface-laws.ts";
import { toleranceRelations } from "./tolerance.ts";
import { transferRelations } from "./transfer.ts";
import { waterRelations } from "./water.ts";

export * from "./aeration.ts";
export * from "./air.ts";
export * from "./bubble.ts";
export * from "./co2-state.ts";
export type { Gas } from "./constants.ts";
export * from "./cylinder.ts";
export * from "./day-cycle.ts";
export * from "./decay.ts";
export * from "./devices.ts";
export * from "./diffusivity.ts";
export * from "./dissolution.ts";
export { chemicalEnhancement, hydrationRate } from "./enhancement.ts";
export * from "./exposure.ts";
export * from "./film.ts";
export * from "./metering.ts";
export * from "./oxygen.ts";
export * from "./room-release.ts";
export * from "./schmidt.ts";
export * from "./solubility.ts";
export { sources } from "./sources.ts";
export * from "./surface-classes.ts";
export * from "./surface-laws.ts";
export * from "./tolerance.ts";
export * from "./transfer.ts";
export * from "./water.ts";

/** Everything the room can work out, as named relations. */
export const relations: readonly AnyRelation[] = joined(
  waterRelations,
  airRelations,
  oxygenRelations,
  solubilityRelations,
  diffusivityRelations,
  schmidtRelations,
  transferRelations,
  enhancementRelations,
  filmRelations,
  surfaceLawRelations,
  surfaceClassRelations,
  aerationRelations,
  carbonicRelations,
  decayRelations,
  meteringRelations,
  bubbleRelations,
  dissolutionRelations,
  co2StateRelations,
  cylinderRelations,
  exposureRelations,
  roomReleaseRelations,
  toleranceRelations,
  dayCycleRelations,
);
