/** One typed value against its row of the fields table. */
import { type FactKind, findAnimal, findMaterial, findPlant, materials, nearest } from "../facts/index.ts";
import { selfCrossing } from "../geometry/index.ts";
import { convert, convertAmount, formatQuantity, molarMass, parseQuantity } from "../units/index.ts";
import type { Field, ItemsField, Measure } from "./field.ts";
import { readIon } from "./ion.ts";
import type { Issue } from "./issue.ts";
import { allowedMarks, isKnown, readMarks } from "./marks.ts";
import { currentVersion } from "./migrate.ts";
import {
  type Entry,
  type FloorPoint,
  isMap,
  type Json,
  type Known,
  type Path,
  type Plan,
  type RawPlan,
} from "./plan.ts";
import { programmeAllowed, readProgramme } from "./programme.ts";
import { readSpectrum, spectrumAllowed } from "./spectrum.ts";
import { closest, short } from "./suggest.ts";

type Wrong = readonly [message: string, allowed: string];
type Found<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly wrong: Wrong };

function wrong(message: string, allowed: string): { readonly ok: false; readonly wrong: Wrong } {
  return { ok: false, wrong: [message, allowed] };
}

// Numbers -------------------------------------------------------------------------------------------------------------

/** A bound in the unit that the person typed. */
function bound(value: number, measure: Measure, shown: string): string {
  const told =
    measure.ion && !shown.includes("mol")
      ? convertAmount(value, "mmol/L", shown, molarMass(measure.ion))
      : convert(value, measure.difference ? "K" : measure.unit, shown);
  return formatQuantity(told, shown);
}

function within(value: number, measure: Measure, shown: string): Found<number> {
  if (value >= measure.min && value <= measure.max) return { ok: true, value };
  const [low, high] = [bound(measure.min, measure, shown), bound(measure.max, measure, shown)];
  return wrong(`this is too ${value < measure.min ? "little" : "much"}`, `${low} to ${high}`);
}

function numberIn(words: string, measure: Measure): Found<number> {
  if (measure.ion) {
    const ion = readIon(words, measure.ion);
    return ion.ok ? within(ion.value, measure, ion.shownUnit) : wrong(ion.message, ion.allowed);
  }
  const read = parseQuantity(words, {
    expect: measure.difference ? "temperatureDifference" : measure.metric,
    ...(measure.unit === "ppm(v)" ? { context: { ppm: "ppm(v)" } } : {}),
  });
  if (!read.ok) return wrong(read.message, read.candidates?.map((c) => c.text).join(" or ") ?? read.allowed);
  return within(convert(read.value, read.unit, measure.difference ? "K" : measure.unit), measure, read.unit);
}

const clockTime = /^(\d{1,2}):([0-5]\d)$/;

function timeOf(words: string): Found<number> {
  const match = clockTime.exec(words);
  const hours = match ? Number(match[1]) + Number(match[2]) / 60 : Number.NaN;
  return hours <= 24
    ? { ok: true, value: hours }
    : wrong(`${short(words)} is no time of day`, "00:00 to 24:00, such as 17:30");
}

function countOf(words: string, field: Field & { readonly kind: "count" }): Found<number> {
  const allowed = `a whole number from ${field.min} to ${field.max}, without a unit`;
  const value = /^[+-]?\d+$/.test(words) ? Number(words) : Number.NaN;
  return value >= field.min && value <= field.max
    ? { ok: true, value }
    : wrong(`${short(words)} will not do here`, allowed);
}

function choiceOf(words: string, choices: readonly string[]): Found<string> {
  if (choices.includes(words)) return { ok: true, value: words };
  const near = closest(words, choices);
  const hint = near === undefined ? "" : `; did you mean ${near}?`;
  return wrong(`${short(words)} is not one of the choices${hint}`, choices.join(", "));
}

// Entries -------------------------------------------------------------------------------------------------------------

type EntryField = Extract<Field, { readonly usual: Known }>;

function isEntryField(field: Field): field is EntryField {
  return "usual" in field;
}

