/** Substrate layers: one depth, front and back, or four corners become four corners. */
import type { Issue } from "./issue.ts";
import type { Entry, LayerPlan } from "./plan.ts";

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
}

const ways = {
  depth: ["depth"],
  slope: ["front", "back"],
  corners: ["frontLeft", "frontRight", "backLeft", "backRight"],
} as const;

const allowed = "depth alone, or front and back, or front_left, front_right, back_left and back_right";

function typed(layer: LayerTyped, key: keyof LayerTyped): boolean {
  const entry = layer[key] as Entry | null;
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
  const { material, depth, front, back } = layer;
  const nothing: Entry = { value: Number.NaN, known: "assumed" };
  return {
    material,
    frontLeft: layer.frontLeft ?? front ?? depth ?? nothing,
    frontRight: layer.frontRight ?? front ?? depth ?? nothing,
    backLeft: layer.backLeft ?? back ?? depth ?? nothing,
    backRight: layer.backRight ?? back ?? depth ?? nothing,
  };
}
