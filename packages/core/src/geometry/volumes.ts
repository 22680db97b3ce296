import type { Corners, Slopes } from "./bilinear.ts";
import { type BasePlace, type BoxInput, type BoxSizes, boxSizes, glassMass } from "./box.ts";
import { displacedVolume, type SolidInput, waterDensity } from "./hardscape.ts";
import type { HeightField } from "./height-field.ts";
import { fieldFromCorners } from "./height-field-make.ts";
import { fieldAtLevel, fieldRange, fieldVolume, steepestPlace } from "./height-field-measure.ts";
import { type LayerInput, layerThickness, layerTops, volumesBelow } from "./layers.ts";

export interface ScapeInput {
  readonly box: BoxInput;
  /** From the bottom layer up. */
  readonly layers: readonly LayerInput[];
  /** Stone and wood. */
  readonly solids: readonly SolidInput[];
  /** Default "under". */
  readonly basePlace?: BasePlace;
}

export interface Volumes {
  /** Outside sizes multiplied, m³. */
  readonly nominal: number;
  /** Inside to the edge, m³. */
  readonly brim: number;
  /** Inside to the water line, m³. */
  readonly toWaterLine: number;
  /** Bed with its pores as it is laid, m³, whether or not all of it is under water; solids in it not taken off. */
  readonly substrateBulk: number;
  /** Water in the pores of the bed below the water line, m³; part of `net`. */
  readonly poreWater: number;
  /** Grains below the water line, m³: what the bed displaces. */
  readonly grains: number;
  /** Water and wet bed that stone and wood take the place of, m³. */
  readonly solids: number;
  /** All water in the tank: to the water line less grains and solids, m³. */
  readonly net: number;
  /** Inside floor, m². */
  readonly planArea: number;
  /** Floor to water line, m. */
  readonly waterDepth: number;
  /** Mean of the water above the bed, m; solids not taken off. */
  readonly meanFreeDepth: number;
  /** Mean depth of the bed, m. */
  readonly meanBedDepth: number;
  /** Floor area over which the bed lies below the water line, m². */
  readonly areaBelowWater: number;
  readonly bedSlopes: Slopes;
  /** kg; water at 25 °C; substrate weighed dry. */
  readonly masses: {
    readonly glass: number;
    readonly water: number;
    readonly substrate: number;
    readonly solids: number;
    readonly total: number;
  };
  /** Total mass over the outside footprint, kg/m²; cabinet and equipment come on top. */
  readonly loadPerArea: number;
}

interface Bed {
  readonly tops: readonly HeightField[];
  /** Bulk of each layer as laid, m³. */
  readonly bulk: readonly number[];
}

/** The bed of a scape and what stands in it, once they are known to be sound. */
function bedOf(scape: ScapeInput, sizes: BoxSizes): Bed {
  const thicknesses = scape.layers.map((layer) => layerThickness(layer, sizes.length, sizes.width));
  const tops = layerTops(thicknesses);
  const top = tops.at(-1);
  if (top && fieldRange(top).max > sizes.height)
    throw new RangeError("the substrate would stand higher than the glass");
  for (const solid of scape.solids) {
    const { shareUnderWater = 1, shareInBed = 0 } = solid;
    if (!(solid.mass >= 0 && solid.density > 0)) throw new RangeError("a solid needs a mass and a density above 0");
    if (!(shareUnderWater >= 0 && shareUnderWater <= 1 && shareInBed >= 0 && shareInBed <= shareUnderWater)) {
      throw new RangeError("the share under water must be 0 to 1, and that in the bed within it");
    }
  }
  return { tops, bulk: thicknesses.map(fieldVolume) };
}

/**
 * Share of a bed that solids leave to its grains and pores. Which layer a stone stands in is not asked: they all yield
 * alike.
 */
function leftOf(bulk: readonly number[], inBed: number): number {
  const all = bulk.reduce((sum, volume) => sum + volume, 0);
  return all > 0 ? Math.max(0, 1 - inBed / all) : 1;
}

/**
 * Volumes, depths and masses of a scaped tank.
 * @throws RangeError when the sizes contradict each other or leave no room for water.
 */
