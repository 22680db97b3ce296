import type { How } from "../relation/index.ts";

/** Lowest, usual and highest value of a property. */
export interface Spread {
  readonly min: number;
  readonly value: number;
  readonly max: number;
}

/** Whether it gives off carbonate hardness: `test` = some pieces do, try a drop of acid first. */
export type Carbonate = "yes" | "no" | "test";

interface Material {
  /** Words as a keeper writes them, e.g. "baked soil"; also the name shown. */
  readonly id: string;
  readonly carbonate: Carbonate;
  readonly how: How;
  /** Keys into the room's bibliography. */
  readonly sources: readonly string[];
  readonly note?: string;
}

export interface SubstrateFact extends Material {
  readonly kind: "substrate";
  /** Density of the solid matter, kg/m3: what displaces water once every open pore is soaked. */
  readonly solidDensity: Spread;
  /** Density of one dry grain with its inner pores, kg/m3. */
  readonly grainDensity: Spread;
  /** Dry mass of a poured litre, kg/m3. */
  readonly bulkDensity: Spread;
  /** Share of the bed that fills with water, inner pores included: 1 - bulk / solid. */
  readonly porosity: Spread;
  /** Angle of friction of the loose soaked material, deg: steeper slopes slide. */
  readonly reposeAngle: number;
  /** Slope with a safety factor of 1.4 against sliding, deg; half the margin goes when animals dig. */
  readonly designSlope: number;
  /** Gives off nitrogen and phosphorus when new. */
  readonly nutrients: boolean;
}

export interface StoneFact extends Material {
  readonly kind: "stone";
  /** Density of a whole piece, kg/m3. */
  readonly density: Spread;
}

export interface WoodFact extends Material {
  readonly kind: "wood";
  /** Oven-dry mass over soaked volume, relative to water, pure number. */
  readonly basicGravity: Spread;
}

export type MaterialFact = SubstrateFact | StoneFact | WoodFact;
