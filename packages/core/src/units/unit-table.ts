import type { BASES } from "./dimension.ts";
import { molarMass } from "./molar-mass.ts";

/** Base units of the room; everything else is defined from them. `si` is the SI value of one (a gram is 1/1000 kg). */
export interface BaseUnit {
  readonly symbol: string;
  readonly base: (typeof BASES)[number];
  readonly si: string;
  readonly prefixes?: string;
  readonly also?: readonly string[];
  readonly words?: readonly string[];
}

/** A unit defined by others, with the definition's source where it is not the SI itself. */
export interface DefinedUnit {
  /** House spelling. */
  readonly symbol: string;
  /** A number and a unit expression of units defined above. */
  readonly is: string;
  /** SI prefixes it takes, as letters; `u` stands for micro and is also read as µ and μ. */
  readonly prefixes?: string;
  /** Other spellings, read exactly as they stand. */
  readonly also?: readonly string[];
  /** Names, read in capitals or small letters alike; prefixed names (`millilitres`) are made from the first ones. */
  readonly words?: readonly string[];
  /** How a person sees it, where not as `symbol`. */
  readonly shown?: string;
  /** Value in kelvin at its own zero (the temperature scales). */
  readonly zero?: string;
  /** A temperature difference: the same size as the scale's degree, without its zero. */
  readonly difference?: boolean;
  /** Stands alone only: its spelling cannot be put into a compound. */
  readonly alone?: boolean;
}

export const PREFIXES: Readonly<Record<string, { readonly factor: string; readonly name: string }>> = {
  G: { factor: "1e9", name: "giga" },
  M: { factor: "1e6", name: "mega" },
  k: { factor: "1e3", name: "kilo" },
  h: { factor: "1e2", name: "hecto" },
  d: { factor: "1e-1", name: "deci" },
  c: { factor: "1e-2", name: "centi" },
  m: { factor: "1e-3", name: "milli" },
  u: { factor: "1e-6", name: "micro" },
  n: { factor: "1e-9", name: "nano" },
  p: { factor: "1e-12", name: "pico" },
};

export const BASE_TABLE: readonly BaseUnit[] = [
  { symbol: "m", base: "length", si: "1", prefixes: "kcdmunp", words: ["metres", "meters", "metre", "meter"] },
  {
    symbol: "g",
    base: "mass",
    si: "0.001",
    // No mega: "Mg" would be taken for mg.
    prefixes: "kcdmunp",
    also: ["Kg", "KG", "gm"],
    words: ["grams", "grammes", "gram", "gramme"],
  },
  { symbol: "s", base: "time", si: "1", prefixes: "mun", words: ["seconds", "second", "sec", "secs"] },
  { symbol: "K", base: "temperature", si: "1", prefixes: "m", words: ["kelvins", "kelvin"] },
  { symbol: "mol", base: "amount", si: "1", prefixes: "kcmunp", words: ["moles", "mole", "mols"] },
  { symbol: "eq", base: "equivalents", si: "1", prefixes: "cmu", also: ["val"], words: ["equivalents", "equivalent"] },
  { symbol: "A", base: "current", si: "1", prefixes: "kmu", words: ["amperes", "ampere", "amps", "amp"] },
  { symbol: "lm", base: "luminous flux", si: "1", prefixes: "kM", words: ["lumens", "lumen"] },
  { symbol: "NTU", base: "turbidity", si: "1", also: ["FNU"] },
  { symbol: "pieces", base: "count", si: "1", words: ["piece", "pcs", "pc"] },
  { symbol: "rad", base: "angle", si: "1", prefixes: "m", words: ["radians", "radian"] },
];

const CAO = molarMass("CaO").toFixed(3);
const CACO3 = molarMass("CaCO3").toFixed(3);

/** What a scale of hardness may measure. */
const HARDNESS = "(hardness)";
const ALKALINITY = "(alkalinity)";

