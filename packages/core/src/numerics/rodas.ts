import { createDriver, type Stepper, settle, type Tally } from "./drive.ts";
import { luFactor, luSolve, luSolveColumns } from "./linear.ts";
import type { IntegrationResult, Integrator, IntegratorOptions, OdeSystem } from "./ode.ts";
import { RODAS, RODAS4P2 } from "./rodas-coefficients.ts";

export interface RodasOptions extends IntegratorOptions {
  /**
   * `rodas4p2` (default) keeps its order where stiff states follow a moving target, as gas exchange and heaters do;
   * `rodas` is the plain method: about as good at loose tolerances, several times slower on such problems below 1e-6.
   */
  readonly method?: "rodas" | "rodas4p2";
  /**
   * n x n, row-major: multiplied from the left, at every accepted step, by an approximation of dy(t + h)/dy(t). Fill it
   * with the identity before the first run; after the last it approximates dy(t1)/dy(t0) over all runs (jumps in
   * between are the caller's). Local error: third order in h where the Jacobian is constant, second where it changes,
   * so the product is first order in general. L-stable. Meant for quasi-Newton iterations, not for reporting.
   */
  readonly sensitivity?: Float64Array;
}

const STAGES = 6;

/** Increment of a state for the difference quotient, as a share of the state: grows with the tolerance, see README. */
function increment(rtol: number): number {
  return Math.min(1e-3, Math.max(1e-7, 0.02 * Math.sqrt(rtol)));
}

