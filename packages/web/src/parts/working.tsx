import type { Figure } from "@lentic/core/design";
import { Mark } from "./mark.tsx";
import { Words } from "./words.tsx";

/** How a figure came about: a ledger in words, its inputs with how they are known, equation, source. */
export function Working({ figure, onReplace }: { figure: Figure; onReplace: (path: string) => void }) {
  const { working } = figure;
  return (
    <section className="working" aria-live="polite" aria-label={`Working of ${figure.label}`}>
      <h2>
        <span>
          Working: <Words>{working.title}</Words>
        </span>
        <small>
          <Words>{working.span}</Words>
        </small>
      </h2>
      {working.terms.length > 0 && (
        <div className="ledger">
          {working.terms.map((term) => (
            <div className="term" key={`${term.sign}${term.label}`}>
              <span className="sign">{term.sign}</span>
              <b>
                {term.value.text}
                <small>{working.span.startsWith(term.value.unit) ? "" : ` ${term.value.unit}`}</small>
              </b>
              <i
                className={term.sign === "−" ? "bar loss" : "bar"}
                style={{ width: `${Math.max(1, term.share * 64)}px` }}
              />
              <span className="term-label">
                <Words>{term.label}</Words>
              </span>
            </div>
          ))}
        </div>
      )}
      {working.inputs.length > 0 && (
        <ul className="inputs">
          {working.inputs.map((input) => (
            <li key={input.label}>
              <span className="input-label">
                <Words>{input.label}</Words>
              </span>
              <span className="input-value">
                {input.value.text} <small>{input.value.unit}</small>
              </span>
              <Mark known={input.known} />
              <span className="input-note">
                {input.note ??
                  (input.known === "assumed" && input.path ? (
                    <button type="button" className="link" onClick={() => onReplace(input.path!)} title={input.reason}>
                      replace<span className="hidden-text"> {input.label}</span>
                    </button>
                  ) : null)}
              </span>
            </li>
          ))}
        </ul>
      )}
      <p className="cite">
        {working.doubt && (
          <strong>
            <Words>{`${working.doubt} `}</Words>
          </strong>
        )}
        <Words>{working.equation}</Words>
      </p>
      {working.caution && <p className="caution-line">{working.caution}</p>}
      <details className="cite">
        <summary>Sources</summary>
        <ul>
          {working.sources.map((s) => (
            <li key={s}>{s}</li>
          ))}
          {working.relation && (
            <li>
              The same by hand: <code>lentic calc {working.relation} --help</code>
            </li>
          )}
        </ul>
      </details>
    </section>
  );
}
