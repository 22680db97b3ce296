import { relation } from "../relation/index.ts";
import { changeCaution } from "./cautions.ts";
import { accumulationAt, accumulationLimit, afterChanges, afterDrip, changesFor, topUpRise } from "./dilution.ts";
import { number, output } from "./inputs.ts";

const fraction = number("share of the water changed each time", "%", 0.1, 100);
const start = number("concentration at the start", "mg/L", 0, 100_000, 100);
const incoming = number("concentration of the new water", "mg/L", 0, 100_000, 0);

export const dilution = relation({
  id: "dilution",
  title: "What is left after water changes",
  room: "geometry",
  inputs: { fraction, changes: number("number of changes", "1", 0, 1000), start, incoming },
  outputs: {
    remaining: output("share of the difference that is left", "%"),
    concentration: output("concentration", "mg/L"),
  },
  equation: "C = C_in + (C_0 - C_in)(1 - f)^n",
  sources: ["mass-balance"],
  validity: "well mixed before each change, and nothing added between",
  caution: changeCaution,
  compute: (i) => ({
    remaining: 100 * afterChanges(1, 0, i.fraction / 100, i.changes),
    concentration: afterChanges(i.start, i.incoming, i.fraction / 100, i.changes),
  }),
});

export const changesForRemoval = relation({
  id: "changes-for-removal",
  title: "How many changes to remove so much",
  room: "geometry",
  inputs: {
    fraction: number("share of the water changed each time", "%", 0.1, 99.9),
    removal: number("share to be removed", "%", 0.1, 99.99),
  },
  outputs: {
    exact: output("changes, not rounded", "1"),
    changes: output("changes", "1"),
  },
  equation: "n = ln(1 - removal)/ln(1 - f), rounded up",
  sources: ["mass-balance"],
  caution: changeCaution,
  compute: (i) => {
    const exact = changesFor(i.fraction / 100, i.removal / 100);
    return { exact, changes: Math.ceil(exact - 1e-9) };
  },
});

export const dripExchange = relation({
  id: "drip-exchange",
  title: "Dilution by a slow drip with overflow",
  room: "geometry",
  inputs: {
    exchanges: number("new water, in volumes of the tank", "1", 0, 100),
    start,
    incoming,
  },
  outputs: {
    remaining: output("share of the difference that is left", "%"),
    concentration: output("concentration", "mg/L"),
  },
  equation: "C = C_in + (C_0 - C_in) e^(-q t/V)",
  sources: ["mass-balance"],
  validity: "well mixed, inflow equal to outflow",
  caution: changeCaution,
  compute: (i) => ({
    remaining: 100 * afterDrip(1, 0, i.exchanges),
    concentration: afterDrip(i.start, i.incoming, i.exchanges),
  }),
});

export const accumulation = relation({
  id: "accumulation",
  title: "Where a substance settles between water changes",
  room: "geometry",
  inputs: {
    gain: number("rise in each interval", "mg/L", 0, 10_000),
    fraction,
    incoming,
    start: number("concentration at the start", "mg/L", 0, 100_000, 0),
    change: number("at which change", "1", 1, 10_000, 1),
  },
  outputs: {
    before: output("just before that change", "mg/L"),
    after: output("just after it", "mg/L"),
    limit_before: output("in the long run before a change", "mg/L"),
    limit_after: output("in the long run after a change", "mg/L"),
  },
  equation: "limit before = C_in + p/f; after = C_in + p (1 - f)/f",
  sources: ["mass-balance"],
  validity: "a steady rise that nothing takes up",
  caution: changeCaution,
  compute: (i) => {
    const f = i.fraction / 100;
    const now = accumulationAt(i.start, i.gain, f, i.incoming, i.change);
    const limit = accumulationLimit(i.gain, f, i.incoming);
    return { before: now.before, after: now.after, limit_before: limit.before, limit_after: limit.after };
  },
});

export const topUpDrift = relation({
  id: "top-up-drift",
  title: "How topping up raises hardness",
  room: "geometry",
  inputs: {
    evaporation: number("water lost and topped up", "L/d", 0, 1000),
    top_up: number("hardness of the top-up water (or any other figure, in its own unit)", "dGH", 0, 10_000),
    volume: number("water in the tank", "L", 0.1, 20_000),
    start: number("hardness at the start", "dGH", 0, 10_000),
    days: number("days", "d", 0, 10_000),
    fraction: number("share of the water changed each interval", "%", 0.1, 100, 30),
    interval: number("days between changes", "d", 0.1, 1000, 7),
    incoming: number("hardness of the change water", "dGH", 0, 10_000),
  },
  outputs: {
    without_changes: output("after so many days without a change", "dGH"),
    limit_before: output("with changes, in the long run before a change", "dGH"),
    limit_after: output("with changes, in the long run after a change", "dGH"),
  },
  equation:
    "dC = E t C_top-up/V; with changes: C_in + E T C_top-up/(V f) before, C_in + E T C_top-up (1 - f)/(V f) after",
  sources: ["mass-balance", "trade-practice"],
  validity: "evaporation takes water only; soft or demineralised top-up stops the drift",
  caution: changeCaution,
  compute: (i) => {
    const perInterval = topUpRise(i.evaporation * i.interval, i.top_up, i.volume);
    const limit = accumulationLimit(perInterval, i.fraction / 100, i.incoming);
    return {
      without_changes: i.start + topUpRise(i.evaporation * i.days, i.top_up, i.volume),
      limit_before: limit.before,
      limit_after: limit.after,
    };
  },
});
