import type { UnitSystem } from "@lentic/core/design";

/** Writes lengths as the reader reads them: millimetres, or inches to a tenth. */
export const lengthWriter =
  (units: UnitSystem) =>
  (metres: number): string =>
    units === "us" ? `${Math.round((metres / 0.0254) * 10) / 10} in` : `${Math.round(metres * 1000)} mm`;
