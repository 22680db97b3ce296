import { relation } from "../relation/index.ts";
import { glassMass } from "./box.ts";
import { weightCaution } from "./cautions.ts";
import { boxInputs, boxOf, number, output, scapeInputs, sizesOf, telling } from "./inputs.ts";
import type { LayerInput } from "./layers.ts";
import { type ScapeInput, type Volumes, volumes, waterLevel } from "./volumes.ts";

const litresPerGallon = { US: 3.785411784, imperial: 4.54609 } as const;
const gravity = 9.80665;

export const tankVolume = relation({
  id: "tank-volume",
  title: "Volume of a glass box",
  room: "geometry",
  inputs: boxInputs,
  outputs: {
    nominal: output("outside sizes multiplied, as sold", "L"),
    nominal_us_gallons: output("the same", "US gal"),
    nominal_imperial_gallons: output("the same", "imp gal"),
    brim: output("inside, full to the edge", "L"),
    to_water_line: output("inside, to the water line", "L"),
    inside_length: output("inside length", "cm"),
    inside_width: output("inside width", "cm"),
    inside_height: output("inside height", "cm"),
    water_depth: output("floor to water line", "cm"),
    floor_area: output("inside floor", "m2"),
  },
  equation: "nominal = L W H; brim = (L - 2t)(W - 2t)(H - t_b); to the line: less the freeboard",
  sources: ["geometry", "unit-definitions"],
  validity: "nothing inside yet; a scaped tank holds 15-30 % less than its nominal volume",
  compute: (i) => {
    const sizes = sizesOf("tank-volume", boxOf(i));
    const nominal = sizes.nominal * 1000;
    return {
      nominal,
      nominal_us_gallons: nominal / litresPerGallon.US,
      nominal_imperial_gallons: nominal / litresPerGallon.imperial,
      brim: sizes.brim * 1000,
      to_water_line: sizes.toWaterLine * 1000,
      inside_length: sizes.length * 100,
      inside_width: sizes.width * 100,
      inside_height: sizes.height * 100,
      water_depth: sizes.waterDepth * 100,
      floor_area: sizes.planArea,
    };
  },
});

export const gallons = relation({
  id: "gallons",
  title: "Gallons in litres",
  room: "geometry",
  inputs: {
    gallons: number("gallons", "1", 0, 1e6),
    measure: { kind: "choice", label: "which gallon", options: ["US", "imperial"] },
  },
  outputs: { volume: output("volume", "L") },
  equation: "US gallon 3.785411784 L; imperial gallon 4.54609 L",
  sources: ["unit-definitions"],
  compute: ({ gallons, measure }) => ({ volume: gallons * litresPerGallon[measure] }),
});

export const glassMassRelation = relation({
  id: "glass-mass",
  title: "Mass of the empty glass box",
  room: "geometry",
  inputs: {
    ...boxInputs,
    base_place: { kind: "choice", label: "bottom pane", options: ["under", "between"], default: "under" },
  },
  outputs: { mass: output("glass, five panes without braces", "kg") },
  equation:
    "2 L (H - t_b) t + 2 (W - 2t)(H - t_b) t + L W t_b, times 2500 kg/m3 (bottom between the walls: full height, inner bottom)",
  sources: ["geometry", "float-glass"],
  validity: "braces, seams and a lid come on top",
  caution: `${weightCaution} Lift glass with enough people, gloves and suction grips.`,
  compute: (i) => {
    const box = boxOf(i);
    sizesOf("glass-mass", box);
    return { mass: glassMass(box, i.base_place) };
  },
});

interface ScapeValues {
  readonly substrate: number;
  readonly porosity: number;
  readonly stone: number;
  readonly stone_density: number;
  readonly wood: number;
  readonly wood_density: number;
}

/** A level bed with the grain density of quartz, stone and wood wholly under water. */
function scapeOf(id: string, box: ReturnType<typeof boxOf>, values: ScapeValues, grainDensity: number): ScapeInput {
  const depth = values.substrate / 1000 / sizesOf(id, box).planArea;
  const porosity = values.porosity / 100;
  const layer: LayerInput = {
    frontLeft: depth,
    frontRight: depth,
    backLeft: depth,
    backRight: depth,
    porosity,
    grainDensity,
    bulkDensity: (1 - porosity) * grainDensity,
  };
  return {
    box,
    layers: values.substrate > 0 ? [layer] : [],
    solids: [
      { mass: values.stone, density: values.stone_density },
      { mass: values.wood, density: values.wood_density },
    ],
  };
}

const quartz = 2650;

function volumesOf(id: string, scape: ScapeInput): Volumes {
  return telling(id, "substrate", () => volumes(scape));
}

