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
export {
  checkField,
  checkGrid,
  type FieldGrid,
  fieldHeight,
  type HeightField,
  mostNodes,
  sameFieldWithin,
} from "./height-field.ts";
export { type Brush, brushField } from "./height-field-brush.ts";
export { type Isoline, isolines } from "./height-field-isolines.ts";
export { cellsNearLines } from "./height-field-lines.ts";
export { fieldFrom, fieldFromCorners, fieldFromRows, resampleField, sumFields } from "./height-field-make.ts";
export {
  type FieldAtLevel,
  type FieldSlope,
  fieldAtLevel,
  fieldMean,
  fieldRange,
  fieldVolume,
  type SteepestPlace,
  slopeAt,
  steepestPlace,
} from "./height-field-measure.ts";
export { type LayerInput, layerThickness, layerTops, type Packing, volumesBelow } from "./layers.ts";
export {
  type Range,
  type StoneMaterial,
  type SubstrateMaterial,
  stoneMaterials,
  substrateMaterials,
} from "./materials.ts";
export {
  boundsOf,
  checkOutline,
  outlineArea,
  outlineCentroid,
  outlineContains,
  type Point2,
  pointToSegment,
  type Rectangle,
  type SelfCrossing,
  selfCrossing,
} from "./polygon.ts";
export { cellOverlaps, clipToRectangle } from "./polygon-clip.ts";
export { simplifyLine, simplifyOutline, smoothOutline } from "./polygon-line.ts";
export { mostScattered, scatterInside } from "./polygon-scatter.ts";
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
