import { relation } from "../relation/index.ts";
import { bubbleSpeed, bubbleTransfer, type Interface } from "./bubble.ts";
import { DRY_AIR, GAS_CONSTANT_L_ATM, type Gas, MOLAR_MASS, ZERO_CELSIUS } from "./constants.ts";
import { oxygenSaturation } from "./oxygen.ts";
import { henry, henryDimensionless } from "./solubility.ts";
import { thetaFactor } from "./transfer.ts";
import { airPressure, quantity, waterTemperature, waterVolume } from "./usual-inputs.ts";

export interface AirStoneInput {
  /** Air flow at the mean temperature and pressure of the bubbles, L/h. */
  readonly flowLh: number;
  readonly volumeL: number;
  /** Width of the bubbles, mm. */
  readonly diameterMm: number;
  /** Depth of the stone, m. */
  readonly depthM: number;
  /** Water temperature, °C. */
  readonly t: number;
  readonly skin?: Interface;
}

/**
 * Rate constant that rising air bubbles add for one gas, plug flow at constant width.
 * @returns 1/h. Source: clift-1978
 */
export function bubbleRate(gas: Gas, input: AirStoneInput): number {
  const { flowLh, volumeL, diameterMm, depthM, t, skin = "contaminated" } = input;
  const hcc = henryDimensionless(henry(gas, t), t);
  const units =
    (bubbleTransfer(gas, diameterMm, t, skin) * 6000 * depthM) / (diameterMm * bubbleSpeed(diameterMm, t) * hcc);
  return ((flowLh * hcc) / volumeL) * -Math.expm1(-units);
}

/**
 * What an air stone adds to the exchange of the surface. Bubbles fill with CO2 but never with oxygen, so CO2 is
 * stripped less than the surface ratio of 0.92 would say, and never faster than the cap.
 * @returns rate constants of CO2 and oxygen and the cap for CO2, 1/h, and CO2 over oxygen; 2 % same correlations. Source: clift-1978
 */
export function airStone(input: AirStoneInput): {
  readonly kCo2: number;
  readonly capCo2: number;
  readonly kO2: number;
  readonly ratio: number;
} {
  const cap = (input.flowLh * henryDimensionless(henry("co2", input.t), input.t)) / input.volumeL;
  // the same at every flow, and so without any
  const perFlow = { ...input, flowLh: 1 };
  return {
    kCo2: bubbleRate("co2", input),
    capCo2: cap,
    kO2: bubbleRate("o2", input),
    ratio: bubbleRate("co2", perFlow) / bubbleRate("o2", perFlow),
  };
}

/**
 * Oxygen transfer of a device under the standard conditions of the clean-water test (0 mg/L, 20 °C, 1 atm).
 * @param rate volumetric oxygen rate constant at the test temperature, 1/h
 * @param t test temperature, °C
 * @param volumeL volume of water, L
 * @returns rate constant at 20 °C, 1/h, and standard transfer, g/h. Source: asce-2-06
 */
export function standardTransfer(
  rate: number,
  t: number,
  volumeL: number,
): { readonly rate20: number; readonly gramsPerHour: number } {
  const rate20 = rate / thetaFactor(t);
  return { rate20, gramsPerHour: (rate20 * oxygenSaturation(20) * volumeL) / 1000 };
}

/**
 * Oxygen carried by an air flow.
 * @param flowLh air flow, L/h, at the temperature and pressure given
 * @param t °C
 * @param pressureAtm atm
 * @returns g/h
 */
export function oxygenSupplied(flowLh: number, t = 20, pressureAtm = 1): number {
  return (flowLh * pressureAtm * DRY_AIR.o2 * MOLAR_MASS.o2) / (GAS_CONSTANT_L_ATM * (t + ZERO_CELSIUS));
}

/**
 * Oxygen transfer of a device in use.
 * @param standard standard transfer, g/h
 * @param t water temperature, °C
 * @param mgL oxygen in the water, mg/L
 * @param options alpha (transfer in tank water over clean), beta (saturation over clean) and air pressure
 * @returns g/h. Source: asce-2-06
 */
