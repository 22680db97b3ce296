import { findRootNewton } from "../numerics/index.ts";
import { relation } from "../relation/index.ts";
import { reflectance } from "./fresnel.ts";
import { lobeExponent, quantity, refractiveIndex, waterDepth } from "./usual-inputs.ts";

/** A small source over or under a flat water surface and a level receiver on the other side. Lengths in m. */
export interface SurfacePath {
  /** Distance of the air end from the surface, above 0. */
  readonly height: number;
  /** Distance of the water end from the surface, >= 0. */
  readonly depth: number;
  /** Horizontal distance between both ends, >= 0. */
  readonly offset: number;
  /** Refractive index of the water. */
  readonly index: number;
  /** Absorption of the water, 1/m. */
  readonly absorption: number;
}

/** The bent ray that joins both ends. */
export interface BentRay {
  /** Cosines of the angles from the vertical. */
  readonly cosineAir: number;
  readonly cosineWater: number;
  /** Horizontal distance from the air end to where the ray meets the surface, m. */
  readonly entry: number;
  /** Tangent of the angle in water over that in air. */
  readonly tangents: number;
}

/**
 * Finds the ray between a point in air and one in water, by Newton's method kept in a bracket on the tangent of the
 * angle in air, in which the offset grows evenly.
 * @throws RangeError unless height is above 0, depth and offset are not negative. Sources: fresnel, flux-tube
 */
export function bentRay({ height, depth, offset, index }: Omit<SurfacePath, "absorption">): BentRay {
  if (!(height > 0 && depth >= 0 && offset >= 0 && index >= 1)) {
    throw new RangeError(
      `ray through the surface: height ${height} m, depth ${depth} m, offset ${offset} m, index ${index}; height must be above 0, the others not negative, the index at least 1`,
    );
  }
  const extra = index * index - 1;
  const square = (u: number): number => index * index + extra * u * u;
  const far = offset / height;
  // next to the axis tangent and offset are in proportion; a root would have to be sought among figures without digits
  const steep = offset <= 1e-9 * (height + depth);
  const u = steep
    ? offset / (height + depth / index)
    : findRootNewton(
        (t) => height * t + (depth * t) / Math.sqrt(square(t)) - offset,
        (t) => height + (depth * index * index) / square(t) ** 1.5,
        0,
        // room for rounding, where the depth adds next to nothing
        far * (1 + 1e-9),
        { xtol: 1e-14 * far },
      );
  const cosineAir = 1 / Math.hypot(1, u);
  const tangents = 1 / Math.sqrt(square(u));
  return { cosineAir, cosineWater: 1 / Math.hypot(1, u * tangents), entry: height * u, tangents };
}

/**
 * Irradiance on a level plane in the water from a source in air.
 * @param intensity of the source, umol/s/sr, at the cosine of the angle from straight down
 * @returns umol/m2/s. On the axis I T exp(-a d)/(h + d/n)2. Source: flux-tube
 */
export function lampThroughSurface(intensity: (cosine: number) => number, path: SurfacePath): number {
  const { height, depth, index, absorption } = path;
  const { cosineAir, cosineWater, tangents } = bentRay(path);
  const ring = height / cosineAir ** 2 + (depth * cosineAir) / (index * cosineWater ** 3);
  const passed = (1 - reflectance(cosineAir, 1, index)) * Math.exp((-absorption * depth) / cosineWater);
  return (intensity(cosineAir) * passed * cosineAir) / ((height + depth * tangents) * ring);
}

/**
 * Irradiance on a level plane in the air from a source in the water; the intensity is that in the water.
 * @returns umol/m2/s. On the axis I T exp(-a d)/(n h + d)2. Source: flux-tube
 */
export function lampOutOfWater(intensity: (cosine: number) => number, path: SurfacePath): number {
  const { height, depth, index, absorption } = path;
  const { cosineAir, cosineWater, tangents } = bentRay(path);
  const ring = depth / cosineWater ** 2 + (height * index * cosineWater) / cosineAir ** 3;
  const passed = (1 - reflectance(cosineWater, index, 1)) * Math.exp((-absorption * depth) / cosineWater);
  return (intensity(cosineWater) * passed * cosineWater * tangents) / ((height + depth * tangents) * ring);
}

const intensity = quantity("intensity on the axis", "umol/s/sr", 0, 100_000);
const offset = quantity("horizontal distance from the axis", "m", 0, 10, 0);
const absorption = quantity("absorption of the water", "1/m", 0, 30, 0);
const ppfd = { label: "photon flux density", unit: "umol/m2/s" } as const;

export const refractionRelations = [
  relation({
    id: "point-light-in-water",
    title: "Photon flux at depth from a small lamp over the water",
    room: "light",
    inputs: {
      intensity,
      exponent: { ...lobeExponent, default: 0 },
      height: quantity("height of the lamp above the water", "m", 0.005, 20),
      depth: waterDepth,
      offset,
      absorption,
      index: refractiveIndex,
    },
    outputs: {
      ppfd,
      angle: { label: "angle of the light in the water from the vertical", unit: "deg" },
      entry: { label: "where it enters, from below the lamp", unit: "m" },
    },
    equation:
      "E = I T exp(-a d/cos w) sin a/(r (h/cos2 a + d cos a/(n cos3 w))), r = h tan a + d tan w, sin a = n sin w",
    sources: ["flux-tube", "fresnel"],
    validity: "Flat open water: light that side walls send back is not in it, and doubles the figure in a narrow tank.",
    compute: (i) => {
      const ray = bentRay(i);
      return {
        ppfd: lampThroughSurface((cosine) => i.intensity * cosine ** i.exponent, i),
        angle: (Math.acos(ray.cosineWater) * 180) / Math.PI,
        entry: ray.entry,
      };
    },
  }),
  relation({
    id: "point-light-out-of-water",
    title: "Photon flux above the water from a small lamp in it",
    room: "light",
    inputs: {
      intensity,
      height: quantity("height of the receiver above the water", "m", 0.005, 20),
      depth: waterDepth,
      offset,
      absorption,
      index: refractiveIndex,
    },
    outputs: { ppfd },
    equation: "E = I T exp(-a d/cos w) sin w/(r (d/cos2 w + h n cos w/cos3 a))",
    sources: ["flux-tube", "fresnel"],
    validity: "Lamp that shines alike to all sides, flat open water.",
    compute: (i) => ({ ppfd: lampOutOfWater(() => i.intensity, i) }),
  }),
] as const;
