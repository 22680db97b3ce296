import { relation } from "../relation/index.ts";
import { BAR, GAS_CONSTANT, MOLAR_MASS, ZERO_CELSIUS } from "./constants.ts";
import { quantity } from "./usual-inputs.ts";

export interface ExposureLimit {
  readonly body: string;
  readonly name: string;
  /** Mole fraction, ppm(v). */
  readonly ppm: number;
  /** What the figure is averaged over. */
  readonly over: string;
  readonly source: string;
}

/**
 * Limits for people who breathe CO2. Where they work or live the local code decides. Sources stand with each row.
 */
export const exposureLimits: readonly ExposureLimit[] = [
  { body: "OSHA, United States", name: "PEL", ppm: 5000, over: "8 h mean", source: "niosh-idlh" },
  { body: "NIOSH, United States", name: "REL", ppm: 5000, over: "shift mean", source: "niosh-idlh" },
  { body: "NIOSH, United States", name: "short-term REL", ppm: 30000, over: "15 min mean", source: "niosh-idlh" },
  { body: "ACGIH, United States", name: "TLV", ppm: 5000, over: "8 h mean", source: "acgih" },
  { body: "ACGIH, United States", name: "short-term TLV", ppm: 30000, over: "15 min mean", source: "acgih" },
  {
    body: "NIOSH, United States",
    name: "immediately dangerous (1994)",
    ppm: 40000,
    over: "any time",
    source: "niosh-idlh",
  },
  { body: "European Union", name: "indicative limit", ppm: 5000, over: "8 h mean", source: "directive-2006-15" },
  { body: "United Kingdom", name: "WEL", ppm: 5000, over: "8 h mean", source: "eh40" },
  { body: "United Kingdom", name: "short-term WEL", ppm: 15000, over: "15 min mean", source: "eh40" },
  { body: "Department of Energy, United States", name: "PAC-1", ppm: 30000, over: "release", source: "doe-pac" },
  { body: "Department of Energy, United States", name: "PAC-2", ppm: 40000, over: "release", source: "doe-pac" },
  { body: "Department of Energy, United States", name: "PAC-3", ppm: 50000, over: "release", source: "doe-pac" },
];

/** What breathing CO2 does, from the lowest share at which it is reported. ppm(v). Source: niosh-idlh, supplier-sheet-2009 */
export const exposureEffects = [
  { ppm: 10000, effect: "breathing a little deeper" },
  { ppm: 20000, effect: "breathing half as much again, headache after long exposure" },
  { ppm: 30000, effect: "breathing doubled, dulled senses and hearing" },
  { ppm: 40000, effect: "breathing about four times as much; signs of poisoning within half an hour at 50 000" },
  { ppm: 70000, effect: "loss of consciousness within minutes; 90 000 for 5 min is the lowest reported death" },
  { ppm: 100000, effect: "rapid loss of consciousness" },
] as const;

/** Cautions for a CO2 cylinder at home, in the order in which they matter. They defer to local codes and the supplier. */
export const cylinderCautions: readonly string[] = [
  "Stand the cylinder upright and hold it with a strap or chain so that it cannot fall.",
  "Keep it cool: away from sun, radiators and lamps.",
  "Put it in an aired room above ground; never in a closed cabinet or a room where people sleep, and in a car only for the drive, with windows open.",
  "Use a cylinder within its test date, with an undamaged valve and a regulator made for CO2; never force one thread onto another.",
  "After every change brush soapy water on the joints and look for bubbles.",
  "Carry it with its cap on.",
  "Never fill, decant or heat it yourself: it is filled by weight, by trained people.",
  "CO2 is heavier than air and gathers near the floor, in cellars and in cabinets; an oxygen alarm does not warn of it, a CO2 alarm does.",
  "If a cylinder lets go: leave, air the room from outside, stay out of low rooms, and call the fire service.",
  "Local codes, the gas supplier and the makers of the parts come before anything this program says.",
];

/**
 * Share of CO2 in air from its mass per volume.
 * @param mgM3 mg/m3
 * @param t air temperature, °C; limits are printed for 25 °C
 * @param bar air pressure, bar
 * @returns ppm(v)
 */
export function ppmFromMass(mgM3: number, t = 25, bar = 1.01325): number {
  return ((mgM3 / 1e3 / MOLAR_MASS.co2) * GAS_CONSTANT * (t + ZERO_CELSIUS) * 1e6) / (bar * BAR);
}

/**
 * Mass per volume of a share of CO2 in air.
 * @param ppm ppm(v)
 * @param t air temperature, °C; limits are printed for 25 °C
 * @param bar air pressure, bar
 * @returns mg/m3
 */
export function massFromPpm(ppm: number, t = 25, bar = 1.01325): number {
  return (ppm * 1e-6 * bar * BAR * MOLAR_MASS.co2 * 1e3) / (GAS_CONSTANT * (t + ZERO_CELSIUS));
}

export const exposureRelations = [
  relation({
    id: "co2-air-mass",
    title: "CO2 in air as mass per volume",
    room: "gas",
    inputs: {
      co2: quantity("CO2 in air", "ppm(v)", 0, 1e6),
      temperature: quantity("air temperature", "°C", -20, 50, 25),
    },
    outputs: { mass: { label: "mass per volume", unit: "mg/m3" } },
    equation: "x P M/(R T)",
    sources: ["definition"],
    validity: "1 atm. Printed limits are for 25 °C.",
    compute: ({ co2, temperature }) => ({ mass: massFromPpm(co2, temperature) }),
  }),
] as const;
