import { parseUnit } from "./convert.ts";
import { placeOfDigits, roundToDoubt, roundToPlace } from "./rounding.ts";
import { resolve } from "./unit.ts";
import { superscript } from "./unit-spelling.ts";

/** A number whose first digit stands below or above these places is written with a power of ten. */
const SMALLEST_PLACE = -5;
const LARGEST_PLACE = 12;
/** Significant digits where nothing is known of the doubt; whole numbers keep all of theirs. */
const DEFAULT_DIGITS = 4;

/** A number rounded to a place and written with just its digits; never "-0". `trim` drops closing zeros. */
function write(value: number, place: number, trim: boolean): string {
  const rounded = roundToPlace(value, place);
  const exponent = rounded === 0 ? 0 : Number(rounded.toExponential().split("e")[1]);
  const far = rounded !== 0 && (exponent < SMALLEST_PLACE || exponent > LARGEST_PLACE);
  const decimals = Math.min(20, Math.max(0, far ? exponent - place : -place));
  const plain = far ? rounded.toExponential(decimals) : rounded.toFixed(decimals);
  const [digits = "", power] = plain.split("e");
  const short = trim && digits.includes(".") ? digits.replace(/\.?0+$/, "") : digits;
  const text = power === undefined ? short : `${short}×10${superscript(Number(power))}`;
  return text.replace("-", "−");
}

/**
 * A unit as people see it: µmol/m²s, °C, °dKH, W/m²K, mol/(L·atm). Empty for a pure number.
 * @throws UnitError when the text is no unit, or an ambiguous one
 */
export function displayUnit(unit: string): string {
  const made = resolve(unit, "code");
  if (made.kind !== "ask" || made.readings.some((r) => !r.fieldSettles)) return parseUnit(unit).shown;
  // Hardness and alkalinity share most of their scales: the spelling is the same for both.
  const [first = unit, ...others] = new Set(made.readings.map((r) => r.unit.shown));
  return others.length === 0 ? first : unit;
}

function withUnit(number: string, unit: string): string {
  const shown = displayUnit(unit);
  if (shown === "") return number;
  return shown === "°" ? `${number}°` : `${number} ${shown}`;
}

export interface FormatOptions {
  /** Doubt of the value in the same unit; the value is rounded to the place of its first digit. */
  readonly uncertainty?: number;
  /** Significant digits, where the doubt is not known. */
  readonly digits?: number;
}

function placeFor(value: number, { uncertainty = 0, digits }: FormatOptions): { place: number; trim: boolean } {
  if (uncertainty !== 0) return { place: roundToDoubt(value, uncertainty).place, trim: false };
  if (digits === undefined) return { place: Math.min(0, placeOfDigits(value, DEFAULT_DIGITS)), trim: true };
  if (!(Number.isInteger(digits) && digits >= 1 && digits <= 15)) {
    throw new RangeError(`${digits} significant digits: 1 to 15 are possible`);
  }
  return { place: placeOfDigits(value, digits), trim: false };
}

/**
 * A figure with as many digits as it deserves: `formatQuantity(18.43, "mg/L", { uncertainty: 0.6 })` is "18.4 mg/L".
 * The doubt wins over `digits`; with neither, up to four significant digits. A minus is printed as −.
 * @throws RangeError when the value is not finite, UnitError when the unit is none
 */
export function formatQuantity(value: number, unit: string, options: FormatOptions = {}): string {
  const { place, trim } = placeFor(value, options);
  return withUnit(write(value, place, trim), unit);
}

/** A figure with its doubt: "18.4 ± 0.6 mg/L". @throws as {@link formatQuantity} */
export function formatWithDoubt(value: number, doubt: number, unit: string): string {
  if (doubt === 0) return formatQuantity(value, unit);
  const { place } = roundToDoubt(value, doubt);
  return withUnit(`${write(value, place, false)} ± ${write(doubt, place, false)}`, unit);
}

/**
 * A range in words: "16 to 21 mg/L". Half its width counts as the doubt, and sets the digits. The ends may come in either
 * order; a range of no width is told as one figure. @throws as {@link formatQuantity}
 */
export function formatRange(low: number, high: number, unit: string): string {
  const [from, to] = low <= high ? [low, high] : [high, low];
  const doubt = (to - from) / 2;
  if (doubt === 0) return formatQuantity(from, unit);
  const { place } = roundToDoubt(from, doubt);
  return withUnit(`${write(from, place, false)} to ${write(to, place, false)}`, unit);
}
