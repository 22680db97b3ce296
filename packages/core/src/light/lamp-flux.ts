import { relation } from "../relation/index.ts";
import { quantity } from "./usual-inputs.ts";

/** Photon efficacy of a fixture of which only the power is known, umol/J. Source: trade-efficacy */
export const USUAL_EFFICACY = { low: 1.2, value: 1.6, high: 2 } as const;

/** Doubts of a stated photon flux and of stated lumens as bought, relative; design values. */
const STATED_PHOTONS = 0.05;
const STATED_LUMENS = 0.1;

/** What is known of a lamp; at least one of `photons`, `lumens` and `watts`. */
export interface LampKnown {
  /** Photon flux 400 to 700 nm, umol/s. */
  readonly photons?: number;
  /** Luminous flux, lm, with the lux per photon of the lamp's spectrum. */
  readonly lumens?: number;
  readonly luxPerPhoton?: number;
  /** Electrical power, W, and photon efficacy of the whole fixture, umol/J, where its maker states it. */
  readonly watts?: number;
  readonly efficacy?: number;
}

export interface LampFlux {
  /** Photon flux 400 to 700 nm, umol/s, and its bounds. */
  readonly photons: number;
  readonly low: number;
  readonly high: number;
  /** What it was taken from. */
  readonly from: "photons" | "lumens" | "watts and efficacy" | "watts alone";
}

const figure = (name: string, value: number | undefined): number | null => {
  if (value === undefined) return null;
  if (!(value > 0 && value < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`lamp: ${name} is ${value}; allowed is any figure above 0, or leave it out`);
  }
  return value;
};

/**
 * Photon flux of a lamp from the best that is known of it: its photon flux, else its lumens and spectrum, else watts and
 * efficacy, else watts at the usual efficacy 1.6 +- 0.4 umol/J.
 * @throws RangeError when nothing is known, or lumens without a spectrum. Sources: asabe-s640, trade-efficacy, chosen
 */
export function lampFlux(known: LampKnown): LampFlux {
  const photons = figure("photon flux in umol/s", known.photons);
  const lumens = figure("luminous flux in lm", known.lumens);
  const constant = figure("lux per photon", known.luxPerPhoton);
  const watts = figure("power in W", known.watts);
  const efficacy = figure("efficacy in umol/J", known.efficacy);
  const about = (value: number, doubt: number, from: LampFlux["from"]): LampFlux => ({
    photons: value,
    low: value / (1 + doubt),
    high: value * (1 + doubt),
    from,
  });
  if (photons) return about(photons, STATED_PHOTONS, "photons");
  if (lumens && constant) return about(lumens / constant, STATED_LUMENS, "lumens");
  if (watts && efficacy) return about(watts * efficacy, STATED_LUMENS, "watts and efficacy");
  if (watts) {
    const { low, value, high } = USUAL_EFFICACY;
    return { photons: watts * value, low: watts * low, high: watts * high, from: "watts alone" };
  }
  throw new RangeError(
    lumens
      ? "lamp: lumens need the lamp's spectrum (lux per photon), or give its photon flux or power"
      : "lamp: give its photon flux, its lumens and spectrum, or its power",
  );
}

export const lampFluxRelations = [
  relation({
    id: "lamp-photon-flux",
    title: "Photon flux of a lamp from the best that is known",
    room: "light",
    inputs: {
      photons: quantity("photon flux stated by the maker; 0 = not known", "umol/s", 0, 100_000, 0),
      lumens: quantity("luminous flux; 0 = not known", "lm", 0, 5e6, 0),
      lux_per_photon: quantity("lux per photon flux density of its light", "lx*m2*s/umol", 0.4, 150, 69),
      watts: quantity("electrical power; 0 = not known", "W", 0, 50_000),
      efficacy: quantity("photon efficacy of the fixture; 0 = not known", "umol/J", 0, 5, 0),
    },
    outputs: {
      flux: { label: "photon flux 400 to 700 nm", unit: "umol/s" },
      low: { label: "lower end", unit: "umol/s" },
      high: { label: "upper end", unit: "umol/s" },
    },
    equation: "PPF as stated, else lm/K_q, else W x efficacy, else W x (1.6 +- 0.4) umol/J",
    sources: ["asabe-s640", "trade-efficacy", "kusuma-2020", "chosen"],
    validity: "Tank fixtures reach 1.2 to 2.3 umol/J; with present parts 3.4 (white and red) is a ceiling.",
    compute: (i) => {
      const known = {
        ...(i.photons > 0 && { photons: i.photons }),
        ...(i.lumens > 0 && { lumens: i.lumens }),
        luxPerPhoton: i.lux_per_photon,
        ...(i.watts > 0 && { watts: i.watts }),
        ...(i.efficacy > 0 && { efficacy: i.efficacy }),
      };
      const { photons, low, high } = lampFlux(known);
      return { flux: photons, low, high };
    },
  }),
  relation({
    id: "fixture-efficacy",
    title: "Photon efficacy of a fixture of several channels",
    room: "light",
    inputs: {
      watts: { kind: "series", label: "power of each channel", unit: "W", min: 0, max: 50_000, atLeast: 1 },
      efficacies: { kind: "series", label: "efficacy of each channel", unit: "umol/J", min: 0, max: 6, atLeast: 1 },
    },
    outputs: {
      efficacy: { label: "efficacy of the fixture", unit: "umol/J" },
      flux: { label: "photon flux", unit: "umol/s" },
    },
    equation: "PPE = sum(P_i PPE_i)/sum(P_i)",
    sources: ["asabe-s640"],
    compute: ({ watts, efficacies }) => {
      if (watts.length !== efficacies.length) {
        throw new RangeError(`${watts.length} powers but ${efficacies.length} efficacies; as many of each are needed`);
      }
      const power = watts.reduce((a, b) => a + b, 0);
      if (!(power > 0)) throw new RangeError("at least one channel must take power");
      const flux = watts.reduce((sum, w, i) => sum + w * efficacies[i]!, 0);
      return { efficacy: flux / power, flux };
    },
  }),
] as const;
