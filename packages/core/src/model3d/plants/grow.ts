/** Plants by growth form: each is told from the others by how it grows. */
import type { Leaf, PlantForm } from "../../drawing/index.ts";
import { acrossOf, growLeaf, growStalked } from "./leaves.ts";
import { type PlantMesh, profiles, type Rib, ribAt, ribFrom, Sprout } from "./sprout.ts";
import { add, times, towards, type Vector } from "./vector.ts";

export interface PlantSize {
  readonly form: PlantForm;
  readonly leaf: Leaf;
  /** m; of floating plants the length of their roots. */
  readonly height: number;
  /** Width of one plant, m. */
  readonly spread: number;
  /** Height of the water above its foot, m: longer leaves lie down under the surface. */
  readonly room: number;
  /** How closely it is drawn: 1 for one that is looked at, less for one of a crowd; 0.4 to 1. */
  readonly detail: number;
  /** 0..1, the next number of a seeded generator at each call. */
  readonly random: () => number;
}

interface Hand extends PlantSize {
  readonly sprout: Sprout;
  readonly between: (from: number, to: number) => number;
}

const golden = Math.PI * (3 - Math.sqrt(5));

/** Most that a plant is stretched or pressed to be as high as it is said to be. Design value. */
const mostStretch = 2.2;

/** Furthest that a leaf reaches from the middle, share of the plant's width. Design value. */
const mostOut = 0.78;

/** Least size that is drawn, m: smaller plants would be dust. */
const least = 0.004;

/** Length of a stem plant's leaves and the way between its leaf pairs, m, as in the other drawings. Design values, by eye. */
const stemHabit: Readonly<Record<Leaf, { readonly leaf: number; readonly step: number; readonly widest: number }>> = {
  lobed: { leaf: 0.055, step: 0.018, widest: 0.36 },
  oval: { leaf: 0.028, step: 0.014, widest: 0.3 },
  round: { leaf: 0.02, step: 0.013, widest: 0.3 },
  ribbon: { leaf: 0.05, step: 0.015, widest: 0.36 },
  needle: { leaf: 0.024, step: 0.01, widest: 0.3 },
  fern: { leaf: 0.028, step: 0.013, widest: 0.3 },
};

/** A place on the disc of the plant, a share of its radius away. */
function around(hand: Hand, k: number, count: number, share: number): Vector {
  const out = (hand.spread / 2) * share * Math.sqrt((k + 0.5) / count);
  const turn = k * golden + hand.between(-0.3, 0.3);
  return [Math.cos(turn) * out, Math.sin(turn) * out, 0];
}

/** Length of a leaf at a rise (rad) that keeps within a height and a radius, m. */
function reachAt(rise: number, height: number, radius: number): number {
  return Math.min(radius / Math.max(0.05, Math.cos(rise)), height / Math.max(0.05, Math.sin(rise)));
}

/** Rise of leaf `inner` (0 the outermost, 1 the innermost), rad: a plant that is high for its width keeps all upright. */
function riseOf(inner: number, height: number, radius: number): number {
  const lowest = Math.min(1.25, Math.max(0.3, Math.atan2(0.34 * height, radius)));
  return lowest + (1.38 - lowest) * inner ** 0.75;
}

/** Radius that the leaves of a plant arch over: a little more than its own. */
const radiusOf = ({ spread }: PlantSize): number => 0.58 * spread;

