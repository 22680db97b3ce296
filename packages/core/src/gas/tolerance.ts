import { type How, relation } from "../relation/index.ts";
import { co2PartialPressure } from "./solubility.ts";
import { choice, quantity, waterTemperature } from "./usual-inputs.ts";

/**
 * CO2 levels for the animals of a planted tank, mg/L, and rise, mg/L/h. Design values: no limit for small ornamental
 * fish or shrimp was found in print; the target span is common practice. Source: animal-limits-design
 */
export const CO2_FOR_ANIMALS = {
  targetLow: 15,
  targetHigh: 30,
  caution: 30,
  stop: 40,
  risePerHour: 10,
  tightenBy: 10,
} as const;

/** What makes animals less able to bear CO2. */
export interface Strain {
  /** Oxygen below 80 % of saturation. */
  readonly lowOxygen?: boolean;
  readonly night?: boolean;
  /** Animals from soft water that are not used to CO2. */
  readonly unacclimated?: boolean;
  readonly breedingInvertebrates?: boolean;
}

export interface AnimalLimits {
  readonly targetLow: number;
  readonly targetHigh: number;
  readonly caution: number;
  readonly stop: number;
  readonly risePerHour: number;
}

/**
 * Limits for the animals, 10 mg/L lower under any strain. Alkalinity does not enter: it changes pH, not the pressure
 * of the gas.
 * @returns mg/L, and mg/L/h for the rise. Source: animal-limits-design
 */
export function animalLimits(strain: Strain = {}): AnimalLimits {
  const { targetLow, targetHigh, caution, stop, risePerHour, tightenBy } = CO2_FOR_ANIMALS;
  const strained =
    strain.lowOxygen || strain.night || strain.unacclimated || strain.breedingInvertebrates ? tightenBy : 0;
  return {
    targetLow,
    targetHigh: targetHigh - strained,
    caution: caution - strained,
    stop: stop - strained,
    risePerHour,
  };
}

export type Co2Verdict = "low" | "target" | "caution" | "stop";

/**
 * What a level and its rise mean for the animals.
 * @param mgL CO2, mg/L
 * @param risePerHour mg/L/h
 * @param strain see `Strain`
 * @returns "low" is a matter for plants alone. Source: animal-limits-design
 */
export function co2Verdict(mgL: number, risePerHour = 0, strain: Strain = {}): Co2Verdict {
  const limits = animalLimits(strain);
  if (mgL > limits.stop) return "stop";
  if (mgL > limits.caution || risePerHour > limits.risePerHour) return "caution";
  return mgL < limits.targetLow ? "low" : "target";
}

/** Words printed with every verdict on CO2 and animals. */
export const animalCaution =
  "Design limits, not proven safe ones: animals answer to the pressure of the gas, which the same mg/L raises in warm water. Watch for gasping, close the valve and add air at the first sign; ask a vet or an experienced keeper about sensitive animals.";

export interface Co2Finding {
  readonly animal: string;
  readonly finding: string;
  /** Level the finding stands for, mg/L; null where it is given otherwise. */
  readonly mgL: number | null;
  readonly source: string;
  readonly how: How;
}

