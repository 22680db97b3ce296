/** Lamps over the tank from the front, with their light, and the room they need over the rim. */
import { type Box, clamp, type Point } from "./geometry.ts";
import { type Lettering, SMALL, text, textBox } from "./lettering.ts";
import { lampShape, SPREAD, strengthClass } from "./light.ts";
import { type DrawingNode, group, paths } from "./node.ts";
import { Pen } from "./pen.ts";
import type { ScapeLamp, ScapeTank } from "./scape-scene.ts";
import type { ElevationFrame } from "./scape-view.ts";
import { fitted, textWidth } from "./text.ts";

/** Most that a lamp's height over the rim takes on the page, px; a higher one is drawn nearer, with a break mark. */
const GAP_LIMIT = 150;
const CAPTION_LINE = 15;

const thickness = { bar: 0.014, panel: 0.026, tube: 0.03, pendant: 0.09 } as const;
const thickOf = (kind: ScapeLamp["kind"], scale: number): number =>
  clamp(thickness[kind] * scale, 6, kind === "pendant" ? 60 : 18);

/** Height over the rim on the page, px; below 0 for a lamp between rim and water. */
const gapOf = (lamp: ScapeLamp, tank: ScapeTank, scale: number): number =>
  clamp((lamp.z - tank.height) * scale, (tank.waterLine - tank.height) * scale, GAP_LIMIT);

/** Room over the rim. */
export function lampHead(lamps: readonly ScapeLamp[], tank: ScapeTank, scale: number): number {
  const high = lamps.map((lamp) => gapOf(lamp, tank, scale) + thickOf(lamp.kind, scale) + 12);
  return Math.max(0, ...high) + (lamps.length > 0 ? CAPTION_LINE * Math.min(lamps.length, 3) : 0);
}

export interface PlacedLamp {
  readonly lamp: ScapeLamp;
  /** Housing on the page. */
  readonly box: Box;
  readonly shortened: boolean;
}

export function placeLamps(lamps: readonly ScapeLamp[], tank: ScapeTank, frame: ElevationFrame): PlacedLamp[] {
  const { scale } = frame.view;
  return lamps.map((lamp) => {
    const turn = (lamp.turn * Math.PI) / 180;
    const half = (Math.abs(lamp.length * Math.cos(turn)) + Math.abs(lamp.width * Math.sin(turn))) / 2;
    const middle = frame.inner.left + lamp.x * scale;
    const under = frame.inner.top - gapOf(lamp, tank, scale);
    const left = clamp(middle - Math.max(half * scale, 4), 2, frame.width - 10);
    return {
      lamp,
      shortened: (lamp.z - tank.height) * scale > GAP_LIMIT,
      box: {
        left,
        right: clamp(middle + Math.max(half * scale, 4), left + 4, frame.width - 2),
        top: under - thickOf(lamp.kind, scale),
        bottom: under,
      },
    };
  });
}

/** Light in the air and in the water; the widest wedge is the faintest. */
export function drawBeams(
  placed: readonly PlacedLamp[],
  frame: ElevationFrame,
): { air: DrawingNode[]; water: DrawingNode[] } {
  const { inner, surface } = frame;
  const hold = (x: number): number => clamp(x, inner.left, inner.right);
  const air: DrawingNode[] = [];
  const water: DrawingNode[] = [];
  for (const { lamp, box } of placed) {
    const strength = clamp(Number.isFinite(lamp.strength) ? lamp.strength : 0, 0, 1);
    if (strength === 0) continue;
    const [inAir, inWater] = SPREAD[lamp.kind];
    const above: (readonly [string, string])[] = [];
    const below: (readonly [string, string])[] = [];
    for (const soft of [1.35, 1, 0.62]) {
      const rise = Math.max(0, surface - box.bottom);
      const [a, b] = [hold(box.left - rise * inAir * soft), hold(box.right + rise * inAir * soft)];
      const deep = (inner.bottom - surface) * inWater * soft;
      const wedge = (points: readonly Point[]): string => new Pen().polyline(points, true).d;
      above.push([
        "d-beam",
        wedge([
          [box.left, box.bottom],
          [box.right, box.bottom],
          [b, surface],
          [a, surface],
        ]),
      ]);
      // The water is pale already: one wedge is enough to see where the light falls.
      if (soft === 1)
        below.push([
          "d-lit",
          wedge([
            [a, surface],
            [b, surface],
            [hold(b + deep), inner.bottom],
            [hold(a - deep), inner.bottom],
          ]),
        ]);
    }
    air.push(group(strengthClass(strength), paths(...above)));
    water.push(group(strengthClass(strength), paths(...below)));
  }
  return { air, water };
}

export function drawLamps(placed: readonly PlacedLamp[], frame: ElevationFrame): Lettering {
  const nodes: DrawingNode[] = [];
  const boxes: Box[] = [];
  const page: Box = { left: 1, right: frame.width - 1, top: 1, bottom: frame.outer.bottom };
  for (const { lamp, box, shortened } of placed) {
    const [body, led, detail, cable, broken] = Array.from({ length: 5 }, () => new Pen(page)) as [
      Pen,
      Pen,
      Pen,
      Pen,
      Pen,
    ];
    lampShape(lamp.kind, box, { body, led, detail });
    const middle = (box.left + box.right) / 2;
    const wide = box.right - box.left;
    if (lamp.kind === "pendant") cable.move(middle, box.top).line(middle, Math.max(2, box.top - 24));
    else if (frame.inner.top - box.bottom > 8)
      for (const x of [box.left + wide * 0.1, box.right - wide * 0.1])
        cable.move(x, box.top).line(x, Math.max(2, box.top - 6));
    if (shortened) {
      const y = (box.bottom + frame.inner.top) / 2;
      for (const x of [box.left, box.right])
        broken
          .move(x - 9, y + 2)
          .line(x + 9, y - 3)
          .move(x - 9, y + 6)
          .line(x + 9, y + 1);
    }
    nodes.push(
      ...paths(
        ["d-cable", cable.d],
        ["d-lamp", body.d],
        ["d-lamp-detail", detail.d],
        ["d-led", led.d],
        ["d-break", broken.d],
      ),
    );
  }
  for (const { lamp, box } of placed) {
    const caption = lamp.caption.trim();
    if (caption === "") continue;
    const words = fitted(caption, SMALL, frame.width - 12);
    const wide = textWidth(words, SMALL);
    const x = clamp((box.left + box.right) / 2, wide / 2 + 4, frame.width - wide / 2 - 4);
    for (let row = 0; row < 3; row++) {
      const y = box.top - 10 - row * CAPTION_LINE;
      const room = textBox(x, y, wide, SMALL, "middle");
      const free = (b: Box): boolean =>
        b.right < room.left || b.left > room.right || b.bottom < room.top || b.top > room.bottom;
      if (room.top < 1 || !boxes.every(free) || !placed.every((p) => free(p.box))) continue;
      nodes.push(text("d-note", x, y, words, "middle"));
      boxes.push(room);
      break;
    }
  }
  return { nodes, boxes };
}
