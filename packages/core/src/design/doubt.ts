import { classDoubt, devices } from "../gas/index.ts";
import { createHeatBalance } from "../heat/index.ts";
import type { Entry, Known, Plan } from "../plan/index.ts";
import type { RepeatingDay, Setup } from "../tank/index.ts";
import type { DayContext } from "./context.ts";
import type { Band, BandedSeries, DayDoubt } from "./types.ts";

/** One thing that is not known exactly, and what the tank is at its low and at its high. */
interface Doubt {
  readonly id: string;
  /** "the share dissolved" */
  readonly words: string;
  /** Field of the plan that would narrow it. */
  readonly path: string;
  readonly low: Partial<Setup>;
  readonly high: Partial<Setup>;
}

/** Likely relative error of an input by how it is known (design values; a careful reading, a label, a guess). */
function spread(known: Known, measured: number, label: number, assumed: number): number {
  return known === "measured" ? measured : known === "label" ? label : assumed;
}

const times = (s: Setup, factor: number): Setup["gas"] => s.gas && { ...s.gas, rate: s.gas.rate * factor };

function gasDoubts(plan: Plan, s: Setup): Doubt[] {
  const { co2 } = plan;
  if (!co2 || !s.gas) return [];
  const gas = s.gas;
  const count = spread(co2.bubbles.known, 0.05, 0.1, 0.25);
  const mass = spread(co2.bubble.known, 0.08, 0.2, 0.45);
  const device = devices.find((d) => d.id === co2.device.value)!;
  const usual = co2.dissolved.known === "assumed";
  const low = usual ? Math.min(device.low, co2.dissolved.value) : co2.dissolved.value * 0.93;
  const high = usual ? Math.max(device.high, co2.dissolved.value) : Math.min(1, co2.dissolved.value * 1.07);
  return [
    {
      id: "bubbles",
      words: "the bubble count",
      path: "co2.bubbles",
      low: { gas: times(s, 1 - count) },
      high: { gas: times(s, 1 + count) },
    },
    {
      id: "bubble",
      words: "the gas in a bubble",
      path: "co2.bubble",
      low: { gas: times(s, 1 - mass) },
      high: { gas: times(s, 1 + mass) },
    },
    {
      id: "dissolved",
      words: "the share dissolved",
      path: "co2.dissolved",
      low: { gas: { ...gas, dissolved: low } },
      high: { gas: { ...gas, dissolved: high } },
    },
  ];
}

function exchangeDoubt(plan: Plan, s: Setup): Doubt {
  const { low, high } = plan.surface.exchange?.known === "measured" ? { low: 0.9, high: 1.1 } : classDoubt;
  return {
    id: "exchange",
    words: "the exchange at the surface",
    path: "surface.exchange",
    low: { k600: s.k600 * low },
    high: { k600: s.k600 * high },
  };
}

function scaled(entry: Entry, measured: number, label: number, assumed: number): { low: number; high: number } {
  const e = spread(entry.known, measured, label, assumed);
  return { low: 1 - e, high: 1 + e };
}

/** Relative doubt of light with a reading, and of where followed light falls (beam, layout, leaves). Design values. */
const readDoubt = 0.12;
const pathDoubt = 0.15;

/** Likely low and high of the light at the plants, shares of what is taken. */
function lightSpan({ measured, followed, span: [low, high] }: Setup["light"]): readonly [number, number] {
  if (measured) return [1 - readDoubt, 1 + readDoubt];
  const path = followed ? pathDoubt : 0;
  return [1 - Math.hypot(1 - low, path), 1 + Math.hypot(high - 1, path)];
}

/** Share of the surface that a lid may leave open: two of five watched heaters ran as under such lids, one as under none. */
const gappyLid = 0.4;

