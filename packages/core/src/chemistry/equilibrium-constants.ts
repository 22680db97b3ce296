import { zeroCelsius } from "./water-properties.ts";

/** log10 K = a + b T + c/T + d log10 T + e/T², T in kelvin. */
interface Fit {
  readonly kind: "fit";
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
  readonly e: number;
}

/** log10 K from its value at 25 °C and a reaction enthalpy in kcal/mol. */
interface VantHoff {
  readonly kind: "van-t-hoff";
  readonly logK25: number;
  readonly enthalpy: number;
}

const fit = (a: number, b: number, c: number, d: number, e = 0): Fit => ({ kind: "fit", a, b, c, d, e });
const hoff = (logK25: number, enthalpy: number): VantHoff => ({ kind: "van-t-hoff", logK25, enthalpy });

const joulePerCalorie = 4.184;

/**
 * Reactions and their constants at zero ionic strength (activity and molality basis). Fits: source pb82; van 't Hoff
 * entries: source wq4f unless noted.
 */
const reactions = {
  /** CO2(g) = CO2(aq), mol/(kg*atm). */
  henry: fit(108.3865, 0.01985076, -6919.53, -40.45154, 669365),
  /** CO2(aq) + H2O = H + HCO3. */
  k1: fit(-356.3094, -0.06091964, 21834.37, 126.8339, -1684915),
  /** HCO3 = H + CO3. */
  k2: fit(-107.8871, -0.03252849, 5151.79, 38.92561, -563713.9),
  /** H2O = H + OH: fitted to iapws-r11 at 1 bar within 0.0002 over 0 to 100 °C. */
  kw: fit(-409.40597, -0.072805442, 19514.006, 148.68054, -1442933.8),
  calcite: fit(-171.9065, -0.077993, 2839.319, 71.595),
  aragonite: fit(-171.9773, -0.077993, 2903.293, 71.595),
  caHCO3: fit(1209.12, 0.31294, -34765.05, -478.782),
  caCO3: fit(-1228.732, -0.299444, 35512.75, 485.818),
  mgHCO3: fit(-59.215, 0, 2537.455, 20.92298),
  mgCO3: fit(0.991, 0.00667, 0, 0),
  kSO4: fit(3.106, 0, -673.6, 0),
  /** NH4 = NH3 + H. */
  ammonium: fit(0.6322, -0.001225, -2835.76, 0),
  /** SO4 + H = HSO4. */
  hSO4: fit(-56.889, 0.006473, 2307.9, 19.8858),
  /** Enthalpy of the older USGS file; the recommended one gives none. */
  naHCO3: hoff(-0.25, -1),
  naCO3: hoff(1.27, 8.91),
  caSO4: hoff(2.3, 1.65),
  mgSO4: hoff(2.37, 4.55),
  naSO4: hoff(0.7, 1.12),
  /** Ca + H2O = CaOH + H. */
  caOH: hoff(-12.78, 0),
  mgOH: hoff(-11.44, 15.952),
  /** B(OH)3 + H2O = B(OH)4 + H. */
  boricAcid: hoff(-9.24, 3.224),
  /** PO4 + H = HPO4, + 2 H = H2PO4, + 3 H = H3PO4. */
  hPO4: hoff(12.346, -3.53),
  h2PO4: hoff(19.553, -4.52),
  h3PO4: hoff(21.721, -10.1 / joulePerCalorie),
  caHPO4: hoff(2.739, 3.3),
  mgHPO4: hoff(2.87, 3.3),
  caPO4: hoff(6.459, 3.1),
  caH2PO4: hoff(1.408, 3.4),
  /** CaSO4·2H2O = Ca + SO4 + 2 H2O; from memory (source gypsum-1990). */
  gypsum: hoff(-4.58, -0.109),
} as const satisfies Record<string, Fit | VantHoff>;

export type Reaction = keyof typeof reactions;
export const reactionNames = Object.keys(reactions) as readonly Reaction[];

/** Gas constant, cal/(mol K), as the van 't Hoff entries were tabulated with. */
const gasConstant = 1.9872;

/**
 * log10 of an equilibrium constant at zero ionic strength; °C, fits good for 0 to 90 °C. Units follow the reaction, on
 * the molality scale (mol, kg, atm).
 */
export function log10K(reaction: Reaction, t: number): number {
  const r: Fit | VantHoff = reactions[reaction];
  const T = t + zeroCelsius;
  if (r.kind === "fit") return r.a + r.b * T + r.c / T + r.d * Math.log10(T) + r.e / (T * T);
  return r.logK25 - ((r.enthalpy * 1000) / (Math.LN10 * gasConstant)) * (1 / T - 1 / 298.15);
}
