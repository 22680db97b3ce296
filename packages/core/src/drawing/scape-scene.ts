/**
 * A scape as it is to be seen, in plain figures: one scene for the plan, the front elevation and the view in three
 * dimensions. Lengths in m; x from the left pane, y from the front pane to the back, z up from the inside floor.
 */
import type { HeightField } from "../geometry/index.ts";
import type { Mesh } from "../solids/index.ts";
import type { Leaf, PlantForm, SectionAnimal, Texture } from "./scene.ts";

export type Point2 = readonly [x: number, y: number];

export interface ScapeTank {
  /** Inside, m. */
  readonly length: number;
  readonly width: number;
  readonly height: number;
  /** Walls and bottom pane, m. */
  readonly glass: number;
  readonly base: number;
  /** Height of the water above the inside floor, m. */
  readonly waterLine: number;
  readonly cover: "open" | "lid";
}

/** The top of one layer of ground where it lies on those before it. */
export interface ScapeLayer {
  readonly material: "soil" | "sand" | "gravel";
  readonly top: HeightField;
  /** The area it is limited to; null = the whole floor. */
  readonly within: readonly Point2[] | null;
}

export interface ScapePiece {
  /** Position in the plan's list. */
  readonly index: number;
  /** What it is called on the drawing: S1, W2. */
  readonly key: string;
  readonly label: string;
  readonly kind: "stone" | "wood";
  readonly texture: Texture | "irregular";
  /** In the tank's coordinates, where it lies; the part under the ground included. */
  readonly mesh: Mesh;
  /** Square to the beds of a stone, along the grain of wood; unit vector in the tank's coordinates. */
  readonly grain: readonly [x: number, y: number, z: number];
  readonly locked: boolean;
}

export interface ScapeZone {
  /** Position in the plan's list. */
  readonly index: number;
  /** Letter in the plant key: A, B, C. */
  readonly key: string;
  readonly label: string;
  readonly form: PlantForm;
  readonly leaf: Leaf;
  /** Area it is planted over, seen from above; of plants on a piece, the piece's part that they cover. */
  readonly outline: readonly Point2[];
  /** Present height, m; of floating plants the length of their roots. */
  readonly height: number;
  /** Share of its own area that its leaves cover, 0..1. */
  readonly cover: number;
  /** Position in `pieces` of the piece that it grows on; null = in the ground or afloat. */
  readonly on: number | null;
  /** Usual width of one plant, m. */
  readonly spread: number;
}

export interface ScapeLamp {
  /** 0 = the tank's `light`, 1 and up = further lamps of the plan's list. */
  readonly index: number;
  readonly kind: "bar" | "panel" | "tube" | "pendant";
  /** Lit length and width, m. */
  readonly length: number;
  readonly width: number;
  /** Middle of its lower face, m. */
  readonly x: number;
  readonly y: number;
  readonly z: number;
  /** Turned about the vertical, degrees, counter-clockwise from above; 0 = along the tank. */
  readonly turn: number;
  /** Tilted about its long axis, degrees; positive throws its light to the back. */
  readonly tilt: number;
  /** 0..1 */
  readonly strength: number;
  readonly caption: string;
}

export interface ScapeScene {
  readonly tank: ScapeTank;
  /** Bottom first. */
  readonly layers: readonly ScapeLayer[];
  /** Top of the whole bed. */
  readonly ground: HeightField;
  /** While a hand shapes the bed alone: the ground on which pieces and plants still stand, until it lets go. */
  readonly standing?: HeightField;
  /** Lines of retained steps, seen from above. */
  readonly edges: readonly (readonly Point2[])[];
  readonly pieces: readonly ScapePiece[];
  readonly zones: readonly ScapeZone[];
  readonly lamps: readonly ScapeLamp[];
  readonly animals: readonly SectionAnimal[];
  readonly seed: number;
}
