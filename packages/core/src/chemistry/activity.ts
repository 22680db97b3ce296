import { debyeHuckel } from "./water-properties.ts";

/** How activity coefficients are taken. */
export type ActivityModel = "truesdell-jones" | "davies" | "none";

/**
 * Ions that share one activity law. `size` in ångström and `extra` (kg/mol) are the parameters of Truesdell and Jones
 * as the recommended USGS file holds them; a class without a size follows Davies; charge 0 means log10 γ = 0.1 I.
 */
interface ActivityClass {
  readonly charge: number;
  readonly size?: number;
  readonly extra?: number;
}

const classes = {
  neutral: { charge: 0 },
  davies: { charge: 1 },
  H: { charge: 1, size: 9, extra: 0 },
  OH: { charge: 1, size: 3.5, extra: 0 },
  HCO3: { charge: 1, size: 5.4, extra: 0 },
  CO3: { charge: 2, size: 5.4, extra: 0 },
  Ca: { charge: 2, size: 5, extra: 0.165 },
  Mg: { charge: 2, size: 5.5, extra: 0.2 },
  Na: { charge: 1, size: 4, extra: 0.075 },
  K: { charge: 1, size: 3.5, extra: 0.015 },
  SO4: { charge: 2, size: 5, extra: -0.04 },
  CaHCO3: { charge: 1, size: 6, extra: 0 },
  MgHCO3: { charge: 1, size: 4, extra: 0 },
  Cl: { charge: 1, size: 3.5, extra: 0.015 },
  NO3: { charge: 1, size: 3, extra: 0 },
  NH4: { charge: 1, size: 2.5, extra: 0 },
  HPO4: { charge: 2, size: 5, extra: 0 },
  PO4: { charge: 3, size: 4, extra: 0 },
} as const satisfies Record<string, ActivityClass>;

export type ActivityClassName = keyof typeof classes;
export const activityClassNames = Object.keys(classes) as readonly ActivityClassName[];

/**
 * Coefficients of ln γ = -strength √I / (1 + size √I) + extra I for every class at one temperature. Davies' law has the
 * same form with size 1 and extra 0.3 strength, so that one loop serves all.
 */
export interface ActivityLaw {
  readonly strength: Float64Array;
  readonly size: Float64Array;
  readonly extra: Float64Array;
}

/** The activity law at a temperature in °C. */
export function activityLaw(model: ActivityModel, t: number): ActivityLaw {
  const { a, b } = debyeHuckel(t);
  const n = activityClassNames.length;
  const law = { strength: new Float64Array(n), size: new Float64Array(n), extra: new Float64Array(n) };
  if (model === "none") return law;
  activityClassNames.forEach((name, i) => {
    const c: ActivityClass = classes[name];
    const strength = a * c.charge * c.charge * Math.LN10;
    law.strength[i] = strength;
    if (c.charge === 0) {
      law.extra[i] = 0.1 * Math.LN10;
    } else if (model === "davies" || c.size === undefined) {
      law.size[i] = 1;
      law.extra[i] = 0.3 * strength;
    } else {
      law.size[i] = b * c.size;
      law.extra[i] = (c.extra ?? 0) * Math.LN10;
    }
  });
  return law;
}

/**
 * Activity coefficient of one class of ions, without unit.
 * @param ionicStrength mol/kg, up to about 0.1 (0.5 for Davies).
 * @param t °C.
 */
export function activityCoefficient(
  name: ActivityClassName,
  ionicStrength: number,
  t: number,
  model: ActivityModel = "truesdell-jones",
): number {
  const law = activityLaw(model, t);
  const i = activityClassNames.indexOf(name);
  const root = Math.sqrt(ionicStrength);
  return Math.exp(
    (-(law.strength[i] ?? 0) * root) / (1 + (law.size[i] ?? 0) * root) + (law.extra[i] ?? 0) * ionicStrength,
  );
}

/**
 * Davies' activity coefficient of an ion of any charge, without unit (source davies-1962).
 * @param ionicStrength mol/kg, up to 0.5.
 */
export function daviesCoefficient(charge: number, ionicStrength: number, t: number): number {
  const root = Math.sqrt(ionicStrength);
  return 10 ** (-debyeHuckel(t).a * charge * charge * (root / (1 + root) - 0.3 * ionicStrength));
}
