/** Branching wood: a tapered main limb, forked side limbs and a leg, with bark strokes along them. */
import type { Frame } from "./frame.ts";
import { type Box, clamp, mix, type Point, splineSamples } from "./geometry.ts";
import type { Ground } from "./ground.ts";
import { group, paths } from "./node.ts";
import { Pen } from "./pen.ts";
import { between, type Random, streamOf } from "./random.ts";
import type { DrawnScene, SectionHardscape } from "./scene.ts";
import type { Perch } from "./stage.ts";
import { type Drawn, footprint } from "./stone.ts";

interface Limb {
  readonly points: readonly Point[];
  readonly from: number;
  readonly to: number;
}

/**
 * Side limbs of a wood that leans: where on the main limb (share), first and last heading (rad; positive = to the
 * side it leans to), how much more the heading turns that way with a full lean, length in main limbs, thickness as a
 * share of the main limb's there. Design values, by eye.
 */
const sideLimbs = [
  { at: 0.31, first: -1.15, last: -0.72, turn: 0, length: 0.52, thick: 0.6, twig: [0.6, -0.15, 0.24] },
  { at: 0.53, first: -0.2, last: -0.62, turn: 0, length: 0.32, thick: 0.52, twig: [0.55, -1.1, 0.17] },
  { at: 0.63, first: 1.05, last: 1.2, turn: 1.35, length: 0.4, thick: 0.58, twig: [0.5, 0.3, 0.12] },
  { at: 0.73, first: -0.65, last: -0.35, turn: 0, length: 0.23, thick: 0.55, twig: undefined },
  { at: 0.8, first: 0.5, last: 0.65, turn: 0.2, length: 0.22, thick: 0.62, twig: undefined },
  { at: 0.9, first: 0.85, last: 1.15, turn: 1.4, length: 0.25, thick: 0.75, twig: undefined },
  { at: 0.24, first: 2.3, last: 2.85, turn: 0, length: 0.4, thick: 0.62, twig: undefined },
] as const;

/** A crooked line from a start along a turning heading; y up, in any unit. */
function grown(
  start: Point,
  headings: (t: number) => number,
  length: number,
  random: Random,
  steps: number,
  crook: number,
): Point[] {
  const out: Point[] = [start];
  let [x, y] = start;
  for (let i = 1; i <= steps; i++) {
    const h = headings((i - 0.5) / steps) + between(random, -crook, crook);
    x += (Math.sin(h) * length) / steps;
    y += (Math.cos(h) * length) / steps;
    out.push([x, y]);
  }
  return out;
}

const pick = (points: readonly Point[], t: number): Point => {
  const f = clamp(t, 0, 1) * (points.length - 1);
  const i = Math.min(points.length - 2, Math.floor(f));
  const a = points[i] as Point;
  const b = points[i + 1] as Point;
  return [mix(a[0], b[0], f - i), mix(a[1], b[1], f - i)];
};

