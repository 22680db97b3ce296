import type { Fault } from "@lentic/core/plan";
import { useEffect, useRef, useState } from "react";
import { dayWorker, Latest } from "../data/day-client.ts";
import { asSentence } from "./field-faults.tsx";
import { excerpt, spanOf } from "./lines.ts";

/** Rest after the last letter before a text is read, ms. */
const rest = 200;

interface Read {
  /** The text that was read. */
  readonly text: string;
  readonly faults: readonly Fault[];
  readonly alternatives: readonly string[];
}

/** Reads a plan's text beside the page, as it is typed. Null until the first answer. */
export function useReading(text: string): Read | null {
  const [read, setRead] = useState<Read | null>(null);
  const [queue] = useState(() => new Latest());
  const first = useRef(true);
  useEffect(() => {
    let live = true;
    const ask = (): void =>
      queue.ask(async () => {
        const answer = await dayWorker("desk").open({ text, raw: null });
        if (!live) return;
        if (answer.ok) setRead({ text, faults: [], alternatives: answer.alternatives });
        else if (answer.problem.kind === "faults") setRead({ text, faults: answer.problem.faults, alternatives: [] });
      });
    const timer = setTimeout(ask, first.current ? 0 : rest);
    first.current = false;
    return () => {
      live = false;
      clearTimeout(timer);
    };
  }, [text, queue]);
  return read;
}

/** Puts the cursor on a line and brings it into view. */
export function goToLine(field: HTMLTextAreaElement | null, text: string, line: number): void {
  if (!field || line < 1) return;
  const { from, to } = spanOf(text, line);
  field.focus();
  field.setSelectionRange(from, to);
  const height = Number.parseFloat(getComputedStyle(field).lineHeight) || 20;
  field.scrollTop = (line - 4) * height;
}

interface PlanTextProps {
  readonly label: string;
  readonly text: string;
  readonly faults: readonly Fault[];
  readonly onText: (text: string) => void;
  readonly field: React.RefObject<HTMLTextAreaElement | null>;
  /** Id of what describes the faults. */
  readonly faultsId: string;
}

/** A plan's text with its line numbers; lines with a fault are marked beside them. */
export function PlanText({ label, text, faults, onText, field, faultsId }: PlanTextProps) {
  const numbers = useRef<HTMLDivElement>(null);
  const lines = text.split("\n").length;
  const wrong = new Set(faults.map((f) => f.line));
  const [row, setRow] = useState(20);
  useEffect(() => {
    // the line height follows the reader's text size
    if (field.current) setRow(Number.parseFloat(getComputedStyle(field.current).lineHeight) || 20);
  }, [field]);
  return (
    <div className="plan-text">
      <div className="line-numbers" aria-hidden="true" ref={numbers}>
        <div style={{ height: lines * row + 24 }}>
          {Array.from({ length: Math.min(lines, 20_000) }, (_, i) => i + 1).map((n) => (
            <span key={n} className={wrong.has(n) ? "wrong" : undefined}>
              {n}
            </span>
          ))}
        </div>
      </div>
      <textarea
        ref={field}
        aria-label={label}
        aria-invalid={faults.length > 0 || undefined}
        aria-describedby={faults.length > 0 ? faultsId : undefined}
        spellCheck={false}
        autoCapitalize="off"
        wrap="off"
        rows={Math.min(Math.max(lines + 1, 10), 40)}
        value={text}
        onChange={(e) => onText(e.target.value)}
        onScroll={(e) => {
          if (numbers.current) numbers.current.scrollTop = e.currentTarget.scrollTop;
        }}
      />
    </div>
  );
}

/** Faults shown at once; more would not be read. */
const most = 12;

/** What is wrong with a text: each fault leads to its line, which is quoted. */
export function FaultList({
  text,
  faults,
  onLine,
}: {
  text: string;
  faults: readonly Fault[];
  onLine: (line: number) => void;
}) {
  const lines = text.split("\n");
  return (
    <>
      <ul className="fault-list">
        {faults.slice(0, most).map((f) => (
          <li key={`${f.path} ${f.line} ${f.column} ${f.message}`}>
            {f.line > 0 ? (
              <button type="button" className="link" onClick={() => onLine(f.line)}>
                line {f.line}, column {f.column}
              </button>
            ) : (
              <span>the file</span>
            )}{" "}
            {f.path && <code>{f.path}</code>} {asSentence(f.message)} <span>Allowed: {f.allowed}</span>
            {f.line > 0 && lines[f.line - 1]?.trim() && (
              <code className="quoted">{excerpt(lines[f.line - 1]!, f.column)}</code>
            )}
          </li>
        ))}
      </ul>
      {faults.length > most && <p>and {faults.length - most} more</p>}
    </>
  );
}
