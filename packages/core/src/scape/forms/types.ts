import type { Point2 } from "../../geometry/index.ts";
import type { Json, Plan } from "../../plan/index.ts";

export type FormName = "island" | "mound" | "valley" | "triangle" | "street" | "bank";

export interface FormInput {
  /** The tank with its light, gas and warmth. */
  readonly plan: Plan;
  readonly form: FormName;
  /** 32-bit integer: another one gives another layout of the same form. */
  readonly seed: number;
  /** Names in the facts; left out, the form chooses. */
  readonly stone?: string;
  readonly wood?: string;
}

/** The four groups of a plan as typed in its file; `[]` where a form has none. */
export interface FormParts {
  readonly substrate: Json;
  readonly hardscape: Json;
  readonly plants: Json;
  readonly edges: Json;
}

/** What part a planting plays in a layout. */
export type Role = "carpet" | "low" | "street" | "mid" | "tall" | "tied";

/** A planting area: shares of the inside length and width. */
export interface Area {
  readonly role: Exclude<Role, "tied">;
  readonly outline: readonly Point2[];
}

/** Where a stone goes: a place of its own, or beside an earlier one. */
export interface StoneSpot {
  /** Linear size against the main stone. */
  readonly ratio: number;
  readonly at?: Point2;
  readonly beside?: {
    /** Position in the list. */
    readonly of: number;
    /** Degrees, seen from above: 0 = right, 90 = back. */
    readonly angle: number;
    /** 1 = side by side, less = nestled together. */
    readonly reach: number;
  };
}

/** Where a piece of wood goes, its sizes as shares of the inside length, width and water depth. */
export interface WoodSpot {
  readonly at: Point2;
  readonly width: number;
  readonly breadth: number;
  readonly height: number;
  /** Degrees. */
  readonly lean: number;
  readonly turn: number;
  readonly branches: number;
}

/** A piece with its sizes in m and its place as shares of the floor. */
export interface Piece {
  readonly kind: "stone" | "wood";
  readonly name: string;
  readonly material: string;
  readonly at: Point2;
  readonly width: number;
  readonly breadth: number;
  readonly height: number;
  readonly lean: number;
  readonly tip: number;
  readonly turn: number;
  /** m above the ground; below 0 = set in. */
  readonly raise: number;
  readonly seed: number;
  readonly branches: number;
}