/** The unit and bounds that hold for a field, which another key of the same item may decide. */
function measureOf(field: Field & { readonly kind: "variant" }, item: RawPlan): Measure | undefined {
  const by = Object.hasOwn(item, field.by) ? item[field.by] : undefined;
  return typeof by === "string" && Object.hasOwn(field.measures, by) ? field.measures[by] : undefined;
}

function entryValue(field: EntryField, words: string, item: RawPlan): Found<number | string> {
  switch (field.kind) {
    case "quantity":
      return numberIn(words, field);
    case "variant": {
      const measure = measureOf(field, item);
      // Without a kind the unit cannot be judged; the missing kind is a fault of its own.
      return measure ? numberIn(words, measure) : { ok: true, value: Number.NaN };
    }
    case "time":
      return timeOf(words);
    case "count":
      return countOf(words, field);
    case "choice":
      return choiceOf(words, field.choices);
  }
}

/** Entries already read: under a slider one value changes and a hundred stay. A pure result of row and text. */
const known = new Map<Field, Map<string, Entry<number | string>>>();
const mostKnown = 256;

function fromText(field: EntryField, text: string, item: RawPlan): Found<Entry<number | string>> {
  const cache = field.kind === "variant" ? undefined : known.get(field);
  const hit = cache?.get(text);
  if (hit) return { ok: true, value: hit };
  const marked = readMarks(text);
  if (!marked) {
    return wrong(
      "the bracket behind the value is not closed",
      "value unit (measured, note); between { and } it stands in quotes, since a comma ends a value there",
    );
  }
  const value = entryValue(field, marked.words, item);
  if (!value.ok) return value;
  const entry: Entry<number | string> = {
    value: value.value,
    known: marked.known ?? field.usual,
    ...(marked.note === undefined ? {} : { note: marked.note }),
    text: marked.words,
  };
  if (field.kind !== "variant") {
    const entries = cache && cache.size < mostKnown ? cache : new Map<string, Entry<number | string>>();
    known.set(field, entries.set(text, entry));
  }
  return { ok: true, value: entry };
}

/** The text of a bare number, where the field takes one. */
function numberText(raw: number): string {
  return Number.isFinite(raw) ? String(raw) : "not a number";
}

function example(field: EntryField): string {
  if (field.kind === "quantity") return `${field.label} as a number with its unit, such as in ${field.metric}`;
  if (field.kind === "time") return 'a time of day in quotes, such as "17:30"';
  return field.help;
}

function readEntry(field: EntryField, raw: Json, item: RawPlan, path: Path, issues: Issue[]): unknown {
  let value = raw;
  let marks: { known?: Known; note?: string } = {};
  let where = path;
  if (isMap(raw)) {
    marks = readLongForm(raw, path, issues);
    value = Object.hasOwn(raw, "value") ? (raw.value as Json) : null;
    where = Object.hasOwn(raw, "value") ? [...path, "value"] : path;
    if (value === null) {
      issues.push({
        path: where,
        at: "value",
        message: "the long form needs a value",
        allowed: "{ value: ..., known: measured, note: ... }",
      });
      return placeholder(field);
    }
  }
  if (typeof value !== "string" && typeof value !== "number") {
    const message = value === null ? "nothing is written here" : "a single value belongs here";
    issues.push({ path: where, at: "value", message, allowed: `${example(field)}, or the key left out` });
    return placeholder(field);
  }
  const read = fromText(field, typeof value === "number" ? numberText(value) : value, item);
  if (!read.ok) {
    issues.push({ path: where, at: "value", message: read.wrong[0], allowed: read.wrong[1] });
    return placeholder(field);
  }
  if (field.kind === "choice" && field.bare) return read.value.value;
  return { ...read.value, ...marks };
}