export const netWater = relation({
  id: "net-water",
  title: "How much water is really in it?",
  room: "geometry",
  inputs: {
    ...boxInputs,
    ...scapeInputs,
    filter: number("water in filter, hoses and sump", "L", 0, 5000, 0),
  },
  outputs: {
    to_water_line: output("bare box to the water line", "L"),
    grains: output("displaced by substrate", "L"),
    stone_and_wood: output("displaced by stone and wood", "L"),
    net: output("water in the tank", "L"),
    pore_water: output("of it in the pores of the substrate", "L"),
    dosing_volume: output("water in tank and filter: dose on this", "L"),
    nominal: output("nominal volume", "L"),
    overdose: output("overdose if nominal were taken for it", "%"),
  },
  equation: "net = to the line - substrate (1 - porosity) - stone/density - wood/density; dosing volume = net + filter",
  sources: ["geometry", "trade-practice"],
  validity: "level bed; stone and wood wholly under water; within about 5 % with tape and scales",
  compute: (i) => {
    const scape = scapeOf("net-water", boxOf(i), i, quartz);
    const v = volumesOf("net-water", scape);
    const dosing = v.net * 1000 + i.filter;
    return {
      to_water_line: v.toWaterLine * 1000,
      grains: v.grains * 1000,
      stone_and_wood: v.solids * 1000,
      net: v.net * 1000,
      pore_water: v.poreWater * 1000,
      dosing_volume: dosing,
      nominal: v.nominal * 1000,
      overdose: 100 * ((v.nominal * 1000) / dosing - 1),
    };
  },
});

export const tankWeight = relation({
  id: "tank-weight",
  title: "What the whole tank weighs",
  room: "geometry",
  inputs: {
    ...boxInputs,
    ...scapeInputs,
    grain_density: number("density of the substrate's grains", "kg/m3", 500, 5000, quartz),
    cabinet: number("cabinet", "kg", 0, 5000, 0),
    equipment: number("filter, lamp, gas bottle and the rest", "kg", 0, 5000, 0),
  },
  outputs: {
    glass: output("glass", "kg"),
    net_water: output("water in the tank", "L"),
    water: output("its mass", "kg"),
    substrate: output("substrate, dry", "kg"),
    stone_and_wood: output("stone and wood", "kg"),
    total: output("all together", "kg"),
    weight: output("as a force", "kN"),
    mass_per_area: output("over the footprint", "kg/m2"),
    pressure: output("over the footprint", "Pa"),
  },
  equation:
    "glass 2500 kg/m3 + net water 997.05 kg/m3 + substrate (1 - porosity) grain density + stone + wood + cabinet + equipment; pressure = M g/(L W)",
  sources: ["geometry", "float-glass", "kell-1975", "groundwater-project"],
  validity: "people leaning on it, and uneven feet, come on top",
  caution: weightCaution,
  compute: (i) => {
    const box = boxOf(i);
    const v = volumesOf("tank-weight", scapeOf("tank-weight", box, i, i.grain_density));
    const total = v.masses.total + i.cabinet + i.equipment;
    const footprint = box.length * box.width;
    return {
      glass: v.masses.glass,
      net_water: v.net * 1000,
      water: v.masses.water,
      substrate: v.masses.substrate,
      stone_and_wood: v.masses.solids,
      total,
      weight: (total * gravity) / 1000,
      mass_per_area: total / footprint,
      pressure: (total * gravity) / footprint,
    };
  },
});

export const waterLevelRelation = relation({
  id: "water-level",
  title: "Where the water stands after filling",
  room: "geometry",
  inputs: {
    ...boxInputs,
    ...scapeInputs,
    poured: number("water poured in", "L", 0, 20_000),
  },
  outputs: {
    depth: output("water line above the floor", "cm"),
    below_edge: output("water line below the edge", "cm"),
    spilled: output("ran over", "L"),
    per_litre: output("rise of each further litre above the bed", "mm/L"),
  },
  equation: "depth at which box less grains, stone and wood holds the water poured",
  sources: ["geometry"],
  validity: "level bed with dry, open pores; stone and wood counted whole, so levels below their tops read high",
  caution: weightCaution,
  compute: (i) => {
    const box = boxOf(i);
    const scape = scapeOf("water-level", box, i, quartz);
    const level = telling("water-level", "substrate", () => waterLevel(scape, i.poured / 1000));
    return {
      depth: level.depth * 100,
      below_edge: level.belowRim * 100,
      spilled: level.spilled * 1000,
      per_litre: 1 / sizesOf("water-level", box).planArea,
    };
  },
});