function stem(hand: Hand): void {
  const { sprout, leaf, between, spread, room, detail } = hand;
  const habit = stemHabit[leaf];
  const height = Math.min(hand.height, room);
  const size = Math.min(habit.leaf, height * habit.widest, spread * 0.85);
  // as many stems as find room for their leaves beside each other, fewer of fine-leaved ones
  const most = Math.max(2, Math.round((leaf === "fern" ? 3 : 8) * (0.4 + 0.6 * detail)));
  const count = Math.max(2, Math.min(most, Math.round((spread / (1.3 * size)) ** 2)));
  const fine = leaf === "needle" || leaf === "fern";
  const each = leaf === "needle" ? 7 : leaf === "fern" ? 4 : 2;
  for (let s = 0; s < count; s++) {
    const foot = around(hand, s, count, 0.75);
    const tall = (height - size * 0.25) * between(0.76, 1);
    const way = Math.atan2(foot[1], foot[0]) + between(-0.8, 0.8);
    const lean = tall * between(0.02, 0.1);
    const axis: Rib = {
      base: foot,
      control: add(foot, [Math.cos(way) * lean * 0.2, Math.sin(way) * lean * 0.2, tall * 0.55]),
      tip: add(foot, [Math.cos(way) * lean, Math.sin(way) * lean, tall]),
    };
    sprout.stalk(axis, Math.max(0.0007, size * 0.03), 0.3, "thread", 4);
    const nodes = Math.max(
      2,
      Math.min(leaf === "fern" ? 12 : 16, Math.round(tall / Math.max(habit.step * 0.85, size * 0.34))),
    );
    for (let n = 0; n < nodes; n++) {
      const t = 0.14 + (0.86 * n) / (nodes - 1);
      // old leaves below are shorter and hang, young ones at the tip are small and stand up
      const long =
        size *
        between(0.86, 1.08) *
        (0.7 + 0.36 * Math.sin(Math.PI * Math.min(1, t * 0.9 + 0.1))) *
        (1 - 0.45 * t ** 5);
      const rise = 0.1 + 0.95 * t ** 2 + between(-0.15, 0.2);
      const from = ribAt(axis, t);
      const shade = 0.12 + 0.8 * t + between(-0.1, 0.1);
      for (let k = 0; k < each; k++) {
        const heading = (2 * Math.PI * k) / each + n * (fine ? 0.5 : Math.PI / 2 + 0.12) + s;
        const rib = ribFrom(from, heading, rise, long, fine ? 0.12 : 0.34 * (1 - 0.6 * t));
        growLeaf(sprout, leaf, {
          rib,
          length: long,
          side: acrossOf(heading, between(-0.75, 0.75)),
          shade,
          detail: (leaf === "fern" ? 0.4 : 0.7) * detail,
        });
      }
    }
    for (let k = 0; k < 3; k++) {
      const heading = (2 * Math.PI * k) / 3 + s;
      const rib = ribFrom(axis.tip, heading, 1.05, size * 0.42, 0);
      growLeaf(sprout, leaf, { rib, length: size * 0.42, side: acrossOf(heading), shade: 1, detail: 0.5 * detail });
    }
  }
}

function rosette(hand: Hand): void {
  const { sprout, leaf, between, room } = hand;
  const height = Math.min(hand.height, room);
  if (leaf === "needle") {
    tuft(hand, height, 24, 0.9);
    return;
  }
  const count = leaf === "ribbon" ? 16 : leaf === "fern" ? 10 : 13;
  const radius = radiusOf(hand);
  for (let k = 0; k < count; k++) {
    const inner = k / (count - 1);
    const heading = k * golden + between(-0.2, 0.2);
    const rise = Math.min(1.42, riseOf(inner, height, radius) + between(-0.1, 0.1));
    const length = reachAt(rise, height, radius) * between(0.86, 1.04);
    const droop = 0.42 * (1 - 0.75 * inner);
    const foot = times(towards(heading, 0), 0.002);
    const shade = 0.05 + 0.85 * inner;
    if (leaf === "ribbon") {
      const rib = ribFrom(foot, heading, rise, length, droop);
      sprout.leaf({
        rib,
        half: length * 0.045,
        profile: profiles.ribbon,
        side: acrossOf(heading),
        kind: "leaf",
        shade,
        rows: 8,
        fold: 0.25,
        ripple: 0.2,
      });
    } else {
      growStalked(sprout, leaf, {
        foot,
        heading,
        rise: Math.min(1.4, rise + 0.12),
        length,
        stalk: leaf === "round" ? 0.58 : 0.34,
        droop: leaf === "round" ? 0.1 : droop,
        thick: Math.max(0.0006, length * 0.012),
        shade,
        detail: hand.detail,
      });
    }
  }
}

