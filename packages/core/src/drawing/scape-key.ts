/** What the keys on the drawings of a scape stand for. */
import { figureOf, type Selected } from "./plan-options.ts";
import type { ScapeScene } from "./scape-scene.ts";

export interface KeyRow {
  /** S1, W2, A, L1. */
  readonly key: string;
  readonly label: string;
  readonly kind: Selected["kind"];
  /** Ids of all that it stands for: a species planted in two places has one row. */
  readonly figures: readonly string[];
}

/** Rows of the key: stones and wood, plants, lamps. */
export function keyOf(scene: ScapeScene): readonly KeyRow[] {
  const rows = new Map<string, KeyRow>();
  const add = (kind: Selected["kind"], index: number, key: string, label: string): void => {
    const name = `${kind}/${key}/${label}`;
    const before = rows.get(name);
    const figures = [...(before?.figures ?? []), figureOf({ kind, index })];
    rows.set(name, { key, label, kind, figures });
  };
  for (const { index, key, label } of scene.pieces) add("piece", index, key, label);
  for (const { index, key, label } of scene.zones) add("zone", index, key, label);
  for (const { index, caption } of scene.lamps) add("lamp", index, `L${index + 1}`, caption);
  return [...rows.values()];
}
