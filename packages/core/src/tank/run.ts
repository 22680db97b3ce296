import { ChemistryError } from "../chemistry/index.ts";
import { createIntegrator, explainResult, type IntegrationResult, type Integrator } from "../numerics/index.ts";
import type { Model } from "./compile.ts";
import { type Ledger, ledgersOf, type Transfer } from "./ledger.ts";
import { day, hour } from "./process.ts";
import { Q, S, stateIds } from "./quantities.ts";

const co2MolarMass = 44.0095;
const oxygenMolarMass = 31.998;

/** What is drawn over a day; each a value per grid point. */
export const seriesSpecs = {
  co2: { unit: "mg/L", label: "Carbon dioxide" },
  oxygen: { unit: "mg/L", label: "Oxygen" },
  ph: { unit: "1", label: "pH" },
  temperature: { unit: "°C", label: "Water" },
  room: { unit: "°C", label: "Room" },
  lamp: { unit: "1", label: "Lamp, share of full" },
  light: { unit: "umol/m2/s", label: "Light at the substrate" },
  valve: { unit: "1", label: "Gas valve open" },
  heaterDuty: { unit: "1", label: "Heater, share of time on" },
  oxygenAtAir: { unit: "mg/L", label: "Oxygen in balance with air" },
  co2AtAir: { unit: "mg/L", label: "CO2 in balance with the room" },
  uptakeShare: { unit: "1", label: "Growth against 30 mg/L CO2" },
} as const;

export type SeriesId = keyof typeof seriesSpecs;
export type Series = { readonly [K in SeriesId]: Float64Array };

/** States and flows since the start at one instant. */
export interface Mark {
  readonly hour: number;
  readonly y: Float64Array;
  /** Dissolved CO2, mg/L. */
  readonly co2: number;
  /** mg/L */
  readonly oxygen: number;
  readonly ph: number;
  /** °C */
  readonly temperature: number;
}

export interface Run {
  /** Hours of the day of each grid point, the last being the end. */
  readonly hours: Float64Array;
  readonly series: Series;
  /** At the start, at every break (timer edges, feeding) and at the end, exactly. */
  readonly marks: readonly Mark[];
  readonly ledgers: readonly Ledger[];
  readonly start: Float64Array;
  readonly end: Float64Array;
  /** Approximate derivative of the end state by the start state, n x n. */
  readonly sensitivity: Float64Array;
  readonly steps: number;
  readonly rateCalls: number;
}

export interface RunOptions {
  /** Hours from midnight; default 0 to 24. May run over several days. */
  readonly from?: number;
  readonly to?: number;
  /** Minutes between grid points; default 5. */
  readonly grid?: number;
  /** Relative error allowed per step; default 1e-5. */
  readonly rtol?: number;
  /** Whether curves are wanted; default true. Without them `hours` and `series` are empty. */
  readonly curves?: boolean;
  /** Whether to put back, at the end of each day, the water that evaporated; default true. */
  readonly topUp?: boolean;
}

/** The model could not be run to its end; says where and which stock failed. */
export class RunError extends Error {
  constructor(message: string) {
    super(message);
    this.name = "RunError";
  }
}

/** Absolute error allowed per state: 1e-7 of what a tank of this size holds at the least. */
function tolerances(model: Model): Float64Array {
  const { waterMass, volume, heatCapacity, feeding } = model.setup;
  const atol = new Float64Array(stateIds.length);
  atol[S.water] = 1e-6 * waterMass;
  atol[S.heat] = 1e-5 * waterMass * heatCapacity; // 10 microkelvin
  atol[S.dic] = 1e-5 * volume;
  atol[S.alkalinity] = 1e-5 * volume;
  atol[S.oxygen] = 1e-6 * volume;
  atol[S.waste] = 1e-4 * feeding.carbon + 1e-9;
  return atol;
}

interface Jump {
  readonly time: number;
  /** Changes `y` and returns what moved. */
  apply(y: Float64Array): readonly Transfer[];
}

function dayJumps(model: Model, dayStart: number, topUp: boolean): Jump[] {
  const { feeding, waterMass, heatCapacity, room } = model.setup;
  const jumps: Jump[] = [];
  if (feeding.carbon > 0) {
    jumps.push({
      time: dayStart + feeding.at * hour,
      apply(y) {
        y[S.waste] = y[S.waste]! + feeding.carbon;
        return [{ of: "carbon", from: "food", to: "waste", label: "food", amount: feeding.carbon }];
      },
    });
  }
  if (topUp) {
    jumps.push({
      time: dayStart + day,
      apply(y) {
        const added = waterMass - y[S.water]!;
        const warm = added * heatCapacity * ((room.day + room.night) / 2);
        y[S.water] = waterMass;
        y[S.heat] = y[S.heat]! + warm;
        return [
          { of: "water", from: "top-up", to: "water", label: "topped up", amount: added },
          { of: "heat", from: "top-up", to: "heat", label: "with the top-up", amount: warm },
        ];
      },
    });
  }
  return jumps;
}

/**
 * Runs the tank from a state.
 * @param start the states (see `states`), which are not changed
 * @throws RunError when the integration cannot go on (says where)
 */
