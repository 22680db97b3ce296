import type { FactKind } from "@lentic/core/facts";
import {
  type Change,
  type Fault,
  type Field,
  type Known,
  type Path,
  type Plan,
  pathText,
  type RawPlan,
  valueAt,
} from "@lentic/core/plan";
import { type KeyboardEvent, useEffect, useId, useRef, useState } from "react";
import { useSettings } from "../data/settings.ts";
import { Mark } from "../parts/mark.tsx";
import { Words } from "../parts/words.tsx";
import { draftOf, refusedOf, setDraft } from "./drafts.ts";
import { FieldFaults } from "./field-faults.tsx";
import { HowKnown, KnownButton } from "./how-known.tsx";
import {
  attemptWithNeighbours,
  changeName,
  ghostText,
  isEntry,
  measureOf,
  otherUnit,
  resolvedAt,
  suggestions,
  typedText,
  wordOf,
  writtenValue,
} from "./model.ts";
import { namesId } from "./names.tsx";

interface FieldRowProps {
  readonly tank: string;
  readonly raw: RawPlan;
  readonly plan: Plan;
  readonly field: Field;
  readonly path: Path;
  readonly onKeep: (name: string, changes: readonly Change[]) => void;
}

/** Rest after the last press of a stepper before the number is kept, ms: one step back for six presses. */
const rest = 600;

function factKind(field: Field, item: unknown): FactKind | null {
  if (field.kind !== "fact") return null;
  if (typeof field.facts === "string") return field.facts;
  const by = (item as Readonly<Record<string, unknown>> | undefined)?.[field.facts.by];
  return field.facts.kinds[String(by)] ?? null;
}

