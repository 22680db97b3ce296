import { findStone, findWood } from "../facts/index.ts";
import { fieldHeight, type HeightField, sameFieldWithin } from "../geometry/index.ts";
import {
  type Mesh,
  meshBounds,
  meshVolume,
  type Point3,
  placeMesh,
  stoneMesh,
  volumeBelowField,
  volumeBelowLevel,
  woodMesh,
} from "../solids/index.ts";
import { unpackMesh } from "./packed-mesh.ts";
import type { HardscapePlan, Plan } from "./plan.ts";

/** What makes the form of a piece. */
type Shaped = Pick<HardscapePlan, "kind" | "shape" | "width" | "breadth" | "height" | "seed" | "branches" | "model">;

/** A piece before it is set: upright, its middle over the origin, its foot at height 0. */
export interface PieceForm {
  readonly mesh: Mesh;
  /** Square to its beds (stone) or along its grain (wood), unit vector. */
  readonly grain: Point3;
  /** m³; of a scanned piece that of the whole scan, not of its thinned form. */
  readonly volume: number;
}

/** The last of what was made, by what it was made from: at every move of a hand all pieces but one stay as they were. */
class Kept<T> {
  private readonly made = new Map<string, T>();
  private readonly most: number;

  constructor(most: number) {
    this.most = most;
  }

  of(key: string, make: () => T): T {
    const known = this.made.get(key);
    if (known !== undefined) return known;
    if (this.made.size >= this.most) this.made.clear();
    const value = make();
    this.made.set(key, value);
    return value;
  }
}

const forms = new Kept<PieceForm>(512);
const standings = new Kept<Mesh>(1024);

function formKey({ kind, shape, width, breadth, height, seed, branches, model }: Shaped): string {
  return [kind, shape.value, width.value, breadth.value, height.value, seed.value, branches.value, model].join("|");
}

/** The form of a piece: its own where it was scanned, else made from its sizes and seed. The same form is the same object. */
export function pieceForm(piece: Shaped): PieceForm {
  return forms.of(formKey(piece), () => {
    const { kind, shape, seed, branches, model } = piece;
    const [width, breadth, height] = [piece.width.value, piece.breadth.value, piece.height.value];
    const packed = model === null ? null : unpackMesh(model);
    if (packed) return fromBox(packed.mesh, packed.fill, width, breadth, height);
    return kind === "stone"
      ? standing(stoneMesh({ shape: shape.value, width, breadth, height, seed: seed.value }))
      : standing(woodMesh({ width, breadth, height, branches: branches.value, seed: seed.value }));
  });
}

function standing(form: { readonly mesh: Mesh; readonly grain: Point3 }): PieceForm {
  return { ...form, volume: Math.abs(meshVolume(form.mesh)) };
}

function fromBox(mesh: Mesh, fill: number, width: number, breadth: number, height: number): PieceForm {
  const centred = placeMesh(mesh, { scale: [width, breadth, height], shift: [-width / 2, -breadth / 2, 0] });
  return { mesh: centred, grain: [0, 0, 1], volume: fill * width * breadth * height };
}

/**
 * Density of a piece as it lies in the tank, kg/m3; NaN for a material that is not known. Soaked wood is 1 + 0.35 x basic
 * gravity, its cell walls being 1.54 (Wood Handbook, ch. 4; from memory).
 */
export function pieceDensity({ kind, material }: Pick<HardscapePlan, "kind" | "material">): number {
  if (kind === "stone") return findStone(material)?.density.value ?? Number.NaN;
  return 1000 * (1 + (1 - 1 / 1.54) * (findWood(material)?.basicGravity.value ?? Number.NaN));
}

/** A piece set in its place. */
export interface Standing {
  readonly mesh: Mesh;
  /** Foot above the inside floor as it was asked for, m; below 0 where the bed is not as deep as it was to be set in. */
  readonly foot: number;
}

/**
 * Sets a piece on the ground: leant, tipped and turned about its foot, then let down to its foot's height. A piece that
 * did not move is the same mesh.
 */
export function pieceStanding(piece: HardscapePlan, ground: HeightField): Standing {
  const [x, y] = [piece.at.value * ground.length, piece.depth.value * ground.width];
  const foot = fieldHeight(ground, x, y) + piece.raise.value;
  const [tip, lean, turn] = [piece.tip.value, piece.lean.value, piece.turn.value];
  const key = [formKey(piece), tip, lean, turn, x, y, foot].join("|");
  const mesh = standings.of(key, () => {
    const set = placeMesh(pieceForm(piece).mesh, { tip, lean, turn });
    const { min, max } = meshBounds(set);
    const shift: Point3 = [x - (min[0] + max[0]) / 2, y - (min[1] + max[1]) / 2, Math.max(0, foot) - min[2]];
    return placeMesh(set, { shift });
  });
  return { mesh, foot };
}

const bounds = new WeakMap<Mesh, ReturnType<typeof meshBounds>>();

/** Box of a piece where it stands, m; measured once for as long as it does not move. */
export function standingBounds(mesh: Mesh): ReturnType<typeof meshBounds> {
  const known = bounds.get(mesh);
  if (known) return known;
  const made = meshBounds(mesh);
  bounds.set(mesh, made);
  return made;
}

/** How a piece lies between ground, water and air. */
export interface Shares {
  /** Shares of its volume, 0..1; what is in the bed below the water line counts in both. */
  readonly shareUnderWater: number;
  readonly shareInBed: number;
}

const share = (part: number): number => Math.min(1, Math.max(0, part));

const lastShares = new WeakMap<Mesh, Shares & { readonly ground: HeightField; readonly waterDepth: number }>();

/** Whether the bed is the same under all of a piece. */
function sameGroundUnder(mesh: Mesh, a: HeightField, b: HeightField): boolean {
  if (a === b) return true;
  const { min, max } = standingBounds(mesh);
  return sameFieldWithin(a, b, { left: min[0], right: max[0], front: min[1], back: max[1] });
}

/** Shares of a piece that lie under the water line and in the bed below it. */
export function sharesOf(mesh: Mesh, ground: HeightField, waterDepth: number): Shares {
  const last = lastShares.get(mesh);
  if (last && last.waterDepth === waterDepth && sameGroundUnder(mesh, last.ground, ground)) return last;
  const volume = meshVolume(mesh);
  const shareUnderWater = share(volumeBelowLevel(mesh, waterDepth) / volume);
  const shareInBed = Math.min(shareUnderWater, share(volumeBelowField(mesh, ground, waterDepth) / volume));
  const shares = { shareUnderWater, shareInBed, ground, waterDepth };
  lastShares.set(mesh, shares);
  return shares;
}

/** Names that a piece of hardscape goes by: its own, and its letter and number on the drawing. */
export function pieceNames(plan: Pick<Plan, "hardscape">): readonly (readonly string[])[] {
  const count = { stone: 0, wood: 0 };
  return plan.hardscape.map(({ kind, name }) => {
    count[kind] += 1;
    const key = `${kind === "stone" ? "S" : "W"}${count[kind]}`;
    return name ? [name, key] : [key];
  });
}
