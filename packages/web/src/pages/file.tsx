import { type Fault, readPlan } from "@lentic/core/plan";
import { useEffect, useMemo, useRef, useState } from "react";
import { type Revision, revisions, revisionText, type TankRecord } from "../data/api.ts";
import type { TankDoor } from "../data/use-tank.ts";
import { Faults } from "../parts/faults.tsx";

const draftKey = (id: string): string => `lentic.file.${id}`;

interface Draft {
  readonly base: number;
  readonly text: string;
}

function loadDraft(id: string): Draft | null {
  try {
    return JSON.parse(localStorage.getItem(draftKey(id)) ?? "null") as Draft | null;
  } catch {
    return null;
  }
}

function saveDraft(id: string, draft: Draft | null): void {
  try {
    if (draft) localStorage.setItem(draftKey(id), JSON.stringify(draft));
    else localStorage.removeItem(draftKey(id));
  } catch {
    // refused storage: the text stays as long as the page is open
  }
}

/** The plan as the text file that it is: to read, to edit, to take away; and every state that it had. */
export function FilePage({ tank, door }: { tank: TankRecord; door: TankDoor }) {
  const [draft, setDraft] = useState<Draft | null>(() => loadDraft(tank.id));
  const text = draft?.text ?? tank.text;
  const reading = useMemo(() => readPlan(text), [text]);
  const faults: readonly Fault[] = reading.ok ? [] : reading.faults;
  const edited = draft !== null && draft.text !== tank.text;
  const area = useRef<HTMLTextAreaElement>(null);
  const lines = text.split("\n").length;

  const edit = (next: string | null): void => {
    const kept = next === null || next === tank.text ? null : { base: draft?.base ?? tank.revision, text: next };
    setDraft(kept);
    saveDraft(tank.id, kept);
  };
  const keep = async (): Promise<void> => {
    if (await door.replaceText("plan file edited", text)) edit(null);
  };
  const jump = (line: number): void => {
    const field = area.current;
    if (!field || line < 1) return;
    const from =
      text
        .split("\n")
        .slice(0, line - 1)
        .join("\n").length + (line > 1 ? 1 : 0);
    const end = text.indexOf("\n", from);
    field.focus();
    field.setSelectionRange(from, end < 0 ? text.length : end);
    field.scrollTop = (line - 4) * 20;
  };

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
          <a href={`/api/tanks/${tank.id}/plan.yaml`} download>
            download
          </a>
        </p>
      </div>
      {draft && draft.base !== tank.revision && (
        <p className="notice" role="status">
          The plan was changed elsewhere since this edit began. Keeping this text replaces that change; it stays in the
          history.
        </p>
      )}
      {door.faults && <Faults title="The text could not be kept" faults={door.faults} />}
      <div className="file-page">
        <div>
          <textarea
            ref={area}
            aria-label="Plan file"
            aria-invalid={faults.length > 0 || undefined}
            spellCheck={false}
            wrap="off"
            rows={Math.min(Math.max(lines + 1, 20), 44)}
            value={text}
            onChange={(e) => edit(e.target.value)}
          />
          <div className="file-acts">
            <button
              type="button"
              className="plain-button"
              disabled={!edited || faults.length > 0}
              onClick={() => void keep()}
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
                : edited
                  ? "no faults"
                  : ""}
            </span>
          </div>
        </div>
        <aside>
          {faults.length > 0 && (
            <section className="file-faults" aria-label="Faults">
              <h2>What is wrong</h2>
              <ul>
                {faults.slice(0, 12).map((f) => (
                  <li key={`${f.path} ${f.line} ${f.message}`}>
                    <button type="button" className="link" onClick={() => jump(f.line)}>
                      {f.line > 0 ? `line ${f.line}` : "the file"}
                    </button>{" "}
                    <code>{f.path}</code> {f.message}. <span>Allowed: {f.allowed}</span>
                  </li>
                ))}
              </ul>
              {faults.length > 12 && <p>and {faults.length - 12} more</p>}
            </section>
          )}
          <History tank={tank} onOpen={edit} />
        </aside>
      </div>
    </main>
  );
}

function History({ tank, onOpen }: { tank: TankRecord; onOpen: (text: string) => void }) {
  const [list, setList] = useState<readonly Revision[] | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new revision is a new history
  useEffect(() => {
    let live = true;
    void revisions(tank.id).then((found) => live && setList(found));
    return () => {
      live = false;
    };
  }, [tank.id, tank.revision]);
  if (!list) return null;
  return (
    <section aria-label="History">
      <h2>Every state it had</h2>
      <ol className="history">
        {list.slice(0, 60).map((r) => (
          <li key={r.revision}>
            <span>{r.name}</span>
            <time dateTime={r.at}>
              {new Date(r.at).toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" })}
            </time>
            {r.revision === tank.revision ? (
              <em>as it stands</em>
            ) : (
              <button
                type="button"
                className="link"
                onClick={async () => {
                  const text = await revisionText(tank.id, r.revision);
                  if (text !== null) onOpen(text);
                }}
              >
                look<span className="hidden-text"> at {r.name}</span>
              </button>
            )}
          </li>
        ))}
      </ol>
    </section>
  );
}
