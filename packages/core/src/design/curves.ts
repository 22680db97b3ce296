import type { Plan } from "../plan/index.ts";
import type { RepeatingDay } from "../tank/index.ts";
import type { DayCurves, Extreme, Wanted } from "./types.ts";

/** Value of a series at an hour of the day, straight between grid points. */
export function at(run: Pick<RepeatingDay, "hours">, values: Float64Array, hour: number): number {
  const last = run.hours.length - 1;
  const position = ((hour - run.hours[0]!) / (run.hours[last]! - run.hours[0]!)) * last;
  const i = Math.max(0, Math.min(last - 1, Math.floor(position)));
  const share = Math.max(0, Math.min(1, position - i));
  return values[i]! * (1 - share) + values[i + 1]! * share;
}

/** Highest and lowest point of a series, with their hours; exact at timer edges. */
export function extremesOf(run: RepeatingDay, id: Extreme["series"]): { high: Extreme; low: Extreme } {
  const values = run.series[id];
  let hi = 0;
  let lo = 0;
  for (let i = 1; i < values.length; i += 1) {
    if (values[i]! > values[hi]!) hi = i;
    if (values[i]! < values[lo]!) lo = i;
  }
  let high = { at: run.hours[hi]!, value: values[hi]! };
  let low = { at: run.hours[lo]!, value: values[lo]! };
  for (const mark of run.marks) {
    if (mark[id] > high.value) high = { at: mark.hour, value: mark[id] };
    if (mark[id] < low.value) low = { at: mark.hour, value: mark[id] };
  }
  return { high: { series: id, kind: "high", ...high }, low: { series: id, kind: "low", ...low } };
}

/**
 * Hours of the longest stretch during which a series lies beyond a limit, or null. One over midnight is one stretch, and
 * then begins later than it ends.
 */
export function beyond(
  run: Pick<RepeatingDay, "hours">,
  values: Float64Array,
  limit: number,
  side: "over" | "under",
): { from: number; to: number } | null {
  const out = (v: number): boolean => (side === "over" ? v > limit : v < limit);
  const stretches: { from: number; to: number }[] = [];
  for (let i = 0; i < values.length; i += 1) {
    if (!out(values[i]!)) continue;
    const hour = run.hours[i]!;
    if (i > 0 && out(values[i - 1]!)) stretches[stretches.length - 1]!.to = hour;
    else stretches.push({ from: hour, to: hour });
  }
  const first = stretches[0];
  const last = stretches.at(-1);
  if (first && last && first !== last && out(values[0]!) && out(values.at(-1)!)) {
    stretches.shift();
    last.to = first.to;
  }
  const length = (s: { from: number; to: number }): number => s.to - s.from + (s.to < s.from ? 24 : 0);
  return stretches.reduce<{ from: number; to: number } | null>(
    (longest, s) => (longest && length(longest) >= length(s) ? longest : s),
    null,
  );
}

/** When and whether the wanted CO2 is there while the lamp is on. */
export function wantedOf(plan: Plan, run: RepeatingDay): Wanted | null {
  if (!plan.co2 || !plan.light) return null;
  const value = plan.co2.wanted.value;
  const from = plan.light.on.value;
  const to = plan.light.off.value;
  const atOn = run.marks.find((m) => Math.abs(m.hour - from) < 1e-3)?.co2 ?? at(run, run.series.co2, from);
  if (atOn >= value - 0.05) return { value, from, to, atOn, reachedAt: from, late: 0 };
  let reachedAt: number | null = null;
  const { hours } = run;
  const co2 = run.series.co2;
  for (let i = 1; i < hours.length; i += 1) {
    if (hours[i]! <= from || hours[i]! > to) continue;
    if (co2[i]! >= value) {
      const before = co2[i - 1]!;
      const share = co2[i]! > before ? (value - before) / (co2[i]! - before) : 1;
      reachedAt = Math.max(from, hours[i - 1]! + (hours[i]! - hours[i - 1]!) * Math.max(0, share));
      break;
    }
  }
  return { value, from, to, atOn, reachedAt, late: reachedAt === null ? 0 : (reachedAt - from) * 60 };
}

/** What is drawn of a day. */
export function curvesOf(plan: Plan, run: RepeatingDay): DayCurves {
  const co2 = extremesOf(run, "co2");
  const oxygen = extremesOf(run, "oxygen");
  const ph = extremesOf(run, "ph");
  const temperature = extremesOf(run, "temperature");
  return {
    hours: run.hours,
    series: run.series,
    extremes: [co2.high, co2.low, oxygen.high, oxygen.low, ph.low, ph.high, temperature.high],
    wanted: wantedOf(plan, run),
    repeats: run.repeats,
    start: run.start,
  };
}
