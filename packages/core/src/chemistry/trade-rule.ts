import { activityCoefficient } from "./activity.ts";
import { log10K } from "./equilibrium-constants.ts";
import { alkalinityOfDegrees, meqPerDegree } from "./hardness.ts";
import { molarMasses as M } from "./molar-masses.ts";
import { createSpeciator } from "./speciator.ts";
import { pureWater, type WaterTotals } from "./species.ts";
import { perKilogram, perLitre } from "./water-properties.ts";

const speciator = createSpeciator();

/** CO2 by the trade's rule, mg/L: 3 KH 10^(7 - pH) (common practice), KH in dKH. */
export function tradeCo2(kh: number, ph: number): number {
  return 3 * kh * 10 ** (7 - ph);
}

/**
 * What should stand for the trade's 3 at a temperature (°C) and ionic strength (mol/kg), mg/L of CO2 per dKH at pH 7:
 * pairs left out (source pb82).
 */
export function exactCoefficient(t: number, ionicStrength = 0): number {
  const ideal = M.co2 * meqPerDegree * 10 ** (-log10K("k1", t) - 7);
  return (ideal * activityCoefficient("HCO3", ionicStrength, t)) / activityCoefficient("neutral", ionicStrength, t);
}

/**
 * CO2 from pH and carbonate hardness with activity, pairs and carbonate, mg/L.
 * @param kh dKH, all of it alkalinity.
 * @param t °C.
 * @param ions other totals, mol/kg; without them the water is taken as sodium bicarbonate.
 * @throws ChemistryError when no such water exists.
 */
export function exactCo2(kh: number, ph: number, t: number, ions?: WaterTotals): number {
  const alk = perKilogram(alkalinityOfDegrees(kh) / 1000, t);
  speciator.solve(ions ?? { ...pureWater, na: alk }, t, "ph-alk", ph, alk);
  return perLitre(speciator.co2, t) * M.co2 * 1000;
}

/** CO2, mg/L, from HCO3 in mg/L by the USGS rule without activity or temperature (source usgs-twri-5a1). */
export function usgsCo2(hco3: number, ph: number): number {
  return 1.6 * 10 ** (6 - ph) * hco3;
}

/** CO2, mg/L, from alkalinity as mg/L CaCO3 by the handbook's rule (source standard-methods-4500). */
export function standardMethodsCo2(asCaCO3: number, ph: number): number {
  return 2 * asCaCO3 * 10 ** (6 - ph);
}

/** mg/L of CO2 per mg/L of alkalinity as CaCO3 at a pH without activity, without unit; °C (source pb82). */
export function co2AlkalinityFactor(t: number, ph: number): number {
  return ((2 * M.co2) / M.caco3) * 10 ** (-log10K("k1", t) - ph);
}

/**
 * CO2 after pH fell by `drop` at constant alkalinity, mg/L: the resting CO2 times 10^drop. Right to 0.01 pH below pH 8.
 * The rule is only as good as `resting`, which in a tank is seldom that of fully aerated water.
 */
export function co2AfterDrop(resting: number, drop: number): number {
  return resting * 10 ** drop;
}

/** Drop of pH that a wanted CO2 needs above the resting CO2, both mg/L. */
export function dropFor(wanted: number, resting: number): number {
  return Math.log10(wanted / resting);
}