function createStepper(
  system: OdeSystem,
  options: RodasOptions,
  rtol: number,
  atol: Float64Array,
  tally: Tally,
): Stepper {
  const { n } = system;
  const width = n + system.flows;
  const { gamma, c, d, a, C, m, p, q } = options.method === "rodas" ? RODAS : RODAS4P2;
  const sensitivity = options.sensitivity;
  if (sensitivity && sensitivity.length !== n * n) {
    throw new RangeError(`sensitivity has ${sensitivity.length} entries, not ${n} x ${n}`);
  }
  const share = increment(rtol);

  const slope = new Float64Array(width);
  const timeSlope = new Float64Array(width);
  const jacobian = new Float64Array(width * n);
  const matrix = new Float64Array(n * n);
  const pivots = new Int32Array(n);
  const stageY = new Float64Array(width);
  const stageRates = new Float64Array(width);
  const u = Array.from({ length: STAGES }, () => new Float64Array(width));
  const next = new Float64Array(width);
  const first = new Float64Array(width);
  const second = new Float64Array(width);
  const powers = sensitivity ? new Float64Array(n * n) : null;

  let y: Float64Array = next;
  let t = 0;
  let hFactored = 0;
  let linearised = false;
  let interpolantReady = false;

  function differenceColumns(): void {
    stageY.set(y);
    for (let j = 0; j < n; j++) {
      const kept = y[j]!;
      // Upwards, so that a stock at zero is not pushed below it.
      const raised = kept + Math.max(share * Math.abs(kept), 0.05 * atol[j]!);
      const inverse = 1 / (raised - kept);
      stageY[j] = raised;
      system.rates(t, stageY, stageRates);
      stageY[j] = kept;
      for (let i = 0, at = j; i < width; i++, at += n) jacobian[at] = (stageRates[i]! - slope[i]!) * inverse;
    }
    tally.rateCalls += n;
  }

  /** Jacobian and time derivative at the start of the step; kept over rejected attempts. */
  function linearise(h: number): void {
    tally.jacobians++;
    if (system.jacobian) system.jacobian(t, y, jacobian);
    else differenceColumns();
    if (!system.autonomous) {
      const later = t + Math.max(Math.max(share, 1e-6) * h, Math.min(h, 1e-12 * Math.abs(t)));
      const inverse = 1 / (later - t);
      system.rates(later, y, stageRates);
      tally.rateCalls++;
      for (let i = 0; i < width; i++) timeSlope[i] = (stageRates[i]! - slope[i]!) * inverse;
    }
    linearised = true;
    hFactored = 0;
  }

  /** Factors of 1/(h gamma) I - J. */
  function factorise(h: number): boolean {
    const diagonal = 1 / (gamma * h);
    for (let i = 0; i < n * n; i++) matrix[i] = -jacobian[i]!;
    for (let i = 0; i < n; i++) matrix[i * n + i] = matrix[i * n + i]! + diagonal;
    tally.factorizations++;
    hFactored = h;
    return luFactor(matrix, n, pivots);
  }

  function attempt(h: number): boolean {
    if (!linearised) linearise(h);
    if (hFactored !== h && !factorise(h)) return false;
    interpolantReady = false;
    const gammaH = gamma * h;
    for (let i = 0; i < STAGES; i++) {
      const k = u[i]!;
      if (i === 0) k.set(slope);
      else {
        if (i < STAGES - 1) {
          stageY.set(y);
          const weights = a[i]!;
          for (let j = 0; j < i; j++) {
            const weight = weights[j]!;
            const uj = u[j]!;
            for (let s = 0; s < n; s++) stageY[s] = stageY[s]! + weight * uj[s]!;
          }
        } else {
          const previous = u[i - 1]!;
          for (let s = 0; s < n; s++) stageY[s] = stageY[s]! + previous[s]!;
        }
        system.rates(t + c[i]! * h, stageY, k);
        const weights = C[i]!;
        for (let j = 0; j < i; j++) {
          const weight = weights[j]! / h;
          const uj = u[j]!;
          for (let s = 0; s < width; s++) k[s] = k[s]! + weight * uj[s]!;
        }
      }
      if (!system.autonomous && d[i] !== 0) {
        const weight = h * d[i]!;
        for (let s = 0; s < width; s++) k[s] = k[s]! + weight * timeSlope[s]!;
      }
      luSolve(matrix, n, pivots, k);
      // Nothing depends on a flow, so its row of the same linear system is solved by substitution.
      for (let f = n; f < width; f++) {
        let sum = k[f]!;
        const row = f * n;
        for (let s = 0; s < n; s++) sum += jacobian[row + s]! * k[s]!;
        k[f] = gammaH * sum;
      }
    }
    tally.rateCalls += STAGES - 1;
    next.fill(0);
    for (let j = 0; j < STAGES; j++) {
      const weight = m[j]!;
      const uj = u[j]!;
      for (let s = 0; s < width; s++) next[s] = next[s]! + weight * uj[s]!;
    }
    for (let s = 0; s < width; s++) next[s] = y[s]! + next[s]!;
    return true;
  }

  function interpolate(s: number, out: Float64Array, offset: number): void {
    if (!interpolantReady) {
      first.fill(0);
      second.fill(0);
      for (let j = 0; j < STAGES - 1; j++) {
        const pj = p[j]!;
        const qj = q[j]!;
        const uj = u[j]!;
        for (let k = 0; k < width; k++) {
          first[k] = first[k]! + pj * uj[k]!;
          second[k] = second[k]! + qj * uj[k]!;
        }
      }
      interpolantReady = true;
    }
    const rest = 1 - s;
    for (let k = 0; k < width; k++) {
      out[offset + k] = rest * y[k]! + s * (next[k]! + rest * (first[k]! + s * second[k]!));
    }
  }

  /**
   * R(hJ) with R(z) = x^3 + x^2 - x, x = 1/(1 - gamma z), gamma = 1/4: order 2, A- and L-stable, three solves with the
   * factors at hand.
   */
  function propagate(h: number, phi: Float64Array, work: Float64Array): void {
    if (hFactored !== h && !factorise(h)) return;
    const scale = 1 / (gamma * h);
    for (let i = 0; i < n * n; i++) work[i] = scale * phi[i]!;
    luSolveColumns(matrix, n, pivots, work, n);
    for (let i = 0; i < n * n; i++) work[i] = scale * (work[i]! + phi[i]!);
    luSolveColumns(matrix, n, pivots, work, n);
    for (let i = 0; i < n * n; i++) phi[i] = scale * (work[i]! - phi[i]!);
    luSolveColumns(matrix, n, pivots, phi, n);
  }

  return {
    errorOrder: 4,
    predictive: true,
    slope,
    next,
    error: u[STAGES - 1]!,
    begin(start, state) {
      t = start;
      y = state;
      system.rates(t, y, slope);
      linearised = false;
    },
    attempt,
    interpolate,
    accepted(h) {
      if (sensitivity && powers) propagate(h, sensitivity, powers);
    },
    advance(end) {
      t = end;
      system.rates(t, y, slope);
      tally.rateCalls++;
      linearised = false;
    },
  };
}

/**
 * Stiff integrator: RODAS4P2 or RODAS, Rosenbrock methods of order 4 with embedded order 3, six stages, gamma = 1/4,
 * L-stable and stiffly accurate (`hairer_wanner_1996`, IV.7; `steinebach_2020`).
 *
 * Every linear combination of states and flows whose rate vanishes identically is kept to rounding whatever the
 * tolerance; flows stand outside the error norm. See `OdeSystem` for what the rates must fulfil.
 * @throws RangeError for options that make no sense.
 */
export function createIntegrator(system: OdeSystem, options: RodasOptions = {}): Integrator {
  const settings = settle(system, options);
  const tally: Tally = { rateCalls: 0, jacobians: 0, factorizations: 0 };
  const stepper = createStepper(system, options, settings.rtol, settings.atol, tally);
  return createDriver(system, options, settings, stepper, tally);
}

/** One run of the stiff integrator from t0 to t1; `y` (states, then flows) is changed in place. */
export function integrate(
  system: OdeSystem,
  y: Float64Array,
  t0: number,
  t1: number,
  options: RodasOptions = {},
): IntegrationResult {
  return createIntegrator(system, options).run(t0, t1, y);
}
