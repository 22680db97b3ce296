/** What a unit is made of. */
import type { Dimension } from "./dimension.ts";
import type { Ratio } from "./ratio.ts";

/**
 * How a unit of temperature is meant: `reading` on a scale with its own zero (°C, °F), `difference` (Δ°C, Δ°F), or
 * `plain` (everything else; K serves as both).
 */
export type Scale = "plain" | "reading" | "difference";

/** One named unit, with its prefix if it has one. */
export interface Atom {
  readonly symbol: string;
  readonly shown: string;
  readonly dimension: Dimension;
  /** SI value of one. */
  readonly ratio: Ratio;
  /** SI value at the zero of its scale. */
  readonly zero: Ratio;
  readonly scale: Scale;
  readonly alone: boolean;
}

/** A factor of a compound; `count` is a number that stands with it, as in "per 50 L". */
export interface Term {
  readonly atom: Atom | null;
  readonly exponent: number;
  readonly count: string | null;
  readonly under: boolean;
}

export interface Measure {
  readonly dimension: Dimension;
  readonly ratio: Ratio;
  readonly zero: Ratio;
  readonly scale: Scale;
}
