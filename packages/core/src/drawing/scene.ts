/** What is to be drawn, in plain figures, and how a careless input is made drawable. */
import type { HeightField } from "../geometry/index.ts";
import { clamp } from "./geometry.ts";
import type { PieceForm } from "./mesh-piece.ts";

export type Texture = "layered" | "faceted" | "rounded";
export type PlantForm = "stem" | "rosette" | "runner" | "carpet" | "moss" | "bulb" | "rhizome" | "floating";
export type Leaf = "ribbon" | "fern" | "lobed" | "oval" | "needle" | "round";
export type Body = "slender" | "deep" | "eel" | "catfish" | "shrimp" | "snail";
export type WaterLayer = "top" | "mid" | "bottom";

export interface SectionTank {
  /** Outside measures, m. */
  readonly length: number;
  readonly width: number;
  readonly height: number;
  /** Thickness of the panes and of the bottom pane, m. */
  readonly glass: number;
  readonly base: number;
  /** Height of the water above the inside floor, m. */
  readonly waterLine: number;
  readonly cover: "open" | "lid";
}

/** Thickness of one layer of the ground in its four corners, m. */
export interface SectionLayer {
  readonly material: "soil" | "sand" | "gravel";
  readonly frontLeft: number;
  readonly frontRight: number;
  readonly backLeft: number;
  readonly backRight: number;
  /** Its thickness all over the floor, m, where it is more than its corners tell. */
  readonly field?: HeightField;
}

export interface SectionHardscape {
  readonly kind: "stone" | "wood";
  readonly texture: Texture;
  /** Middle, as a share of the inside length from the left. */
  readonly at: number;
  /** 0 at the front pane, 1 at the back pane. */
  readonly depth: number;
  /** m */
  readonly width: number;
  /** m above the ground it stands on. */
  readonly height: number;
  /** -1 leans 45° to the left, 0 stands upright, 1 leans 45° to the right. */
  readonly lean: number;
  /** Its own form where it lies: x from the left pane, y from the front pane, z up from the floor, m. */
  readonly form?: PieceForm;
}

export interface SectionPlant {
  readonly label: string;
  readonly form: PlantForm;
  /** Middle, as a share of the inside length from the left. */
  readonly at: number;
  /** 0 at the front pane, 1 at the back pane; left out, the form's usual place. */
  readonly depth?: number;
  /** Length of ground, wood or surface that it covers, m. */
  readonly width: number;
  /** m; of a floating plant the length of its roots. */
  readonly height: number;
  readonly leaf?: Leaf;
}

export interface SectionAnimal {
  readonly label: string;
  readonly body: Body;
  readonly layer: WaterLayer;
  readonly count: number;
  /** m */
  readonly length: number;
}

export interface SectionLamp {
  readonly kind: "bar" | "panel" | "tube" | "pendant";
  /** m */
  readonly length: number;
  readonly aboveRim: number;
  /** 0 off, 1 full. */
  readonly strength: number;
  readonly caption: string;
}

export interface SectionScene {
  readonly tank: SectionTank;
  /** Bottom first. */
  readonly layers: readonly SectionLayer[];
  readonly hardscape: readonly SectionHardscape[];
  readonly plants: readonly SectionPlant[];
  readonly animals: readonly SectionAnimal[];
  readonly lamp?: SectionLamp;
  /** `ripple` 0 still to 4 broken all over: height of the waves and length of the flow lines. */
  readonly pipes?: { readonly outlet: boolean; readonly intake: boolean; readonly ripple: number };
  /** `device` in words ("ceramic disc", "bell", "inline reactor"); `bubbles` per second. */
  readonly diffuser?: { readonly device: string; readonly bubbles: number };
  readonly airStone?: boolean;
  readonly heater?: boolean;
  /** °C */
  readonly thermometer?: number;
  readonly seed: number;
}

/** Where a figure belongs in the tank. */
export type Place = "outlet" | "surface" | "water-upper" | "water" | "thermometer" | "diffuser" | "substrate" | "lamp";

/** A figure that is drawn in its place with a thin leader line. */
export interface SectionFigure {
  readonly id: string;
  readonly label: string;
  readonly value: string;
  readonly unit: string;
  /** The figure in words: "low, 16 to 21". */
  readonly note?: string;
  readonly place: Place;
  readonly selected?: boolean;
  readonly warn?: boolean;
}

/** Back to front, where the plan does not say: common practice, no source. */
const usualDepth: Readonly<Record<PlantForm, number>> = {
  runner: 0.88,
  stem: 0.66,
  bulb: 0.6,
  moss: 0.45,
  rhizome: 0.45,
  rosette: 0.38,
  carpet: 0.3,
  floating: 0.3,
};

