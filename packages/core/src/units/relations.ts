import { type AnyRelation, RelationError, relation } from "../relation/index.ts";
import { convert, convertAmount } from "./convert.ts";
import { atomCounts, elementShare, molarMass } from "./molar-mass.ts";
import { UnitError } from "./unit-error.ts";

/** Units that the relation of free conversion takes, in house spelling. */
const UNITS = [
  ...["mm", "cm", "m", "in", "ft", "yd", "mi", "cm2", "m2", "in2", "ft2"],
  ...["mL", "L", "m3", "cm3", "in3", "ft3", "US gal", "US qt", "US pt", "US cup", "US fl oz", "US tbsp", "US tsp"],
  ...["imp gal", "imp qt", "imp pt", "imp fl oz", "metric cup", "metric tbsp", "metric tsp"],
  ...["mg", "g", "kg", "t", "lb", "avdp oz", "grain", "short ton", "long ton"],
  ...["s", "min", "h", "d", "week", "year", "K", "°C", "°F", "Δ°C", "Δ°F"],
  ...["L/h", "L/min", "mL/min", "m3/s", "m3/h", "US gal/h", "US gal/min", "US gal/d", "imp gal/h", "ft3/min"],
  ...["m/s", "cm/s", "cm/h", "m/d", "ft/s", "in/h", "g/h", "mg/h", "g/d", "kg/s"],
  ...["Pa", "hPa", "kPa", "mbar", "bar", "atm", "psi", "mmHg", "inHg", "Torr", "cmH2O", "inH2O", "ftH2O"],
  ...["N", "kN", "kgf", "lbf", "kg/m2", "lb/ft2", "kN/m2", "lbf/ft2", "kg/m3", "kg/L", "lb/ft3"],
  ...["J", "kJ", "Wh", "kWh", "BTU", "W", "kW", "BTU/h", "W/L", "W/US gal", "lx", "fc", "deg", "rad"],
  ...["mg/L", "ug/L", "g/L", "grain/US gal", "mol/L", "mmol/L", "umol/L", "mol/m3", "eq/m3", "meq/L"],
  ...["dGH", "dKH", "mg/L CaCO3", "mg/L HCO3", "°fH", "°e", "gpg", "cmolc/kg", "meq per 100 g"],
  ...["umol/m2/s", "mol/m2/d", "1/h", "1/d", "%/d", "1", "%", "ppm(v)", "uS/cm", "mS/cm"],
  ...["J/mol/K", "L*atm/mol/K"],
] as const;

const unitConversion = relation({
  id: "unit-conversion",
  title: "A value told in another unit",
  room: "units",
  inputs: {
    value: { kind: "number", label: "Value in the first unit", unit: "1", min: -1e15, max: 1e15 },
    from: { kind: "choice", label: "Unit it is in", options: UNITS },
    to: { kind: "choice", label: "Unit wanted", options: UNITS },
  },
  outputs: { value: { label: "Value in the unit wanted", unit: "1", unitFrom: "to" } },
  equation: "value × (SI value of the first unit) / (SI value of the second); temperature scales shift by their zeros",
  sources: ["si-brochure", "nist-sp811", "nist-hb44", "german-degree"],
  validity: "Both units must tell the same kind of quantity; hardness and alkalinity are different kinds",
  compute: ({ value, from, to }) => {
    try {
      return { value: convert(value, from, to) };
    } catch (error) {
      if (!(error instanceof UnitError)) throw error;
      throw new RelationError("unit-conversion", [{ input: "to", message: error.message }]);
    }
  },
});

const ALKALINITY_UNITS = ["meq/L", "dKH", "mg/L CaCO3", "mg/L HCO3", "°fH", "°e", "gpg"] as const;