/** The limbs in px, leaning and fitted into the box. Thinnest first, so that the main limb is painted last. */
function limbsIn(box: Box, piece: SectionHardscape, random: Random): Limb[] {
  const lean = Math.abs(piece.lean);
  const side = piece.lean < 0 ? -1 : 1;
  const phase = random() * 6;
  const worn = piece.texture === "rounded";
  const trunkHeading = (t: number): number =>
    lean * (0.5 + 1.05 * Math.sin(0.78 * Math.PI * t)) + 0.34 * (1 - lean) * Math.sin(4.2 * t + phase);
  const trunk = grown([0, -0.06], trunkHeading, 1.1, random, 8, 0.16);
  const thickness = worn ? 0.07 : 0.056;
  const girth = (t: number): number => thickness * ((1 - t) ** 0.8 * 0.88 + 0.12);
  const limbs: Limb[] = [{ points: trunk, from: thickness, to: thickness * 0.12 }];
  sideLimbs.forEach((plan, i) => {
    if (worn && (i === 1 || i === 3 || i === 5)) return;
    const at = plan.at + between(random, -0.03, 0.03);
    const swing = between(random, -0.18, 0.18);
    const [first, last] = [plan.first + plan.turn * lean + swing, plan.last + plan.turn * lean + swing * 0.5];
    const length = plan.length * between(random, 0.88, 1.16);
    const leg = plan.first > 2;
    const radius = girth(at) * plan.thick;
    const points = grown(pick(trunk, at), (t) => mix(first, last, t), length, random, leg ? 4 : 5, leg ? 0.1 : 0.24);
    limbs.push({ points, from: radius, to: leg ? radius * 0.55 : radius * 0.2 });
    if (plan.twig) {
      const [t, heading, reach] = plan.twig;
      const twig = grown(
        pick(points, t),
        (u) => heading + swing + u * 0.3,
        reach * between(random, 0.85, 1.15),
        random,
        3,
        0.2,
      );
      limbs.push({ points: twig, from: radius * 0.5, to: radius * 0.16 });
    }
  });
  const all = limbs.flatMap((l) => l.points.map(([x, y]): Point => [x * side, y]));
  const xs = all.map((p) => p[0]);
  const [x0, x1] = [Math.min(...xs), Math.max(...xs)];
  const top = Math.max(...all.map((p) => p[1]));
  const margin = Math.min(3, (box.right - box.left) / 8, (box.bottom - box.top) / 8);
  const kx = (box.right - box.left - 2 * margin) / (x1 - x0 || 1);
  const ky = (box.bottom - box.top - margin) / (top + 0.06);
  const even = Math.sqrt(kx * ky);
  const map = ([x, y]: Point): Point => [
    box.left + margin + (x * side - x0) * kx,
    Math.min(box.bottom - (y + 0.06) * ky, box.bottom),
  ];
  return limbs
    .map((l) => ({ points: l.points.map(map), from: l.from * even, to: Math.max(l.to * even, 0.7) }))
    .sort((a, b) => a.from - b.from);
}

interface Station {
  readonly point: Point;
  readonly normal: Point;
  /** Half widths on the side of the normal and on the other. */
  readonly left: number;
  readonly right: number;
  readonly radius: number;
}

function stations(limb: Limb, random: Random): Station[] {
  const points = splineSamples(limb.points, 3);
  const n = points.length - 1;
  const phase = random() * 6;
  return points.map((point, i) => {
    const a = points[Math.max(0, i - 1)] as Point;
    const b = points[Math.min(n, i + 1)] as Point;
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
    const normal: Point = [-(b[1] - a[1]) / length, (b[0] - a[0]) / length];
    const t = i / n;
    const radius = mix(limb.to, limb.from, (1 - t) ** 0.85);
    return {
      point,
      normal,
      radius,
      left: radius * (1 + 0.1 * Math.sin(i * 1.3 + phase) + 0.06 * Math.sin(i * 3.1 + phase)),
      right: radius * (1 + 0.1 * Math.sin(i * 1.15 + phase + 2) + 0.07 * Math.sin(i * 3.4 + phase)),
    };
  });
}

const off = (s: Station, share: number): Point => {
  const reach = share > 0 ? s.left * share : s.right * share;
  return [s.point[0] + s.normal[0] * reach, s.point[1] + s.normal[1] * reach];
};

