/** What to look at in a course of growth, each with a next step that was worked out, not guessed. */

import { umolPerMgCo2 } from "../plants/index.ts";
import type { ScapeFinding } from "../scape/index.ts";
import type { TraceOptions } from "../tracer/index.ts";
import { scapeGrown } from "./at-week.ts";
import { type Past, type PastWeek, type Planting, type PlantingWeek, weekLater } from "./course.ts";
import type { DayConditions, Hold } from "./day-conditions.ts";
import { firstStand } from "./sites.ts";
import { type Stand, standCover, standFrom } from "./stand.ts";
import { dayUnder, followed } from "./week-light.ts";

/** A planting that covers less of its ground at the end has not filled it. Common practice counts four fifths as grown in, no source. */
const filled = 0.8;
/** Light that a cut gives back is worth a word from this share on. */
const worthWhile = 0.1;
/** Most neighbours for which a cut is tried. */
const mostTried = 3;
/** What CO2 is raised to when it is tried, mg/L: what the plant table's rates are told for. */
const richCo2 = 30;

const percent = (share: number): string => `${Math.round(100 * share)} %`;
const inMillimetres = (metres: number): string => `${Math.round(1000 * metres)} mm`;
const named = ({ zone }: Planting): string => `${zone.key}, ${zone.fact.name},`;

const holdWords: Readonly<Record<Hold, string>> = {
  light: "light holds it back",
  co2: "carbon dioxide holds it back",
  warmth: "warmth holds it back",
  room: "its own leaves stand in its light",
  melt: "it is still changing to leaves grown under water",
  nothing: "it has not had the time",
};

/** Another try at the same course: the light and day of each week, changed. */
interface Try {
  readonly words: string;
  readonly brightness: (week: PastWeek) => number;
  readonly conditions: (day: DayConditions) => DayConditions;
  readonly first: (stand: Stand) => Stand;
}

const asItIs: Omit<Try, "words"> = { brightness: () => 1, conditions: (day) => day, first: (stand) => stand };

/** Cover of a planting at the end of its course, gone again with something changed; its neighbours stay as they were. */
function coverAfter({ weeks, start }: Past, p: Planting, t: Try): number {
  const [site] = p.sites;
  let stand = t.first(firstStand(site, p.zone, start));
  for (const week of weeks.slice(0, -1)) {
    const day = t.conditions(week.light.conditions);
    stand = weekLater(site, stand, p.rule, day, day.light[p.zone.index]!, t.brightness(week)).stand;
  }
  return standCover(site, stand);
}

function tryFor(p: Planting, hold: Hold): Try | null {
  const { fact } = p.zone;
  if (hold === "light") {
    const brightness = ({ plantings }: PastWeek): number => {
      const { ppfd } = plantings[p.zone.index]!;
      return ppfd > 0 ? Math.max(1, fact.ppfdGood / ppfd) : 1;
    };
    return { ...asItIs, brightness, words: `Under the ${fact.ppfdGood} µmol/m²s that it grows well at` };
  }
  if (hold === "co2") {
    const conditions = (day: DayConditions): DayConditions => ({
      ...day,
      co2: day.co2.map((c) => Math.max(c, richCo2 * umolPerMgCo2)),
    });
    return { ...asItIs, conditions, words: `With ${richCo2} mg/L of CO2 while the lamp is on` };
  }
  if (hold === "warmth") {
    const conditions = (day: DayConditions): DayConditions => ({
      ...day,
      temperature: day.temperature.map(() => fact.temperatureOpt),
    });
    return { ...asItIs, conditions, words: `At ${fact.temperatureOpt} °C` };
  }
  if (hold === "melt") {
    const first = (stand: Stand): Stand => standFrom(p.sites[0], stand.biomass, stand.height, 1);
    return { ...asItIs, first, words: "Bought with leaves grown under water" };
  }
  return null;
}

/** What held it back in most weeks. */
function mostlyHeld(weeks: readonly PastWeek[], index: number): Hold {
  const counts = new Map<Hold, number>();
  for (const { plantings } of weeks) {
    const { hold } = plantings[index]!;
    counts.set(hold, (counts.get(hold) ?? 0) + 1);
  }
  return [...counts].reduce((most, next) => (next[1] > most[1] ? next : most))[0];
}

/** Plantings that do not fill their ground by the end, and those that die away. */
export function closingFindings(past: Past): readonly ScapeFinding[] {
  const last = past.weeks.at(-1)!;
  const first = past.weeks[0]!;
  return past.plantings.flatMap((p): readonly ScapeFinding[] => {
    const now = last.plantings[p.zone.index]!;
    if (now.cover.value >= filled) return [];
    const hold = mostlyHeld(past.weeks, p.zone.index);
    const dying = now.mass.value < first.plantings[p.zone.index]!.mass.value && now.rate < 0;
    const title = dying
      ? `${named(p)} dies away: ${percent(now.cover.value)} of its ground in week ${last.week}; ${holdWords[hold]}`
      : `${named(p)} covers ${percent(now.cover.value)} of its ground in week ${last.week}; ${holdWords[hold]}`;
    const t = tryFor(p, hold);
    const better = t && coverAfter(past, p, t);
    const reason =
      t && better !== null && better > now.cover.value + 0.03
        ? `${t.words} it would cover ${percent(better)} by then.`
        : "Plant it more densely, or give it more weeks.";
    return [
      {
        id: `unfilled-${p.zone.key}`,
        severity: dying ? "caution" : "note",
        title,
        reason,
        at: p.zone.outline[0] ?? null,
        path: ["plants", p.zone.index],
      },
    ];
  });
}