/** Everything doubtful in a tank's day, each with its likely low and high. */
function doubtsOf(plan: Plan, s: Setup): readonly Doubt[] {
  const kh = scaled(plan.water.kh, 0.07, 0.1, 0.25);
  const air = scaled(plan.room.co2, 0.1, 0.2, 0.35);
  const [dim, bright] = lightSpan(s.light);
  const roomError = spread(plan.room.night.known, 0.5, 1, 1.5);
  const alkalinity = (f: number): Partial<Setup> => ({
    start: { ...s.start, alkalinity: s.start.alkalinity * f },
    // the ions stay in balance: sodium follows the alkalinity
    totals: { ...s.totals, na: Math.max(0, s.totals.na + s.start.alkalinity * (f - 1)) },
  });
  const patches = (light_: number, mass: number): Partial<Setup> => ({
    patches: s.patches.map((p) => ({
      ...p,
      light: p.light.map((lamp) => lamp * light_),
      grams: p.grams * mass,
      biomass: p.biomass * mass,
    })),
  });
  const doubts: Doubt[] = [
    ...gasDoubts(plan, s),
    exchangeDoubt(plan, s),
    { id: "kh", words: "the KH", path: "water.kh", low: alkalinity(kh.low), high: alkalinity(kh.high) },
    {
      id: "room-air",
      words: "the CO2 of the room",
      path: "room.co2",
      low: { room: { ...s.room, co2: s.room.co2 * air.low } },
      high: { room: { ...s.room, co2: s.room.co2 * air.high } },
    },
    {
      id: "bed",
      words: "what bed and filter breathe",
      path: "feeding.food",
      low: { bedRespiration: s.bedRespiration * 0.6 },
      high: { bedRespiration: s.bedRespiration * 1.8 },
    },
    {
      id: "room",
      words: "the room's temperature",
      path: "room.night",
      low: { room: { ...s.room, day: s.room.day - roomError, night: s.room.night - roomError }, lossFactor: 1.1 },
      high: { room: { ...s.room, day: s.room.day + roomError, night: s.room.night + roomError }, lossFactor: 0.9 },
    },
  ];
  if (s.heatTank.cover === "lid")
    doubts.push({
      id: "lid",
      words: "how tightly the lid closes",
      path: "tank.cover",
      low: {},
      high: { heatBalance: createHeatBalance({ ...s.heatTank, gap: gappyLid }) },
    });
  if (s.patches.length > 0) {
    doubts.push({
      id: "plants",
      words: "the mass of the plants",
      path: "plants",
      low: patches(1, 0.67),
      high: patches(1, 1.5),
    });
    if (s.lamps.length > 0)
      doubts.push({
        id: "light",
        words: "the light",
        path: "light.ppfd",
        low: patches(dim, 1),
        high: patches(bright, 1),
      });
  }
  if (s.stock)
    doubts.push({
      id: "animals",
      words: "the animals' breathing",
      path: "animals",
      low: { stockFactor: 0.65 },
      high: { stockFactor: 1.5 },
    });
  return doubts;
}

const banded: readonly BandedSeries[] = ["co2", "oxygen", "ph", "temperature"];

/** Reading error of a pH pen and a thermometer (common practice): no band is narrower. */
export const leastHalf: Readonly<Record<BandedSeries, number>> = { co2: 0, oxygen: 0, ph: 0.03, temperature: 0.2 };

export interface DoubtRuns {
  readonly doubts: readonly Doubt[];
  readonly runs: readonly { readonly low: RepeatingDay; readonly high: RepeatingDay }[];
}

/** Runs the day once at each doubt's low and high. */
export function doubtRuns(ctx: DayContext): DoubtRuns {
  const doubts = doubtsOf(ctx.plan, ctx.setup);
  return { doubts, runs: doubts.map((d) => ({ low: ctx.solve(d.low), high: ctx.solve(d.high) })) };
}

/**
 * Range of one figure: each doubt's effects up and down, added in squares.
 * @param least half width that no range goes under: what a keeper's instrument can tell apart
 */
export function rangeOf(
  ctx: DayContext,
  { doubts, runs }: DoubtRuns,
  read: (day: RepeatingDay) => number,
  least = 0,
): { low: number; high: number; widest: string } {
  const value = read(ctx.day);
  let up = least ** 2;
  let down = up;
  let most = -1;
  let widest = "";
  doubts.forEach((doubt, i) => {
    const a = read(runs[i]!.low) - value;
    const b = read(runs[i]!.high) - value;
    up += Math.max(0, a, b) ** 2;
    down += Math.min(0, a, b) ** 2;
    const size = Math.max(a, b) - Math.min(a, b);
    if (size > most) {
      most = size;
      widest = doubt.words;
    }
  });
  return { low: value - Math.sqrt(down), high: value + Math.sqrt(up), widest };
}

/** Bands of the curves, point by point. */
export function bandsOf(ctx: DayContext, { runs }: DoubtRuns): DayDoubt["bands"] {
  const bands = {} as Record<BandedSeries, Band>;
  for (const id of banded) {
    const middle = ctx.day.series[id];
    const low = new Float64Array(middle.length);
    const high = new Float64Array(middle.length);
    for (let i = 0; i < middle.length; i += 1) {
      let up = leastHalf[id] ** 2;
      let down = up;
      for (const run of runs) {
        const a = run.low.series[id][i]! - middle[i]!;
        const b = run.high.series[id][i]! - middle[i]!;
        up += Math.max(0, a, b) ** 2;
        down += Math.min(0, a, b) ** 2;
      }
      low[i] = middle[i]! - Math.sqrt(down);
      high[i] = middle[i]! + Math.sqrt(up);
    }
    bands[id] = { low, high };
  }
  return bands;
}
