import { baseDimension, timesPower } from "./dimension.ts";
import { type Expectation, expectationOf, fit } from "./expectation.ts";
import { kindOf } from "./named-dimension.ts";
import { readNumber } from "./number-text.ts";
import { along, divide, toNumber } from "./ratio.ts";
import { type Reading, resolve, type Unit } from "./unit.ts";
import { quoted } from "./unit-expression.ts";
import { AMBIGUOUS } from "./unit-table.ts";

/** One thing that a refused text may have meant, ready to be put in its place. */
export interface Candidate {
  readonly text: string;
  readonly unit: string;
  readonly meaning: string;
}

export interface ReadQuantity {
  readonly ok: true;
  /** In `unit`. */
  readonly value: number;
  /** House spelling of the unit typed; reads back as the same unit. */
  readonly unit: string;
  /** In SI units: m, kg, s, K, mol, eq, A, lm, pieces, rad and their products. */
  readonly si: number;
  /** As typed, without outer spaces. */
  readonly text: string;
}

export interface RefusedQuantity {
  readonly ok: false;
  readonly text: string;
  /** What is wrong, for the person who typed. */
  readonly message: string;
  /** What would be right. */
  readonly allowed: string;
  /** The ambiguous word to answer, a key for `context`. */
  readonly word?: string;
  readonly candidates?: readonly Candidate[];
}

export type QuantityText = ReadQuantity | RefusedQuantity;

export interface ParseOptions {
  /** Name of a dimension ("volume") or a unit ("cm"); a unit never fills in for one that was left out. */
  readonly expect?: string;
  /** Answers already given to ambiguous words: `{ gal: "US gal", ppm: "mg/L" }`. */
  readonly context?: Readonly<Record<string, string>>;
}

const MAX_LENGTH = 160;
const RANGE = /^(?:[-–—~±]|\+\/-|to\b|\.\.)\s*\d/;
const ANYTHING = "a number and a unit, such as 90 cm, 12 mL/d or 4 dKH";

function allowedBy(expectation: Expectation | null): string {
  if (!expectation) return ANYTHING;
  const { label, offered, bare } = expectation;
  const named = offered.filter((u) => u !== "1");
  const units = listed(named, "or");
  if (units === "") return "a number without a unit";
  return `${label} in ${units}${bare ? ", or a number alone" : ""}`;
}

interface Refusal {
  readonly message: string;
  readonly word?: string;
  readonly candidates?: readonly Candidate[];
}

type Found = { readonly value: number; readonly unit: Unit } | Refusal;

/** A refused mass per volume, where hardness or alkalinity is due, is most often one told as a salt. */
function saltCandidates(number: string, unit: Unit, expectation: Expectation): Candidate[] {
  const massPerVolume = timesPower(baseDimension("mass"), baseDimension("length"), -3);
  if (unit.dimension.key !== massPerVolume.key) return [];
  return ["CaCO3", "HCO3"].flatMap((salt) => {
    const made = resolve(`${unit.symbol} ${salt}`, "code");
    const units = made.kind === "unit" ? [made.unit] : made.kind === "ask" ? made.readings.map((r) => r.unit) : [];
    const fitting = units.find((u) => fit(u, expectation) === "fits");
    return fitting ? [{ text: `${number} ${fitting.symbol}`, unit: fitting.symbol, meaning: `told as ${salt}` }] : [];
  });
}

function meet(value: number, number: string, unit: Unit, expectation: Expectation | null): Found {
  const how = expectation ? fit(unit, expectation) : "fits";
  if (how === "fits") return { value, unit };
  const difference = resolve(`Δ${unit.symbol}`, "code");
  if (how === "as difference" && difference.kind === "unit") return { value, unit: difference.unit };
  if (how === "unclear" && difference.kind === "unit") {
    const reading = along(unit.toSi, value);
    return {
      message: `${number} ${unit.symbol} may be a difference or a reading of the thermometer`,
      candidates: [
        { text: `${number} ${difference.unit.symbol}`, unit: difference.unit.symbol, meaning: "a difference" },
        { text: `${reading} K`, unit: "K", meaning: "a reading, above absolute zero" },
      ],
    };
  }
  const wanted = expectation as Expectation;
  const candidates = saltCandidates(number, unit, wanted);
  const message = `${quoted(`${number} ${unit.symbol}`.trim())} is ${kindOf(unit)}; ${wanted.label} is needed`;
  return candidates.length > 0 ? { message, candidates } : { message };
}

