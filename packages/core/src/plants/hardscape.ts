import { relation } from "../relation/index.ts";
import { quantity, tankVolume } from "./usual-inputs.ts";

/** Gravity of the wall substance of wood. Source: wood-handbook-4 */
export const woodSubstance = 1.54;

/** Most water a wood can hold, share of its dry mass. @param basic basic gravity. Source: wood-handbook-4 */
export function mostMoisture(basic: number, substance = woodSubstance): number {
  return (substance - basic) / (substance * basic);
}

/** Gravity of a fully soaked wood: always above 1, so it sinks. @param basic basic gravity */
export function soakedGravity(basic: number, substance = woodSubstance): number {
  return 1 + basic * (1 - 1 / substance);
}

/** Moisture, share of dry mass, above which a wood sinks. @param basic basic gravity */
export function sinkingMoisture(basic: number): number {
  return 1 / basic - 1;
}

/** Stone that holds down floating wood, kg. @param lift kg; @param stone, @param water density, kg/m3 */
export function stoneForLift(lift: number, stone: number, water: number): number {
  return lift / (1 - water / stone);
}

/** Hardness of one mg/L of dissolved calcium carbonate, dKH and dGH. */
const degreePerLime = 0.0560288;

const waterDensity = quantity("density of water", "kg/m3", 950, 1050, 997);

export const hardscapeRelations = [
  relation({
    id: "wood-soaking",
    title: "Wood in water: most moisture, soaked gravity, when it sinks",
    room: "plants",
    inputs: {
      basic_gravity: quantity("basic gravity: dry mass over soaked volume", "1", 0.05, 1.4),
      substance_gravity: quantity("gravity of the wall substance", "1", 1.4, 1.6, woodSubstance),
    },
    outputs: {
      most_moisture: { label: "most moisture", unit: "%" },
      soaked_gravity: { label: "gravity when soaked", unit: "1" },
      sinks_above: { label: "sinks above this moisture", unit: "%" },
    },
    equation: "100 (S - G)/(S G); 1 + G (1 - 1/S); 100 (1/G - 1)",
    sources: ["wood-handbook-4"],
    compute: (i) => ({
      most_moisture: 100 * mostMoisture(i.basic_gravity, i.substance_gravity),
      soaked_gravity: soakedGravity(i.basic_gravity, i.substance_gravity),
      sinks_above: 100 * sinkingMoisture(i.basic_gravity),
    }),
  }),
  relation({
    id: "wood-lift",
    title: "Lift of dry wood and the stone that holds it down",
    room: "plants",
    inputs: {
      volume: quantity("volume of the wood", "L", 0, 1e5),
      wood_density: quantity("density of the wood as it is", "kg/m3", 50, 1400),
      stone_density: quantity("density of the stone", "kg/m3", 1100, 5000, 2650),
      water_density: waterDensity,
    },
    outputs: {
      lift: { label: "lift; negative = it sinks", unit: "kg" },
      stone: { label: "mass of stone", unit: "kg" },
    },
    equation: "V (rho_w - rho_d); lift/(1 - rho_w/rho_s)",
    sources: ["arithmetic"],
    caution:
      "A piece that comes loose can break the glass: tie or wedge it as well, and rest no stone on the pane itself.",
    compute: (i) => {
      const lift = (i.volume / 1000) * (i.water_density - i.wood_density);
      return { lift, stone: Math.max(0, stoneForLift(lift, i.stone_density, i.water_density)) };
    },
  }),
  relation({
    id: "stone-in-water",
    title: "A stone in water",
    room: "plants",
    inputs: {
      mass: quantity("mass", "kg", 0, 1e5),
      density: quantity("density", "kg/m3", 300, 6000, 2650),
      water_density: waterDensity,
    },
    outputs: {
      displaced: { label: "water displaced", unit: "L" },
      weight: { label: "weight under water, as mass; negative = it floats", unit: "kg" },
    },
    equation: "m/rho_s; m (1 - rho_w/rho_s)",
    sources: ["arithmetic"],
    compute: (i) => ({
      displaced: (1000 * i.mass) / i.density,
      weight: i.mass * (1 - i.water_density / i.density),
    }),
  }),
  relation({
    id: "lime-dissolved",
    title: "What dissolved lime does to the water",
    room: "plants",
    inputs: { mass: quantity("calcium carbonate dissolved", "g", 0, 1e5), volume: tankVolume },
    outputs: {
      carbonate_hardness: { label: "rise of carbonate hardness", unit: "dKH" },
      general_hardness: { label: "rise of general hardness", unit: "dGH" },
      calcium: { label: "rise of calcium", unit: "mg/L" },
    },
    equation: "0.05603 degrees per mg/L, both alike; Ca 40.078/100.086",
    sources: ["iupac-weights"],
    compute: (i) => {
      const lime = (1000 * i.mass) / i.volume;
      return {
        carbonate_hardness: lime * degreePerLime,
        general_hardness: lime * degreePerLime,
        calcium: (lime * 40.078) / 100.086,
      };
    },
  }),
  relation({
    id: "tannin-leach",
    title: "Dissolved organic carbon leached by wood",
    room: "plants",
    inputs: {
      leachable: quantity("leachable carbon per dry wood", "mg/g", 0, 100, 5),
      wood: quantity("dry mass of wood", "g", 0, 1e6),
      rate: quantity("rate", "1/d", 0.001, 2, 0.1),
      days: quantity("time", "d", 0, 3650),
      volume: tankVolume,
    },
    outputs: {
      rise: { label: "rise if nothing left the water", unit: "mg/L" },
      rate_now: { label: "rise per day then", unit: "mg/L/d" },
    },
    equation: "dDOC/dt = k M e^(-kt)/V",
    sources: ["chosen"],
    validity: "design values, doubtful: leachable 1 to 10 mg/g, rate 0.05 to 0.2 1/d",
    compute: (i) => {
      const whole = (i.leachable * i.wood) / i.volume;
      return { rise: whole * -Math.expm1(-i.rate * i.days), rate_now: whole * i.rate * Math.exp(-i.rate * i.days) };
    },
  }),
] as const;