/** Fine grass from one point. */
function tuft(hand: Hand, height: number, count: number, spread: number): void {
  const { sprout, between } = hand;
  const base = Math.min(hand.spread * 0.42, 0.012);
  const half = Math.max(0.0005, Math.min(0.0016, height * 0.013));
  for (let k = 0; k < count; k++) {
    const turn = k * golden + between(-0.4, 0.4);
    const out = base * Math.sqrt((k + 0.5) / count);
    const foot: Vector = [Math.cos(turn) * out, Math.sin(turn) * out, 0];
    const heading = turn + between(-0.7, 0.7);
    const lean = spread * (k / count) * between(0.5, 1);
    const length = (height / Math.max(0.6, Math.cos(lean * 0.8))) * between(0.6, 1);
    const rib = ribFrom(foot, heading, Math.PI / 2 - lean * 0.7, length, 0.3 * lean);
    sprout.leaf({
      rib,
      half,
      profile: profiles.blade,
      side: acrossOf(heading),
      kind: "blade",
      shade: between(0, 1),
      rows: 4,
    });
  }
}

function runner(hand: Hand): void {
  const { sprout, leaf, between, room, height, spread } = hand;
  if (leaf === "needle") {
    tuft(hand, Math.min(height, room), 18, 0.35);
    return;
  }
  if (leaf !== "ribbon") {
    rosette({ ...hand, height: Math.min(height, spread * 1.6) });
    return;
  }
  const count = 8;
  const half = Math.max(0.0012, Math.min(0.0034, spread * 0.05));
  // leaves that reach the surface lie down along it, all the same way, as the current lays them
  const stream = 0.15;
  for (let k = 0; k < count; k++) {
    const heading = k * golden + between(-0.4, 0.4);
    const foot = times(towards(heading, 0), Math.min(0.03, spread * 0.45) * Math.sqrt((k + 0.5) / count));
    const length = height * between(0.66, 1.06);
    const roof = room - between(0.001, 0.012);
    const upright = Math.min(length, roof);
    const out = times(towards(heading, 0), upright * between(0.03, 0.14));
    const over = Math.max(0, length - upright);
    const shade = between(0.05, 0.95);
    const top: Vector = add(foot, [out[0], out[1], upright]);
    const rib: Rib = { base: foot, control: add(foot, [out[0] * 0.1, out[1] * 0.1, upright * 0.5]), tip: top };
    const side = acrossOf(heading + between(-0.5, 0.5));
    if (over < half) {
      sprout.leaf({ rib, half, profile: profiles.ribbon, side, kind: "leaf", shade, rows: 9, fold: 0.25 });
      continue;
    }
    const way = heading * 0.15 + stream + between(-0.4, 0.4);
    const lain = times(towards(way, 0), Math.min(over, spread * 3));
    const knee: Rib = {
      base: top,
      control: add(top, [lain[0] * 0.2, lain[1] * 0.2, Math.min(over, room - top[2]) * 0.2]),
      tip: add(top, [lain[0], lain[1], -Math.min(over * 0.12, 0.012)]),
    };
    sprout.leaf({ rib, half, profile: profiles.even, side, kind: "leaf", shade, rows: 8, fold: 0.25 });
    sprout.leaf({
      rib: knee,
      half,
      profile: profiles.ribbon,
      side: acrossOf(way),
      kind: "leaf",
      shade,
      rows: 5,
      fold: 0.25,
    });
  }
}

