/** Figures in their place: a column left of the tank, a row under it; on a phone a list below with letters. */
import { type Box, clamp, type Point, segmentMeets } from "./geometry.ts";
import { placeDiscs, spreadOut } from "./labels.ts";
import { type DrawingNode, element, paths } from "./node.ts";
import { Pen, round1 } from "./pen.ts";
import type { Place, SectionFigure } from "./scene.ts";
import type { SectionDrawing } from "./section-drawing.ts";
import { formulaRuns, textWidth, wrapped } from "./text.ts";

/** Where one figure's text came to stand and how its leader runs, px. */
export interface PlacedFigure {
  readonly id: string;
  readonly box: Box;
  readonly leader: readonly Point[];
}

export interface SectionFigures {
  readonly nodes: readonly DrawingNode[];
  readonly placed: readonly PlacedFigure[];
  /** Upper and lower end of what the figures take, px; the upper may lie above the drawing (negative). */
  readonly top: number;
  readonly bottom: number;
}

/** Places that are written under the tank where there is room. */
export const isBelow = (place: Place): boolean => place === "diffuser" || place === "substrate";

/** A figure's text, set but not yet placed: y from its upper edge. */
interface Block {
  readonly figure: SectionFigure;
  readonly label: readonly string[];
  readonly note: readonly string[];
  readonly width: number;
  readonly height: number;
  /** Baseline of the value. */
  readonly valueAt: number;
  readonly valueWidth: number;
}

const LABEL = 12;
const VALUE = 21;

function blockOf(figure: SectionFigure, width: number): Block {
  const label = wrapped(figure.label, LABEL, width, 2);
  const note = wrapped(figure.note ?? "", LABEL, width, 2);
  const valueAt = 10 + (label.length - 1) * 14 + (label.length > 0 ? 21 : 11);
  const valueWidth = textWidth(figure.value, VALUE) + (figure.unit === "" ? 0 : 3 + textWidth(figure.unit, LABEL));
  const height = valueAt + (note.length > 0 ? 16 + (note.length - 1) * 14 : 0) + 5;
  return { figure, label, note, width, height, valueAt, valueWidth };
}

function line(className: string, x: number, y: number, content: string): DrawingNode {
  const runs = formulaRuns(content);
  const children: (DrawingNode | string)[] = [];
  let lowered = false;
  for (const run of runs) {
    if (run.low) children.push(element("tspan", { class: "d-low", dy: 3 }, [run.text]));
    else if (lowered) children.push(element("tspan", { dy: -3 }, [run.text]));
    else children.push(run.text);
    lowered = run.low;
  }
  return element("text", { class: className, x: round1(x), y: round1(y) }, children);
}

/** The text of a block at its place, with its marks for chosen and for warned. */
function written(block: Block, x: number, y: number, bar = 10): DrawingNode[] {
  const { figure } = block;
  const out: DrawingNode[] = [
    element("rect", {
      class: "d-hit",
      x: round1(x - 6),
      y: round1(y - 4),
      width: round1(block.width + 8),
      height: round1(block.height + 6),
    }),
  ];
  if (figure.selected)
    out.push(
      element("rect", { class: "d-bar", x: round1(x - bar), y: round1(y - 2), width: 2, height: round1(block.height) }),
    );
  if (figure.warn) {
    const hatch = new Pen();
    const left = x - 7.5;
    for (let v = y + 2; v < y + block.height - 4; v += 4) hatch.move(left, v + 2.5).line(left + 4, v - 1.5);
    out.push(...paths(["d-hatch", hatch.d]));
  }
  block.label.forEach((content, i) => {
    out.push(line("d-label", x, y + 10 + i * 14, content));
  });
  out.push(
    element("text", { class: "d-value", x: round1(x), y: round1(y + block.valueAt) }, [
      figure.value,
      ...(figure.unit === "" ? [] : [element("tspan", { class: "d-unit", dx: 3 }, [figure.unit])]),
    ]),
  );
  block.note.forEach((content, i) => {
    out.push(line("d-word", x, y + block.valueAt + 16 + i * 14, content));
  });
  return out;
}

const grouped = (figure: SectionFigure, children: readonly DrawingNode[]): DrawingNode =>
  element(
    "g",
    { class: `d-figure${figure.selected ? " d-selected" : ""}${figure.warn ? " d-warn" : ""}` },
    children,
    figure.id,
  );

