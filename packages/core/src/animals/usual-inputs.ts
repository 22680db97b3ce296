import type { ChoiceInput, NumberInput, SeriesInput } from "../relation/index.ts";

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

/** A list of numbers, shortly written. */
export function series(label: string, unit: string, min: number, max: number, atLeast = 1): SeriesInput {
  return { kind: "series", label, unit, min, max, atLeast };
}

export const temperature = quantity("water temperature", "°C", 0, 45, 25);
export const bodyMass = quantity("wet mass of one animal", "g", 0.0001, 20000);
export const count = quantity("number of animals", "1", 0, 100000, 1);
export const tankVolume = quantity("net volume of water", "L", 0.5, 1e6);
export const acidity = quantity("pH", "1", 4, 11);
