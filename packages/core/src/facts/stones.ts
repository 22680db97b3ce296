/**
 * Stones. Density of a whole piece, kg/m3.
 * Origin: the first ten from a table of common rock types (read); petrified wood and lava from memory. Whether a stone
 * gives off hardness is common knowledge of mineralogy, from memory: a piece may still hold seams of calcite, so try it
 * with 10 % hydrochloric acid or strong vinegar: fizzing means carbonate (dolomite fizzes only as powder).
 */
import type { Carbonate, StoneFact } from "./material-fact.ts";

// biome-ignore format: one stone a line
const read: readonly (readonly [id: string, min: number, max: number, carbonate: Carbonate, note?: string])[] = [
  ["granite", 2600, 2700, "no"],
  ["basalt", 2800, 3000, "no"],
  ["slate", 2700, 2800, "no", "look for white seams, which are often calcite"],
  ["sandstone", 2200, 2800, "test", "the cement between the grains may be lime"],
  ["gneiss", 2600, 2900, "no"],
  ["limestone", 2300, 2700, "yes"],
  ["marble", 2400, 2700, "yes"],
  ["dolomite", 2800, 2900, "yes", "fizzes only as powder"],
  ["quartzite", 2600, 2800, "no"],
  ["shale", 2400, 2800, "test", "some beds hold lime"],
];

// biome-ignore format: one stone a line
const recalled: typeof read = [
  ["petrified wood", 2200, 2650, "no"],
  ["lava", 1200, 2000, "no", "density of the piece with its bubbles"],
  ["pumice stone", 500, 1000, "no", "floats until soaked"],
];

const fact =
  (how: StoneFact["how"], source: string) =>
  ([id, min, max, carbonate, note]: (typeof read)[number]): StoneFact => ({
    id,
    kind: "stone",
    density: { min, value: (min + max) / 2, max },
    carbonate,
    how,
    sources: [source],
    ...(note === undefined ? {} : { note }),
  });

export const stones: readonly StoneFact[] = [
  ...read.map(fact("read", "rock-densities")),
  ...recalled.map(fact("memory", "recalled")),
];
