import { animals, type FactKind, plants, stones, substrates, woods } from "@lentic/core/facts";
import type { Change, Fault, Field, Plan, RawPlan } from "@lentic/core/plan";
import { convert, parseQuantity } from "@lentic/core/units";
import { type KeyboardEvent, useEffect, useId, useState } from "react";
import { useSettings } from "../data/settings.ts";
import { Mark } from "../parts/mark.tsx";
import { Words } from "../parts/words.tsx";
import { draftOf, setDraft } from "./drafts.ts";
import { attempt, ghostText, isEntry, type Path, pathText, resolvedAt, typedText, writtenValue } from "./model.ts";

interface FieldRowProps {
  readonly tank: string;
  readonly raw: RawPlan;
  readonly plan: Plan;
  readonly field: Field;
  readonly path: Path;
  readonly onKeep: (name: string, changes: readonly Change[]) => void;
}

const names: Readonly<Record<FactKind, () => readonly string[]>> = {
  plant: () => plants.map((p) => p.name),
  animal: () => animals.map((a) => a.name),
  substrate: () => substrates.map((m) => m.id),
  stone: () => stones.map((m) => m.id),
  wood: () => woods.map((m) => m.id),
};

function kindsOf(field: Field): readonly FactKind[] {
  if (field.kind !== "fact") return [];
  return typeof field.facts === "string" ? [field.facts] : Object.values(field.facts.kinds);
}

/** Spellings that settle an ambiguous unit, each completing what was typed. */
function choicesFor(field: Field, text: string): readonly { text: string; meaning: string }[] {
  if (field.kind !== "quantity" || text.trim() === "") return [];
  const read = parseQuantity(text, { expect: field.unit });
  return read.ok ? [] : (read.candidates ?? []).map((c) => ({ text: c.text, meaning: c.meaning }));
}

/** One field of the plan: what stands there, how it is known, what is assumed in its place and why, what is wrong. */
export function FieldRow({ tank, raw, plan, field, path, onKeep }: FieldRowProps) {
  const { units } = useSettings();
  const id = useId();
  const own = pathText(path);
  const kept = typedText(raw, plan, path);
  const resolved = resolvedAt(plan, path);
  const entry = isEntry(resolved) ? resolved : null;
  const [text, setText] = useState(() => draftOf(tank, own) ?? kept);
  const [faults, setFaults] = useState<readonly Fault[]>([]);
  // a change from elsewhere (undo, another field) shows unless something unkept stands here
  useEffect(() => {
    setText(draftOf(tank, own) ?? kept);
    if (draftOf(tank, own) === null) setFaults([]);
  }, [tank, own, kept]);

  const commit = (typed: string, mark = entry?.known, note = entry?.note): void => {
    setText(typed);
    if (typed.trim() === kept.trim() && mark === entry?.known && (note ?? "") === (entry?.note ?? "")) {
      setDraft(tank, own, null);
      setFaults([]);
      return;
    }
    const fresh = typed.trim() !== kept.trim();
    // a newly typed value is known as such values usually are, unless the mark was chosen with it
    const value = writtenValue(
      field,
      typed,
      fresh && mark === entry?.known && entry?.text === undefined ? undefined : mark,
      fresh ? undefined : note,
    );
    if (value === undefined && field.fallback === null) {
      setDraft(tank, own, typed);
      setFaults([{ path: own, line: 0, column: 0, message: "is needed", allowed: field.help }]);
      return;
    }
    const { change, faults: found } = attempt(raw, path, value, field.label);
    if (found.length > 0) {
      setDraft(tank, own, typed);
      setFaults(found);
      return;
    }
    setDraft(tank, own, null);
    setFaults([]);
    onKeep(change.name, [change]);
  };

  const ghost = ghostText(plan, field, path, convert, units === "us");
  const describe = `${id}-help${faults.length > 0 ? ` ${id}-fault` : ""}`;
  const shared = {
    id,
    "aria-describedby": describe,
    "aria-invalid": faults.length > 0 || undefined,
    "data-path": own,
  } as const;
  const keys = (event: KeyboardEvent<HTMLInputElement>): void => {
    if (event.key === "Enter") commit(event.currentTarget.value);
    if (event.key === "Escape") {
      setText(kept);
      setDraft(tank, own, null);
      setFaults([]);
    }
  };

  return (
    <div className={faults.length > 0 ? "field faulty" : "field"}>
      <label htmlFor={id}>
        <Words>{field.label}</Words>
      </label>
      <div className="field-value">
        {field.kind === "choice" ? (
          <select {...shared} value={kept || ""} onChange={(e) => commit(e.target.value)}>
            {field.fallback !== null && <option value="">{ghost} (assumed)</option>}
            {field.choices.map((c) => (
              <option key={c} value={c}>
                {c}
              </option>
            ))}
          </select>
        ) : field.kind === "flag" ? (
          <input
            {...shared}
            type="checkbox"
            checked={kept === "true"}
            onChange={(e) => commit(e.target.checked ? "true" : "")}
          />
        ) : (
          <input
            {...shared}
            type="text"
            inputMode={field.kind === "count" ? "numeric" : "text"}
            autoComplete="off"
            spellCheck={false}
            value={text}
            placeholder={ghost}
            list={field.kind === "fact" ? `${id}-names` : undefined}
            onChange={(e) => {
              setText(e.target.value);
              setDraft(tank, own, e.target.value === kept ? null : e.target.value);
            }}
            onBlur={(e) => commit(e.target.value)}
            onKeyDown={keys}
          />
        )}
        {field.kind === "fact" && (
          <datalist id={`${id}-names`}>
            {kindsOf(field)
              .flatMap((k) => names[k]())
              .map((n) => (
                <option key={n} value={n} />
              ))}
          </datalist>
        )}
        {entry && entry.text !== undefined && field.kind === "quantity" ? (
          <span className="field-known">
            <select
              aria-label={`How ${field.label} is known`}
              value={entry.known}
              onChange={(e) => commit(kept, e.target.value as "measured" | "label" | "assumed", entry.note)}
            >
              <option value="measured">measured</option>
              <option value="label">label</option>
              <option value="assumed">assumed</option>
            </select>
            <input
              aria-label={`Note on ${field.label}`}
              defaultValue={entry.note ?? ""}
              key={entry.note ?? ""}
              placeholder="note"
              onBlur={(e) => {
                if (e.target.value.trim() !== (entry.note ?? "")) commit(kept, entry.known, e.target.value);
              }}
            />
          </span>
        ) : (
          entry && entry.text === undefined && <Mark known="assumed" />
        )}
      </div>
      <p className="field-help" id={`${id}-help`}>
        <Words>
          {entry && entry.text === undefined && entry.reason ? `Assumed ${ghost}: ${entry.reason}.` : field.help}
        </Words>
      </p>
      {faults.length > 0 && (
        <div className="field-fault" id={`${id}-fault`} role="alert">
          {faults.slice(0, 3).map((f) => (
            <p key={f.path + f.message}>
              {f.path !== own && <code>{f.path}</code>} {f.message}. <span>Allowed: {f.allowed}</span>
            </p>
          ))}
          <p>
            {choicesFor(field, text).map((c) => (
              <button type="button" key={c.text} className="plain-button" onClick={() => commit(c.text)}>
                {c.text} <small>{c.meaning}</small>
              </button>
            ))}
            <button
              type="button"
              className="link"
              onClick={() => {
                setText(kept);
                setDraft(tank, own, null);
                setFaults([]);
              }}
            >
              leave it as it was
            </button>
          </p>
        </div>
      )}
    </div>
  );
}
