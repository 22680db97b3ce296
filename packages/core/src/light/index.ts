import { type AnyRelation, joined } from "../relation/index.ts";
import { airFieldRelations } from "./air-relations.ts";
import { albedoRelations } from "./albedos.ts";
import { fresnelRelations } from "./fresnel.ts";
import { lampFluxRelations } from "./lamp-flux.ts";
import { leafRelations } from "./leaves.ts";
import { lobeRelations } from "./lobe.ts";
import { phaseRelations } from "./phase.ts";
import { photonRelations } from "./photons.ts";
import { readingRelations } from "./readings.ts";
import { refractionRelations } from "./refraction.ts";
import { responseRelations } from "./response.ts";
import { rippleRelations } from "./ripples.ts";
import { slabRelations } from "./slab.ts";
import { spectrumRelations } from "./spectrum-relations.ts";
import { wallRelations } from "./walls.ts";
import { waterRelations } from "./water-relations.ts";

export * from "./air-field.ts";
export * from "./albedos.ts";
export * from "./bands.ts";
export { daylightSpectrum } from "./daylight.ts";
export * from "./fresnel.ts";
export * from "./lamp-flux.ts";
export * from "./lamp-kinds.ts";
export * from "./leaves.ts";
export {
  beamAngleOf,
  beamFootprint,
  lobeFromBeamAngle,
  lobeIntensity,
  lobeShareWithin,
  lobeThroughOpening,
} from "./lobe.ts";
export { luminosity } from "./luminosity.ts";
export * from "./phase.ts";
export * from "./photometry.ts";
export { dailyLight, luxPerPhotonOfLine, photonsPerJoule } from "./photons.ts";
export * from "./read-photometry.ts";
export * from "./readings.ts";
export * from "./refraction.ts";
export * from "./response.ts";
export * from "./ripples.ts";
export * from "./slab.ts";
export { sources } from "./sources.ts";
export * from "./spectrum.ts";
export * from "./walls.ts";
export * from "./water-optics.ts";
export { whiteSpectrum, whites } from "./whites.ts";

/** Everything the room can work out, as named relations. */
export const relations: readonly AnyRelation[] = joined(
  photonRelations,
  spectrumRelations,
  lampFluxRelations,
  readingRelations,
  lobeRelations,
  airFieldRelations,
  fresnelRelations,
  refractionRelations,
  wallRelations,
  slabRelations,
  rippleRelations,
  waterRelations,
  phaseRelations,
  albedoRelations,
  leafRelations,
  responseRelations,
);
