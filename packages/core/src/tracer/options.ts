export interface TraceOptions {
  /** 32-bit integer; the same seed gives the same result. Default 1. */
  readonly seed?: number;
  /**
   * Most paths for each lamp (and each group of bands that scatter alike); 0 = direct light alone. Default 200 000.
   * Daylight, all of which comes by paths, takes four times as many, and some even at 0.
   */
  readonly photons?: number;
  /** Standard error of the map, as `Noise.total`, at which a lamp's paths may end early; 0 = never. Default 0. */
  readonly noise?: number;
  /** The same for the passes over the direct light. Default three quarters of `noise`, but at least 0.003. */
  readonly directNoise?: number;
  /** Whether the diffuse part of the ground's map is smoothed within its noise. Default true. */
  readonly smooth?: boolean;
  /** "split" = direct light by mirror images, the rest by paths; "forward" = everything by paths, as a check. */
  readonly mode?: "split" | "forward";
}

export type Settings = Required<TraceOptions>;

/** Finest that the direct light is taken without being asked. Design value. */
const DIRECT_NOISE = 0.003;
/** Most paths that may be asked for. */
const MOST = 1e9;

/** @throws RangeError for an option out of its range. */
export function settingsOf(options: TraceOptions): Settings {
  const { seed = 1, photons = 200_000, noise = 0, smooth = true, mode = "split" } = options;
  const { directNoise = Math.max(DIRECT_NOISE, 0.75 * noise) } = options;
  if (!(Number.isInteger(seed) && Math.abs(seed) <= 2 ** 32))
    throw new RangeError(`seed ${seed}: it must be an integer of 32 bits`);
  if (!(photons >= 0 && photons <= MOST)) throw new RangeError(`${photons} photons: 0 to ${MOST} are allowed`);
  if (!(noise >= 0 && noise <= 1)) throw new RangeError(`noise ${noise}: it must be 0 to 1`);
  if (!(directNoise > 0 && directNoise <= 1)) throw new RangeError(`direct noise ${directNoise}: above 0, at most 1`);
  if (mode !== "split" && mode !== "forward") throw new RangeError(`mode ${mode}: "split" or "forward"`);
  if (mode === "forward" && photons === 0) throw new RangeError("0 photons: a forward trace needs some");
  return { seed, photons, noise, directNoise, smooth: mode === "split" && smooth, mode };
}
