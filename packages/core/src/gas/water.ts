import { relation } from "../relation/index.ts";
import { ZERO_CELSIUS } from "./constants.ts";
import { waterTemperature } from "./usual-inputs.ts";

/**
 * Density of pure water at 1 atm.
 * @param t temperature, °C, 0 to 40
 * @returns kg/m3; within 1e-3 kg/m3 of the international water formulation. Source: millero-poisson-1981
 */
export function waterDensity(t: number): number {
  return 999.842594 + t * (6.793952e-2 + t * (-9.09529e-3 + t * (1.001685e-4 + t * (-1.120083e-6 + t * 6.536332e-9))));
}

/**
 * Cubic thermal expansion of pure water, the derivative of `waterDensity`.
 * @param t temperature, °C, 0 to 40
 * @returns 1/K; negative below 4 °C. Source: millero-poisson-1981
 */
export function waterExpansion(t: number): number {
  const slope =
    6.793952e-2 + t * (2 * -9.09529e-3 + t * (3 * 1.001685e-4 + t * (4 * -1.120083e-6 + t * 5 * 6.536332e-9)));
  return -slope / waterDensity(t);
}

/**
 * Viscosity of pure water.
 * @param t temperature, °C, 0 to 40
 * @returns Pa*s; within 0.05 %. Source: kestin-1978
 */
export function waterViscosity(t: number): number {
  const below = 20 - t;
  return 1.002e-3 * 10 ** ((below / (t + 96)) * (1.2364 - 1.37e-3 * below + 5.7e-6 * below * below));
}

/**
 * Kinematic viscosity of pure water.
 * @param t temperature, °C, 0 to 40
 * @returns m2/s. Sources: kestin-1978, millero-poisson-1981
 */
export function kinematicViscosity(t: number): number {
  return waterViscosity(t) / waterDensity(t);
}

/**
 * Surface tension of pure water against air; real tank water is a little lower.
 * @param t temperature, °C, 0 to 100
 * @returns N/m. Source: iapws-r1-76
 */
export function surfaceTension(t: number): number {
  const tau = 1 - (t + ZERO_CELSIUS) / 647.096;
  return 0.2358 * tau ** 1.256 * (1 - 0.625 * tau);
}

export const waterRelations = [
  relation({
    id: "water-properties",
    title: "Density and viscosity of fresh water",
    room: "gas",
    inputs: { temperature: waterTemperature },
    outputs: {
      density: { label: "density", unit: "kg/m3" },
      viscosity: { label: "viscosity", unit: "mPa*s" },
      kinematic_viscosity: { label: "kinematic viscosity", unit: "m2/s" },
      expansion: { label: "thermal expansion", unit: "1/K" },
    },
    equation:
      "density: fifth-order polynomial in t; log10(mu/1.002 mPa*s) = (20-t)/(t+96) (1.2364 - 1.37e-3(20-t) + 5.7e-6(20-t)^2); nu = mu/rho",
    sources: ["millero-poisson-1981", "kestin-1978"],
    validity: "Pure water at about 1 atm.",
    compute: ({ temperature: t }) => ({
      density: waterDensity(t),
      viscosity: waterViscosity(t) * 1000,
      kinematic_viscosity: kinematicViscosity(t),
      expansion: waterExpansion(t),
    }),
  }),
] as const;
