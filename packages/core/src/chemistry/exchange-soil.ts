import { findRoot } from "../numerics/index.ts";
import { ChemistryError } from "./chemistry-error.ts";
import { log10K } from "./equilibrium-constants.ts";
import type { CarriedWater } from "./mixing.ts";
import { molarMasses as M } from "./molar-masses.ts";
import { createSpeciator } from "./speciator.ts";
import { speciesIndex, type WaterTotals } from "./species.ts";

/**
 * Exchange against sodium on the scale of Gaines and Thomas: log10 K at 25 °C and enthalpy in kJ/mol where known (source
 * usgs-phreeqc-3).
 */
const exchangers = {
  na: { charge: 1, logK: 0, enthalpy: 0 },
  k: { charge: 1, logK: 0.7, enthalpy: -4.3 },
  nh4: { charge: 1, logK: 0.6, enthalpy: -2.4 },
  ca: { charge: 2, logK: 0.8, enthalpy: 7.2 },
  mg: { charge: 2, logK: 0.6, enthalpy: 7.4 },
  mn: { charge: 2, logK: 0.52, enthalpy: 0 },
  fe: { charge: 2, logK: 0.44, enthalpy: 0 },
  zn: { charge: 2, logK: 0.8, enthalpy: 0 },
  cu: { charge: 2, logK: 0.6, enthalpy: 0 },
} as const;

export type ExchangeCation = keyof typeof exchangers;
export const exchangeCations = Object.keys(exchangers) as readonly ExchangeCation[];

/** Amounts by cation; the same unit throughout. */
export type CationAmounts = Readonly<Partial<Record<ExchangeCation, number>>>;

/** A water and an exchanger at balance. */
export interface ExchangeBalance {
  /** In the water, mol/kg. */
  readonly dissolved: Readonly<Record<ExchangeCation, number>>;
  /** On the exchanger, mol. */
  readonly held: Readonly<Record<ExchangeCation, number>>;
  /** Share of the exchanger's charge, 0 to 1. */
  readonly share: Readonly<Record<ExchangeCation, number>>;
}

const gasConstant = 8.31446e-3;

/**
 * Brings water and a cation exchanger to balance in a closed vessel (Gaines and Thomas; activities in water and on the
 * exchanger cancel).
 * @param water kg.
 * @param dissolved mol/kg before.
 * @param held mol on the exchanger before; their charges make its capacity.
 * @param t °C.
 * @param freeShare share of each dissolved cation that is not paired, 0 to 1; all of it when left out, which is right to
 * 3 % on main ions and 6 % on traces.
 * @throws ChemistryError when there is no exchanger or no water.
 */
export function exchangeBalance(
  water: number,
  dissolved: CationAmounts,
  held: CationAmounts,
  t = 25,
  freeShare: CationAmounts = {},
): ExchangeBalance {
  let capacity = 0;
  for (const [name, amount] of Object.entries(held)) capacity += amount * exchangers[name as ExchangeCation].charge;
  if (!(capacity > 0)) throw new ChemistryError("bad-input", "held", "the exchanger holds no charge");
  if (!(water > 0)) throw new ChemistryError("bad-input", "water", `${water} kg must be above 0`);
  const inverse = 1 / (t + 273.15) - 1 / 298.15;
  const cations = exchangeCations
    .map((name) => {
      const { charge, logK, enthalpy } = exchangers[name];
      return {
        name,
        charge,
        k: 10 ** (logK - (enthalpy / (Math.LN10 * gasConstant)) * inverse) * (freeShare[name] ?? 1),
        total: (dissolved[name] ?? 0) + (held[name] ?? 0) / water,
      };
    })
    .filter((c) => c.total > 0);
  const perKg = capacity / water;
  const free = (c: (typeof cations)[number], lnA: number) =>
    c.total / (1 + (c.k * Math.exp(c.charge * lnA) * perKg) / c.charge);
  const filled = (lnA: number) =>
    cations.reduce((sum, c) => sum + c.k * free(c, lnA) * Math.exp(c.charge * lnA), 0) - 1;
  const lnA = findRoot(filled, -60, 60);
  const zero = () => Object.fromEntries(exchangeCations.map((n) => [n, 0])) as Record<ExchangeCation, number>;
  const out = { dissolved: zero(), held: zero(), share: zero() };
  for (const c of cations) {
    const m = free(c, lnA);
    out.dissolved[c.name] = m;
    out.share[c.name] = c.k * m * Math.exp(c.charge * lnA);
    out.held[c.name] = (out.share[c.name] * capacity) / c.charge;
  }
  return out;
}

