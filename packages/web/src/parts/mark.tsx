import type { FigureKnown } from "@lentic/core/design";

/** How a value is known: a read-off circle, a tag, or a dashed circle; always with its word. */
export function Mark({ known }: { known: FigureKnown }) {
  return (
    <span className="mark">
      <svg className="mark-icon" viewBox="0 0 12 12" aria-hidden="true">
        {known === "measured" && (
          <>
            <path d="M6 .8v10.4M4.4 .8h3.2M4.4 11.2h3.2" />
            <circle cx="6" cy="6" r="2.6" />
          </>
        )}
        {known === "label" && <path d="M1 3h6.2L11 6 7.2 9H1zM3.2 6h.01" />}
        {known === "assumed" && <circle className="dashed" cx="6" cy="6" r="4.4" />}
        {known === "computed" && <path d="M2 4.4h8M2 7.6h8" />}
      </svg>
      {known}
    </span>
  );
}