const alkalinityScales = relation({
  id: "alkalinity-scales",
  title: "Alkalinity in every scale of the trade",
  room: "units",
  inputs: {
    value: { kind: "number", label: "Alkalinity in the chosen scale", unit: "1", min: -10000, max: 10000 },
    scale: { kind: "choice", label: "Scale it is told in", options: ALKALINITY_UNITS, default: "dKH" },
  },
  outputs: {
    milliequivalents: { label: "Charge equivalents", unit: "meq/L" },
    german_degrees: { label: "German degrees", unit: "dKH" },
    as_caco3: { label: "Told as calcium carbonate", unit: "mg/L CaCO3 (alkalinity)" },
    as_bicarbonate: { label: "Told as bicarbonate", unit: "mg/L HCO3" },
    french_degrees: { label: "French degrees", unit: "°fH (alkalinity)" },
    english_degrees: { label: "English degrees", unit: "°e (alkalinity)" },
    grains_per_us_gallon: { label: "Grains per US gallon", unit: "gpg (alkalinity)" },
  },
  equation: "1 dKH = 10 mg/L CaO = 20/56.077 meq/L; 1 meq/L = 50.043 mg/L CaCO3 = 61.016 mg/L HCO3",
  sources: ["german-degree", "hardness-scales", "iupac-weights"],
  compute: ({ value, scale }) => {
    const milliequivalents = convert(value, scale, "meq/L");
    return {
      milliequivalents,
      german_degrees: convert(milliequivalents, "meq/L", "dKH"),
      as_caco3: convert(milliequivalents, "meq/L", "mg/L CaCO3"),
      as_bicarbonate: convert(milliequivalents, "meq/L", "mg/L HCO3"),
      french_degrees: convert(milliequivalents, "meq/L", "°fH"),
      english_degrees: convert(milliequivalents, "meq/L", "°e"),
      grains_per_us_gallon: convert(milliequivalents, "meq/L", "gpg"),
    };
  },
});

function hardnessIn(mmolPerLitre: number) {
  return {
    millimoles: mmolPerLitre,
    // Both ions carry two charges.
    milliequivalents: 2 * mmolPerLitre,
    german_degrees: convert(mmolPerLitre, "mmol/L", "dGH"),
    as_caco3: convert(mmolPerLitre, "mmol/L", "mg/L CaCO3"),
    french_degrees: convert(mmolPerLitre, "mmol/L", "°fH"),
    english_degrees: convert(mmolPerLitre, "mmol/L", "°e"),
    grains_per_us_gallon: convert(mmolPerLitre, "mmol/L", "gpg"),
  };
}

const HARDNESS_OUTPUTS = {
  millimoles: { label: "Calcium and magnesium together", unit: "mmol/L" },
  milliequivalents: { label: "Their charge equivalents", unit: "meq/L" },
  german_degrees: { label: "German degrees", unit: "dGH" },
  as_caco3: { label: "Told as calcium carbonate", unit: "mg/L CaCO3 (hardness)" },
  french_degrees: { label: "French degrees", unit: "°fH (hardness)" },
  english_degrees: { label: "English degrees", unit: "°e (hardness)" },
  grains_per_us_gallon: { label: "Grains per US gallon", unit: "gpg (hardness)" },
} as const;

const hardnessScales = relation({
  id: "hardness-scales",
  title: "Total hardness in every scale of the trade",
  room: "units",
  inputs: {
    value: { kind: "number", label: "Hardness in the chosen scale", unit: "1", min: 0, max: 10000 },
    scale: {
      kind: "choice",
      label: "Scale it is told in",
      options: ["mmol/L", "dGH", "mg/L CaCO3", "°fH", "°e", "gpg"],
      default: "dGH",
    },
  },
  outputs: {
    ...HARDNESS_OUTPUTS,
    calcium: { label: "Calcium that makes it alone", unit: "mg/L" },
    magnesium: { label: "Magnesium that makes it alone", unit: "mg/L" },
    magnesium_oxide: { label: "Magnesium oxide that makes it alone", unit: "mg/L" },
  },
  equation: "1 dGH = 10 mg/L CaO = 10/56.077 mmol/L of calcium and magnesium; 1 mmol/L = 100.086 mg/L CaCO3",
  sources: ["german-degree", "hardness-scales", "iupac-weights"],
  compute: ({ value, scale }) => {
    const mmol = convert(value, scale, "mmol/L");
    return {
      ...hardnessIn(mmol),
      calcium: mmol * molarMass("Ca"),
      magnesium: mmol * molarMass("Mg"),
      magnesium_oxide: mmol * molarMass("MgO"),
    };
  },
});

