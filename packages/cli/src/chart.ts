import { clock, type DayReport, type Limit, plain, type UnitSystem } from "@lentic/core/design";
import { Canvas } from "./canvas.ts";
import { columns, type Paper, styled, wrap } from "./paper.ts";
import { type Scale, scaleFor } from "./scale.ts";

type Id = Limit["series"];

interface Panel {
  readonly id: Id;
  /** Smallest span worth drawing. */
  readonly span: number;
  /** Most round steps of the axis. */
  readonly steps: number;
  /** Rows from one step to the next, by the number of steps: every figure of the axis has a row of its own. */
  readonly rows: (steps: number) => number;
}

const small = (steps: number): number => (steps > 2 ? 1 : 3 - steps);

const panels: readonly Panel[] = [
  { id: "co2", span: 4, steps: 5, rows: (steps) => (steps > 3 ? 2 : 3) },
  { id: "oxygen", span: 1, steps: 6, rows: small },
  { id: "ph", span: 0.4, steps: 5, rows: small },
  { id: "temperature", span: 1, steps: 3, rows: small },
];

/** Room for the figures of the axis: four digits, a space, the axis itself. */
const margin = 7;

interface Signs {
  readonly limit: string;
  readonly wanted: string;
  readonly time: string;
  readonly axis: string;
  readonly tick: string;
  readonly corner: string;
  readonly floor: string;
  readonly hour: string;
  readonly reading: string;
  readonly error: string;
  /** Quarters of a lamp's strength. */
  readonly shades: readonly string[];
  readonly full: string;
  readonly air: string;
}

const drawn: Signs = {
  limit: "╌",
  wanted: "─",
  time: "┊",
  axis: "│",
  tick: "┤",
  corner: "└",
  floor: "─",
  hour: "┴",
  reading: "◆",
  error: "│",
  shades: ["░", "▒", "▓", "█"],
  full: "█",
  air: "∘",
};
const typed: Signs = {
  limit: "=",
  wanted: "~",
  time: ":",
  axis: "|",
  tick: "+",
  corner: "+",
  floor: "-",
  hour: "+",
  reading: "X",
  error: "!",
  shades: ["-", "=", "*", "#"],
  full: "#",
  air: "o",
};

/** Titles with their unit; water in the reader's own. */
export function titleOf(id: Id, units: UnitSystem): string {
  const titles = { co2: "CO2 mg/L", oxygen: "O2 mg/L", ph: "pH", temperature: `water °${units === "us" ? "F" : "C"}` };
  return titles[id];
}

/** A value in the reader's unit. */
export const readerValue = (id: Id, value: number, units: UnitSystem): number =>
  id === "temperature" && units === "us" ? value * 1.8 + 32 : value;

/** Value of a curve at a share of the day, straight between its points. */
function sample(values: Float64Array, share: number): number {
  const last = values.length - 1;
  const x = share * last;
  const i = Math.min(last - 1, Math.floor(x));
  return values[i]! * (1 - (x - i)) + values[i + 1]! * (x - i);
}

const upTo = (from: number, to: number): number[] => Array.from({ length: Math.max(0, to - from) }, (_, i) => from + i);
const downTo = (from: number, to: number): number[] => upTo(to, from + 1).reverse();

interface Sheet {
  readonly report: DayReport;
  readonly units: UnitSystem;
  readonly signs: Signs;
  readonly ascii: boolean;
  readonly width: number;
}

/** Column of an hour. */
const column = (sheet: Sheet, hour: number): number => Math.round((hour / 24) * (sheet.width - 1));

/** The axis of a panel: its curve and readings, what is wanted, and limits that are near enough to matter. */
function scaleOf(panel: Panel, sheet: Sheet): Scale {
  const { curves, limits, plan } = sheet.report;
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  const take = (v: number): void => {
    low = Math.min(low, v);
    high = Math.max(high, v);
  };
  for (const v of curves.series[panel.id]) take(v);
  for (const r of plan.readings) if (r.what === panel.id) take(r.value);
  if (panel.id === "co2" && curves.wanted) take(curves.wanted.value);
  const size = Math.max(panel.span, high - low);
  for (const l of limits) {
    if (l.series === panel.id && l.value - high < size && low - l.value < size) take(l.value);
  }
  const reader = (v: number): number => readerValue(panel.id, v, sheet.units);
  const span = panel.id === "temperature" && sheet.units === "us" ? panel.span * 1.8 : panel.span;
  return scaleFor(reader(low), reader(high), span, panel.steps);
}

