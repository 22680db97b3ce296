/** Glass, pipes, diffuser, air stone, heater, thermometer. Glassware has its usual size, within what the page allows. */
import type { Frame } from "./frame.ts";
import { type Box, clamp, mix, type Point } from "./geometry.ts";
import type { Ground } from "./ground.ts";
import { type DrawingNode, element, group, paths } from "./node.ts";
import { Pen, round1 } from "./pen.ts";
import { between, streamOf } from "./random.ts";
import type { DrawnScene } from "./scene.ts";
import type { Item } from "./stage.ts";

const rect = (className: string, box: Box): DrawingNode =>
  element("rect", {
    class: className,
    x: round1(box.left),
    y: round1(box.top),
    width: round1(box.right - box.left),
    height: round1(box.bottom - box.top),
  });

/** px per mm of glassware: to scale, but never too small to read or too large for the margin. */
const hand = (frame: Frame): number =>
  clamp(frame.scale / 1000, frame.compact ? 0.4 : 0.46, frame.compact ? 0.56 : 0.74);

/** Panes in section, the bottom pane, a lid. */
export function drawGlass(scene: DrawnScene, frame: Frame): DrawingNode[] {
  const { outer, inner } = frame;
  const out = [
    rect("d-glass", { ...outer, right: inner.left }),
    rect("d-glass", { ...outer, left: inner.right }),
    rect("d-glass", { ...outer, left: inner.left, right: inner.right, top: inner.bottom }),
  ];
  if (scene.tank.cover === "lid") {
    const start = scene.pipes?.outlet || scene.pipes?.intake ? inner.left + hand(frame) * 66 : outer.left;
    out.push(
      rect("d-glass", {
        left: Math.min(start, inner.right - 8),
        right: outer.right,
        top: inner.top - 3.4,
        bottom: inner.top,
      }),
    );
    const x = mix(start, outer.right, 0.5);
    out.push(rect("d-knob", { left: x - 8, right: x + 8, top: inner.top - 7, bottom: inner.top - 3.4 }));
  }
  return out;
}

/** A glass tube along a path: its wall, its bore. */
const tube = (d: string, width: number): DrawingNode[] => [
  element("path", { class: "d-pipe", d, "stroke-width": round1(width + 1.6) }),
  element("path", { class: "d-bore", d, "stroke-width": round1(Math.max(width - 0.3, 1)) }),
];

/** Marks where pipes outside the tank are cut off. */
const cutOff = (pen: Pen, x: number, y: number): Pen => pen.move(x - 7, y + 2).line(x + 7, y - 2);

export interface Fittings {
  readonly items: readonly Item[];
  /** Painted behind everything that grows; reaches over the rim. */
  readonly back: readonly DrawingNode[];
  /** What of the picture they take, px. */
  readonly covers: readonly Box[];
  /** Painted over everything in the tank. */
  readonly front: readonly DrawingNode[];
  readonly outlet: Point | undefined;
  readonly diffuser: Point | undefined;
  readonly thermometer: Point | undefined;
}

/** A pipe that comes up outside the pane, bends over the rim and goes down inside. */
function over(pen: Pen, outside: number, low: number, crown: number, inside: number, bend: number): Pen {
  return pen
    .move(outside, low)
    .line(outside, crown + bend)
    .quad(outside, crown, outside + bend, crown)
    .line(inside - bend, crown)
    .quad(inside, crown, inside, crown + bend);
}

function intake(frame: Frame, ground: Ground): DrawingNode[] {
  const e = hand(frame);
  const { inner, outer, surface } = frame;
  const x = inner.left + 28 * e;
  const depth = ground.y(x, 0) - surface;
  const low = ground.y(x, 0) - Math.max(12, Math.min(70 * e, depth * 0.3));
  const d = over(
    new Pen(),
    outer.left - 14 * e,
    surface + Math.min(22 * e, depth * 0.3),
    inner.top - 36 * e,
    x,
    15 * e,
  ).line(x, low).d;
  const slits = new Pen();
  for (let y = low - 4 * e; y > Math.max(low - 68 * e, surface + depth * 0.45); y -= Math.max(6 * e, 3.4))
    slits.move(x - 5 * e, y).line(x + 5 * e, y);
  return [
    ...tube(d, 15 * e),
    ...paths(
      ["d-slit", slits.d],
      ["d-pipe-end", new Pen().move(x - 8 * e, low).line(x + 8 * e, low).d],
      ["d-break", cutOff(new Pen(), outer.left - 14 * e, surface + Math.min(22 * e, depth * 0.3)).d],
    ),
  ];
}

