import { findPeriodic } from "../numerics/index.ts";
import type { Model } from "./compile.ts";
import { S, stateIds } from "./quantities.ts";
import { type Run, RunError, type RunOptions, runTank } from "./run.ts";

/** The stocks that must come back after a day; water does by topping up, alkalinity has no flow within a day. */
const returning = [S.heat, S.dic, S.oxygen, S.waste] as const;

export interface RepeatingDay extends Run {
  /** False when no day was found that ends as it began; `mismatch` then says by how much. */
  readonly repeats: boolean;
  /** Largest change of a stock over the day, in units of what is allowed (1e-5 of heat and carbon, 1e-4 of the rest). */
  readonly mismatch: number;
  /** Days computed to find it. */
  readonly days: number;
}

export interface RepeatingOptions extends RunOptions {
  /** State to begin the search from, e.g. the last answer under the finger. */
  readonly start?: Float64Array;
  /** Days after which the search gives up; default 60. */
  readonly mostDays?: number;
}

/** A first guess: water at the set point or the room's mean, gases near air, waste where decay balances food. */
export function guessStart(model: Model): Float64Array {
  const { waterMass, heatCapacity, bedHeatCapacity, volume, feeding, start } = model.setup;
  const y = new Float64Array(stateIds.length);
  y[S.water] = waterMass;
  y[S.heat] = start.temperature * (waterMass * heatCapacity + bedHeatCapacity);
  y[S.dic] = waterMass * start.dic;
  y[S.alkalinity] = waterMass * start.alkalinity;
  y[S.oxygen] = volume * 0.25;
  y[S.waste] = feeding.carbon * 2.5;
  return y;
}

/**
 * Finds the day that ends as it began, by quasi-Newton shooting: the integration's own sensitivity says how an error at
 * midnight is passed on to the next midnight.
 * @throws RunError when a day cannot be integrated
 */
export function repeatingDay(model: Model, options: RepeatingOptions = {}): RepeatingDay {
  const n = stateIds.length;
  const m = returning.length;
  const first = guessStart(model);
  if (options.start) {
    for (const s of returning) first[s] = options.start[s]!;
    // bicarbonate goes with alkalinity: a start from a tank of other hardness keeps its CO2, not its carbon
    first[S.dic] = Math.max(0.1 * first[S.dic]!, first[S.dic]! + first[S.alkalinity]! - options.start[S.alkalinity]!);
  }
  const coldest = -2 * (model.setup.waterMass * model.setup.heatCapacity + model.setup.bedHeatCapacity);
  const result = findPeriodic(
    (y, out, sensitivity) => {
      const state = first.slice();
      returning.forEach((s, i) => {
        state[s] = y[i]!;
      });
      let run: Run;
      try {
        run = runTank(model, state, { ...options, from: 0, to: 24, curves: false });
      } catch (error) {
        // a guess from which no day can be run is a bad guess, not the end of the search
        if (!(error instanceof RunError)) throw error;
        out.fill(Number.NaN);
        return;
      }
      returning.forEach((s, i) => {
        out[i] = run.end[s]!;
        if (sensitivity)
          returning.forEach((r, j) => {
            sensitivity[i * m + j] = run.sensitivity[s * n + r]!;
          });
      });
    },
    Float64Array.from(returning, (s) => first[s]!),
    {
      rtol: 1e-5,
      atol: Float64Array.from(returning, (s) =>
        s === S.waste ? 1e-4 * first[s]! + 1e-9 : 1e-5 * Math.abs(first[s]!) + 1e-9,
      ),
      lower: Float64Array.from(returning, (s) => (s === S.heat ? coldest : 0)),
      maxMaps: options.mostDays ?? 60,
    },
  );
  const state = first.slice();
  returning.forEach((s, i) => {
    state[s] = result.y[i]!;
  });
  return {
    ...runTank(model, state, { ...options, from: 0, to: 24 }),
    repeats: result.converged,
    mismatch: result.residual,
    days: result.maps,
  };
}
