import { convert, displayUnit, roundToDoubt, type UnitSystem, usUnit } from "../units/index.ts";
import type { Shown } from "./types.ts";

/** "07:20" from hours after midnight; the day's end is "24:00". */
export function clock(hours: number): string {
  const rounded = Math.round(hours * 60);
  if (rounded === 1440) return "24:00";
  const minutes = ((rounded % 1440) + 1440) % 1440;
  return `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
}

/** "2 h 40 min", "50 min", "3 days". */
export function span(hours: number): string {
  const minutes = Math.round(hours * 60);
  if (minutes < 90) return `${minutes} min`;
  if (hours < 36) {
    const rest = Math.round(minutes / 10) * 10;
    return rest % 60 === 0 ? `${rest / 60} h` : `${Math.floor(rest / 60)} h ${rest % 60} min`;
  }
  const days = hours / 24;
  return days < 90 ? `${Math.round(days)} days` : `${Math.round(days / 30.4)} months`;
}

/** The reader's unit for a metric one. */
export const unitFor = (unit: string, system: UnitSystem): string => (system === "us" ? usUnit(unit) : unit);

/** A number in the reader's unit with a set number of decimals (of the metric unit). */
export function shown(value: number, unit: string, decimals: number, system: UnitSystem = "metric"): Shown {
  const to = unitFor(unit, system);
  const v = to === unit ? value : convert(value, unit, to);
  return { text: plain(v, decimals), unit: spelled(to) };
}

/** A length in millimetres, or inches to a tenth (thin panes to a hundredth). */
export function shownLength(metres: number, system: UnitSystem = "metric"): Shown {
  if (system === "metric") return { text: plain(metres * 1000, 0), unit: "mm" };
  const inches = metres / 0.0254;
  return { text: plain(inches, inches < 2 ? 2 : 1), unit: "in" };
}

/** A number in the reader's unit, rounded to what its doubt deserves. */
export function shownDoubt(value: number, doubt: number, unit: string, system: UnitSystem = "metric"): Shown {
  const to = unitFor(unit, system);
  const v = to === unit ? value : convert(value, unit, to);
  const d = to === unit ? doubt : Math.abs(convert(value + doubt, unit, to) - v);
  const r = roundToDoubt(v, d);
  return { text: plain(r.value, Math.max(0, -r.place)), unit: spelled(to) };
}

/** Fixed decimals without "-0". */
export function plain(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? (0).toFixed(decimals) : text;
}

/** How a unit is written for people; a pure number has none. */
export const spelled = (unit: string): string => (unit === "1" ? "" : displayUnit(unit));

/** First letter as a capital. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** "a, b and c". */
export function listed(items: readonly string[]): string {
  if (items.length < 2) return items[0] ?? "";
  return `${items.slice(0, -1).join(", ")} and ${items.at(-1)}`;
}
