/**
 * The ground: its height anywhere, and its drawing as a cut at the front third of the depth with the slope that rises
 * behind it. Soil and sand are stippled, coarse layers drawn as open grains.
 */
import { fieldHeight } from "../geometry/index.ts";
import type { Frame } from "./frame.ts";
import { clamp, mix, type Point, smooth } from "./geometry.ts";
import { type DrawingNode, element, group, paths } from "./node.ts";
import { Pen, round1 } from "./pen.ts";
import { between, streamOf } from "./random.ts";
import type { DrawnScene, SectionLayer } from "./scene.ts";

/** The cut runs at this share of the depth. */
export const CUT = 1 / 3;

export interface Ground {
  /** Page y of the ground at page x and a depth; nearer than the cut it is the cut itself. */
  y(x: number, depth: number): number;
  /** Height of the top of layer `index` over the floor at the cut, px. */
  cutHeight(x: number, index: number): number;
}

function thicknessAt(layer: SectionLayer, along: number, depth: number): number {
  if (layer.field) return fieldHeight(layer.field, along * layer.field.length, depth * layer.field.width);
  // The bank keeps level by the panes and rises between, as soil banked against hardscape does.
  const u = smooth((along - 0.06) / 0.88);
  const v = depth ** 1.3;
  return mix(mix(layer.frontLeft, layer.frontRight, u), mix(layer.backLeft, layer.backRight, u), v);
}

export function groundOf(scene: DrawnScene, frame: Frame): Ground {
  const { inner, scale } = frame;
  const length = inner.right - inner.left;
  const phase = streamOf(scene.seed, "ground")() * 6;
  const share = (x: number): number => clamp((x - inner.left) / length, 0, 1);

  /** Small unevenness that dies out at the panes, so that the heights written there are the true ones. */
  const uneven = (t: number, depth: number, height: number): number => {
    const most = Math.min(3.2, height * 0.1);
    return (
      most *
      Math.sin(Math.PI * t) ** 0.5 *
      (0.65 * Math.sin(t * 12 + phase + depth) + 0.35 * Math.sin(t * 31 + phase * 2))
    );
  };
  const upTo = (t: number, depth: number, layers: number): number => {
    let sum = 0;
    for (let i = 0; i < layers; i++) {
      const layer = scene.layers[i];
      if (layer) sum += thicknessAt(layer, t, depth);
    }
    return sum * scale;
  };
  const heightAt = (x: number, depth: number, layers: number): number => {
    const t = share(x);
    const height = upTo(t, depth, layers);
    const wave = layers === scene.layers.length ? uneven(t, depth, height) : height * 0.06 * Math.sin(t * 40 + layers);
    return Math.max(0, height + wave);
  };
  return {
    y: (x, depth) => inner.bottom - heightAt(x, Math.max(depth, CUT), scene.layers.length),
    cutHeight: (x, index) => heightAt(x, CUT, index + 1),
  };
}

/** What a cut needs to know of the page. */
export type CutFrame = Pick<Frame, "inner" | "scale" | "compact">;

function profile(frame: CutFrame, y: (x: number) => number, steps: number, from?: number, to?: number): Point[] {
  const a = from ?? frame.inner.left;
  const b = to ?? frame.inner.right;
  return Array.from({ length: steps + 1 }, (_, i): Point => {
    const x = mix(a, b, i / steps);
    return [x, y(x)];
  });
}

const steps = (frame: CutFrame): number => Math.round(clamp((frame.inner.right - frame.inner.left) / 14, 12, 60));

/** Area under a height given for each page x, px². */
const areaBetween = (frame: CutFrame, height: (x: number) => number): number =>
  (profile(frame, (x) => Math.max(0, height(x)), 24).reduce((sum, [, h]) => sum + h, 0) / 25) *
  (frame.inner.right - frame.inner.left);

