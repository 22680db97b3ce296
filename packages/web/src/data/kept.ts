import type { Change } from "@lentic/core/plan";
import { load, store } from "./stored.ts";

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

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null;
const areChanges = (value: unknown): value is readonly Change[] =>
  Array.isArray(value) && value.every((c) => isObject(c) && typeof c.name === "string" && Array.isArray(c.path));

const isTrial = (value: unknown): value is Trial =>
  isObject(value) &&
  typeof value.base === "number" &&
  areChanges(value.changes) &&
  Array.isArray(value.past) &&
  value.past.every(areChanges) &&
  (value.pinned === null || (isObject(value.pinned) && areChanges(value.pinned.changes)));

const isPending = (value: unknown): value is Pending =>
  isObject(value) && typeof value.key === "string" && typeof value.base === "number" && areChanges(value.changes);

export const loadTrial = (id: string): Trial | null => load(trialKey(id), (v) => (isTrial(v) ? v : null));
export const saveTrial = (id: string, trial: Trial | null): void => store(trialKey(id), trial);
export const loadPending = (id: string): readonly Pending[] =>
  load(pendingKey(id), (v) => (Array.isArray(v) ? v.filter(isPending) : null)) ?? [];
export const savePending = (id: string, pending: readonly Pending[]): void =>
  store(pendingKey(id), pending.length === 0 ? null : pending);
