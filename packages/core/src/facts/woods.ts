/**
 * Woods. Basic gravity: oven-dry mass over soaked volume, relative to water, pure number.
 * Origin: ranges of basic gravity from memory of the Wood Handbook; soaking times in the notes are common practice.
 */
import type { WoodFact } from "./material-fact.ts";

const shared = { kind: "wood", carbonate: "no", how: "memory", sources: ["wood-handbook-4", "trade"] } as const;

export const woods: readonly WoodFact[] = [
  {
    id: "root wood",
    ...shared,
    basicGravity: { min: 0.45, value: 0.52, max: 0.6 },
    note: "light roots float for weeks to months before they soak",
  },
  {
    id: "softwood",
    ...shared,
    basicGravity: { min: 0.45, value: 0.5, max: 0.6 },
    note: "floats for months; resinous wood is best left out",
  },
  {
    id: "oak",
    ...shared,
    basicGravity: { min: 0.6, value: 0.67, max: 0.75 },
    note: "gives off tannin; only long-dead, bark-free wood",
  },
  {
    id: "dense tropical wood",
    ...shared,
    basicGravity: { min: 0.8, value: 0.9, max: 1.05 },
    note: "soaks in weeks or sinks at once; gives off tannin",
  },
];
