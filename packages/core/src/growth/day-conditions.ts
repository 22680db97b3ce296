/** What a day gives each planting: light through its hours, carbon dioxide, warmth; and what it grows on that. */
import {
  canopyLight,
  carbonFactor,
  grossRate,
  leafLight,
  mortalityRate,
  type PatchParameters,
  respirationRate,
  temperatureFactor,
  umolPerMgCo2,
} from "../plants/index.ts";
import type { RepeatingDay, Setup } from "../tank/index.ts";
import type { DayRates } from "./stand.ts";

/** Evenly spaced moments of a day that repeats. */
export interface DayConditions {
  /** umol/L */
  readonly co2: Float64Array;
  /** umol/L */
  readonly bicarbonate: number;
  /** °C */
  readonly temperature: Float64Array;
  /** Light at the top of each planting, umol/m2/s, at each moment. */
  readonly light: readonly Float64Array[];
}

/** What holds a planting back most. */
export type Hold = "light" | "co2" | "warmth" | "room" | "melt" | "nothing";

/** What a planting gets and how far each thing lets it grow, 1 = as well as it can. */
export interface DayGrowth extends DayRates {
  /** Mean over the lit hours, umol/m2/s. */
  readonly ppfd: number;
  /** mol/m2/d */
  readonly daily: number;
  readonly hold: Hold;
  /** How far that lets it grow, 0 to 1. */
  readonly held: number;
}

/** Moments of a day: every quarter of an hour. */
const moments = 96;

/** The conditions for which the plant table tells its growth: light hours, and what a leaf makes of good light. Design values. */
const good = { hours: 10, leaf: 0.75, co2: 30 * umolPerMgCo2 } as const;
/** Above this nothing is worth naming as a hold. Design value. */
const free = 0.9;

/** Strength of each light of a setup at an hour, share of full. */
function strengthAt(day: Setup["lamps"][number]["day"], hour: number): number {
  for (const s of day) {
    const since = (((hour - s.from) % 24) + 24) % 24;
    if (since < s.to - s.from) return s.first + ((s.last - s.first) * since) / (s.to - s.from);
  }
  return 0;
}

function between(hours: Float64Array, values: Float64Array, hour: number): number {
  let i = 1;
  while (i < hours.length - 1 && hours[i]! < hour) i += 1;
  const [a, b] = [hours[i - 1]!, hours[i]!];
  const t = b > a ? Math.min(1, Math.max(0, (hour - a) / (b - a))) : 0;
  return values[i - 1]! * (1 - t) + values[i]! * t;
}

/** The day that a tank repeats, as its plantings meet it. @param bicarbonate umol/L */
export function dayConditions(setup: Setup, day: RepeatingDay, bicarbonate: number): DayConditions {
  const at = Array.from({ length: moments }, (_, i) => ((i + 0.5) * 24) / moments);
  const strengths = setup.lamps.map((lamp) => at.map((hour) => strengthAt(lamp.day, hour)));
  return {
    co2: Float64Array.from(at, (hour) => Math.max(0, between(day.hours, day.series.co2, hour)) * umolPerMgCo2),
    temperature: Float64Array.from(at, (hour) => between(day.hours, day.series.temperature, hour)),
    bicarbonate,
    light: setup.patches.map(({ light }) =>
      Float64Array.from(at, (_, i) => light.reduce((sum, full, l) => sum + full * strengths[l]![i]!, 0)),
    ),
  };
}

/** Conditions that stay the same while the lamp is on, which it is at once for so many hours; for checks and worked examples. */
export function steadyDay(
  light: number,
  hours: number,
  co2: number,
  temperature: number,
  bicarbonate = 0,
): DayConditions {
  const lit = Math.round((hours / 24) * moments);
  return {
    co2: new Float64Array(moments).fill(co2),
    temperature: new Float64Array(moments).fill(temperature),
    bicarbonate,
    light: [Float64Array.from({ length: moments }, (_, i) => (i < lit ? light : 0))],
  };
}

/**
 * Rates of a planting on a day: the canopy's answer to light, carbon and warmth, summed over its moments.
 * @param density g/m2 within its clumps; @param capacity of its leaves, 0 to 1; @param brightness factor on the light
 */
export function dayRates(
  p: PatchParameters,
  day: DayConditions,
  light: Float64Array,
  density: number,
  capacity: number,
  brightness = 1,
): DayRates {
  let gross = 0;
  let respiration = 0;
  for (let i = 0; i < moments; i += 1) {
    const t = day.temperature[i]!;
    respiration += respirationRate(p, t, 1);
    const ppfd = light[i]! * brightness;
    if (!(ppfd > 0)) continue;
    const fT = temperatureFactor(t, p);
    const fC = carbonFactor(day.co2[i]!, day.bicarbonate, ppfd, p);
    gross += grossRate(p, fT, canopyLight(ppfd, p, density, fT), fC, 1, 1, 0, capacity);
  }
  return { gross: gross / moments, respiration: respiration / moments, mortality: mortalityRate(p, 1) };
}

/** The same with what it gets and what holds it back most. */
export function dayGrowth(
  p: PatchParameters,
  day: DayConditions,
  light: Float64Array,
  density: number,
  capacity: number,
): DayGrowth {
  let [lit, photons, leaves, canopy, warmth, carbon, best] = [0, 0, 0, 0, 0, 0, 0];
  for (let i = 0; i < moments; i += 1) {
    const ppfd = light[i]!;
    if (!(ppfd > 0)) continue;
    const fT = temperatureFactor(day.temperature[i]!, p);
    lit += 1;
    photons += ppfd;
    leaves += leafLight(ppfd, p.kI);
    canopy += canopyLight(ppfd, p, density, fT) / (canopyLight(ppfd, p, 0, fT) || 1);
    warmth += fT;
    carbon += carbonFactor(day.co2[i]!, day.bicarbonate, ppfd, p);
    best += carbonFactor(good.co2, day.bicarbonate, ppfd, p);
  }
  const hours = (lit * 24) / moments;
  const shares: readonly (readonly [Exclude<Hold, "nothing">, number])[] = [
    ["light", Math.min(1, ((leaves / moments) * 24) / (good.hours * good.leaf))],
    ["co2", best > 0 ? Math.min(1, carbon / best) : 1],
    ["warmth", lit > 0 ? warmth / lit : 1],
    ["room", lit > 0 ? canopy / lit : 1],
    ["melt", capacity],
  ];
  const [hold, held] = shares.reduce((least, next) => (next[1] < least[1] ? next : least));
  return {
    ...dayRates(p, day, light, density, capacity),
    ppfd: lit > 0 ? photons / lit : 0,
    daily: lit > 0 ? (photons / lit) * hours * 3600e-6 : 0,
    hold: held > free ? "nothing" : hold,
    held,
  };
}
