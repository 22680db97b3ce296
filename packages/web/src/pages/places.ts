import type { Place } from "@lentic/core/plan";

/** Places of the app that follow the owner's work; each shows some of the plan's own places. */
export interface AppPlace {
  readonly path: string;
  readonly label: string;
  readonly fields: readonly Place[];
}

export const appPlaces: readonly AppPlace[] = [
  { path: "today", label: "Today", fields: [] },
  { path: "scape", label: "Scape", fields: ["tank", "scape", "plants"] },
  { path: "equipment", label: "Equipment", fields: ["light", "gas", "filter", "heat"] },
  { path: "water", label: "Water", fields: ["water", "readings"] },
  { path: "animals", label: "Animals", fields: ["animals"] },
  { path: "file", label: "Plan file", fields: [] },
];

const byHead: Readonly<Record<string, string>> = {
  name: "scape",
  invented: "scape",
  place: "scape",
  started: "scape",
  about: "scape",
  currency: "scape",
  tank: "scape",
  substrate: "scape",
  edges: "scape",
  hardscape: "scape",
  plants: "scape",
  light: "equipment",
  lamps: "equipment",
  daylight: "equipment",
  co2: "equipment",
  filter: "equipment",
  surface: "equipment",
  air: "equipment",
  heater: "equipment",
  room: "equipment",
  water: "water",
  readings: "water",
  animals: "animals",
  feeding: "animals",
};

/** The app's place in which a field of the plan is edited. */
export function fieldPlace(path: string): string {
  return byHead[path.split(/[.[]/)[0]!] ?? "file";
}
