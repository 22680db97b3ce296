import type { Speciation } from "./speciate.ts";
import { speciate } from "./speciate.ts";
import { debyeHuckel, relativeViscosity, zeroCelsius } from "./water-properties.ts";

/** Ways of reckoning conductivity from ions. */
export type ConductivityMethod = "diffusion" | "mcc-2012";

const faraday = 96485.332;
const gasConstant = 8.314463;

/** Diffusion of an ion: 1e-9 m2/s at 25 °C, its temperature term (K), and the two terms of its interaction. */
interface Mobility {
  readonly charge: number;
  readonly d25: number;
  readonly dt: number;
  readonly a: number;
  readonly a2: number;
}

const ion = (charge: number, d25: number, dt: number, a = 1.6, a2 = 4.73): Mobility => ({ charge, d25, dt, a, a2 });

/** Diffusion in 1e-9 m2/s from a limiting conductivity per equivalent, S cm2/mol (D = R T λ / (z F²)). */
export function diffusionOf(lambda: number, charge: number): number {
  return (gasConstant * 298.15 * lambda * 1e-4 * 1e9) / (Math.abs(charge) * faraday * faraday);
}

/** Limiting conductivities at 25 °C per equivalent, S cm2/mol (source crc-conductivity). */
export const limitingConductivities = {
  H: { charge: 1, lambda: 349.65 },
  Na: { charge: 1, lambda: 50.08 },
  K: { charge: 1, lambda: 73.48 },
  NH4: { charge: 1, lambda: 73.5 },
  Ca: { charge: 2, lambda: 59.47 },
  Mg: { charge: 2, lambda: 53.0 },
  Cl: { charge: -1, lambda: 76.31 },
  SO4: { charge: -2, lambda: 80.0 },
  NO3: { charge: -1, lambda: 71.42 },
  HCO3: { charge: -1, lambda: 44.5 },
  CO3: { charge: -2, lambda: 69.3 },
  OH: { charge: -1, lambda: 198 },
  H2PO4: { charge: -1, lambda: 33 },
  HPO4: { charge: -2, lambda: 57 },
} as const;

export type ConductingIon = keyof typeof limitingConductivities;

/** Source usgs-phreeqc-3; NaCO3 and B(OH)4 from memory; phosphates from their limiting conductivities. */
const mobilities: Readonly<Record<string, Mobility>> = {
  H: ion(1, 9.31, 1000, 0.46, 0),
  Na: ion(1, 1.33, 122, 1.52, 3.7),
  K: ion(1, 1.96, 395, 2.5, 21),
  Ca: ion(2, 0.793, 97, 3.4, 24.6),
  Mg: ion(2, 0.705, 111, 2.4, 13.7),
  Cl: ion(1, 2.03, 194, 1.6, 6.9),
  SO4: ion(2, 1.07, 34, 2.08, 13.4),
  HCO3: ion(1, 1.18, 0, 1.43, 0),
  CO3: ion(2, 0.955, 0, 1.12, 2.84),
  NO3: ion(1, 1.9, 184, 1.85, 3.85),
  OH: ion(1, 5.27, 548, 0.52, 0),
  NH4: ion(1, 1.98, 312, 0.95, 4.53),
  CaHCO3: ion(1, 0.506, 0),
  MgHCO3: ion(1, 0.478, 0),
  KSO4: ion(1, 1.5, 0, 0, 0),
  NaSO4: ion(1, 1.33, 0, 0.57, 0),
  NaCO3: ion(1, 1.2, 0),
  "B(OH)4": ion(1, 0.97, 0),
  H2PO4: ion(1, diffusionOf(33, 1), 0),
  HPO4: ion(2, diffusionOf(57, 2), 0),
};

/** λ = a t² + b t + c and A likewise (mS kg/(cm mol)), B (source mccleskey-2012). */
interface Transport {
  readonly lambda: readonly [number, number, number];
  readonly fall: readonly [number, number, number];
  readonly b: number;
}

const transport = (
  lambda: readonly [number, number, number],
  fall: readonly [number, number, number],
  b: number,
): Transport => ({ lambda, fall, b });