function carpet(hand: Hand): void {
  const { sprout, leaf, between, room, spread } = hand;
  const height = Math.min(hand.height, room);
  if (leaf === "needle" || leaf === "ribbon") {
    tuft(hand, height, leaf === "needle" ? 22 : 14, 0.55);
    return;
  }
  const round = leaf === "round" || leaf === "lobed";
  const count = 5;
  for (let s = 0; s < count; s++) {
    const foot = around(hand, s, count, 0.95);
    const tall = height * between(0.72, 1);
    if (round) {
      const blade = Math.min(height * 0.5, spread * 0.6);
      for (let k = 0; k < 3; k++) {
        const length = tall * (1 - 0.22 * k);
        growStalked(sprout, leaf, {
          foot,
          heading: s * golden + k * 2.3,
          rise: 1.3 - 0.2 * k,
          length,
          stalk: Math.max(0.3, 1 - blade / length),
          droop: 0.1,
          thick: 0.0004,
          shade: between(0.15, 0.95),
          detail: 0.9 * hand.detail,
        });
      }
      continue;
    }
    const lean = times(towards(s * golden, 0), tall * between(0.05, 0.3));
    const axis: Rib = {
      base: foot,
      control: add(foot, [0, 0, tall * 0.5]),
      tip: add(foot, [lean[0], lean[1], tall * 0.9]),
    };
    sprout.stalk(axis, 0.0004, 0.2, "thread", 3);
    const size = Math.min(tall * 0.5, spread * 0.62, 0.02);
    const nodes = Math.max(2, Math.min(5, Math.round(tall / Math.max(size * 0.5, 0.004))));
    for (let n = 0; n < nodes; n++) {
      const t = 0.2 + (0.8 * n) / (nodes - 1);
      for (let k = 0; k < 2; k++) {
        const heading = s + k * Math.PI + n * (Math.PI / 2);
        const long = size * (1 - 0.25 * t) * between(0.88, 1.1);
        const rib = ribFrom(ribAt(axis, t), heading, 0.25 + 0.6 * t, long, 0.25);
        growLeaf(sprout, leaf, {
          rib,
          length: long,
          side: acrossOf(heading),
          shade: 0.1 + 0.9 * t,
          detail: 0.6 * hand.detail,
        });
      }
    }
  }
}

function moss(hand: Hand): void {
  const { sprout, between } = hand;
  const height = Math.min(hand.height, hand.room);
  const radius = Math.max(least, Math.min(hand.spread * 0.5, height * 1.6));
  const [wide, high] = [radius * 0.62, height * 0.5];
  const bumps = Array.from({ length: 37 }, () => between(0.8, 1.1));
  sprout.body([0, 0, 0], wide, high, 0.1, (k) => bumps[k % bumps.length]!);
  const count = 64;
  const long = Math.min(height * 0.6, radius * 0.7);
  for (let k = 0; k < count; k++) {
    const heading = k * golden;
    const up = ((k + 0.5) / count) * (Math.PI / 2);
    // from all over the cushion, and over its rim
    const foot: Vector = [
      Math.cos(heading) * wide * 0.95 * Math.cos(up),
      Math.sin(heading) * wide * 0.95 * Math.cos(up),
      high * 0.9 * Math.sin(up),
    ];
    const rise = up * 0.9 + between(-0.2, 0.35);
    const length = long * between(0.6, 1) * (1 - 0.25 * Math.sin(up));
    const rib = ribFrom(foot, heading + between(-0.4, 0.4), rise, length, 0.5);
    const shade = between(0, 1);
    const strand = { profile: profiles.blade, kind: "blade", shade } as const;
    sprout.leaf({ ...strand, rib, half: Math.max(0.0005, length * 0.05), side: acrossOf(heading), rows: 3 });
    for (let n = 1; n <= 3; n++) {
      for (const way of [-1, 1]) {
        const turn = heading + way * 0.9;
        const twig = ribFrom(ribAt(rib, n / 3.6), turn, rise * 0.6, length * 0.42 * (1.1 - n / 4), 0.4);
        sprout.leaf({ ...strand, rib: twig, half: Math.max(0.0004, length * 0.035), side: acrossOf(turn), rows: 2 });
      }
    }
  }
}

