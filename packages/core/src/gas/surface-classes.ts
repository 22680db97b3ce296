import { relation } from "../relation/index.ts";
import { scaleTransfer } from "./transfer.ts";
import { choice, quantity } from "./usual-inputs.ts";

export interface SurfaceClass {
  readonly id: 0 | 1 | 2 | 3 | 4;
  readonly look: string;
  /** Standard transfer velocity, cm/h. */
  readonly k600: number;
}

/**
 * Classes of the look of a surface for a keeper who measures nothing; k600 in cm/h. Design values: ask for a
 * measurement, then keep the rate and forget the class. Source: closure-design
 */
export const surfaceClasses: readonly SurfaceClass[] = [
  { id: 0, look: "closed lid or oily film, dead still", k600: 1 },
  { id: 1, look: "open, nothing moves", k600: 2 },
  { id: 2, look: "slow drift, hardly a ripple", k600: 3.5 },
  { id: 3, look: "ripples all over", k600: 7 },
  { id: 4, look: "broken water: spray, splash or overflow", k600: 15 },
];

/**
 * Likely true transfer over that of a class told by eye. Upwards from keepers' measurements, of which none lies below its
 * class: four set-ups at 1.4, 2.2, 2.2 and 2.0 times it and a fifth tank at 1.4, part of which may be plants that took
 * gas meanwhile; downwards a design value (films).
 */
export const classDoubt = { low: 1 / 1.5, high: 2.2 } as const;

/**
 * The class whose k600 lies nearest on a ratio scale, for telling a keeper what a measured rate looks like.
 * @param k600 cm/h, above 0
 */
export function nearestSurfaceClass(k600: number): SurfaceClass {
  const distance = (c: SurfaceClass) => Math.abs(Math.log(k600 / c.k600));
  return surfaceClasses.reduce((best, c) => (distance(c) < distance(best) ? c : best));
}

export const surfaceClassRelations = [
  relation({
    id: "surface-class",
    title: "CO2 loss from the look of the surface",
    room: "gas",
    inputs: {
      class: choice("class of the surface, 0 still to 4 broken", ["0", "1", "2", "3", "4"], "2"),
      temperature: quantity("water temperature", "°C", 5, 35, 25),
      depth: quantity("depth of water", "m", 0.02, 5),
    },
    outputs: {
      k600: { label: "k600", unit: "cm/h" },
      co2: { label: "transfer velocity of CO2", unit: "cm/h" },
      rate: { label: "rate constant, vertical walls", unit: "1/h" },
      rate_low: { label: "lower end", unit: "1/h" },
      rate_high: { label: "upper end", unit: "1/h" },
      half_life: { label: "half-life of an excess of CO2", unit: "h" },
    },
    equation: "k = k600 (600/Sc)^1/2 / H",
    sources: ["closure-design", "wanninkhof-2014"],
    validity: "A guess by eye: the true rate is likely from two thirds to 2.2 times it.",
    compute: ({ class: id, temperature, depth }) => {
      const c = surfaceClasses[Number(id)]!;
      const rate = (k: number) => scaleTransfer(k, "co2", temperature) / (100 * depth);
      return {
        k600: c.k600,
        co2: scaleTransfer(c.k600, "co2", temperature),
        rate: rate(c.k600),
        rate_low: rate(c.k600 * classDoubt.low),
        rate_high: rate(c.k600 * classDoubt.high),
        half_life: Math.LN2 / rate(c.k600),
      };
    },
  }),
] as const;
