import { molarMass } from "../units/index.ts";
import { ChemistryError } from "./chemistry-error.ts";
import { molarMasses as M } from "./molar-masses.ts";

/** What a process does to alkalinity and carbon, counted by charges (source wolf-gladrow-2007, goldman-brewer-1980). */
export interface AlkalinityChange {
  readonly process: string;
  /** What one mole is counted of. */
  readonly per: string;
  /** g per mole of it, for figures by mass. */
  readonly mass: number;
  /** eq of alkalinity per mole. */
  readonly alk: number;
  /** mol of inorganic carbon per mole; carbon of organic matter left to those who know it. */
  readonly dic: number;
}

const change = (process: string, per: string, mass: number, alk: number, dic = 0): AlkalinityChange => ({
  process,
  per,
  mass,
  alk,
  dic,
});

/** Processes of a tank. Whatever only moves CO2, and every neutral salt of strong ions, leaves alkalinity alone. */
export const alkalinityChanges: readonly AlkalinityChange[] = [
  change("nitrification", "N", M.n, -2),
  change("denitrification", "N", M.n, 1),
  change("nitrate-uptake", "NO3", M.no3, 1),
  change("ammonium-uptake", "N", M.n, -1),
  change("phosphate-uptake", "PO4", M.po4, 1),
  change("sulfate-assimilation", "S", M.s, 2),
  change("potassium-uptake", "K", M.k, -1),
  change("calcium-uptake", "Ca", M.ca, -2),
  change("magnesium-uptake", "Mg", M.mg, -2),
  change("urea-hydrolysis", "urea", molarMass("CO(NH2)2"), 2, 1),
  change("urea-hydrolysis-and-nitrification", "urea", molarMass("CO(NH2)2"), -2, 1),
  change("mineralisation", "N", M.n, 1),
  change("photosynthesis", "C", molarMass("C"), 0, -1),
  change("respiration", "C", molarMass("C"), 0, 1),
  change("co2-gain", "CO2", M.co2, 0, 1),
  change("calcite-precipitation", "Ca", M.ca, -2, -1),
  change("calcite-dissolution", "Ca", M.ca, 2, 1),
  change("strong-acid", "H", molarMass("H"), -1),
  change("strong-base", "OH", molarMass("OH"), 1),
];

export const alkalinityProcesses: readonly string[] = alkalinityChanges.map((c) => c.process);

/**
 * One process by name.
 * @throws ChemistryError for an unknown process.
 */
export function alkalinityChangeOf(process: string): AlkalinityChange {
  const found = alkalinityChanges.find((c) => c.process === process);
  if (!found) throw new ChemistryError("bad-input", "process", `must be one of ${alkalinityProcesses.join(", ")}`);
  return found;
}

/**
 * Alkalinity after a process, meq/L.
 * @param alk meq/L before.
 * @param amount mg/L of what the process is counted by.
 */
export function alkalinityAfter(alk: number, process: string, amount: number): number {
  const c = alkalinityChangeOf(process);
  return alk + (amount / c.mass) * c.alk;
}
