import { clock, type DayReport, type Limit } from "@lentic/core/design";
import { type Paper, styled } from "./paper.ts";

interface Row {
  readonly id: "co2" | "oxygen" | "ph" | "temperature";
  readonly title: string;
  readonly decimals: number;
  readonly height: number;
  /** Smallest span worth drawing. */
  readonly span: number;
}

const rows: readonly Row[] = [
  { id: "co2", title: "CO2 mg/L", decimals: 0, height: 8, span: 4 },
  { id: "oxygen", title: "O2 mg/L", decimals: 1, height: 4, span: 1 },
  { id: "ph", title: "pH", decimals: 1, height: 4, span: 0.4 },
  { id: "temperature", title: "water", decimals: 1, height: 3, span: 1 },
];

const dots = [
  [0x01, 0x08],
  [0x02, 0x10],
  [0x04, 0x20],
  [0x40, 0x80],
] as const;

/**
 * A day as a strip of characters: each curve in braille dots (or stars in plain ASCII), limits as dashed lines, lit hours
 * and the valve's open time as bars under a common axis.
 */
export function dayChart(report: DayReport, paper: Paper, options: { ascii: boolean; us: boolean }): string {
  const margin = 7;
  const width = Math.max(24, Math.min(120, paper.width - margin - 1));
  const { curves, limits } = report;
  const { hours, series } = curves;
  const warm = (id: Row["id"], v: number): number => (id === "temperature" && options.us ? v * 1.8 + 32 : v);
  const lines: string[] = [];
  for (const row of rows) {
    const values = series[row.id];
    const mine = limits.filter((l) => l.series === row.id);
    const reach = near(values, mine, row.span);
    const [low, high] = [warm(row.id, reach[0]), warm(row.id, reach[1])];
    const grid = options.ascii
      ? starred(hours, values, (v) => warm(row.id, v), width, row.height, low, high)
      : brailled(hours, values, (v) => warm(row.id, v), width, row.height, low, high);
    for (const limit of mine) {
      const at = Math.round(((high - warm(row.id, limit.value)) / (high - low)) * (row.height - 1));
      if (at < 0 || at >= row.height) continue;
      const dash = options.ascii ? "-" : "╌";
      grid[at] = grid[at]!.map((c) => (c === " " || c === "\u2800" ? dash : c));
    }
    const unit = row.id === "temperature" ? (options.us ? "water °F" : "water °C") : row.title;
    const words = mine.map((l) => l.words).join(" · ");
    lines.push(`${" ".repeat(margin)}${styled(paper, "bold", unit)}${words ? `  ${styled(paper, "red", words)}` : ""}`);
    grid.forEach((cells, i) => {
      const label = i === 0 ? high : i === row.height - 1 ? low : null;
      const text = label === null ? "" : label.toFixed(row.decimals);
      lines.push(
        `${text.padStart(margin - 1)} ${styled(paper, "cyan", cells.join("").replaceAll("\u2800", " "))}`.trimEnd(),
      );
    });
  }
  lines.push(axis(width, margin));
  const column = (h: number): number => Math.round((h / 24) * (width - 1));
  const bar = (name: string, from: number, to: number, mark: string, end: string): void => {
    const cells = Array.from({ length: width }, (_, i) => (i >= column(from) && i <= column(to) ? mark : " "));
    lines.push(`${name.padStart(margin - 1)} ${cells.join("").trimEnd()}${end}`);
  };
  const { light, co2 } = report.plan;
  if (light) {
    bar(
      "lamp",
      light.on.value,
      light.off.value,
      options.ascii ? "=" : "▒",
      `  ${clock(light.on.value)}-${clock(light.off.value)}, ${Math.round(light.strength.value * 100)} %`,
    );
  }
  if (co2)
    bar(
      "valve",
      co2.opens.value,
      co2.closes.value,
      options.ascii ? "#" : "█",
      `  ${clock(co2.opens.value)}-${clock(co2.closes.value)}`,
    );
  return lines.join("\n");
}

/** Span of a row: its values, and limits that are near enough to matter. */
function near(values: Float64Array, limits: readonly Limit[], least: number): [number, number] {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const v of values) {
    low = Math.min(low, v);
    high = Math.max(high, v);
  }
  const size = Math.max(least, high - low);
  for (const l of limits) {
    if (l.value > high && l.value - high < size) high = l.value;
    if (l.value < low && low - l.value < size) low = l.value;
  }
  if (high - low < least) {
    const middle = (high + low) / 2;
    low = middle - least / 2;
    high = middle + least / 2;
  }
  return [low, high];
}

function sample(hours: Float64Array, values: Float64Array, share: number): number {
  const last = hours.length - 1;
  const x = share * last;
  const i = Math.min(last - 1, Math.floor(x));
  return values[i]! * (1 - (x - i)) + values[i + 1]! * (x - i);
}

function brailled(
  hours: Float64Array,
  values: Float64Array,
  show: (v: number) => number,
  width: number,
  height: number,
  low: number,
  high: number,
): string[][] {
  const cells = Array.from({ length: height }, () => new Uint8Array(width));
  const across = width * 2;
  const down = height * 4;
  let before: number | null = null;
  for (let x = 0; x < across; x += 1) {
    const v = show(sample(hours, values, x / (across - 1)));
    const y = Math.round(((high - v) / (high - low)) * (down - 1));
    // a steep rise is drawn whole
    const from = before === null ? y : Math.min(y, before + Math.sign(y - before));
    const to = before === null ? y : Math.max(y, before + Math.sign(y - before));
    for (let k = Math.min(from, to); k <= Math.max(from, to); k += 1) {
      if (k < 0 || k >= down) continue;
      const row = cells[Math.floor(k / 4)]!;
      row[x >> 1] = row[x >> 1]! | dots[k % 4]![x % 2]!;
    }
    before = y;
  }
  return cells.map((row) => [...row].map((bits) => String.fromCharCode(0x2800 + bits)));
}

function starred(
  hours: Float64Array,
  values: Float64Array,
  show: (v: number) => number,
  width: number,
  height: number,
  low: number,
  high: number,
): string[][] {
  const cells = Array.from({ length: height }, () => new Array<string>(width).fill(" "));
  for (let x = 0; x < width; x += 1) {
    const v = show(sample(hours, values, x / (width - 1)));
    const y = Math.round(((high - v) / (high - low)) * (height - 1));
    const row = cells[Math.max(0, Math.min(height - 1, y))]!;
    row[x] = "*";
  }
  return cells;
}

function axis(width: number, margin: number): string {
  const cells = new Array<string>(width + 2).fill(" ");
  for (let h = 0; h <= 24; h += 3) {
    const text = String(h);
    const at = Math.round((h / 24) * (width - 1));
    const start = h === 24 ? at - 1 : at;
    [...text].forEach((c, i) => {
      cells[start + i] = c;
    });
  }
  return `${" ".repeat(margin)}${cells.join("").trimEnd()} h`;
}
