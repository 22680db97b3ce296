import { exchangeOf } from "../../tank/index.ts";
import { type DayContext, oxygenLimit } from "../context.ts";
import { extremesOf } from "../curves.ts";
import { airAtNight, moreRipple, rippleStep } from "../remedies.ts";
import { shown } from "../shown.ts";
import { gasFactorFor, leastOxygen, topOf } from "../solve.ts";
import type { Finding, Remedy } from "../types.ts";
import { capital, clock, plain } from "../words.ts";

/** Oxygen too low for what lives in the tank. */
export function oxygenLow(ctx: DayContext): Finding | null {
  const limit = oxygenLimit(ctx.limits);
  if (!limit) return null;
  const { low } = extremesOf(ctx.day, "oxygen");
  if (low.value >= limit.value) return null;
  const next: Remedy[] = [];
  for (const factor of [1.3, 1.6, 2, 3]) {
    const remedy = moreRipple(ctx, factor);
    if (remedy.safe || factor === 3) {
      next.push(remedy);
      break;
    }
  }
  const air = airAtNight(ctx);
  if (air) next.push(air);
  return {
    id: "oxygen-low",
    severity: low.value < limit.value - 1 ? "stop" : "caution",
    title: `Oxygen falls to ${plain(low.value, 1)} mg/L at ${clock(low.at)}`,
    figure: "oxygen-at-dawn",
    margin: shown(low.value - limit.value, "mg/L", 1),
    reason: `${capital(limit.words)}. In the dark everything breathes and only the surface gives.`,
    next,
    caution: "Animals at the surface before lights-on: move the surface now.",
  };
}

/** No day that ends as it began: the tank is on its way somewhere else. */
export function noSteadyDay(ctx: DayContext): Finding | null {
  if (ctx.day.repeats) return null;
  const suffocating = leastOxygen(ctx.day) < 0.5;
  return {
    id: "no-steady-day",
    severity: suffocating ? "stop" : "caution",
    title: suffocating
      ? "Oxygen runs out: waste gathers faster than it can break down"
      : "No day was found that ends as it began; the curves show the nearest to it",
    reason: suffocating
      ? "Without oxygen nothing breaks down and nothing lives; the figures of such a day mean little."
      : "Something in the tank still drifts from day to day.",
    next: suffocating ? [moreRipple(ctx, 3)] : [],
    caution: "Feed less, keep fewer animals, move the surface; measure before trusting any figure here.",
  };
}

/** What one more class of ripple costs in gas and gives in oxygen. */
export function ripplePrice(ctx: DayContext): Finding | null {
  const { setup, day, plan } = ctx;
  const k600 = setup.k600 * rippleStep;
  const before = leastOxygen(day);
  const after = leastOxygen(ctx.solve({ k600 }));
  const k = exchangeOf({ ...setup, k600 }, day.marks[0]!.temperature);
  let price = "";
  if (setup.gas && plan.light && plan.co2) {
    const here = gasFactorFor(ctx, setup.gas, plan.co2.wanted.value);
    const there = gasFactorFor(ctx, setup.gas, plan.co2.wanted.value, { k600 });
    if (here !== null && there !== null) {
      price = ` and costs ${Math.round((there / here - 1) * 100)} % more gas for the same ${plain(plan.co2.wanted.value, 0)} mg/L at lights-on`;
    } else if (there === null) price = " and puts the wanted CO2 out of reach";
    if (there === null || here === null)
      price += `; with the gas as it is, the day tops out at ${plain(topOf(ctx.solve({ k600 })), 1)} mg/L`;
  }
  return {
    id: "ripple-price",
    severity: "note",
    title: `One more class of ripple gives ${plain(after - before, 1)} mg/L more oxygen at its lowest${price}`,
    margin: shown(after - before, "mg/L", 1),
    reason: `Exchange would be ${plain(k, 2)} an hour: all gases come and go faster, oxygen in, CO2 out.`,
    next: [],
  };
}