function drawPanel(panel: Panel, sheet: Sheet, paper: Paper): string[] {
  const { report, signs, units, ascii, width } = sheet;
  const { id } = panel;
  const scale = scaleOf(panel, sheet);
  const step = panel.rows(scale.ticks.length - 1);
  const height = step * (scale.ticks.length - 1) + 1;
  const canvas = new Canvas(width, height);
  /** 0 the top to 1 the bottom. */
  const fall = (v: number): number => (scale.high - readerValue(id, v, units)) / (scale.high - scale.low);
  const row = (v: number): number => Math.round(fall(v) * (height - 1));
  const shown = (v: number): boolean => fall(v) >= -1e-9 && fall(v) <= 1 + 1e-9;

  const readings = report.plan.readings.filter((r) => r.what === id);
  for (const r of readings) {
    const x = column(sheet, r.at);
    canvas.over(x, row(r.value), signs.reading, "reading");
    if (r.error === null) continue;
    for (let y = Math.max(0, row(r.value + r.error)); y <= Math.min(height - 1, row(r.value - r.error)); y += 1) {
      canvas.under(x, y, signs.error, "reading");
    }
  }
  canvas.curve((share) => fall(sample(report.curves.series[id], share)), ascii);

  const ticks = new Map(scale.ticks.map((v, i) => [height - 1 - i * step, v]));
  const aside: string[] = [];
  const off: string[] = [];
  for (const l of report.limits) {
    if (l.series !== id) continue;
    if (!shown(l.value)) {
      off.push(l.words);
      continue;
    }
    const y = row(l.value);
    canvas.across(y, 0, width - 1, signs.limit, "limit");
    if (!canvas.write(y, l.words, "limit", upTo(0, width))) aside.push(l.words);
    // a figure of the axis beside the line would be taken for the limit
    if (Math.abs((ticks.get(y) ?? 0) - readerValue(id, l.value, units)) > 1e-6) ticks.delete(y);
  }
  const { wanted } = report.curves;
  if (id === "co2" && wanted) {
    const y = row(wanted.value);
    const [from, to] = [column(sheet, wanted.from), column(sheet, wanted.to)];
    canvas.across(y, from, to, signs.wanted, "wanted");
    const words = `wanted ${plain(wanted.value, wanted.value % 1 === 0 ? 0 : 1)}`;
    // before the lamp comes on, else after it, else on the line
    const starts = [...downTo(from - words.length - 2, 0), ...upTo(to + 1, width), ...downTo(to, from)];
    if (!canvas.write(y, words, "wanted", starts)) aside.push(words);
  }
  if (off.length > 0) aside.push(`off this scale: ${off.join(", ")}`);
  const { light } = report.plan;
  if (light) {
    canvas.down(column(sheet, light.on.value), signs.time, "time");
    canvas.down(column(sheet, light.off.value), signs.time, "time");
  }

  const body = canvas.lines(paper).map((line, y) => {
    const tick = ticks.get(y);
    const figure = tick === undefined ? "" : tick.toFixed(scale.decimals);
    return (
      figure.padStart(margin - 2) + styled(paper, "dim", ` ${tick === undefined ? signs.axis : signs.tick}`) + line
    );
  });
  const title = titleOf(id, units);
  const key = readings.length > 0 ? [`${signs.reading} own reading`] : [];
  const words = [...key, ...aside].join(ascii ? "; " : " · ");
  const head = " ".repeat(margin - 1) + styled(paper, "bold", title);
  if (words === "") return [head, ...body];
  const before = margin + columns(title) + 1;
  const rest = wrap(words, paper.width - before).replaceAll("\n", `\n${" ".repeat(before)}`);
  return [`${head}  ${styled(paper, "dim", rest)}`, ...body];
}