/** A scale told as milligrams of CaCO3 in some litres of water, in both of its meanings. */
function asCarbonate(symbol: string, milligrams: number, litres: string): DefinedUnit[] {
  return [
    { symbol: `${symbol} ${HARDNESS}`, is: `${milligrams}/${CACO3} mmol/${litres} L`, shown: symbol, alone: true },
    { symbol: `${symbol} ${ALKALINITY}`, is: `${2 * milligrams}/${CACO3} meq/${litres} L`, shown: symbol, alone: true },
  ];
}

/**
 * Definitions: SI units and their decimal multiples (SI Brochure); inch, pound, gallons, standard gravity and atmosphere
 * (NIST SP 811, 2008, App. B and NIST Handbook 44, App. C); German degree = 10 mg/L CaO (with the abridged atomic weights).
 */
export const UNIT_TABLE: readonly DefinedUnit[] = [
  // Length
  { symbol: "in", is: "25.4 mm", also: ['"', "″", "”", "''", "′′"], words: ["inches", "inch"] },
  { symbol: "ft", is: "12 in", also: ["'", "′", "’"], words: ["feet", "foot"] },
  { symbol: "yd", is: "3 ft", words: ["yards", "yard"] },
  { symbol: "mi", is: "1760 yd", words: ["miles", "mile"] },
  // Volume
  {
    symbol: "L",
    is: "1 dm3",
    prefixes: "hdcmun",
    also: ["l", "ℓ"],
    words: ["litres", "liters", "litre", "liter", "ltr"],
  },
  { symbol: "US gal", is: "231 in3", words: ["us gallons", "us gallon", "us gals"] },
  { symbol: "US qt", is: "0.25 US gal", words: ["us quarts", "us quart"] },
  { symbol: "US pt", is: "0.5 US qt", words: ["us pints", "us pint"] },
  { symbol: "US cup", is: "0.5 US pt", words: ["us cups"] },
  { symbol: "US fl oz", is: "0.0625 US pt", words: ["us fluid ounces", "us fluid ounce"] },
  { symbol: "US tbsp", is: "0.5 US fl oz", words: ["us tablespoons", "us tablespoon"] },
  { symbol: "US tsp", is: "1/3 US tbsp", words: ["us teaspoons", "us teaspoon"] },
  {
    symbol: "imp gal",
    is: "4.54609 L",
    words: ["imperial gallons", "imperial gallon", "imperial gal", "uk gal", "uk gallons", "uk gallon", "imp gallons"],
  },
  { symbol: "imp qt", is: "0.25 imp gal", words: ["imperial quarts", "imperial quart"] },
  { symbol: "imp pt", is: "0.5 imp qt", words: ["imperial pints", "imperial pint", "uk pt", "uk pints"] },
  { symbol: "imp fl oz", is: "0.05 imp pt", words: ["imperial fluid ounces", "uk fl oz"] },
  { symbol: "metric cup", is: "250 mL", words: ["metric cups"] },
  { symbol: "metric tbsp", is: "15 mL", words: ["metric tablespoons", "metric tablespoon"] },
  { symbol: "metric tsp", is: "5 mL", words: ["metric teaspoons", "metric teaspoon"] },
  // Mass
  { symbol: "t", is: "1000 kg", words: ["tonnes", "tonne", "metric tons", "metric ton"] },
  { symbol: "lb", is: "0.45359237 kg", words: ["pounds", "pound", "lbs"] },
  { symbol: "avdp oz", is: "0.0625 lb", shown: "oz", words: ["avoirdupois ounces", "oz avdp", "avoirdupois oz"] },
  { symbol: "grain", is: "1/7000 lb", words: ["grains"] },
  { symbol: "short ton", is: "2000 lb", words: ["short tons", "us ton", "us tons"] },
  { symbol: "long ton", is: "2240 lb", words: ["long tons", "imperial ton", "uk ton"] },
  // Time
  { symbol: "min", is: "60 s", words: ["minutes", "minute", "mins"] },
  { symbol: "h", is: "60 min", words: ["hours", "hour", "hrs", "hr"] },
  { symbol: "d", is: "24 h", words: ["days", "day"] },
  { symbol: "week", is: "7 d", words: ["weeks", "wk", "wks"] },
  // Julian year; the calendar's years differ from it by up to 0.2 %.
  { symbol: "year", is: "365.25 d", words: ["years", "yr", "yrs"] },
  { symbol: "Hz", is: "1 1/s", prefixes: "kMG", words: ["hertz"] },
  // Temperature: scales with their zero, and their degrees as differences
  {
    symbol: "°C",
    is: "1 K",
    zero: "273.15",
    also: ["C", "℃", "degC"],
    words: ["°c", "celsius", "deg c", "degree celsius", "degrees celsius", "degrees c", "centigrade"],
  },
  {
    symbol: "°F",
    is: "5/9 K",
    zero: "45967/180",
    also: ["F", "℉", "degF"],
    words: ["fahrenheit", "deg f", "degree fahrenheit", "degrees fahrenheit", "degrees f"],
  },
  {
    symbol: "Δ°C",
    is: "1 K",
    shown: "°C",
    difference: true,
    also: ["∆°C", "ΔC", "deltaC"],
    words: ["delta °c", "delta c"],
  },
  {
    symbol: "Δ°F",
    is: "5/9 K",
    shown: "°F",
    difference: true,
    also: ["∆°F", "ΔF", "deltaF"],
    words: ["delta °f", "delta f"],
  },
  // Force, pressure, energy, power
  { symbol: "N", is: "1 kg*m/s2", prefixes: "kMm", words: ["newtons", "newton"] },
  { symbol: "kgf", is: "9.80665 N" },
  { symbol: "lbf", is: "0.45359237 kgf" },
  { symbol: "Pa", is: "1 N/m2", prefixes: "GMkhmu", words: ["pascals", "pascal"] },
  { symbol: "bar", is: "1e5 Pa", prefixes: "m", words: ["bars"] },
  { symbol: "atm", is: "101325 Pa", words: ["atmospheres", "atmosphere"] },
  { symbol: "psi", is: "1 lbf/in2" },
  { symbol: "mmHg", is: "133.322387415 Pa" },
  { symbol: "inHg", is: "25.4 mmHg" },
  { symbol: "Torr", is: "1/760 atm", words: ["torr"] },
  { symbol: "mH2O", is: "9806.65 Pa", prefixes: "cm", shown: "mH₂O" },
  { symbol: "inH2O", is: "2.54 cmH2O", shown: "inH₂O" },
  { symbol: "ftH2O", is: "12 inH2O", shown: "ftH₂O" },
  { symbol: "J", is: "1 N*m", prefixes: "GMkmu", words: ["joules", "joule"] },
  { symbol: "W", is: "1 J/s", prefixes: "GMkmu", words: ["watts", "watt"] },
  {
    symbol: "Wh",
    is: "1 W*h",
    prefixes: "Mkm",
    also: ["kwh", "KWh", "KWH", "Kwh"],
    words: ["watt hours", "watt hour"],
  },
  { symbol: "BTU", is: "1055.05585262 J", words: ["btu", "btus"] },
  // Electricity
  { symbol: "V", is: "1 W/A", prefixes: "kmu", words: ["volts", "volt"] },
  { symbol: "ohm", is: "1 V/A", prefixes: "Mkm", shown: "Ω", also: ["Ω", "Ω"], words: ["ohms"] },
  { symbol: "S", is: "1 A/V", prefixes: "mun", words: ["siemens"] },
  { symbol: "VA", is: "1 W", prefixes: "kM" },
  { symbol: "Ah", is: "1 A*h", prefixes: "m" },
  // Light
  { symbol: "sr", is: "1 rad2", words: ["steradians", "steradian"] },
  { symbol: "cd", is: "1 lm/sr", prefixes: "km", words: ["candelas", "candela"] },
  { symbol: "lx", is: "1 lm/m2", prefixes: "km", words: ["lux"] },
  { symbol: "fc", is: "1 lm/ft2", words: ["footcandles", "footcandle", "foot-candles", "foot candles"] },
  { symbol: "deg", is: "0.017453292519943295 rad", shown: "°", also: ["°"], words: ["degrees", "degree"] },
  // Amount, equivalents, water
  { symbol: "M", is: "1 mol/L", prefixes: "mun" },
  { symbol: "molc", is: "1 eq", prefixes: "cm", also: ["mol_c", "mol(+)"] },
  {
    symbol: "dGH",
    is: `10/${CAO} mmol/L`,
    shown: "°dGH",
    also: ["°dGH", "°GH"],
    words: ["dgh", "°dgh", "°gh", "deg gh", "degrees gh"],
  },
  {
    symbol: "dKH",
    is: `20/${CAO} meq/L`,
    shown: "°dKH",
    also: ["°dKH", "°KH"],
    words: ["dkh", "°dkh", "°kh", "deg kh", "degrees kh"],
  },
  ...asCarbonate("°fH", 10, "1"),
  ...asCarbonate("°e", 64.79891, "4.54609"),
  ...asCarbonate("gpg", 64.79891, "3.785411784"),
  // Shares
  { symbol: "%", is: "0.01 1", words: ["percent", "per cent", "pct"] },
  { symbol: "‰", is: "0.001 1" },
  { symbol: "ppm(v)", is: "1e-6 1", also: ["ppmv"] },
  { symbol: "ppb(v)", is: "1e-9 1", also: ["ppbv"] },
  // Counted things
  { symbol: "bubbles", is: "1 pieces", words: ["bubble"] },
  { symbol: "plants", is: "1 pieces", words: ["plant", "stems", "stem"] },
  { symbol: "animals", is: "1 pieces", words: ["animal", "fish", "fishes", "shrimp", "shrimps", "snails", "snail"] },
];

