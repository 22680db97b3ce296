import { relation } from "../relation/index.ts";
import { type SurfaceGas, schmidt } from "./schmidt.ts";
import { choice, quantity, waterTemperature } from "./usual-inputs.ts";

/**
 * Transfer velocity of a gas from the standard k600 (that of CO2 at 20 °C).
 * @param k600 cm/h
 * @param gas "co2" or "o2"
 * @param t water temperature, °C, -2 to 40
 * @param exponent 0.5 for a moving or rippled surface, 2/3 for a smooth or filmed one
 * @returns cm/h. Sources: wanninkhof-2014, jaehne-1987-exponent
 */
export function scaleTransfer(k600: number, gas: SurfaceGas, t: number, exponent = 0.5): number {
  const ratio = 600 / schmidt(gas, t);
  return k600 * (exponent === 0.5 ? Math.sqrt(ratio) : ratio ** exponent);
}

/**
 * Temperature factor of the sanitary engineers for oxygen, interchangeable with the Schmidt form within 1 %.
 * @param t water temperature, °C, 5 to 35
 * @returns k(t)/k(20 °C), pure number. Source: asce-2-06
 */
export function thetaFactor(t: number): number {
  return 1.024 ** (t - 20);
}

/**
 * First-order rate constant of a tank from a transfer velocity.
 * @param transfer cm/h
 * @param areaM2 open water surface, m2
 * @param volumeL volume of water, L
 * @returns 1/h
 */
export function rateFromTransfer(transfer: number, areaM2: number, volumeL: number): number {
  return (10 * transfer * areaM2) / volumeL;
}

/**
 * Transfer velocity from a measured rate constant; the inverse of `rateFromTransfer`.
 * @param rate 1/h
 * @param areaM2 open water surface, m2
 * @param volumeL volume of water, L
 * @returns cm/h
 */
export function transferFromRate(rate: number, areaM2: number, volumeL: number): number {
  return (rate * volumeL) / (10 * areaM2);
}

/**
 * Flow of gas out of the water through the surface; negative when the water takes gas up.
 * @param transfer cm/h
 * @param areaM2 open water surface, m2
 * @param mgL concentration in the water, mg/L
 * @param equilibriumMgL concentration at equilibrium with the air, mg/L
 * @returns mg/h
 */
export function surfaceFlow(transfer: number, areaM2: number, mgL: number, equilibriumMgL: number): number {
  return 10 * transfer * areaM2 * (mgL - equilibriumMgL);
}

const area = quantity("open water surface", "m2", 1e-3, 50);
const volume = quantity("volume of water", "L", 0.1, 100000);

export const transferRelations = [
  relation({
    id: "transfer-velocity-scaling",
    title: "Transfer velocity of a gas at a temperature from k600",
    room: "gas",
    inputs: {
      k600: quantity("transfer velocity of CO2 at 20 °C", "cm/h", 0, 200),
      gas: choice("gas", ["co2", "o2"], "co2"),
      temperature: waterTemperature,
      exponent: quantity("Schmidt exponent", "1", 0.5, 0.6667, 0.5),
    },
    outputs: { transfer: { label: "transfer velocity", unit: "cm/h" } },
    equation: "k = k600 (600/Sc)^n; n = 1/2 moving surface, 2/3 smooth or filmed",
    sources: ["wanninkhof-2014", "jaehne-1987-exponent", "holmen-liss-1984", "clark-1995"],
    compute: ({ k600, gas, temperature, exponent }) => ({
      transfer: scaleTransfer(k600, gas, temperature, exponent),
    }),
  }),
  relation({
    id: "transfer-temperature-factor",
    title: "Temperature factor of oxygen transfer, two forms",
    room: "gas",
    inputs: { temperature: quantity("water temperature", "°C", 5, 35) },
    outputs: {
      theta: { label: "1.024^(t-20)", unit: "1" },
      schmidt: { label: "Schmidt form, exponent 1/2", unit: "1" },
    },
    equation: "1.024^(t-20) against (Sc(20)/Sc(t))^1/2",
    sources: ["asce-2-06", "wanninkhof-2014"],
    compute: ({ temperature }) => ({
      theta: thetaFactor(temperature),
      schmidt: Math.sqrt(schmidt("o2", 20) / schmidt("o2", temperature)),
    }),
  }),
  relation({
    id: "rate-from-transfer-velocity",
    title: "Rate constant of a tank from a transfer velocity",
    room: "gas",
    inputs: { transfer: quantity("transfer velocity", "cm/h", 0, 500), area, volume },
    outputs: {
      rate: { label: "rate constant", unit: "1/h" },
      half_life: { label: "half-life of an excess", unit: "h" },
    },
    equation: "k = k_L A / V; half-life = ln 2 / k",
    sources: ["definition"],
    compute: ({ transfer, area, volume }) => {
      const rate = rateFromTransfer(transfer, area, volume);
      return { rate, half_life: Math.LN2 / rate };
    },
  }),
  relation({
    id: "transfer-velocity-from-rate",
    title: "Transfer velocity from a measured rate constant",
    room: "gas",
    inputs: { rate: quantity("rate constant", "1/h", 0, 50), area, volume },
    outputs: { transfer: { label: "transfer velocity", unit: "cm/h" } },
    equation: "k_L = k V / A",
    sources: ["definition"],
    compute: ({ rate, area, volume }) => ({ transfer: transferFromRate(rate, area, volume) }),
  }),
  relation({
    id: "surface-gas-flow",
    title: "Flow of gas through the surface",
    room: "gas",
    inputs: {
      transfer: quantity("transfer velocity", "cm/h", 0, 500),
      area,
      concentration: quantity("concentration in the water", "mg/L", 0, 500),
      equilibrium: quantity("concentration at equilibrium with the air", "mg/L", 0, 60),
    },
    outputs: { flow: { label: "flow out of the water", unit: "mg/h" } },
    equation: "N = k_L A (C - C_eq)",
    sources: ["definition"],
    compute: ({ transfer, area, concentration, equilibrium }) => ({
      flow: surfaceFlow(transfer, area, concentration, equilibrium),
    }),
  }),
] as const;
