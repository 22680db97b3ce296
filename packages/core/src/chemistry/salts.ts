import { atomCounts, elementShare, elements, molarMass } from "../units/index.ts";
import { ChemistryError } from "./chemistry-error.ts";
import { meqPerDegree, mmolPerDegree } from "./hardness.ts";
import { molarMasses as M } from "./molar-masses.ts";
import type { TotalName } from "./species.ts";

/** What one mole of a salt brings into water. */
export interface Salt {
  /** Formula with water of crystallisation. */
  readonly formula: string;
  readonly name: string;
  /** Moles of each total. */
  readonly gives: Readonly<Partial<Record<TotalName, number>>>;
  /** Equivalents of alkalinity. */
  readonly alk: number;
  /** Moles of inorganic carbon. */
  readonly dic: number;
  /** Solubility, g of the salt per 100 g of added water at 10, 20 and 25 °C (source crc-solubility). */
  readonly solubility?: readonly [number, number, number];
  /** A caution of use. */
  readonly note?: string;
}

const slow = "dissolves slowly: stir it in a day ahead, or let it pass with the flow";

/** Salts of the trade, pure. Trace metals and urea are not among the totals; their charge is left out. */
export const salts = [
  {
    formula: "KNO3",
    name: "potassium nitrate",
    gives: { k: 1, no3: 1 },
    alk: 0,
    dic: 0,
    solubility: [21.36, 31.93, 38.31],
  },
  { formula: "Ca(NO3)2·4H2O", name: "calcium nitrate", gives: { ca: 1, no3: 2 }, alk: 0, dic: 0 },
  { formula: "Mg(NO3)2·6H2O", name: "magnesium nitrate", gives: { mg: 1, no3: 2 }, alk: 0, dic: 0 },
  {
    formula: "KH2PO4",
    name: "monopotassium phosphate",
    gives: { k: 1, po4: 1 },
    alk: 0,
    dic: 0,
    solubility: [17.52, 22.32, 24.95],
  },
  { formula: "K2HPO4", name: "dipotassium phosphate", gives: { k: 2, po4: 1 }, alk: 1, dic: 0 },
  {
    formula: "K2SO4",
    name: "potassium sulfate",
    gives: { k: 2, so4: 1 },
    alk: 0,
    dic: 0,
    solubility: [9.24, 11.05, 11.98],
  },
  {
    formula: "KCl",
    name: "potassium chloride",
    gives: { k: 1, cl: 1 },
    alk: 0,
    dic: 0,
    solubility: [30.91, 34.03, 35.54],
  },
  {
    formula: "KHCO3",
    name: "potassium bicarbonate",
    gives: { k: 1 },
    alk: 1,
    dic: 1,
    solubility: [27.76, 33.19, 36.24],
  },
  {
    formula: "K2CO3",
    name: "potassium carbonate",
    gives: { k: 2 },
    alk: 2,
    dic: 1,
    solubility: [107.0, 109.6, 111.4],
    note: "caustic; raises pH until CO2 has come back from the air",
  },
  { formula: "NaHCO3", name: "sodium bicarbonate", gives: { na: 1 }, alk: 1, dic: 1, solubility: [8.21, 9.57, 10.28] },
  {
    formula: "CaCO3",
    name: "calcium carbonate",
    gives: { ca: 1 },
    alk: 2,
    dic: 1,
    note: `needs CO2 to dissolve and ${slow}`,
  },
  {
    formula: "CaSO4·2H2O",
    name: "gypsum",
    gives: { ca: 1, so4: 1 },
    alk: 0,
    dic: 0,
    solubility: [0.242, 0.256, 0.26],
    note: slow,
  },
  {
    formula: "CaCl2·2H2O",
    name: "calcium chloride dihydrate",
    gives: { ca: 1, cl: 2 },
    alk: 0,
    dic: 0,
    solubility: [108, 126, 146],
  },
  {
    formula: "CaCl2",
    name: "calcium chloride, anhydrous",
    gives: { ca: 1, cl: 2 },
    alk: 0,
    dic: 0,
    note: "heats the water it is put in",
  },
  {
    formula: "MgSO4·7H2O",
    name: "Epsom salt",
    gives: { mg: 1, so4: 1 },
    alk: 0,
    dic: 0,
    solubility: [79.97, 105.8, 116.7],
  },
  {
    formula: "MgSO4",
    name: "magnesium sulfate, anhydrous",
    gives: { mg: 1, so4: 1 },
    alk: 0,
    dic: 0,
    note: "heats the water it is put in",
  },
  {
    formula: "MgCl2·6H2O",
    name: "magnesium chloride",
    gives: { mg: 1, cl: 2 },
    alk: 0,
    dic: 0,
    solubility: [291, 316, 328],
  },
  { formula: "NaCl", name: "common salt", gives: { na: 1, cl: 1 }, alk: 0, dic: 0 },
  { formula: "Na2SO4", name: "sodium sulfate", gives: { na: 2, so4: 1 }, alk: 0, dic: 0 },
  { formula: "NH4NO3", name: "ammonium nitrate", gives: { nh4: 1, no3: 1 }, alk: 0, dic: 0 },
  { formula: "(NH4)2SO4", name: "ammonium sulfate", gives: { nh4: 2, so4: 1 }, alk: 0, dic: 0 },
  { formula: "NH4Cl", name: "ammonium chloride", gives: { nh4: 1, cl: 1 }, alk: 0, dic: 0 },
  { formula: "CO(NH2)2", name: "urea", gives: {}, alk: 0, dic: 0, note: "turns to ammonia within days" },
  { formula: "FeSO4·7H2O", name: "iron(II) sulfate", gives: { so4: 1 }, alk: 0, dic: 0 },
  { formula: "FeC12H22O14·2H2O", name: "iron gluconate", gives: {}, alk: 0, dic: 0 },
  { formula: "MnSO4·H2O", name: "manganese sulfate", gives: { so4: 1 }, alk: 0, dic: 0 },
  { formula: "ZnSO4·7H2O", name: "zinc sulfate", gives: { so4: 1 }, alk: 0, dic: 0 },
  {
    formula: "CuSO4·5H2O",
    name: "copper sulfate",
    gives: { so4: 1 },
    alk: 0,
    dic: 0,
    note: "poison for shrimp and snails in small excess",
  },
  { formula: "H3BO3", name: "boric acid", gives: { b: 1 }, alk: 0, dic: 0, solubility: [3.7, 5.01, 5.8] },
  { formula: "Na2MoO4·2H2O", name: "sodium molybdate", gives: { na: 2 }, alk: 0, dic: 0 },
] as const satisfies readonly Salt[];