/** Trade shorthand for a whole expression. */
export const SHORTHAND: Readonly<Record<string, string>> = {
  bps: "bubbles/s",
  bpm: "bubbles/min",
  gph: "gal/h",
  gpm: "gal/min",
  gpd: "gal/d",
  lph: "L/h",
  lpm: "L/min",
  cc: "mL",
  ccm: "cm3",
  cfm: "ft3/min",
  cfh: "ft3/h",
  fps: "ft/s",
  mph: "mi/h",
  "sq ft": "ft2",
  "square feet": "ft2",
  "square foot": "ft2",
  "sq in": "in2",
  "square inches": "in2",
  "square inch": "in2",
  "square metres": "m2",
  "square meters": "m2",
  "cu ft": "ft3",
  "cubic feet": "ft3",
  "cubic foot": "ft3",
  "cu in": "in3",
  "cubic inches": "in3",
  "cubic inch": "in3",
  "cubic metres": "m3",
  "cubic meters": "m3",
};

/** One thing that an ambiguous word can mean. */
export interface Meaning {
  readonly unit: string;
  readonly meaning: string;
  /** Whether a field that expects just this kind of quantity settles the question. */
  readonly fieldSettles: boolean;
}

export interface AmbiguousWord {
  readonly spellings: readonly string[];
  readonly meanings: readonly Meaning[];
  /** Asked about in typed text only: in code the spelling has one meaning. */
  readonly typedOnly?: boolean;
}

