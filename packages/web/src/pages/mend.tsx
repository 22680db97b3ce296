import type { Fault } from "@lentic/core/plan";
import { useRef, useState } from "react";
import { FaultList, goToLine, PlanText, useReading } from "../form/plan-text.tsx";

/** A plan file that cannot be opened: what is wrong, line by line, and its text to be mended here. The file stays as it is. */
export function Mend(p: {
  readonly name: string;
  readonly text: string;
  readonly faults: readonly Fault[];
  readonly onText: (text: string) => void;
  readonly onOpen: (text: string) => void;
  readonly onClose: () => void;
}) {
  const [editing, setEditing] = useState(false);
  const area = useRef<HTMLTextAreaElement>(null);
  const reading = useReading(p.text);
  const faults = reading?.faults ?? p.faults;
  const read = reading?.text ?? p.text;
  const jump = (line: number): void => {
    setEditing(true);
    setTimeout(() => goToLine(area.current, p.text, line));
  };
  return (
    <section className="faults mend" role="alert" aria-labelledby="mend-title">
      <h2 id="mend-title">{p.name} cannot be opened</h2>
      {faults.length > 0 ? (
        <div id="mend-faults">
          <FaultList text={read} faults={faults} onLine={jump} />
        </div>
      ) : (
        <p role="status">No faults are left; it can be opened now.</p>
      )}
      {editing && (
        <PlanText
          label={`Text of ${p.name}`}
          text={p.text}
          faults={faults}
          onText={p.onText}
          field={area}
          faultsId="mend-faults"
        />
      )}
      <p className="file-acts">
        {editing ? (
          <button
            type="button"
            className="plain-button"
            disabled={faults.length > 0 && read === p.text}
            onClick={() => p.onOpen(p.text)}
          >
            Open the mended text
          </button>
        ) : (
          <button type="button" className="plain-button" onClick={() => setEditing(true)}>
            Mend the text here
          </button>
        )}
        <button type="button" className="link" onClick={p.onClose}>
          leave it
        </button>
        <span>The file itself stays as it is.</span>
      </p>
    </section>
  );
}
