import { relation } from "../relation/index.ts";
import { pressureAtAltitude, waterVapourPressure } from "./air.ts";
import { ZERO_CELSIUS } from "./constants.ts";
import { airPressure, quantity, waterTemperature } from "./usual-inputs.ts";

/**
 * Oxygen in water that stands in equilibrium with water-saturated air.
 * Plain proportion to pressure would be wrong by about 1 % at 0.8 atm, as the vapour pressure does not fall with height.
 * @param t water temperature, °C, 0 to 40
 * @param pressureAtm pressure at the tank (not reduced to sea level), atm, 0.5 to 1.1
 * @param salinity practical salinity, 0 to 40; 0 for fresh water
 * @returns mg/L; 0.01 mg/L against printed tables. Source: benson-krause-1984
 */
export function oxygenSaturation(t: number, pressureAtm = 1, salinity = 0): number {
  const inverse = 1 / (t + ZERO_CELSIUS);
  const atOneAtm = Math.exp(
    -139.34411 +
      inverse * (1.575701e5 + inverse * (-6.642308e7 + inverse * (1.2438e10 + inverse * -8.621949e11))) -
      salinity * (1.7674e-2 + inverse * (-1.0754e1 + inverse * 2.1407e3)),
  );
  const vapour = waterVapourPressure(t);
  const theta = 9.75e-4 + t * (-1.426e-5 + t * 6.436e-8);
  return (atOneAtm * (pressureAtm - vapour) * (1 - theta * pressureAtm)) / ((1 - vapour) * (1 - theta));
}

/**
 * Oxygen saturation of fresh water at 1 atm by the independent fit of Garcia and Gordon.
 * @param t water temperature, °C, 0 to 40
 * @returns mg/L; within 0.001 mg/L of `oxygenSaturation` from 5 to 40 °C. Source: garcia-gordon-1992
 */
export function oxygenSaturationGarciaGordon(t: number): number {
  const s = Math.log((298.15 - t) / (ZERO_CELSIUS + t));
  return 1.42905 * Math.exp(2.00907 + s * (3.22014 + s * (4.0501 + s * (4.94457 + s * (-0.256847 + s * 3.88767)))));
}

/**
 * Share of saturation.
 * @param mgL oxygen, mg/L
 * @param t water temperature, °C, 0 to 40
 * @param pressureAtm pressure at the tank, atm, 0.5 to 1.1
 * @returns %, 100 at equilibrium with air. Source: benson-krause-1984
 */
export function oxygenPercent(mgL: number, t: number, pressureAtm = 1): number {
  return (100 * mgL) / oxygenSaturation(t, pressureAtm);
}

const equation =
  "ln C* = -139.34411 + 1.575701e5/T - 6.642308e7/T^2 + 1.2438e10/T^3 - 8.621949e11/T^4 - S(1.7674e-2 - 10.754/T + 2140.7/T^2); C = C* P (1 - Pwv/P)(1 - theta P) / ((1 - Pwv)(1 - theta))";
const saturationOutput = { oxygen: { label: "oxygen at saturation", unit: "mg/L" } } as const;

export const oxygenRelations = [
  relation({
    id: "oxygen-saturation",
    title: "Oxygen in water that is saturated with air",
    room: "gas",
    inputs: {
      temperature: waterTemperature,
      pressure: airPressure,
      salinity: quantity("practical salinity", "1", 0, 40, 0),
    },
    outputs: saturationOutput,
    equation,
    sources: ["benson-krause-1984"],
    validity: "Use the pressure at the station, not the sea-level figure of a weather report.",
    compute: ({ temperature, pressure, salinity }) => ({ oxygen: oxygenSaturation(temperature, pressure, salinity) }),
  }),
  relation({
    id: "oxygen-saturation-at-altitude",
    title: "Oxygen at saturation at a height above the sea",
    room: "gas",
    inputs: { temperature: waterTemperature, altitude: quantity("height above the sea", "m", -500, 5000) },
    outputs: saturationOutput,
    equation: `${equation}; P = (1 - 2.25577e-5 h)^5.25588`,
    sources: ["benson-krause-1984", "standard-atmosphere"],
    compute: ({ temperature, altitude }) => ({ oxygen: oxygenSaturation(temperature, pressureAtAltitude(altitude)) }),
  }),
  relation({
    id: "oxygen-saturation-garcia-gordon",
    title: "Oxygen at saturation, second fit for comparison",
    room: "gas",
    inputs: { temperature: waterTemperature },
    outputs: saturationOutput,
    equation:
      "s = ln((298.15-t)/(273.15+t)); ln C(mL/L) = 2.00907 + 3.22014 s + 4.0501 s^2 + 4.94457 s^3 - 0.256847 s^4 + 3.88767 s^5; 1.42905 mg/mL",
    sources: ["garcia-gordon-1992"],
    validity: "Fresh water, 1 atm.",
    compute: ({ temperature }) => ({ oxygen: oxygenSaturationGarciaGordon(temperature) }),
  }),
  relation({
    id: "oxygen-percent-saturation",
    title: "Oxygen as a share of saturation",
    room: "gas",
    inputs: {
      oxygen: quantity("oxygen", "mg/L", 0, 60),
      temperature: waterTemperature,
      pressure: airPressure,
    },
    outputs: { saturation: { label: "share of saturation", unit: "%" } },
    equation: "100 C / C_P",
    sources: ["benson-krause-1984"],
    compute: ({ oxygen, temperature, pressure }) => ({ saturation: oxygenPercent(oxygen, temperature, pressure) }),
  }),
] as const;
