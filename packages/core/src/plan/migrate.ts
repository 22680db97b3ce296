import type { Fault, RawPlan } from "./plan.ts";

/** Version of the plan file that this program writes and reads without migrating. */
export const currentVersion = 1;

/** One step of the format's history: `lentic/2` turns a plan of version 1 into one of version 2. */
export interface Migration {
  readonly id: `lentic/${number}`;
  readonly up: (raw: RawPlan) => RawPlan;
}

/** The format's history, oldest first. `lentic/1` founds it and has nothing to turn. */
export const migrations: readonly Migration[] = [{ id: "lentic/1", up: (raw) => raw }];

/** Problems of a sequence of migrations: it must run lentic/1, lentic/2 ... without gap or repeat. Empty when sound. */
export function sequenceProblems(sequence: readonly Migration[]): readonly string[] {
  return sequence.flatMap((m, i) =>
    m.id === `lentic/${i + 1}` ? [] : [`${m.id} stands where lentic/${i + 1} belongs`],
  );
}

export interface Migrated {
  readonly raw: RawPlan;
  /** The version that the file was written in. */
  readonly from: number;
}

function versionFault(message: string, allowed: string): Fault {
  return { path: "lentic", line: 0, column: 0, message, allowed };
}

/**
 * Brings a raw plan to the current version; the argument is not changed.
 * @returns the migrated plan, or a fault (without position) where the version is missing, not a whole number or too new.
 */
export function migrate(raw: RawPlan, sequence: readonly Migration[] = migrations): Migrated | Fault {
  const newest = sequence.length;
  const allowed = newest === 1 ? "lentic: 1" : `lentic: 1 to ${newest}`;
  const version = Object.hasOwn(raw, "lentic") ? raw.lentic : undefined;
  if (version === undefined) return versionFault("the version of the plan file is missing", `lentic: ${newest}`);
  if (typeof version !== "number" || !Number.isInteger(version) || version < 1) {
    return versionFault("the version of the plan file must be a whole number", allowed);
  }
  if (version > newest) {
    return versionFault(
      `this plan is written in version ${version}, newer than this program knows; a newer program opens it`,
      allowed,
    );
  }
  let migrated = raw;
  for (const step of sequence.slice(version)) migrated = step.up(migrated);
  return { raw: version === newest ? migrated : { ...migrated, lentic: newest }, from: version };
}
