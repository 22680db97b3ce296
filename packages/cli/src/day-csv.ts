import { type DayReport, plain } from "@lentic/core/design";
import type { seriesSpecs } from "@lentic/core/tank";

/** Columns after the hour; each name says its unit, in metric units whatever the reader's. */
const csvColumns = [
  ["co2", "co2_mg_l"],
  ["oxygen", "o2_mg_l"],
  ["ph", "ph"],
  ["temperature", "water_c"],
  ["room", "room_c"],
  ["lamp", "lamp"],
  ["valve", "valve"],
  ["light", "ppfd_umol_m2_s"],
  ["heaterDuty", "heater_duty"],
] as const satisfies readonly (readonly [keyof typeof seriesSpecs, string])[];

/** The curves as CSV (RFC 4180): a row for every point of the day. */
export function dayCsv(report: DayReport): string {
  const { hours, series } = report.curves;
  const rows = [["hour", ...csvColumns.map(([, name]) => name)].join(",")];
  for (let i = 0; i < hours.length; i += 1) {
    const cells = csvColumns.map(([id]) => String(Number(series[id][i]!.toPrecision(6))));
    rows.push([plain(hours[i]!, 4), ...cells].join(","));
  }
  return rows.join("\r\n");
}
