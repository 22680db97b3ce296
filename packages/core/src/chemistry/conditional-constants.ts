import { type ActivityLaw, type ActivityModel, activityClassNames, activityLaw } from "./activity.ts";
import { log10K, type Reaction } from "./equilibrium-constants.ts";
import { smallExp } from "./small-exp.ts";

/**
 * Positions of the conditional constants: mass-action constants in molalities at a given ionic strength, with hydrogen
 * as an activity (10^-pH). Those a simulation seldom needs stand first and last, so that it can pass them over.
 */
export const position = {
  /** CO2 / pCO2, mol/(kg*atm). */
  HENRY: 0,
  /** h B(OH)4 / B(OH)3. */
  BORIC: 1,
  /** h NH3 / NH4. */
  AMMONIUM: 2,
  /** h HCO3 / CO2. */
  K1: 3,
  /** h CO3 / HCO3. */
  K2: 4,
  /** h OH. */
  KW: 5,
  /** H / h, the inverse activity coefficient of hydrogen. */
  HYDROGEN: 6,
  /** HSO4 / (SO4 h). */
  HSO4: 7,
  CAHCO3: 8,
  CACO3: 9,
  CASO4: 10,
  /** CaOH h / Ca. */
  CAOH: 11,
  MGHCO3: 12,
  MGCO3: 13,
  MGSO4: 14,
  MGOH: 15,
  NAHCO3: 16,
  NACO3: 17,
  NASO4: 18,
  KSO4: 19,
  /** PO4 h / HPO4. */
  PO4: 20,
  /** H2PO4 / (HPO4 h). */
  H2PO4: 21,
  /** H3PO4 / (HPO4 h²). */
  H3PO4: 22,
  CAHPO4: 23,
  /** CaPO4 / (Ca PO4). */
  CAPO4: 24,
  /** CaH2PO4 / (Ca H2PO4). */
  CAH2PO4: 25,
  MGHPO4: 26,
} as const;

export const constantCount = 27;

const p = position;

/** Everything that depends on temperature alone. */
export interface TemperatureSet {
  readonly temperature: number;
  /** Thermodynamic constants by `position`, at zero ionic strength. */
  readonly k: Float64Array;
  readonly law: ActivityLaw;
  /** Natural logarithms of the solubility products. */
  readonly lnCalcite: number;
  readonly lnAragonite: number;
  readonly lnGypsum: number;
}

const e10 = (log10: number) => Math.exp(log10 * Math.LN10);

/**
 * Constants at a temperature in °C.
 * @param pairs without pairs every ion-pair constant is zero.
 */
export function temperatureSet(t: number, model: ActivityModel, pairs: boolean): TemperatureSet {
  const k = new Float64Array(constantCount);
  const at = (r: Reaction) => log10K(r, t);
  k[p.K1] = e10(at("k1"));
  k[p.K2] = e10(at("k2"));
  k[p.KW] = e10(at("kw"));
  k[p.HYDROGEN] = 1;
  k[p.HENRY] = e10(at("henry"));
  k[p.HSO4] = e10(at("hSO4"));
  k[p.BORIC] = e10(at("boricAcid"));
  k[p.AMMONIUM] = e10(at("ammonium"));
  k[p.PO4] = e10(-at("hPO4"));
  k[p.H2PO4] = e10(at("h2PO4") - at("hPO4"));
  k[p.H3PO4] = e10(at("h3PO4") - at("hPO4"));
  if (pairs) {
    k[p.CAHCO3] = e10(at("caHCO3"));
    k[p.CACO3] = e10(at("caCO3"));
    k[p.CASO4] = e10(at("caSO4"));
    k[p.CAOH] = e10(at("caOH"));
    k[p.MGHCO3] = e10(at("mgHCO3"));
    k[p.MGCO3] = e10(at("mgCO3"));
    k[p.MGSO4] = e10(at("mgSO4"));
    k[p.MGOH] = e10(at("mgOH"));
    k[p.NAHCO3] = e10(at("naHCO3"));
    k[p.NACO3] = e10(at("naCO3"));
    k[p.NASO4] = e10(at("naSO4"));
    k[p.KSO4] = e10(at("kSO4"));
    k[p.CAHPO4] = e10(at("caHPO4"));
    k[p.CAPO4] = e10(at("caPO4"));
    k[p.CAH2PO4] = e10(at("caH2PO4"));
    k[p.MGHPO4] = e10(at("mgHPO4"));
  }
  return {
    temperature: t,
    k,
    law: activityLaw(model, t),
    lnCalcite: at("calcite") * Math.LN10,
    lnAragonite: at("aragonite") * Math.LN10,
    lnGypsum: at("gypsum") * Math.LN10,
  };
}

/** Temperature sets are kept by temperature, up to this many. */
const keptSets = 1024;

/** A store of temperature sets; the same temperature is worked out once. */
export class TemperatureStore {
  readonly #model: ActivityModel;
  readonly #pairs: boolean;
  readonly #sets = new Map<number, TemperatureSet>();
  #last: TemperatureSet;

  constructor(model: ActivityModel, pairs: boolean) {
    this.#model = model;
    this.#pairs = pairs;
    this.#last = temperatureSet(25, model, pairs);
  }

