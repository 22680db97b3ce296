import { clock, type Finding, type KnobId, type Remedy } from "@lentic/core/design";
import type { Change, RawPlan } from "@lentic/core/plan";
import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import { useLocation } from "wouter";
import type { TankRecord } from "../data/api.ts";
import { dayWorker } from "../data/day-client.ts";
import { loadTrial, saveTrial, type Trial } from "../data/kept.ts";
import { useSettings } from "../data/settings.ts";
import { useDay } from "../data/use-day.ts";
import type { TankDoor } from "../data/use-tank.ts";
import { useWidth } from "../data/use-width.ts";
import { Faults } from "../parts/faults.tsx";
import { Findings } from "../parts/findings.tsx";
import { Headline } from "../parts/headline.tsx";
import { HourlyTable } from "../parts/hourly-table.tsx";
import { KnobSlider } from "../parts/knob-slider.tsx";
import { lengthWriter } from "../parts/length.ts";
import { Section } from "../parts/section.tsx";
import { Words } from "../parts/words.tsx";
import { Working } from "../parts/working.tsx";
import { Strip, type StripKnob } from "../strip/strip.tsx";
import { fieldPlace } from "./places.ts";

const stripKnobs: Readonly<Record<StripKnob, KnobId>> = {
  opens: "opens",
  closes: "closes",
  on: "lamp-on",
  off: "lamp-off",
  strength: "strength",
};

const hourNow = (): number => {
  const now = new Date();
  return now.getHours() + now.getMinutes() / 60;
};

const none: Trial["past"] = [];

