import type { Plan } from "../plan/index.ts";
import { scapeOf } from "../scape/index.ts";
import type { RepeatingDay } from "../tank/index.ts";
import { scapeGrown } from "./at-week.ts";
import {
  aWeekOn,
  differs,
  type GrowthOptions,
  type GrowthStep,
  type GrowthWeek,
  mostWeeks,
  type PastWeek,
  plantingsOf,
  shapeOf,
  told,
  usualPhotons,
  usualWeeks,
} from "./course.ts";
import { closingFindings, shadeFindings } from "./findings.ts";
import { dayUnder, followed, readingFactors, type WeekLight } from "./week-light.ts";

/**
 * The course of a plan's plantings. Each week the light is followed past the plants as they stand, where they changed by a
 * tenth, and the day's carbon dioxide found with it; on these each planting grows by days. Low and high courses grow at the
 * ends of `rateSpan` under light at the ends of what is known of the lamps, in the shade of the course told.
 * @throws LampError for a lamp that cannot be followed; RunError where no day can be run; RangeError for options out of range
 */
export function* growth(plan: Plan, options: GrowthOptions = {}): Generator<GrowthStep, void> {
  const { weeks = usualWeeks, start = "planting", seed = 1, photons = usualPhotons } = options;
  if (!(Number.isInteger(weeks) && weeks >= 1 && weeks <= mostWeeks))
    throw new RangeError(`${weeks} weeks: a whole number from 1 to ${mostWeeks} is allowed`);
  const scape = scapeOf(plan);
  const plantings = plantingsOf(scape, start);
  const trace = { seed, photons, directNoise: 0.05 };
  const course: PastWeek[] = [];
  let light: WeekLight | null = null;
  let factors: readonly number[] = [];
  const measured = plan.light?.ppfd != null;
  if (measured) {
    const first = yield* telling(0, followed(plan, trace));
    if (first) factors = readingFactors(plan, first);
  }
  for (let week = 0; week <= weeks; week += 1) {
    const anew = !light || plantings.some((p) => shapeOf(p).some((now, i) => differs(now, p.shape[i]!)));
    if (anew || !light) {
      const grown = scapeGrown(
        scape,
        plantings.map(({ stands: [{ height, biomass }] }) => ({ height, biomass })),
      );
      const seen = yield* telling(week, followed(grown.plan, trace));
      const before: RepeatingDay | null = light?.day ?? null;
      light = dayUnder(grown.plan, seen, factors, before);
      for (const p of plantings) p.shape = shapeOf(p);
    }
    const now = told(week, plantings, light, anew);
    course.push({ ...now, light, grown: plantings.map(({ stands: [{ height, biomass }] }) => ({ height, biomass })) });
    yield { kind: "week", week: now };
    if (week < weeks) for (const p of plantings) aWeekOn(p, light, measured);
  }
  const past = { scape, plantings, weeks: course, start };
  const tried = yield* telling(weeks, shadeFindings(past, trace, factors));
  yield { kind: "findings", findings: [...tried, ...closingFindings(past)] };
}

function* telling<T>(week: number, work: Generator<number, T>): Generator<GrowthStep, T> {
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
    yield { kind: "working", week, share: step.value };
  }
}

/** The whole course at once. @throws as `growth` */
export function growthOf(plan: Plan, options: GrowthOptions = {}): readonly GrowthWeek[] {
  const weeks: GrowthWeek[] = [];
  for (const step of growth(plan, options)) if (step.kind === "week") weeks.push(step.week);
  return weeks;
}
