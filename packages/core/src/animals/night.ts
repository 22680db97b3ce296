import { relation } from "../relation/index.ts";
import { quantity, tankVolume } from "./usual-inputs.ts";

/**
 * Oxygen used per ammonia nitrogen that bacteria turn into nitrate, growth of the bacteria counted, g/g. Source:
 * ebeling-2006
 */
export const oxygenPerAmmonia = 4.18;

/**
 * Oxygen after a time in the dark.
 * @param start mg/L; @param saturation mg/L; @param exchange kLa, 1/h; @param demand mg/L/h; @param hours h
 * @returns mg/L, not below 0: animals and bacteria stop before it is spent
 */
export function oxygenAfterNight(
  start: number,
  saturation: number,
  exchange: number,
  demand: number,
  hours: number,
): number {
  if (exchange * hours < 1e-9) return Math.max(0, start + (exchange * (saturation - start) - demand) * hours);
  const rest = saturation - demand / exchange;
  return Math.max(0, rest + (start - rest) * Math.exp(-exchange * hours));
}

/**
 * Exchange with the air that holds oxygen at a level without end.
 * @param demand mg/L/h; @param saturation mg/L; @param level mg/L
 * @returns kLa, 1/h; Infinity at or above saturation
 */
export function exchangeToHold(demand: number, saturation: number, level: number): number {
  return level < saturation ? demand / (saturation - level) : Number.POSITIVE_INFINITY;
}

export const nightRelations = [
  relation({
    id: "night-oxygen",
    title: "Oxygen through the night",
    room: "animals",
    inputs: {
      animals: quantity("oxygen used by animals", "mg/h", 0, 1e7),
      ammonia: quantity("ammonia nitrogen turned into nitrate", "mg/d", 0, 1e7, 0),
      others: quantity("oxygen used by plants, algae and bed in the dark", "mg/h", 0, 1e7, 0),
      volume: tankVolume,
      saturation: quantity("oxygen at saturation", "mg/L", 4, 15, 8.263),
      start: quantity("oxygen at dusk", "mg/L", 0, 30, 8.263),
      exchange: quantity("exchange with the air, kLa", "1/h", 0, 50, 0),
      hours: quantity("length of the night", "h", 0, 48, 10),
      level: quantity("oxygen to hold", "mg/L", 0, 14, 6),
    },
    outputs: {
      demand: { label: "oxygen used", unit: "mg/h" },
      nitrification: { label: "of that by nitrifying bacteria", unit: "mg/h" },
      demand_per_volume: { label: "used per volume", unit: "mg/L/h" },
      dawn: { label: "oxygen at dawn", unit: "mg/L" },
      exchange_needed: { label: "exchange that holds the level", unit: "1/h" },
    },
    equation: "dC/dt = kLa (Cs - C) - R/V; kLa = R/V/(Cs - C)",
    sources: ["benson-krause-1984", "ebeling-2006", "arithmetic"],
    validity: "steady demand; what breathes slows down below about 2 mg/L",
    caution: "Aim for 6 mg/L or more at dawn; below 4 mg/L aerate at once.",
    compute: (i) => {
      const nitrification = (oxygenPerAmmonia * i.ammonia) / 24;
      const demand = i.animals + nitrification + i.others;
      const perVolume = demand / i.volume;
      return {
        demand,
        nitrification,
        demand_per_volume: perVolume,
        dawn: oxygenAfterNight(i.start, i.saturation, i.exchange, perVolume, i.hours),
        exchange_needed: exchangeToHold(perVolume, i.saturation, i.level),
      };
    },
  }),
] as const;
