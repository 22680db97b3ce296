import { ChemistryError } from "./chemistry-error.ts";
import { totalNames, type WaterTotals } from "./species.ts";

/** A body of water by what it keeps on mixing, heating and standing: totals, alkalinity and (in a closed vessel) DIC. */
export interface CarriedWater {
  /** mol/kg. */
  readonly totals: WaterTotals;
  /** eq/kg. */
  readonly alk: number;
  /** mol/kg. */
  readonly dic: number;
  /** °C. */
  readonly temperature: number;
}

/** A share of a mixture. */
export interface Part {
  readonly water: CarriedWater;
  /** Any unit of volume or mass, the same for all parts; at least 0. */
  readonly amount: number;
}

/**
 * Mixes waters: everything carried goes by share, heat with it; pH is to be solved from the result, never averaged.
 * @throws ChemistryError when there is nothing to mix or an amount is below 0.
 */
export function mixWaters(parts: readonly Part[]): CarriedWater {
  let sum = 0;
  for (const { amount } of parts) {
    if (!(amount >= 0 && amount < Number.POSITIVE_INFINITY)) {
      throw new ChemistryError("bad-input", "amount", `${amount} must be a number of at least 0`);
    }
    sum += amount;
  }
  if (!(sum > 0)) throw new ChemistryError("bad-input", "parts", "there is no water to mix");
  const share = (of: (w: CarriedWater) => number) => parts.reduce((s, p) => s + of(p.water) * p.amount, 0) / sum;
  const totals = Object.fromEntries(totalNames.map((n) => [n, share((w) => w.totals[n])])) as Record<
    keyof WaterTotals,
    number
  >;
  return {
    totals,
    alk: share((w) => w.alk),
    dic: share((w) => w.dic),
    temperature: share((w) => w.temperature),
  };
}

/** The same water after a share (0 to below 1) of it has evaporated: what is dissolved stays. */
export function evaporate(water: CarriedWater, share: number): CarriedWater {
  if (!(share >= 0 && share < 1)) throw new ChemistryError("bad-input", "share", `${share} must lie in 0 to below 1`);
  const f = 1 / (1 - share);
  const totals = Object.fromEntries(totalNames.map((n) => [n, water.totals[n] * f])) as Record<
    keyof WaterTotals,
    number
  >;
  return { totals, alk: water.alk * f, dic: water.dic * f, temperature: water.temperature };
}

/**
 * Share of the first water (tap) in a blend of two that meets a target of any carried quantity, e.g. alkalinity; all in
 * one unit.
 * @throws ChemistryError when the target does not lie between the two.
 */
export function blendShare(target: number, first: number, second: number): number {
  const share = (target - second) / (first - second);
  if (!(share >= 0 && share <= 1)) {
    throw new ChemistryError("no-solution", "target", `${target} does not lie between ${second} and ${first}`);
  }
  return share;
}