/** Dots on a jittered grid: even as a hand-drawn stipple is. */
function stipple(
  frame: CutFrame,
  random: () => number,
  spacing: number,
  top: (x: number) => number,
  bottom: (x: number) => number,
  chance: (x: number, t: number) => number,
  pens: readonly { pen: Pen; share: number }[],
): void {
  const { inner } = frame;
  const columns = Math.ceil((inner.right - inner.left) / spacing);
  for (let i = 0; i < columns; i++) {
    const x0 = inner.left + (i + 0.5) * spacing;
    const [a, b] = [top(x0), bottom(x0)];
    for (let y0 = a + spacing * 0.5; y0 < b - spacing * 0.3; y0 += spacing) {
      if (random() > chance(x0, clamp((y0 - a) / (b - a || 1), 0, 1))) continue;
      const x = clamp(x0 + between(random, -0.62, 0.62) * spacing, inner.left + 1.2, inner.right - 1.2);
      const y = y0 + between(random, -0.55, 0.55) * spacing;
      if (y < a + 1 || y > b - 1) continue;
      let pick = random();
      for (const { pen, share } of pens) {
        if (pick < share) {
          pen.dot(x, y);
          break;
        }
        pick -= share;
      }
    }
  }
}

/** The surface that rises behind the cut. */
export function drawSlope(scene: DrawnScene, frame: Frame, ground: Ground): DrawingNode[] {
  if (scene.layers.length === 0) return [];
  const { inner } = frame;
  const random = streamOf(scene.seed, "slope");
  const n = steps(frame);
  const back = profile(frame, (x) => ground.y(x, 1), n);
  const body = new Pen().move(inner.left, inner.bottom);
  body
    .line(inner.left, back[0]?.[1] ?? inner.bottom)
    .curve(back, true)
    .line(inner.right, inner.bottom)
    .close();
  const grains = new Pen();
  const slopeArea = areaBetween(frame, (x) => ground.y(x, CUT) - ground.y(x, 1));
  stipple(
    frame,
    random,
    Math.max(frame.compact ? 7 : 5.4, Math.sqrt(slopeArea / 1800)),
    (x) => ground.y(x, 1),
    (x) => ground.y(x, CUT),
    (_, t) => 0.3 + 0.5 * t,
    [{ pen: grains, share: 1 }],
  );
  const top = scene.layers.at(-1)?.material ?? "soil";
  return [
    group(
      `d-slope d-${top}`,
      paths(["d-ground-back", body.d], ["d-grain-back", grains.d], ["d-slope-line", new Pen().curve(back).d]),
    ),
  ];
}

/**
 * A piece of the slope in front of something that stands on it, so that its foot is sunk in the ground.
 * `from` and `to` are page x.
 */
export function apron(
  scene: DrawnScene,
  frame: Frame,
  ground: Ground,
  from: number,
  to: number,
  depth: number,
): DrawingNode[] {
  if (scene.layers.length === 0 || depth <= CUT) return [];
  const a = clamp(from, frame.inner.left, frame.inner.right);
  const b = clamp(to, frame.inner.left, frame.inner.right);
  if (b - a < 2) return [];
  const random = streamOf(scene.seed, "apron", Math.round(from), Math.round(depth * 1000));
  const n = Math.max(4, Math.round((b - a) / 7));
  const rise = (i: number): number => (i === 0 || i === n ? 0 : between(random, -1, 2.6));
  const top = profile(frame, (x) => ground.y(x, depth), n, a, b).map(([x, y], i): Point => [x, y - rise(i)]);
  const low = (x: number): number => Math.max(ground.y(x, CUT), ground.y(x, depth));
  const pen = new Pen().curve(top);
  pen.line(b, low(b)).line(a, low(a)).close();
  const grains = new Pen();
  for (const [x, y] of top) {
    const room = low(x) - y;
    for (let k = 0; k < room / 9 + 1; k++)
      grains.dot(x + between(random, -3, 3), y + between(random, 0.8, Math.max(1.5, room)));
  }
  const material = scene.layers.at(-1)?.material ?? "soil";
  return [group(`d-${material}`, paths(["d-ground-back", pen.d], ["d-grain-back", grains.d]))];
}

