/** Plants by growth form: each is told from the others by how it grows, not by its label. */

import { along, type Box, clamp, distance, mix, type Point, quadAt, quadTangent } from "./geometry.ts";
import { CUT } from "./ground.ts";
import { drawMidrib, frond, lance, lobed, midrib, ovate, ribbon, roundBlade, tuft, veins, wavy } from "./leaves.ts";
import { type DrawingNode, group, paths } from "./node.ts";
import { Pen } from "./pen.ts";
import { between, type Random, streamOf } from "./random.ts";
import type { DrawnPlant, Leaf } from "./scene.ts";
import type { Item, Perch, Stage } from "./stage.ts";

/** Tints of the drawing, see `styles.ts`. */
const tones = ["pale", "pine", "olive", "bronze", "fresh", "grass", "moss", "wine", "jade"] as const;
export type Tone = (typeof tones)[number];

function usualTone(plant: Pick<DrawnPlant, "form" | "leaf">): Tone {
  switch (plant.form) {
    case "runner":
      return "pale";
    case "moss":
      return "moss";
    case "rhizome":
      return "pine";
    case "rosette":
      return plant.leaf === "ribbon" || plant.leaf === "needle" ? "jade" : "bronze";
    case "carpet":
      return plant.leaf === "needle" || plant.leaf === "ribbon" ? "grass" : "fresh";
    case "stem":
      return plant.leaf === "needle"
        ? "fresh"
        : plant.leaf === "round"
          ? "jade"
          : plant.leaf === "ribbon"
            ? "wine"
            : "olive";
    case "bulb":
      return "jade";
    case "floating":
      return "fresh";
  }
}

/** A tint for each plant: its usual one, or where that form already wears it, the next free one. */
export function tonesOf(plants: readonly Pick<DrawnPlant, "form" | "leaf">[]): Tone[] {
  const worn = new Map<string, number>();
  return plants.map((plant) => {
    const usual = usualTone(plant);
    const before = worn.get(`${plant.form}/${usual}`) ?? 0;
    worn.set(`${plant.form}/${usual}`, before + 1);
    if (before === 0) return usual;
    return tones[(tones.indexOf(usual) + before * 2) % tones.length] ?? usual;
  });
}

/** Where a plant stands on the page. */
interface Stand {
  readonly x: number;
  /** Half of what it covers. */
  readonly half: number;
  readonly height: number;
}

function standOf(plant: DrawnPlant, stage: Stage): Stand {
  const { water, frame } = stage;
  const half = Math.min((plant.width * frame.scale) / 2, (water.right - water.left) / 2 - 2);
  const x = clamp(mix(frame.inner.left, frame.inner.right, plant.at), water.left + half, water.right - half);
  return { x, half, height: plant.height * frame.scale };
}

/** One plant in hand: its stage, place, tint and generator. */
interface Hand {
  readonly stage: Stage;
  readonly plant: DrawnPlant;
  readonly stand: Stand;
  readonly tone: Tone;
  readonly random: Random;
  /** Set by forms that only know after painting where their leaves are. */
  pointAt?: Point;
}

/** Two pens that make one leaf: outline and veins. */
class Sheaf {
  readonly nodes: DrawingNode[] = [];
  readonly #stage: Stage;

  constructor(stage: Stage) {
    this.#stage = stage;
  }