export function drawWood(
  scene: DrawnScene,
  frame: Frame,
  ground: Ground,
  piece: SectionHardscape,
  index: number,
): Drawn {
  const random = streamOf(scene.seed, "wood", index);
  const box = footprint(piece, frame, ground);
  const limbs = limbsIn(box, piece, random);
  const keep = frame.inner;
  const [body, shade, light, bark, knots] = [new Pen(keep), new Pen(keep), new Pen(keep), new Pen(keep), new Pen(keep)];
  const perches: Perch[] = [];
  for (const limb of limbs) {
    const line = stations(limb, random);
    const last = line[line.length - 1] as Station;
    const before = line[line.length - 2] as Station;
    const tip: Point = [
      last.point[0] + (last.point[0] - before.point[0]) * 0.5,
      last.point[1] + (last.point[1] - before.point[1]) * 0.5,
    ];
    const back = [...line].reverse();
    const rim = (share: number) => line.map((s) => off(s, share));
    body
      .curve([...rim(1), tip])
      .curve([tip, ...back.map((s) => off(s, -1))], true)
      .close();

    // The side turned down lies in shade, the other catches light; the mean normal says which is which.
    const down = line.reduce((sum, s) => sum + s.normal[1], 0) >= 0 ? 1 : -1;
    if (limb.from > 1.8) {
      shade
        .curve(rim(down))
        .curve(
          [...back.map((s) => off(s, down * 0.36))].map((p, i) => (i === 0 ? off(last, down) : p)),
          true,
        )
        .close();
      const lit = line.slice(0, Math.ceil(line.length * 0.8));
      if (limb.from > 3) light.curve(lit.map((s) => off(s, -down * 0.62)));
    }
    const offsets =
      limb.from > 9
        ? [-0.68, -0.4, -0.12, 0.16, 0.45, 0.7]
        : limb.from > 4
          ? [-0.5, 0.02, 0.5]
          : limb.from > 2.2
            ? [-0.2, 0.4]
            : [];
    for (const share of offsets) {
      let i = 1 + Math.floor(random() * 3);
      while (i < line.length - 3) {
        const run = line
          .slice(i, Math.min(line.length - 1, i + 3 + Math.floor(random() * 7)))
          .filter((s) => s.radius > 1.5);
        if (run.length > 2)
          bark.curve(
            run
              .filter((_, k) => k % 2 === 0 || k === run.length - 1)
              .map((s, k) => off(s, share + 0.07 * Math.sin(k * 1.7 + share * 9))),
          );
        i += run.length + 1 + Math.floor(random() * 3);
      }
    }
    // Short strokes round the shaded side give the limb its body.
    if (!frame.compact) {
      for (let i = 1; i < line.length - 2; i++) {
        const s = line[i] as Station;
        const next = line[i + 1] as Station;
        if (s.radius < 2.6) continue;
        for (let k = 0; k < 3; k++) {
          const [p, q] = [off(s, down * 0.96), off(next, down * 0.96)];
          const [a, b] = [off(s, down * between(random, 0.46, 0.62)), off(next, down * 0.5)];
          const t = k / 3;
          bark.polyline([
            [mix(p[0], q[0], t), mix(p[1], q[1], t)],
            [mix(a[0], b[0], t + 0.3), mix(a[1], b[1], t + 0.3)],
          ]);
        }
      }
    }
    if (limb.from > 7) {
      const s = line[Math.floor(line.length * 0.38)] as Station;
      const [x, y] = off(s, -0.1);
      for (const k of [0.34, 0.18]) {
        const r = s.radius * k;
        knots.loop([
          [x + s.normal[0] * r, y + s.normal[1] * r],
          [x - s.normal[1] * r * 1.7, y + s.normal[0] * r * 1.7],
          [x - s.normal[0] * r, y - s.normal[1] * r],
          [x + s.normal[1] * r * 1.7, y - s.normal[0] * r * 1.7],
        ]);
      }
    }
    line.forEach((s, i) => {
      if (i === 0 || s.radius < 1) return;
      const up = s.normal[1] < 0 ? 1 : -1;
      perches.push({
        point: [s.point[0] + s.normal[0] * up * s.radius * 0.5, s.point[1] + s.normal[1] * up * s.radius * 0.5],
        heading: Math.atan2(s.normal[0] * up, -s.normal[1] * up),
        radius: s.radius,
        depth: piece.depth,
        on: "wood",
      });
    });
  }
  const nodes = [
    group(
      "d-piece",
      paths(
        ["d-wood", body.d],
        ["d-wood-shade", shade.d],
        ["d-wood-light", light.d],
        ["d-bark", bark.d],
        ["d-knot", knots.d],
      ),
    ),
  ];
  return { nodes, perches, box };
}
