export { applyToRaw, type Change, changeAt, invert, sameJson, squash, valueAt } from "./changes.ts";
export { applyChanges } from "./edit-text.ts";
export type { Fallback, Field, Group, Measure, Place, QuantityField } from "./field.ts";
export { fields, groups } from "./fields.ts";
export { formatPlan } from "./format.ts";
export { jsonSchema } from "./json-schema.ts";
export { mergePatch } from "./merge-patch.ts";
export { currentVersion, type Migrated, migrate } from "./migrate.ts";
export { type Answers, newPlan } from "./new-plan.ts";
export type {
  AirPlan,
  AnimalPlan,
  Cover,
  Entry,
  Fault,
  FeedingPlan,
  FilterKind,
  FilterPlan,
  GasDevice,
  GasPlan,
  HardscapeKind,
  HardscapePlan,
  HeaterPlan,
  Json,
  Known,
  LampKind,
  LayerPlan,
  LightPlan,
  Path,
  Plan,
  PlantingPlan,
  RawPlan,
  Reading,
  ReadingKind,
  ReadingPlan,
  Resolution,
  RoomPlan,
  SurfacePlan,
  TankPlan,
  WaterPlan,
} from "./plan.ts";
export { pathText } from "./plan.ts";
export { readPlan } from "./read.ts";
export { resolvePlan } from "./resolve.ts";
export { tankVolumes } from "./volumes.ts";
