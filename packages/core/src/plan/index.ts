export { applyToRaw, type Change, changeAt, invert, sameJson, squash, valueAt } from "./changes.ts";
export { applyChanges } from "./edit-text.ts";
export type { Fallback, Field, Group, Measure, Place, QuantityField } from "./field.ts";
export { fields, groups } from "./fields.ts";
export { type FollowedLight, lightKey } from "./followed-light.ts";
export { formatPlan } from "./format.ts";
export { jsonSchema } from "./json-schema.ts";
export { keepReading, withAlternative } from "./light-reading.ts";
export {
  channelShares,
  type DaylightLevel,
  daylightLevel,
  lampProgramme,
  lampsOf,
  lightsOf,
  movable,
  openDaylight,
  type PlanLight,
} from "./lights.ts";
export { currentVersion, type Migrated, migrate } from "./migrate.ts";
export { type Answers, newPlan } from "./new-plan.ts";
export { mostPacked, type PackedForm, packMesh, unpackMesh } from "./packed-mesh.ts";
export {
  type PieceForm,
  pieceDensity,
  pieceForm,
  pieceNames,
  pieceStanding,
  type Shares,
  sharesOf,
  standingBounds,
} from "./pieces.ts";
export type {
  AirPlan,
  AnimalPlan,
  Background,
  ChannelLight,
  ChannelPlan,
  Cover,
  DaylightPlan,
  DaylightSide,
  EdgePlan,
  Entry,
  Fault,
  FeedingPlan,
  FilterKind,
  FilterPlan,
  FloorPoint,
  GasDevice,
  GasPlan,
  HardscapeKind,
  HardscapePlan,
  HeaterPlan,
  Json,
  Known,
  LampKind,
  LampPlan,
  LayerPlan,
  LightPlan,
  Path,
  Plan,
  PlantingPlan,
  Raised,
  RawPlan,
  Reading,
  ReadingKind,
  ReadingPlan,
  Resolution,
  RoomPlan,
  StoneShape,
  SurfacePlan,
  TankPlan,
  WaterPlan,
  Whiteness,
} from "./plan.ts";
export { pathText } from "./plan.ts";
export {
  fullHoursOf,
  hoursProgramme,
  litHours,
  mostPoints,
  movedTo,
  type Programme,
  type ProgrammePoint,
  peakOf,
  programmeAllowed,
  programmeText,
  readProgramme,
  type Stretch,
  strengthAt,
  stretchesOf,
} from "./programme.ts";
export { readPlan } from "./read.ts";
export { resolvePlan } from "./resolve.ts";
export { colours, readSpectrum, type SpectrumWords, spectrumAllowed } from "./spectrum.ts";
export { bedTops, boxOf, layerField, onFloor, tankVolumes } from "./volumes.ts";
