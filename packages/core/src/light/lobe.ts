import { relation } from "../relation/index.ts";
import { airHeight, beamAngle, lobeExponent, photonFlux, quantity, waterDepth } from "./usual-inputs.ts";

const RAD = Math.PI / 180;

/**
 * Exponent m of a lobe I = I0 cos^m(theta) whose intensity is half at half the beam angle.
 * @param beam full beam angle, deg, above 0, below 180
 * @returns pure number; 1 for 120°, which is how matt paper spreads light. Source: definition
 */
export function lobeFromBeamAngle(beam: number): number {
  if (!(beam > 0 && beam < 180)) throw new RangeError(`beam angle: ${beam} deg; allowed is above 0 and below 180 deg`);
  return -Math.LN2 / Math.log(Math.cos((beam * RAD) / 2));
}

/** Full beam angle of a lobe, deg. @param m lobe exponent, above 0 */
export const beamAngleOf = (m: number): number => (2 * Math.acos(2 ** (-1 / m))) / RAD;

/**
 * Intensity of a downward lobe.
 * @param flux photon flux, umol/s; @param m lobe exponent, >= 0; @param cosine of the angle from straight down
 * @returns umol/s per steradian; none upwards
 */
export const lobeIntensity = (flux: number, m: number, cosine: number): number =>
  cosine > 0 ? ((flux * (m + 1)) / (2 * Math.PI)) * cosine ** m : 0;

/** Share of a lobe's flux within an angle from its axis, 0..1. @param angle rad, 0 to pi/2 */
export const lobeShareWithin = (m: number, angle: number): number => 1 - Math.cos(angle) ** (m + 1);

/**
 * Share of a lobe's flux that enters a round opening below it, source on the axis.
 * @param m lobe exponent; @param radius of the opening; @param height of the source above it, same unit
 */
export const lobeThroughOpening = (m: number, radius: number, height: number): number =>
  1 - (height / Math.hypot(height, radius)) ** (m + 1);

/**
 * Radius of the half-intensity edge of a beam at some depth.
 * @param beam full beam angle, deg; @param height above the water, m; @param depth m; @param n refractive index
 * @returns m
 */
export function beamFootprint(beam: number, height: number, depth: number, n: number): number {
  const half = (beam * RAD) / 2;
  return height * Math.tan(half) + depth * Math.tan(Math.asin(Math.sin(half) / n));
}

export const lobeRelations = [
  relation({
    id: "beam-lobe",
    title: "Lobe of a lamp from its beam angle",
    room: "light",
    inputs: {
      beam_angle: beamAngle,
      within: quantity("half-angle of a cone to count the flux in", "deg", 0, 90, 30),
    },
    outputs: {
      exponent: { label: "lobe exponent m", unit: "1" },
      peak: { label: "intensity on the axis per flux", unit: "1/sr" },
      share: { label: "share of the flux inside the cone", unit: "1" },
    },
    equation: "m = ln 0.5/ln cos(beam/2); I0/flux = (m + 1)/(2 pi); share = 1 - cos^(m+1)",
    sources: ["definition"],
    validity: "One lens or none, light downwards only; measured intensities are better where there are any.",
    compute: ({ beam_angle, within }) => {
      const exponent = lobeFromBeamAngle(beam_angle);
      return { exponent, peak: lobeIntensity(1, exponent, 1), share: lobeShareWithin(exponent, within * RAD) };
    },
  }),
  relation({
    id: "lobe-through-opening",
    title: "Share of a lamp's light that enters a round opening",
    room: "light",
    inputs: {
      exponent: lobeExponent,
      radius: quantity("radius of the opening", "m", 0.01, 5),
      height: quantity("height of the lamp above the opening", "m", 0, 20),
    },
    outputs: { share: { label: "share that enters", unit: "1" } },
    equation: "1 - cos^(m+1)(atan(R/h))",
    sources: ["definition"],
    validity: "Small lamp on the axis.",
    compute: ({ exponent, radius, height }) => ({ share: lobeThroughOpening(exponent, radius, height) }),
  }),
  relation({
    id: "beam-footprint",
    title: "Width of a lamp's beam at the bottom of the water",
    room: "light",
    inputs: {
      beam_angle: beamAngle,
      height: airHeight,
      depth: waterDepth,
      flux: { ...photonFlux, default: 50 },
      index: quantity("refractive index of the water", "1", 1, 1.5, 1.333),
    },
    outputs: {
      radius: { label: "radius of the half-intensity edge", unit: "m" },
      diameter: { label: "its diameter", unit: "m" },
      mean: { label: "mean photon flux density inside, nothing lost", unit: "umol/m2/s" },
    },
    equation: "r = h tan(beam/2) + d tan(theta_w), sin(theta_w) = sin(beam/2)/n; mean = flux in the cone/(pi r2)",
    sources: ["definition", "fresnel"],
    validity: "Small lamp, no walls in the way; reflection at the surface and absorption are left out.",
    compute: ({ beam_angle, height, depth, flux, index }) => {
      const radius = beamFootprint(beam_angle, height, depth, index);
      const inside = flux * lobeShareWithin(lobeFromBeamAngle(beam_angle), (beam_angle * RAD) / 2);
      return { radius, diameter: 2 * radius, mean: inside / (Math.PI * radius * radius) };
    },
  }),
] as const;
