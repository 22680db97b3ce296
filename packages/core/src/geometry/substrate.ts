/** Substrate by mass, volume and slope. Densities kg/m³, angles degrees. */
import { waterDensity } from "./hardscape.ts";

/** Share of a bed between its grains, 0..1, from dry bulk and grain density. Source: groundwater-project. */
export function porosityOf(bulkDensity: number, grainDensity: number): number {
  return 1 - bulkDensity / grainDensity;
}

/** Density of a bed with its pores full of water, kg/m³. Source: groundwater-project. */
export function wetBulkDensity(porosity: number, grainDensity: number, water: number = waterDensity): number {
  return (1 - porosity) * grainDensity + porosity * water;
}

/** How substrate is sold. */
export type Bag = { readonly litres: number } | { readonly kilograms: number };

/**
 * Bags for a bed of `volume` m³: whole bags, with an allowance for settling (0..1, 0.1-0.2 by trade-practice). A bag
 * told in kg needs the dry bulk density.
 */
export function bagsNeeded(volume: number, bag: Bag, bulkDensity: number, settling = 0): number {
  const wanted = volume * (1 + settling);
  const size = "litres" in bag ? bag.litres / 1000 : bag.kilograms / bulkDensity;
  if (!(size > 0)) throw new RangeError("a bag must hold something");
  // The hair off keeps 4.000000001 bags from becoming five.
  return Math.ceil(wanted / size - 1e-9);
}

/** Least safety asked of a free slope. Source: design. */
export const slopeSafety = 1.4;

/**
 * Safety of a free slope: friction over steepness, the same dry and under water. Stones and digging fish halve it.
 * Infinite when level. Source: slope-repose.
 */
export function slopeFactor(frictionAngle: number, slope: number): number {
  return tangent(frictionAngle) / tangent(slope);
}

/** Steepest free slope, degrees, that keeps a factor of safety. */
export function designSlope(frictionAngle: number, safety: number = slopeSafety): number {
  return (Math.atan(tangent(frictionAngle) / safety) * 180) / Math.PI;
}

/** Depth at the back of a bed that rises evenly over `run`; same unit as `front` and `run`. */
export function rearDepth(front: number, run: number, slope: number): number {
  return front + run * tangent(slope);
}

function tangent(angle: number): number {
  return Math.tan((angle * Math.PI) / 180);
}
