import { type FollowedLight, type Plan, readPlan } from "../plan/index.ts";
import { type DayOptions, PlanError, type QuickDay, quickDay } from "./report.ts";

/** Days of a plan and its alternatives, side by side. */
export interface Comparison {
  /** "as planned", then the alternatives in the plan's order. */
  readonly names: readonly string[];
  readonly days: readonly QuickDay[];
}

/** Follows the light of plans. */
export type Follow = (plans: readonly Plan[]) => readonly FollowedLight[];

/**
 * Runs a plan's day and that of its named alternatives.
 * @param follow follows their light; left out, a rule of thumb stands in
 * @param only names to compare; all when left out
 * @throws PlanError for faults in the plan, RangeError for an unknown alternative
 */
export function compareDays(
  text: string,
  options: DayOptions = {},
  only?: readonly string[],
  follow: Follow = () => [],
): Comparison {
  const base = readPlan(text);
  if (!base.ok) throw new PlanError(base.faults);
  const unknown = only?.filter((n) => !base.plan.alternatives.includes(n)) ?? [];
  if (unknown.length > 0) {
    const allowed = base.plan.alternatives.length > 0 ? base.plan.alternatives.join(", ") : "none";
    throw new RangeError(`the plan has no alternative named ${unknown.join(", ")}; it has: ${allowed}`);
  }
  const names = only ?? base.plan.alternatives;
  const readings = [
    base,
    ...names.map((name) => {
      const reading = readPlan(text, { alternative: name });
      if (!reading.ok) throw new PlanError(reading.faults);
      return reading;
    }),
  ];
  const light = follow(readings.map(({ plan }) => plan));
  const days = readings.map(({ raw }) => quickDay(raw, { ...options, light }));
  return { names: ["as planned", ...names], days };
}
