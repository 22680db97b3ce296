import { relation } from "../relation/index.ts";
import { integral } from "./quadrature.ts";
import { quantity } from "./usual-inputs.ts";

const RAD = Math.PI / 180;

/**
 * Extinction of a beam per leaf area, leaves black.
 * @param angle of the beam from the vertical, rad, 0 to below pi/2
 * @param spread ratio of leaf areas seen from above and from the side: 1 all ways alike, 2 flat rosettes, 0.5 grassy
 * @returns pure number. Source: campbell-1986
 */
export const leafExtinction = (angle: number, spread: number): number =>
  Math.hypot(spread, Math.tan(angle)) / (spread + 1.774 * (spread + 1.182) ** -0.733);

/**
 * Share of the light that a leaf absorbs, by its chlorophyll.
 * @param chlorophyll per leaf area, mmol/m2, >= 0
 * @returns 0..1. Source: evans-1993
 */
export const leafAbsorptance = (chlorophyll: number): number => chlorophyll / (chlorophyll + 0.076);

/** Extinction of leaves that scatter, from that of black ones. @param absorptance 0..1. Source: goudriaan-1977 */
export const scatteringExtinction = (black: number, absorptance: number): number => black * Math.sqrt(absorptance);

/** Share of a beam that passes leaves. @param area of leaves per ground, pure number */
export const beamThroughLeaves = (extinction: number, area: number): number => Math.exp(-extinction * area);

/** Share of evenly diffuse light from above that passes leaves. @param spread as in `leafExtinction` */
export const diffuseThroughLeaves = (area: number, spread: number, absorptance = 1): number =>
  integral(
    (c) =>
      c > 0 ? 2 * c * Math.exp(-scatteringExtinction(leafExtinction(Math.acos(c), spread), absorptance) * area) : 0,
    0,
    1,
  );

/**
 * Light extinction per dry mass from the leaf surface that a gram spreads out.
 * @param surface both sides together, m2/g; @param absorptance 0..1; @param projection mean projected share, 0.5 for leaves all ways
 * @returns m2/g. Sources: sher-kaul-1995, goudriaan-1977
 */
export const massExtinction = (surface: number, absorptance = 0.7, projection = 0.5): number =>
  scatteringExtinction(projection * (surface / 2), absorptance);

/** Surface of whole plants per dry mass, cm2/g; taken to be both sides. Source: sher-kaul-1995 */
export const plantSurfaces = [
  { name: "Elodea canadensis", surface: 1255 },
  { name: "Myriophyllum spicatum", surface: 1205 },
  { name: "Potamogeton perfoliatus", surface: 762 },
  { name: "Potamogeton lucens", surface: 653 },
  { name: "Nitellopsis obtusa", surface: 560 },
  { name: "Stuckenia pectinata", surface: 500 },
] as const;

const spread = quantity("spread of the leaves: 1 all ways alike, 2 flat rosettes, 0.5 grassy", "1", 0.1, 10, 1);
const absorptance = quantity("share of light a leaf absorbs; thin water leaves 0.4 to 0.8", "1", 0.05, 1, 0.7);

export const leafRelations = [
  relation({
    id: "leaf-extinction",
    title: "Extinction of light by leaves, by their angle",
    room: "light",
    inputs: {
      angle: quantity("angle of the light from the vertical; in water below 48.6 for direct light", "deg", 0, 85, 20),
      spread,
      absorptance,
    },
    outputs: {
      black: { label: "per leaf area, black leaves", unit: "1" },
      scattering: { label: "per leaf area, leaves that scatter", unit: "1" },
    },
    equation: "k = sqrt(x2 + tan2)/(x + 1.774 (x + 1.182)^-0.733); times the root of absorptance",
    sources: ["campbell-1986", "goudriaan-1977"],
    compute: (i) => {
      const black = leafExtinction(i.angle * RAD, i.spread);
      return { black, scattering: scatteringExtinction(black, i.absorptance) };
    },
  }),
  relation({
    id: "leaf-absorptance",
    title: "Share of light a leaf absorbs, from its chlorophyll",
    room: "light",
    inputs: { chlorophyll: quantity("chlorophyll per leaf area", "mmol/m2", 0, 2) },
    outputs: { absorptance: { label: "share absorbed", unit: "1" } },
    equation: "chl/(chl + 0.076)",
    sources: ["evans-1993"],
    compute: ({ chlorophyll }) => ({ absorptance: leafAbsorptance(chlorophyll) }),
  }),
  relation({
    id: "light-through-leaves",
    title: "Light that passes a stand of leaves",
    room: "light",
    inputs: {
      density: quantity("leaf area per volume of the stand", "1/m", 0, 200),
      height: quantity("height of the stand", "m", 0, 3),
      angle: quantity("angle of the direct light from the vertical", "deg", 0, 85, 0),
      spread,
      absorptance: { ...absorptance, default: 1 },
      clumping: quantity("clumping; stems and bushes 0.6 to 0.8", "1", 0.3, 1, 1),
    },
    outputs: {
      direct: { label: "share of the direct light", unit: "1" },
      diffuse: { label: "share of diffuse light from above", unit: "1" },
    },
    equation: "exp(-k L); 2 integral(mu exp(-k(mu) L) dmu), L = density x height x clumping",
    sources: ["campbell-1986", "goudriaan-1977"],
    validity: "Leaves strewn evenly.",
    compute: (i) => {
      const area = i.density * i.height * i.clumping;
      const k = scatteringExtinction(leafExtinction(i.angle * RAD, i.spread), i.absorptance);
      return { direct: beamThroughLeaves(k, area), diffuse: diffuseThroughLeaves(area, i.spread, i.absorptance) };
    },
  }),
  relation({
    id: "plant-mass-extinction",
    title: "Light extinction per dry mass of plants",
    room: "light",
    inputs: {
      surface: quantity("leaf surface per dry mass, both sides", "cm2/g", 50, 5000),
      absorptance,
      projection: quantity("mean projected share; 0.5 for leaves all ways", "1", 0.1, 1, 0.5),
      biomass: quantity("dry biomass above, per ground area", "g/m2", 0, 2000, 100),
    },
    outputs: {
      extinction: { label: "extinction per dry mass", unit: "m2/g" },
      share: { label: "share of the light below that biomass", unit: "1" },
    },
    equation: "k = G (A/2) sqrt(absorptance); share = exp(-k B)",
    sources: ["sher-kaul-1995", "goudriaan-1977", "charisma-2003", "pclake"],
    validity: "Published values for whole stands lie between 0.005 and 0.1 m2/g, models take 0.01 to 0.02.",
    compute: (i) => {
      const extinction = massExtinction(i.surface / 1e4, i.absorptance, i.projection);
      return { extinction, share: beamThroughLeaves(extinction, i.biomass) };
    },
  }),
  relation({
    id: "biomass-shading",
    title: "Light below plants from their dry mass",
    room: "light",
    inputs: {
      extinction: quantity("extinction per dry mass", "m2/g", 0.001, 0.2, 0.02),
      biomass: quantity("dry biomass above, per ground area", "g/m2", 0, 2000),
      film: quantity("share taken by growth on the leaves; 0.05 to 0.5", "1", 0, 0.95, 0),
    },
    outputs: { share: { label: "share of the light left", unit: "1" } },
    equation: "(1 - f) exp(-k B)",
    sources: ["charisma-2003", "pclake"],
    compute: ({ extinction, biomass, film }) => ({ share: (1 - film) * beamThroughLeaves(extinction, biomass) }),
  }),
] as const;