function readLongForm(raw: RawPlan, path: Path, issues: Issue[]): { known?: Known; note?: string } {
  const marks: { known?: Known; note?: string } = {};
  for (const key of Object.keys(raw)) {
    const value = raw[key];
    if (key === "value") continue;
    if (key === "known" && isKnown(value)) marks.known = value;
    else if (key === "note" && typeof value === "string") marks.note = value;
    else if (key === "known") {
      issues.push({ path: [...path, key], at: "value", message: "this is no mark", allowed: allowedMarks });
    } else if (key === "note") {
      issues.push({ path: [...path, key], at: "value", message: "a note must be text", allowed: "text" });
    } else {
      issues.push({
        path: [...path, key],
        at: "key",
        message: `${short(key)} is not known in a value`,
        allowed: "value, known, note",
      });
    }
  }
  return marks;
}

// Names, words, days --------------------------------------------------------------------------------------------------

function factKind(field: Field & { readonly kind: "fact" }, item: RawPlan): FactKind | undefined {
  if (typeof field.facts === "string") return field.facts;
  const { by, kinds } = field.facts;
  const choice = Object.hasOwn(item, by) ? item[by] : undefined;
  return typeof choice === "string" && Object.hasOwn(kinds, choice) ? kinds[choice] : undefined;
}

function factOf(name: string, kind: FactKind | undefined): Found<string> {
  if (kind === undefined) return { ok: true, value: findMaterial(name)?.id ?? "" };
  const find = {
    plant: findPlant,
    animal: findAnimal,
    substrate: findMaterial,
    stone: findMaterial,
    wood: findMaterial,
  };
  const fact = find[kind](name);
  if (fact && (kind === "plant" || kind === "animal" || ("kind" in fact && fact.kind === kind))) {
    return { ok: true, value: fact.id };
  }
  const near = nearest(name.slice(0, 80), [kind]);
  const hint = near.length > 0 ? `; did you mean ${near.join(" or ")}?` : "";
  const all = materials.filter((m) => m.kind === kind).map((m) => m.id);
  const allowed =
    all.length > 0
      ? all.join(", ")
      : `${kind === "plant" ? "a botanical" : "a zoological or common"} name from the list`;
  return wrong(`no ${kind} named ${short(name)} is known${hint}`, allowed);
}

const isoDate = /^(\d{4})-(\d{2})-(\d{2})$/;
const monthDays = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

function isDate(text: string): boolean {
  const [, year, month, day] = (isoDate.exec(text) ?? []).map(Number);
  if (year === undefined || month === undefined || day === undefined) return false;
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  return day >= 1 && day <= (monthDays[month - 1] ?? 0) && (leap || month !== 2 || day < 29);
}

type PlainField = Exclude<Field, EntryField | ItemsField>;

function plainValue(field: PlainField, raw: Json, item: RawPlan): Found<unknown> {
  switch (field.kind) {
    case "fact":
      return typeof raw === "string" ? factOf(raw, factKind(field, item)) : wrong("a name belongs here", field.help);
    case "flag":
      return typeof raw === "boolean" ? { ok: true, value: raw } : wrong("this must be true or false", "true, false");
    case "date":
      return typeof raw === "string" && isDate(raw)
        ? { ok: true, value: raw }
        : wrong("this is no date", "year-month-day, such as 2026-07-05");
    case "points":
      return pointsOf(raw, field);
    case "heights":
      return heightsOf(raw, field);
    case "spectrum": {
      const read = typeof raw === "string" ? readSpectrum(raw) : null;
      return read?.ok
        ? { ok: true, value: { ...read.spectrum, text: String(raw) } }
        : wrong(read ? read.message : "a light belongs here", spectrumAllowed);
    }
    case "programme": {
      const read = typeof raw === "string" ? readProgramme(raw) : null;
      return read?.ok
        ? { ok: true, value: read.programme }
        : wrong(read ? read.message : "times of day with strengths belong here", programmeAllowed);
    }
    case "version":
      return raw === currentVersion
        ? { ok: true, value: raw }
        : wrong("an alternative cannot change the version", `lentic: ${currentVersion}`);
    case "alternatives":
      return isMap(raw)
        ? { ok: true, value: Object.keys(raw) }
        : wrong("alternatives must be a map of names", "a name, and below it the keys to change");
    case "text":
      return textOf(raw, field);
  }
}

