import { ChemistryError } from "./chemistry-error.ts";

/** What holds the iron. */
export type IronLigand = "EDTA" | "DTPA" | "EDDHA" | "none";
export const ironLigands: readonly IronLigand[] = ["EDTA", "DTPA", "EDDHA", "none"];

/**
 * pH at which half the iron is held with 1 mmol/L of calcium, and the fall of that pH per tenfold calcium. Fitted to an
 * equilibrium with ferrihydrite at 0.10 mg/L of iron and as much ligand (source nist-46; DTPA to 0.3 pH, EDDHA at least).
 */
const midpoints = {
  EDTA: { ph: 7.2, perDecade: 0.37 },
  DTPA: { ph: 8.0, perDecade: 0.37 },
  EDDHA: { ph: 9.5, perDecade: 0 },
} as const;
/** Fall of log10 (held / lost) per pH. */
const steepness = 2.7;
/** Highest pH at which each is usually relied on (source ifas-chelates); without a chelate hours to a day above 6.5. */
export const usualIronLimit: Readonly<Record<IronLigand, number>> = { EDTA: 6.5, DTPA: 7.5, EDDHA: 9, none: 6.5 };
/** The calcium effect is not carried below this, mmol/L. */
const leastCalcium = 0.05;

/** Bare iron left in solution by ferrihydrite, as a share of 0.10 mg/L, by pH. */
const bare: readonly (readonly [number, number])[] = [
  [6.0, 0.024],
  [6.5, 0.008],
  [6.75, 0.0045],
  [7.0, 0.0026],
  [7.25, 0.0016],
  [7.5, 0.001],
  [8.0, 0.0005],
  [8.5, 0.0004],
];
const bareIron = 0.1;

function bareShare(ph: number): number {
  const first = bare[0]!;
  const last = bare[bare.length - 1]!;
  if (ph <= first[0]) return first[1];
  if (ph >= last[0]) return last[1];
  for (let i = 1; i < bare.length; i++) {
    const [x1, y1] = bare[i]!;
    const [x0, y0] = bare[i - 1]!;
    if (ph <= x1) return y0 * (y1 / y0) ** ((ph - x0) / (x1 - x0));
  }
  return last[1];
}

/**
 * Share of iron that stays dissolved at equilibrium, 0 to 1. It is reached over days, and light destroys chelated iron
 * sooner. Below pH 6 bare iron is counted as at 6.
 * @param calcium mmol/L.
 * @param iron mg/L; matters for bare iron only.
 * @throws ChemistryError for an unknown ligand.
 */
export function dissolvedIronShare(ligand: IronLigand, ph: number, calcium: number, iron = bareIron): number {
  if (ligand === "none") return Math.min(1, (bareShare(ph) * bareIron) / iron);
  const m = midpoints[ligand];
  if (!m) throw new ChemistryError("bad-input", "ligand", `must be one of ${ironLigands.join(", ")}`);
  const middle = m.ph - m.perDecade * Math.log10(Math.max(calcium, leastCalcium));
  return 1 / (1 + 10 ** (steepness * (ph - middle)));
}
