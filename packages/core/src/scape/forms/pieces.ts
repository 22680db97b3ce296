import { fieldHeight, type HeightField, type Point2, type Rectangle } from "../../geometry/index.ts";
import { type Entry, pieceForm } from "../../plan/index.ts";
import { meshBounds, type Point3, placeMesh, restingHeight } from "../../solids/index.ts";
import type { Composition } from "./composition.ts";
import type { Dice } from "./dice.ts";
import type { Site } from "./site.ts";
import type { Piece, StoneSpot, WoodSpot } from "./types.ts";

/** Gap left to the panes beside 0.1 % of their length, for placing by per cent, m. Design value. */
const offGlass = 0.003;

/** Highest top of a piece, as a share of the depth of water. Design value. */
const highestTop = 0.93;

/** Most of a stone's footprint that an earlier one may share. Design value. */
const mostShared = 0.35;

/** Largest box of one stone, m3: at most about 60 kg of rock as a stone fills its box, which two people set by hand. Design value. */
const largestBox = 0.03;

/** Largest piece of wood, m: what is commonly to be had. Design value. */
const longestWood = 1.3;

/** Depth of water over length of a tank of common shape, for which the forms are drawn. Design value. */
const usualShape = 0.45;

/** Width, breadth and rise of the smallest stone, m: less is gravel. Design values. */
const leastStone = [0.015, 0.012, 0.008] as const;

/** Least rise of the main stone, as a share of the depth of water. Design value. */
const leastRise = 0.15;

/** Smallest side of a piece, m. */
const leastSide = 0.008;

interface Turned {
  readonly width: number;
  readonly breadth: number;
  readonly height: number;
  readonly lean: number;
  readonly tip: number;
  readonly turn: number;
}

/** Sides of the upright box round a turned box, m. A piece fills its own box, so it needs no more room than this. */
function extents({ width, breadth, height, lean, tip, turn }: Turned): readonly [x: number, y: number, z: number] {
  const rad = Math.PI / 180;
  const [cl, sl] = [Math.cos(lean * rad), Math.sin(lean * rad)];
  const [ct, st] = [Math.cos(tip * rad), Math.sin(tip * rad)];
  const [cz, sz] = [Math.cos(turn * rad), Math.sin(turn * rad)];
  const side = (...parts: readonly [number, number, number]): number =>
    Math.abs(parts[0]) * width + Math.abs(parts[1]) * breadth + Math.abs(parts[2]) * height;
  return [
    side(cl * cz, sl * st * cz + ct * sz, sl * ct * cz + st * sz),
    side(cl * sz, sl * st * sz + ct * cz, sl * ct * sz + st * cz),
    side(sl, cl * st, cl * ct),
  ];
}

interface Fitter {
  readonly site: Site;
  readonly ground: HeightField;
}

/** The rectangle that a piece takes, m, its middle brought between the panes; null when it is too long for them. */
function footprintAt({ site }: Fitter, piece: Turned, [u, v]: Point2): Rectangle | null {
  const [ex, ey] = extents(piece);
  const inside = (at: number, extent: number, room: number): number | null => {
    const edge = extent / 2 + offGlass + 0.001 * room;
    return 2 * edge > room ? null : Math.min(room - edge, Math.max(edge, at));
  };
  const x = inside(u * site.length, ex, site.length);
  const y = inside(v * site.width, ey, site.width);
  if (x === null || y === null) return null;
  return { left: x - ex / 2, right: x + ex / 2, front: y - ey / 2, back: y + ey / 2 };
}

/** How a piece stands over a rectangle: ground at its middle, and how deep it is set in so that no side hangs free. */
function standingOver({ ground }: Fitter, { left, right, front, back }: Rectangle, rest: number) {
  const middle = fieldHeight(ground, (left + right) / 2, (front + back) / 2);
  let lowest = middle;
  const steps = 4;
  for (let j = 0; j <= steps; j++) {
    for (let i = 0; i <= steps; i++) {
      const [x, y] = [left + ((right - left) * i) / steps, front + ((back - front) * j) / steps];
      lowest = Math.min(lowest, fieldHeight(ground, x, y));
    }
  }
  return { middle, sunk: Math.min(middle, middle - lowest + rest) };
}

