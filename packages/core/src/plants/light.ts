import { relation } from "../relation/index.ts";
import { biomass, extinction, ppfdTop, quantity } from "./usual-inputs.ts";

/**
 * Saturating light response of a leaf.
 * @param ppfd photon flux, umol/m2/s, >= 0
 * @param half flux at half of the greatest rate, umol/m2/s
 * @returns 0..1. Source: pclake
 */
export function leafLight(ppfd: number, half: number): number {
  return ppfd > 0 ? ppfd / (ppfd + half) : 0;
}

/**
 * Light response of a leaf that saturates sooner: same initial slope for `scale` = half-saturation of `leafLight`.
 * @param ppfd photon flux, umol/m2/s; @param scale flux where initial slope meets the plateau, umol/m2/s
 * @returns 0..1
 */
export function leafLightTanh(ppfd: number, scale: number): number {
  return Math.tanh(ppfd / scale);
}

/**
 * Mean of the saturating response over a canopy in which light fades exponentially (Lehman form).
 * @param ppfd photon flux on top, umol/m2/s, >= 0
 * @param half half-saturation, umol/m2/s, >= 0
 * @param depth optical depth, e.g. extinction x biomass, pure number, >= 0
 * @returns 0..1; the leaf response as depth tends to 0. Sources: pcditch, pclake
 */
export function canopyMeanLight(ppfd: number, half: number, depth: number): number {
  if (!(ppfd > 0)) return 0;
  const leaf = ppfd / (ppfd + half);
  if (!(depth > 0)) return leaf;
  if (!(half > 0)) return 1;
  const lost = leaf * Math.expm1(-depth);
  // The quotient (K + I)/(K + I e^-x) two ways: near 1 and far from it each keeps the digits the other loses.
  const log = lost > -0.5 ? -Math.log1p(lost) : Math.log((half + ppfd) / (half + ppfd * Math.exp(-depth)));
  return log / depth;
}

/**
 * Light left after water, plants and algal film.
 * @param ppfd photon flux above, umol/m2/s; @param depth sum of optical depths, pure number
 * @returns umol/m2/s
 */
export function lightBelow(ppfd: number, depth: number): number {
  return ppfd * Math.exp(-depth);
}

/** Extinction of algal film on leaves, m2/g dry film; a design value between two published ones (0.015 and 0.25). */
export const filmExtinction = 0.05;

export const lightRelations = [
  relation({
    id: "canopy-light",
    title: "Light factor of a planting, mean over its canopy",
    room: "plants",
    inputs: {
      ppfd_top: ppfdTop,
      half_saturation: quantity("photon flux at half of the greatest rate, at best temperature", "umol/m2/s", 0, 1000),
      extinction,
      biomass,
      temperature_factor: quantity("temperature factor, which scales the half-saturation", "1", 0, 1, 1),
      water_depth_optical: quantity("optical depth of the water inside the canopy", "1", 0, 10, 0),
    },
    outputs: { factor: { label: "light factor", unit: "1" } },
    equation: "f = ln[(K + I)/(K + I e^-x)]/x, K = K_I f_T, x = k_p B + k_w H; I/(I + K) as x tends to 0",
    sources: ["pcditch", "pclake"],
    compute: (i) => ({
      factor: canopyMeanLight(
        i.ppfd_top,
        i.half_saturation * i.temperature_factor,
        i.extinction * i.biomass + i.water_depth_optical,
      ),
    }),
  }),
  relation({
    id: "leaf-light",
    title: "Light factor of a single leaf, two forms",
    room: "plants",
    inputs: { ppfd: ppfdTop, half_saturation: quantity("half-saturation or tanh scale", "umol/m2/s", 0.1, 1000) },
    outputs: {
      hyperbola: { label: "saturating hyperbola", unit: "1" },
      tanh: { label: "hyperbolic tangent", unit: "1" },
    },
    equation: "I/(I + K); tanh(I/K)",
    sources: ["pclake"],
    compute: (i) => ({
      hyperbola: leafLight(i.ppfd, i.half_saturation),
      tanh: leafLightTanh(i.ppfd, i.half_saturation),
    }),
  }),
  relation({
    id: "light-through-plants",
    title: "Light that passes a planting",
    room: "plants",
    inputs: {
      biomass,
      extinction,
      film: quantity("algal film per leaf area, dry", "g/m2", 0, 200, 0),
      film_extinction: quantity("light extinction of the film", "m2/g", 0, 1, filmExtinction),
      ppfd_top: { ...ppfdTop, default: 100 },
    },
    outputs: {
      share: { label: "share of light that passes", unit: "1" },
      ppfd_below: { label: "photon flux below", unit: "umol/m2/s" },
    },
    equation: "I = I_top exp(-k_p B - k_E E)",
    sources: ["pcditch", "qsim", "chosen"],
    compute: (i) => {
      const depth = i.extinction * i.biomass + i.film_extinction * i.film;
      return { share: lightBelow(1, depth), ppfd_below: lightBelow(i.ppfd_top, depth) };
    },
  }),
] as const;
