/** How a value is known: read off an instrument, printed on a label, or taken as usual. */
export type Known = "measured" | "label" | "assumed";

/** One value of a plan with what is known about it. Numbers stand in the unit that the member's docstring names. */
export interface Entry<T = number> {
  readonly value: T;
  readonly known: Known;
  /** The note typed beside the value, e.g. "drop test, 4 Nov". */
  readonly note?: string;
  /** The quantity as typed, without mark and note; absent when the value is a default. */
  readonly text?: string;
  /** Why this default; absent when the value was typed. */
  readonly reason?: string;
}

export type Cover = "open" | "lid";
export type HardscapeKind = "stone" | "wood";
export type LampKind = "bar" | "panel" | "tube" | "pendant";
export type GasDevice = "fine plate" | "coarse plate" | "open line" | "in-line" | "reactor";
export type FilterKind = "canister" | "internal" | "hang-on" | "sump" | "sponge";
export type ReadingKind = "co2" | "oxygen" | "ph" | "temperature";

export interface TankPlan {
  /** Outside length, m. */
  readonly length: Entry;
  /** Outside width, front to back, m. */
  readonly width: Entry;
  /** Outside height, m. */
  readonly height: Entry;
  /** Thickness of the walls, m. */
  readonly glass: Entry;
  /** Thickness of the bottom pane, m. */
  readonly base: Entry;
  /** Water line below the rim, m. */
  readonly belowRim: Entry;
  readonly cover: Entry<Cover>;
}

/** One layer of substrate: its thickness at the four corners, m. */
export interface LayerPlan {
  /** Name in the facts. */
  readonly material: string;
  readonly frontLeft: Entry;
  readonly frontRight: Entry;
  readonly backLeft: Entry;
  readonly backRight: Entry;
}

export interface HardscapePlan {
  readonly kind: HardscapeKind;
  /** Name in the facts. */
  readonly material: string;
  /** Mass, kg. */
  readonly mass: Entry;
  /** Place along the length, 0 left to 1 right. */
  readonly at: Entry;
  /** Place from front to back, 0 front to 1 back. */
  readonly depth: Entry;
  /** Greatest width, m. */
  readonly width: Entry;
  /** Height, m. */
  readonly height: Entry;
  /** Lean from upright, degrees, positive to the right. */
  readonly lean: Entry;
}

/** Ions in mol/m3 (the same number as mmol/L); alkalinity in mol/m3 of charge (the same number as meq/L). */
export interface WaterPlan {
  /** Alkalinity, meq/L. */
  readonly kh: Entry;
  /** Calcium and magnesium together, mmol/L. */
  readonly gh: Entry;
  readonly calcium: Entry;
  readonly magnesium: Entry;
  readonly potassium: Entry;
  readonly nitrate: Entry;
  readonly phosphate: Entry;
  readonly sulfate: Entry;
  readonly sodium: Entry;
  readonly chloride: Entry;
}

export interface LightPlan {
  readonly kind: Entry<LampKind>;
  /** Electrical power at full strength, W. */
  readonly power: Entry;
  /** Photons (400-700 nm) per joule of electricity, umol/J. */
  readonly efficacy: Entry;
  /** Lit length, m. */
  readonly length: Entry;
  /** Lamp above the rim, m. */
  readonly aboveRim: Entry;
  /** Dimmer, 0 to 1. */
  readonly strength: Entry;
  /** Lights-on, hours after midnight. */
  readonly on: Entry;
  /** Lights-off, hours after midnight. */
  readonly off: Entry;
  /** Length of each ramp, h. */
  readonly ramp: Entry;
  /** PPFD measured at the substrate at this strength, umol/m2/s; null when nobody measured it. */
  readonly ppfd: Entry | null;
}

export interface GasPlan {
  /** Bubbles counted, 1/s. */
  readonly bubbles: Entry;
  /** Mass of one bubble, mg. */
  readonly bubble: Entry;
  readonly device: Entry<GasDevice>;
  /** Share of the gas that dissolves, 0 to 1. */
  readonly dissolved: Entry;
  /** Valve opens, hours after midnight. */
  readonly opens: Entry;
  /** Valve closes, hours after midnight. */
  readonly closes: Entry;
  /** CO2 wanted at lights-on, mg/L. */
  readonly wanted: Entry;
  /** Gas in a full cylinder, kg. */
  readonly cylinder: Entry;
}

export interface FilterPlan {
  readonly kind: Entry<FilterKind>;
  /** Flow printed on the label, L/h. */
  readonly rated: Entry;
  /** Flow that really comes out, L/h. */
  readonly flow: Entry;
  /** Electrical power, W. */
  readonly power: Entry;
}

