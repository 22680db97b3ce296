import { stuckHeaterTemperature } from "../../heat/index.ts";
import { changeAt } from "../../plan/index.ts";
import { fullHoursOf } from "../../tank/index.ts";
import type { DayContext } from "../context.ts";
import { extremesOf } from "../curves.ts";
import { shown } from "../shown.ts";
import type { Finding, Remedy } from "../types.ts";
import { capital, clock } from "../words.ts";

const t = (ctx: DayContext, v: number): string => {
  const s = shown(v, "°C", 1, ctx.units);
  return `${s.text} ${s.unit}`;
};

/** Water outside what its animals are kept in. */
export function temperatureLimits(ctx: DayContext): Finding | null {
  const { high, low } = extremesOf(ctx.day, "temperature");
  const over = ctx.limits.find((l) => l.series === "temperature" && l.side === "over");
  const under = ctx.limits.find((l) => l.series === "temperature" && l.side === "under");
  if (over && high.value > over.value) {
    return {
      id: "water-warm",
      severity: high.value > over.value + 2 ? "stop" : "caution",
      title: `The water reaches ${t(ctx, high.value)} at ${clock(high.at)}`,
      figure: "water-temperature",
      margin: shown(over.value - high.value, "K", 1),
      reason: `${capital(over.words)}.`,
      next: [],
      caution: "Warm water holds less oxygen: move the surface, a fan over it cools; never add ice or cold water fast.",
    };
  }
  if (under && low.value < under.value) {
    return {
      id: "water-cold",
      severity: "caution",
      title: `The water falls to ${t(ctx, low.value)} at ${clock(low.at)}`,
      figure: "water-temperature",
      margin: shown(low.value - under.value, "K", 1),
      reason: `${capital(under.words)}.`,
      next: [],
    };
  }
  return null;
}

/** The heater cannot hold its set point. */
export function heaterWeak(ctx: DayContext): Finding | null {
  const { plan, day, setup } = ctx;
  if (!plan.heater || !setup.heater) return null;
  let most = 0;
  for (const d of day.series.heaterDuty) most = Math.max(most, d);
  const low = extremesOf(day, "temperature").low;
  if (low.value > plan.heater.set.value - 0.4) return null;
  const power = Math.ceil((setup.heater.power * 1.6) / 25) * 25;
  const remedy: Remedy = {
    id: "heater-power",
    text: `Use ${power} W of heaters`,
    changes: [changeAt(ctx.raw, ["heater", "power"], `${power} W`, `heater ${power} W`)],
    effect: `the coldest hour is then ${t(ctx, extremesOf(ctx.solve({ heater: { ...setup.heater, power } }), "temperature").low.value)}`,
    safe: true,
  };
  return {
    id: "heater-weak",
    severity: "caution",
    title: `The heater runs all the time and the water still falls to ${t(ctx, low.value)}`,
    figure: "water-temperature",
    margin: shown(low.value - plan.heater.set.value, "K", 1),
    reason: "It is too small for this room; two smaller heaters fail less badly than one big one.",
    next: [remedy],
    caution: "Heaters near water: residual-current protection, drip loop, unplug before hands go in; follow the maker.",
  };
}

/** A heater whose thermostat sticks closed. */
export function heaterStuck(ctx: DayContext): Finding | null {
  const { plan, setup } = ctx;
  if (!plan.heater || !setup.heater) return null;
  const top = stuckHeaterTemperature(
    setup.heatTank,
    setup.heater.power,
    { temperature: (plan.room.day.value + plan.room.night.value) / 2, humidity: plan.room.humidity.value },
    setup.pumpHeat + setup.lamps.reduce((sum, lamp) => sum + (lamp.heat * fullHoursOf(lamp.day)) / 24, 0),
  );
  if (top < 30) return null;
  return {
    id: "heater-stuck",
    severity: "caution",
    title: `A thermostat stuck on would heat the water to ${t(ctx, top)}`,
    margin: shown(30 - top, "K", 1),
    reason: `${Math.round(setup.heater.power)} W all day in this room; animals die above about ${t(ctx, 34)}.`,
    next: [],
    caution: "A second thermostat or an alarm guards against it; check the water by hand.",
  };
}
