export { compile, flowIndex, flows, type Model } from "./compile.ts";
export { type DayLamp, fullHoursOf } from "./lamps.ts";
export type { Ledger, LedgerLine } from "./ledger.ts";
export type { Flow, Process } from "./process.ts";
export { processes } from "./processes/index.ts";
export {
  type ConservedId,
  conserved,
  type QuantityId,
  quantities,
  type StateId,
  stateIds,
  states,
} from "./quantities.ts";
export { guessStart, type RepeatingDay, repeatingDay } from "./repeating-day.ts";
export {
  type Mark,
  type Run,
  RunError,
  type RunOptions,
  runTank,
  type Series,
  type SeriesId,
  seriesSpecs,
} from "./run.ts";
export { exchangeOf, k600OfRipple, type Setup, setupOf } from "./setup.ts";
