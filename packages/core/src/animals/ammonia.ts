import { relation } from "../relation/index.ts";
import { acidity, quantity, temperature } from "./usual-inputs.ts";

/**
 * Long-term target of un-ionised ammonia nitrogen, mg/L. Source: zebrafish-housing; 0.05 begins to harm gills
 * (ifas-fa16)
 */
export const unionisedTarget = 0.02;

/** Acidity constant of ammonium in fresh water, pKa. @param t °C, 0 to 30. Source: emerson-1975 */
export function ammoniumPka(t: number): number {
  return 0.09018 + 2729.92 / (t + 273.15);
}

/** Share of ammonia that is un-ionised in fresh water. @param ph; @param t °C @returns 0..1. Source: emerson-1975 */
export function unionisedShare(ph: number, t: number): number {
  return 1 / (1 + 10 ** (ammoniumPka(t) - ph));
}

/** Total ammonia nitrogen that holds a limit of un-ionised ammonia nitrogen. @returns mg/L */
export function totalAmmoniaAt(limit: number, ph: number, t: number): number {
  return limit / unionisedShare(ph, t);
}

const logistic = (low: number, high: number, middle: number, ph: number) =>
  low / (1 + 10 ** (middle - ph)) + high / (1 + 10 ** (ph - middle));

/**
 * Highest total ammonia nitrogen for an hour, criteria of 2013.
 * @param ph 6.5 to 9; @param t °C; @param salmonids where salmon and trout live
 * @returns mg/L. Source: epa-2013-ammonia
 */
export function acuteAmmonia2013(ph: number, t: number, salmonids = false): number {
  const warm = 23.12 * 10 ** (0.036 * (20 - t));
  const base = 0.7249 * logistic(0.0114, 1.6181, 7.204, ph);
  if (salmonids) return Math.min(logistic(0.275, 39, 7.204, ph), base * warm);
  return base * Math.min(51.93, warm);
}

/**
 * Highest total ammonia nitrogen as a mean of 30 days, criteria of 2013 (driven by mussels and snails).
 * @param ph 6.5 to 9; @param t °C
 * @returns mg/L. Source: epa-2013-ammonia
 */
export function chronicAmmonia2013(ph: number, t: number): number {
  return 0.8876 * logistic(0.0278, 1.1994, 7.688, ph) * 2.126 * 10 ** (0.028 * (20 - Math.max(t, 7)));
}

/**
 * Highest total ammonia nitrogen for an hour without salmonids, criteria of 1999. @returns mg/L. Source:
 * epa-1999-ammonia
 */
export function acuteAmmonia1999(ph: number): number {
  return logistic(0.411, 58.4, 7.204, ph);
}

/**
 * Highest total ammonia nitrogen as a mean of 30 days, criteria of 1999 (no mussels: looser).
 * @param earlyStages whether eggs and fry are present
 * @returns mg/L. Source: epa-1999-ammonia
 */
export function chronicAmmonia1999(ph: number, t: number, earlyStages = true): number {
  const warm = earlyStages
    ? Math.min(2.85, 1.45 * 10 ** (0.028 * (25 - t)))
    : 1.45 * 10 ** (0.028 * (25 - Math.max(t, 7)));
  return logistic(0.0577, 2.487, 7.688, ph) * warm;
}

/** Target, alarm and emergency of total ammonia nitrogen, mg/L. */
export interface AmmoniaLimits {
  readonly target: number;
  readonly alarm: number;
  readonly emergency: number;
}

/**
 * Limits of total ammonia nitrogen for a tank.
 * @param ph 6.5 to 9; @param t °C
 * @returns mg/L: target the smaller of the chronic criterion and 0.02 mg/L un-ionised; alarm 2.5 times the chronic
 * criterion; emergency the
 * acute criterion. Design value on epa-2013-ammonia
 */
export function ammoniaLimits(ph: number, t: number): AmmoniaLimits {
  const chronic = chronicAmmonia2013(ph, t);
  return {
    target: Math.min(chronic, totalAmmoniaAt(unionisedTarget, ph, t)),
    alarm: 2.5 * chronic,
    emergency: acuteAmmonia2013(ph, t),
  };
}

