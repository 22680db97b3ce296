import type { FollowedLight, Plan, RawPlan } from "../plan/index.ts";
import { compile, type RepeatingDay, repeatingDay, type Setup, setupOf } from "../tank/index.ts";
import { limitsOf } from "./limits.ts";
import type { Limit, UnitSystem } from "./types.ts";

/** A tank's day with what is needed to judge it and to try changes. */
export interface DayContext {
  readonly plan: Plan;
  readonly raw: RawPlan;
  readonly units: UnitSystem;
  readonly setup: Setup;
  readonly day: RepeatingDay;
  readonly limits: readonly Limit[];
  /** The repeating day of a tank that differs in some numbers; answers are kept. */
  solve(change: Partial<Setup>): RepeatingDay;
}

/**
 * Solves the day of a resolved plan.
 * @param start states at midnight of a similar day, to begin the search from
 * @param light lights that were followed; without that of this plan, a rule of thumb stands in
 */
export function dayContext(
  plan: Plan,
  raw: RawPlan,
  units: UnitSystem,
  start?: Float64Array,
  light: readonly FollowedLight[] = [],
): DayContext {
  const setup = setupOf(plan, light);
  const day = repeatingDay(compile(setup), start ? { start } : {});
  const answers = new Map<string, RepeatingDay>();
  return {
    plan,
    raw,
    units,
    setup,
    day,
    limits: limitsOf(plan, units),
    solve(change) {
      const key = JSON.stringify(change);
      const known = answers.get(key);
      if (known) return known;
      // tried days need no more than a reader sees: a tenth of a per cent
      const answer = repeatingDay(compile({ ...setup, ...change }), { start: day.start, rtol: 1e-4 });
      answers.set(key, answer);
      return answer;
    },
  };
}

export const co2Limit = (limits: readonly Limit[]): Limit | undefined => limits.find((l) => l.series === "co2");
export const oxygenLimit = (limits: readonly Limit[]): Limit | undefined => limits.find((l) => l.series === "oxygen");

/** Where the search for a safe setting stops when no animals live in the tank, mg/L: what plants gain above it is little (common practice, no source). */
const ceilingWithoutAnimals = 40;

/** CO2 that should not be passed, mg/L. */
export const co2Ceiling = (limits: readonly Limit[]): number => co2Limit(limits)?.value ?? ceilingWithoutAnimals;
