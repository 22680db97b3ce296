import { relation } from "../relation/index.ts";
import { MOLAR_MASS, ZERO_CELSIUS } from "./constants.ts";
import { quantity, waterTemperature } from "./usual-inputs.ts";

/**
 * First dissociation of carbonic acid at no ionic strength; kept here because sciences do not read each other.
 * @param t temperature, °C, 0 to 250
 * @returns pK1. Source: plummer-busenberg-1982
 */
export function carbonicPk1(t: number): number {
  const k = t + ZERO_CELSIUS;
  return 356.3094 + 0.06091964 * k - 21834.37 / k - 126.8339 * Math.log10(k) + 1684915 / (k * k);
}

/**
 * Second dissociation of carbonic acid at no ionic strength.
 * @param t temperature, °C, 0 to 250
 * @returns pK2. Source: plummer-busenberg-1982
 */
export function carbonicPk2(t: number): number {
  const k = t + ZERO_CELSIUS;
  return 107.8871 + 0.03252849 * k - 5151.79 / k - 38.92561 * Math.log10(k) + 563713.9 / (k * k);
}

/**
 * CO2 from pH and alkalinity, ideal, while all alkalinity is bicarbonate (pH 6 to 8).
 * @param ph pH
 * @param alkalinity meq/L
 * @param t water temperature, °C, 0 to 40
 * @returns mg/L; an error of 0.1 in pH is 23 % of CO2. Source: plummer-busenberg-1982
 */
export function co2FromPh(ph: number, alkalinity: number, t: number): number {
  return MOLAR_MASS.co2 * alkalinity * 10 ** (carbonicPk1(t) - ph);
}

export const carbonicRelations = [
  relation({
    id: "carbonic-acid-constants",
    title: "Dissociation of carbonic acid",
    room: "gas",
    inputs: { temperature: waterTemperature },
    outputs: { pk1: { label: "pK1", unit: "1" }, pk2: { label: "pK2", unit: "1" } },
    equation:
      "pK1 = 356.3094 + 0.06091964 T - 21834.37/T - 126.8339 log10 T + 1684915/T^2; pK2 = 107.8871 + 0.03252849 T - 5151.79/T - 38.92561 log10 T + 563713.9/T^2",
    sources: ["plummer-busenberg-1982"],
    validity: "No ionic strength.",
    compute: ({ temperature }) => ({ pk1: carbonicPk1(temperature), pk2: carbonicPk2(temperature) }),
  }),
  relation({
    id: "co2-from-ph-reading",
    title: "CO2 from a pH reading and alkalinity",
    room: "gas",
    inputs: {
      ph: quantity("pH", "1", 5, 9),
      alkalinity: quantity("alkalinity", "meq/L", 0.01, 20),
      temperature: waterTemperature,
    },
    outputs: { co2: { label: "dissolved CO2", unit: "mg/L" } },
    equation: "CO2 = 44.0095 Alk 10^(pK1 - pH)",
    sources: ["plummer-busenberg-1982"],
    validity: "Ideal; pH 6 to 8, alkalinity from bicarbonate alone.",
    compute: ({ ph, alkalinity, temperature }) => ({ co2: co2FromPh(ph, alkalinity, temperature) }),
  }),
] as const;
