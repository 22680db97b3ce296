import type { DayCurves, UnitSystem } from "@lentic/core/design";
import { valueAt } from "../strip/time.ts";

const everyHour = Array.from({ length: 25 }, (_, h) => h);

/** The same day in numbers, for those who cannot or will not read curves. */
export function HourlyTable({ curves, units }: { curves: DayCurves; units: UnitSystem }) {
  const { hours, series } = curves;
  const warm = (c: number): string => (units === "us" ? c * 1.8 + 32 : c).toFixed(1);
  return (
    <details className="hourly">
      <summary>The day in numbers</summary>
      <table>
        <thead>
          <tr>
            <th scope="col">hour</th>
            <th scope="col">
              CO<sub>2</sub> <small>mg/L</small>
            </th>
            <th scope="col">
              O<sub>2</sub> <small>mg/L</small>
            </th>
            <th scope="col">pH</th>
            <th scope="col">
              water <small>{units === "us" ? "°F" : "°C"}</small>
            </th>
          </tr>
        </thead>
        <tbody>
          {everyHour.map((h) => (
            <tr key={h}>
              <th scope="row">{h}</th>
              <td>{valueAt(hours, series.co2, h).toFixed(1)}</td>
              <td>{valueAt(hours, series.oxygen, h).toFixed(1)}</td>
              <td>{valueAt(hours, series.ph, h).toFixed(2)}</td>
              <td>{warm(valueAt(hours, series.temperature, h))}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}
