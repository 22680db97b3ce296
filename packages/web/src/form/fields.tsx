import { type Change, type Field, type Group, type Plan, pathText, type RawPlan, valueAt } from "@lentic/core/plan";
import { useId, useState } from "react";
import { useSettings } from "../data/settings.ts";
import { Words } from "../parts/words.tsx";
import { draftOf } from "./drafts.ts";
import { FieldRow } from "./field-row.tsx";
import { ghostText, isEntry, pathOf, resolvedAt } from "./model.ts";

interface FieldsProps {
  readonly tank: string;
  readonly raw: RawPlan;
  readonly plan: Plan;
  readonly fields: readonly Field[];
  /** Position in a list, null outside of one. */
  readonly index: number | null;
  /** Field that a link asks for: "co2.dissolved". */
  readonly wanted: string;
  readonly onKeep: (name: string, changes: readonly Change[]) => void;
}

export type GroupProps = Omit<FieldsProps, "index"> & { readonly group: Group };

/** Fields of a group or item: what was typed stands open, what is assumed is told in a line and folded. */
export function Fields({ tank, raw, plan, fields, index, wanted, onKeep }: FieldsProps) {
  const us = useSettings().units === "us";
  const id = useId();
  const rows = fields.map((field) => {
    const path = pathOf(field, index);
    const resolved = resolvedAt(plan, path);
    const open = valueAt(raw, path) !== undefined || field.fallback === null || draftOf(tank, pathText(path)) !== null;
    return {
      field,
      path,
      own: pathText(path),
      open,
      guessed: !open && isEntry(resolved) && resolved.text === undefined,
    };
  });
  const [all, setAll] = useState(() => rows.every((r) => !r.open));
  // a row once open stays where it is: nothing jumps when its value is taken out again
  const [seen] = useState(() => new Set<string>());
  for (const r of rows) if (r.open || r.own === wanted) seen.add(r.field.path);
  const folded = rows.filter((r) => !seen.has(r.field.path));
  const guessed = folded.filter((r) => r.guessed);
  const left = folded.length - guessed.length;
  const told = guessed.map((r) => `${r.field.label.toLowerCase()} ${ghostText(plan, r.field, r.path, us)}`).join(", ");
  const count = [
    ...(guessed.length > 0 ? [`${guessed.length} assumed`] : []),
    ...(left > 0 ? [`${left} left open`] : []),
  ].join(", ");
  return (
    <div className="fields" id={id}>
      {(all ? rows : rows.filter((r) => seen.has(r.field.path))).map(({ field, path }) => (
        <FieldRow key={field.path} tank={tank} raw={raw} plan={plan} field={field} path={path} onKeep={onKeep} />
      ))}
      {folded.length > 0 && (
        <button type="button" className="fold" aria-expanded={all} aria-controls={id} onClick={() => setAll(!all)}>
          <b>{all ? `fold the ${count}` : count}</b>
          {!all && told && (
            <span>
              {" "}
              <Words>{told}</Words>
            </span>
          )}
        </button>
      )}
    </div>
  );
}
