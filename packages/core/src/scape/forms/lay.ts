import { findStone, findWood, nearest, stones as rocks, woods } from "../../facts/index.ts";
import type { Json } from "../../plan/index.ts";
import { bank } from "./bank.ts";
import { bedsJson, groundOf } from "./beds.ts";
import { type Compose, mirrored } from "./composition.ts";
import { dice } from "./dice.ts";
import { island } from "./island.ts";
import { mound } from "./mound.ts";
import { outlineText } from "./outlines.ts";
import { placeStones, placeWoods } from "./pieces.ts";
import { plantingJson, shareText } from "./planting.ts";
import { type Site, siteOf } from "./site.ts";
import { street } from "./street.ts";
import { triangle } from "./triangle.ts";
import type { FormInput, FormName, FormParts, Piece } from "./types.ts";
import { valley } from "./valley.ts";

interface FormRow {
  readonly compose: Compose;
  /** Rocks and woods that suit it; all give off no hardness. */
  readonly stones: readonly string[];
  readonly woods: readonly string[];
  readonly shape: "rounded" | null;
}

const broken = ["slate", "basalt", "granite", "quartzite", "gneiss", "petrified wood", "lava"];
const worn = ["granite", "quartzite", "gneiss", "basalt"];
const roots = ["root wood", "dense tropical wood"];

const rows: Readonly<Record<FormName, FormRow>> = {
  island: { compose: island, stones: broken, woods: roots, shape: null },
  mound: { compose: mound, stones: broken, woods: roots, shape: null },
  valley: { compose: valley, stones: broken, woods: roots, shape: null },
  triangle: { compose: triangle, stones: broken, woods: roots, shape: null },
  street: { compose: street, stones: broken, woods: roots, shape: null },
  bank: { compose: bank, stones: worn, woods: roots, shape: "rounded" },
};

/** Stones by the inside length, m; odd, as pairs stand still. Common practice; lengths are design values. */
const stoneCounts: readonly (readonly [below: number, count: number])[] = [
  [0.36, 3],
  [0.75, 5],
  [1.3, 7],
  [2, 9],
];

/** Lengths over width from which a longer tank takes no more stones. Design value. */
const longestShape = 4;

function stoneCount({ length, width }: Site): number {
  const counted = Math.min(length, longestShape * width);
  return stoneCounts.find(([below]) => counted < below)?.[1] ?? 11;
}

function materialOf(kind: "stone" | "wood", name: string): string {
  const fact = kind === "stone" ? findStone(name) : findWood(name);
  if (fact) return fact.id;
  const known = (kind === "stone" ? rocks : woods).map((f) => f.id).join(", ");
  const like = nearest(name, [kind])[0];
  throw new RangeError(`${kind}: ${name} is not known${like ? `, did you mean ${like}` : ""}; allowed are ${known}`);
}

/**
 * Lays a form in a tank: bed, steps, stones, wood and planting areas as typed in a plan file. The same input gives the
 * same parts.
 * @throws RangeError for a form, stone or wood that is not known, a seed that is not whole, or a tank too small.
 */
export function layForm({ plan, form, seed, stone, wood }: FormInput): FormParts {
  const row = Object.hasOwn(rows, form) ? rows[form] : undefined;
  if (!row) throw new RangeError(`form ${form} is not known; allowed are ${Object.keys(rows).join(", ")}`);
  const site = siteOf(plan);
  const random = dice(seed, Object.keys(rows).indexOf(form));
  const [rock, timber] = [random.pick(row.stones), random.pick(row.woods)];
  const flip = random.chance(0.5);
  const drawn = row.compose({ site, dice: random, woodWanted: wood !== undefined });
  const all = flip ? mirrored(drawn) : drawn;
  const composition = { ...all, stones: all.stones.slice(0, stoneCount(site)) };
  const ground = groundOf(composition.beds, site);
  const fitter = { site, ground };
  const pieces = [
    ...placeWoods(fitter, composition.woods, materialOf("wood", wood ?? timber), random),
    ...placeStones(fitter, composition, materialOf("stone", stone ?? rock), random),
  ];
  return {
    substrate: bedsJson(composition.beds),
    edges: composition.edges.map((line) => ({ line: outlineText(line) })),
    hardscape: pieces.map((piece) => pieceJson(piece, stone === undefined ? row.shape : null)),
    plants: plantingJson(composition, pieces, ground, site, random),
  };
}

const mm = (metres: number): string => `${Math.round(metres * 1000)} mm`;
const deg = (angle: number): string => `${angle} deg`;

function pieceJson(piece: Piece, shape: "rounded" | null): Json {
  const { kind, material, name, at, width, height, breadth, lean, tip, turn, raise, seed, branches } = piece;
  return {
    kind,
    material,
    name,
    at: shareText(at[0]),
    depth: shareText(at[1]),
    width: mm(width),
    height: mm(height),
    breadth: mm(breadth),
    ...(kind === "stone" && shape && { shape }),
    seed,
    ...(kind === "wood" && { branches }),
    lean: deg(lean),
    tip: deg(tip),
    turn: deg(turn),
    raise: mm(raise),
  };
}
