import { ChemistryError } from "./chemistry-error.ts";
import { createSpeciator, type GivenPair, givenPairs } from "./speciator.ts";
import { speciesNames, type WaterTotals } from "./species.ts";

/**
 * Any two of pH, alkalinity (eq/kg), DIC, CO2 (mol/kg) and pCO2 (atm). CO2 and pCO2 are one quantity, so that they make
 * no pair.
 */
export type Given =
  | { readonly ph: number; readonly alk: number }
  | { readonly dic: number; readonly alk: number }
  | { readonly co2: number; readonly alk: number }
  | { readonly pco2: number; readonly alk: number }
  | { readonly ph: number; readonly dic: number }
  | { readonly ph: number; readonly co2: number }
  | { readonly ph: number; readonly pco2: number }
  | { readonly dic: number; readonly co2: number }
  | { readonly dic: number; readonly pco2: number };

/** A water worked out: molalities in mol per kg of water. */
export interface Speciation {
  readonly totals: WaterTotals;
  /** °C. */
  readonly temperature: number;
  /** -log10 of the hydrogen activity. */
  readonly ph: number;
  /** Dissolved CO2 with H2CO3, mol/kg. */
  readonly co2: number;
  /** Free HCO3, mol/kg; its pairs stand under `species`. */
  readonly hco3: number;
  /** Free CO3, mol/kg. */
  readonly co3: number;
  /** All dissolved inorganic carbon, mol/kg. */
  readonly dic: number;
  /** Total alkalinity, eq/kg. */
  readonly alk: number;
  /** atm. */
  readonly pco2: number;
  /** mol/kg. */
  readonly ionicStrength: number;
  /** mol/kg by name of the form, e.g. "CaHCO3". */
  readonly species: Readonly<Record<string, number>>;
  /** Without unit, by name of the form. */
  readonly activityCoefficients: Readonly<Record<string, number>>;
  /** log10 of the saturation ratio; -Infinity when calcium or carbonate is absent. */
  readonly siCalcite: number;
  readonly siAragonite: number;
  readonly siGypsum: number;
  /** Sum of charges, eq/kg; positive when anions are missing. */
  readonly chargeBalance: number;
  readonly iterations: number;
}

const fields = ["ph", "dic", "co2", "pco2", "alk"] as const;
const shared = createSpeciator();

/** The pair that a `Given` holds, with its two values. */
function givenPair(given: Given): { pair: GivenPair; first: number; second: number } {
  const values = given as Readonly<Partial<Record<(typeof fields)[number], number>>>;
  const names = fields.filter((f) => values[f] !== undefined);
  const pair = givenPairs.find((x) => x === names.join("-") || x === [...names].reverse().join("-"));
  if (names.length !== 2 || !pair) {
    const what =
      names.includes("co2") && names.includes("pco2")
        ? "CO2 and pCO2 are one quantity; give another beside it"
        : `two of ${fields.join(", ")} must be given, not ${names.length === 0 ? "none" : names.join(", ")}`;
    throw new ChemistryError("bad-input", "given", what);
  }
  const [first, second] = pair.split("-") as [(typeof fields)[number], (typeof fields)[number]];
  return { pair, first: values[first] ?? Number.NaN, second: values[second] ?? Number.NaN };
}

function byName(values: Float64Array): Record<string, number> {
  const out: Record<string, number> = {};
  speciesNames.forEach((name, i) => {
    out[name] = values[i]!;
  });
  return out;
}

/**
 * Works out every dissolved form of a water from its totals and two carbonate quantities (source pb82, wq4f). Valid for
 * 5 to 35 °C and ionic strengths to 0.03 mol/kg; fair beyond.
 * @param totals mol/kg.
 * @param temperature °C.
 * @throws ChemistryError when the input means nothing or no water fits, with the place and the reason.
 */
export function speciate(totals: WaterTotals, temperature: number, given: Given): Speciation {
  const { pair, first, second } = givenPair(given);
  shared.solve(totals, temperature, pair, first, second);
  const species = byName(shared.molality);
  return {
    totals: { ...totals },
    temperature,
    ph: shared.ph,
    co2: shared.co2,
    hco3: species.HCO3!,
    co3: species.CO3!,
    dic: shared.dic,
    alk: shared.alk,
    pco2: shared.pco2,
    ionicStrength: shared.ionicStrength,
    species,
    activityCoefficients: byName(shared.activityCoefficients()),
    siCalcite: shared.siCalcite(),
    siAragonite: shared.siAragonite(),
    siGypsum: shared.siGypsum(),
    chargeBalance: shared.chargeBalance(),
    iterations: shared.iterations,
  };
}
