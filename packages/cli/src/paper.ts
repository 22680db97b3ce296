import { styleText } from "node:util";

/** Where words go: colours only on a terminal, width as it is. */
export interface Paper {
  readonly colour: boolean;
  /** Columns of what is drawn. */
  readonly width: number;
  /** Plain ASCII instead of box drawing, braille and signs. */
  readonly ascii?: boolean;
}

const narrowest = 48;
const widest = 160;
const whenPiped = 80;
/** Running text is read badly in longer lines. */
const longestLine = 100;

export function paperOf(stream: NodeJS.WriteStream = process.stdout): Paper {
  const terminal = stream.isTTY === true;
  const colour = terminal && !process.env.NO_COLOR && process.env.TERM !== "dumb";
  const width = terminal ? Math.max(narrowest, Math.min(widest, stream.columns || whenPiped)) : whenPiped;
  return { colour, width };
}

export type Style = Parameters<typeof styleText>[0];
export const styled = (paper: Paper, style: Style, text: string): string =>
  paper.colour ? styleText(style, text, { validateStream: false }) : text;

/** Width of a text in columns, as far as the words of the trade go. */
export const columns = (text: string): number => [...text].length;

/** Breaks words at a width, later lines indented. A word longer than a line keeps it to itself. */
export function wrap(text: string, width: number, indent = ""): string {
  const lines: string[] = [];
  let line = "";
  const most = Math.min(width, longestLine);
  for (const word of text.split(/\s+/).filter(Boolean)) {
    if (line && columns(line) + 1 + columns(word) > most - (lines.length > 0 ? columns(indent) : 0)) {
      lines.push(line);
      line = word;
    } else line = line ? `${line} ${word}` : word;
  }
  if (line) lines.push(line);
  return lines.map((l, i) => (i === 0 ? l : indent + l)).join("\n");
}

export interface TableOptions {
  /** Columns of numbers, which stand to the right. */
  readonly right?: readonly boolean[];
  /** Spaces between columns. */
  readonly gap?: number;
  /** Where the last column is broken; never when left out. */
  readonly width?: number;
}

/** Narrower than this, a last column is not broken but left to run over. */
const narrowColumn = 12;

/** Columns as wide as they need. */
export function table(rows: readonly (readonly string[])[], options: TableOptions = {}): string {
  const { right = [], gap = 2, width } = options;
  const widths: number[] = [];
  for (const row of rows) {
    row.forEach((cell, i) => {
      widths[i] = Math.max(widths[i] ?? 0, columns(cell));
    });
  }
  const last = widths.length - 1;
  const before = widths.slice(0, last).reduce((sum, w) => sum + w + gap, 0);
  const room = width === undefined ? Number.POSITIVE_INFINITY : width - before;
  const indent = " ".repeat(before);
  return rows
    .map((row) =>
      row
        .map((cell, i) => {
          if (i === last && room >= narrowColumn && columns(cell) > room) {
            return wrap(cell, room).replaceAll("\n", `\n${indent}`);
          }
          const pad = " ".repeat(widths[i]! - columns(cell));
          return right[i] ? pad + cell : cell + pad;
        })
        .join(" ".repeat(gap))
        .trimEnd(),
    )
    .join("\n");
}

const spelled: Readonly<Record<string, string>> = {
  "°": "",
  "−": "-",
  "–": "-",
  "×": "x",
  "÷": "/",
  "·": ".",
  µ: "u",
  "²": "2",
  "³": "3",
  "₂": "2",
  "±": "+/-",
  "…": "...",
};

/** The signs of units and ledgers in plain ASCII; names that the plan gives stay as they are. */
export function plainText(text: string): string {
  // a dropped degree sign leaves a space where columns follow
  return text.replace(/°([CFd]\w*)(?= {2})/g, "$1 ").replace(/[°−–×÷·µ²³₂±…]/g, (sign) => spelled[sign] ?? sign);
}

/** Typed arrays become lists, so that any program reads them. */
export const toJson = (value: unknown): string =>
  JSON.stringify(value, (_, v: unknown) => (v instanceof Float64Array ? Array.from(v) : v), 2);

/** Says on a terminal what is being worked out, and wipes it away when done; silent when piped. */
export function working<T>(what: string, work: () => T, stream: NodeJS.WriteStream = process.stderr): T {
  if (stream.isTTY !== true || process.env.TERM === "dumb") return work();
  stream.write(what);
  try {
    return work();
  } finally {
    stream.write(`\r${" ".repeat(columns(what))}\r`);
  }
}
