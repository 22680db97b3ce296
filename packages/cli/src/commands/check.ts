import { clock, dayReport, type UnitSystem } from "@lentic/core/design";
import { type Entry, type Field, fields, formatPlan, readPlan } from "@lentic/core/plan";
import { convert, convertAmount, displayUnit, molarMass } from "@lentic/core/units";
import { exit, faultLines, InputError } from "../fault.ts";
import { followed } from "../followed.ts";
import { fileWord, readText } from "../input.ts";
import { paperOf, table, toJson, working, wrap } from "../paper.ts";
import { type FailOn, findingLines, findingsCode } from "../report.ts";
import { rewrite } from "../rewrite.ts";

export interface CheckOptions {
  readonly units: UnitSystem;
  readonly json?: boolean;
  readonly assumed?: boolean;
  readonly fixFormat?: boolean;
  readonly failOn: FailOn;
}

export interface Assumption {
  readonly path: string;
  readonly value: number | string;
  /** Unit of the value; empty for a word or a pure number. */
  readonly unit: string;
  readonly reason: string;
}

/** `substrate[0].frontLeft` and `substrate[].front_left` are the same field. */
const plainPath = (path: string): string => path.replace(/\[\d*\]|_/g, "").toLowerCase();
const fieldOf: ReadonlyMap<string, Field> = new Map(fields.map((f) => [plainPath(f.path), f]));

/** Every value that nobody typed, with the reason for its default. */
export function assumptionsOf(plan: object): readonly Assumption[] {
  const found: Assumption[] = [];
  const snake = (key: string): string => key.replace(/[A-Z]/g, (c) => `_${c.toLowerCase()}`);
  const walk = (value: unknown, path: string): void => {
    if (Array.isArray(value)) {
      value.forEach((v, i) => {
        walk(v, `${path}[${i}]`);
      });
      return;
    }
    if (typeof value !== "object" || value === null) return;
    if ("known" in value && "value" in value) {
      const entry = value as Entry<number | string>;
      if (entry.reason === undefined) return;
      const field = fieldOf.get(plainPath(path));
      const unit = field && "unit" in field && field.unit !== "1" ? field.unit : "";
      found.push({ path, value: entry.value, unit, reason: entry.reason });
      return;
    }
    for (const [key, v] of Object.entries(value)) walk(v, path ? `${path}.${snake(key)}` : snake(key));
  };
  walk(plan, "");
  return found;
}

/** A value in the unit in which the trade tells it. */
function valueCells({ path, value, unit }: Assumption, units: UnitSystem): string[] {
  const field = fieldOf.get(plainPath(path));
  if (typeof value === "string") return [value, ""];
  if (field?.kind === "time") return [clock(value), ""];
  const from = unit || "1";
  const to = field?.kind === "quantity" ? (units === "us" ? field.us : field.metric) : from;
  const told =
    field?.kind === "quantity" && field.ion
      ? convertAmount(value, from, to, molarMass(field.ion))
      : convert(value, from, to);
  return [String(Number(told.toPrecision(4))), to === "1" ? "" : displayUnit(to)];
}

/** Reads a plan: its faults with their places, or what was assumed and what its day shows. */
export function checkCommand(file: string, options: CheckOptions): number {
  const text = readText(file);
  const reading = readPlan(text);
  if (!reading.ok) {
    if (options.json) process.stdout.write(`${toJson({ ok: false, faults: reading.faults })}\n`);
    throw new InputError(faultLines(fileWord(file), reading.faults));
  }
  if (options.fixFormat) {
    const formatted = formatPlan(text);
    if (file === "-") {
      // a filter: the mended text alone
      process.stdout.write(formatted);
      return exit.fine;
    }
    if (formatted !== text) rewrite(file, formatted);
  }
  const { report } = working("Working out the day ...", () =>
    dayReport(reading.raw, { units: options.units, light: followed(fileWord(file), [reading.plan]) }),
  );
  const assumed = assumptionsOf(reading.plan);
  const code = findingsCode(report.findings, options.failOn);
  if (options.json) {
    const { name } = reading.plan;
    process.stdout.write(`${toJson({ ok: true, name, notes: reading.notes, assumed, findings: report.findings })}\n`);
    return code;
  }
  const paper = paperOf();
  const out = (line: string): void => {
    process.stdout.write(`${line}\n`);
  };
  out(`${fileWord(file)} reads as a plan: ${reading.plan.name}.`);
  if (reading.notes.length > 0) out(faultLines(fileWord(file), reading.notes));
  if (options.assumed) {
    const rows = assumed.map((a) => [a.path, ...valueCells(a, options.units), a.reason]);
    out(`\n${assumed.length} values are assumed:`);
    out(table(rows, { right: [false, true], width: paper.width }));
  } else if (assumed.length > 0) out(`${assumed.length} values are assumed; --assumed lists them with their reasons.`);
  out(`\n${wrap(report.headline.map((p) => p.words).join(""), paper.width)}\n`);
  out(findingLines(report.findings, paper));
  return code;
}
