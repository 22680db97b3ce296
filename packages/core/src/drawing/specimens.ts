/**
 * Single plants by growth form, for drawings in which many stand behind one another: few paths each, its leaves in
 * layers from the back to the front.
 */
import { along, type Box, clamp, mix, type Point, quadAt, quadTangent } from "./geometry.ts";
import { drawMidrib, frond, lance, lobed, midrib, ovate, ribbon, roundBlade, tuft, veins, wavy } from "./leaves.ts";
import { Pen } from "./pen.ts";
import { stemHabit } from "./plants.ts";
import { between, type Random } from "./random.ts";
import type { Leaf, PlantForm } from "./scene.ts";

/** Where one plant stands and how large it may be; px. */
export interface Spot {
  readonly foot: Point;
  readonly height: number;
  /** px per m here. */
  readonly scale: number;
  /** Highest page y that its leaves reach: just under the surface. */
  readonly roof: number;
  /** Nothing leaves it. */
  readonly box: Box;
  /** Fewer leaves and no veins. */
  readonly plain: boolean;
  readonly random: Random;
}

/** Path data by class, in the order in which it is painted. */
export type Parts = readonly (readonly [className: string, d: string])[];

class Brush {
  readonly parts: (readonly [string, string])[] = [];
  readonly #spot: Spot;

  constructor(spot: Spot) {
    this.#spot = spot;
  }

