import { RelationError, relation } from "../relation/index.ts";
import { co2FromPh } from "./carbonic.ts";
import { CO2_PER_O2_AT_SURFACE } from "./schmidt.ts";
import { quantity, waterTemperature, waterVolume } from "./usual-inputs.ts";

export interface DecayFit {
  /** Rate constant and its 95 % range, 1/h. The upper end is infinite where the readings do not bound it. */
  readonly k: number;
  readonly kLow: number;
  readonly kHigh: number;
  /** Value at time 0 and after long, in the unit of the readings. */
  readonly c0: number;
  readonly cInf: number;
  /** Root mean square misfit, in the unit of the readings. */
  readonly residual: number;
}

export interface DecayOptions {
  /** Known end value; left out, it is fitted too, as it should be: it carries the night respiration of the tank. */
  readonly cInf?: number;
  /** Standard error of one reading, in the unit of the readings; left out, the scatter about the curve tells it. */
  readonly error?: number;
}

/** Two-sided 95 % points of Student's t for 1 to 10 degrees of freedom. */
const STUDENT = [12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228];
const NORMAL = 1.959964;

/** Two-sided 95 % point of Student's t; an expansion in 1/df above 10, good to 2e-3. Source: abramowitz-stegun-26.7.5 */
function student(df: number): number {
  const listed = STUDENT[df - 1];
  if (listed !== undefined) return listed;
  const x = NORMAL;
  return x + (x ** 3 + x) / (4 * df) + (5 * x ** 5 + 16 * x ** 3 + 3 * x) / (96 * df * df);
}

interface Line {
  readonly c0: number;
  readonly cInf: number;
  readonly squares: number;
}

/** Best end values for one rate constant: the curve is a straight line in e^-kt. */
function lineFor(k: number, times: readonly number[], values: readonly number[], cInf: number | undefined): Line {
  const n = times.length;
  const x = times.map((t) => Math.exp(-k * t));
  let slope: number;
  let end: number;
  if (cInf === undefined) {
    const meanX = x.reduce((a, b) => a + b, 0) / n;
    const meanY = values.reduce((a, b) => a + b, 0) / n;
    let xx = 0;
    let xy = 0;
    for (let i = 0; i < n; i++) {
      xx += (x[i]! - meanX) ** 2;
      xy += (x[i]! - meanX) * (values[i]! - meanY);
    }
    slope = xx > 0 ? xy / xx : 0;
    end = meanY - slope * meanX;
  } else {
    let xx = 0;
    let xy = 0;
    for (let i = 0; i < n; i++) {
      xx += x[i]! * x[i]!;
      xy += x[i]! * (values[i]! - cInf);
    }
    slope = xx > 0 ? xy / xx : 0;
    end = cInf;
  }
  let squares = 0;
  for (let i = 0; i < n; i++) squares += (values[i]! - end - slope * x[i]!) ** 2;
  return { c0: end + slope, cInf: end, squares };
}

function checkReadings(times: readonly number[], values: readonly number[], least: number): void {
  if (times.length !== values.length) throw new RangeError("as many values as times are needed");
  if (times.length < least) throw new RangeError(`at least ${least} readings are needed`);
  for (let i = 1; i < times.length; i++) {
    if (!(times[i]! > times[i - 1]!)) throw new RangeError("times must rise");
  }
}

/**
 * Fits C(t) = Cinf + (C0 - Cinf) e^-kt to readings by least squares. Forcing Cinf to the equilibrium with the air
 * would take the night respiration of the tank for slow loss.
 * @param timesH times of the readings, h, rising
 * @param values readings, any one unit
 * @param options known end value; error of a reading
 * @returns see `DecayFit`; the range comes from the profile of the misfit. Three readings fit exactly: without their
 * error nothing is known of the range (0 to infinity).
 * @throws RangeError on too few readings, times that do not rise, or readings that do not bend like a decay. Source: definition
 */
