import { relation } from "../relation/index.ts";
import { meanHeight, slopes } from "./bilinear.ts";
import { stoneCaution, weightCaution } from "./cautions.ts";
import { ballast, submergedWeight, waterDensity, woodLift, woodSinking } from "./hardscape.ts";
import { number, output, telling } from "./inputs.ts";
import { bagsNeeded, designSlope, porosityOf, rearDepth, slopeFactor, wetBulkDensity } from "./substrate.ts";

const depth = (where: string) => number(`depth ${where}`, "cm", 0, 100);
const bulk = number("dry bulk density", "kg/m3", 100, 3000, 1500);
const grain = number("density of the grains", "kg/m3", 300, 5000, 2650);

export const substrateVolume = relation({
  id: "substrate-volume",
  title: "Volume and mass of a substrate bed",
  room: "geometry",
  inputs: {
    length: number("inside length", "cm", 3, 1000),
    width: number("inside width", "cm", 3, 500),
    front_left: depth("front left"),
    front_right: depth("front right"),
    back_left: depth("back left"),
    back_right: depth("back right"),
    bulk_density: bulk,
    grain_density: grain,
  },
  outputs: {
    volume: output("bulk volume", "L"),
    mean_depth: output("mean depth", "cm"),
    mass: output("dry mass", "kg"),
    displaced: output("water displaced by the grains", "L"),
    pore_water: output("water in the pores", "L"),
    porosity: output("share of pores", "%"),
    front_to_back: output("slope from front to back", "deg"),
    steepest: output("steepest place", "deg"),
  },
  equation: "volume = L W (mean of the four corners); mass = bulk density x volume; displaced = mass/grain density",
  sources: ["geometry", "groundwater-project"],
  validity: "surface straight along its edges; settled slopes creep 10-20 % in months",
  caution: weightCaution,
  compute: (i) => {
    const porosity = telling("substrate-volume", "bulk_density", () =>
      checkedPorosity(i.bulk_density, i.grain_density),
    );
    const corners = {
      frontLeft: i.front_left,
      frontRight: i.front_right,
      backLeft: i.back_left,
      backRight: i.back_right,
    };
    const mean = meanHeight(corners);
    const volume = (i.length * i.width * mean) / 1000;
    const slope = slopes(corners, i.length, i.width);
    return {
      volume,
      mean_depth: mean,
      mass: (volume * i.bulk_density) / 1000,
      displaced: volume * (1 - porosity),
      pore_water: volume * porosity,
      porosity: 100 * porosity,
      front_to_back: slope.frontToBack,
      steepest: slope.steepest,
    };
  },
});

function checkedPorosity(bulkDensity: number, grainDensity: number): number {
  const porosity = porosityOf(bulkDensity, grainDensity);
  if (porosity < 0) throw new RangeError("must not be above the density of the grains");
  return porosity;
}

export const substratePorosity = relation({
  id: "substrate-porosity",
  title: "Pores, mass and displaced water of a substrate",
  room: "geometry",
  inputs: {
    volume: number("bulk volume", "L", 0, 10_000, 1),
    bulk_density: bulk,
    grain_density: grain,
  },
  outputs: {
    porosity: output("share of pores", "1"),
    pore_water: output("water in the pores", "L"),
    mass: output("dry mass", "kg"),
    displaced: output("water displaced", "L"),
    wet_density: output("density with full pores", "kg/m3"),
  },
  equation: "n = 1 - bulk/grain; wet density = (1 - n) grain + n water",
  sources: ["groundwater-project"],
  validity: "for porous grains (fired clay, soil granules) give the density of their substance, not of the grain",
  compute: (i) => {
    const n = telling("substrate-porosity", "bulk_density", () => checkedPorosity(i.bulk_density, i.grain_density));
    return {
      porosity: n,
      pore_water: n * i.volume,
      mass: (i.volume * i.bulk_density) / 1000,
      displaced: (1 - n) * i.volume,
      wet_density: wetBulkDensity(n, i.grain_density),
    };
  },
});

export const substrateBulkDensity = relation({
  id: "substrate-density-by-bucket",
  title: "Bulk and grain density from a bucket and a measuring jug",
  room: "geometry",
  inputs: {
    mass: number("dry mass", "kg", 0.01, 5000),
    bulk_volume: number("its volume as it lies", "L", 0.01, 5000),
    displaced: number("water it displaces", "L", 0.001, 5000),
  },
  outputs: {
    bulk_density: output("bulk density", "kg/m3"),
    grain_density: output("density of the grains", "kg/m3"),
    porosity: output("share of pores", "1"),
  },
  equation: "bulk = mass/volume; grain = mass/displaced; n = 1 - displaced/volume",
  sources: ["groundwater-project"],
  compute: (i) => ({
    bulk_density: (1000 * i.mass) / i.bulk_volume,
    grain_density: (1000 * i.mass) / i.displaced,
    porosity: telling("substrate-density-by-bucket", "displaced", () => {
      if (i.displaced > i.bulk_volume) throw new RangeError("must not be more than the bulk volume");
      return 1 - i.displaced / i.bulk_volume;
    }),
  }),
});

