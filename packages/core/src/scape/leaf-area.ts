import type { PlantFact } from "../facts/index.ts";

/**
 * Light that a gram of dry plant takes out of a level beam, m2/g: what the plant balance counts with. Design value within
 * the published span of 0.01 to 0.06.
 */
const extinction = (fact: PlantFact): number => (fact.form === "moss" ? 0.03 : 0.02);

/** Of a leaf that lies any way, half its area stands across a beam. */
const acrossBeam = 0.5;

/**
 * Leaf area (one side) over ground area, pure number, of a planting of `biomass` g of dry mass per m2: the area whose
 * leaves, lying every way alike, take as much light as the plant balance says.
 */
export function patchLeafArea(fact: PlantFact, biomass: number): number {
  return (extinction(fact) / acrossBeam) * biomass;
}
