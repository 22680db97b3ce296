import type { ChoiceInput, NumberInput } from "../relation/index.ts";

/** A number input, shortly written. */
export function quantity(label: string, unit: string, min: number, max: number, preset?: number): NumberInput {
  const input = { kind: "number", label, unit, min, max } as const;
  return preset === undefined ? input : { ...input, default: preset };
}

/** A choice input, shortly written; the options stay literal so that `compute` sees them. */
export function choice<const S extends readonly string[]>(
  label: string,
  options: S,
  preset: S[number],
): ChoiceInput & { readonly options: S } {
  return { kind: "choice", label, options, default: preset };
}

export const waterTemperature = quantity("water temperature", "°C", 0, 40);
export const airPressure = quantity("air pressure at the tank, not reduced to sea level", "atm", 0.5, 1.1, 1);
export const waterDepth = quantity("depth of water", "m", 0.02, 5);
export const waterVolume = quantity("volume of water", "L", 0.1, 100000);
export const lossRate = quantity("loss rate of CO2 at the surface", "1/h", 1e-4, 20);
export const airCo2 = quantity("CO2 of the room air, dry mole fraction", "ppm(v)", 0, 50000, 425);
