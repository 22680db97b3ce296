import type { SectionFigure } from "../drawing/index.ts";
import { type FollowedLight, type Plan, type RawPlan, resolvePlan } from "../plan/index.ts";
import { type DayContext, dayContext } from "./context.ts";
import { at, curvesOf } from "./curves.ts";
import { bandsOf, doubtRuns, leastHalf, rangeOf } from "./doubt.ts";
import { figuresOf, lightsOn, markAt } from "./figures.ts";
import { findingsOf } from "./findings/index.ts";
import { headlineOf } from "./headline.ts";
import { sceneOf } from "./scene.ts";
import type { DayCurves, DayDoubt, DayReport, Figure, UnitSystem } from "./types.ts";

export interface DayOptions {
  readonly units?: UnitSystem;
  /** Hour at which "now" figures are read; default 13:00. */
  readonly hour?: number;
  /** States at midnight of a similar day, from which the search begins. */
  readonly start?: Float64Array;
  /** Lights followed through scapes; the one of this plan is taken, without it a rule of thumb stands in. */
  readonly light?: readonly FollowedLight[];
}

/** A plan whose fields are wrong cannot be run; its faults say where. */
export class PlanError extends Error {
  readonly faults: Extract<ReturnType<typeof resolvePlan>, { ok: false }>["faults"];
  constructor(faults: PlanError["faults"]) {
    super(faults.map((f) => `${f.path}: ${f.message}`).join("; "));
    this.name = "PlanError";
    this.faults = faults;
  }
}

function contextOf(raw: RawPlan, options: DayOptions): DayContext {
  const resolved = resolvePlan(raw);
  if (!resolved.ok) throw new PlanError(resolved.faults);
  return dayContext(resolved.plan, raw, options.units ?? "metric", options.start, options.light);
}

/** Where each figure stands in the section drawing. */
const places: Readonly<Record<string, SectionFigure["place"]>> = {
  "outlet-flow": "outlet",
  "surface-exchange": "surface",
  "co2-at-lights-on": "water-upper",
  "oxygen-at-dawn": "water",
  "water-temperature": "thermometer",
  "gas-rate": "diffuser",
  "light-at-bed": "substrate",
};

function placedOf(figures: readonly Figure[]): SectionFigure[] {
  return figures.flatMap((f) => {
    const place = places[f.id];
    if (!place) return [];
    return [
      {
        id: f.id,
        label: f.label,
        value: f.shown.text,
        unit: f.shown.unit,
        place,
        ...(f.note ? { note: f.note } : {}),
        ...(f.verdict === "low" || f.verdict === "high" ? { warn: true } : {}),
      },
    ];
  });
}

/** The quick part, which follows the finger: curves, limits, figures without ranges. */
export interface QuickDay {
  readonly plan: Plan;
  readonly curves: DayCurves;
  readonly limits: DayReport["limits"];
  readonly figures: readonly Figure[];
  readonly placed: readonly SectionFigure[];
  readonly scene: DayReport["scene"];
  /** Whether the light was followed through the scape; null without a lamp. */
  readonly lightFollowed: boolean | null;
}

function quickOf(ctx: DayContext, hour: number): QuickDay {
  const figures = figuresOf(ctx, null, hour);
  return {
    plan: ctx.plan,
    curves: curvesOf(ctx.plan, ctx.day),
    limits: ctx.limits,
    figures,
    placed: placedOf(figures),
    lightFollowed: ctx.setup.lamps.length > 0 ? ctx.setup.light.followed : null,
    scene: sceneOf(ctx.plan, { temperature: at(ctx.day, ctx.day.series.temperature, hour) }),
  };
}

/**
 * Curves and figures of a plan's repeating day.
 * @throws PlanError when the plan has faults, RunError when the model cannot be run
 */
export function quickDay(raw: RawPlan, options: DayOptions = {}): QuickDay {
  return quickOf(contextOf(raw, options), options.hour ?? 13);
}

/**
 * Everything told of a plan's repeating day: curves, figures with likely ranges, findings with tried remedies, sentences.
 * @throws PlanError when the plan has faults, RunError when the model cannot be run
 */
export function dayReport(raw: RawPlan, options: DayOptions = {}): { report: DayReport; doubt: DayDoubt } {
  const hour = options.hour ?? 13;
  const ctx = contextOf(raw, options);
  const runs = doubtRuns(ctx);
  const on = lightsOn(ctx);
  const ranges: DayDoubt["figures"] = {
    "co2-at-lights-on": rangeOf(ctx, runs, (day) => markAt(day, on).co2),
    "oxygen-at-dawn": rangeOf(ctx, runs, (day) => markAt(day, on).oxygen),
    "water-temperature": rangeOf(ctx, runs, (day) => at(day, day.series.temperature, hour), leastHalf.temperature),
    "lowest-ph": rangeOf(ctx, runs, (day) => day.series.ph.reduce((a, b) => Math.min(a, b), 14), leastHalf.ph),
  };
  const quick = quickOf(ctx, hour);
  const figures = figuresOf(ctx, ranges, hour);
  const findings = findingsOf(ctx);
  return {
    report: { ...quick, figures, placed: placedOf(figures), findings, ...headlineOf(ctx, findings) },
    doubt: { bands: bandsOf(ctx, runs), figures: ranges },
  };
}