function shared(a: Rectangle, b: Rectangle): number {
  const across = Math.min(a.right, b.right) - Math.max(a.left, b.left);
  const deep = Math.min(a.back, b.back) - Math.max(a.front, b.front);
  if (across <= 0 || deep <= 0) return 0;
  const area = (r: Rectangle): number => (r.right - r.left) * (r.back - r.front);
  return (across * deep) / Math.min(area(a), area(b));
}

/** Sizes of the main stone, m: its height above the ground, within the tank, the water and what can be lifted. */
function mainSizes(fitter: Fitter, { main, stones }: Composition) {
  const { length, width, depth } = fitter.site;
  const [u, v] = stones[0]!.at!;
  const ground = fieldHeight(fitter.ground, u * length, v * width);
  const rise = Math.max(leastRise * depth, main.top * depth - ground);
  // a column takes a broader stone for its length, a low tank a flatter one for its height
  const shape = depth / (usualShape * length);
  const widest = Math.min(main.widest * Math.min(1.6, Math.max(1, shape)) * length, 0.6 * width);
  const slender = main.slender * Math.min(1, Math.max(0.55, shape));
  const height = Math.min(rise, slender * widest);
  const across = Math.min(widest, height / slender);
  const breadth = Math.min(0.4 * width, 0.8 * across);
  const scale = Math.min(1, Math.cbrt(largestBox / (height * across * breadth)));
  return { height: scale * height, across: scale * across, breadth: scale * breadth };
}

interface LaidStone {
  readonly piece: Piece;
  readonly over: Rectangle;
}

/** The stones of a composition, each within the glass, under water and apart from the earlier ones. */
export function placeStones(fitter: Fitter, composition: Composition, material: string, dice: Dice): readonly Piece[] {
  const base = mainSizes(fitter, composition);
  const laid: LaidStone[] = [];
  for (const [k, spot] of composition.stones.entries()) {
    // the others follow the main stone where it had to give way
    const shrunk = laid[0] ? Math.min(1, laid[0].piece.width / base.across) : 1;
    const vary = k === 0 ? () => 1 : dice.between;
    const shape = {
      width: spot.ratio * shrunk * base.across * vary(0.9, 1.2),
      breadth: spot.ratio * shrunk * base.breadth * vary(0.9, 1.2),
      rise: spot.ratio * shrunk * base.height * vary(0.8, 1),
      lean: Math.round(composition.main.lean * (k === 0 ? 1 : dice.between(0.5, 1.1))),
      tip: dice.whole(-4, 4),
      turn: dice.whole(-25, 25),
    };
    const seed = dice.whole(0, 999_999);
    const found = fitStone(fitter, composition, spot, shape, laid);
    laid.push({
      over: found.over,
      piece: {
        ...found.turned,
        kind: "stone",
        material,
        name: k === 0 ? "main stone" : `stone ${k + 1}`,
        at: middleShare(fitter.site, found.over),
        raise: -found.sunk,
        seed,
        branches: 0,
      },
    });
  }
  return laid.map(({ piece }) => piece);
}

function middleShare({ length, width }: Site, { left, right, front, back }: Rectangle): Point2 {
  return [(left + right) / 2 / length, (front + back) / 2 / width];
}

interface StoneShape {
  readonly width: number;
  readonly breadth: number;
  /** Above the ground, m. */
  readonly rise: number;
  readonly lean: number;
  readonly tip: number;
  readonly turn: number;
}

interface Found {
  readonly turned: Turned;
  readonly over: Rectangle;
  readonly sunk: number;
}

