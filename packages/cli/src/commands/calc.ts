import {
  type CatalogueEntry,
  catalogue,
  evaluate,
  findRelation,
  type Input,
  nearestRelations,
  type RawInputs,
  type RawOutputs,
  RelationError,
  usualValue,
} from "@lentic/core/catalogue";
import { convert, formatQuantity, inSystem, parseQuantity, type UnitSystem } from "@lentic/core/units";
import { exit, InputError } from "../fault.ts";
import { fileWord, offeredText, readText } from "../input.ts";
import { paperOf, table, toJson, wrap } from "../paper.ts";

export interface CalcOptions {
  readonly list?: boolean;
  readonly room?: string;
  readonly json?: boolean;
  readonly input?: string;
  readonly help?: boolean;
  readonly units: UnitSystem;
}

type InputValue = NonNullable<RawInputs[string]>;

const descriptor = ({ relation, sources }: CatalogueEntry) => ({
  id: relation.id,
  title: relation.title,
  room: relation.room,
  inputs: relation.inputs,
  outputs: relation.outputs,
  equation: relation.equation,
  sources,
  ...(relation.validity ? { validity: relation.validity } : {}),
  ...(relation.caution ? { caution: relation.caution } : {}),
});

const unitWord = (unit: string): string => (unit === "1" ? "" : unit);
const sentence = (text: string): string => (/[.!?]$/.test(text) ? text : `${text}.`);

/** Every relation, or those of a room, or those whose name or title holds all words. */
function list(words: readonly string[], options: CalcOptions): number {
  const rooms = [...new Set(catalogue.map((e) => e.relation.room))];
  if (options.room !== undefined && !rooms.includes(options.room)) {
    throw new InputError(`there is no room ${options.room}; there are: ${rooms.join(", ")}`);
  }
  const wanted = words.map((w) => w.toLowerCase());
  const entries = catalogue.filter(({ relation: r }) => {
    const text = `${r.id} ${r.title}`.toLowerCase();
    return (options.room === undefined || r.room === options.room) && wanted.every((w) => text.includes(w));
  });
  if (options.json) {
    process.stdout.write(`${toJson(entries.map(descriptor))}\n`);
    return exit.fine;
  }
  if (entries.length === 0) throw new InputError(`no relation is named by ${words.join(" ")}; --list names them all`);
  const { width } = paperOf();
  const blocks = rooms.flatMap((room) => {
    const rows = entries.filter((e) => e.relation.room === room).map((e) => [`  ${e.relation.id}`, e.relation.title]);
    return rows.length > 0 ? [`${room}\n${table(rows, { width })}`] : [];
  });
  process.stdout.write(`${blocks.join("\n")}\n`);
  return exit.fine;
}

/** Without a train of noughts. */
const compact = (v: number): string => (Math.abs(v) >= 1e7 ? v.toExponential().replace("e+", "e") : String(v));

function range(input: Input): string {
  if (input.kind === "choice") return input.options.join(" | ");
  const text = `${compact(input.min)} to ${compact(input.max)} ${unitWord(input.unit)}`.trimEnd();
  return input.kind === "series" ? `${text}, ${input.atLeast} or more` : text;
}

type Sample = number | string | readonly number[];

/** A round value inside a range, at a share of it. */
function inside({ min, max }: { min: number; max: number }, share: number): number {
  const value = min > 0 && max / min > 100 ? min * (max / min) ** share : min + (max - min) * share;
  return Math.min(max, Math.max(min, Number(value.toPrecision(2))));
}

function sample(input: Input, share: number): Sample {
  if (input.kind === "choice") return input.default ?? input.options[0]!;
  if (input.kind === "number") return input.default ?? inside(input, share);
  const count = Math.max(3, input.atLeast);
  return Array.from({ length: count }, (_, i) => inside(input, (share + i) / (count + 1)));
}

const sampleText = (input: Input, value: Sample): string =>
  quoted(typeof value === "number" && "unit" in input && input.unit !== "1" ? `${value} ${input.unit}` : String(value));

const attempts = 12;

