/** What a trace of a scape's light comes to: the map on the ground, what each planting gets, and where the photons go. */
import { cellOverlaps, fieldHeight, type Point2 } from "../geometry/index.ts";
import type { LampPlan } from "../plan/index.ts";
import { type Budget, type TraceResult, weigh } from "../tracer/index.ts";
import type { ScapeFinding } from "./checks.ts";
import { type LightScene, lampsOf } from "./light-scene.ts";
import type { Scape } from "./scape.ts";

/** Photon flux density on the ground as a level sensor reads it, row by row from the front. */
export interface GroundLight {
  readonly columns: number;
  readonly rows: number;
  /** umol/m2/s, lamps at the strength set. */
  readonly values: Float64Array;
}

export interface ZoneLight {
  /** Position in the plan's list. */
  readonly index: number;
  /** At the top of its leaves, lamps at the strength set, umol/m2/s: mean, and darkest and brightest tenth of its area. */
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
}

/** Trade's levels at the substrate, umol/m2/s. Common practice, no source. */
export const levels = { medium: 50, high: 100 } as const;

/**
 * Light from all sides over that on a level sensor, in open tank water under lamps: 1.12 in a traced reference scene of a
 * bare box.
 */
const roundToLevel = 1.12;

const microPerHour = 3600e-6;

/** Hours at full strength that give a lamp's photons of a day: each ramp counts half. */
export function fullHours({ on, off, ramp }: Pick<LampPlan, "on" | "off" | "ramp">): number {
  return Math.max(0, off.value - on.value - ramp.value);
}

/** Photons of each lamp in each band, umol/s; `at` gives the share of full output of each lamp. */
export function lampWeights({ sources }: LightScene, at: (index: number) => number): readonly (readonly number[])[] {
  return sources.map(({ index, photons, share }) => share.map((part) => photons * part * at(index)));
}

/** The map on the ground at other strengths: one weighted sum. @param strengths of each lamp, 0..1 */
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

/** What a meter laid on the carpet, or on the ground where there is none, should read. */
function meterReads(scape: Scape, zones: readonly ZoneLight[], ground: Float64Array): number {
  const carpets = zones.filter(({ index }) => {
    const { fact, planting, on } = scape.zones[index]!;
    return fact.form === "carpet" && on === null && planting.height.value <= carpetHeight;
  });
  const area = carpets.reduce((sum, z) => sum + scape.zones[z.index]!.area, 0);
  return area > 0 ? carpets.reduce((sum, z) => sum + z.mean * scape.zones[z.index]!.area, 0) / area : median(ground);
}

/** All that is told of a scape's light. The owner's reading at the substrate, where there is one, sets its scale. */
export function lightReport(scape: Scape, light: LightScene, result: TraceResult): LightReport {
  const lamps = lampsOf(scape);
  const weights = lampWeights(light, (i) => lamps[i]!.strength.value);
  const daily = lampWeights(light, (i) => lamps[i]!.strength.value * fullHours(lamps[i]!) * microPerHour);
  const { columns, rows } = result.cells;
  const bare: GroundLight = { columns, rows, values: weigh(result, weights) };
  const days = weigh(result, daily);
  const water = weigh(result, weights, "water");
  const waterDays = weigh(result, daily, "water");
  const solids = weigh(result, weights, "solids");
  const zones = scape.zones.map((zone) => zoneLight(scape, light, zone.index, bare, water, days, waterDays));
  const reading = scape.plan.light?.ppfd;
  const expected = meterReads(scape, zones, bare.values);
  const factor = reading && expected > 0 ? reading.value / expected : 1;
  const ground: GroundLight = { ...bare, values: bare.values.map((v) => v * factor) };
  const { min, max, mean } = spread(ground.values);
  const total = light.sources.reduce((sum, s) => sum + s.photons * s.strength, 0);
  const known = (key: "low" | "high"): number =>
    total > 0 ? light.sources.reduce((sum, s) => sum + s[key] * s.strength, 0) / total : 1;
  return {
    ground,
    mean,
    min,
    max,
    evenness: mean > 0 ? min / mean : 0,
    daily: spread(days).mean * factor,
    level: mean > levels.high ? "high" : mean > levels.medium ? "medium" : "low",
    zones: zones.map((z) => ({
      ...z,
      mean: z.mean * factor,
      low: z.low * factor,
      high: z.high * factor,
      daily: z.daily * factor,
    })),
    pieces: scape.pieces.map(({ index }) => ({ index, mean: solids[index]! * factor })),
    budget: budgetOf(light, result),
    noise: Math.max(...result.lamps.map((lamp) => lamp.noise.total)),
    calibration: factor,
    span: reading ? [1, 1] : [known("low"), known("high")],
  };
}

