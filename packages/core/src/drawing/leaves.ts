/** Single leaves, drawn with a pen from their base along a heading (rad, 0 = up). Lengths and widths in px. */
import { along, mix, type Point, quadAt, quadTangent } from "./geometry.ts";
import type { Pen } from "./pen.ts";
import { between, type Random } from "./random.ts";

/** The middle line of a leaf: base, control point, tip. */
export interface Midrib {
  readonly base: Point;
  readonly control: Point;
  readonly tip: Point;
}

/**
 * A midrib that starts along the heading and then falls away to the right of it by `bend` px (to the left where
 * negative), sagging a little as leaves do under water.
 */
export function midrib(base: Point, heading: number, length: number, bend: number): Midrib {
  const right: Point = [Math.cos(heading), Math.sin(heading)];
  const end = along(base, heading, length);
  const middle = along(base, heading, length * 0.52);
  return {
    base,
    control: [middle[0] - right[0] * bend * 0.28, middle[1] - right[1] * bend * 0.28],
    tip: [end[0] + right[0] * bend, end[1] + right[1] * bend + Math.abs(bend) * 0.22],
  };
}

export function drawMidrib(pen: Pen, rib: Midrib, until = 0.94): void {
  const end = quadAt(rib.base, rib.control, rib.tip, until);
  const c: Point = [mix(rib.base[0], rib.control[0], until), mix(rib.base[1], rib.control[1], until)];
  pen.move(rib.base[0], rib.base[1]).quad(c[0], c[1], end[0], end[1]);
}

/** The point at share t of the midrib, pushed `out` px to the left (positive) of its direction. */
function beside(rib: Midrib, t: number, out: number): Point {
  const p = quadAt(rib.base, rib.control, rib.tip, t);
  const u = quadTangent(rib.base, rib.control, rib.tip, t);
  return [p[0] + u[1] * out, p[1] - u[0] * out];
}

/** A plain lance-shaped leaf, `half` px to either side at its widest. */
export function lance(pen: Pen, rib: Midrib, half: number): void {
  const { base, control, tip } = rib;
  const [dx, dy] = [tip[0] - base[0], tip[1] - base[1]];
  const length = Math.hypot(dx, dy) || 1;
  const [nx, ny] = [(-dy / length) * half * 2, (dx / length) * half * 2];
  pen
    .move(base[0], base[1])
    .quad(control[0] + nx, control[1] + ny, tip[0], tip[1])
    .quad(control[0] - nx, control[1] - ny, base[0], base[1])
    .close();
}

/** An egg-shaped leaf, widest in its lower half, with a short point. */
export function ovate(pen: Pen, rib: Midrib, half: number): void {
  const { base, tip } = rib;
  const side = (s: number): readonly [Point, Point] => [
    beside(rib, 0.12, s * half * 1.25),
    beside(rib, 0.72, s * half * 1.1),
  ];
  const [a, b] = side(1);
  const [c, d] = side(-1);
  pen
    .move(base[0], base[1])
    .cubic(a[0], a[1], b[0], b[1], tip[0], tip[1])
    .cubic(d[0], d[1], c[0], c[1], base[0], base[1])
    .close();
}

/** A round leaf blade on the end of a stalk, with a notch at its base, and its veins where it is large enough. */
export function roundBlade(pen: Pen, base: Point, heading: number, radius: number, flat: number, vein?: Pen): void {
  const centre = along(base, heading, radius * 0.92);
  const points: Point[] = [];
  for (let i = 0; i < 7; i++) {
    const a = heading + Math.PI + 0.34 + ((2 * Math.PI - 0.68) * i) / 6;
    points.push([centre[0] + Math.sin(a) * radius, centre[1] - Math.cos(a) * radius * flat]);
  }
  pen
    .move(base[0], base[1])
    .line((points[0] as Point)[0], (points[0] as Point)[1])
    .curve(points, true)
    .close();
  if (!vein || radius < 5) return;
  for (const k of [-1.7, -0.85, 0, 0.85, 1.7]) {
    const a = heading + k;
    vein
      .move(base[0], base[1])
      .line(
        mix(base[0], centre[0] + Math.sin(a) * radius, 0.82),
        mix(base[1], centre[1] - Math.cos(a) * radius * flat, 0.82),
      );
  }
}

/** A leaf with a wavy edge, for rosettes. */
export function wavy(pen: Pen, rib: Midrib, half: number, random: Random, ripple = 0.16): void {
  const phase = random() * 6;
  const n = 6;
  const edge = (s: number, shift: number): Point[] =>
    Array.from({ length: n - 1 }, (_, i) => {
      const t = (i + 1) / n;
      const width = half * Math.sin(Math.PI * t ** 0.78) ** 0.85 * (1 + ripple * Math.sin(t * 17 + phase + shift));
      return beside(rib, t, s * width);
    });
  pen
    .curve([rib.base, ...edge(1, 0), rib.tip])
    .curve([rib.tip, ...edge(-1, 2.2).reverse(), rib.base], true)
    .close();
}

