import { findRoot } from "../numerics/index.ts";
import type { RepeatingDay, Setup } from "../tank/index.ts";
import type { DayContext } from "./context.ts";

export type Gas = NonNullable<Setup["gas"]>;

const co2AtLightsOn = (ctx: DayContext, day: RepeatingDay): number => {
  const on = ctx.plan.light!.on.value;
  return day.marks.find((m) => Math.abs(m.hour - on) < 1e-3)!.co2;
};

/**
 * Latest opening of the valve, in hours, that brings the wanted CO2 to lights-on; null when even eight hours do not.
 * Only for tanks with gas and lamp.
 */
export function openingFor(ctx: DayContext, gas: Gas, wanted: number): number | null {
  const on = ctx.plan.light!.on.value;
  const earliest = Math.max(0, on - 8);
  const missing = (opens: number): number => co2AtLightsOn(ctx, ctx.solve({ gas: { ...gas, opens } })) - wanted;
  const latest = on - 1 / 60;
  if (missing(earliest) < 0) return null;
  if (missing(latest) >= 0) return latest;
  return findRoot(missing, earliest, latest, { xtol: 1 / 120 });
}

/** Bubbles, as a multiple of the present rate, that bring the wanted CO2 to lights-on; null beyond ten times. */
export function gasFactorFor(ctx: DayContext, gas: Gas, wanted: number, change: Partial<Setup> = {}): number | null {
  const missing = (factor: number): number =>
    co2AtLightsOn(ctx, ctx.solve({ ...change, gas: { ...gas, rate: gas.rate * factor } })) - wanted;
  let low = 0.1;
  let high = 10;
  if (missing(high) < 0 || missing(low) > 0) return null;
  // one secant guess narrows the bracket: CO2 is nearly linear in the gas
  const a = missing(1);
  const guess = 1 - a / Math.max(1e-9, a + wanted);
  if (guess > low && guess < high) {
    const g = missing(guess);
    if (g < 0) low = guess;
    else high = guess;
  }
  return findRoot(missing, low, high, { xtol: 0.003 });
}

/** Highest CO2 of a day, mg/L, exact at timer edges. */
export function topOf(day: RepeatingDay): number {
  let top = 0;
  for (const v of day.series.co2) if (v > top) top = v;
  for (const m of day.marks) if (m.co2 > top) top = m.co2;
  return top;
}

/** Lowest oxygen of a day, mg/L. */
export function leastOxygen(day: RepeatingDay): number {
  let least = Number.POSITIVE_INFINITY;
  for (const v of day.series.oxygen) if (v < least) least = v;
  for (const m of day.marks) if (m.oxygen < least) least = m.oxygen;
  return least;
}

/** Gas, as a multiple of the present rate, at which the day tops out at `ceiling`; null when not within a tenth to ten times. */
export function gasFactorForTop(ctx: DayContext, gas: Gas, ceiling: number): number | null {
  const over = (factor: number): number => topOf(ctx.solve({ gas: { ...gas, rate: gas.rate * factor } })) - ceiling;
  if (over(0.1) > 0 || over(10) < 0) return null;
  return findRoot(over, 0.1, 10, { xtol: 0.005 });
}
