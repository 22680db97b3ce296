import { tankHeatLoss } from "./balance.ts";
import { vapourPressure, wetBulb } from "./moist-air.ts";
import { type RoomAir, steadyTemperature } from "./steady.ts";
import { type HeatTank, surfaceSettings } from "./tank.ts";

/** Temperature, °C, that a tank without heater settles to under steady gains (pump, light), W. */
export function summerTemperature(tank: HeatTank, gains: number, room: RoomAir): number {
  return steadyTemperature(tank, gains, room);
}

export interface FanCooling {
  /** Heat lost at this state, W; negative = the room warms the water. */
  readonly loss: number;
  /** kg/s */
  readonly evaporationRate: number;
  /** The air's wet-bulb temperature, °C: no fan cools below it. */
  readonly wetBulb: number;
}

/** An open tank at `water` °C with air at `airSpeed` m/s (0-5) over its surface. Sources: carrier-1918, Lewis analogy. */
export function fanCooling(tank: HeatTank, airSpeed: number, water: number, room: RoomAir): FanCooling {
  const blown: HeatTank = { ...tank, cover: "open", airSpeed };
  const loss = tankHeatLoss(blown, water, room.temperature, room.humidity);
  return {
    loss: loss.total,
    evaporationRate: loss.evaporationRate,
    wetBulb: wetBulb(room.temperature, vapourPressure(room.temperature, room.humidity), surfaceSettings(tank).pressure),
  };
}

/**
 * Heat a chiller must take out to hold `target` °C against steady gains (W) in the given room, W; 0 when the tank stays
 * cooler by itself.
 */
export function chillerDuty(tank: HeatTank, target: number, gains: number, room: RoomAir): number {
  return Math.max(0, gains - tankHeatLoss(tank, target, room.temperature, room.humidity).total);
}

/** Electrical power of a chiller, W, from its duty (W) and coefficient of performance (2-3, trade-practice). */
export function chillerPower(duty: number, performance: number): number {
  return duty / performance;
}
