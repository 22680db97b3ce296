import { createRandom, type RandomStream } from "../numerics/index.ts";
import { type BoxSize, checkSize, fitToBox, type MadePiece } from "./fit.ts";
import { meshVolume } from "./measure.ts";
import type { Mesh } from "./mesh.ts";
import { createNoise } from "./noise.ts";
import { placeDirection } from "./place.ts";
import { type Limb, type Tube, TubeGrower } from "./tube.ts";
import { dot, minus, type Point3, plus, unit } from "./vector.ts";

/** A piece of wood to be made; the same figures give the same piece. */
export interface WoodForm extends BoxSize {
  /** Branches beside the trunk, 0 to `mostBranches`. */
  readonly branches: number;
  /** 32-bit integer. */
  readonly seed: number;
}

/** Design value. */
export const mostBranches = 24;

/** Share of its box that wood takes, least and most. Design values. */
export const woodFill = [0.05, 0.15] as const;

/** Share that the thickness is made for. Design value. */
const targetFill = 0.09;

/** A made piece of wood. */
export interface WoodPiece extends MadePiece {
  /** Branches that found room without cutting another. */
  readonly branches: number;
}

/**
 * A root-like piece: one tapering trunk across its box, out of whose sides branches grow to the faces of the box. It is
 * one closed surface, opened where a branch springs, so that nothing overlaps and its volume counts once. It fills its
 * box exactly.
 * @throws RangeError for a bad size, seed or number of branches.
 */
export function woodMesh(form: WoodForm): WoodPiece {
  checkSize(form);
  if (!(Number.isInteger(form.branches) && form.branches >= 0 && form.branches <= mostBranches))
    throw new RangeError(`${form.branches} branches: 0 to ${mostBranches} are allowed`);
  let best = draw(form, 0);
  for (let k = 1; k < mostDraws && !(best.share > sure[0] && best.share < sure[1]); k++) {
    const other = draw(form, k);
    if (Math.abs(other.share - targetFill) < Math.abs(best.share - targetFill)) best = other;
  }
  const { mesh, stretch } = fitToBox(best.mesh, form);
  return { mesh, grain: placeDirection(best.along, { scale: stretch }), branches: best.branches };
}

/** Pieces are drawn again until one takes a share well within `woodFill`; nearly every first one does. */
const mostDraws = 6;
const sure = [0.06, 0.135] as const;

/** One piece, made thicker or thinner until it takes about the wanted share of its box. */
function draw(form: WoodForm, number: number): Grown & { readonly share: number } {
  const { width, breadth, height } = form;
  const volume = width * breadth * height;
  const most = 0.4 * Math.min(width, breadth, height);
  // At first as thick as a bar over the longest side would be.
  let radius = Math.min(most, Math.sqrt((targetFill * volume) / (4 * Math.max(width, breadth, height))));
  for (let tries = 0; ; tries++) {
    const grown = grow(form, radius, number);
    const share = meshVolume(fitToBox(grown.mesh, form).mesh) / volume;
    if (tries === 3 || (share > 0.9 * targetFill && share < 1.15 * targetFill)) return { ...grown, share };
    radius = Math.min(most, radius * Math.sqrt(targetFill / share));
  }
}

interface Grown {
  readonly mesh: Mesh;
  readonly along: Point3;
  readonly branches: number;
}

