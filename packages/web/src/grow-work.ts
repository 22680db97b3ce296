import { type GrowthWeek, growth } from "@lentic/core/growth";
import { type RawPlan, resolvePlan } from "@lentic/core/plan";
import { LampError, type ScapeFinding } from "@lentic/core/scape";
import { RunError } from "@lentic/core/tank";

/** What a look ahead came to. */
export type GrowthAnswer =
  | { readonly kind: "done"; readonly weeks: readonly GrowthWeek[]; readonly findings: readonly ScapeFinding[] }
  /** In words. */
  | { readonly kind: "problem"; readonly message: string }
  /** Another look was asked for meanwhile. */
  | { readonly kind: "dropped" };

/** Rest for messages after so much work, ms. */
const slice = 60;

let newest = 0;

/** Grows a plan from planting day; a later call drops an earlier one. @param told the weeks that are done */
export async function grow(raw: RawPlan, weeks: number, told: (week: number) => void): Promise<GrowthAnswer> {
  newest += 1;
  const own = newest;
  const resolved = resolvePlan(raw);
  if (!resolved.ok) return { kind: "problem", message: "the plan has faults" };
  const found: GrowthWeek[] = [];
  let until = performance.now() + slice;
  try {
    for (const step of growth(resolved.plan, { weeks })) {
      if (step.kind === "week") found.push(step.week);
      if (step.kind === "findings") return { kind: "done", weeks: found, findings: step.findings };
      if (performance.now() < until) continue;
      told(found.length);
      await new Promise((resolve) => setTimeout(resolve, 0));
      if (own !== newest) return { kind: "dropped" };
      until = performance.now() + slice;
    }
  } catch (error) {
    if (error instanceof LampError || error instanceof RunError || error instanceof RangeError)
      return { kind: "problem", message: error.message };
    throw error;
  }
  return { kind: "done", weeks: found, findings: [] };
}
