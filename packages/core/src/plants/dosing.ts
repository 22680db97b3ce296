import { findRoot } from "../numerics/index.ts";
import { relation } from "../relation/index.ts";
import { choice, quantity, tankVolume } from "./usual-inputs.ts";

/** A routine of daily doses and a water change every so many days. Concentrations mg/L, dose mg/L/d, share 0..1. */
export interface Routine {
  /** Added to the tank each day, at the start of the day, mg/L/d. */
  readonly dose: number;
  /** Whole days from one change to the next. */
  readonly days: number;
  /** Share of the water changed, 0 < share <= 1. */
  readonly change: number;
  /** Concentration of the new water, mg/L. */
  readonly incoming: number;
}

/** Just before and just after the change, mg/L. */
export interface BeforeAfter {
  readonly before: number;
  readonly after: number;
}

const change = (r: Routine, before: number): number => (1 - r.change) * before + r.change * r.incoming;

/** Steady state that a period law leads to, found by repeating periods; each brings it closer by the share changed. */
function settle(period: (start: number) => number, r: Routine): BeforeAfter {
  let after = r.incoming;
  let before = period(after);
  for (let n = 0; n < 100000; n++) {
    const next = change(r, before);
    if (Math.abs(next - after) <= 1e-13 * Math.max(1, Math.abs(next))) break;
    after = next;
    before = period(after);
  }
  return { before, after: change(r, before) };
}

/**
 * One period with a constant daily uptake, day by day: dose first, then uptake through the day, never below zero.
 * @param start mg/L after the change; @param uptake mg/L/d
 * @returns mg/L before the next change, and the days on which the water ran out
 */
export function periodWithUptake(
  r: Routine,
  uptake: number,
  start: number,
): { readonly end: number; readonly empty: number } {
  let c = start;
  let empty = 0;
  for (let day = 0; day < r.days; day++) {
    c += r.dose - uptake;
    if (c <= 0) {
      if (c < 0) empty += 1;
      c = 0;
    }
  }
  return { end: c, empty };
}

/**
 * Steady state under a constant daily uptake. Without uptake: dose of a period over the share changed.
 * @param uptake mg/L/d
 * @returns mg/L, and the days of a period on which the water runs out
 */
export function steadyWithUptake(r: Routine, uptake: number): BeforeAfter & { readonly empty: number } {
  const before = r.incoming + (r.days * (r.dose - uptake)) / r.change;
  const closed = { before, after: change(r, before) };
  if (r.dose >= uptake || before >= 0) return { ...closed, empty: 0 };
  const settled = settle((start) => periodWithUptake(r, uptake, start).end, r);
  return { ...settled, empty: periodWithUptake(r, uptake, settled.after).empty };
}

/**
 * Steady state under a loss in proportion to the concentration.
 * @param loss 1/d
 * @returns mg/L
 */
export function steadyWithLoss(r: Routine, loss: number): BeforeAfter {
  if (!(loss > 0)) {
    const { before, after } = steadyWithUptake(r, 0);
    return { before, after };
  }
  const q = Math.exp(-loss);
  const qn = q ** r.days;
  const doses = (r.dose * q * (1 - qn)) / (1 - q);
  const before = (r.change * r.incoming * qn + doses) / (1 - (1 - r.change) * qn);
  return { before, after: change(r, before) };
}

/**
 * Concentration after some time of steady supply and saturating uptake: C' = s - V C/(K + C) integrated in closed form,
 * its one root found.
 * @param supply mg/L/d; @param greatest uptake mg/L/d; @param half half-saturation mg/L; @param start mg/L; @param
 * days d
 * @returns mg/L
 */
export function afterSaturatingUptake(
  supply: number,
  greatest: number,
  half: number,
  start: number,
  days: number,
): number {
  const net = greatest - supply;
  // so little that the rate stays what it is
  if (Math.max(greatest, supply) * days <= 1e-12 * (half + start)) {
    return start + days * (supply - (greatest * start) / (half + start));
  }
  // supply and greatest uptake alike to six digits: C' = s K/(K + C)
  if (Math.abs(net) <= 1e-6 * Math.max(greatest, supply)) {
    return Math.sqrt((half + start) ** 2 + 2 * supply * half * days) - half;
  }
  const rest = (supply * half) / net;
  if (net > 0) {
    // towards the resting value; y = -ln of the share of the distance that is left
    const distance = rest - start;
    const time = days * net;
    const most = (1.001 * (time + Math.max(0, distance))) / (half + rest);
    const y = findRoot((v) => (half + rest) * v + Math.expm1(-v) * distance - time, 0, most, { xtol: 1e-13 * most });
    return Math.max(0, rest - distance * Math.exp(-y));
  }
  // more than can be taken up: it rises for ever, at the supply's rate at most
  const most = start + 1.001 * supply * days;
  const time = (c: number) => -(c - start + (half + rest) * Math.log1p((c - start) / (start - rest))) / net;
  return findRoot((c) => time(c) - days, start, most, { xtol: 1e-13 * most });
}

