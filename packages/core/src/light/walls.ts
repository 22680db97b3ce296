import { relation } from "../relation/index.ts";
import { criticalAngle, diffuseReflectance, GLASS_INDEX, paneTransmission, reflectance } from "./fresnel.ts";
import { integral } from "./quadrature.ts";
import { quantity, refractiveIndex } from "./usual-inputs.ts";

/**
 * Light that entered through a flat top leaves through a bare side wall only where sin(angle in air) |cos(azimuth from
 * the wall's normal)| exceeds this figure; above 1 none ever does. A pane of glass between changes nothing in that.
 * @param n refractive index of the water
 */
export const wallLimit = (n: number): number => Math.sqrt(n * n - 1);

/** Smallest angle from the vertical in air whose light can leave straight through a wall, rad; pi/2 = none can. */
export const wallAngle = (n: number): number => Math.asin(Math.min(1, wallLimit(n)));

/** Height over horizontal distance above which a lamp sends nothing straight out through a wall. */
export const wallHeightRatio = (n: number): number => 1 / Math.tan(wallAngle(n));

/** Part of half a turn in which one of four walls lies within reach of an azimuth of that cosine. */
const azimuths = (limit: number): number => Math.min(1, (4 / Math.PI) * Math.acos(Math.min(1, limit)));

/**
 * Of evenly diffuse light that entered through the top: share beyond the limit for some wall of a box, and what it loses
 * when it first meets that wall.
 * @param n refractive index; @param glass index of the pane, or null for a bare water face
 * @returns shares of the light that entered, 0..1. Source: fresnel
 */
export function diffuseWallLoss(n: number, glass: number | null = null): { beyond: number; lost: number } {
  const limit = wallLimit(n);
  if (limit >= 1) return { beyond: 0, lost: 0 };
  const entered = 1 - diffuseReflectance(n);
  const through = (sine: number): number => {
    const edge = Math.acos(limit / sine);
    return integral(
      (azimuth) => {
        const cosine = (sine * Math.cos(azimuth)) / n;
        return glass === null ? 1 - reflectance(cosine, n, 1) : paneTransmission(cosine, n, glass, 1);
      },
      0,
      edge,
    );
  };
  const over = (f: (sine: number) => number): number =>
    integral(
      (c) => {
        const sine = Math.sqrt(1 - c * c);
        return 2 * c * (1 - reflectance(c, 1, n)) * f(sine);
      },
      0,
      Math.sqrt(1 - limit * limit),
    ) / entered;
  return {
    beyond: over((sine) => azimuths(limit / sine)),
    // opposite and neighbouring walls share the turn in four equal parts as long as the limit stays above cos 45°
    lost: over((sine) => (4 / Math.PI) * through(sine)),
  };
}

/** Segments of a disc of radius r beyond four lines at distance c from its middle, over the unit disc. */
function beyondFourLines(r: number, c: number): number {
  if (c >= r) return 0;
  const q = c / r;
  const segments = (4 * r * r * (Math.acos(q) - q * Math.sqrt(1 - q * q))) / Math.PI;
  const end = Math.sqrt(Math.max(0, r * r - c * c));
  if (end <= c) return segments;
  const under = (x: number): number =>
    0.5 * (x * Math.sqrt(Math.max(0, r * r - x * x)) + r * r * Math.asin(Math.min(1, x / r)));
  const corner = under(end) - under(c) - c * (end - c);
  return segments - (4 * corner) / Math.PI;
}

/** Where the light of a matt floor in a box can go, shares 0..1. Source: fresnel */
export interface FloorEscape {
  /** Inside the cone that leaves through the top. */
  readonly top: number;
  /** Inside the cone of some wall. */
  readonly wall: number;
  /** Inside both. */
  readonly both: number;
  /** Trapped until it is scattered again. */
  readonly none: number;
}

/** Escape of a matt floor's light; exact, since such light is even over the disc of its horizontal directions. */
export function floorEscape(n: number): FloorEscape {
  const edge = Math.cos(criticalAngle(n));
  const top = 1 / (n * n);
  const wall = beyondFourLines(1, edge);
  const both = beyondFourLines(1 / n, edge);
  return { top, wall, both, none: 1 - top - wall + both };
}

/** Share of light even over all directions that lies in the cone of one face, and outside those of all six. */
export function evenEscape(n: number): { oneFace: number; none: number } {
  const edge = Math.cos(criticalAngle(n));
  const oneFace = 0.5 * (1 - edge);
  // at height z the directions that clear all four walls lie between acos and asin of edge over the circle's radius
  const clear = (z: number): number => {
    const q = edge / Math.sqrt(1 - z * z);
    return q >= 1 ? 1 : Math.max(0, 1 - (4 / Math.PI) * Math.acos(q));
  };
  const open = Math.min(edge, Math.sqrt(Math.max(0, 1 - edge * edge)));
  // below this height the four walls' cones reach all the way round
  const shut = Math.min(edge, Math.sqrt(Math.max(0, 1 - 2 * edge * edge)));
  const none = integral(clear, shut, open) + integral(clear, open, edge);
  return { oneFace, none };
}

export const wallRelations = [
  relation({
    id: "wall-escape",
    title: "Light that can leave through the side walls",
    room: "light",
    inputs: { index: refractiveIndex, glass: quantity("refractive index of the panes", "1", 1.4, 1.7, GLASS_INDEX) },
    outputs: {
      limit: { label: "limit of sin(angle) cos(azimuth) in air; above 1 none leaves", unit: "1" },
      angle: { label: "angle from the vertical beyond which light leaves; 90 = none", unit: "deg" },
      height_ratio: { label: "height over distance above which a lamp leaks nothing directly", unit: "1" },
      beyond: { label: "share of diffuse light beyond the limit", unit: "1" },
      lost_bare: { label: "lost where it first meets a bare wall", unit: "1" },
      lost_glass: { label: "lost where it first meets a pane", unit: "1" },
    },
    equation: "sin(a) |cos(psi)| > sqrt(n2 - 1); height/distance = 1/tan(angle)",
    sources: ["fresnel"],
    validity:
      "Light that came in through a flat top and has not been scattered; walls in air, without film or background.",
    compute: ({ index, glass }) => {
      const bare = diffuseWallLoss(index);
      return {
        limit: wallLimit(index),
        angle: (wallAngle(index) * 180) / Math.PI,
        height_ratio: wallHeightRatio(index),
        beyond: bare.beyond,
        lost_bare: bare.lost,
        lost_glass: diffuseWallLoss(index, glass).lost,
      };
    },
  }),
  relation({
    id: "scattered-light-escape",
    title: "Where light scattered inside a tank can leave it",
    room: "light",
    inputs: { index: refractiveIndex },
    outputs: {
      top: { label: "of a matt floor's light: in the cone of the top", unit: "1" },
      wall: { label: "in the cone of some wall", unit: "1" },
      both: { label: "in both", unit: "1" },
      none: { label: "in none", unit: "1" },
      even_one_face: { label: "of light even in all directions: in the cone of one face", unit: "1" },
      even_none: { label: "outside those of all six", unit: "1" },
    },
    equation: "cones of half-angle asin(1/n) about each face's normal",
    sources: ["fresnel"],
    validity: "Box with bare faces; partial reflection inside the cones is left out.",
    compute: ({ index }) => {
      const even = evenEscape(index);
      return { ...floorEscape(index), even_one_face: even.oneFace, even_none: even.none };
    },
  }),
] as const;
