import { luminosity } from "./luminosity.ts";
import { LUMENS_PER_WATT, PAR_FROM, PAR_TO, photonsPerJoule } from "./photons.ts";

/** First and last wavelength of a spectrum, nm; one value per nanometre. */
export const SPECTRUM_FROM = 380;
export const SPECTRUM_TO = 780;
const COUNT = SPECTRUM_TO - SPECTRUM_FROM + 1;

/** Radiant power per nanometre at 380, 381 … 780 nm, on any scale. */
export type Spectrum = readonly number[];

/** What a spectrum is worth, for any scale of it. */
export interface SpectrumFigures {
  /** Lux per photon flux density 400 to 700 nm, lx per umol/m2/s; the same number as lm per umol/s. */
  readonly luxPerPhoton: number;
  /** Photons 400 to 700 nm per joule of all its light, umol/J. */
  readonly photonsPerJoule: number;
  /** Shares of the photons 400 to 700 nm in 400-500, 500-600 and 600-700 nm; they add up to 1. */
  readonly blue: number;
  readonly green: number;
  readonly red: number;
  /** Photons 700 to 780 nm per photon 400 to 700 nm; far-red is counted apart. */
  readonly farRed: number;
}

/** A spectrum from its power at each wavelength. @param power at a wavelength in nm, >= 0 */
export function spectrumOf(power: (nm: number) => number): Spectrum {
  const values = Array.from({ length: COUNT }, (_, i) => power(SPECTRUM_FROM + i));
  for (const [i, v] of values.entries()) {
    if (!(v >= 0 && v < Number.POSITIVE_INFINITY)) {
      throw new RangeError(`spectrum: power at ${SPECTRUM_FROM + i} nm is ${v}; allowed is any figure from 0 up`);
    }
  }
  return values;
}

/**
 * A colour channel as a bell curve of power over wavelength.
 * @param centre nm, 380 to 780; @param width full width at half of the peak, nm, 2 to 200
 */
export function gaussianSpectrum(centre: number, width: number): Spectrum {
  if (!(centre >= SPECTRUM_FROM && centre <= SPECTRUM_TO)) {
    throw new RangeError(`colour channel: centre ${centre} nm; allowed is ${SPECTRUM_FROM} to ${SPECTRUM_TO} nm`);
  }
  if (!(width >= 2 && width <= 200)) throw new RangeError(`colour channel: width ${width} nm; allowed is 2 to 200 nm`);
  const sigma = width / (2 * Math.sqrt(2 * Math.LN2));
  return spectrumOf((nm) => Math.exp(-0.5 * ((nm - centre) / sigma) ** 2));
}

/** The same power at every wavelength from 400 to 700 nm, nothing outside. */
export const equalEnergySpectrum: Spectrum = spectrumOf((nm) => (nm >= PAR_FROM && nm <= PAR_TO ? 1 : 0));

/** All power at one wavelength. @param nm 401 to 699, shared between its two neighbours on the grid */
export function lineSpectrum(nm: number): Spectrum {
  if (!(nm > PAR_FROM && nm < PAR_TO)) {
    throw new RangeError(`line: ${nm} nm; allowed is between ${PAR_FROM} and ${PAR_TO} nm`);
  }
  return spectrumOf((at) => Math.max(0, 1 - Math.abs(at - nm)));
}

/** Light of a glowing body at 2856 K, CIE illuminant A. Source: cie-illuminant-a */
export const incandescentSpectrum: Spectrum = spectrumOf(
  (nm) => ((560 / nm) ** 5 * Math.expm1(1.435e7 / (2848 * 560))) / Math.expm1(1.435e7 / (2848 * nm)),
);

/**
 * A spectrum from a table, straight between its points and nothing outside them.
 * @param points wavelength in nm, rising, and power on any scale, >= 0
 */
