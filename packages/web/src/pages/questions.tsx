import { type FormEvent, useId, useMemo, useState } from "react";
import { useSettings } from "../data/settings.ts";
import { load, store, texts } from "../data/stored.ts";
import {
  easyPlants,
  fieldOf,
  has,
  outcomeOf,
  planOf,
  plantsOf,
  questions,
  type Typed,
  things,
} from "../form/answers.ts";
import { FieldFaults } from "../form/field-faults.tsx";
import { measureOf, suggestions } from "../form/model.ts";
import { Faults } from "../parts/faults.tsx";

const draftKey = "lentic.new";

const words: Readonly<Record<(typeof things)[number]["key"], React.ReactNode>> = {
  filter: "It has a filter",
  heater: "It has a heater",
  gas: (
    <>
      CO<sub>2</sub> is added
    </>
  ),
};

/** A tank from few answers, told as it goes: the rest is assumed, and marked so. */
export function Questions({ onPlan }: { onPlan: (text: string) => Promise<boolean> }) {
  const us = useSettings().units === "us";
  const id = useId();
  const [typed, setTyped] = useState<Typed>(() => load(draftKey, texts) ?? {});
  const [left, setLeft] = useState<ReadonlySet<string>>(() => new Set());
  const [sent, setSent] = useState(false);
  const outcome = useMemo(() => outcomeOf(typed, us), [typed, us]);

  const answer = (key: string, text: string): void => {
    const next = { ...typed, [key]: text };
    setTyped(next);
    store(draftKey, next);
  };
  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    setSent(true);
    if (outcome.faults.length > 0) return;
    if (await onPlan(planOf(typed))) store(draftKey, null);
  };
  const chosen = plantsOf(typed);
  return (
    <form className="questions" onSubmit={(event) => void submit(event)} noValidate>
      {questions.map((q) => {
        const text = typed[q.key] ?? "";
        const told = sent || (left.has(q.key) && text.trim() !== "");
        const faults = told ? outcome.faults.filter((f) => f.path === q.path) : [];
        const field = fieldOf(q);
        const works = (t: string): boolean =>
          !outcomeOf({ ...typed, [q.key]: t }, us).faults.some((f) => f.path === q.path);
        return (
          <div key={q.key} className={faults.length > 0 ? "question faulty" : "question"}>
            <label htmlFor={`${id}-${q.key}`}>{q.label}</label>
            <input
              id={`${id}-${q.key}`}
              type="text"
              value={text}
              placeholder={us ? q.usHint : q.hint}
              autoComplete="off"
              spellCheck={false}
              maxLength={120}
              aria-required={field.fallback === null}
              aria-invalid={faults.length > 0 || undefined}
              aria-describedby={faults.length > 0 ? `${id}-${q.key}-fault` : undefined}
              onChange={(e) => answer(q.key, e.target.value)}
              onBlur={() => setLeft(new Set([...left, q.key]))}
            />
            {faults.length > 0 && (
              <FieldFaults
                id={`${id}-${q.key}-fault`}
                own={q.path}
                faults={
                  text.trim()
                    ? faults
                    : faults.slice(0, 1).map((f) => ({ ...f, message: "a value is needed here", allowed: field.help }))
                }
                suggestions={suggestions(text, faults[0]!, measureOf(field, null), us, works)}
                onTake={(t) => answer(q.key, t)}
                onLeave={null}
              />
            )}
            {q.key === "height" && (
              <output className="holds">
                {outcome.water ? (
                  <>
                    It holds about <b>{outcome.water}</b> of water, over an assumed bed.
                  </>
                ) : (
                  "These three say how much water it holds."
                )}
              </output>
            )}
          </div>
        );
      })}
      <div className="ticks">
        {things.map((thing) => (
          <label key={thing.key} className="tick">
            <input
              type="checkbox"
              checked={has(typed, thing)}
              onChange={(e) => answer(thing.key, e.target.checked ? "yes" : "no")}
            />
            <span>{words[thing.key]}</span>
          </label>
        ))}
      </div>
      <fieldset className="chips">
        <legend>Plants that ask little, to begin with</legend>
        {easyPlants.map((plant) => (
          <label key={plant} className={chosen.includes(plant) ? "on" : undefined}>
            <input
              type="checkbox"
              checked={chosen.includes(plant)}
              onChange={(e) =>
                answer("plants", (e.target.checked ? [...chosen, plant] : chosen.filter((c) => c !== plant)).join("\n"))
              }
            />
            {plant}
          </label>
        ))}
      </fieldset>
      {sent && outcome.faults.length > 0 && (
        <Faults title="These answers do not make a tank yet" faults={outcome.faults.map((f) => ({ ...f, line: 0 }))} />
      )}
      <button type="submit" className="plain-button">
        Work it out
      </button>
    </form>
  );
}
