import "../styles/growth.css";
import { plain } from "@lentic/core/design";
import type { GrowthWeek, Hold, PlantingWeek } from "@lentic/core/growth";
import type { RawPlan } from "@lentic/core/plan";
import type { Scape } from "@lentic/core/scape";
import { proxy } from "comlink";
import { useEffect, useId, useState } from "react";
import { dayWorker } from "../data/day-client.ts";
import type { GrowthAnswer } from "../grow-work.ts";
import { Words } from "../parts/words.tsx";

const ahead = 16;

const holds: Readonly<Record<Hold, string>> = {
  light: "light",
  co2: "CO2",
  warmth: "warmth",
  room: "its own leaves",
  melt: "leaves from the air",
  nothing: "",
};

const percent = (share: number): string => `${Math.round(100 * share)} %`;

/** Dry mass over the weeks, a quiet stream; a cut is a step. */
function Stream({ weeks, index, week }: { weeks: readonly GrowthWeek[]; index: number; week: number }) {
  const masses = weeks.map((w) => w.plantings[index]!.mass.value);
  const most = Math.max(...masses, 1e-9);
  const [width, height] = [120, 18];
  const x = (i: number): number => (width * i) / (weeks.length - 1);
  const line = masses.map((m, i) => `${x(i).toFixed(1)} ${(height - (m / most) * (height - 2)).toFixed(1)}`).join(" L");
  return (
    <svg className="growth-stream" viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
      <path className="growth-mass" d={`M0 ${height} L${line} L${width} ${height} Z`} />
      <path className="growth-now" d={`M${x(week).toFixed(1)} 0 V${height}`} />
    </svg>
  );
}

interface GrowthPanelProps {
  readonly raw: RawPlan;
  readonly scape: Scape;
  readonly length: (metres: number) => { readonly number: string; readonly unit: string };
  /** Shows the plantings of a week on the drawings; null = planting day's plan as it is. */
  readonly onShow: (plantings: readonly PlantingWeek[] | null) => void;
}

/** The scape week by week: worked out when asked for, shown on the drawings as the week is moved. */
export function GrowthPanel({ raw, scape, length, onShow }: GrowthPanelProps) {
  const [answer, setAnswer] = useState<{ readonly of: RawPlan; readonly to: GrowthAnswer } | null>(null);
  const [done, setDone] = useState<number | null>(null);
  const [week, setWeek] = useState(0);
  const id = useId();
  const result = answer?.of === raw ? answer.to : null;

  // an edit makes another plan: its growth is another, and the drawings go back to planting day
  // biome-ignore lint/correctness/useExhaustiveDependencies: only another plan calls for it
  useEffect(() => {
    setWeek(0);
    setDone(null);
    onShow(null);
  }, [raw]);
  useEffect(() => () => onShow(null), [onShow]);

  const begin = async (): Promise<void> => {
    setDone(0);
    const to = await dayWorker("light").grow(
      raw,
      ahead,
      proxy((weeks: number) => setDone((now) => (now === null ? null : weeks))),
    );
    setDone(null);
    if (to.kind !== "dropped") setAnswer({ of: raw, to });
  };
  const choose = (to: number): void => {
    setWeek(to);
    onShow(to === 0 || result?.kind !== "done" ? null : result.weeks[to]!.plantings);
  };
  if (scape.zones.length === 0) return <p>Nothing is planted yet.</p>;
  if (result?.kind === "problem") return <p>It cannot be grown: {result.message}.</p>;
  if (result?.kind !== "done")
    return (
      <p>
        <button type="button" className="link" disabled={done !== null} onClick={() => void begin()}>
          {done === null ? `grow it for ${ahead} weeks` : `growing … week ${done} of ${ahead}`}
        </button>
      </p>
    );
  const { weeks, findings } = result;
  const now = weeks[week]!;
  const lead = [...now.plantings].sort((a, b) => b.mass.value - a.mass.value)[0]!;
  const leader = scape.zones[lead.index]!;
  return (
    <>
      <p className="growth-sentence" role="status">
        {week === 0 ? "On planting day" : `By week ${week}`} {leader.key} <em>{leader.fact.name}</em> covers{" "}
        <strong data-testid="growth-cover">{percent(lead.cover.value)}</strong> of its ground, likely{" "}
        {percent(lead.cover.low)} to {percent(lead.cover.high)}.
      </p>
      <label className="growth-week" htmlFor={id}>
        week{" "}
        <input
          id={id}
          type="range"
          min={0}
          max={ahead}
          step={1}
          value={week}
          aria-valuetext={`week ${week}`}
          onChange={(e) => choose(Number(e.target.value))}
        />{" "}
        <output>{week}</output>
      </label>
      <p className="growth-note">
        {week > 0
          ? `The drawings show week ${week}; an edit goes back to the plan.`
          : "Figures of week 0 are those of planting day, with portions as bought; the drawings show the plan as it is."}
      </p>
      <table className="growth-table">
        <thead>
          <tr>
            <th colSpan={2}>planting</th>
            <th>dry mass</th>
            <th className="figure">height</th>
            <th className="figure">cover</th>
            <th className="figure">µmol/m²s</th>
            <th>held back by</th>
          </tr>
        </thead>
        <tbody>
          {now.plantings.map((p) => {
            const zone = scape.zones[p.index]!;
            const high = length(p.height.value);
            return (
              <tr key={p.index}>
                <td>
                  <em>{zone.key}</em>
                </td>
                <td>
                  {zone.fact.name}
                  {p.cut && (
                    <small>
                      {" "}
                      cut to {length(p.cut.to).number} {length(p.cut.to).unit}
                    </small>
                  )}
                </td>
                <td>
                  <Stream weeks={weeks} index={p.index} week={week} /> {plain(p.mass.value, 1)} g
                </td>
                <td className="figure">
                  {high.number} {high.unit}
                </td>
                <td className="figure">{percent(p.cover.value)}</td>
                <td className="figure">{Math.round(p.ppfd)}</td>
                <td>
                  <Words>{holds[p.hold]}</Words>
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
      {findings.length > 0 && (
        <ul className="growth-findings">
          {findings.map((f) => (
            <li key={f.id}>
              <Words>{`${f.title}. ${f.reason}`}</Words>
            </li>
          ))}
        </ul>
      )}
      <p className="growth-note">
        A look ahead with wide doubt: growth rates are those of classes of species. Food is taken as enough; algae,
        grazing and snails are left out.
      </p>
    </>
  );
}
