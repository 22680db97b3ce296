import type { ActivityModel } from "./activity.ts";
import { activityClassNames } from "./activity.ts";
import { ChemistryError } from "./chemistry-error.ts";
import { ConditionalConstants, position, type TemperatureSet, TemperatureStore } from "./conditional-constants.ts";
import { type AcidSystem, hydrogenRoot, noAcids } from "./hydrogen-root.ts";
import { smallExp } from "./small-exp.ts";
import { speciesTable, totalNames, type WaterTotals } from "./species.ts";

/** Which two quantities are known. CO2 and pCO2 are one quantity (Henry's law), so they make no pair. */
export type GivenPair =
  | "ph-alk"
  | "dic-alk"
  | "co2-alk"
  | "pco2-alk"
  | "ph-dic"
  | "ph-co2"
  | "ph-pco2"
  | "dic-co2"
  | "dic-pco2";

export const givenPairs: readonly GivenPair[] = [
  "ph-alk",
  "dic-alk",
  "co2-alk",
  "pco2-alk",
  "ph-dic",
  "ph-co2",
  "ph-pco2",
  "dic-co2",
  "dic-pco2",
];

export interface SpeciatorOptions {
  /** Law of activity; Truesdell and Jones by default. */
  readonly activity?: ActivityModel;
  /** Whether ion pairs are formed; true by default. */
  readonly pairs?: boolean;
}

/** Relative change of every unknown below which the iteration has arrived. */
const arrived = 1e-10;
/** Longest step of a logarithm. */
const longestStep = 1.5;
const mostPasses = 80;
/** The activity laws mean nothing beyond this ionic strength, mol/kg. */
const highestIonicStrength = 0.5;
/** Below this the ionic strength is that of pure water. */
const lowestIonicStrength = 1e-9;

const classOfSpecies = Int32Array.from(speciesTable, (s) => activityClassNames.indexOf(s.activity));
const caClass = activityClassNames.indexOf("Ca");
const co3Class = activityClassNames.indexOf("CO3");
const so4Class = activityClassNames.indexOf("SO4");
const p = position;

/** A total below this, mol/kg, is passed over: nothing is left to divide by. */
const trace = 1e-20;
const above = (total: number) => (total > trace ? total : 0);

/** Positions in the result array. */
const PH = 0;
const DIC = 1;
const ALK = 2;
const CO2 = 3;
const PCO2 = 4;
const STRENGTH = 5;
const PASSES = 6;

/** How an iteration ended: balances met, not met, or beyond the activity law. */
type End = "met" | "astray" | "brine";

function refuse(where: string, what: string): never {
  throw new ChemistryError("no-solution", where, what);
}

/**
 * A reusable workspace that works out the dissolved forms of a water: constants of Plummer and Busenberg with the ion
 * pairs of the USGS files, activity after Truesdell and Jones. Every `solve` is a cold start and allocates nothing; its
 * results stay in the fields and arrays until the next. Valid for 0 to 40 °C and ionic strengths to 0.1 mol/kg
 * (good to 0.03), water activity taken as 1 (source pb82, wq4f, truesdell-jones-1974).
 *
 * The unknowns are the logarithms of h (10^-pH), free HCO3, SO4 and HPO4; free metals are eliminated, since each pair
 * holds one metal. The mass balances in these logarithms have a symmetric positive Jacobian (they are the gradient of a
 * convex function), so that Newton's rule with limited steps finds the one solution; the ionic strength follows by a
 * secant. First guesses come from the bracketed root of `hydrogenRoot`.
 */
export class Speciator {
  /** Molalities, mol/kg, in the order of `speciesNames`. */
  readonly molality = new Float64Array(speciesTable.length);
  readonly #gammaOfSpecies = new Float64Array(speciesTable.length);
  readonly #result = new Float64Array(7);
  readonly #constants = new ConditionalConstants();
  readonly #store: TemperatureStore;
  readonly #root = { h: 0, evaluations: 0 };
  #set: TemperatureSet;
  readonly #acids: AcidSystem = noAcids();

  constructor(options: SpeciatorOptions = {}) {
    this.#store = new TemperatureStore(options.activity ?? "truesdell-jones", options.pairs ?? true);
    this.#set = this.#store.at(25);
  }

