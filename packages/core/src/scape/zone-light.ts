/** Light at the top of plantings: which cells of a trace tell it, and how much of each planting lies under them. */
import { cellOverlaps, fieldHeight } from "../geometry/index.ts";
import { type TraceResult, weigh } from "../tracer/index.ts";
import type { LightScene } from "./light-scene.ts";
import type { Scape } from "./scape.ts";

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
  const { columns, rows, layers } = scene.water!;
  const { length, width, waterDepth } = scape;
  return scape.zones.map((zone): ZoneSampler => {
    const areas = cellOverlaps(zone.outline, { length, width, columns: columns + 1, rows: rows + 1 });
    const piece = zone.on === null ? undefined : scape.pieces[zone.on];
    const top = piece ? topOf(piece.mesh.positions) : 0;
    const places: Place[] = [];
    areas.forEach((area, i) => {
      if (!(area > 0)) return;
      const x = ((i % columns) + 0.5) * (length / columns);
      const y = (Math.floor(i / columns) + 0.5) * (width / rows);
      const foot = piece ? top : fieldHeight(scape.ground, x, y);
      const height = zone.afloat ? waterDepth : Math.min(waterDepth, foot + zone.planting.height.value);
      const layer = Math.min(layers - 1, Math.ceil((height / waterDepth) * layers));
      const column = Math.min(cells.columns - 1, Math.floor((x / length) * cells.columns));
      const row = Math.min(cells.rows - 1, Math.floor((y / width) * cells.rows));
      const above: Place = { area, cell: layer * columns * rows + i, of: "water" };
      const beneath: Place = { area, cell: row * cells.columns + column, of: "ground" };
      places.push(told(deciding, above) > told(deciding, beneath) ? above : beneath);
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

function topOf(positions: Float64Array): number {
  let top = 0;
  for (let i = 2; i < positions.length; i += 3) top = Math.max(top, positions[i]!);
  return top;
}
