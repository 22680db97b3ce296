/** Arithmetic of water changes and top-up. Concentrations in any one unit; fractions 0..1. */

/** Concentration after `changes` water changes of `fraction` each, towards `incoming`. */
export function afterChanges(start: number, incoming: number, fraction: number, changes: number): number {
  return incoming + (start - incoming) * (1 - fraction) ** changes;
}

/** Concentration after a well-mixed drip of `exchanges` tank volumes (in and out at once), towards `incoming`. */
export function afterDrip(start: number, incoming: number, exchanges: number): number {
  return incoming + (start - incoming) * Math.exp(-exchanges);
}

/** Changes of `fraction` that remove `removal` (0..below 1) of the difference to the new water; not yet rounded up. */
export function changesFor(fraction: number, removal: number): number {
  return Math.log(1 - removal) / Math.log(1 - fraction);
}

export interface Rhythm {
  /** Just before a change. */
  readonly before: number;
  /** Just after it. */
  readonly after: number;
}

/**
 * Where a concentration settles that grows by `gain` in each interval and is then diluted by a change of `fraction` with
 * water of `incoming`.
 */
export function accumulationLimit(gain: number, fraction: number, incoming: number): Rhythm {
  return { before: incoming + gain / fraction, after: incoming + (gain * (1 - fraction)) / fraction };
}

/** The same rhythm at its `change`-th change (1 = the first), having begun at `start`. */
export function accumulationAt(
  start: number,
  gain: number,
  fraction: number,
  incoming: number,
  change: number,
): Rhythm {
  const limit = accumulationLimit(gain, fraction, incoming);
  // The distance from the limit shrinks by the part left at every change.
  const before = limit.before + (start + gain - limit.before) * (1 - fraction) ** (change - 1);
  return { before, after: incoming + (before - incoming) * (1 - fraction) };
}

/** Rise of a concentration when evaporated water is replaced: `evaporated` and `volume` in one unit of volume. */
export function topUpRise(evaporated: number, topUp: number, volume: number): number {
  return (evaporated * topUp) / volume;
}
