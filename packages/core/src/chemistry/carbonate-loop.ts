import { ChemistryError } from "./chemistry-error.ts";
import { ConditionalConstants, constantCount, position, temperatureSet } from "./conditional-constants.ts";
import { type AcidSystem, hydrogenRoot, noAcids } from "./hydrogen-root.ts";
import { smallExp, smoothExp } from "./small-exp.ts";
import { createSpeciator, type Speciator } from "./speciator.ts";
import { speciesIndex, type TotalName, totalNames, type WaterTotals } from "./species.ts";

/** Half the span over which constants are fitted in temperature, K. */
const span = 5;
/** Share of the root of the ionic strength over which its effect is fitted. */
const strengthSpan = 0.15;
/** A total below this, mol/kg, is passed over. */
const trace = 1e-20;
/** Carbon is taken as at least this, mol/kg, so that a spent water still has an answer. */
const leastCarbon = 1e-13;
/**
 * Changes that end the iteration. What is left after them is smaller by an order or two: Newton's next step is the square
 * of the last, and √I ((mol/kg)^0.5) and free sulfate and phosphate (relative) act on pH only through activity and pairs.
 */
const closeStep = 1e-5;
const stillRoot = 3e-8;
const stillLigand = 3e-7;
const sixth = 1 / 6;
const twentyFourth = 1 / 24;
const longestStep = 1.5;
const mostPasses = 60;

const p = position;

/** e^x for the small effect of a change of ionic strength. */
function strengthSeries(e: number): number {
  return 1 + e * (1 + e * (0.5 + e * (sixth + e * twentyFourth)));
}

/** Positions in the state array: the unknowns of the last answer, and what they were reached with. */
const H = 0;
const B = 1;
const S = 2;
const F = 3;
const ROOT = 4;
const TEMPERATURE = 5;
/** Changes of S and F in the last settling. */
const MOVED = 6;
/** Reference temperature and √I, and the part of twice I that stays fixed. */
const REF_TEMPERATURE = 7;
const REF_ROOT = 8;
const FIXED = 9;
/** Arguments and the sum of charges, passed through the array so that no number is boxed. */
const ALK = 10;
const DIC = 11;
const TWICE = 12;
/** √I less the reference's at which the constants of the last temperature were set. */
const BASE_ROOT = 13;

/** Positions in the result array. */
const PH = 0;
const CO2 = 1;
const HCO3 = 2;
const CO3 = 3;
const PASSES = 4;

/**
 * The carbonate system inside a simulation. Conditional constants are fitted about one reference water, as quadratics of
 * temperature and of the root of the ionic strength, so that a call costs well under a microsecond, allocates nothing and
 * starts from the last answer. Answers are smooth in the arguments and agree with the full speciation within 0.002 pH
 * and 0.3 % CO2 for DIC of 0.2 to 5 times and temperatures within 5 K of the reference, at unchanged totals. Set a new
 * reference when the totals have drifted (source pb82, wq4f).
 */
export class CarbonateLoop {
  readonly #speciator: Speciator = createSpeciator();
  readonly #constants = new ConditionalConstants();
  /** Fits by position: value, slope and curve in temperature of ln K; slope and curve in √I. */
  readonly #value = new Float64Array(constantCount);
  readonly #slope = new Float64Array(constantCount);
  readonly #curve = new Float64Array(constantCount);
  readonly #rootSlope = new Float64Array(constantCount);
  readonly #rootCurve = new Float64Array(constantCount);
  /** Constants at the last temperature, at the √I it was set at. */
  readonly #base = new Float64Array(constantCount);
  /** Constants at the temperature and ionic strength in hand. */
  readonly #k = new Float64Array(constantCount);
  /** The positions this water needs: from, and up to but not including. */
  #from = 0;
  #to = constantCount;
  readonly #state = new Float64Array(14);
  readonly #result = new Float64Array(5);
  readonly #acids: AcidSystem = noAcids();
  readonly #root = { h: 0, evaluations: 0 };
  #totals: WaterTotals;

  /** As `reference`. */
  constructor(totals: WaterTotals, alk: number, dic: number, temperature: number) {
    this.#totals = totals;
    this.reference(totals, alk, dic, temperature);
  }

