import { leastSquares, RankError } from "./least-squares.ts";
import { luFactor, luSolveColumns, setIdentity, symmetricEigen } from "./linear.ts";

/**
 * One period of a system: writes the state after the period that starts at `y` into `out` (and must not change `y`).
 * When `sensitivity` is not null, also writes an approximation of d(out)/d(y) into it, n x n, row-major.
 */
export type PeriodMap = (y: Float64Array, out: Float64Array, sensitivity: Float64Array | null) => void;

export interface PeriodicOptions {
  /** A state may differ from start to end of the period by `atol + rtol |y|`; defaults 1e-6 and 1e-9. */
  readonly rtol?: number;
  readonly atol?: number | Float64Array;
  /** Calls of the map after which the search gives up; default 60. */
  readonly maxMaps?: number;
  /** False when the map cannot give a sensitivity; default true. */
  readonly sensitivity?: boolean;
  /** Lowest value of each state that the map may be asked about, e.g. zeros for amounts. */
  readonly lower?: Float64Array;
  /** Share of the change over a period that the fallback takes at a time, above 0 to 1; default 1. */
  readonly damping?: number;
}

export interface PeriodicResult {
  /** True only when the state returned repeats within the tolerance. */
  readonly converged: boolean;
  /** Start of the period: the best found. */
  readonly y: Float64Array;
  /** Largest change of a state over the period, in units of its tolerance: at most 1 when converged. */
  readonly residual: number;
  /** Calls of the map. */
  readonly maps: number;
  /** Quasi-Newton steps taken. */
  readonly newtonSteps: number;
  /** Periods followed as they are, or mixed. */
  readonly fallbackSteps: number;
  /**
   * Factor by which a small deviation from the rhythm changes per period in the long run, estimated from the
   * sensitivity: below 1 the system returns to it, above 1 it leaves it. NaN without a sensitivity.
   */
  readonly multiplier: number;
}

const DEPTH = 5;
const FALLBACK_RUN = 8;
const FOLLOW_RUN = 4;

/** Singular values below this share of the largest count as zero: the period neither gains nor loses there. */
const NEUTRAL = 1e-7;
/** A state is not looked for beyond this many times the size it had at the start or after the first period. */
const REACH = 1000;
/**
 * A state whose deviations grow by more than this per period is followed, not extrapolated: Newton's method would run
 * back to the point it grows from, e.g. to extinction. The margin allows for the rough sensitivity.
 */
const GROWING = 1.02;
/** Share of its distance to the lower bound that a state keeps at least in one step, so that none jumps to extinction. */
const KEEP = 0.2;

/** Spectral radius by repeated squaring. */
function growthPerPeriod(s: Float64Array, n: number): number {
  let power = s.slice();
  let square = new Float64Array(n * n);
  let log = 0;
  for (let k = 0; k <= 10; k++) {
    let size = 0;
    for (const v of power) size = Math.hypot(size, v);
    if (!(size > 0)) return size;
    log += Math.log(size) / 2 ** k;
    if (k === 10) break;
    for (let i = 0; i < n * n; i++) power[i] = power[i]! / size;
    square.fill(0);
    for (let i = 0; i < n; i++) {
      for (let m = 0; m < n; m++) {
        const factor = power[i * n + m]!;
        for (let j = 0; j < n; j++) square[i * n + j] = square[i * n + j]! + factor * power[m * n + j]!;
      }
    }
    [power, square] = [square, power];
  }
  return Math.exp(log);
}

/**
 * Inverse of A = I - S in scaled variables. Where A is singular, w A = 0 for the weights w of a conserved amount; adding
 * w w^T for each makes it regular and gives steps that leave w . y unchanged.
 */
