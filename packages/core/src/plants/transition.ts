import { relation } from "../relation/index.ts";
import { freshPerDry } from "./stoichiometry.ts";
import { choice, plantArea, quantity } from "./usual-inputs.ts";

/** Time constant of the change from air to water leaves by growth class, d; common practice (1 to 3 weeks in all). */
export const transitionTime = { fast: 7, medium: 10, slow: 18 } as const;

/** Share of leaves already grown under water when a plant is set, by where it was raised. */
export const startOfTransition = { emersed: 0, "tissue culture": 0.5, submerged: 1 } as const;

/**
 * Capacity of leaves raised in air, once under water, against water leaves; from 0.005/0.017 in submergence-table-4.
 */
export const airLeafCapacity = 0.3;

/**
 * Share of leaves grown under water.
 * @param days since planting, d; @param time constant, d; @param start share at planting
 * @returns 0..1
 */
export function acclimatedShare(days: number, time: number, start = 0): number {
  return 1 - (1 - start) * Math.exp(-days / time);
}

/** Capacity of a plant with that share of water leaves, 0..1. */
export function acclimation(share: number, airCapacity: number = airLeafCapacity): number {
  return airCapacity + (1 - airCapacity) * share;
}

/** Share of nitrogen and phosphorus that dead matter gives off at once. Source: pcditch */
export const litterAtOnce = 0.25;

/** Decay of dead leaves, and of stems and roots, at 20 °C, 1/d. Sources: hill-1979, pcditch */
export const decayOfLeaves = 0.03;
export const decayOfStems = 0.01;

/**
 * Decay rate of dead plant matter at a temperature.
 * @param at20 rate at 20 °C, 1/d; @param t °C
 * @returns 1/d. Source: pcditch
 */
export function decayRate(at20: number, t: number): number {
  return at20 * 1.07 ** (t - 20);
}

/** Mortality of a stand that has lost biomass for a week, against the usual; design value. */
export const starvedMortality = 4;

export const transitionRelations = [
  relation({
    id: "air-to-water",
    title: "Capacity of a plant raised in air, some days after planting",
    room: "plants",
    inputs: {
      days: quantity("days since planting", "d", 0, 3650),
      growth: choice("growth class", ["fast", "medium", "slow"], "medium"),
      raised: choice("raised", ["emersed", "tissue culture", "submerged"], "emersed"),
      air_capacity: quantity("capacity of air leaves under water", "1", 0, 1, airLeafCapacity),
    },
    outputs: {
      share: { label: "share of leaves grown under water", unit: "1" },
      capacity: { label: "capacity against a settled plant", unit: "1" },
    },
    equation: "tau' = (1 - tau)/T; s = s0 + (1 - s0) tau",
    sources: ["submergence-table-4", "trade", "chosen"],
    validity: "species with leaves for both may show no loss",
    compute: (i) => {
      const share = acclimatedShare(i.days, transitionTime[i.growth], startOfTransition[i.raised]);
      return { share, capacity: acclimation(share, i.air_capacity) };
    },
  }),
  relation({
    id: "trim",
    title: "What a trim takes out of the tank",
    room: "plants",
    inputs: {
      area: plantArea,
      biomass: quantity("dry biomass of the shoots", "g/m2", 0, 2000),
      fraction: quantity("share cut", "1", 0, 1),
      nitrogen: quantity("nitrogen in dry mass", "1", 0, 0.12, 0.025),
      phosphorus: quantity("phosphorus in dry mass", "1", 0, 0.03, 0.003),
    },
    outputs: {
      dry: { label: "dry mass out", unit: "g" },
      fresh: { label: "fresh mass out", unit: "g" },
      nitrogen_out: { label: "nitrogen out", unit: "mg" },
      phosphorus_out: { label: "phosphorus out", unit: "mg" },
      left: { label: "dry biomass left", unit: "g/m2" },
    },
    equation: "A B f; fresh = 16.7 dry",
    sources: ["klein-2022", "arithmetic"],
    validity: "fresh over dry is 8 to 20 in tank plants; cuttings left floating root again",
    compute: (i) => {
      const dry = i.area * i.biomass * i.fraction;
      return {
        dry,
        fresh: freshPerDry * dry,
        nitrogen_out: 1000 * dry * i.nitrogen,
        phosphorus_out: 1000 * dry * i.phosphorus,
        left: i.biomass * (1 - i.fraction),
      };
    },
  }),
  relation({
    id: "litter-release",
    title: "Nitrogen given off by dead leaves",
    room: "plants",
    inputs: {
      mass: quantity("dry mass of litter", "g", 0, 1e5),
      nitrogen: quantity("nitrogen in dry mass", "1", 0, 0.12, 0.025),
      decay: quantity("decay rate", "1/d", 0.0001, 2, decayOfLeaves),
      at_once: quantity("share given off at once", "1", 0, 1, litterAtOnce),
      days: quantity("time", "d", 0, 3650),
    },
    outputs: {
      first: { label: "given off at once", unit: "mg" },
      total: { label: "given off in all", unit: "mg" },
    },
    equation: "m n [s + (1 - s)(1 - e^-kt)]",
    sources: ["pcditch", "hill-1979"],
    compute: (i) => {
      const whole = 1000 * i.mass * i.nitrogen;
      const first = i.at_once * whole;
      return { first, total: first + (whole - first) * -Math.expm1(-i.decay * i.days) };
    },
  }),
  relation({
    id: "decay-rate",
    title: "Decay rate of dead plant matter",
    room: "plants",
    inputs: {
      decay_20: quantity("decay rate at 20 °C", "1/d", 0.0001, 1, decayOfStems),
      temperature: quantity("temperature", "°C", 0, 45),
    },
    outputs: { decay: { label: "decay rate", unit: "1/d" } },
    equation: "k20 1.07^(T - 20)",
    sources: ["pcditch"],
    compute: (i) => ({ decay: decayRate(i.decay_20, i.temperature) }),
  }),
] as const;
