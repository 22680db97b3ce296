/** What a trace of a scape's light comes to: the map on the ground, what each planting gets, and where the photons go. */
import type { Point2 } from "../geometry/index.ts";
import { fullHoursOf } from "../plan/index.ts";
import { type Budget, type TraceResult, weigh } from "../tracer/index.ts";
import type { ScapeFinding } from "./checks.ts";
import { type DaylightTold, type LampTold, lampFindings, lampsTold } from "./lamp-told.ts";
import { lampWeights } from "./lamp-weights.ts";
import type { LampSource, LightScene } from "./light-scene.ts";
import { type OneLight, oneLights } from "./one-light.ts";
import type { Scape } from "./scape.ts";
import { fieldsOf, zoneSamplers } from "./zone-light.ts";

/** Photon flux density on the ground as a level sensor reads it, row by row from the front. */
export interface GroundLight {
  readonly columns: number;
  readonly rows: number;
  /** umol/m2/s, every light at the brightest of its day. */
  readonly values: Float64Array;
}

export interface ZoneLight {
  /** Position in the plan's list. */
  readonly index: number;
  /** At the top of its leaves, every light at its brightest, umol/m2/s: mean, and darkest and brightest tenth of its area. */
  readonly mean: number;
  readonly low: number;
  readonly high: number;
  /** mol/m2/d */
  readonly daily: number;
}

export interface PieceLight {
  readonly index: number;
  /** Mean on all of it that is not buried, umol/m2/s. */
  readonly mean: number;
}

/** Where the photons of all lamps end, as shares of them. */
export interface LightBudget {
  /** Past the tank: beside its opening, or sent upwards. */
  readonly spill: number;
  /** Thrown back by the surface. */
  readonly reflected: number;
  /** Out again through the surface. */
  readonly top: number;
  /** Out through the panes. */
  readonly panes: number;
  readonly water: number;
  readonly leaves: number;
  readonly ground: number;
  /** Absorbed by stones and wood, and by a covered back pane. */
  readonly hardscape: number;
  readonly background: number;
}

export interface LightReport {
  readonly ground: GroundLight;
  /** umol/m2/s */
  readonly mean: number;
  readonly min: number;
  readonly max: number;
  /** Least over mean; 1 = the same everywhere. */
  readonly evenness: number;
  /** Mean over the ground, mol/m2/d. */
  readonly daily: number;
  /** "low", "medium" or "high" as the trade counts it at the substrate. Common practice, no source. */
  readonly level: "low" | "medium" | "high";
  readonly zones: readonly ZoneLight[];
  readonly pieces: readonly PieceLight[];
  readonly budget: LightBudget;
  /** Standard error of the map, share of its mean. */
  readonly noise: number;
  /** Factor that the owner's reading at the substrate puts on the lamps' output; 1 without a reading. */
  readonly calibration: number;
  /** Span of the lamps' output as it is known, shares of it: 0.75 to 1.25 for watts alone. */
  readonly span: readonly [low: number, high: number];
  /** What each lamp gives and where that was taken from. */
  readonly lamps: readonly LampTold[];
  readonly daylight: DaylightTold | null;
  /** Each light at full, for other settings of the dimmers. */
  readonly lights: readonly OneLight[];
}

/** Trade's levels at the substrate, umol/m2/s. Common practice, no source. */
export const levels = { medium: 50, high: 100 } as const;

export const levelOf = (mean: number): LightReport["level"] =>
  mean > levels.high ? "high" : mean > levels.medium ? "medium" : "low";

const microPerHour = 3600e-6;

/** The map on the ground at other strengths: one weighted sum. @param strengths of each light, 0..1 */
export function groundAt(
  light: LightScene,
  result: TraceResult,
  strengths: readonly number[],
  factor = 1,
): GroundLight {
  const values = weigh(
    result,
    lampWeights(light, (i) => (strengths[i] ?? 0) * factor),
  );
  return { columns: result.cells.columns, rows: result.cells.rows, values };
}

/** The figure under a place of the floor, umol/m2/s. */
export function lightAt(
  { columns, rows, values }: GroundLight,
  { length, width }: Pick<Scape, "length" | "width">,
  [x, y]: Point2,
): number {
  const column = Math.min(columns - 1, Math.max(0, Math.floor((x / length) * columns)));
  const row = Math.min(rows - 1, Math.max(0, Math.floor((y / width) * rows)));
  return values[row * columns + column]!;
}

const median = (values: Float64Array): number => Float64Array.from(values).sort()[values.length >> 1] ?? 0;

/** Carpets up to this height are what a meter is laid on, m. Design value. */
const carpetHeight = 0.08;

/** What a meter laid on the carpet, or on the ground where there is none, should read. @param tops light of each planting */
export function meterReads(scape: Scape, tops: readonly number[], ground: Float64Array): number {
  const carpets = scape.zones.filter(
    ({ fact, planting, on }) => fact.form === "carpet" && on === null && planting.height.value <= carpetHeight,
  );
  const area = carpets.reduce((sum, z) => sum + z.area, 0);
  return area > 0 ? carpets.reduce((sum, z) => sum + tops[z.index]! * z.area, 0) / area : median(ground);
}

/** Strength of a light when the owner's reading was taken: the lamps at their brightest, no daylight. */
function measuredStrength({ plan }: Scape, { lamp, dimmer, part }: LampSource): number {
  if (lamp === null) return 0;
  return (lamp === 0 ? plan.light!.measuredAt.value : dimmer) * part;
}

