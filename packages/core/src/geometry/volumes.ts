import { aboveLevel, meanHeight, type Slopes, slopes } from "./bilinear.ts";
import { type BasePlace, type BoxInput, boxSizes, glassMass } from "./box.ts";
import { displacedVolume, type SolidInput, waterDensity } from "./hardscape.ts";
import { bedSurface, checkLayer, type LayerInput, volumesBelow } from "./layers.ts";

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
  /** Bed with its pores, m³, whether or not all of it is under water. */
  readonly substrateBulk: number;
  /** Water in the pores of the bed below the water line, m³; part of `net`. */
  readonly poreWater: number;
  /** Grains below the water line, m³: what the bed displaces. */
  readonly grains: number;
  /** Water that stone and wood take the place of, m³. */
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

/**
 * Volumes, depths and masses of a scaped tank.
 * @throws RangeError when the sizes contradict each other or leave no room for water.
 */
export function volumes(scape: ScapeInput): Volumes {
  const { box, layers } = scape;
  const sizes = boxSizes(box);
  checkContents(scape, sizes.height);
  const top = bedSurface(layers);
  const above = aboveLevel(top, sizes.waterDepth);
  const meanBedDepth = meanHeight(top);
  const below = volumesBelow(layers, sizes.planArea, sizes.waterDepth);
  let poreWater = 0;
  let grains = 0;
  let substrate = 0;
  layers.forEach((layer, i) => {
    const wet = below[i] as number;
    poreWater += layer.porosity * wet;
    grains += (1 - layer.porosity) * wet;
    substrate += layer.bulkDensity * meanHeight(layer) * sizes.planArea;
  });
  let solids = 0;
  let solidMass = 0;
  for (const solid of scape.solids) {
    solids += displacedVolume(solid);
    solidMass += solid.mass;
  }
  const net = sizes.toWaterLine - grains - solids;
  if (net < 0) throw new RangeError("substrate, stone and wood take more room than there is to the water line");
  const glass = glassMass(box, scape.basePlace);
  const water = net * waterDensity;
  const total = glass + water + substrate + solidMass;
  return {
    nominal: sizes.nominal,
    brim: sizes.brim,
    toWaterLine: sizes.toWaterLine,
    substrateBulk: meanBedDepth * sizes.planArea,
    poreWater,
    grains,
    solids,
    net,
    planArea: sizes.planArea,
    waterDepth: sizes.waterDepth,
    meanFreeDepth: sizes.waterDepth - (meanBedDepth - above.mean),
    meanBedDepth,
    areaBelowWater: sizes.planArea * (1 - above.share),
    bedSlopes: slopes(top, sizes.length, sizes.width),
    masses: { glass, water, substrate, solids: solidMass, total },
    loadPerArea: total / (box.length * box.width),
  };
}

function checkContents(scape: ScapeInput, insideHeight: number): void {
  for (const layer of scape.layers) checkLayer(layer);
  const top = bedSurface(scape.layers);
  if (Math.max(top.frontLeft, top.frontRight, top.backLeft, top.backRight) > insideHeight) {
    throw new RangeError("the substrate would stand higher than the glass");
  }
  for (const solid of scape.solids) {
    const share = solid.shareUnderWater ?? 1;
    if (!(solid.mass >= 0 && solid.density > 0)) throw new RangeError("a solid needs a mass and a density above 0");
    if (!(share >= 0 && share <= 1)) throw new RangeError("the share under water must be 0 to 1");
  }
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
  checkContents(scape, sizes.height);
  let solids = 0;
  for (const solid of scape.solids) solids += displacedVolume(solid);
  function holds(depth: number): number {
    let volume = sizes.planArea * depth - solids;
    volumesBelow(layers, sizes.planArea, depth).forEach((bulk, i) => {
      volume -= bulk * (1 - (layers[i] as LayerInput).porosity);
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
