import type { Entry, Known } from "@lentic/core/plan";
import { useId } from "react";
import { Mark } from "../parts/mark.tsx";

const ways: readonly { readonly known: Known; readonly words: string }[] = [
  { known: "measured", words: "measured" },
  { known: "label", words: "from a label" },
  { known: "assumed", words: "assumed" },
];

/** How one value is known, and a note on it; open under the field that it belongs to. */
export function HowKnown(p: {
  readonly label: string;
  readonly entry: Entry<number | string>;
  readonly onChange: (known: Known, note: string) => void;
  /** Takes the typed value out, so that the default stands in its place; absent where there is none. */
  readonly assume: { readonly text: string; readonly take: () => void } | null;
}) {
  const id = useId();
  const { entry } = p;
  const noteIn = (element: Element | null): string =>
    element?.closest("fieldset")?.querySelector<HTMLInputElement>("input[type=text]")?.value ?? "";
  return (
    <fieldset className="how-known">
      <legend className="hidden-text">How {p.label} is known</legend>
      {ways.map(({ known, words }) => (
        <label key={known} className="way">
          <input
            type="radio"
            name={id}
            checked={entry.known === known}
            onChange={(e) => p.onChange(known, noteIn(e.currentTarget))}
          />
          {words}
        </label>
      ))}
      <label className="note">
        <span>note</span>
        <input
          type="text"
          key={entry.note ?? ""}
          defaultValue={entry.note ?? ""}
          placeholder="how, when"
          autoComplete="off"
          maxLength={200}
          onBlur={(e) => p.onChange(entry.known, e.target.value)}
          onKeyDown={(e) => {
            if (e.key === "Enter") p.onChange(entry.known, e.currentTarget.value);
          }}
        />
      </label>
      {p.assume && (
        <button type="button" className="link" onClick={p.assume.take}>
          take it out: {p.assume.text} is assumed
        </button>
      )}
    </fieldset>
  );
}

/** The mark of a typed value; choosing it opens how it is known. */
export function KnownButton(p: {
  readonly known: Known;
  readonly label: string;
  readonly open: boolean;
  readonly onToggle: () => void;
}) {
  return (
    <button type="button" className="known" aria-expanded={p.open} onClick={p.onToggle}>
      <Mark known={p.known} />
      <span className="hidden-text">: how {p.label} is known</span>
    </button>
  );
}
