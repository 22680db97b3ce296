import { activityCoefficient } from "./activity.ts";
import { log10K } from "./equilibrium-constants.ts";

/** Shares of phosphate by form, 0 to 1, pairs with metals left out. */
export interface PhosphateShares {
  readonly h3po4: number;
  readonly h2po4: number;
  readonly hpo4: number;
  readonly po4: number;
  /** Effective second pK, where H2PO4 and HPO4 are equal. */
  readonly pk2: number;
}

/**
 * Forms of phosphate at a pH (source wq4f).
 * @param t °C.
 * @param ionicStrength mol/kg.
 */
export function phosphateShares(ph: number, t: number, ionicStrength = 0): PhosphateShares {
  const h = 10 ** -ph;
  const g0 = activityCoefficient("neutral", ionicStrength, t);
  const g1 = activityCoefficient("HCO3", ionicStrength, t);
  const g2 = activityCoefficient("HPO4", ionicStrength, t);
  const g3 = activityCoefficient("PO4", ionicStrength, t);
  const k3 = log10K("hPO4", t);
  const k2 = log10K("h2PO4", t);
  const k1 = log10K("h3PO4", t);
  const po4 = 1;
  const hpo4 = (10 ** k3 * h * g3) / g2;
  const h2po4 = (10 ** k2 * h * h * g3) / g1;
  const h3po4 = (10 ** k1 * h * h * h * g3) / g0;
  const sum = po4 + hpo4 + h2po4 + h3po4;
  return {
    h3po4: h3po4 / sum,
    h2po4: h2po4 / sum,
    hpo4: hpo4 / sum,
    po4: po4 / sum,
    pk2: k2 - k3 + Math.log10(g2 / g1),
  };
}
