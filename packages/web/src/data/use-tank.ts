import type { Change, Fault } from "@lentic/core/plan";
import { useCallback, useEffect, useRef, useState } from "react";
import { keepChanges, keepText, loadTank, type Outcome, stepBack, stepForward, type TankRecord } from "./api.ts";
import { loadPending, type Pending, savePending } from "./kept.ts";

type TankState =
  | { readonly kind: "loading" }
  | { readonly kind: "missing" }
  | { readonly kind: "offline" }
  | { readonly kind: "open"; readonly tank: TankRecord };

export interface TankDoor {
  readonly state: TankState;
  /** "saving", "saved", "offline": told in the header. */
  readonly saving: "saved" | "saving" | "offline";
  readonly faults: readonly Fault[] | null;
  /** A word about what just happened, e.g. that somebody else changed the plan. */
  readonly notice: string | null;
  clear(): void;
  /** Keeps changes in the plan. They are written down in this browser first, then sent until the server says yes. */
  keep(name: string, changes: readonly Change[]): Promise<boolean>;
  replaceText(name: string, text: string): Promise<boolean>;
  undo(): Promise<void>;
  redo(): Promise<void>;
}

const retryAfter = 3000;

export function useTank(id: string): TankDoor {
  const [state, setState] = useState<TankState>({ kind: "loading" });
  const [saving, setSaving] = useState<TankDoor["saving"]>("saved");
  const [faults, setFaults] = useState<readonly Fault[] | null>(null);
  const [notice, setNotice] = useState<string | null>(null);
  const tank = useRef<TankRecord | null>(null);
  const running = useRef<Promise<boolean> | null>(null);
  const line = useRef<Promise<void>>(Promise.resolve());

  const accept = useCallback((record: TankRecord) => {
    tank.current = record;
    setState({ kind: "open", tank: record });
  }, []);

  /** Sends what is pending, oldest first; true when nothing is left. */
  const send = useCallback(async (): Promise<boolean> => {
    for (;;) {
      const [first] = loadPending(id);
      if (!first) {
        setSaving("saved");
        return true;
      }
      setSaving("saving");
      const base = tank.current?.revision ?? first.base;
      const outcome = await keepChanges(id, base, first.name, first.changes, first.key);
      if (outcome.kind === "offline") {
        setSaving("offline");
        return false;
      }
      if (outcome.kind === "stale") {
        // the changes name fields, so they can be laid on the newer plan
        accept(outcome.tank);
        setNotice("The plan had been changed elsewhere; your change was laid on top of it.");
        continue;
      }
      // more may have been written down while this one was on its way
      savePending(
        id,
        loadPending(id).filter((p) => p.key !== first.key),
      );
      if (outcome.kind === "kept") accept(outcome.tank);
      else if (outcome.kind === "faults") {
        setFaults(outcome.faults);
        setSaving("saved");
        return false;
      } else setState({ kind: "missing" });
    }
  }, [id, accept]);
  /** One sending at a time; whoever asks meanwhile waits for it, and for what was written down since. */
  const flush = useCallback(async (): Promise<boolean> => {
    while (running.current) await running.current;
    running.current = send().finally(() => {
      running.current = null;
    });
    return running.current;
  }, [send]);

  useEffect(() => {
    let live = true;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const load = async (): Promise<void> => {
      const outcome = await loadTank(id);
      if (!live) return;
      if (outcome.kind === "kept") {
        accept(outcome.tank);
        void flush();
      } else if (outcome.kind === "offline") {
        setState((s) => (s.kind === "open" ? s : { kind: "offline" }));
        timer = setTimeout(load, retryAfter);
      } else setState({ kind: "missing" });
    };
    setState({ kind: "loading" });
    tank.current = null;
    void load();
    return () => {
      live = false;
      clearTimeout(timer);
    };
  }, [id, accept, flush]);

  useEffect(() => {
    if (saving !== "offline") return;
    const timer = setInterval(() => void flush(), retryAfter);
    return () => clearInterval(timer);
  }, [saving, flush]);

  const settle = useCallback(
    (outcome: Outcome): boolean => {
      if (outcome.kind === "kept") {
        accept(outcome.tank);
        setSaving("saved");
        return true;
      }
      if (outcome.kind === "stale") {
        accept(outcome.tank);
        setNotice("The plan had been changed elsewhere; here is how it stands now.");
      } else if (outcome.kind === "faults") setFaults(outcome.faults);
      else if (outcome.kind === "missing") setState({ kind: "missing" });
      // a step or a whole text is not sent again by itself: the reader decides, seeing the plan
      else setNotice("Lentic could not be reached; the plan is as it was. Try again.");
      setSaving("saved");
      return false;
    },
    [accept],
  );

  /** Steps follow one another, each from what was kept before it: one sent too early would be refused as stale. */
  const step = useCallback(
    (take: typeof stepBack): Promise<void> => {
      line.current = line.current.then(async () => {
        if ((await flush()) && tank.current) settle(await take(id, tank.current.revision, crypto.randomUUID()));
      });
      return line.current;
    },
    [id, flush, settle],
  );

  return {
    state,
    saving,
    faults,
    notice,
    clear: useCallback(() => {
      setFaults(null);
      setNotice(null);
    }, []),
    keep: useCallback(
      async (name, changes) => {
        if (!tank.current || changes.length === 0) return false;
        const next: Pending = { key: crypto.randomUUID(), base: tank.current.revision, name, changes };
        savePending(id, [...loadPending(id), next]);
        setFaults(null);
        return flush();
      },
      [id, flush],
    ),
    replaceText: useCallback(
      async (name, text) => {
        if (!tank.current) return false;
        setSaving("saving");
        setFaults(null);
        return settle(await keepText(id, tank.current.revision, name, text, crypto.randomUUID()));
      },
      [id, settle],
    ),
    undo: useCallback(() => step(stepBack), [step]),
    redo: useCallback(() => step(stepForward), [step]),
  };
}
