/**
 * Exact fractions of whole numbers. Unit factors are kept this way, so that a conversion is rounded once, at its end,
 * and 6 ft is 72 in to the last bit.
 */
export interface Ratio {
  readonly n: bigint;
  /** Always above zero. */
  readonly d: bigint;
}

function gcd(a: bigint, b: bigint): bigint {
  let [x, y] = [a < 0n ? -a : a, b];
  while (y > 0n) [x, y] = [y, x % y];
  return x;
}

function reduced(n: bigint, d: bigint): Ratio {
  const sign = d < 0n ? -1n : 1n;
  const common = gcd(n, d * sign) || 1n;
  return { n: (n * sign) / common, d: (d * sign) / common };
}

export const ZERO: Ratio = { n: 0n, d: 1n };
export const ONE: Ratio = { n: 1n, d: 1n };

const DECIMAL = /^(-?)(\d+)(?:\.(\d+))?(?:e([+-]?\d{1,3}))?$/;

function decimal(text: string): Ratio {
  const match = DECIMAL.exec(text);
  if (!match) throw new RangeError(`${text} is not a decimal number`);
  const [, sign, whole = "", fraction = "", power = "0"] = match;
  const digits = BigInt(`${sign}${whole}${fraction}`);
  const exponent = Number(power) - fraction.length;
  const ten = 10n ** BigInt(Math.abs(exponent));
  return exponent < 0 ? reduced(digits, ten) : { n: digits * ten, d: 1n };
}

/**
 * A ratio from decimal text: "0.0254", "1e-6", "10/56.077".
 * @throws RangeError when the text is no such number.
 */
export function ratio(text: string): Ratio {
  const [over = "", under] = text.split("/", 2);
  return under === undefined ? decimal(over) : divide(decimal(over), decimal(under));
}

export function multiply(a: Ratio, b: Ratio): Ratio {
  return reduced(a.n * b.n, a.d * b.d);
}

export function divide(a: Ratio, b: Ratio): Ratio {
  return reduced(a.n * b.d, a.d * b.n);
}

export function subtract(a: Ratio, b: Ratio): Ratio {
  return reduced(a.n * b.d - b.n * a.d, a.d * b.d);
}

/** Whole powers, negative ones too. */
export function power(a: Ratio, exponent: number): Ratio {
  const e = BigInt(Math.abs(exponent));
  return exponent < 0 ? reduced(a.d ** e, a.n ** e) : { n: a.n ** e, d: a.d ** e };
}

/** The double nearest to the ratio. */
export function toNumber({ n, d }: Ratio): number {
  if (n === 0n) return 0;
  const size = n < 0n ? -n : n;
  const spread = size.toString(2).length - d.toString(2).length;
  // 64 bits of quotient; the last one notes a remainder, so that the rounding to 53 bits is right.
  const shift = 64 - spread;
  const top = shift > 0 ? size << BigInt(shift) : size;
  const bottom = shift < 0 ? d << BigInt(-shift) : d;
  const quotient = top / bottom;
  const sticky = quotient * bottom === top ? quotient : quotient | 1n;
  return (n < 0n ? -1 : 1) * Number(sticky) * 2 ** -shift;
}

/** A line y = x · multiply / divide + add; a whole pair of numbers keeps it exact where it can be. */
export interface Line {
  readonly multiply: number;
  readonly divide: number;
  readonly add: number;
}

/** The line of a slope and an offset. */
export function line(slope: Ratio, add: Ratio): Line {
  const top = Number(slope.n);
  const bottom = Number(slope.d);
  const whole = Number.isSafeInteger(top) && Number.isSafeInteger(bottom);
  return { multiply: whole ? top : toNumber(slope), divide: whole ? bottom : 1, add: toNumber(add) };
}

/** The point of the line at `x`; Infinity where the result is beyond a double. */
export function along({ multiply: m, divide: d, add }: Line, x: number): number {
  const y = (x * m) / d;
  // The product may overflow although the quotient does not.
  return (Number.isFinite(y) ? y : x * (m / d)) + add;
}
