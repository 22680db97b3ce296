import type { Budget } from "./budget.ts";

/** What a lamp, or daylight on a side, of unit flux in every band gives. One array a band throughout. */
export interface LampField {
  /** What a level sensor on the ground reads, row by row from the front, 1/m2: flux per unit flux of the lamp. */
  readonly ground: readonly Float64Array[];
  /** The part of `ground` that met something matt before or was scattered; none after a forward trace or of daylight. */
  readonly diffuse: readonly Float64Array[];
  /** Flux on the ground's own slope per area of that slope, 1/m2. */
  readonly slope: readonly Float64Array[];
  /** Scalar irradiance in the cells of the water grid, 1/m2, what ground and solids fill counting as dark; none without. */
  readonly water: readonly Float64Array[];
  /** Mean flux on each solid per area that is not buried, 1/m2. */
  readonly solids: readonly Float64Array[];
  /** None where no paths were followed. */
  readonly budget: readonly Budget[];
  readonly noise: Noise;
  /** Paths followed, for each group of bands. */
  readonly paths: number;
}

/** Standard errors, root mean square over the cells of the ground, as shares of the map's mean (of all bands alike). */
export interface Noise {
  /** Of the direct light: half of what the first and the second half of its passes differ by. */
  readonly direct: number;
  /** Of the diffuse light, from how much batches of paths differ, after smoothing. */
  readonly diffuse: number;
  readonly total: number;
}

export interface TraceResult {
  readonly cells: {
    readonly columns: number;
    readonly rows: number;
    /** Middles, m: of the columns, of the rows. */
    readonly x: Float64Array;
    readonly y: Float64Array;
  };
  readonly bands: number;
  /** One field for each lamp, then one for each side that daylight falls on. */
  readonly lamps: readonly LampField[];
}

export type WeighedField = "ground" | "diffuse" | "slope" | "water" | "solids";

/**
 * One map from those of all lamps and bands: the sum of each times its weight. With photon fluxes in umol/s as weights
 * (dimmer x flux of the lamp x share of the band) it is in umol/m2/s.
 * @param weights lamp by lamp, band by band
 * @throws RangeError unless there is a finite weight for every lamp and band
 */
export function weigh(
  result: TraceResult,
  weights: readonly (readonly number[])[],
  field: WeighedField = "ground",
): Float64Array {
  if (weights.length !== result.lamps.length)
    throw new RangeError(`weights for ${weights.length} lamps: ${result.lamps.length} are needed`);
  const out = new Float64Array(result.lamps[0]?.[field][0]?.length ?? 0);
  result.lamps.forEach((lamp, k) => {
    const own = weights[k]!;
    if (own.length !== result.bands)
      throw new RangeError(`${own.length} weights for lamp ${k + 1}: ${result.bands} are needed, one a band`);
    own.forEach((weight, b) => {
      if (!Number.isFinite(weight)) throw new RangeError(`weight ${weight} of lamp ${k + 1}, band ${b + 1}: no number`);
      const map = lamp[field][b];
      if (!map || weight === 0) return;
      for (let i = 0; i < out.length; i++) out[i] = out[i]! + weight * map[i]!;
    });
  });
  return out;
}
