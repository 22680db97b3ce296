import type { Fault } from "@lentic/core/plan";

/** A message that ends in a question keeps its mark. */
export const asSentence = (message: string): string => (/[.?]$/.test(message) ? message : `${message}.`);

/** What is wrong with what was typed in one field, and the ways out of it. */
export function FieldFaults(p: {
  readonly id: string;
  /** Path of the field: faults of other fields say where they stand. */
  readonly own: string;
  readonly faults: readonly Fault[];
  readonly suggestions: readonly { readonly text: string; readonly meaning: string }[];
  readonly onTake: (text: string) => void;
  /** Puts back what is kept; absent where nothing is. */
  readonly onLeave: (() => void) | null;
  /** Keeps what would do but was never entered. */
  readonly onKeep?: (() => void) | null;
}) {
  return (
    <div className="field-fault" id={p.id} role="alert">
      {p.faults.slice(0, 3).map((f) => (
        <p key={f.path + f.message}>
          {f.path !== p.own && <code>{f.path} </code>}
          {asSentence(f.message)} {p.suggestions.length === 0 && <span>Allowed: {f.allowed}</span>}
        </p>
      ))}
      {p.onKeep && <p>Typed earlier, not kept yet.</p>}
      <p className="ways-out">
        {p.suggestions.map((s) => (
          <button type="button" key={s.text} className="plain-button" onClick={() => p.onTake(s.text)}>
            {s.text} {s.meaning && <small>{s.meaning}</small>}
          </button>
        ))}
        {p.onKeep && (
          <button type="button" className="plain-button" onClick={p.onKeep}>
            keep it
          </button>
        )}
        {p.onLeave && (
          <button type="button" className="link" onClick={p.onLeave}>
            leave it as it was
          </button>
        )}
      </p>
    </div>
  );
}
