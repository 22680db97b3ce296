import type { DayContext } from "../context.ts";
import type { Finding, Severity } from "../types.ts";
import { co2High, co2Late, cylinderRoom, gasAfterDark, valveLeftOpen } from "./gas.ts";
import { carbonShort } from "./growth.ts";
import { heaterStuck, heaterWeak, temperatureLimits } from "./heat.ts";
import { lightShort, readingFarOff } from "./light.ts";
import { noSteadyDay, oxygenLow, ripplePrice } from "./oxygen.ts";
import { dosingVolume, phLimits } from "./water.ts";

/** Every judgement of a day, in the order in which equals are told. */
const judges: readonly ((ctx: DayContext) => Finding | null)[] = [
  noSteadyDay,
  oxygenLow,
  co2High,
  co2Late,
  temperatureLimits,
  gasAfterDark,
  carbonShort,
  heaterWeak,
  phLimits,
  lightShort,
  readingFarOff,
  ripplePrice,
  valveLeftOpen,
  heaterStuck,
  cylinderRoom,
  dosingVolume,
];

const rank: Readonly<Record<Severity, number>> = { stop: 0, caution: 1, note: 2 };

/** Findings of a day, gravest first. */
export function findingsOf(ctx: DayContext): readonly Finding[] {
  return judges
    .map((judge) => judge(ctx))
    .filter((f) => f !== null)
    .sort((a, b) => rank[a.severity] - rank[b.severity]);
}
