import { relation } from "../relation/index.ts";
import { reflectance } from "./fresnel.ts";
import { integral } from "./quadrature.ts";
import { quantity, refractiveIndex } from "./usual-inputs.ts";

/** Cosine in water of a ray whose cosine in air is given. */
const cosineInWater = (cosineAir: number, n: number): number => Math.sqrt(1 - (1 - cosineAir * cosineAir) / (n * n));

/**
 * Share of evenly diffuse light above a flat surface that reaches a depth in water that does not scatter.
 * @param tau absorption times depth, >= 0; @param n refractive index
 * @returns 0..1. Source: fresnel
 */
export const diffuseThroughWater = (tau: number, n: number): number =>
  integral((c) => 2 * c * (1 - reflectance(c, 1, n)) * Math.exp(-tau / cosineInWater(c, n)), 0, 1);

/** The same for diffuse light that is not bent: 2 E3(tau). */
export const diffuseThroughSlab = (tau: number): number => integral((c) => 2 * c * Math.exp(-tau / c), 0, 1);

/**
 * Share of the light of a matt floor that comes back to it from the surface, water absorbing on the way up and down.
 * @param tau absorption times depth, >= 0; @param n refractive index
 * @returns 0..1. Source: fresnel
 */
export function returnedFromSurface(tau: number, n: number): number {
  const limit = Math.sqrt(1 - 1 / (n * n));
  const total = integral((c) => 2 * c * Math.exp((-2 * tau) / c), 0, limit);
  const partly = integral((c) => 2 * c * reflectance(c, 1, n) * Math.exp((-2 * tau) / cosineInWater(c, n)), 0, 1);
  return total + partly / (n * n);
}

/** Factor by which a matt floor of some albedo raises its own light under a wide flat surface. */
export const floorGain = (albedo: number, tau: number, n: number): number =>
  1 / (1 - albedo * returnedFromSurface(tau, n));

/**
 * Mean light on the walls of a closed matt box over that of black ones, no absorption inside.
 * @param flux umol/s; @param area of all faces, m2; @param albedo of all faces, 0 to below 1
 * @returns umol/m2/s
 */
export function closedBoxMean(flux: number, area: number, albedo: number): number {
  if (!(albedo < 1)) throw new RangeError(`closed box: albedo ${albedo}; allowed is below 1`);
  return flux / (area * (1 - albedo));
}

/** Share of diffuse light that crosses an absorbing ball once. @param x absorption times radius, >= 0. Source: kirk-1997 */
export const ballTransit = (x: number): number => integral((c) => 2 * c * Math.exp(-2 * x * c), 0, 1);

const opticalDepth = quantity("absorption times depth", "1", 0, 20);

export const slabRelations = [
  relation({
    id: "diffuse-light-in-water",
    title: "Diffuse light that reaches the bottom of wide water",
    room: "light",
    inputs: { optical_depth: opticalDepth, index: refractiveIndex },
    outputs: {
      share: { label: "share that arrives", unit: "1" },
      unbent: { label: "share without surface and bending", unit: "1" },
    },
    equation: "n2 integral(2 mu (1 - R) exp(-tau/mu) dmu) above the critical angle; 2 E3(tau)",
    sources: ["fresnel"],
    validity: "Even sky, flat surface, no scattering, no walls.",
    compute: ({ optical_depth, index }) => ({
      share: diffuseThroughWater(optical_depth, index),
      unbent: diffuseThroughSlab(optical_depth),
    }),
  }),
  relation({
    id: "floor-gain",
    title: "Gain of light by a pale floor",
    room: "light",
    inputs: {
      albedo: quantity("albedo of the floor under water", "1", 0, 0.95),
      optical_depth: { ...opticalDepth, default: 0 },
      index: refractiveIndex,
    },
    outputs: {
      gain: { label: "factor on the light at the floor", unit: "1" },
      returned: { label: "share of the floor's light that comes back", unit: "1" },
    },
    equation: "1/(1 - albedo r), r = 2 integral(mu R exp(-2 tau/mu) dmu)",
    sources: ["fresnel"],
    validity: "Wide water, flat surface, matt floor.",
    compute: ({ albedo, optical_depth, index }) => ({
      gain: floorGain(albedo, optical_depth, index),
      returned: returnedFromSurface(optical_depth, index),
    }),
  }),
  relation({
    id: "integrating-cavity",
    title: "Light in a matt ball filled with absorbing water",
    room: "light",
    inputs: {
      absorption: quantity("absorption", "1/m", 0, 100),
      radius: quantity("radius", "m", 0.001, 2),
      albedo: quantity("albedo of the wall", "1", 0, 0.99),
    },
    outputs: {
      transit: { label: "share that survives one crossing", unit: "1" },
      gain: { label: "light on the wall over that of a black one without bounces", unit: "1" },
    },
    equation: "P = [1 - exp(-2 a r)(2 a r + 1)]/(2 a2 r2); gain = P/(1 - albedo P)",
    sources: ["kirk-1997"],
    compute: ({ absorption, radius, albedo }) => {
      const transit = ballTransit(absorption * radius);
      return { transit, gain: transit / (1 - albedo * transit) };
    },
  }),
  relation({
    id: "closed-box-light",
    title: "Mean light on the faces of a closed matt box",
    room: "light",
    inputs: {
      flux: quantity("photon flux released inside", "umol/s", 0, 100_000),
      area: quantity("area of all faces", "m2", 0.001, 1000),
      albedo: quantity("albedo of all faces", "1", 0, 0.99),
    },
    outputs: { mean: { label: "mean photon flux density", unit: "umol/m2/s" } },
    equation: "E = flux/(A (1 - albedo))",
    sources: ["definition"],
    compute: ({ flux, area, albedo }) => ({ mean: closedBoxMean(flux, area, albedo) }),
  }),
] as const;
