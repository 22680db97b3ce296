import { ChemistryError } from "./chemistry-error.ts";
import { molarMasses as M } from "./molar-masses.ts";

/** Calcium and magnesium of one German degree, mmol/L: 10 mg/L CaO by definition. */
export const mmolPerDegree = 10 / M.cao;
/** Alkalinity of one German degree, meq/L. */
export const meqPerDegree = 2 * mmolPerDegree;

/** Grain per US gallon and per imperial gallon, mg/L (grain 64.79891 mg by definition). */
const grainPerUsGallon = 64.79891 / 3.785411784;
const grainPerImperialGallon = 64.79891 / 4.54609;

/** mmol/L of calcium and magnesium (half the equivalents) in one unit of each way of writing hardness or alkalinity. */
const mmolIn = {
  "mmol/L": 1,
  "meq/L": 0.5,
  "mg/L CaCO3": 1 / M.caco3,
  "mg/L CaO": 1 / M.cao,
  "German degree": mmolPerDegree,
  "French degree": 10 / M.caco3,
  "English degree": grainPerImperialGallon / M.caco3,
  "grain/US gal": grainPerUsGallon / M.caco3,
  "mg/L Ca": 1 / M.ca,
  "mg/L HCO3": 0.5 / M.hco3,
} as const;

/** A way of writing hardness or alkalinity. */
export type HardnessNotation = keyof typeof mmolIn;
export const hardnessNotations = Object.keys(mmolIn) as readonly HardnessNotation[];

/**
 * Rewrites a hardness or alkalinity; exact by definition. Of alkalinity, "mmol/L" means mmol of CaCO3, two equivalents.
 * @throws ChemistryError for an unknown notation.
 */
export function convertHardness(value: number, from: HardnessNotation, to: HardnessNotation): number {
  const a = mmolIn[from];
  const b = mmolIn[to];
  if (!(a > 0) || !(b > 0)) {
    throw new ChemistryError("bad-input", "notation", `must be one of ${hardnessNotations.join(", ")}`);
  }
  return (value * a) / b;
}

/** Hardness from its ions. */
export interface Hardness {
  /** Ca + Mg, mmol/L. */
  readonly mmol: number;
  /** German degrees, dGH. */
  readonly degrees: number;
  /** mg/L as CaCO3. */
  readonly asCaCO3: number;
}

/** General hardness of a water from calcium and magnesium, mg/L. */
export function hardnessFromIons(calcium: number, magnesium: number): Hardness {
  const mmol = calcium / M.ca + magnesium / M.mg;
  return { mmol, degrees: mmol / mmolPerDegree, asCaCO3: mmol * M.caco3 };
}

/** Carbonate hardness of the trade, dKH, from alkalinity in meq/L: all of the alkalinity, whatever carries it. */
export function degreesOfAlkalinity(alk: number): number {
  return alk / meqPerDegree;
}

/** Alkalinity, meq/L, from the trade's carbonate hardness, dKH. */
export function alkalinityOfDegrees(kh: number): number {
  return kh * meqPerDegree;
}
