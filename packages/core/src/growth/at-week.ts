/** A plan and a scape as they stand in a week of their growth. */
import type { Entry, Plan } from "../plan/index.ts";
import type { Scape } from "../scape/index.ts";

/** What the drawings and the light need of a planting in a week. */
export interface Grown {
  /** m */
  readonly height: number;
  /** Dry mass over all of its ground, g/m2. */
  readonly biomass: number;
}

/** Least dry mass that a plan can tell, g/m2. */
const leastBiomass = 0.1;

const entry = (value: number): Entry => ({ value, known: "assumed", reason: "grown so far" });

/** The plan with its plantings grown. @param grown in the order of its plantings */
export function planGrown(plan: Plan, grown: readonly Grown[]): Plan {
  return {
    ...plan,
    plants: plan.plants.map((planting, i) => {
      const now = grown[i];
      if (!now) return planting;
      return { ...planting, height: entry(now.height), biomass: entry(Math.max(leastBiomass, now.biomass)) };
    }),
  };
}

/** The scape with its plantings grown; bed, stones and wood are the same. */
export function scapeGrown(scape: Scape, grown: readonly Grown[]): Scape {
  const plan = planGrown(scape.plan, grown);
  return { ...scape, plan, zones: scape.zones.map((zone) => ({ ...zone, planting: plan.plants[zone.index]! })) };
}