function bulb(hand: Hand): void {
  const { sprout, leaf, between, room } = hand;
  const body = Math.max(least, Math.min(hand.spread * 0.13, hand.height * 0.14, 0.018));
  sprout.body([0, 0, 0], body, body * 1.5, 0.6, () => 1);
  const height = Math.min(hand.height, room);
  const foot: Vector = [0, 0, body * 1.2];
  const count = leaf === "round" ? 8 : 11;
  for (let k = 0; k < count; k++) {
    const inner = k / (count - 1);
    const heading = k * golden + between(-0.2, 0.2);
    const shade = 0.08 + 0.85 * between(0, 1);
    if (leaf === "ribbon" || leaf === "needle") {
      const rise = Math.max(1, riseOf(inner, height, radiusOf(hand)));
      const length = reachAt(rise, height - body, radiusOf(hand)) * between(0.8, 1);
      const rib = ribFrom(foot, heading, rise, length, 0.3 * (1 - inner * 0.8));
      const half = Math.max(0.001, Math.min(hand.spread * 0.045, length * 0.05));
      sprout.leaf({
        rib,
        half,
        profile: profiles.ribbon,
        side: acrossOf(heading),
        kind: "leaf",
        shade,
        rows: 10,
        fold: 0.2,
        ripple: 0.35,
      });
      continue;
    }
    const rise = riseOf(inner, height, radiusOf(hand));
    growStalked(sprout, leaf, {
      foot,
      heading,
      rise,
      length: reachAt(rise, height - body, radiusOf(hand)) * between(0.85, 1.04),
      stalk: leaf === "round" ? 0.62 : 0.4,
      droop: 0.2,
      thick: 0.0009,
      shade,
      detail: hand.detail,
    });
  }
}

function rhizome(hand: Hand): void {
  const { sprout, leaf, between, room, spread } = hand;
  const height = Math.min(hand.height, room);
  const long = Math.min(spread * 0.45, height * 0.6);
  const thick = Math.max(0.001, Math.min(0.004, height * 0.025));
  const axis: Rib = { base: [-long / 2, 0, thick * 0.6], control: [0, long * 0.12, thick], tip: [long / 2, 0, thick] };
  sprout.stalk(axis, thick, 0.1, "thread", 5);
  const count = leaf === "needle" ? 18 : leaf === "fern" ? 11 : 12;
  for (let k = 0; k < count; k++) {
    // leaves of all ages along it, the upright ones spread over its length
    const inner = ((k * 7) % count) / count;
    const foot = ribAt(axis, 0.06 + (0.9 * k) / (count - 1));
    const heading = k * golden + between(-0.3, 0.3);
    const rise = Math.min(1.42, riseOf(inner, height, radiusOf(hand)) + between(-0.12, 0.12));
    const length = reachAt(rise, height, radiusOf(hand)) * between(0.82, 1.04);
    const shade = 0.1 + 0.85 * between(0, 1);
    if (leaf === "oval" || leaf === "round") {
      growStalked(sprout, leaf, {
        foot,
        heading,
        rise,
        length,
        stalk: leaf === "round" ? 0.64 : 0.36,
        droop: leaf === "round" ? 0.1 : 0.3 * (1 - 0.7 * inner),
        thick: Math.max(0.0006, length * 0.012),
        shade,
        detail: hand.detail,
      });
      continue;
    }
    const rib = ribFrom(foot, heading, rise, length, (leaf === "fern" ? 0.45 : 0.35) * (1 - 0.6 * inner));
    if (leaf === "ribbon" || leaf === "needle")
      sprout.leaf({
        rib,
        half: length * (leaf === "ribbon" ? 0.07 : 0.03),
        profile: profiles.lance,
        side: acrossOf(heading),
        kind: "leaf",
        shade,
        rows: 8,
        fold: 0.25,
      });
    else growLeaf(sprout, leaf, { rib, length, side: acrossOf(heading), shade, detail: hand.detail });
  }
}

