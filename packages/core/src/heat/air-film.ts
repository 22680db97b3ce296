/**
 * Dry air of the thin film beside a surface, from the film temperature in kelvin. Plain numbers in and out: these run in
 * the tank model's hot loop.
 */
import { dryAirGasConstant, standardPressure } from "./constants.ts";

/** Heat capacity of dry air near room temperature, J/kg/K. */
export const airHeatCapacity = 1006;

/** Dynamic viscosity of air, Pa·s, from K (200-400). Source: sutherland. */
export function airViscosity(kelvin: number): number {
  const x = kelvin / 273.15;
  return (1.716e-5 * x * Math.sqrt(x) * 383.55) / (kelvin + 110.4);
}

/** Conductivity of air, W/m/K, from K (200-400). Source: standard-atmosphere. */
export function airConductivity(kelvin: number): number {
  return (2.64638e-3 * kelvin * Math.sqrt(kelvin)) / (kelvin + 245.4 * Math.exp((-12 * Math.LN10) / kelvin));
}

/** Density of dry air, kg/m³, from K and Pa. */
export function dryAirDensity(kelvin: number, pressure: number): number {
  return pressure / (dryAirGasConstant * kelvin);
}

/** How fast vapour spreads through still air, m²/s, from K (270-370) and Pa. Source: massman-1998. */
export function vapourDiffusivity(kelvin: number, pressure: number): number {
  return (2.178e-5 * Math.exp(1.81 * Math.log(kelvin / 273.15)) * standardPressure) / pressure;
}