const hardnessOfIons = relation({
  id: "hardness-of-calcium-and-magnesium",
  title: "Total hardness from calcium and magnesium",
  room: "units",
  inputs: {
    calcium: { kind: "number", label: "Calcium", unit: "mg/L", min: 0, max: 100000 },
    magnesium: { kind: "number", label: "Magnesium", unit: "mg/L", min: 0, max: 100000 },
  },
  outputs: HARDNESS_OUTPUTS,
  equation: "calcium / 40.078 + magnesium / 24.305 in mmol/L; 1 dGH = 10/56.077 mmol/L",
  sources: ["german-degree", "hardness-scales", "iupac-weights"],
  validity: "Strontium and other divalent ions are left out; they are traces in fresh water",
  compute: ({ calcium, magnesium }) => hardnessIn(calcium / molarMass("Ca") + magnesium / molarMass("Mg")),
});

const volumeScales = relation({
  id: "volume-scales",
  title: "Volume in metric, US and imperial units",
  room: "units",
  inputs: {
    value: { kind: "number", label: "Volume in the chosen unit", unit: "1", min: 0, max: 1e9 },
    scale: {
      kind: "choice",
      label: "Unit it is told in",
      options: [
        "L",
        "mL",
        "m3",
        "US gal",
        "imp gal",
        "US qt",
        "US pt",
        "US fl oz",
        "imp pt",
        "imp fl oz",
        "ft3",
        "in3",
      ],
      default: "L",
    },
  },
  outputs: {
    litres: { label: "Litres", unit: "L" },
    cubic_metres: { label: "Cubic metres", unit: "m3" },
    us_gallons: { label: "US gallons", unit: "US gal" },
    imperial_gallons: { label: "Imperial gallons", unit: "imp gal" },
    cubic_feet: { label: "Cubic feet", unit: "ft3" },
    cubic_inches: { label: "Cubic inches", unit: "in3" },
  },
  equation: "US gallon = 231 in3 = 3.785411784 L; imperial gallon = 4.54609 L; in = 25.4 mm",
  sources: ["nist-sp811", "nist-hb44"],
  compute: ({ value, scale }) => ({
    litres: convert(value, scale, "L"),
    cubic_metres: convert(value, scale, "m3"),
    us_gallons: convert(value, scale, "US gal"),
    imperial_gallons: convert(value, scale, "imp gal"),
    cubic_feet: convert(value, scale, "ft3"),
    cubic_inches: convert(value, scale, "in3"),
  }),
});

const temperatureScales = relation({
  id: "temperature-scales",
  title: "Temperature on the three scales",
  room: "units",
  inputs: {
    value: { kind: "number", label: "Temperature on the chosen scale", unit: "1", min: -460, max: 10000 },
    scale: { kind: "choice", label: "Scale", options: ["°C", "°F", "K"], default: "°C" },
  },
  outputs: {
    celsius: { label: "Degrees Celsius", unit: "°C" },
    fahrenheit: { label: "Degrees Fahrenheit", unit: "°F" },
    kelvin: { label: "Kelvin", unit: "K" },
  },
  equation: "t/°F = 1.8 t/°C + 32; T/K = t/°C + 273.15",
  sources: ["si-brochure", "nist-sp811"],
  compute: ({ value, scale }) => {
    const kelvin = convert(value, scale, "K");
    if (kelvin < 0) {
      throw new RelationError("temperature-scales", [
        { input: "value", message: `${value} ${scale} lies below absolute zero (-273.15 °C, -459.67 °F)` },
      ]);
    }
    return { celsius: convert(value, scale, "°C"), fahrenheit: convert(value, scale, "°F"), kelvin };
  },
});

