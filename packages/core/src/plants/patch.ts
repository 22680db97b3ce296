import type { PlantFact } from "../facts/index.ts";
import { bicarbonateLight, co2Factor, twoSubstrateFactor, umolPerMgCo2 } from "./carbon.ts";
import { canopyMeanLight } from "./light.ts";
import { betaTemperature, duckweedTemperature, q10Factor } from "./warmth.ts";

/** What one planting patch needs for its rates. Lamp on: rates as they stand; lamp off: give zero light. */
export interface PatchParameters {
  /** Gross growth under ample light, carbon, nutrients and best warmth, 1/d of such light (not per day of 24 h). */
  readonly muMax: number;
  /** Loss by respiration at 20 °C, 1/d. */
  readonly respiration20: number;
  /** Loss by shedding and death, 1/d. */
  readonly mortality: number;
  /** Photon flux at half of the greatest rate at best temperature, umol/m2/s. */
  readonly kI: number;
  /** Half-saturation of carbon dioxide in the water, umol/L; 0 where carbon comes from the air. */
  readonly kC: number;
  readonly bicarbonateUser: boolean;
  /** Light extinction per dry mass, m2/g. */
  readonly extinction: number;
  /** Ends and best temperature of photosynthesis, °C: wider than the keeping limits. */
  readonly tMin: number;
  readonly tOpt: number;
  readonly tMax: number;
  /** Growth of respiration per 10 °C, pure number. */
  readonly q10: number;
  /** Floats: takes carbon dioxide from the air, crowds by area instead of shading itself, duckweed temperature form. */
  readonly floating: boolean;
  /** Dry biomass at which floating plants stop for want of space, g/m2; Infinity under water. */
  readonly crowding: number;
}

/** Conditions at which `rgrMax` of the plant table holds: light per day, h, and carbon dioxide, mg/L. */
export const reference = { photoperiod: 10, co2: 30 } as const;

/** Respiration at 20 °C over the greatest gross rate; design value (published pairs 0.075 to 0.11). */
export const respirationShare = 0.05;
/** Mortality over the greatest growth rate; design value. */
export const mortalityShare = 0.05;

const halfSaturation = { none: 60, helps: 100, needed: 185 } as const;

/**
 * Half-saturation of carbon dioxide by the need for it, umol/L; design values inside the published 4 to 185.
 * @param need class of the plant table
 */
export function halfSaturationByNeed(need: PlantFact["co2Need"]): number {
  return halfSaturation[need];
}

/**
 * Greatest gross rate that makes the net rate equal `rgr` at the reference: best temperature, `ppfdGood`, 10 h of
 * light,
 * 30 mg/L of carbon dioxide, no bicarbonate, ample nutrients, a thin stand.
 * @param rgr relative growth rate at the reference, 1/d; @param kC umol/L; @param tOpt °C
 * @returns 1/d of light
 */
export function calibratedMuMax(rgr: number, kC: number, tOpt: number): number {
  const light = 0.75; // I/(I + I/3)
  const gain = (reference.photoperiod / 24) * light * co2Factor(reference.co2 * umolPerMgCo2, kC);
  return ((1 + mortalityShare) * rgr) / (gain - respirationShare * q10Factor(tOpt, 2));
}

/**
 * The duckweed model's own figures: gross and loss at 25 °C, 1/d, and dry mass at which it stops, g/m2. Source:
 * klein-2022
 */
export const duckweed = { gross: 0.47, loss25: 0.05, crowding: 177 } as const;

/**
 * Light factor of duckweed over a day.
 * @param irradiation total irradiation of the day, kJ/m2/d
 * @returns 0.25..1. Source: klein-2022
 */
export function duckweedLight(irradiation: number): number {
  return Math.min(1, 5e-5 * irradiation + 0.25);
}

/**
 * Total daylight that carries one micromole of photons of the visible range, J: 4.57 umol/J of visible light, 45 % of
 * the total.
 */
const joulePerPhoton = 1 / 4.57 / 0.45;

function floatingParameters(plant: PlantFact): PatchParameters {
  // Gross and loss both scale with the species, so that gross less loss at 25 °C is the table's rate. A loss of 0.05
  // for all, as duckweed has it, would make slow floating plants shrink in good tank light.
  const scale = plant.rgrMax / (duckweed.gross - duckweed.loss25);
  const irradiation = (plant.ppfdGood * reference.photoperiod * 3600 * joulePerPhoton) / 1000;
  // The duckweed law counts light by the day; the patch counts it by the moment. Both agree at good light for 10 h.
  const daily = duckweed.gross * scale * duckweedLight(irradiation);
  return {
    muMax: (daily * 24) / reference.photoperiod / 0.75,
    respiration20: duckweed.loss25 * scale * q10Factor(20, 2, 25),
    mortality: 0,
    kI: plant.ppfdGood / 3,
    kC: 0,
    bicarbonateUser: false,
    extinction: 0.02,
    tMin: plant.temperatureMin,
    tOpt: plant.temperatureOpt,
    tMax: plant.temperatureMax + 7.5,
    q10: 2,
    floating: true,
    crowding: duckweed.crowding,
  };
}

