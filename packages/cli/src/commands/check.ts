import { renameSync, writeFileSync } from "node:fs";
import { dayReport, type UnitSystem } from "@lentic/core/design";
import { type Entry, fields, formatPlan, readPlan } from "@lentic/core/plan";
import { faultLines, InputError } from "../fault.ts";
import { readText } from "../input.ts";
import { paperOf, table, wrap } from "../paper.ts";
import { type DayOptions, findingLines, findingsCode, toJson } from "./day.ts";

export interface CheckOptions {
  readonly units: UnitSystem;
  readonly json?: boolean;
  readonly assumed?: boolean;
  readonly fixFormat?: boolean;
  readonly failOn: DayOptions["failOn"];
}

interface Assumption {
  readonly path: string;
  readonly value: number | string;
  readonly unit: string;
  readonly reason: string;
}

/** Every value that nobody typed, with the reason for its default. */
export function assumptionsOf(plan: object): readonly Assumption[] {
  const found: Assumption[] = [];
  const unitOf = new Map(
    fields.map((f) => [f.path.replaceAll("[]", "").replaceAll("_", "").toLowerCase(), "unit" in f ? f.unit : ""]),
  );
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
      const unit =
        unitOf.get(
          path
            .replace(/\[\d+\]/g, "")
            .replaceAll("_", "")
            .toLowerCase(),
        ) ?? "";
      const shown = typeof entry.value === "number" ? Number(entry.value.toPrecision(4)) : entry.value;
      found.push({ path, value: shown, unit: unit === "1" ? "" : unit, reason: entry.reason });
      return;
    }
    for (const [key, v] of Object.entries(value)) walk(v, path ? `${path}.${snake(key)}` : snake(key));
  };
  walk(plan, "");
  return found;
}

/** Writes beside and moves over, so that a crash leaves the old file whole. */
function rewrite(file: string, text: string): void {
  const beside = `${file}.new-${process.pid}`;
  writeFileSync(beside, text);
  renameSync(beside, file);
}

export function checkCommand(file: string, options: CheckOptions): number {
  const text = readText(file);
  const reading = readPlan(text);
  if (!reading.ok) {
    if (options.json) process.stdout.write(`${toJson({ ok: false, faults: reading.faults })}\n`);
    throw new InputError(faultLines(file, reading.faults));
  }
  if (options.fixFormat) {
    const formatted = formatPlan(text);
    if (file === "-") process.stdout.write(formatted);
    else if (formatted !== text) rewrite(file, formatted);
  }
  const { report } = dayReport(reading.raw, { units: options.units });
  const assumed = assumptionsOf(reading.plan);
  const code = findingsCode(report.findings, options.failOn);
  if (options.json) {
    process.stdout.write(`${toJson({ ok: true, notes: reading.notes, assumed, findings: report.findings })}\n`);
    return code;
  }
  const paper = paperOf();
  const out = (line: string): void => {
    process.stdout.write(`${line}\n`);
  };
  out(`${file} reads as a plan: ${reading.plan.name}.`);
  if (reading.notes.length > 0) out(faultLines(file, reading.notes));
  if (options.assumed) {
    out(`\n${assumed.length} values are assumed:`);
    out(
      table(
        assumed.map((a) => [a.path, String(a.value), a.unit, a.reason]),
        [false, true],
      ),
    );
  } else if (assumed.length > 0) out(`${assumed.length} values are assumed; --assumed lists them with their reasons.`);
  out(`\n${wrap(report.headline.map((p) => p.words).join(""), paper.width)}\n`);
  out(findingLines(report.findings, paper));
  return code;
}
