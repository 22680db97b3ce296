import { relation } from "../relation/index.ts";
import { co2Density } from "./metering.ts";
import { quantity } from "./usual-inputs.ts";

/** CO2 of clean air, mole fraction, for the room formulas. */
const CLEAN_AIR = 420e-6;
/** Oxygen of clean air, mole fraction. */
const CLEAN_OXYGEN = 0.2095;

/**
 * CO2 of a room after a whole charge has come out at once, well mixed, with the mixture pushed out as it comes.
 * @param kg charge, kg
 * @param roomM3 room, m3
 * @param t air temperature, °C
 * @param before CO2 of the room before, mole fraction
 * @returns mole fraction; near the floor, in cabinets and cellars it is far higher. Source: definition
 */
export function instantRelease(kg: number, roomM3: number, t = 20, before = CLEAN_AIR): number {
  return 1 - (1 - before) * Math.exp(-kg / co2Density(t) / roomM3);
}

/**
 * Oxygen left when CO2 has displaced air. It stays high enough to fool an oxygen alarm while CO2 is already dangerous.
 * @param co2 mole fraction
 * @param before CO2 of the room before, mole fraction
 * @returns mole fraction
 */
export function oxygenLeft(co2: number, before = CLEAN_AIR): number {
  return (CLEAN_OXYGEN * (1 - co2)) / (1 - before);
}

export interface Leak {
  /** Charge, kg, and the hours over which it leaks out. */
  readonly kg: number;
  readonly hours: number;
  readonly roomM3: number;
  /** Fresh air, room volumes an hour, 1/h. */
  readonly airChanges: number;
  /** Air temperature, °C. */
  readonly t?: number;
  /** CO2 of the room before and of the fresh air, mole fraction. */
  readonly before?: number;
}

/**
 * CO2 of a well mixed room while and after a charge leaks out.
 * @param hoursSince since the leak began, h
 * @returns mole fraction; the linear form, good below about 0.1. Source: definition
 */
export function leakLevel(leak: Leak, hoursSince: number): number {
  const { kg, hours, roomM3, airChanges: n, t = 20, before = CLEAN_AIR } = leak;
  const perHour = kg / co2Density(t) / hours / roomM3;
  const during = Math.min(hoursSince, hours);
  const risen = n === 0 ? perHour * during : (perHour / n) * -Math.expm1(-n * during);
  return before + risen * Math.exp(-n * (hoursSince - during));
}

/**
 * Mean CO2 over the first hours of a leak.
 * @param hoursSince length of the mean, h
 * @returns mole fraction. Source: definition
 */
export function leakMean(leak: Leak, hoursSince: number): number {
  const { kg, hours, roomM3, airChanges: n, t = 20, before = CLEAN_AIR } = leak;
  const perHour = kg / co2Density(t) / hours / roomM3;
  const during = Math.min(hoursSince, hours);
  const after = hoursSince - during;
  if (n === 0) return before + (perHour * during * (during / 2 + after)) / hoursSince;
  const end = (perHour / n) * -Math.expm1(-n * during);
  const area = (perHour / n) * (during + Math.expm1(-n * during) / n) + (end * -Math.expm1(-n * after)) / n;
  return before + area / hoursSince;
}

/**
 * Time for fresh air to bring CO2 down to a limit.
 * @param from mole fraction now
 * @param to limit, mole fraction
 * @param airChanges 1/h
 * @param fresh CO2 of the fresh air, mole fraction
 * @returns h; 0 if already below, infinite without fresh air or where the fresh air itself holds as much. Source: definition
 */
export function timeToFall(from: number, to: number, airChanges: number, fresh = CLEAN_AIR): number {
  if (from <= to) return 0;
  return to > fresh ? Math.log((from - fresh) / (to - fresh)) / airChanges : Number.POSITIVE_INFINITY;
}

/**
 * Largest charge whose whole release stays at a limit in a room; the simple, slightly cautious form.
 * @param limit mole fraction
 * @param roomM3 m3
 * @param t air temperature, °C
 * @returns kg. Source: definition
 */
export function largestCharge(limit: number, roomM3: number, t = 20): number {
  return limit * roomM3 * co2Density(t);
}

/**
 * Smallest room in which the release of a whole charge stays at a limit.
 * @param kg charge, kg
 * @param limit mole fraction
 * @param t air temperature, °C
 * @returns m3. Source: definition
 */
export function smallestRoom(kg: number, limit: number, t = 20): number {
  return kg / (limit * co2Density(t));
}

/**
 * CO2 that a steady flow adds to a room with fresh air.
 * @param gramsPerHour g/h
 * @param roomM3 m3
 * @param airChanges 1/h
 * @param t air temperature, °C
 * @returns mole fraction above that of the fresh air. Source: definition
 */