  pen(): Pen {
    return new Pen(this.#stage.water);
  }

  /** A leaf of its own, painted over what is there already. */
  leaf(write: (leaf: Pen, vein: Pen) => void, className = "d-leaf"): void {
    const [leaf, vein] = [this.pen(), this.pen()];
    write(leaf, vein);
    this.nodes.push(...paths([className, leaf.d], ["d-vein", vein.d]));
  }

  stem(write: (stem: Pen) => void, className = "d-stem"): void {
    const pen = this.pen();
    write(pen);
    this.nodes.push(...paths([className, pen.d]));
  }
}

/** Plants in the back half are paler, as if seen through more water. */
const FAR = 0.62;

function dressed(hand: Hand, depth: number, nodes: readonly DrawingNode[]): Item {
  return { depth, nodes: [group(`d-plant d-${hand.tone}${depth > FAR ? " d-far" : ""}`, nodes)] };
}

/** Highest page y to which something rooted at `y` may grow: just under the surface. */
const ceiling = (stage: Stage): number => stage.water.top + 3;

/** Spots along the plant's width, one about every `pitch` px, a little out of line, with their depth. */
function spots(hand: Hand, pitch: number, deep: number, most: number): { x: number; y: number; depth: number }[] {
  const { stand, random, plant, stage } = hand;
  const n = Math.round(clamp((stand.half * 2) / pitch, 1, Math.max(2, most * stage.fullness)));
  return Array.from({ length: n }, (_, i) => {
    const k = n === 1 ? 0 : (i + 0.5) / n - 0.5;
    const x = stand.x + k * stand.half * 2 * 0.94 + (n === 1 ? 0 : between(random, -0.3, 0.3) * pitch);
    const depth = clamp(plant.depth + between(random, -deep, deep), 0, 1);
    return { x, y: stage.ground.y(x, depth), depth };
  });
}

/** Way the outlet drives the surface: trailing leaves lie down with it. */
const downstream = 1;

function runner(hand: Hand): Item[] {
  const { stage, random, stand, plant } = hand;
  if (plant.leaf === "needle") return grass(hand);
  const roof = ceiling(stage);
  const width = clamp(stage.frame.scale * 0.0026, 1.1, 2.6);
  return spots(hand, stage.frame.compact ? 22 : 17, 0.09, 11).map(({ x, y, depth }) => {
    const sheaf = new Sheaf(stage);
    const leaves = 5 + Math.floor(random() * 4);
    const shapes = Array.from({ length: leaves }, (_, i) => ({ k: (i / (leaves - 1) - 0.5) * 2, order: random() }));
    shapes.sort((a, b) => a.order - b.order);
    for (const { k } of shapes) {
      const foot: Point = [x + between(random, -3.5, 3.5), y + 2];
      const length = stand.height * between(random, 0.62, 1.06);
      const room = foot[1] - roof - between(random, 1, 8);
      const rise = Math.min(length, room);
      const over = Math.max(0, length - room);
      const lean = (k * 0.1 + between(random, -0.06, 0.06)) * rise;
      const turn = lean < 0 && over < 20 ? -1 : downstream;
      const head = foot[0] + lean;
      let reach = over * 0.9;
      // At the glass a trailing leaf has to turn down.
      const inset = between(random, 4, 20);
      const free = turn > 0 ? stage.water.right - inset - head : head - stage.water.left - inset;
      const sink = Math.max(0, reach - free) * 0.8 + over * 0.1;
      reach = Math.min(reach, Math.max(free, 0));
      const top = foot[1] - rise;
      const tip: Point = [
        head + turn * reach,
        top + (over > 0 ? Math.min(sink + between(random, 1, 6), room * 0.5) : 0),
      ];
      const knee: Point = [head + turn * reach * 0.12 + lean * 0.1, top - (over > 0 ? Math.min(over * 0.08, 4) : 0)];
      sheaf.leaf((leaf, vein) => {
        const swing: Point = [foot[0] + lean * 0.1 + between(random, -4, 4), foot[1] - rise * 0.45];
        ribbon(leaf, foot, swing, knee, tip, width * between(random, 0.85, 1.2));
        if (depth <= FAR) vein.move(foot[0], foot[1]).cubic(swing[0], swing[1], knee[0], knee[1], tip[0], tip[1]);
      });
    }
    return dressed(hand, depth, sheaf.nodes);
  });
}

/** One leaf of a stem plant; fine leaves go to the pen of all threads, broad ones on the sheaf one by one. */
function stemLeaf(
  sheaf: Sheaf,
  threads: Pen,
  leaf: Leaf,
  base: Point,
  heading: number,
  length: number,
  random: Random,
): void {
  const side = heading < 0 ? -1 : 1;
  const bend = side * length * between(random, 0.1, 0.2);
  const rib = midrib(base, heading, length, bend);
  switch (leaf) {
    case "lobed":
      sheaf.leaf((pen, vein) => {
        lobed(pen, rib, length * 0.19, random);
        drawMidrib(vein, rib);
      });
      return;
    case "fern": {
      drawMidrib(threads, rib, 1);
      const n = Math.round(clamp(length / 3.2, 3, 8));
      for (let i = 1; i <= n; i++) {
        const p = quadAt(rib.base, rib.control, rib.tip, i / (n + 0.5));
        const u = quadTangent(rib.base, rib.control, rib.tip, i / (n + 0.5));
        const h = Math.atan2(u[0], -u[1]);
        for (const s of [-0.8, 0.8]) {
          const q = along(p, h + s, length * 0.26 * (1.1 - i / (n + 2)));
          threads.move(p[0], p[1]).line(q[0], q[1]);
        }
      }
      return;
    }
    case "needle":
      drawMidrib(threads, rib, 1);
      return;
    case "ribbon":
      sheaf.leaf((pen, vein) => {
        lance(pen, rib, length * 0.075);
        if (length > 16) drawMidrib(vein, rib);
      });
      return;
    case "round":
      sheaf.leaf((pen, vein) => {
        const blade = along(base, heading, length * 0.12);
        const r = length * 0.36;
        ovate(pen, midrib(blade, heading, length * 0.8, bend * 0.6), r);
        if (length > 12) drawMidrib(vein, midrib(blade, heading, length * 0.6, bend * 0.4));
      });
      return;
    default:
      sheaf.leaf((pen, vein) => {
        ovate(pen, rib, length * 0.19);
        if (length > 9) drawMidrib(vein, rib);
      });
  }
}

/** Leaf length of a stem plant as a share of the stem, and the way between its leaf pairs, m. Design values, by eye. */
export const stemHabit: Readonly<Record<Leaf, { leaf: number; step: number; widest: number }>> = {
  lobed: { leaf: 0.053, step: 0.021, widest: 0.36 },
  oval: { leaf: 0.026, step: 0.015, widest: 0.3 },
  round: { leaf: 0.022, step: 0.014, widest: 0.3 },
  ribbon: { leaf: 0.05, step: 0.016, widest: 0.36 },
  needle: { leaf: 0.026, step: 0.011, widest: 0.3 },
  fern: { leaf: 0.03, step: 0.013, widest: 0.3 },
};

function stem(hand: Hand): Item[] {
  const { stage, plant, stand, random } = hand;
  const { scale, compact } = stage.frame;
  const habit = stemHabit[plant.leaf];
  const leafLength = clamp(Math.min(habit.leaf * scale, stand.height * habit.widest), 5, 60);
  const pitch = Math.max(leafLength * 0.82, compact ? 13 : 10);
  return spots(hand, pitch, 0.16, 14).map(({ x, y, depth }, index) => {
    const sheaf = new Sheaf(stage);
    const threads = sheaf.pen();
    const tall = Math.min(stand.height * between(random, 0.68, 1), y - ceiling(stage));
    const lean = between(random, -0.14, 0.14) * tall + ((x - stand.x) / (stand.half || 1)) * tall * 0.07;
    const foot: Point = [x, y + 2];
    const top: Point = [x + lean, y - tall];
    const control: Point = [x + lean * 0.2 + between(random, -3, 3), y - tall * 0.55];
    sheaf.stem((pen) => pen.move(foot[0], foot[1]).quad(control[0], control[1], top[0], top[1]));
    const step = Math.max(habit.step * scale, compact ? 6 : 4.2);
    const nodes = Math.round(clamp(tall / step, 2, Math.max(6, 16 * Math.sqrt(stage.fullness))));
    const whorl = plant.leaf === "needle" || plant.leaf === "fern";
    for (let i = 0; i < nodes; i++) {
      const t = 0.13 + (0.85 * i) / (nodes - 1 || 1);
      const p = quadAt(foot, control, top, t);
      const u = quadTangent(foot, control, top, t);
      const up = Math.atan2(u[0], -u[1]);
      // Old leaves below are shorter and hang; young ones at the tip are small and stand up.
      const size =
        leafLength *
        between(random, 0.86, 1.1) *
        (0.72 + 0.34 * Math.sin(Math.PI * Math.min(1, t * 0.9 + 0.12))) *
        (1 - 0.42 * t ** 4);
      const spread = 1.3 - 0.62 * t ** 2 + between(random, -0.1, 0.14);
      const angles = whorl ? [-spread, spread, -spread * 0.55, spread * 0.55, -spread * 0.2] : [-spread, spread];
      if ((index + i) % 2) angles.reverse();
      for (const a of angles) stemLeaf(sheaf, threads, plant.leaf, p, up + a, size, random);
      if (!whorl && i % 2 === 1 && i < nodes - 1)
        stemLeaf(sheaf, threads, plant.leaf, p, up + between(random, -0.5, 0.5), size * 0.62, random);
    }
    const tips = whorl ? [-0.35, -0.1, 0.12, 0.38] : [-0.42, 0.44, 0.02];
    for (const a of tips) stemLeaf(sheaf, threads, plant.leaf, top, a + lean / (tall || 1), leafLength * 0.5, random);
    sheaf.nodes.push(...paths(["d-thread", threads.d]));
    return dressed(hand, depth, sheaf.nodes);
  });
}

function rosette(hand: Hand): Item[] {
  const { stage, plant, stand, random } = hand;
  if (plant.leaf === "needle") return grass(hand);
  const pitch = clamp(stand.height * 0.62, 16, 90);
  return spots(hand, pitch, 0.1, 7).map(({ x, y, depth }) => {
    const sheaf = new Sheaf(stage);
    const foot: Point = [x, y + 2];
    const n = 8 + Math.floor(random() * 3);
    const leaves = Array.from({ length: n }, (_, i) => {
      const k = n > 1 ? (i / (n - 1) - 0.5) * 2 : 0;
      return {
        k: k + between(random, -0.12, 0.12),
        size: between(random, 0.8, 1.06),
        front: Math.abs(k) + random() * 0.5,
      };
    }).sort((a, b) => b.front - a.front);
    leaves.forEach(({ k, size }, order) => {
      const heading = k * 1.12;
      const whole = Math.min(
        stand.height * size * (1 - 0.12 * Math.abs(k)),
        (foot[1] - ceiling(stage)) / Math.max(0.4, Math.cos(heading * 0.8)),
      );
      const shade = order < n * 0.45 ? "d-leaf d-under" : "d-leaf";
      const outward = Math.sign(k) || 1;
      if (plant.leaf === "ribbon") {
        const rib = midrib(foot, heading * 0.72, whole, outward * whole * 0.3 * Math.abs(k));
        sheaf.leaf((leaf, vein) => {
          wavy(leaf, rib, whole * 0.042, random, 0.05);
          drawMidrib(vein, rib);
        }, shade);
        return;
      }
      const stalk = whole * (plant.leaf === "round" ? 0.62 : 0.36);
      const joint = along(foot, heading * 0.62, stalk);
      const elbow = along(foot, heading * 0.3, stalk * 0.55);
      sheaf.stem((pen) => pen.move(foot[0], foot[1]).quad(elbow[0], elbow[1], joint[0], joint[1]), "d-stalk");
      if (plant.leaf === "round") {
        sheaf.leaf((leaf, vein) => roundBlade(leaf, joint, heading, whole * 0.17, 0.86, vein), shade);
        return;
      }
      const blade = whole - stalk;
      const rib = midrib(joint, heading * 0.92, blade, outward * blade * 0.34 * Math.abs(k));
      sheaf.leaf((leaf, vein) => {
        if (plant.leaf === "lobed") lobed(leaf, rib, blade * 0.2, random);
        else if (plant.leaf === "fern") frond(leaf, rib, blade, 7);
        else {
          wavy(leaf, rib, blade * 0.145, random);
          if (blade > 34) veins(vein, rib, blade * 0.145, 4);
        }
        drawMidrib(vein, rib);
      }, shade);
    });
    return dressed(hand, depth, sheaf.nodes);
  });
}

/** Depth of a carpet is drawn in three ranks, the far one pale. */
function ranks(hand: Hand, count: number): { x: number; y: number; depth: number; rank: 0 | 1 | 2 }[] {
  const { stand, stage, random, plant } = hand;
  const from = clamp(plant.depth - 0.2, CUT, 0.9);
  const to = Math.max(from + 0.02, clamp(plant.depth + 0.24, CUT, 1));
  const places = Array.from({ length: count }, (_, i) => {
    const share = (i + random()) / count;
    const x = stand.x + (share * 2 - 1) * stand.half;
    const v = random() ** 2.2;
    // Towards its ends a carpet thins to a point.
    const edge = Math.min(1, (1 - Math.abs(share * 2 - 1)) * 6 + 0.35);
    const depth = mix(from, to, v * edge);
    return { x, y: stage.ground.y(x, depth) + 1.5, depth, rank: (v > 0.5 ? 0 : v > 0.17 ? 1 : 2) as 0 | 1 | 2 };
  });
  return places.sort((a, b) => b.depth - a.depth);
}

/** Fine grass: a hair-grass lawn, or taller rushes. */
function grass(hand: Hand): Item[] {
  const { stage, plant, stand, random } = hand;
  const compact = stage.frame.compact;
  const height = clamp(stand.height, 4, 400);
  const count = Math.round(
    clamp(((stand.half * 2) / (compact ? 3 : 1.5)) * clamp(30 / height, 0.5, 1), 8, Math.max(40, 230 * stage.fullness)),
  );
  const pens: [Pen, Pen, Pen] = [new Pen(stage.water), new Pen(stage.water), new Pen(stage.water)];
  const wave = random() * 6;
  const roof = ceiling(stage);
  for (const { x, y, rank } of ranks(hand, count)) {
    const tall = Math.min(height * (0.66 + 0.2 * Math.sin(x / 19 + wave) + 0.2 * random()), y - roof);
    tuft(pens[rank], [x, y], tall, height > 60 ? 3 : 4, height > 60 ? 0.14 : 0.46, random);
  }
  const item = (rank: 0 | 1 | 2, depth: number): Item => ({
    depth,
    nodes: [group(`d-plant d-${hand.tone}`, paths([`d-blades d-rank-${rank}`, pens[rank].d]))],
  });
  const near = Math.min(plant.depth, CUT);
  return [item(0, Math.max(plant.depth + 0.12, CUT + 0.05)), item(1, near - 0.01), item(2, near - 0.02)];
}

/** A low carpet of short leafy stems, blades or clover-like leaves. */
function carpet(hand: Hand): Item[] {
  const { stage, plant, stand, random } = hand;
  if (plant.leaf === "needle") return grass(hand);
  const compact = stage.frame.compact;
  const height = clamp(stand.height, 6, 90);
  const pitch = Math.max(plant.leaf === "ribbon" ? 4 : 4.6, height * 0.15) * (compact ? 1.5 : 1);
  const count = Math.round(clamp((stand.half * 2) / pitch, 3, Math.max(12, 70 * stage.fullness)));
  const near = Math.min(plant.depth, CUT) - 0.015;
  return ranks(hand, count).map(({ x, y, depth, rank }) => {
    const sheaf = new Sheaf(stage);
    const tall = height * between(random, 0.62, 1.04);
    const lean = between(random, -0.2, 0.2) * tall;
    const foot: Point = [x, y];
    const top: Point = [x + lean, y - tall];
    const control: Point = [x + lean * 0.2, y - tall * 0.6];
    const shade = rank === 0 ? "d-leaf d-under" : random() < 0.4 ? "d-leaf d-young" : "d-leaf";
    if (plant.leaf === "ribbon") {
      for (const k of [-1, 0.1, 1]) {
        const rib = midrib(foot, k * 0.42 + between(random, -0.1, 0.1), tall, k * tall * 0.22);
        sheaf.leaf((leaf) => lance(leaf, rib, clamp(tall * 0.06, 0.7, 2.4)), shade);
      }
    } else if (plant.leaf === "round" || plant.leaf === "lobed") {
      for (const k of [-0.7, 0.1, 0.75]) {
        const end = along(foot, k + between(random, -0.2, 0.2), tall * between(random, 0.55, 0.9));
        sheaf.stem((pen) => pen.move(foot[0], foot[1]).quad(x, mix(foot[1], end[1], 0.7), end[0], end[1]));
        sheaf.leaf((leaf) => roundBlade(leaf, end, k * 0.6, clamp(tall * 0.16, 1.4, 7), 0.8), shade);
      }
    } else {
      sheaf.stem((pen) => pen.move(foot[0], foot[1]).quad(control[0], control[1], top[0], top[1]));
      const nodes = Math.round(clamp(tall / 6, 3, 6));
      const size = clamp(tall * 0.42, 4, 15);
      sheaf.leaf((leaf, vein) => {
        for (let i = 0; i < nodes; i++) {
          const t = 0.2 + (0.8 * i) / (nodes - 1);
          const p = quadAt(foot, control, top, t);
          for (const s of [-1, 1]) {
            const rib = midrib(
              p,
              s * (1.24 - 0.66 * t + between(random, -0.12, 0.12)),
              size * (1 - 0.3 * t * t) * between(random, 0.9, 1.14),
              s * size * 0.2,
            );
            ovate(leaf, rib, size * 0.2);
            if (rank === 2 && size > 9) drawMidrib(vein, rib, 0.8);
          }
        }
        lance(leaf, midrib(top, between(random, -0.3, 0.3), size * 0.62, 0), size * 0.13);
      }, shade);
    }
    return dressed(hand, rank === 0 ? Math.max(depth, CUT + 0.02) : near, sheaf.nodes);
  });
}

/** Perches within what the plant covers; wood is taken before stone, thick before thin. */
function perchesFor(stage: Stage, stand: Stand): Perch[] {
  const near = stage.perches.filter(
    (p) => Math.abs(p.point[0] - stand.x) <= stand.half && p.point[1] > stage.water.top + 8,
  );
  const wood = near.filter((p) => p.on === "wood");
  return wood.length > 2 ? wood : near;
}

/** Up to `count` perches spread along the plant's width. */
function spread(hand: Hand, perches: readonly Perch[], count: number): Perch[] {
  const { stand, random } = hand;
  const out: Perch[] = [];
  for (let i = 0; i < count; i++) {
    const x = stand.x + ((i + 0.5) / count - 0.5) * stand.half * 1.7;
    let best: Perch | undefined;
    let cost = Infinity;
    for (const p of perches) {
      const c = Math.abs(p.point[0] - x) - Math.min(p.radius, 12) * 1.4 + random() * 10;
      if (c < cost) [best, cost] = [p, c];
    }
    if (best) out.push(best);
  }
  return out;
}

/** Where there is neither wood nor stone, the rhizome lies on the ground. */
function onGround(hand: Hand, count: number): Perch[] {
  const { stage, stand, plant } = hand;
  return Array.from({ length: count }, (_, i) => {
    const x = stand.x + ((i + 0.5) / count - 0.5) * stand.half * 1.2;
    return {
      point: [x, stage.ground.y(x, plant.depth)],
      heading: 0,
      radius: 1,
      depth: Math.max(plant.depth, CUT + 0.01),
      on: "stone",
    };
  });
}

function rhizome(hand: Hand): Item[] {
  const { stage, plant, stand, random } = hand;
  const count = Math.round(clamp((stand.half * 2) / 13, 5, Math.max(6, 14 * stage.fullness)));
  const near = perchesFor(stage, stand);
  const seats = near.length > 0 ? spread(hand, near, count) : onGround(hand, Math.min(count, 8));
  const roof = ceiling(stage);
  const fronds = seats.map((seat, i) => {
    const k = seats.length > 1 ? (i / (seats.length - 1) - 0.5) * 2 : 0;
    const fan = ((i * 0.618 + 0.3) % 1) * 2.1 - 1.05;
    const heading = clamp(fan + k * 0.4 + seat.heading * 0.15 + between(random, -0.2, 0.2), -1.5, 1.5);
    const length = stand.height * between(random, 0.78, 1.08);
    return {
      seat,
      heading,
      length: Math.min(length, (seat.point[1] - roof) / Math.max(0.35, Math.cos(heading))),
      front: i % 2 === 0,
    };
  });
  const shown = fronds.reduce((best, f) =>
    f.front && Math.abs(f.seat.point[0] - stand.x) < Math.abs(best.seat.point[0] - stand.x) ? f : best,
  );
  hand.pointAt = along(shown.seat.point, shown.heading, shown.length * 0.6);
  const part = (front: boolean): Item[] => {
    const sheaf = new Sheaf(stage);
    const mine = fronds.filter((f) => f.front === front).sort((a, b) => Math.abs(b.heading) - Math.abs(a.heading));
    for (const { seat, heading, length } of mine) {
      const rib = midrib(
        seat.point,
        heading,
        length,
        (Math.sign(heading) || 1) * length * (0.1 + 0.14 * Math.abs(heading)),
      );
      if (plant.leaf === "fern" || plant.leaf === "lobed") {
        sheaf.leaf((leaf, vein) => {
          frond(leaf, rib, length, Math.round(clamp(length / 8, 5, 10)));
          drawMidrib(vein, rib, 0.96);
        });
        continue;
      }
      const stalk = length * (plant.leaf === "round" ? 0.42 : 0.34);
      const joint = along(seat.point, heading, stalk);
      sheaf.stem((pen) => pen.polyline([seat.point, joint]), "d-stalk");
      sheaf.leaf((leaf, vein) => {
        if (plant.leaf === "round") {
          const blade = midrib(joint, heading, length - stalk, (Math.sign(heading) || 1) * length * 0.08);
          ovate(leaf, blade, length * 0.23);
          drawMidrib(vein, blade);
          if (length > 26) veins(vein, blade, length * 0.2, 3);
        } else if (plant.leaf === "ribbon" || plant.leaf === "needle") {
          const blade = midrib(seat.point, heading, length, (Math.sign(heading) || 1) * length * 0.14);
          lance(leaf, blade, length * 0.07);
          drawMidrib(vein, blade);
        } else {
          const blade = midrib(joint, heading, length - stalk, (Math.sign(heading) || 1) * length * 0.12);
          ovate(leaf, blade, length * 0.15);
          drawMidrib(vein, blade);
        }
      });
    }
    if (front && mine.length > 1) {
      // The rhizome creeps from seat to seat, but not through open water.
      const line = mine.map((f) => f.seat.point).sort((a, b) => a[0] - b[0]);
      sheaf.stem((pen) => {
        let run: Point[] = [];
        for (const [i, p] of line.entries()) {
          run.push(p);
          const next = line[i + 1];
          if (next && distance(p, next) < 34) continue;
          if (run.length > 1) pen.curve(run);
          run = [];
        }
      }, "d-rhizome");
    }
    const depth = (mine[0]?.seat.depth ?? plant.depth) + (front ? -0.012 : 0.012);
    const item = { depth, nodes: [group(`d-plant d-${hand.tone}${front ? "" : " d-far"}`, sheaf.nodes)] };
    return mine.length > 0 ? [item] : [];
  };
  return [...part(false), ...part(true)];
}

function moss(hand: Hand): Item[] {
  const { stage, stand, random } = hand;
  const count = Math.round(clamp((stand.half * 2) / 5, 6, Math.max(12, 44 * stage.fullness)));
  const near = perchesFor(stage, stand);
  const seats = near.length > 0 ? spread(hand, near, count) : onGround(hand, count);
  const height = clamp(stand.height, 4, 46);
  const middle = seats.reduce((best, s) =>
    Math.abs(s.point[0] - stand.x) < Math.abs(best.point[0] - stand.x) ? s : best,
  );
  hand.pointAt = [middle.point[0], middle.point[1] - 3];
  const sheaf = new Sheaf(stage);
  const [pad, dark, light] = [sheaf.pen(), sheaf.pen(), sheaf.pen()];
  for (const seat of seats) {
    const r = clamp(height * 0.42, 2.5, 14) * between(random, 0.8, 1.2);
    const [x, y] = along(seat.point, 0, r * 0.2);
    pad.loop(
      Array.from({ length: 6 }, (_, i): Point => {
        const a = (i / 6) * 2 * Math.PI;
        const reach = r * between(random, 0.75, 1.1);
        return [x + Math.sin(a) * reach * 1.25, y - Math.cos(a) * reach * 0.8];
      }),
    );
    for (let k = 0; k < 9; k++) {
      const heading = between(random, -1.5, 1.5);
      const from: Point = [x + between(random, -r, r), y + between(random, -r * 0.4, r * 0.4)];
      const length = height * between(random, 0.3, 0.66);
      const to = along(from, heading, length);
      const pen = k % 3 ? dark : light;
      pen.move(from[0], from[1]).quad(from[0] + Math.sin(heading) * length * 0.2, from[1] - length * 0.5, to[0], to[1]);
      const fork = along(along(from, heading * 0.7, length * 0.55), heading + (k % 2 ? 0.8 : -0.8), length * 0.32);
      const joint = along(from, heading * 0.7, length * 0.55);
      pen.move(joint[0], joint[1]).line(fork[0], fork[1]);
    }
  }
  sheaf.nodes.push(...paths(["d-pad", pad.d], ["d-thread", dark.d], ["d-thread d-pale-thread", light.d]));
  return [dressed(hand, (seats[0]?.depth ?? hand.plant.depth) - 0.014, sheaf.nodes)];
}

function bulb(hand: Hand): Item[] {
  const { stage, plant, stand, random } = hand;
  const roof = ceiling(stage);
  return spots(hand, clamp(stand.height * 0.4, 26, 90), 0.06, 5).map(({ x, y, depth }) => {
    const sheaf = new Sheaf(stage);
    const size = clamp(stage.frame.scale * 0.014, 4, 13);
    const neck: Point = [x, y - size * 0.9];
    const n = plant.leaf === "round" ? 7 : 9;
    const leaves = Array.from({ length: n }, (_, i) => ({
      k: (i / (n - 1) - 0.5) * 2 + between(random, -0.1, 0.1),
      order: random(),
    })).sort((a, b) => a.order - b.order);
    let upright = Number.POSITIVE_INFINITY;
    for (const { k } of leaves) {
      const heading = k * (plant.leaf === "round" ? 0.62 : 0.5);
      const whole = Math.min(stand.height * between(random, 0.66, 1.04), (neck[1] - roof) * between(random, 0.94, 1));
      if (Math.abs(k) < upright && Math.abs(x - stand.x) <= stand.half) {
        upright = Math.abs(k);
        hand.pointAt = along(
          neck,
          heading * 0.9,
          whole * (plant.leaf === "round" || plant.leaf === "oval" ? 0.84 : 0.6),
        );
      }
      const outward = Math.sign(k) || 1;
      if (plant.leaf === "round" || plant.leaf === "oval") {
        const end = along(neck, heading, whole * 0.82);
        const elbow = along(neck, heading * 0.35, whole * 0.5);
        sheaf.stem((pen) => pen.move(neck[0], neck[1]).quad(elbow[0], elbow[1], end[0], end[1]), "d-stalk");
        sheaf.leaf((leaf, vein) =>
          roundBlade(leaf, end, heading * 1.5 + outward * 0.25, clamp(whole * 0.12, 4, 20), 0.72, vein),
        );
        continue;
      }
      const rib = midrib(neck, heading, whole, outward * whole * (0.08 + 0.24 * Math.abs(k)));
      sheaf.leaf((leaf, vein) => {
        wavy(leaf, rib, clamp(whole * 0.028, 1.6, 5), random, 0.34);
        drawMidrib(vein, rib);
      });
    }
    sheaf.leaf((leaf, vein) => {
      leaf.loop([
        [x, neck[1] - size * 0.4],
        [x + size * 0.72, y - size * 0.35],
        [x + size * 0.5, y + size * 0.42],
        [x - size * 0.5, y + size * 0.42],
        [x - size * 0.72, y - size * 0.35],
      ]);
      for (const k of [-0.3, 0, 0.3])
        vein.move(x + k * size * 0.6, neck[1]).quad(x + k * size * 1.7, y - size * 0.3, x + k * size, y + size * 0.36);
    }, "d-bulb");
    return dressed(hand, depth, sheaf.nodes);
  });
}

function floating(hand: Hand): Item[] {
  const { stage, plant, stand, random } = hand;
  const { scale } = stage.frame;
  const surface = stage.frame.surface;
  const size = clamp(scale * (plant.leaf === "round" ? 0.011 : plant.leaf === "ribbon" ? 0.02 : 0.009), 4, 16);
  const n = Math.round(clamp((stand.half * 2) / (size * 2.5), 1, 30));
  const box = { ...stage.water, top: Math.max(surface - size * 2.2, stage.frame.inner.top + 1) };
  const [roots, hairs, leaves, under] = [new Pen(box), new Pen(box), new Pen(box), new Pen(box)];
  for (let i = 0; i < n; i++) {
    const x = n === 1 ? stand.x : stand.x + ((i + 0.5) / n - 0.5) * stand.half * 2 + between(random, -0.2, 0.2) * size;
    const r = size * between(random, 0.8, 1.15);
    const drop = clamp(stand.height * between(random, 0.6, 1.05), 3, (stage.water.bottom - surface) * 0.6);
    const strands = plant.leaf === "needle" ? 2 : 4;
    for (let k = 0; k < strands; k++) {
      const lean = (k / Math.max(1, strands - 1) - 0.5) * r * 1.5;
      const end: Point = [x + lean + between(random, -2, 2), surface + drop * between(random, 0.66, 1)];
      const bow: Point = [x + lean * 1.1 + between(random, -2, 2), surface + drop * 0.5];
      roots.move(x + lean * 0.3, surface + 1).quad(bow[0], bow[1], end[0], end[1]);
      if (stage.frame.compact) continue;
      for (let t = 0.3; t < 0.95; t += 0.16) {
        const p = quadAt([x + lean * 0.3, surface + 1], bow, end, t);
        hairs
          .move(p[0], p[1])
          .line(p[0] - 1.6, p[1] + 2)
          .move(p[0], p[1])
          .line(p[0] + 1.6, p[1] + 2);
      }
    }
    if (plant.leaf === "ribbon" || plant.leaf === "fern" || plant.leaf === "lobed") {
      for (const k of [-1.25, 1.25, -0.7, 0.7, -0.2, 0.25]) {
        ovate(
          k > 1 || k < -1 ? under : leaves,
          midrib([x, surface + 1], k, r * 1.25, Math.sign(k) * r * 0.12),
          r * 0.34,
        );
      }
    } else {
      for (const s of [-1, 1]) {
        const cx = x + s * r * 0.72;
        under.loop([
          [cx - r * 0.8, surface - 0.4],
          [cx, surface - r * 0.3],
          [cx + r * 0.8, surface - 0.6],
          [cx, surface + r * 0.26],
        ]);
      }
      leaves.loop([
        [x - r * 0.8, surface - r * 0.18],
        [x, surface - r * 0.52],
        [x + r * 0.8, surface - r * 0.2],
        [x, surface + r * 0.1],
      ]);
    }
  }
  const nodes = paths(["d-root", roots.d], ["d-root-hair", hairs.d], ["d-leaf d-under", under.d], ["d-leaf", leaves.d]);
  return [{ depth: -1, nodes: [group(`d-plant d-${hand.tone}`, nodes)] }];
}

const growers: Readonly<Record<DrawnPlant["form"], (hand: Hand) => Item[]>> = {
  stem,
  rosette,
  runner,
  carpet,
  moss,
  bulb,
  rhizome,
  floating,
};

/** A plant painted, and the leafy place by which its number stands. */
export interface Grown {
  readonly items: readonly Item[];
  readonly anchor: Point;
}

export function drawPlant(stage: Stage, plant: DrawnPlant, tone: Tone, index: number): Grown {
  const hand: Hand = {
    stage,
    plant,
    tone,
    stand: standOf(plant, stage),
    random: streamOf(stage.scene.seed, "plant", index, plant.form),
  };
  const items = growers[plant.form](hand);
  const [x, y] = hand.pointAt ?? anchorOf(stage, plant);
  const { water } = stage;
  return {
    items,
    anchor: [clamp(x, water.left, water.right), clamp(y, Math.min(water.top, stage.frame.surface), water.bottom)],
  };
}

/** A leafy place in the upper half of a plant that stands on the ground or floats. */
function anchorOf(stage: Stage, plant: DrawnPlant): Point {
  const stand = standOf(plant, stage);
  const { frame, ground } = stage;
  if (plant.form === "floating") return [stand.x, frame.surface + 3];
  const ceilingY = ceiling(stage);
  const foot = ground.y(stand.x, plant.depth);
  if (plant.form === "carpet") return [stand.x, foot - Math.min(stand.height * 0.4, 8)];
  return [stand.x, Math.max(ceilingY + 8, foot - Math.min(stand.height, foot - ceilingY) * 0.66)];
}

/** A plant's shadow on the picture, for finding open water: px. */
export function coverOf(stage: Stage, plant: DrawnPlant): Box {
  const stand = standOf(plant, stage);
  const foot = stage.ground.y(stand.x, plant.depth);
  if (plant.form === "floating") {
    return {
      left: stand.x - stand.half,
      right: stand.x + stand.half,
      top: stage.frame.surface - 6,
      bottom: stage.frame.surface + stand.height,
    };
  }
  if (plant.form === "rhizome" || plant.form === "moss") {
    const near = perchesFor(stage, stand).map((p) => p.point[1]);
    if (near.length > 0) {
      const [top, bottom] = [Math.min(...near), Math.max(...near)];
      return {
        left: stand.x - stand.half * 1.2,
        right: stand.x + stand.half * 1.2,
        top: top - stand.height * 0.6,
        bottom,
      };
    }
  }
  return {
    left: stand.x - stand.half * 1.1,
    right: stand.x + stand.half * 1.1,
    top: Math.max(stage.water.top, foot - stand.height),
    bottom: foot,
  };
}
