import type { DayDoubt, DayReport, Knob, KnobId, QuickDay, Suits, UnitSystem } from "@lentic/core/design";
import { applyToRaw, type Change, type RawPlan } from "@lentic/core/plan";
import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import type { DayProblem, Opened } from "../worker.ts";
import type { TankRecord } from "./api.ts";
import { dayWorker, Latest } from "./day-client.ts";
import { followForDay, recallLight } from "./light-client.ts";

interface DayView {
  readonly quick: QuickDay;
  readonly knobs: readonly Knob[];
  readonly trial: readonly Change[];
}

interface FullView {
  readonly report: DayReport;
  readonly doubt: DayDoubt;
  readonly suits: Readonly<Partial<Record<KnobId, Suits>>>;
  /** Trial that it was worked out for. */
  readonly of: readonly Change[];
}

export interface Day {
  readonly opened: Opened | null;
  readonly view: DayView | null;
  readonly full: FullView | null;
  readonly problem: DayProblem | null;
  /** Knobs of the plan as kept. */
  readonly keptKnobs: readonly Knob[];
  /** Turns one knob; answers come back as `view`. */
  turn(id: KnobId, value: number): void;
  /** Puts other changes on trial. */
  setTrial(changes: readonly Change[]): void;
}

/** Rest after the last movement before ranges, findings and remedies are worked out, ms. */
const rest = 180;

/**
 * The day of a plan with changes on trial: curves at once, the rest shortly after.
 * @param tank its plan; @param first changes on trial when the tank is opened
 */
export function useDay(
  tank: Pick<TankRecord, "id" | "text" | "raw">,
  first: readonly Change[],
  units: UnitSystem,
  hour: number,
): Day {
  const [opened, setOpened] = useState<Opened | null>(null);
  const { id: tankId, text, raw: read } = tank;
  const [view, setView] = useState<DayView | null>(null);
  const [full, setFull] = useState<FullView | null>(null);
  const [problem, setProblem] = useState<DayProblem | null>(null);
  const [keptKnobs, setKeptKnobs] = useState<readonly Knob[]>([]);
  const queue = useMemo(() => new Latest(), []);
  const desk = useMemo(() => new Latest(), []);
  const lamps = useMemo(() => new Latest(), []);
  const again = useRef<() => void>(() => undefined);
  const trial = useRef<readonly Change[]>(first);
  const raw = useRef<RawPlan | null>(null);
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const reader = useRef({ units, hour });
  reader.current = { units, hour };

  const later = useCallback(() => {
    clearTimeout(timer.current);
    timer.current = setTimeout(() => {
      desk.ask(async () => {
        if (!raw.current) return;
        const of = trial.current;
        const answer = await dayWorker("desk").full(raw.current, of, reader.current);
        if (trial.current !== of) return;
        if (answer.ok) setFull({ report: answer.report, doubt: answer.doubt, suits: answer.suits, of });
      });
    }, rest);
  }, [desk]);

  /** The light of what is shown, followed beside the page; the day is then worked out anew with it. */
  const follow = useCallback(
    (changes: readonly Change[]) => {
      lamps.ask(async () => {
        if (!raw.current) return;
        const of = raw.current;
        if ((await followForDay(tankId, applyToRaw(of, changes))) && raw.current === of) again.current();
      });
    },
    [lamps, tankId],
  );

  const ask = useCallback(
    (knob?: { id: KnobId; value: number }) => {
      queue.ask(async () => {
        if (!raw.current) return;
        const answer = await dayWorker().quick(raw.current, trial.current, reader.current, knob);
        if (!answer.ok) {
          setProblem(answer.problem);
          return;
        }
        trial.current = answer.trial;
        setProblem(null);
        setView({ quick: answer.quick, knobs: answer.knobs, trial: answer.trial });
        later();
        if (answer.quick.lightFollowed === false) follow(answer.trial);
      });
    },
    [queue, later, follow],
  );
  again.current = ask;

  useEffect(() => {
    let live = true;
    void (async () => {
      const [answer] = await Promise.all([dayWorker().open({ text, raw: read }), recallLight(tankId)]);
      if (!live) return;
      if (!answer.ok) {
        setProblem(answer.problem);
        return;
      }
      raw.current = answer.raw;
      setOpened(answer);
      const kept = await dayWorker().quick(answer.raw, [], reader.current);
      if (!live) return;
      if (kept.ok) setKeptKnobs(kept.knobs);
      ask();
    })();
    return () => {
      live = false;
    };
  }, [tankId, text, read, ask]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: another unit or hour is another way of reading the same day
  useEffect(() => {
    if (raw.current) ask();
  }, [units, hour]);

  return {
    opened,
    view,
    full,
    problem,
    keptKnobs,
    turn: useCallback((id, value) => ask({ id, value }), [ask]),
    setTrial: useCallback(
      (changes) => {
        trial.current = changes;
        ask();
      },
      [ask],
    ),
  };
}
