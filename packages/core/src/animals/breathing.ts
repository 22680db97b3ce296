import type { AnimalKind } from "../facts/index.ts";
import { relation } from "../relation/index.ts";
import { bodyMass, choice, count, quantity, temperature } from "./usual-inputs.ts";

/** Multiples of the fish equation: in sleep, by night with light stirring (the default), fed or active by day. */
export const activityFactors = { asleep: 0.6, night: 1, active: 1.7 } as const;

/** Records scatter about the equation by this factor both ways: show it with every figure. Source: fishbase-oxygen */
export const breathingBand = 2;

/** Carbon dioxide given per oxygen used, g/g, at a respiratory quotient of 1 (0.8 to 0.9 is usual). */
export const co2PerOxygen = 44.009 / 31.998;

/**
 * Oxygen use of a resting fish.
 * @param mass wet, g (0.1 to some thousands; below about 1 g an extrapolation); @param t °C, 5 to 32
 * @param activity multiple, see `activityFactors`
 * @returns mg/h per fish, within a factor of 2. Source: clarke-johnston-1999
 */
export function fishOxygen(mass: number, t: number, activity = 1): number {
  return activity * 31.998 * Math.exp(15.7 - 5020 / (t + 273.15)) * (mass / 50) ** 0.8;
}

/**
 * Oxygen use of small warm-water fish by an independent fit of standard records (15 to 32 °C, below 100 g; spread of
 * ln 0.70).
 * @returns mg/h per fish. Source: fishbase-oxygen
 */
export function fishOxygenRecords(mass: number, t: number): number {
  return (mass / 1000) * Math.exp(4.451 - 0.2595 * Math.log(mass) + 0.05276 * t);
}

/** Oxygen use of a fish at 20 °C, routine, by the old ration law. @returns mg/h. Source: winberg-1956 */
export function fishOxygenWinberg(mass: number): number {
  return 1.429 * 0.3 * mass ** 0.8;
}

/**
 * Oxygen use of a freshwater shrimp per mass, as fitted; measured values ran from 0.15 to 0.91.
 * @param mass wet, g, 0.12 to 1.93; @param t °C, 12 to 30
 * @returns mg/g/h. Source: liu-2010
 */
export function shrimpOxygen(mass: number, t: number): number {
  return 0.028 * t - 0.147 * mass - 0.053;
}

/**
 * Ammonia nitrogen a freshwater shrimp gives off per mass; measured 0.0165 to 0.087. @returns mg/g/h. Source: liu-2010
 */
export function shrimpAmmonia(mass: number, t: number): number {
  return 0.002 * t - 0.017 * mass + 0.013;
}

/**
 * Oxygen use of a snail per mass with shell at 25 °C, mg/g/h: 0.1 per gram of tissue, tissue 0.3 of the mass;
 * doubtful.
 */
export const snailOxygen25 = 0.03;

const clamp = (x: number, low: number, high: number) => Math.min(high, Math.max(low, x));

/**
 * Oxygen use of one animal, for a tank model: defined at any mass and temperature.
 * Shrimp use the fit inside the span of its data and the nearest measured rate outside; atyids lie below it. Snails
 * double per
 * 10 °C (design value).
 * @param kind of animal; @param mass wet, with shell, g; @param t °C; @param activity multiple
 * @returns mg/h. Sources: clarke-johnston-1999, liu-2010, chosen
 */
export function animalRespiration(kind: AnimalKind, mass: number, t: number, activity = 1): number {
  if (kind === "fish") return fishOxygen(mass, t, activity);
  if (kind === "snail") return activity * snailOxygen25 * mass * 2 ** ((t - 25) / 10);
  const rate = shrimpOxygen(clamp(mass, 0.12, 1.93), clamp(t, 12, 30));
  return activity * mass * clamp(rate, 0.15, 0.91);
}

