import {
  type CatalogueEntry,
  catalogue,
  evaluate,
  findRelation,
  type Input,
  nearestRelations,
  type RawInputs,
  RelationError,
} from "@lentic/core/catalogue";
import { convert, formatQuantity, parseQuantity } from "@lentic/core/units";
import { exit, InputError } from "../fault.ts";
import { readText } from "../input.ts";
import { paperOf, table, wrap } from "../paper.ts";
import { toJson } from "./day.ts";

export interface CalcOptions {
  readonly list?: boolean;
  readonly room?: string;
  readonly json?: boolean;
  readonly input?: string;
  readonly help?: boolean;
}

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

function list(options: CalcOptions): number {
  const rooms = [...new Set(catalogue.map((e) => e.relation.room))];
  if (options.room !== undefined && !rooms.includes(options.room)) {
    throw new InputError(`there is no room ${options.room}; there are: ${rooms.join(", ")}`);
  }
  const entries = catalogue.filter((e) => options.room === undefined || e.relation.room === options.room);
  if (options.json) {
    process.stdout.write(`${toJson(entries.map(descriptor))}\n`);
    return exit.fine;
  }
  const byRoom = rooms.filter((r) => options.room === undefined || r === options.room);
  for (const room of byRoom) {
    process.stdout.write(`${room}\n`);
    const rows = entries.filter((e) => e.relation.room === room).map((e) => [`  ${e.relation.id}`, e.relation.title]);
    process.stdout.write(`${table(rows)}\n`);
  }
  return exit.fine;
}

function help(entry: CatalogueEntry): string {
  const { relation, sources } = entry;
  const { width } = paperOf();
  const inputs = Object.entries(relation.inputs).map(([name, input]) => [
    `  ${name}`,
    input.kind === "choice"
      ? input.options.join(" | ")
      : `${input.min} to ${input.max} ${unitWord(input.unit)}`.trimEnd(),
    "default" in input && input.default !== undefined ? `default ${input.default}` : "",
    input.label,
  ]);
  const outputs = Object.entries(relation.outputs).map(([name, o]) => [`  ${name}`, unitWord(o.unit), o.label]);
  const first = Object.entries(relation.inputs)
    .filter(([, i]) => !("default" in i) || i.default === undefined)
    .slice(0, 3)
    .map(
      ([name, i]) => `${name}=${i.kind === "choice" ? i.options[0] : i.kind === "series" ? `${i.min},...` : sample(i)}`,
    );
  return [
    `${relation.id}: ${relation.title}`,
    "",
    "inputs",
    table(inputs),
    "outputs",
    table(outputs),
    "",
    wrap(relation.equation, width),
    ...(relation.validity ? [wrap(`Holds for: ${relation.validity}.`, width)] : []),
    ...sources.map((s) => wrap(`source: ${s.cite} (${s.how})`, width, "  ")),
    ...(relation.caution ? [wrap(`! ${relation.caution}`, width, "  ")] : []),
    "",
    `lentic calc ${relation.id} ${first.join(" ")}`.trimEnd(),
  ].join("\n");
}

/** A round value inside a range, for an example. */
function sample(input: Extract<Input, { kind: "number" }>): string {
  const middle = input.default ?? (input.min > 0 ? Math.sqrt(input.min * input.max) : (input.min + input.max) / 2);
  const value = Number(middle.toPrecision(2));
  return input.unit === "1" ? `${value}` : `"${value} ${input.unit}"`;
}

/** Reads "77 °F" for an input declared in °C: converted exactly; a bare number is taken in the declared unit. */
function readNumber(name: string, text: string, unit: string): number {
  const bare = Number(text);
  if (text.trim() !== "" && Number.isFinite(bare)) return bare;
  const read = parseQuantity(text, unit === "1" ? {} : { expect: unit });
  if (!read.ok) throw new InputError(`${name}: ${read.message}; allowed: ${read.allowed}`);
  try {
    return convert(read.value, read.unit, unit);
  } catch (error) {
    throw new InputError(`${name}: ${(error as Error).message}`);
  }
}