const usualLeaf: Readonly<Record<PlantForm, Leaf>> = {
  runner: "ribbon",
  stem: "oval",
  bulb: "ribbon",
  moss: "needle",
  rhizome: "oval",
  rosette: "oval",
  carpet: "oval",
  floating: "round",
};

export interface DrawnPlant extends Required<SectionPlant> {}

/** A scene in which every figure is finite and within the tank. */
export interface DrawnScene extends SectionScene {
  readonly plants: readonly DrawnPlant[];
  /** Inside length and height, m. */
  readonly insideLength: number;
  readonly insideHeight: number;
}

const finite = (value: number, low: number, high: number, otherwise = low): number =>
  Number.isFinite(value) ? clamp(value, low, high) : otherwise;

/**
 * The scene with everything brought inside the tank, so that a half-made plan can still be drawn: shares to 0..1,
 * sizes to the tank's own, layers to at most 0.85 of the water.
 * @throws RangeError where the tank itself has no size, or is more than 100 times as long as high or as high as long.
 */
export function drawable(scene: SectionScene): DrawnScene {
  const { length, height } = scene.tank;
  if (!(length > 0 && height > 0 && length < 100 && height < 100 && length / height < 100 && height / length < 100)) {
    throw new RangeError(`tank has no drawable size: ${length} m long, ${height} m high`);
  }
  const glass = finite(scene.tank.glass, 0, Math.min(length / 8, height / 8));
  const base = finite(scene.tank.base, 0, height / 8);
  const insideLength = length - 2 * glass;
  const insideHeight = height - base;
  const waterLine = finite(scene.tank.waterLine, insideHeight * 0.05, insideHeight * 0.995, insideHeight * 0.95);

  const corners = ["frontLeft", "frontRight", "backLeft", "backRight"] as const;
  const deepest = Math.max(
    ...corners.map((c) => scene.layers.reduce((sum, layer) => sum + finite(layer[c], 0, height), 0)),
  );
  const squeeze = deepest > waterLine * 0.85 ? (waterLine * 0.85) / deepest : 1;
  const thickness = (value: number): number => finite(value, 0, height) * squeeze;

  const { lamp, pipes, diffuser, thermometer, ...rest } = scene;
  return {
    ...rest,
    seed: Number.isFinite(scene.seed) ? Math.trunc(scene.seed) : 0,
    insideLength,
    insideHeight,
    tank: { ...scene.tank, width: finite(scene.tank.width, 0, 100), glass, base, waterLine },
    layers: scene.layers.map((layer) => ({
      material: layer.material,
      frontLeft: thickness(layer.frontLeft),
      frontRight: thickness(layer.frontRight),
      backLeft: thickness(layer.backLeft),
      backRight: thickness(layer.backRight),
      ...(layer.field && squeeze === 1 ? { field: layer.field } : {}),
    })),
    hardscape: scene.hardscape.map((piece) => ({
      ...piece,
      at: finite(piece.at, 0, 1, 0.5),
      depth: finite(piece.depth, 0, 1, 0.5),
      width: finite(piece.width, 0.005, insideLength),
      height: finite(piece.height, 0.005, insideHeight),
      lean: finite(piece.lean, -1, 1, 0),
    })),
    plants: scene.plants.map((plant) => ({
      label: plant.label,
      form: plant.form,
      at: finite(plant.at, 0, 1, 0.5),
      depth: finite(plant.depth ?? usualDepth[plant.form], 0, 1, usualDepth[plant.form]),
      width: finite(plant.width, 0.01, insideLength),
      height: finite(plant.height, 0.005, insideHeight * 2),
      leaf: plant.leaf ?? usualLeaf[plant.form],
    })),
    animals: scene.animals.map((animal) => ({
      ...animal,
      count: Math.floor(finite(animal.count, 0, 1e6)),
      length: finite(animal.length, 0.004, insideLength * 0.8),
    })),
    ...(lamp
      ? {
          lamp: {
            ...lamp,
            length: finite(lamp.length, 0.02, length * 3),
            aboveRim: finite(lamp.aboveRim, 0, 5),
            strength: finite(lamp.strength, 0, 1),
          },
        }
      : {}),
    ...(pipes ? { pipes: { ...pipes, ripple: finite(pipes.ripple, 0, 4) } } : {}),
    ...(diffuser ? { diffuser: { ...diffuser, bubbles: finite(diffuser.bubbles, 0, 100) } } : {}),
    ...(thermometer !== undefined && Number.isFinite(thermometer) ? { thermometer } : {}),
  };
}
