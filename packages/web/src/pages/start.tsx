import type { Fault } from "@lentic/core/plan";
import { type FormEvent, useCallback, useEffect, useState } from "react";
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
import { Faults } from "../parts/faults.tsx";

const largestFile = 1024 * 1024;

/** Tanks that are kept here, and three ways to begin another. */
export function StartPage() {
  const [, go] = useLocation();
  const [tanks, setTanks] = useState<readonly TankSummary[] | null>(null);
  const [examples, setExamples] = useState<readonly Example[]>([]);
  const [offline, setOffline] = useState(false);
  const [removed, setRemoved] = useState<TankSummary | null>(null);
  const [problem, setProblem] = useState<{ title: string; faults: readonly Fault[] } | null>(null);

  const load = useCallback(async (): Promise<boolean> => {
    const [mine, given] = await Promise.all([listTanks(), listExamples()]);
    setOffline(mine === null);
    if (mine) setTanks(mine);
    if (given) setExamples(given);
    return mine !== null;
  }, []);
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    let live = true;
    const again = async (): Promise<void> => {
      if (!(await load()) && live) timer = setTimeout(again, 3000);
    };
    void again();
    document.title = "Your tanks · Lentic";
    return () => {
      live = false;
      clearTimeout(timer);
    };
  }, [load]);

  const begin = useCallback(
    async (text: string, title: string): Promise<void> => {
      setProblem(null);
      const outcome = await createTank(text, crypto.randomUUID());
      if (outcome.kind === "kept") go(`/tank/${outcome.tank.id}/today`);
      else if (outcome.kind === "faults") setProblem({ title, faults: outcome.faults });
      else setOffline(true);
    },
    [go],
  );

  const remove = async (tank: TankSummary): Promise<void> => {
    if (await removeTank(tank.id)) setRemoved(tank);
    else setOffline(true);
    await load();
  };

  return (
    <main id="main" className="start">
      <h1>{tanks?.length ? "Your tanks" : "A planted tank, worked out before it is built"}</h1>
      {offline && (
        <p className="problem" role="status">
          Lentic cannot be reached; trying again. What is typed here stays.
        </p>
      )}
      {removed && (
        <p className="notice" role="status">
          {removed.name} was removed.{" "}
          <button
            type="button"
            className="link"
            onClick={async () => {
              if (await restoreTank(removed.id)) setRemoved(null);
              await load();
            }}
          >
            bring it back
          </button>
        </p>
      )}
      {tanks && tanks.length > 0 && (
        <ul className="tanks">
          {tanks.map((tank) => (
            <li key={tank.id}>
              <Link href={`/tank/${tank.id}/today`}>{tank.name}</Link>
              <span className="tank-about">
                {tank.invented && <em>invented example</em>}{" "}
                <time dateTime={tank.updatedAt}>changed {when(tank.updatedAt)}</time>
              </span>
              <button type="button" className="link" onClick={() => void remove(tank)}>
                remove<span className="hidden-text"> {tank.name}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
      {tanks?.length === 0 && (
        <p className="start-lead">
          Nothing is kept here yet. Begin from an example and change it, or answer six questions about a tank of your
          own: what you leave out is assumed, and marked so.
        </p>
      )}
      {problem && <Faults title={problem.title} faults={problem.faults} />}
      <h2 className="start-new">Begin a tank</h2>
      <div className="ways">
        <Questions onPlan={(text) => begin(text, "These answers do not make a tank yet")} />
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
                    if (text === null) setOffline(true);
                    else await begin(text, `${example.name} cannot be opened`);
                  }}
                >
                  {example.name}
                </button>
                <p>{example.about}</p>
              </li>
            ))}
          </ul>
        </section>
        <OpenFile onText={(text, name) => begin(text, `${name} cannot be opened`)} onProblem={setProblem} />
      </div>
    </main>
  );
}

