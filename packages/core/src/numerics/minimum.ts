export interface MinimumOptions {
  /** Error allowed in x, absolute; default 1e-8 of the interval. Below sqrt(machine precision) of x it gains nothing. */
  readonly xtol?: number;
  /** Default 200. */
  readonly maxIterations?: number;
}

export interface Minimum {
  readonly x: number;
  readonly value: number;
  readonly evaluations: number;
}

const GOLDEN = (3 - Math.sqrt(5)) / 2;

function checkInterval(a: number, b: number): void {
  if (!(Number.isFinite(a) && Number.isFinite(b) && a < b)) throw new RangeError(`no interval from ${a} to ${b}`);
}

/**
 * Minimum of a function with a single dip between a and b by golden sections: slow, and safe with rough functions.
 * With several dips it finds one of them.
 */
export function goldenSection(f: (x: number) => number, a: number, b: number, options: MinimumOptions = {}): Minimum {
  checkInterval(a, b);
  const { xtol = 1e-8 * (b - a), maxIterations = 200 } = options;
  let low = a;
  let high = b;
  let x1 = low + GOLDEN * (high - low);
  let x2 = high - GOLDEN * (high - low);
  let f1 = f(x1);
  let f2 = f(x2);
  let evaluations = 2;
  for (let i = 0; i < maxIterations && high - low > xtol; i++) {
    if (f1 < f2) {
      high = x2;
      x2 = x1;
      f2 = f1;
      x1 = low + GOLDEN * (high - low);
      f1 = f(x1);
    } else {
      low = x1;
      x1 = x2;
      f1 = f2;
      x2 = high - GOLDEN * (high - low);
      f2 = f(x2);
    }
    evaluations++;
  }
  return f1 < f2 ? { x: x1, value: f1, evaluations } : { x: x2, value: f2, evaluations };
}

/** Minimum of a smooth function with a single dip between a and b: parabolas, else golden sections (`brent_1973`, ch. 5). */
export function findMinimum(f: (x: number) => number, a: number, b: number, options: MinimumOptions = {}): Minimum {
  checkInterval(a, b);
  const { xtol = 1e-8 * (b - a), maxIterations = 200 } = options;
  let low = a;
  let high = b;
  let x = low + GOLDEN * (high - low);
  let second = x;
  let third = x;
  let fx = f(x);
  let fSecond = fx;
  let fThird = fx;
  let evaluations = 1;
  let step = 0;
  let stepBefore = 0;
  for (let i = 0; i < maxIterations; i++) {
    const middle = 0.5 * (low + high);
    const tolerance = 1e-9 * Math.abs(x) + xtol / 3;
    if (Math.abs(x - middle) <= 2 * tolerance - 0.5 * (high - low)) break;
    let golden = true;
    if (Math.abs(stepBefore) > tolerance) {
      const r = (x - second) * (fx - fThird);
      let q = (x - third) * (fx - fSecond);
      let p = (x - third) * q - (x - second) * r;
      q = 2 * (q - r);
      if (q > 0) p = -p;
      q = Math.abs(q);
      const limit = stepBefore;
      stepBefore = step;
      if (Math.abs(p) < Math.abs(0.5 * q * limit) && p > q * (low - x) && p < q * (high - x)) {
        step = p / q;
        const target = x + step;
        if (target - low < 2 * tolerance || high - target < 2 * tolerance) step = x < middle ? tolerance : -tolerance;
        golden = false;
      }
    }
    if (golden) {
      stepBefore = (x < middle ? high : low) - x;
      step = GOLDEN * stepBefore;
    }
    const trial = x + (Math.abs(step) >= tolerance ? step : step > 0 ? tolerance : -tolerance);
    const fTrial = f(trial);
    evaluations++;
    if (fTrial <= fx) {
      if (trial < x) high = x;
      else low = x;
      third = second;
      fThird = fSecond;
      second = x;
      fSecond = fx;
      x = trial;
      fx = fTrial;
    } else {
      if (trial < x) low = trial;
      else high = trial;
      if (fTrial <= fSecond || second === x) {
        third = second;
        fThird = fSecond;
        second = trial;
        fSecond = fTrial;
      } else if (fTrial <= fThird || third === x || third === second) {
        third = trial;
        fThird = fTrial;
      }
    }
  }
  return { x, value: fx, evaluations };
}