type Context = Readonly<Record<string, string>>;

/** Whether the context has given just this meaning to a word. */
function answered(word: string, unit: string | undefined, context: Context): boolean {
  const answer = context[word];
  if (answer === undefined || unit === undefined) return false;
  const made = resolve(answer, "code");
  return answer === unit || (made.kind === "unit" && made.unit.symbol === unit);
}

function listed(items: readonly string[], join: string): string {
  return items.length > 1 ? `${items.slice(0, -1).join(", ")} ${join} ${items.at(-1)}` : items.join("");
}

/** Picks among the readings of an ambiguous unit, or says what to ask. An answer that does not fit the field is passed over. */
function choose(
  value: number,
  number: string,
  unitText: string,
  readings: readonly Reading[],
  expectation: Expectation | null,
  context: Context,
): Found {
  const fitting = readings.filter((r) => !expectation || fit(r.unit, expectation) !== "no");
  const known = fitting.filter((r) =>
    Object.entries(r.choices).every(([word, unit]) => context[word] === undefined || answered(word, unit, context)),
  );
  const left = known.length > 0 ? known : fitting;
  const [only] = left;
  if (!only) {
    const kinds = listed([...new Set(readings.map((r) => kindOf(r.unit)))], "or");
    return { message: `${quoted(`${number} ${unitText}`)} is ${kinds}; ${expectation?.label} is needed` };
  }
  const words = Object.keys(only.choices).filter((word) => !answered(word, only.choices[word], context));
  const settled = words.every((word) => {
    const chosen = AMBIGUOUS[word]?.meanings.find((m) => m.unit === only.choices[word]);
    return expectation !== null && chosen?.fieldSettles === true;
  });
  if (left.length === 1 && settled) return meet(value, number, only.unit, expectation);
  const candidates = left.map(({ unit: { symbol }, meaning }) => ({
    text: `${number} ${symbol}`,
    unit: symbol,
    meaning,
  }));
  const names = candidates.map((c) => c.unit);
  const message =
    names.length === 1
      ? `${quoted(unitText)} has more than one meaning: write ${names[0]} if that is meant`
      : `${quoted(unitText)} may mean ${listed(names, "or")}: say which`;
  return { message, word: words[0] ?? unitText, candidates };
}

function withUnit(
  value: number,
  number: string,
  unitText: string,
  expectation: Expectation | null,
  context: Context,
): Found {
  const made = resolve(unitText.startsWith("/") ? `1${unitText}` : unitText, "typed");
  if (made.kind === "unit") return meet(value, number, made.unit, expectation);
  if (made.kind === "ask") return choose(value, number, unitText, made.readings, expectation, context);
  const candidates = made.suggestions.map((s) => ({ text: `${number} ${s}`, unit: s, meaning: `as ${s}` }));
  const hint = candidates.length > 0 ? `; did you mean ${made.suggestions.join(" or ")}?` : "";
  return { message: made.message + hint, ...(candidates.length > 0 ? { candidates } : {}) };
}

function bareNumber(value: number, number: string, expectation: Expectation | null): Found {
  const one = resolve("1", "code");
  if (one.kind === "unit" && (!expectation || expectation.bare)) return { value, unit: one.unit };
  const offered = (expectation?.offered ?? []).filter((u) => u !== "1");
  const candidates = offered.slice(0, 3).map((u) => ({ text: `${number} ${u}`, unit: u, meaning: `in ${u}` }));
  return { message: `${number} stands without a unit`, candidates };
}