const criteriaPh = quantity("pH", "1", 6.5, 9);
const care = "These are limits for wild waters used as a guide; a veterinarian or local authority may ask for less.";

export const ammoniaRelations = [
  relation({
    id: "unionised-ammonia",
    title: "Un-ionised share of ammonia",
    room: "animals",
    inputs: {
      ph: acidity,
      temperature,
      limit: quantity("limit of un-ionised ammonia nitrogen", "mg/L", 0.001, 10, unionisedTarget),
    },
    outputs: {
      pka: { label: "pKa of ammonium", unit: "1" },
      share: { label: "un-ionised share", unit: "%" },
      total_at_limit: { label: "total ammonia nitrogen at the limit", unit: "mg/L" },
    },
    equation: "pKa = 0.09018 + 2729.92/T; f = 1/(1 + 10^(pKa - pH))",
    sources: ["emerson-1975", "zebrafish-housing", "ifas-fa16"],
    validity: "fresh water, 0 to 30 °C",
    compute: (i) => ({
      pka: ammoniumPka(i.temperature),
      share: 100 * unionisedShare(i.ph, i.temperature),
      total_at_limit: totalAmmoniaAt(i.limit, i.ph, i.temperature),
    }),
  }),
  relation({
    id: "ammonia-criteria",
    title: "Criteria of total ammonia nitrogen",
    room: "animals",
    inputs: { ph: criteriaPh, temperature },
    outputs: {
      acute_2013: { label: "2013, one hour, no salmonids", unit: "mg/L" },
      acute_2013_salmonids: { label: "2013, one hour, with salmonids", unit: "mg/L" },
      chronic_2013: { label: "2013, mean of 30 days", unit: "mg/L" },
      acute_1999: { label: "1999, one hour, no salmonids", unit: "mg/L" },
      chronic_1999: { label: "1999, mean of 30 days, with eggs or fry", unit: "mg/L" },
      chronic_1999_grown: { label: "1999, mean of 30 days, grown fish only", unit: "mg/L" },
    },
    equation: "sums of two sigmoids in pH times a power of ten in temperature, as published",
    sources: ["epa-2013-ammonia", "epa-1999-ammonia"],
    validity: "pH 6.5 to 9; use those of 2013 with snails or shrimp",
    caution: care,
    compute: (i) => ({
      acute_2013: acuteAmmonia2013(i.ph, i.temperature),
      acute_2013_salmonids: acuteAmmonia2013(i.ph, i.temperature, true),
      chronic_2013: chronicAmmonia2013(i.ph, i.temperature),
      acute_1999: acuteAmmonia1999(i.ph),
      chronic_1999: chronicAmmonia1999(i.ph, i.temperature),
      chronic_1999_grown: chronicAmmonia1999(i.ph, i.temperature, false),
    }),
  }),
  relation({
    id: "ammonia-limits",
    title: "Target, alarm and emergency of total ammonia nitrogen in a tank",
    room: "animals",
    inputs: {
      ph: criteriaPh,
      temperature,
      load: quantity("ammonia nitrogen given per volume", "mg/L/d", 0, 100, 0.2),
    },
    outputs: {
      target: { label: "target", unit: "mg/L" },
      alarm: { label: "alarm", unit: "mg/L" },
      emergency: { label: "emergency", unit: "mg/L" },
      days_to_chronic: { label: "time to the chronic criterion with a dead filter", unit: "d" },
      days_to_unionised: { label: "time to 0.02 mg/L un-ionised with a dead filter", unit: "d" },
    },
    equation: "target min(CCC, 0.02/f); alarm 2.5 CCC; emergency CMC; time = limit/load",
    sources: ["epa-2013-ammonia", "zebrafish-housing", "chosen"],
    caution: care,
    compute: (i) => ({
      ...ammoniaLimits(i.ph, i.temperature),
      days_to_chronic: chronicAmmonia2013(i.ph, i.temperature) / i.load,
      days_to_unionised: totalAmmoniaAt(unionisedTarget, i.ph, i.temperature) / i.load,
    }),
  }),
] as const;