  at(t: number): TemperatureSet {
    if (this.#last.temperature === t) return this.#last;
    let set = this.#sets.get(t);
    if (!set) {
      set = temperatureSet(t, this.#model, this.#pairs);
      if (this.#sets.size >= keptSets) this.#sets.clear();
      this.#sets.set(t, set);
    }
    this.#last = set;
    return set;
  }
}

/** Classes without phosphate's own come first, so that waters without phosphate skip the last two. */
const phosphateClasses = 2;

/** Positions of the classes that enter conditional constants. */
const neutral = activityClassNames.indexOf("neutral");
const davies = activityClassNames.indexOf("davies");
const hydrogen = activityClassNames.indexOf("H");
const hydroxide = activityClassNames.indexOf("OH");
const hco3 = activityClassNames.indexOf("HCO3");
const co3 = activityClassNames.indexOf("CO3");
const ca = activityClassNames.indexOf("Ca");
const mg = activityClassNames.indexOf("Mg");
const na = activityClassNames.indexOf("Na");
const potassium = activityClassNames.indexOf("K");
const so4 = activityClassNames.indexOf("SO4");
const caHCO3 = activityClassNames.indexOf("CaHCO3");
const mgHCO3 = activityClassNames.indexOf("MgHCO3");
const nh4 = activityClassNames.indexOf("NH4");
const hpo4 = activityClassNames.indexOf("HPO4");
const po4 = activityClassNames.indexOf("PO4");
const classCount = activityClassNames.length;

/** Steps of ln γ below this multiply the coefficient in hand instead of taking a new exponential. */
const smallStep = 0.02;

/**
 * Activity coefficients and conditional constants at one temperature, followed along as the ionic strength is iterated.
 * The first setting takes exponentials; later small changes multiply by the series of e^x, which is exact to rounding
 * and much faster.
 */
export class ConditionalConstants {
  /** Activity coefficients by class. */
  readonly gamma = new Float64Array(classCount);
  /** Conditional constants by `position`. */
  readonly k = new Float64Array(constantCount);
  readonly #lnGamma = new Float64Array(classCount);

  /** Sets the constants afresh at an ionic strength, mol/kg. */
  start(set: TemperatureSet, ionicStrength: number, withPhosphate: boolean): void {
    this.#lnGamma.fill(Number.NaN);
    this.follow(set, ionicStrength, withPhosphate);
  }

  /** Moves the constants to another ionic strength, mol/kg, at the temperature they were started with. */
  follow(set: TemperatureSet, ionicStrength: number, withPhosphate: boolean): void {
    const { strength, size, extra } = set.law;
    const g = this.gamma;
    const ln = this.#lnGamma;
    const root = Math.sqrt(ionicStrength);
    const n = withPhosphate ? classCount : classCount - phosphateClasses;
    for (let i = 0; i < n; i++) {
      const next = (-strength[i]! * root) / (1 + size[i]! * root) + extra[i]! * ionicStrength;
      const x = next - ln[i]!;
      g[i] = x < smallStep && x > -smallStep ? g[i]! * smallExp(x) : Math.exp(next);
      ln[i] = next;
    }
    this.#combine(set.k, withPhosphate);
  }

  #combine(k: Float64Array, withPhosphate: boolean): void {
    const g = this.gamma;
    const c = this.k;
    const g0 = g[neutral]!;
    const inverse0 = 1 / g0;
    const inverse1 = 1 / g[davies]!;
    const b = g[hco3]!;
    const c3 = g[co3]!;
    const gCa = g[ca]!;
    const gMg = g[mg]!;
    const gNa = g[na]!;
    const s4 = g[so4]!;
    const inverseB = 1 / b;
    c[p.K1] = k[p.K1]! * g0 * inverseB;
    c[p.K2] = (k[p.K2]! * b) / c3;
    c[p.KW] = k[p.KW]! / g[hydroxide]!;
    c[p.HYDROGEN] = 1 / g[hydrogen]!;
    c[p.HENRY] = k[p.HENRY]! * inverse0;
    c[p.HSO4] = k[p.HSO4]! * s4 * inverse1;
    c[p.BORIC] = k[p.BORIC]! * g0 * inverse1;
    c[p.AMMONIUM] = k[p.AMMONIUM]! * g[nh4]! * inverse0;
    c[p.CAHCO3] = (k[p.CAHCO3]! * gCa * b) / g[caHCO3]!;
    c[p.CACO3] = k[p.CACO3]! * gCa * c3 * inverse0;
    c[p.CASO4] = k[p.CASO4]! * gCa * s4 * inverse0;
    c[p.CAOH] = k[p.CAOH]! * gCa * inverse1;
    c[p.MGHCO3] = (k[p.MGHCO3]! * gMg * b) / g[mgHCO3]!;
    c[p.MGCO3] = k[p.MGCO3]! * gMg * c3 * inverse0;
    c[p.MGSO4] = k[p.MGSO4]! * gMg * s4 * inverse0;
    c[p.MGOH] = k[p.MGOH]! * gMg * inverse1;
    c[p.NAHCO3] = k[p.NAHCO3]! * gNa * b * inverse0;
    c[p.NACO3] = k[p.NACO3]! * gNa * c3 * inverse1;
    c[p.NASO4] = k[p.NASO4]! * gNa * s4 * inverseB;
    c[p.KSO4] = k[p.KSO4]! * g[potassium]! * s4 * inverseB;
    if (!withPhosphate) return;
    const h4 = g[hpo4]!;
    const p4 = g[po4]!;
    c[p.PO4] = (k[p.PO4]! * h4) / p4;
    c[p.H2PO4] = k[p.H2PO4]! * h4 * inverseB;
    c[p.H3PO4] = k[p.H3PO4]! * h4 * inverse0;
    c[p.CAHPO4] = k[p.CAHPO4]! * gCa * h4 * inverse0;
    c[p.CAPO4] = k[p.CAPO4]! * gCa * p4 * inverse1;
    c[p.CAH2PO4] = k[p.CAH2PO4]! * gCa * b * inverse1;
    c[p.MGHPO4] = k[p.MGHPO4]! * gMg * h4 * inverse0;
  }
}