/** The day of a tank: what it does over 24 hours, and what a change would do. */
export function TodayPage({ tank, door }: { tank: TankRecord; door: TankDoor }) {
  const { units } = useSettings();
  const [, go] = useLocation();
  const [stored] = useState(() => loadTrial(tank.id));
  const [trials, setTrials] = useState({ base: stored?.base ?? tank.revision, past: stored?.past ?? [] });
  // steps back lead through trials of the plan as it stands; once it is another, its own history goes on from here
  const past = trials.base === tank.revision ? trials.past : none;
  const [pinned, setPinned] = useState<Trial["pinned"]>(stored?.pinned ?? null);
  const [cursor, setCursor] = useState<{ hour: number; name: string }>(() => ({ hour: hourNow(), name: "now" }));
  const [chosen, setChosen] = useState("co2-at-lights-on");
  const day = useDay(tank, stored?.changes ?? [], units, Math.round(cursor.hour * 4) / 4);
  const { view, full } = day;
  const trial = view?.trial ?? stored?.changes ?? [];
  const current = full && full.of === trial ? full : null;
  const turning = useRef<string | null>(null);

  useEffect(() => {
    saveTrial(
      tank.id,
      trial.length === 0 && past.length === 0 && !pinned ? null : { base: tank.revision, changes: trial, past, pinned },
    );
  }, [tank.id, tank.revision, trial, past, pinned]);

  useEffect(() => {
    if (cursor.name !== "now") return;
    const timer = setInterval(
      () => setCursor((c) => (c.name === "now" ? { hour: hourNow(), name: "now" } : c)),
      60_000,
    );
    return () => clearInterval(timer);
  }, [cursor.name]);

  /** Takes the trial as it stands into the steps back. */
  const recall = useCallback(() => {
    setTrials((t) => ({
      base: tank.revision,
      past: [...(t.base === tank.revision ? t.past.slice(-49) : none), trial],
    }));
  }, [tank.revision, trial]);
  /** A drag of one knob is one step back, however far it went. */
  const remember = useCallback(
    (what: string) => {
      if (turning.current === what) return;
      turning.current = what;
      recall();
    },
    [recall],
  );
  useEffect(() => {
    const end = (): void => {
      turning.current = null;
    };
    window.addEventListener("pointerup", end);
    window.addEventListener("focusout", end);
    return () => {
      window.removeEventListener("pointerup", end);
      window.removeEventListener("focusout", end);
    };
  }, []);

  const turn = useCallback(
    (id: KnobId, value: number) => {
      remember(id);
      day.turn(id, value);
    },
    [remember, day.turn],
  );
  const attempt = useCallback(
    (remedy: Remedy) => {
      recall();
      day.setTrial([...trial, ...remedy.changes]);
    },
    [recall, trial, day.setTrial],
  );
  const undo = useCallback(() => {
    // a trial that came from before the plan changed has no steps: it is left in one
    const last = past.at(-1) ?? (trial.length > 0 ? [] : undefined);
    if (last) {
      setTrials({ base: tank.revision, past: past.slice(0, -1) });
      day.setTrial(last);
    } else void door.undo();
  }, [past, trial, tank.revision, day.setTrial, door]);
  const keep = useCallback(() => door.keep([...new Set(trial.map((c) => c.name))].join(", "), trial), [door, trial]);

  const pinnedDay = usePinned(day.opened?.raw ?? null, pinned?.changes ?? null, units);
  const [stripBox, stripWidth] = useWidth(440);
  const [sectionBox, sectionWidth] = useWidth(720);
  const compact = sectionWidth < 560;
  const length = useMemo(() => lengthWriter(units), [units]);

  if (day.problem?.kind === "faults" && !view)
    return <Faults title="This plan cannot be read" faults={day.problem.faults} />;
  if (!view) return <p className="waiting">Working out the day …</p>;

  const figures = current?.report.figures ?? view.quick.figures;
  const placed = (current?.report.placed ?? view.quick.placed).map((f) => ({ ...f, selected: f.id === chosen }));
  const figure = figures.find((f) => f.id === chosen) ?? figures[0]!;
  const { plan } = view.quick;
  const remedies = full?.report.findings.flatMap((f: Finding) => f.next) ?? [];
  const kept = (id: KnobId): number => day.keptKnobs.find((k) => k.id === id)?.value ?? 0;
  const replace = (path: string): void => go(`/tank/${tank.id}/${fieldPlace(path)}#${path}`);

  return (
    <main id="main">
      {full ? (
        <Headline headline={full.report.headline} aside={full.report.aside} remedies={remedies} onTry={attempt} />
      ) : (
        <div className="say">
          <h1>Working out the day …</h1>
        </div>
      )}
      {day.problem?.kind === "run" && (
        <p className="problem">{`The model could not be run: ${day.problem.message}. The last day that could is shown.`}</p>
      )}
      {day.problem?.kind === "faults" && <Faults title="This setting cannot be" faults={day.problem.faults} />}
      {!view.quick.curves.repeats && (
        <p className="problem">No day was found that ends as it began; the curves are the nearest to it.</p>
      )}
      <div className="day-page">
        <div className="section-area" ref={sectionBox}>
          <Section
            scene={current?.report.scene ?? view.quick.scene}
            figures={placed}
            width={sectionWidth}
            compact={compact}
            length={length}
            onFigure={setChosen}
            label={`Section of ${plan.name}, looking to the back, with its figures`}
          />
          <div className="more-figures">
            {figures
              .filter((f) => !placed.some((p) => p.id === f.id))
              .map((f) => (
                <button
                  type="button"
                  key={f.id}
                  className={f.id === chosen ? "chosen" : undefined}
                  aria-pressed={f.id === chosen}
                  onClick={() => setChosen(f.id)}
                >
                  <span>
                    <Words>{f.label}</Words>
                  </span>{" "}
                  <b>{f.shown.text}</b> <small>{f.shown.unit}</small>
                </button>
              ))}
          </div>
        </div>
        <div className="strip-area" ref={stripBox}>
          <Strip
            curves={view.quick.curves}
            programme={programmeOf(plan)}
            pinned={
              pinned && pinnedDay
                ? { curves: pinnedDay.curves, programme: programmeOf(pinnedDay.plan), label: pinned.label }
                : undefined
            }
            bands={current?.doubt.bands}
            limits={view.quick.limits}
            readings={plan.readings}
            units={units}
            cursor={cursor}
            width={stripWidth}
            onCursor={(hour) => setCursor({ hour, name: "at" })}
            onDrag={(knob, value) => turn(stripKnobs[knob], knob === "strength" ? value * 100 : value)}
          />
          <div className="cursor-row">
            <label>
              read at <output>{clock(cursor.hour)}</output>
              <input
                type="range"
                min={0}
                max={24}
                step={0.25}
                value={cursor.hour}
                onChange={(e) => setCursor({ hour: Number(e.target.value), name: "at" })}
              />
            </label>
            <button
              type="button"
              className="link"
              disabled={cursor.name === "now"}
              onClick={() => setCursor({ hour: hourNow(), name: "now" })}
            >
              now
            </button>
          </div>
          <HourlyTable curves={view.quick.curves} units={units} />
        </div>
        <aside className="try-area" aria-label="Settings to try">
          <h2>Try a change</h2>
          <div className="knobs">
            {view.knobs
              .filter((k) => k.id !== "lamp-on" && k.id !== "lamp-off")
              .map((knob) => (
                <KnobSlider
                  key={knob.id}
                  knob={knob}
                  kept={kept(knob.id)}
                  suits={full?.suits[knob.id]}
                  onTurn={(v) => turn(knob.id, v)}
                />
              ))}
          </div>
          <div className="acts">
            <button
              type="button"
              className="link"
              aria-pressed={pinned !== null}
              onClick={() =>
                setPinned(
                  pinned
                    ? null
                    : { changes: trial, label: trial.length === 0 ? "as kept" : (trial.at(-1)?.name ?? "") },
                )
              }
            >
              {pinned ? "unpin" : "pin"}
            </button>
            <button type="button" className="link" disabled={trial.length === 0} onClick={() => void keep()}>
              keep as plan
            </button>
            <button
              type="button"
              className="link"
              disabled={past.length === 0 && trial.length === 0 && !tank.canUndo}
              onClick={undo}
            >
              undo
            </button>
            <button
              type="button"
              className="link"
              disabled={past.length > 0 || trial.length > 0 || !tank.canRedo}
              onClick={() => void door.redo()}
            >
              redo
            </button>
          </div>
          <Alternatives
            raw={day.opened?.raw ?? null}
            names={day.opened?.alternatives ?? []}
            onTry={(name, changes) => {
              recall();
              day.setTrial(changes.map((c) => ({ ...c, name })));
            }}
          />
          <p className="legend">
            <span>
              <i className="legend-suits" /> suits what lives here
            </span>
            <span>
              <i className="legend-kept" /> the plan as kept
            </span>
          </p>
          {trial.length > 0 && (
            <p className="trying" role="status">
              Trying: {[...new Set(trial.map((c) => c.name))].join(", ")}
            </p>
          )}
        </aside>
        <div className="working-area">
          <Working figure={figure} onReplace={replace} />
        </div>
      </div>
      {full && <Findings findings={full.report.findings} onTry={attempt} />}
    </main>
  );
}