function spread(values: Float64Array): { readonly min: number; readonly max: number; readonly mean: number } {
  let [min, max, sum] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 0];
  for (const value of values) {
    min = Math.min(min, value);
    max = Math.max(max, value);
    sum += value;
  }
  return { min, max, mean: sum / values.length };
}

/**
 * Light at the top of a planting: that of the open water in the layer above its leaves, brought to a level sensor; where
 * no whole layer of water is left above them, that on the ground beneath.
 */
function zoneLight(
  scape: Scape,
  { scene }: LightScene,
  index: number,
  ground: GroundLight,
  water: Float64Array,
  days: Float64Array,
  waterDays: Float64Array,
): ZoneLight {
  const zone = scape.zones[index]!;
  const { columns, rows, layers } = scene.water!;
  const { length, width, waterDepth } = scape;
  const areas = cellOverlaps(zone.outline, { length, width, columns: columns + 1, rows: rows + 1 });
  const piece = zone.on === null ? undefined : scape.pieces[zone.on];
  const top = piece ? topOf(piece.mesh.positions) : 0;
  const found: { readonly area: number; readonly now: number; readonly day: number }[] = [];
  areas.forEach((area, i) => {
    if (!(area > 0)) return;
    const place: Point2 = [
      ((i % columns) + 0.5) * (length / columns),
      (Math.floor(i / columns) + 0.5) * (width / rows),
    ];
    const foot = piece ? top : fieldHeight(scape.ground, place[0], place[1]);
    const height = zone.afloat ? waterDepth : Math.min(waterDepth, foot + zone.planting.height.value);
    const layer = Math.min(layers - 1, Math.ceil((height / waterDepth) * layers));
    const at = layer * columns * rows + i;
    // a cell of water that stones or ground fill is dark and says nothing of what grows there
    const [now, day] = [water[at]! / roundToLevel, waterDays[at]! / roundToLevel];
    const floor = lightAt(ground, scape, place);
    found.push({ area, now: Math.max(now, floor), day: now > floor ? day : dayAt(ground, days, scape, place) });
  });
  const all = found.reduce((sum, f) => sum + f.area, 0);
  const mean = (key: "now" | "day"): number => found.reduce((sum, f) => sum + f[key] * f.area, 0) / all;
  const sorted = [...found].sort((a, b) => a.now - b.now);
  const at = (share: number): number => {
    let passed = 0;
    for (const f of sorted) {
      passed += f.area;
      if (passed >= share * all) return f.now;
    }
    return sorted.at(-1)?.now ?? 0;
  };
  return { index, mean: mean("now"), low: at(0.1), high: at(0.9), daily: mean("day") };
}

function dayAt({ columns, rows }: GroundLight, days: Float64Array, scape: Scape, place: Point2): number {
  return lightAt({ columns, rows, values: days }, scape, place);
}

function topOf(positions: Float64Array): number {
  let top = 0;
  for (let i = 2; i < positions.length; i += 3) top = Math.max(top, positions[i]!);
  return top;
}

function budgetOf({ sources }: LightScene, result: TraceResult): LightBudget {
  const sum: Record<keyof Budget, number> = {} as Record<keyof Budget, number>;
  let all = 0;
  result.lamps.forEach((lamp, k) => {
    const source = sources[k]!;
    lamp.budget.forEach((budget, b) => {
      const weight = source.photons * source.strength * source.share[b]!;
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
  if (!first) return starved;
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
  ];
}