function outlet(scene: DrawnScene, frame: Frame): { nodes: DrawingNode[]; mouth: Point; seen: Point } {
  const e = hand(frame);
  const { inner, outer, surface } = frame;
  const depth = inner.bottom - surface;
  const low = surface + Math.min(22 * e, depth * 0.3);
  const crown = inner.top - 56 * e;
  const x = inner.left + 50 * e;
  const level = surface + Math.min(17 * e, depth * 0.25);
  const d = over(new Pen(), outer.left - 33 * e, low, crown, x, 15 * e)
    .line(x, level - 14 * e)
    .quad(x, level, x + 14 * e, level)
    .line(x + 33 * e, level).d;
  // The lily: a bell that opens along the surface.
  const [a, b] = [x + 31 * e, x + 55 * e];
  const bell = new Pen()
    .move(a, level - 6.8 * e)
    .cubic(a + 12 * e, level - 7 * e, b - 7 * e, level - 12 * e, b, level - 14.5 * e)
    .quad(b - 3.4 * e, level, b, level + 14.5 * e)
    .cubic(b - 7 * e, level + 12 * e, a + 12 * e, level + 7 * e, a, level + 6.8 * e)
    .close();
  const rim = new Pen().move(b, level - 14.5 * e).quad(b + 3.4 * e, level, b, level + 14.5 * e);
  const ripple = scene.pipes?.ripple ?? 0;
  const flow = new Pen();
  const length = inner.right - inner.left;
  for (let i = 0; i < Math.min(3, Math.ceil(ripple)); i++) {
    const reach = length * (0.22 + 0.14 * ripple) * (1 - 0.24 * i);
    const y = level - 6 * e + i * 7 * e;
    const end = Math.min(b + reach, inner.right - 8);
    flow
      .move(b + 4, y)
      .cubic(
        mix(b, end, 0.3),
        y + i * 9 * e + 2,
        mix(b, end, 0.65),
        surface + (9 + 9 * i) * e,
        end,
        surface + (11 + 8 * i) * e,
      );
  }
  return {
    mouth: [b, level],
    seen: [outer.left - 33 * e, mix(low, crown, 0.78)],
    nodes: [
      ...tube(d, 13 * e),
      ...paths(
        ["d-bell", bell.d],
        ["d-bell-rim", rim.d],
        ["d-flow", flow.d],
        ["d-break", cutOff(new Pen(), outer.left - 33 * e, low).d],
      ),
    ],
  };
}

function bubbles(
  scene: DrawnScene,
  frame: Frame,
  from: Point,
  name: string,
  count: number,
  size: number,
  spreadOut: number,
): DrawingNode {
  const random = streamOf(scene.seed, name);
  const { inner, surface } = frame;
  const rise = from[1] - surface;
  const circles: DrawingNode[] = [];
  for (let i = 0; i < count; i++) {
    const t = random() ** 0.85;
    const drift = clamp((t - 0.7) / 0.3, 0, 1) ** 2 * rise * 0.2 * random();
    const r = Math.max(0.5, size * (1.2 - 0.55 * t) * between(random, 0.55, 1.15));
    const x = clamp(
      from[0] + between(random, -0.5, 0.5) * (spreadOut + rise * 0.09 * t) + drift,
      inner.left + 2,
      inner.right - 2,
    );
    circles.push(
      element("circle", { cx: round1(x), cy: round1(from[1] - 3 - t * Math.max(0, rise - 7)), r: round1(r) }),
    );
  }
  return group("d-bubbles", circles);
}

