import { applyToRaw, type Change, changeAt, sameJson, valueAt } from "./changes.ts";
import { mergePatch } from "./merge-patch.ts";
import { isMap, type Json, type Path, type RawPlan } from "./plan.ts";

const strength: Path = ["light", "strength"];
const reading: Path = ["light", "ppfd"];
const setting: Path = ["light", "measured_at"];

/** The change that writes down at which setting a reading of light was taken, where the dimmer moves away from it. */
function settingKept(before: RawPlan, after: RawPlan, name: string): Change | null {
  const taken = valueAt(before, reading);
  if (taken === undefined || taken === null || !sameJson(taken, valueAt(after, reading))) return null;
  if (valueAt(after, setting) !== undefined) return null;
  const was = valueAt(before, strength);
  if (sameJson(was, valueAt(after, strength))) return null;
  return changeAt(after, setting, was ?? "100 %", name);
}

/**
 * Changes of a plan, with what keeps its light reading true: a reading was taken at one setting of the dimmer, and that
 * setting is written beside it when the dimmer is moved.
 */
export function keepReading(raw: RawPlan, changes: readonly Change[]): readonly Change[] {
  const last = changes.at(-1);
  const more = last && settingKept(raw, applyToRaw(raw, changes), last.name);
  return more ? [...changes, more] : changes;
}

/** A plan with an alternative's patch laid on it (RFC 7396); its light reading stays one of the setting it was taken at. */
export function withAlternative(raw: RawPlan, patch: Json | undefined): RawPlan {
  if (!isMap(patch)) return raw;
  const after = mergePatch(raw, patch);
  const more = settingKept(raw, after, "alternative");
  return more ? applyToRaw(after, [more]) : after;
}
