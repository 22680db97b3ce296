/** A glass box: sizes outside, with its water line. All lengths in m. */
export interface BoxInput {
  /** Outside, left to right. */
  readonly length: number;
  /** Outside, front to back. */
  readonly width: number;
  /** Outside. */
  readonly height: number;
  /** Thickness of the upright panes. */
  readonly glass: number;
  /** Thickness of the bottom pane. */
  readonly base: number;
  /** Water line below the upper edge of the glass. */
  readonly belowRim: number;
}

/** Where the bottom pane sits: below all four walls, or between them. */
export type BasePlace = "under" | "between";

/** Density of float glass, kg/m³. Source: float-glass. */
export const glassDensity = 2500;

export interface BoxSizes {
  /** Inside length, m. */
  readonly length: number;
  /** Inside width, m. */
  readonly width: number;
  /** From the floor to the upper edge of the glass, m. */
  readonly height: number;
  /** From the floor to the water line, m. */
  readonly waterDepth: number;
  /** Inside floor area, m². */
  readonly planArea: number;
  /** Outside sizes multiplied, as tanks are sold, m³. */
  readonly nominal: number;
  /** Inside, full to the edge, m³. */
  readonly brim: number;
  /** Inside, to the water line, m³. */
  readonly toWaterLine: number;
}

/**
 * Inside sizes and volumes of a glass box. The bottom pane's place does not change them.
 * @throws RangeError when the sizes leave no room inside.
 */
export function boxSizes(box: BoxInput): BoxSizes {
  const length = box.length - 2 * box.glass;
  const width = box.width - 2 * box.glass;
  const height = box.height - box.base;
  const waterDepth = height - box.belowRim;
  if (!(box.glass >= 0 && box.base >= 0 && box.belowRim >= 0))
    throw new RangeError("thickness and freeboard must not be negative");
  if (!(length > 0 && width > 0)) throw new RangeError("the panes leave no room inside");
  if (!(waterDepth > 0)) throw new RangeError("the water line lies below the floor");
  const planArea = length * width;
  return {
    length,
    width,
    height,
    waterDepth,
    planArea,
    nominal: box.length * box.width * box.height,
    brim: planArea * height,
    toWaterLine: planArea * waterDepth,
  };
}

/** Volume of glass in an open box of five panes, m³: front and back full length, sides between them. */
export function glassVolume(box: BoxInput, basePlace: BasePlace = "under"): number {
  const wall = basePlace === "under" ? box.height - box.base : box.height;
  const inner = box.width - 2 * box.glass;
  const walls = 2 * (box.length + inner) * wall * box.glass;
  const bottom =
    basePlace === "under" ? box.length * box.width * box.base : (box.length - 2 * box.glass) * inner * box.base;
  return walls + bottom;
}

/** Mass of glass in an open box of five panes without braces, kg. */
export function glassMass(box: BoxInput, basePlace: BasePlace = "under"): number {
  return glassVolume(box, basePlace) * glassDensity;
}
