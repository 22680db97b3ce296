import type { Point2, Rectangle } from "../../geometry/index.ts";
import type { Bed } from "./beds.ts";
import type { Dice } from "./dice.ts";
import type { Site } from "./site.ts";
import type { Area, StoneSpot, WoodSpot } from "./types.ts";

/** The main stone, which sets the sizes of the others. */
interface MainStone {
  /** Where its top stands, as a share of the depth of water. */
  readonly top: number;
  /** Most width, as a share of the length. */
  readonly widest: number;
  /** Height over width. */
  readonly slender: number;
  /** Degrees. */
  readonly lean: number;
}

/** One layout before its pieces are fitted and its plants chosen; u and v are shares of the inside length and width. */
export interface Composition {
  readonly beds: readonly Bed[];
  readonly edges: readonly (readonly Point2[])[];
  readonly main: MainStone;
  /** As many as the longest tank takes, the main stone first; a shorter one takes the first of them. */
  readonly stones: readonly StoneSpot[];
  readonly woods: readonly WoodSpot[];
  /** Whether a stone may stand over a rectangle of the floor. */
  readonly standing: (over: Rectangle) => boolean;
  readonly areas: readonly Area[];
  /** Plants tied to wood and stone. */
  readonly tied: number;
  /** Whether all plants come from one part of the world. */
  readonly oneRegion: boolean;
}

/** What every form starts from. */
interface Brief {
  readonly site: Site;
  readonly dice: Dice;
  /** Whether the owner named a wood, so that some must be laid. */
  readonly woodWanted: boolean;
}

export type Compose = (brief: Brief) => Composition;

const opposite = ([u, v]: Point2): Point2 => [1 - u, v];

/** The same layout seen in a mirror. */
export function mirrored(composition: Composition): Composition {
  const { beds, edges, main, stones, woods, standing, areas } = composition;
  return {
    ...composition,
    beds: beds.map((bed) => {
      const { columns, rows, mm } = bed.relief;
      const turned = Array.from({ length: rows }, (_, j) => mm.slice(j * columns, (j + 1) * columns).toReversed());
      return { ...bed, relief: { columns, rows, mm: turned.flat() }, within: bed.within?.map(opposite) ?? null };
    }),
    edges: edges.map((line) => line.map(opposite)),
    main: { ...main, lean: -main.lean },
    stones: stones.map((spot) => ({
      ...spot,
      ...(spot.at && { at: opposite(spot.at) }),
      ...(spot.beside && { beside: { ...spot.beside, angle: 180 - spot.beside.angle } }),
    })),
    woods: woods.map((wood) => ({ ...wood, at: opposite(wood.at), lean: -wood.lean, turn: -wood.turn })),
    standing: ({ left, right, front, back }) => standing({ left: 1 - right, right: 1 - left, front, back }),
    areas: areas.map((area) => ({ ...area, outline: area.outline.map(opposite) })),
  };
}

/** Depth of a planted bed along the front, m: enough to root in. Common practice 30 to 60 mm, no source. */
export function frontDepth({ depth }: Site): number {
  return Math.min(0.055, Math.max(0.022, 0.1 * depth));
}

/** A slow wave over 0..1 between -1 and 1. */
export function wave(dice: Dice): (s: number) => number {
  const [a, b] = [dice.between(0, 2 * Math.PI), dice.between(0, 2 * Math.PI)];
  return (s) => 0.65 * Math.sin(2 * Math.PI * s + a) + 0.35 * Math.sin(4 * Math.PI * s + b);
}

/** Smooth step from 0 at `from` to 1 at `to`. */
export function ease(from: number, to: number, at: number): number {
  const t = Math.min(1, Math.max(0, (at - from) / (to - from)));
  return t * t * (3 - 2 * t);
}

export const golden = (3 - Math.sqrt(5)) / 2;
