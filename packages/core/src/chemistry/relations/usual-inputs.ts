import { output as out, quantity } from "../../relation/index.ts";
import { totalNames, type WaterTotals } from "../species.ts";

export { out, quantity };

/** Water temperature over the range of the constants. */
export const waterTemperature = quantity("water temperature", "°C", 0, 60, 25);

const ion = (label: string) => quantity(label, "mmol/kg", 0, 200, 0);

/** Totals of a water, mmol per kg of water; what is left out is 0. */
export const ionInputs = {
  ca: ion("calcium"),
  mg: ion("magnesium"),
  na: ion("sodium"),
  k: ion("potassium"),
  cl: ion("chloride"),
  so4: ion("sulfate"),
  no3: ion("nitrate"),
  po4: ion("phosphate"),
  nh4: ion("ammonium and ammonia"),
  b: ion("boron"),
} as const;

/** Totals in mol/kg from inputs in mmol/kg. */
export function totalsOf(inputs: Readonly<Record<keyof WaterTotals, number>>): WaterTotals {
  return Object.fromEntries(totalNames.map((n) => [n, inputs[n] / 1000])) as Record<keyof WaterTotals, number>;
}

export const alkalinity = quantity("total alkalinity", "meq/kg", -100, 100);
export const ph = quantity("pH", "1", 0, 14);
export const ionicStrength = quantity("ionic strength", "mol/kg", 0, 0.5);
/** log10 of outdoor air's pCO2 in atm, 420 µatm. */
export const airCo2 = quantity("log10 of pCO2 of the air in atm", "1", -6, 0, -3.3767);