export const breathingRelations = [
  relation({
    id: "fish-oxygen",
    title: "Oxygen used by fish",
    room: "animals",
    inputs: {
      mass: bodyMass,
      temperature,
      activity: quantity("activity: 0.6 asleep, 1 night, 1.7 fed or active", "1", 0.1, 5, 1),
      count,
    },
    outputs: {
      oxygen: { label: "oxygen used", unit: "mg/h" },
      per_mass: { label: "per mass", unit: "mg/kg/h" },
      low: { label: "low end", unit: "mg/h" },
      high: { label: "high end", unit: "mg/h" },
      co2: { label: "carbon dioxide given, at quotient 1", unit: "mg/h" },
    },
    equation: "ln R50 = 15.7 - 5020/T; R = R50 (W/50)^0.80 mmol/h; times 31.998",
    sources: ["clarke-johnston-1999", "fishbase-oxygen"],
    validity:
      "5 to 32 °C; within a factor of 2; below 1 g an extrapolation; carp-like fish that bear lack of oxygen use less",
    compute: (i) => {
      const each = fishOxygen(i.mass, i.temperature, i.activity);
      const all = each * i.count;
      return {
        oxygen: all,
        per_mass: (1000 * each) / i.mass,
        low: all / breathingBand,
        high: all * breathingBand,
        co2: all * co2PerOxygen,
      };
    },
  }),
  relation({
    id: "fish-oxygen-other-fits",
    title: "Oxygen used by a fish, two other laws",
    room: "animals",
    inputs: { mass: bodyMass, temperature },
    outputs: {
      records: { label: "fit of standard records of small warm-water fish", unit: "mg/h" },
      winberg: { label: "ration law at 20 °C", unit: "mg/h" },
    },
    equation: "exp(4.451 - 0.2595 ln W + 0.05276 T) W/1000; 0.3 W^0.8 mL/h",
    sources: ["fishbase-oxygen", "winberg-1956"],
    validity: "15 to 32 °C and below 100 g; 20 °C",
    compute: (i) => ({ records: fishOxygenRecords(i.mass, i.temperature), winberg: fishOxygenWinberg(i.mass) }),
  }),
  relation({
    id: "fish-oxygen-warming",
    title: "How much more a fish breathes in warmer water",
    room: "animals",
    inputs: {
      temperature_low: quantity("lower temperature", "°C", 0, 40, 20),
      temperature_high: quantity("higher temperature", "°C", 0, 40, 30),
    },
    outputs: {
      ratio: { label: "higher over lower", unit: "1" },
      q10: { label: "factor per 10 °C", unit: "1" },
    },
    equation: "exp(5020 (1/T1 - 1/T2))",
    sources: ["clarke-johnston-1999"],
    validity: "between species; one species warmed slowly rises by about 2.4 per 10 °C",
    compute: (i) => {
      const ratio = fishOxygen(50, i.temperature_high) / fishOxygen(50, i.temperature_low);
      const span = i.temperature_high - i.temperature_low;
      return {
        ratio,
        q10: span === 0 ? Math.exp((5020 * 10) / (i.temperature_low + 273.15) ** 2) : ratio ** (10 / span),
      };
    },
  }),
  relation({
    id: "shrimp-oxygen",
    title: "Oxygen used and ammonia given by shrimp",
    room: "animals",
    inputs: {
      mass: quantity("wet mass of one shrimp", "g", 0.12, 1.93),
      temperature: quantity("water temperature", "°C", 12, 30, 25),
      count,
    },
    outputs: {
      oxygen_per_mass: { label: "oxygen per mass", unit: "mg/g/h" },
      ammonia_per_mass: { label: "ammonia nitrogen per mass", unit: "mg/g/h" },
      oxygen: { label: "oxygen used", unit: "mg/h" },
      ammonia: { label: "ammonia nitrogen given", unit: "mg/d" },
    },
    equation: "R_O = 0.028 T - 0.147 W - 0.053; R_N = 0.002 T - 0.017 W + 0.013",
    sources: ["liu-2010"],
    validity: "Exopalaemon modestus; dwarf shrimp of tanks use less; the printed coefficients are rounded",
    compute: (i) => {
      const oxygen = Math.max(0, shrimpOxygen(i.mass, i.temperature));
      const ammonia = Math.max(0, shrimpAmmonia(i.mass, i.temperature));
      const all = i.mass * i.count;
      return {
        oxygen_per_mass: oxygen,
        ammonia_per_mass: ammonia,
        oxygen: oxygen * all,
        ammonia: 24 * ammonia * all,
      };
    },
  }),
  relation({
    id: "shrimp-oxygen-single",
    title: "Oxygen used and ammonia given by shrimp, by temperature or mass alone",
    room: "animals",
    inputs: {
      mass: quantity("wet mass of one shrimp", "g", 0.12, 1.93, 0.5),
      temperature: quantity("water temperature", "°C", 12, 30, 25),
    },
    outputs: {
      oxygen_by_temperature: { label: "oxygen, by temperature", unit: "mg/g/h" },
      ammonia_by_temperature: { label: "ammonia nitrogen, by temperature", unit: "mg/g/h" },
      oxygen_by_mass: { label: "oxygen, by mass", unit: "mg/g/h" },
      ammonia_by_mass: { label: "ammonia nitrogen, by mass", unit: "mg/g/h" },
    },
    equation: "0.0711 e^(0.0749 T); 0.0113 e^(0.0530 T); 0.3114 W^-0.2414; 0.0307 W^-0.3007",
    sources: ["liu-2010"],
    compute: (i) => ({
      oxygen_by_temperature: 0.0711 * Math.exp(0.0749 * i.temperature),
      ammonia_by_temperature: 0.0113 * Math.exp(0.053 * i.temperature),
      oxygen_by_mass: 0.3114 * i.mass ** -0.2414,
      ammonia_by_mass: 0.0307 * i.mass ** -0.3007,
    }),
  }),
  relation({
    id: "animal-oxygen",
    title: "Oxygen used by animals of a kind",
    room: "animals",
    inputs: {
      kind: choice("kind", ["fish", "shrimp", "snail"], "fish"),
      mass: bodyMass,
      temperature,
      activity: quantity("activity: 0.6 asleep, 1 night, 1.7 fed or active", "1", 0.1, 5, 1),
      count,
    },
    outputs: { oxygen: { label: "oxygen used", unit: "mg/h" } },
    equation:
      "fish as fish-oxygen; shrimp as shrimp-oxygen held to the measured span; snails 0.03 mg/g/h at 25 °C, doubling per 10 °C",
    sources: ["clarke-johnston-1999", "liu-2010", "chosen"],
    validity: "snails doubtful, 0.01 to 0.05 mg/g/h",
    compute: (i) => ({ oxygen: i.count * animalRespiration(i.kind, i.mass, i.temperature, i.activity) }),
  }),
] as const;
