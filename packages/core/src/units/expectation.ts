import { baseDimension } from "./dimension.ts";
import { type DimensionName, dimensions, isDimensionName, kindOf, nameOf, siUnit } from "./named-dimension.ts";
import { resolve, type Unit } from "./unit.ts";
import { UnitError } from "./unit-error.ts";

/** What a field takes. */
export interface Expectation {
  readonly units: readonly Unit[];
  /** The kind in words, with its article. */
  readonly label: string;
  /** Units to offer. */
  readonly offered: readonly string[];
  /** How a temperature is meant; "kelvin" is a bare K in code, which takes differences but must ask about °C. */
  readonly temperature: "reading" | "difference" | "kelvin";
  /** A number alone will do. */
  readonly bare: boolean;
}

const TEMPERATURE = baseDimension("temperature").key;
const known = new Map<string, Expectation>();
const MAX_CACHED = 1024;

function ofDimension(name: DimensionName): Expectation {
  const { label, units } = dimensions[name];
  const temperature = name === "temperatureDifference" ? "difference" : "reading";
  return { units: [siUnit(name)], label, offered: units, temperature, bare: name === "fraction" };
}

function ofUnit(text: string): Expectation {
  const made = resolve(text, "code");
  if (made.kind === "none") throw new UnitError(`cannot expect ${text}: ${made.message}`, [text], made.suggestions);
  const units = made.kind === "unit" ? [made.unit] : made.readings.map((r) => r.unit);
  const first = units[0] as Unit;
  const temperature = first.scale === "reading" ? "reading" : first.scale === "difference" ? "difference" : "kelvin";
  const kelvin = temperature !== "reading" && first.dimension.key === TEMPERATURE;
  const name = kelvin ? "temperatureDifference" : nameOf(first.dimension, first.scale);
  const others: readonly string[] = name ? dimensions[name].units.filter((u) => u !== text) : [];
  return {
    units,
    label: kelvin ? dimensions.temperatureDifference.label : kindOf(first),
    offered: [text, ...others],
    temperature,
    bare: text === "1",
  };
}

/**
 * The expectation behind a dimension's name or a unit's text.
 * @throws UnitError when it is neither: a slip of the caller, not of the person who typed
 */
export function expectationOf(expect: string): Expectation {
  const hit = known.get(expect);
  if (hit) return hit;
  const made = isDimensionName(expect) ? ofDimension(expect) : ofUnit(expect);
  if (known.size >= MAX_CACHED) known.clear();
  known.set(expect, made);
  return made;
}

/**
 * How a unit meets an expectation. `as difference`: a °C or °F typed where a difference is due. `unclear`: the same where
 * the field is in plain K and could mean either.
 */
export function fit(unit: Unit, expectation: Expectation): "fits" | "as difference" | "unclear" | "no" {
  if (!expectation.units.some((u) => u.dimension.key === unit.dimension.key)) return "no";
  if (unit.dimension.key !== TEMPERATURE || unit.scale === "plain") return "fits";
  if (unit.scale === "difference") return expectation.temperature === "reading" ? "no" : "fits";
  if (expectation.temperature === "reading") return "fits";
  return expectation.temperature === "difference" ? "as difference" : "unclear";
}