const MEASURES: Readonly<Record<string, string>> = { US: "US", imp: "imperial", metric: "metric" };

/** Measures of one name that differ by country, each with its size for the person who is asked. */
function measures(symbol: string, name: string, sizes: Readonly<Record<string, string>>): Meaning[] {
  return Object.entries(sizes).map(([of, size]) => ({
    unit: `${of} ${symbol}`,
    meaning: `${MEASURES[of]} ${name}, ${size}`,
    fieldSettles: false,
  }));
}

function hardnessScale(symbol: string, name: string, fieldSettles = true): Meaning[] {
  return [
    { unit: `${symbol} ${HARDNESS}`, meaning: `${name} of total hardness`, fieldSettles },
    { unit: `${symbol} ${ALKALINITY}`, meaning: `${name} of alkalinity`, fieldSettles },
  ];
}

/** Answers for a mass of a salt that may tell either. */
const STANDS_FOR: readonly Meaning[] = [
  { unit: "hardness", meaning: "total hardness", fieldSettles: true },
  { unit: "alkalinity", meaning: "alkalinity", fieldSettles: true },
];

const OUNCE: readonly Meaning[] = [
  { unit: "avdp oz", meaning: "ounce of mass", fieldSettles: true },
  { unit: "US fl oz", meaning: "US fluid ounce", fieldSettles: true },
  { unit: "imp fl oz", meaning: "imperial fluid ounce", fieldSettles: true },
];

