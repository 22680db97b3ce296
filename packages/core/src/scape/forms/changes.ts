import { type Change, changeAt, type Json, type RawPlan, sameJson } from "../../plan/index.ts";
import { forms } from "./forms.ts";
import { layForm } from "./lay.ts";
import type { FormInput } from "./types.ts";

const groups = ["substrate", "edges", "hardscape", "plants"] as const;

/**
 * The changes that put a form in the place of a plan's bed, steps, pieces and plants; each bears the same name. A group
 * that the form leaves empty is taken out. Applied and undone they leave the plan as it was.
 * @throws RangeError as `layForm`.
 */
export function formChanges(raw: RawPlan, input: FormInput): readonly Change[] {
  const parts = layForm(input);
  const label = forms.find(({ name }) => name === input.form)!.label.toLowerCase();
  return groups
    .map((group) =>
      changeAt(raw, [group], isEmpty(parts[group]) ? undefined : parts[group], `begin from a form: ${label}`),
    )
    .filter(({ before, after }) => !sameJson(before, after));
}

function isEmpty(part: Json): boolean {
  return Array.isArray(part) && part.length === 0;
}
