import { zeroCelsius } from "./water-properties.ts";

/** Published values for the strength of nitrous acid; they differ by half, so take HNO2 as known to a factor 1.5. */
export type NitrousForm = "da-silva" | "anthonisen";

const gasConstant = 8.31446;
const enthalpy = 6700;

/** pKa of nitrous acid, without unit (source da-silva-2006 or anthonisen-1976); °C, 0 to 40. */
export function nitrousPk(t: number, form: NitrousForm = "da-silva"): number {
  if (form === "anthonisen") return 2300 / (273 + t) / Math.LN10;
  return 3.16 + (enthalpy / (Math.LN10 * gasConstant)) * (1 / (t + zeroCelsius) - 1 / 298.15);
}

/** Share of nitrite that is HNO2, 0 to 1; °C, 0 to 40. */
export function nitrousShare(ph: number, t: number, form: NitrousForm = "da-silva"): number {
  return 1 / (1 + 10 ** (ph - nitrousPk(t, form)));
}