export function runTank(model: Model, start: Float64Array, options: RunOptions = {}): Run {
  const from = (options.from ?? 0) * hour;
  const to = (options.to ?? 24) * hour;
  const interval = (options.grid ?? 5) * 60;
  const rtol = options.rtol ?? 1e-5;
  const { system } = model;
  const { n } = system;
  const width = n + system.flows;
  const curves = options.curves ?? true;
  const count = curves ? Math.round((to - from) / interval) + 1 : 0;
  const sampler = { start: from, interval, count, width, rows: new Float64Array(count * width), filled: 0 };
  const sensitivity = new Float64Array(n * n);
  for (let i = 0; i < n; i += 1) sensitivity[i * n + i] = 1;

  const jumps: Jump[] = [];
  const stops = new Set<number>([to]);
  for (let dayStart = Math.floor(from / day) * day; dayStart < to; dayStart += day) {
    for (const b of model.breaks) stops.add(dayStart + b);
    if (dayStart > from) stops.add(dayStart);
    for (const jump of dayJumps(model, dayStart, options.topUp ?? true)) {
      if (jump.time > from && jump.time <= to) {
        jumps.push(jump);
        stops.add(jump.time);
      }
    }
  }
  const times = [...stops].filter((t) => t > from && t <= to).sort((a, b) => a - b);

  const integrator = createIntegrator(system, {
    rtol,
    atol: tolerances(model),
    ...(curves ? { sampler } : {}),
    sensitivity,
    nonNegative: [S.water, S.dic, S.oxygen, S.waste],
    hMax: 2 * hour,
    maxSteps: 20_000,
  });
  const y = new Float64Array(width);
  y.set(start.subarray(0, n));
  const marks: Mark[] = [];
  const transfers: Transfer[] = [];
  const note = (t: number): void => {
    const q = model.observe(t, y);
    marks.push({
      hour: t / hour,
      y: y.slice(),
      co2: q[Q.co2]! * co2MolarMass,
      oxygen: q[Q.oxygen]! * oxygenMolarMass,
      ph: q[Q.ph]!,
      temperature: q[Q.temperature]!,
    });
  };

  let t = from;
  let steps = 0;
  let rateCalls = 0;
  // smooth stretches, so that the sampled points can be read with the processes in the right mood
  const stretches: { from: number; to: number }[] = [];
  model.begin(from, times[0] ?? to);
  note(from);
  for (const stop of times) {
    model.begin(t, stop);
    const result = runStretch(integrator, t, stop, y);
    steps += result.steps;
    rateCalls += result.rateCalls;
    if (result.status !== "done") throw new RunError(explainResult(result, stateIds));
    stretches.push({ from: t, to: stop });
    note(stop);
    for (const jump of jumps) if (jump.time === stop) transfers.push(...jump.apply(y));
    t = stop;
  }

  return {
    hours: Float64Array.from({ length: count }, (_, i) => (from + i * interval) / hour),
    series: seriesOf(model, sampler, stretches),
    marks,
    ledgers: ledgersOf(model, start, y, transfers),
    start: start.slice(0, n),
    end: y.slice(0, n),
    sensitivity,
    steps,
    rateCalls,
  };
}

/** Runs one smooth stretch; what the water's chemistry cannot answer becomes an error that says when. */
function runStretch(integrator: Integrator, from: number, to: number, y: Float64Array): IntegrationResult {
  try {
    return integrator.run(from, to, y);
  } catch (error) {
    if (!(error instanceof ChemistryError)) throw error;
    throw new RunError(
      `the chemistry of the water has no answer after ${(from / hour).toFixed(1)} h: ${error.message}`,
    );
  }
}

interface Sampled {
  readonly start: number;
  readonly interval: number;
  readonly count: number;
  readonly width: number;
  readonly rows: Float64Array;
}

function seriesOf(model: Model, sampler: Sampled, stretches: readonly { from: number; to: number }[]): Series {
  const { start, interval, count, width, rows } = sampler;
  const make = (): Float64Array => new Float64Array(count);
  const series = Object.fromEntries(Object.keys(seriesSpecs).map((id) => [id, make()])) as Record<
    SeriesId,
    Float64Array
  >;
  let stretch = 0;
  let begun = -1;
  for (let i = 0; i < count; i += 1) {
    const t = start + i * interval;
    while (stretch < stretches.length - 1 && t > stretches[stretch]!.to) stretch += 1;
    if (begun !== stretch) {
      model.begin(stretches[stretch]!.from, stretches[stretch]!.to);
      begun = stretch;
    }
    const q = model.observe(t, rows.subarray(i * width, (i + 1) * width));
    series.co2[i] = q[Q.co2]! * co2MolarMass;
    series.oxygen[i] = q[Q.oxygen]! * oxygenMolarMass;
    series.ph[i] = q[Q.ph]!;
    series.temperature[i] = q[Q.temperature]!;
    series.room[i] = q[Q.room]!;
    series.lamp[i] = q[Q.lamp]!;
    series.light[i] = q[Q.light]!;
    series.valve[i] = q[Q.valve]!;
    series.heaterDuty[i] = q[Q.heaterDuty]!;
    series.oxygenAtAir[i] = q[Q.oxygenAtAir]! * oxygenMolarMass;
    series.co2AtAir[i] = q[Q.co2AtAir]! * co2MolarMass;
    series.uptakeShare[i] = q[Q.uptakeShare]!;
  }
  return series;
}