export function volumes(scape: ScapeInput): Volumes {
  const { box, layers } = scape;
  const sizes = boxSizes(box);
  const { tops, bulk } = bedOf(scape, sizes);
  let solids = 0;
  let inBed = 0;
  let solidMass = 0;
  for (const solid of scape.solids) {
    solids += displacedVolume(solid);
    inBed += (solid.mass / solid.density) * (solid.shareInBed ?? 0);
    solidMass += solid.mass;
  }
  const below = volumesBelow(tops, sizes.waterDepth);
  const wetLeft = leftOf(below, inBed);
  const laidLeft = leftOf(bulk, inBed);
  let poreWater = 0;
  let grains = 0;
  let substrate = 0;
  layers.forEach((layer, i) => {
    const wet = below[i]! * wetLeft;
    poreWater += layer.porosity * wet;
    grains += (1 - layer.porosity) * wet;
    substrate += layer.bulkDensity * bulk[i]! * laidLeft;
  });
  const net = sizes.toWaterLine - grains - solids;
  if (net < 0) throw new RangeError("substrate, stone and wood take more room than there is to the water line");
  const glass = glassMass(box, scape.basePlace);
  const water = net * waterDensity;
  const total = glass + water + substrate + solidMass;
  const top = tops.at(-1) ?? fieldFromCorners({ ...sizes, columns: 2, rows: 2 }, bare);
  const { over, dryArea } = fieldAtLevel(top, sizes.waterDepth);
  const substrateBulk = bulk.reduce((sum, volume) => sum + volume, 0);
  return {
    nominal: sizes.nominal,
    brim: sizes.brim,
    toWaterLine: sizes.toWaterLine,
    substrateBulk,
    poreWater,
    grains,
    solids,
    net,
    planArea: sizes.planArea,
    waterDepth: sizes.waterDepth,
    meanFreeDepth: over / sizes.planArea,
    meanBedDepth: substrateBulk / sizes.planArea,
    areaBelowWater: sizes.planArea - dryArea,
    bedSlopes: slopesOf(top),
    masses: { glass, water, substrate, solids: solidMass, total },
    loadPerArea: total / (box.length * box.width),
  };
}

const bare: Corners = { frontLeft: 0, frontRight: 0, backLeft: 0, backRight: 0 };

/** Rises of the mean from pane to pane, and the steepest place. */
function slopesOf(top: HeightField): Slopes {
  const { length, width, columns, rows, heights } = top;
  const along = (start: number, step: number, count: number): number => {
    let sum = 0;
    for (let i = 0; i < count; i++) sum += heights[start + i * step]! * (i === 0 || i === count - 1 ? 0.5 : 1);
    return sum / (count - 1);
  };
  const degrees = (tangent: number): number => (Math.atan(tangent) * 180) / Math.PI;
  const frontToBack = along((rows - 1) * columns, 1, columns) - along(0, 1, columns);
  const leftToRight = along(columns - 1, columns, rows) - along(0, columns, rows);
  return {
    frontToBack: degrees(frontToBack / width),
    leftToRight: degrees(leftToRight / length),
    steepest: steepestPlace(top)!.angle,
  };
}

export interface WaterLevel {
  /** Water line above the floor, m. */
  readonly depth: number;
  /** Water line below the upper edge, m. */
  readonly belowRim: number;
  /** Water that ran over, m³. */
  readonly spilled: number;
}

/**
 * Where the water stands after pouring `water` m³ into a scaped tank with dry, open pores. Solids displace their whole
 * share from the first drop, so a level below their tops reads a little high.
 */
export function waterLevel(scape: ScapeInput, water: number): WaterLevel {
  if (!(water >= 0)) throw new RangeError("the water poured must not be negative");
  const { layers, box } = scape;
  const sizes = boxSizes(box);
  const { tops } = bedOf(scape, sizes);
  let solids = 0;
  let inBed = 0;
  for (const solid of scape.solids) {
    solids += displacedVolume(solid);
    inBed += (solid.mass / solid.density) * (solid.shareInBed ?? 0);
  }
  function holds(depth: number): number {
    let volume = sizes.planArea * depth - solids;
    const below = volumesBelow(tops, depth);
    const left = leftOf(below, inBed);
    below.forEach((bulk, i) => {
      volume -= bulk * left * (1 - layers[i]!.porosity);
    });
    return volume;
  }
  const most = holds(sizes.height);
  if (water >= most) return { depth: sizes.height, belowRim: 0, spilled: water - most };
  let low = 0;
  let high = sizes.height;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (holds(middle) < water) low = middle;
    else high = middle;
  }
  const depth = (low + high) / 2;
  return { depth, belowRim: sizes.height - depth, spilled: 0 };
}