export function fitDecay(timesH: readonly number[], values: readonly number[], options: DecayOptions = {}): DecayFit {
  const { cInf, error } = options;
  const parameters = cInf === undefined ? 3 : 2;
  checkReadings(timesH, values, parameters);
  const start = timesH[0]!;
  const times = timesH.map((t) => t - start);
  const span = times[times.length - 1]!;
  const squares = (lnK: number) => lineFor(Math.exp(lnK), times, values, cInf).squares;

  // A coarse look over all rates that the readings can tell apart, then golden section about the best.
  const gap = Math.min(...times.slice(1).map((t, i) => t - times[i]!));
  const lowest = Math.log(1e-3 / span);
  const highest = Math.log(40 / gap);
  const grid = 240;
  const width = (highest - lowest) / grid;
  let best = lowest;
  for (let i = 1; i <= grid; i++) if (squares(lowest + i * width) < squares(best)) best = lowest + i * width;
  let a = best - width;
  let b = best + width;
  const golden = (Math.sqrt(5) - 1) / 2;
  for (let i = 0; i < 90; i++) {
    const c = b - golden * (b - a);
    const d = a + golden * (b - a);
    if (squares(c) < squares(d)) b = d;
    else a = c;
  }
  const lnK = 0.5 * (a + b);
  if (lnK < lowest + 1.5 * width || lnK > highest - 1.5 * width) {
    throw new RangeError("the readings do not bend like a decay: no rate constant can be told from them");
  }
  const k = Math.exp(lnK);
  const line = lineFor(k, times, values, cInf);
  const freedom = times.length - parameters;
  const allowance =
    error !== undefined
      ? (NORMAL * error) ** 2
      : freedom > 0
        ? (student(freedom) ** 2 * line.squares) / freedom
        : Number.POSITIVE_INFINITY;
  const limit = line.squares + allowance;
  /** Where the misfit climbs over the limit on one side of the best rate; null if it never does. */
  const edge = (far: number): number | null => {
    if (!(squares(far) > limit)) return null;
    let inside = lnK;
    let outside = far;
    // The nearest crossing: the misfit may fall again farther out.
    const steps = 200;
    for (let i = 1; i <= steps; i++) {
      const x = lnK + ((far - lnK) * i) / steps;
      if (squares(x) > limit) {
        outside = x;
        break;
      }
      inside = x;
    }
    for (let i = 0; i < 60; i++) {
      const middle = 0.5 * (inside + outside);
      if (squares(middle) > limit) outside = middle;
      else inside = middle;
    }
    return Math.exp(inside);
  };
  const shift = Math.exp(k * start);
  return {
    k,
    kLow: edge(lowest) ?? 0,
    kHigh: edge(highest) ?? Number.POSITIVE_INFINITY,
    c0: line.cInf + (line.c0 - line.cInf) * shift,
    cInf: line.cInf,
    residual: Math.sqrt(line.squares / times.length),
  };
}

/**
 * Rate constant from two readings and a known end value.
 * @param hours between the readings, h
 * @param first reading
 * @param second reading, same unit
 * @param cInf end value, same unit
 * @returns 1/h; NaN where the readings do not approach the end value
 */
export function decayFromTwo(hours: number, first: number, second: number, cInf: number): number {
  return Math.log((first - cInf) / (second - cInf)) / hours;
}

/**
 * Rate constant from three equally spaced readings, whatever the end value.
 * @param spacingH between neighbours, h
 * @param first reading
 * @param second reading, same unit
 * @param third reading, same unit
 * @returns rate constant, 1/h, and end value; NaN where the steps do not shrink
 */
export function decayFromThree(
  spacingH: number,
  first: number,
  second: number,
  third: number,
): { readonly k: number; readonly cInf: number } {
  const step1 = first - second;
  const step2 = second - third;
  return {
    k: Math.log(step1 / step2) / spacingH,
    cInf: (first * third - second * second) / (first + third - 2 * second),
  };
}

/**
 * Fits the loss of CO2 to pH readings taken with the gas off at steady alkalinity and temperature.
 * @param timesH times, h, rising
 * @param ph pH readings, 6 to 8
 * @param alkalinity meq/L
 * @param t water temperature, °C
 * @param options as of `fitDecay`, in mg/L of CO2
 * @returns see `DecayFit`, values in mg/L of CO2. Source: plummer-busenberg-1982
 */
export function fitDecayFromPh(
  timesH: readonly number[],
  ph: readonly number[],
  alkalinity: number,
  t: number,
  options: DecayOptions = {},
): DecayFit {
  return fitDecay(
    timesH,
    ph.map((p) => co2FromPh(p, alkalinity, t)),
    options,
  );
}

/**
 * Rate constant from oxygen climbing back in a tank without plants and animals: slope of ln(Cs - C).
 * @param timesH times, h, rising
 * @param oxygen readings below saturation, mg/L
 * @param saturation oxygen at saturation, mg/L
 * @returns rate constants of oxygen and, by the surface ratio, of CO2, 1/h
 * @throws RangeError where a reading is not below saturation. Source: asce-2-06
 */