  /** -log10 of the hydrogen activity, of the last `solve`. */
  get ph(): number {
    return this.#result[PH]!;
  }
  /** Dissolved CO2, mol/kg. */
  get co2(): number {
    return this.#result[CO2]!;
  }
  /** Free HCO3, mol/kg. */
  get hco3(): number {
    return this.#result[HCO3]!;
  }
  /** Free CO3, mol/kg. */
  get co3(): number {
    return this.#result[CO3]!;
  }
  /** Passes of Newton's rule in the last `solve`. */
  get iterations(): number {
    return this.#result[PASSES]!;
  }

  /**
   * Fits the constants afresh about a water and solves it.
   * @param totals mol/kg.
   * @param alk eq/kg.
   * @param dic mol/kg.
   * @param temperature °C, 1 to 60.
   * @throws ChemistryError as the speciator does.
   */
  reference(totals: WaterTotals, alk: number, dic: number, temperature: number): void {
    if (!(temperature >= 1 && temperature <= 60)) {
      throw new ChemistryError("bad-input", "temperature", `${temperature} °C must lie in 1 to 60 °C`);
    }
    const full = this.#speciator;
    const carbon = Math.max(dic, leastCarbon);
    full.solve(totals, temperature, "dic-alk", carbon, alk);
    this.#totals = Object.fromEntries(totalNames.map((n) => [n, totals[n] > trace ? totals[n] : 0])) as Record<
      TotalName,
      number
    >;
    const strength = full.ionicStrength;
    this.#fit(temperature, strength);

    const state = this.#state;
    state[REF_TEMPERATURE] = temperature;
    state[REF_ROOT] = Math.sqrt(strength);
    state[H] = 10 ** -full.ph;
    state[B] = full.molality[speciesIndex("HCO3")]!;
    state[S] = full.molality[speciesIndex("SO4")]!;
    state[F] = full.molality[speciesIndex("HPO4")]!;
    state[ROOT] = state[REF_ROOT]!;
    this.#temper(temperature);
    this.#settle();
    state[FIXED] = 2 * strength - state[TWICE]!;
    this.solve(alk, dic, temperature);
  }

