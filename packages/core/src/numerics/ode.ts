/** What an integrator is given and what it hands back; shared by the stiff and the explicit method. */

/**
 * A system of ordinary differential equations with accumulators beside it. `y` and `out` have length `n + flows`: first
 * the states, then the flows. Flows are integrals of rates that depend on states; nothing may depend on a flow.
 * Between t0 and t1 of one run the rates should be smooth: split the run at every known jump.
 */
export interface OdeSystem {
  /** Number of states, at least 1. */
  readonly n: number;
  /** Number of accumulators, 0 or more. */
  readonly flows: number;
  /** Writes dy/dt of the states, then the rates of the flows, into `out`. Must not keep or change `y`. */
  rates(t: number, y: Float64Array, out: Float64Array): void;
  /**
   * Optional exact Jacobian: writes d(out[i])/d(y[j]), i < n + flows, j < n, to `out[i * n + j]`. It must be the
   * derivative of `rates` itself: the Rosenbrock method loses order with a rough one.
   */
  jacobian?(t: number, y: Float64Array, out: Float64Array): void;
  /** True when the rates do not read t: saves one call of `rates` per step. */
  readonly autonomous?: boolean;
}

/** One accepted step, for reading the solution inside it. Valid only during the call that hands it over. */
export interface Step {
  readonly start: number;
  readonly end: number;
  /** Writes states and flows at time `t` of the step into `out` (length n + flows). */
  at(t: number, out: Float64Array): void;
}

/**
 * A scalar function of time and state whose zero stops the run. It is looked at four times per step: two zeros closer
 * together than a quarter of a step can be missed (set `hMax` where that matters).
 */
export interface EventFunction {
  value(t: number, y: Float64Array): number;
  /** 1: only rising through zero; -1: only falling; 0 or left out: both. */
  readonly direction?: -1 | 0 | 1;
}

/** A fixed output grid, filled row by row as runs pass over it; carries on from one run to the next. */
export interface Sampler {
  readonly start: number;
  readonly interval: number;
  readonly count: number;
  /** Numbers per row: states and flows. */
  readonly width: number;
  /** Row-major, `count` x `width`; row i is the solution at `start + i * interval`. */
  readonly rows: Float64Array;
  /** Rows filled so far; set it to 0 to use the sampler again. */
  filled: number;
}

export interface IntegratorOptions {
  /** Relative error allowed per step; default 1e-6, at least 1e-13. */
  readonly rtol?: number;
  /** Absolute error allowed per step, one for all states or one each (in the states' own units); default 1e-9. */
  readonly atol?: number | Float64Array;
  /** Longest step, in units of t. */
  readonly hMax?: number;
  /** First step of a run, in units of t; estimated when left out. */
  readonly h0?: number;
  /** Attempted steps (accepted and rejected) after which a run gives up; default 100 000. */
  readonly maxSteps?: number;
  /**
   * States (by index) that must stay at or above -atol: a step that drives one lower, at its end or at a quarter point of
   * its interpolant, is rejected and halved.
   */
  readonly nonNegative?: readonly number[];
  /** Called after every accepted step. */
  readonly onStep?: (step: Step) => void;
  readonly sampler?: Sampler;
  /** The run stops at the first zero of any of these. */
  readonly events?: readonly EventFunction[];
}

export type IntegrationStatus = "done" | "event" | "too-many-steps" | "step-too-small" | "not-finite" | "negative";

/** Outcome of a run. The integrator reuses one such object: copy what must outlive the next run. */
export interface IntegrationResult {
  status: IntegrationStatus;
  /** Time reached. `y` holds the solution there, also after a failure. */
  t: number;
  /** Index of the event that stopped the run, else -1. */
  event: number;
  /** After a failure: the state that did most to cause it, else -1. */
  state: number;
  /** Accepted steps. */
  steps: number;
  rejected: number;
  rateCalls: number;
  jacobians: number;
  /** LU decompositions. */
  factorizations: number;
  /** Step the controller would take next: a good first step for a following run, in units of t. */
  hNext: number;
}

/** A workspace made once for a system and a set of options, used for any number of runs without allocating. */
export interface Integrator {
  /**
   * Carries `y` (states, then flows; changed in place) from t0 to t1 >= t0.
   * @param hGuess first step; overrides the option `h0`. A guess that is too long costs only rejected steps.
   * @throws RangeError for a `y` of the wrong length or times that are not finite or run backwards.
   */
  run(t0: number, t1: number, y: Float64Array, hGuess?: number): IntegrationResult;
}

/** A sentence that says how a run ended, and where when it failed. */
export function explainResult(result: IntegrationResult, names?: readonly string[]): string {
  const state = result.state < 0 ? "" : (names?.[result.state] ?? `state ${result.state}`);
  const where = `t = ${result.t}`;
  switch (result.status) {
    case "done":
      return `reached ${where} in ${result.steps} steps`;
    case "event":
      return `stopped at ${where} by event ${result.event}`;
    case "too-many-steps":
      return `gave up at ${where} after ${result.steps} steps and ${result.rejected} rejected ones; ${state} set the step`;
    case "step-too-small":
      return `the step fell below what the clock can resolve at ${where}; ${state} has the largest error`;
    case "not-finite":
      return `the rates are not finite numbers at or just after ${where} (${state})`;
    case "negative":
      return `${state} is driven below zero at ${where}, however short the step: its outflows do not fade as it runs out`;
  }
}
