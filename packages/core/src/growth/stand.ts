/** One planting as it grows: how its mass, its clumps and its height move by days, and what a cut leaves. */
import type { PlantFact } from "../facts/index.ts";
import {
  acclimatedShare,
  acclimation,
  closureBiomass,
  coverOf,
  type PatchParameters,
  spreadSpeed,
  standHeight,
  transitionTime,
} from "../plants/index.ts";

/** What a planting is and where it stands: fixed over its course. */
export interface Site {
  readonly fact: PlantFact;
  /** As the course takes them: the doubt of a low or high course is in them. */
  readonly parameters: PatchParameters;
  /** Ground that it is planted over, m2. */
  readonly area: number;
  readonly portions: number;
  /** Water above its foot, m. */
  readonly room: number;
}

/** A planting on a day. Lengths in m, masses dry. */
export interface Stand {
  /** Over all of its ground, g/m2. */
  readonly biomass: number;
  /** Of it, leaves raised in air that will still be shed, g/m2. */
  readonly airLeaves: number;
  /** Reach of the clump about each portion; Infinity where it stands over all of its ground. */
  readonly reach: number;
  readonly height: number;
  /** Height and mass within its clumps from which the height goes on, and the mass that a metre more takes, g/m2. */
  readonly from: { readonly height: number; readonly biomass: number; readonly perMetre: number };
  /** Days in a row on which it lost by itself. */
  readonly lean: number;
  /** Days until a cut stem shoots again. */
  readonly rest: number;
  /** Days since planting, and the share of leaves grown under water on that day. */
  readonly days: number;
  readonly settledFrom: number;
}

/** Rates of a day, 1/d of the mass. */
export interface DayRates {
  readonly gross: number;
  readonly respiration: number;
  readonly mortality: number;
}

/** Share of a plant's mass that is leaves raised in air and is shed under water; common practice 0.3 to 0.6, no source. */
export const airLeafShare = 0.45;
/** Most dry mass that stands on a square metre under water, g/m2. Source: pcditch. */
export const mostBiomass = 500;
/** Days that a cut stem rests before side shoots grow; common practice 2 to 5, no source. */
const cutRest = 3;
/** Shoots for each one cut; common practice (the cut stem sends out side shoots), design value. */
const shootsPerCut = 1.8;
/** Mass that a metre of a stand of stems takes, g/m2 (400 stems/m2 of 0.4 g/m), and bounds of what a plan may say. Design values. */
const stemPerMetre = { usual: 160, least: 60, most: 900 } as const;
/** Mass in a clump against that of a closed stand when portions are set; design value. */
const clumpDensity = 0.5;
/** Days of loss after which shedding rises, and by how much; design values. */
const leanDays = 7;
const leanShedding = 4;
/** A loss under this, 1/d, is a stand that holds its own. */
const evenly = 1e-9;

const clumps = ({ form }: PlantFact): boolean => spreadSpeed(form)[1] > 0 && form !== "rosette" && form !== "bulb";

/** Share of its ground that the clumps take, met at random (Avrami's law of growing discs). */
export function takenShare({ area, portions }: Pick<Site, "area" | "portions">, reach: number): number {
  return Number.isFinite(reach) ? -Math.expm1((-portions * Math.PI * reach * reach) / area) : 1;
}

/** The reach at which clumps take a share of their ground. */
export function reachOf({ area, portions }: Pick<Site, "area" | "portions">, share: number): number {
  return share < 1 ? Math.sqrt((-Math.log1p(-share) * area) / (portions * Math.PI)) : Number.POSITIVE_INFINITY;
}

/** Mass within its clumps, g/m2. */
export function densityOf(site: Site, { biomass, reach }: Pick<Stand, "biomass" | "reach">): number {
  return biomass / takenShare(site, reach);
}

/** Share of its ground that a stand's leaves cover. */
export function standCover(site: Site, stand: Stand): number {
  return takenShare(site, stand.reach) * coverOf(site.fact.form, densityOf(site, stand));
}

/** Share of its leaves grown under water. */
export function settledShare({ fact }: Site, { days, settledFrom }: Stand): number {
  return acclimatedShare(days, transitionTime[fact.growth], settledFrom);
}

/**
 * A stand to begin from.
 * @param biomass g/m2 over its ground; @param height m
 * @param settled share of leaves already grown under water
 */