  paint(className: string, write: (pen: Pen) => void): void {
    const pen = new Pen(this.#spot.box);
    write(pen);
    if (pen.d !== "") this.parts.push([className, pen.d]);
  }

  /** Leaves of one layer with their veins on them. */
  leaves(className: string, write: (leaf: Pen, vein: Pen) => void): void {
    const [leaf, vein] = [new Pen(this.#spot.box), new Pen(this.#spot.box)];
    write(leaf, vein);
    if (leaf.d !== "") this.parts.push([className, leaf.d]);
    if (vein.d !== "" && !this.#spot.plain) this.parts.push(["d-vein", vein.d]);
  }
}

/** Height that a plant has room for. */
const room = (spot: Spot): number => Math.max(4, spot.foot[1] - spot.roof);

function runner(spot: Spot, brush: Brush): void {
  const { foot, random, height, box, roof } = spot;
  const half = clamp(spot.scale * 0.0027, 0.9, 2.8);
  const count = spot.plain ? 4 : 4 + Math.floor(random() * 3);
  const space = room(spot);
  const write = (pen: Pen, k: number): void => {
    const from: Point = [foot[0] + between(random, -3, 3), foot[1] + 1.5];
    const length = height * between(random, 0.55, 1.12);
    const rise = Math.min(length, space - between(random, 0, 5));
    const over = Math.max(0, length - rise);
    const lean = (k * 0.09 + between(random, -0.05, 0.05)) * rise;
    const head = from[0] + lean;
    // At the surface a leaf lies down with the current, at the glass it turns back.
    const turn = head + over > box.right - 6 ? -1 : head - over < box.left + 6 ? 1 : lean < 0 && over < 14 ? -1 : 1;
    const tip: Point = [head + turn * over * 0.92, from[1] - rise + (over > 0 ? between(random, 0.5, 5) : 0)];
    const knee: Point = [head + turn * over * 0.1, Math.max(roof - 1, from[1] - rise - Math.min(over * 0.06, 3))];
    const swing: Point = [from[0] + lean * 0.1 + between(random, -5, 5), from[1] - rise * 0.45];
    ribbon(pen, from, swing, knee, tip, half * between(random, 0.8, 1.2));
  };
  const ks = Array.from({ length: count }, (_, i) => (i / Math.max(1, count - 1) - 0.5) * 2).sort(() => random() - 0.5);
  const back = Math.ceil(count / 2);
  brush.paint("d-leaf d-under", (pen) => {
    for (const k of ks.slice(0, back)) write(pen, k);
  });
  brush.paint("d-leaf", (pen) => {
    for (const k of ks.slice(back)) write(pen, k);
  });
}

/** Leaves of this length and above show what they are cut like; shorter ones are plain. */
const TOLD = 11;

function stemLeaf(leaf: Pen, vein: Pen, kind: Leaf, base: Point, heading: number, length: number, spot: Spot): void {
  const { random } = spot;
  const side = heading < 0 ? -1 : 1;
  const bend = side * length * between(random, 0.08, 0.2);
  const rib = midrib(base, heading, length, bend);
  switch (kind) {
    case "lobed":
      if (length < TOLD || spot.plain) ovate(leaf, rib, length * 0.2);
      else lobed(leaf, rib, length * 0.18, random);
      if (length >= TOLD) drawMidrib(vein, rib);
      return;
    case "ribbon":
      lance(leaf, rib, length * 0.075);
      return;
    case "round": {
      const blade = along(base, heading, length * 0.12);
      ovate(leaf, midrib(blade, heading, length * 0.8, bend * 0.6), length * 0.34);
      return;
    }
    default:
      ovate(leaf, rib, length * 0.19);
      if (length >= TOLD) drawMidrib(vein, rib);
  }
}

function stem(spot: Spot, brush: Brush, leaf: Leaf): void {
  const { foot, random, scale, plain } = spot;
  const habit = stemHabit[leaf];
  const tall = Math.min(spot.height * between(random, 0.72, 1.06), room(spot));
  const leafLength = clamp(Math.min(habit.leaf * scale, tall * habit.widest), 4, 56);
  const lean = between(random, -0.13, 0.13) * tall;
  const from: Point = [foot[0], foot[1] + 1];
  const top: Point = [foot[0] + lean, foot[1] - tall + leafLength * 0.2];
  const control: Point = [foot[0] + lean * 0.2 + between(random, -3, 3), foot[1] - tall * 0.55];
  brush.paint("d-stem", (pen) => pen.move(from[0], from[1]).quad(control[0], control[1], top[0], top[1]));
  const step = Math.max(habit.step * scale, leafLength * 0.42, plain ? 7 : 5);
  const nodes = Math.round(clamp(tall / step, 2, plain ? 7 : 11));
  const at = (t: number): { p: Point; up: number } => {
    const u = quadTangent(from, control, top, t);
    return { p: quadAt(from, control, top, t), up: Math.atan2(u[0], -u[1]) };
  };
  const size = (t: number): number =>
    leafLength *
    between(random, 0.86, 1.1) *
    (0.74 + 0.32 * Math.sin(Math.PI * Math.min(1, t * 0.9 + 0.12))) *
    (1 - 0.42 * t ** 4);
  if (leaf === "needle" || leaf === "fern") {
    brush.paint("d-thread", (pen) => {
      for (let i = 0; i < nodes * 1.5; i++) {
        const t = 0.1 + (0.9 * i) / (nodes * 1.5 - 1 || 1);
        const { p, up } = at(t);
        const spread = 1.3 - 0.6 * t ** 2;
        for (const k of [-1, -0.55, -0.15, 0.2, 0.6, 1]) {
          const rib = midrib(p, up + k * spread, size(t), Math.sign(k) * leafLength * 0.1);
          drawMidrib(pen, rib, 1);
          if (leaf === "fern" && leafLength > 9) {
            const q = quadAt(rib.base, rib.control, rib.tip, 0.55);
            for (const s of [-0.7, 0.7]) {
              const end = along(q, up + k * spread + s, leafLength * 0.28);
              pen.move(q[0], q[1]).line(end[0], end[1]);
            }
          }
        }
      }
    });
    return;
  }
  // From the lower leaves up, so that each layer lies over the one below.
  const layers = plain ? 2 : 3;
  for (let layer = 0; layer < layers; layer++) {
    brush.leaves(layer === 0 ? "d-leaf d-under" : "d-leaf", (blade, vein) => {
      for (let i = 0; i < nodes; i++) {
        if (Math.floor((i / nodes) * layers) !== layer) continue;
        const t = 0.14 + (0.86 * i) / (nodes - 1 || 1);
        const { p, up } = at(t);
        const spread = 1.32 - 0.6 * t ** 2 + between(random, -0.12, 0.14);
        for (const s of i % 2 ? [1, -1] : [-1, 1]) stemLeaf(blade, vein, leaf, p, up + s * spread, size(t), spot);
      }
      if (layer < layers - 1) return;
      const { up } = at(1);
      for (const a of [-0.44, 0.42, 0]) stemLeaf(blade, vein, leaf, top, up + a, leafLength * 0.5, spot);
    });
  }
}

function rosette(spot: Spot, brush: Brush, leaf: Leaf): void {
  const { foot, random, plain } = spot;
  const n = plain ? 7 : 9 + Math.floor(random() * 3);
  const leaves = Array.from({ length: n }, (_, i) => {
    const k = (i / (n - 1) - 0.5) * 2;
    return {
      k: k + between(random, -0.12, 0.12),
      size: between(random, 0.76, 1.06),
      front: Math.abs(k) + random() * 0.6,
    };
  }).sort((a, b) => b.front - a.front);
  const layers = 3;
  for (let layer = 0; layer < layers; layer++) {
    const mine = leaves.slice(Math.floor((n * layer) / layers), Math.floor((n * (layer + 1)) / layers));
    const shade = layer === 0 ? "d-leaf d-under" : "d-leaf";
    const stalks: (readonly [Point, Point])[] = [];
    const blades = mine.map(({ k, size }) => {
      const heading = k * 1.1;
      const outward = Math.sign(k) || 1;
      const whole = Math.min(
        spot.height * size * (1 - 0.1 * Math.abs(k)),
        room(spot) / Math.max(0.4, Math.cos(heading * 0.8)),
      );
      const stalk = leaf === "ribbon" || leaf === "needle" ? 0 : whole * (leaf === "round" ? 0.6 : 0.36);
      const joint = along(foot, heading * 0.62, stalk);
      if (stalk > 0) stalks.push([along(foot, heading * 0.3, stalk * 0.55), joint]);
      return { heading, outward, whole, stalk, joint, k };
    });
    brush.paint("d-stalk", (pen) => {
      for (const [elbow, joint] of stalks) pen.move(foot[0], foot[1] + 1).quad(elbow[0], elbow[1], joint[0], joint[1]);
    });
    brush.leaves(shade, (pen, vein) => {
      for (const { heading, outward, whole, stalk, joint, k } of blades) {
        if (stalk === 0) {
          const rib = midrib(foot, heading * 0.72, whole, outward * whole * 0.3 * Math.abs(k));
          if (leaf === "needle") lance(pen, rib, clamp(whole * 0.02, 0.6, 1.6));
          else {
            wavy(pen, rib, clamp(whole * 0.04, 1, 5), random, 0.05);
            drawMidrib(vein, rib);
          }
          continue;
        }
        if (leaf === "round") {
          roundBlade(pen, joint, heading, whole * 0.17, 0.86, vein);
          continue;
        }
        const blade = whole - stalk;
        const rib = midrib(joint, heading * 0.92, blade, outward * blade * 0.34 * Math.abs(k));
        if (leaf === "lobed") lobed(pen, rib, blade * 0.2, random);
        else if (leaf === "fern") frond(pen, rib, blade, plain ? 5 : 7);
        else {
          wavy(pen, rib, blade * 0.15, random);
          if (blade > 24) veins(vein, rib, blade * 0.15, blade > 44 ? 4 : 3);
        }
        drawMidrib(vein, rib);
      }
    });
  }
}

function bulb(spot: Spot, brush: Brush, leaf: Leaf): void {
  const { foot, random, plain } = spot;
  const size = clamp(spot.scale * 0.013, 3, 12);
  const neck: Point = [foot[0], foot[1] - size * 0.9];
  const n = plain ? 6 : 9;
  const leaves = Array.from({ length: n }, (_, i) => (i / (n - 1) - 0.5) * 2 + between(random, -0.1, 0.1)).sort(
    () => random() - 0.5,
  );
  for (const layer of [0, 1]) {
    const mine = leaves.slice(layer === 0 ? 0 : Math.ceil(n / 2), layer === 0 ? Math.ceil(n / 2) : n);
    brush.leaves(layer === 0 ? "d-leaf d-under" : "d-leaf", (pen, vein) => {
      for (const k of mine) {
        const whole = Math.min(spot.height * between(random, 0.66, 1.04), room(spot) * between(random, 0.93, 1));
        const outward = Math.sign(k) || 1;
        if (leaf === "round" || leaf === "oval") {
          const heading = k * 0.62;
          const end = along(neck, heading, whole * 0.84);
          vein.move(neck[0], neck[1]).quad(neck[0], mix(neck[1], end[1], 0.5), end[0], end[1]);
          roundBlade(pen, end, heading * 1.5, clamp(whole * 0.11, 3, 18), 0.74, vein);
          continue;
        }
        const rib = midrib(neck, k * 0.5, whole, outward * whole * (0.08 + 0.24 * Math.abs(k)));
        wavy(pen, rib, clamp(whole * 0.026, 1, 4.6), random, 0.34);
        drawMidrib(vein, rib);
      }
    });
  }
  brush.paint("d-bulb", (pen) =>
    pen.loop([
      [foot[0], neck[1] - size * 0.4],
      [foot[0] + size * 0.7, foot[1] - size * 0.35],
      [foot[0] + size * 0.5, foot[1] + size * 0.4],
      [foot[0] - size * 0.5, foot[1] + size * 0.4],
      [foot[0] - size * 0.7, foot[1] - size * 0.35],
    ]),
  );
}

function rhizome(spot: Spot, brush: Brush, leaf: Leaf): void {
  const { foot, random, plain } = spot;
  const count = 2 + (plain || random() < 0.6 ? 0 : 1);
  for (let i = 0; i < count; i++) {
    const heading = (((i + random()) / count) * 2 - 1) * 1.25;
    const length = Math.min(spot.height * between(random, 0.72, 1.06), room(spot) / Math.max(0.35, Math.cos(heading)));
    const outward = Math.sign(heading) || 1;
    const rib = midrib(foot, heading, length, outward * length * (0.08 + 0.14 * Math.abs(heading)));
    brush.leaves(i === 0 ? "d-leaf d-under" : "d-leaf", (pen, vein) => {
      if (leaf === "fern" || leaf === "lobed") {
        frond(pen, rib, length, Math.round(clamp(length / 9, 4, plain ? 6 : 9)));
        drawMidrib(vein, rib, 0.96);
        return;
      }
      if (leaf === "ribbon" || leaf === "needle") {
        lance(pen, rib, length * 0.07);
        drawMidrib(vein, rib);
        return;
      }
      const stalk = length * (leaf === "round" ? 0.42 : 0.32);
      const joint = along(foot, heading, stalk);
      vein.move(foot[0], foot[1]).line(joint[0], joint[1]);
      const blade = midrib(joint, heading, length - stalk, outward * length * 0.1);
      ovate(pen, blade, length * (leaf === "round" ? 0.22 : 0.15));
      drawMidrib(vein, blade);
      if (length > 26) veins(vein, blade, length * 0.16, 3);
    });
  }
}

/** A tuft of fine grass; tall ones are rushes. */
function grass(spot: Spot, brush: Brush, shade: number): void {
  const { foot, random } = spot;
  const tall = Math.min(clamp(spot.height, 3, 400) * between(random, 0.66, 1.05), room(spot));
  const high = spot.height > 60;
  brush.paint(`d-blades d-rank-${shade}`, (pen) =>
    tuft(pen, [foot[0], foot[1] + 1], tall, spot.plain ? 3 : high ? 4 : 5, high ? 0.16 : 0.5, random),
  );
}

/** A low leafy sprig. */
function sprig(spot: Spot, brush: Brush, leaf: Leaf, shade: number): void {
  const { foot, random } = spot;
  const tall = Math.min(clamp(spot.height, 4, 120) * between(random, 0.7, 1.05), room(spot));
  const lean = between(random, -0.22, 0.22) * tall;
  const top: Point = [foot[0] + lean, foot[1] - tall];
  const control: Point = [foot[0] + lean * 0.2, foot[1] - tall * 0.6];
  const className = shade === 0 ? "d-leaf d-under" : shade === 1 ? "d-leaf d-young" : "d-leaf";
  if (leaf === "ribbon") {
    brush.paint(className, (pen) => {
      for (const k of [-1, -0.3, 0.4, 1]) {
        const rib = midrib(foot, k * 0.46 + between(random, -0.1, 0.1), tall, k * tall * 0.22);
        lance(pen, rib, clamp(tall * 0.06, 0.7, 2.4));
      }
    });
    return;
  }
  if (leaf === "round" || leaf === "lobed") {
    const ends = [-0.8, 0.05, 0.8].map((k) =>
      along(foot, k + between(random, -0.2, 0.2), tall * between(random, 0.55, 0.95)),
    );
    brush.paint("d-stem", (pen) => {
      for (const end of ends) pen.move(foot[0], foot[1]).quad(foot[0], mix(foot[1], end[1], 0.7), end[0], end[1]);
    });
    brush.paint(className, (pen) => {
      ends.forEach((end, i) => {
        roundBlade(pen, end, (i - 1) * 0.5, clamp(tall * 0.17, 1.3, 7), 0.8);
      });
    });
    return;
  }
  brush.paint("d-stem", (pen) => pen.move(foot[0], foot[1] + 1).quad(control[0], control[1], top[0], top[1]));
  const nodes = Math.round(clamp(tall / 6, 2, spot.plain ? 3 : 4));
  const size = clamp(tall * 0.44, 3, 17);
  brush.leaves(className, (pen, vein) => {
    for (let i = 0; i < nodes; i++) {
      const t = 0.18 + (0.82 * i) / Math.max(1, nodes - 1);
      const p = quadAt(foot, control, top, t);
      for (const s of [-1, 1]) {
        const rib = midrib(
          p,
          s * (1.26 - 0.62 * t + between(random, -0.14, 0.14)),
          size * (1 - 0.3 * t * t) * between(random, 0.9, 1.14),
          s * size * 0.2,
        );
        ovate(pen, rib, size * 0.2);
        if (size > 9) drawMidrib(vein, rib, 0.8);
      }
    }
    for (const k of [-0.4, 0.35]) lance(pen, midrib(top, k, size * 0.6, 0), size * 0.14);
  });
}

/** A cushion of moss on its seat. */
function moss(spot: Spot, brush: Brush): void {
  const { foot, random } = spot;
  const height = clamp(spot.height, 3, 46);
  const r = clamp(height * 0.4, 2, 13) * between(random, 0.8, 1.2);
  brush.paint("d-pad", (pen) =>
    pen.loop(
      Array.from({ length: 6 }, (_, i): Point => {
        const a = (i / 6) * 2 * Math.PI;
        const reach = r * between(random, 0.75, 1.1);
        return [foot[0] + Math.sin(a) * reach * 1.3, foot[1] - Math.cos(a) * reach * 0.75];
      }),
    ),
  );
  for (const className of ["d-thread", "d-thread d-pale-thread"]) {
    brush.paint(className, (pen) => {
      for (let k = 0; k < (spot.plain ? 3 : 5); k++) {
        const heading = between(random, -1.5, 1.5);
        const from: Point = [foot[0] + between(random, -r, r), foot[1] + between(random, -r * 0.4, r * 0.3)];
        const length = height * between(random, 0.3, 0.66);
        const to = along(from, heading, length);
        pen
          .move(from[0], from[1])
          .quad(from[0] + Math.sin(heading) * length * 0.2, from[1] - length * 0.5, to[0], to[1]);
      }
    });
  }
}

/** Leaves on the surface, roots below; the foot is the place on the surface. */
function floating(spot: Spot, brush: Brush, leaf: Leaf): void {
  const { foot, random, box } = spot;
  const [x, y] = foot;
  const r =
    clamp(spot.scale * (leaf === "round" ? 0.011 : leaf === "ribbon" ? 0.02 : 0.009), 3.4, 16) *
    between(random, 0.8, 1.15);
  const drop = clamp(spot.height * between(random, 0.6, 1.05), 3, (box.bottom - y) * 0.6);
  brush.paint("d-root", (pen) => {
    const strands = spot.plain ? 2 : 4;
    for (let k = 0; k < strands; k++) {
      const lean = (k / Math.max(1, strands - 1) - 0.5) * r * 1.5;
      const end: Point = [x + lean + between(random, -2, 2), y + drop * between(random, 0.66, 1)];
      pen.move(x + lean * 0.3, y + 1).quad(x + lean * 1.1 + between(random, -2, 2), y + drop * 0.5, end[0], end[1]);
    }
  });
  if (leaf === "ribbon" || leaf === "fern" || leaf === "lobed") {
    brush.paint("d-leaf", (pen) => {
      for (const k of [-1.25, 1.25, -0.7, 0.7, -0.2, 0.25])
        ovate(pen, midrib([x, y + 1], k, r * 1.25, Math.sign(k) * r * 0.12), r * 0.34);
    });
    return;
  }
  brush.paint("d-leaf d-under", (pen) => {
    for (const s of [-1, 1]) {
      const cx = x + s * r * 0.72;
      pen.loop([
        [cx - r * 0.8, y - 0.4],
        [cx, y - r * 0.3],
        [cx + r * 0.8, y - 0.6],
        [cx, y + r * 0.26],
      ]);
    }
  });
  brush.paint("d-leaf", (pen) =>
    pen.loop([
      [x - r * 0.8, y - r * 0.18],
      [x, y - r * 0.52],
      [x + r * 0.8, y - r * 0.2],
      [x, y + r * 0.1],
    ]),
  );
}

/** One plant; `shade` 0 to 2 tells low plants of one area apart. */
export function drawSpecimen(form: PlantForm, leaf: Leaf, spot: Spot, shade: number): Parts {
  const brush = new Brush(spot);
  switch (form) {
    case "stem":
      stem(spot, brush, leaf);
      break;
    case "rosette":
      rosette(spot, brush, leaf);
      break;
    case "runner":
      if (leaf === "needle") grass(spot, brush, shade);
      else runner(spot, brush);
      break;
    case "carpet":
      if (leaf === "needle") grass(spot, brush, shade);
      else sprig(spot, brush, leaf, shade);
      break;
    case "moss":
      moss(spot, brush);
      break;
    case "bulb":
      bulb(spot, brush, leaf);
      break;
    case "rhizome":
      rhizome(spot, brush, leaf);
      break;
    case "floating":
      floating(spot, brush, leaf);
  }
  return brush.parts;
}