const speciator = createSpeciator();
const paired = ["ca", "mg", "na", "k"] as const;
const freeForm = { ca: speciesIndex("Ca"), mg: speciesIndex("Mg"), na: speciesIndex("Na"), k: speciesIndex("K") };
/** Passes between exchange and pairs; each gains about two figures. */
const pairPasses = 8;

/** A water after exchange, with the exchanger. */
export interface ExchangedWater {
  readonly water: CarriedWater;
  readonly balance: ExchangeBalance;
}

/**
 * As `exchangeBalance`, with the ion pairs of the water counted. Alkalinity and carbon stay as they are.
 * @param mass kg of water.
 * @param held mol on the exchanger before.
 * @throws ChemistryError as `exchangeBalance` and the speciator.
 */
export function exchangeInWater(mass: number, water: CarriedWater, held: CationAmounts): ExchangedWater {
  const { ca, mg, na, k, nh4 } = water.totals;
  const free: Record<(typeof paired)[number], number> = { ca: 1, mg: 1, na: 1, k: 1 };
  let balance = exchangeBalance(mass, { ca, mg, na, k, nh4 }, held, water.temperature);
  const totals = (): WaterTotals => {
    const d = balance.dissolved;
    return { ...water.totals, ca: d.ca, mg: d.mg, na: d.na, k: d.k, nh4: d.nh4 };
  };
  for (let pass = 0; pass < pairPasses; pass++) {
    const d = balance.dissolved;
    speciator.solve(totals(), water.temperature, "dic-alk", water.dic, water.alk);
    for (const name of paired) if (d[name] > 0) free[name] = speciator.molality[freeForm[name]]! / d[name];
    balance = exchangeBalance(mass, { ca, mg, na, k, nh4 }, held, water.temperature, free);
  }
  return { water: { ...water, totals: totals() }, balance };
}

/** Soil that takes alkalinity. */
export interface AcidSoil {
  /** Dry mass, kg. */
  readonly mass: number;
  /** pH buffer capacity, eq per kg of dry soil and pH; agronomy 0.01 to 0.1 (from memory, doubtful). */
  readonly capacity: number;
  /** pH the soil is at. */
  readonly ph: number;
}

export interface SoilTaking {
  /** Alkalinity afterwards, meq/L. */
  readonly alk: number;
  /** pH of water and soil afterwards: the soil's for the next change. */
  readonly ph: number;
  /** Alkalinity taken, eq; as much hardness goes where calcium and magnesium replace hydrogen. */
  readonly taken: number;
  /** CO2 released, mmol/L. */
  readonly released: number;
}

/**
 * Where soil and water come to rest while CO2 is held, activity left out: what the water loses of alkalinity, the soil
 * gains as pH. Reached first order with a half-time of 0.5 to 3 d (common practice). Calibrate capacity and pH by two jar
 * tests of different hardness.
 * @param volume L.
 * @param alk meq/L before, above 0.
 * @param co2 mg/L, held.
 * @param t °C.
 * @throws ChemistryError when alk or CO2 are not above 0.
 */
export function soilTaking(volume: number, alk: number, co2: number, soil: AcidSoil, t = 25): SoilTaking {
  if (!(alk > 0)) throw new ChemistryError("bad-input", "alk", `${alk} meq/L must be above 0`);
  if (!(co2 > 0)) throw new ChemistryError("bad-input", "co2", `${co2} mg/L must be above 0`);
  const pk1 = -log10K("k1", t);
  const phOf = (lnAlk: number) => pk1 + (lnAlk - Math.log(co2 / M.co2)) / Math.LN10;
  const balance = (lnAlk: number) =>
    (volume * (alk - Math.exp(lnAlk))) / 1000 - soil.mass * soil.capacity * (phOf(lnAlk) - soil.ph);
  const start = Math.log(alk);
  let low = start - 1;
  while (balance(low) < 0) low -= 5;
  let high = start + 1;
  while (balance(high) > 0) high += 5;
  const lnAlk = findRoot(balance, low, high);
  const left = Math.exp(lnAlk);
  return { alk: left, ph: phOf(lnAlk), taken: (volume * (alk - left)) / 1000, released: alk - left };
}

/** Acidity a soil can give at most, eq: its exchange capacity (cmol/kg) not held by bases (share 0 to 1). */
export function soilAcidity(exchangeCapacity: number, baseSaturation: number, mass: number): number {
  return (exchangeCapacity / 100) * (1 - baseSaturation) * mass;
}

/** A first-order way from `start` to `end` after `time`, in one unit of time with `halfTime`. */
export function firstOrder(start: number, end: number, halfTime: number, time: number): number {
  return end + (start - end) * 2 ** (-time / halfTime);
}
