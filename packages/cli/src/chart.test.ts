import { readFileSync } from "node:fs";
import { type DayReport, dayReport } from "@lentic/core/design";
import { readPlan } from "@lentic/core/plan";
import { describe, expect, test } from "vitest";
import { dayChart } from "./chart.ts";
import { plainText } from "./paper.ts";
import { extremeTable, figureTable } from "./report.ts";

function reportOf(name: string): DayReport {
  const reading = readPlan(readFileSync(new URL(`../../../examples/${name}.yaml`, import.meta.url), "utf8"));
  if (!reading.ok) throw new Error(`${name} does not read`);
  return dayReport(reading.raw).report;
}

const reports = new Map(
  ["quarry-bank", "small-no-gas", "long-high-light", "us-units", "minimal"].map((name) => [name, reportOf(name)]),
);
const demo = reports.get("quarry-bank")!;
const paper = (width: number) => ({ colour: false, width });

describe.each([...reports])("the chart of %s", (_, report) => {
  test.each([48, 80, 120, 160])("keeps to %i columns", (width) => {
    for (const units of ["metric", "us"] as const) {
      for (const ascii of [false, true]) {
        const chart = dayChart(report, { ...paper(width), ascii }, units);
        const lines = chart.split("\n");
        for (const line of lines) expect([...line].length, line).toBeLessThanOrEqual(width);
        if (ascii) expect(plainText(chart)).toMatch(/^[\n -~]*$/);
        // every limit is told, on its line or beside the title
        const words = chart.replace(/\s+/g, " ");
        for (const limit of report.limits) expect(words).toContain(limit.words);
      }
    }
  });
});

test("figures of the axis, and the curve beside them", () => {
  const lines = dayChart(demo, paper(80), "metric").split("\n");
  const rows = lines.slice(
    1,
    lines.findIndex((l) => l.trim().startsWith("O2")),
  );
  const labels = rows.map((l) => l.slice(0, 6).trim());
  expect(labels.filter(Boolean).map(Number)).toEqual([25, 20, 15, 10, 5, 0]);
  // two rows a step: each hour's value read off the rows is right to half a row
  const perRow = 2.5;
  const { series } = demo.curves;
  const width = 70;
  for (const hour of [0, 4, 9, 12, 15, 16.5, 20, 23.5]) {
    const x = Math.round((hour / 24) * (width - 1));
    const hit = rows.flatMap((l, y) => {
      const code = [...l][7 + x]?.codePointAt(0) ?? 0;
      return code >= 0x2801 && code <= 0x28ff ? [25 - y * perRow] : [];
    });
    const value = series.co2[Math.round(hour * 12)]!;
    expect(Math.min(...hit.map((v) => Math.abs(v - value))), `at ${hour}`).toBeLessThanOrEqual(perRow / 2 + 0.6);
  }
});

test("limits, what is wanted, own readings, lamp and valve", () => {
  const chart = dayChart(demo, paper(80), "metric");
  const limit = chart.split("\n").find((l) => l.includes("over 25: Neocaridina turn sluggish"))!;
  expect(limit.startsWith("   25 ┤")).toBe(true);
  expect(chart.split("\n").find((l) => l.includes("wanted 16"))).toMatch(/wanted 16 .*──/);
  expect(chart).toContain("◆ own reading");
  // the reading of 18 mg/L at half past twelve stands between 15 and 20, its error above and below
  const lines = chart.split("\n");
  const at = 7 + Math.round((12.5 / 24) * 69);
  const marked = lines.findIndex((l) => [...l][at] === "◆");
  expect(lines.slice(0, marked).some((l) => l.startsWith("   20 "))).toBe(true);
  expect(lines.slice(marked).some((l) => l.startsWith("   15 "))).toBe(true);
  expect([...lines[marked - 1]!][at]).toBe("│");
  // 65 % of full, ramped up and down
  expect(lines.find((l) => l.startsWith("  lamp"))).toMatch(/^ {2}lamp +10:00-18:00, 65 % [░▒]*▓{15,}[░▒]*$/);
  const valve = lines.find((l) => l.startsWith(" valve"))!;
  expect(valve.indexOf("█") - 7).toBe(Math.round((8 / 24) * 69));
  expect(valve.lastIndexOf("█") - 7).toBe(Math.round((17 / 24) * 69));
});

test("on narrow paper words give way, bars stay", () => {
  const lines = dayChart(demo, paper(50), "metric").split("\n");
  const lamp = lines.find((l) => l.startsWith("  lamp"))!;
  expect(lamp).toMatch(/^ {2}lamp {2,}10:00-18:00 [░▒▓]{10,}$|^ {2}lamp +[░▒▓]{10,} 10:00-18:00$/);
  expect(lines.find((l) => l.startsWith(" valve"))).toMatch(/█{12,}/);
  const figures = figureTable(demo.figures, paper(50));
  for (const line of figures.split("\n")) expect([...line].length, line).toBeLessThanOrEqual(50);
  expect(figures.replace(/\s+/g, " ")).toMatch(/CO2 at lights-on 13\.4 mg\/L, low, 12 to 16, computed/);
  expect(figureTable(demo.figures, paper(80))).toMatch(/low, 12 to 16 +computed$/m);
});

test("an air stone that runs through midnight has two bars", () => {
  const air = dayChart(reports.get("long-high-light")!, paper(80), "metric")
    .split("\n")
    .find((l) => l.startsWith("   air"))!;
  expect(air).toMatch(/^ {3}air ∘+ 23:00-07:00 +∘+$/);
});

test("lowest and highest with their times", () => {
  const table = extremeTable(demo, "metric");
  const high = demo.curves.extremes.find((e) => e.series === "co2" && e.kind === "high")!;
  expect(table).toContain(`${high.value.toFixed(1)} at 17:00`);
  expect(table.split("\n")).toHaveLength(5);
  expect(extremeTable(demo, "us")).toMatch(/water .* 75\.\d at .*°F/);
});
