import { baseConductance, lidConductance, lidLeak } from "./base-and-lid.ts";
import { openSurface } from "./evaporation.ts";
import { vapourPressure } from "./moist-air.ts";
import { paneHeatLoss } from "./pane.ts";
import { radiantFlux, waterEmissivity } from "./radiation.ts";
import { latentHeat, saturationPressure } from "./saturation.ts";
import { type HeatTank, surfaceSettings, wettedShape } from "./tank.ts";

/** Where a tank's heat goes; W, positive out of the water. */
export interface HeatLoss {
  readonly panes: number;
  readonly base: number;
  /** From the open surface, and all that passes a lid less its part under `evaporation`. */
  readonly convection: number;
  /** From the open surface; a lid's is within `convection`. */
  readonly radiation: number;
  readonly evaporation: number;
  readonly total: number;
  /** Water lost to the room, kg/s; negative when dew forms on cold water. */
  readonly evaporationRate: number;
}

/**
 * Heat lost by a tank at one state: `water` and `room` in °C, `humidity` 0..1; room walls at air temperature. The panes
 * are solved afresh: see `createHeatBalance` for the fast form. Water and room 0-60 °C; agrees with other sound
 * formulas within about 20 %. Sources: churchill-chu-1975, mcadams, shah-2014, carrier-1918, design (base, lid).
 */
export function tankHeatLoss(tank: HeatTank, water: number, room: number, humidity: number): HeatLoss {
  const shape = wettedShape(tank);
  const { bare, airSpeed, evaporationFactor, pressure } = surfaceSettings(tank);
  const difference = water - room;
  const pane = paneHeatLoss({ thickness: tank.glass, height: tank.waterDepth }, water, room, pressure);
  const panes = pane.flux * shape.paneArea;
  const base = baseConductance * shape.planArea * difference;
  const overWater = saturationPressure(water);
  const inRoom = vapourPressure(room, humidity);
  const exchange = new Float64Array(2);
  const speed = tank.cover === "lid" ? 0 : airSpeed;
  openSurface(shape.surfaceLength, speed, pressure).exchange(water, room, overWater, inRoom, exchange);
  const openRate = (exchange[0] as number) * shape.planArea * evaporationFactor;
  const perKilogram = 1000 * latentHeat(water);
  const under = 1 - bare;
  const leaked = openRate * lidLeak * under;
  const lid = lidConductance * shape.planArea * difference * under - leaked * perKilogram;
  const convection = (exchange[1] as number) * shape.planArea * difference * bare + lid;
  const radiation = radiantFlux(water, room, waterEmissivity) * shape.planArea * bare;
  const evaporationRate = openRate * bare + leaked;
  const evaporation = evaporationRate * perKilogram;
  const total = panes + base + convection + radiation + evaporation;
  return { panes, base, convection, radiation, evaporation, total, evaporationRate };
}
