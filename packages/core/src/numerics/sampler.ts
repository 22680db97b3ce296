import type { Sampler } from "./ode.ts";

/**
 * A fixed output grid of `count` rows from `start` on, `interval` (> 0) apart.
 * A grid time at which one run ends and the next begins keeps the value before the jump between them. Grid times that
 * lie before the first run are filled with NaN.
 * @param width numbers per row: states plus flows.
 */
export function createSampler(width: number, start: number, interval: number, count: number): Sampler {
  if (!(interval > 0)) throw new RangeError(`sampler interval must be above zero, not ${interval}`);
  return { start, interval, count, width, rows: new Float64Array(count * width), filled: 0 };
}
