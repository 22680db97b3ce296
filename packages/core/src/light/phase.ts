import { relation } from "../relation/index.ts";
import { quantity } from "./usual-inputs.ts";

/**
 * Scattering into a direction by the one-parameter law, per steradian; integrates to 1 over all directions.
 * @param cosine of the scattering angle; @param g mean cosine, above -1, below 1. Source: henyey-greenstein-1941
 */
export const phaseFunction = (cosine: number, g: number): number =>
  (1 - g * g) / (4 * Math.PI * (1 + g * g - 2 * g * cosine) ** 1.5);

/** Share scattered by more than 90°, 0..1. @param g mean cosine, above -1, below 1. Source: henyey-greenstein-1941 */
export function backscatterShare(g: number): number {
  // near g = 0 the closed form divides nothing by nothing
  if (Math.abs(g) < 1e-5) return 0.5 - 0.75 * g;
  return ((1 - g) / (2 * g)) * ((1 + g) / Math.sqrt(1 + g * g) - 1);
}

export const phaseRelations = [
  relation({
    id: "backscatter-share",
    title: "Share of scattered light that turns back",
    room: "light",
    inputs: { g: quantity("mean cosine of the scattering; haze about 0.92", "1", -0.99, 0.99, 0.92) },
    outputs: {
      share: { label: "share scattered by more than 90°", unit: "1" },
      forward: { label: "scattering straight on", unit: "1/sr" },
    },
    equation: "B = (1 - g)/(2 g) [(1 + g)/sqrt(1 + g2) - 1]",
    sources: ["henyey-greenstein-1941"],
    compute: ({ g }) => ({ share: backscatterShare(g), forward: phaseFunction(1, g) }),
  }),
] as const;