function floating(hand: Hand): void {
  const { sprout, leaf, between, spread } = hand;
  const radius = Math.max(least, spread / 2);
  const drop = Math.min(hand.height, hand.room * 0.9);
  const strands = 6;
  for (let k = 0; k < strands; k++) {
    const heading = k * golden;
    const foot = times(towards(heading, 0), radius * 0.12);
    const tip: Vector = [
      foot[0] * 3 + between(-0.1, 0.1) * drop,
      foot[1] * 3 + between(-0.1, 0.1) * drop,
      -drop * between(0.6, 1),
    ];
    const rib: Rib = { base: foot, control: [foot[0] * 3, foot[1] * 3, tip[2] * 0.5], tip };
    sprout.leaf({
      rib,
      half: Math.max(0.0003, radius * 0.012),
      profile: profiles.blade,
      side: acrossOf(heading),
      kind: "root",
      shade: 0.5,
      rows: 4,
    });
  }
  const lying = leaf === "round" || leaf === "oval" || leaf === "needle";
  const count = leaf === "needle" ? 26 : lying ? 7 : 12;
  for (let k = 0; k < count; k++) {
    const inner = 1 - k / count;
    const heading = k * golden + between(-0.15, 0.15);
    const shade = 0.15 + 0.8 * between(0, 1);
    if (!lying) {
      const length = radius * (0.65 + 0.4 * (1 - inner));
      const rib = ribFrom([0, 0, 0], heading, 0.25 + 0.8 * inner, length, 0.2);
      sprout.leaf({
        rib,
        half: length * 0.26,
        profile: profiles.oval,
        side: acrossOf(heading),
        kind: "leaf",
        shade,
        rows: 6,
        fold: 0.15,
      });
      continue;
    }
    const length = leaf === "needle" ? radius * 0.5 : radius * (leaf === "round" ? 0.62 : 0.5);
    const foot = add(times(towards(heading, 0), (radius - length) * (1 - inner) * 0.9), [
      0,
      0,
      0.0006 + 0.0012 * inner,
    ]);
    const rib = ribFrom(foot, heading, leaf === "needle" ? between(-0.2, 0.5) : 0.04, length, 0);
    growLeaf(sprout, leaf, { rib, length, side: acrossOf(heading), shade, detail: 0.9 * hand.detail });
  }
}

const growers: Readonly<Record<PlantForm, (hand: Hand) => void>> = {
  stem,
  rosette,
  runner,
  carpet,
  moss,
  bulb,
  rhizome,
  floating,
};

/**
 * One plant of a growth form, its foot at the origin; a floating one has its leaves there and its roots below.
 * @throws RangeError for a height, a spread or a room that is not above 0.
 */
export function growPlant(size: PlantSize): PlantMesh {
  for (const name of ["height", "spread", "room"] as const)
    if (!(size[name] > 0 && Number.isFinite(size[name])))
      throw new RangeError(`${name} ${size[name]} m of a plant: it must be above 0`);
  const sprout = new Sprout();
  const between = (from: number, to: number): number => from + (to - from) * size.random();
  const hand: Hand = {
    ...size,
    height: Math.max(size.height, least),
    spread: Math.max(size.spread, least),
    room: Math.max(size.room, least),
    sprout,
    between,
  };
  growers[size.form](hand);
  // leaves that lie along the surface go as far as they are long
  if (size.form !== "runner" || size.leaf !== "ribbon") sprout.keepWithin(mostOut * hand.spread);
  if (size.form !== "floating") sprout.raiseTo(Math.min(hand.height, hand.room), mostStretch);
  return sprout.mesh();
}