function textOf(raw: Json, field: Field & { readonly kind: "text" | "date" }): Found<string> {
  if (typeof raw !== "string" && typeof raw !== "number") {
    return wrong(raw === null ? "nothing is written here" : "text belongs here", "text, in quotes if need be");
  }
  const text = String(raw);
  return field.longest === undefined || text.length <= field.longest
    ? { ok: true, value: text }
    : wrong(`the text holds ${text.length} characters`, `at most ${field.longest}`);
}

const mostPoints = 200;
const pointAllowed = "places on the floor in one line, such as 10 % 20 %, 40 % 22 %, 35 % 60 %";

/** Places on the floor, from the left and from the front. */
function pointsOf(raw: Json, field: Field & { readonly kind: "points" }): Found<readonly FloorPoint[]> {
  if (typeof raw !== "string") return wrong("places on the floor belong here", pointAllowed);
  const written = raw.split(",");
  const points: FloorPoint[] = [];
  for (const [i, words] of written.entries()) {
    const match = /^\s*(-?[\d.]+)\s*%\s+(-?[\d.]+)\s*%\s*$/.exec(words);
    const [x, y] = [Number(match?.[1]), Number(match?.[2])];
    if (!(x >= 0 && x <= 100 && y >= 0 && y <= 100)) {
      return wrong(
        `place ${i + 1}, ${short(words.trim())}, is none on the floor`,
        `${pointAllowed}; each 0 % to 100 %`,
      );
    }
    points.push([x / 100, y / 100]);
  }
  if (points.length < field.least || points.length > mostPoints) {
    return wrong(`${points.length} places are given`, `${field.least} to ${mostPoints} places`);
  }
  const crossing = field.least === 3 ? selfCrossing(points) : null;
  return crossing
    ? wrong(
        `the outline crosses itself near ${Math.round(crossing.x * 100)} % ${Math.round(crossing.y * 100)} %`,
        "an outline that goes once round its area",
      )
    : { ok: true, value: points };
}

const mostNodes = 65;
const heightsAllowed = `2 to ${mostNodes} rows of 2 to ${mostNodes} depths, all as long, such as "60 70 90 mm", the back row first`;

/** Rows of depths, written from the back; given from the front, m. */
function heightsOf(raw: Json, field: Field & { readonly kind: "heights" }): Found<readonly (readonly number[])[]> {
  if (!Array.isArray(raw)) return wrong("a list of rows belongs here", heightsAllowed);
  const rows: number[][] = [];
  for (const [i, words] of (raw as readonly Json[]).entries()) {
    const match = typeof words === "string" ? /^\s*([-\d.\s]+?)\s*(mm|cm|m|in)\s*$/.exec(words) : null;
    const row = match?.[1]?.split(/\s+/).map((n) => convert(Number(n), match[2]!, "m")) ?? [];
    if (row.length < 2 || row.some((h) => !(h >= 0 && h <= field.max))) {
      const shown = typeof words === "string" ? `, ${short(words)},` : "";
      return wrong(`row ${i + 1}${shown} is no row of depths`, heightsAllowed);
    }
    rows.push(row);
  }
  const columns = rows[0]?.length ?? 0;
  if (rows.length < 2 || rows.length > mostNodes || columns > mostNodes || rows.some((r) => r.length !== columns)) {
    return wrong(
      `these are ${rows.length} rows of ${[...new Set(rows.map((r) => r.length))].join(" and ")} depths`,
      heightsAllowed,
    );
  }
  return { ok: true, value: rows.reverse() };
}

