import type { FactKind } from "@lentic/core/facts";
import { applyToRaw, type Change, keepReading, type Plan, readPlan, resolvePlan } from "@lentic/core/plan";
import { lazy, Suspense, useEffect, useMemo, useReducer, useState } from "react";
import { Link } from "wouter";
import type { TankRecord } from "../data/api.ts";
import { dayWorker } from "../data/day-client.ts";
import { loadPending } from "../data/kept.ts";
import { followForDay, recallLight } from "../data/light-client.ts";
import { useSettings } from "../data/settings.ts";
import type { TankDoor } from "../data/use-tank.ts";
import { GroupBlock } from "../form/group-block.tsx";
import { groupsOf, inColumns } from "../form/model.ts";
import { Names } from "../form/names.tsx";
import { Faults } from "../parts/faults.tsx";
import { Words } from "../parts/words.tsx";
import type { AppPlace } from "./places.ts";

const Board = lazy(() => import("../board/board.tsx").then((m) => ({ default: m.Board })));

const leads: Readonly<Record<string, string>> = {
  equipment: "What lights, feeds gas to, moves and warms the water.",
  water: "What the water holds, and what you have read.",
  animals: "Who lives here, and what they are fed.",
};

const counted = (n: number, one: string, more: string): string => `${n === 0 ? "no" : n} ${n === 1 ? one : more}`;

