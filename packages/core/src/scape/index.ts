export { type Amount, type Bill, type BillGroup, type BillItem, billCsv, billOf, settling } from "./bill.ts";
export { placeWords, type ScapeFinding, type ScapeSeverity, scapeFindings } from "./checks.ts";
export { dimmed } from "./dimmed.ts";
export {
  addEdge,
  addLamp,
  addPiece,
  addSand,
  addZone,
  type Board,
  brushed,
  brushedField,
  brushedLayer,
  drawZone,
  duplicate,
  group,
  heightRows,
  laid,
  lengthText,
  letDown,
  lock,
  moveTo,
  pathOfTarget,
  raiseTo,
  resize,
  type Sizes,
  scaleBy,
  type Target,
  takeOut,
  targetName,
  turnTo,
  underBrush,
} from "./edits.ts";
export { dayQuality, type FollowOptions, followedLightOf, followLight, type LightFollowing } from "./follow-light.ts";
export { type FormInput, type FormName, type FormParts, formChanges, forms, layForm } from "./forms/index.ts";
export {
  type Disagreement,
  LampError,
  type LampOutput,
  type LampPart,
  lampOutput,
  type OutputFrom,
} from "./lamp-output.ts";
export { type DaylightTold, fromWords, type LampTold } from "./lamp-told.ts";
export { lampWeights } from "./lamp-weights.ts";
export {
  type GroundLight,
  groundAt,
  type LightBudget,
  type LightReport,
  levels,
  lightAt,
  lightFindings,
  lightReport,
  type PieceLight,
  type ZoneLight,
} from "./light-report.ts";
export { type LampSource, type LightScene, lightScene } from "./light-scene.ts";
export type { OneLight } from "./one-light.ts";
export { type OpenWater, openWater } from "./open-water.ts";
export {
  formFromMesh,
  type KnownLength,
  mostKept,
  type OwnForm,
  type OwnFormOptions,
  ownPiece,
  sideLimits,
} from "./own-forms.ts";
export { givePhotometry, type LampFigures, type LampFile, readLampFile } from "./own-lamp.ts";
export type { PlacedPiece } from "./pieces.ts";
export { type Scape, type ScapeLayer, scapeOf } from "./scape.ts";
export { areaAbout, letterOf, portionsFor, type Zone } from "./zones.ts";
