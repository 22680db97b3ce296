/** Plantings from above: a dashed outline, tinted, with the marks of the growth form. */
import { outlineArea, outlineContains } from "../geometry/index.ts";
import { clamp, type Point } from "./geometry.ts";
import { type DrawingNode, group, paths } from "./node.ts";
import { Pen } from "./pen.ts";
import type { Tone } from "./plants.ts";
import { between, type Random, streamOf } from "./random.ts";
import type { ScapeZone } from "./scape-scene.ts";
import type { PlanFrame } from "./scape-view.ts";
import { scattered, soundOutline } from "./scattered.ts";

interface PlanMark {
  /** m */
  readonly x: number;
  readonly y: number;
  readonly d: string;
  /** Filled parts, of floating plants. */
  readonly body: string;
}

export interface PlanZone {
  /** Path data of its outline. */
  readonly outline: string;
  readonly points: readonly Point[];
  readonly marks: readonly PlanMark[];
}

type Mark = (pen: Pen, body: Pen, at: Point, size: number, random: Random) => void;

const rays =
  (count: number, bow: number, from = 0): Mark =>
  (pen, _, [x, y], size, random) => {
    const start = random() * 2 * Math.PI;
    for (let i = 0; i < count; i++) {
      const a = start + (i / count) * 2 * Math.PI + between(random, -0.16, 0.16);
      const reach = size * between(random, 0.78, 1.12);
      const [c, s] = [Math.cos(a), Math.sin(a)];
      pen
        .move(x + c * size * from, y + s * size * from)
        .quad(x + Math.cos(a + bow) * reach * 0.6, y + Math.sin(a + bow) * reach * 0.6, x + c * reach, y + s * reach);
    }
  };

/** Leaves in pairs along four arms: a leafy stem seen from its tip. */
const whorl: Mark = (pen, _, [x, y], size, random) => {
  const start = between(random, 0, 1.57);
  for (let i = 0; i < 4; i++) {
    const a = start + i * 1.571 + between(random, -0.12, 0.12);
    const reach = size * between(random, 0.85, 1.1);
    pen.move(x + Math.cos(a) * 1.2, y + Math.sin(a) * 1.2).line(x + Math.cos(a) * reach, y + Math.sin(a) * reach);
    for (const t of [0.48, 0.8]) {
      const [bx, by] = [x + Math.cos(a) * reach * t, y + Math.sin(a) * reach * t];
      const barb = reach * 0.26;
      pen
        .move(bx + Math.cos(a + 1.05) * barb, by + Math.sin(a + 1.05) * barb)
        .line(bx, by)
        .line(bx + Math.cos(a - 1.05) * barb, by + Math.sin(a - 1.05) * barb);
    }
  }
};

/** Long leaves that the current lays one way. */
const swept: Mark = (pen, _, [x, y], size, random) => {
  for (let i = 0; i < 3; i++) {
    const rise = (i - 1) * size * between(random, 0.22, 0.42);
    const reach = size * between(random, 1.3, 2.1);
    pen.move(x + size * 0.8, y).quad(x + size * 0.8 - reach * 0.5, y + rise * 1.5, x + size * 0.8 - reach, y + rise);
  }
};

const tuft: Mark = (pen, _, [x, y], size, random) => {
  for (const a of [-2.2, -1.57, -0.9]) {
    const reach = size * between(random, 0.8, 1.15);
    pen.move(x, y).line(x + Math.cos(a) * reach, y + Math.sin(a) * reach);
  }
};

/** A pair of fronds with leaflets. */
const frond: Mark = (pen, _, [x, y], size, random) => {
  const side = random() < 0.5 ? -1 : 1;
  const a = -Math.PI / 2 + side * between(random, 0.4, 1.3);
  const reach = size * between(random, 1.1, 1.6);
  const end: Point = [x + Math.cos(a) * reach, y + Math.sin(a) * reach];
  pen.move(x, y).quad(x + Math.cos(a + 0.2) * reach * 0.5, y + Math.sin(a + 0.2) * reach * 0.5, end[0], end[1]);
  for (const t of [0.3, 0.52, 0.74, 0.93]) {
    const [bx, by] = [x + (end[0] - x) * t, y + (end[1] - y) * t];
    const barb = reach * 0.3 * (1.2 - t);
    for (const s of [-1, 1])
      pen.move(bx, by).line(bx + Math.cos(a + s * 1.1) * barb, by + Math.sin(a + s * 1.1) * barb);
  }
};

const scallop: Mark = (pen, _, [x, y], size, random) => {
  const a = between(random, -0.5, 0.5);
  pen
    .move(x - size * Math.cos(a), y - size * Math.sin(a))
    .quad(x, y - size * 1.5, x + size * Math.cos(a), y + size * Math.sin(a));
};

