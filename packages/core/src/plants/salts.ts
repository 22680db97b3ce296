import { RelationError, relation } from "../relation/index.ts";
import { choice, quantity, tankVolume } from "./usual-inputs.ts";

/** Atomic masses, g/mol. Source: iupac-weights */
const mass = {
  H: 1.008,
  C: 12.011,
  N: 14.007,
  O: 15.999,
  Mg: 24.305,
  P: 30.974,
  S: 32.06,
  Cl: 35.45,
  K: 39.098,
  Ca: 40.078,
  Fe: 55.845,
} as const;

type Element = keyof typeof mass;
type Formula = Readonly<Partial<Record<Element, number>>>;

const weigh = (f: Formula): number =>
  (Object.entries(f) as [Element, number][]).reduce((sum, [e, n]) => sum + mass[e] * n, 0);

const nutrientFormulas = {
  nitrate: { N: 1, O: 3 },
  phosphate: { P: 1, O: 4 },
  potassium: { K: 1 },
  magnesium: { Mg: 1 },
  calcium: { Ca: 1 },
  chloride: { Cl: 1 },
  sulfate: { S: 1, O: 4 },
  nitrogen: { N: 1 },
  phosphorus: { P: 1 },
  iron: { Fe: 1 },
} as const satisfies Record<string, Formula>;

export type SaltNutrient = keyof typeof nutrientFormulas;

interface Salt {
  readonly formula: Formula;
  /** Units of each nutrient in one formula unit. */
  readonly gives: Readonly<Partial<Record<SaltNutrient, number>>>;
}

const saltTable = {
  KNO3: { formula: { K: 1, N: 1, O: 3 }, gives: { nitrate: 1, potassium: 1, nitrogen: 1 } },
  KH2PO4: { formula: { K: 1, H: 2, P: 1, O: 4 }, gives: { phosphate: 1, potassium: 1, phosphorus: 1 } },
  K2SO4: { formula: { K: 2, S: 1, O: 4 }, gives: { potassium: 2, sulfate: 1 } },
  "MgSO4.7H2O": { formula: { Mg: 1, S: 1, O: 11, H: 14 }, gives: { magnesium: 1, sulfate: 1 } },
  "Mg(NO3)2.6H2O": { formula: { Mg: 1, N: 2, O: 12, H: 12 }, gives: { magnesium: 1, nitrate: 2, nitrogen: 2 } },
  "CaSO4.2H2O": { formula: { Ca: 1, S: 1, O: 6, H: 4 }, gives: { calcium: 1, sulfate: 1 } },
  "CaCl2.2H2O": { formula: { Ca: 1, Cl: 2, O: 2, H: 4 }, gives: { calcium: 1, chloride: 2 } },
  "Ca(NO3)2.4H2O": { formula: { Ca: 1, N: 2, O: 10, H: 8 }, gives: { calcium: 1, nitrate: 2, nitrogen: 2 } },
  NH4NO3: { formula: { N: 2, H: 4, O: 3 }, gives: { nitrogen: 2, nitrate: 1 } },
  urea: { formula: { C: 1, H: 4, N: 2, O: 1 }, gives: { nitrogen: 2 } },
  "FeSO4.7H2O": { formula: { Fe: 1, S: 1, O: 11, H: 14 }, gives: { iron: 1, sulfate: 1 } },
} as const satisfies Record<string, Salt>;

export type SaltName = keyof typeof saltTable;

export const saltNames = Object.keys(saltTable) as readonly SaltName[];
const nutrientNames = Object.keys(nutrientFormulas) as readonly SaltNutrient[];

/**
 * Mass of a nutrient in a gram of a salt.
 * @returns g/g; 0 where the salt has none. Source: iupac-weights
 */
export function saltContent(salt: SaltName, nutrient: SaltNutrient): number {
  const { formula, gives }: Salt = saltTable[salt];
  return ((gives[nutrient] ?? 0) * weigh(nutrientFormulas[nutrient])) / weigh(formula);
}

/**
 * Mass of a salt for a rise.
 * @param rise mg/L; @param volume L
 * @returns g; Infinity where the salt has none of the nutrient
 */
export function saltForRise(salt: SaltName, nutrient: SaltNutrient, rise: number, volume: number): number {
  if (rise === 0) return 0;
  return (rise * volume) / 1000 / saltContent(salt, nutrient);
}

/** General hardness of one mg/L, dGH. */
const degreePerCalcium = 1 / 7.147;
const degreePerMagnesium = 1 / 4.334;

const salt = choice("salt", saltNames, "KNO3");
const rises = {
  nitrate: { label: "nitrate", unit: "mg/L" },
  phosphate: { label: "phosphate", unit: "mg/L" },
  potassium: { label: "potassium", unit: "mg/L" },
  magnesium: { label: "magnesium", unit: "mg/L" },
  calcium: { label: "calcium", unit: "mg/L" },
  chloride: { label: "chloride", unit: "mg/L" },
  sulfate: { label: "sulfate", unit: "mg/L" },
  nitrogen: { label: "nitrogen, in any form", unit: "mg/L" },
  phosphorus: { label: "phosphorus", unit: "mg/L" },
  iron: { label: "iron", unit: "mg/L" },
  general_hardness: { label: "general hardness", unit: "dGH" },
} as const;