/** Side veins of a leaf that is large enough to show them. */
export function veins(pen: Pen, rib: Midrib, half: number, pairs: number): void {
  for (let i = 0; i < pairs; i++) {
    const t = 0.2 + (0.52 * i) / Math.max(1, pairs - 1);
    for (const s of [1, -1]) {
      const from = beside(rib, t, 0);
      const to = beside(rib, t + 0.15, s * half * 0.68 * Math.sin(Math.PI * (t + 0.13) ** 0.78));
      pen.move(from[0], from[1]).line(to[0], to[1]);
    }
  }
}

/** A leaf cut into fingers almost to the midrib. */
export function lobed(pen: Pen, rib: Midrib, half: number, random: Random): void {
  const n = 6;
  const reach = (t: number): number => half * Math.sin(Math.PI * Math.min(1, 0.2 + t * 0.76)) ** 0.8;
  const cuts = Array.from({ length: n + 1 }, (_, i) => 0.09 + (0.91 * i) / n);
  pen.move(rib.base[0], rib.base[1]);
  const flank = (s: number, order: readonly number[]): void => {
    for (let i = 0; i < n; i++) {
      const [a, b] = [order[i] as number, order[i + 1] as number];
      const middle = (a + b) / 2;
      // Fingers point forward: their tips lie further along than their roots.
      const out = reach(middle) * (1.9 + 0.25 * random());
      const tip = beside(rib, Math.min(1.02, middle + 0.06), s * out);
      const root = b >= 0.999 ? rib.tip : beside(rib, b, s * reach(b) * 0.2);
      pen.quad(tip[0], tip[1], root[0], root[1]);
    }
  };
  const first = beside(rib, cuts[0] as number, half * 0.14);
  pen.line(first[0], first[1]);
  flank(1, cuts);
  flank(-1, [...cuts].reverse());
  pen.close();
}

/** A feathered frond: leaflets in pairs along the midrib, and one at the tip. */
export function frond(pen: Pen, rib: Midrib, length: number, pairs: number): void {
  for (let i = 0; i < pairs; i++) {
    const t = 0.2 + (0.7 * i) / (pairs - 1);
    const size = length * 0.3 * Math.sin(Math.PI * (0.2 + 0.72 * t)) ** 0.9 * (1.12 - 0.45 * t) + 1.5;
    for (const s of [-1, 1]) {
      const p = quadAt(rib.base, rib.control, rib.tip, Math.min(0.97, t + (s > 0 ? 0.02 : 0)));
      const u = quadTangent(rib.base, rib.control, rib.tip, t);
      const heading = Math.atan2(u[0], -u[1]) + s * (1.12 - 0.32 * t);
      lance(pen, midrib(p, heading, size, -s * size * 0.16), size * 0.115);
    }
  }
  const u = quadTangent(rib.base, rib.control, rib.tip, 0.95);
  const p = quadAt(rib.base, rib.control, rib.tip, 0.88);
  lance(pen, midrib(p, Math.atan2(u[0], -u[1]), length * 0.19, 0), length * 0.035);
}

/** A long ribbon along a cubic curve, `half` px to either side, narrowing to its tip. */
export function ribbon(pen: Pen, a: Point, b: Point, c: Point, d: Point, half: number): void {
  const start = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
  const end = Math.hypot(d[0] - c[0], d[1] - c[1]) || 1;
  const n0: Point = [(-(b[1] - a[1]) / start) * half, ((b[0] - a[0]) / start) * half];
  const n1: Point = [(-(d[1] - c[1]) / end) * half, ((d[0] - c[0]) / end) * half];
  pen
    .move(a[0] - n0[0] * 0.6, a[1] - n0[1] * 0.6)
    .cubic(b[0] - n0[0], b[1] - n0[1], c[0] - n1[0], c[1] - n1[1], d[0], d[1])
    .cubic(c[0] + n1[0], c[1] + n1[1], b[0] + n0[0], b[1] + n0[1], a[0] + n0[0] * 0.6, a[1] + n0[1] * 0.6)
    .close();
}

/** A tuft of grass: single strokes that spread from one point. */
export function tuft(pen: Pen, base: Point, height: number, blades: number, spread: number, random: Random): void {
  for (let i = 0; i < blades; i++) {
    const k = blades > 1 ? (i / (blades - 1) - 0.5) * 2 : 0;
    const h = height * between(random, 0.58, 1.08) * (1 - 0.18 * Math.abs(k));
    const lean = k * height * spread + between(random, -0.12, 0.12) * height;
    const x = base[0] + between(random, -1.4, 1.4) + k * 0.8;
    pen.move(x, base[1]).quad(x + lean * 0.22, base[1] - h * 0.72, x + lean, base[1] - h);
  }
}