const transports: Readonly<Record<string, Transport>> = {
  Ca: transport([0.009645, 1.984, 62.28], [0.03174, 2.334, 132.3], 2.8),
  Mg: transport([0.01068, 1.695, 57.16], [0.02453, 1.915, 80.5], 2.1),
  Na: transport([0.003763, 0.877, 26.23], [0.00027, 1.141, 32.07], 1.7),
  K: transport([0.003046, 1.261, 40.7], [0.00535, 0.9316, 22.59], 1.5),
  NH4: transport([0.003341, 1.285, 39.04], [0.00132, 0.607, 11.19], 0.3),
  Cl: transport([0.003817, 1.337, 40.99], [0.00613, 0.9469, 22.01], 1.5),
  SO4: transport([0.01037, 2.838, 82.37], [0.03324, 5.889, 193.5], 2.6),
  NO3: transport([0.001925, 1.214, 39.9], [0.00118, 0.5045, 23.31], 0.1),
  HCO3: transport([0.000614, 0.9048, 21.14], [-0.00503, 0.8957, 10.97], 0.1),
  CO3: transport([-0.000326, 2.998, 64.03], [-0.00181, 5.542, 120.2], 2.3),
  H: transport([-0.01414, 5.355, 224.2], [-0.00918, 1.842, 39.23], 0.3),
  OH: transport([0.003396, 2.925, 121.3], [0.00933, 0.1086, 35.9], 0.01),
};

function byDiffusion(s: Speciation): number {
  const t = s.temperature;
  const T = t + zeroCelsius;
  const { a: A, b: B } = debyeHuckel(t);
  const I = s.ionicStrength;
  const root = Math.sqrt(I);
  const spread = 1 + I ** 0.75;
  let sum = 0;
  for (const [name, m] of Object.entries(mobilities)) {
    const d = m.d25 * 1e-9 * Math.exp(m.dt / T - m.dt / 298.15);
    const interaction = Math.exp((-m.a * A * m.charge * root) / (1 + (B * m.a2 * root) / spread));
    sum += (s.species[name] ?? 0) * m.charge * m.charge * d * interaction;
  }
  const prefactor = (1e7 * faraday * faraday) / (gasConstant * 298.15);
  return (prefactor * sum * relativeViscosity(25)) / relativeViscosity(t);
}

function byTransport(s: Speciation): number {
  const t = s.temperature;
  const root = Math.sqrt(s.ionicStrength);
  let sum = 0;
  for (const [name, { lambda, fall, b }] of Object.entries(transports)) {
    const free = lambda[0] * t * t + lambda[1] * t + lambda[2];
    const drag = fall[0] * t * t + fall[1] * t + fall[2];
    sum += (free - (drag * root) / (1 + b * root)) * (s.species[name] ?? 0);
  }
  return sum * 1000;
}

/**
 * Conductivity of a water at its own temperature, uS/cm. The diffusion form (source usgs-phreeqc-3) is recommended and
 * within 2 % for fresh waters; that of McCleskey and others serves as a second opinion, 4 to 9 % low for sodium sulfate
 * waters.
 */
export function conductivity(s: Speciation, method: ConductivityMethod = "diffusion"): number {
  return method === "diffusion" ? byDiffusion(s) : byTransport(s);
}

/**
 * Conductivity of the same water brought to 25 °C without losing gas, uS/cm: every ion worked out anew, which is better
 * than any temperature factor.
 */
export function conductivityAt25(s: Speciation, method: ConductivityMethod = "diffusion"): number {
  const at25 = s.temperature === 25 ? s : speciate(s.totals, 25, { dic: s.dic, alk: s.alk });
  return conductivity(at25, method);
}

/** Usual change of conductivity per kelvin about 25 °C, 1/K (source standard-methods-2510). */
export const usualTemperatureFactor = 0.0191;

/**
 * Conductivity at 25 °C from one read at another temperature, uS/cm; °C, 0 to 35. Natural waters have factors of 0.0175
 * to 0.0224 (source hayashi-2004).
 */
export function compensateConductivity(ec: number, t: number, factor = usualTemperatureFactor): number {
  return ec / (1 + factor * (t - 25));
}

/** Molar conductivity of a 1:1 salt at 25 °C, S cm2/mol (source onsager); mol/L, up to 0.002. */
export function onsagerConductivity(limiting: number, concentration: number): number {
  return limiting - (60.2 + 0.229 * limiting) * Math.sqrt(concentration);
}