/** Coarse grains, packed in rows: a dark dot and a pale one on top make an open grain. */
function openGrains(
  frame: CutFrame,
  random: () => number,
  lower: (x: number) => number,
  upper: (x: number) => number,
): DrawingNode[] {
  const { inner } = frame;
  // To scale while that can be read, coarser in a deep bed.
  const area = areaBetween(frame, (x) => upper(x) - lower(x));
  const size = Math.max(clamp(frame.scale * 0.0052, 3.2, 6), Math.sqrt(area / 2400));
  const pitch = size * 1.08;
  const pen = new Pen();
  let row = 0;
  const highest = Math.max(...profile(frame, upper, 24).map(([, h]) => h));
  for (let up = size * 0.6; up < highest; up += pitch * 0.9) {
    row++;
    for (let x = inner.left + size * (row % 2 ? 0.6 : 1.1); x < inner.right - size * 0.5; x += pitch) {
      const height = up + between(random, -0.12, 0.12) * size;
      if (height < lower(x) + size * 0.35 || height > upper(x) - size * 0.35) continue;
      pen.dot(x + between(random, -0.16, 0.16) * size, inner.bottom - height);
    }
  }
  if (pen.d === "") return [];
  return [
    element("path", { class: "d-open", d: pen.d, "stroke-width": round1(size + 0.4) }),
    element("path", { class: "d-open-in", d: pen.d, "stroke-width": round1(size - 0.7) }),
  ];
}

/** The cut itself, layer by layer. */
export function drawCut(
  scene: { readonly layers: readonly Pick<SectionLayer, "material">[]; readonly seed: number },
  frame: CutFrame,
  ground: Pick<Ground, "cutHeight">,
): DrawingNode[] {
  if (scene.layers.length === 0) return [];
  const { inner } = frame;
  const n = steps(frame);
  const out: DrawingNode[] = [];
  // From the top layer down: each lower layer covers the foot of the one above.
  for (let i = scene.layers.length - 1; i >= 0; i--) {
    const layer = scene.layers[i];
    if (!layer) continue;
    const upper = (x: number): number => ground.cutHeight(x, i);
    const lower = (x: number): number => (i > 0 ? ground.cutHeight(x, i - 1) : 0);
    const line = profile(frame, (x) => inner.bottom - upper(x), n);
    const body = new Pen().move(inner.left, inner.bottom);
    body
      .line(inner.left, line[0]?.[1] ?? inner.bottom)
      .curve(line, true)
      .line(inner.right, inner.bottom)
      .close();
    const random = streamOf(scene.seed, "layer", i);
    const children = paths(["d-ground", body.d]);
    if (layer.material === "gravel") children.push(...openGrains(frame, random, lower, upper));
    else {
      const area = areaBetween(frame, (x) => upper(x) - lower(x));
      const fine = layer.material === "sand";
      const spacing = Math.max(fine ? 4.2 : 3.1, Math.sqrt(area / (frame.compact ? 1100 : 2100)));
      const small = new Pen();
      const large = new Pen();
      stipple(
        frame,
        random,
        spacing,
        (x) => inner.bottom - upper(x),
        (x) => inner.bottom - lower(x),
        (_, t) => (fine ? 0.72 : 0.7 + 0.28 * t),
        fine
          ? [{ pen: small, share: 1 }]
          : [
              { pen: small, share: 0.8 },
              { pen: large, share: 0.2 },
            ],
      );
      children.push(...paths(["d-grain", small.d], ["d-grain-large", large.d]));
    }
    if (i === scene.layers.length - 1) children.push(...paths(["d-cut", new Pen().curve(line).d]));
    else children.push(...paths(["d-layer-line", new Pen().curve(line).d]));
    out.push(group(`d-${layer.material}`, children));
  }
  return out;
}
