/** A value rounded as far as its doubt allows. */
export interface Rounded {
  readonly value: number;
  readonly doubt: number;
  /** Power of ten of the last digit kept: −2 for hundredths, 1 for tens. */
  readonly place: number;
}

/** Power of ten of the first digit, and that digit. 0 has none: place 0, digit 0. */
function leading(x: number): { readonly place: number; readonly digit: number } {
  if (x === 0) return { place: 0, digit: 0 };
  const text = Math.abs(x).toExponential();
  return { place: Number(text.slice(text.indexOf("e") + 1)), digit: Number(text[0]) };
}

function mustBeFinite(x: number, name: string): void {
  if (!Number.isFinite(x)) throw new RangeError(`${name} ${x} is not a finite number`);
}

/**
 * Rounds to a power of ten, halves away from zero, as the number is written in decimals (1.005 to hundredths is 1.01).
 * @throws RangeError when a number is not finite
 */
export function roundToPlace(value: number, place: number): number {
  mustBeFinite(value, "the value");
  const [digits = "0", power = "0"] = Math.abs(value).toString().split("e");
  const whole = Math.round(Number(`${digits}e${Number(power) - place}`));
  // So many digits stand above the place that the number has none below it.
  if (!(whole < 1e21)) return value;
  const rounded = Number(`${whole}e${place}`);
  return rounded === 0 ? 0 : value < 0 ? -rounded : rounded;
}

/**
 * Rounds a doubt to one significant digit (two when it begins with 1), and the value to the same place.
 * A doubt of 0 leaves the value as it is, to the last digit it has.
 * @throws RangeError when a number is not finite or the doubt is below 0
 */
export function roundToDoubt(value: number, doubt: number): Rounded {
  mustBeFinite(value, "the value");
  mustBeFinite(doubt, "the doubt");
  if (doubt < 0) throw new RangeError(`a doubt of ${doubt} is below 0`);
  if (doubt === 0) return { value: value === 0 ? 0 : value, doubt: 0, place: lastPlace(value) };
  const first = leading(doubt);
  const place = first.place - (first.digit === 1 ? 1 : 0);
  return { value: roundToPlace(value, place), doubt: roundToPlace(doubt, place), place };
}

/** Place of the last digit that a number shows in its shortest spelling. */
function lastPlace(x: number): number {
  const [digits = "0", power = "0"] = Math.abs(x).toString().split("e");
  return Number(power) - (digits.split(".")[1]?.length ?? 0);
}

/** Place that keeps this many significant digits of a number. */
export function placeOfDigits(value: number, digits: number): number {
  const place = leading(value).place - digits + 1;
  // 9.996 to three digits becomes 10.0, whose third digit stands one place higher.
  return leading(roundToPlace(value, place)).place - digits + 1;
}