const bulb: Mark = (pen, body, at, size, random) => {
  rays(8, 0.3, 0.3)(pen, body, at, size, random);
  ring(pen, at, size * 0.28);
};

function ring(pen: Pen, [x, y]: Point, r: number): void {
  pen.loop([
    [x + r, y],
    [x, y + r],
    [x - r, y],
    [x, y - r],
  ]);
}

/** Round leaves that lie on the surface. */
const pads: Mark = (pen, body, [x, y], size, random) => {
  const start = random() * 2 * Math.PI;
  for (let i = 0; i < 3; i++) {
    const a = start + i * 2.09;
    const at: Point = [x + Math.cos(a) * size * 0.62, y + Math.sin(a) * size * 0.62];
    ring(body, at, size * 0.5);
    pen.move(x, y).line(at[0], at[1]);
  }
};

interface Habit {
  readonly mark: Mark;
  /** Size of a mark and distance of marks, m. Design values, by eye. */
  readonly size: number;
  readonly pitch: number;
}

function habitOf({ form, leaf, spread }: ScapeZone): Habit {
  const wide = clamp(spread, 0.02, 0.16);
  switch (form) {
    case "stem":
      return { mark: whorl, size: 0.0125, pitch: 0.026 };
    case "rosette":
      return leaf === "needle" || leaf === "ribbon"
        ? { mark: rays(9, 0.12), size: wide * 0.3, pitch: wide * 0.66 }
        : { mark: rays(7, 0.42), size: wide * 0.28, pitch: wide * 0.6 };
    case "runner":
      return leaf === "needle" ? { mark: tuft, size: 0.006, pitch: 0.014 } : { mark: swept, size: 0.011, pitch: 0.023 };
    case "carpet":
      return leaf === "needle" || leaf === "ribbon"
        ? { mark: tuft, size: 0.0046, pitch: 0.0125 }
        : { mark: rays(4, 0), size: 0.007, pitch: 0.0155 };
    case "moss":
      return { mark: scallop, size: 0.004, pitch: 0.009 };
    case "bulb":
      return { mark: bulb, size: wide * 0.3, pitch: wide * 0.66 };
    case "rhizome":
      return leaf === "fern" || leaf === "lobed"
        ? { mark: frond, size: 0.016, pitch: 0.026 }
        : { mark: rays(5, 0.5, 0.2), size: 0.013, pitch: 0.026 };
    case "floating":
      return { mark: pads, size: 0.009, pitch: 0.024 };
  }
}

/** Most marks in one zone, and in a cm² of page. Design values. */
const MOST_MARKS = 320;
const CLOSEST = 6.5;

export function drawPlanZone(zone: ScapeZone, frame: PlanFrame, seed: number): PlanZone | undefined {
  const outline = soundOutline(zone);
  if (outline.length === 0) return undefined;
  const points = outline.map(([x, y]) => frame.toPage(x, y));
  const random = streamOf(seed, "plan-zone", zone.index, zone.form);
  const habit = habitOf(zone);
  const { scale } = frame.view;
  const size = clamp(habit.size * scale, 2.6, 15);
  const pitch = Math.max(habit.pitch, CLOSEST / scale, (size * 1.2) / scale);
  const marks: PlanMark[] = [];
  if (outlineArea(outline) * scale * scale > 30) {
    const reach = (size * 0.75) / scale;
    const inside = (x: number, y: number): boolean =>
      outlineContains(outline, [x - reach, y]) &&
      outlineContains(outline, [x + reach, y]) &&
      outlineContains(outline, [x, y - reach]) &&
      outlineContains(outline, [x, y + reach]);
    for (const [x, y] of scattered(outline, pitch, MOST_MARKS, random)) {
      if (!inside(x, y)) continue;
      const [pen, body] = [new Pen(frame.inner), new Pen(frame.inner)];
      habit.mark(pen, body, frame.toPage(x, y), size, random);
      marks.push({ x, y, d: pen.d, body: body.d });
    }
  }
  return { outline: new Pen(frame.inner).loop(points).d, points, marks };
}

/** The zone without the marks where something lies. */
export function planZoneNodes(
  zone: ScapeZone,
  { outline, marks }: PlanZone,
  tone: Tone,
  blocked: (x: number, y: number) => boolean,
): DrawingNode {
  const free = zone.on === null && zone.form !== "floating" ? marks.filter((m) => !blocked(m.x, m.y)) : marks;
  const over = zone.on !== null || zone.form === "floating";
  return group(`d-zone d-${tone}${over ? " d-zone-over" : ""}`, [
    ...paths(
      [over ? "d-zone-line" : "d-zone-area", outline],
      ["d-pad-leaf", free.map((m) => m.body).join("")],
      [zone.on !== null ? "d-zone-mark d-strong-mark" : "d-zone-mark", free.map((m) => m.d).join("")],
    ),
  ]);
}