function grow(form: WoodForm, radius: number, number: number): Grown {
  const random = createRandom(form.seed, 11 + number);
  const noise = createNoise(random);
  const knots = 1 / (5 * radius);
  const grower = new TubeGrower(([x, y, z]) => 1 + 0.22 * noise(x * knots, y * knots, z * knots), 1e-4 * radius);
  const reach: Point3 = [form.width / 2 - radius, form.breadth / 2 - radius, form.height / 2 - radius];
  const limbs: Limb[] = [];
  const tubes: Tube[] = [];
  // A trunk that bends so tightly that it cuts itself is drawn again, less bent; a straight one never does.
  for (let tries = 0; tubes.length === 0; tries++) {
    const limb = trunkLimb(random, reach, radius, Math.max(0, 1 - tries / 10));
    const tube = grower.trunk(limb);
    if (!tube) continue;
    limbs.push(limb);
    tubes.push(tube);
  }
  const limb = limbs[0]!;
  let branches = 0;
  for (let k = 0; k < form.branches; k++) {
    for (let tries = 0; tries < 24; tries++) {
      const made = tryBranch(random, grower, tubes, limbs, reach, 1 - tries / 40);
      if (!made) continue;
      branches += 1;
      break;
    }
  }
  return { mesh: grower.mesh(), along: unit(minus(limb.line.at(-1)!, limb.line[0]!)), branches };
}

/** From a low end through two bends to a high end, thick at the low one; `bend` 1 as drawn, 0 straight. */
function trunkLimb(random: RandomStream, reach: Point3, radius: number, bend: number): Limb {
  const sign = (): number => (random.uniform() < 0.5 ? -1 : 1);
  const wander = (): number => 0.35 * (2 * random.uniform() - 1);
  const [toX, toY] = [sign(), sign()];
  // It runs along the longest side; the two others it crosses once, so that it fills its box even without branches.
  const upright = reach[2] > Math.max(reach[0], reach[1]);
  const bends: Point3[] = upright
    ? [
        [-toX, wander(), -1],
        [-0.3 * toX, toY, -0.4],
        [0.4 * toX, -toY, 0.35],
        [toX, wander(), 1],
      ]
    : reach[0] >= reach[1]
      ? [
          [-toX, wander(), -1],
          [-0.35 * toX, toY, -0.6 + wander()],
          [0.35 * toX, -toY, 0.2 + wander()],
          [toX, wander(), 1],
        ]
      : [
          [wander(), -toY, -1],
          [toX, -0.35 * toY, -0.6 + wander()],
          [-toX, 0.35 * toY, 0.2 + wander()],
          [wander(), toY, 1],
        ];
  const [first, last] = [bends[0]!, bends[3]!];
  const places = bends.map((place, k): Point3 => {
    const straight = plus(first, minus(last, first), k / 3);
    const [x, y, z] = plus(straight, minus(place, straight), bend);
    return [x * reach[0], y * reach[1], z * reach[2]];
  });
  return tapered(through(places), radius, 0.3 * radius);
}

/** Tries one branch out of a limb that is there; null when it would cut another or finds no side to spring from. */
function tryBranch(
  random: RandomStream,
  grower: TubeGrower,
  tubes: Tube[],
  limbs: Limb[],
  reach: Point3,
  length: number,
): Tube | null {
  // Two of three spring from the trunk.
  const from = limbs.length < 3 || random.uniform() < 0.65 ? 0 : 1 + Math.floor(random.uniform() * (limbs.length - 1));
  const parent = limbs[from]!;
  const at = 1 + Math.floor((0.12 + 0.7 * random.uniform()) * (parent.line.length - 3));
  const start = parent.line[at]!;
  const along = unit(minus(parent.line[at + 1]!, parent.line[at - 1]!));
  const goal = faceOf(random, reach);
  const way = minus(goal, start);
  const out = unit(plus(way, along, -dot(way, along)));
  let made: Limb | null = null;
  const tube = grower.branch(tubes[from]!, start, out, (root, side) => {
    const radius = parent.radii[at]! * (0.5 + 0.2 * random.uniform());
    const end = plus(start, minus(goal, start), length);
    const span = Math.hypot(...minus(end, root));
    if (span < 5 * radius) return null;
    const bend: Point3 = [random.normal(), random.normal(), random.normal()];
    const knee = plus(plus(root, side, 0.3 * span), along, 0.12 * span);
    const elbow = plus(plus(end, minus(root, end), 0.35), bend, 0.07 * span);
    made = tapered(through([root, plus(root, side, 1.6 * radius), knee, elbow, end]), radius, 0.3 * radius);
    return isClear(made, limbs, from, at) ? made : null;
  });
  if (tube && made) {
    limbs.push(made);
    tubes.push(tube);
  }
  return tube;
}

