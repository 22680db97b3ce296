import type { Model } from "./compile.ts";
import { type ConservedId, conserved, type Outside, type StateId, stateIds, states } from "./quantities.ts";

/** Something moved at one instant (a meal, a top-up). */
export interface Transfer {
  readonly of: ConservedId;
  readonly from: StateId | Outside;
  readonly to: StateId | Outside;
  readonly label: string;
  readonly amount: number;
}

export interface LedgerLine {
  readonly id: string;
  readonly label: string;
  /** Net amount into the tank's stocks, in the ledger's unit. */
  readonly into: number;
}

/** The account of one conserved quantity over a run. */
export interface Ledger {
  readonly of: ConservedId;
  readonly unit: string;
  readonly before: number;
  readonly after: number;
  readonly lines: readonly LedgerLine[];
  /** (after - before - sum of lines) over the largest amount in the account. */
  readonly residual: number;
}

const inside = (place: string): boolean => Object.hasOwn(states, place);

/**
 * Closes the books: the stocks' change comes from the integrated states, the lines from the flows, integrated beside them.
 * @param before states at the start; @param after states and accumulated flows at the end
 */
export function ledgersOf(
  model: Model,
  before: Float64Array,
  after: Float64Array,
  transfers: readonly Transfer[],
): readonly Ledger[] {
  const n = stateIds.length;
  return (Object.keys(conserved) as ConservedId[]).map((of) => {
    let start = 0;
    let end = 0;
    stateIds.forEach((id, i) => {
      if (states[id].counts !== of) return;
      start += before[i]!;
      end += after[i]!;
    });
    const lines: LedgerLine[] = [];
    let gross = Math.max(Math.abs(start), Math.abs(end));
    let sum = 0;
    const add = (id: string, label: string, from: string, to: string, amount: number): void => {
      const into = (inside(to) ? amount : 0) - (inside(from) ? amount : 0);
      gross = Math.max(gross, Math.abs(amount));
      sum += into;
      if (inside(from) !== inside(to)) lines.push({ id, label, into });
    };
    model.flows.forEach((flow, k) => {
      if (flow.of === of) add(flow.id, flow.label, flow.from, flow.to, after[n + k]!);
    });
    for (const t of transfers) if (t.of === of) add(`event.${t.label}`, t.label, t.from, t.to, t.amount);
    return {
      of,
      unit: conserved[of].unit,
      before: start,
      after: end,
      lines,
      residual: gross > 0 ? (end - start - sum) / gross : 0,
    };
  });
}
