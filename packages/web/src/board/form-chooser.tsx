import type { Change, Plan, RawPlan } from "@lentic/core/plan";
import { type FormName, formChanges, forms } from "@lentic/core/scape";
import { memo, useId, useState } from "react";

interface FormChooserProps {
  readonly raw: RawPlan;
  readonly plan: Plan;
  readonly onKeep: (name: string, changes: readonly Change[]) => void;
}

/** Begins the layout anew from a form; each press gives another one of it, and undo brings the old one back. */
export const FormChooser = memo(function FormChooser({ raw, plan, onKeep }: FormChooserProps) {
  const [form, setForm] = useState<FormName>("triangle");
  const [seed, setSeed] = useState(1);
  const [trouble, setTrouble] = useState("");
  const id = useId();
  const lay = (): void => {
    try {
      const changes = formChanges(raw, { plan, form, seed });
      setSeed(seed + 1);
      setTrouble("");
      if (changes.length > 0) onKeep(changes.at(-1)!.name, changes);
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      setTrouble(error.message);
    }
  };
  return (
    <details className="form-chooser">
      <summary>Begin from a form</summary>
      <div className="form-chooser-body">
        <p>It takes the place of bed, stones, wood and plants; undo brings them back.</p>
        {forms.map(({ name, label, says }) => (
          <label key={name} htmlFor={`${id}-${name}`}>
            <input
              id={`${id}-${name}`}
              type="radio"
              name={id}
              checked={form === name}
              onChange={() => {
                setForm(name);
                setSeed(1);
              }}
            />{" "}
            <b>{label}</b> <span>{says}</span>
          </label>
        ))}
        <button type="button" className="plain-button" onClick={lay}>
          {seed === 1 ? "Lay it" : "Another one"}
        </button>
        {trouble && <p className="problem">{trouble}</p>}
      </div>
    </details>
  );
});