/** A place on one of the six faces of the box that the middle lines keep within; least often on its floor. */
function faceOf(random: RandomStream, reach: Point3): Point3 {
  const place = [0, 1, 2].map((axis) => (2 * random.uniform() - 1) * reach[axis]!) as [number, number, number];
  const face = Math.floor(random.uniform() * 11);
  const axis = face < 4 ? 0 : face < 8 ? 1 : 2;
  place[axis] = (face === 10 || (axis < 2 && face % 2 === 1) ? -1 : 1) * reach[axis]!;
  return place;
}

/** Whether a limb keeps clear of all others, but for the neighbourhood in its parent that it springs from. */
function isClear(limb: Limb, limbs: readonly Limb[], from: number, at: number): boolean {
  for (let k = 2; k < limb.line.length; k++) {
    const [x, y, z] = limb.line[k]!;
    const mine = limb.radii[k]!;
    for (const [n, other] of limbs.entries()) {
      for (let i = 0; i < other.line.length; i++) {
        const [px, py, pz] = other.line[i]!;
        // Close to its root a branch may only lie further off than the parent is thick.
        const root = n === from && Math.abs(i - at) < 8 && k < 5;
        const room = 1.35 * (mine + other.radii[i]!) - (root ? 1.2 * mine : 0);
        if ((px - x) ** 2 + (py - y) ** 2 + (pz - z) ** 2 <= room * room) return false;
      }
    }
  }
  return true;
}

/** Places along a smooth curve through some (Catmull and Rom, even parameter), 16 to each span. */
function through(places: readonly Point3[]): readonly Point3[] {
  const last = places.length - 1;
  const at = (k: number): Point3 =>
    k < 0
      ? plus(places[0]!, minus(places[0]!, places[1]!))
      : k > last
        ? plus(places[last]!, minus(places[last]!, places[last - 1]!))
        : places[k]!;
  const curve: Point3[] = [];
  for (let k = 0; k < last; k++) {
    const [a, b, c, d] = [at(k - 1), at(k), at(k + 1), at(k + 2)];
    for (let n = 0; n < 16; n++) {
      const t = n / 16;
      const point = [0, 1, 2].map((axis) => {
        const [pa, pb, pc, pd] = [a[axis]!, b[axis]!, c[axis]!, d[axis]!];
        const slope = pc - pa;
        const bow = 2 * pa - 5 * pb + 4 * pc - pd;
        const twist = 3 * pb - pa - 3 * pc + pd;
        return pb + 0.5 * t * (slope + t * (bow + t * twist));
      });
      curve.push(point as [number, number, number]);
    }
  }
  return [...curve, places[last]!];
}

/** A curve with rings as far apart as it is thick, between 6 and 40 of them, and radii falling towards its end. */
function tapered(curve: readonly Point3[], from: number, to: number): Limb {
  const lengths = [0];
  for (let k = 1; k < curve.length; k++) {
    lengths.push(lengths[k - 1]! + Math.hypot(...minus(curve[k]!, curve[k - 1]!)));
  }
  const whole = lengths.at(-1)!;
  const rings = Math.max(6, Math.min(40, Math.round(whole / (0.6 * (from + to)))));
  const line: Point3[] = [];
  const radii: number[] = [];
  let span = 0;
  for (let k = 0; k <= rings; k++) {
    const along = (whole * k) / rings;
    while (span < curve.length - 2 && lengths[span + 1]! < along) span += 1;
    const share = Math.min(1, (along - lengths[span]!) / (lengths[span + 1]! - lengths[span]!));
    line.push(plus(curve[span]!, minus(curve[span + 1]!, curve[span]!), share));
    radii.push(to + (from - to) * (1 - k / rings) ** 0.8);
  }
  return { line, radii };
}
