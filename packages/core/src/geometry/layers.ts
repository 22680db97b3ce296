import { aboveLevel, type Corners, heightAt, meanHeight } from "./bilinear.ts";

/** One layer of substrate: its own thickness at the four corners (m), straight between them. */
export interface LayerInput extends Corners {
  /** Share of the bed's volume between the grains (or open to water within them), 0..1. */
  readonly porosity: number;
  /** kg/m³ of the grains. */
  readonly grainDensity: number;
  /** Mass of dry substrate per volume of bed, kg/m³. */
  readonly bulkDensity: number;
}

/** @throws RangeError for a negative thickness or a porosity outside 0..1. */
export function checkLayer(layer: LayerInput): void {
  const thinnest = Math.min(layer.frontLeft, layer.frontRight, layer.backLeft, layer.backRight);
  if (!(thinnest >= 0)) throw new RangeError("a layer cannot be thinner than nothing");
  if (!(layer.porosity >= 0 && layer.porosity <= 1)) throw new RangeError("the porosity must be 0 to 1");
  if (!(layer.grainDensity > 0 && layer.bulkDensity > 0)) throw new RangeError("densities must be above 0");
}

/** Upper surface of each layer of a stack, from the bottom layer up, as heights above the floor (m). */
export function layerTops(layers: readonly Corners[]): readonly Corners[] {
  let below: Corners = { frontLeft: 0, frontRight: 0, backLeft: 0, backRight: 0 };
  return layers.map((layer) => {
    below = {
      frontLeft: below.frontLeft + layer.frontLeft,
      frontRight: below.frontRight + layer.frontRight,
      backLeft: below.backLeft + layer.backLeft,
      backRight: below.backRight + layer.backRight,
    };
    return below;
  });
}

/** Upper surface of a whole stack; the floor when there is no layer. */
export function bedSurface(layers: readonly Corners[]): Corners {
  return layerTops(layers).at(-1) ?? { frontLeft: 0, frontRight: 0, backLeft: 0, backRight: 0 };
}

/**
 * Height of a stack above the floor, m, at fractions of the inside: `x` 0 left to 1 right, `z` 0 front to 1 back.
 * `upTo` counts the layers taken from the bottom; all of them by default.
 */
export function surfaceHeight(layers: readonly Corners[], x: number, z: number, upTo = layers.length): number {
  let height = 0;
  for (const layer of layers.slice(0, upTo)) height += heightAt(layer, x, z);
  return height;
}

/** Bulk volume of each layer below `level` m above the floor, m³, over a floor of `planArea` m². */
export function volumesBelow(layers: readonly Corners[], planArea: number, level: number): readonly number[] {
  let under = 0;
  return layerTops(layers).map((top) => {
    const upToTop = planArea * (meanHeight(top) - aboveLevel(top, level).mean);
    const own = upToTop - under;
    under = upToTop;
    return own;
  });
}
