/** Light and water: the beam under the lamp, the lit wedge in the water, the surface with its waves. */
import type { Frame } from "./frame.ts";
import { type Box, clamp, mix, type Point } from "./geometry.ts";
import { type DrawingNode, group, paths } from "./node.ts";
import { Pen } from "./pen.ts";
import { between, streamOf } from "./random.ts";
import type { DrawnScene } from "./scene.ts";

/** Ends of the lamp on the page; one that reaches far past the tank is cut off. */
export function lampSpan(scene: DrawnScene, frame: Frame): { left: number; right: number; cut: boolean } {
  const middle = (frame.inner.left + frame.inner.right) / 2;
  const half = Math.max(((scene.lamp?.length ?? 0) * frame.scale) / 2, 6);
  const most = (frame.outer.right - frame.outer.left) / 2 + Math.min(frame.reach, 24);
  return { left: middle - Math.min(half, most), right: middle + Math.min(half, most), cut: half > most };
}

/** How far light spreads per px down, in air and (bent towards the plumb line) in water. */
export const SPREAD = { bar: [0.3, 0.15], panel: [0.24, 0.13], tube: [0.42, 0.22], pendant: [0.46, 0.26] } as const;
/** Three wedges in one another make the soft edge. */
const SOFT = [1.35, 1, 0.62] as const;

export const strengthClass = (strength: number): string => `d-strength-${Math.round(strength * 4)}`;

interface Wedge {
  readonly top: readonly [number, number];
  readonly surface: readonly [number, number];
  readonly floor: readonly [number, number];
}

function wedges(scene: DrawnScene, frame: Frame): Wedge[] {
  const { lamp } = scene;
  if (!lamp || lamp.strength === 0) return [];
  const { left, right } = lampSpan(scene, frame);
  const inset = Math.min(6, (right - left) * 0.1);
  const [air, water] = SPREAD[lamp.kind];
  const { inner, surface } = frame;
  const hold = (x: number): number => clamp(x, inner.left, inner.right);
  return SOFT.map((k) => {
    const a = hold(left + inset - (surface - frame.lamp.under) * air * k);
    const b = hold(right - inset + (surface - frame.lamp.under) * air * k);
    const deep = (inner.bottom - surface) * water * k;
    return { top: [left + inset, right - inset], surface: [a, b], floor: [hold(a - deep), hold(b + deep)] };
  });
}

export function drawBeam(scene: DrawnScene, frame: Frame): DrawingNode[] {
  const beams = wedges(scene, frame).map(({ top, surface }) =>
    new Pen().polyline(
      [
        [top[0], frame.lamp.under],
        [top[1], frame.lamp.under],
        [surface[1], frame.surface],
        [surface[0], frame.surface],
      ],
      true,
    ),
  );
  if (beams.length === 0) return [];
  return [group(strengthClass(scene.lamp?.strength ?? 0), paths(...beams.map((pen) => ["d-beam", pen.d] as const)))];
}

/** The wavy line of the surface, highest by the outlet. */
function surfaceLine(scene: DrawnScene, frame: Frame): Point[] {
  const { inner, surface } = frame;
  const length = inner.right - inner.left;
  const ripple = scene.pipes?.ripple ?? (scene.airStone ? 1.4 : 0.2);
  const n = Math.round(clamp(length / 4.4, 20, 220));
  const phase = streamOf(scene.seed, "surface")() * 6;
  return Array.from({ length: n + 1 }, (_, i): Point => {
    const x = (i / n) * length;
    const height = 0.22 + ripple * (0.12 + 0.3 * Math.exp((-2.2 * x) / length));
    return [inner.left + x, surface + height * Math.sin(x / 4.7 + phase) * Math.cos(x / 29 + phase)];
  });
}

export function drawWater(scene: DrawnScene, frame: Frame): DrawingNode[] {
  const { inner, surface } = frame;
  const line = surfaceLine(scene, frame);
  const body = new Pen().move(inner.left, inner.bottom).line(inner.left, line[0]?.[1] ?? surface);
  for (const [x, y] of line.slice(1)) body.line(x, y);
  body.line(inner.right, inner.bottom).close();
  const lit = wedges(scene, frame).map(({ surface: s, floor }) =>
    new Pen().polyline(
      [
        [s[0], surface],
        [s[1], surface],
        [floor[1], inner.bottom],
        [floor[0], inner.bottom],
      ],
      true,
    ),
  );
  // Engraver's lines thin out downwards, as depth does in an old plate.
  const engraved = new Pen();
  const random = streamOf(scene.seed, "engraving");
  const depth = inner.bottom - surface;
  for (let i = 0; i < (frame.compact ? 4 : 8); i++) {
    const y = surface + 7 + i * 3.2 + i * i * 1.15;
    if (y > surface + depth * 0.5) break;
    let x = inner.left + between(random, 4, 40 + i * 10);
    while (x < inner.right - 12) {
      const dash = between(random, 14, 80 - i * 6);
      engraved.move(x, y).line(Math.min(x + dash, inner.right - 4), y);
      x += dash + between(random, 14, 30 + i * 26);
    }
  }
  return [
    ...paths(["d-water", body.d]),
    ...(lit.length > 0
      ? [group(strengthClass(scene.lamp?.strength ?? 0), paths(...lit.map((pen) => ["d-lit", pen.d] as const)))]
      : []),
    ...paths(["d-engraved", engraved.d]),
  ];
}