const amountConcentration = relation({
  id: "amount-concentration",
  title: "Amount concentration from mass concentration",
  room: "units",
  inputs: {
    concentration: { kind: "number", label: "Mass concentration", unit: "mg/L", min: 0, max: 1e7 },
    molar_mass: { kind: "number", label: "Molar mass of the substance", unit: "g/mol", min: 1, max: 10000 },
  },
  outputs: { concentration: { label: "Amount concentration", unit: "mmol/L" } },
  equation: "mass concentration / molar mass",
  sources: ["si-brochure"],
  compute: ({ concentration, molar_mass }) => ({
    concentration: convertAmount(concentration, "mg/L", "mmol/L", molar_mass),
  }),
});

const massConcentration = relation({
  id: "mass-concentration",
  title: "Mass concentration from amount concentration",
  room: "units",
  inputs: {
    concentration: { kind: "number", label: "Amount concentration", unit: "mmol/L", min: 0, max: 1e7 },
    molar_mass: { kind: "number", label: "Molar mass of the substance", unit: "g/mol", min: 1, max: 10000 },
  },
  outputs: { concentration: { label: "Mass concentration", unit: "mg/L" } },
  equation: "amount concentration × molar mass",
  sources: ["si-brochure"],
  compute: ({ concentration, molar_mass }) => ({
    concentration: convertAmount(concentration, "mmol/L", "mg/L", molar_mass),
  }),
});

const molality = relation({
  id: "molality",
  title: "Molality of a dilute solution from its mass concentration",
  room: "units",
  inputs: {
    concentration: { kind: "number", label: "Mass concentration", unit: "mg/L", min: 0, max: 5000 },
    molar_mass: { kind: "number", label: "Molar mass of the substance", unit: "g/mol", min: 1, max: 10000 },
    density: { kind: "number", label: "Density of the water", unit: "kg/L", min: 0.95, max: 1.05, default: 0.997 },
  },
  outputs: { molality: { label: "Amount per mass of water", unit: "mmol/kg" } },
  equation: "mass concentration / (molar mass × density of water)",
  sources: ["si-brochure"],
  validity:
    "Dilute water only: the mass of the dissolved substance is left out, 0.5 % at 5 g/L; default density at 25 °C",
  compute: ({ concentration, molar_mass, density }) => ({
    molality: convertAmount(concentration, "mg/L", "mmol/L", molar_mass) / density,
  }),
});

/** Ways to tell the same nutrient, by the element they share. */
const TOLD_AS = {
  N: ["N", "NO3", "NO2", "NH4", "NH3"],
  P: ["P", "PO4", "P2O5"],
  K: ["K", "K2O"],
  S: ["S", "SO4", "SO3"],
  C: ["C", "CO2", "HCO3", "CO3"],
  Ca: ["Ca", "CaO"],
  Mg: ["Mg", "MgO"],
  Si: ["Si", "SiO2"],
  B: ["B", "B2O3"],
} as const;

const BASIS_OPTIONS = Object.values(TOLD_AS).flat();

function elementOf(basis: string): string {
  return Object.entries(TOLD_AS).find(([, list]) => (list as readonly string[]).includes(basis))?.[0] ?? "";
}

const ionAndElement = relation({
  id: "ion-and-element",
  title: "A nutrient told as another ion, oxide or element",
  room: "units",
  inputs: {
    concentration: { kind: "number", label: "Concentration or content as told", unit: "mg/L", min: 0, max: 1e7 },
    from: { kind: "choice", label: "What it is told as", options: BASIS_OPTIONS },
    to: { kind: "choice", label: "What to tell it as", options: BASIS_OPTIONS },
  },
  outputs: {
    concentration: { label: "The same nutrient, told the other way", unit: "mg/L" },
    factor: { label: "Factor between them", unit: "1" },
  },
  equation:
    "concentration × (molar mass of the wanted, per atom of the shared element) / (molar mass of the told, per atom)",
  sources: ["iupac-weights"],
  validity:
    "Both must hold the same element. 10 mg/L of nitrate told as N is 44.3 mg/L of the ion: look which one a report means",
  compute: ({ concentration, from, to }) => {
    const element = elementOf(from);
    if (elementOf(to) !== element) {
      const message = `${to} does not tell ${element}; allowed: ${TOLD_AS[element as keyof typeof TOLD_AS].join(", ")}`;
      throw new RelationError("ion-and-element", [{ input: "to", message }]);
    }
    const factor = elementShare(from, element) / elementShare(to, element);
    return { concentration: concentration * factor, factor };
  },
});

