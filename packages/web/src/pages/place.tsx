import { readPlan } from "@lentic/core/plan";
import { useEffect, useMemo, useState } from "react";
import { Link } from "wouter";
import type { TankRecord } from "../data/api.ts";
import { dayWorker } from "../data/day-client.ts";
import { useSettings } from "../data/settings.ts";
import type { TankDoor } from "../data/use-tank.ts";
import { GroupBlock } from "../form/group-block.tsx";
import { groupsOf } from "../form/model.ts";
import { Faults } from "../parts/faults.tsx";
import type { AppPlace } from "./places.ts";

const leads: Readonly<Record<string, string>> = {
  scape: "What the tank is made of: glass, bed, stones, wood, plants.",
  equipment: "What lights, feeds gas to, moves and warms the water.",
  water: "What the water holds, and what you have read.",
  animals: "Who lives here, and what they are fed.",
};

interface Line {
  readonly id: string;
  readonly label: string;
  readonly text: string;
}

/** Figures that a place changes, live. */
const told: Readonly<Record<string, readonly string[]>> = {
  scape: ["net-water", "total-mass"],
  equipment: ["co2-at-lights-on", "light-at-bed", "outlet-flow"],
  water: ["lowest-ph", "co2-of-room"],
  animals: ["oxygen-at-dawn"],
};

/** One place of the plan as a form: every field of the one table, with its default, reason, mark and fault. */
export function PlacePage({ tank, door, place }: { tank: TankRecord; door: TankDoor; place: AppPlace }) {
  const { units } = useSettings();
  const reading = useMemo(() => readPlan(tank.text), [tank.text]);
  const [wanted] = useState(() => decodeURIComponent(location.hash.slice(1)));
  const [lines, setLines] = useState<readonly Line[]>([]);

  useEffect(() => {
    if (!wanted) return;
    const timer = setTimeout(() => {
      const element =
        document.querySelector<HTMLElement>(`[data-path="${CSS.escape(wanted)}"]`) ??
        document.getElementById(wanted.split(/[.[]/)[0]!);
      element?.scrollIntoView({ block: "center" });
      element?.focus();
    }, 120);
    return () => clearTimeout(timer);
  }, [wanted]);

  useEffect(() => {
    if (!reading.ok) return;
    let live = true;
    void dayWorker()
      .quick(reading.raw, [], { units, hour: 12 })
      .then((answer) => {
        if (!live || !answer.ok) return;
        setLines(
          answer.quick.figures
            .filter((f) => told[place.path]?.includes(f.id))
            .map((f) => ({ id: f.id, label: f.label, text: `${f.shown.text} ${f.shown.unit}` })),
        );
      });
    return () => {
      live = false;
    };
  }, [reading, units, place.path]);

  useEffect(() => {
    const keys = (event: KeyboardEvent): void => {
      const typing = event.target instanceof HTMLInputElement || event.target instanceof HTMLTextAreaElement;
      if (typing || !(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== "z") return;
      event.preventDefault();
      void (event.shiftKey ? door.redo() : door.undo());
    };
    window.addEventListener("keydown", keys);
    return () => window.removeEventListener("keydown", keys);
  }, [door]);

  if (!reading.ok) {
    return (
      <main id="main" className="form-page">
        <Faults title="This plan cannot be read" faults={reading.faults} />
      </main>
    );
  }
  return (
    <main id="main" className="form-page">
      <div className="form-head">
        <h1>{leads[place.path] ?? place.label}</h1>
        <p className="form-figures" aria-live="polite">
          {lines.map((l) => (
            <span key={l.id}>
              {l.label.replace("CO2", "CO₂").replace("O2", "O₂")} <b>{l.text}</b>
            </span>
          ))}
          <Link href={`/tank/${tank.id}/today`}>see the day</Link>
        </p>
        <p className="form-acts">
          <button type="button" className="link" disabled={!tank.canUndo} onClick={() => void door.undo()}>
            undo
          </button>
          <button type="button" className="link" disabled={!tank.canRedo} onClick={() => void door.redo()}>
            redo
          </button>
        </p>
      </div>
      {door.faults && <Faults title="The change could not be kept" faults={door.faults} />}
      <div className="groups">
        {groupsOf(place.fields).map(({ group, fields }) => (
          <GroupBlock
            key={group.path}
            tank={tank.id}
            raw={reading.raw}
            plan={reading.plan}
            group={group}
            fields={fields}
            wanted={wanted}
            onKeep={(name, changes) => void door.keep(name, changes)}
          />
        ))}
      </div>
    </main>
  );
}
