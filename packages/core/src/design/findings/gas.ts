import { instantRelease } from "../../gas/index.ts";
import { changeAt } from "../../plan/index.ts";
import { compile, runTank } from "../../tank/index.ts";
import { co2Ceiling, co2Limit, type DayContext } from "../context.ts";
import { beyond, wantedOf } from "../curves.ts";
import { markAt } from "../figures.ts";
import { bubblesForLightsOn, bubblesUnderCeiling, closeEarlier, openEarlier } from "../remedies.ts";
import { shown } from "../shown.ts";
import { topOf } from "../solve.ts";
import type { Finding, Remedy } from "../types.ts";
import { clock, listed, plain, span } from "../words.ts";

const gasp = "If animals gasp, close the gas and move the surface first; look for the cause after that.";

const known = (list: readonly (Remedy | null)[]): Remedy[] => list.filter((r) => r !== null);

/** CO2 comes later than the light. */
export function co2Late(ctx: DayContext): Finding | null {
  const { setup, day, plan } = ctx;
  const wanted = wantedOf(plan, day);
  if (!wanted || !setup.gas || wanted.atOn >= 0.96 * wanted.value) return null;
  const remedies = known([openEarlier(ctx, setup.gas), bubblesForLightsOn(ctx, setup.gas)]);
  remedies.sort((a, b) => Number(b.safe) - Number(a.safe));
  const late = wanted.reachedAt !== null && wanted.reachedAt <= wanted.to;
  // five minutes are finer than the doubt of any of its inputs
  const late5 = (Math.max(1, Math.round(wanted.late / 5)) * 5) / 60;
  return {
    id: "co2-late",
    severity: "caution",
    title: late
      ? `CO2 reaches ${plain(wanted.value, 0)} mg/L only at ${clock(wanted.from + late5)}, ${span(late5)} after lights-on`
      : `CO2 never reaches ${plain(wanted.value, 0)} mg/L in the light; its top is ${plain(topOf(day), 1)}`,
    figure: "co2-at-lights-on",
    margin: shown(wanted.atOn - wanted.value, "mg/L", 1),
    reason: `At lights-on it stands at ${plain(wanted.atOn, 1)} mg/L; until it is there, plants grow slower than the light allows and algae do not.`,
    next: remedies,
    caution: gasp,
  };
}

/** CO2 passes what the animals bear. */
export function co2High(ctx: DayContext): Finding | null {
  const { setup, day, limits } = ctx;
  const ceiling = co2Ceiling(limits);
  const over = beyond(day, day.series.co2, ceiling, "over");
  if (!over || !setup.gas) return null;
  const top = topOf(day);
  const limit = co2Limit(limits);
  const stop = limit && top > ceiling + 10;
  return {
    id: "co2-high",
    severity: stop ? "stop" : limit ? "caution" : "note",
    title: `CO2 is over ${plain(ceiling, 0)} mg/L from ${clock(over.from)} to ${clock(over.to)}, at most ${plain(top, 1)}`,
    figure: "co2-at-lights-on",
    margin: shown(ceiling - top, "mg/L", 1),
    reason: limit
      ? `${limit.words.replace(/^over \S+ /, "")}. Limits are for careful keeping, not for survival.`
      : "Above it plants gain little.",
    next: known([closeEarlier(ctx, setup.gas), bubblesUnderCeiling(ctx, setup.gas)]),
    caution: gasp,
  };
}

/** What a valve that does not close, or a probe out of the water, would do. */
export function valveLeftOpen(ctx: DayContext): Finding | null {
  const { setup, day, plan } = ctx;
  if (!setup.gas || setup.gas.always || !plan.co2) return null;
  const closes = plan.co2.closes.value;
  const stuck = compile({ ...setup, gas: { ...setup.gas, always: true } });
  const start = markAt(day, closes);
  const run = runTank(stuck, start.y.subarray(0, day.start.length), {
    from: closes,
    to: closes + 24,
    grid: 10,
    rtol: 1e-4,
  });
  const first = (level: number): number | null => {
    for (let i = 0; i < run.hours.length; i += 1) if (run.series.co2[i]! >= level) return run.hours[i]! - closes;
    return null;
  };
  let top = 0;
  for (const v of run.series.co2) if (v > top) top = v;
  const danger = 60;
  const to60 = first(danger);
  const ceiling = co2Ceiling(ctx.limits);
  if (top <= ceiling && to60 === null) return null;
  const to30 = first(ceiling);
  const when = (h: number): string => (h < 1 / 6 ? "at once" : `within ${span(h)}`);
  const passed = [
    ...(to30 === null ? [] : [`${plain(ceiling, 0)} mg/L ${when(to30)}`]),
    ...(to60 === null ? [] : [`${danger} mg/L ${when(to60)}`]),
  ];
  return {
    id: "valve-left-open",
    severity: to60 !== null ? "caution" : "note",
    title: `Were the valve to stay open, CO2 would climb to ${plain(top, 0)} mg/L by the next evening`,
    margin: shown(ceiling - top, "mg/L", 0),
    reason: `After the usual closing time it passes ${listed(passed)}; a change of half the water then takes away half the excess, no more.`,
    next: [],
    caution: `Use a valve that closes when its power fails, set the needle so that even a day's flow is bearable, and check the timer. ${gasp}`,
  };
}

/** Gas that runs into the dark. */
export function gasAfterDark(ctx: DayContext): Finding | null {
  const { plan, setup } = ctx;
  if (!plan.co2 || !plan.light || !setup.gas) return null;
  const off = plan.light.off.value;
  const closes = plan.co2.closes.value;
  const after = (closes - off + 24) % 24;
  if (after < 0.25 || after > 12) return null;
  const earlier: Remedy = {
    id: "close-at-dusk",
    text: `Close the valve at ${clock(off - 1)}`,
    changes: [changeAt(ctx.raw, ["co2", "closes"], clock(off - 1), `valve closes at ${clock(off - 1)}`)],
    effect: `saves ${Math.round((100 * (after + 1)) / ((closes - plan.co2.opens.value + 24) % 24 || 24))} % of the gas`,
    safe: true,
  };
  return {
    id: "gas-after-dark",
    severity: "caution",
    title: `The gas runs ${span(after)} after the lamp goes off`,
    reason: "Nothing takes it up in the dark, while animals and plants breathe more into it.",
    next: [earlier],
    caution: gasp,
  };
}

/** A whole cylinder let out into the room. */
export function cylinderRoom(ctx: DayContext): Finding | null {
  const { plan } = ctx;
  if (!plan.co2) return null;
  const ppm = 1e6 * instantRelease(plan.co2.cylinder.value, plan.room.volume.value);
  if (ppm < 5000) return null;
  return {
    id: "cylinder-room",
    severity: ppm >= 30000 ? "stop" : "caution",
    title: `A full cylinder let out at once would put ${plain(ppm / 10000, 1)} % CO2 into the room's air`,
    margin: shown(5000 - ppm, "ppm(v)", 0),
    reason:
      "Workplace limits are 0.5 % for a working day and 3 % for a quarter of an hour; 4 % is dangerous at once. Near the floor it is worse.",
    next: [],
    caution:
      "Keep the cylinder upright, fastened, away from heat, in a ventilated room above ground, never where people sleep; fit a CO2 alarm (an oxygen alarm does not help). If gas escapes: leave, air from outside. Follow local codes and the gas supplier.",
  };
}
