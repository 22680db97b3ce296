import { openAreas, slopeRatios } from "./areas.ts";
import { budgetOf } from "./budget.ts";
import { createDirect } from "./direct.ts";
import { createGather } from "./gather.ts";
import type { Settings } from "./options.ts";
import { createPaths, createTallies } from "./paths.ts";
import type { Prepared } from "./prepare.ts";
import { rapidRandom } from "./rapid-random.ts";
import type { LampField } from "./result.ts";
import { exchangeFor, smoothed, smoothedVariance } from "./smooth.ts";

/** Paths that share one seed: a piece of work of some milliseconds. Design value. */
const BATCH = 4096;
/** Fewest batches that a noise is judged by. Design value. */
const FEWEST_BATCHES = 8;
/** Most passes over the direct light. Design value. */
const MOST_PASSES = 64;
/** Seeds of different lamps are this far apart, more than any lamp has batches. */
const LAMP_STRIDE = 2 ** 24;

/** Share of the lamp's work that is done, 0 to 1. */
type Done = number;

/** Paths of daylight for each of a lamp's, since its direct light comes by paths too; and fewest batches of them. Design values. */
const DAYLIGHT_PATHS = 4;
const FEWEST_DAYLIGHT = 16;

/**
 * The light of one lamp, or of daylight on one side, in pieces of some milliseconds.
 * @param lamp position among the lamps and then the daylight
 */