/** Inputs for an example: usual values; where none is known, values inside the ranges that have an answer together. */
function example({ relation }: CatalogueEntry): string {
  const given = Object.entries(relation.inputs);
  const needed = given.filter(([, i]) => !("default" in i) || i.default === undefined);
  const usual = given.filter(([name, input]) => usualValue(relation.id, name, input) !== undefined);
  const asked = needed.length > 0 ? needed : usual.length > 0 ? usual.slice(0, 2) : given.slice(0, 1);
  let first: string | null = null;
  for (let k = 0; k < attempts; k += 1) {
    // spread by the golden section, so that no two inputs are alike; now in one order, now in the other
    const stride = k % 2 === 0 ? 0.618 : 0.382;
    const values = asked.map(
      ([name, input], i) =>
        usualValue(relation.id, name, input) ?? sample(input, 0.15 + 0.7 * ((i * stride + k * 0.618) % 1)),
    );
    const text = asked.map(([name, input], i) => `${name}=${sampleText(input, values[i]!)}`).join(" ");
    first ??= text;
    try {
      evaluate(relation, Object.fromEntries(asked.map(([name], i) => [name, values[i]!])));
      return text;
    } catch (error) {
      if (!(error instanceof RelationError)) throw error;
    }
  }
  return first!;
}

const quoted = (text: string): string => (/^[\w.,-]+$/.test(text) ? text : `"${text}"`);

/** A longer list of choices stands below the table. */
const longestRange = 24;

function help(entry: CatalogueEntry): string {
  const { relation, sources } = entry;
  const { width } = paperOf();
  const given = Object.entries(relation.inputs);
  const inputs = given.map(([name, input]) => {
    const text = range(input);
    const preset = "default" in input && input.default !== undefined ? `default ${input.default}` : "";
    return [`  ${name}`, text.length > longestRange ? "one of those below" : text, preset, input.label];
  });
  const told = new Map<string, string>();
  const choices = given.flatMap(([name, input]) => {
    const text = range(input);
    if (text.length <= longestRange) return [];
    const same = told.get(text);
    told.set(text, same ?? name);
    return [wrap(`${name}: ${same === undefined ? text : `as ${same}`}`, width, "  ")];
  });
  const outputs = Object.entries(relation.outputs).map(([name, o]) => [
    `  ${name}`,
    o.yesNo ? "yes or no" : o.unitFrom ? `as ${o.unitFrom}` : unitWord(o.unit),
    o.label,
  ]);
  return [
    `${relation.id}: ${relation.title}`,
    "",
    "inputs",
    table(inputs, { width }),
    ...choices,
    "outputs",
    table(outputs, { width }),
    "",
    wrap(relation.equation, width),
    ...(relation.validity ? [wrap(sentence(`Holds for: ${relation.validity}`), width)] : []),
    ...sources.map((s) => wrap(`source: ${s.cite} (${s.how})`, width, "  ")),
    ...(relation.caution ? [wrap(`! ${relation.caution}`, width, "  ")] : []),
    "",
    `lentic calc ${relation.id} ${example(entry)}`,
  ].join("\n");
}

/** A value that cannot be read as what its input needs. */
class ValueError extends Error {}

