/**
 * The acids of a water with constants that already hold activity and pairs. `h` below is the hydrogen variable
 * (an activity where the constants are conditional on one, else mol/kg).
 */
export interface AcidSystem {
  /** Dissolved inorganic carbon, mol/kg, at least 0. */
  dic: number;
  /** h HCO3 / CO2. */
  k1: number;
  /** h CO3 / HCO3. */
  k2: number;
  /** h OH. */
  kw: number;
  /** Free hydrogen per h. */
  hydrogen: number;
  /** Total boron, mol/kg, and h B(OH)4 / B(OH)3. */
  boron: number;
  kBoric: number;
  /** Total ammonium and ammonia, mol/kg, and h NH3 / NH4. */
  ammonium: number;
  kAmmonium: number;
  /** Total phosphate, mol/kg; PO4 h / HPO4; H2PO4 / (HPO4 h); H3PO4 / (HPO4 h²). */
  phosphate: number;
  kPO4: number;
  kH2PO4: number;
  kH3PO4: number;
  /** Total sulfate, mol/kg, and HSO4 / (SO4 h). */
  sulfate: number;
  kHSO4: number;
}

/** An acid system that holds nothing yet. */
export function noAcids(): AcidSystem {
  return {
    dic: 0,
    k1: 0,
    k2: 0,
    kw: 0,
    hydrogen: 1,
    boron: 0,
    kBoric: 0,
    ammonium: 0,
    kAmmonium: 0,
    phosphate: 0,
    kPO4: 0,
    kH2PO4: 0,
    kH3PO4: 0,
    sulfate: 0,
    kHSO4: 0,
  };
}

/** How a root was found. */
export interface HydrogenRoot {
  h: number;
  evaluations: number;
}

/**
 * Lower and upper limits of h between which the root must lie (source munhoven-2013): all that is not water itself can
 * hold alkalinity only between `-PO4 - SO4` and `2 DIC + B + 2 PO4 + NH4`.
 */
function limit(excess: number, kw: number, hydrogen: number): number {
  const root = Math.sqrt(excess * excess + 4 * kw * hydrogen);
  return excess >= 0 ? (2 * kw) / (excess + root) : (root - excess) / (2 * hydrogen);
}

/** First guess of h from the carbonate part alone. */
function firstGuess(alk: number, s: AcidSystem): number {
  const { dic, k1, k2 } = s;
  if (alk > 0 && alk < 2 * dic) {
    const middle = k1 * (dic - alk);
    const root = Math.sqrt(middle * middle + 4 * alk * k1 * k2 * (2 * dic - alk));
    return middle >= 0 ? (middle + root) / (2 * alk) : (2 * k1 * k2 * (2 * dic - alk)) / (root - middle);
  }
  return alk > 0 ? limit(alk - 2 * dic, s.kw, s.hydrogen) : limit(alk, s.kw + k1 * dic, s.hydrogen);
}

/**
 * Solves alkalinity(h) = `alk` by Newton's rule on ln h inside a bracket that always holds the one root (source
 * munhoven-2013); a step that leaves the bracket or helps too little is replaced by halving it.
 * @param alk eq/kg, any sign.
 * @param tolerance relative change of h at which to stop.
 * @param out receives h and the number of evaluations.
 */
export function hydrogenRoot(alk: number, s: AcidSystem, tolerance: number, out: HydrogenRoot): void {
  let low = limit(alk + s.phosphate + s.sulfate, s.kw, s.hydrogen);
  let high = limit(alk - 2 * s.dic - s.boron - 2 * s.phosphate - s.ammonium, s.kw, s.hydrogen);
  let h = firstGuess(alk, s);
  if (!(h > low && h < high)) h = Math.sqrt(low * high);
  let best = Number.POSITIVE_INFINITY;
  let evaluations = 0;
  for (; evaluations < 200; ) {
    evaluations++;
    const q = s.dic / (h * h + s.k1 * h + s.k1 * s.k2);
    const co2 = q * h * h;
    const b = q * s.k1 * h;
    const c = q * s.k1 * s.k2;
    const oh = s.kw / h;
    const free = h * s.hydrogen;
    let value = b + 2 * c + oh - free - alk;
    let slope = -oh - free;
    if (s.dic > 0) slope -= (co2 * (b + 4 * c) + b * c) / s.dic;
    if (s.boron > 0) {
      const share = s.kBoric / (s.kBoric + h);
      value += s.boron * share;
      slope -= s.boron * share * (1 - share);
    }
    if (s.ammonium > 0) {
      const share = s.kAmmonium / (s.kAmmonium + h);
      value += s.ammonium * share;
      slope -= s.ammonium * share * (1 - share);
    }
    if (s.phosphate > 0) {
      const p3 = s.kPO4 / h;
      const p1 = s.kH2PO4 * h;
      const p0 = s.kH3PO4 * h * h;
      const sum = 1 + p3 + p1 + p0;
      const mean = (1 + 2 * p3 - p0) / sum;
      value += s.phosphate * mean;
      slope -= s.phosphate * ((1 + 4 * p3 + p0) / sum - mean * mean);
    }
    if (s.sulfate > 0) {
      const share = (s.kHSO4 * h) / (1 + s.kHSO4 * h);
      value -= s.sulfate * share;
      slope -= s.sulfate * share * (1 - share);
    }
    if (value === 0) break;
    if (value > 0) low = h;
    else high = h;
    const step = -value / slope;
    const size = Math.abs(value);
    if (Math.abs(step) <= tolerance) {
      h *= 1 + step;
      break;
    }
    const newton = h * Math.exp(step);
    const middle = Math.sqrt(low * high);
    const next = size > 0.5 * best || !(newton >= low && newton <= high) ? middle : newton;
    best = Math.min(best, size);
    if (Math.abs(next - h) <= tolerance * h) {
      h = next;
      break;
    }
    h = next;
  }
  out.h = h;
  out.evaluations = evaluations;
}
