import { isMap, type Json, type RawPlan } from "./plan.ts";

/**
 * JSON Merge Patch: members of the patch replace those of the target, maps merge, null removes, lists are replaced whole.
 * Neither argument is changed.
 * Source: RFC 7396 (2014), section 2.
 */
export function mergePatch(target: RawPlan, patch: RawPlan): RawPlan;
export function mergePatch(target: Json | undefined, patch: Json): Json;
export function mergePatch(target: Json | undefined, patch: Json): Json {
  if (!isMap(patch)) return patch;
  // A Map, and fromEntries at the end, so that a key named __proto__ stays an ordinary key.
  const merged = new Map(isMap(target) ? Object.entries(target) : []);
  for (const [key, value] of Object.entries(patch)) {
    if (value === null) merged.delete(key);
    else merged.set(key, mergePatch(merged.get(key), value));
  }
  return Object.fromEntries(merged);
}
