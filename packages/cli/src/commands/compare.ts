import { compareDays, PlanError, plain, type QuickDay, type UnitSystem } from "@lentic/core/design";
import { pathText, type RawPlan, readPlan } from "@lentic/core/plan";
import { type Difference, differences, valueText } from "../differences.ts";
import { exit, faultLines, InputError } from "../fault.ts";
import { followed } from "../followed.ts";
import { fileWord, readText } from "../input.ts";
import { columns, paperOf, table, toJson, working, wrap } from "../paper.ts";

export interface CompareOptions {
  readonly units: UnitSystem;
  readonly json?: boolean;
}

/** What a day comes to: concentrations mg/L, water °C, growth 0 to 1 (above 30 mg/L of CO2 a little more), gas g/d. */
interface Summary {
  readonly co2AtLightsOn: number;
  readonly co2Highest: number;
  readonly oxygenLowest: number;
  readonly phLowest: number;
  readonly phHighest: number;
  readonly waterLowest: number;
  readonly waterHighest: number;
  readonly growthShare: number | null;
  readonly gasGramsPerDay: number;
}

function summaryOf(day: QuickDay): Summary {
  const of = (series: string, kind: string): number =>
    day.curves.extremes.find((e) => e.series === series && e.kind === kind)!.value;
  const { lamp, uptakeShare, temperature } = day.curves.series;
  let growth = 0;
  let light = 0;
  lamp.forEach((v, i) => {
    growth += v * uptakeShare[i]!;
    light += v;
  });
  const { co2 } = day.plan;
  return {
    co2AtLightsOn: day.figures.find((f) => f.id === "co2-at-lights-on")!.value,
    co2Highest: of("co2", "high"),
    oxygenLowest: of("oxygen", "low"),
    phLowest: of("ph", "low"),
    phHighest: of("ph", "high"),
    waterLowest: temperature.reduce((a, b) => Math.min(a, b)),
    waterHighest: of("temperature", "high"),
    growthShare: light > 0 ? growth / light : null,
    gasGramsPerDay: co2 ? co2.bubbles.value * co2.bubble.value * 3.6 * (co2.closes.value - co2.opens.value) : 0,
  };
}

function compared(file: string, text: string, names: readonly string[], units: UnitSystem) {
  try {
    return working("Working out the days ...", () =>
      compareDays(text, { units }, names.length > 0 ? [...new Set(names)] : undefined, (plans) =>
        followed(fileWord(file), plans),
      ),
    );
  } catch (error) {
    if (error instanceof RangeError) throw new InputError(error.message);
    if (error instanceof PlanError) throw new InputError(faultLines(fileWord(file), error.faults));
    throw error;
  }
}

const widestName = 14;

/** A name over as many lines as it needs. */
const heading = (name: string): readonly string[] => wrap(name, widestName).split("\n");

/** Names above their columns, the last lines level. */
function headings(names: readonly string[]): string[][] {
  const all = names.map(heading);
  const height = Math.max(...all.map((lines) => lines.length));
  return Array.from({ length: height }, (_, y) => ["", ...all.map((lines) => lines[y - height + lines.length] ?? "")]);
}

/** Columns that fit the width, the plan itself first in each group. */
function groups(names: readonly string[], label: number, width: number): number[][] {
  const room = (name: string): number => Math.max(...heading(name).map(columns), 12) + 2;
  const first = label + room(names[0]!);
  const all: number[][] = [];
  let used = Number.POSITIVE_INFINITY;
  for (let i = 1; i < names.length; i += 1) {
    if (used + room(names[i]!) > width) {
      all.push([0]);
      used = first;
    }
    all.at(-1)!.push(i);
    used += room(names[i]!);
  }
  return all.length > 0 ? all : [[0]];
}

function rowsOf(units: UnitSystem): readonly (readonly [string, (s: Summary) => string])[] {
  const us = units === "us";
  const water = (v: number): string => plain(us ? v * 1.8 + 32 : v, 1);
  const range = (low: string, high: string): string => (low === high ? low : `${low} to ${high}`);
  return [
    ["CO2 at lights-on, mg/L", (s) => plain(s.co2AtLightsOn, 1)],
    ["CO2 highest, mg/L", (s) => plain(s.co2Highest, 1)],
    ["O2 lowest, mg/L", (s) => plain(s.oxygenLowest, 1)],
    ["pH", (s) => range(plain(s.phLowest, 2), plain(s.phHighest, 2))],
    [`water, ${us ? "°F" : "°C"}`, (s) => range(water(s.waterLowest), water(s.waterHighest))],
    ["growth, % of that at 30 mg/L", (s) => (s.growthShare === null ? "no lamp" : plain(100 * s.growthShare, 0))],
    ["gas, g a day", (s) => plain(s.gasGramsPerDay, 1)],
  ];
}

const changeText = ({ path, before, after }: Difference): string =>
  `${pathText(path)} ${before === undefined ? `${valueText(after)}, new` : after === undefined ? "left out" : `${valueText(after)} (was ${valueText(before)})`}`;

/** A plan beside its alternatives: what each day comes to, and what was changed for it. */
export function compareCommand(file: string, names: readonly string[], options: CompareOptions): number {
  const text = readText(file);
  const base = readPlan(text);
  if (!base.ok) throw new InputError(faultLines(fileWord(file), base.faults));
  const comparison = compared(file, text, names, options.units);
  const summaries = comparison.days.map(summaryOf);
  const changes = comparison.names.map((name, i) => (i === 0 ? [] : differences(base.raw, alternativeOf(text, name))));
  if (options.json) {
    const rows = comparison.names.map((name, i) => ({
      name,
      ...summaries[i],
      changes: changes[i]!.map((c) => ({ ...c, path: pathText(c.path) })),
    }));
    process.stdout.write(`${toJson(rows)}\n`);
    return exit.fine;
  }
  const { width } = paperOf();
  const lines = rowsOf(options.units);
  const label = Math.max(...lines.map(([name]) => columns(name)));
  for (const group of groups(comparison.names, label, width)) {
    const body = [
      ...headings(group.map((i) => comparison.names[i]!)),
      ...lines.map(([name, show]) => [name, ...group.map((i) => show(summaries[i]!))]),
    ];
    process.stdout.write(`${table(body, { right: [false, ...group.map(() => true)] })}\n\n`);
  }
  comparison.names.forEach((name, i) => {
    if (i > 0) process.stdout.write(`${wrap(`${name}: ${changes[i]!.map(changeText).join("; ")}`, width, "  ")}\n`);
  });
  if (comparison.names.length === 1) {
    process.stdout.write("The plan names no alternatives; add some under `alternatives:` to compare.\n");
  }
  return exit.fine;
}

function alternativeOf(text: string, alternative: string): RawPlan {
  const reading = readPlan(text, { alternative });
  // the days have been worked out already, so it reads
  return reading.ok ? reading.raw : {};
}
