import { exponentOf } from "./dimension.ts";
import { kindOf } from "./named-dimension.ts";
import { along, divide, type Line, line, subtract } from "./ratio.ts";
import { type Reading, resolve, type Unit } from "./unit.ts";
import { UnitError } from "./unit-error.ts";

function unreadable(message: string, text: string, suggestions: readonly string[]): UnitError {
  const hint = suggestions.length > 0 ? `; did you mean ${suggestions.join(", ")}?` : "";
  return new UnitError(`${text}: ${message}${hint}`, [text], suggestions);
}

function ambiguous(text: string, readings: readonly Reading[]): UnitError {
  const candidates = readings.map((r) => r.unit.symbol);
  return new UnitError(`${text} may mean ${candidates.join(" or ")}: say which`, [text], candidates);
}

function readingsOf(text: string): readonly Reading[] {
  const made = resolve(text, "code");
  if (made.kind === "none") throw unreadable(made.message, text, made.suggestions);
  if (made.kind === "ask") return made.readings;
  return [{ unit: made.unit, choices: {}, meaning: "", fieldSettles: true }];
}

/**
 * Reads a unit as code writes it. A unit that may mean two things (gal; mg/L CaCO3 of hardness or alkalinity) is refused.
 * @throws UnitError
 */
export function parseUnit(text: string): Unit {
  const readings = readingsOf(text);
  const [only] = readings;
  if (!only || readings.length > 1) throw ambiguous(text, readings);
  return only.unit;
}

/** Whether a value in one unit can be told in the other: same dimension, and no temperature reading as a difference. */
export function sameKind(a: Unit, b: Unit): boolean {
  const mixed = a.scale !== b.scale && a.scale !== "plain" && b.scale !== "plain";
  return a.dimension.key === b.dimension.key && !mixed;
}

function between(from: Unit, to: Unit): Line {
  return line(divide(from.ratio, to.ratio), divide(subtract(from.zero, to.zero), to.ratio));
}

function sameLine(a: Line, b: Line): boolean {
  return a.multiply === b.multiply && a.divide === b.divide && a.add === b.add;
}

/** The way between two units; an ambiguous one is settled by its partner where a field could settle it. */
function lineOf(from: string, to: string): Line {
  const [left, right] = [readingsOf(from), readingsOf(to)];
  const pairs = left.flatMap((a) => right.filter((b) => sameKind(a.unit, b.unit)).map((b) => [a, b] as const));
  const lines = pairs.map(([a, b]) => between(a.unit, b.unit));
  const [first] = lines;
  const settled = [...left, ...right].every((r) => r.fieldSettles);
  if (first && settled && lines.every((l) => sameLine(l, first))) return first;
  if (first || !settled) throw left.length > 1 ? ambiguous(from, left) : ambiguous(to, right);
  const [a, b] = [(left[0] as Reading).unit, (right[0] as Reading).unit];
  const kinds = `${kindOf(a)} is not ${kindOf(b)}`;
  throw new UnitError(`${from} cannot be told in ${to}: ${kinds}`, [from, to]);
}

const MAX_CACHED = 4096;
/** Lines already worked out, a pure result of the two spellings. */
const lines = new Map<string, Line>();

function lineBetween(from: string, to: string): Line {
  const key = `${from}\n${to}`;
  const hit = lines.get(key);
  if (hit) return hit;
  const made = lineOf(from, to);
  if (lines.size >= MAX_CACHED) lines.clear();
  lines.set(key, made);
  return made;
}

function finite(result: number, value: number, from: string, to: string): number {
  if (Number.isFinite(result)) return result === 0 ? 0 : result;
  const what = Number.isFinite(value) ? "gives a number beyond range" : "is not a finite number";
  throw new UnitError(`${value} ${from} in ${to} ${what}`, [from, to]);
}

/**
 * Tells a value in another unit. Exact up to the rounding of the result; temperature scales shift by their zeros.
 * @throws UnitError naming both units, when they do not fit or a unit is unknown or ambiguous, or the value is not finite
 */
export function convert(value: number, from: string, to: string): number {
  return finite(along(lineBetween(from, to), value), value, from, to);
}

/**
 * Tells a value between mass and amount: mg/L and mmol/L, mg/kg and mmol/kg, g and mol.
 * @param molarMass g/mol of the substance, above 0
 * @throws UnitError as {@link convert}
 */
export function convertAmount(value: number, from: string, to: string, molarMass: number): number {
  if (!(molarMass > 0 && Number.isFinite(molarMass))) {
    throw new UnitError(`${from} to ${to}: a molar mass of ${molarMass} g/mol makes no sense`, [from, to]);
  }
  const [a, b] = [parseUnit(from), parseUnit(to)];
  const moles = exponentOf(b.dimension, "amount") - exponentOf(a.dimension, "amount");
  const expected = a.dimension.exponents.map((e, i) => e + (i === 1 ? -moles : i === 4 ? moles : 0));
  if (Math.abs(moles) > 1 || expected.some((e, i) => e !== b.dimension.exponents[i])) {
    throw new UnitError(`${from} cannot be told in ${to}: they differ by more than mass and amount`, [from, to]);
  }
  const kilogramsPerMole = molarMass / 1000;
  const si = along(a.toSi, value) / kilogramsPerMole ** moles;
  return finite(along(line(divide({ n: 1n, d: 1n }, b.ratio), { n: 0n, d: 1n }), si), value, from, to);
}
