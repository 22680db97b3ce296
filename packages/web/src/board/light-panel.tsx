import { lampsOf } from "@lentic/core/plan";
import type { Scape } from "@lentic/core/scape";
import { lightAt } from "@lentic/core/scape";
import { memo, useId, useState } from "react";
import { Words } from "../parts/words.tsx";
import { LightSliders } from "./light-sliders.tsx";
import type { Dimmers } from "./use-dimmers.ts";

const percent = (share: number): string => `${Math.round(100 * share)} %`;

/** Figures of the light: on the ground, on each planting, and where the photons go. */
export const LightPanel = memo(function LightPanel({
  dimmers,
  scape,
}: {
  readonly dimmers: Dimmers;
  readonly scape: Scape;
}) {
  const { report, progress, trouble } = dimmers.light;
  const [place, setPlace] = useState<"left front" | "right front" | "left back" | "right back" | "middle">("middle");
  const id = useId();
  const { length, width } = scape;
  const inset = 0.02;
  const places = {
    middle: [length / 2, width / 2],
    "left front": [inset, inset],
    "right front": [length - inset, inset],
    "left back": [inset, width - inset],
    "right back": [length - inset, width - inset],
  } as const;
  return (
    <section className="light-panel" aria-labelledby={`${id}-title`}>
      <h2 id={`${id}-title`}>Light</h2>
      <p className="light-state" role="status">
        {trouble && <Words>{trouble}</Words>}
        {progress !== null && `following the light … ${percent(progress)}`}
        {progress === null && report && `followed to ${Math.max(1, Math.round(1000 * report.noise)) / 10} %`}
      </p>
      <LightSliders lamps={lampsOf(scape.plan)} dimmers={dimmers} report={report} />
      {report && (
        <>
          <p>
            On the ground <b>{Math.round(report.mean)}</b> <small>µmol/m²s</small> on the mean, {Math.round(report.min)}{" "}
            to {Math.round(report.max)}; <b>{report.daily.toFixed(1)}</b> <small>mol/m² a day</small>: {report.level}{" "}
            light, as the trade counts it.
          </p>
          <p>
            <label htmlFor={id}>In the corner or middle </label>
            <select id={id} value={place} onChange={(e) => setPlace(e.target.value as typeof place)}>
              {Object.keys(places).map((name) => (
                <option key={name}>{name}</option>
              ))}
            </select>{" "}
            <b data-testid="light-there">{Math.round(lightAt(report.ground, scape, places[place]))}</b>{" "}
            <small>µmol/m²s</small>
          </p>
          <table>
            <caption className="hidden-text">Light on each planting</caption>
            <thead>
              <tr>
                <th scope="col">
                  <span className="hidden-text">key</span>
                </th>
                <th scope="col">planting</th>
                <th scope="col">µmol/m²s</th>
                <th scope="col">mol/m² a day</th>
                <th scope="col">wants</th>
              </tr>
            </thead>
            <tbody>
              {report.zones.map((z) => {
                const zone = scape.zones[z.index];
                if (!zone) return null;
                return (
                  <tr key={z.index}>
                    <td className="bill-key">{zone.key}</td>
                    <th scope="row" className="botanical">
                      {zone.fact.name}
                    </th>
                    <td>{Math.round(z.mean)}</td>
                    <td>{z.daily.toFixed(1)}</td>
                    <td>
                      {zone.fact.ppfdMin} to {zone.fact.ppfdGood}
                    </td>
                  </tr>
                );
              })}
            </tbody>
          </table>
          <p className="light-budget">
            Of {report.daylight ? "all" : "the lamps'"} photons {percent(report.budget.spill)} miss the tank,{" "}
            {percent(report.budget.reflected)} are thrown back by the surface,{" "}
            {percent(report.budget.top + report.budget.panes)} leave it again; {percent(report.budget.water)} end in the
            water, {percent(report.budget.leaves)} in leaves, {percent(report.budget.ground)} in the ground,{" "}
            {percent(report.budget.hardscape + report.budget.background)} in stones, wood and background.
            {report.calibration !== 1 &&
              ` Your reading at the carpet sets the scale: the lamps count as ${percent(report.calibration)} of what is known of them.`}
            {report.calibration === 1 &&
              report.span[1] / report.span[0] > 1.15 &&
              ` The lamps' output is known to ${percent(report.span[0])} to ${percent(report.span[1])} only.`}
          </p>
        </>
      )}
    </section>
  );
});
