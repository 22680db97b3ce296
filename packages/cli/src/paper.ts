import { styleText } from "node:util";

/** Where words go: colours only on a terminal, width as it is. */
export interface Paper {
  readonly colour: boolean;
  readonly width: number;
}

export function paperOf(stream: NodeJS.WriteStream = process.stdout): Paper {
  const colour = stream.isTTY === true && !process.env.NO_COLOR && process.env.TERM !== "dumb";
  const width = stream.isTTY === true ? Math.max(48, Math.min(160, stream.columns || 80)) : 80;
  return { colour, width };
}

type Style = Parameters<typeof styleText>[0];
export const styled = (paper: Paper, style: Style, text: string): string =>
  paper.colour ? styleText(style, text) : text;

/** Breaks words at a width, later lines indented. */
export function wrap(text: string, width: number, indent = ""): string {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(/\s+/).filter(Boolean)) {
    if (line && line.length + 1 + word.length > width - (lines.length > 0 ? indent.length : 0)) {
      lines.push(line);
      line = word;
    } else line = line ? `${line} ${word}` : word;
  }
  if (line) lines.push(line);
  return lines.map((l, i) => (i === 0 ? l : indent + l)).join("\n");
}

/** Columns as wide as they need; numbers to the right. */
export function table(rows: readonly (readonly string[])[], right: readonly boolean[] = [], gap = 2): string {
  const widths: number[] = [];
  for (const row of rows) {
    row.forEach((cell, i) => {
      widths[i] = Math.max(widths[i] ?? 0, [...cell].length);
    });
  }
  return rows
    .map((row) =>
      row
        .map((cell, i) => {
          const pad = " ".repeat(widths[i]! - [...cell].length);
          return right[i] ? pad + cell : cell + pad;
        })
        .join(" ".repeat(gap))
        .trimEnd(),
    )
    .join("\n");
}
