import { findSubstrate } from "../facts/index.ts";
import {
  type BoxInput,
  boxSizes,
  cellOverlaps,
  type FieldGrid,
  fieldFrom,
  fieldFromCorners,
  fieldFromRows,
  fieldHeight,
  type HeightField,
  layerTops,
  type Point2,
  type Volumes,
  volumes,
} from "../geometry/index.ts";
import { pieceDensity, pieceStanding, sharesOf } from "./pieces.ts";
import type { FloorPoint, LayerPlan, Plan } from "./plan.ts";

/** The glass box of a plan, m. */
export function boxOf({ tank }: Pick<Plan, "tank">): BoxInput {
  return {
    length: tank.length.value,
    width: tank.width.value,
    height: tank.height.value,
    glass: tank.glass.value,
    base: tank.base.value,
    belowRim: tank.belowRim.value,
  };
}

/** Shares of the floor as metres from the left and front panes. */
export function onFloor(points: readonly FloorPoint[], length: number, width: number): readonly Point2[] {
  return points.map(([x, y]) => [x * length, y * width] as const);
}

/** Cells a side on which a layer of limited area is laid: its rim is blurred over one of them. */
const rimCells = 64;

/**
 * Thickness of one layer over an inside of `length` by `width` m. A layer limited to an area has its own depth within it
 * and nothing outside; at the rim each node has the share that lies within.
 */
export function layerField(layer: LayerPlan, length: number, width: number): HeightField {
  const whole = layer.heights
    ? fieldFromRows(length, width, layer.heights)
    : fieldFromCorners(
        { length, width, columns: 2, rows: 2 },
        {
          frontLeft: layer.frontLeft.value,
          frontRight: layer.frontRight.value,
          backLeft: layer.backLeft.value,
          backRight: layer.backRight.value,
        },
      );
  if (!layer.within) return whole;
  const grid: FieldGrid = { length, width, columns: rimCells + 1, rows: rimCells + 1 };
  const areas = cellOverlaps(onFloor(layer.within, length, width), grid);
  const cellArea = (length * width) / rimCells ** 2;
  return fieldFrom(grid, (x, y) => {
    const column = Math.round((x / length) * rimCells);
    const row = Math.round((y / width) * rimCells);
    let area = 0;
    let cells = 0;
    for (const j of [row - 1, row]) {
      for (const i of [column - 1, column]) {
        if (i < 0 || j < 0 || i >= rimCells || j >= rimCells) continue;
        area += areas[j * rimCells + i]!;
        cells += 1;
      }
    }
    return (fieldHeight(whole, x, y) * area) / (cells * cellArea);
  });
}

/** Upper surface of each layer of the bed, from the bottom layer up. */
export function bedTops(plan: Pick<Plan, "tank" | "substrate">): readonly HeightField[] {
  const { length, width } = boxSizes(boxOf(plan));
  return layerTops(plan.substrate.map((layer) => layerField(layer, length, width)));
}

const bare = { frontLeft: 0, frontRight: 0, backLeft: 0, backRight: 0 };

/**
 * Volumes, depths and masses of a plan's tank, bed, stones and wood.
 * @throws RangeError when they leave no room for water (a resolved plan does not)
 */
export function tankVolumes(plan: Plan): Volumes {
  const box = boxOf(plan);
  const { length, width, waterDepth } = boxSizes(box);
  const ground = bedTops(plan).at(-1) ?? fieldFromCorners({ length, width, columns: 2, rows: 2 }, bare);
  return volumes({
    box,
    layers: plan.substrate.map((layer) => {
      const material = findSubstrate(layer.material)!;
      return {
        thickness: layerField(layer, length, width),
        porosity: material.porosity.value,
        grainDensity: material.solidDensity.value,
        bulkDensity: material.bulkDensity.value,
      };
    }),
    solids: plan.hardscape.map((piece) => {
      const { shareUnderWater, shareInBed } = sharesOf(pieceStanding(piece, ground).mesh, ground, waterDepth);
      return { mass: piece.mass.value, density: pieceDensity(piece), shareUnderWater, shareInBed };
    }),
  });
}