function leaderNodes(points: readonly Point[]): DrawingNode[] {
  const end = points.at(-1);
  if (!end || points.length < 2) return [];
  return [
    ...paths(["d-lead", new Pen().polyline(points).d]),
    element("circle", { class: "d-lead-dot", cx: round1(end[0]), cy: round1(end[1]), r: 2 }),
  ];
}

const crosses = (points: readonly Point[], boxes: readonly Box[]): boolean =>
  points.some((p, i) => i > 0 && boxes.some((box) => segmentMeets(points[i - 1] as Point, p, box)));

/** The first route that meets no text; failing that none: a line through a text would read as struck out. */
function clearest(routes: readonly (readonly Point[])[], boxes: readonly Box[]): readonly Point[] {
  return routes.find((route) => !crosses(route, boxes)) ?? [];
}

interface Placed {
  readonly block: Block;
  readonly x: number;
  readonly y: number;
}

const boxOfBlock = ({ block, x, y }: Placed): Box => ({
  left: x,
  right: x + block.width,
  top: y,
  bottom: y + block.height,
});

/** How far a figure's row lies under the drawing's upper edge, for ordering and for where it wants to stand. */
function wantedY(drawing: SectionDrawing, place: Place): number {
  return drawing.targets[place][0]?.[1] ?? drawing.frame.surface;
}

function wide(drawing: SectionDrawing, figures: readonly SectionFigure[]): SectionFigures {
  const { frame, targets, row } = drawing;
  const below: SectionFigure[] = [];
  const slot = 118;
  const slots = Math.floor((row.right - row.left + 14) / slot);
  const beside: SectionFigure[] = [];
  const inTank = (place: Place): boolean => (targets[place][0]?.[0] ?? 0) > frame.inner.left;
  for (const figure of figures)
    (isBelow(figure.place) && inTank(figure.place) && below.length < slots ? below : beside).push(figure);

  const ordered = beside
    .map((figure, i) => ({ figure, i, y: wantedY(drawing, figure.place) }))
    .sort((a, b) => a.y - b.y || a.i - b.i);
  const blocks = ordered.map(({ figure }) => blockOf(figure, frame.columnWidth));
  const gap = 12;
  const total = blocks.reduce((sum, b) => sum + b.height + gap, -gap);
  const columnEnd = frame.column + frame.columnWidth + 4;
  // A low tank's column runs on beside the row under it, where that leaves room.
  const spare = row.left > columnEnd ? clamp(total - frame.outer.bottom + 8, 0, 70) : 0;
  const end = Math.max(frame.outer.bottom - 4 + spare, 0);
  const tops = spreadOut(
    blocks.map((b, i) => ({ want: (ordered[i]?.y ?? 0) - b.valueAt + 7, size: b.height })),
    gap,
    Math.min(4, end - total),
    end,
  );
  const column: Placed[] = blocks.map((block, i) => ({ block, x: frame.column, y: tops[i] as number }));

  below.sort((a, b) => (targets[a.place][0]?.[0] ?? 0) - (targets[b.place][0]?.[0] ?? 0));
  const under: Placed[] = below.map((figure, i) => ({
    block: blockOf(figure, slot - 12),
    x: row.left + i * slot,
    y: row.baseline - 10,
  }));

  const texts: Box[] = [...drawing.texts, ...drawing.discs, ...[...column, ...under].map(boxOfBlock)];
  const placed: PlacedFigure[] = [];
  const nodes: DrawingNode[] = [];
  const done = (p: Placed, leader: readonly Point[]): void => {
    placed.push({ id: p.block.figure.id, box: boxOfBlock(p), leader });
    nodes.push(grouped(p.block.figure, [...leaderNodes(leader), ...written(p.block, p.x, p.y)]));
  };

  for (const p of column) {
    const { block } = p;
    const y = p.y + block.valueAt - 7;
    const from = Math.min(p.x + block.valueWidth + 8, columnEnd);
    const others = texts.filter((b) => b.left !== p.x || b.top !== p.y);
    const fixed = targets[block.figure.place];
    const water = block.figure.place === "water" || block.figure.place === "water-upper";
    const routes: Point[][] = [];
    for (const target of fixed) {
      // A figure of the water itself may point anywhere in it: straight in, where its text stands.
      const level = water
        ? clamp(y, frame.surface + 6, Math.max(frame.surface + 6, drawing.targets.substrate[0]?.[1] ?? y))
        : target[1];
      const to: Point = [target[0], level];
      if (Math.abs(to[1] - y) < 1.5) {
        routes.push([[from, to[1]], to]);
        continue;
      }
      const rise = Math.abs(to[1] - y);
      for (const run of [0.62, 1.1, 0.3, 2]) routes.push([[from, y], [Math.max(columnEnd, to[0] - rise * run), y], to]);
      routes.push([[from, y], [columnEnd, y], to]);
      routes.push([[from, y], [columnEnd, y], [columnEnd, to[1]], to]);
    }
    done(p, clearest(routes, others));
  }
  for (const [i, p] of under.entries()) {
    const others = texts.filter((b) => b.left !== p.x || b.top !== p.y);
    const top = p.y - 4;
    const routes = targets[p.block.figure.place].map((to): Point[] => {
      const inside = to[0] >= p.x && to[0] <= p.x + p.block.width;
      if (inside) return [[to[0], top], to];
      const start = clamp(to[0], p.x + 2, p.x + Math.min(p.block.width, 60));
      const level = frame.outer.bottom + 6 + (i % 2) * 3;
      return [[start, top], [start, level], [to[0], level], to];
    });
    // Straight up before round a corner.
    routes.sort((a, b) => a.length - b.length);
    done(p, clearest(routes, others));
  }
  const boxes = placed.map((p) => p.box);
  return {
    nodes,
    placed,
    top: Math.min(0, ...boxes.map((b) => b.top - 6)),
    bottom: Math.max(0, ...boxes.map((b) => b.bottom + 4)),
  };
}

