import { convert, displayUnit, roundToDoubt, type UnitSystem, usUnit } from "../units/index.ts";
import type { Shown } from "./types.ts";
import { plain } from "./words.ts";

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

/** How a unit is written for people; a pure number has none. */
export const spelled = (unit: string): string => (unit === "1" ? "" : displayUnit(unit));
