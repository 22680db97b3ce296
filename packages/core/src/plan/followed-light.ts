import type { Plan } from "./plan.ts";

/** What each lamp of a plan gives at full strength, followed through its tank: what the day takes for its light. */
export interface FollowedLight {
  /** `lightKey` of the plan that it was followed for. */
  readonly key: string;
  /** The tank's first lamp, then the further ones. */
  readonly lamps: readonly {
    /** What a level meter reads, laid on the carpet or, where there is none, on the bed: umol/m2/s. */
    readonly meter: number;
    /** At the top of each planting of the plan, in its order, umol/m2/s. */
    readonly plantings: readonly number[];
    /** Span of its output as it is known, shares of what was taken. */
    readonly span: readonly [low: number, high: number];
  }[];
  /** Share of all photons that ends in the bed, the leaves, and on stones and wood. */
  readonly arrives: number;
  /** Standard error, share of the light. */
  readonly noise: number;
}

/** Settings of a lamp that leave the way of its light as it is: they only weigh it. */
const weighing: ReadonlySet<string> = new Set(["strength", "on", "off", "ramp", "ppfd", "measuredAt"]);
/** What says nothing of how a thing stands in the light. */
const besides: ReadonlySet<string> = new Set(["known", "note", "text", "reason", "price", "bag", "portions", "locked"]);

/**
 * What the way of light through a tank depends on, as one text: two plans of the same key have the same light at full
 * strength. Dimmers, hours and the owner's reading are no part of it.
 */
export function lightKey({ tank, substrate, edges, hardscape, plants, water, light, lamps }: Plan): string {
  const parts = { tank, substrate, edges, hardscape, plants, stain: water.stain, haze: water.haze, light, lamps };
  return JSON.stringify(parts, (key, value: unknown) => (besides.has(key) || weighing.has(key) ? undefined : value));
}