/**
 * Steady state under a saturating uptake; the dose is spread over the day.
 * @param greatest uptake mg/L/d; @param half half-saturation mg/L
 * @returns mg/L
 */
export function steadyWithSaturatingUptake(r: Routine, greatest: number, half: number): BeforeAfter {
  return settle((start) => afterSaturatingUptake(r.dose, greatest, half, start, r.days), r);
}

/** Daily dose that keeps the concentration before the change at a value, mg/L/d. */
export function doseForBefore(wanted: number, r: Omit<Routine, "dose">, uptake: number): number {
  return uptake + (r.change * (wanted - r.incoming)) / r.days;
}

/** Daily dose that keeps the concentration after the change at a value, mg/L/d; change below 1. */
export function doseForAfter(wanted: number, r: Omit<Routine, "dose">, uptake: number): number {
  return uptake + (r.change * (wanted - r.incoming)) / (r.days * (1 - r.change));
}

const routineInputs = {
  dose: quantity("added each day", "mg/L/d", 0, 1000),
  days: quantity("days from change to change, whole", "d", 1, 365, 7),
  change: quantity("share of the water changed", "1", 0.001, 1, 0.5),
  incoming: quantity("concentration of the new water", "mg/L", 0, 1000, 0),
} as const;

const beforeAfter = {
  before: { label: "just before the change", unit: "mg/L" },
  after: { label: "just after the change", unit: "mg/L" },
} as const;