/** All that is told of a scape's light. The owner's reading at the substrate, where there is one, sets its scale. */
export function lightReport(scape: Scape, light: LightScene, result: TraceResult): LightReport {
  const { sources } = light;
  const { columns, rows } = result.cells;
  const atFull = fieldsOf(
    result,
    lampWeights(light, () => 1),
  );
  const samplers = zoneSamplers(scape, light, result, atFull);
  const reading = scape.plan.light?.ppfd;
  const then = fieldsOf(
    result,
    lampWeights(light, (i) => measuredStrength(scape, sources[i]!)),
  );
  const expected = meterReads(
    scape,
    samplers.map((zone) => zone.mean(then)),
    then.ground,
  );
  const factor = reading && expected > 0 ? reading.value / expected : 1;
  // the reading sets the scale of the lamps; daylight stays as it is known
  const scale = (i: number): number => (sources[i]!.lamp === null ? 1 : factor);
  const weights = lampWeights(light, (i) => sources[i]!.brightest * scale(i));
  const daily = lampWeights(light, (i) => {
    const { strength, programme } = sources[i]!;
    return strength * fullHoursOf(programme) * microPerHour * scale(i);
  });
  const now = fieldsOf(result, weights);
  const days = fieldsOf(result, daily);
  const solids = weigh(result, weights, "solids");
  const ground: GroundLight = { columns, rows, values: now.ground };
  const { min, max, mean } = spread(ground.values);
  const lamps = sources.filter((s) => s.lamp !== null);
  const total = lamps.reduce((sum, s) => sum + s.photons * s.brightest, 0);
  const known = (key: "low" | "high"): number =>
    total > 0 ? lamps.reduce((sum, s) => sum + s[key] * s.brightest, 0) / total : 1;
  return {
    ground,
    mean,
    min,
    max,
    evenness: mean > 0 ? min / mean : 0,
    daily: spread(days.ground).mean,
    level: levelOf(mean),
    zones: samplers.map((zone) => ({
      index: zone.index,
      mean: zone.mean(now),
      low: zone.under(now, 0.1),
      high: zone.under(now, 0.9),
      daily: zone.mean(days),
    })),
    pieces: scape.pieces.map(({ index }) => ({ index, mean: solids[index]! })),
    budget: budgetOf(light, result),
    noise: Math.max(...result.lamps.map((lamp) => lamp.noise.total)),
    calibration: factor,
    span: reading ? [1, 1] : [known("low"), known("high")],
    lamps: lampsTold(light),
    daylight: light.daylight && { ...light.daylight, side: scape.plan.daylight!.side.value },
    lights: oneLights(light, result, samplers, scale),
  };
}

export function spread(values: Float64Array): { readonly min: number; readonly max: number; readonly mean: number } {
  let [min, max, sum] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 0];
  for (const value of values) {
    min = Math.min(min, value);
    max = Math.max(max, value);
    sum += value;
  }
  return { min, max, mean: sum / values.length };
}

/** Where the photons of all lights, at their brightest, end. */
export function budgetOf(light: LightScene, result: TraceResult): LightBudget {
  const weights = lampWeights(light, (i) => light.sources[i]!.brightest);
  const sum: Record<keyof Budget, number> = {} as Record<keyof Budget, number>;
  let all = 0;
  result.lamps.forEach((lamp, k) => {
    lamp.budget.forEach((budget, b) => {
      const weight = weights[k]![b]!;
      all += weight;
      for (const key of Object.keys(budget) as (keyof Budget)[]) sum[key] = (sum[key] ?? 0) + weight * budget[key];
    });
  });
  const share = (...keys: readonly (keyof Budget)[]): number =>
    all > 0 ? keys.reduce((part, key) => part + (sum[key] ?? 0), 0) / all : 0;
  return {
    spill: share("spill"),
    reflected: share("reflected"),
    top: share("top"),
    panes: share("left", "right", "front", "back"),
    water: share("water"),
    leaves: share("leaves"),
    ground: share("ground"),
    hardscape: share("solids"),
    background: share("walls"),
  };
}

/** Light this near to what a species grows well at is as good, share of it. Design value: within the doubt of any lamp. */
const nearlyGood = 0.85;

/** Plantings whose light does not suit them: each that is starved by itself, those that grow slowly together. */
export function lightFindings(scape: Scape, report: LightReport): readonly ScapeFinding[] {
  const starved: ScapeFinding[] = [];
  const slow: string[] = [];
  let first: ZoneLight | null = null;
  for (const zone of report.zones) {
    const { fact, key, outline } = scape.zones[zone.index]!;
    const told = Math.round(zone.mean);
    if (zone.mean < fact.ppfdMin) {
      starved.push({
        id: `dark-${key}`,
        severity: "caution",
        title: `${key}, ${fact.name}, gets ${told} µmol/m²s; under ${fact.ppfdMin} it does not live for long`,
        reason: "Give it an open place, thin what shades it, or raise the lamp's strength.",
        at: outline[0] ?? null,
        path: ["plants", zone.index],
      });
    } else if (zone.mean < nearlyGood * fact.ppfdGood) {
      slow.push(`${key} ${fact.name} ${told} of ${fact.ppfdGood}`);
      first ??= zone;
    }
  }
  const lamps = lampFindings(report.lamps);
  if (!first) return [...starved, ...lamps];
  const { outline } = scape.zones[first.index]!;
  return [
    ...starved,
    {
      id: "dim",
      severity: "note",
      title: `Less light than ${slow.length === 1 ? "this one grows" : "these grow"} well at: ${slow.join("; ")} µmol/m²s`,
      reason: "They hold on and grow slowly.",
      at: outline[0] ?? null,
      path: ["plants", first.index],
    },
    ...lamps,
  ];
}
