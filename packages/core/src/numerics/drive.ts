import { crossing, locateCrossing } from "./event.ts";
import type { IntegrationResult, IntegrationStatus, Integrator, IntegratorOptions, OdeSystem, Step } from "./ode.ts";

/** Tolerances and limits with every default filled in. */
export interface Settings {
  readonly rtol: number;
  /** One per state. */
  readonly atol: Float64Array;
  readonly hMax: number;
  readonly maxSteps: number;
}

/** One-step method as the driver sees it: it tries a step and can be asked for the solution inside it. */
export interface Stepper {
  /** The embedded error behaves like h^errorOrder. */
  readonly errorOrder: number;
  /** How the controller looks back: predictive (`gustafsson_1994`) for the stiff method, PI for the explicit one. */
  readonly predictive: boolean;
  /** Rates at the start of the step. */
  readonly slope: Float64Array;
  /** Solution at the end of the attempted step, states then flows. */
  readonly next: Float64Array;
  /** Error estimate of the states of the attempted step. */
  readonly error: Float64Array;
  /** Takes a new starting point and evaluates `slope` there. */
  begin(t: number, y: Float64Array): void;
  /** Tries a step of length h; false when it cannot be computed (singular matrix). */
  attempt(h: number): boolean;
  /** Solution at the fraction s of the last attempted step. */
  interpolate(s: number, out: Float64Array, offset: number): void;
  /** Moves the starting point to the end of the attempted step; `y` already holds `next`. */
  advance(t: number): void;
  /** Called for each accepted step with the length that was kept, before `advance`. */
  accepted(h: number): void;
}

export interface Tally {
  rateCalls: number;
  jacobians: number;
  factorizations: number;
}

const SAFETY = 0.9;
const SHRINK_MOST = 1 / 6;
const GROW_MOST = 6;
/** Quarters of a step are looked at: for zeros of event functions, and for dips of states that must not be negative. */
const CHECKS = 4;

export function settle(system: OdeSystem, options: IntegratorOptions): Settings {
  const { n, flows } = system;
  if (!(Number.isInteger(n) && n >= 1)) throw new RangeError(`a system needs at least one state, not ${n}`);
  if (!(Number.isInteger(flows) && flows >= 0)) throw new RangeError(`flows must be a count, not ${flows}`);
  const rtol = options.rtol ?? 1e-6;
  if (!(rtol >= 1e-13 && rtol < 1)) throw new RangeError(`rtol must lie between 1e-13 and 1, not ${rtol}`);
  const given = options.atol ?? 1e-9;
  const atol = typeof given === "number" ? new Float64Array(n).fill(given) : given;
  if (atol.length !== n) throw new RangeError(`atol has ${atol.length} entries for ${n} states`);
  const bad = atol.findIndex((a) => !(a > 0 && Number.isFinite(a)));
  if (bad >= 0) throw new RangeError(`atol of state ${bad} must be above zero, not ${atol[bad]}`);
  const hMax = options.hMax ?? Number.POSITIVE_INFINITY;
  if (!(hMax > 0)) throw new RangeError(`hMax must be above zero, not ${hMax}`);
  for (const j of options.nonNegative ?? []) {
    if (!(Number.isInteger(j) && j >= 0 && j < n)) throw new RangeError(`nonNegative names ${j}, not a state`);
  }
  const sampler = options.sampler;
  if (sampler && sampler.width !== n + flows) {
    throw new RangeError(`the sampler's rows hold ${sampler.width} numbers; the system has ${n + flows}`);
  }
  return { rtol, atol, hMax, maxSteps: options.maxSteps ?? 100_000 };
}

class StepView implements Step {
  start = 0;
  end = 0;
  private length = 0;
  private readonly stepper: Stepper;
  constructor(stepper: Stepper) {
    this.stepper = stepper;
  }
  set(start: number, end: number, length: number): void {
    this.start = start;
    this.end = end;
    this.length = length;
  }
  at(t: number, out: Float64Array): void {
    this.stepper.interpolate((t - this.start) / this.length, out, 0);
  }
}