export type SaltFormula = (typeof salts)[number]["formula"];
export const saltFormulas = salts.map((s) => s.formula) as readonly SaltFormula[];

/**
 * A salt by its formula.
 * @throws ChemistryError when it is not among `salts`.
 */
export function saltOf(formula: string): Salt {
  const salt = salts.find((s) => s.formula === formula);
  if (!salt) throw new ChemistryError("bad-input", "salt", `${formula} is not among ${saltFormulas.join(", ")}`);
  return salt;
}

/** Element of a pure salt, mg per g. */
export function saltYield(formula: string, element: string): number {
  return 1000 * elementShare(formula, element);
}

/** What a nutrient is counted as: an element, or an ion by which kits and reports tell it. */
const countedAs = {
  NO3: { element: "N", mass: M.no3 },
  NO2: { element: "N", mass: M.no2 },
  NH4: { element: "N", mass: M.nh4 },
  NH3: { element: "N", mass: M.nh3 },
  PO4: { element: "P", mass: M.po4 },
  SO4: { element: "S", mass: M.so4 },
  HCO3: { element: "C", mass: M.hco3 },
} as const;

/** Mass of the thing counted per mole of salt, g/mol. */
function massPerMole(formula: string, counted: string): number {
  const ionic = countedAs[counted as keyof typeof countedAs];
  const element = ionic ? ionic.element : counted;
  const weight = elements[element];
  if (weight === undefined) throw new ChemistryError("bad-input", "counted", `${counted} is no element or known ion`);
  const atoms = atomCounts(formula).get(element) ?? 0;
  return atoms * (ionic ? ionic.mass : weight);
}

/** A weighed dose and what it brings. */
export interface Dose {
  /** g of the pure salt. */
  readonly grams: number;
  /** Rise of every element of the salt but hydrogen and oxygen, mg/L. */
  readonly rises: Readonly<Record<string, number>>;
  /** Rise of alkalinity, meq/L. */
  readonly alk: number;
}

/**
 * Salt for a rise.
 * @param formula one of `saltFormulas`.
 * @param counted an element ("K") or ion as kits tell it ("NO3", "PO4").
 * @param rise mg/L.
 * @param volume L.
 * @throws ChemistryError when the salt does not hold it.
 */
export function saltForRise(formula: string, counted: string, rise: number, volume: number): Dose {
  const salt = saltOf(formula);
  const each = massPerMole(formula, counted);
  if (!(each > 0)) throw new ChemistryError("bad-input", "counted", `${formula} holds no ${counted}`);
  const mmolPerLitre = rise / each;
  const rises: Record<string, number> = {};
  for (const [element, atoms] of atomCounts(formula)) {
    if (element !== "H" && element !== "O") rises[element] = mmolPerLitre * atoms * (elements[element] ?? 0);
  }
  return { grams: (mmolPerLitre * molarMass(formula) * volume) / 1000, rises, alk: mmolPerLitre * salt.alk };
}

/** mg of a salt per litre and German degree it raises: of general hardness and of alkalinity; 0 where it raises none. */
export function mgPerDegree(formula: string): { readonly gh: number; readonly kh: number } {
  const salt = saltOf(formula);
  const mass = molarMass(formula);
  const divalent = (salt.gives.ca ?? 0) + (salt.gives.mg ?? 0);
  return {
    gh: divalent > 0 ? (mmolPerDegree / divalent) * mass : 0,
    kh: salt.alk > 0 ? (meqPerDegree / salt.alk) * mass : 0,
  };
}