export const dosingRelations = [
  relation({
    id: "dosing-steady",
    title: "Where daily dosing and water changes settle, at a constant uptake",
    room: "plants",
    inputs: { ...routineInputs, uptake: quantity("taken up each day", "mg/L/d", 0, 1000, 0) },
    outputs: {
      ...beforeAfter,
      peak: { label: "highest of the period, just after the last dose", unit: "mg/L" },
      empty_days: { label: "days of a period on which nothing is left", unit: "d" },
    },
    equation:
      "X = Ct + n (d - u)/w, Y = Ct + n (d - u)(1 - w)/w; day by day with a floor at zero where the water runs out",
    sources: ["arithmetic"],
    validity: "dose at the start of the day, uptake through it",
    compute: (i) => {
      const s = steadyWithUptake({ ...i, days: Math.round(i.days) }, i.uptake);
      // A falling course peaks after the first dose, a rising one after the last.
      const peak = i.dose >= i.uptake ? s.before + i.uptake : s.after + i.dose;
      return { before: s.before, after: s.after, peak, empty_days: s.empty };
    },
  }),
  relation({
    id: "dosing-limit",
    title: "Highest concentration a routine can build up without uptake",
    room: "plants",
    inputs: {
      dose: quantity("each dose", "mg/L", 0, 1000),
      doses: quantity("doses from change to change", "1", 0, 1000),
      change: routineInputs.change,
      incoming: routineInputs.incoming,
    },
    outputs: { limit: { label: "concentration just before the change", unit: "mg/L" } },
    equation: "Ct + doses per period / share changed",
    sources: ["arithmetic"],
    compute: (i) => ({ limit: i.incoming + (i.doses * i.dose) / i.change }),
  }),
  relation({
    id: "dosing-approach",
    title: "The first periods of a dosing routine",
    room: "plants",
    inputs: {
      ...routineInputs,
      uptake: quantity("taken up each day", "mg/L/d", 0, 1000, 0),
      start: quantity("concentration at the start", "mg/L", 0, 1000, 0),
      period: quantity("which period, 1 the first", "1", 1, 1000),
    },
    outputs: { before: { label: "just before the change that ends the period", unit: "mg/L" } },
    equation: "X_j = X + (X_1 - X)(1 - w)^(j - 1), X_1 = start + n (d - u); never below zero",
    sources: ["arithmetic"],
    compute: (i) => {
      const routine = { ...i, days: Math.round(i.days) };
      let start = i.start;
      let end = 0;
      for (let j = 0; j < Math.round(i.period); j++) {
        end = periodWithUptake(routine, i.uptake, start).end;
        start = change(routine, end);
      }
      return { before: end };
    },
  }),
  relation({
    id: "dosing-with-loss",
    title: "Where daily dosing settles, at a loss in proportion",
    room: "plants",
    inputs: { ...routineInputs, loss: quantity("loss rate", "1/d", 0, 10) },
    outputs: beforeAfter,
    equation: "X = [w Ct q^n + d q (1 - q^n)/(1 - q)]/[1 - (1 - w) q^n], q = e^-k; Y = (1 - w) X + w Ct",
    sources: ["arithmetic"],
    compute: (i) => steadyWithLoss({ ...i, days: Math.round(i.days) }, i.loss),
  }),
  relation({
    id: "dosing-with-saturating-uptake",
    title: "Where a steady supply settles, at a saturating uptake",
    room: "plants",
    inputs: {
      ...routineInputs,
      greatest_uptake: quantity("greatest uptake", "mg/L/d", 0, 1000),
      half_saturation: quantity("half-saturation", "mg/L", 0.0001, 1000),
    },
    outputs: beforeAfter,
    equation: "C' = s - Vm C/(K + C) between changes",
    sources: ["arithmetic"],
    compute: (i) =>
      steadyWithSaturatingUptake({ ...i, days: Math.round(i.days) }, i.greatest_uptake, i.half_saturation),
  }),
  relation({
    id: "dose-for-target",
    title: "Daily dose for a wanted concentration",
    room: "plants",
    inputs: {
      wanted: quantity("wanted concentration", "mg/L", 0, 1000),
      days: routineInputs.days,
      change: { ...routineInputs.change, max: 0.99 },
      incoming: routineInputs.incoming,
      uptake: quantity("taken up each day", "mg/L/d", 0, 1000, 0),
    },
    outputs: {
      for_before: { label: "dose, if wanted just before the change", unit: "mg/L/d" },
      for_after: { label: "dose, if wanted just after the change", unit: "mg/L/d" },
    },
    equation: "d = u + w (X - Ct)/n; d = u + w (Y - Ct)/(n (1 - w))",
    sources: ["arithmetic"],
    compute: (i) => ({
      for_before: doseForBefore(i.wanted, i, i.uptake),
      for_after: doseForAfter(i.wanted, i, i.uptake),
    }),
  }),
  relation({
    id: "changes-to-approach",
    title: "Water changes until a routine has nearly settled",
    room: "plants",
    inputs: {
      change: { ...routineInputs.change, max: 0.99 },
      approach: quantity("share of the way wanted", "1", 0.01, 0.9999, 0.95),
    },
    outputs: { periods: { label: "periods, not rounded", unit: "1" } },
    equation: "ln(1 - a)/ln(1 - w)",
    sources: ["arithmetic"],
    compute: (i) => ({ periods: Math.log1p(-i.approach) / Math.log1p(-i.change) }),
  }),
  relation({
    id: "repeated-changes",
    title: "What several equal water changes leave",
    room: "plants",
    inputs: { change: routineInputs.change, times: quantity("number of changes", "1", 0, 1000) },
    outputs: {
      left: { label: "share of the first content left", unit: "1" },
      as_one: { label: "share of one change that does the same", unit: "1" },
    },
    equation: "(1 - w)^n",
    sources: ["arithmetic"],
    compute: (i) => {
      const left = (1 - i.change) ** i.times;
      return { left, as_one: 1 - left };
    },
  }),
  relation({
    id: "label-dose",
    title: "Daily rise from a bottle's label",
    room: "plants",
    inputs: {
      strength: quantity("content of the bottle", "mg/mL", 0, 1000),
      dose: quantity("dose", "mL", 0, 10000),
      volume: tankVolume,
      every: choice("dose is per", ["day", "week"], "day"),
    },
    outputs: { rise: { label: "rise", unit: "mg/L/d" } },
    equation: "strength x dose/volume, a week's over 7",
    sources: ["arithmetic"],
    compute: (i) => ({ rise: (i.strength * i.dose) / i.volume / (i.every === "week" ? 7 : 1) }),
  }),
] as const;
