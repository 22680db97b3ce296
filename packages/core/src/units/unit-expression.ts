import { baseDimension, NONE, timesPower } from "./dimension.ts";
import { elements } from "./elements.ts";
import { divide, multiply, ONE, power, ratio, toNumber, ZERO } from "./ratio.ts";
import { type StandsFor, splitTagged, standInAtom, type Tagged } from "./stand-in.ts";
import type { Atom, Measure, Scale, Term } from "./unit-parts.ts";
import { fromSuperscript, shownOf, symbolOf } from "./unit-spelling.ts";
import { AMBIGUOUS, BASE_TABLE, type DefinedUnit, NO_UNIT, PREFIXES, SHORTHAND, UNIT_TABLE } from "./unit-table.ts";

/** Text that is no unit; `suggestions` are spellings that would be. */
export class UnitTextFault extends Error {
  readonly suggestions: readonly string[];
  constructor(message: string, suggestions: readonly string[] = []) {
    super(message);
    this.suggestions = suggestions;
  }
}

/** A word of the text has several meanings and none was chosen. */
export class AmbiguousUnit extends Error {
  readonly word: string;
  constructor(word: string) {
    super(`${word} has several meanings`);
    this.word = word;
  }
}

/** Meanings already chosen: ambiguous word to unit text. */
export type Choices = Readonly<Record<string, string>>;

type Entry =
  | { readonly kind: "atom"; readonly atom: Atom }
  | { readonly kind: "ask"; readonly word: string; readonly typedOnly: boolean }
  | { readonly kind: "short"; readonly expression: string };

/** Spellings read exactly, and names read whatever their capitals. */
const exact = new Map<string, Entry>();
const named = new Map<string, Entry>();
/** Ambiguous spellings that have one meaning in code. */
const typedOnly = new Map<string, Entry>();

const MAX_EXPONENT = 9;
const MAX_DEPTH = 5;
const MAX_TERMS = 12;

