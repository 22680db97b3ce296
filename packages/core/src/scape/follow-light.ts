/** The light of a plan followed through its scape, for the day: what each lamp gives at full. */
import { type FollowedLight, lightKey, type Plan } from "../plan/index.ts";
import { createTrace, type TraceOptions, type TraceResult } from "../tracer/index.ts";
import { lampWeights } from "./lamp-weights.ts";
import { budgetOf, meterReads } from "./light-report.ts";
import { type LightScene, lightScene } from "./light-scene.ts";
import { type Scape, scapeOf } from "./scape.ts";
import { fieldsOf, zoneSamplers } from "./zone-light.ts";

export interface FollowOptions extends TraceOptions {
  /** Cells of the ground are about this wide, m; the drawing board's when left out. */
  readonly cell?: number;
}

/** Enough for a day: what is not known of lamps and leaves is many times this. Design values. */
export const dayQuality = { seed: 1, photons: 15_000, directNoise: 0.02, cell: 0.045 } as const satisfies FollowOptions;

/** A following in hand: worked on piece by piece, dropped by not going on. */
export interface LightFollowing {
  /** Does up to so many pieces of some milliseconds. */
  step(pieces?: number): { readonly share: number; readonly result: FollowedLight | null };
}

/**
 * Begins to follow the light of a plan.
 * @returns null where the plan has neither lamp nor daylight
 * @throws LampError for a photometric file that cannot be used
 */
export function followLight(plan: Plan, options: FollowOptions = dayQuality): LightFollowing | null {
  const scape = scapeOf(plan);
  const light = lightScene(scape, true, options.cell);
  if (!light) return null;
  const work = createTrace(light.scene, options);
  return {
    step(pieces = 1) {
      const { share, result } = work.step(pieces);
      return { share, result: result && followedLight(scape, light, result) };
    },
  };
}

/** The whole following at once. @returns null where the plan has neither lamp nor daylight. @throws LampError as `followLight` */
export function followedLightOf(plan: Plan, options?: FollowOptions): FollowedLight | null {
  const work = followLight(plan, options);
  if (!work) return null;
  for (;;) {
    const { result } = work.step(1000);
    if (result) return result;
  }
}

/** What each lamp gives at full, from a trace of a scape. */
function followedLight(scape: Scape, light: LightScene, result: TraceResult): FollowedLight {
  const only = (wanted: number | null) =>
    fieldsOf(
      result,
      lampWeights(light, (i) => (wanted === null || i === wanted ? 1 : 0)),
    );
  const zones = zoneSamplers(scape, light, result, only(null));
  const { leaves, ground, hardscape } = budgetOf(light, result);
  return {
    key: lightKey(scape.plan),
    lights: light.sources.map(({ index, photons, low, high, watts }) => {
      const fields = only(index);
      const plantings = zones.map((zone) => zone.mean(fields));
      return {
        meter: meterReads(scape, plantings, fields.ground),
        plantings,
        span: [low / photons, high / photons],
        watts,
      };
    }),
    arrives: leaves + ground + hardscape,
    noise: Math.max(...result.lamps.map((lamp) => lamp.noise.total)),
  };
}
