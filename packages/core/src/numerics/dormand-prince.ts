import { createDriver, type Stepper, settle, type Tally } from "./drive.ts";
import type { IntegrationResult, Integrator, IntegratorOptions, OdeSystem } from "./ode.ts";

const STAGES = 7;

/** Stage times, fractions of the step (`dormand_prince_1980`). */
const TIMES = [0, 1 / 5, 3 / 10, 4 / 5, 8 / 9, 1, 1] as const;
/** Stage weights, row by row; row 7 is the solution of order 5 (`dormand_prince_1980`). */
export const WEIGHTS: readonly (readonly number[])[] = [
  [],
  [1 / 5],
  [3 / 40, 9 / 40],
  [44 / 45, -56 / 15, 32 / 9],
  [19372 / 6561, -25360 / 2187, 64448 / 6561, -212 / 729],
  [9017 / 3168, -355 / 33, 46732 / 5247, 49 / 176, -5103 / 18656],
  [35 / 384, 0, 500 / 1113, 125 / 192, -2187 / 6784, 11 / 84],
];
/** Difference between the solutions of order 5 and 4. */
export const ERROR = [71 / 57600, 0, -71 / 16695, 71 / 1920, -17253 / 339200, 22 / 525, -1 / 40] as const;
/** Interpolant of order 4 (`hairer_norsett_wanner_1993`, II.6). */
const DENSE = [
  -12715105075 / 11282082432,
  0,
  87487479700 / 32700410799,
  -10690763975 / 1880347072,
  701980252875 / 199316789632,
  -1453857185 / 822651844,
  69997945 / 29380423,
] as const;

function createStepper(system: OdeSystem, tally: Tally): Stepper {
  const { n } = system;
  const width = n + system.flows;
  const k = Array.from({ length: STAGES }, () => new Float64Array(width));
  const stageY = new Float64Array(width);
  const next = new Float64Array(width);
  const error = new Float64Array(n);
  const bend = new Float64Array(width);
  const slope = k[0]!;
  const lastSlope = k[STAGES - 1]!;
  let y: Float64Array = next;
  let t = 0;
  let h = 0;
  let interpolantReady = false;

  function attempt(length: number): boolean {
    h = length;
    interpolantReady = false;
    for (let i = 1; i < STAGES; i++) {
      const weights = WEIGHTS[i]!;
      stageY.fill(0);
      for (let j = 0; j < i; j++) {
        const weight = h * weights[j]!;
        const kj = k[j]!;
        for (let s = 0; s < width; s++) stageY[s] = stageY[s]! + weight * kj[s]!;
      }
      for (let s = 0; s < width; s++) stageY[s] = y[s]! + stageY[s]!;
      system.rates(t + TIMES[i]! * h, stageY, k[i]!);
    }
    next.set(stageY);
    tally.rateCalls += STAGES - 1;
    error.fill(0);
    for (let j = 0; j < STAGES; j++) {
      const weight = h * ERROR[j]!;
      const kj = k[j]!;
      for (let s = 0; s < n; s++) error[s] = error[s]! + weight * kj[s]!;
    }
    return true;
  }

  function interpolate(s: number, out: Float64Array, offset: number): void {
    if (!interpolantReady) {
      bend.fill(0);
      for (let j = 0; j < STAGES; j++) {
        const weight = h * DENSE[j]!;
        const kj = k[j]!;
        for (let i = 0; i < width; i++) bend[i] = bend[i]! + weight * kj[i]!;
      }
      interpolantReady = true;
    }
    const rest = 1 - s;
    for (let i = 0; i < width; i++) {
      const rise = next[i]! - y[i]!;
      const startBend = h * slope[i]! - rise;
      const endBend = rise - h * lastSlope[i]! - startBend;
      out[offset + i] = y[i]! + s * (rise + rest * (startBend + s * (endBend + rest * bend[i]!)));
    }
  }

  return {
    errorOrder: 5,
    predictive: false,
    slope,
    next,
    error,
    begin(start, state) {
      t = start;
      y = state;
      system.rates(t, y, slope);
    },
    attempt,
    interpolate,
    accepted() {},
    advance(end) {
      t = end;
      slope.set(lastSlope);
    },
  };
}

/**
 * Explicit integrator: Dormand-Prince 5(4) (`dormand_prince_1980`), for problems that are not stiff and as a second
 * method to check the first against. Same contract as `createIntegrator`; a stiff problem ends in "too-many-steps".
 */
export function createDormandPrince(system: OdeSystem, options: IntegratorOptions = {}): Integrator {
  const settings = settle(system, options);
  const tally: Tally = { rateCalls: 0, jacobians: 0, factorizations: 0 };
  return createDriver(system, options, settings, createStepper(system, tally), tally);
}

/** One run of the explicit integrator from t0 to t1; `y` (states, then flows) is changed in place. */
export function dormandPrince(
  system: OdeSystem,
  y: Float64Array,
  t0: number,
  t1: number,
  options: IntegratorOptions = {},
): IntegrationResult {
  return createDormandPrince(system, options).run(t0, t1, y);
}
