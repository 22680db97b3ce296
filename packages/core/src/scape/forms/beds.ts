import { findSubstrate } from "../../facts/index.ts";
import { type HeightField, layerTops, type Point2 } from "../../geometry/index.ts";
import { type Entry, type Json, type LayerPlan, layerField } from "../../plan/index.ts";
import { outlineText } from "./outlines.ts";
import { type Relief, reliefBy, reliefRows, workingSlope } from "./relief.ts";
import type { Site } from "./site.ts";

/** One layer of a form's bed. */
export interface Bed {
  readonly material: string;
  readonly relief: Relief;
  /** The area that it is limited to; null = the whole floor. */
  readonly within: readonly Point2[] | null;
}

/** Rise per metre run that all of these materials hold with margin. */
export function slopeIn(...materials: readonly string[]): number {
  return Math.min(...materials.map((name) => workingSlope(findSubstrate(name)!.designSlope)));
}

/** Crest from which on the height is made of something coarse, and the depth of the layer over it, m. Design values. */
const highCrest = 0.11;
const capDepth = 0.05;

/**
 * A planted bed of this relief: soil alone where it is low, else soil over a coarse core, which stays open to water and
 * saves soil. Common practice, no source.
 */
export function plantedBed(
  relief: Relief,
  top: string,
  core: string,
  within: readonly Point2[] | null,
): readonly Bed[] {
  if (Math.max(...relief.mm) <= highCrest * 1000) return [{ material: top, relief, within }];
  return bedWithCap(relief, top, core, capDepth, within);
}

/** A bed of this relief whose top layer is `cap` m at most, over a core of another material. */
export function bedWithCap(
  relief: Relief,
  top: string,
  core: string,
  cap: number,
  within: readonly Point2[] | null,
): readonly Bed[] {
  const most = Math.round(cap * 1000);
  return [
    { material: core, relief: reliefBy(relief, (mm) => Math.max(0, mm - most)), within },
    { material: top, relief: reliefBy(relief, (mm) => Math.min(mm, most)), within },
  ];
}

const zero: Entry = { value: 0, known: "assumed" };

function layerOf({ material, relief, within }: Bed): LayerPlan {
  const { columns, rows, mm } = relief;
  const heights = Array.from({ length: rows }, (_, j) => mm.slice(j * columns, (j + 1) * columns).map((h) => h / 1000));
  const corners = { frontLeft: zero, frontRight: zero, backLeft: zero, backRight: zero };
  return { material, ...corners, heights, within, bag: null, price: null };
}

/** The ground that the layers make, as a plan will have it. */
export function groundOf(beds: readonly Bed[], { length, width }: Pick<Site, "length" | "width">): HeightField {
  return layerTops(beds.map((bed) => layerField(layerOf(bed), length, width))).at(-1)!;
}

/** As typed in a plan file. */
export function bedsJson(beds: readonly Bed[]): Json {
  return beds.map(({ material, relief, within }) => ({
    material,
    heights: reliefRows(relief),
    ...(within && { within: outlineText(within) }),
  }));
}