/** Quantities told in two units, the larger first: 3 ft 6 in, 1 h 30 min, 2 lb 3 oz. */
const SUM = /^(?:([A-Za-z]+) (?:and )?|(['′’])\s*)(\d.*)$/s;
const LEADS: ReadonlySet<string> = new Set(["ft", "lb", "week", "d", "h", "min", "m"]);

function sum(value: number, rest: string, expectation: Expectation | null, context: Context): Found | null {
  const match = SUM.exec(rest);
  if (!match) return null;
  const [, word, mark, tail = ""] = match;
  const lead = resolve(word ?? mark ?? "", "typed");
  if (lead.kind !== "unit" || !LEADS.has(lead.unit.symbol)) return null;
  const { unit } = lead;
  const next = readNumber(tail);
  if (next.kind !== "number") return { message: next.message };
  const same: Expectation = { units: [unit], label: kindOf(unit), offered: [], temperature: "reading", bare: false };
  const second =
    sum(next.value, next.rest, same, context) ?? withUnit(next.value, String(next.value), next.rest, same, context);
  if ("message" in second) return second;
  const size = toNumber(divide(unit.ratio, second.unit.ratio));
  if (!(size > 1 && second.value < size && second.value >= 0 && Number.isInteger(value))) {
    return {
      message: `${quoted(`${value} ${rest}`)}: a larger unit in whole numbers comes first, then less than one of it`,
    };
  }
  const whole = Math.abs(value) * size + second.value;
  return meet(value < 0 ? -whole : whole, String(whole), second.unit, expectation);
}

function refuse(text: string, expectation: Expectation | null, refusal: Refusal): RefusedQuantity {
  return { ok: false, text, allowed: allowedBy(expectation), ...refusal };
}

/**
 * Reads a quantity as a person types it: `2.5 bubbles/s`, `36 in`, `3 ft 6 in`, `11 3/4 in`, `71.6 °F`, `4 dKH`,
 * `2 mL/day per 50 L`, `2,5 L`. What may mean two things (gal, ppm, a bare degree, oz, "1,234") is refused with the
 * candidates, unless `context` or the kind of field settles it. Signs and ranges are left to the field.
 * @throws UnitError only when `expect` is neither a dimension nor a unit
 */
export function parseQuantity(text: string, options: ParseOptions = {}): QuantityText {
  const { expect, context = {} } = options;
  const expectation = expect === undefined ? null : expectationOf(expect);
  const trimmed = text.trim();
  if (trimmed === "") return refuse(trimmed, expectation, { message: "nothing is entered" });
  if (trimmed.length > MAX_LENGTH) return refuse(trimmed, expectation, { message: `${quoted(trimmed)} is too long` });
  const number = readNumber(trimmed);
  if (number.kind === "fault") return refuse(trimmed, expectation, { message: number.message });
  if (number.kind === "ask") {
    const candidates = number.numbers.map((n) => ({
      text: `${n} ${number.rest}`.trim(),
      unit: number.rest,
      meaning: n,
    }));
    return refuse(trimmed, expectation, { message: number.message, candidates });
  }
  const { value, rest } = number;
  if (RANGE.test(rest)) {
    return refuse(trimmed, expectation, { message: `${quoted(trimmed)} holds more than one number: enter one` });
  }
  const written = rest === "" ? trimmed : trimmed.slice(0, trimmed.length - rest.length).trim();
  const found =
    rest === ""
      ? bareNumber(value, written, expectation)
      : (sum(value, rest, expectation, context) ?? withUnit(value, written, rest, expectation, context));
  if ("message" in found) return refuse(trimmed, expectation, found);
  const si = along(found.unit.toSi, found.value);
  if (!Number.isFinite(si))
    return refuse(trimmed, expectation, { message: `${quoted(trimmed)} is too large a number` });
  return { ok: true, value: found.value, unit: found.unit.symbol, si, text: trimmed };
}
