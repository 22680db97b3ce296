import { ChemistryError } from "./chemistry-error.ts";
import { alkalinityOfDegrees } from "./hardness.ts";
import { molarMasses as M } from "./molar-masses.ts";
import { createSpeciator } from "./speciator.ts";
import { pureWater } from "./species.ts";
import { perKilogram, perLitre } from "./water-properties.ts";

const speciator = createSpeciator();

/** pKa of bromothymol blue, from memory. */
export const bromothymolPk = 7.1;

/** Salt the reference water is made of. */
export type ReferenceSalt = "NaHCO3" | "KHCO3";

function reference(kh: number, t: number, salt: ReferenceSalt) {
  const alk = perKilogram(alkalinityOfDegrees(kh) / 1000, t);
  return { alk, totals: { ...pureWater, [salt === "NaHCO3" ? "na" : "k"]: alk } };
}

/**
 * pH of an indicator cell in balance with a tank across its air gap. At equal temperature equal pCO2 means equal CO2;
 * the tank's own hardness and acids do not matter. The cell lags by 1 to 3 h (common practice).
 * @param co2 mg/L in the tank.
 * @param kh dKH of the reference water.
 * @param t °C.
 */
export function cellPh(co2: number, kh: number, t: number, salt: ReferenceSalt = "NaHCO3"): number {
  const { alk, totals } = reference(kh, t, salt);
  speciator.solve(totals, t, "co2-alk", perKilogram(co2 / 1000 / M.co2, t), alk);
  return speciator.ph;
}

/** CO2 of the tank, mg/L, from the pH of an indicator cell; as `cellPh`. */
export function cellCo2(ph: number, kh: number, t: number, salt: ReferenceSalt = "NaHCO3"): number {
  const { alk, totals } = reference(kh, t, salt);
  speciator.solve(totals, t, "ph-alk", ph, alk);
  return perLitre(speciator.co2, t) * M.co2 * 1000;
}

/** Share of bromothymol blue in its blue form at a pH, 0 to 1. */
export function blueShare(ph: number): number {
  return 1 / (1 + 10 ** (bromothymolPk - ph));
}

/** Colours a keeper tells apart. */
export type IndicatorColour = "yellow" | "yellow-green" | "green" | "blue-green" | "blue";

/**
 * pH limits of the colours: yellow to 6.0 and blue from 7.6 are the dye's range (from memory); the three between are
 * design values with green a factor of two each way about pH 6.6.
 */
const colourLimits: readonly (readonly [IndicatorColour, number, number])[] = [
  ["yellow", Number.NEGATIVE_INFINITY, 6.0],
  ["yellow-green", 6.0, 6.3],
  ["green", 6.3, 6.9],
  ["blue-green", 6.9, 7.6],
  ["blue", 7.6, Number.POSITIVE_INFINITY],
];
export const indicatorColours = colourLimits.map(([name]) => name);

/** The colour seen at a pH. */
export function indicatorColour(ph: number): IndicatorColour {
  for (const [name, low, high] of colourLimits) if (ph >= low && ph < high) return name;
  throw new ChemistryError("bad-input", "ph", `${ph} is not a pH`);
}

/** CO2 that a colour stands for, mg/L: the range of the class, 0 or Infinity where it is open. */
export interface ColourReading {
  readonly low: number;
  readonly high: number;
}

/** Range of the tank's CO2, mg/L, that a colour allows; as `cellPh`. */
export function co2OfColour(
  colour: IndicatorColour,
  kh: number,
  t: number,
  salt: ReferenceSalt = "NaHCO3",
): ColourReading {
  const row = colourLimits.find(([name]) => name === colour);
  if (!row) throw new ChemistryError("bad-input", "colour", `must be one of ${indicatorColours.join(", ")}`);
  const [, acid, basic] = row;
  return {
    low: Number.isFinite(basic) ? cellCo2(basic, kh, t, salt) : 0,
    high: Number.isFinite(acid) ? cellCo2(acid, kh, t, salt) : Number.POSITIVE_INFINITY,
  };
}
