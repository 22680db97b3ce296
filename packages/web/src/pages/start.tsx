import type { Fault } from "@lentic/core/plan";
import { lazy, Suspense, useCallback, useEffect, useRef, useState } from "react";
import { Link, useLocation } from "wouter";
import {
  createTank,
  type Example,
  exampleText,
  listExamples,
  listTanks,
  removeTank,
  restoreTank,
  type TankSummary,
} from "../data/api.ts";
import { load, store, texts } from "../data/stored.ts";
import { Faults } from "../parts/faults.tsx";
import { when } from "./when.ts";

// the facts and the reading of plans are loaded once the list of tanks stands
const Questions = lazy(() => import("./questions.tsx").then((m) => ({ default: m.Questions })));
const Mend = lazy(() => import("./mend.tsx").then((m) => ({ default: m.Mend })));

const largestFile = 1024 * 1024;
const retryAfter = 3000;
const tornKey = "lentic.torn";

/** A file that could not be opened, with its text as mended so far. */
interface Torn {
  readonly name: string;
  readonly text: string;
  readonly faults: readonly Fault[];
}

function loadTorn(): Torn | null {
  return load(tornKey, (value) => {
    const read = texts(value);
    return read?.name !== undefined && read.text !== undefined
      ? { name: read.name, text: read.text, faults: [] }
      : null;
  });
}

type Begun = "kept" | "faults" | "offline";

/** Tanks that are kept here, and three ways to begin another. */
export function StartPage() {
  const [, go] = useLocation();
  const [tanks, setTanks] = useState<readonly TankSummary[] | null>(null);
  const [examples, setExamples] = useState<readonly Example[]>([]);
  const [offline, setOffline] = useState(false);
  const [removed, setRemoved] = useState<readonly TankSummary[]>([]);
  const [problem, setProblem] = useState<{ title: string; faults: readonly Fault[] } | null>(null);
  const [torn, setTorn] = useState<Torn | null>(loadTorn);
  const [busy, setBusy] = useState(false);
  /** Key of each text that may have reached the server: sent again, it makes no second tank. */
  const keys = useRef(new Map<string, string>());

  const refresh = useCallback(async (): Promise<void> => {
    const [mine, given] = await Promise.all([listTanks(), listExamples()]);
    setOffline(mine === null);
    if (mine) setTanks(mine);
    if (given) setExamples(given);
  }, []);
  useEffect(() => {
    document.title = "Your tanks · Lentic";
    void refresh();
  }, [refresh]);
  useEffect(() => {
    if (!offline) return;
    const timer = setInterval(() => void refresh(), retryAfter);
    return () => clearInterval(timer);
  }, [offline, refresh]);

  const mend = (next: Torn | null): void => {
    setTorn(next);
    store(tornKey, next && { name: next.name, text: next.text });
  };
  const begin = async (text: string, onFaults: (faults: readonly Fault[]) => void): Promise<Begun> => {
    setProblem(null);
    setBusy(true);
    const key = keys.current.get(text) ?? crypto.randomUUID();
    keys.current.set(text, key);
    const outcome = await createTank(text, key);
    setBusy(false);
    if (outcome.kind === "kept") {
      keys.current.delete(text);
      go(`/tank/${outcome.tank.id}/today`);
      return "kept";
    }
    if (outcome.kind === "faults") {
      onFaults(outcome.faults);
      return "faults";
    }
    setOffline(true);
    return "offline";
  };
  const openFile = async (file: File): Promise<void> => {
    setProblem(null);
    if (file.size > largestFile) {
      const message = `holds ${(file.size / largestFile).toFixed(1)} MiB`;
      setProblem({
        title: `${file.name} cannot be opened`,
        faults: [{ path: "", line: 0, column: 0, message, allowed: "A plan holds 1 MiB at most." }],
      });
      return;
    }
    await openText(file.name, await file.text());
  };
  const openText = async (name: string, text: string): Promise<void> => {
    const begun = await begin(text, (faults) => mend({ name, text, faults }));
    // not reached: the text waits here, so that it need not be found again
    if (begun === "offline") mend({ name, text, faults: [] });
    if (begun === "kept") mend(null);
  };

  const gone = (tank: TankSummary): boolean => removed.some((r) => r.id === tank.id);
  // those removed stay in their line until the page is left, to be brought back from there
  const rows = [...(tanks ?? []), ...removed.filter((r) => !tanks?.some((t) => t.id === r.id))];
  const kept = rows.filter((t) => !gone(t)).length;
  return (
    <main id="main" className="start">
      <h1>{kept > 0 ? "Your tanks" : "A planted tank, worked out before it is built"}</h1>
      {offline && (
        <p className="problem" role="status">
          Lentic cannot be reached; trying again. What is typed here stays.
        </p>
      )}
      {tanks === null && !offline && <p className="start-lead">Looking for your tanks …</p>}
      {rows.length > 0 && (
        <ul className="tanks">
          {rows.map((tank) => (
            <TankLine
              key={tank.id}
              tank={tank}
              gone={gone(tank)}
              onRemove={async () => {
                if (!(await removeTank(tank.id))) return setOffline(true);
                setRemoved((list) => [...list, tank]);
              }}
              onRestore={async () => {
                if (!(await restoreTank(tank.id))) return setOffline(true);
                setRemoved((list) => list.filter((r) => r.id !== tank.id));
                await refresh();
              }}
            />
          ))}
        </ul>
      )}
      {tanks && kept === 0 && (
        <p className="start-lead">
          Nothing is kept here yet. Open an example to see how a day in a tank is worked out, or answer a few questions
          about your own: what you leave out is assumed, and marked so until you know better.
        </p>
      )}
      {problem && <Faults title={problem.title} faults={problem.faults} />}
      {torn && (
        <Suspense fallback={<p className="waiting">Reading …</p>}>
          <Mend
            key={torn.name}
            name={torn.name}
            text={torn.text}
            faults={torn.faults}
            onText={(text) => mend({ ...torn, text })}
            onOpen={(text) => void openText(torn.name, text)}
            onClose={() => mend(null)}
          />
        </Suspense>
      )}
      <h2 className="start-new">Begin a tank</h2>
      <div className="ways" aria-busy={busy}>
        <section aria-labelledby="way-questions">
          <h3 id="way-questions">From a few answers</h3>
          <Suspense fallback={<p className="questions waiting">Opening …</p>}>
            <Questions
              onPlan={async (text) =>
                (await begin(text, (faults) =>
                  setProblem({ title: "These answers do not make a tank yet", faults }),
                )) === "kept"
              }
            />
          </Suspense>
        </section>
        <section aria-labelledby="way-example">
          <h3 id="way-example">From an example</h3>
          <ul className="examples">
            {examples.map((example) => (
              <li key={example.id}>
                <button
                  type="button"
                  className="link"
                  onClick={async () => {
                    const text = await exampleText(example.id);
                    if (text === null) return setOffline(true);
                    await begin(text, (faults) => setProblem({ title: `${example.name} cannot be opened`, faults }));
                  }}
                >
                  {example.name}
                </button>
                <p>{example.about}</p>
              </li>
            ))}
          </ul>
        </section>
        <OpenFile onFile={(file) => void openFile(file)} />
      </div>
    </main>
  );
}

