import type { GrowthForm } from "../facts/index.ts";
import { relation } from "../relation/index.ts";
import { biomass, choice, quantity } from "./usual-inputs.ts";

/** Design values by growth form: cover coefficient m2/g, dry biomass at 95 % cover g/m2, spread of the front m/week. */
interface FormLaw {
  readonly cover: number;
  readonly closed: number;
  readonly spreadMin: number;
  readonly spreadMax: number;
}

const forms: Readonly<Record<GrowthForm, FormLaw>> = {
  stem: { cover: 0.02, closed: 150, spreadMin: 0, spreadMax: 0 },
  rosette: { cover: 0.02, closed: 150, spreadMin: 0, spreadMax: 0.003 },
  bulb: { cover: 0.02, closed: 150, spreadMin: 0, spreadMax: 0.003 },
  runner: { cover: 0.02, closed: 150, spreadMin: 0.02, spreadMax: 0.05 },
  carpet: { cover: 0.03, closed: 100, spreadMin: 0.005, spreadMax: 0.015 },
  rhizome: { cover: 0.02, closed: 150, spreadMin: 0.002, spreadMax: 0.005 },
  moss: { cover: 0.03, closed: 100, spreadMin: 0.005, spreadMax: 0.01 },
  floating: { cover: 0.03, closed: 100, spreadMin: 0, spreadMax: 0 },
};

const formNames = ["stem", "rosette", "bulb", "runner", "carpet", "rhizome", "moss", "floating"] as const;

/** Speed at which the edge of a stand moves, m/week, lowest and highest; common practice. */
export function spreadSpeed(form: GrowthForm): readonly [number, number] {
  return [forms[form].spreadMin, forms[form].spreadMax];
}

/**
 * Share of the ground a stand covers.
 * @param biomass g dry/m2
 * @returns 0..1; design value
 */
export function coverOf(form: GrowthForm, biomass: number): number {
  return form === "floating" ? Math.min(1, biomass / 100) : 1 - Math.exp(-forms[form].cover * biomass);
}

/** Dry biomass at which a stand covers 95 % of its ground (floating: all of it), g/m2. */
export function closureBiomass(form: GrowthForm): number {
  return forms[form].closed;
}

/** Density of stems and what a metre of stem weighs dry. */
export interface StemDensity {
  /** 1/m2 */
  readonly stems: number;
  /** g/m, 0.2 to 0.6 */
  readonly perMetre: number;
}

/**
 * Height of a stand from its biomass.
 * @param biomass g dry/m2; @param heightMin, @param heightMax usual heights of the species, m
 * @param depth water above the ground, m; stems that reach the surface spread under it
 * @returns m; design value
 */
export function standHeight(
  form: GrowthForm,
  biomass: number,
  heightMin: number,
  heightMax: number,
  depth: number,
  stems: StemDensity = { stems: 400, perMetre: 0.4 },
): number {
  const closed = forms[form].closed;
  let height: number;
  if (form === "stem") height = biomass / (stems.stems * stems.perMetre);
  else if (form === "moss") height = Math.min(heightMax, biomass / 3000);
  else if (form === "floating") height = heightMax;
  else if (form === "carpet") {
    // Stays low until it covers 90 % of its ground, then thickens up to twice the closed stand.
    const from = Math.log(10) / forms.carpet.cover;
    height = heightMin + (heightMax - heightMin) * Math.min(1, Math.max(0, (biomass - from) / (2 * closed - from)));
  } else height = heightMax * -Math.expm1((-2 * biomass) / closed);
  return Math.min(height, depth);
}

/**
 * Dry biomass that a cell gains from a neighbour whose stand moves in; the neighbour loses as much.
 * @param speed m/d; @param time d; @param width of the cell, m; @param neighbour g dry/m2
 * @returns g/m2; nothing while the neighbour covers less than half of its ground
 */
export function spreadGain(form: GrowthForm, speed: number, time: number, width: number, neighbour: number): number {
  return coverOf(form, neighbour) > 0.5 ? ((speed * time) / width) * neighbour : 0;
}

/**
 * Most stems that stand together as they grow heavier.
 * @param mass dry, g per stem
 * @returns 1/m2. Source: charisma
 */
export function thinnedStems(mass: number): number {
  return (5950 / mass) ** (2 / 3);
}

export const formRelations = [
  relation({
    id: "stand-cover",
    title: "Ground covered by a stand",
    room: "plants",
    inputs: { form: choice("growth form", formNames, "stem"), biomass },
    outputs: {
      cover: { label: "share of the ground covered", unit: "1" },
      closure: { label: "dry biomass at 95 % cover (floating: all)", unit: "g/m2" },
    },
    equation: "c = 1 - exp(-k B), k 0.02, carpets and mosses 0.03; floating min(1, B/100)",
    sources: ["chosen"],
    compute: (i) => ({ cover: coverOf(i.form, i.biomass), closure: closureBiomass(i.form) }),
  }),
  relation({
    id: "stand-height",
    title: "Height of a stand",
    room: "plants",
    inputs: {
      form: choice("growth form", formNames, "stem"),
      biomass,
      height_min: quantity("least height of the species", "m", 0, 2, 0.1),
      height_max: quantity("greatest height of the species", "m", 0.005, 3, 0.5),
      water_depth: quantity("water above the ground", "m", 0.02, 5, 0.4),
      stems: quantity("stems per area", "1/m2", 1, 10000, 400),
      stem_mass: quantity("dry mass of a metre of stem", "g/m", 0.05, 5, 0.4),
    },
    outputs: { height: { label: "height", unit: "m" } },
    equation:
      "stem B/(n l); rosette, bulb, runner, rhizome Hmax(1 - e^(-2B/B95)); carpet Hmin to 90 % cover, then to Hmax at 2 B95; moss B/3000; at most the water above",
    sources: ["charisma", "chosen"],
    validity: "design values: compare with the tank and tune",
    compute: (i) => ({
      height: standHeight(i.form, i.biomass, i.height_min, i.height_max, i.water_depth, {
        stems: i.stems,
        perMetre: i.stem_mass,
      }),
    }),
  }),
  relation({
    id: "stem-thinning",
    title: "Most stems that stand together",
    room: "plants",
    inputs: { stem_mass: quantity("dry mass of a stem", "g", 0.001, 1000) },
    outputs: { stems: { label: "stems per area", unit: "1/m2" } },
    equation: "N = (5950/w)^(2/3)",
    sources: ["charisma"],
    compute: (i) => ({ stems: thinnedStems(i.stem_mass) }),
  }),
] as const;
