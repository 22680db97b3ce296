import { activityCoefficient } from "./activity.ts";

/** 0 °C in kelvin as the published ammonia table was made with. */
const tableZero = 273.2;

/** pKa of ammonium at zero ionic strength, without unit (source emerson-1975); °C, 0 to 50. */
export function ammoniumPk(t: number): number {
  return 0.09018 + 2729.92 / (t + tableZero);
}

/** How much an ionic strength (mol/kg) raises the effective pKa of ammonium, without unit; °C. */
export function ammoniumPkShift(ionicStrength: number, t: number): number {
  return -Math.log10(activityCoefficient("NH4", ionicStrength, t));
}

/**
 * Share of ammonia nitrogen that is un-ionised (toxic) NH3, 0 to 1 (source emerson-1975); °C, 0 to 50.
 * @param ionicStrength mol/kg; 0 gives the published table, the water's own gives 4 to 16 % less.
 */
export function unionisedShare(ph: number, t: number, ionicStrength = 0): number {
  return 1 / (1 + 10 ** (ammoniumPk(t) + ammoniumPkShift(ionicStrength, t) - ph));
}
