import type { AnimalFact } from "../facts/index.ts";
import type { How } from "../relation/index.ts";

/** Limits of a species for bands on a chart of the day. */
export interface AnimalLimits {
  /** Carbon dioxide above which to take care, and above which the gas must stop, mg/L. */
  readonly co2Caution: number;
  readonly co2Stop: number;
  /** Oxygen below which to take care, and below which to act at once, mg/L. */
  readonly oxygenMin: number;
  readonly oxygenStop: number;
  readonly phMin: number;
  readonly phMax: number;
  /** °C */
  readonly temperatureMin: number;
  readonly temperatureMax: number;
  /** Reasons, in a sentence or two. */
  readonly words: string;
  /** How the carbon dioxide and oxygen limits are known; pH and temperature are common practice. */
  readonly how: How;
  readonly sources: readonly string[];
}

/** Oxygen to aim for at dawn, mg/L; design value. Source: zebrafish-housing */
export const dawnOxygenTarget = 6;
/** Rise of carbon dioxide above which to take care, mg/L per h; design value. */
export const co2RiseCaution = 10;

/** Criteria of dissolved oxygen for fresh water, mg/L; null where there is none. Source: epa-1986-oxygen */
export const oxygenCriteria = {
  "cold water, eggs and fry": { mean30: null, mean7: 9.5, meanOfMinima7: null, minimum: 8 },
  "cold water, grown": { mean30: 6.5, mean7: null, meanOfMinima7: 5, minimum: 4 },
  "warm water, eggs and fry": { mean30: null, mean7: 6, meanOfMinima7: null, minimum: 5 },
  "warm water, grown": { mean30: 5.5, mean7: null, meanOfMinima7: 4, minimum: 3 },
} as const;

/**
 * Changes to stay within: °C per h and day, °C at a water change, pH per h and day (not by CO2), share of dissolved
 * solids per day for shrimp.
 */
export const changeLimits = {
  temperaturePerHour: 1,
  temperaturePerDay: 3,
  temperatureAtChange: 2,
  phPerHour: 0.3,
  phPerDay: 0.5,
  solidsPerDayShrimp: 0.1,
} as const;

/**
 * Limits of a species. Carbon dioxide: no trial of tank fish or dwarf shrimp is known; the limits rest on farmed fish
 * and practice.
 * Animals without a backbone are held 5 mg/L lower; fish of strong currents ask for 1 mg/L more oxygen. Air-breathers
 * get no
 * ease, as their tank mates and the filter have none.
 * @param species a row of the animal table
 * @returns see `AnimalLimits`
 */
export function animalLimits(species: AnimalFact): AnimalLimits {
  const tender = species.kind !== "fish";
  const rushing = species.flow === "strong";
  const oxygenMin = rushing ? 6 : 5;
  const words = [
    tender
      ? "CO2: practice keeps shrimp at 20 to 25 mg/L at most; the upper end is taken, 5 mg/L below fish, and 20 is wiser while they breed."
      : "CO2: farmed warm-water fish are not kept above 20 to 30 mg/L for long, and losses lie above 40.",
    "Lack of oxygen makes the same CO2 worse.",
    rushing
      ? "Oxygen: 1 mg/L above the usual limits, as it comes from fast water."
      : "Oxygen: warm-water criteria ask for 5 mg/L for young and 3 mg/L as the least for grown fish; below 4 act at once.",
  ].join(" ");
  return {
    co2Caution: tender ? 25 : 30,
    co2Stop: tender ? 35 : 40,
    oxygenMin,
    oxygenStop: oxygenMin - 1,
    phMin: species.phMin,
    phMax: species.phMax,
    temperatureMin: species.temperatureMin,
    temperatureMax: species.temperatureMax,
    words,
    how: "design value",
    sources: [
      "wedemeyer-1996",
      "fivelstad-2018",
      "srac-468",
      "epa-1986-oxygen",
      "zebrafish-housing",
      "trade",
      "chosen",
    ],
  };
}

/**
 * The strictest limits of all animals of a tank.
 * @param species rows of the animal table, at least one
 * @returns limits, or null for an empty tank; a least value may lie above its greatest where species do not suit each
 * other
 */
export function strictestLimits(
  species: readonly AnimalFact[],
): Omit<AnimalLimits, "words" | "how" | "sources"> | null {
  const all = species.map(animalLimits);
  if (all.length === 0) return null;
  const lowest = (f: (l: AnimalLimits) => number) => Math.min(...all.map(f));
  const highest = (f: (l: AnimalLimits) => number) => Math.max(...all.map(f));
  return {
    co2Caution: lowest((l) => l.co2Caution),
    co2Stop: lowest((l) => l.co2Stop),
    oxygenMin: highest((l) => l.oxygenMin),
    oxygenStop: highest((l) => l.oxygenStop),
    phMin: highest((l) => l.phMin),
    phMax: lowest((l) => l.phMax),
    temperatureMin: highest((l) => l.temperatureMin),
    temperatureMax: lowest((l) => l.temperatureMax),
  };
}
