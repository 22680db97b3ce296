import { relation } from "../relation/index.ts";
import { choice, quantity, tankVolume } from "./usual-inputs.ts";

const radians = Math.PI / 180;

/** Share of a bed that water fills. @param bulk, @param solid density, kg/m3. Source: gw-project-31 */
export function bedPorosity(bulk: number, solid: number): number {
  return 1 - bulk / solid;
}

/**
 * Safety factor of a slope against sliding; the same dry and under water. @param friction, @param slope deg. Source:
 * hardin-hippley
 */
export function slopeSafety(friction: number, slope: number): number {
  return Math.tan(friction * radians) / Math.tan(slope * radians);
}

/** Steepest slope with a safety factor, deg. @param friction deg; @param factor 1.4 by design */
export function steepestSlope(friction: number, factor = 1.4): number {
  return Math.atan(Math.tan(friction * radians) / factor) / radians;
}

/** What a flooded organic soil gives to the water above, mg/(m2 d). Source: flooded-soil-1983 */
export const floodedSoil = { nitrogen: 45, phosphorus: 9.8 } as const;

/**
 * Nitrogen that a pool of a soil has given off.
 * @param pool g; @param rate 1/d; @param days d
 * @returns g. Source: zou-2018
 */
export function poolRelease(pool: number, rate: number, days: number): number {
  return pool * -Math.expm1(-rate * days);
}

/** Diffusivity of dissolved nutrients at 20 °C, m2/d. Source: pcditch */
export const poreDiffusivity = { nitrate: 8.6e-5, ammonium: 11.2e-5, phosphate: 7.2e-5 } as const;

/**
 * Flow of a nutrient out of a bed by diffusion from its middle.
 * @param diffusivity m2/d at 20 °C; @param porosity 0..1; @param pore, @param water concentrations, mg/L = g/m3
 * @param depth of the bed, m; @param t °C; @param stirring by burrowers, 1 = none
 * @returns g/(m2 d), negative into the bed. Source: pcditch
 */
export function bedDiffusion(
  diffusivity: number,
  porosity: number,
  pore: number,
  water: number,
  depth: number,
  t: number,
  stirring = 1,
): number {
  return (diffusivity * porosity ** (porosity + 1) * stirring * 1.02 ** (t - 20) * (pore - water)) / (depth / 2);
}

/**
 * How much slower than water a held nutrient moves through a bed.
 * @param bulk kg/L; @param partition L/kg; @param porosity 0..1
 */
export function retardation(bulk: number, partition: number, porosity: number): number {
  return 1 + (bulk * partition) / porosity;
}

const solidDensity = quantity("density of the solid matter", "kg/m3", 500, 6000, 2650);
const bulkDensity = quantity("dry bulk density", "kg/m3", 50, 3000);

