/** Light and carbon dioxide of a week: the light followed past the plants as they stand, and the day that comes of it. */
import { type FollowedLight, lightKey, type Plan } from "../plan/index.ts";
import { followLight } from "../scape/index.ts";
import { compile, type RepeatingDay, repeatingDay, setupOf } from "../tank/index.ts";
import type { TraceOptions } from "../tracer/index.ts";
import { type DayConditions, dayConditions } from "./day-conditions.ts";

/** Light of one week, and the day from which the next one may be sought. */
export interface WeekLight {
  readonly conditions: DayConditions;
  readonly day: RepeatingDay;
  readonly followed: FollowedLight | null;
}

/** Follows the light of a plan, telling how far it is. */
export function* followed(plan: Plan, options: TraceOptions): Generator<number, FollowedLight | null> {
  const work = followLight(plan, options);
  if (!work) return null;
  for (;;) {
    const { share, result } = work.step();
    if (result) return result;
    yield share;
  }
}

/**
 * What the owner's reading makes of each light: factors that hold for every week, since a reading is taken once, under the
 * plants of its day.
 */
export function readingFactors(plan: Plan, light: FollowedLight): readonly number[] {
  const { lamps } = setupOf(plan, [light]);
  return light.lights.map(({ meter }, i) => (meter > 0 ? lamps[i]!.meter / meter : 1));
}

const withoutReading = (plan: Plan): Plan => (plan.light ? { ...plan, light: { ...plan.light, ppfd: null } } : plan);

/** The day of a plan under a light that was followed. @param factors of each light, from the owner's reading */
export function dayUnder(
  plan: Plan,
  light: FollowedLight | null,
  factors: readonly number[],
  before: RepeatingDay | null,
): WeekLight {
  const bare = withoutReading(plan);
  const scaled = light && {
    ...light,
    key: lightKey(bare),
    lights: light.lights.map((l, i) => {
      const factor = factors[i] ?? 1;
      return { ...l, meter: l.meter * factor, plantings: l.plantings.map((p) => p * factor) };
    }),
  };
  const setup = setupOf(bare, scaled ? [scaled] : []);
  const day = repeatingDay(compile(setup), { ...(before ? { start: before.end } : {}), mostDays: 12, grid: 15 });
  return { conditions: dayConditions(setup, day, 1000 * plan.water.kh.value), day, followed: light };
}