export function standFrom(site: Site, biomass: number, height: number, settled: number): Stand {
  const share = clumps(site.fact) ? Math.min(1, biomass / (clumpDensity * closureBiomass(site.fact.form))) : 1;
  const reach = reachOf(site, share);
  const top = Math.min(height, site.room);
  const density = biomass / takenShare(site, reach);
  const perMetre =
    top > 0 ? Math.min(stemPerMetre.most, Math.max(stemPerMetre.least, density / top)) : stemPerMetre.usual;
  return {
    biomass,
    airLeaves: airLeafShare * (1 - settled) * biomass,
    reach,
    height: top,
    from: { height: top, biomass: density, perMetre },
    lean: 0,
    rest: 0,
    days: 0,
    settledFrom: settled,
  };
}

/** Height of a stand that goes on from one that is known. @param density within its clumps, g/m2 */
function heightOf({ fact, room }: Site, { height, biomass, perMetre }: Stand["from"], density: number): number {
  if (fact.form === "floating") return height;
  if (density <= biomass && fact.form === "stem") return biomass > 0 ? height * (density / biomass) : height;
  if (fact.form === "stem") return Math.min(room, height + (density - biomass) / perMetre);
  const law = (b: number): number =>
    standHeight(fact.form, b, fact.heightMin, fact.heightMax, Number.POSITIVE_INFINITY);
  const [then, now] = [law(biomass), law(density)];
  if (now <= then) return Math.min(room, then > 0 ? height * (now / then) : height);
  const most = Math.max(fact.heightMax, height);
  const left = Math.max(fact.heightMax - then, 1e-9);
  return Math.min(room, height + (most - height) * Math.min(1, (now - then) / left));
}

/** Capacity of its leaves, 0 to 1: leaves raised in air work badly under water. */
export const capacityOf = (site: Site, stand: Stand): number => acclimation(settledShare(site, stand));

/**
 * A stand a day later. Its own growth is taken at the middle of the day, exact where the rates do not change with its mass.
 * @param rates of the day at a mass within its clumps, g/m2
 */
export function dayLater(site: Site, stand: Stand, rates: (density: number) => DayRates): Stand {
  const taken = takenShare(site, stand.reach);
  const resting = stand.rest > 0;
  const net = (biomass: number): number => {
    const { gross, respiration, mortality } = rates(biomass / taken);
    const losses = respiration + mortality * (stand.lean >= leanDays ? leanShedding : 1);
    // a stem that was just cut keeps what it has: what it fixes goes into buds
    return resting ? Math.min(0, gross - losses) : gross - losses;
  };
  const first = net(stand.biomass);
  const rate = net(stand.biomass * Math.exp(first / 2));
  const { fact } = site;
  const speed = (spreadSpeed(fact.form)[0] + spreadSpeed(fact.form)[1]) / 2 / 7;
  const open = Number.isFinite(stand.reach) && coverOf(fact.form, stand.biomass / taken) > 0.5;
  const reach = open ? stand.reach + speed * Math.min(1, Math.max(0, rate / fact.rgrMax)) : stand.reach;
  const shed = stand.airLeaves * -Math.expm1(-1 / transitionTime[fact.growth]);
  const share = takenShare(site, reach);
  const grown = stand.biomass * Math.exp(rate);
  const biomass = Math.max(
    0,
    Math.min(grown - Math.min(shed, grown), site.parameters.floating ? grown : mostBiomass * share),
  );
  // what spreads stays as high as it is, and so do bare stems that lose their leaves
  const bare = fact.form === "stem" ? shed / share : 0;
  const from = { ...stand.from, biomass: Math.max(0, (stand.from.biomass * taken) / share - bare) };
  return {
    ...stand,
    biomass,
    airLeaves: stand.airLeaves - shed,
    reach,
    height: heightOf(site, from, biomass / share),
    from,
    lean: rate < -evenly && !resting ? stand.lean + 1 : 0,
    rest: Math.max(0, stand.rest - 1),
    days: stand.days + 1,
  };
}

/**
 * A stand after a cut to a height.
 * @param to m, below its height
 */
export function cutTo(site: Site, stand: Stand, to: number): Stand {
  const kept = Math.min(1, to / stand.height);
  const biomass = stand.biomass * kept;
  const stem = site.fact.form === "stem";
  return {
    ...stand,
    biomass,
    airLeaves: stand.airLeaves * kept,
    height: Math.min(stand.height, to),
    from: {
      height: Math.min(stand.height, to),
      biomass: biomass / takenShare(site, stand.reach),
      perMetre: Math.min(stemPerMetre.most, stand.from.perMetre * (stem ? shootsPerCut : 1)),
    },
    rest: stem ? cutRest : 0,
  };
}