export const groundRelations = [
  relation({
    id: "bed-volume",
    title: "Mass, pore water and displaced water of a bed",
    room: "plants",
    inputs: {
      volume: quantity("volume of the bed", "L", 0, 1e6),
      bulk_density: bulkDensity,
      solid_density: solidDensity,
      water_density: quantity("density of water", "kg/m3", 950, 1050, 997),
    },
    outputs: {
      porosity: { label: "share that water fills", unit: "1" },
      pore_water: { label: "pore water", unit: "L" },
      mass: { label: "dry mass", unit: "kg" },
      displaced: { label: "water displaced", unit: "L" },
      wet_bulk_density: { label: "bulk density when soaked", unit: "kg/m3" },
    },
    equation: "n = 1 - rho_b/rho_p; wet (1 - n) rho_p + n rho_w",
    sources: ["gw-project-31"],
    validity: "every open pore soaked",
    compute: (i) => {
      const porosity = bedPorosity(i.bulk_density, i.solid_density);
      return {
        porosity,
        pore_water: porosity * i.volume,
        mass: (i.bulk_density * i.volume) / 1000,
        displaced: (1 - porosity) * i.volume,
        wet_bulk_density: (1 - porosity) * i.solid_density + porosity * i.water_density,
      };
    },
  }),
  relation({
    id: "slope",
    title: "A slope of substrate: safety, rear depth, volume",
    room: "plants",
    inputs: {
      friction_angle: quantity("angle of friction", "deg", 5, 60, 30),
      slope: quantity("slope", "deg", 0.1, 80),
      front: quantity("depth at the front", "cm", 0, 200, 3),
      run: quantity("length from front to rear", "cm", 1, 1000, 40),
      width: quantity("width", "cm", 1, 1000, 60),
    },
    outputs: {
      safety: { label: "safety factor against sliding", unit: "1" },
      rear: { label: "depth at the rear", unit: "cm" },
      volume: { label: "volume", unit: "L" },
      steepest: { label: "steepest slope with a factor of 1.4", unit: "deg" },
    },
    equation: "FS = tan(phi)/tan(beta); rear = front + run tan(beta)",
    sources: ["hardin-hippley", "usace-em-1110-2-2504"],
    validity:
      "no retaining edge; digging animals halve the margin; settled slopes creep 10 to 20 % in months (common practice)",
    compute: (i) => {
      const rear = i.front + i.run * Math.tan(i.slope * radians);
      return {
        safety: slopeSafety(i.friction_angle, i.slope),
        rear,
        volume: (((i.front + rear) / 2) * i.run * i.width) / 1000,
        steepest: steepestSlope(i.friction_angle),
      };
    },
  }),
  relation({
    id: "flooded-soil-release",
    title: "Nitrogen and phosphorus that an organic soil gives to the water",
    room: "plants",
    inputs: { area: quantity("area of the bed", "m2", 0, 1000), volume: tankVolume },
    outputs: {
      nitrogen: { label: "ammonium nitrogen", unit: "mg/L/d" },
      phosphorus: { label: "phosphorus", unit: "mg/L/d" },
    },
    equation: "45 mg N and 9.8 mg P per m2 and day",
    sources: ["flooded-soil-1983"],
    validity: "the lasting release after the first weeks",
    compute: (i) => ({
      nitrogen: (floodedSoil.nitrogen * i.area) / i.volume,
      phosphorus: (floodedSoil.phosphorus * i.area) / i.volume,
    }),
  }),
  relation({
    id: "soil-pool-release",
    title: "Nitrogen given off by a new soil",
    room: "plants",
    inputs: {
      mass: quantity("mass of soil", "kg", 0, 1e5),
      nitrogen: quantity("nitrogen in the soil", "%", 0, 10),
      labile: quantity("share of it that is set free", "%", 0, 100, 5.2),
      rate: quantity("rate", "1/d", 0.0001, 2, 0.05),
      days: quantity("time", "d", 0, 3650),
      volume: tankVolume,
    },
    outputs: {
      pool: { label: "nitrogen that can be set free", unit: "g" },
      released: { label: "set free so far", unit: "mg" },
      rise: { label: "rise of ammonium nitrogen if it all stayed", unit: "mg/L" },
    },
    equation: "pool (1 - e^-kt)",
    sources: ["zou-2018"],
    validity: "share 1.6 to 10.4 %, rate 0.027 to 0.155 1/d at 35 °C; halve the rate at 25 °C",
    compute: (i) => {
      const pool = (1000 * i.mass * i.nitrogen * i.labile) / 1e4;
      const released = 1000 * poolRelease(pool, i.rate, i.days);
      return { pool, released, rise: released / i.volume };
    },
  }),
  relation({
    id: "bed-diffusion",
    title: "Nutrient that diffuses out of a bed",
    room: "plants",
    inputs: {
      nutrient: choice("nutrient", ["ammonium", "nitrate", "phosphate"], "ammonium"),
      porosity: quantity("porosity", "1", 0.05, 0.95, 0.45),
      pore: quantity("concentration in pore water", "mg/L", 0, 1e4),
      water: quantity("concentration in open water", "mg/L", 0, 1e4),
      depth: quantity("depth of the bed", "cm", 0.5, 100, 5),
      temperature: quantity("temperature", "°C", 0, 45, 25),
      stirring: quantity("stirring by burrowers, 1 = none", "1", 1, 10, 1),
    },
    outputs: { flow: { label: "flow out of the bed", unit: "g/m2/d" } },
    equation: "J = D n^(n + 1) b 1.02^(T - 20) (C_pore - C_w)/(depth/2)",
    sources: ["pcditch"],
    compute: (i) => ({
      flow: bedDiffusion(
        poreDiffusivity[i.nutrient],
        i.porosity,
        i.pore,
        i.water,
        i.depth / 100,
        i.temperature,
        i.stirring,
      ),
    }),
  }),
  relation({
    id: "ammonium-holding",
    title: "Ammonium a substrate can hold",
    room: "plants",
    inputs: {
      mass: quantity("dry mass", "kg", 0, 1e5),
      exchange: quantity("exchange capacity, hundredths of a mole of charge per kilogram", "1", 0, 500),
      bulk: quantity("dry bulk density", "kg/L", 0.05, 3, 0.9),
      partition: quantity("partition coefficient", "L/kg", 0, 1000, 5),
      porosity: quantity("porosity", "1", 0.05, 0.95, 0.6),
    },
    outputs: {
      capacity: { label: "nitrogen if every site held ammonium", unit: "g" },
      retardation: { label: "times slower than water", unit: "1" },
    },
    equation: "mass CEC/100 14.007; R = 1 + rho_b K_d/n",
    sources: ["brady-weil-2002"],
    validity: "the full capacity is never reached beside calcium; K_d 2 to 10 L/kg from memory, doubtful",
    compute: (i) => ({
      capacity: ((i.mass * i.exchange) / 100) * 14.007,
      retardation: retardation(i.bulk, i.partition, i.porosity),
    }),
  }),
] as const;