/** Published effects of CO2 on animals, cold water first. */
export const co2Findings: readonly Co2Finding[] = [
  {
    animal: "salmon parr",
    finding: "growth unharmed up to this; some loss to 20, steep above",
    mgL: 15,
    source: "fivelstad-parr",
    how: "read",
  },
  {
    animal: "salmon post-smolt, 12 weeks",
    finding: "kidney stones in a third of the fish at 21 to 30, none at 2 to 15",
    mgL: 21,
    source: "fivelstad-2018",
    how: "read",
  },
  {
    animal: "salmon smolt in bicarbonate-rich water, 62 d",
    finding: "lower plasma chloride and condition; at 32 faster breathing",
    mgL: 19,
    source: "fivelstad-1999",
    how: "read",
  },
  {
    animal: "gilthead seabream",
    finding: "growth little affected up to this; deaths at 56",
    mgL: 20,
    source: "seabream-2013",
    how: "read",
  },
  { animal: "salmonids", finding: "limit for long exposure", mgL: 20, source: "alabaster-lloyd-1980", how: "read" },
  {
    animal: "warm-water fish",
    finding: "20 to 30 not to be exceeded for long",
    mgL: 20,
    source: "wedemeyer-1996",
    how: "read",
  },
  {
    animal: "largemouth bass, 25 °C",
    finding: "steady swimming little affected up to at least this",
    mgL: 40,
    source: "dahlberg-1963",
    how: "read",
  },
  { animal: "tilapia", finding: "working limit; lethal near 75", mgL: 50, source: "purdue-1998", how: "read" },
  {
    animal: "fish in general",
    finding: "worse at low oxygen; dawn is the worst hour",
    mgL: null,
    source: "hargreaves-brunson-1996",
    how: "read",
  },
  {
    animal: "farmed cold-water fish",
    finding: "design limit 15 to 20; warm-water 20 to 30",
    mgL: 15,
    source: "timmons-ebeling",
    how: "memory",
  },
  {
    animal: "juvenile freshwater crab",
    finding: "CO2 acidification cut survival, shell growth and activity",
    mgL: null,
    source: "quijada-rodriguez-2021",
    how: "read",
  },
  {
    animal: "white shrimp",
    finding: "half die in 96 h near 60, safe near 6; doubtful, source not found again",
    mgL: 60,
    source: "shrimp-recalled",
    how: "memory",
  },
  { animal: "fish", finding: "numbed from 100 to 150", mgL: 100, source: "fishery-texts", how: "memory" },
];

const flag = (label: string) => choice(label, ["no", "yes"], "no");

export const toleranceRelations = [
  relation({
    id: "co2-animal-limits",
    title: "CO2 limits for the animals of a planted tank",
    room: "gas",
    inputs: {
      low_oxygen: flag("oxygen below 80 % of saturation"),
      night: flag("night"),
      unacclimated: flag("soft-water animals not used to CO2"),
      breeding_invertebrates: flag("breeding shrimp or snails"),
    },
    outputs: {
      target_low: { label: "target from", unit: "mg/L" },
      target_high: { label: "target to", unit: "mg/L" },
      caution: { label: "caution above", unit: "mg/L" },
      stop: { label: "stop above", unit: "mg/L" },
      rise: { label: "caution above this rise", unit: "mg/L/h" },
    },
    equation: "15 to 30, caution above 30 or a rise above 10 an hour, stop above 40; 10 lower under any strain",
    sources: ["animal-limits-design", "wedemeyer-1996", "dahlberg-1963", "hargreaves-brunson-1996"],
    caution: animalCaution,
    compute: (i) => {
      const limits = animalLimits({
        lowOxygen: i.low_oxygen === "yes",
        night: i.night === "yes",
        unacclimated: i.unacclimated === "yes",
        breedingInvertebrates: i.breeding_invertebrates === "yes",
      });
      return {
        target_low: limits.targetLow,
        target_high: limits.targetHigh,
        caution: limits.caution,
        stop: limits.stop,
        rise: limits.risePerHour,
      };
    },
  }),
  relation({
    id: "co2-equal-pressure-level",
    title: "Level that presses as hard at another temperature",
    room: "gas",
    inputs: {
      co2: quantity("CO2", "mg/L", 0, 500),
      temperature: waterTemperature,
      other_temperature: quantity("other water temperature", "°C", 0, 40),
    },
    outputs: { co2: { label: "level of the same CO2 pressure", unit: "mg/L" } },
    equation: "C2 = C1 K0(t2)/K0(t1)",
    sources: ["weiss-1974"],
    caution: animalCaution,
    compute: ({ co2, temperature, other_temperature }) => ({
      co2: co2PartialPressure(co2, temperature) / co2PartialPressure(1, other_temperature),
    }),
  }),
] as const;