  /** -log10 of the hydrogen activity. */
  get ph(): number {
    return this.#result[PH]!;
  }
  /** Dissolved inorganic carbon with its pairs, mol/kg. */
  get dic(): number {
    return this.#result[DIC]!;
  }
  /** Total alkalinity, eq/kg. */
  get alk(): number {
    return this.#result[ALK]!;
  }
  /** Dissolved CO2 (with H2CO3), mol/kg. */
  get co2(): number {
    return this.#result[CO2]!;
  }
  /** Partial pressure of CO2 in balance with the water, atm. */
  get pco2(): number {
    return this.#result[PCO2]!;
  }
  /** mol/kg. */
  get ionicStrength(): number {
    return this.#result[STRENGTH]!;
  }
  /** Passes of Newton's rule in the last solve. */
  get iterations(): number {
    return this.#result[PASSES]!;
  }

  /** Activity coefficients in the order of `speciesNames`; valid until the next solve. */
  activityCoefficients(): Float64Array {
    // Classes of phosphate are passed over while solving a water without it.
    this.#constants.follow(this.#set, this.ionicStrength, true);
    const g = this.#constants.gamma;
    for (let i = 0; i < classOfSpecies.length; i++) this.#gammaOfSpecies[i] = g[classOfSpecies[i]!]!;
    return this.#gammaOfSpecies;
  }