/** A list of maps within a map; what an entry leaves out takes its default at once. */
function readItems({ items, most, label }: ItemsField, raw: Json, path: Path, issues: Issue[]): unknown {
  const keys = items.map((field) => field.path.slice(field.path.lastIndexOf(".") + 1));
  if (!Array.isArray(raw)) {
    const allowed = `entries that start with a dash, each with ${keys.join(", ")}`;
    issues.push({ path, at: "value", message: `${label.toLowerCase()} must be a list`, allowed });
    return [];
  }
  const entries = raw as readonly Json[];
  if (entries.length > most) {
    issues.push({
      path,
      at: "value",
      message: `this list holds ${entries.length} entries`,
      allowed: `at most ${most}`,
    });
  }
  return entries.slice(0, most).map((entry, i) => {
    const own = [...path, i];
    const typed = isMap(entry) ? entry : {};
    if (!isMap(entry)) {
      const message = "an entry of this list must be a map of keys and values";
      issues.push({ path: own, at: "value", message, allowed: keys.join(", ") });
    }
    for (const key of Object.keys(typed)) {
      if (keys.includes(key) || typed[key] === undefined) continue;
      const near = closest(key, keys);
      const hint = near === undefined ? "" : `; did you mean ${near}?`;
      const message = `${short(key)} is not known in ${label.toLowerCase()}${hint}`;
      issues.push({ path: [...own, key], at: "key", message, allowed: keys.join(", ") });
    }
    return Object.fromEntries(
      items.map((field, k) => {
        const key = keys[k]!;
        if (typed[key] !== undefined) return [key, readValue(field, typed[key] as Json, typed, [...own, key], issues)];
        if (!field.fallback && isMap(entry)) {
          issues.push({ path: [...own, key], at: "value", message: `${key} is missing`, allowed: field.help });
        }
        return [key, defaultEntry(field, {} as Plan, i)];
      }),
    );
  });
}

/**
 * Reads one typed value. Faults go to `issues`; what comes back then is a placeholder, so that other checks can go on.
 * `item` is the map that the value stands in.
 */
export function readValue(field: Field, raw: Json, item: RawPlan, path: Path, issues: Issue[]): unknown {
  if (isEntryField(field)) return readEntry(field, raw, item, path, issues);
  if (field.kind === "items") return readItems(field, raw, path, issues);
  const read = plainValue(field, raw, item);
  if (field.kind === "alternatives" && isMap(raw)) {
    for (const name of Object.keys(raw)) {
      if (isMap(raw[name])) continue;
      issues.push({
        path: [...path, name],
        at: "value",
        message: "an alternative must be a map of the keys to change",
        allowed: 'such as co2: { opens: "07:20" }',
      });
    }
  }
  if (read.ok) return read.value;
  issues.push({ path, at: "value", message: read.wrong[0], allowed: read.wrong[1] });
  return placeholder(field);
}

/** Stands in for a value that cannot be read: NaN, which no check complains about, or the first choice. */
export function placeholder(field: Field): unknown {
  if (field.kind === "choice") {
    const value = field.choices[0] ?? "";
    return field.bare ? value : { value, known: field.usual, text: "" };
  }
  if (isEntryField(field)) return { value: Number.NaN, known: field.usual, text: "" };
  if (field.kind === "alternatives") return [];
  if (field.kind === "items") return [];
  if (field.kind === "points" || field.kind === "heights" || field.kind === "programme") return null;
  if (field.kind === "spectrum") return { kind: "white", kelvin: 6500, text: "" };
  return field.kind === "flag" ? false : "";
}

/** What stands in for a field left out; null where it stays open. */
export function defaultEntry(field: Field, plan: Plan, index: number): unknown {
  const { fallback } = field;
  if (!fallback) return placeholder(field);
  const derived = fallback.rule ? fallback.rule(plan, index) : { value: fallback.text };
  if (field.kind === "alternatives" || field.kind === "items") return [];
  if (derived === null) return null;
  const { value, reason = fallback.reason } = derived;
  if (field.kind === "flag") return value === "true";
  if (!isEntryField(field)) return field.kind === "fact" ? factId(String(value)) : value;
  if (typeof value === "number") return { value, known: "assumed", reason };
  const read = fromText(field, value, {});
  if (!read.ok) throw new Error(`the default of ${field.path} cannot be read: ${value}`);
  return field.kind === "choice" && field.bare
    ? read.value.value
    : { value: read.value.value, known: "assumed", reason };
}

function factId(name: string): string {
  return findMaterial(name)?.id ?? name;
}