export const substrateBags = relation({
  id: "substrate-bags",
  title: "How many bags to buy",
  room: "geometry",
  inputs: {
    volume: number("bed wanted, bulk", "L", 0, 10_000),
    bag: number("content of a bag", "1", 0.1, 2000),
    sold_by: { kind: "choice", label: "content told in", options: ["L", "kg"], default: "L" },
    bulk_density: bulk,
    settling: number("allowance for settling", "%", 0, 50, 10),
  },
  outputs: {
    bags: output("bags", "1"),
    bought: output("bulk volume bought", "L"),
    mass: output("mass bought", "kg"),
  },
  equation: "bags = volume (1 + settling)/bag, rounded up; a bag in kg holds kg/bulk density",
  sources: ["geometry", "trade-practice"],
  validity: "slopes settle by 10-20 % in months",
  caution: weightCaution,
  compute: (i) => {
    const bag = i.sold_by === "L" ? { litres: i.bag } : { kilograms: i.bag };
    const bags = bagsNeeded(i.volume / 1000, bag, i.bulk_density, i.settling / 100);
    const litres = i.sold_by === "L" ? bags * i.bag : (bags * i.bag * 1000) / i.bulk_density;
    return { bags, bought: litres, mass: (litres * i.bulk_density) / 1000 };
  },
});

export const substrateSlope = relation({
  id: "substrate-slope",
  title: "Will the slope hold?",
  room: "geometry",
  inputs: {
    friction_angle: number("friction angle (sand 30, gravel 36, granules 34)", "deg", 15, 50, 30),
    slope: number("slope of the bed", "deg", 0.1, 80),
    front: number("depth at the front", "cm", 0, 100, 3),
    run: number("front to back", "cm", 1, 500, 40),
    width: number("left to right", "cm", 1, 1000, 60),
  },
  outputs: {
    safety: output("factor of safety", "1"),
    design_slope: output("steepest slope at a factor of 1.4", "deg"),
    rear: output("depth at the back", "cm"),
    volume: output("bulk volume of the bed", "L"),
  },
  equation: "FS = tan(friction)/tan(slope); rear = front + run tan(slope)",
  sources: ["slope-repose", "friction-angles", "design"],
  validity: "long even slope, the same dry and under water; stones and digging fish halve the margin",
  caution: stoneCaution,
  compute: (i) => {
    const rear = rearDepth(i.front, i.run, i.slope);
    return {
      safety: slopeFactor(i.friction_angle, i.slope),
      design_slope: designSlope(i.friction_angle),
      rear,
      volume: (((i.front + rear) / 2) * i.run * i.width) / 1000,
    };
  },
});

export const stoneDisplacement = relation({
  id: "stone-displacement",
  title: "What a stone displaces and weighs under water",
  room: "geometry",
  inputs: {
    mass: number("stone", "kg", 0, 10_000),
    density: number("density of the stone", "kg/m3", 300, 5000, 2700),
    water_density: number("density of the water", "kg/m3", 950, 1050, waterDensity),
    floor_area: number("inside floor of the tank", "m2", 0.01, 100, 0.5),
  },
  outputs: {
    displaced: output("water displaced", "L"),
    submerged: output("weight under water, as a scale shows it", "kg"),
    rise: output("rise of the water line", "mm"),
  },
  equation: "displaced = m/density; under water m (1 - water/density)",
  sources: ["rock-densities", "kell-1975", "geometry"],
  caution: stoneCaution,
  compute: (i) => {
    const displaced = (1000 * i.mass) / i.density;
    return {
      displaced,
      submerged: submergedWeight(i.mass, i.density, i.water_density),
      rise: displaced / i.floor_area,
    };
  },
});

export const woodSinkingRelation = relation({
  id: "wood-sinking",
  title: "When wood sinks",
  room: "geometry",
  inputs: {
    basic_gravity: number("basic specific gravity: dry mass over green volume", "1", 0.1, 1.5),
  },
  outputs: {
    maximum_moisture: output("water it can hold, of its dry mass", "%"),
    soaked_density: output("density when soaked, against water", "1"),
    sinks_above: output("moisture above which it sinks", "%"),
  },
  equation: "max = 100 (1.54 - G)/(1.54 G); soaked = 1 + 0.3506 G; sinks above 100 (1/G - 1)",
  sources: ["wood-handbook"],
  validity: "softwood and roots 0.45-0.6, oak 0.6-0.75, dense tropical 0.8-1.05; weeks to months of soaking",
  compute: ({ basic_gravity }) => {
    const wood = woodSinking(basic_gravity);
    return { maximum_moisture: wood.maximumMoisture, soaked_density: wood.soaked, sinks_above: wood.sinksAbove };
  },
});

export const woodBallast = relation({
  id: "wood-ballast",
  title: "Stone to hold floating wood down",
  room: "geometry",
  inputs: {
    volume: number("wood", "L", 0, 5000),
    density: number("density of the wood as it is", "kg/m3", 100, 1500),
    stone_density: number("density of the stone", "kg/m3", 1100, 5000, 2650),
    water_density: number("density of the water", "kg/m3", 950, 1050, waterDensity),
  },
  outputs: {
    lift: output("lift", "kg"),
    stone: output("stone that just holds it", "kg"),
  },
  equation: "lift = V (water - wood); stone = lift/(1 - water/stone)",
  sources: ["wood-handbook", "kell-1975"],
  validity: "just in balance: take half as much again",
  caution: stoneCaution,
  compute: (i) => {
    const lift = woodLift(i.volume / 1000, i.density, i.water_density);
    return { lift, stone: ballast(lift, i.stone_density, i.water_density) };
  },
});
