import type { FactKind } from "../facts/index.ts";
import type { Known, Plan } from "./plan.ts";

/** The part of the owner's work that a field belongs to; forms are grouped by it. */
export type Place =
  | "tank"
  | "scape"
  | "light"
  | "gas"
  | "filter"
  | "heat"
  | "water"
  | "plants"
  | "animals"
  | "readings";

/** What a default comes to in one plan. */
export interface Derived {
  /** A number in the field's canonical unit, or text read as if it were typed. */
  readonly value: number | string;
  /** Why, where the figures of this plan say more than the field's own reason. */
  readonly reason?: string;
}

/** Works a default out from what the plan holds so far; `index` is the position in the field's list. Null = stays open. */
export type Rule = (plan: Plan, index: number) => Derived | null;

/** What stands in for a field left out: never hidden, always with a reason. */
export interface Fallback {
  /** The default as one would type it, or in words where it follows from other fields. */
  readonly text: string;
  /** One plain sentence. */
  readonly reason: string;
  readonly rule?: Rule;
}

interface Base {
  /** `co2.bubbles`, `plants[].cover`. */
  readonly path: string;
  readonly label: string;
  readonly place: Place;
  /** One sentence for the form and the guide. */
  readonly help: string;
  /** Null = the field may not be left out. */
  readonly fallback: Fallback | null;
  /** Set by drawing or from a file, so that forms do not ask for it. */
  readonly drawn?: true;
}

/** The unit in which a quantity is kept, the units in which people type it, and its bounds. */
export interface Measure {
  /** Canonical unit of the resolved number. */
  readonly unit: string;
  /** Usual metric unit of the trade, for forms and messages. */
  readonly metric: string;
  /** The same for people who use US units. */
  readonly us: string;
  /** Bounds in the canonical unit, generous but physical. */
  readonly min: number;
  readonly max: number;
  /** Step of a form, in the usual metric unit. */
  readonly step: number;
  /** Step of a form, in the usual US unit. */
  readonly usStep: number;
  /** Formula of the ion that a mass per volume is taken as. */
  readonly ion?: string;
  /** The typed value is a difference (0.5 °F = 0.28 K), not a place on a scale. */
  readonly difference?: true;
}

export interface QuantityField extends Base, Measure {
  readonly kind: "quantity";
  /** How a typed value without a mark is taken to be known. */
  readonly usual: Known;
}

/** A quantity whose unit follows from another field of the same list item, such as a reading's value from `what`. */
interface VariantField extends Base {
  readonly kind: "variant";
  /** Key, in the same item, that decides. */
  readonly by: string;
  readonly measures: Readonly<Record<string, Measure>>;
  readonly usual: Known;
}

/** A bare whole number: a count or a class. */
interface CountField extends Base {
  readonly kind: "count";
  readonly unit: "1";
  readonly min: number;
  readonly max: number;
  readonly step: number;
  readonly usual: Known;
}

/** A time of day, `HH:MM` from 00:00 to 24:00, kept in hours after midnight. */
interface TimeField extends Base {
  readonly kind: "time";
  readonly unit: "h";
  readonly min: number;
  readonly max: number;
  /** In hours. */
  readonly step: number;
  readonly usual: Known;
}

interface ChoiceField extends Base {
  readonly kind: "choice";
  readonly choices: readonly string[];
  readonly usual: Known;
  /** Kept as the bare word instead of with what is known about it. */
  readonly bare?: true;
}

/** The name of something in the facts, kept as its id. */
interface FactField extends Base {
  readonly kind: "fact";
  /** Where the name is looked up; by another key of the item where that decides. */
  readonly facts: FactKind | { readonly by: string; readonly kinds: Readonly<Record<string, FactKind>> };
}

interface TextField extends Base {
  readonly kind: "text" | "date";
  /** Longest text in characters, where it is more than a line or two. */
  readonly longest?: number;
}

/** Places on the floor in one line, each as two shares: `10 % 20 %, 40 % 22 %`; or none. */
interface PointsField extends Base {
  readonly kind: "points";
  /** Fewest points: 2 for a line, 3 for an area. */
  readonly least: 2 | 3;
}

/** A list of rows of depths, the back row first. */
interface HeightsField extends Base {
  readonly kind: "heights";
  /** Bounds of a depth, m. */
  readonly max: number;
}

/** The light of a channel: a white, a colour, a table. */
interface SpectrumField extends Base {
  readonly kind: "spectrum";
}

/** Times of day with a strength each, in one line. */
interface ProgrammeField extends Base {
  readonly kind: "programme";
}

/** A short list within a list or map, each entry a map of fields of its own; their defaults follow from nothing else. */
export interface ItemsField extends Base {
  readonly kind: "items";
  readonly items: readonly Field[];
  readonly most: number;
}

interface FlagField extends Base {
  readonly kind: "flag";
}

/** The version of the file, or the alternatives: read by their own code, listed here for schema and guide. */
interface FrameField extends Base {
  readonly kind: "version" | "alternatives";
}

export type Field =
  | QuantityField
  | VariantField
  | CountField
  | TimeField
  | ChoiceField
  | FactField
  | TextField
  | PointsField
  | HeightsField
  | SpectrumField
  | ProgrammeField
  | ItemsField
  | FlagField
  | FrameField;

/** A map or list of fields. */
export interface Group {
  /** `co2`, `plants`. */
  readonly path: string;
  readonly label: string;
  readonly place: Place;
  readonly help: string;
  /** True for a list of maps. */
  readonly list: boolean;
  /** What leaving it out means: every default of its fields, or that the tank has no such thing. */
  readonly absent: "defaults" | "none";
}