export function drawSurface(scene: DrawnScene, frame: Frame): DrawingNode[] {
  return paths(["d-surface", new Pen().polyline(surfaceLine(scene, frame)).d]);
}

/** A lamp's housing, lit face and ribs, to its box on the page; the lit face stands out a little below. */
export function lampShape(
  kind: keyof typeof SPREAD,
  { left, right, top, bottom: under }: Box,
  { body, led, detail }: { readonly body: Pen; readonly led: Pen; readonly detail: Pen },
): void {
  const thick = under - top;
  const rect = (pen: Pen, x0: number, y0: number, x1: number, y1: number): Pen =>
    pen.polyline(
      [
        [x0, y0],
        [x1, y0],
        [x1, y1],
        [x0, y1],
      ],
      true,
    );
  const inset = Math.min(6, (right - left) * 0.1);
  if (kind === "pendant") {
    const middle = (left + right) / 2;
    const neck = Math.min((right - left) * 0.16, 9);
    body
      .move(middle - neck, top)
      .line(middle + neck, top)
      .cubic(middle + neck * 1.4, top + thick * 0.5, right, top + thick * 0.55, right, under)
      .line(left, under);
    body.cubic(left, top + thick * 0.55, middle - neck * 1.4, top + thick * 0.5, middle - neck, top).close();
    rect(led, left + 2, under, right - 2, under + 2);
  } else if (kind === "tube") {
    const r = thick / 2;
    body
      .move(left + r, top)
      .line(right - r, top)
      .cubic(right, top, right, under, right - r, under)
      .line(left + r, under);
    body.cubic(left, under, left, top, left + r, top).close();
    for (const x of [left + r * 1.6, right - r * 1.6]) detail.move(x, top).line(x, under);
    rect(led, left + r * 1.6, under - 2.4, right - r * 1.6, under - 0.4);
  } else {
    rect(body, left, top, right, under);
    rect(led, left + inset, under, right - inset, under + 1.9);
    if (kind === "panel") for (let x = left + 8; x < right - 4; x += 7) detail.move(x, top + 2).line(x, under - 4);
  }
}

/** Lamp with its cables, or its feet where it stands on the rim. */
export function drawLamp(scene: DrawnScene, frame: Frame): DrawingNode[] {
  const { lamp } = scene;
  if (!lamp) return [];
  const { left, right, cut } = lampSpan(scene, frame);
  const { under, thick, shortened } = frame.lamp;
  const top = under - thick;
  const [body, led, detail, cable] = [new Pen(), new Pen(), new Pen(), new Pen()];
  const middle = (left + right) / 2;
  lampShape(lamp.kind, { left, right, top, bottom: under }, { body, led, detail });
  if (lamp.kind === "pendant") cable.move(middle, top).line(middle, Math.max(2, top - 30));
  else {
    const gap = frame.inner.top - under;
    if (gap < 26) {
      const reachOut = (x: number): number => clamp(x, frame.outer.left + 1.5, frame.outer.right - 1.5);
      for (const [x, s] of [
        [left, 1],
        [right, -1],
      ] as const)
        cable.move(mix(x, middle, 0.04), under).line(reachOut(x + s * 2), frame.inner.top);
    } else {
      const [a, b] = [mix(left, right, 0.17), mix(left, right, 0.83)];
      const steep = frame.caption.between;
      const rise = steep ? Math.min(35, top - 1) : 11;
      const run = steep ? 28 : 7;
      cable
        .move(a, top)
        .line(a + run, top - rise)
        .move(b, top)
        .line(b - run, top - rise);
    }
  }
  const broken = new Pen();
  if (shortened) {
    const y = mix(under, frame.inner.top, 0.5);
    for (const x of [left, right])
      broken
        .move(x - 9, y + 2)
        .line(x + 9, y - 3)
        .move(x - 9, y + 6)
        .line(x + 9, y + 1);
  }
  if (cut) for (const x of [left + 5, right - 9]) broken.move(x, under + 3).line(x + 4, top - 3);
  return paths(
    ["d-cable", cable.d],
    ["d-lamp", body.d],
    ["d-lamp-detail", detail.d],
    ["d-led", led.d],
    ["d-break", broken.d],
  );
}
