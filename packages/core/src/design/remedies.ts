import { type Change, changeAt } from "../plan/index.ts";
import { exchangeOf, type RepeatingDay } from "../tank/index.ts";
import { co2Ceiling, co2Limit, type DayContext, oxygenLimit } from "./context.ts";
import { beyond } from "./curves.ts";
import { type Gas, gasFactorFor, gasFactorForTop, leastOxygen, openingFor, topOf } from "./solve.ts";
import type { Remedy } from "./types.ts";
import { clock, plain } from "./words.ts";

/** A typed value that says itself that nobody measured it yet. */
export const tried = (quantity: string): string => `${quantity} (assumed, from the day's working)`;

const change = (ctx: DayContext, path: readonly (string | number)[], value: unknown, name: string): Change =>
  changeAt(ctx.raw, path, value, name);

/** Hours over the animals' limit in words, or the day's top. */
function topWords(ctx: DayContext, day: RepeatingDay): { words: string; safe: boolean } {
  const limit = co2Limit(ctx.limits);
  const ceiling = co2Ceiling(ctx.limits);
  const over = beyond(day, day.series.co2, ceiling, "over");
  if (!over) return { words: `the day then tops out at ${plain(topOf(day), 1)} mg/L`, safe: true };
  const whose = limit ? "the animals' limit" : "where more gas gains little";
  return {
    words: `it passes ${plain(ceiling, 0)}, ${whose}, from ${clock(over.from)} to ${clock(over.to)}`,
    safe: false,
  };
}

/** Open the valve earlier, so that the wanted CO2 stands at lights-on. */
export function openEarlier(ctx: DayContext, gas: Gas): Remedy | null {
  const exact = openingFor(ctx, gas, ctx.plan.co2!.wanted.value);
  if (exact === null || exact >= gas.opens - 1 / 60) return null;
  const opens = Math.max(0, Math.floor(exact * 6 + 0.05) / 6);
  const { words, safe } = topWords(ctx, ctx.solve({ gas: { ...gas, opens } }));
  return {
    id: "open-earlier",
    text: `Open the valve at ${clock(opens)}`,
    changes: [change(ctx, ["co2", "opens"], clock(opens), `valve opens at ${clock(opens)}`)],
    effect: words,
    safe,
  };
}

/** More or fewer bubbles, so that the wanted CO2 stands at lights-on. */
export function bubblesForLightsOn(ctx: DayContext, gas: Gas): Remedy | null {
  const factor = gasFactorFor(ctx, gas, ctx.plan.co2!.wanted.value);
  return factor === null ? null : bubbles(ctx, gas, factor, Math.ceil);
}

/** Fewer bubbles, so that the day stays under the animals' limit. */
export function bubblesUnderCeiling(ctx: DayContext, gas: Gas): Remedy | null {
  const factor = gasFactorForTop(ctx, gas, 0.98 * co2Ceiling(ctx.limits));
  return factor === null ? null : bubbles(ctx, gas, factor, Math.floor);
}

function bubbles(ctx: DayContext, gas: Gas, factor: number, round: (v: number) => number): Remedy | null {
  const present = ctx.plan.co2!.bubbles.value;
  const step = present * factor < 0.5 ? 0.02 : 0.1;
  const rate = Math.max(step, Math.round(round(((present * factor) / step) * 0.999) * step * 100) / 100);
  if (Math.abs(rate - present) < step / 2) return null;
  const { words, safe } = topWords(ctx, ctx.solve({ gas: { ...gas, rate: (gas.rate * rate) / present } }));
  const text = plain(rate, step < 0.1 ? 2 : 1);
  return {
    id: "bubbles",
    text: `Give ${text} bubbles/s`,
    changes: [change(ctx, ["co2", "bubbles"], tried(`${text} bubbles/s`), `${text} bubbles/s`)],
    effect: words,
    safe,
  };
}

/** Close the valve when the animals' limit is reached. */
export function closeEarlier(ctx: DayContext, gas: Gas): Remedy | null {
  const ceiling = co2Ceiling(ctx.limits);
  const over = beyond(ctx.day, ctx.day.series.co2, ceiling, "over");
  if (!over || gas.always) return null;
  let closes = Math.floor(over.from * 6) / 6;
  for (let i = 0; i < 12; i += 1) {
    if (closes <= gas.opens + 0.5) return null;
    const day = ctx.solve({ gas: { ...gas, closes } });
    if (topOf(day) <= ceiling) break;
    closes -= 1 / 6;
  }
  const { words, safe } = topWords(ctx, ctx.solve({ gas: { ...gas, closes } }));
  return {
    id: "close-earlier",
    text: `Close the valve at ${clock(closes)}`,
    changes: [change(ctx, ["co2", "closes"], clock(closes), `valve closes at ${clock(closes)}`)],
    effect: words,
    safe,
  };
}

/** Factor by which one more class of ripple speeds the exchange. */
export const rippleStep = 2;

/** More movement at the surface. */
export function moreRipple(ctx: DayContext, factor: number): Remedy {
  const k600 = ctx.setup.k600 * factor;
  const day = ctx.solve({ k600 });
  const k = exchangeOf({ ...ctx.setup, k600 }, ctx.day.marks[0]!.temperature);
  const text = `${plain(k, 2)} 1/h`;
  const limit = oxygenLimit(ctx.limits);
  const dawn = leastOxygen(day);
  const co2 = ctx.setup.gas
    ? `; CO2 tops out at ${plain(topOf(day), 1)} instead of ${plain(topOf(ctx.day), 1)} mg/L`
    : "";
  return {
    id: "more-ripple",
    text: factor >= 1.8 ? "Raise the ripple by one class" : "Raise the ripple a little",
    changes: [change(ctx, ["surface", "exchange"], tried(text), `surface exchange ${text}`)],
    effect: `oxygen then stays above ${plain(dawn, 1)} mg/L${co2}`,
    safe: !limit || dawn >= limit.value,
  };
}

/** An air stone while the lamp is off. */
export function airAtNight(ctx: DayContext): Remedy | null {
  const { plan, setup } = ctx;
  if (plan.air) return null;
  const flow = Math.max(20, Math.round((setup.volume * 1000 * 0.3) / 10) * 10);
  const on = plan.light?.off.value ?? 22;
  const off = plan.light?.on.value ?? 8;
  const value = { flow: `${flow} L/h`, on: clock(on), off: clock(off) };
  return {
    id: "air-at-night",
    text: `Bubble air at night, ${flow} L/h`,
    changes: [change(ctx, ["air"], value, `air stone ${flow} L/h at night`)],
    effect: "brings oxygen while the lamp is off and drives out CO2 left over; the morning's rise takes longer",
    safe: true,
  };
}
