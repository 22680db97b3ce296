import { relation } from "../relation/index.ts";
import { carbonicPk1, carbonicPk2 } from "./carbonic.ts";
import { ZERO_CELSIUS } from "./constants.ts";
import { co2DiffusivityZeebe } from "./diffusivity.ts";
import { quantity, waterTemperature } from "./usual-inputs.ts";

/** cm/h in one m/s. */
export const CM_PER_H = 3.6e5;

/**
 * Rate of hydration of CO2, with water and with hydroxide.
 * @param ph pH
 * @param t water temperature, °C, 5 to 35
 * @returns 1/s. Source: johnson-1982
 */
export function hydrationRate(ph: number, t: number): number {
  const k = t + ZERO_CELSIUS;
  const withWater = Math.exp(1246.98 - 6.19e4 / k - 183 * Math.log(k));
  const withHydroxide = Math.exp(-930.13 + 3.1e4 / k + 140.9 * Math.log(k));
  return withWater + withHydroxide / 10 ** -ph;
}

/**
 * Chemical enhancement of CO2 transfer with pH held through the film. An upper bound: in unbuffered fresh water the
 * ions cannot leave, pH climbs through the film and the extra flow is blocked (see `filmEnhancement`). Take 1 below
 * pH 7.5.
 * @param ph pH
 * @param transfer transfer velocity, cm/h
 * @param t water temperature, °C, 5 to 35
 * @returns factor on the transfer velocity, pure number. Sources: hoover-berkshire-1969, johnson-1982
 */
export function chemicalEnhancement(ph: number, transfer: number, t: number): number {
  const h = 10 ** -ph;
  const k1 = 10 ** -carbonicPk1(t);
  const k2 = 10 ** -carbonicPk2(t);
  const tau = 1 + (h * h) / (k1 * k2 + k1 * h);
  const d = co2DiffusivityZeebe(t);
  const depth = Math.sqrt((hydrationRate(ph, t) * tau) / d) * (d / (transfer / CM_PER_H));
  return tau / (tau - 1 + Math.tanh(depth) / depth);
}

export const enhancementRelations = [
  relation({
    id: "co2-chemical-enhancement",
    title: "Chemical enhancement of CO2 transfer, upper bound",
    room: "gas",
    inputs: {
      ph: quantity("pH", "1", 5, 10),
      transfer: quantity("transfer velocity", "cm/h", 0.1, 100),
      temperature: waterTemperature,
    },
    outputs: {
      factor: { label: "factor on the transfer velocity", unit: "1" },
      hydration: { label: "rate of hydration", unit: "1/s" },
    },
    equation:
      "alpha = tau/(tau - 1 + tanh(Qz)/(Qz)); z = D/k_L; Q = (r tau/D)^1/2; tau = 1 + h^2/(K1 K2 + K1 h); r = kCO2 + kOH Kw/h",
    sources: ["hoover-berkshire-1969", "johnson-1982", "plummer-busenberg-1982", "zeebe-2011"],
    validity: "Holds pH through the film: an upper bound for fresh water. Do not apply it to an injected tank.",
    compute: ({ ph, transfer, temperature }) => ({
      factor: chemicalEnhancement(ph, transfer, temperature),
      hydration: hydrationRate(ph, temperature),
    }),
  }),
] as const;
