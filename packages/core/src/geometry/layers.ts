import type { Corners } from "./bilinear.ts";
import type { HeightField } from "./height-field.ts";
import { fieldFromCorners, sumFields } from "./height-field-make.ts";
import { fieldAtLevel } from "./height-field-measure.ts";

/** How a bed of one material packs. */
export interface Packing {
  /** Share of the bed's volume between the grains (or open to water within them), 0..1. */
  readonly porosity: number;
  /** kg/m³ of the grains. */
  readonly grainDensity: number;
  /** Mass of dry substrate per volume of bed, kg/m³. */
  readonly bulkDensity: number;
}

/** One layer of substrate: its own thickness at the four corners (m), straight between them, or over a grid. */
export type LayerInput = Packing & (Corners | { readonly thickness: HeightField });

/** @throws RangeError for a negative thickness or a porosity outside 0..1. */
function checkLayer(layer: LayerInput): void {
  if (!("thickness" in layer)) {
    const thinnest = Math.min(layer.frontLeft, layer.frontRight, layer.backLeft, layer.backRight);
    if (!(thinnest >= 0)) throw new RangeError("a layer cannot be thinner than nothing");
  }
  if (!(layer.porosity >= 0 && layer.porosity <= 1)) throw new RangeError("the porosity must be 0 to 1");
  if (!(layer.grainDensity > 0 && layer.bulkDensity > 0)) throw new RangeError("densities must be above 0");
}

/** Thickness of a layer over an inside of `length` by `width` m. @throws RangeError as `checkLayer` and for a bad grid. */
export function layerThickness(layer: LayerInput, length: number, width: number): HeightField {
  checkLayer(layer);
  return "thickness" in layer ? layer.thickness : fieldFromCorners({ length, width, columns: 2, rows: 2 }, layer);
}

/** Upper surface of each layer of a stack, from the bottom layer up, as heights above the floor (m). */
export function layerTops(thicknesses: readonly HeightField[]): readonly HeightField[] {
  return thicknesses.map((_, i) => sumFields(thicknesses.slice(0, i + 1)));
}

/** Bulk volume of each layer below `level` m above the floor, m³, from the layers' upper surfaces. */
export function volumesBelow(tops: readonly HeightField[], level: number): readonly number[] {
  let under = 0;
  return tops.map((top) => {
    const upToTop = fieldAtLevel(top, level).below;
    const own = upToTop - under;
    under = upToTop;
    return own;
  });
}
