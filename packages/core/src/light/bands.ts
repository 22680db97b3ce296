import { PAR_FROM, PAR_TO } from "./photons.ts";
import { parPhotons, photonsBetween, type Spectrum } from "./spectrum.ts";
import { type WaterColour, waterAbsorption, waterScattering } from "./water-optics.ts";

/** Edges of the six bands in which light is followed through a tank, nm. */
export const BAND_EDGES = [400, 450, 500, 550, 600, 650, 700] as const;

/** Light of a spectrum in six bands of 50 nm and what a water does to it. */
export interface LightBands {
  /** Share of the photons 400 to 700 nm in each band; they add up to 1. */
  readonly share: readonly number[];
  /** Photon-weighted mean absorption of the water in each band, 1/m. */
  readonly absorption: readonly number[];
  /** Photon-weighted mean scattering in each band, 1/m. */
  readonly scattering: readonly number[];
}

function checkWater(water: WaterColour): void {
  for (const [name, value] of Object.entries(water)) {
    if (!(value >= 0 && value < Number.POSITIVE_INFINITY)) {
      throw new RangeError(`water: ${name} is ${value}; allowed is any figure from 0 up`);
    }
  }
}

/**
 * Bands of a spectrum between any whole wavelengths; a band without light takes its plain mean absorption.
 * @param edges nm, rising, within 400 to 700
 */
export function bandsBetween(spectrum: Spectrum, water: WaterColour, edges: readonly number[]): LightBands {
  checkWater(water);
  const total = parPhotons(spectrum);
  const flat = spectrum.map(() => 1);
  const bands = edges.slice(1).map((to, i) => {
    const from = edges[i]!;
    const photons = photonsBetween(spectrum, from, to);
    const [light, norm] = photons > 1e-9 * total ? [spectrum, photons] : [flat, photonsBetween(flat, from, to)];
    return {
      share: photons / total,
      absorption: photonsBetween(light, from, to, (nm) => waterAbsorption(nm, water)) / norm,
      scattering: photonsBetween(light, from, to, (nm) => waterScattering(nm, water)) / norm,
    };
  });
  return {
    share: bands.map((b) => b.share),
    absorption: bands.map((b) => b.absorption),
    scattering: bands.map((b) => b.scattering),
  };
}

/**
 * Six bands of 50 nm, 400 to 700 nm. Against integration by 1 nm the light through 0.4 m of strongly tanned water is
 * 0.15 % low. Sources: pope-fry-1997, bricaud-1981, bricaud-1995
 */
export const bandsOf = (spectrum: Spectrum, water: WaterColour): LightBands =>
  bandsBetween(spectrum, water, BAND_EDGES);

/** Share of the photons that bands let through along a path, m. */
export const bandTransmittance = ({ share, absorption }: LightBands, path: number): number =>
  share.reduce((sum, part, i) => sum + part * Math.exp(-absorption[i]! * path), 0);

/**
 * Share of a spectrum's photons 400 to 700 nm that a water lets through along a straight path, integrated by 1 nm.
 * Scattering is left out: in a tank scattered light is not lost.
 * @param path m, >= 0
 * @returns 0..1. Sources: pope-fry-1997, bricaud-1981, bricaud-1995
 */
export function transmittance(spectrum: Spectrum, water: WaterColour, path: number): number {
  checkWater(water);
  if (!(path >= 0)) throw new RangeError(`path through water: ${path} m; allowed is any length from 0 up`);
  const through = (nm: number): number => Math.exp(-waterAbsorption(nm, water) * path);
  return photonsBetween(spectrum, PAR_FROM, PAR_TO, through) / parPhotons(spectrum);
}