/** "today at 14:05", "24 November": what one would say of a change. */
function when(stamp: string): string {
  const at = new Date(stamp);
  const today = new Date();
  const days = Math.round(
    (new Date(today.toDateString()).getTime() - new Date(at.toDateString()).getTime()) / 86_400_000,
  );
  const time = at.toLocaleTimeString(undefined, { hour: "2-digit", minute: "2-digit" });
  if (days === 0) return `today at ${time}`;
  if (days === 1) return `yesterday at ${time}`;
  return at.toLocaleDateString(undefined, {
    day: "numeric",
    month: "long",
    ...(days > 300 ? { year: "numeric" as const } : {}),
  });
}

const questions = [
  { key: "name", label: "Name", hint: "what you call it", needed: false },
  { key: "length", label: "Length outside", hint: "60 cm, 24 in", needed: true },
  { key: "width", label: "Width, front to back", hint: "30 cm", needed: true },
  { key: "height", label: "Height of the glass", hint: "36 cm", needed: true },
  { key: "kh", label: "Carbonate hardness", hint: "4 dKH, 71 ppm CaCO3", needed: false },
  { key: "lightPower", label: "Power of the lamp", hint: "30 W; none if left out", needed: false },
] as const;
type Question = (typeof questions)[number]["key"];
const draftKey = "lentic.new";

function loadDraft(): Partial<Record<Question | "gas", string>> {
  try {
    return JSON.parse(sessionStorage.getItem(draftKey) ?? "{}") as Partial<Record<Question | "gas", string>>;
  } catch {
    return {};
  }
}

function Questions({ onPlan }: { onPlan: (text: string) => Promise<void> }) {
  const [answers, setAnswers] = useState(loadDraft);
  const answer = (key: Question | "gas", text: string): void => {
    const next = { ...answers, [key]: text };
    setAnswers(next);
    try {
      sessionStorage.setItem(draftKey, JSON.stringify(next));
    } catch {
      // refused storage: the answers last as long as the page
    }
  };
  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const { newPlan } = await import("@lentic/core/plan");
    const given = Object.fromEntries(
      questions.map(({ key }) => [key, answers[key]?.trim()]).filter(([, text]) => text),
    ) as Partial<Record<Question, string>>;
    const { length = "", width = "", height = "", ...rest } = given;
    await onPlan(newPlan({ length, width, height, ...rest, filter: true, heater: true, gas: answers.gas === "yes" }));
  };
  return (
    <section aria-labelledby="way-questions">
      <h3 id="way-questions">From a few answers</h3>
      <form className="questions" onSubmit={(event) => void submit(event)}>
        {questions.map(({ key, label, hint, needed }) => (
          <label key={key}>
            <span>{label}</span>
            <input
              name={key}
              value={answers[key] ?? ""}
              placeholder={hint}
              autoComplete="off"
              required={needed}
              maxLength={120}
              onChange={(e) => answer(key, e.target.value)}
            />
          </label>
        ))}
        <label className="tick">
          <input
            type="checkbox"
            checked={answers.gas === "yes"}
            onChange={(e) => answer("gas", e.target.checked ? "yes" : "")}
          />
          <span>
            CO<sub>2</sub> is added
          </span>
        </label>
        <button type="submit" className="plain-button">
          Work it out
        </button>
      </form>
    </section>
  );
}

function OpenFile(p: {
  onText: (text: string, name: string) => Promise<void>;
  onProblem: (problem: { title: string; faults: readonly Fault[] }) => void;
}) {
  return (
    <section aria-labelledby="way-file">
      <h3 id="way-file">From a plan file</h3>
      <p>
        A plan is one text file, yours to keep. Open one that you have kept, or were sent; it is copied in, and the file
        stays as it is.
      </p>
      <label className="file-way">
        <span>Open a plan file</span>
        <input
          type="file"
          accept=".yaml,.yml,text/yaml,application/yaml"
          onChange={async (event) => {
            const file = event.target.files?.[0];
            event.target.value = "";
            if (!file) return;
            if (file.size > largestFile) {
              const message = `holds ${(file.size / largestFile).toFixed(1)} MiB`;
              p.onProblem({
                title: `${file.name} cannot be opened`,
                faults: [{ path: "", line: 0, column: 0, message, allowed: "A plan holds 1 MiB at most." }],
              });
            } else await p.onText(await file.text(), file.name);
          }}
        />
      </label>
    </section>
  );
}
