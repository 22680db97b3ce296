import { type Change, type Fault, type Field, type Group, type RawPlan, valueAt } from "@lentic/core/plan";
import { type FormEvent, useId, useState } from "react";
import { useSettings } from "../data/settings.ts";
import { Words } from "../parts/words.tsx";
import { draftsOf, setDraft } from "./drafts.ts";
import { FieldFaults } from "./field-faults.tsx";
import { addItem, askedOf, attempt, measureOf, suggestions, wordOf, writtenValue } from "./model.ts";
import { namesId } from "./names.tsx";

interface AddItemProps {
  readonly tank: string;
  readonly raw: RawPlan;
  readonly group: Group;
  readonly fields: readonly Field[];
  readonly onKeep: (name: string, changes: readonly Change[]) => void;
}

const keyOf = (field: Field): string => field.path.split(".").at(-1)!;

/** Asks for what a new item cannot do without; the rest is assumed and shows once it is there. */
export function AddItem({ tank, raw, group, fields, onKeep }: AddItemProps) {
  const us = useSettings().units === "us";
  const id = useId();
  const asked = askedOf(fields);
  const draftKey = (field: Field): string => `${group.path}[+].${keyOf(field)}`;
  const [texts, setTexts] = useState<Readonly<Record<string, string>>>(() => {
    const drafts = draftsOf(tank);
    return Object.fromEntries(asked.map((f) => [keyOf(f), drafts[draftKey(f)] ?? ""]));
  });
  const [faults, setFaults] = useState<readonly Fault[]>([]);
  const position = ((valueAt(raw, [group.path]) ?? []) as readonly unknown[]).length;
  const textOf = (f: Field): string => texts[keyOf(f)] || (f.kind === "choice" ? f.choices[0]! : "");
  const itemOf = (own: (f: Field) => string): Readonly<Record<string, unknown>> =>
    Object.fromEntries(
      asked.map((f) => [keyOf(f), writtenValue(f, own(f))]).filter(([, value]) => value !== undefined),
    );
  const change = (own: (f: Field) => string): Change => {
    const item = itemOf(own);
    const name = `${group.label}: ${wordOf(String(item.species ?? item.material ?? item.what))}`;
    return addItem(raw, group.path, item, name);
  };
  const judged = (own: (f: Field) => string): readonly Fault[] => {
    const { path, after, name } = change(own);
    return attempt(raw, [{ path, value: after, name }]).faults;
  };
  const set = (field: Field, text: string): void => {
    setTexts({ ...texts, [keyOf(field)]: text });
    setDraft(tank, draftKey(field), text || null);
    setFaults([]);
  };
  const add = (event: FormEvent): void => {
    event.preventDefault();
    const found = judged(textOf);
    setFaults(found);
    if (found.length > 0) return;
    const made = change(textOf);
    for (const field of asked) setDraft(tank, draftKey(field), null);
    setTexts({});
    onKeep(made.name, [made]);
  };
  const faultOf = (field: Field): Fault | undefined =>
    faults.find((f) => f.path === `${group.path}[${position}].${keyOf(field)}`);
  const item = itemOf(textOf);
  const empty = asked.every((f) => f.kind === "choice" || !textOf(f).trim());
  return (
    <form className="add-item" onSubmit={add}>
      {asked.map((field, i) => {
        const fault = faultOf(field);
        const kind =
          field.kind !== "fact"
            ? null
            : typeof field.facts === "string"
              ? field.facts
              : (field.facts.kinds[String(item[field.facts.by])] ?? null);
        const measure = measureOf(field, item);
        const common = {
          id: `${id}-${i}`,
          value: textOf(field),
          "aria-invalid": fault ? true : undefined,
          "aria-describedby": fault ? `${id}-fault` : undefined,
          onChange: (e: { target: { value: string } }) => set(field, e.target.value),
        } as const;
        return (
          <span key={field.path} className={field.kind === "fact" ? "asked wide" : "asked"}>
            <label htmlFor={common.id}>
              <Words>{i === 0 ? `Add: ${field.label.toLowerCase()}` : field.label.toLowerCase()}</Words>
            </label>
            {field.kind === "choice" ? (
              <select {...common}>
                {field.choices.map((c) => (
                  <option key={c} value={c}>
                    {wordOf(c).replace("2", "₂")}
                  </option>
                ))}
              </select>
            ) : (
              <input
                {...common}
                autoComplete="off"
                spellCheck={false}
                list={kind ? namesId(kind) : undefined}
                placeholder={
                  field.kind === "time"
                    ? "17:30"
                    : measure && measure.unit !== "1"
                      ? us
                        ? measure.us
                        : measure.metric
                      : ""
                }
              />
            )}
          </span>
        );
      })}
      <button type="submit" className="plain-button" disabled={empty}>
        Add
        <span className="hidden-text"> to {group.label.toLowerCase()}</span>
      </button>
      {faults.length > 0 && (
        <FieldFaults
          id={`${id}-fault`}
          own=""
          faults={faults.map((f) => ({ ...f, path: f.path.split(".").at(-1)!.replaceAll("_", " ") }))}
          suggestions={asked.flatMap((field) => {
            const fault = faultOf(field);
            if (!fault) return [];
            const works = (t: string): boolean =>
              !judged((f) => (f === field ? t : textOf(f))).some((f) => f.path === fault.path);
            return suggestions(textOf(field), fault, measureOf(field, item), us, works);
          })}
          onTake={(text) => {
            const field = asked.find(faultOf);
            if (field) set(field, text);
          }}
          onLeave={null}
        />
      )}
    </form>
  );
}
