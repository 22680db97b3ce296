import type { Programme } from "./programme.ts";
import type { SpectrumWords } from "./spectrum.ts";

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
export type Raised = "emersed" | "in vitro" | "submerged";
export type HardscapeKind = "stone" | "wood";
export type StoneShape = "irregular" | "faceted" | "layered" | "rounded";
export type Background = "none" | "black" | "grey" | "white";
export type Whiteness = "2700 K" | "3000 K" | "4000 K" | "5000 K" | "6500 K";
/** Where a room's window light is strong: by the window, near it, or deep in the room. */
type Nearness = "at the window" | "near the window" | "deep in the room";
/** The side of the tank that daylight falls on. */
export type DaylightSide = "front" | "back" | "left" | "right" | "top";
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
  /** What covers the back pane. */
  readonly background: Entry<Background>;
  readonly price: Entry | null;
}

/** A place on the floor: shares of the inside length (0 left to 1 right) and width (0 front to 1 back). */
export type FloorPoint = readonly [x: number, y: number];

/** One layer of substrate: its thickness at the four corners, m. */
export interface LayerPlan {
  /** Name in the facts. */
  readonly material: string;
  readonly frontLeft: Entry;
  readonly frontRight: Entry;
  readonly backLeft: Entry;
  readonly backRight: Entry;
  /** Depths on an even grid over the floor, m: rows from the front, each from left to right; null = the corners say it. */
  readonly heights: readonly (readonly number[])[] | null;
  /** The area that the layer is limited to; null = the whole floor. */
  readonly within: readonly FloorPoint[] | null;
  /** What one bag holds, m3; null where it is bought loose. */
  readonly bag: Entry | null;
  /** Price of a bag, or of a litre where no bag is named. */
  readonly price: Entry | null;
}

/** A step in the bed that something holds up. */
export interface EdgePlan {
  readonly line: readonly FloorPoint[];
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
  /** Front to back before it is turned, m. */
  readonly breadth: Entry;
  /** Lean from upright, degrees, positive to the right. */
  readonly lean: Entry;
  /** Tipped from upright, degrees, positive to the back. */
  readonly tip: Entry;
  /** Turned about the vertical, degrees, counter-clockwise seen from above. */
  readonly turn: Entry;
  /** Its foot above the ground it stands on, m; negative = buried. */
  readonly raise: Entry;
  /** How a stone is shaped where its own form is not known. */
  readonly shape: Entry<StoneShape>;
  /** Branches of a piece of wood. */
  readonly branches: Entry;
  /** Which of the many stones of this shape. */
  readonly seed: Entry;
  readonly name: string | null;
  /** Own form, as packed by the program from a scan or model; null = shaped from size and seed. */
  readonly model: string | null;
  /** Pieces with the same word move together. */
  readonly group: string | null;
  readonly locked: boolean;
  /** Price of the piece. */
  readonly price: Entry | null;
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
  /** Absorption of light by dissolved colour at 440 nm, 1/m. */
  readonly stain: Entry;
  /** Haze, NTU. */
  readonly haze: Entry;
}

/** One channel of a lamp. Output: its own photons, lumens or watts, or its share of the lamp's photons. */
export interface ChannelPlan {
  readonly spectrum: ChannelLight;
  /** Photons of 400-700 nm a second at full strength, umol/s. */
  readonly photons: Entry | null;
  /** Luminous flux at full strength, lm. */
  readonly lumens: Entry | null;
  /** Electrical power at full strength, W. */
  readonly power: Entry | null;
  /** Photons (400-700 nm) per joule of electricity, umol/J; null = as the lamp's. */
  readonly efficacy: Entry | null;
  /** Share of the lamp's photons with every channel at full, 0 to 1. */
  readonly share: Entry | null;
  /** Dimmer of the channel, 0 to 1; the lamp's own comes on top. */
  readonly strength: Entry;
  /** Its own day; null = that of the lamp. */
  readonly programme: Programme | null;
}

/** The light of a channel, and how it was typed. */
export type ChannelLight = SpectrumWords & { readonly text: string };