const IDENTIFIER =
  /pp[mb]\(v\)|[mc]?mol\(\+\)|(?:[cm]?m|in|ft)H2O|[A-Za-zµμΩΩℓ∆Δ°℃℉%‰'′’"″”_-]*[A-Za-zµμΩΩℓ°℃℉%‰'′’"″”_]/y;
const EXPONENT = /\^?([+\-−]?\d{1,2})|([⁺⁻]?[⁰¹²³⁴-⁹]{1,2})/y;
const NUMBER = /\d{1,9}(?:\.\d{1,9})?/y;
const SPACES = / */y;

function lookUp(text: string, typed: boolean): Entry | undefined {
  const ask = typed ? (typedOnly.get(text) ?? typedOnly.get(text.toLowerCase())) : undefined;
  return ask ?? exact.get(text) ?? named.get(text.toLowerCase());
}

/** The units and names that a misspelling may have meant. */
function suggestionsFor(text: string): string[] {
  const wanted = text.toLowerCase();
  const found: string[] = [];
  for (const map of [exact, named]) {
    for (const spelling of map.keys()) {
      if (spelling.toLowerCase() === wanted || (wanted.length > 2 && oneEditApart(spelling.toLowerCase(), wanted))) {
        found.push(spelling);
      }
    }
  }
  return found.slice(0, 4);
}

function oneEditApart(a: string, b: string): boolean {
  const [short, long] = a.length <= b.length ? [a, b] : [b, a];
  if (long.length - short.length > 1) return false;
  let i = 0;
  while (i < short.length && short[i] === long[i]) i += 1;
  const rest = short.length === long.length ? i + 1 : i;
  return short.slice(rest) === long.slice(i + 1);
}

function isSubstance(text: string): boolean {
  return (
    /^(?:[A-Z][a-z]?)+$/.test(text) && text.match(/[A-Z][a-z]?/g)?.every((e) => elements[e] !== undefined) === true
  );
}

/** Shortens what a person typed, for a message. */
export function quoted(text: string): string {
  return `"${text.length > 40 ? `${text.slice(0, 39)}…` : text}"`;
}

class Cursor {
  at = 0;
  readonly text: string;
  constructor(text: string) {
    this.text = text;
  }
  take(pattern: RegExp): RegExpExecArray | null {
    pattern.lastIndex = this.at;
    const match = pattern.exec(this.text);
    if (match) this.at += match[0].length;
    return match;
  }
  peek(pattern: RegExp): boolean {
    pattern.lastIndex = this.at;
    return pattern.test(this.text);
  }
  get ended(): boolean {
    return this.at >= this.text.length;
  }
}

const PER = /per(?![A-Za-z])/iy;
const SLASH = /[/÷∕]/y;
const TIMES = /[*·⋅×]/y;
const OPEN = /\(/y;
const CLOSE = /\)/y;
const NEXT_WORD = / +([A-Za-z°][A-Za-z°]*)/y;

/** A name of one to three words, the longest that is known. */
function takeName(cursor: Cursor, typed: boolean): Entry {
  const start = cursor.at;
  const first = cursor.take(IDENTIFIER)?.[0];
  if (first === undefined) {
    const rest = cursor.text.slice(start);
    throw new UnitTextFault(rest === "" ? "a unit is missing at the end" : `${quoted(rest)} is not a unit`);
  }
  let best = lookUp(first, typed);
  let bestEnd = cursor.at;
  let words = first;
  for (let extra = 0; extra < 2; extra += 1) {
    const next = cursor.take(NEXT_WORD)?.[1];
    if (next === undefined) break;
    words += ` ${next}`;
    const entry = lookUp(words, typed);
    if (entry) [best, bestEnd] = [entry, cursor.at];
  }
  if (!best) {
    const hint = NO_UNIT.get(first.toLowerCase());
    if (hint) throw new UnitTextFault(hint);
    const suggestions = suggestionsFor(first);
    if (suggestions.length === 0 && isSubstance(first)) {
      throw new UnitTextFault(`${quoted(first)} names a substance: say it beside the quantity, not in its unit`);
    }
    throw new UnitTextFault(`${quoted(first)} is not a unit known here`, suggestions);
  }
  cursor.at = bestEnd;
  return best;
}

function takeExponent(cursor: Cursor): number {
  const match = cursor.take(EXPONENT);
  if (!match) return 1;
  const exponent = Number(match[1]?.replace("−", "-") ?? fromSuperscript(match[2] as string));
  if (exponent === 0 || Math.abs(exponent) > MAX_EXPONENT) {
    throw new UnitTextFault(`the power ${exponent} is outside 1 to ${MAX_EXPONENT}`);
  }
  return exponent;
}

function raised(terms: readonly Term[], exponent: number, under: boolean): Term[] {
  if (terms.some((t) => Math.abs(t.exponent * exponent) > MAX_EXPONENT || (t.count !== null && exponent !== 1))) {
    throw new UnitTextFault(`a bracket cannot be raised to the power ${exponent} here`);
  }
  return terms.map((t) => ({ ...t, exponent: t.exponent * exponent, under: t.under !== under }));
}

/** One factor, and those tied to it without a space (the K of m²K). */
function takeFactor(cursor: Cursor, typed: boolean, choices: Choices, under: boolean, depth: number): Term[] {
  if (cursor.take(OPEN)) {
    if (depth >= MAX_DEPTH) throw new UnitTextFault("brackets are nested too deep");
    const inside = takeProduct(cursor, typed, choices, depth + 1);
    if (!cursor.take(CLOSE)) throw new UnitTextFault("a bracket is not closed");
    return raised(inside, takeExponent(cursor), under);
  }
  const terms: Term[] = [];
  for (;;) {
    const entry = takeName(cursor, typed);
    const before = cursor.at;
    const exponent = takeExponent(cursor);
    const tied = cursor.at > before && cursor.peek(IDENTIFIER) && !cursor.peek(PER);
    terms.push(...raised(termsOf(entry, choices), exponent, under));
    if (!tied) return terms;
  }
}

function termsOf(entry: Entry, choices: Choices): readonly Term[] {
  if (entry.kind === "atom") return [{ atom: entry.atom, exponent: 1, count: null, under: false }];
  if (entry.kind === "short") return parseExpression(entry.expression, false, choices);
  const chosen = choices[entry.word];
  if (chosen === undefined) throw new AmbiguousUnit(entry.word);
  return parseExpression(chosen, false, choices);
}

function takeProduct(cursor: Cursor, typed: boolean, choices: Choices, depth: number): Term[] {
  const terms: Term[] = [];
  let under = false;
  let divided = false;
  let first = true;
  for (;;) {
    cursor.take(SPACES);
    const count = cursor.take(NUMBER)?.[0] ?? null;
    if (count !== null && !under && !(first && count === "1")) {
      throw new UnitTextFault(`the number ${count} stands where a unit is expected`);
    }
    if (count !== null && Number(count) === 0) throw new UnitTextFault("a unit cannot be divided by 0");
    cursor.take(SPACES);
    const alone = count !== null && (cursor.ended || cursor.peek(SLASH) || cursor.peek(PER) || cursor.peek(CLOSE));
    const counted = count !== null && Number(count) !== 1 ? count : null;
    if (alone) {
      if (counted !== null) terms.push({ atom: null, exponent: 1, count: counted, under });
    } else {
      const [head, ...others] = takeFactor(cursor, typed, choices, under, depth);
      if (head) terms.push(counted === null ? head : { ...head, count: counted }, ...others);
    }
    if (divided && !under) {
      throw new UnitTextFault(`${quoted(cursor.text)} divides and then multiplies: set brackets, as in W/(m2*K)`);
    }
    if (terms.length > MAX_TERMS) throw new UnitTextFault("the unit has too many parts");
    first = false;
    const gap = (cursor.take(SPACES)?.[0].length ?? 0) > 0;
    if (cursor.ended || (depth > 0 && cursor.peek(CLOSE))) return terms;
    if (cursor.take(SLASH) || cursor.take(PER)) {
      under = true;
      divided = true;
    } else if (cursor.take(TIMES) || gap || cursor.peek(OPEN)) {
      under = false;
    } else {
      throw new UnitTextFault(`${quoted(cursor.text.slice(cursor.at))} is not a unit`);
    }
  }
}

/** "mg/L CaCO3": ppm in front of a named salt can only be mg/L. */
function taggedTerm({ head, salt, standsFor }: Tagged, typed: boolean, choices: Choices): Term {
  const terms = parseExpression(head, typed, { ...choices, ppm: "mg/L", ppb: "ug/L" });
  const kind = standsFor ?? (choices[salt] as StandsFor | undefined);
  if (kind === undefined) throw new AmbiguousUnit(salt);
  const atom = standInAtom({ ...measureOf(terms), symbol: symbolOf(terms), shown: shownOf(terms) }, salt, kind);
  if (!atom) throw new UnitTextFault(`${quoted(head)} of ${salt} does not tell ${kind}: write mg/L ${salt}`);
  return { atom, exponent: 1, count: null, under: false };
}

/**
 * Reads a unit expression into its factors.
 * @throws UnitTextFault when it is none, AmbiguousUnit when a word of it needs a choice
 */
export function parseExpression(text: string, typed: boolean, choices: Choices): readonly Term[] {
  const whole = lookUp(text, typed);
  if (whole) return termsOf(whole, choices);
  const tagged = splitTagged(text);
  if (tagged) return [taggedTerm(tagged, typed, choices)];
  const cursor = new Cursor(text);
  const terms = takeProduct(cursor, typed, choices, 0);
  if (terms.every((t) => t.atom === null)) throw new UnitTextFault(`${quoted(text)} names no unit`);
  if (terms.length > 1 && terms.some((t) => t.atom?.alone)) {
    throw new UnitTextFault(`${quoted(text)} sets a scale of hardness into a compound, which cannot be read`);
  }
  return terms;
}

/** Size and dimension of a product of terms. A temperature scale loses its zero as soon as it stands in a compound. */
export function measureOf(terms: readonly Term[]): Measure {
  const [only] = terms;
  if (terms.length === 1 && only?.atom && only.exponent === 1 && !only.under && only.count === null) return only.atom;
  let dimension = NONE;
  let size = ONE;
  for (const { atom, exponent, count, under } of terms) {
    const sign = under ? -1 : 1;
    if (atom) {
      dimension = timesPower(dimension, atom.dimension, sign * exponent);
      size = multiply(size, power(atom.ratio, sign * exponent));
    }
    if (count !== null) size = under ? divide(size, ratio(count)) : multiply(size, ratio(count));
  }
  const value = toNumber(size);
  if (!(value > 1e-200 && value < 1e200)) throw new UnitTextFault("the unit is too large or too small to compute with");
  return { dimension, ratio: size, zero: ZERO, scale: "plain" };
}

function define(entry: Entry, spellings: readonly string[], names: readonly string[]): void {
  for (const spelling of spellings) if (!exact.has(spelling)) exact.set(spelling, entry);
  for (const name of names) if (!named.has(name.toLowerCase())) named.set(name.toLowerCase(), entry);
}

/** Enters a unit with its prefixed forms. */
function enter(unit: Omit<DefinedUnit, "is">, measure: Pick<Measure, "dimension" | "ratio">): void {
  const {
    symbol,
    shown = symbol,
    also = [],
    words = [],
    prefixes = "",
    zero,
    difference = false,
    alone = false,
  } = unit;
  const scale: Scale = zero ? "reading" : difference ? "difference" : "plain";
  const atom: Atom = { symbol, shown, ...measure, zero: zero ? ratio(zero) : ZERO, scale, alone };
  define({ kind: "atom", atom }, [symbol, ...also], words);
  for (const prefix of prefixes) {
    const p = PREFIXES[prefix];
    if (!p) throw new RangeError(`${symbol}: no prefix ${prefix}`);
    const letters = prefix === "u" ? ["u", "µ", "μ"] : [prefix];
    const entry: Entry = {
      kind: "atom",
      atom: {
        ...atom,
        symbol: prefix + symbol,
        shown: (prefix === "u" ? "µ" : prefix) + shown,
        ratio: multiply(measure.ratio, ratio(p.factor)),
      },
    };
    const spellings = [symbol, ...also].flatMap((s) => letters.map((l) => l + s));
    define(
      entry,
      spellings,
      words.map((w) => p.name + w),
    );
  }
}

function build(): void {
  define({ kind: "atom", atom: one }, ["1"], []);
  for (const unit of BASE_TABLE) enter(unit, { dimension: baseDimension(unit.base), ratio: ratio(unit.si) });
  for (const unit of UNIT_TABLE) {
    const space = unit.is.indexOf(" ");
    const { dimension, ratio: size } = measureOf(parseExpression(unit.is.slice(space + 1), false, {}));
    enter(unit, { dimension, ratio: multiply(ratio(unit.is.slice(0, space)), size) });
  }
  for (const [word, { spellings, typedOnly: onlyTyped = false }] of Object.entries(AMBIGUOUS)) {
    const entry: Entry = { kind: "ask", word, typedOnly: onlyTyped };
    if (onlyTyped) for (const spelling of spellings) typedOnly.set(spelling, entry);
    else define(entry, spellings, spellings);
  }
  for (const [short, expression] of Object.entries(SHORTHAND)) define({ kind: "short", expression }, [], [short]);
}

const one: Atom = { symbol: "1", shown: "", dimension: NONE, ratio: ONE, zero: ZERO, scale: "plain", alone: true };

build();

/** Symbols of every named unit, prefixed forms included. */
export const unitSymbols: readonly string[] = [
  ...new Set([...exact.values()].flatMap((e) => (e.kind === "atom" ? [e.atom.symbol] : []))),
];