export interface SurfacePlan {
  /** Class of surface movement, 0 still to 4 broken. */
  readonly ripple: Entry;
  /** Measured first-order loss of CO2 at the tank's temperature, 1/h; null when it follows from the ripple class. */
  readonly exchange: Entry | null;
}

export interface AirPlan {
  /** Air through the stone, L/h. */
  readonly flow: Entry;
  /** Hours after midnight. */
  readonly on: Entry;
  /** Hours after midnight; before `on` when the stone bubbles past midnight. */
  readonly off: Entry;
}

export interface HeaterPlan {
  /** W. */
  readonly power: Entry;
  /** Set point, °C. */
  readonly set: Entry;
}

export interface RoomPlan {
  /** Warmest room temperature of the day, °C. */
  readonly day: Entry;
  /** Coolest room temperature of the night, °C. */
  readonly night: Entry;
  /** Relative humidity, 0 to 1. */
  readonly humidity: Entry;
  /** CO2 in the room air, mole fraction, ppm(v). */
  readonly co2: Entry;
  /** Above sea level, m. */
  readonly altitude: Entry;
  /** Air in the room, m3. */
  readonly volume: Entry;
}

export interface PlantingPlan {
  /** Id in the facts. */
  readonly species: string;
  /** Share of the tank's plan area, 0 to 1. */
  readonly cover: Entry;
  /** Present height, m. */
  readonly height: Entry;
  /** Place along the length, 0 left to 1 right. */
  readonly at: Entry;
  /** Dry mass over the patch's own area, g/m2. */
  readonly biomass: Entry;
}

export interface AnimalPlan {
  /** Id in the facts. */
  readonly species: string;
  readonly count: Entry;
  /** Length of one animal, m. */
  readonly length: Entry;
}

export interface FeedingPlan {
  /** Food given, g/d. */
  readonly food: Entry;
  /** Hours after midnight. */
  readonly at: Entry;
  /** Protein in the food, 0 to 1. */
  readonly protein: Entry;
}

export interface ReadingPlan {
  readonly what: ReadingKind;
  /** mg/L for co2 and oxygen, °C for temperature, pH itself. */
  readonly value: number;
  /** Standard error in the same unit; null when not stated. */
  readonly error: number | null;
  /** Hours after midnight. */
  readonly at: number;
  readonly note?: string;
}

/** One tank, every value filled in and in the unit named. */
export interface Plan {
  readonly name: string;
  /** True for demonstration data that describe no real tank. */
  readonly invented: boolean;
  readonly place?: string;
  /** ISO date of planting. */
  readonly started?: string;
  readonly about?: string;
  readonly tank: TankPlan;
  /** Bottom layer first. */
  readonly substrate: readonly LayerPlan[];
  readonly hardscape: readonly HardscapePlan[];
  readonly water: WaterPlan;
  readonly light: LightPlan | null;
  readonly co2: GasPlan | null;
  readonly filter: FilterPlan | null;
  readonly surface: SurfacePlan;
  readonly air: AirPlan | null;
  readonly heater: HeaterPlan | null;
  readonly room: RoomPlan;
  readonly plants: readonly PlantingPlan[];
  readonly animals: readonly AnimalPlan[];
  readonly feeding: FeedingPlan;
  readonly readings: readonly ReadingPlan[];
  /** Names of the alternatives that the file holds. */
  readonly alternatives: readonly string[];
}

export type Json = string | number | boolean | null | readonly Json[] | RawPlan;

/** A plan as typed: the plain value of the YAML or JSON text. */
export interface RawPlan {
  readonly [key: string]: Json;
}

/** Place in a plan: keys, and list positions counted from 0. */
export type Path = readonly (string | number)[];

/** Something wrong in a plan, for a person to mend. */
export interface Fault {
  /** Such as `co2.bubbles` or `plants[2].cover`, list positions counted from 0; empty for the whole file. */
  readonly path: string;
  /** Line in the text from 1; 0 where there is no text. */
  readonly line: number;
  /** Column from 1; 0 where there is no text. */
  readonly column: number;
  readonly message: string;
  /** What is allowed instead. */
  readonly allowed: string;
}

export type Reading =
  | { readonly ok: true; readonly plan: Plan; readonly raw: RawPlan; readonly notes: readonly Fault[] }
  | { readonly ok: false; readonly faults: readonly Fault[] };

export type Resolution =
  | { readonly ok: true; readonly plan: Plan; readonly notes: readonly Fault[] }
  | { readonly ok: false; readonly faults: readonly Fault[] };

/** `co2.bubbles`, `plants[2].cover`. */
export function pathText(path: Path): string {
  let text = "";
  for (const segment of path) {
    if (typeof segment === "number") text += `[${segment}]`;
    else text += text === "" ? segment : `.${segment}`;
  }
  return text;
}

/** True for a map of the raw plan (not a list, not null). */
export function isMap(value: unknown): value is RawPlan {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
