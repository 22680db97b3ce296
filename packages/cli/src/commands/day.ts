import {
  clock,
  compareDays,
  type DayReport,
  dayReport,
  type Figure,
  type Finding,
  PlanError,
  plain,
  type Severity,
  type UnitSystem,
} from "@lentic/core/design";
import { readPlan } from "@lentic/core/plan";
import type { seriesSpecs } from "@lentic/core/tank";
import { dayChart } from "../chart.ts";
import { exit, faultLines, InputError } from "../fault.ts";
import { readRaw, readText } from "../input.ts";
import { type Paper, paperOf, styled, table, wrap } from "../paper.ts";

export interface DayOptions {
  readonly alternative?: string;
  readonly units: UnitSystem;
  readonly json?: boolean;
  readonly csv?: boolean;
  readonly ascii?: boolean;
  readonly working?: string;
  readonly failOn: Severity | "never";
}

const rank = { note: 1, caution: 2, stop: 3, never: 4 } as const;

/** 1 when a finding is at least as grave as asked. */
export function findingsCode(findings: readonly Finding[], failOn: DayOptions["failOn"]): number {
  return findings.some((f) => rank[f.severity] >= rank[failOn]) ? exit.findings : exit.fine;
}

/** Typed arrays become lists, so that any program reads them. */
export const toJson = (value: unknown): string =>
  JSON.stringify(value, (_, v: unknown) => (v instanceof Float64Array ? Array.from(v) : v), 2);

const marks = { stop: "STOP", caution: "caution", note: "note" } as const;

export function findingLines(findings: readonly Finding[], paper: Paper): string {
  return findings
    .map((f) => {
      const word = marks[f.severity].padEnd(8);
      const head = styled(paper, f.severity === "note" ? "dim" : "red", word);
      const body = [
        wrap(`${f.title}. ${f.reason}`, paper.width - 8, ""),
        ...f.next.map((r) => wrap(`- ${r.text}: ${r.effect}.`, paper.width - 8, "  ")),
        ...(f.caution ? [wrap(`! ${f.caution}`, paper.width - 8, "  ")] : []),
      ];
      return body
        .join("\n")
        .split("\n")
        .map((line, i) => (i === 0 ? head : " ".repeat(8)) + line)
        .join("\n");
    })
    .join("\n");
}

function figureTable(figures: readonly Figure[]): string {
  return table(
    figures.map((f) => [f.label, f.shown.text, f.shown.unit, f.note ?? "", f.known]),
    [false, true],
  );
}

/** A figure's working as a ledger in words. */
export function workingLines(figure: Figure, width: number): string {
  const { working } = figure;
  const lines = [`${working.title}: ${figure.shown.text} ${figure.shown.unit}`.trimEnd(), working.span, ""];
  if (working.terms.length > 0) {
    lines.push(
      table(
        working.terms.map((t) => [t.sign, t.value.text, t.value.unit, t.label]),
        [false, true],
      ),
      "",
    );
  }
  if (working.inputs.length > 0) {
    lines.push(
      table(
        working.inputs.map((i) => [i.label, i.value.text, i.value.unit, i.known, i.note ?? i.reason ?? ""]),
        [false, true],
      ),
      "",
    );
  }
  if (working.doubt) lines.push(wrap(working.doubt, width));
  lines.push(wrap(working.equation, width));
  for (const s of working.sources) lines.push(wrap(`source: ${s}`, width, "  "));
  if (working.relation) lines.push(`the same by hand: lentic calc ${working.relation} --help`);
  if (working.caution) lines.push(wrap(`! ${working.caution}`, width, "  "));
  return lines.join("\n");
}

const csvColumns = [
  ["co2", "co2_mg_l"],
  ["oxygen", "o2_mg_l"],
  ["ph", "ph"],
  ["temperature", "water_c"],
  ["room", "room_c"],
  ["lamp", "lamp"],
  ["valve", "valve"],
  ["light", "ppfd_umol_m2_s"],
  ["heaterDuty", "heater_duty"],
] as const satisfies readonly (readonly [keyof typeof seriesSpecs, string])[];

export function dayCsv(report: DayReport): string {
  const { hours, series } = report.curves;
  const rows = [["hour", ...csvColumns.map(([, name]) => name)].join(",")];
  for (let i = 0; i < hours.length; i += 1) {
    rows.push(
      [plain(hours[i]!, 4), ...csvColumns.map(([id]) => String(Number(series[id][i]!.toPrecision(6))))].join(","),
    );
  }
  return rows.join("\r\n");
}

