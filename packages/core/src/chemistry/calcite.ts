import { findRoot } from "../numerics/index.ts";
import { ChemistryError } from "./chemistry-error.ts";
import { log10K } from "./equilibrium-constants.ts";
import { type Speciation, speciate } from "./speciate.ts";
import { createSpeciator } from "./speciator.ts";
import type { WaterTotals } from "./species.ts";
import { zeroCelsius } from "./water-properties.ts";

const speciator = createSpeciator();

/** A water brought to balance with calcite. */
export interface CalciteBalance {
  /** The water afterwards. */
  readonly water: Speciation;
  /** Calcite that left the water, mol/kg; negative when calcite dissolved. */
  readonly precipitated: number;
}

const withCalcium = (w: WaterTotals, ca: number): WaterTotals => ({ ...w, ca });
/** Most calcite that is let dissolve, mol/kg. */
const mostDissolved = 0.1;
const rootOptions = { xtol: 1e-15 };

/**
 * Brings a water to balance with calcite without exchange of gas: each mole removes one of calcium and carbon and two
 * equivalents of alkalinity. `precipitated` is the calcium carbonate precipitation potential (source standard-methods-2330).
 * @param totals mol/kg.
 * @param temperature °C.
 * @param alk eq/kg.
 * @param dic mol/kg.
 * @throws ChemistryError when no balance exists within 0.1 mol/kg.
 */
export function calciteBalanceClosed(
  totals: WaterTotals,
  temperature: number,
  alk: number,
  dic: number,
): CalciteBalance {
  const saturation = (x: number) => {
    speciator.solve(withCalcium(totals, totals.ca - x), temperature, "dic-alk", Math.max(dic - x, 0), alk - 2 * x);
    return Math.max(speciator.siCalcite(), -50);
  };
  const most = Math.min(totals.ca, dic) * (1 - 1e-9);
  let low = 0;
  if (!(most > 0 && saturation(0) > 0)) {
    low = -1e-5;
    while (saturation(low) < 0) {
      low *= 2;
      if (low < -mostDissolved) {
        throw new ChemistryError("no-solution", "calcite", `this water dissolves more than ${mostDissolved} mol/kg`);
      }
    }
  }
  const high = low < 0 ? 0 : most;
  const precipitated = findRoot(saturation, low, high, rootOptions);
  return {
    precipitated,
    water: speciate(withCalcium(totals, totals.ca - precipitated), temperature, {
      dic: dic - precipitated,
      alk: alk - 2 * precipitated,
    }),
  };
}

/**
 * Brings a water to balance with calcite and a gas of fixed CO2, both in excess.
 * @param totals mol/kg.
 * @param temperature °C.
 * @param alk eq/kg.
 * @param pco2 atm.
 * @throws ChemistryError when no balance exists within 0.1 mol/kg.
 */
export function calciteBalanceOpen(
  totals: WaterTotals,
  temperature: number,
  alk: number,
  pco2: number,
): CalciteBalance {
  if (!(pco2 > 0)) throw new ChemistryError("bad-input", "pco2", `${pco2} atm must be above 0`);
  const saturation = (x: number) => {
    speciator.solve(withCalcium(totals, totals.ca - x), temperature, "pco2-alk", pco2, alk - 2 * x);
    return Math.max(speciator.siCalcite(), -50);
  };
  let low = 0;
  let high = totals.ca * (1 - 1e-9);
  if (!(totals.ca > 0 && saturation(0) > 0)) {
    high = 0;
    low = -1e-5;
    while (saturation(low) < 0) {
      low *= 2;
      if (low < -mostDissolved) {
        throw new ChemistryError("no-solution", "calcite", `this water dissolves more than ${mostDissolved} mol/kg`);
      }
    }
  }
  const precipitated = findRoot(saturation, low, high, rootOptions);
  return {
    precipitated,
    water: speciate(withCalcium(totals, totals.ca - precipitated), temperature, {
      pco2,
      alk: alk - 2 * precipitated,
    }),
  };
}

/**
 * Saturation index of calcite by the handbook's short form, without pairs (source standard-methods-2330): 0.02 too high
 * in soft water, 0.08 in water rich in sulfate or magnesium.
 * @param ca total calcium, mol/L.
 * @param hco3 bicarbonate, mol/L.
 * @param ionicStrength mol/L.
 * @param t °C, 0 to 50.
 */
export function quickSaturation(ph: number, ca: number, hco3: number, ionicStrength: number, t: number): number {
  const T = t + zeroCelsius;
  const permittivity = 60954 / (T + 116) - 68.937;
  const a = 1.82e6 * (permittivity * T) ** -1.5;
  const root = Math.sqrt(ionicStrength);
  const pfm = a * (root / (1 + root) - 0.3 * ionicStrength);
  const pk2 = -log10K("k2", t);
  const pks = -log10K("calcite", t);
  return ph - (pk2 - pks - Math.log10(ca) - Math.log10(hco3) + 5 * pfm);
}