function TankLine(p: {
  readonly tank: TankSummary;
  readonly gone: boolean;
  readonly onRemove: () => Promise<void>;
  readonly onRestore: () => Promise<void>;
}) {
  const { tank, gone } = p;
  if (gone)
    return (
      <li className="gone">
        <span className="tank-about" role="status">
          {tank.name} was removed.
        </span>
        <button key="act" type="button" className="link" onClick={() => void p.onRestore()}>
          bring it back<span className="hidden-text">: {tank.name}</span>
        </button>
      </li>
    );
  return (
    <li>
      <Link href={`/tank/${tank.id}/today`}>{tank.name}</Link>
      <span className="tank-about">
        {tank.invented && <em>invented example</em>}
        {tank.place && <span>{tank.place}</span>}
        <time dateTime={tank.updatedAt}>changed {when(tank.updatedAt, new Date())}</time>
      </span>
      <button key="act" type="button" className="link" onClick={() => void p.onRemove()}>
        remove<span className="hidden-text"> {tank.name}</span>
      </button>
    </li>
  );
}

function OpenFile({ onFile }: { onFile: (file: File) => void }) {
  const [over, setOver] = useState(false);
  return (
    <section
      aria-labelledby="way-file"
      className={over ? "drop over" : "drop"}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        event.preventDefault();
        setOver(false);
        const file = event.dataTransfer.files[0];
        if (file) onFile(file);
      }}
    >
      <h3 id="way-file">From a plan file</h3>
      <p>
        A plan is one text file, yours to keep. Open one that you have kept, or were sent; it is copied in, and the file
        stays as it is.
      </p>
      <label className="file-way">
        <span>Open a plan file</span>
        <input
          type="file"
          accept=".yaml,.yml,.json,text/yaml,application/yaml,application/json"
          onChange={(event) => {
            const file = event.target.files?.[0];
            event.target.value = "";
            if (file) onFile(file);
          }}
        />
      </label>
      <p className="drop-word">{over ? "Let go to open it." : "or drop one here"}</p>
    </section>
  );
}
