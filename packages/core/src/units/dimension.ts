/** The independent kinds of quantity. Photons count as amount; charge equivalents, counted things and angle stand alone. */
export const BASES = [
  "length",
  "mass",
  "time",
  "temperature",
  "amount",
  "equivalents",
  "current",
  "luminous flux",
  "turbidity",
  "count",
  "angle",
] as const;

/** SI unit of each base. */
const BASE_UNITS = ["m", "kg", "s", "K", "mol", "eq", "A", "lm", "NTU", "pieces", "rad"] as const;

/** Exponents over {@link BASES}. */
export interface Dimension {
  readonly exponents: readonly number[];
  /** The exponents as text: equal dimensions have equal keys. */
  readonly key: string;
}

function dimension(exponents: readonly number[]): Dimension {
  return { exponents, key: exponents.join(" ") };
}

export const NONE: Dimension = dimension(BASES.map(() => 0));

export function baseDimension(base: (typeof BASES)[number]): Dimension {
  return dimension(BASES.map((b) => (b === base ? 1 : 0)));
}

/** a · b^exponent */
export function timesPower(a: Dimension, b: Dimension, exponent: number): Dimension {
  return dimension(a.exponents.map((e, i) => e + exponent * (b.exponents[i] as number)));
}

/** Exponent of one base. */
export function exponentOf(d: Dimension, base: (typeof BASES)[number]): number {
  return d.exponents[BASES.indexOf(base)] as number;
}

/** The dimension written in SI base units, for messages: "kg*m2/s3". */
export function inBaseUnits(d: Dimension): string {
  const side = (sign: 1 | -1) =>
    BASE_UNITS.flatMap((unit, i) => {
      const e = sign * (d.exponents[i] as number);
      return e > 0 ? [e === 1 ? unit : `${unit}${e}`] : [];
    });
  return [side(1).join("*") || "1", ...side(-1)].join("/");
}
