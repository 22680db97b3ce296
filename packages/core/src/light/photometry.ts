/** Measured intensities of a luminaire, as a photometric file holds them (ANSI/IES LM-63, type C). Source: lm-63 */
export interface Photometry {
  /** First line of the file, or the layout of 1986, which has none. */
  readonly layout: "1986" | "1991" | "1995" | "2002" | "2019";
  /** Keyword lines, `[MORE]` joined to the one before; of the layout of 1986 its free lines under the name "". */
  readonly keywords: ReadonlyMap<string, string>;
  readonly lamps: number;
  /** Rated lumens of one lamp, or null for absolute photometry. */
  readonly lumensPerLamp: number | null;
  /** Luminous opening, m; all 0 for a point. Files write round shapes with negative sizes. */
  readonly opening: {
    readonly width: number;
    readonly length: number;
    readonly height: number;
    readonly round: boolean;
  };
  readonly watts: number;
  /** Vertical angles, deg, rising: 0 straight down. */
  readonly vertical: readonly number[];
  /** Horizontal angles, deg, rising, as far as the symmetry needs. */
  readonly horizontal: readonly number[];
  readonly symmetry: "round" | "quarter" | "half" | "half across" | "none";
  /** Candela by horizontal, then vertical angle, all factors of the file applied. */
  readonly candela: readonly (readonly number[])[];
  /** How much the lamp gives when the luminaire is tilted, where the file says so. */
  readonly tilt: { readonly angles: readonly number[]; readonly factors: readonly number[] } | null;
}

/** Place of x among rising values: index of the lower neighbour and share of the upper one; null outside. */
function between(values: readonly number[], x: number): readonly [index: number, share: number] | null {
  if (values.length === 1) return [0, 0];
  if (!(x >= values[0]! && x <= values.at(-1)!)) return null;
  let low = 0;
  let high = values.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (values[middle]! <= x) low = middle;
    else high = middle;
  }
  return [low, (x - values[low]!) / (values[high]! - values[low]!)];
}

const fullTurn = (angle: number): number => ((angle % 360) + 360) % 360;

/** A horizontal angle brought to where the file holds it. */
function folded(symmetry: Photometry["symmetry"], horizontal: number): number {
  const h = fullTurn(horizontal);
  switch (symmetry) {
    case "round":
      return 0;
    case "none":
      return h;
    case "half":
      return h > 180 ? 360 - h : h;
    case "half across":
      return h < 90 || h > 270 ? fullTurn(180 - h) : h;
    case "quarter": {
      const half = h > 180 ? 360 - h : h;
      return half > 90 ? 180 - half : half;
    }
  }
}

/**
 * Luminous intensity in a direction, straight between the measured angles.
 * @param vertical deg, 0 straight down, 180 straight up; @param horizontal deg, any turn
 * @returns cd; 0 in a half-space that the file does not hold, for there the luminaire gives no light
 * @throws RangeError for angles that are not figures or a vertical one outside 0 to 180
 */
export function intensityAt(photometry: Photometry, vertical: number, horizontal: number): number {
  if (!(vertical >= 0 && vertical <= 180 && Number.isFinite(horizontal))) {
    throw new RangeError(
      `intensity: vertical ${vertical} deg, horizontal ${horizontal} deg; vertical must be 0 to 180 deg`,
    );
  }
  const v = between(photometry.vertical, vertical);
  const h = between(photometry.horizontal, folded(photometry.symmetry, horizontal));
  if (!v || !h) return 0;
  const along = (plane: readonly number[]): number => {
    const at = plane[v[0]]!;
    return v[1] > 0 ? at + v[1] * (plane[v[0] + 1]! - at) : at;
  };
  const here = along(photometry.candela[h[0]]!);
  return h[1] > 0 ? here + h[1] * (along(photometry.candela[h[0] + 1]!) - here) : here;
}

/**
 * Photon intensity in a direction. @param luxPerPhoton of the lamp's spectrum, lx per umol/m2/s
 * @returns umol/s/sr
 */
export const photonIntensityAt = (
  photometry: Photometry,
  vertical: number,
  horizontal: number,
  luxPerPhoton: number,
): number => intensityAt(photometry, vertical, horizontal) / luxPerPhoton;

/** Intensity at each vertical angle, mean over all horizontal ones, cd. */
export function meanCandela({ horizontal, vertical, candela }: Photometry): readonly number[] {
  if (horizontal.length === 1) return candela[0]!;
  const span = horizontal.at(-1)! - horizontal[0]!;
  return vertical.map((_, i) => {
    let sum = 0;
    for (let k = 1; k < horizontal.length; k += 1) {
      sum += 0.5 * (horizontal[k]! - horizontal[k - 1]!) * (candela[k - 1]![i]! + candela[k]![i]!);
    }
    return sum / span;
  });
}

/**
 * Luminous flux between two vertical angles: zones between the measured angles, each with the mean of its two edges,
 * which is exact for a matt emitter.
 * @param from @param to deg, 0 to 180; edges between measured angles take the interpolated intensity
 * @returns lm
 */
export function zonalFlux(photometry: Photometry, from = 0, to = 180): number {
  if (!(from >= 0 && to <= 180 && from <= to)) {
    throw new RangeError(`zone: ${from} to ${to} deg; allowed is a rising pair within 0 to 180 deg`);
  }
  const { vertical } = photometry;
  const mean = meanCandela(photometry);
  let flux = 0;
  for (let i = 1; i < vertical.length; i += 1) {
    const a = vertical[i - 1]!;
    const b = vertical[i]!;
    const low = Math.max(a, from);
    const high = Math.min(b, to);
    if (low >= high) continue;
    const at = (angle: number): number => mean[i - 1]! + ((mean[i]! - mean[i - 1]!) * (angle - a)) / (b - a);
    const solid = 2 * Math.PI * (Math.cos((low * Math.PI) / 180) - Math.cos((high * Math.PI) / 180));
    flux += (solid * (at(low) + at(high))) / 2;
  }
  return flux;
}

/** Photon flux of a luminaire, umol/s. @param luxPerPhoton of its spectrum, lx per umol/m2/s */
export const photonFluxOf = (photometry: Photometry, luxPerPhoton: number): number =>
  zonalFlux(photometry) / luxPerPhoton;

/** Flux of the file against the rating of its lamps: share that leaves the luminaire; null for absolute photometry. */
export const lightOutputRatio = (photometry: Photometry): number | null =>
  photometry.lumensPerLamp === null ? null : zonalFlux(photometry) / (photometry.lamps * photometry.lumensPerLamp);

/** Factor of a tilted luminaire, straight between the file's angles; 1 where it has none. @param angle deg */
export function tiltFactorAt({ tilt }: Photometry, angle: number): number {
  if (!tilt) return 1;
  const place = between(tilt.angles, Math.abs(angle));
  if (!place) {
    throw new RangeError(`tilt: ${angle} deg; the file holds ${tilt.angles[0]} to ${tilt.angles.at(-1)} deg`);
  }
  const at = tilt.factors[place[0]]!;
  return place[1] > 0 ? at + place[1] * (tilt.factors[place[0] + 1]! - at) : at;
}
