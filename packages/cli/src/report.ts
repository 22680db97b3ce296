import {
  clock,
  type DayReport,
  type Extreme,
  type Figure,
  type Finding,
  plain,
  type UnitSystem,
} from "@lentic/core/design";
import { readerValue, titleOf } from "./chart.ts";
import { exit } from "./fault.ts";
import { columns, type Paper, styled, table, wrap } from "./paper.ts";

/** Severity from which on the exit code is 1. */
export type FailOn = Finding["severity"] | "never";

const rank = { note: 1, caution: 2, stop: 3, never: 4 } as const;

/** 1 when a finding is at least as grave as asked. */
export function findingsCode(findings: readonly Finding[], failOn: FailOn): number {
  return findings.some((f) => rank[f.severity] >= rank[failOn]) ? exit.findings : exit.fine;
}

const marks = { stop: "STOP", caution: "caution", note: "note" } as const;
const inks = { stop: ["bold", "red"], caution: "yellow", note: "dim" } as const;

/** Findings with their reasons, remedies and cautions, gravest first as the report has them. */
export function findingLines(findings: readonly Finding[], paper: Paper): string {
  const column = 8;
  const width = paper.width - column;
  return findings
    .map((f) => {
      const head = styled(paper, inks[f.severity] as Parameters<typeof styled>[1], marks[f.severity].padEnd(column));
      const body = [
        wrap(`${f.title}. ${f.reason}`, width),
        ...f.next.map((r) => wrap(`- ${r.text}: ${r.effect}.`, width, "  ")),
        ...(f.caution ? [wrap(`! ${f.caution}`, width, "  ")] : []),
      ];
      return body
        .join("\n")
        .split("\n")
        .map((line, i) => (i === 0 ? head : " ".repeat(column)) + line)
        .join("\n");
    })
    .join("\n");
}

/** Figures with their ranges, verdicts and how they are known; on narrow paper what follows the number shares a column. */
export function figureTable(figures: readonly Figure[], paper: Paper): string {
  const right = [false, true];
  const rows = figures.map((f) => [f.label, f.shown.text, f.shown.unit, f.note ?? "", f.known]);
  const wide = table(rows, { right });
  if (wide.split("\n").every((line) => columns(line) <= paper.width)) return wide;
  const narrow = rows.map(([label, value, ...rest]) => [label!, value!, [...new Set(rest)].filter(Boolean).join(", ")]);
  return table(narrow, { right, width: paper.width });
}

const extremeNames = { co2: "CO2", oxygen: "O2", ph: "pH", temperature: "water" } as const;

/** Lowest and highest of each curve with their times, as a tide table has them. */
export function extremeTable(report: DayReport, units: UnitSystem): string {
  const { curves } = report;
  const point = (series: Extreme["series"], kind: Extreme["kind"]): Extreme => {
    const told = curves.extremes.find((e) => e.series === series && e.kind === kind);
    if (told) return told;
    const values = curves.series[series];
    let best = 0;
    values.forEach((v, i) => {
      if (kind === "high" ? v > values[best]! : v < values[best]!) best = i;
    });
    return { series, kind, at: curves.hours[best]!, value: values[best]! };
  };
  const cell = (e: Extreme): string => {
    const value = plain(readerValue(e.series, e.value, units), e.series === "ph" ? 2 : 1);
    return `${value.padStart(5)} at ${clock(e.at)}`;
  };
  const rows = (["co2", "oxygen", "ph", "temperature"] as const).map((id) => {
    const unit = titleOf(id, units).split(" ")[1] ?? "";
    return [extremeNames[id], cell(point(id, "low")), cell(point(id, "high")), unit];
  });
  return table([["", "lowest", "highest", ""], ...rows], { gap: 3 });
}

/** How a figure came about: its ledger, its inputs, its sources. */
export function workingLines(figure: Figure, paper: Paper): string {
  const { working } = figure;
  const { width } = paper;
  const lines = [
    styled(paper, "bold", `${working.title}: ${figure.shown.text} ${figure.shown.unit}`.trimEnd()),
    working.span,
    "",
  ];
  if (working.terms.length > 0) {
    const terms = working.terms.map((t) => [t.sign, t.value.text, t.value.unit, t.label]);
    lines.push(table(terms, { right: [false, true], width }), "");
  }
  if (working.inputs.length > 0) {
    const inputs = working.inputs.map((i) => [i.label, i.value.text, i.value.unit, i.known, i.note ?? i.reason ?? ""]);
    lines.push(table(inputs, { right: [false, true], width }), "");
  }
  if (working.doubt) lines.push(wrap(working.doubt, width));
  lines.push(wrap(working.equation, width));
  for (const s of working.sources) lines.push(wrap(`source: ${s}`, width, "  "));
  if (working.relation) lines.push(`the same by hand: lentic calc ${working.relation} --help`);
  if (working.caution) lines.push(wrap(`! ${working.caution}`, width, "  "));
  return lines.join("\n");
}
