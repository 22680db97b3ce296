import type { Entry } from "../plan/index.ts";
import type { Shown, WorkingInput, WorkingTerm } from "./types.ts";

/** An input of a working that stands in the plan, where it can be replaced. */
export function input(label: string, entry: Entry, value: Shown, path: string): WorkingInput {
  return {
    label,
    value,
    known: entry.known,
    path,
    ...(entry.note ? { note: entry.note } : {}),
    ...(entry.reason ? { reason: entry.reason } : {}),
  };
}

/** An input of a working that was worked out itself. */
export const computed = (label: string, value: Shown, note?: string): WorkingInput => ({
  label,
  value,
  known: "computed",
  ...(note ? { note } : {}),
});

/** Bars as long as the largest term. */
export function withShares(terms: readonly Omit<WorkingTerm, "share">[], numbers: readonly number[]): WorkingTerm[] {
  const most = Math.max(...numbers.map(Math.abs), 1e-12);
  return terms.map((t, i) => ({ ...t, share: Math.abs(numbers[i]!) / most }));
}
