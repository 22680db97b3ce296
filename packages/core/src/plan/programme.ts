/** A lamp's day as points of time and strength with straight lines between them, and what can be said of it. */

/** Hours after midnight and share of full strength there. */
export type ProgrammePoint = readonly [hour: number, strength: number];

/**
 * Points in the order of time, within 24 h of the first, which lies from 0 to 24; those past midnight stand above 24.
 * Between points the strength goes in straight lines, also from the last to the first of the next day; two points of one
 * time are a switch.
 */
export type Programme = readonly ProgrammePoint[];

/** A stretch of the day in which the strength goes in a straight line. */
export interface Stretch {
  /** Hours after midnight; `to` may pass 24, then it goes on after midnight. */
  readonly from: number;
  readonly to: number;
  /** Strength at its two ends, share of full. */
  readonly first: number;
  readonly last: number;
}

/** Most points of one programme: one every half hour. Design value. */
export const mostPoints = 48;

/** What a programme is written like. */
export const programmeAllowed =
  "2 to 48 times of day, each with its strength, in order once round the clock, such as 10:00 0 %, 10:30 65 %, 14:00 40 %, 16:00 65 %, 18:00 0 %";

export type ProgrammeRead =
  | { readonly ok: true; readonly programme: Programme }
  | { readonly ok: false; readonly message: string };

const point = /^(\d{1,2}):([0-5]\d)\s+(\d+(?:[.,]\d+)?)\s*%$/;

/** Reads `10:00 0 %, 10:30 65 %, 18:00 0 %`. A fault names the point that it stands in. */
export function readProgramme(text: string): ProgrammeRead {
  const written = text.split(/,(?!\d)/).map((words) => words.trim());
  if (written.length > mostPoints) return { ok: false, message: `${written.length} points are given` };
  const points: [number, number][] = [];
  let turns = 0;
  for (const [i, words] of written.entries()) {
    const told = `point ${i + 1}, ${words.slice(0, 30) || "empty"},`;
    const match = point.exec(words);
    if (!match) return { ok: false, message: `${told} is no time of day with a strength` };
    const hour = Number(match[1]) + Number(match[2]) / 60;
    const strength = Number(match[3]!.replace(",", ".")) / 100;
    if (!(hour <= 24)) return { ok: false, message: `${told} is no time of day` };
    if (!(strength <= 1)) return { ok: false, message: `${told} is more than full strength` };
    const before = points.at(-1)?.[0] ?? hour;
    if (hour + 24 * turns < before - 1e-9) turns += 1;
    const at = hour + 24 * turns;
    if (turns > 1 || at > (points[0]?.[0] ?? at) + 24 + 1e-9) {
      return { ok: false, message: `${told} goes round the clock a second time` };
    }
    if (points.length > 1 && at === before && points.at(-2)![0] === at) {
      return { ok: false, message: `${told} is the third of one time` };
    }
    points.push([at, strength]);
  }
  if (points.length < 2) return { ok: false, message: `${points.length} point is given` };
  return { ok: true, programme: points };
}

function clock(hours: number): string {
  // 24:00 stays itself, what lies past midnight is told by the next day's time
  const minutes = Math.round(hours * 60);
  const shown = minutes > 24 * 60 ? minutes - 24 * 60 : minutes;
  return `${String(Math.floor(shown / 60)).padStart(2, "0")}:${String(shown % 60).padStart(2, "0")}`;
}

/** As one would type it: times to the minute, strengths to a tenth of a percent. */
export const programmeText = (programme: Programme): string =>
  programme.map(([hour, strength]) => `${clock(hour)} ${Number((100 * strength).toFixed(1))} %`).join(", ");

/** The day of a lamp with hours, and a ramp at either end. Hours; `off` before `on` = past midnight. */
export function hoursProgramme(on: number, off: number, ramp: number): Programme {
  const to = on + ((off - on + 24) % 24 || 24);
  const rise = Math.min(ramp, (to - on) / 2);
  const points: readonly ProgrammePoint[] = [
    [on, 0],
    [on + rise, 1],
    [to - rise, 1],
    [to, 0],
  ];
  return points;
}

/** Stretches that shine, in order; dark between them. */
export function stretchesOf(programme: Programme): readonly Stretch[] {
  return programme.flatMap(([from, first], i) => {
    const [next, last] = programme[i + 1] ?? [programme[0]![0] + 24, programme[0]![1]];
    return next > from && (first > 0 || last > 0) ? [{ from, to: next, first, last }] : [];
  });
}

/** Strength at a time of day, share of full; at a switch that after it. @param hour any */
export function strengthAt(programme: Programme, hour: number): number {
  const start = programme[0]![0];
  const at = start + ((((hour - start) % 24) + 24) % 24);
  let strength = programme[0]![1];
  programme.forEach(([from, first], i) => {
    if (from > at) return;
    const [to, last] = programme[i + 1] ?? [start + 24, programme[0]![1]];
    strength = to > from ? first + ((last - first) * (at - from)) / (to - from) : last;
  });
  return strength;
}

/** Hours at full strength that give the same photons a day: the exact integral of the straight lines. */
export const fullHoursOf = (programme: Programme): number =>
  stretchesOf(programme).reduce((sum, { from, to, first, last }) => sum + ((first + last) / 2) * (to - from), 0);

/** The greatest strength, share of full. */
export const peakOf = (programme: Programme): number => programme.reduce((most, [, s]) => Math.max(most, s), 0);

/**
 * From when to when any of them shines, hours, `off` above 24 past midnight: round the longest dark time; null where they
 * leave no dark time or are never lit.
 */
export function litHours(...programmes: readonly Programme[]): { readonly on: number; readonly off: number } | null {
  const lit = programmes
    .flatMap(stretchesOf)
    .map(({ from, to }) => ({ from: from % 24, to: (from % 24) + to - from }))
    .sort((a, b) => a.from - b.from);
  if (lit.length === 0) return null;
  let best = { dark: hair, on: 0, off: 0 };
  // what shines past midnight shines into the morning too
  let reached = Math.max(...lit.map(({ to }) => to)) - 24;
  for (const { from, to } of [...lit, { from: lit[0]!.from + 24, to: 0 }]) {
    if (from - reached > best.dark) best = { dark: from - reached, on: from, off: reached };
    reached = Math.max(reached, to);
  }
  if (best.dark === hair) return null;
  const on = best.on % 24;
  return { on, off: on + ((((best.off - best.on) % 24) + 24) % 24) };
}

/** Times nearer than this are one, h. */
const hair = 1e-6;

/** The programme moved, and stretched, so that it begins and ends at the given hours; as it is where it is never dark. */
export function movedTo(programme: Programme, on: number, off?: number): Programme {
  const lit = litHours(programme);
  if (!lit) return programme;
  const factor = off === undefined ? 1 : (off - on) / (lit.off - lit.on);
  const start = ((on % 24) + 24) % 24;
  const kept = programme
    .map(([hour, strength], i) => {
      const since = (((hour - lit.on) % 24) + 24) % 24;
      // what lies before the beginning comes a day later, behind what ends at the same time
      const order = hour < lit.on - hair ? i + mostPoints : i;
      return { since: since > 24 - hair ? 0 : since, strength, order };
    })
    .filter(({ since }) => since <= lit.off - lit.on + hair)
    .sort((a, b) => (Math.abs(a.since - b.since) > hair ? a.since - b.since : a.order - b.order));
  return kept.map(({ since, strength }) => [start + since * factor, strength]);
}