/** The hours under the panels. */
function hourAxis(sheet: Sheet, paper: Paper): string[] {
  const { signs, width } = sheet;
  const step = width >= 96 ? 2 : 3;
  const line = new Array<string>(width).fill(signs.floor);
  const figures = new Array<string>(width + 3).fill(" ");
  for (let h = 0; h <= 24; h += step) {
    const at = column(sheet, h);
    line[at] = signs.hour;
    const text = String(h);
    // the figure stands under its mark
    const start = Math.max(0, at - (text.length - 1));
    [...text].forEach((c, i) => {
      figures[start + i] = c;
    });
  }
  return [
    styled(paper, "dim", " ".repeat(margin - 1) + signs.corner + line.join("")),
    `${" ".repeat(margin)}${figures.join("").trimEnd()} h`,
  ];
}

/**
 * A bar of the day with its times: after the bar, before it, or on it where it is long.
 * @param words what to write, in full and shortened for where there is less room
 */
function bar(name: string, sheet: Sheet, paper: Paper, sign: (x: number) => string, words: readonly string[]): string {
  const { width } = sheet;
  const canvas = new Canvas(width, 1);
  const marked: number[] = [];
  for (let x = 0; x < width; x += 1) {
    const text = sign(x);
    if (text === " ") continue;
    canvas.under(x, 0, text, "bar");
    marked.push(x);
  }
  const [first = 0, last = 0] = [marked[0], marked.at(-1)];
  const written = words.some((w) => {
    const starts = [...upTo(last + 1, width), ...downTo(first - columns(w) - 2, 0), ...upTo(0, width)];
    return canvas.write(0, w, "label", starts);
  });
  const shortest = words.at(-1)!;
  if (!written && marked.length > 2 * columns(shortest)) {
    const start = Math.floor((width - columns(shortest)) / 2) - 1;
    [...` ${shortest} `].forEach((c, i) => {
      canvas.over(start + i, 0, c, "label");
    });
  }
  return `${name.padStart(margin - 1)} ${canvas.lines(paper)[0]}`;
}

/** Whether a column lies in a stretch of the day, which may run through midnight. */
function within(sheet: Sheet, x: number, from: number, to: number): boolean {
  const [a, b] = [column(sheet, from), column(sheet, to)];
  return from <= to ? x >= a && x <= b : x >= a || x <= b;
}

function bars(sheet: Sheet, paper: Paper): string[] {
  const { plan, curves } = sheet.report;
  const { light, co2, air } = plan;
  const { signs, width } = sheet;
  const lines: string[] = [];
  if (light) {
    const shade = (x: number): string => {
      const v = sample(curves.series.lamp, x / (width - 1));
      return v <= 0 ? " " : signs.shades[Math.max(0, Math.min(3, Math.ceil(v * 4) - 1))]!;
    };
    const times = `${clock(light.on.value)}-${clock(light.off.value)}`;
    const strength = `${Math.round(light.strength.value * 100)} %`;
    lines.push(bar("lamp", sheet, paper, shade, [`${times}, ${strength}`, times]));
  }
  if (co2) {
    const [opens, closes] = [co2.opens.value, co2.closes.value];
    const open = (x: number): string => (within(sheet, x, opens, closes) ? signs.full : " ");
    lines.push(bar("valve", sheet, paper, open, [`${clock(opens)}-${clock(closes)}`]));
  }
  if (air) {
    const [on, off] = [air.on.value, air.off.value];
    const blowing = (x: number): string => (within(sheet, x, on, off) ? signs.air : " ");
    lines.push(bar("air", sheet, paper, blowing, [`${clock(on)}-${clock(off)}`]));
  }
  return lines;
}

/**
 * A day in characters: CO2, oxygen, pH and water temperature one above the other over the same 24 hours, with the
 * animals' limits, what is wanted and the keeper's own readings; lamp, valve and air stone as bars below.
 */
export function dayChart(report: DayReport, paper: Paper, units: UnitSystem): string {
  const ascii = paper.ascii === true;
  const sheet: Sheet = {
    report,
    units,
    ascii,
    signs: ascii ? typed : drawn,
    width: Math.max(24, paper.width - margin - 3),
  };
  return [
    ...panels.flatMap((panel) => drawPanel(panel, sheet, paper)),
    ...hourAxis(sheet, paper),
    ...bars(sheet, paper),
  ].join("\n");
}
