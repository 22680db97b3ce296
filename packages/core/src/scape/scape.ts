import {
  boxSizes,
  fieldFromCorners,
  fieldVolume,
  type HeightField,
  type Point2,
  type Volumes,
} from "../geometry/index.ts";
import { bedTops, boxOf, layerField, onFloor, type Plan, tankVolumes } from "../plan/index.ts";
import { type PlacedPiece, placedPieces } from "./pieces.ts";
import { type Zone, zonesOf } from "./zones.ts";

export interface ScapeLayer {
  readonly material: string;
  readonly top: HeightField;
  /** The area that it is limited to, m; null = the whole floor. */
  readonly within: readonly Point2[] | null;
  /** As laid, m³; what stands in it not taken off. */
  readonly volume: number;
}

/** A plan's scape in metres: x from the left pane, y from the front pane, z up from the inside floor. */
export interface Scape {
  readonly plan: Plan;
  /** Inside, m. */
  readonly length: number;
  readonly width: number;
  /** Floor to rim, and floor to water line, m. */
  readonly height: number;
  readonly waterDepth: number;
  /** From the bottom layer up. */
  readonly layers: readonly ScapeLayer[];
  /** Top of the bed; the bare floor where there is none. */
  readonly ground: HeightField;
  /** Lines along which something holds the bed up. */
  readonly edges: readonly (readonly Point2[])[];
  readonly pieces: readonly PlacedPiece[];
  readonly zones: readonly Zone[];
  readonly volumes: Volumes;
}

/** The scape of a resolved plan. */
export function scapeOf(plan: Plan): Scape {
  const { length, width, height, waterDepth } = boxSizes(boxOf(plan));
  const tops = bedTops(plan);
  const layers = plan.substrate.map(
    (layer, i): ScapeLayer => ({
      material: layer.material,
      top: tops[i]!,
      within: layer.within && onFloor(layer.within, length, width),
      volume: fieldVolume(layerField(layer, length, width)),
    }),
  );
  const bare = { frontLeft: 0, frontRight: 0, backLeft: 0, backRight: 0 };
  const ground = tops.at(-1) ?? fieldFromCorners({ length, width, columns: 2, rows: 2 }, bare);
  const pieces = placedPieces(plan, ground, waterDepth, height);
  return {
    plan,
    length,
    width,
    height,
    waterDepth,
    layers,
    ground,
    edges: plan.edges.map(({ line }) => onFloor(line, length, width)),
    pieces,
    zones: zonesOf(plan, pieces, length, width),
    volumes: tankVolumes(plan),
  };
}
