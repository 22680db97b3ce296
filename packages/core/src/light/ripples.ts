import { relation } from "../relation/index.ts";
import { quantity, refractiveIndex } from "./usual-inputs.ts";

/** Root-mean-square slope of a sinusoidal surface. @param amplitude @param length of the wave, same unit */
export const rippleSlope = (amplitude: number, length: number): number => (Math.SQRT2 * Math.PI * amplitude) / length;

/** Depth of the first bright line under a crest, in the unit of its arguments. Source: cox-munk-1954 */
export const rippleFocus = (amplitude: number, length: number, n: number): number =>
  ((n / (n - 1)) * length * length) / (4 * Math.PI * Math.PI * amplitude);

/** Mean-square slopes of a wind-blown sea along and across the wind. @param wind m/s at 12.5 m. Source: cox-munk-1954 */
export const windSlopes = (wind: number): { along: number; across: number } => ({
  along: 3.16e-3 * wind,
  across: 0.003 + 1.92e-3 * wind,
});

export const rippleRelations = [
  relation({
    id: "ripples",
    title: "Slope and glitter of a rippled surface",
    room: "light",
    inputs: {
      amplitude: quantity("amplitude of the wave, half its height", "mm", 0.01, 20),
      length: quantity("length of the wave", "mm", 2, 1000),
      index: refractiveIndex,
    },
    outputs: {
      slope: { label: "root-mean-square slope", unit: "1" },
      focus: { label: "depth of the first bright lines", unit: "m" },
      deviation: { label: "usual turn of a steep ray", unit: "deg" },
    },
    equation: "slope = sqrt(2) pi A/L; focus = n/(n-1) L2/(4 pi2 A); turn = (1 - 1/n) slope",
    sources: ["cox-munk-1954"],
    validity: "Small slopes. Glitter moves the light about; its mean over time changes by about 1 % at a slope of 0.2.",
    compute: ({ amplitude, length, index }) => {
      const slope = rippleSlope(amplitude, length);
      return {
        slope,
        focus: rippleFocus(amplitude, length, index) / 1000,
        deviation: ((1 - 1 / index) * slope * 180) / Math.PI,
      };
    },
  }),
] as const;