/** Rises that a mass of salt makes. @param milligramPerLitre of the salt */
function risesOf(name: SaltName, milligramPerLitre: number) {
  const of = (n: SaltNutrient) => milligramPerLitre * saltContent(name, n);
  return {
    nitrate: of("nitrate"),
    phosphate: of("phosphate"),
    potassium: of("potassium"),
    magnesium: of("magnesium"),
    calcium: of("calcium"),
    chloride: of("chloride"),
    sulfate: of("sulfate"),
    nitrogen: of("nitrogen"),
    phosphorus: of("phosphorus"),
    iron: of("iron"),
    general_hardness: of("calcium") * degreePerCalcium + of("magnesium") * degreePerMagnesium,
  };
}

const handling =
  "Weigh small amounts with a proper scale, label every bottle, keep salts from children and food; nitrates feed fire.";

export const saltRelations = [
  relation({
    id: "salt-content",
    title: "What a gram of a salt holds",
    room: "plants",
    inputs: { salt, nutrient: choice("nutrient", nutrientNames, "nitrate") },
    outputs: { content: { label: "mass of the nutrient per mass of salt", unit: "g/g" } },
    equation: "n M(nutrient)/M(salt)",
    sources: ["iupac-weights"],
    compute: (i) => ({ content: saltContent(i.salt, i.nutrient) }),
  }),
  relation({
    id: "salt-for-rise",
    title: "Mass of a salt for a wanted rise, and what else it brings",
    room: "plants",
    inputs: {
      salt,
      nutrient: choice("nutrient", nutrientNames, "nitrate"),
      rise: quantity("wanted rise", "mg/L", 0, 1000),
      volume: tankVolume,
    },
    outputs: { mass: { label: "mass of salt", unit: "g" }, ...rises },
    equation: "m = rise V/(1000 content)",
    sources: ["iupac-weights", "arithmetic"],
    validity: "the salt holds the nutrient",
    caution: handling,
    compute: (i) => {
      if (saltContent(i.salt, i.nutrient) === 0) {
        const held = Object.keys(saltTable[i.salt].gives).join(", ");
        const message = `${i.salt} holds no ${i.nutrient}; allowed: ${held}`;
        throw new RelationError("salt-for-rise", [{ input: "nutrient", message }]);
      }
      const grams = saltForRise(i.salt, i.nutrient, i.rise, i.volume);
      return { mass: grams, ...risesOf(i.salt, (1000 * grams) / i.volume) };
    },
  }),
  relation({
    id: "stock-solution-dose",
    title: "Rise from a dose of a stock solution",
    room: "plants",
    inputs: {
      salt,
      salt_mass: quantity("salt in the bottle", "g", 0, 10000),
      bottle: quantity("volume of the bottle", "mL", 1, 1e5),
      dose: quantity("dose", "mL", 0, 1e5),
      volume: tankVolume,
    },
    outputs: rises,
    equation: "m/bottle x dose/V x content",
    sources: ["iupac-weights", "arithmetic"],
    caution: handling,
    compute: (i) => risesOf(i.salt, (1000 * i.salt_mass * i.dose) / i.bottle / i.volume),
  }),
  relation({
    id: "three-salt-recipe",
    title: "Nitrate, phosphate and potassium from three salts",
    room: "plants",
    inputs: {
      nitrate: quantity("wanted rise of nitrate", "mg/L", 0, 500),
      phosphate: quantity("wanted rise of phosphate", "mg/L", 0, 50),
      potassium: quantity("wanted rise of potassium", "mg/L", 0, 500),
      volume: tankVolume,
    },
    outputs: {
      kno3: { label: "KNO3", unit: "g" },
      kh2po4: { label: "KH2PO4", unit: "g" },
      k2so4: { label: "K2SO4", unit: "g" },
      potassium_over: { label: "potassium above the wish, from the first two", unit: "mg/L" },
    },
    equation: "nitrate by KNO3, phosphate by KH2PO4, what potassium is then wanting by K2SO4",
    sources: ["iupac-weights", "arithmetic"],
    caution: handling,
    compute: (i) => {
      const kno3 = saltForRise("KNO3", "nitrate", i.nitrate, i.volume);
      const kh2po4 = saltForRise("KH2PO4", "phosphate", i.phosphate, i.volume);
      const brought =
        (1000 * (kno3 * saltContent("KNO3", "potassium") + kh2po4 * saltContent("KH2PO4", "potassium"))) / i.volume;
      return {
        kno3,
        kh2po4,
        k2so4: saltForRise("K2SO4", "potassium", Math.max(0, i.potassium - brought), i.volume),
        potassium_over: Math.max(0, brought - i.potassium),
      };
    },
  }),
] as const;
