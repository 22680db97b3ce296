import {
  type DayDoubt,
  type DayReport,
  dayReport,
  type Knob,
  type KnobId,
  knobsOf,
  PlanError,
  type QuickDay,
  quickDay,
  type Suits,
  suitable,
  turn,
  type UnitSystem,
} from "@lentic/core/design";
import {
  applyToRaw,
  type Change,
  type Fault,
  type FollowedLight,
  type RawPlan,
  resolvePlan,
  sameJson,
  squash,
  valueAt,
  withAlternative,
} from "@lentic/core/plan";
import { RunError } from "@lentic/core/tank";
import { expose } from "comlink";
import type { GrowthAnswer } from "./grow-work.ts";
import type { LightAnswer, LightQuality } from "./light-work.ts";

/** What may go wrong with a day: wrong fields, or a model that cannot be run. */
export type DayProblem =
  | { readonly kind: "faults"; readonly faults: readonly Fault[] }
  | { readonly kind: "run"; readonly message: string };

export interface QuickAnswer {
  readonly ok: true;
  readonly quick: QuickDay;
  readonly knobs: readonly Knob[];
  /** Changes of the plan that are being tried, squashed. */
  readonly trial: readonly Change[];
}

export interface FullAnswer {
  readonly ok: true;
  readonly report: DayReport;
  readonly doubt: DayDoubt;
  readonly suits: Readonly<Partial<Record<KnobId, Suits>>>;
}

export interface Failed {
  readonly ok: false;
  readonly problem: DayProblem;
}

export interface Opened {
  readonly raw: RawPlan;
  readonly notes: readonly Fault[];
  readonly alternatives: readonly string[];
}

export interface Reader {
  readonly units: UnitSystem;
  readonly hour: number;
}

function guarded<T>(work: () => T): T | Failed {
  try {
    return work();
  } catch (error) {
    if (error instanceof PlanError) return { ok: false, problem: { kind: "faults", faults: error.faults } };
    if (error instanceof RunError || error instanceof RangeError)
      return { ok: false, problem: { kind: "run", message: error.message } };
    throw error;
  }
}

/** Lights that were followed, newest first: of the plan, of what is on trial, of an alternative looked at before. */
let lights: readonly FollowedLight[] = [];
const mostLights = 6;

/** States at midnight of the last day solved: the next, similar day is found from there at once. */
let start: Float64Array | undefined;

const options = (reader: Reader) => ({
  units: reader.units,
  hour: reader.hour,
  light: lights,
  ...(start ? { start } : {}),
});

const api = {
  /** Opens a plan as the server read it; a text that it could not read is read here, for its faults. */
  async open(plan: { readonly text: string; readonly raw: RawPlan | null }): Promise<({ ok: true } & Opened) | Failed> {
    if (!plan.raw) {
      const { readPlan } = await import("./read-text.ts");
      const reading = readPlan(plan.text);
      if (!reading.ok) return { ok: false, problem: { kind: "faults", faults: reading.faults } };
      return { ok: true, raw: reading.raw, notes: reading.notes, alternatives: reading.plan.alternatives };
    }
    const resolved = resolvePlan(plan.raw);
    if (!resolved.ok) return { ok: false, problem: { kind: "faults", faults: resolved.faults } };
    return { ok: true, raw: plan.raw, notes: resolved.notes, alternatives: resolved.plan.alternatives };
  },

  /** Follows the light of a plan for its day; null when there is none to follow, or another was asked for meanwhile. */
  async followForDay(raw: RawPlan): Promise<FollowedLight | null> {
    return (await import("./light-work.ts")).forDay(raw);
  },

  /** Follows the light of a plan for the drawing board; a later call drops an earlier one. @param progress told the share of the work done */
  async look(raw: RawPlan, quality: LightQuality, progress: (share: number) => void): Promise<LightAnswer> {
    return (await import("./light-work.ts")).look(raw, quality, progress);
  },

  /** Grows a plan from planting day; a later call drops an earlier one. @param told the weeks that are done */
  async grow(raw: RawPlan, weeks: number, told: (week: number) => void): Promise<GrowthAnswer> {
    return (await import("./grow-work.ts")).grow(raw, weeks, told);
  },

  /** Takes a light that was followed, for the days of its plan. */
  light(followed: FollowedLight): void {
    lights = [followed, ...lights.filter((l) => l.key !== followed.key)].slice(0, mostLights);
  },

  /** Changes that an alternative makes of the plan, as one trial. */
  alternative(raw: RawPlan, name: string): { ok: true; changes: readonly Change[] } | Failed {
    const patch = valueAt(raw, ["alternatives", name]);
    const after = withAlternative(raw, patch);
    const resolved = resolvePlan(after);
    if (!resolved.ok) return { ok: false, problem: { kind: "faults", faults: resolved.faults } };
    const changes: Change[] = [];
    for (const key of new Set([...Object.keys(raw), ...Object.keys(after)])) {
      if (key === "alternatives" || sameJson(raw[key], after[key])) continue;
      changes.push({ name, path: [key], before: raw[key], after: after[key] });
    }
    return { ok: true, changes };
  },

  quick(
    raw: RawPlan,
    trial: readonly Change[],
    reader: Reader,
    knob?: { id: KnobId; value: number },
  ): QuickAnswer | Failed {
    return guarded(() => {
      // what the plan says by now, because it was kept, is no longer on trial; knobs and remedies only ever set values
      let changes = trial.filter((c) => !sameJson(valueAt(raw, c.path), c.after));
      let tried = applyToRaw(raw, changes);
      if (knob) {
        const before = resolvePlan(tried);
        if (!before.ok) throw new PlanError(before.faults);
        const more = turn(tried, before.plan, knob.id, knob.value);
        tried = applyToRaw(tried, more);
        changes = squash([...changes, ...more]);
      }
      const quick = quickDay(tried, options(reader));
      start = quick.curves.start;
      return { ok: true, quick, knobs: knobsOf(quick.plan, reader.units), trial: changes };
    });
  },

  full(raw: RawPlan, trial: readonly Change[], reader: Reader): FullAnswer | Failed {
    return guarded(() => {
      const tried = applyToRaw(raw, trial);
      const { report, doubt } = dayReport(tried, options(reader));
      start = report.curves.start;
      return { ok: true, report, doubt, suits: suitable(tried, report.plan, report.curves.start, lights) };
    });
  },
};

export type DayWorker = typeof api;

expose(api);