function inverseOfChange(s: Float64Array, scale: Float64Array, n: number): Float64Array | null {
  const a = new Float64Array(n * n);
  let largest = 0;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      const entry = (i === j ? 1 : 0) - (s[i * n + j]! * scale[j]!) / scale[i]!;
      if (!Number.isFinite(entry)) return null;
      a[i * n + j] = entry;
      largest = Math.max(largest, Math.abs(entry));
    }
  }
  const pivots = new Int32Array(n);
  const inverse = new Float64Array(n * n);
  const invert = (): boolean => {
    const factors = a.slice();
    setIdentity(inverse, n);
    if (!luFactor(factors, n, pivots)) return false;
    luSolveColumns(factors, n, pivots, inverse, n);
    return true;
  };
  if (invert() && inverse.every((v) => Math.abs(v * largest) < 0.1 / NEUTRAL)) return inverse;

  const product = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      let sum = 0;
      for (let k = 0; k < n; k++) sum += a[i * n + k]! * a[j * n + k]!;
      product[i * n + j] = sum;
    }
  }
  const { values, vectors } = symmetricEigen(product, n);
  const limit = Math.max(NEUTRAL ** 2, 16 * n * Number.EPSILON) * Math.max(...values);
  for (let k = 0; k < n; k++) {
    if (values[k]! > limit) continue;
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) a[i * n + j] = a[i * n + j]! + vectors[i * n + k]! * vectors[j * n + k]!;
    }
  }
  return invert() ? inverse : null;
}

/**
 * State that a period leads back to itself: y = P(y), e.g. the weekly rhythm a tank settles into.
 *
 * Quasi-Newton: y + (I - S)^-1 (P(y) - y) with the sensitivity S = dP/dy of the map, improved by rank-one updates
 * (`broyden_1965`) and asked for again when progress is slow, halved when it overshoots. Where that fails, or without a
 * sensitivity: repeated periods with mixing of the last few (`anderson_1965`). Amounts that P conserves stay as `y0` has
 * them. Stops after `maxMaps` periods at the latest, whatever happens.
 *
 * With a sensitivity the search prefers a rhythm the system returns to: while deviations grow from period to period it
 * follows the system, and a solution found is checked at the end (`multiplier`).
 *
 * The residual is the change over one period: where a store turns over in k periods, the state found is good to about
 * k times the tolerance.
 */