export function* traceLamp(p: Prepared, lamp: number, settings: Settings): Generator<Done, LampField> {
  const cells = p.columns * p.rows;
  const { bands } = p;
  const cellArea = (p.length * p.width) / cells;
  const ratios = slopeRatios(p);
  const sky = lamp >= p.lamps.length;
  const split = settings.mode === "split" && !sky;
  const mapOf = (sums: Float64Array, b: number, scale: number): Float64Array =>
    Float64Array.from({ length: sums.length / bands }, (_, i) => sums[i * bands + b]! * scale);
  /** Mean over the bands of each cell, from sums by cell and band. */
  const overBands = (sums: Float64Array, scale: number) => {
    const out = new Float64Array(sums.length / bands);
    for (let k = 0; k < sums.length; k++) {
      const i = Math.floor(k / bands);
      out[i] = out[i]! + (sums[k]! * scale) / bands;
    }
    return out;
  };

  // Direct light by passes, until the first half of them agrees with the second.
  const level = new Float64Array(cells * bands);
  const slope = new Float64Array(cells * bands);
  const round = new Float64Array((p.water?.count ?? 0) * bands);
  let directVariance = new Float64Array(cells);
  let passes = 0;
  const directShare = sky ? 0 : settings.photons > 0 ? 0.5 : 1;
  if (split) {
    const gather = createGather(p, createDirect(p));
    const pass = new Float64Array(cells * bands);
    // Sums over the bands after every pass, so that both halves of the passes can be set against each other.
    const sums: Float64Array[] = [new Float64Array(cells)];
    for (;;) {
      pass.fill(0);
      for (let row = 0; row < p.rows; row++) {
        gather.groundRow(lamp, row, passes, pass, slope);
        yield (directShare * (passes + row / p.rows)) / MOST_PASSES;
      }
      addTo(level, pass);
      const sum = overBands(pass, 1);
      addTo(sum, sums[passes]!);
      sums.push(sum);
      passes++;
      if (passes % 2 !== 0) continue;
      const half = sums[passes / 2]!;
      directVariance = Float64Array.from(sum, (whole, i) => ((2 * half[i]! - whole) / passes) ** 2);
      if (passes >= MOST_PASSES || rms(directVariance, sum, passes) <= settings.directNoise) break;
    }
    const waterRows = p.water ? p.water.rows * p.water.layers : 0;
    for (let row = 0; row < waterRows; row++) {
      gather.waterRow(lamp, row, round);
      if (row % 8 === 0) yield (directShare * (passes + row / waterRows)) / (MOST_PASSES + 1);
    }
  }
  const perPass = passes > 0 ? 1 / passes : 0;

  // The rest by paths, in batches with seeds of their own: how work is cut up leaves no trace in the result.
  const tallies = createTallies(p);
  const batch = { ...tallies, level: new Float64Array(cells * bands), budget: tallies.budget.slice() };
  const tracers = p.groups.map((group) => createPaths(p, group, !split));
  const sum = new Float64Array(cells);
  const squares = new Float64Array(cells);
  const directMean = overBands(level, perPass);
  const wanted = Math.ceil(settings.photons / BATCH);
  const most = sky ? Math.max(FEWEST_DAYLIGHT, DAYLIGHT_PATHS * wanted) : wanted;
  let batches = 0;
  let variance = new Float64Array(cells);
  let total = Number.POSITIVE_INFINITY;
  let exchange = exchangeFor(p.columns, p.rows, sum, variance);
  const judge = (): void => {
    const scale = 1 / (BATCH * cellArea);
    const mean = Float64Array.from(sum, (value) => (value / batches) * scale);
    variance = varianceOfMean(sum, squares, batches).map((v) => v * scale * scale);
    if (settings.smooth) {
      exchange = exchangeFor(p.columns, p.rows, mean, variance);
      variance = Float64Array.from(smoothedVariance(variance, exchange));
    }
    const both = Float64Array.from(variance, (v, i) => v + directVariance[i]!);
    total = rms(
      both,
      Float64Array.from(mean, (v, i) => v + directMean[i]!),
      1,
    );
  };
  while (batches < most) {
    // Sums of a batch are small, so that rounding stays far below what the budget is held to.
    batch.level.fill(0);
    batch.budget.fill(0);
    for (const tracer of tracers) {
      tracer.run(lamp, BATCH, rapidRandom(settings.seed, lamp * LAMP_STRIDE + batches), batch);
      yield directShare + ((1 - directShare) * batches) / most;
    }
    batches++;
    overBands(batch.level, 1).forEach((value, i) => {
      sum[i] = sum[i]! + value;
      squares[i] = squares[i]! + value * value;
    });
    addTo(tallies.level, batch.level);
    addTo(tallies.budget, batch.budget);
    // Judged now and then, at counts that depend on nothing but the settings.
    if (batches === most || (settings.noise > 0 && batches >= FEWEST_BATCHES && batches % 4 === 0)) {
      if (batches >= 2) judge();
      if (settings.noise > 0 && batches >= FEWEST_BATCHES && total <= settings.noise) break;
    }
  }

  const paths = batches * BATCH;
  const perPath = paths > 0 ? 1 / paths : 0;
  const rest = (sums: Float64Array, b: number): Float64Array => smoothed(mapOf(sums, b, perPath / cellArea), exchange);
  const each = <T>(make: (b: number) => T): T[] => Array.from({ length: bands }, (_, b) => make(b));
  const plus = (a: Float64Array, b: Float64Array): Float64Array => a.map((value, i) => value + b[i]!);
  const diffuse = each((b) => rest(tallies.level, b));
  const open = openAreas(p);
  const volume = p.water ? p.water.stepX * p.water.stepY * p.water.stepZ : 1;
  const ground = each((b) => plus(mapOf(level, b, perPass), diffuse[b]!));
  const whole = new Float64Array(cells);
  for (const map of ground) for (let i = 0; i < cells; i++) whole[i] = whole[i]! + map[i]! / bands;
  return {
    ground,
    diffuse: split ? diffuse : [],
    slope: each((b) => plus(mapOf(slope, b, perPass), rest(tallies.ground, b)).map((value, i) => value / ratios[i]!)),
    water: p.water ? each((b) => plus(mapOf(round, b, 1), mapOf(tallies.water, b, perPath / volume))) : [],
    solids: each((b) => mapOf(tallies.solids, b, perPath).map((value, s) => (open[s]! > 0 ? value / open[s]! : 0))),
    budget: paths > 0 ? each((b) => budgetOf(tallies.budget, b, perPath)) : [],
    noise: {
      direct: rms(directVariance, whole, 1),
      diffuse: rms(variance, whole, 1),
      total: Math.hypot(rms(directVariance, whole, 1), rms(variance, whole, 1)),
    },
    paths,
  };
}

function addTo(sums: Float64Array, values: Float64Array): void {
  for (let k = 0; k < sums.length; k++) sums[k] = sums[k]! + values[k]!;
}

/** Variance of the mean of `count` values from their sums and sums of squares, cell by cell. */
function varianceOfMean(sum: Float64Array, squares: Float64Array, count: number): Float64Array<ArrayBuffer> {
  return Float64Array.from(sum, (s, i) => Math.max(0, squares[i]! - (s * s) / count) / (count * (count - 1)));
}

/** Root mean square of the standard errors over the mean of the map; 0 for a dark map. */
function rms(variance: Float64Array, sums: Float64Array, count: number): number {
  const mean = sums.reduce((a, b) => a + b, 0) / count / sums.length;
  return mean > 0 ? Math.sqrt(variance.reduce((a, b) => a + b, 0) / variance.length) / mean : 0;
}