/** Step-size control, output and stopping around a one-step method. */
export function createDriver(
  system: OdeSystem,
  options: IntegratorOptions,
  settings: Settings,
  stepper: Stepper,
  tally: Tally,
): Integrator {
  const { n } = system;
  const width = n + system.flows;
  const { rtol, atol, hMax, maxSteps } = settings;
  const nonNegative = Int32Array.from(options.nonNegative ?? []);
  const events = options.events ?? [];
  const { sampler, onStep } = options;
  const view = new StepView(stepper);
  const scratch = new Float64Array(width);
  const slopeScratch = new Float64Array(width);
  const eventValues = new Float64Array(events.length);
  const result: IntegrationResult = {
    status: "done",
    t: 0,
    event: -1,
    state: -1,
    steps: 0,
    rejected: 0,
    rateCalls: 0,
    jacobians: 0,
    factorizations: 0,
    hNext: 0,
  };

  /** Root mean square of the error over its allowance; 1 is just acceptable. */
  function errorNorm(y: Float64Array): number {
    const { next, error } = stepper;
    let sum = 0;
    for (let i = 0; i < n; i++) {
      const ratio = error[i]! / (atol[i]! + rtol * Math.max(Math.abs(y[i]!), Math.abs(next[i]!)));
      sum += ratio * ratio;
    }
    return Math.sqrt(sum / n);
  }

  /** A non-negative state that the attempted step takes below its allowance, at its end or inside; -1 if none. */
  function findDrained(y: Float64Array): number {
    const { next } = stepper;
    for (let k = 0; k < nonNegative.length; k++) {
      const j = nonNegative[k]!;
      if (next[j]! < -atol[j]! && next[j]! < y[j]!) return j;
    }
    for (let check = 1; check < CHECKS; check++) {
      stepper.interpolate(check / CHECKS, scratch, 0);
      for (let k = 0; k < nonNegative.length; k++) {
        const j = nonNegative[k]!;
        if (scratch[j]! < -atol[j]! && scratch[j]! < Math.min(y[j]!, next[j]!)) return j;
      }
    }
    return -1;
  }

  function worstState(y: Float64Array): number {
    const { next, error } = stepper;
    let worst = 0;
    let most = -1;
    for (let i = 0; i < n; i++) {
      const ratio = Math.abs(error[i]!) / (atol[i]! + rtol * Math.max(Math.abs(y[i]!), Math.abs(next[i]!)));
      if (!Number.isFinite(ratio)) return i;
      if (ratio > most) {
        most = ratio;
        worst = i;
      }
    }
    return worst;
  }

  /** Starting step from the size of y, y' and y'' (`hairer_norsett_wanner_1993`, II.4). */
  function firstStep(t: number, y: Float64Array, room: number): number {
    const { slope } = stepper;
    let sizeY = 0;
    let sizeSlope = 0;
    for (let i = 0; i < n; i++) {
      const scale = atol[i]! + rtol * Math.abs(y[i]!);
      sizeY += (y[i]! / scale) ** 2;
      sizeSlope += (slope[i]! / scale) ** 2;
    }
    let h = sizeSlope <= 1e-10 || sizeY <= 1e-10 ? 1e-6 * room : 0.01 * Math.sqrt(sizeY / sizeSlope);
    h = Math.min(h, room);
    scratch.set(y);
    for (let i = 0; i < n; i++) scratch[i] = y[i]! + h * slope[i]!;
    system.rates(t + h, scratch, slopeScratch);
    tally.rateCalls++;
    let sizeCurve = 0;
    for (let i = 0; i < n; i++) {
      const scale = atol[i]! + rtol * Math.abs(y[i]!);
      sizeCurve += ((slopeScratch[i]! - slope[i]!) / scale) ** 2;
    }
    const steepest = Math.max(Math.sqrt(sizeCurve) / h, Math.sqrt(sizeSlope));
    const curved = steepest > 1e-15 ? (0.01 / steepest) ** (1 / stepper.errorOrder) : 1e-3 * room;
    const chosen = Math.min(100 * h, curved);
    return chosen > 0 && Number.isFinite(chosen) ? chosen : 1e-6 * room;
  }

  /** Fills the grid up to time `to`: from the interpolant of a step of the given length, or from `y` when it is 0. */
  function sample(from: number, to: number, length: number, y: Float64Array): void {
    if (!sampler) return;
    const slack = 1e-9 * sampler.interval;
    while (sampler.filled < sampler.count) {
      const time = sampler.start + sampler.filled * sampler.interval;
      if (time > to + slack) return;
      const offset = sampler.filled * width;
      if (length > 0) stepper.interpolate((Math.min(time, to) - from) / length, sampler.rows, offset);
      else if (time < to - slack) sampler.rows.fill(Number.NaN, offset, offset + width);
      else for (let i = 0; i < width; i++) sampler.rows[offset + i] = y[i]!;
      sampler.filled++;
    }
  }

  /** Share of the step at which the first event happens, or 0. Leaves the event functions' values at the step's end. */
  function searchEvents(t: number, h: number): number {
    let firstShare = 0;
    for (let e = 0; e < events.length; e++) {
      const event = events[e]!;
      let before = eventValues[e]!;
      let found = 0;
      for (let k = 1; k <= CHECKS; k++) {
        const share = k / CHECKS;
        if (k < CHECKS) stepper.interpolate(share, scratch, 0);
        else scratch.set(stepper.next);
        const after = event.value(t + share * h, scratch);
        if (found === 0 && crossing(before, after, event.direction ?? 0)) {
          found = locateCrossing(
            (s) => {
              stepper.interpolate(s, scratch, 0);
              return event.value(t + s * h, scratch);
            },
            (k - 1) / CHECKS,
            share,
            before,
            after,
          );
        }
        if (after !== 0) before = after;
      }
      eventValues[e] = before;
      if (found > 0 && (firstShare === 0 || found < firstShare)) {
        firstShare = found;
        result.event = e;
      }
    }
    return firstShare;
  }

  function finish(status: IntegrationStatus, t: number, state: number, hNext: number): IntegrationResult {
    result.status = status;
    result.t = t;
    result.state = state;
    result.hNext = hNext;
    result.rateCalls = tally.rateCalls;
    result.jacobians = tally.jacobians;
    result.factorizations = tally.factorizations;
    return result;
  }

  function firstNotFinite(values: Float64Array): number {
    for (let i = 0; i < values.length; i++) if (!Number.isFinite(values[i]!)) return i;
    return -1;
  }

  function run(t0: number, t1: number, y: Float64Array, hGuess?: number): IntegrationResult {
    if (y.length !== width) throw new RangeError(`y has ${y.length} numbers; the system has ${width}`);
    if (!(Number.isFinite(t0) && Number.isFinite(t1) && t1 >= t0)) {
      throw new RangeError(`cannot run from t = ${t0} to t = ${t1}`);
    }
    tally.rateCalls = 0;
    tally.jacobians = 0;
    tally.factorizations = 0;
    result.event = -1;
    result.steps = 0;
    result.rejected = 0;
    let t = t0;
    sample(t, t, 0, y);
    if (t1 === t0) return finish("done", t, -1, hGuess ?? options.h0 ?? 0);
    stepper.begin(t, y);
    tally.rateCalls++;
    const fault = firstNotFinite(stepper.slope);
    if (fault >= 0 || firstNotFinite(y) >= 0) return finish("not-finite", t, fault >= 0 ? fault : firstNotFinite(y), 0);
    for (let e = 0; e < events.length; e++) eventValues[e] = events[e]!.value(t, y);

    const given = hGuess ?? options.h0;
    let h = given !== undefined && given > 0 ? given : firstStep(t, y, t1 - t0);
    let hOld = 0;
    let errorOld = 1;
    let justRejected = false;
    let cause: IntegrationStatus = "step-too-small";
    let causeState = -1;
    for (;;) {
      h = Math.min(h, hMax);
      if (result.steps + result.rejected >= maxSteps) return finish("too-many-steps", t, worstState(y), h);
      const room = t1 - t;
      const last = h >= room * (1 - 1e-10);
      const length = last ? room : Math.min(h, 0.5 * room);
      if (!last && !(t + 0.1 * length > t)) return finish(cause, t, causeState < 0 ? worstState(y) : causeState, h);

      const computed = stepper.attempt(length);
      const norm = computed ? errorNorm(y) : Number.NaN;
      if (!(norm <= 1)) {
        result.rejected++;
        justRejected = true;
        if (norm < Number.POSITIVE_INFINITY) {
          h = length * Math.max(SHRINK_MOST, SAFETY * norm ** (-1 / stepper.errorOrder));
          cause = "step-too-small";
          causeState = -1;
        } else {
          h = 0.2 * length;
          cause = "not-finite";
          causeState = worstState(y);
        }
        continue;
      }
      const drained = nonNegative.length > 0 ? findDrained(y) : -1;
      if (drained >= 0) {
        result.rejected++;
        justRejected = true;
        h = 0.5 * length;
        cause = "negative";
        causeState = drained;
        continue;
      }
      cause = "step-too-small";
      causeState = -1;

      let factor = SAFETY * Math.max(norm, 1e-10) ** (-1 / stepper.errorOrder);
      if (hOld > 0) {
        if (stepper.predictive) {
          factor = Math.min(
            factor,
            factor * (length / hOld) * (errorOld / Math.max(norm, 1e-10)) ** (1 / stepper.errorOrder),
          );
        } else {
          factor *= errorOld ** 0.04 * Math.max(norm, 1e-10) ** 0.03;
        }
      }
      factor = Math.min(GROW_MOST, Math.max(SHRINK_MOST, factor));
      if (justRejected) factor = Math.min(factor, 1);
      hOld = length;
      errorOld = Math.max(norm, 1e-2);
      justRejected = false;
      // A step cut short by the end of the run says nothing against the longer one that was planned.
      const hNext = length < h ? Math.max(h, length * factor) : length * factor;

      const share = events.length > 0 ? searchEvents(t, length) : 0;
      const stopped = share > 0;
      const kept = stopped ? share * length : length;
      const end = stopped ? t + kept : last ? t1 : t + length;
      view.set(t, end, length);
      sample(t, end, length, y);
      onStep?.(view);
      stepper.accepted(kept);
      result.steps++;
      if (stopped) {
        stepper.interpolate(share, scratch, 0);
        y.set(scratch);
        return finish("event", end, -1, hNext);
      }
      y.set(stepper.next);
      t = end;
      h = hNext;
      if (last) return finish("done", t, -1, hNext);
      stepper.advance(t);
    }
  }

  return { run };
}