function diffuser(
  scene: DrawnScene,
  frame: Frame,
  ground: Ground,
  mouth: Point | undefined,
): { nodes: DrawingNode[]; seen: Point; outside: boolean } | undefined {
  const { diffuser: plan } = scene;
  if (!plan) return undefined;
  const e = hand(frame);
  const { inner, outer, surface } = frame;
  const rate = plan.bubbles > 0 ? Math.round(clamp(16 + plan.bubbles * 34, 0, frame.compact ? 50 : 90)) : 0;
  if (/in-?line|reactor|external/i.test(plan.device)) {
    // It sits in the hose outside: in the tank only its mist shows, at the outlet.
    if (!mouth) return undefined;
    const y = surface - 2;
    const x = outer.left - 33 * e;
    return {
      nodes: [
        rect("d-disc", { left: x - 8 * e, right: x + 8 * e, top: y - 16 * e, bottom: y + 8 * e }),
        bubbles(scene, frame, [mouth[0] + 10, mouth[1] + 8], "mist", Math.round(rate * 0.6), 0.7, 44),
      ],
      seen: [x, y - 4 * e],
      outside: true,
    };
  }
  const x = Math.min(inner.left + 96 * e, mix(inner.left, inner.right, 0.42));
  const foot = ground.y(x, 0);
  const y = foot - Math.min(32 * e, (foot - surface) * 0.3);
  const hose = new Pen();
  const wall = inner.left + 8 * e;
  const crown = inner.top - 24 * e;
  hose
    .move(x, y + 12 * e)
    .quad(x, y + 22 * e, x - 10 * e, Math.min(y + 22 * e, foot - 1))
    .line(wall + 8 * e, Math.min(y + 22 * e, foot - 1));
  hose
    .quad(wall, Math.min(y + 22 * e, foot - 1), wall, Math.min(y + 14 * e, foot - 9))
    .line(wall, crown + 8 * e)
    .quad(wall, crown, wall - 8 * e, crown);
  const out = outer.left - 5 * e;
  hose
    .line(out + 4 * e, crown)
    .quad(out, crown, out, crown + 8 * e)
    .line(out, surface + Math.min(22 * e, (foot - surface) * 0.3));
  const nodes = [
    ...paths(
      ["d-hose", hose.d],
      [
        "d-break",
        new Pen()
          .move(out - 4, surface + Math.min(22 * e, (foot - surface) * 0.3) + 1.5)
          .line(out + 4, surface + Math.min(22 * e, (foot - surface) * 0.3) - 1.5).d,
      ],
    ),
  ];
  if (/bell|cup|dome/i.test(plan.device)) {
    const r = 15 * e;
    const bell = new Pen().move(x - r, y + 2).cubic(x - r, y - r * 1.5, x + r, y - r * 1.5, x + r, y + 2);
    nodes.push(...paths(["d-disc", bell.d]));
  } else {
    const cup = new Pen()
      .move(x - 12 * e, y)
      .quad(x - 12 * e, y + 12 * e, x, y + 12.5 * e)
      .quad(x + 12 * e, y + 12 * e, x + 12 * e, y)
      .close();
    nodes.push(
      ...paths(["d-bell", cup.d]),
      rect("d-disc", { left: x - 14 * e, right: x + 14 * e, top: y - 1.5, bottom: y + 1.5 }),
    );
  }
  nodes.push(bubbles(scene, frame, [x, y], "bubbles", rate, 1.35, 18 * e));
  return { nodes, seen: [x, y], outside: false };
}

/** Of some places along the tank the one with the least growing before it. */
function barest(places: readonly number[], covers: readonly Box[]): number {
  const crowd = (x: number): number => covers.filter((c) => x > c.left - 6 && x < c.right + 6).length;
  return places.reduce((best, x) => (crowd(x) < crowd(best) ? x : best));
}