  #saturation(cation: number, cationClass: number, anion: number, anionClass: number, lnK: number): number {
    const m = this.molality;
    const g = this.#constants.gamma;
    const product = m[cation]! * g[cationClass]! * m[anion]! * g[anionClass]!;
    return (Math.log(product) - lnK) / Math.LN10;
  }

  /** Saturation index of calcite, without unit; -Infinity when calcium or carbonate is absent. */
  siCalcite(): number {
    return this.#saturation(5, caClass, 4, co3Class, this.#set.lnCalcite);
  }
  /** Saturation index of aragonite, without unit; -Infinity when calcium or carbonate is absent. */
  siAragonite(): number {
    return this.#saturation(5, caClass, 4, co3Class, this.#set.lnAragonite);
  }
  /** Saturation index of gypsum, without unit; -Infinity when calcium or sulfate is absent. */
  siGypsum(): number {
    return this.#saturation(5, caClass, 10, so4Class, this.#set.lnGypsum);
  }

  /** Sum of charges over all forms, eq/kg: 0 for a water whose analysis balances. */
  chargeBalance(): number {
    let sum = 0;
    for (let i = 0; i < speciesTable.length; i++) sum += speciesTable[i]!.charge * this.molality[i]!;
    return sum;
  }

  /**
   * Solves a water.
   * @param w totals, mol/kg, all at least 0.
   * @param t °C, 0 to 90.
   * @param pair which two quantities `first` and `second` are: pH, or mol/kg, or atm for pCO2.
   * @throws ChemistryError "bad-input" for values that mean nothing, "no-solution" when no water fits, "out-of-range"
   * when the water would be a brine beyond the activity law.
   */
  solve(w: WaterTotals, t: number, pair: GivenPair, first: number, second: number): void {
    if (!(t >= 0 && t <= 90)) throw new ChemistryError("bad-input", "temperature", `${t} °C must lie in 0 to 90 °C`);
    this.#checkTotals(w);
    let ph = Number.NaN;
    let alk = Number.NaN;
    let dic = Number.NaN;
    let co2 = Number.NaN;
    let pco2 = Number.NaN;
    switch (pair) {
      case "ph-alk":
        ph = first;
        alk = second;
        break;
      case "dic-alk":
        dic = first;
        alk = second;
        break;
      case "co2-alk":
        co2 = first;
        alk = second;
        break;
      case "pco2-alk":
        pco2 = first;
        alk = second;
        break;
      case "ph-dic":
        ph = first;
        dic = second;
        break;
      case "ph-co2":
        ph = first;
        co2 = second;
        break;
      case "ph-pco2":
        ph = first;
        pco2 = second;
        break;
      case "dic-co2":
        dic = first;
        co2 = second;
        break;
      case "dic-pco2":
        dic = first;
        pco2 = second;
        break;
      default:
        throw new ChemistryError("bad-input", "given", `must be one of ${givenPairs.join(", ")}`);
    }
    if (!Number.isNaN(ph) && !(ph >= 0 && ph <= 14)) {
      throw new ChemistryError("bad-input", "ph", `${ph} must lie in 0 to 14`);
    }
    if (dic < 0 || co2 < 0 || pco2 < 0 || !Number.isFinite(first) || !Number.isFinite(second)) {
      throw new ChemistryError("bad-input", pair, `${first} and ${second} must be numbers, carbon not below 0`);
    }
    this.#set = this.#store.at(t);
    let end = this.#newton(w, ph, alk, dic, co2, pco2);
    if (end === "astray") end = this.#halve(w, ph, alk, dic, co2, pco2);
    if (end !== "met" && Number.isNaN(alk) && Number.isNaN(ph)) {
      refuse("dic", `no water within the activity law holds ${dic} mol/kg of carbon with this CO2`);
    }
    if (end === "astray")
      throw new ChemistryError("no-convergence", pair, "the balances of this water could not be met");
    if (end === "brine") {
      throw new ChemistryError(
        "out-of-range",
        "ionicStrength",
        `this water would hold more than ${highestIonicStrength} mol/kg, beyond the activity law`,
      );
    }
  }

  #checkTotals(w: WaterTotals): void {
    const sum = w.ca + w.mg + w.na + w.k + w.cl + w.so4 + w.no3 + w.po4 + w.nh4 + w.b;
    const least = Math.min(w.ca, w.mg, w.na, w.k, w.cl, w.so4, w.no3, w.po4, w.nh4, w.b);
    if (least >= 0 && sum < Number.POSITIVE_INFINITY) return;
    for (const name of totalNames) {
      if (!(w[name] >= 0 && w[name] < Number.POSITIVE_INFINITY)) {
        throw new ChemistryError("bad-input", `totals.${name}`, `${w[name]} mol/kg must be a number of at least 0`);
      }
    }
  }

  /**
   * The slow and sure way for a water on which Newton's rule does not arrive: halves the range of pH, where every
   * balance is monotonic.
   */
  #halve(w: WaterTotals, ph: number, alk: number, dic: number, co2: number, pco2: number): End {
    if (!Number.isNaN(ph)) {
      throw new ChemistryError("no-convergence", "ph", "the balances of this water could not be met at this pH");
    }
    let acid = 0;
    let basic = 14;
    const byAlkalinity = !Number.isNaN(alk);
    for (let i = 0; i < 60; i++) {
      const middle = (acid + basic) / 2;
      const end = this.#newton(w, middle, Number.NaN, byAlkalinity ? dic : Number.NaN, co2, pco2);
      const tooBasic = end !== "met" || (byAlkalinity ? this.alk > alk : this.dic > dic);
      if (tooBasic) basic = middle;
      else acid = middle;
    }
    const last = this.#newton(w, acid, Number.NaN, byAlkalinity ? dic : Number.NaN, co2, pco2);
    if (last !== "met") return last;
    const missed = byAlkalinity ? Math.abs(this.alk - alk) : Math.abs(this.dic - dic);
    if (missed > 1e-7 * (byAlkalinity ? Math.abs(alk) + 1e-7 : dic)) {
      refuse(byAlkalinity ? "alk" : "dic", "no pH from 0 to 14 gives this water within the range of the activity law");
    }
    return "met";
  }

  /** Newton's rule; NaN marks what is not known. */
  #newton(w: WaterTotals, ph: number, alk: number, dic: number, co2: number, pco2: number): End {
    const set = this.#set;
    const constants = this.#constants;
    const k = constants.k;
    const phosphate = above(w.po4);
    const sulfate = above(w.so4);
    const boron = w.b;
    const ammonium = w.nh4;
    const ca = above(w.ca);
    const mg = above(w.mg);
    const na = above(w.na);
    const potassium = above(w.k);
    const withPhosphate = phosphate > 0;
    const phKnown = !Number.isNaN(ph);
    const alkKnown = !Number.isNaN(alk);
    const dicKnown = !Number.isNaN(dic);
    const pco2Known = !Number.isNaN(pco2);
    const co2Known = !Number.isNaN(co2) || pco2Known;
    if (pco2Known) co2 = 0;

    const fixedCharge = w.cl + w.no3 + potassium;
    const strong = na + potassium + 2 * (ca + mg) - w.cl - w.no3 - 2 * sulfate;
    const base = alkKnown ? alk : dicKnown ? Math.min(dic, Math.abs(strong)) : Math.abs(strong);
    let strength = 0.5 * (4 * (ca + mg + sulfate) + na + ammonium + fixedCharge + Math.abs(base)) + lowestIonicStrength;
    if (strength > 2 * highestIonicStrength) strength = 2 * highestIonicStrength;
    constants.start(set, strength, withPhosphate);
    if (pco2Known) co2 = pco2 * k[p.HENRY]!;
    const carbon = dicKnown ? dic > trace : co2Known ? co2 > trace : true;

    let h = phKnown ? Math.exp(-ph * Math.LN10) : 0;
    let b = 0;
    // Where HCO3 follows from pH and alkalinity: what the alkalinity is measured against, and what counts as none.
    let scale = 0;
    let floor = 0;
    // First guesses of carbonate pairing: metals as if half of what they could bind were free.
    const pairedB = 1 + k[p.CAHCO3]! * ca + k[p.MGHCO3]! * mg + k[p.NAHCO3]! * na;
    const pairedC = 1 + 0.8 * (k[p.CACO3]! * ca + k[p.MGCO3]! * mg + k[p.NACO3]! * na);
    const k1 = k[p.K1]! * pairedB;
    const k2 = (k[p.K2]! * pairedC) / pairedB;
    if (!phKnown) {
      if (alkKnown && dicKnown) {
        const a = this.#acids;
        a.dic = dic;
        a.k1 = k1;
        a.k2 = k2;
        a.kw = k[p.KW]!;
        a.hydrogen = k[p.HYDROGEN]!;
        a.boron = boron;
        a.kBoric = k[p.BORIC]!;
        a.ammonium = ammonium;
        a.kAmmonium = k[p.AMMONIUM]!;
        a.phosphate = phosphate;
        a.kPO4 = k[p.PO4]!;
        a.kH2PO4 = k[p.H2PO4]!;
        a.kH3PO4 = k[p.H3PO4]!;
        a.sulfate = sulfate;
        a.kHSO4 = k[p.HSO4]!;
        hydrogenRoot(alk, a, 0.02, this.#root);
        h = this.#root.h;
      } else if (alkKnown) {
        // CO2 fixed: without free hydrogen h is too high, without carbonate too low.
        const x = k1 * co2 + k[p.KW]!;
        const y = k1 * k2 * co2;
        const hydrogen = k[p.HYDROGEN]!;
        const r = Math.sqrt(alk * alk + 4 * hydrogen * x);
        const low = alk > 0 ? (2 * x) / (alk + r) : (r - alk) / (2 * hydrogen);
        h = alk > 0 ? Math.sqrt((low * (x + Math.sqrt(x * x + 8 * alk * y))) / (2 * alk)) : low;
      } else {
        if (dic === 0) refuse("dic", "without carbon the CO2 says nothing about the pH");
        if (!(co2 > 0)) refuse("co2", "carbon without any CO2 needs an endless pH");
        if (co2 >= dic && !pco2Known) refuse("dic", `${dic} mol/kg must be more than the CO2 in it, ${co2} mol/kg`);
        const x = k1 * co2;
        const rest = Math.max(dic - co2, 1e-6 * dic);
        h = (x + Math.sqrt(x * x + 4 * rest * x * k2)) / (2 * rest);
      }
    }
    if (carbon) {
      if (co2Known) b = (k[p.K1]! * co2) / h;
      else if (dicKnown) b = dic / (h / k[p.K1]! + pairedB + (k[p.K2]! * pairedC) / h);
      else {
        const water = k[p.KW]! / h + h * k[p.HYDROGEN]!;
        const rest = alk - k[p.KW]! / h + h * k[p.HYDROGEN]!;
        scale = Math.abs(alk) + water + phosphate + boron + ammonium + k[p.HSO4]! * sulfate * h;
        floor = 1e-14 * scale;
        b = Math.max(rest, 1e-4 * scale) / (pairedB + (2 * k[p.K2]! * pairedC) / h);
      }
    }
    let s = 0;
    if (sulfate > 0) {
      s =
        sulfate /
        (1 + k[p.HSO4]! * h + k[p.CASO4]! * ca + k[p.MGSO4]! * mg + k[p.NASO4]! * na + k[p.KSO4]! * potassium);
    }
    let f = 0;
    if (withPhosphate) {
      const p3 = k[p.PO4]! / h;
      const p1 = k[p.H2PO4]! * h;
      const pairs = ca * (k[p.CAHPO4]! + k[p.CAPO4]! * p3 + k[p.CAH2PO4]! * p1) + mg * k[p.MGHPO4]!;
      f = phosphate / (1 + p3 + p1 + k[p.H3PO4]! * h * h + pairs);
    }

    let lastStrength = 0;
    let lastPrediction = 0;
    let passes = 0;
    let close = false;
    while (passes < mostPasses) {
      passes++;
      const kw = k[p.KW]!;
      const c = (k[p.K2]! * b) / h;
      const gas = co2Known ? co2 : (b * h) / k[p.K1]!;
      const oh = kw / h;
      const free = h * k[p.HYDROGEN]!;
      const hso4 = k[p.HSO4]! * s * h;
      // Sums over forms: hydrogen above the zero level (less hydroxide), carbon, sulfate, phosphate.
      let sumH = free - oh + hso4 + gas - c;
      let sumC = gas + b + c;
      let sumS = s + hso4;
      let sumP = f;
      let uu = free + oh + hso4 + gas + c;
      let uw = gas - c;
      let us = hso4;
      let up = 0;
      let ww = sumC;
      let ws = 0;
      let wp = 0;
      let ss = sumS;
      let sp = 0;
      let pp = 0;
      // Twice the ionic strength and its derivatives.
      let twice = fixedCharge + free + oh + b + 4 * c + 4 * s + hso4;
      let iu = free - oh - 4 * c + hso4;
      let iw = b + 4 * c;
      let is = 4 * s + hso4;
      let ip = 0;
      if (boron > 0) {
        const share = k[p.BORIC]! / (k[p.BORIC]! + h);
        const ion = boron * share;
        const slope = ion * (1 - share);
        sumH -= ion;
        uu += slope;
        twice += ion;
        iu -= slope;
      }
      if (ammonium > 0) {
        const share = k[p.AMMONIUM]! / (k[p.AMMONIUM]! + h);
        const ammonia = ammonium * share;
        const slope = ammonia * (1 - share);
        sumH -= ammonia;
        uu += slope;
        twice += ammonium - ammonia;
        iu += slope;
      }
      let p3 = 0;
      let p1 = 0;
      if (withPhosphate) {
        p3 = (k[p.PO4]! * f) / h;
        p1 = k[p.H2PO4]! * f * h;
        const p0 = k[p.H3PO4]! * f * h * h;
        sumH += p1 + 2 * p0 - p3;
        sumP = f + p1 + p0 + p3;
        uu += p1 + 4 * p0 + p3;
        up = p1 + 2 * p0 - p3;
        pp = sumP;
        twice += 4 * f + p1 + 9 * p3;
        iu += p1 - 9 * p3;
        ip = 4 * f + p1 + 9 * p3;
      }
      if (ca > 0) {
        const xb = k[p.CAHCO3]! * b;
        const xc = k[p.CACO3]! * c;
        const xs = k[p.CASO4]! * s;
        const xo = k[p.CAOH]! / h;
        let x2 = 0;
        let x3 = 0;
        let x1 = 0;
        if (withPhosphate) {
          x2 = k[p.CAHPO4]! * f;
          x3 = k[p.CAPO4]! * p3;
          x1 = k[p.CAH2PO4]! * p1;
        }
        const share = 1 / (1 + xb + xc + xs + xo + x2 + x3 + x1);
        const metal = ca * share;
        const lost = xc + xo + x3;
        const eu = metal * (x1 - lost);
        const ew = metal * (xb + xc);
        const es = metal * xs;
        const ep = metal * (x2 + x3 + x1);
        const au = eu / ca;
        const aw = ew / ca;
        const as = es / ca;
        const charged = metal * (4 + xb + xo + x3 + x1);
        sumH += eu;
        sumC += ew;
        sumS += es;
        sumP += ep;
        uu += metal * (lost + x1) - eu * au;
        uw -= metal * xc + eu * aw;
        us -= eu * as;
        ww += ew - ew * aw;
        ws -= ew * as;
        ss += es - es * as;
        twice += charged;
        iu += metal * (x1 - xo - x3) - charged * au;
        iw += metal * xb - charged * aw;
        is -= charged * as;
        if (withPhosphate) {
          const ap = ep / ca;
          up += metal * (x1 - x3) - eu * ap;
          wp -= ew * ap;
          sp -= es * ap;
          pp += ep - ep * ap;
          ip += metal * (x3 + x1) - charged * ap;
        }
      }
      if (mg > 0) {
        const xb = k[p.MGHCO3]! * b;
        const xc = k[p.MGCO3]! * c;
        const xs = k[p.MGSO4]! * s;
        const xo = k[p.MGOH]! / h;
        const x2 = withPhosphate ? k[p.MGHPO4]! * f : 0;
        const share = 1 / (1 + xb + xc + xs + xo + x2);
        const metal = mg * share;
        const lost = metal * (xc + xo);
        const ew = metal * (xb + xc);
        const es = metal * xs;
        const ep = metal * x2;
        const au = lost / mg;
        const aw = ew / mg;
        const as = es / mg;
        const charged = metal * (4 + xb + xo);
        sumH -= lost;
        sumC += ew;
        sumS += es;
        sumP += ep;
        uu += lost - lost * au;
        uw -= metal * xc - lost * aw;
        us += lost * as;
        ww += ew - ew * aw;
        ws -= ew * as;
        ss += es - es * as;
        twice += charged;
        iu += charged * au - metal * xo;
        iw += metal * xb - charged * aw;
        is -= charged * as;
        if (withPhosphate) {
          const ap = ep / mg;
          up += lost * ap;
          wp -= ew * ap;
          sp -= es * ap;
          pp += ep - ep * ap;
          ip -= charged * ap;
        }
      }
      if (na > 0) {
        const xb = k[p.NAHCO3]! * b;
        const xc = k[p.NACO3]! * c;
        const xs = k[p.NASO4]! * s;
        const metal = na / (1 + xb + xc + xs);
        const lost = metal * xc;
        const ew = metal * xb + lost;
        const es = metal * xs;
        const au = lost / na;
        const aw = ew / na;
        const as = es / na;
        const charged = metal + lost + es;
        sumH -= lost;
        sumC += ew;
        sumS += es;
        uu += lost - lost * au;
        uw += lost * aw - lost;
        us += lost * as;
        ww += ew - ew * aw;
        ws -= ew * as;
        ss += es - es * as;
        twice += charged;
        iu += charged * au - lost;
        iw += lost - charged * aw;
        is += es - charged * as;
      }
      if (potassium > 0 && s > 0) {
        const xs = k[p.KSO4]! * s;
        const es = (potassium * xs) / (1 + xs);
        sumS += es;
        ss += es / (1 + xs);
      }

      // Eliminate sulfate and phosphate, then step along hydrogen and bicarbonate.
      let restH = sumH;
      let restC = sumC;
      let restP = sumP - phosphate;
      const restS = sumS - sulfate;
      if (sulfate > 0) {
        const inverse = 1 / ss;
        const fu = us * inverse;
        const fw = ws * inverse;
        restH -= fu * restS;
        restC -= fw * restS;
        uu -= us * fu;
        uw -= us * fw;
        ww -= ws * fw;
        if (withPhosphate) {
          const fp = sp * inverse;
          restP -= fp * restS;
          up -= us * fp;
          wp -= ws * fp;
          pp -= sp * fp;
        }
      }
      if (withPhosphate) {
        const inverse = 1 / pp;
        restH -= up * inverse * restP;
        restC -= wp * inverse * restP;
        uu -= up * up * inverse;
        uw -= up * wp * inverse;
        ww -= wp * wp * inverse;
      }
      let du = 0;
      let dw = 0;
      if (phKnown) {
        if (carbon && dicKnown) dw = (dic - restC) / ww;
        else if (alkKnown) dw = (alk - (restC + phosphate - restH)) / (ww - uw);
      } else if (dicKnown && alkKnown) {
        const missH = dic + phosphate - alk - restH;
        if (carbon) {
          const missC = dic - restC;
          const determinant = 1 / (uu * ww - uw * uw);
          du = (missH * ww - missC * uw) * determinant;
          dw = (missC * uu - missH * uw) * determinant;
        } else du = missH / uu;
      } else if (alkKnown) {
        // HCO3 goes as 1/h at fixed CO2.
        du = (alk - (restC + phosphate - restH)) / (uw - uu - (carbon ? ww - uw : 0));
        dw = carbon ? -du : 0;
      } else {
        du = (dic - restC) / (uw - ww);
        dw = -du;
      }
      let dp = withPhosphate ? -(restP + up * du + wp * dw) / pp : 0;
      let ds = sulfate > 0 ? -(restS + us * du + ws * dw + sp * dp) / ss : 0;
      let largest = Math.max(Math.abs(du), Math.abs(ds), Math.abs(dp));
      if (phKnown && alkKnown) {
        // Alkalinity is nearly straight in HCO3 itself, which may have to fall to nothing.
        const next = Math.max(b + dw * b, floor);
        dw = next / b - 1;
        largest = Math.max(largest, Math.abs(next - b) / (b + 1e-5 * scale));
      } else largest = Math.max(largest, Math.abs(dw));
      if (!(largest < Number.POSITIVE_INFINITY)) return "astray";
      // The balances are met at this ionic strength, which agrees with itself.
      if (close && largest < arrived) break;

      let prediction = 0.5 * twice;
      if (largest > longestStep) {
        const shorter = longestStep / largest;
        du *= shorter;
        dw *= shorter;
        ds *= shorter;
        dp *= shorter;
      } else {
        prediction += 0.5 * (iu * du + iw * dw + is * ds + ip * dp);
      }
      if (du !== 0) h *= smallExp(du);
      if (sulfate > 0) s *= smallExp(ds);
      if (withPhosphate) f *= smallExp(dp);
      if (phKnown && alkKnown) b *= 1 + dw;
      else if (!co2Known && dw !== 0) b *= smallExp(dw);

      if (!(prediction > lowestIonicStrength)) prediction = Math.max(0.5 * twice, lowestIonicStrength);
      let slope = passes > 1 ? (prediction - lastPrediction) / (strength - lastStrength) : 0;
      if (!(slope > -0.5 && slope < 0.5)) slope = 0;
      const change = (prediction - strength) / (1 - slope);
      close = Math.abs(change) < arrived * strength && largest < 1e-6;
      lastPrediction = prediction;
      lastStrength = strength;
      strength = Math.min(Math.max(strength + change, lowestIonicStrength), 2 * highestIonicStrength);
      constants.follow(set, strength, withPhosphate);
      if (pco2Known) co2 = pco2 * k[p.HENRY]!;
      if (co2Known) b = (k[p.K1]! * co2) / h;
    }
    if (strength > highestIonicStrength) return "brine";
    if (passes >= mostPasses) return "astray";
    const noCarbon = phKnown && alkKnown && b <= 2 * floor;
    if (noCarbon) b = 0;
    this.#write(w, h, b, s, f, co2Known, co2);
    const result = this.#result;
    if (noCarbon) {
      if (Math.abs(result[ALK]! - alk) > 1e-9 * scale) {
        refuse("alk", `at pH ${ph} this water holds at least ${result[ALK]!} eq/kg, more than the ${alk} eq/kg asked`);
      }
    }
    if (phKnown) result[PH] = ph;
    if (alkKnown) result[ALK] = alk;
    if (dicKnown) result[DIC] = dic;
    if (pco2Known) result[PCO2] = pco2;
    result[STRENGTH] = strength;
    result[PASSES] = passes;
    return "met";
  }

  /** Writes every molality and the sums from the four unknowns. */
  #write(w: WaterTotals, h: number, b: number, s: number, f: number, co2Known: boolean, co2: number): void {
    const k = this.#constants.k;
    const m = this.molality;
    const oh = k[p.KW]! / h;
    const free = h * k[p.HYDROGEN]!;
    const c = (k[p.K2]! * b) / h;
    const gas = co2Known ? co2 : (b * h) / k[p.K1]!;
    const hso4 = k[p.HSO4]! * s * h;
    m[0] = free;
    m[1] = oh;
    m[2] = gas;
    m[3] = b;
    m[4] = c;
    m[9] = w.cl;
    m[10] = s;
    m[11] = w.no3;
    const ammonia = (w.nh4 * k[p.AMMONIUM]!) / (k[p.AMMONIUM]! + h);
    const borate = (w.b * k[p.BORIC]!) / (k[p.BORIC]! + h);
    m[12] = w.nh4 - ammonia;
    m[13] = ammonia;
    m[14] = w.b - borate;
    m[15] = borate;
    let p0 = 0;
    let p1 = 0;
    let p3 = 0;
    let x2 = 0;
    let x3 = 0;
    let x1 = 0;
    let y2 = 0;
    if (f > 0) {
      p3 = (k[p.PO4]! * f) / h;
      p1 = k[p.H2PO4]! * f * h;
      p0 = k[p.H3PO4]! * f * h * h;
      x2 = k[p.CAHPO4]! * f;
      x3 = k[p.CAPO4]! * p3;
      x1 = k[p.CAH2PO4]! * p1;
      y2 = k[p.MGHPO4]! * f;
    }
    m[16] = p0;
    m[17] = p1;
    m[18] = f;
    m[19] = p3;
    m[20] = hso4;
    let xb = k[p.CAHCO3]! * b;
    let xc = k[p.CACO3]! * c;
    let xs = k[p.CASO4]! * s;
    let xo = k[p.CAOH]! / h;
    const ca = w.ca / (1 + xb + xc + xs + xo + x2 + x3 + x1);
    const caB = ca * xb;
    const caC = ca * xc;
    const caO = ca * xo;
    m[5] = ca;
    m[21] = caB;
    m[22] = caC;
    m[23] = ca * xs;
    m[24] = caO;
    m[33] = ca * x2;
    m[34] = ca * x3;
    m[35] = ca * x1;
    xb = k[p.MGHCO3]! * b;
    xc = k[p.MGCO3]! * c;
    xs = k[p.MGSO4]! * s;
    xo = k[p.MGOH]! / h;
    const mg = w.mg / (1 + xb + xc + xs + xo + y2);
    const mgB = mg * xb;
    const mgC = mg * xc;
    const mgO = mg * xo;
    m[6] = mg;
    m[25] = mgB;
    m[26] = mgC;
    m[27] = mg * xs;
    m[28] = mgO;
    m[36] = mg * y2;
    xb = k[p.NAHCO3]! * b;
    xc = k[p.NACO3]! * c;
    xs = k[p.NASO4]! * s;
    const na = w.na / (1 + xb + xc + xs);
    const naB = na * xb;
    const naC = na * xc;
    m[7] = na;
    m[29] = naB;
    m[30] = naC;
    m[31] = na * xs;
    xs = k[p.KSO4]! * s;
    m[8] = w.k / (1 + xs);
    m[32] = m[8]! * xs;
    const result = this.#result;
    result[PH] = -Math.log10(h);
    result[DIC] = gas + b + c + caB + caC + mgB + mgC + naB + naC;
    result[ALK] =
      b +
      caB +
      mgB +
      naB +
      2 * (c + caC + mgC + naC) +
      (oh + caO + mgO - free - hso4) +
      borate +
      ammonia +
      (f + m[33]! + m[36]! + 2 * (p3 + m[34]!) - p0);
    result[CO2] = gas;
    result[PCO2] = gas / k[p.HENRY]!;
  }
}

/** A workspace for many speciations; see `Speciator`. */
export function createSpeciator(options: SpeciatorOptions = {}): Speciator {
  return new Speciator(options);
}