/** Salts, oxides and other compounds of the trade whose content can be asked for. */
const COMPOUNDS = [
  ...["KNO3", "Ca(NO3)2", "Ca(NO3)2·4H2O", "Mg(NO3)2·6H2O", "NaNO3", "NH4NO3", "(NH4)2SO4", "NH4Cl", "CO(NH2)2"],
  ...["KH2PO4", "K2HPO4", "NH4H2PO4", "Na2HPO4", "K2SO4", "KCl", "KHCO3", "K2CO3", "NaHCO3", "Na2CO3", "NaCl"],
  ...["CaCO3", "CaO", "Ca(OH)2", "CaSO4", "CaSO4·2H2O", "CaCl2", "CaCl2·2H2O", "CaCl2·6H2O", "CaMg(CO3)2"],
  ...["MgSO4", "MgSO4·7H2O", "MgCl2·6H2O", "MgCO3", "MgO", "FeSO4·7H2O", "C12H22FeO14·2H2O", "FeCl3·6H2O"],
  ...["MnSO4·H2O", "ZnSO4·7H2O", "CuSO4·5H2O", "H3BO3", "Na2B4O7·10H2O", "Na2MoO4·2H2O"],
  ...["CO2", "O2", "N2", "H2O", "NO3", "NO2", "NH4", "NH3", "PO4", "P2O5", "K2O", "SO4", "SO3", "HCO3", "CO3"],
] as const;

const COMPOUND_ELEMENTS = [
  "N",
  "P",
  "K",
  "Ca",
  "Mg",
  "S",
  "Cl",
  "Na",
  "C",
  "O",
  "H",
  "Fe",
  "Mn",
  "Zn",
  "Cu",
  "B",
  "Mo",
] as const;

const molarMassOf = relation({
  id: "molar-mass",
  title: "Molar mass of a compound",
  room: "units",
  inputs: { formula: { kind: "choice", label: "Formula", options: COMPOUNDS } },
  outputs: { molar_mass: { label: "Molar mass", unit: "g/mol" } },
  equation: "sum of the atomic weights of the formula",
  sources: ["iupac-weights"],
  compute: ({ formula }) => ({ molar_mass: molarMass(formula) }),
});

const elementContent = relation({
  id: "element-content",
  title: "Element in a pure compound",
  room: "units",
  inputs: {
    formula: { kind: "choice", label: "Formula", options: COMPOUNDS },
    element: { kind: "choice", label: "Element", options: COMPOUND_ELEMENTS },
  },
  outputs: { content: { label: "Mass of the element per mass of the pure compound", unit: "mg/g" } },
  equation: "1000 × atoms × atomic weight / molar mass",
  sources: ["iupac-weights"],
  validity: "Pure compound with just the crystal water of its formula; a damp or impure product holds less",
  compute: ({ formula, element }) => {
    if (!atomCounts(formula).has(element)) {
      const message = `${formula} holds no ${element}; allowed: ${[...atomCounts(formula).keys()].join(", ")}`;
      throw new RelationError("element-content", [{ input: "element", message }]);
    }
    return { content: 1000 * elementShare(formula, element) };
  },
});

/** The room's relations. */
export const relations: readonly AnyRelation[] = [
  unitConversion,
  alkalinityScales,
  hardnessScales,
  hardnessOfIons,
  volumeScales,
  temperatureScales,
  amountConcentration,
  massConcentration,
  molality,
  ionAndElement,
  molarMassOf,
  elementContent,
];
