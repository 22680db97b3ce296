import { relation } from "../relation/index.ts";
import { GAS_CONSTANT, type Gas, ZERO_CELSIUS } from "./constants.ts";
import { choice, waterTemperature } from "./usual-inputs.ts";

/**
 * Diffusivity of a dissolved gas in fresh water, Arrhenius forms.
 * @param gas "co2", "o2" or "n2"
 * @param t temperature, °C, 0 to 40
 * @returns m2/s; published values for oxygen spread by 15 %. Sources: jaehne-1987 (CO2), ferrell-himmelblau-1967
 */
export function diffusivity(gas: Gas, t: number): number {
  const rt = GAS_CONSTANT * (t + ZERO_CELSIUS);
  if (gas === "co2") return 5.019e-6 * Math.exp(-19510 / rt);
  return gas === "o2" ? 4.286e-6 * Math.exp(-18700 / rt) : 3.412e-6 * Math.exp(-18500 / rt);
}

/**
 * Diffusivity of CO2 from molecular dynamics, for comparison.
 * @param t temperature, °C, 0 to 100
 * @returns m2/s. Source: zeebe-2011
 */
export function co2DiffusivityZeebe(t: number): number {
  return 14.6836e-9 * ((t + ZERO_CELSIUS) / 217.2056 - 1) ** 1.997;
}

/**
 * Diffusivity of oxygen from a polarographic method, for comparison; 12 % below the Arrhenius form.
 * @param t temperature, °C, 0 to 95
 * @returns m2/s. Source: han-bartels-1996
 */
export function oxygenDiffusivityHanBartels(t: number): number {
  const kelvin = t + ZERO_CELSIUS;
  return 1e-4 * 10 ** (-4.41 + 773.8 / kelvin - (506.4 / kelvin) ** 2);
}

export const diffusivityRelations = [
  relation({
    id: "gas-diffusivity",
    title: "Diffusivity of a dissolved gas",
    room: "gas",
    inputs: { gas: choice("gas", ["co2", "o2", "n2"], "co2"), temperature: waterTemperature },
    outputs: { diffusivity: { label: "diffusivity", unit: "m2/s" } },
    equation: "D = A exp(-E/(R T)); CO2 5.019e-6, 19510; O2 4.286e-6, 18700; N2 3.412e-6, 18500 J/mol",
    sources: ["jaehne-1987", "ferrell-himmelblau-1967"],
    compute: ({ gas, temperature }) => ({ diffusivity: diffusivity(gas, temperature) }),
  }),
  relation({
    id: "gas-diffusivity-alternatives",
    title: "Diffusivity of CO2 and oxygen by other authors",
    room: "gas",
    inputs: { temperature: waterTemperature },
    outputs: {
      co2: { label: "CO2, molecular dynamics", unit: "m2/s" },
      o2: { label: "oxygen, polarographic", unit: "m2/s" },
    },
    equation: "CO2: 14.6836e-9 (T/217.2056 - 1)^1.997; O2: log10 D(cm2/s) = -4.410 + 773.8/T - (506.4/T)^2",
    sources: ["zeebe-2011", "han-bartels-1996"],
    compute: ({ temperature }) => ({
      co2: co2DiffusivityZeebe(temperature),
      o2: oxygenDiffusivityHanBartels(temperature),
    }),
  }),
] as const;
