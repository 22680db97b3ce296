import { materials, substrates } from "../facts/index.ts";
import type { Field, Measure } from "./field.ts";
import { currentVersion } from "./migrate.ts";
import type { Known } from "./plan.ts";
import { colours } from "./spectrum.ts";
import { type GroupNode, root } from "./tree.ts";

type Schema = Readonly<Record<string, unknown>>;

const marks: readonly Known[] = ["measured", "label", "assumed"];

/** A value in its long form, `{ value, known, note }`. */
function longForm(value: Schema): Schema {
  return {
    type: "object",
    properties: {
      value,
      known: { enum: marks, description: "How the value is known." },
      note: { type: "string", description: "Where it comes from." },
    },
    required: ["value"],
    additionalProperties: false,
  };
}

function eitherWay(...values: readonly Schema[]): Schema {
  return { anyOf: [...values, ...values.map(longForm)] };
}

/** A word with an optional mark and note in brackets. */
function marked(words: string): string {
  return `^\\s*(${words})(\\s+\\(.*\\))?\\s*$`;
}

const startsWithNumber: Schema = { type: "string", pattern: "^\\s*[-+−]?\\s*[.,]?\\d" };

function quantity(measures: readonly Measure[]): Schema {
  const bare = measures.some((m) => m.metric === "1");
  return eitherWay(startsWithNumber, ...(bare ? [{ type: "number" }] : []));
}

const escaped = (word: string) => word.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");

function valueSchema(field: Field): Schema {
  switch (field.kind) {
    case "version":
      return { const: currentVersion };
    case "alternatives":
      return { type: "object", additionalProperties: { type: "object" } };
    case "quantity":
      return quantity([field]);
    case "variant":
      return quantity(Object.values(field.measures));
    case "count":
      return eitherWay(
        { type: "integer", minimum: field.min, maximum: field.max },
        { type: "string", pattern: marked("\\d+") },
      );
    case "time":
      return eitherWay({ type: "string", pattern: marked("([01]?\\d|2[0-3]):[0-5]\\d|24:00") });
    case "choice":
      return field.bare
        ? { enum: field.choices }
        : eitherWay({ enum: field.choices }, { type: "string", pattern: marked(field.choices.map(escaped).join("|")) });
    case "fact":
      return { type: "string", ...factExamples(field.facts) };
    case "flag":
      return { type: "boolean" };
    case "date":
      return { type: "string", format: "date", pattern: "^\\d{4}-\\d{2}-\\d{2}$" };
    case "points":
      return { type: "string", pattern: "^(\\s*-?[\\d.]+\\s*%\\s+-?[\\d.]+\\s*%\\s*(,|$))+$" };
    case "heights":
      return { type: "array", minItems: 2, items: { type: "string", pattern: "^[-\\d.\\s]+(mm|cm|m|in)\\s*$" } };
    case "spectrum":
      return { type: "string", examples: ["6500 K", ...Object.keys(colours), "660 nm 25 nm wide"] };
    case "programme":
      return { type: "string", pattern: "^(\\s*\\d{1,2}:[0-5]\\d\\s+\\d+([.,]\\d+)?\\s*%\\s*(,|$))+$" };
    case "items":
      return { type: "array", maxItems: field.most, items: mapSchema(field.items) };
    case "text":
      return { type: ["string", "number"], ...(field.longest ? { maxLength: field.longest } : {}) };
  }
}

function factExamples(facts: (Field & { kind: "fact" })["facts"]): Schema {
  if (facts === "plant" || facts === "animal") return {};
  if (facts === "substrate") return { examples: substrates.map((s) => s.id) };
  return { examples: materials.filter((m) => m.kind !== "substrate").map((m) => m.id) };
}

function units(field: Field): string {
  const measures = field.kind === "quantity" ? [field] : field.kind === "variant" ? Object.values(field.measures) : [];
  const names = new Set(measures.flatMap((m) => [m.metric, m.us]).filter((unit) => unit !== "1"));
  return names.size === 0 ? "" : ` Usual units: ${[...names].join(", ")}.`;
}

function fieldSchema(field: Field): Schema {
  const left = field.fallback ? ` Left out: ${field.fallback.text} (${field.fallback.reason}).` : "";
  return { title: field.label, description: `${field.help}${units(field)}${left}`, ...valueSchema(field) };
}

/** A map of fields under their keys. */
function mapSchema(own: readonly Field[]): Schema {
  const key = ({ path }: Field): string => path.slice(path.lastIndexOf(".") + 1);
  return {
    type: "object",
    properties: Object.fromEntries(own.map((field) => [key(field), fieldSchema(field)])),
    required: own.filter((field) => !field.fallback).map(key),
    additionalProperties: false,
  };
}

function groupSchema({ group, children }: GroupNode): Schema {
  const map = mapSchema([...children.values()].map((child) => child.field));
  const shape: Schema = group.list ? { type: "array", items: map } : map;
  const head = { title: group.label, description: group.help };
  return group.absent === "none" ? { ...head, anyOf: [shape, { const: "none" }] } : { ...head, ...shape };
}

/** JSON Schema (draft 2020-12) of a plan file as it is typed; editors complete and check by it. */
export function jsonSchema(): object {
  const properties = [...root].map(([key, node]) => [
    key,
    node.type === "group" ? groupSchema(node) : fieldSchema(node.field),
  ]);
  return {
    $schema: "https://json-schema.org/draft/2020-12/schema",
    title: "Plan of a planted aquarium",
    description: "One tank. A quantity is a number with its unit, then, if wished, (measured | label | assumed, note).",
    type: "object",
    properties: Object.fromEntries(properties),
    required: ["lentic", "tank"],
    additionalProperties: false,
  };
}
