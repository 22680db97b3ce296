/** Heating and cooling of a body of water whose loss is a plain conductance (W/K) to a room: closed forms. */

export interface SimpleWarmUp {
  /** Time constant, s; infinite without loss. */
  readonly timeConstant: number;
  /** Temperature it tends to, °C; infinite without loss. */
  readonly limit: number;
  /** Seconds from start to target; infinite when the target is beyond the limit. */
  readonly time: number;
}

/**
 * Time from `start` to `target` (°C), up or down, of a heat capacity (J/K) under `heat` W and a loss of `conductance`
 * W/K to a room at `room` °C.
 */
export function simpleWarmUp(
  capacity: number,
  conductance: number,
  heat: number,
  room: number,
  start: number,
  target: number,
): SimpleWarmUp {
  if (conductance === 0) {
    const time = (capacity * (target - start)) / heat;
    return {
      timeConstant: Number.POSITIVE_INFINITY,
      limit: Number.POSITIVE_INFINITY,
      time: target === start ? 0 : time >= 0 ? time : Number.POSITIVE_INFINITY,
    };
  }
  const timeConstant = capacity / conductance;
  const limit = room + heat / conductance;
  const left = (limit - target) / (limit - start);
  let time = Number.POSITIVE_INFINITY;
  if (target === start) time = 0;
  else if (left > 0 && left <= 1) time = -timeConstant * Math.log(left);
  return { timeConstant, limit, time };
}

/** Rate of warming of a heat capacity (J/K) under `heat` W without loss, K/s. */
export function warmingRate(capacity: number, heat: number): number {
  return heat / capacity;
}
