import type { AnyRelation } from "../relation/index.ts";
import { gallons, glassMassRelation, netWater, tankVolume, tankWeight, waterLevelRelation } from "./relations-box.ts";
import { accumulation, changesForRemoval, dilution, dripExchange, topUpDrift } from "./relations-dilution.ts";
import {
  stoneDisplacement,
  substrateBags,
  substrateBulkDensity,
  substratePorosity,
  substrateSlope,
  substrateVolume,
  woodBallast,
  woodSinkingRelation,
} from "./relations-substrate.ts";

/** Every relation of the geometry room. */
export const relations: readonly AnyRelation[] = [
  tankVolume,
  gallons,
  netWater,
  waterLevelRelation,
  glassMassRelation,
  tankWeight,
  substrateVolume,
  substratePorosity,
  substrateBulkDensity,
  substrateBags,
  substrateSlope,
  stoneDisplacement,
  woodSinkingRelation,
  woodBallast,
  dilution,
  changesForRemoval,
  dripExchange,
  accumulation,
  topUpDrift,
];