/** Tries the spot, then places about it ever further out, then the same with a smaller stone. */
function fitStone(
  fitter: Fitter,
  composition: Composition,
  spot: StoneSpot,
  shape: StoneShape,
  laid: readonly LaidStone[],
): Found {
  const { length, width } = fitter.site;
  for (let scale = 1; ; scale *= 0.85) {
    const sized = {
      ...shape,
      width: Math.max(leastStone[0], shape.width * scale),
      breadth: Math.max(leastStone[1], shape.breadth * scale),
      rise: Math.max(leastStone[2], shape.rise * scale),
    };
    const start = startOf(fitter, spot, sized, laid);
    // one that finds no room at its spot is drawn in towards the main stone
    const towards = laid[0]?.piece.at ?? start;
    const drawn = (k: 0 | 1): number => towards[k] + (start[k] - towards[k]) * scale;
    // the main stone rather gives way in size than in place; a very small one is looked room for further off
    const tries = laid.length === 0 && scale > 0.3 ? 1 : scale > 0.2 ? 36 : 400;
    for (let k = 0; k < tries; k++) {
      const [angle, away] = [k * 2.4, 0.25 * Math.sqrt(k) * shape.width];
      const at: Point2 = [drawn(0) + (away * Math.cos(angle)) / length, drawn(1) + (away * Math.sin(angle)) / width];
      const found = standAt(fitter, sized, at);
      if (!found) continue;
      const { left, right, front, back } = found.over;
      const shares = { left: left / length, right: right / length, front: front / width, back: back / width };
      if (composition.standing(shares) && laid.every(({ over }) => shared(over, found.over) <= mostShared))
        return found;
    }
    if (scale < 0.02)
      throw new RangeError(
        `stone: no room for one of ${laid.length + 1} stones in ${length} m x ${width} m; fewer stones or a larger tank`,
      );
  }
}

function startOf({ site }: Fitter, { at, beside }: StoneSpot, shape: StoneShape, laid: readonly LaidStone[]): Point2 {
  if (!beside) return at!;
  const { left, right, front, back } = laid[beside.of]!.over;
  const angle = (beside.angle * Math.PI) / 180;
  const x = (left + right) / 2 + (Math.cos(angle) * beside.reach * (right - left + shape.width)) / 2;
  const y = (front + back) / 2 + (Math.sin(angle) * beside.reach * (back - front + shape.breadth)) / 2;
  return [x / site.length, y / site.width];
}

/** A stone at a place, its height such that it rises as wanted; null where it does not fit. */
function standAt(fitter: Fitter, shape: StoneShape, at: Point2): Found | null {
  const { rise, ...angles } = shape;
  let turned: Turned = { ...angles, height: rise };
  // setting it in makes it higher, and leaning then wider: a few rounds settle it
  for (let round = 0; round < 4; round++) {
    const over = footprintAt(fitter, turned, at);
    if (!over) return null;
    const { middle, sunk } = standingOver(fitter, over, 0.08 * rise);
    const [, , z] = extents(turned);
    const upright = Math.cos((turned.lean * Math.PI) / 180) * Math.cos((turned.tip * Math.PI) / 180);
    const height = turned.height + (rise + sunk - z) / upright;
    if (height < 0.3 * turned.width) {
      turned = { ...turned, width: 0.85 * turned.width, breadth: 0.85 * turned.breadth };
      continue;
    }
    if (Math.abs(height - turned.height) < 0.0005) {
      return middle - sunk + z <= highestTop * fitter.site.depth ? { turned, over, sunk } : null;
    }
    turned = { ...turned, height: Math.max(leastSide, height) };
  }
  const over = footprintAt(fitter, turned, at);
  if (!over) return null;
  const { middle, sunk } = standingOver(fitter, over, 0.08 * rise);
  return middle - sunk + extents(turned)[2] <= highestTop * fitter.site.depth ? { turned, over, sunk } : null;
}

/** Share of its height by which wood is set into the bed. Design value. */
const woodSet = 0.05;

/** Most rise of wood by its lean, as a share of the depth of water: long wood lies flatter. Design value. */
const mostLean = 0.35;