function Alternatives(p: {
  raw: RawPlan | null;
  names: readonly string[];
  onTry: (name: string, changes: readonly Change[]) => void;
}) {
  if (p.names.length === 0) return null;
  return (
    <div className="alternatives">
      <span>from the plan</span>
      {p.names.map((name) => (
        <button
          type="button"
          key={name}
          className="link"
          onClick={async () => {
            if (!p.raw) return;
            const answer = await dayWorker().alternative(p.raw, name);
            if (answer.ok) p.onTry(name, answer.changes);
          }}
        >
          {name}
        </button>
      ))}
    </div>
  );
}

type PlanView = NonNullable<ReturnType<typeof useDay>["view"]>["quick"]["plan"];

function programmeOf(plan: PlanView) {
  return {
    valve: plan.co2 && { opens: plan.co2.opens.value, closes: plan.co2.closes.value },
    lamp: plan.light && {
      on: plan.light.on.value,
      off: plan.light.off.value,
      ramp: plan.light.ramp.value,
      strength: plan.light.strength.value,
    },
  };
}

/** The day that is pinned behind the present one. */
function usePinned(raw: RawPlan | null, changes: readonly Change[] | null, units: "metric" | "us") {
  const [day, setDay] = useState<{
    curves: NonNullable<ReturnType<typeof useDay>["view"]>["quick"]["curves"];
    plan: PlanView;
  } | null>(null);
  useEffect(() => {
    if (!changes || !raw) {
      setDay(null);
      return;
    }
    let live = true;
    void (async () => {
      const answer = await dayWorker().quick(raw, changes, { units, hour: 12 });
      if (live && answer.ok) setDay({ curves: answer.quick.curves, plan: answer.quick.plan });
    })();
    return () => {
      live = false;
    };
  }, [raw, changes, units]);
  return day;
}
