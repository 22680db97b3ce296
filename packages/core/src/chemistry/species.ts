import type { ActivityClassName } from "./activity.ts";

/** Totals of a water, mol per kg of water: all forms of each constituent together, carbonate apart. */
export interface WaterTotals {
  readonly ca: number;
  readonly mg: number;
  readonly na: number;
  readonly k: number;
  readonly cl: number;
  readonly so4: number;
  readonly no3: number;
  readonly po4: number;
  readonly nh4: number;
  readonly b: number;
}

export type TotalName = keyof WaterTotals;

export const totalNames: readonly TotalName[] = ["ca", "mg", "na", "k", "cl", "so4", "no3", "po4", "nh4", "b"];

/** Water with nothing dissolved in it. */
export const pureWater: WaterTotals = {
  ca: 0,
  mg: 0,
  na: 0,
  k: 0,
  cl: 0,
  so4: 0,
  no3: 0,
  po4: 0,
  nh4: 0,
  b: 0,
};

/** Totals from the few that are not zero, mol/kg. */
export function waterTotals(some: Partial<WaterTotals>): WaterTotals {
  return { ...pureWater, ...some };
}

/** A dissolved form: its charge, the activity law it follows, and its carbon. */
export interface SpeciesInfo {
  readonly name: string;
  readonly charge: number;
  readonly activity: ActivityClassName;
}

const s = (name: string, charge: number, activity: ActivityClassName): SpeciesInfo => ({ name, charge, activity });

/** Every dissolved form, in the order of a speciator's arrays. */
export const speciesTable: readonly SpeciesInfo[] = [
  s("H", 1, "H"),
  s("OH", -1, "OH"),
  s("CO2", 0, "neutral"),
  s("HCO3", -1, "HCO3"),
  s("CO3", -2, "CO3"),
  s("Ca", 2, "Ca"),
  s("Mg", 2, "Mg"),
  s("Na", 1, "Na"),
  s("K", 1, "K"),
  s("Cl", -1, "Cl"),
  s("SO4", -2, "SO4"),
  s("NO3", -1, "NO3"),
  s("NH4", 1, "NH4"),
  s("NH3", 0, "neutral"),
  s("B(OH)3", 0, "neutral"),
  s("B(OH)4", -1, "davies"),
  s("H3PO4", 0, "neutral"),
  s("H2PO4", -1, "HCO3"),
  s("HPO4", -2, "HPO4"),
  s("PO4", -3, "PO4"),
  s("HSO4", -1, "davies"),
  s("CaHCO3", 1, "CaHCO3"),
  s("CaCO3", 0, "neutral"),
  s("CaSO4", 0, "neutral"),
  s("CaOH", 1, "davies"),
  s("MgHCO3", 1, "MgHCO3"),
  s("MgCO3", 0, "neutral"),
  s("MgSO4", 0, "neutral"),
  s("MgOH", 1, "davies"),
  s("NaHCO3", 0, "neutral"),
  s("NaCO3", -1, "davies"),
  s("NaSO4", -1, "HCO3"),
  s("KSO4", -1, "HCO3"),
  s("CaHPO4", 0, "neutral"),
  s("CaPO4", -1, "davies"),
  s("CaH2PO4", 1, "davies"),
  s("MgHPO4", 0, "neutral"),
];

export const speciesNames: readonly string[] = speciesTable.map((x) => x.name);

/** Position of a species in the arrays, or -1. */
export function speciesIndex(name: string): number {
  return speciesNames.indexOf(name);
}

/**
 * Total alkalinity by the balance of charges, eq/kg: what the strong ions leave over (source wolf-gladrow-2007). Equal to
 * the alkalinity of a water whose charges balance; it is conserved on mixing, heating and gas exchange.
 */
export function alkalinityFromIons(w: WaterTotals): number {
  return w.na + w.k + 2 * w.ca + 2 * w.mg + w.nh4 - w.cl - w.no3 - 2 * w.so4 - w.po4;
}
