/** A planting as it is on planting day: its portions as bought, set in the ground. */
import type { GrowthForm } from "../facts/index.ts";
import type { PlantingPlan } from "../plan/index.ts";
import type { Zone } from "../scape/index.ts";

/**
 * Dry mass of a portion, g: a bunch of three to five stems, a rosette, a plug of carpet, a piece of rhizome, about 5 g of fresh
 * moss, ten floating plants. Fresh weights are common practice without a source, a twelfth to a sixteenth of them is dry;
 * design values.
 */
const portionMass: Readonly<Record<GrowthForm, number>> = {
  stem: 0.35,
  rosette: 0.5,
  bulb: 0.7,
  runner: 0.35,
  carpet: 0.2,
  rhizome: 0.7,
  moss: 0.35,
  floating: 0.2,
};

/** Height at which a form is set against its least usual height; stems are sold a hand long. Design values. */
const soldStem = 0.1;

/** Mass and height of a planting on planting day, g/m2 and m. @param room water above its foot, m */
export function plantedAs(zone: Zone, room: number): { readonly biomass: number; readonly height: number } {
  const { fact, portions, area } = zone;
  const height = fact.form === "stem" ? Math.min(soldStem, fact.heightMax) : fact.heightMin;
  return {
    biomass: Math.max(0.1, (Math.max(1, portions) * portionMass[fact.form]) / area),
    height: fact.form === "floating" ? zone.planting.height.value : Math.min(height, room),
  };
}

/** Share of leaves grown under water on planting day, by how the plants were raised. */
export const settledAs = { emersed: 0, "in vitro": 0.5, submerged: 1 } as const satisfies Record<
  PlantingPlan["raised"]["value"],
  number
>;
