import { useEffect, useRef, useState } from "react";
import { Link } from "wouter";
import { type Revision, revisions, revisionText, type TankRecord } from "../data/api.ts";
import type { TankDoor } from "../data/use-tank.ts";
import { type FileDraft, loadFileDraft, saveFileDraft } from "../form/file-draft.ts";
import { FaultList, goToLine, PlanText, useReading } from "../form/plan-text.tsx";
import { Faults } from "../parts/faults.tsx";

/** The plan as the text file that it is: to read, to edit, to take away; and every state that it had. */
export function FilePage({ tank, door }: { tank: TankRecord; door: TankDoor }) {
  const [draft, setDraft] = useState<FileDraft | null>(() => loadFileDraft(tank.id));
  const [missed, setMissed] = useState(false);
  const text = draft?.text ?? tank.text;
  const reading = useReading(text);
  const faults = reading?.faults ?? [];
  const edited = draft !== null && draft.text !== tank.text;
  const area = useRef<HTMLTextAreaElement>(null);

  const edit = (next: string | null): void => {
    const kept = next === null || next === tank.text ? null : { base: draft?.base ?? tank.revision, text: next };
    setDraft(kept);
    saveFileDraft(tank.id, kept);
    setMissed(false);
  };
  const keep = async (name: string, next: string): Promise<boolean> => {
    const done = await door.replaceText(name, next);
    setMissed(!done);
    return done;
  };
  const jump = (line: number): void => goToLine(area.current, text, line);

  return (
    <main id="main" className="form-page">
      <div className="form-head">
        <h1>The whole plan is this text; every field of the app stands in it.</h1>
        <p className="form-acts">
          <button type="button" className="link" disabled={!tank.canUndo || edited} onClick={() => void door.undo()}>
            undo
          </button>
          <button type="button" className="link" disabled={!tank.canRedo || edited} onClick={() => void door.redo()}>
            redo
          </button>
          <a href={`/api/tanks/${encodeURIComponent(tank.id)}/plan.yaml`} download>
            download
          </a>
        </p>
      </div>
      {edited && draft.base !== tank.revision && (
        <p className="notice" role="status">
          The plan was changed elsewhere since this edit began. Keeping this text replaces that change; it stays in the
          history.
        </p>
      )}
      {door.faults && <Faults title="The text could not be kept" faults={door.faults} />}
      <div className="file-page">
        <div>
          <PlanText label="Plan file" text={text} faults={faults} onText={edit} field={area} faultsId="file-faults" />
          <div className="file-acts">
            <button
              type="button"
              className="plain-button"
              disabled={!edited || (faults.length > 0 && reading?.text === text)}
              onClick={async () => {
                if (await keep("plan file edited", text)) edit(null);
              }}
            >
              Keep this text
            </button>
            {edited && (
              <button type="button" className="link" onClick={() => edit(null)}>
                back to the plan as kept
              </button>
            )}
            <span role="status">
              {faults.length > 0
                ? `${faults.length} ${faults.length === 1 ? "fault" : "faults"}; the text stays in this browser until it can be kept`
                : missed && edited
                  ? "not kept yet; the text stays in this browser"
                  : edited
                    ? "no faults; not kept yet"
                    : ""}
            </span>
          </div>
        </div>
        <aside aria-label="About this text">
          {faults.length > 0 && (
            <section className="file-faults" id="file-faults" aria-label="Faults">
              <h2>What is wrong</h2>
              <FaultList text={reading!.text} faults={faults} onLine={jump} />
            </section>
          )}
          {reading && reading.alternatives.length > 0 && (
            <section className="file-alternatives" aria-label="Alternatives">
              <h2>Alternatives in it</h2>
              <ul>
                {reading.alternatives.map((name) => (
                  <li key={name}>{name}</li>
                ))}
              </ul>
              <p>
                Each is a set of changes under its name at the end of the text.{" "}
                <Link href={`/tank/${tank.id}/today`}>Try them on the day</Link>
              </p>
            </section>
          )}
          <History tank={tank} onKeep={keep} />
        </aside>
      </div>
    </main>
  );
}

/** States shown before one asks for all. */
const few = 20;

function History({ tank, onKeep }: { tank: TankRecord; onKeep: (name: string, text: string) => Promise<boolean> }) {
  const [list, setList] = useState<readonly Revision[] | null>(null);
  const [seen, setSeen] = useState<{ readonly of: Revision; readonly text: string } | null>(null);
  const [trouble, setTrouble] = useState(false);
  const [all, setAll] = useState(false);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new revision is a new history
  useEffect(() => {
    let live = true;
    void revisions(tank.id).then((found) => {
      if (live && found) setList(found);
      if (live) setTrouble(!found);
    });
    return () => {
      live = false;
    };
  }, [tank.id, tank.revision]);
  const look = async (revision: Revision): Promise<void> => {
    if (seen?.of.revision === revision.revision) {
      setSeen(null);
      return;
    }
    const text = await revisionText(tank.id, revision.revision);
    setTrouble(text === null);
    if (text !== null) setSeen({ of: revision, text });
  };
  return (
    <section aria-label="History">
      <h2>Every state it had</h2>
      {trouble && <p role="status">Lentic cannot be reached; the history is not at hand.</p>}
      <ol className="history">
        {(list ?? []).slice(0, all ? undefined : few).map((r) => {
          const open = seen?.of.revision === r.revision;
          return (
            <li key={r.revision}>
              <span>{r.name}</span>
              <time dateTime={r.at}>
                {new Date(r.at).toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" })}
              </time>
              {r.revision === tank.revision ? (
                <em>as it stands</em>
              ) : (
                <button type="button" className="link" aria-expanded={open} onClick={() => void look(r)}>
                  {open ? "close" : "look"}
                  <span className="hidden-text"> at state {r.revision}</span>
                </button>
              )}
              {open && (
                <State
                  text={seen.text}
                  now={tank.text}
                  onBack={async () => {
                    if (await onKeep(`back to state ${r.revision}`, seen.text)) setSeen(null);
                  }}
                />
              )}
            </li>
          );
        })}
      </ol>
      {list && list.length > few && !all && (
        <button type="button" className="link" onClick={() => setAll(true)}>
          {list.length - few} older
        </button>
      )}
    </section>
  );
}

/** An earlier text, its lines that are not in the present one marked. */
function State({ text, now, onBack }: { text: string; now: string; onBack: () => Promise<void> }) {
  const present = new Set(now.split("\n"));
  const lines = text.split("\n");
  const other = lines.filter((l) => l.trim() && !present.has(l)).length;
  return (
    <div className="state">
      <p>
        {other === 0
          ? "All its lines stand in the plan as it is now."
          : `${other} ${other === 1 ? "line is" : "lines are"} not in the plan as it is now, marked with an arrow.`}
      </p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolled text must be reachable by keyboard */}
      <pre tabIndex={0} aria-label="Text of this state" role="region">
        {lines.map((line, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: lines of a text that does not change
          <span key={i} className={line.trim() && !present.has(line) ? "other" : undefined}>
            {line.trim() && !present.has(line) ? "→ " : "  "}
            {line}
            {"\n"}
          </span>
        ))}
      </pre>
      <button type="button" className="plain-button" onClick={() => void onBack()}>
        Bring this back
      </button>
    </div>
  );
}
