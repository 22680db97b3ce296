import { relation } from "../relation/index.ts";
import { quantity } from "./usual-inputs.ts";

/** Power of chloride with which nitrite is borne: from two 96-h LC50 of tilapia. Source: tilapia-nitrite */
export const chloridePower = 0.665;

/** Chloride at which the plain nitrite limits hold, mg/L. */
const plainChloride = 20;

/** Target, caution, alarm and emergency of nitrite nitrogen, mg/L. */
export interface NitriteLimits {
  readonly target: number;
  readonly caution: number;
  readonly alarm: number;
  readonly emergency: number;
}

/**
 * Limits of nitrite nitrogen. Chloride eases the last two, four times at most.
 * @param chloride mg/L
 * @returns mg/L; design values on zebrafish-housing, avilez-2004
 */
export function nitriteLimits(chloride: number): NitriteLimits {
  const ease = Math.min(4, Math.max(1, (chloride / plainChloride) ** chloridePower));
  return { target: 0.05, caution: 0.1, alarm: 0.3 * ease, emergency: ease };
}

/** Nitrate above which to warn, mg/L: fish, shrimp; design values. Sources: zebrafish-housing, camargo-2005 */
export const nitrateWarning = { fish: 50, shrimp: 40 } as const;

/**
 * Dissolved copper that wild waters may hold, for an hour and as a mean of four days.
 * @param hardness mg/L as CaCO3
 * @returns ug/L. Source: wac-173-201a-240
 */
export function copperCriteria(hardness: number): { readonly acute: number; readonly chronic: number } {
  const ln = Math.log(hardness);
  return { acute: 0.96 * Math.exp(0.9422 * ln - 1.464), chronic: 0.96 * Math.exp(0.8545 * ln - 1.465) };
}

/** Total copper to stay below with shrimp or snails, ug/L; design value (a shrimp's 96-h LC50 was 31.3, yang-2008). */
export const copperWithInvertebrates = 5;

export const poisonRelations = [
  relation({
    id: "nitrite-limits",
    title: "Limits of nitrite nitrogen by chloride",
    room: "animals",
    inputs: {
      chloride: quantity("chloride", "mg/L", 0, 5000, 20),
      nitrite: quantity("nitrite nitrogen", "mg/L", 0, 100, 0),
    },
    outputs: {
      target: { label: "target", unit: "mg/L" },
      caution: { label: "caution", unit: "mg/L" },
      alarm: { label: "alarm", unit: "mg/L" },
      emergency: { label: "emergency", unit: "mg/L" },
      chloride_wanted: { label: "chloride that protects, 10 to 1 by mass", unit: "mg/L" },
    },
    equation: "alarm 0.3 and emergency 1.0 times (Cl/20)^0.665, at least 1 and at most 4 times",
    sources: ["tilapia-nitrite", "avilez-2004", "tomasso-1986", "zebrafish-housing", "chosen"],
    validity: "tetras and catfish are among the tenderest; chloride does not help sunfish and bass",
    caution: "Salt harms many plants and some fish; ask a veterinarian before treating animals.",
    compute: (i) => ({ ...nitriteLimits(i.chloride), chloride_wanted: 10 * i.nitrite }),
  }),
  relation({
    id: "chloride-protection",
    title: "How much more nitrite is borne at more chloride",
    room: "animals",
    inputs: {
      chloride_low: quantity("lower chloride", "mg/L", 1, 5000),
      chloride_high: quantity("higher chloride", "mg/L", 1, 5000),
      limit: quantity("lethal concentration or limit at the lower", "mg/L", 0.001, 1000, 1),
    },
    outputs: { limit_high: { label: "the same at the higher", unit: "mg/L" } },
    equation: "limit (Cl2/Cl1)^0.665",
    sources: ["tilapia-nitrite"],
    compute: (i) => ({ limit_high: i.limit * (i.chloride_high / i.chloride_low) ** chloridePower }),
  }),
  relation({
    id: "copper-criteria",
    title: "Copper by hardness",
    room: "animals",
    inputs: { hardness: quantity("hardness as calcium carbonate", "mg/L", 5, 400) },
    outputs: {
      acute: { label: "one hour, dissolved", unit: "ug/L" },
      chronic: { label: "mean of four days, dissolved", unit: "ug/L" },
    },
    equation: "0.960 exp(0.9422 ln H - 1.464); 0.960 exp(0.8545 ln H - 1.465)",
    sources: ["wac-173-201a-240", "yang-2008"],
    caution: "With shrimp or snails keep copper below 5 ug/L and give no copper medicine.",
    compute: (i) => copperCriteria(i.hardness),
  }),
] as const;
