/** Cells of the open water just above each planting: what tells the light that it gets. */
import { cellOverlaps, fieldHeight } from "../geometry/index.ts";
import type { Scape } from "./scape.ts";
import type { Zone } from "./zones.ts";

/** Even cells of the water, layers from below. */
export interface WaterCells {
  readonly columns: number;
  readonly rows: number;
  readonly layers: number;
}

export interface ZoneTop {
  /** Part of the planting under it, m². */
  readonly area: number;
  /** Middle seen from above, m. */
  readonly x: number;
  readonly y: number;
  /** Position in the grid of the water. */
  readonly cell: number;
}

/** The layer above a planting's leaves, cell by cell; the topmost layer where they reach it. */
export function zoneTops(scape: Scape, zone: Zone, { columns, rows, layers }: WaterCells): readonly ZoneTop[] {
  const { length, width, waterDepth } = scape;
  const areas = cellOverlaps(zone.outline, { length, width, columns: columns + 1, rows: rows + 1 });
  const piece = zone.on === null ? undefined : scape.pieces[zone.on];
  const top = piece ? topOf(piece.mesh.positions) : 0;
  const tops: ZoneTop[] = [];
  areas.forEach((area, i) => {
    if (!(area > 0)) return;
    const x = ((i % columns) + 0.5) * (length / columns);
    const y = (Math.floor(i / columns) + 0.5) * (width / rows);
    const foot = piece ? top : fieldHeight(scape.ground, x, y);
    const height = zone.afloat ? waterDepth : Math.min(waterDepth, foot + zone.planting.height.value);
    const layer = Math.min(layers - 1, Math.ceil((height / waterDepth) * layers));
    tops.push({ area, x, y, cell: layer * columns * rows + i });
  });
  return tops;
}

/** Height of the highest corner of a mesh, m. */
export function topOf(positions: Float64Array): number {
  let top = 0;
  for (let i = 2; i < positions.length; i += 3) top = Math.max(top, positions[i]!);
  return top;
}
