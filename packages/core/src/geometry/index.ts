export { type Above, aboveLevel, type Corners, heightAt, meanHeight, type Slopes, slopes } from "./bilinear.ts";
export {
  type BasePlace,
  type BoxInput,
  type BoxSizes,
  boxSizes,
  glassDensity,
  glassMass,
  glassVolume,
} from "./box.ts";
export {
  accumulationAt,
  accumulationLimit,
  afterChanges,
  afterDrip,
  changesFor,
  type Rhythm,
  topUpRise,
} from "./dilution.ts";
export {
  ballast,
  displacedVolume,
  type SolidInput,
  submergedWeight,
  type WoodSinking,
  waterDensity,
  woodLift,
  woodSinking,
  woodSubstance,
} from "./hardscape.ts";
export { fieldHeight, type HeightField } from "./height-field.ts";
export { bedSurface, type LayerInput, layerTops, surfaceHeight, volumesBelow } from "./layers.ts";
export {
  type Range,
  type StoneMaterial,
  type SubstrateMaterial,
  stoneMaterials,
  substrateMaterials,
} from "./materials.ts";
export { relations } from "./relations.ts";
export { sources } from "./sources.ts";
export {
  type Bag,
  bagsNeeded,
  designSlope,
  porosityOf,
  rearDepth,
  slopeFactor,
  slopeSafety,
  wetBulkDensity,
} from "./substrate.ts";
export { type ScapeInput, type Volumes, volumes, type WaterLevel, waterLevel } from "./volumes.ts";
