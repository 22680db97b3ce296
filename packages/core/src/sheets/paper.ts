/** Marks on a sheet of paper, in mm from its upper left corner. */
import { type DrawingNode, fitted, textWidth } from "../drawing/index.ts";

/** Sheets on which is drawn. */
export type PaperName = "a4" | "letter";

/** Width and height, mm (ISO 216; ANSI/ASME Y14.1). */
export const paperSizes: Readonly<Record<PaperName, readonly [width: number, height: number]>> = {
  a4: [210, 297],
  letter: [215.9, 279.4],
};

export const ink = "#14241F";
const sans = "'Source Sans 3 Variable','Source Sans 3',sans-serif";
const serif = "'Source Serif 4 Variable','Source Serif 4',serif";

const round = (v: number): number => Math.round(v * 1000) / 1000;

interface Written {
  /** Height of the letters' body, mm; usually 2.9. */
  readonly size?: number;
  readonly anchor?: "start" | "middle" | "end";
  readonly face?: "sans" | "serif" | "italic";
  readonly weight?: number;
}

export function words(x: number, y: number, content: string, w: Written = {}): DrawingNode {
  const { size = 2.9, anchor = "start", face = "sans", weight = 400 } = w;
  return {
    tag: "text",
    attributes: {
      x: round(x),
      y: round(y),
      "font-size": size,
      "font-family": face === "sans" ? sans : serif,
      "font-weight": weight,
      fill: ink,
      ...(face === "italic" ? { "font-style": "italic" } : {}),
      ...(anchor === "start" ? {} : { "text-anchor": anchor }),
    },
    children: [content],
  };
}

export function line(x0: number, y0: number, x1: number, y1: number, wide = 0.18): DrawingNode {
  return {
    tag: "path",
    attributes: {
      d: `M${round(x0)} ${round(y0)}L${round(x1)} ${round(y1)}`,
      fill: "none",
      stroke: ink,
      "stroke-width": wide,
    },
  };
}

export function box(x: number, y: number, width: number, height: number, filled: boolean, wide = 0.18): DrawingNode {
  return {
    tag: "rect",
    attributes: {
      x: round(x),
      y: round(y),
      width: round(width),
      height: round(height),
      fill: filled ? ink : "#fff",
      stroke: ink,
      "stroke-width": wide,
    },
  };
}

/** A column of a table: its head, its width as a share of the table's, how it is set. */
export interface Column {
  readonly head: string;
  readonly share: number;
  readonly right?: boolean;
  readonly italic?: boolean;
}

/** Height of a table's row, mm. */
export const rowHeight = 5;

/** A table with a line under each row. What is too long for its column ends in an ellipsis. */
export function table(
  x: number,
  y: number,
  width: number,
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
): readonly DrawingNode[] {
  const all = columns.reduce((sum, c) => sum + c.share, 0);
  const out: DrawingNode[] = [];
  let left = x;
  columns.forEach((column, k) => {
    const wide = (column.share / all) * width;
    const at = column.right ? left + wide - 1.5 : left;
    const anchor = column.right ? ("end" as const) : ("start" as const);
    out.push(words(at, y + 3.4, column.head, { anchor, size: 2.6 }));
    rows.forEach((row, r) => {
      const face = column.italic ? ("italic" as const) : ("sans" as const);
      const content = fitted(row[k] ?? "", 2.9, wide - 1.8, column.italic ? "italic" : "plain");
      if (content !== "") out.push(words(at, y + rowHeight * (r + 2) - 1.5, content, { anchor, face }));
    });
    left += wide;
  });
  for (let r = 0; r <= rows.length; r++) {
    // a row whose first words are empty goes on from the one above
    if (r > 0 && r < rows.length && rows[r]!.slice(0, -1).every((cell) => cell === "")) continue;
    const level = y + rowHeight * (r + 1);
    out.push(line(x, level, x + width, level, r === 0 ? 0.3 : 0.1));
  }
  return out;
}

/** Letters of another face than ours run wider: so much of a width is filled. */
const filled = 0.8;

/** Words in lines of a width, mm. */
export function broken(content: string, width: number): readonly string[] {
  const lines: string[] = [];
  let now = "";
  for (const word of content.split(" ")) {
    const longer = now === "" ? word : `${now} ${word}`;
    if (now !== "" && textWidth(longer, 2.9) > width * filled) {
      lines.push(now);
      now = word;
    } else now = longer;
  }
  return [...lines, now];
}

/** A paragraph, broken to a width, and where the next begins. */
export function paragraph(
  x: number,
  y: number,
  width: number,
  content: string,
): { readonly nodes: readonly DrawingNode[]; readonly next: number } {
  const lines = broken(content, width);
  return { nodes: lines.map((l, k) => words(x, y + 4 * k, l)), next: y + 4 * lines.length + 1.6 };
}
