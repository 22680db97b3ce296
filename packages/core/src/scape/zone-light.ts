/** Light at the top of plantings: which cells of a trace tell it, and how much of each planting lies under them. */
import { type TraceResult, weigh } from "../tracer/index.ts";
import type { LightScene } from "./light-scene.ts";
import type { Scape } from "./scape.ts";
import { zoneTops } from "./zone-tops.ts";

/** Maps of one weighing of the lamps. */
export interface LightFields {
  /** On the ground, umol/m2/s on a level sensor. */
  readonly ground: Float64Array;
  /** Light from all sides in the cells of the water, umol/m2/s. */
  readonly water: Float64Array;
}

/**
 * Light from all sides over that on a level sensor, in open tank water under lamps: 1.12 in a traced reference scene of a
 * bare box.
 */
const roundToLevel = 1.12;

interface Place {
  readonly area: number;
  /** Cell of the water that tells the light, or of the ground. */
  readonly cell: number;
  readonly of: keyof LightFields;
}

/** One planting, ready to be asked under any weighing of the lamps: its answer goes with the lamps in proportion. */
export interface ZoneSampler {
  /** Position in the plan's list. */
  readonly index: number;
  /** Mean over its area, umol/m2/s. */
  mean(fields: LightFields): number;
  /** Light that this share of its area stays under, umol/m2/s. @param share 0 to 1 */
  under(fields: LightFields, share: number): number;
}

const told = (fields: LightFields, { of, cell }: Place): number =>
  of === "water" ? fields.water[cell]! / roundToLevel : fields.ground[cell]!;

export function fieldsOf(result: TraceResult, weights: readonly (readonly number[])[]): LightFields {
  return { ground: weigh(result, weights), water: weigh(result, weights, "water") };
}

/**
 * The plantings of a scape. Each is read in the open water of the layer above its leaves, brought to a level sensor; where
 * no whole layer of water is left above them, or stones fill it, on the ground beneath.
 * @param deciding maps by which the brighter of the two is found, once: all lamps at full
 */
export function zoneSamplers(
  scape: Scape,
  { scene }: LightScene,
  { cells }: TraceResult,
  deciding: LightFields,
): readonly ZoneSampler[] {
  const { length, width } = scape;
  return scape.zones.map((zone): ZoneSampler => {
    const places = zoneTops(scape, zone, scene.water!).map(({ area, x, y, cell }): Place => {
      const column = Math.min(cells.columns - 1, Math.floor((x / length) * cells.columns));
      const row = Math.min(cells.rows - 1, Math.floor((y / width) * cells.rows));
      const above: Place = { area, cell, of: "water" };
      const beneath: Place = { area, cell: row * cells.columns + column, of: "ground" };
      return told(deciding, above) > told(deciding, beneath) ? above : beneath;
    });
    const all = places.reduce((sum, p) => sum + p.area, 0);
    return {
      index: zone.index,
      mean: (fields) => (all > 0 ? places.reduce((sum, p) => sum + told(fields, p) * p.area, 0) / all : 0),
      under(fields, share) {
        const sorted = places.map((p) => ({ area: p.area, light: told(fields, p) })).sort((a, b) => a.light - b.light);
        let passed = 0;
        for (const { area, light } of sorted) {
          passed += area;
          if (passed >= share * all) return light;
        }
        return sorted.at(-1)?.light ?? 0;
      },
    };
  });
}
