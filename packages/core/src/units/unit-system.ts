import { convert } from "./convert.ts";
import { resolve } from "./unit.ts";

/** The two ways of measuring that the switch offers. */
export type UnitSystem = "metric" | "us";

/**
 * Metric units and what a US keeper uses in their place. Doses in g and mL, dKH, mg/L, W and kWh are the trade's in both
 * systems and are left alone.
 */
const PAIRS: readonly (readonly [metric: string, us: string])[] = [
  ["cm", "in"],
  ["m", "ft"],
  ["cm2", "in2"],
  ["m2", "ft2"],
  ["cm3", "in3"],
  ["m3", "ft3"],
  ["L", "US gal"],
  ["kg", "lb"],
  ["°C", "°F"],
  ["Δ°C", "Δ°F"],
  ["°C/h", "°F/h"],
  ["L/h", "US gal/h"],
  ["L/min", "US gal/min"],
  ["L/d", "US gal/d"],
  ["L/week", "US gal/week"],
  ["m/s", "ft/s"],
  ["cm/s", "in/s"],
  ["cm/h", "in/h"],
  ["cm/d", "in/d"],
  ["cm/week", "in/week"],
  ["kg/m", "lb/ft"],
  ["kg/m2", "lb/ft2"],
  ["kg/m3", "lb/ft3"],
  ["kg/L", "lb/US gal"],
  ["W/L", "W/US gal"],
  ["kN", "lbf"],
  ["kN/m2", "lbf/ft2"],
  ["bar", "psi"],
];

/** Further units that belong to one system, and the unit the other uses for them. */
const TO_US: readonly (readonly [string, string])[] = [
  ["mm", "in"],
  ["mm2", "in2"],
  ["t", "short ton"],
  ["kPa", "psi"],
];
const TO_METRIC: readonly (readonly [string, string])[] = [
  ["yd", "m"],
  ["mi", "km"],
  ["imp gal", "L"],
  ["imp gal/h", "L/h"],
  ["US qt", "L"],
  ["US pt", "mL"],
  ["US cup", "mL"],
  ["US fl oz", "mL"],
  ["US tbsp", "mL"],
  ["US tsp", "mL"],
  ["avdp oz", "g"],
  ["short ton", "t"],
  ["long ton", "t"],
  ["inHg", "hPa"],
  ["ftH2O", "cmH2O"],
  ["inH2O", "cmH2O"],
  ["BTU", "kJ"],
  ["BTU/h", "W"],
  ["fc", "lx"],
  ["ft3/min", "L/min"],
];

function house(unit: string): string {
  const made = resolve(unit, "code");
  return made.kind === "unit" ? made.unit.symbol : unit;
}

function table(entries: readonly (readonly [string, string])[]): ReadonlyMap<string, string> {
  return new Map(entries.map(([from, to]) => [house(from), house(to)]));
}

const toUs = table([...TO_US, ...PAIRS]);
const toMetric = table([...TO_METRIC, ...PAIRS.map(([metric, us]) => [us, metric] as const)]);

/** The unit that a US keeper uses for this one; the same unit in house spelling where there is no other. */
export function usUnit(unit: string): string {
  const own = house(unit);
  return toUs.get(own) ?? own;
}

/** The metric unit for this one; the same unit in house spelling where it is metric already. */
export function metricUnit(unit: string): string {
  const own = house(unit);
  return toMetric.get(own) ?? own;
}

/** A value told in a system of units, converted exactly. @throws UnitError when the unit is none */
export function inSystem(
  value: number,
  unit: string,
  system: UnitSystem,
): { readonly value: number; readonly unit: string } {
  const to = system === "us" ? usUnit(unit) : metricUnit(unit);
  return { value: convert(value, unit, to), unit: to };
}