const sentence = (words: string): string => `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;

/** One field of the plan: what stands there, how it is known, what is assumed in its place and why, what is wrong. */
export function FieldRow({ tank, raw, plan, field, path, onKeep }: FieldRowProps) {
  const us = useSettings().units === "us";
  const id = useId();
  const own = pathText(path);
  const kept = typedText(raw, plan, path);
  const present = valueAt(raw, path) !== undefined;
  const resolved = resolvedAt(plan, path);
  const entry = isEntry(resolved) ? resolved : null;
  const typed = present && entry?.text !== undefined ? entry : null;
  const item = resolvedAt(plan, path.slice(0, -1));
  const measure = measureOf(field, item);
  const ghost = ghostText(plan, field, path, us);

  const [text, setText] = useState(() => draftOf(tank, own) ?? kept);
  const [faults, setFaults] = useState<readonly Fault[]>([]);
  // typed in an earlier visit, would do, but was never entered
  const [waiting, setWaiting] = useState(false);
  const [asking, setAsking] = useState(false);
  const row = useRef<HTMLDivElement>(null);

  const tried = (value: unknown): ReturnType<typeof attemptWithNeighbours> => {
    if (value === undefined && field.fallback === null)
      return {
        changes: [],
        settled: [],
        faults: [{ path: own, line: 0, column: 0, message: "a value is needed here", allowed: field.help }],
      };
    return attemptWithNeighbours(raw, { path, value, name: changeName(raw, field, path, value) }, refusedOf(tank));
  };
  const written = (words: string): unknown => writtenValue(field, words, typed?.known);

  // a change from elsewhere (undo, another field) shows unless something unkept stands here
  // biome-ignore lint/correctness/useExhaustiveDependencies: what was typed is tried again when the plan changes
  useEffect(() => {
    const draft = draftOf(tank, own);
    setText(draft ?? kept);
    if (row.current?.contains(document.activeElement) && draft !== null) return;
    const found = draft === null ? [] : tried(written(draft)).faults;
    setFaults(found);
    setWaiting(draft !== null && found.length === 0);
  }, [tank, own, kept, raw]);

  const leave = (): void => {
    setText(kept);
    setDraft(tank, own, null);
    setFaults([]);
    setWaiting(false);
  };
  const keep = (value: unknown, words: string): void => {
    const { changes, faults: found, settled } = tried(value);
    setFaults(found);
    setWaiting(false);
    if (found.length > 0) {
      setDraft(tank, own, words, true);
      return;
    }
    for (const done of settled) setDraft(tank, done, null);
    if (changes.length > 0) onKeep(changes.at(-1)!.name, changes);
  };
  const enter = (words: string): void => {
    setText(words);
    if (words.trim() === kept.trim()) leave();
    else keep(written(words), words);
  };
  const mark = (known: Known, note: string): void => {
    if (!typed || (known === typed.known && note.trim() === (typed.note ?? ""))) return;
    keep(writtenValue(field, kept, known, note), kept);
  };

  const latest = useRef(enter);
  latest.current = enter;
  const pressed = useRef<{ timer: ReturnType<typeof setTimeout>; text: string } | null>(null);
  useEffect(
    () => () => {
      if (!pressed.current) return;
      clearTimeout(pressed.current.timer);
      latest.current(pressed.current.text);
    },
    [],
  );
  const step = (by: number): void => {
    if (field.kind !== "count") return;
    const now = Number(text || ghost);
    const next = String(Math.max(field.min, Math.min(field.max, (Number.isFinite(now) ? now : field.min) + by)));
    setText(next);
    setDraft(tank, own, next === kept ? null : next);
    if (pressed.current) clearTimeout(pressed.current.timer);
    const timer = setTimeout(() => {
      pressed.current = null;
      latest.current(next);
    }, rest);
    pressed.current = { timer, text: next };
  };

  const wrong = faults.length > 0;
  const shared = {
    "aria-describedby": `${id}-help${wrong ? ` ${id}-fault` : ""}`,
    "aria-invalid": wrong || undefined,
    "data-path": own,
  } as const;
  const control = {
    ...shared,
    id,
    autoComplete: "off",
    spellCheck: false,
    value: text,
    placeholder: ghost,
    onChange: (e: { target: { value: string } }) => {
      setText(e.target.value);
      setWaiting(false);
      setDraft(tank, own, e.target.value === kept ? null : e.target.value);
    },
    onBlur: (e: { target: { value: string } }) => enter(e.target.value),
  };
  const keys = (event: KeyboardEvent<HTMLInputElement | HTMLTextAreaElement>): void => {
    if (event.key === "Enter" && !(event.target instanceof HTMLTextAreaElement)) enter(event.currentTarget.value);
    if (event.key === "Escape") leave();
  };
  const kind = factKind(field, item);
  const also = text === kept ? otherUnit(kept, measure, us) : "";
  const chosen = text || (typeof resolved === "string" ? resolved : String(entry?.value ?? ""));

  return (
    <div className={`field${wrong ? " faulty" : ""}${present ? "" : " ghost"}`} ref={row}>
      {field.kind === "choice" ? (
        <span className="field-label" id={`${id}-label`}>
          <Words>{field.label}</Words>
        </span>
      ) : (
        <label className="field-label" htmlFor={id}>
          <Words>{field.label}</Words>
        </label>
      )}
      <div className="field-value">
        {field.kind === "choice" ? (
          <div {...shared} role="radiogroup" aria-labelledby={`${id}-label`} className="choices">
            {field.choices.map((c) => (
              <label key={c} className={c === chosen ? "on" : undefined}>
                <input
                  type="radio"
                  name={id}
                  checked={c === chosen}
                  onChange={() => enter(c)}
                  onClick={() => {
                    // what was assumed and is now said to be so
                    if (c === chosen && !present) enter(c);
                  }}
                />
                <Words>{wordOf(c)}</Words>
              </label>
            ))}
          </div>
        ) : field.kind === "flag" ? (
          <label className="flag">
            <input
              {...shared}
              id={id}
              type="checkbox"
              checked={text === "true"}
              onChange={(e) => enter(e.target.checked ? "true" : "")}
            />
            yes
          </label>
        ) : field.path === "about" ? (
          <textarea {...control} rows={2} onKeyDown={keys} />
        ) : (
          <input
            {...control}
            type="text"
            className={kind === "plant" || kind === "animal" ? "botanical" : undefined}
            inputMode={field.kind === "count" ? "numeric" : "text"}
            list={kind ? namesId(kind) : undefined}
            onKeyDown={keys}
          />
        )}
        {field.kind === "count" && (
          <span className="stepper">
            <button type="button" onClick={() => step(-field.step)}>
              −<span className="hidden-text"> {field.label}: one less</span>
            </button>
            <button type="button" onClick={() => step(field.step)}>
              +<span className="hidden-text"> {field.label}: one more</span>
            </button>
          </span>
        )}
        {also && <span className="also">{also}</span>}
      </div>
      <div className="field-mark">
        {typed ? (
          <KnownButton known={typed.known} label={field.label} open={asking} onToggle={() => setAsking(!asking)} />
        ) : (
          !present && entry && entry.text === undefined && <Mark known="assumed" />
        )}
      </div>
      <p className="field-help" id={`${id}-help`}>
        {typed?.note && <span className="field-note">{typed.note} </span>}
        <Words>{field.help.replaceAll("`", "")}</Words>
        {!present && entry?.reason && (
          <em>
            {" "}
            <Words>{sentence(entry.reason)}</Words>
          </em>
        )}
      </p>
      {asking && typed && (
        <HowKnown
          label={field.label}
          entry={typed}
          onChange={mark}
          assume={field.fallback ? { text: "the usual", take: () => enter("") } : null}
        />
      )}
      {(wrong || waiting) && (
        <FieldFaults
          id={`${id}-fault`}
          own={own}
          faults={faults}
          suggestions={
            wrong && faults[0]!.path === own
              ? suggestions(text, faults[0]!, measure, us, (t) => tried(written(t)).faults.length === 0)
              : []
          }
          onTake={enter}
          onLeave={leave}
          onKeep={waiting ? () => keep(written(text), text) : null}
        />
      )}
    </div>
  );
}
