import type { BodyClass } from "../facts/index.ts";
import { relation } from "../relation/index.ts";
import { choice, quantity } from "./usual-inputs.ts";

/**
 * Mass over length of a body class: W = a L^b, g and cm of total length (shell of snails), and the spread of log10 a.
 */
export interface BodyLaw {
  readonly a: number;
  readonly b: number;
  readonly spread: number;
}

/** Volumes of bodies over the cube of their length; widths, heights and diameters as shares of the length. */
const ellipsoid = (length: number, width: number, height: number): number => (Math.PI / 6) * length * width * height;
const cylinder = (diameter: number, length = 1): number => (Math.PI / 4) * diameter ** 2 * length;
const cone = (width: number): number => (Math.PI / 12) * width ** 2;

const solid = (a: number): BodyLaw => ({ a, b: 3, spread: 0.175 });

/**
 * Body laws. The first four are the published priors of fish shapes (froese-2014). The rest are plain bodies with
 * proportions judged by eye, design
 * values good to a factor of about 1.5: a disc without its tail fin; a shrimp as a rod; snails with their shell (1.1
 * to 1.3 g/cm3) as
 * half-high dome, flat coil filled to six tenths, egg, cone and tower.
 */
export const bodyLaws: Readonly<Record<BodyClass, BodyLaw>> = {
  "eel-like": { a: 0.00102, b: 3.06, spread: 0.175 },
  elongated: { a: 0.00389, b: 3.12, spread: 0.171 },
  fusiform: { a: 0.01122, b: 3.04, spread: 0.173 },
  deep: { a: 0.01995, b: 3.01, spread: 0.175 },
  disc: solid(ellipsoid(0.8, 0.7, 0.115)),
  shrimp: solid(cylinder(0.11)),
  "round snail": solid(1.3 * ellipsoid(1, 0.8, 0.5)),
  "coiled snail": solid(1.2 * 0.6 * cylinder(1, 0.3)),
  "oval snail": solid(1.1 * ellipsoid(1, 0.5, 0.5)),
  "cone snail": solid(1.3 * cone(0.45)),
  "tower snail": solid(1.3 * cone(0.33)),
};

/** Law where nothing is known of the shape. Source: froese-2014 */
export const unknownBody: BodyLaw = { a: 0.01, b: 3.04, spread: 0.313 };

const bodyNames = [
  "eel-like",
  "elongated",
  "fusiform",
  "deep",
  "disc",
  "shrimp",
  "round snail",
  "coiled snail",
  "oval snail",
  "cone snail",
  "tower snail",
  "unknown",
] as const;

/**
 * Wet mass of an animal from its length.
 * @param body class of the animal table, or "unknown"; @param length total length, m, > 0
 * @returns g. Sources: froese-2014, chosen
 */
export function massFromLength(body: BodyClass | "unknown", length: number): number {
  const law = body === "unknown" ? unknownBody : bodyLaws[body];
  return law.a * (100 * length) ** law.b;
}

/** Length without tail fin over total length, median of 13032 pictures. Source: fish-pictures */
export const standardPerTotalLength = 0.83;

export const massRelations = [
  relation({
    id: "mass-from-length",
    title: "Mass of an animal from its length and shape",
    room: "animals",
    inputs: {
      body: choice("shape of body", bodyNames, "fusiform"),
      length: quantity("total length; shell of a snail", "cm", 0.1, 150),
    },
    outputs: {
      mass: { label: "wet mass", unit: "g" },
      low: { label: "low end, one spread", unit: "g" },
      high: { label: "high end, one spread", unit: "g" },
    },
    equation: "W = a L^b, a and b by shape",
    sources: ["froese-2014", "chosen"],
    validity: "the priors of fish shapes hold from a few millimetres up; weigh or look up a species where it matters",
    compute: (i) => {
      const mass = massFromLength(i.body, i.length / 100);
      const { spread } = i.body === "unknown" ? unknownBody : bodyLaws[i.body];
      return { mass, low: mass / 10 ** spread, high: mass * 10 ** spread };
    },
  }),
  relation({
    id: "mass-from-coefficients",
    title: "Mass of an animal from its length and known coefficients",
    room: "animals",
    inputs: {
      a: quantity("coefficient", "1", 1e-5, 1),
      b: quantity("exponent", "1", 2, 4, 3),
      length: quantity("length", "cm", 0.1, 150),
    },
    outputs: { mass: { label: "wet mass", unit: "g" } },
    equation: "W = a L^b, g and cm",
    sources: ["froese-2014"],
    compute: (i) => ({ mass: i.a * i.length ** i.b }),
  }),
] as const;
