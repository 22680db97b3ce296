import { quantity as number, output, RelationError } from "../relation/index.ts";
import { type BoxInput, type BoxSizes, boxSizes } from "./box.ts";

export { number, output };

/** Inputs that describe the glass box. */
export const boxInputs = {
  length: number("outside length", "cm", 5, 1000),
  width: number("outside width, front to back", "cm", 5, 500),
  height: number("outside height", "cm", 5, 300),
  glass: number("glass thickness", "mm", 2, 60),
  base: number("bottom pane; 0 = as thick as the others", "mm", 0, 60, 0),
  below_rim: number("water line below the edge", "cm", 0, 100, 3),
} as const;

interface BoxValues {
  readonly length: number;
  readonly width: number;
  readonly height: number;
  readonly glass: number;
  readonly base: number;
  readonly below_rim: number;
}

/** The box of a relation's inputs, in m. */
export function boxOf(values: BoxValues): BoxInput {
  return {
    length: values.length / 100,
    width: values.width / 100,
    height: values.height / 100,
    glass: values.glass / 1000,
    base: (values.base > 0 ? values.base : values.glass) / 1000,
    belowRim: values.below_rim / 100,
  };
}

/** Sizes of a box, with a contradiction told as a fault of the relation `id`. */
export function sizesOf(id: string, box: BoxInput): BoxSizes {
  return telling(id, "below_rim", () => boxSizes(box));
}

/** Runs `work`, telling a RangeError as a fault of one input of the relation `id`. */
export function telling<T>(id: string, input: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new RelationError(id, [{ input, message: error.message }]);
  }
}

/** What stands in the tank, by mass and bulk volume. */
export const scapeInputs = {
  substrate: number("substrate, bulk", "L", 0, 10_000, 0),
  porosity: number("share of pores in the substrate", "%", 0, 95, 40),
  stone: number("stone", "kg", 0, 10_000, 0),
  stone_density: number("density of the stone", "kg/m3", 500, 5000, 2700),
  wood: number("wood, soaked", "kg", 0, 5000, 0),
  wood_density: number("density of the soaked wood", "kg/m3", 900, 1500, 1100),
} as const;