export function drawFittings(scene: DrawnScene, frame: Frame, ground: Ground, covers: readonly Box[]): Fittings {
  const e = hand(frame);
  const { inner, outer, surface } = frame;
  const depth = inner.bottom - surface;
  const items: Item[] = [];
  const front: DrawingNode[] = [];
  const back: DrawingNode[] = [];
  const taken: Box[] = [];
  const take = (left: number, right: number): void => {
    taken.push({ left: inner.left + left * e, right: inner.left + right * e, top: surface, bottom: inner.bottom });
  };
  if (scene.pipes?.intake) {
    back.push(...intake(frame, ground));
    take(0, 38);
  }
  const lily = scene.pipes?.outlet ? outlet(scene, frame) : undefined;
  const gas = diffuser(scene, frame, ground, lily?.mouth);
  if (gas) front.push(...gas.nodes);
  if (lily) front.push(...lily.nodes);

  let thermometer: Point | undefined;
  if (scene.thermometer !== undefined) {
    const x = inner.left + 60 * e;
    const foot = ground.y(x, 0);
    const long = Math.min(92 * e, (foot - surface) * 0.5);
    const low = foot - Math.min(52 * e, (foot - surface) * 0.22);
    const w = Math.max(5 * e, 2.6);
    const glass = new Pen()
      .move(x - w / 2, low - w)
      .line(x - w / 2, low - long)
      .quad(x - w / 2, low - long - w * 0.6, x, low - long - w * 0.6)
      .quad(x + w / 2, low - long - w * 0.6, x + w / 2, low - long)
      .line(x + w / 2, low - w)
      .cubic(x + w * 1.3, low - w * 0.4, x + w * 1.1, low + w, x, low + w)
      .cubic(x - w * 1.1, low + w, x - w * 1.3, low - w * 0.4, x - w / 2, low - w)
      .close();
    // The stem runs from 10 to 35 °C.
    const level = mix(low - w, low - long + 2, clamp((scene.thermometer - 10) / 25, 0.04, 1));
    const scale = new Pen();
    for (let k = 1; k < 10; k++) {
      const y = mix(low - w, low - long + 2, k / 10);
      scale.move(x + w / 2, y).line(x + w / 2 + (k % 5 === 0 ? 3 : 1.8), y);
    }
    const fluid = new Pen().move(x, low).line(x, level);
    take(50, 72);
    back.push(
      ...paths(
        ["d-thermometer", glass.d],
        ["d-scale", scale.d],
        ["d-fluid", fluid.d],
        ["d-fluid-bulb", new Pen().dot(x, low - 0.2).d],
      ),
    );
    thermometer = [x, low - w];
  }
  if (scene.heater) {
    const x = inner.left + 46 * e;
    const w = 11 * e;
    const [a, b] = [surface + Math.min(46 * e, depth * 0.14), surface + Math.min(196 * e, depth * 0.6)];
    take(38, 56);
    const coil = new Pen();
    for (let y = b - 8 * e; y > mix(a, b, 0.42); y -= Math.max(4 * e, 2.6))
      coil.move(x - w * 0.3, y).line(x + w * 0.3, y - 1.6);
    const cord = new Pen()
      .move(x, a)
      .line(x, inner.top - 6)
      .quad(x, inner.top - 12, x - 6, inner.top - 12)
      .line(outer.left - 3, inner.top - 12);
    const shell = new Pen()
      .move(x - w / 2, a + 10 * e)
      .line(x - w / 2, b - w / 2)
      .cubic(x - w / 2, b + w * 0.2, x + w / 2, b + w * 0.2, x + w / 2, b - w / 2)
      .line(x + w / 2, a + 10 * e)
      .close();
    const cap = new Pen().polyline(
      [
        [x - w * 0.6, a],
        [x + w * 0.6, a],
        [x + w * 0.6, a + 11 * e],
        [x - w * 0.6, a + 11 * e],
      ],
      true,
    );
    back.push(...paths(["d-cord", cord.d], ["d-heater", shell.d], ["d-coil", coil.d], ["d-cap", cap.d]));
  }
  if (scene.airStone) {
    const x = barest(
      [inner.right - 40 * e, mix(inner.left, inner.right, 0.34), mix(inner.left, inner.right, 0.6)],
      covers,
    );
    const foot = ground.y(x, 0.4);
    const pane = x > (inner.left + inner.right) / 2 ? inner.right - 5 * e : inner.left + 14 * e;
    const line = new Pen()
      .move(x, foot - 5 * e)
      .quad(mix(x, pane, 0.6), foot - 2, pane, foot - 26 * e)
      .line(pane, inner.top + 1);
    const stone = new Pen().polyline(
      [
        [x - 10 * e, foot - 9 * e],
        [x + 10 * e, foot - 9 * e],
        [x + 10 * e, foot - 1],
        [x - 10 * e, foot - 1],
      ],
      true,
    );
    items.push({
      depth: 0.4,
      nodes: [
        ...paths(["d-hose", line.d], ["d-air-stone", stone.d]),
        bubbles(scene, frame, [x, foot - 8 * e], "air", frame.compact ? 30 : 60, 2, 22 * e),
      ],
    });
  }
  if (gas && !gas.outside) take((gas.seen[0] - inner.left) / e - 22, (gas.seen[0] - inner.left) / e + 22);
  return { items, back, front, covers: taken, outlet: lily?.seen, diffuser: gas?.seen, thermometer };
}
