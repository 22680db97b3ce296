/** Substrate layers: one depth, front and back, or four corners become four corners. */
import type { Issue } from "./issue.ts";
import type { Entry, FloorPoint, LayerPlan } from "./plan.ts";

/** A layer as typed, with the default depth where nothing was typed. */
export interface LayerTyped {
  readonly material: string;
  readonly depth: Entry | null;
  readonly front: Entry | null;
  readonly back: Entry | null;
  readonly frontLeft: Entry | null;
  readonly frontRight: Entry | null;
  readonly backLeft: Entry | null;
  readonly backRight: Entry | null;
  readonly heights: readonly (readonly number[])[] | null;
  readonly within: readonly FloorPoint[] | null;
  readonly bag: Entry | null;
  readonly price: Entry | null;
}

const ways = {
  depth: ["depth"],
  slope: ["front", "back"],
  corners: ["frontLeft", "frontRight", "backLeft", "backRight"],
  grid: ["heights"],
} as const;

const allowed = "depth alone, or front and back, or front_left, front_right, back_left and back_right, or heights";

type Way = (typeof ways)[keyof typeof ways][number];

function typed(layer: LayerTyped, key: Way): boolean {
  if (key === "heights") return layer.heights !== null;
  const entry = layer[key];
  return entry !== null && entry.text !== undefined;
}

/** Whether any depth of the layer was typed. */
export function hasDepth(layer: Partial<LayerTyped>): boolean {
  return Object.values(ways)
    .flat()
    .some((key) => Boolean(layer[key]));
}

/** Problems of a layer that mixes the ways or leaves one half done. */
export function layerIssues(layer: LayerTyped, index: number): readonly Issue[] {
  const used = Object.values(ways).filter((keys) => keys.some((key) => typed(layer, key)));
  const problem = (message: string): Issue => ({ path: ["substrate", index], at: "value", message, allowed });
  if (used.length > 1) return [problem("the depth of this layer is given in two ways")];
  const missing = (used[0] ?? []).filter((key) => !typed(layer, key));
  return missing.length === 0
    ? []
    : [problem(`${missing.map((key) => key.replace(/[A-Z]/g, (c) => `_${c.toLowerCase()}`)).join(" and ")} missing`)];
}

export function corners(layer: LayerTyped): LayerPlan {
  const { material, depth, front, back, heights, within, bag, price } = layer;
  const nothing: Entry = { value: Number.NaN, known: "assumed" };
  const own = { material, heights, within, bag, price };
  if (heights) {
    const drawn = (row: number, column: number): Entry => ({ value: heights.at(row)!.at(column)!, known: "measured" });
    return {
      ...own,
      frontLeft: drawn(0, 0),
      frontRight: drawn(0, -1),
      backLeft: drawn(-1, 0),
      backRight: drawn(-1, -1),
    };
  }
  return {
    ...own,
    frontLeft: layer.frontLeft ?? front ?? depth ?? nothing,
    frontRight: layer.frontRight ?? front ?? depth ?? nothing,
    backLeft: layer.backLeft ?? back ?? depth ?? nothing,
    backRight: layer.backRight ?? back ?? depth ?? nothing,
  };
}
