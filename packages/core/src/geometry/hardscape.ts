/** Stone and wood in water. Masses kg, densities kg/m³, volumes m³. */

/** Density of fresh water at 25 °C, kg/m³. Source: kell-1975. */
export const waterDensity = 997.05;

/** A piece or a pile of one kind. */
export interface SolidInput {
  /** kg */
  readonly mass: number;
  /** kg/m³; for wood as it lies in the tank (soaked). */
  readonly density: number;
  /** Share of its volume under the water line, 0..1; default 1. */
  readonly shareUnderWater?: number;
  /** Share of its volume that stands in the bed, 0..shareUnderWater: it displaces bed, not free water; default 0. */
  readonly shareInBed?: number;
}

/** Water a solid takes the place of, m³. */
export function displacedVolume(solid: SolidInput): number {
  return (solid.mass / solid.density) * (solid.shareUnderWater ?? 1);
}

/** What a solid weighs under water, kg (as a scale would show it); negative when it floats. */
export function submergedWeight(mass: number, density: number, water: number = waterDensity): number {
  return mass * (1 - water / density);
}

/** Specific gravity of the wall substance of all woods. Source: wood-handbook. */
export const woodSubstance = 1.54;

export interface WoodSinking {
  /** Water the wood can hold, % of its dry mass. */
  readonly maximumMoisture: number;
  /** Density when fully soaked, against water. */
  readonly soaked: number;
  /** Moisture above which it sinks, % of its dry mass. */
  readonly sinksAbove: number;
}

/**
 * When a wood sinks, from its basic specific gravity (dry mass over green volume against water, 0.1 to below 1.54). Fully
 * soaked, every wood sinks. Source: wood-handbook.
 */
export function woodSinking(basic: number): WoodSinking {
  if (!(basic > 0 && basic < woodSubstance)) throw new RangeError("the basic specific gravity must be 0 to 1.54");
  return {
    maximumMoisture: (100 * (woodSubstance - basic)) / (woodSubstance * basic),
    soaked: 1 + (1 - 1 / woodSubstance) * basic,
    sinksAbove: Math.max(0, 100 * (1 / basic - 1)),
  };
}

/** Lift of a dry piece of wood held under water, kg; 0 when it sinks by itself. */
export function woodLift(volume: number, density: number, water: number = waterDensity): number {
  return Math.max(0, volume * (water - density));
}

/** Stone that holds a lift (kg) down, kg. */
export function ballast(lift: number, stoneDensity: number, water: number = waterDensity): number {
  return lift / (1 - water / stoneDensity);
}
