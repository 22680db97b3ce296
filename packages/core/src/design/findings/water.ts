import type { DayContext } from "../context.ts";
import { extremesOf } from "../curves.ts";
import { shown } from "../shown.ts";
import type { Finding } from "../types.ts";
import { capital, clock, plain } from "../words.ts";

/** Dosing by the size on the box instead of the water there is. */
export function dosingVolume(ctx: DayContext): Finding | null {
  const { volumes } = ctx.setup;
  const excess = volumes.nominal / volumes.net - 1;
  if (excess < 0.1) return null;
  const net = shown(volumes.net * 1000, "L", 0, ctx.units);
  const nominal = shown(volumes.nominal * 1000, "L", 0, ctx.units);
  return {
    id: "dosing-volume",
    severity: "note",
    title: `Dose for ${net.text} ${net.unit}, not for ${nominal.text}`,
    figure: "net-water",
    margin: shown(excess * 100, "%", 0),
    reason: `Glass, bed, stones and freeboard take the rest; dosing by the outside size gives ${Math.round(excess * 100)} % too much.`,
    next: [],
  };
}

/** pH beyond what the animals are kept in. */
export function phLimits(ctx: DayContext): Finding | null {
  const { low, high } = extremesOf(ctx.day, "ph");
  const under = ctx.limits.find((l) => l.series === "ph" && l.side === "under");
  const over = ctx.limits.find((l) => l.series === "ph" && l.side === "over");
  const broken =
    under && low.value < under.value
      ? { limit: under, at: low }
      : over && high.value > over.value
        ? { limit: over, at: high }
        : null;
  if (!broken) return null;
  return {
    id: "ph-range",
    severity: "note",
    title: `pH ${broken.limit.side === "under" ? "falls" : "rises"} to ${plain(broken.at.value, 2)} at ${clock(broken.at.at)}`,
    figure: "lowest-ph",
    margin: shown(-Math.abs(broken.at.value - broken.limit.value), "1", 2),
    reason: `${capital(broken.limit.words)}. A swing made by CO2 alone, at steady KH, is judged by CO2, not by pH.`,
    next: [],
  };
}