/**
 * Growth parameters of a plant of the table. Under water they reproduce its `rgrMax` at the reference; floating plants
 * follow the
 * duckweed law, whose table rate is that of full daylight, so in tank light they grow much slower than `rgrMax`.
 * Floating plants: meant for up to 16 h of light per day.
 * @param plant a row of the plant table
 * @returns see `PatchParameters`. Sources: pcditch, klein-2022; mapping is a design value
 */
export function patchParameters(plant: PlantFact): PatchParameters {
  if (plant.form === "floating") return floatingParameters(plant);
  const kC = halfSaturationByNeed(plant.co2Need);
  const muMax = calibratedMuMax(plant.rgrMax, kC, plant.temperatureOpt);
  return {
    muMax,
    respiration20: respirationShare * muMax,
    mortality: mortalityShare * plant.rgrMax,
    kI: plant.ppfdGood / 3,
    kC,
    bicarbonateUser: plant.bicarbonate === "yes",
    extinction: plant.form === "moss" ? 0.03 : 0.02,
    tMin: plant.temperatureMin - 10,
    tOpt: plant.temperatureOpt,
    tMax: plant.temperatureMax + 8,
    q10: 2,
    floating: false,
    crowding: Number.POSITIVE_INFINITY,
  };
}

/**
 * Temperature factor of photosynthesis of a patch.
 * @param t water temperature, °C
 * @returns 0..1. Sources: yan-hunt-1999; klein-2022 for floating plants
 */
export function temperatureFactor(t: number, p: PatchParameters): number {
  return p.floating ? duckweedTemperature(t, p.tMin, p.tOpt, p.tMax) : betaTemperature(t, p.tMin, p.tOpt, p.tMax);
}

/**
 * Light factor of a patch, mean over its canopy. Under water the half-saturation scales with the temperature factor, so
 * warmth does not help in dim light; floating plants lie in one layer and lose growth to crowding instead.
 * @param iTop photon flux on top, umol/m2/s; @param biomass g dry/m2; @param fT temperature factor
 * @returns 0..1. Sources: pcditch; klein-2022 for floating plants
 */
export function canopyLight(iTop: number, p: PatchParameters, biomass: number, fT: number): number {
  if (p.floating) return iTop > 0 ? (iTop / (iTop + p.kI)) * Math.max(0, 1 - biomass / p.crowding) : 0;
  return canopyMeanLight(iTop, p.kI * fT, p.extinction * biomass);
}

/**
 * Carbon factor of a patch.
 * @param co2 umol/L; @param hco3 bicarbonate, umol/L; @param light photon flux at the leaf, umol/m2/s
 * @returns 0..1; 1 for floating plants, which breathe the air
 */
export function carbonFactor(co2: number, hco3: number, light: number, p: PatchParameters): number {
  if (p.floating) return 1;
  return p.bicarbonateUser ? twoSubstrateFactor(co2, hco3 * bicarbonateLight(light), p.kC) : co2Factor(co2, p.kC);
}

/**
 * Gross fixation of a patch now.
 * @param fT temperature, @param fLight light, @param fCarbon carbon, @param fNutrient nutrient factor, each 0..1
 * @param biomass g dry/m2; @param rootShare 0..1; @param acclimation capacity of leaves raised in air, 0..1
 * @returns g dry/(m2 d)
 */
export function grossRate(
  p: PatchParameters,
  fT: number,
  fLight: number,
  fCarbon: number,
  fNutrient: number,
  biomass: number,
  rootShare = 0,
  acclimation = 1,
): number {
  return p.muMax * fT * fLight * fCarbon * fNutrient * (1 - rootShare) * acclimation * biomass;
}

/**
 * Respiration of a patch, day and night.
 * @param t °C; @param biomass g dry/m2
 * @returns g dry/(m2 d)
 */
export function respirationRate(p: PatchParameters, t: number, biomass: number): number {
  return p.respiration20 * p.q10 ** ((t - 20) / 10) * biomass;
}

/**
 * Shedding and death of a patch.
 * @param biomass g dry/m2
 * @returns g dry/(m2 d)
 */
export function mortalityRate(p: PatchParameters, biomass: number): number {
  return p.mortality * biomass;
}
