import type { Change } from "@lentic/core/plan";

/** What is being tried on a tank, and what is pinned behind it. Kept in this browser so that a reload or crash loses nothing. */
export interface Trial {
  /** Revision of the plan that the changes build on. */
  readonly base: number;
  readonly changes: readonly Change[];
  /** Trials before this one, newest last, for undo. */
  readonly past: readonly (readonly Change[])[];
  readonly pinned: { readonly changes: readonly Change[]; readonly label: string } | null;
}

/** A save that has not been acknowledged yet. */
export interface Pending {
  readonly key: string;
  readonly base: number;
  readonly name: string;
  readonly changes: readonly Change[];
}

const trialKey = (id: string): string => `lentic.trial.${id}`;
const pendingKey = (id: string): string => `lentic.pending.${id}`;

function load<T>(key: string): T | null {
  try {
    const text = localStorage.getItem(key);
    return text === null ? null : (JSON.parse(text) as T);
  } catch {
    return null;
  }
}

function save(key: string, value: unknown): void {
  try {
    if (value === null) localStorage.removeItem(key);
    else localStorage.setItem(key, JSON.stringify(value));
  } catch {
    // full or refused storage: the trial lasts as long as the page
  }
}

export const loadTrial = (id: string): Trial | null => load<Trial>(trialKey(id));
export const saveTrial = (id: string, trial: Trial | null): void => save(trialKey(id), trial);
export const loadPending = (id: string): readonly Pending[] => load<readonly Pending[]>(pendingKey(id)) ?? [];
export const savePending = (id: string, pending: readonly Pending[]): void =>
  save(pendingKey(id), pending.length === 0 ? null : pending);
