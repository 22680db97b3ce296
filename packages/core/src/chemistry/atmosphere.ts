import { log10K } from "./equilibrium-constants.ts";
import { molarMasses as M } from "./molar-masses.ts";
import { perKilogram, perLitre, zeroCelsius } from "./water-properties.ts";

/** CO2 of outdoor air, ppm(v) dry: rounded up from 419.3 in 2023 (source noaa-2023). */
export const outdoorCo2 = 420;

/** Vapour pressure over fresh water, atm (source weiss-price-1980); °C, 0 to 40. */
export function waterVapour(t: number): number {
  const T = t + zeroCelsius;
  return Math.exp(24.4543 - (67.4509 * 100) / T - 4.8489 * Math.log(T / 100));
}

/** Ways of taking the solubility of CO2. */
export type HenryForm = "pb82" | "weiss" | "sander";

/**
 * Solubility of CO2 in pure water, mol/(kg*atm); °C. `pb82` (recommended) and `weiss` agree within 0.4 %, `sander`
 * (one enthalpy) is 6 % low at 5 °C.
 */
export function co2Solubility(t: number, form: HenryForm = "pb82"): number {
  const T = t + zeroCelsius;
  if (form === "weiss") return Math.exp(-60.2409 + (93.4517 * 100) / T + 23.3585 * Math.log(T / 100));
  if (form === "sander") return perKilogram(0.034 * Math.exp(2400 * (1 / T - 1 / 298.15)), t);
  return 10 ** log10K("henry", t);
}

/** Solubility of CO2 by volume, mol/(L*atm) (source weiss-1974); °C. */
export function co2SolubilityPerLitre(t: number): number {
  const T = t + zeroCelsius;
  return Math.exp(-58.0931 + (90.5069 * 100) / T + 22.294 * Math.log(T / 100));
}

/**
 * Partial pressure of CO2 in air over water, atm.
 * @param ppm ppm(v) of dry air.
 * @param pressure total, atm.
 */
export function co2Pressure(t: number, ppm = outdoorCo2, pressure = 1): number {
  return ppm * 1e-6 * (pressure - waterVapour(t));
}

/**
 * CO2 of water at rest with air, mg/L; °C. In rooms people live in, 600 to 1500 ppm are usual.
 * @param ppm ppm(v) of dry air.
 * @param pressure total, atm.
 */
export function co2AtRest(t: number, ppm = outdoorCo2, pressure = 1): number {
  return perLitre(co2Solubility(t) * co2Pressure(t, ppm, pressure), t) * M.co2 * 1000;
}

/** CO2 of water under pure CO2 at a total pressure in atm, g/L; °C. */
export function co2Saturated(t: number, pressure = 1): number {
  return perLitre(co2Solubility(t) * (pressure - waterVapour(t)), t) * M.co2;
}

/** Partial pressure, atm, in balance with dissolved CO2 in mg/L; °C. */
export function co2PressureFor(co2: number, t: number): number {
  return perKilogram(co2 / 1000 / M.co2, t) / co2Solubility(t);
}