/** Diffuse daylight on one side of the tank. */
export interface DaylightPlan {
  readonly side: Entry<DaylightSide>;
  readonly place: Entry<Nearness>;
  /** Measured on that side facing out, lx. */
  readonly lux: Entry | null;
  /** Measured on that side facing out, umol/m2/s. */
  readonly ppfd: Entry | null;
  /** When it was measured, hours after midnight. */
  readonly at: Entry;
  /** Hours after midnight between which there is daylight. */
  readonly rise: Entry;
  readonly set: Entry;
}

export interface LampPlan {
  readonly kind: Entry<LampKind>;
  /** Electrical power at full strength, W. */
  readonly power: Entry;
  /** Photons (400-700 nm) per joule of electricity, umol/J. */
  readonly efficacy: Entry;
  /** Photons of 400-700 nm a second, umol/s; null where the label does not say. */
  readonly photons: Entry | null;
  /** Luminous flux, lm; null where the label does not say. */
  readonly lumens: Entry | null;
  /** Colour of the white that it shines. */
  readonly spectrum: Entry<Whiteness>;
  /** Channels that are dimmed apart; empty = one, of its white. */
  readonly channels: readonly ChannelPlan[];
  /** Full angle between the directions of half intensity, degrees. */
  readonly beam: Entry;
  /** Text of a photometric file (LM-63); null = a beam of its class. */
  readonly photometry: string | null;
  /** Lit length, m. */
  readonly length: Entry;
  /** Lit width, m. */
  readonly width: Entry;
  /** Middle along the length of the tank, 0 left to 1 right. */
  readonly at: Entry;
  /** Middle from front to back, 0 front to 1 back. */
  readonly depth: Entry;
  /** Turned about the vertical, degrees, counter-clockwise seen from above; 0 = along the tank. */
  readonly turn: Entry;
  /** Tilted about its long axis, degrees; positive throws its light to the back. */
  readonly tilt: Entry;
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
  /** Its day point by point, which hours typed beside it move; null = hours and ramps. */
  readonly programme: Programme | null;
  /** Price of the lamp. */
  readonly price: Entry | null;
}

export interface LightPlan extends LampPlan {
  /** PPFD measured on the carpet or the bare bed, umol/m2/s; null when nobody measured it. */
  readonly ppfd: Entry | null;
  /** Strength of this lamp when the light was measured, 0 to 1. */
  readonly measuredAt: Entry;
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
  readonly price: Entry | null;
}

export interface FilterPlan {
  readonly kind: Entry<FilterKind>;
  /** Flow printed on the label, L/h. */
  readonly rated: Entry;
  /** Flow that really comes out, L/h. */
  readonly flow: Entry;
  /** Electrical power, W. */
  readonly power: Entry;
  readonly price: Entry | null;
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
  readonly price: Entry | null;
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
  /** The area it is planted over; null = only `at`, `depth` and `cover` are known. */
  readonly outline: readonly FloorPoint[] | null;
  /** Place from front to back, 0 front to 1 back. */
  readonly depth: Entry;
  /** Name of the piece that it grows on; null = in the ground or afloat. */
  readonly on: string | null;
  /** Portions to plant; null = as its usual density says. */
  readonly portions: Entry | null;
  /** How its leaves were raised that are set on planting day. */
  readonly raised: Entry<Raised>;
  /** Height at which it is cut, and to which, m; null = as its form usually is. */
  readonly cutAt: Entry | null;
  readonly cutTo: Entry | null;
  /** Price of a portion. */
  readonly price: Entry | null;
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
  /** In which prices are given, such as EUR. */
  readonly currency?: string;
  readonly tank: TankPlan;
  /** Bottom layer first. */
  readonly substrate: readonly LayerPlan[];
  readonly edges: readonly EdgePlan[];
  readonly hardscape: readonly HardscapePlan[];
  readonly water: WaterPlan;
  readonly light: LightPlan | null;
  /** Lamps beside the first. */
  readonly lamps: readonly LampPlan[];
  /** Light from a window; null = none that counts. */
  readonly daylight: DaylightPlan | null;
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
