/** The plantings of a scape as the course of growth takes them. */
import { fieldHeight, outlineCentroid } from "../geometry/index.ts";
import { type PatchParameters, patchParameters } from "../plants/index.ts";
import type { Scape, Zone } from "../scape/index.ts";
import { plantedAs, settledAs } from "./planting-day.ts";
import { type Site, type Stand, standFrom } from "./stand.ts";

/** Where a course begins: with portions just set, or with the plants as the plan tells them. */
export type Start = "planting" | "plan";

/** Least water that is counted above a planting, m: leaves need some. Design value. */
const leastRoom = 0.03;

function topOf(positions: Float64Array): number {
  let top = 0;
  for (let i = 2; i < positions.length; i += 3) top = Math.max(top, positions[i]!);
  return top;
}

/** Water above the foot of a planting, m. What grows on a piece has its foot half way up it. */
function roomAbove(scape: Scape, zone: Zone): number {
  const piece = zone.on === null ? undefined : scape.pieces[zone.on];
  const [x, y] = outlineCentroid(zone.outline);
  const foot = piece ? topOf(piece.mesh.positions) / 2 : fieldHeight(scape.ground, x, y);
  return Math.max(leastRoom, scape.waterDepth - foot);
}

/** Growth, respiration and shedding of a species at so many times its usual rate. */
const atRate = (p: PatchParameters, rate: number): PatchParameters => ({
  ...p,
  muMax: p.muMax * rate,
  respiration20: p.respiration20 * rate,
  mortality: p.mortality * rate,
});

/** @param rate times the usual rate of growth, respiration and shedding */
export function siteOf(scape: Scape, zone: Zone, rate = 1): Site {
  return {
    fact: rate === 1 ? zone.fact : { ...zone.fact, rgrMax: zone.fact.rgrMax * rate },
    parameters: atRate(patchParameters(zone.fact), rate),
    area: zone.area,
    portions: Math.max(1, zone.portions),
    room: roomAbove(scape, zone),
  };
}

/** A planting on the first day. */
export function firstStand(site: Site, zone: Zone, start: Start): Stand {
  const { planting } = zone;
  if (start === "plan") return standFrom(site, planting.biomass.value, planting.height.value, 1);
  const { biomass, height } = plantedAs(zone, site.room);
  return standFrom(site, biomass, height, settledAs[planting.raised.value]);
}
