import { molarMass } from "../units/index.ts";
import { ChemistryError, requireNumber } from "./chemistry-error.ts";
import { meqPerDegree, mmolPerDegree } from "./hardness.ts";
import type { CarriedWater } from "./mixing.ts";
import { saltOf } from "./salts.ts";
import { pureWater, totalNames, type WaterTotals } from "./species.ts";
import { perKilogram } from "./water-properties.ts";

export type CalciumSalt = "CaSO4·2H2O" | "CaCl2·2H2O" | "CaCl2" | "Ca(NO3)2·4H2O" | "CaCO3";
export type MagnesiumSalt = "MgSO4·7H2O" | "MgSO4" | "MgCl2·6H2O" | "Mg(NO3)2·6H2O";
export type CarbonateSalt = "NaHCO3" | "KHCO3" | "K2CO3";
export const calciumSalts: readonly CalciumSalt[] = ["CaSO4·2H2O", "CaCl2·2H2O", "CaCl2", "Ca(NO3)2·4H2O", "CaCO3"];
export const magnesiumSalts: readonly MagnesiumSalt[] = ["MgSO4·7H2O", "MgSO4", "MgCl2·6H2O", "Mg(NO3)2·6H2O"];
export const carbonateSalts: readonly CarbonateSalt[] = ["NaHCO3", "KHCO3", "K2CO3"];

/** A wanted water from water with little in it. */
export interface Recipe {
  /** L. */
  readonly volume: number;
  /** Rise of general hardness, dGH. */
  readonly gh: number;
  /** Rise of carbonate hardness, dKH. */
  readonly kh: number;
  /** Share of the hardness, by degrees (so by moles), that is calcium, 0 to 1. */
  readonly calciumShare: number;
  readonly calciumSalt: CalciumSalt;
  readonly magnesiumSalt: MagnesiumSalt;
  readonly carbonateSalt: CarbonateSalt;
  /** °C of the water; for mol/kg. */
  readonly temperature?: number;
  /** Water the salts go into; pure when left out. */
  readonly base?: CarriedWater;
}

export interface WeighedSalt {
  readonly formula: string;
  readonly name: string;
  /** g of the pure salt. */
  readonly grams: number;
}

export interface RecipeResult {
  readonly salts: readonly WeighedSalt[];
  /** The water with the salts in it and no gas lost or gained; let it stand in air, or solve it with pCO2. */
  readonly water: CarriedWater;
  readonly remarks: readonly string[];
}

/**
 * Salts that bring water to a wanted hardness and alkalinity.
 * @throws ChemistryError for values that mean nothing, or when the calcium salt alone passes the wanted alkalinity.
 */
export function remineralise(recipe: Recipe): RecipeResult {
  const volume = requireNumber(recipe.volume, "volume", 0, 1e6, "L");
  const gh = requireNumber(recipe.gh, "gh", 0, 100, "dGH");
  const kh = requireNumber(recipe.kh, "kh", 0, 100, "dKH");
  const share = requireNumber(recipe.calciumShare, "calciumShare", 0, 1, "");
  const temperature = recipe.temperature ?? recipe.base?.temperature ?? 25;
  const calcium = gh * mmolPerDegree * share;
  const magnesium = gh * mmolPerDegree * (1 - share);
  const calciumSalt = saltOf(recipe.calciumSalt);
  const carbonateSalt = saltOf(recipe.carbonateSalt);
  const alkFromCalcium = calcium * calciumSalt.alk;
  const alkWanted = kh * meqPerDegree;
  if (alkFromCalcium > alkWanted * (1 + 1e-9)) {
    throw new ChemistryError(
      "no-solution",
      "kh",
      `${calciumSalt.formula} for this hardness already brings ${(alkFromCalcium / meqPerDegree).toFixed(2)} dKH`,
    );
  }
  const doses = [
    { salt: calciumSalt, mmol: calcium },
    { salt: saltOf(recipe.magnesiumSalt), mmol: magnesium },
    { salt: carbonateSalt, mmol: (alkWanted - alkFromCalcium) / carbonateSalt.alk },
  ].filter((d) => d.mmol > 0);

  const totals: Record<keyof WaterTotals, number> = { ...(recipe.base?.totals ?? pureWater) };
  let alk = recipe.base?.alk ?? 0;
  let dic = recipe.base?.dic ?? 0;
  const remarks: string[] = [];
  for (const { salt, mmol } of doses) {
    const molal = perKilogram(mmol / 1000, temperature);
    for (const name of totalNames) totals[name] += molal * (salt.gives[name] ?? 0);
    alk += molal * salt.alk;
    dic += molal * salt.dic;
    if (salt.note) remarks.push(`${salt.name} ${salt.note}`);
  }
  return {
    salts: doses.map(({ salt, mmol }) => ({
      formula: salt.formula,
      name: salt.name,
      grams: (mmol * molarMass(salt.formula) * volume) / 1000,
    })),
    water: { totals, alk, dic, temperature },
    remarks,
  };
}
