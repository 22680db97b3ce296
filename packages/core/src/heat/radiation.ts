import { stefanBoltzmann, zeroCelsius } from "./constants.ts";

/** Emissivity of plain glass over the half sphere. Source: glass-bulletin. */
export const glassEmissivity = 0.84;
/** Emissivity of a water surface. Source: water-emissivity. */
export const waterEmissivity = 0.96;

/** Radiant loss from a grey surface to surroundings that enclose it, W/m²; both in °C. */
export function radiantFlux(surface: number, surroundings: number, emissivity: number): number {
  return radiantCoefficient(surface, surroundings, emissivity) * (surface - surroundings);
}

/** The same as a coefficient, W/m²/K; 5-6 at room temperature. */
export function radiantCoefficient(surface: number, surroundings: number, emissivity: number): number {
  const s = surface + zeroCelsius;
  const r = surroundings + zeroCelsius;
  return emissivity * stefanBoltzmann * (s * s + r * r) * (s + r);
}
