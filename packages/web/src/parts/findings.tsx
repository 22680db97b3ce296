import type { Finding, Remedy } from "@lentic/core/design";
import { Words } from "./words.tsx";

const severityWord = { stop: "Stop", caution: "Caution", note: "Note" } as const;

/** Everything that the day shows, gravest first, each with its remedies. */
export function Findings({ findings, onTry }: { findings: readonly Finding[]; onTry: (remedy: Remedy) => void }) {
  return (
    <section className="findings" aria-labelledby="findings-title">
      <h2 id="findings-title">What the day shows</h2>
      <ol>
        {findings.map((f) => (
          <li key={f.id} className={`finding ${f.severity}`}>
            <div className="finding-word">{severityWord[f.severity]}</div>
            <div>
              <h3>
                <Words>{`${f.title}.`}</Words>
              </h3>
              <p>
                <Words>{f.reason}</Words>
              </p>
              {f.next.map((r) => (
                <p key={r.id} className="remedy">
                  <button type="button" className="try" onClick={() => onTry(r)}>
                    {r.text}
                  </button>
                  : <Words>{r.effect}</Words>.
                </p>
              ))}
              {f.caution && <p className="caution-line">{f.caution}</p>}
            </div>
          </li>
        ))}
      </ol>
    </section>
  );
}
