export { type Comparison, compareDays } from "./compare.ts";
export { at as valueAtHour } from "./curves.ts";
export { type Knob, type KnobId, knobsOf, knobText, type Suits, suitable, turn } from "./knobs.ts";
export { type DayOptions, dayReport, PlanError, type QuickDay, quickDay } from "./report.ts";
export { scapeScene, sceneGrown } from "./scape-scene.ts";
export { sceneOf } from "./scene.ts";
export { shown } from "./shown.ts";
export type {
  Band,
  BandedSeries,
  DayCurves,
  DayDoubt,
  DayReport,
  Extreme,
  Figure,
  FigureKnown,
  Finding,
  Limit,
  Remedy,
  SentencePart,
  Severity,
  Shown,
  UnitSystem,
  Verdict,
  Wanted,
  Working,
  WorkingInput,
  WorkingTerm,
} from "./types.ts";
export { clock, plain } from "./words.ts";