  #fit(temperature: number, strength: number): void {
    const constants = this.#constants;
    const ln = (t: number, ionicStrength: number) => {
      constants.start(temperatureSet(t, "truesdell-jones", true), ionicStrength, true);
      return constants.k.map(Math.log);
    };
    const step = Math.min(span, temperature);
    const root = Math.sqrt(strength);
    const reach = Math.max(strengthSpan * root, 1e-4);
    const here = ln(temperature, strength);
    const cold = ln(temperature - step, strength);
    const warm = ln(temperature + step, strength);
    const weak = ln(temperature, Math.max(root - reach, 0) ** 2);
    const strong = ln(temperature, (root + reach) ** 2);
    for (let j = 0; j < constantCount; j++) {
      this.#value[j] = Math.exp(here[j]!);
      this.#slope[j] = (warm[j]! - cold[j]!) / (2 * step);
      this.#curve[j] = (warm[j]! + cold[j]! - 2 * here[j]!) / (2 * step * step);
      this.#rootSlope[j] = (strong[j]! - weak[j]!) / (2 * reach);
      this.#rootCurve[j] = (strong[j]! + weak[j]! - 2 * here[j]!) / (2 * reach * reach);
    }
    // What a water does not need stands first or last and is left at zero.
    const { b, nh4, po4 } = this.#totals;
    this.#from = b > 0 || nh4 > 0 ? p.BORIC : p.K1;
    this.#to = po4 > 0 ? constantCount : p.PO4;
    this.#k.fill(0);
  }

  /** Sets the constants for a temperature at the √I in the state, from which they are then moved. */
  #temper(t: number): void {
    const state = this.#state;
    const x = t - state[REF_TEMPERATURE]!;
    const y = state[ROOT]! - state[REF_ROOT]!;
    const value = this.#value;
    const slope = this.#slope;
    const curve = this.#curve;
    const rootSlope = this.#rootSlope;
    const rootCurve = this.#rootCurve;
    const base = this.#base;
    const k = this.#k;
    for (let j = this.#from; j < this.#to; j++) {
      const e = x * (slope[j]! + x * curve[j]!) + y * (rootSlope[j]! + y * rootCurve[j]!);
      const constant = value[j]! * smoothExp(e);
      base[j] = constant;
      k[j] = constant;
    }
    state[TEMPERATURE] = t;
    state[BASE_ROOT] = y;
  }

  /** Moves the constants to the √I in the state. */
  #strengthen(): void {
    const state = this.#state;
    const y = state[ROOT]! - state[REF_ROOT]!;
    const from = state[BASE_ROOT]!;
    const step = y - from;
    const sum = y + from;
    const k = this.#k;
    const base = this.#base;
    const slope = this.#rootSlope;
    const curve = this.#rootCurve;
    for (let j = this.#from; j < this.#to; j++) k[j] = base[j]! * strengthSeries(step * (slope[j]! + sum * curve[j]!));
  }

  /**
   * Follows free sulfate and phosphate to the h and HCO3 in the state, and sums twice the ionic strength less the part
   * that stays fixed.
   */
  #settle(): void {
    const k = this.#k;
    const w = this.#totals;
    const state = this.#state;
    const h = state[H]!;
    const b = state[B]!;
    const s = state[S]!;
    const f = state[F]!;
    const c = (k[p.K2]! * b) / h;
    const p3 = (k[p.PO4]! * f) / h;
    const p1 = k[p.H2PO4]! * f * h;
    let sulfate = 1 + k[p.HSO4]! * h;
    let second = 1;
    let third = 1;
    let first = 1;
    let twice = h + k[p.KW]! / h + b + 4 * c;
    if (w.ca > 0) {
      const xb = k[p.CAHCO3]! * b;
      const xo = k[p.CAOH]! / h;
      const x3 = k[p.CAPO4]! * p3;
      const x1 = k[p.CAH2PO4]! * p1;
      const ca = w.ca / (1 + xb + k[p.CACO3]! * c + k[p.CASO4]! * s + xo + k[p.CAHPO4]! * f + x3 + x1);
      twice += ca * (4 + xb + xo + x3 + x1);
      sulfate += k[p.CASO4]! * ca;
      second += k[p.CAHPO4]! * ca;
      third += k[p.CAPO4]! * ca;
      first += k[p.CAH2PO4]! * ca;
    }
    if (w.mg > 0) {
      const xb = k[p.MGHCO3]! * b;
      const xo = k[p.MGOH]! / h;
      const mg = w.mg / (1 + xb + k[p.MGCO3]! * c + k[p.MGSO4]! * s + xo + k[p.MGHPO4]! * f);
      twice += mg * (4 + xb + xo);
      sulfate += k[p.MGSO4]! * mg;
      second += k[p.MGHPO4]! * mg;
    }
    if (w.na > 0) {
      const xc = k[p.NACO3]! * c;
      const xs = k[p.NASO4]! * s;
      const na = w.na / (1 + k[p.NAHCO3]! * b + xc + xs);
      twice += na * (1 + xc + xs);
      sulfate += k[p.NASO4]! * na;
    }
    if (w.b > 0) twice += (w.b * k[p.BORIC]!) / (k[p.BORIC]! + h);
    if (w.nh4 > 0) twice += (w.nh4 * h) / (k[p.AMMONIUM]! + h);
    let moved = 0;
    if (w.so4 > 0) {
      sulfate += (k[p.KSO4]! * w.k) / (1 + k[p.KSO4]! * s);
      const next = w.so4 / sulfate;
      twice += 4 * next + k[p.HSO4]! * next * h;
      moved = Math.abs(next - s) / next;
      state[S] = next;
    }
    if (w.po4 > 0) {
      const next = w.po4 / (second + (k[p.PO4]! * third) / h + k[p.H2PO4]! * first * h + k[p.H3PO4]! * h * h);
      twice += 4 * next + p1 + 9 * p3;
      moved = Math.max(moved, Math.abs(next - f) / next);
      state[F] = next;
    }
    state[MOVED] = moved;
    state[TWICE] = twice;
  }

  /**
   * pH of a water of the reference's totals; CO2, HCO3 and CO3 follow in the fields.
   * @param alk eq/kg, any sign.
   * @param dic mol/kg; below 1e-13 counts as that.
   * @param temperature °C, best within 5 K of the reference.
   * @throws ChemistryError when an argument is not a number.
   */
  solve(alk: number, dic: number, temperature: number): number {
    if (temperature !== this.#state[TEMPERATURE]) {
      if (!(temperature > -50 && temperature < 150)) {
        throw new ChemistryError("bad-input", "temperature", `${temperature} °C is not a water temperature`);
      }
      this.#temper(temperature);
    }
    this.#state[ALK] = alk;
    this.#state[DIC] = Math.max(dic, leastCarbon);
    if (!this.#newton()) {
      if (!Number.isFinite(alk) || !Number.isFinite(dic)) {
        throw new ChemistryError("bad-input", "alk, dic", `${alk} and ${dic} must be numbers`);
      }
      this.#startCold();
      if (!this.#newton()) {
        throw new ChemistryError("no-convergence", "alk, dic", `no pH found for ${alk} eq/kg and ${dic} mol/kg`);
      }
    }
    return this.#result[PH]!;
  }

  /** Sets the unknowns from the bracketed root with roughly paired constants. */
  #startCold(): void {
    const state = this.#state;
    const dic = state[DIC]!;
    state[ROOT] = state[REF_ROOT]!;
    this.#strengthen();
    const k = this.#k;
    const w = this.#totals;
    const a = this.#acids;
    const pairedB = 1 + k[p.CAHCO3]! * w.ca + k[p.MGHCO3]! * w.mg + k[p.NAHCO3]! * w.na;
    const pairedC = 1 + k[p.CACO3]! * w.ca + k[p.MGCO3]! * w.mg + k[p.NACO3]! * w.na;
    a.dic = dic;
    a.k1 = k[p.K1]! * pairedB;
    a.k2 = (k[p.K2]! * pairedC) / pairedB;
    a.kw = k[p.KW]!;
    a.hydrogen = k[p.HYDROGEN]!;
    a.phosphate = w.po4;
    a.boron = w.b;
    a.ammonium = w.nh4;
    a.sulfate = w.so4;
    a.kPO4 = k[p.PO4]!;
    a.kH2PO4 = k[p.H2PO4]!;
    a.kH3PO4 = k[p.H3PO4]!;
    a.kBoric = k[p.BORIC]!;
    a.kAmmonium = k[p.AMMONIUM]!;
    a.kHSO4 = k[p.HSO4]!;
    hydrogenRoot(state[ALK]!, a, 1e-3, this.#root);
    const h = this.#root.h;
    state[H] = h;
    state[B] = dic / (h / k[p.K1]! + pairedB + (k[p.K2]! * pairedC) / h);
    state[S] = w.so4;
    state[F] = w.po4 / (1 + k[p.PO4]! / h + k[p.H2PO4]! * h + k[p.H3PO4]! * h * h);
  }

  /**
   * Newton's rule on ln h and ln HCO3 from the state in hand, with sulfate, phosphate and ionic strength following;
   * false when it does not arrive.
   */
  #newton(): boolean {
    const k = this.#k;
    const w = this.#totals;
    const state = this.#state;
    const { ca, mg, na } = w;
    const dic = state[DIC]!;
    const targetH = dic + w.po4 - state[ALK]!;
    let h = state[H]!;
    let b = state[B]!;
    for (let pass = 1; pass <= mostPasses; pass++) {
      const s = state[S]!;
      const f = state[F]!;
      const c = (k[p.K2]! * b) / h;
      const gas = (b * h) / k[p.K1]!;
      const oh = k[p.KW]! / h;
      const acid = h * k[p.HYDROGEN]! + k[p.HSO4]! * s * h;
      const po4 = k[p.PO4]! / h;
      const h2po4 = k[p.H2PO4]! * h;
      // Forms of phosphate per HPO4, pairs with the metals as they stand included.
      let third = po4;
      let second = 1;
      let first = h2po4;
      // Hydrogen above the zero level, carbon, and their derivatives; see the speciator.
      let sumH = acid - oh + gas - c;
      let sumC = gas + b + c;
      let uu = acid + oh + gas + c;
      let uw = gas - c;
      let ww = sumC;
      if (ca > 0) {
        const xb = k[p.CAHCO3]! * b;
        const xc = k[p.CACO3]! * c;
        const xo = k[p.CAOH]! / h;
        const y2 = k[p.CAHPO4]!;
        const y3 = k[p.CAPO4]! * po4;
        const y1 = k[p.CAH2PO4]! * h2po4;
        const metal = ca / (1 + xb + xc + k[p.CASO4]! * s + xo + (y2 + y3 + y1) * f);
        third += y3 * metal;
        second += y2 * metal;
        first += y1 * metal;
        const gone = metal * (xc + xo);
        const held = metal * (xb + xc);
        const share = held / ca;
        sumH -= gone;
        sumC += held;
        uu += gone - (gone * gone) / ca;
        uw += gone * share - metal * xc;
        ww += held - held * share;
      }
      if (mg > 0) {
        const xb = k[p.MGHCO3]! * b;
        const xc = k[p.MGCO3]! * c;
        const xo = k[p.MGOH]! / h;
        const metal = mg / (1 + xb + xc + k[p.MGSO4]! * s + xo + k[p.MGHPO4]! * f);
        second += k[p.MGHPO4]! * metal;
        const gone = metal * (xc + xo);
        const held = metal * (xb + xc);
        const share = held / mg;
        sumH -= gone;
        sumC += held;
        uu += gone - (gone * gone) / mg;
        uw += gone * share - metal * xc;
        ww += held - held * share;
      }
      if (na > 0) {
        const xb = k[p.NAHCO3]! * b;
        const xc = k[p.NACO3]! * c;
        const metal = na / (1 + xb + xc + k[p.NASO4]! * s);
        const gone = metal * xc;
        const held = metal * xb + gone;
        const share = held / na;
        sumH -= gone;
        sumC += held;
        uu += gone - (gone * gone) / na;
        uw += gone * share - gone;
        ww += held - held * share;
      }
      if (w.b > 0) {
        const share = k[p.BORIC]! / (k[p.BORIC]! + h);
        sumH -= w.b * share;
        uu += w.b * share * (1 - share);
      }
      if (w.nh4 > 0) {
        const share = k[p.AMMONIUM]! / (k[p.AMMONIUM]! + h);
        sumH -= w.nh4 * share;
        uu += w.nh4 * share * (1 - share);
      }
      if (w.po4 > 0) {
        const none = k[p.H3PO4]! * h * h;
        const sum = third + second + first + none;
        const mean = (first + 2 * none - third) / sum;
        sumH += w.po4 * mean;
        uu += w.po4 * ((first + 4 * none + third) / sum - mean * mean);
      }
      const missH = targetH - sumH;
      const missC = dic - sumC;
      const inverse = 1 / (uu * ww - uw * uw);
      let du = (missH * ww - missC * uw) * inverse;
      let dw = (missC * uu - missH * uw) * inverse;
      const largest = Math.max(Math.abs(du), Math.abs(dw));
      if (!(largest < Number.POSITIVE_INFINITY)) return false;
      if (largest > longestStep) {
        du *= longestStep / largest;
        dw *= longestStep / largest;
      }
      h *= smallExp(du);
      b *= smallExp(dw);
      state[H] = h;
      state[B] = b;
      this.#settle();
      const root = Math.sqrt(Math.max(0.5 * (state[FIXED]! + state[TWICE]!), 0));
      const still = Math.abs(root - state[ROOT]!) < stillRoot;
      state[ROOT] = root;
      this.#strengthen();
      if (still && largest < closeStep && state[MOVED]! < stillLigand) {
        const result = this.#result;
        result[PH] = -Math.log(h) * Math.LOG10E;
        result[CO2] = (b * h) / k[p.K1]!;
        result[HCO3] = b;
        result[CO3] = (k[p.K2]! * b) / h;
        result[PASSES] = pass;
        return true;
      }
    }
    return false;
  }
}

/**
 * A carbonate loop about a reference water; see `CarbonateLoop`.
 * @param totals mol/kg.
 * @param alkRef eq/kg.
 * @param dicRef mol/kg.
 * @param temperatureRef °C, 1 to 60.
 */
export function createCarbonateLoop(
  totals: WaterTotals,
  alkRef: number,
  dicRef: number,
  temperatureRef: number,
): CarbonateLoop {
  return new CarbonateLoop(totals, alkRef, dicRef, temperatureRef);
}