export function tabulatedSpectrum(points: readonly (readonly [nm: number, power: number])[]): Spectrum {
  if (points.length < 2) throw new RangeError(`spectrum table: ${points.length} points; at least 2 are needed`);
  for (const [i, [nm, power]] of points.entries()) {
    if (!Number.isFinite(nm) || !(power >= 0 && power < Number.POSITIVE_INFINITY)) {
      throw new RangeError(
        `spectrum table: point ${i + 1} is ${nm} nm, ${power}; both must be figures, power from 0 up`,
      );
    }
    if (i > 0 && !(nm > points[i - 1]![0])) {
      throw new RangeError(`spectrum table: point ${i + 1} at ${nm} nm does not follow ${points[i - 1]![0]} nm`);
    }
  }
  let k = 0;
  return spectrumOf((nm) => {
    while (k < points.length - 2 && points[k + 1]![0] < nm) k += 1;
    const [x0, y0] = points[k]!;
    const [x1, y1] = points[k + 1]!;
    return nm < x0 || nm > x1 ? 0 : y0 + ((y1 - y0) * (nm - x0)) / (x1 - x0);
  });
}

/**
 * Photons of a spectrum between two whole wavelengths, each nanometre weighted, by the trapezoid rule.
 * @param weight pure number at a wavelength in nm
 * @returns umol per joule-scale of the spectrum
 */
export function photonsBetween(
  spectrum: Spectrum,
  from: number,
  to: number,
  weight: (nm: number) => number = () => 1,
): number {
  let sum = 0;
  for (let nm = from; nm <= to; nm += 1) {
    const power = spectrum[nm - SPECTRUM_FROM] ?? 0;
    if (power > 0) sum += (nm === from || nm === to ? 0.5 : 1) * power * photonsPerJoule(nm) * weight(nm);
  }
  return sum;
}

/** Photons 400 to 700 nm, on the scale of the spectrum. @throws RangeError when there are none */
export function parPhotons(spectrum: Spectrum): number {
  if (spectrum.length !== COUNT) {
    throw new RangeError(`spectrum: ${spectrum.length} values; ${COUNT} are needed, 380 to 780 nm by 1 nm`);
  }
  const photons = photonsBetween(spectrum, PAR_FROM, PAR_TO);
  if (!(photons > 0)) throw new RangeError("spectrum: no light between 400 and 700 nm");
  return photons;
}

/** Figures of a spectrum, integrated in steps of 1 nm. Sources: si-2019, cie-1924 */
export function figuresOf(spectrum: Spectrum): SpectrumFigures {
  const photons = parPhotons(spectrum);
  let power = 0;
  let lumens = 0;
  for (const [i, value] of spectrum.entries()) {
    power += value;
    lumens += LUMENS_PER_WATT * value * luminosity(SPECTRUM_FROM + i);
  }
  const share = (from: number, to: number): number => photonsBetween(spectrum, from, to) / photons;
  return {
    luxPerPhoton: lumens / photons,
    photonsPerJoule: photons / power,
    blue: share(PAR_FROM, 500),
    green: share(500, 600),
    red: share(600, PAR_TO),
    farRed: share(PAR_TO, SPECTRUM_TO),
  };
}

/** One part of a mixed light: a spectrum and its photons 400 to 700 nm, on any scale common to the parts. */
export interface LightPart {
  readonly spectrum: Spectrum;
  readonly photons: number;
}

/** The spectrum of several lights together; its photons 400 to 700 nm are the sum of the parts'. */
export function mixedSpectrum(parts: readonly LightPart[]): Spectrum {
  const scaled = parts.map(({ spectrum, photons }, i) => {
    if (!(photons >= 0 && photons < Number.POSITIVE_INFINITY)) {
      throw new RangeError(`mixed light: part ${i + 1} has ${photons} photons; allowed is any figure from 0 up`);
    }
    return { spectrum, scale: photons / parPhotons(spectrum) };
  });
  if (!parts.some((p) => p.photons > 0)) throw new RangeError("mixed light: at least one part must give light");
  return spectrumOf((nm) =>
    scaled.reduce((sum, { spectrum, scale }) => sum + scale * spectrum[nm - SPECTRUM_FROM]!, 0),
  );
}

/**
 * Lux per photon of a mixture from those of its parts.
 * @param photons photons of each part, any common scale; @param constants lx per umol/m2/s of each part
 * @returns lx per umol/m2/s, exact
 */
export function mixedConstant(photons: readonly number[], constants: readonly number[]): number {
  if (photons.length !== constants.length) {
    throw new RangeError(`mixed light: ${photons.length} amounts of photons but ${constants.length} constants`);
  }
  const total = photons.reduce((a, b) => a + b, 0);
  if (!(total > 0)) throw new RangeError("mixed light: at least one part must give light");
  return photons.reduce((sum, f, i) => sum + (f * constants[i]!) / total, 0);
}