/** Names under which a nutrient's mass is told, with what each mass holds of the element, g/mol of element. */
const notations = {
  N: ["N", M.n],
  NO3: ["N", M.no3],
  NO2: ["N", M.no2],
  NH4: ["N", M.nh4],
  NH3: ["N", M.nh3],
  P: ["P", M.p],
  PO4: ["P", M.po4],
  P2O5: ["P", M.p2o5 / 2],
  K: ["K", M.k],
  K2O: ["K", M.k2o / 2],
  Mg: ["Mg", M.mg],
  MgO: ["Mg", M.mgo],
  Ca: ["Ca", M.ca],
  CaO: ["Ca", M.cao],
  S: ["S", M.s],
  SO4: ["S", M.so4],
  SO3: ["S", M.so3],
  Na: ["Na", M.na],
  Na2O: ["Na", M.na2o / 2],
} as const;

export type NutrientNotation = keyof typeof notations;
export const nutrientNotations = Object.keys(notations) as readonly NutrientNotation[];

/**
 * Factor that turns a mass told as one thing into the mass told as another, e.g. N to NO3 4.42664.
 * @throws ChemistryError when the two are not of one element.
 */
export function nutrientFactor(from: NutrientNotation, to: NutrientNotation): number {
  const [a, massA] = notations[from];
  const [b, massB] = notations[to];
  if (a !== b) throw new ChemistryError("bad-input", "to", `${to} cannot be told from ${from}`);
  return massB / massA;
}

/** Temperatures of the solubility table, °C. */
const solubilityAt = [10, 20, 25] as const;
/** Share of the solubility at the coldest place of storage that a stock should not pass (common practice). */
export const safeShare = 0.8;

/** A salt's solubility. */
export interface Solubility {
  /** g of the salt as named, with its crystal water, per 100 g of water added. */
  readonly per100g: number;
  /** mol per kg of all water, crystal water included. */
  readonly molality: number;
  /** The same, kept to the safe share, g per 100 g of water added. */
  readonly safe: number;
}

/**
 * Solubility of a salt of the table between 10 and 25 °C, by straight lines (source crc-solubility).
 * @throws ChemistryError when the table has no such salt or the temperature lies outside.
 */
export function solubility(formula: string, t: number): Solubility {
  const table = saltOf(formula).solubility;
  if (!table) throw new ChemistryError("bad-input", "salt", `no solubility known for ${formula}`);
  if (!(t >= 10 && t <= 25)) {
    throw new ChemistryError("out-of-range", "temperature", `${t} °C lies outside 10 to 25 °C of the table`);
  }
  const i = t <= 20 ? 0 : 1;
  const share = (t - solubilityAt[i]) / (solubilityAt[i + 1]! - solubilityAt[i]);
  const per100g = table[i] + share * (table[i + 1]! - table[i]);
  const moles = per100g / molarMass(formula);
  const crystalWater = /·(\d*)H2O$/.exec(formula);
  const waters = crystalWater ? Number(crystalWater[1] || 1) : 0;
  const water = 100 + moles * waters * molarMass("H2O");
  return { per100g, molality: (1000 * moles) / water, safe: per100g * safeShare };
}

/** Grams of hydrate per 100 g of added water from mass per cent of anhydrous salt in a saturated solution. */
export function hydrateSolubility(massPercent: number, hydrate: string, anhydrous: string): number {
  const wr = massPercent * (molarMass(hydrate) / molarMass(anhydrous));
  if (!(wr < 100)) throw new ChemistryError("no-solution", "mass_percent", "the hydrate melts in its own water");
  return (100 * wr) / (100 - wr);
}

/** Two things that must not meet in one stock solution. */
export interface StockConflict {
  readonly first: string;
  readonly second: string;
  readonly why: string;
}

/**
 * Salts of one stock solution that would fall out together (common practice): calcium with sulfate, phosphate or
 * carbonate; magnesium with phosphate; unchelated iron with phosphate.
 */
export function stockConflicts(formulas: readonly string[]): readonly StockConflict[] {
  const conflicts: StockConflict[] = [];
  const brings = (f: string) => {
    const salt = saltOf(f);
    return {
      f,
      calcium: (salt.gives.ca ?? 0) > 0,
      magnesium: (salt.gives.mg ?? 0) > 0,
      iron: atomCounts(f).has("Fe"),
      sulfate: (salt.gives.so4 ?? 0) > 0,
      phosphate: (salt.gives.po4 ?? 0) > 0,
      carbonate: salt.dic > 0,
    };
  };
  const all = formulas.map(brings);
  for (const a of all) {
    for (const b of all) {
      if (a.f === b.f) continue;
      const add = (why: string) => conflicts.push({ first: a.f, second: b.f, why });
      if (a.calcium && b.sulfate) add("calcium and sulfate fall out as gypsum");
      if (a.calcium && b.phosphate) add("calcium and phosphate fall out");
      if (a.calcium && b.carbonate) add("calcium and carbonate fall out as lime");
      if (a.magnesium && b.phosphate) add("magnesium and phosphate fall out when the stock is alkaline");
      if (a.iron && b.phosphate) add("iron without a strong chelate and phosphate fall out");
    }
  }
  return conflicts;
}