function readInput(name: string, value: unknown, input: Input | undefined): number | string | readonly number[] {
  if (!input || input.kind === "choice") return typeof value === "number" ? value : String(value);
  if (input.kind === "series") {
    const parts = Array.isArray(value) ? (value as unknown[]) : String(value).split(",");
    return parts.map((part) => readNumber(name, String(part), input.unit));
  }
  return readNumber(name, String(value), input.unit);
}

function given(entry: CatalogueEntry, words: readonly string[], options: CalcOptions): RawInputs {
  const raw: Record<string, number | string | readonly number[]> = {};
  const take = (name: string, value: unknown): void => {
    raw[name] = readInput(name, value, entry.relation.inputs[name]);
  };
  if (options.input !== undefined) {
    let parsed: unknown;
    try {
      parsed = JSON.parse(readText(options.input));
    } catch (error) {
      if (error instanceof InputError) throw error;
      throw new InputError(
        `${options.input === "-" ? "standard input" : options.input} is not JSON: ${(error as Error).message}`,
      );
    }
    if (typeof parsed !== "object" || parsed === null || Array.isArray(parsed))
      throw new InputError('the inputs must be one JSON object, such as {"temperature": "25 °C"}');
    for (const [name, value] of Object.entries(parsed)) take(name, value);
  }
  for (const word of words) {
    const at = word.indexOf("=");
    if (at < 1) throw new InputError(`${word} is not of the form name=value`);
    take(word.slice(0, at), word.slice(at + 1));
  }
  return raw;
}

export function calcCommand(name: string | undefined, words: readonly string[], options: CalcOptions): number {
  if (options.list || name === undefined) return list(options);
  const entry = findRelation(name);
  if (!entry) {
    const near = nearestRelations(name);
    throw new InputError(
      `there is no relation ${name}${near.length > 0 ? `; like it: ${near.join(", ")}` : ""}; lentic calc --list names all`,
    );
  }
  if (options.help) {
    process.stdout.write(`${options.json ? toJson(descriptor(entry)) : help(entry)}\n`);
    return exit.fine;
  }
  const { relation, sources } = entry;
  const raw = given(entry, words, options);
  let outputs: ReturnType<typeof evaluate>;
  try {
    outputs = evaluate(relation, raw);
  } catch (error) {
    if (error instanceof RelationError) {
      throw new InputError(error.faults.map((f) => `${relation.id}: ${f.input}: ${f.message}`).join("\n"));
    }
    throw error;
  }
  const inputs = Object.fromEntries(
    Object.entries(relation.inputs).map(([key, input]) => [
      key,
      raw[key] ?? ("default" in input ? input.default : undefined),
    ]),
  );
  if (options.json) {
    const told = Object.fromEntries(
      Object.entries(outputs).map(([key, value]) => [
        key,
        {
          value: typeof value === "number" && !Number.isFinite(value) ? "never" : value,
          unit: relation.outputs[key]!.unit,
        },
      ]),
    );
    process.stdout.write(
      `${toJson({ id: relation.id, outputs: told, inputs, equation: relation.equation, sources, ...(relation.caution ? { caution: relation.caution } : {}) })}\n`,
    );
    return exit.fine;
  }
  const rows = Object.entries(outputs).map(([key, value]) => {
    const { unit, label } = relation.outputs[key]!;
    const one = (v: number): string => (Number.isFinite(v) ? formatQuantity(v, unit, { digits: 6 }) : "never");
    return [key, typeof value === "number" ? one(value) : value.map(one).join(", "), label];
  });
  const { width } = paperOf();
  process.stdout.write(`${table(rows)}\n`);
  for (const s of sources) process.stdout.write(`${wrap(`source: ${s.cite} (${s.how})`, width, "  ")}\n`);
  if (relation.caution) process.stdout.write(`${wrap(`! ${relation.caution}`, width, "  ")}\n`);
  return exit.fine;
}
