import { type Spectrum, tabulatedSpectrum } from "./spectrum.ts";

/** CIE standard illuminant D65, relative power at 380, 390 … 780 nm. Source: cie-15 (values from memory) */
// biome-ignore format: a table
const d65 = [
  49.98, 54.65, 82.75, 91.49, 93.43, 86.68, 104.86, 117.01, 117.81, 114.86, 115.92, 108.81, 109.35, 107.8, 104.79, 107.69,
  104.41, 104.05, 100, 96.33, 95.79, 88.69, 90.01, 89.6, 87.7, 83.29, 83.7, 80.03, 80.21, 82.28, 78.28, 69.72, 71.61, 74.35,
  61.6, 69.89, 75.09, 63.59, 46.42, 66.81, 63.38,
];

/** Daylight of 6504 K (CIE illuminant D65), straight between every tenth nanometre. Source: cie-15 */
export const daylightSpectrum: Spectrum = tabulatedSpectrum(d65.map((power, i) => [380 + 10 * i, power]));
