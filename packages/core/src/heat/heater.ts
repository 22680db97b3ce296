import { tankHeatLoss } from "./balance.ts";
import { type RoomAir, steadyTemperature } from "./steady.ts";
import { type HeatTank, wettedShape } from "./tank.ts";

/** Least and usual upper rating of a heater against the need. Source: trade-practice. */
export const ratingMargin = { low: 1.3, high: 1.5 } as const;
/** Rating of each of two heaters against that of one. Source: trade-practice. */
export const pairShare = { low: 0.6, high: 0.75 } as const;

export interface HeaterAdvice {
  /** Heat wanted at the coldest state after pump and light, W; 0 when they suffice. */
  readonly need: number;
  /** One heater, W: 1.3 and 1.5 times the need. */
  readonly rating: { readonly low: number; readonly high: number };
  /** Each of two heaters, W: 60-75 % of one. */
  readonly eachOfTwo: { readonly low: number; readonly high: number };
  /** The trade's watt per litre, W, for comparison. */
  readonly wattPerLitre: number;
}

/**
 * Heater for holding `target` °C in the coldest room air, with steady gains (pump, light at night: 0) in W.
 * Sources: trade-practice for the margins, the heat balance for the need.
 */
export function heaterAdvice(tank: HeatTank, target: number, coldest: RoomAir, gains = 0): HeaterAdvice {
  const loss = tankHeatLoss(tank, target, coldest.temperature, coldest.humidity).total;
  const need = Math.max(0, loss - gains);
  const rating = { low: ratingMargin.low * need, high: ratingMargin.high * need };
  return {
    need,
    rating,
    eachOfTwo: { low: pairShare.low * rating.low, high: pairShare.high * rating.high },
    wattPerLitre: wettedShape(tank).volume * 1000,
  };
}

/** How a heater of a given rating stands against a need. */
export interface HeaterStanding {
  /** Share of the time on, 0..1 (1 = it never rests and may not hold). */
  readonly duty: number;
  /** Rating over need. */
  readonly margin: number;
  /** Rating below 1.3 times the need. */
  readonly undersized: boolean;
  /** Heat missing when always on, W. */
  readonly shortfall: number;
}

/** Standing of a heater: `rating` and `need` in W. */
export function heaterStanding(rating: number, need: number): HeaterStanding {
  return {
    duty: Math.min(1, need / rating),
    margin: need > 0 ? rating / need : Number.POSITIVE_INFINITY,
    undersized: rating < ratingMargin.low * need,
    shortfall: Math.max(0, need - rating),
  };
}

export interface HeaterReading {
  /** Mean heat given, W; a least value when the heater never rests. */
  readonly meanHeat: number;
  /** Heat per kelvin above the room, W/K; a least value when the heater never rests. */
  readonly perKelvin: number;
  /** Rating below 1.3 times what it was seen to give. */
  readonly undersized: boolean;
}

/**
 * What a watched heater tells of a tank: rating W, share of the time seen on (0..1), water less room K. Other heat (pump,
 * light) is not in it, so the tank's true loss is a little more.
 */
export function heaterReading(rating: number, duty: number, difference: number): HeaterReading {
  const meanHeat = rating * duty;
  return { meanHeat, perKelvin: meanHeat / difference, undersized: ratingMargin.low * duty > 1 };
}

/** Temperature, °C, a tank comes to with the heater (W) stuck on and other steady gains (W); 100 = it would boil. */
export function stuckHeaterTemperature(tank: HeatTank, rating: number, room: RoomAir, gains = 0): number {
  return steadyTemperature(tank, rating + gains, room);
}

/** Days in a month of a bill: 365.25 / 12 rounded as the trade does. */
export const daysPerMonth = 30.4;

/** Energy a heater uses, kWh per day, from its mean heat in W (all of its input becomes heat). */
export function heaterEnergyPerDay(meanHeat: number): number {
  return (meanHeat * 24) / 1000;
}
