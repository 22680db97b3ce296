import { createHeatBalance } from "./fast-balance.ts";
import { type HeatTank, wettedShape } from "./tank.ts";
import { heatCapacityOfVolume } from "./water-properties.ts";

/** Air of the room around a tank. */
export interface RoomAir {
  /** °C */
  readonly temperature: number;
  /** Relative humidity, 0..1. */
  readonly humidity: number;
}

const boiling = 100;
const coldest = -5;

/** Whole loss of a tank, W, as a function of its water temperature, °C, in steady room air. */
export function lossFunction(tank: HeatTank, room: RoomAir): (water: number) => number {
  const balance = createHeatBalance(tank);
  const parts = new Float64Array(5);
  return (water) => {
    balance.losses(water, room.temperature, room.humidity, parts);
    let sum = 0;
    for (const part of parts) sum += part;
    return sum;
  };
}

/**
 * Temperature, °C, at which a tank's losses equal the heat put into it (W; negative = taken out) in steady room air.
 * 100 means that it would boil first; below 0 that it would freeze.
 */
export function steadyTemperature(tank: HeatTank, gains: number, room: RoomAir): number {
  const loss = lossFunction(tank, room);
  let low = coldest;
  let high = boiling;
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (loss(middle) < gains) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Heat that warms a tank's water by one kelvin, J/K; `volume` in m³ where stones and gravel leave less than the box. */
export function tankHeatCapacity(tank: HeatTank, volume: number = wettedShape(tank).volume): number {
  return heatCapacityOfVolume(volume);
}

const panels = 200;

/**
 * Seconds that a tank takes from one water temperature to another (°C) under a steady heat input (W) in steady room air;
 * infinite where it never gets there. `volume` is the water in m³, by default that of the bare box.
 *
 * The balance depends on the water's temperature alone, so the time is the integral of capacity over net power. Within
 * each of 200 panels the loss is taken as straight, for which the log mean of the end values is exact.
 */
export function timeToTemperature(
  tank: HeatTank,
  heat: number,
  room: RoomAir,
  from: number,
  to: number,
  volume?: number,
): number {
  const loss = lossFunction(tank, room);
  const capacity = tankHeatCapacity(tank, volume);
  if (from === to) return 0;
  const sign = to > from ? 1 : -1;
  const step = (to - from) / panels;
  let net = sign * (heat - loss(from));
  let seconds = 0;
  for (let i = 1; i <= panels; i++) {
    const next = sign * (heat - loss(from + i * step));
    if (!(net > 0 && next > 0)) return Number.POSITIVE_INFINITY;
    seconds += (capacity * Math.abs(step)) / logMean(net, next);
    net = next;
  }
  return seconds;
}

function logMean(a: number, b: number): number {
  const ratio = b / a - 1;
  // Near equality the quotient loses digits; its series does not.
  if (Math.abs(ratio) < 1e-4) return a * (1 + ratio / 2 - (ratio * ratio) / 12);
  return (b - a) / Math.log(b / a);
}
