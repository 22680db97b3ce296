import { readPlan } from "../plan/index.ts";
import { type DayOptions, PlanError, type QuickDay, quickDay } from "./report.ts";

/** Days of a plan and its alternatives, side by side. */
export interface Comparison {
  /** "as planned", then the alternatives in the plan's order. */
  readonly names: readonly string[];
  readonly days: readonly QuickDay[];
}

/**
 * Runs a plan's day and that of its named alternatives.
 * @param only names to compare; all when left out
 * @throws PlanError for faults in the plan, RangeError for an unknown alternative
 */
export function compareDays(text: string, options: DayOptions = {}, only?: readonly string[]): Comparison {
  const base = readPlan(text);
  if (!base.ok) throw new PlanError(base.faults);
  const unknown = only?.filter((n) => !base.plan.alternatives.includes(n)) ?? [];
  if (unknown.length > 0) {
    const allowed = base.plan.alternatives.length > 0 ? base.plan.alternatives.join(", ") : "none";
    throw new RangeError(`the plan has no alternative named ${unknown.join(", ")}; it has: ${allowed}`);
  }
  const names = only ?? base.plan.alternatives;
  const days = [quickDay(base.raw, options)];
  for (const name of names) {
    const reading = readPlan(text, { alternative: name });
    if (!reading.ok) throw new PlanError(reading.faults);
    days.push(quickDay(reading.raw, options));
  }
  return { names: ["as planned", ...names], days };
}