export function fitReaeration(
  timesH: readonly number[],
  oxygen: readonly number[],
  saturation: number,
): { readonly kO2: number; readonly kCo2: number } {
  checkReadings(timesH, oxygen, 2);
  if (oxygen.some((c) => c >= saturation)) throw new RangeError("readings must lie below saturation");
  const n = timesH.length;
  const y = oxygen.map((c) => Math.log(saturation - c));
  const meanT = timesH.reduce((a, b) => a + b, 0) / n;
  const meanY = y.reduce((a, b) => a + b, 0) / n;
  let tt = 0;
  let ty = 0;
  for (let i = 0; i < n; i++) {
    tt += (timesH[i]! - meanT) ** 2;
    ty += (timesH[i]! - meanT) * (y[i]! - meanY);
  }
  const kO2 = -ty / tt;
  return { kO2, kCo2: CO2_PER_O2_AT_SURFACE.value * kO2 };
}

/**
 * Rate constant from a steady level in the dark: what goes in goes out.
 * @param gramsPerHour CO2 dissolved, g/h
 * @param volumeL volume of water, L
 * @param mgL steady CO2, mg/L
 * @param equilibriumMgL CO2 at equilibrium with the air, mg/L
 * @returns 1/h
 */
export function rateFromBalance(gramsPerHour: number, volumeL: number, mgL: number, equilibriumMgL: number): number {
  return (1000 * gramsPerHour) / (volumeL * (mgL - equilibriumMgL));
}

const times = { kind: "series", label: "times of the readings", unit: "h", min: 0, max: 1000, atLeast: 3 } as const;
const fitOutputs = {
  k: { label: "rate constant", unit: "1/h" },
  k_low: { label: "lower end, 95 %", unit: "1/h" },
  k_high: { label: "upper end, 95 %", unit: "1/h" },
  start: { label: "value at time 0", unit: "mg/L" },
  end: { label: "value after long", unit: "mg/L" },
  residual: { label: "misfit, root mean square", unit: "mg/L" },
} as const;
const named = (fit: DecayFit) => ({
  k: fit.k,
  k_low: fit.kLow,
  k_high: fit.kHigh,
  start: fit.c0,
  end: fit.cInf,
  residual: fit.residual,
});
const reading = (label: string) => quantity(label, "mg/L", 0, 500);

