import { standardPressure } from "./constants.ts";
import { verticalAirCoefficient } from "./convection.ts";
import { glassEmissivity, radiantCoefficient } from "./radiation.ts";

/** Conductivity of float glass, W/m/K (published 0.94-1.1). Source: glass-bulletin. */
export const glassConductivity = 1;
/** Heat transfer coefficient from circulated water to glass, W/m²/K; moves the result by under 3 %. Source: design. */
export const waterSideCoefficient = 300;

export interface Pane {
  /** Thickness, m. */
  readonly thickness: number;
  /** Wetted height, m. */
  readonly height: number;
  /** W/m/K; default 1. */
  readonly conductivity?: number;
  /** 0..1; default 0.84. */
  readonly emissivity?: number;
  /** W/m²/K; default 300. */
  readonly waterSide?: number;
}

export interface PaneLoss {
  /** Outside face of the glass, °C. */
  readonly surface: number;
  /** W/m²/K */
  readonly convection: number;
  /** W/m²/K */
  readonly radiation: number;
  /** W/m², outward positive */
  readonly flux: number;
  /** Whole conductance from water to room, W/m²/K. */
  readonly conductance: number;
}

/**
 * Heat through an upright pane between water and room (°C), solved for the face temperature at which what arrives
 * through water film and glass leaves by air convection and radiation. Room walls are taken at air temperature.
 * Holds for 0-60 °C; the convection law itself is good to about 15 %. Sources: churchill-chu-1975, glass-bulletin.
 */
export function paneHeatLoss(pane: Pane, water: number, room: number, pressure: number = standardPressure): PaneLoss {
  const inside =
    1 / (pane.waterSide ?? waterSideCoefficient) + pane.thickness / (pane.conductivity ?? glassConductivity);
  const emissivity = pane.emissivity ?? glassEmissivity;
  let low = 0;
  let high = 1;
  // The face lies between water and room: search for the share of the difference that falls across the air.
  for (let i = 0; i < 60; i++) {
    const share = (low + high) / 2;
    const excess = share * (water - room);
    const outside =
      verticalAirCoefficient(excess, room, pane.height, pressure) + radiantCoefficient(room + excess, room, emissivity);
    if (outside * share * inside < 1 - share) low = share;
    else high = share;
  }
  const share = (low + high) / 2;
  const surface = room + share * (water - room);
  const convection = verticalAirCoefficient(surface - room, room, pane.height, pressure);
  const radiation = radiantCoefficient(surface, room, emissivity);
  const conductance = (convection + radiation) * share;
  return { surface, convection, radiation, flux: conductance * (water - room), conductance };
}
