import { type FollowedLight, lightKey, type RawPlan, resolvePlan } from "@lentic/core/plan";
import {
  followLight,
  LampError,
  type LightReport,
  lightFindings,
  lightReport,
  lightScene,
  type ScapeFinding,
  scapeOf,
} from "@lentic/core/scape";
import { createTrace, type TraceResult } from "@lentic/core/tracer";

/** What a look at the light came to. */
export type LightAnswer =
  | { readonly kind: "done"; readonly report: LightReport; readonly findings: readonly ScapeFinding[] }
  /** The plan has no light. */
  | { readonly kind: "dark" }
  /** A lamp that cannot be followed, in words. */
  | { readonly kind: "problem"; readonly message: string }
  /** Another look was asked for meanwhile. */
  | { readonly kind: "dropped" };

export interface LightQuality {
  /** Paths of each lamp. */
  readonly photons: number;
  /** Standard error of the direct light at which its passes end. */
  readonly directNoise: number;
}

/** Rest for messages after so much work, ms. */
const slice = 60;

let newest = 0;
/** The finest look so far at one way of the light: dimmers, hours and readings only weigh it anew. */
let last: { readonly key: string; readonly photons: number; readonly result: TraceResult } | null = null;
let newestDay = 0;

/** Follows the light of a plan for its day; null when there is none to follow, or another was asked for meanwhile. */
export async function forDay(raw: RawPlan): Promise<FollowedLight | null> {
  newestDay += 1;
  const own = newestDay;
  const resolved = resolvePlan(raw);
  if (!resolved.ok) return null;
  try {
    const work = followLight(resolved.plan);
    while (work) {
      const until = performance.now() + slice;
      let step = work.step();
      while (!step.result && performance.now() < until) step = work.step();
      if (step.result) return step.result;
      await new Promise((resolve) => setTimeout(resolve, 0));
      if (own !== newestDay) return null;
    }
    return null;
  } catch (error) {
    // the drawing board says what is wrong with a lamp; the day goes on by its rule of thumb
    if (error instanceof LampError || error instanceof RangeError) return null;
    throw error;
  }
}

/** Follows the light of a plan; a later call drops an earlier one. @param progress told the share of the work done */
export async function look(
  raw: RawPlan,
  quality: LightQuality,
  progress: (share: number) => void,
): Promise<LightAnswer> {
  newest += 1;
  const own = newest;
  const resolved = resolvePlan(raw);
  if (!resolved.ok) return { kind: "problem", message: "the plan has faults" };
  const scape = scapeOf(resolved.plan);
  try {
    const light = lightScene(scape);
    if (!light) return { kind: "dark" };
    const key = lightKey(resolved.plan);
    const done = (result: TraceResult): LightAnswer => {
      const report = lightReport(scape, light, result);
      return { kind: "done", report, findings: lightFindings(scape, report) };
    };
    if (last?.key === key && last.photons >= quality.photons) return done(last.result);
    const task = createTrace(light.scene, { seed: 1, ...quality });
    for (;;) {
      const until = performance.now() + slice;
      let step = task.step();
      while (!step.result && performance.now() < until) step = task.step();
      if (step.result) {
        last = { key, photons: quality.photons, result: step.result };
        return done(step.result);
      }
      progress(step.share);
      await new Promise((resolve) => setTimeout(resolve, 0));
      if (own !== newest) return { kind: "dropped" };
    }
  } catch (error) {
    if (error instanceof LampError || error instanceof RangeError) return { kind: "problem", message: error.message };
    throw error;
  }
}