/** a, b, ... z, aa, ab, ... */
function letters(index: number): string {
  const rest = Math.floor(index / 26);
  return (rest > 0 ? letters(rest - 1) : "") + String.fromCharCode(97 + (index % 26));
}

function listed(drawing: SectionDrawing, figures: readonly SectionFigure[]): SectionFigures {
  const { frame, targets } = drawing;
  const left = 30;
  const columns = frame.width >= 330 ? 2 : 1;
  const pitch = (frame.width - 10) / columns;
  const blocks = figures.map((figure) => blockOf(figure, pitch - left - 8));
  const { inner } = frame;
  const radius = 6.5;
  const discs = placeDiscs(
    figures.map((figure) => ({
      at: targets[figure.place][0] ?? ([inner.left, inner.top] as const),
      first: targets[figure.place],
    })),
    {
      radius,
      within: { left: 8, right: frame.width - 8, top: 8, bottom: inner.bottom - 8 },
      blocked: [...drawing.texts, ...drawing.discs],
      cost: () => 0,
    },
  );
  const placed: PlacedFigure[] = [];
  const nodes: DrawingNode[] = [];
  let y = drawing.height + 14;
  for (let i = 0; i < blocks.length; i += columns) {
    const row = blocks.slice(i, i + columns);
    row.forEach((block, k) => {
      const x = k * pitch + left;
      const letter = letters(i + k);
      const disc = discs[i + k];
      const mark = (cx: number, cy: number): DrawingNode[] => [
        element("circle", { class: "d-mark-disc", cx: round1(cx), cy: round1(cy), r: radius }),
        element("text", { class: "d-mark-letter", x: round1(cx), y: round1(cy + 3.5), "text-anchor": "middle" }, [
          letter,
        ]),
      ];
      const at: Placed = { block, x, y };
      placed.push({ id: block.figure.id, box: boxOfBlock(at), leader: [] });
      nodes.push(
        grouped(block.figure, [
          ...written(block, x, y, 27),
          ...mark(x - 16, y + 6),
          ...(disc ? mark(disc.x, disc.y) : []),
        ]),
      );
    });
    y += Math.max(...row.map((b) => b.height)) + 14;
  }
  return { nodes, placed, top: 0, bottom: blocks.length > 0 ? y - 6 : 0 };
}

/** Places figures on a drawing that is there already: cheap, and the drawing itself stays as it is. */
export function sectionFigures(drawing: SectionDrawing, figures: readonly SectionFigure[]): SectionFigures {
  return drawing.frame.compact ? listed(drawing, figures) : wide(drawing, figures);
}
