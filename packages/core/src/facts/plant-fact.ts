import type { How } from "../relation/index.ts";

export type GrowthForm = "stem" | "rosette" | "carpet" | "runner" | "moss" | "bulb" | "rhizome" | "floating";
export type PlantZone = "foreground" | "midground" | "background" | "epiphyte" | "floating";

/** One plant species, grown under water (or afloat). Light figures are photon flux at the leaf. */
export interface PlantFact {
  /** Botanical name in lower case with dashes. */
  readonly id: string;
  /** Botanical name. */
  readonly name: string;
  readonly family: string;
  readonly form: GrowthForm;
  /** Usual height under water, m; 0 = lies at the surface. */
  readonly heightMin: number;
  readonly heightMax: number;
  /** Width of one grown plant, m. */
  readonly spread: number;
  readonly zone: PlantZone;
  readonly lightClass: "low" | "medium" | "high";
  /** Photon flux at which it holds on, umol/m2/s. */
  readonly ppfdMin: number;
  /** Photon flux at which it grows well, umol/m2/s. */
  readonly ppfdGood: number;
  /** Keeping limits and best temperature, °C; not the limits of zero growth. */
  readonly temperatureMin: number;
  readonly temperatureOpt: number;
  readonly temperatureMax: number;
  readonly phMin: number;
  readonly phMax: number;
  /** General hardness above which care is due, dGH; a caution, not a lethal limit. */
  readonly ghMax: number;
  readonly co2Need: "none" | "helps" | "needed";
  /** Whether it can take carbon from bicarbonate; most species were never tested. */
  readonly bicarbonate: "yes" | "no" | "unknown";
  readonly growth: "slow" | "medium" | "fast";
  /** Highest relative growth rate under good tank conditions, 1/d. */
  readonly rgrMax: number;
  /** Where it takes up most of its nutrients. */
  readonly feeding: "root" | "column" | "both";
  readonly propagation: string;
  /** Holds on to stone or wood by itself. */
  readonly attach: boolean;
  /** Usual planting, portions per m2: a bundle of 3-5 stems, a plug, a rosette, a piece of rhizome, about 5 g of moss. */
  readonly density: number;
  /** How `bicarbonate` and `rgrMax` are known; every other figure is common practice. */
  readonly how: How;
  readonly note?: string;
  /** Older botanical names still in use. */
  readonly synonyms: readonly string[];
}
