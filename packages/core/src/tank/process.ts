import type { ConservedId, Outside, QuantityId, StateId } from "./quantities.ts";
import type { Setup } from "./setup.ts";

/** A movement of one conserved quantity from one place to another, in its unit per second; may be negative. */
export interface Flow {
  /** Stable name, e.g. "surface.co2". */
  readonly id: string;
  /** What a person reads in a working: "lost at the surface". */
  readonly label: string;
  readonly of: ConservedId;
  readonly from: StateId | Outside;
  readonly to: StateId | Outside;
}

/**
 * One process of the tank. It declares what it reads, what it provides and what it moves; it knows no other process.
 * `start` prepares it for one tank and returns the function that is called inside the integration.
 */
export interface Process {
  readonly id: string;
  readonly title: string;
  /** One or two sentences: the equation in words. */
  readonly about: string;
  readonly sources: readonly string[];
  readonly needs: readonly QuantityId[];
  readonly provides: readonly QuantityId[];
  readonly flows: readonly Flow[];
  /** Hours of the day at which its rates jump; the integration stops there and starts anew. */
  breaks?(setup: Setup): readonly number[];
  /** Returns null when the tank has no such thing (no lamp, no animals): its flows are then zero. */
  start(setup: Setup): Rates | null;
}

export interface Rates {
  /** Called at the start of each smooth stretch with its middle, in seconds since the first midnight. */
  begin?(middle: number): void;
  /**
   * Writes provided quantities into `q` and flow rates into `flow` from index `first` on.
   * @param t seconds since the first midnight; @param y state vector
   */
  at(t: number, y: Float64Array, q: Float64Array, flow: Float64Array, first: number): void;
}

export const hour = 3600;
export const day = 86400;
