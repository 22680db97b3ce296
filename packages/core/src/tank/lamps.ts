import { type PlanLight, type Programme, type Stretch, stretchesOf } from "../plan/index.ts";

/** Seconds. */
const hour = 3600;

/** A source of light as the day knows it: a lamp, one of its channels, or daylight. */
export interface DayLamp extends Pick<PlanLight, "lamp" | "part" | "brightest"> {
  /** Stretches in which it shines, in order; dark between them. */
  readonly day: readonly Stretch[];
  /** What a level meter on the carpet reads with it at full, umol/m2/s. */
  readonly meter: number;
  /** Heat that it brings into the water at full, W. */
  readonly heat: number;
}

/** The stretches of a programme as a dimmer leaves them. @param strength share of full */
export const dayOf = (programme: Programme, strength: number): readonly Stretch[] =>
  stretchesOf(programme).map((s) => ({ ...s, first: s.first * strength, last: s.last * strength }));

/** Hours at full strength that give the same photons, a day. */
export function fullHoursOf(day: readonly Stretch[]): number {
  return day.reduce((sum, s) => sum + ((s.first + s.last) / 2) * (s.to - s.from), 0);
}

/** Strengths of lamps through the day, for a process: their edges stop the integration, between them all is straight. */
export interface LampClock {
  /** @param middle of the stretch that comes next, seconds since the first midnight */
  begin(middle: number): void;
  /** Strength of each lamp, share of full. The array is reused. @param t seconds since the first midnight */
  at(t: number): Float64Array;
  /** Whether any lamp is on. */
  lit(): boolean;
}

export function lampClock(lamps: readonly DayLamp[]): LampClock {
  const shares = new Float64Array(lamps.length);
  const level = new Float64Array(lamps.length);
  const slope = new Float64Array(lamps.length);
  let anyLit = false;
  let zero = 0;
  return {
    begin(middle) {
      const h = (((middle / hour) % 24) + 24) % 24;
      zero = middle;
      anyLit = false;
      lamps.forEach(({ day }, k) => {
        level[k] = 0;
        slope[k] = 0;
        for (const s of day) {
          const since = (((h - s.from) % 24) + 24) % 24;
          if (since >= s.to - s.from) continue;
          anyLit = true;
          slope[k] = (s.last - s.first) / (s.to - s.from) / hour;
          level[k] = s.first + slope[k]! * since * hour;
          break;
        }
      });
    },
    at(t) {
      for (let k = 0; k < shares.length; k += 1) shares[k] = Math.max(0, level[k]! + slope[k]! * (t - zero));
      return shares;
    },
    lit: () => anyLit,
  };
}

/** Hours at which any lamp's straight line bends. */
export const lampEdges = (lamps: readonly DayLamp[]): readonly number[] =>
  lamps.flatMap(({ day }) => day.flatMap((s) => [s.from, s.to]));
