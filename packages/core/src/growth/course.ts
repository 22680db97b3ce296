/** The course of a planted scape over some weeks. */
import type { FollowedLight } from "../plan/index.ts";
import type { Scape, ScapeFinding, Zone } from "../scape/index.ts";
import type { Grown } from "./at-week.ts";
import { atSurface, type CutRule, cutRule } from "./cuts.ts";
import { type DayConditions, type DayGrowth, dayGrowth, dayRates, type Hold } from "./day-conditions.ts";
import { firstStand, type Start, siteOf } from "./sites.ts";
import { capacityOf, cutTo, dayLater, densityOf, type Site, type Stand, settledShare, standCover } from "./stand.ts";
import type { WeekLight } from "./week-light.ts";

export interface GrowthOptions {
  /** Weeks to look ahead, 1 to 52; default 16. */
  readonly weeks?: number;
  /** Where the course begins; default "planting". */
  readonly start?: Start;
  /** The same seed gives the same course; default 1. */
  readonly seed?: number;
  /** Paths of each lamp, each time that its light is followed; default 5000. */
  readonly photons?: number;
}

/** A figure in the course told, and in a low and a high course. */
export interface Spanned {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** A planting in a week, after that week's cut. */
export interface PlantingWeek {
  /** Position in the plan's list. */
  readonly index: number;
  /** Dry mass, g/m2 over its ground and g in all. */
  readonly biomass: number;
  readonly mass: Spanned;
  /** m */
  readonly height: Spanned;
  /** Share of its ground that its leaves cover. */
  readonly cover: Spanned;
  /** Leaf area (one side) over ground. */
  readonly leafArea: number;
  /** Share of its leaves grown under water. */
  readonly settled: number;
  /** Light at its top over the lit hours, umol/m2/s, and in a day, mol/m2. */
  readonly ppfd: number;
  readonly daily: number;
  /** Growth by itself, 1/d; below 0 it loses. */
  readonly rate: number;
  readonly hold: Hold;
  /** How far that lets it grow, 0 to 1. */
  readonly held: number;
  /** Whether it lies at the surface. */
  readonly atSurface: boolean;
  /** The cut on this week's day of upkeep. */
  readonly cut: Cut | null;
}

export interface Cut {
  /** m */
  readonly from: number;
  readonly to: number;
  /** Dry mass taken out, g. */
  readonly taken: number;
}

export interface GrowthWeek {
  readonly week: number;
  readonly plantings: readonly PlantingWeek[];
  /** Whether the light was followed anew for it; else the plants stood as before within a tenth. */
  readonly followed: boolean;
  /** Mean CO2 of the lit hours, mg/L. */
  readonly co2: number;
}

/** A piece of the work done: told so that it can be shown, and dropped by not going on. */
export type GrowthStep =
  | { readonly kind: "working"; readonly week: number; readonly share: number }
  | { readonly kind: "week"; readonly week: GrowthWeek }
  /** The last: what to look at, with what was tried. */
  | { readonly kind: "findings"; readonly findings: readonly ScapeFinding[] };

/** A week that has been, with the light that made it. */
export interface PastWeek extends GrowthWeek {
  readonly light: WeekLight;
  readonly grown: readonly Grown[];
}

/** A course that has been gone to its end. */
export interface Past {
  readonly scape: Scape;
  readonly plantings: readonly Planting[];
  readonly weeks: readonly PastWeek[];
  readonly start: Start;
}

/** Span of growth rates about the one taken: rates are those of a class of species. Design value. */
export const rateSpan = [0.75, 1.25] as const;
/** A stand whose cover or height changed by this share shades anew. */
const shapeChange = 0.1;

export const mostWeeks = 52;
export const usualWeeks = 16;
/** Paths each time the light is followed: what is not known of growth is many times their noise. Design value. */
export const usualPhotons = 5000;

/** A planting on its course. */
export interface Planting {
  readonly zone: Zone;
  /** As told, low and high. */
  readonly sites: readonly [Site, Site, Site];
  readonly rule: CutRule | null;
  stands: [Stand, Stand, Stand];
  /** Cover and height when the light was followed last. */
  shape: readonly [cover: number, height: number];
  cut: Cut | null;
}

export const differs = (now: number, then: number): boolean =>
  Math.abs(now - then) > shapeChange * Math.max(then, 1e-6);

export const shapeOf = ({ sites, stands }: Planting): readonly [number, number] => [
  standCover(sites[0], stands[0]),
  stands[0].height,
];

export function plantingsOf(scape: Scape, start: Start): Planting[] {
  return scape.zones.map((zone) => {
    const sites = [siteOf(scape, zone), siteOf(scape, zone, rateSpan[0]), siteOf(scape, zone, rateSpan[1])] as const;
    const first = firstStand(sites[0], zone, start);
    return {
      zone,
      sites,
      rule: cutRule(zone, sites[0].room),
      stands: [first, first, first],
      shape: [Number.NaN, Number.NaN],
      cut: null,
    };
  });
}

/** What each light is known to, weighed by what it gives a planting. */
function brightness(
  light: FollowedLight | null,
  measured: boolean,
  index: number,
): readonly [low: number, high: number] {
  if (!light || measured) return [1, 1];
  const all = light.lights.reduce((sum, l) => sum + l.plantings[index]!, 0);
  const at = (end: 0 | 1): number =>
    all > 0 ? light.lights.reduce((sum, l) => sum + l.plantings[index]! * l.span[end], 0) / all : 1;
  return [at(0), at(1)];
}

export function aWeekOn(p: Planting, { conditions, followed: light }: WeekLight, measured: boolean): void {
  const own = conditions.light[p.zone.index]!;
  const [low, high] = brightness(light, measured, p.zone.index);
  const bright = [1, low, high] as const;
  p.cut = null;
  p.stands = p.stands.map((first, k) => {
    const { stand, cut } = weekLater(p.sites[k]!, first, p.rule, conditions, own, bright[k]!);
    if (k === 0) p.cut = cut;
    return stand;
  }) as [Stand, Stand, Stand];
}

/** A planting a week later, cut on the last day where its rule says so. @param brightness factor on the light */
export function weekLater(
  site: Site,
  first: Stand,
  rule: CutRule | null,
  conditions: DayConditions,
  light: Float64Array,
  brightness = 1,
): { readonly stand: Stand; readonly cut: Cut | null } {
  let stand = first;
  for (let day = 0; day < 7; day += 1) {
    const capacity = capacityOf(site, stand);
    stand = dayLater(site, stand, (density) =>
      dayRates(site.parameters, conditions, light, density, capacity, brightness),
    );
  }
  if (!rule || stand.height < rule.at || stand.height <= rule.to) return { stand, cut: null };
  const after = cutTo(site, stand, rule.to);
  const taken = (stand.biomass - after.biomass) * site.area;
  return { stand: after, cut: { from: stand.height, to: after.height, taken } };
}

function spanned(p: Planting, of: (site: Site, stand: Stand) => number): Spanned {
  const [value, a, b] = p.stands.map((stand, k) => of(p.sites[k]!, stand)) as [number, number, number];
  // a cut that falls a week earlier in one course may turn their order about
  return { value, low: Math.min(value, a, b), high: Math.max(value, a, b) };
}

export function told(week: number, plantings: readonly Planting[], light: WeekLight, anew: boolean): GrowthWeek {
  const { co2, light: all } = light.conditions;
  const lit = [...co2.keys()].filter((i) => all.some((own) => own[i]! > 0));
  const hours = lit.length > 0 ? lit : [...co2.keys()];
  return {
    week,
    followed: anew,
    co2: (hours.reduce((sum, i) => sum + co2[i]!, 0) / hours.length) * 0.044009,
    plantings: plantings.map((p): PlantingWeek => {
      const [site] = p.sites;
      const [stand] = p.stands;
      const now: DayGrowth = dayGrowth(
        site.parameters,
        light.conditions,
        all[p.zone.index]!,
        densityOf(site, stand),
        capacityOf(site, stand),
      );
      return {
        index: p.zone.index,
        biomass: stand.biomass,
        mass: spanned(p, (s, { biomass }) => biomass * s.area),
        height: spanned(p, (_, { height }) => height),
        cover: spanned(p, standCover),
        leafArea: 2 * site.parameters.extinction * stand.biomass,
        settled: settledShare(site, stand),
        ppfd: now.ppfd,
        daily: now.daily,
        rate: now.gross - now.respiration - now.mortality,
        hold: now.hold,
        held: now.held,
        atSurface: !p.zone.afloat && stand.height >= atSurface * site.room,
        cut: p.cut,
      };
    }),
  };
}
