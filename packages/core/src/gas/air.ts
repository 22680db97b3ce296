import { relation } from "../relation/index.ts";
import { ZERO_CELSIUS } from "./constants.ts";
import { quantity, waterTemperature } from "./usual-inputs.ts";

/**
 * Vapour pressure of fresh water.
 * @param t temperature, °C, 0 to 40
 * @returns atm. Source: benson-krause-1984
 */
export function waterVapourPressure(t: number): number {
  const inverse = 1 / (t + ZERO_CELSIUS);
  return Math.exp(11.8571 - inverse * (3840.7 + inverse * 216961));
}

/**
 * Air pressure of the standard atmosphere.
 * @param m height above the sea, m, -500 to 11000
 * @returns atm; the weather moves it by 3 % either way. Source: standard-atmosphere
 */
export function pressureAtAltitude(m: number): number {
  return (1 - 2.25577e-5 * m) ** 5.25588;
}

export const airRelations = [
  relation({
    id: "water-vapour-pressure",
    title: "Vapour pressure of fresh water",
    room: "gas",
    inputs: { temperature: waterTemperature },
    outputs: { pressure: { label: "vapour pressure", unit: "atm" } },
    equation: "Pwv = exp(11.8571 - 3840.70/T - 216961/T^2), T in K",
    sources: ["benson-krause-1984"],
    compute: ({ temperature }) => ({ pressure: waterVapourPressure(temperature) }),
  }),
  relation({
    id: "pressure-at-altitude",
    title: "Air pressure at a height above the sea",
    room: "gas",
    inputs: { altitude: quantity("height above the sea", "m", -500, 5000) },
    outputs: {
      pressure: { label: "air pressure", unit: "atm" },
      pressure_hpa: { label: "air pressure", unit: "hPa" },
    },
    equation: "P = (1 - 2.25577e-5 h)^5.25588 atm",
    sources: ["standard-atmosphere"],
    validity: "Standard atmosphere; a barometer at the tank is better.",
    compute: ({ altitude }) => {
      const pressure = pressureAtAltitude(altitude);
      return { pressure, pressure_hpa: pressure * 1013.25 };
    },
  }),
] as const;
