import { molarMasses as M } from "./molar-masses.ts";
import type { Speciation } from "./speciate.ts";
import { perLitre } from "./water-properties.ts";

/** Scales of "ppm" meters: mg/L shown per uS/cm at 25 °C (common practice). */
export const meterScales = { 500: 0.5, 640: 0.64, 700: 0.7 } as const;
export type MeterScale = "500" | "640" | "700";

/** What a "ppm" meter shows at a conductivity of uS/cm at 25 °C. Three meters, three answers: none is the true sum. */
export function meterPpm(ec25: number, scale: MeterScale): number {
  return ec25 * meterScales[scale];
}

/** Conductivity at 25 °C, uS/cm, behind a "ppm" reading. */
export function conductivityOfPpm(ppm: number, scale: MeterScale): number {
  return ppm / meterScales[scale];
}

/** Dissolved matter of a water, mg/L. */
export interface DissolvedSolids {
  /** Sum of all ions. */
  readonly ions: number;
  /** What stays on evaporation, where bicarbonate loses CO2 and water. */
  readonly residue: number;
}

/** Share of bicarbonate's mass that stays as carbonate on evaporation. */
const bicarbonateLeft = M.co3 / 2 / M.hco3;

/** Dissolved solids from the analysis, mg/L; carbonate counted as it stands at the water's pH. */
export function dissolvedSolids(s: Speciation): DissolvedSolids {
  const w = s.totals;
  const carbonate = s.dic - s.co2;
  const co3 = s.species.CO3! + s.species.CaCO3! + s.species.MgCO3! + s.species.NaCO3!;
  const hco3 = Math.max(carbonate - co3, 0);
  const others =
    w.ca * M.ca +
    w.mg * M.mg +
    w.na * M.na +
    w.k * M.k +
    w.cl * M.cl +
    w.so4 * M.so4 +
    w.no3 * M.no3 +
    w.po4 * M.po4 +
    w.nh4 * M.nh4 +
    co3 * M.co3;
  const toMg = 1000 * perLitre(1, s.temperature);
  return {
    ions: (others + hco3 * M.hco3) * toMg,
    residue: (others + hco3 * M.hco3 * bicarbonateLeft) * toMg,
  };
}

/**
 * Ionic strength guessed from conductivity alone, mol/kg: 1.1e-5 per uS/cm for sodium and potassium bicarbonate waters,
 * 1.6e-5 for hard ones; `hardShare` 0 to 1 goes between.
 */
export function ionicStrengthFromConductivity(ec25: number, hardShare: number): number {
  return ec25 * (1.1e-5 + 0.5e-5 * hardShare);
}