/**
 * Words that are asked about, never guessed. Keys are what a caller's `context` answers, e.g. `{ gal: "US gal" }`.
 * `ppm` is asked even in a field of mg/L, because reports use it for the ion, for the element and for CaCO3.
 */
export const AMBIGUOUS: Readonly<Record<string, AmbiguousWord>> = {
  gal: {
    spellings: ["gal", "gals", "gallon", "gallons"],
    meanings: measures("gal", "gallon", { US: "3.785 L", imp: "4.546 L" }),
  },
  qt: {
    spellings: ["qt", "qts", "quart", "quarts"],
    meanings: measures("qt", "quart", { US: "946 mL", imp: "1137 mL" }),
  },
  pt: {
    spellings: ["pt", "pts", "pint", "pints"],
    meanings: measures("pt", "pint", { US: "473 mL", imp: "568 mL" }),
  },
  "fl oz": {
    spellings: ["fl oz", "floz", "fluid ounce", "fluid ounces"],
    meanings: measures("fl oz", "fluid ounce", { US: "29.6 mL", imp: "28.4 mL" }),
  },
  cup: { spellings: ["cup", "cups"], meanings: measures("cup", "cup", { US: "237 mL", metric: "250 mL" }) },
  tbsp: {
    spellings: ["tbsp", "tablespoon", "tablespoons"],
    meanings: measures("tbsp", "tablespoon", { US: "14.8 mL", metric: "15 mL" }),
  },
  tsp: {
    spellings: ["tsp", "teaspoon", "teaspoons"],
    meanings: measures("tsp", "teaspoon", { US: "4.93 mL", metric: "5 mL" }),
  },
  oz: { spellings: ["oz", "ounce", "ounces"], meanings: OUNCE },
  gr: {
    spellings: ["gr"],
    meanings: [
      { unit: "g", meaning: "gram", fieldSettles: false },
      { unit: "grain", meaning: "grain, 64.8 mg", fieldSettles: false },
    ],
  },
  ton: {
    spellings: ["ton", "tons"],
    meanings: [
      { unit: "t", meaning: "metric ton, 1000 kg", fieldSettles: false },
      { unit: "short ton", meaning: "US ton, 2000 lb", fieldSettles: false },
      { unit: "long ton", meaning: "imperial ton, 2240 lb", fieldSettles: false },
    ],
  },
  psf: {
    spellings: ["psf"],
    meanings: [
      { unit: "lbf/ft2", meaning: "pressure in pounds of force per square foot", fieldSettles: true },
      { unit: "lb/ft2", meaning: "pounds of mass per square foot", fieldSettles: true },
    ],
  },
  ppm: {
    spellings: ["ppm"],
    meanings: [
      { unit: "mg/L", meaning: "mg of the thing itself per litre", fieldSettles: false },
      { unit: `mg/L CaCO3 ${ALKALINITY}`, meaning: "alkalinity told as calcium carbonate", fieldSettles: false },
      { unit: `mg/L CaCO3 ${HARDNESS}`, meaning: "hardness told as calcium carbonate", fieldSettles: false },
      { unit: "ppm(v)", meaning: "parts per million by mole or volume of gas", fieldSettles: true },
    ],
  },
  ppb: {
    spellings: ["ppb"],
    meanings: [
      { unit: "ug/L", meaning: "µg of the thing itself per litre", fieldSettles: false },
      { unit: "ppb(v)", meaning: "parts per billion by mole or volume of gas", fieldSettles: true },
    ],
  },
  ppt: {
    spellings: ["ppt"],
    meanings: [
      { unit: "g/L", meaning: "parts per thousand", fieldSettles: false },
      { unit: "ng/L", meaning: "parts per trillion", fieldSettles: false },
    ],
  },
  deg: {
    spellings: ["°", "deg", "degree", "degrees"],
    typedOnly: true,
    meanings: [
      { unit: "°C", meaning: "degree Celsius", fieldSettles: false },
      { unit: "°F", meaning: "degree Fahrenheit", fieldSettles: false },
      { unit: "dKH", meaning: "German degree of alkalinity", fieldSettles: false },
      { unit: "dGH", meaning: "German degree of total hardness", fieldSettles: false },
      ...hardnessScale("°fH", "French degree", false),
      ...hardnessScale("°e", "English degree", false),
      { unit: "deg", meaning: "degree of angle", fieldSettles: true },
    ],
  },
  "°f": {
    spellings: ["°f"],
    meanings: [
      { unit: "°F", meaning: "degree Fahrenheit", fieldSettles: true },
      ...hardnessScale("°fH", "French degree"),
    ],
  },
  KH: {
    spellings: ["KH"],
    meanings: [
      { unit: "dKH", meaning: "German degree of alkalinity", fieldSettles: false },
      { unit: `mg/L CaCO3 ${ALKALINITY}`, meaning: "alkalinity told as calcium carbonate", fieldSettles: false },
    ],
  },
  GH: {
    spellings: ["GH"],
    meanings: [
      { unit: "dGH", meaning: "German degree of total hardness", fieldSettles: false },
      { unit: `mg/L CaCO3 ${HARDNESS}`, meaning: "hardness told as calcium carbonate", fieldSettles: false },
    ],
  },
  dH: {
    spellings: ["dH", "°dH", "°d", "german degrees", "german degree"],
    meanings: [
      { unit: "dGH", meaning: "German degree of total hardness", fieldSettles: true },
      { unit: "dKH", meaning: "German degree of alkalinity", fieldSettles: true },
    ],
  },
  fH: { spellings: ["fH", "°fH", "°TH", "french degrees"], meanings: hardnessScale("°fH", "French degree") },
  e: {
    spellings: ["°e", "°eH", "°Clark", "clark", "english degrees"],
    meanings: hardnessScale("°e", "English degree"),
  },
  gpg: { spellings: ["gpg", "grains per gallon"], meanings: hardnessScale("gpg", "grain per US gallon") },
  CaCO3: { spellings: [], meanings: STANDS_FOR },
  CaO: { spellings: [], meanings: STANDS_FOR },
};

/** Words that are no unit, with what to write in their place. */
export const NO_UNIT: ReadonlyMap<string, string> = new Map(
  Object.entries({
    month: "months differ in length: write days or weeks",
    months: "months differ in length: write days or weeks",
    drop: "drops differ in size: count a syringe full and write mL",
    drops: "drops differ in size: count a syringe full and write mL",
    par: "PAR names the thing measured: write umol/m2/s",
    ppfd: "PPFD names the thing measured: write umol/m2/s",
    ph: "pH has no unit: write the number alone",
    tds: "TDS names the thing measured: write mg/L or uS/cm",
  }),
);