export function findPeriodic(map: PeriodMap, y0: Float64Array, options: PeriodicOptions = {}): PeriodicResult {
  const n = y0.length;
  const { rtol = 1e-6, maxMaps = 60, damping = 1, lower } = options;
  const given = options.atol ?? 1e-9;
  const atol = (j: number): number => (typeof given === "number" ? given : given[j]!);
  if (!(rtol > 0 && damping > 0 && damping <= 1)) throw new RangeError("rtol must be above 0, damping above 0 to 1");
  const useNewton = options.sensitivity ?? true;

  const y = y0.slice();
  const change = new Float64Array(n);
  const trial = new Float64Array(n);
  const trialChange = new Float64Array(n);
  const step = new Float64Array(n);
  const s = useNewton ? new Float64Array(n * n) : null;
  const scale = new Float64Array(n);
  const reach = new Float64Array(n).fill(Number.POSITIVE_INFINITY);
  const best = y0.slice();
  let bestResidual = Number.POSITIVE_INFINITY;
  let maps = 0;
  let newtonSteps = 0;
  let fallbackSteps = 0;

  /** Change of `at` over a period; returns the largest, in tolerances. */
  function evaluate(at: Float64Array, out: Float64Array, withSensitivity: boolean): number {
    maps++;
    map(at, out, withSensitivity ? s : null);
    let largest = 0;
    for (let j = 0; j < n; j++) {
      const allowed = atol(j) + rtol * Math.max(Math.abs(at[j]!), Math.abs(out[j]!));
      out[j] = out[j]! - at[j]!;
      const ratio = Math.abs(out[j]!) / allowed;
      if (!(ratio <= largest)) largest = ratio;
    }
    if (Number.isNaN(largest)) return Number.POSITIVE_INFINITY;
    if (largest < bestResidual) {
      bestResidual = largest;
      best.set(at);
    }
    return largest;
  }
  function moveTrial(factor: number): void {
    for (let j = 0; j < n; j++) {
      const least = lower?.[j] ?? Number.NEGATIVE_INFINITY;
      const floor = y[j]! > least && least > Number.NEGATIVE_INFINITY ? least + KEEP * (y[j]! - least) : least;
      const target = Math.min(reach[j]!, Math.max(-reach[j]!, y[j]! + factor * step[j]!));
      trial[j] = Math.max(floor, target);
    }
  }
  function accept(): void {
    y.set(trial);
    change.set(trialChange);
  }

  let residual = evaluate(y, change, useNewton);
  for (let j = 0; j < n; j++) {
    reach[j] = REACH * Math.max(Math.abs(y[j]!), Math.abs(y[j]! + change[j]!), atol(j) / rtol);
    if (Number.isNaN(reach[j]!)) reach[j] = Number.POSITIVE_INFINITY;
  }
  let inverse: Float64Array | null = null;
  let multiplier = Number.NaN;
  /** Takes the sensitivity of the last call, made at the present state. */
  const linearise = (): void => {
    if (!s) return;
    for (let j = 0; j < n; j++) scale[j] = Math.max(Math.abs(y[j]!), atol(j) / rtol);
    inverse = inverseOfChange(s, scale, n);
    multiplier = growthPerPeriod(s, n);
  };
  if (residual < Number.POSITIVE_INFINITY) linearise();

  /** Quasi-Newton until it converges, fails or runs out of maps. */
  function newton(): void {
    /** The inverse has proved itself at the last step, or comes straight from a sensitivity. */
    let good = true;
    while (inverse && !(multiplier > GROWING) && residual > 1 && maps < maxMaps) {
      for (let i = 0; i < n; i++) {
        let sum = 0;
        for (let j = 0; j < n; j++) sum += inverse[i * n + j]! * (change[j]! / scale[j]!);
        step[i] = sum * scale[i]!;
      }
      let factor = 1;
      let trialResidual = Number.POSITIVE_INFINITY;
      for (let halvings = 0; halvings < 4 && maps < maxMaps; halvings++, factor *= 0.4) {
        moveTrial(factor);
        trialResidual = evaluate(trial, trialChange, !good && halvings === 0);
        if (trialResidual < residual) break;
      }
      newtonSteps++;
      if (!(trialResidual < residual)) {
        if (good || maps >= maxMaps) return;
        // The updated inverse has gone stale: start again from a sensitivity at the present state.
        residual = evaluate(y, change, true);
        if (residual === Number.POSITIVE_INFINITY) return;
        linearise();
        good = true;
        continue;
      }
      const asked = !good && factor === 1;
      const slow = trialResidual > 0.25 * residual;
      if (asked && slow) {
        accept();
        residual = trialResidual;
        linearise();
        good = true;
        continue;
      }
      update();
      accept();
      residual = trialResidual;
      good = !slow;
    }
  }

  /** Rank-one correction of the inverse from the step just taken, in scaled variables. */
  function update(): void {
    if (!inverse) return;
    const h = inverse;
    const moved = new Float64Array(n);
    const hf = new Float64Array(n);
    const mh = new Float64Array(n);
    for (let j = 0; j < n; j++) moved[j] = (trial[j]! - y[j]!) / scale[j]!;
    for (let i = 0; i < n; i++) {
      let sum = 0;
      for (let j = 0; j < n; j++) sum += (h[i * n + j]! * (change[j]! - trialChange[j]!)) / scale[j]!;
      hf[i] = sum;
    }
    let dot = 0;
    for (let i = 0; i < n; i++) dot += moved[i]! * hf[i]!;
    let size = 0;
    for (let i = 0; i < n; i++) size += moved[i]! * moved[i]!;
    if (!(Math.abs(dot) > 0.1 * size)) return;
    for (let j = 0; j < n; j++) {
      let sum = 0;
      for (let i = 0; i < n; i++) sum += moved[i]! * h[i * n + j]!;
      mh[j] = sum;
    }
    for (let i = 0; i < n; i++) {
      const factor = (moved[i]! - hf[i]!) / dot;
      for (let j = 0; j < n; j++) h[i * n + j] = h[i * n + j]! + factor * mh[j]!;
    }
  }

  /** Anderson-mixed periods, at most `limit` of them. */
  function mix(limit: number): void {
    const states: Float64Array[] = [];
    const changes: Float64Array[] = [];
    let share = damping;
    for (let i = 0; i < limit && residual > 1 && maps < maxMaps; i++) {
      states.push(y.slice());
      changes.push(change.slice());
      if (states.length > DEPTH + 1) {
        states.shift();
        changes.shift();
      }
      for (let j = 0; j < n; j++) step[j] = share * change[j]!;
      const columns = Math.min(states.length - 1, n);
      if (columns > 0) {
        const last = states.length - 1;
        const a = new Float64Array((n + columns) * columns);
        const b = new Float64Array(n + columns);
        for (let j = 0; j < n; j++) {
          const allowed = atol(j) + rtol * Math.abs(y[j]!);
          b[j] = change[j]! / allowed;
          for (let c = 0; c < columns; c++) {
            a[j * columns + c] = (changes[last - c]![j]! - changes[last - c - 1]![j]!) / allowed;
          }
        }
        for (let c = 0; c < columns; c++) {
          let size = 0;
          for (let j = 0; j < n; j++) size = Math.hypot(size, a[j * columns + c]!);
          a[(n + c) * columns + c] = 1e-7 * size;
        }
        try {
          const { x: weights } = leastSquares(a, b, columns);
          for (let c = 0; c < columns; c++) {
            for (let j = 0; j < n; j++) {
              const moved = states[last - c]![j]! - states[last - c - 1]![j]!;
              const turned = changes[last - c]![j]! - changes[last - c - 1]![j]!;
              step[j] = step[j]! - weights[c]! * (moved + share * turned);
            }
          }
        } catch (error) {
          if (!(error instanceof RankError)) throw error;
        }
      }
      moveTrial(1);
      const trialResidual = evaluate(trial, trialChange, useNewton && i === limit - 1);
      fallbackSteps++;
      if (trialResidual === Number.POSITIVE_INFINITY) {
        // The map failed there: forget the history and take a smaller share of one period from here.
        states.length = 0;
        changes.length = 0;
        share *= 0.3;
        continue;
      }
      if (trialResidual > 2 * residual) {
        states.length = 0;
        changes.length = 0;
      }
      accept();
      residual = trialResidual;
    }
  }

  /** The system's own course over a few periods. */
  function follow(): void {
    for (let i = 0; i < FOLLOW_RUN && maps < maxMaps; i++) {
      for (let j = 0; j < n; j++) trial[j] = y[j]! + change[j]!;
      const trialResidual = evaluate(trial, trialChange, i === FOLLOW_RUN - 1);
      fallbackSteps++;
      if (trialResidual === Number.POSITIVE_INFINITY) {
        inverse = null;
        multiplier = Number.NaN;
        return;
      }
      accept();
      residual = trialResidual;
      if (i === FOLLOW_RUN - 1) linearise();
    }
  }

  function search(): void {
    while (residual > 1 && maps < maxMaps) {
      if (multiplier > GROWING) {
        follow();
        continue;
      }
      newton();
      if (residual <= 1 || maps >= maxMaps) return;
      if (multiplier > GROWING) continue;
      if (residual > bestResidual) {
        y.set(best);
        residual = evaluate(y, change, false);
        if (maps >= maxMaps) return;
      }
      mix(useNewton ? FALLBACK_RUN : maxMaps);
      if (residual > 1) linearise();
    }
  }

  if (residual < Number.POSITIVE_INFINITY) {
    search();
    while (useNewton && residual <= 1 && maps > 1 && maps < maxMaps) {
      residual = evaluate(y, change, true);
      linearise();
      if (!(multiplier > GROWING)) break;
      bestResidual = Number.POSITIVE_INFINITY;
      follow();
      search();
    }
  }
  return {
    converged: bestResidual <= 1,
    y: best,
    residual: bestResidual,
    maps,
    newtonSteps,
    fallbackSteps,
    multiplier,
  };
}
