import { relation } from "../relation/index.ts";
import { integral } from "./quadrature.ts";
import { choice, quantity, refractiveIndex } from "./usual-inputs.ts";

const RAD = Math.PI / 180;

/** Refractive index used for tank water unless told otherwise: moving it within its range alters light by under 0.3 %. */
export const WATER_INDEX = 1.333;
/** Refractive index of window glass. */
export const GLASS_INDEX = 1.52;

/**
 * Refractive index of fresh water.
 * @param nm wavelength in air, nm, 400 to 700; @param t temperature, °C, 0 to 30
 * @returns pure number. Source: quan-fry-1995
 */
export function waterIndex(nm: number, t: number): number {
  return 1.31405 - 2.02e-6 * t * t + (15.868 - 0.00423 * t) / nm - 4382 / nm ** 2 + 1.1455e6 / nm ** 3;
}

/** Shares reflected of the two polarisations, 0..1; both 1 beyond the critical angle. */
export interface Reflected {
  readonly s: number;
  readonly p: number;
}

/**
 * Reflection at a flat boundary by polarisation.
 * @param cosine of the angle to the normal on the side the light comes from, 0..1
 * @param from @param to refractive indices. Source: fresnel
 */
export function fresnel(cosine: number, from: number, to: number): Reflected {
  const sine = (from / to) * Math.sqrt(Math.max(0, 1 - cosine * cosine));
  if (sine >= 1) return { s: 1, p: 1 };
  const beyond = Math.sqrt(1 - sine * sine);
  const s = (from * cosine - to * beyond) / (from * cosine + to * beyond);
  const p = (from * beyond - to * cosine) / (from * beyond + to * cosine);
  return { s: s * s, p: p * p };
}

/** Share of unpolarised light reflected at a flat boundary, 0..1. Arguments as `fresnel`. */
export function reflectance(cosine: number, from: number, to: number): number {
  const { s, p } = fresnel(cosine, from, to);
  return 0.5 * (s + p);
}

/** Angle in the water beyond which nothing leaves through a flat surface, rad. @param n refractive index, above 1 */
export const criticalAngle = (n: number): number => Math.asin(1 / n);

/** Share of evenly diffuse light from the air that a flat surface reflects, 0..1. */
export const diffuseReflectance = (n: number): number => integral((c) => 2 * c * reflectance(c, 1, n), 0, 1);

/** Share of evenly diffuse light in the water that the surface sends back, 0..1: 1 - (1 - r)/n2. */
export const diffuseReflectanceInside = (n: number): number => 1 - (1 - diffuseReflectance(n)) / (n * n);

/**
 * Share that passes a pane without absorption, light bouncing inside it; polarisations apart.
 * @param cosine of the angle in the first medium; @param from @param pane @param to refractive indices
 */
export function paneTransmission(cosine: number, from: number, pane: number, to: number): number {
  const inside = Math.sqrt(Math.max(0, 1 - (from / pane) ** 2 * (1 - cosine * cosine)));
  const first = fresnel(cosine, from, pane);
  const second = fresnel(inside, pane, to);
  const through = (a: number, b: number): number => (a * b < 1 ? ((1 - a) * (1 - b)) / (1 - a * b) : 0);
  return 0.5 * (through(first.s, second.s) + through(first.p, second.p));
}

/** Share of evenly diffuse light from the air that passes a pane into the water behind it. @param n index of the water */
export const diffusePaneTransmission = (n: number, pane = GLASS_INDEX): number =>
  integral((c) => 2 * c * paneTransmission(c, 1, pane, n), 0, 1);

const angleFromNormal = quantity("angle from the normal", "deg", 0, 90);

export const fresnelRelations = [
  relation({
    id: "surface-reflection",
    title: "Bending and reflection of light at a flat water surface",
    room: "light",
    inputs: {
      way: choice("way of the light", ["air to water", "water to air"], "air to water"),
      angle: { ...angleFromNormal, label: "angle from the vertical on the side it comes from" },
      index: refractiveIndex,
    },
    outputs: {
      reflected: { label: "share reflected; 1 = all of it", unit: "1" },
      beyond: { label: "angle from the vertical on the other side; 90 = nothing passes", unit: "deg" },
    },
    equation: "sin(a) = n sin(w); R = (Rs + Rp)/2 of Fresnel",
    sources: ["fresnel"],
    validity: "Unpolarised light, flat surface.",
    compute: ({ way, angle, index }) => {
      const [from, to] = way === "air to water" ? [1, index] : [index, 1];
      const sine = (from / to) * Math.sin(angle * RAD);
      return {
        reflected: reflectance(Math.cos(angle * RAD), from, to),
        beyond: sine < 1 ? Math.asin(sine) / RAD : 90,
      };
    },
  }),
  relation({
    id: "surface-limits",
    title: "Critical angle and diffuse reflection of a water surface",
    room: "light",
    inputs: { index: refractiveIndex },
    outputs: {
      critical: { label: "angle in the water beyond which nothing leaves", unit: "deg" },
      straight: { label: "share reflected at right angles", unit: "1" },
      from_air: { label: "share of diffuse light reflected from above", unit: "1" },
      from_water: { label: "share of diffuse light sent back from below", unit: "1" },
    },
    equation: "asin(1/n); ((n-1)/(n+1))2; 2 integral(mu R dmu); 1 - (1 - r)/n2",
    sources: ["fresnel"],
    compute: ({ index }) => ({
      critical: criticalAngle(index) / RAD,
      straight: reflectance(1, 1, index),
      from_air: diffuseReflectance(index),
      from_water: diffuseReflectanceInside(index),
    }),
  }),
  relation({
    id: "water-refractive-index",
    title: "Refractive index of fresh water",
    room: "light",
    inputs: {
      wavelength: quantity("wavelength", "nm", 400, 700, 550),
      temperature: quantity("water temperature", "°C", 0, 30, 25),
    },
    outputs: { index: { label: "refractive index", unit: "1" } },
    equation:
      "n = 1.31405 - 2.02e-6 T2 + (15.868 - 0.00423 T)/lambda - 4382/lambda2 + 1.1455e6/lambda3 (T in °C, lambda in nm)",
    sources: ["quan-fry-1995"],
    compute: ({ wavelength, temperature }) => ({ index: waterIndex(wavelength, temperature) }),
  }),
  relation({
    id: "pane-transmission",
    title: "Light through a pane of glass",
    room: "light",
    inputs: {
      pane: choice("where", ["cover, air to air", "wall, water to air", "no pane, water to air"], "cover, air to air"),
      angle: angleFromNormal,
      glass: quantity("refractive index of the pane", "1", 1.4, 1.7, GLASS_INDEX),
      index: refractiveIndex,
    },
    outputs: { share: { label: "share that passes", unit: "1" } },
    equation: "(1 - R1)(1 - R2)/(1 - R1 R2) for each polarisation, mean of both",
    sources: ["fresnel"],
    validity: "Clean glass that absorbs nothing. A dirty or tinted cover takes more.",
    compute: ({ pane, angle, glass, index }) => {
      const cosine = Math.cos(angle * RAD);
      if (pane === "no pane, water to air") return { share: 1 - reflectance(cosine, index, 1) };
      return { share: paneTransmission(cosine, pane === "cover, air to air" ? 1 : index, glass, 1) };
    },
  }),
] as const;
