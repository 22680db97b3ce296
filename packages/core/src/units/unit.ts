import type { Dimension } from "./dimension.ts";
import { type Line, line, type Ratio } from "./ratio.ts";
import { AmbiguousUnit, type Choices, measureOf, parseExpression, quoted, UnitTextFault } from "./unit-expression.ts";
import type { Scale } from "./unit-parts.ts";
import { fromSubscript, shownOf, symbolOf } from "./unit-spelling.ts";
import { AMBIGUOUS, type Meaning } from "./unit-table.ts";

/** A unit of measure, simple or compound. */
export interface Unit {
  /** House spelling: reads back as the same unit. */
  readonly symbol: string;
  /** Spelling for people: µmol/m²s, °C, °dKH. Empty for a pure number. */
  readonly shown: string;
  readonly dimension: Dimension;
  /** SI value of one unit, exact. */
  readonly ratio: Ratio;
  /** SI value at the unit's own zero: 273.15 for °C, 0 for all but temperature scales. */
  readonly zero: Ratio;
  readonly scale: Scale;
  /** The way from a value in this unit to SI. */
  readonly toSi: Line;
}

/** One of the things that a text may mean. */
export interface Reading {
  readonly unit: Unit;
  /** Ambiguous words and the meaning taken for each. */
  readonly choices: Choices;
  readonly meaning: string;
  /** Whether a field that expects this kind of quantity settles the question. */
  readonly fieldSettles: boolean;
}

/** What a unit's text turned out to be. */
export type Resolution =
  | { readonly kind: "unit"; readonly unit: Unit }
  | { readonly kind: "ask"; readonly readings: readonly Reading[] }
  | { readonly kind: "none"; readonly message: string; readonly suggestions: readonly string[] };

const MAX_LENGTH = 100;
const MAX_CACHED = 4096;

function makeUnit(text: string, typed: boolean, choices: Choices): Unit {
  const terms = parseExpression(text, typed, choices);
  const measure = measureOf(terms);
  const { dimension, ratio, zero, scale } = measure;
  const [only] = terms;
  const named = only?.atom === measure ? only.atom : { symbol: symbolOf(terms), shown: shownOf(terms) };
  return { symbol: named.symbol, shown: named.shown, dimension, ratio, zero, scale, toSi: line(ratio, zero) };
}

/** Every way to read a text once the given choices are made. Ways that lead nowhere are left out. */
function readings(text: string, typed: boolean, choices: Choices, taken: readonly Meaning[]): Reading[] {
  try {
    const unit = makeUnit(text, typed, choices);
    const meaning = taken.map((m) => m.meaning).join(", ");
    return [{ unit, choices, meaning, fieldSettles: taken.every((m) => m.fieldSettles) }];
  } catch (error) {
    if (!(error instanceof AmbiguousUnit)) throw error;
    const { word } = error;
    return (AMBIGUOUS[word]?.meanings ?? []).flatMap((m) => {
      try {
        return readings(text, typed, { ...choices, [word]: m.unit }, [...taken, m]);
      } catch (inner) {
        if (inner instanceof UnitTextFault) return [];
        throw inner;
      }
    });
  }
}

/** One spelling for characters that look alike: spaces, degree signs, subscripts, the point of an abbreviation. */
function tidy(text: string): string {
  return fromSubscript(text)
    .replace(/\s+/g, " ")
    .replace(/[º˚]/g, "°")
    .replace(/° (?=[A-Za-z])/g, "°")
    .replace(/U\.S\.?/gi, "US")
    .replace(/([A-Za-z])\.(?=$|[\s/)])/g, "$1")
    .replace(/(HCO3)(?:-|⁻)/g, "$1")
    .trim();
}

function resolveAfresh(text: string, typed: boolean): Resolution {
  const plain = tidy(text);
  try {
    const found = readings(plain, typed, {}, []);
    const [only] = found;
    if (!only) return { kind: "none", message: `${quoted(plain)} cannot be read as a unit`, suggestions: [] };
    return found.length === 1 ? { kind: "unit", unit: only.unit } : { kind: "ask", readings: found };
  } catch (error) {
    if (!(error instanceof UnitTextFault)) throw error;
    return { kind: "none", message: error.message, suggestions: error.suggestions };
  }
}

/** Units already read. They are pure results of their text; the bound keeps odd input from filling the memory. */
const known: Readonly<Record<"typed" | "code", Map<string, Resolution>>> = { typed: new Map(), code: new Map() };

/**
 * Reads the text of a unit. `typed` text is a person's, where a bare degree is asked about; in code "deg" is an angle.
 */
export function resolve(text: string, by: "typed" | "code"): Resolution {
  if (text.length > MAX_LENGTH) {
    return { kind: "none", message: `${quoted(text)} is too long for a unit`, suggestions: [] };
  }
  const cache = known[by];
  const hit = cache.get(text);
  if (hit) return hit;
  const made = resolveAfresh(text, by === "typed");
  if (cache.size >= MAX_CACHED) cache.clear();
  cache.set(text, made);
  return made;
}