const isBare = (text: string): boolean => /^\s*[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?\s*$/i.test(text);

/** Reads "77 °F" for an input declared in °C, converted exactly; a bare number is taken in the declared unit. */
function readNumber(text: string, unit: string): number {
  if (isBare(text)) return Number(text);
  const read = parseQuantity(text, unit === "1" ? {} : { expect: unit });
  if (!read.ok) throw new ValueError(`${read.message}; allowed: ${read.allowed}`);
  try {
    return convert(read.value, read.unit, unit);
  } catch (error) {
    throw new ValueError((error as Error).message);
  }
}

/** A list; a unit after its last number holds for all of it: "0, 30, 60 min". */
function readSeries(value: unknown, unit: string): readonly number[] {
  if (Array.isArray(value)) return (value as unknown[]).map((v) => readNumber(textOf(v), unit));
  const parts = String(value).split(/[,;]/);
  const last = parts.at(-1)!;
  const numbers = parts.slice(0, -1);
  if (numbers.length === 0 || isBare(last) || !numbers.every(isBare)) {
    if (parts.some(isBare) && !parts.every(isBare)) {
      throw new ValueError(
        "some of the list has units and some has none; allowed: a unit after each, or after the last",
      );
    }
    return parts.map((part) => readNumber(part, unit));
  }
  const word = last.trim().replace(/^[+-]?[\d.]+(e[+-]?\d+)?/i, "");
  return parts.map((part) => readNumber(part === last ? part : `${part.trim()}${word}`, unit));
}

/** "25 °C", 25, or {"value": 25, "unit": "°C"} as calc itself writes it. */
function textOf(value: unknown): string {
  if (typeof value === "object" && value !== null && "value" in value && "unit" in value) {
    return value.unit === "1" ? String(value.value) : `${value.value} ${value.unit}`;
  }
  if (typeof value !== "string" && typeof value !== "number") {
    throw new ValueError(`${JSON.stringify(value)} is no quantity; allowed: a number, or a number with its unit`);
  }
  return String(value);
}

function readInput(value: unknown, input: Input): InputValue {
  if (input.kind === "choice") return String(value);
  return input.kind === "series" ? readSeries(value, input.unit) : readNumber(textOf(value), input.unit);
}

/** Inputs as JSON: from the file named, or from what is piped in when nothing else is given. */
async function jsonText(
  words: readonly string[],
  options: CalcOptions,
): Promise<{ text: string; from: string } | null> {
  if (options.input !== undefined) return { text: readText(options.input), from: fileWord(options.input) };
  if (words.length > 0) return null;
  const text = await offeredText();
  return text === null || text.trim() === "" ? null : { text, from: fileWord("-") };
}

function parsedObject({ text, from }: { text: string; from: string }): Readonly<Record<string, unknown>> {
  let parsed: unknown;
  try {
    parsed = JSON.parse(text);
  } catch (error) {
    throw new InputError(`${from} is not JSON: ${(error as Error).message}`);
  }
  if (typeof parsed !== "object" || parsed === null || Array.isArray(parsed)) {
    throw new InputError(`${from} must hold one JSON object, such as {"temperature": "25 °C"}`);
  }
  return parsed as Readonly<Record<string, unknown>>;
}

/** Names and values as given, later ones over earlier ones. */
async function given(words: readonly string[], options: CalcOptions): Promise<ReadonlyMap<string, unknown>> {
  const all = new Map<string, unknown>();
  const json = await jsonText(words, options);
  if (json) for (const [name, value] of Object.entries(parsedObject(json))) all.set(name, value);
  const own = new Set<string>();
  for (const word of words) {
    const at = word.indexOf("=");
    if (at < 1) throw new InputError(`${word} is not of the form name=value`);
    const name = word.slice(0, at);
    if (own.has(name)) throw new InputError(`${name} is given twice`);
    own.add(name);
    all.set(name, word.slice(at + 1));
  }
  return all;
}

/** Values in the declared units. @throws InputError with every fault at once */
function read({ relation }: CatalogueEntry, all: ReadonlyMap<string, unknown>): RawInputs {
  const raw: Record<string, InputValue> = {};
  const faults: string[] = [];
  for (const [name, value] of all) {
    const input = Object.hasOwn(relation.inputs, name) ? relation.inputs[name] : undefined;
    if (!input) {
      faults.push(`${name}: is not an input; allowed: ${Object.keys(relation.inputs).join(", ")}`);
      continue;
    }
    try {
      raw[name] = readInput(value, input);
    } catch (error) {
      if (!(error instanceof ValueError)) throw error;
      faults.push(`${name}: ${error.message}`);
    }
  }
  if (faults.length > 0) throw new InputError(faults.map((f) => `${relation.id}: ${f}`).join("\n"));
  return raw;
}

/** What an endless number means, which JSON and a reader's eye have no figure for. */
function endless(value: number, unit: string): string {
  if (value < 0) return "minus infinity";
  const times = ["s", "min", "h", "d", "week"];
  return times.includes(unit) ? "never" : "without end";
}

function outputJson(value: number | readonly number[], unit: string) {
  const numbers = typeof value === "number" ? [value] : value;
  const words = [...new Set(numbers.filter((v) => !Number.isFinite(v)).map((v) => endless(v, unit)))];
  const told = numbers.map((v) => (Number.isFinite(v) ? v : null));
  return {
    value: typeof value === "number" ? told[0] : told,
    unit,
    ...(words.length > 0 ? { words: words.join(", ") } : {}),
  };
}

/** Significant digits: what is worked out is hardly known to more than three; conversions are exact. */
const digitsOf = (room: string): number => (room === "units" ? 6 : 4);

/** A figure with so many digits, whole numbers in full, without closing zeros. */
function figure(value: number, unit: string, units: UnitSystem, least: number): string {
  if (!Number.isFinite(value)) return endless(value, unit);
  const told = units === "us" ? inSystem(value, unit, "us") : { value, unit };
  const whole = told.value === 0 ? 1 : Math.floor(Math.log10(Math.abs(told.value))) + 1;
  const digits = Number(told.value.toPrecision(Math.min(15, Math.max(least, whole))))
    .toExponential()
    .replace(/e.*$|[-.]/g, "").length;
  return formatQuantity(told.value, told.unit, { digits });
}

/** Figures in a row, with a unit that is the same for all said once. */
function listed(figures: readonly string[]): string {
  const unit = / .*$/.exec(figures.at(-1)!)?.[0] ?? "";
  const same = unit !== "" && figures.every((f) => f.endsWith(unit));
  return figures.map((f, i) => (same && i < figures.length - 1 ? f.slice(0, -unit.length) : f)).join(", ");
}

function tell(entry: CatalogueEntry, raw: RawInputs, outputs: RawOutputs, options: CalcOptions): string {
  const { relation, sources } = entry;
  if (options.json) {
    const inputs = Object.fromEntries(
      Object.entries(relation.inputs).map(([key, input]) => [
        key,
        raw[key] ?? ("default" in input ? input.default : undefined),
      ]),
    );
    const told = Object.fromEntries(
      Object.entries(relation.outputs).map(([key, { unit }]) => [key, outputJson(outputs[key]!, unit)]),
    );
    const { id, equation, caution } = relation;
    return toJson({ id, outputs: told, inputs, equation, sources, ...(caution ? { caution } : {}) });
  }
  const { width } = paperOf();
  const rows = Object.entries(relation.outputs).map(([key, { unit, unitFrom, yesNo, label }]) => {
    const value = outputs[key]!;
    const numbers = typeof value === "number" ? [value] : value;
    if (yesNo) return [key, numbers.map((v) => (v === 1 ? "yes" : "no")).join(", "), label];
    // a unit that was asked for stays as asked
    const [as, system] = unitFrom === undefined ? [unit, options.units] : [String(raw[unitFrom]), "metric" as const];
    return [key, listed(numbers.map((v) => figure(v, as, system, digitsOf(relation.room)))), label];
  });
  return [
    table(rows, { width }),
    ...sources.map((s) => wrap(`source: ${s.cite} (${s.how})`, width, "  ")),
    ...(relation.caution ? [wrap(`! ${relation.caution}`, width, "  ")] : []),
  ].join("\n");
}

/** One relation by itself: listed, described, or evaluated. */
export async function calcCommand(
  name: string | undefined,
  words: readonly string[],
  options: CalcOptions,
): Promise<number> {
  if (options.list || name === undefined) return list(name === undefined ? [] : [name, ...words], options);
  const entry = findRelation(name);
  if (!entry) {
    const near = nearestRelations(name);
    const like = near.length > 0 ? `; like it: ${near.join(", ")}` : "";
    throw new InputError(`there is no relation ${name}${like}; lentic calc --list names all`);
  }
  if (options.help) {
    process.stdout.write(`${options.json ? toJson(descriptor(entry)) : help(entry)}\n`);
    return exit.fine;
  }
  const raw = read(entry, await given(words, options));
  let outputs: RawOutputs;
  try {
    outputs = evaluate(entry.relation, raw);
  } catch (error) {
    if (!(error instanceof RelationError)) throw error;
    const faults = error.faults.map((f) => `${name}: ${f.input}: ${f.message}`);
    throw new InputError(`${faults.join("\n")}\nlentic calc ${name} --help tells its inputs`);
  }
  process.stdout.write(`${tell(entry, raw, outputs, options)}\n`);
  return exit.fine;
}