export const decayRelations = [
  relation({
    id: "decay-fit",
    title: "Loss rate from readings after the gas is off",
    room: "gas",
    inputs: {
      times,
      values: { kind: "series", label: "CO2 or oxygen", unit: "mg/L", min: 0, max: 500, atLeast: 3 },
    },
    outputs: fitOutputs,
    equation: "C(t) = Cinf + (C0 - Cinf) e^-kt, least squares in k, C0 and Cinf",
    sources: ["definition", "asce-2-06"],
    validity: "Same pumps, steady temperature, lights off; 8 to 12 h of readings.",
    compute: ({ times, values }) => named(fitDecay(times, values)),
  }),
  relation({
    id: "decay-fit-known-end",
    title: "Loss rate from readings, end value given",
    room: "gas",
    inputs: {
      times,
      values: { kind: "series", label: "CO2 or oxygen", unit: "mg/L", min: 0, max: 500, atLeast: 3 },
      end: reading("value after long"),
    },
    outputs: fitOutputs,
    equation: "C(t) = Cinf + (C0 - Cinf) e^-kt, least squares in k and C0",
    sources: ["definition"],
    validity: "Taking the air equilibrium for the end value makes k too low: the tank breathes at night.",
    compute: ({ times, values, end }) => named(fitDecay(times, values, { cInf: end })),
  }),
  relation({
    id: "decay-fit-from-ph",
    title: "Loss rate from pH readings after the gas is off",
    room: "gas",
    inputs: {
      times,
      ph: { kind: "series", label: "pH", unit: "1", min: 5.5, max: 8.5, atLeast: 3 },
      alkalinity: quantity("alkalinity", "meq/L", 0.05, 20),
      temperature: waterTemperature,
    },
    outputs: fitOutputs,
    equation: "CO2 = 44.0095 Alk 10^(pK1 - pH), then C(t) = Cinf + (C0 - Cinf) e^-kt",
    sources: ["plummer-busenberg-1982"],
    validity: "Steady alkalinity and temperature, pH 6 to 8.",
    compute: ({ times, ph, alkalinity, temperature }) => named(fitDecayFromPh(times, ph, alkalinity, temperature)),
  }),
  relation({
    id: "decay-from-two-readings",
    title: "Loss rate from two readings and a known end value",
    room: "gas",
    inputs: {
      hours: quantity("time between the readings", "h", 0.01, 200),
      first: reading("first reading"),
      second: reading("second reading"),
      end: reading("value after long"),
    },
    outputs: { k: { label: "rate constant", unit: "1/h" } },
    equation: "k = ln((C0 - Cinf)/(C1 - Cinf))/t",
    sources: ["definition"],
    validity: "The second reading lies between the first and the end.",
    compute: ({ hours, first, second, end }) => {
      const share = (second - end) / (first - end);
      if (share > 0 && share <= 1) return { k: decayFromTwo(hours, first, second, end) };
      const message =
        first === end
          ? `must differ from the value after long, ${end} mg/L: nothing is left to lose`
          : `${second} mg/L does not lie between the first reading and the value after long; from ${first} to just short of ${end} mg/L is allowed`;
      throw new RelationError("decay-from-two-readings", [{ input: first === end ? "first" : "second", message }]);
    },
  }),
  relation({
    id: "decay-from-three-readings",
    title: "Loss rate from three equally spaced readings",
    room: "gas",
    inputs: {
      spacing: quantity("time between neighbours", "h", 0.01, 100),
      first: reading("first reading"),
      second: reading("second reading"),
      third: reading("third reading"),
    },
    outputs: { k: { label: "rate constant", unit: "1/h" }, end: { label: "value after long", unit: "mg/L" } },
    equation: "k = ln((C0 - C1)/(C1 - C2))/dt",
    sources: ["definition"],
    validity: "Each step goes the same way and is smaller than the one before.",
    compute: ({ spacing, first, second, third }) => {
      const shrinks = (second - third) / (first - second);
      if (!(shrinks > 0 && shrinks < 1)) {
        const least = Math.min(second, 2 * second - first);
        const most = Math.max(second, 2 * second - first);
        const message =
          first === second
            ? "must differ from the first reading: without a change nothing can be told of its rate"
            : `the step from ${second} to ${third} mg/L must go the same way as that from ${first} to ${second} mg/L and be smaller: between ${least} and ${most} mg/L is allowed`;
        throw new RelationError("decay-from-three-readings", [
          { input: first === second ? "second" : "third", message },
        ]);
      }
      const { k, cInf } = decayFromThree(spacing, first, second, third);
      return { k, end: cInf };
    },
  }),
  relation({
    id: "reaeration-fit",
    title: "Loss rate from oxygen climbing back",
    room: "gas",
    inputs: {
      times: { ...times, atLeast: 2 },
      oxygen: { kind: "series", label: "oxygen", unit: "mg/L", min: 0, max: 20, atLeast: 2 },
      saturation: quantity("oxygen at saturation", "mg/L", 4, 20),
    },
    outputs: { o2: { label: "rate constant of oxygen", unit: "1/h" }, co2: { label: "of CO2", unit: "1/h" } },
    equation: "slope of ln(Cs - C) against time; CO2 = 0.92 of oxygen",
    sources: ["asce-2-06", "wanninkhof-2014"],
    validity: "No plants, no animals, no air stone.",
    compute: ({ times, oxygen, saturation }) => {
      const { kO2, kCo2 } = fitReaeration(times, oxygen, saturation);
      return { o2: kO2, co2: kCo2 };
    },
  }),
  relation({
    id: "loss-rate-from-balance",
    title: "Loss rate from a steady level in the dark",
    room: "gas",
    inputs: {
      rate: quantity("CO2 dissolved", "g/h", 1e-4, 1000),
      volume: waterVolume,
      level: reading("steady CO2"),
      equilibrium: quantity("CO2 at equilibrium with the air", "mg/L", 0, 10, 0.6),
    },
    outputs: { k: { label: "rate constant", unit: "1/h" } },
    equation: "k = S/(V (C - C_eq))",
    sources: ["definition"],
    compute: ({ rate, volume, level, equilibrium }) => ({ k: rateFromBalance(rate, volume, level, equilibrium) }),
  }),
] as const;