/** The week in which the plantings stand darkest against what they grow well at. */
function darkestWeek({ weeks, plantings }: Past): PastWeek {
  const of = (week: PastWeek): number =>
    week.plantings.reduce((sum, { ppfd }, i) => sum + Math.min(1, ppfd / plantings[i]!.zone.fact.ppfdGood), 0);
  return weeks.reduce((least, next) => (of(next) < of(least) ? next : least));
}

/** The planting that gains most light, with what it had and has, umol/m2/s. */
interface Gain {
  readonly of: Planting;
  readonly before: number;
  readonly after: number;
}

function mostGained({ plantings }: Past, before: PastWeek, after: DayConditions, cut: Planting): Gain | null {
  const lit = (values: Float64Array): number => {
    const on = values.filter((v) => v > 0);
    return on.length > 0 ? on.reduce((sum, v) => sum + v, 0) / on.length : 0;
  };
  const gains = plantings
    .filter((p) => p !== cut && before.plantings[p.zone.index]!.ppfd < p.zone.fact.ppfdGood)
    .map((of) => ({
      of,
      before: before.plantings[of.zone.index]!.ppfd,
      after: lit(after.light[of.zone.index]!),
    }))
    .filter((g) => g.after > g.before * (1 + worthWhile));
  return gains.reduce<Gain | null>(
    (most, next) => (most && most.after / most.before >= next.after / next.before ? most : next),
    null,
  );
}

/** Plantings at the surface, and those that stand in another's light: each with the light that a cut gives back. */
export function* shadeFindings(
  past: Past,
  trace: TraceOptions,
  factors: readonly number[],
): Generator<number, readonly ScapeFinding[]> {
  const found: ScapeFinding[] = [];
  const week = darkestWeek(past);
  const tall = past.plantings
    .filter(({ zone, stands: [stand] }) => !zone.afloat && stand.height > 0)
    .map((p) => ({ p, now: week.plantings[p.zone.index]! }))
    .sort((a, b) => shade(b.now, b.p) - shade(a.now, a.p));
  for (const [i, { p }] of tall.entries()) {
    const up = past.weeks.find(({ plantings }) => plantings[p.zone.index]!.atSurface);
    const surfacing = up !== undefined && p.rule === null;
    if (i >= mostTried && !surfacing) continue;
    const at = surfacing ? latest(past, up) : week;
    const { height, biomass } = at.grown[p.zone.index]!;
    const grown = at.grown.map((g, k) => (k === p.zone.index ? { height: height / 2, biomass: biomass / 2 } : g));
    const { plan } = scapeGrown(past.scape, grown);
    const seen = yield* followed(plan, trace);
    if (!seen) return found;
    const gain = mostGained(past, at, dayUnder(plan, seen, factors, at.light.day).conditions, p);
    const back = gain
      ? `${gain.of.zone.key} gets ${Math.round(gain.after)} µmol/m²s instead of ${Math.round(gain.before)} (${percent(gain.after / gain.before - 1)} more)`
      : null;
    const base = { at: p.zone.outline[0] ?? null, path: ["plants", p.zone.index] } as const;
    if (surfacing) {
      found.push({
        ...base,
        id: `surface-${p.zone.key}`,
        severity: "note",
        title: `${named(p)} lies on the surface ${up.week === 0 ? "from the start" : `from week ${up.week}`}`,
        reason: `Cut it to ${inMillimetres(height / 2)} in week ${at.week}${back ? `: ${back}` : "; none of the others gains a tenth of light by it"}.`,
      });
    } else if (gain) {
      const { zone } = gain.of;
      found.push({
        ...base,
        id: `shade-${p.zone.key}-${zone.key}`,
        severity: "note",
        title: `${named(gain.of)} stands in the shade of ${p.zone.key} in week ${at.week}: ${Math.round(gain.before)} of the ${zone.fact.ppfdGood} µmol/m²s that it grows well at`,
        reason: `With ${p.zone.key} cut to ${inMillimetres(height / 2)} ${back}.`,
      });
    }
  }
  return found;
}

/** How much a planting can shade: its leaves, and how high they stand. */
const shade = ({ leafArea, height }: PlantingWeek, { zone }: Planting): number => leafArea * height.value * zone.area;

/** A fortnight after a planting came to the surface, when it lies across, or the last week. */
const latest = ({ weeks }: Past, up: PastWeek): PastWeek => weeks[Math.min(weeks.length - 1, up.week + 2)]!;