export function transferInUse(
  standard: number,
  t: number,
  mgL: number,
  options: { readonly alpha?: number; readonly beta?: number; readonly pressureAtm?: number } = {},
): number {
  const { alpha = 1, beta = 1, pressureAtm = 1 } = options;
  return (alpha * standard * thetaFactor(t) * (beta * oxygenSaturation(t, pressureAtm) - mgL)) / oxygenSaturation(20);
}

export const aerationRelations = [
  relation({
    id: "air-stone-transfer",
    title: "Gas exchange of an air stone",
    room: "gas",
    inputs: {
      flow: quantity("air flow", "L/h", 0, 5000),
      volume: waterVolume,
      diameter: quantity("width of the bubbles", "mm", 0.2, 8, 3),
      depth: quantity("depth of the stone", "m", 0.02, 3),
      temperature: waterTemperature,
    },
    outputs: {
      co2: { label: "rate constant of CO2", unit: "1/h" },
      co2_cap: { label: "cap for CO2, bubbles full", unit: "1/h" },
      o2: { label: "rate constant of oxygen", unit: "1/h" },
      ratio: { label: "CO2 over oxygen", unit: "1" },
    },
    equation: "k_b = (Q Hcc/V)(1 - e^-N), N = k_Lb (6/d)(h/u)/Hcc",
    sources: ["clift-1978", "weiss-1974", "benson-krause-1984"],
    validity: "Adds to the exchange of the surface.",
    compute: ({ flow, volume, diameter, depth, temperature }) => {
      const stone = airStone({ flowLh: flow, volumeL: volume, diameterMm: diameter, depthM: depth, t: temperature });
      return { co2: stone.kCo2, co2_cap: stone.capCo2, o2: stone.kO2, ratio: stone.ratio };
    },
  }),
  relation({
    id: "standard-oxygen-transfer",
    title: "Standard oxygen transfer of a device",
    room: "gas",
    inputs: {
      rate: quantity("oxygen rate constant as measured", "1/h", 0, 100),
      temperature: quantity("water temperature of the test", "°C", 5, 35),
      volume: waterVolume,
      air_flow: quantity("air flow at 20 °C, 1 atm", "L/h", 0.1, 1e6),
    },
    outputs: {
      rate_20: { label: "rate constant at 20 °C", unit: "1/h" },
      transfer: { label: "standard transfer", unit: "g/h" },
      efficiency: { label: "share of the oxygen supplied", unit: "%" },
    },
    equation: "k20 = k 1.024^(20-t); SOTR = k20 C*20 V; SOTE = SOTR / oxygen supplied",
    sources: ["asce-2-06", "benson-krause-1984"],
    compute: ({ rate, temperature, volume, air_flow }) => {
      const { rate20, gramsPerHour } = standardTransfer(rate, temperature, volume);
      return {
        rate_20: rate20,
        transfer: gramsPerHour,
        efficiency: (100 * gramsPerHour) / oxygenSupplied(air_flow),
      };
    },
  }),
  relation({
    id: "oxygen-transfer-in-use",
    title: "Oxygen transfer of a device in tank water",
    room: "gas",
    inputs: {
      standard: quantity("standard transfer", "g/h", 0, 1e5),
      temperature: waterTemperature,
      oxygen: quantity("oxygen in the water", "mg/L", 0, 30),
      alpha: quantity("transfer in tank water over clean water", "1", 0.2, 1.2, 1),
      beta: quantity("saturation in tank water over clean water", "1", 0.8, 1, 1),
      pressure: airPressure,
    },
    outputs: { transfer: { label: "oxygen transfer", unit: "g/h" } },
    equation: "OTR = alpha SOTR 1.024^(t-20) (beta C* - C)/C*20",
    sources: ["asce-2-06", "benson-krause-1984"],
    compute: ({ standard, temperature, oxygen, alpha, beta, pressure }) => ({
      transfer: transferInUse(standard, temperature, oxygen, { alpha, beta, pressureAtm: pressure }),
    }),
  }),
] as const;
