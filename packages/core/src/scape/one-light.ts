import { fullHoursOf, type PlanLight, peakOf } from "../plan/index.ts";
import type { TraceResult } from "../tracer/index.ts";
import { lampWeights } from "./lamp-weights.ts";
import type { LightScene } from "./light-scene.ts";
import { fieldsOf, type ZoneSampler } from "./zone-light.ts";

/** What one light gives at full strength, the owner's reading counted in. */
export interface OneLight extends Pick<PlanLight, "lamp" | "channel"> {
  /** Its light as typed: 6500 K, deep red; daylight. */
  readonly name: string;
  /** The greatest strength of its day, and the hours at full that its day is worth, both before the dimmers. */
  readonly peak: number;
  readonly fullHours: number;
  /** On the ground, umol/m2/s, row by row from the front. */
  readonly ground: Float64Array;
  /** At the top of each planting, umol/m2/s. */
  readonly zones: readonly number[];
}

export function oneLights(
  light: LightScene,
  result: TraceResult,
  samplers: readonly ZoneSampler[],
  scale: (index: number) => number,
): readonly OneLight[] {
  return light.sources.map(({ index, lamp, channel, name, programme }): OneLight => {
    const fields = fieldsOf(
      result,
      lampWeights(light, (i) => (i === index ? scale(i) : 0)),
    );
    return {
      lamp,
      channel,
      name,
      peak: peakOf(programme),
      fullHours: fullHoursOf(programme),
      ground: fields.ground,
      zones: samplers.map((zone) => zone.mean(fields)),
    };
  });
}
