import type { DayContext } from "../context.ts";
import { extremesOf } from "../curves.ts";
import { shown } from "../shown.ts";
import type { Finding } from "../types.ts";
import { clock, plain } from "../words.ts";

/** Mean over the lit hours, weighted by light. */
function meanShare(ctx: DayContext): number {
  const { series } = ctx.day;
  let sum = 0;
  let weight = 0;
  for (let i = 0; i < series.lamp.length; i += 1) {
    sum += series.lamp[i]! * series.uptakeShare[i]!;
    weight += series.lamp[i]!;
  }
  return weight > 0 ? sum / weight : 0;
}

/** Carbon holds growth back. */
export function carbonShort(ctx: DayContext): Finding | null {
  const { plan, setup, day } = ctx;
  if (!plan.light || setup.patches.length === 0) return null;
  const share = meanShare(ctx);
  if (share >= 0.75) return null;
  const low = extremesOf(day, "co2").low;
  const falls =
    !plan.co2 ||
    day.series.co2[Math.round((plan.light.off.value - 1) * 12)]! <
      day.series.co2[Math.round(plan.light.on.value * 12)]!;
  return {
    id: "carbon-short",
    severity: share < 0.4 && plan.co2 ? "caution" : "note",
    title: `Over the lit hours plants grow at ${Math.round(share * 100)} % of what the light allows with 30 mg/L CO2`,
    margin: shown((share - 0.75) * 100, "%", 0),
    reason: falls
      ? `In the light CO2 falls, to ${plain(low.value, 1)} mg/L at ${clock(low.at)}: the plants take it faster than it comes.`
      : "CO2 comes late or stays low in the light.",
    next: [],
  };
}
