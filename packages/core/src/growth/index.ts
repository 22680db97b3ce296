export { type Grown, planGrown, scapeGrown } from "./at-week.ts";
export {
  type Cut,
  type GrowthOptions,
  type GrowthStep,
  type GrowthWeek,
  mostWeeks,
  type PlantingWeek,
  rateSpan,
  type Spanned,
  usualWeeks,
} from "./course.ts";
export type { CutRule } from "./cuts.ts";
export type { Hold } from "./day-conditions.ts";
export { growth, growthOf } from "./growth.ts";
export type { Start } from "./sites.ts";