export function steadyRise(gramsPerHour: number, roomM3: number, airChanges: number, t = 20): number {
  return gramsPerHour / 1000 / co2Density(t) / (airChanges * roomM3);
}

const caution =
  "A guide only. CO2 is heavier than air: near the floor, in cabinets, cellars and cars it is far above the mixed figure. An oxygen alarm does not protect; a CO2 alarm does. Follow local codes and the gas supplier; on a suspected release leave and air from outside.";
const charge = quantity("charge of CO2", "kg", 0, 50);
const room = quantity("volume of the room", "m3", 1, 5000);
const airTemperature = quantity("air temperature", "°C", 0, 40, 20);
const before = quantity("CO2 of the room before", "ppm(v)", 0, 10000, 420);
const limit = quantity("limit", "ppm(v)", 1000, 100000, 30000);

export const roomReleaseRelations = [
  relation({
    id: "room-instant-release",
    title: "Room air after a whole charge of CO2 has come out",
    room: "gas",
    inputs: { charge, room, temperature: airTemperature, before },
    outputs: {
      co2: { label: "CO2, well mixed", unit: "ppm(v)" },
      oxygen: { label: "oxygen left", unit: "%" },
    },
    equation: "x = 1 - (1 - x0) exp(-m v/V)",
    sources: ["definition", "span-wagner-1996"],
    caution,
    compute: ({ charge, room, temperature, before }) => {
      const x = instantRelease(charge, room, temperature, before * 1e-6);
      return { co2: x * 1e6, oxygen: 100 * oxygenLeft(x, before * 1e-6) };
    },
  }),
  relation({
    id: "room-leak",
    title: "Room air while a charge of CO2 leaks out",
    room: "gas",
    inputs: {
      charge,
      leak_time: quantity("time over which it leaks", "h", 0.01, 1000),
      air_changes: quantity("fresh air, room volumes an hour", "1/h", 0, 50),
      room,
      temperature: airTemperature,
      before,
      limit: quantity("limit to fall below", "ppm(v)", 1000, 100000, 5000),
    },
    outputs: {
      peak: { label: "highest CO2", unit: "ppm(v)" },
      fall_time: { label: "time after the leak to fall below the limit", unit: "h" },
      mean_8h: { label: "mean of 8 h from the start", unit: "ppm(v)" },
    },
    equation: "x = x0 + q/(n V)(1 - e^-nt) during the leak, then decay with e^-n(t - tr)",
    sources: ["definition", "span-wagner-1996"],
    caution,
    compute: ({ charge, leak_time, air_changes, room, temperature, before, limit }) => {
      const leak: Leak = {
        kg: charge,
        hours: leak_time,
        roomM3: room,
        airChanges: air_changes,
        t: temperature,
        before: before * 1e-6,
      };
      const peak = leakLevel(leak, leak_time);
      return {
        peak: peak * 1e6,
        fall_time: timeToFall(peak, limit * 1e-6, air_changes, before * 1e-6),
        mean_8h: leakMean(leak, 8) * 1e6,
      };
    },
  }),
  relation({
    id: "room-largest-charge",
    title: "Largest charge of CO2 for a room",
    room: "gas",
    inputs: { room, limit, temperature: airTemperature },
    outputs: { charge: { label: "largest charge", unit: "kg" } },
    equation: "m = x_L V/v",
    sources: ["definition", "span-wagner-1996"],
    caution,
    compute: ({ room, limit, temperature }) => ({ charge: largestCharge(limit * 1e-6, room, temperature) }),
  }),
  relation({
    id: "room-smallest-for-charge",
    title: "Smallest room for a charge of CO2",
    room: "gas",
    inputs: { charge, limit, temperature: airTemperature },
    outputs: { room: { label: "smallest room", unit: "m3" } },
    equation: "V = m v/x_L",
    sources: ["definition", "span-wagner-1996"],
    caution,
    compute: ({ charge, limit, temperature }) => ({ room: smallestRoom(charge, limit * 1e-6, temperature) }),
  }),
  relation({
    id: "room-steady-rise",
    title: "CO2 that normal running adds to a room",
    room: "gas",
    inputs: {
      rate: quantity("CO2 into the room", "g/h", 0, 1000),
      room,
      air_changes: quantity("fresh air, room volumes an hour", "1/h", 0.01, 50),
      temperature: airTemperature,
    },
    outputs: { rise: { label: "rise above the fresh air", unit: "ppm(v)" } },
    equation: "q v/(n V)",
    sources: ["definition", "span-wagner-1996"],
    caution,
    compute: ({ rate, room, air_changes, temperature }) => ({
      rise: steadyRise(rate, room, air_changes, temperature) * 1e6,
    }),
  }),
] as const;