/**
 * The pieces of wood of a composition, each shrunk until it fits and let down until it touches the ground, as its own
 * form says; then set in a little.
 */
export function placeWoods(fitter: Fitter, woods: readonly WoodSpot[], material: string, dice: Dice): readonly Piece[] {
  const { length, width, depth } = fitter.site;
  return woods.map((spot, k): Piece => {
    const seed = dice.whole(0, 999_999);
    const longest = Math.min(1, longestWood / Math.max(spot.width * length, spot.height * depth));
    for (let scale = longest, flat = 1; ; ) {
      const [w, b, h] = grown(
        scale * spot.width * length,
        scale * spot.breadth * width,
        scale * flat * spot.height * depth,
      );
      const flattest = (Math.atan((mostLean * depth) / w) * 180) / Math.PI;
      const lean = Math.round(Math.sign(spot.lean) * Math.min(Math.abs(spot.lean), flattest));
      const turned: Turned = { width: w, breadth: b, height: h, lean, tip: 0, turn: Math.round(spot.turn) };
      const over = footprintAt(fitter, turned, spot.at);
      // it rather gives way in size than in place
      const placed = over !== null && Math.abs((over.left + over.right) / 2 / length - spot.at[0]) <= mostMoved;
      const low = placed && standingOver(fitter, over, 0).middle + extents(turned)[2] <= highestTop * depth;
      const stood = low ? standWood(fitter, turned, spot, seed) : null;
      if (stood) {
        const name = k === 0 ? "main wood" : `wood ${k + 1}`;
        return { ...turned, ...stood, kind: "wood", material, name, seed, branches: spot.branches };
      }
      scale *= 0.95;
      // too high is mended by height before size, so that wood in low tanks still reaches far
      if (placed) flat *= 0.95;
    }
  });
}

/** Most of a side of wood over its least: roots are neither rods nor boards. Design value. */
const mostStretch = 4;

/** How far wood is moved along the tank to fit, as a share of the length. Design value. */
const mostMoved = 0.03;

/** Sizes of wood in whole mm, the longer sides cut back to what a root has for its thickness, its breadth to its width. */
function grown(width: number, breadth: number, height: number): readonly [number, number, number] {
  const across = Math.min(breadth, width);
  const most = mostStretch * Math.min(width, across, height);
  return [wholeMm(Math.min(width, most)), wholeMm(across), wholeMm(Math.min(height, most))];
}

/** Sizes as they are typed, since the form follows them. */
const wholeMm = (metres: number): number => Math.max(leastSide, Math.round(metres * 1000) / 1000);

const known = <T>(value: T): Entry<T> => ({ value, known: "assumed" });

function standWood(
  { site, ground }: Fitter,
  { lean, turn, ...size }: Turned,
  { at, branches }: WoodSpot,
  seed: number,
): Pick<Piece, "at" | "raise"> | null {
  const form = pieceForm({
    kind: "wood",
    shape: known("irregular"),
    width: known(size.width),
    breadth: known(size.breadth),
    height: known(size.height),
    seed: known(seed),
    branches: known(branches),
    model: null,
  });
  const set = placeMesh(form.mesh, { lean, turn });
  const { min, max } = meshBounds(set);
  const middle = (k: 0 | 1, room: number): number | null => {
    const edge = (max[k] - min[k]) / 2 + offGlass + 0.001 * room;
    return 2 * edge > room ? null : Math.min(room - edge, Math.max(edge, at[k] * room));
  };
  const [x, y] = [middle(0, site.length), middle(1, site.width)];
  if (x === null || y === null) return null;
  const shift: Point3 = [x - (min[0] + max[0]) / 2, y - (min[1] + max[1]) / 2, -min[2]];
  const rest = restingHeight(placeMesh(set, { shift }), ground).shift;
  const foot = Math.max(0, rest - woodSet * size.height);
  if (foot + max[2] - min[2] > highestTop * site.depth) return null;
  return { at: [x / site.length, y / site.width], raise: foot - fieldHeight(ground, x, y) };
}