export function dayCommand(file: string, options: DayOptions): number {
  const { raw } = readRaw(file, options.alternative);
  const now = new Date();
  const { report, doubt } = dayReport(raw, { units: options.units, hour: now.getHours() + now.getMinutes() / 60 });
  const code = findingsCode(report.findings, options.failOn);
  const out = (text: string): void => {
    process.stdout.write(`${text}\n`);
  };
  if (options.json) {
    out(toJson({ ...report, doubt }));
    return code;
  }
  if (options.csv) {
    out(dayCsv(report));
    return code;
  }
  const paper = paperOf();
  if (options.working !== undefined) {
    const figure = report.figures.find((f) => f.id === options.working);
    if (!figure)
      throw new InputError(
        `there is no figure ${options.working}; there are: ${report.figures.map((f) => f.id).join(", ")}`,
      );
    out(workingLines(figure, paper.width));
    return code;
  }
  out(styled(paper, "bold", `${report.plan.name}${report.plan.invented ? " (invented example)" : ""}`));
  out(wrap(report.headline.map((p) => p.words).join(""), paper.width));
  out(`${wrap(report.aside, paper.width)}\n`);
  out(`${dayChart(report, paper, { ascii: options.ascii === true, us: options.units === "us" })}\n`);
  const shown = report.curves.extremes.map(
    (e) =>
      `${e.series === "co2" ? "CO2" : e.series === "oxygen" ? "O2" : e.series === "ph" ? "pH" : "water"} ${e.kind === "high" ? "highest" : "lowest"} ${plain(e.series === "temperature" && options.units === "us" ? e.value * 1.8 + 32 : e.value, e.series === "ph" ? 2 : 1)} at ${clock(e.at)}`,
  );
  out(`${wrap(shown.join("; "), paper.width)}\n`);
  out(`${figureTable(report.figures)}\n`);
  out(findingLines(report.findings, paper));
  out(`\nEvery figure has its working: lentic day ${file} --working co2-at-lights-on`);
  return code;
}

export interface CompareOptions {
  readonly units: UnitSystem;
  readonly json?: boolean;
}

/** A plan beside its alternatives: what each day comes to. */
export function compareCommand(file: string, names: readonly string[], options: CompareOptions): number {
  const text = readText(file);
  const reading = readPlan(text);
  if (!reading.ok) throw new InputError(faultLines(file, reading.faults));
  let comparison: ReturnType<typeof compareDays>;
  try {
    comparison = compareDays(text, { units: options.units }, names.length > 0 ? names : undefined);
  } catch (error) {
    if (error instanceof RangeError) throw new InputError(error.message);
    if (error instanceof PlanError) throw new InputError(faultLines(file, error.faults));
    throw error;
  }
  const rows = comparison.days.map((day) => {
    const of = (series: string, kind: string): number =>
      day.curves.extremes.find((e) => e.series === series && e.kind === kind)!.value;
    const { lamp, uptakeShare } = day.curves.series;
    let growth = 0;
    let light = 0;
    lamp.forEach((v, i) => {
      growth += v * uptakeShare[i]!;
      light += v;
    });
    const { co2 } = day.plan;
    const grams = co2
      ? co2.bubbles.value * co2.bubble.value * 3.6 * ((co2.closes.value - co2.opens.value + 24) % 24 || 24)
      : 0;
    return {
      co2AtLightsOn: day.figures.find((f) => f.id === "co2-at-lights-on")!.value,
      co2Highest: of("co2", "high"),
      oxygenLowest: of("oxygen", "low"),
      phLowest: of("ph", "low"),
      phHighest: of("ph", "high"),
      waterHighest: of("temperature", "high"),
      growthShare: light > 0 ? growth / light : null,
      gasGramsPerDay: grams,
    };
  });
  if (options.json) {
    process.stdout.write(`${toJson(comparison.names.map((name, i) => ({ name, ...rows[i] })))}\n`);
    return exit.fine;
  }
  const us = options.units === "us";
  const line = (label: string, show: (r: (typeof rows)[number]) => string): string[] => [label, ...rows.map(show)];
  const body = [
    ["", ...comparison.names],
    line("CO2 at lights-on, mg/L", (r) => plain(r.co2AtLightsOn, 1)),
    line("CO2 highest, mg/L", (r) => plain(r.co2Highest, 1)),
    line("O2 lowest, mg/L", (r) => plain(r.oxygenLowest, 1)),
    line("pH, lowest to highest", (r) => `${plain(r.phLowest, 2)} to ${plain(r.phHighest, 2)}`),
    line(`water at most, ${us ? "°F" : "°C"}`, (r) => plain(us ? r.waterHighest * 1.8 + 32 : r.waterHighest, 1)),
    line("growth against 30 mg/L CO2, %", (r) => (r.growthShare === null ? "no lamp" : plain(100 * r.growthShare, 0))),
    line("gas, g a day", (r) => plain(r.gasGramsPerDay, 1)),
  ];
  process.stdout.write(`${table(body, [false, ...comparison.names.map(() => true)])}\n`);
  if (comparison.names.length === 1)
    process.stdout.write("\nThe plan names no alternatives; add some under `alternatives:` to compare.\n");
  return exit.fine;
}
