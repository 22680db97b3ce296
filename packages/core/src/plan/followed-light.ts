import { daylightLevel, openDaylight } from "./lights.ts";
import type { Plan } from "./plan.ts";

/** What each light of a plan gives at full strength, followed through its tank: what the day takes for its light. */
export interface FollowedLight {
  /** `lightKey` of the plan that it was followed for. */
  readonly key: string;
  /** In the order of `lightsOf`. */
  readonly lights: readonly {
    /** What a level meter reads, laid on the carpet or, where there is none, on the bed: umol/m2/s. */
    readonly meter: number;
    /** At the top of each planting of the plan, in its order, umol/m2/s. */
    readonly plantings: readonly number[];
    /** Span of its output as it is known, shares of what was taken. */
    readonly span: readonly [low: number, high: number];
    /** Electrical power at full, W. */
    readonly watts: number;
  }[];
  /** Share of all photons that ends in the bed, the leaves, and on stones and wood. */
  readonly arrives: number;
  /** Standard error, share of the light. */
  readonly noise: number;
}

/** Settings of a lamp that leave the way of its light as it is: they only weigh it. */
const weighing: ReadonlySet<string> = new Set(["strength", "on", "off", "ramp", "programme", "ppfd", "measuredAt"]);
/** What says nothing of how a thing stands in the light. */
const besides: ReadonlySet<string> = new Set([
  "known",
  "note",
  "text",
  "reason",
  "price",
  "bag",
  "portions",
  "locked",
  "raised",
  "cutAt",
  "cutTo",
]);

/**
 * What the way of light through a tank depends on, as one text: two plans of the same key have the same light at full
 * strength. Dimmers, hours and the owner's reading are no part of it.
 */
export function lightKey(plan: Plan): string {
  const { tank, substrate, edges, hardscape, plants, water, light, lamps } = plan;
  const daylight = openDaylight(plan);
  const sky = daylight && { side: daylight.side, brightest: daylightLevel(daylight).ppfd };
  const { stain, haze } = water;
  const parts = { tank, substrate, edges, hardscape, plants, stain, haze, light, lamps, sky };
  return JSON.stringify(parts, (key, value: unknown) => (besides.has(key) || weighing.has(key) ? undefined : value));
}
