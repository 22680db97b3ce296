import { relation } from "../relation/index.ts";
import { choice, halfSaturationCo2, quantity } from "./usual-inputs.ts";

/** Micromoles of carbon dioxide in one milligram (44.009 g/mol). */
export const umolPerMgCo2 = 1000 / 44.009;

/** Half-saturation of bicarbonate in plants that use it, umol/L; design value. */
export const halfSaturationBicarbonate = 1000;
/** Rate on bicarbonate alone against the rate on carbon dioxide, both ample; design value. */
export const bicarbonateStrength = 0.5;

/**
 * Share of the bicarbonate path that runs at a light: none below 40, all above 80 umol/m2/s (running it costs about
 * 69).
 * @param ppfd umol/m2/s. Source: jones-elodea; the ramp is a design value
 */
export function bicarbonateLight(ppfd: number): number {
  return Math.min(1, Math.max(0, (ppfd - 40) / 40));
}

/**
 * Carbon factor of a plant that takes carbon dioxide only.
 * @param co2 umol/L; @param half half-saturation, umol/L, >= 0
 * @returns 0..1
 */
export function co2Factor(co2: number, half: number): number {
  return co2 > 0 ? co2 / (co2 + half) : 0;
}

/**
 * Carbon factor of a plant that takes both: two substrates for one site, bicarbonate the weaker.
 * @param co2 umol/L; @param bicarbonate umol/L, already scaled by the share of its path that runs
 * @param half half-saturation of carbon dioxide, umol/L, > 0
 * @returns 0..1
 */
export function twoSubstrateFactor(
  co2: number,
  bicarbonate: number,
  half: number,
  halfBicarbonate = halfSaturationBicarbonate,
  strength = bicarbonateStrength,
): number {
  const x = Math.max(0, co2) / half;
  const y = Math.max(0, bicarbonate) / halfBicarbonate;
  return (x + strength * y) / (1 + x + y);
}

/**
 * Uptake of carbon dioxide through the still layer at a leaf: supply by diffusion meets a saturating demand.
 * @param bulk carbon dioxide in the open water, umol/L
 * @param thickness of the layer, m, > 0 (0.0002 brisk to 0.001 stagnant)
 * @param greatest greatest uptake per leaf area, umol/m2/s
 * @param half half-saturation at the leaf, umol/L
 * @param diffusivity m2/s
 * @returns umol/m2/s per leaf area. Source: hill-whittingham
 */
export function boundaryLayerUptake(
  bulk: number,
  thickness: number,
  greatest: number,
  half: number,
  diffusivity = 1.92e-9,
): number {
  // 1 umol/L = 1000 umol/m3
  const conductance = (1000 * diffusivity) / thickness;
  const s = conductance * (bulk + half) + greatest;
  const product = conductance * greatest * bulk;
  // The smaller root of P^2 - sP + product, written without cancellation.
  return (2 * product) / (s + Math.sqrt(s * s - 4 * product));
}

/**
 * Carbon factor of a plant whose machinery follows the carbon of the last week, so that a swinging supply costs growth.
 * @param capacity mean factor of the last 7 days; @param instant factor now
 * @returns 0..1; design value
 */
export function acclimatedCarbon(capacity: number, instant: number): number {
  return Math.min(capacity, instant);
}

export const carbonRelations = [
  relation({
    id: "carbon-factor",
    title: "Carbon factor of photosynthesis",
    room: "plants",
    inputs: {
      co2: quantity("free carbon dioxide", "umol/L", 0, 5000),
      bicarbonate: quantity("bicarbonate", "umol/L", 0, 20000, 0),
      half_saturation: halfSaturationCo2,
      half_saturation_bicarbonate: quantity("half-saturation of bicarbonate", "umol/L", 1, 1e5, 1000),
      strength: quantity("rate on bicarbonate alone against carbon dioxide", "1", 0, 1, 0.5),
      uses_bicarbonate: choice("the plant uses bicarbonate", ["yes", "no"], "no"),
      ppfd: quantity("photon flux at the leaf", "umol/m2/s", 0, 3000, 100),
    },
    outputs: { factor: { label: "carbon factor", unit: "1" } },
    equation:
      "x/(1 + x), or (x + rho y)/(1 + x + y) for users of bicarbonate; x = CO2/K_C, y = HCO3/K_B clamp((I - 40)/40, 0, 1)",
    sources: ["kirk-11", "jones-elodea", "maberly-madsen-2002", "chosen"],
    validity: "uptake stops near pH 9 on carbon dioxide alone and near pH 10.5 in users of bicarbonate",
    compute: (i) => ({
      factor:
        i.uses_bicarbonate === "yes" && i.half_saturation > 0
          ? twoSubstrateFactor(
              i.co2,
              i.bicarbonate * bicarbonateLight(i.ppfd),
              i.half_saturation,
              i.half_saturation_bicarbonate,
              i.strength,
            )
          : co2Factor(i.co2, i.half_saturation),
    }),
  }),
  relation({
    id: "carbon-factor-by-mass",
    title: "Carbon factor of photosynthesis on carbon dioxide alone, by mass",
    room: "plants",
    inputs: { co2: quantity("free carbon dioxide", "mg/L", 0, 200), half_saturation: halfSaturationCo2 },
    outputs: { factor: { label: "carbon factor", unit: "1" } },
    equation: "f = C/(C + K_C), C = CO2 x 22.723 umol/mg",
    sources: ["kirk-11", "chosen"],
    compute: (i) => ({ factor: co2Factor(i.co2 * umolPerMgCo2, i.half_saturation) }),
  }),
  relation({
    id: "boundary-layer-uptake",
    title: "Carbon uptake through the still layer at a leaf",
    room: "plants",
    inputs: {
      co2: quantity("carbon dioxide in open water", "umol/L", 0, 5000),
      thickness: quantity("thickness of the still layer", "mm", 0.01, 5),
      greatest_uptake: quantity("greatest uptake per leaf area", "umol/m2/s", 0.01, 100, 5),
      half_saturation: quantity("half-saturation at the leaf", "umol/L", 0.1, 1000, 150),
      diffusivity: quantity("diffusivity of carbon dioxide", "m2/s", 1e-10, 1e-8, 1.92e-9),
    },
    outputs: {
      uptake: { label: "uptake per leaf area", unit: "umol/m2/s" },
      uptake_without_layer: { label: "uptake if the layer were gone", unit: "umol/m2/s" },
      factor: { label: "uptake over the greatest uptake", unit: "1" },
    },
    equation: "P = (s - sqrt(s^2 - 4 g V C))/2, s = g(C + K) + V, g = D/thickness",
    sources: ["hill-whittingham"],
    validity: "0.2 mm in brisk to 1 mm in stagnant water",
    compute: (i) => {
      const uptake = boundaryLayerUptake(
        i.co2,
        i.thickness / 1000,
        i.greatest_uptake,
        i.half_saturation,
        i.diffusivity,
      );
      return {
        uptake,
        uptake_without_layer: i.greatest_uptake * co2Factor(i.co2, i.half_saturation),
        factor: uptake / i.greatest_uptake,
      };
    },
  }),
] as const;