/** What a scape is made of, in a sentence. */
function madeOf({ hardscape, plants, substrate }: Plan): string {
  const stones = hardscape.filter((p) => p.kind === "stone").length;
  const bed = [...new Set(substrate.map((layer) => layer.material))].join(" and ") || "a bare bottom";
  const parts = [
    counted(stones, "stone", "stones"),
    counted(hardscape.length - stones, "piece of wood", "pieces of wood"),
  ].join(", ");
  const words = `${parts} and ${counted(plants.length, "planting", "plantings")} on ${bed}.`;
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** Figures that a place changes, live. */
const told: Readonly<Record<string, readonly string[]>> = {
  scape: ["net-water", "total-mass"],
  equipment: ["co2-at-lights-on", "light-at-bed", "outlet-flow"],
  water: ["lowest-ph", "co2-of-room"],
  animals: ["oxygen-at-dawn"],
};

const namesOf: Readonly<Record<string, readonly FactKind[]>> = {
  scape: ["substrate", "stone", "wood", "plant"],
  animals: ["animal"],
};

interface PlaceProps {
  readonly tank: TankRecord;
  readonly door: TankDoor;
  readonly place: AppPlace;
}

/** Longest name of a step that the server takes, in characters. */
const longestName = 120;

/** The field that the address asks for: "co2.dissolved". */
function askedFor(): string {
  try {
    return decodeURIComponent(location.hash.slice(1));
  } catch {
    return "";
  }
}

/** One place of the plan as a form: every field of the one table, with its default, reason, mark and fault. */
export function PlacePage(p: PlaceProps) {
  const [wanted, setWanted] = useState(askedFor);
  useEffect(() => {
    const read = (): void => setWanted(askedFor());
    window.addEventListener("hashchange", read);
    return () => window.removeEventListener("hashchange", read);
  }, []);
  // another field asked for opens other groups and items: begun anew
  return <PlaceForm key={`${p.place.path}#${wanted}`} wanted={wanted} {...p} />;
}

/** Brings the field that was asked for into view and puts the cursor in it. */
function useAskedFor(wanted: string): void {
  useEffect(() => {
    if (!wanted) return;
    const row = document.querySelector<HTMLElement>(`[data-path="${CSS.escape(wanted)}"]`);
    const block = document.getElementById(wanted.split(/[.[]/)[0]!);
    (row ?? block)?.scrollIntoView({ block: row ? "center" : "start" });
    const field = row?.matches("[role=radiogroup]") ? row.querySelector<HTMLElement>("input:checked, input") : row;
    (field ?? block?.querySelector<HTMLElement>("input, select, button"))?.focus({ preventScroll: true });
  }, [wanted]);
}

/** The plan as it reads, with the changes that are still on their way laid over it. */
function usePlan(tank: TankRecord) {
  const reading = useMemo(() => readPlan(tank.text), [tank.text]);
  const pending = JSON.stringify(loadPending(tank.id).flatMap((sent) => sent.changes));
  return useMemo(() => {
    if (!reading.ok) return reading;
    const raw = applyToRaw(reading.raw, JSON.parse(pending) as readonly Change[]);
    const resolved = pending === "[]" ? reading : resolvePlan(raw);
    return resolved.ok ? { ok: true as const, raw, plan: resolved.plan } : reading;
  }, [reading, pending]);
}

interface Line {
  readonly id: string;
  readonly label: string;
  readonly text: string;
  readonly unit: string;
}

interface Told {
  readonly lines: readonly Line[];
  readonly cautions: readonly string[];
  readonly trouble: string;
}

function PlaceForm({ tank, door, place, wanted }: PlaceProps & { readonly wanted: string }) {
  const { units } = useSettings();
  const reading = usePlan(tank);
  useAskedFor(wanted);
  const [figures, setFigures] = useState<Told>({ lines: [], cautions: [], trouble: "" });
  const [word, setWord] = useState("");
  const [, again] = useReducer((n: number) => n + 1, 0);

  useEffect(() => {
    if (!reading.ok) return;
    let live = true;
    const tell = async (): Promise<void> => {
      const answer = await dayWorker().quick(reading.raw, [], { units, hour: 12 });
      if (!live) return;
      if (!answer.ok) {
        const { problem } = answer;
        setFigures((f) => ({ ...f, trouble: problem.kind === "run" ? problem.message : "" }));
        return;
      }
      const shown = answer.quick.figures.filter((f) => told[place.path]?.includes(f.id));
      setFigures({
        lines: shown.map((f) => ({ id: f.id, label: f.label, text: f.shown.text, unit: f.shown.unit })),
        cautions: [...new Set(shown.flatMap((f) => f.working.caution ?? []))],
        trouble: "",
      });
      // the drawing board follows the light itself
      if (place.path === "scape" || answer.quick.lightFollowed !== false) return;
      if ((await followForDay(tank.id, reading.raw)) && live) await tell();
    };
    void recallLight(tank.id).then(tell);
    return () => {
      live = false;
    };
  }, [tank.id, reading, units, place.path]);

  const back = (): void => {
    setWord("taken back");
    void door.undo();
  };
  const forward = (): void => {
    setWord("done again");
    void door.redo();
  };
  useEffect(() => {
    const keys = (event: KeyboardEvent): void => {
      const at = event.target;
      const typing =
        at instanceof HTMLTextAreaElement || (at instanceof HTMLInputElement && !/radio|checkbox/.test(at.type));
      if (typing || !(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== "z") return;
      event.preventDefault();
      if (event.shiftKey && tank.canRedo) forward();
      else if (!event.shiftKey && tank.canUndo) back();
    };
    window.addEventListener("keydown", keys);
    return () => window.removeEventListener("keydown", keys);
  });

  // set once: a group that grows must not push another into the next column
  const [columns] = useState(() => inColumns(groupsOf(place.fields), reading.ok ? reading.raw : {}));

  if (!reading.ok) {
    return (
      <main id="main" className="form-page">
        <Faults title="This plan cannot be read" faults={reading.faults} />
        <p>
          <Link href={`/tank/${tank.id}/file`}>Mend it in the plan file</Link>
        </p>
      </main>
    );
  }
  const keep = (name: string, changes: readonly Change[]): void => {
    void door.keep(name.slice(0, longestName), keepReading(reading.raw, changes));
    setWord(`${name} kept`);
    again();
  };
  return (
    <main id="main" className="form-page">
      <Names kinds={namesOf[place.path] ?? []} />
      <div className="form-head">
        <h1>{place.path === "scape" ? madeOf(reading.plan) : (leads[place.path] ?? place.label)}</h1>
        <p className="form-acts">
          <button type="button" className="link" disabled={!tank.canUndo} onClick={back}>
            undo
          </button>
          <button type="button" className="link" disabled={!tank.canRedo} onClick={forward}>
            redo
          </button>
          <span role="status">
            <Words>{word}</Words>
          </span>
        </p>
        <p className="form-figures" aria-live="polite">
          {figures.lines.map((l) => (
            <span key={l.id}>
              <Words>{l.label}</Words> <b>{l.text}</b> <small>{l.unit}</small>
            </span>
          ))}
          {figures.trouble && <span>The day cannot be worked out: {figures.trouble}</span>}
          <Link href={`/tank/${tank.id}/today`}>see the day</Link>
          {figures.cautions.map((c) => (
            <span key={c} className="form-caution">
              {c}
            </span>
          ))}
        </p>
      </div>
      {door.faults && <Faults title="The change could not be kept" faults={door.faults} />}
      {place.path === "scape" && (
        <Suspense fallback={<p className="waiting board-waiting">Opening the drawing board …</p>}>
          <Board tank={tank.id} name={tank.name} raw={reading.raw} plan={reading.plan} onKeep={keep} />
        </Suspense>
      )}
      <div className="groups">
        {columns.map((column) => (
          <div key={column[0]?.group.path ?? "none"}>
            {column.map(({ group, fields }) => (
              <GroupBlock
                key={group.path}
                tank={tank.id}
                raw={reading.raw}
                plan={reading.plan}
                group={group}
                fields={fields}
                wanted={wanted}
                onKeep={keep}
              />
            ))}
          </div>
        ))}
      </div>
    </main>
  );
}
