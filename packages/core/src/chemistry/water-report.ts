import { ChemistryError } from "./chemistry-error.ts";
import { conductivityAt25 } from "./conductivity.ts";
import { meqPerDegree, mmolPerDegree } from "./hardness.ts";
import { molarMasses as M } from "./molar-masses.ts";
import { speciate } from "./speciate.ts";
import { pureWater, type TotalName, totalNames } from "./species.ts";
import { tradeCo2 } from "./trade-rule.ts";
import { perKilogram, perLitre } from "./water-properties.ts";

/** A figure of a report with the way it is written. */
export interface ReportFigure {
  readonly value: number;
  /**
   * E.g. "mg/L", "mg/L CaCO3", "mg/L as N", "German degree" or "°dH"; the ways of each line are in `reportNotations`.
   */
  readonly as: string;
}

const grain = 64.79891;
/** Ways of telling charge: meq/L in one unit of each. */
const byCharge = {
  "meq/L": 1,
  "mg/L CaCO3": 2 / M.caco3,
  "mg/L CaO": 2 / M.cao,
  "German degree": meqPerDegree,
  "French degree": 20 / M.caco3,
  "English degree": (2 * grain) / 4.54609 / M.caco3,
  "grain/US gal": (2 * grain) / 3.785411784 / M.caco3,
} as const;

/** mmol/L in one unit of each way an ion of this mass and charge is told. */
function ionWays(mass: number, charge: number, others: Readonly<Record<string, number>> = {}): Record<string, number> {
  const ways: Record<string, number> = {
    "mg/L": 1 / mass,
    "ug/L": 1e-3 / mass,
    "mmol/L": 1,
    ...others,
  };
  for (const [name, meq] of Object.entries(byCharge)) ways[name] = meq / charge;
  return ways;
}

const ways = {
  calcium: ionWays(M.ca, 2, { "mg/L Ca": 1 / M.ca }),
  magnesium: ionWays(M.mg, 2, { "mg/L Mg": 1 / M.mg, "mg/L MgO": 1 / M.mgo }),
  sodium: ionWays(M.na, 1, { "mg/L Na2O": 2 / M.na2o }),
  potassium: ionWays(M.k, 1, { "mg/L K2O": 2 / M.k2o }),
  chloride: ionWays(M.cl, 1),
  sulfate: ionWays(M.so4, 2, { "mg/L SO4": 1 / M.so4, "mg/L S": 1 / M.s }),
  nitrate: ionWays(M.no3, 1, { "mg/L NO3": 1 / M.no3, "mg/L N": 1 / M.n }),
  nitrite: ionWays(M.no2, 1, { "mg/L NO2": 1 / M.no2, "mg/L N": 1 / M.n }),
  ammonium: ionWays(M.nh4, 1, { "mg/L NH4": 1 / M.nh4, "mg/L NH3": 1 / M.nh3, "mg/L N": 1 / M.n }),
  phosphate: {
    "mg/L": 1 / M.po4,
    "ug/L": 1e-3 / M.po4,
    "mmol/L": 1,
    "mg/L PO4": 1 / M.po4,
    "mg/L P": 1 / M.p,
    "ug/L P": 1e-3 / M.p,
    "mg/L P2O5": 2 / M.p2o5,
  },
  boron: { "mg/L": 1 / M.b, "mg/L B": 1 / M.b, "mmol/L": 1, "ug/L": 1e-3 / M.b },
  /** mmol/L of calcium and magnesium. */
  hardness: ionWays(M.ca, 2, { "mg/L Ca": 1 / M.ca }),
  /** meq/L; "mmol/L" counts the acid used to titrate it. */
  alkalinity: {
    ...byCharge,
    "mmol/L": 1,
    "mg/L HCO3": 1 / M.hco3,
  },
} as const satisfies Record<string, Readonly<Record<string, number>>>;

export type ReportLine = keyof typeof ways;
export const reportLines = Object.keys(ways) as readonly ReportLine[];

/** Ways in which each line may be written. */
export const reportNotations: Readonly<Record<string, readonly string[]>> = Object.fromEntries(
  Object.entries(ways).map(([line, units]) => [line, Object.keys(units)]),
);

/** A water report; every line may be missing. */
export type WaterReport = Readonly<Partial<Record<ReportLine, ReportFigure>>> & {
  readonly ph?: number;
  /** °C; 15 when left out. */
  readonly temperature?: number;
  /** uS/cm at 25 °C. */
  readonly conductivity?: number;
  /** Dissolved organic carbon, mg/L. */
  readonly organicCarbon?: number;
};

export type RemarkCode =
  | "very-low-buffer"
  | "low-buffer"
  | "organic-acids"
  | "hardness-mismatch"
  | "charge-balance"
  | "balance-open"
  | "alkalinity-above-hardness"
  | "hardness-split-unknown"
  | "high-nitrate"
  | "conductivity-mismatch"
  | "no-alkalinity"
  | "no-carbonate-answer";

export interface Remark {
  readonly code: RemarkCode;
  readonly text: string;
}

/** Sums of charge, meq/L, and their difference as a share of half their sum. */
export interface ChargeCheck {
  readonly cations: number;
  readonly anions: number;
  /** Per cent; positive when anions are missing. */
  readonly error: number;
}

/** A report read. */
export interface ReadReport {
  /** What the report tells, mmol/L (alkalinity meq/L). */
  readonly mmol: Readonly<Partial<Record<ReportLine, number>>>;
  /** General hardness, dGH, from calcium and magnesium, else from the hardness told; null when neither is known. */
  readonly gh: number | null;
  /** Carbonate hardness, dKH. */
  readonly kh: number | null;
  /** Hardness as mg/L CaCO3. */
  readonly hardnessAsCaCO3: number | null;
  /** Only when both sides hold their main ions. */
  readonly charges: ChargeCheck | null;
  /** CO2, mg/L, by the trade's rule and worked out; null without pH or alkalinity. */
  readonly co2Trade: number | null;
  readonly co2: number | null;
  /** Conductivity at 25 °C reckoned from the ions, uS/cm. */
  readonly conductivity: number | null;
  readonly remarks: readonly Remark[];
}

/** Limits below are design values unless a source stands by them. */
const veryLowBuffer = 1;
const lowBuffer = 3;
/** Charge of organic acids per mass of organic carbon, meq/mg, from memory. */
const organicCharge = 0.01;
const organicShare = 0.05;
const mismatch = 0.05;
const smallestMismatch = 0.02;
/** Per cent of charge a good analysis keeps to (source standard-methods-1030). */
const chargeLimit = 5;
const conductivityLimit = 0.15;
/** Guideline for drinking water, mg/L of NO3 (source who-nitrate). */
const nitrateLimit = 50;

const totalOfLine: Readonly<Partial<Record<ReportLine, TotalName>>> = {
  calcium: "ca",
  magnesium: "mg",
  sodium: "na",
  potassium: "k",
  chloride: "cl",
  sulfate: "so4",
  nitrate: "no3",
  phosphate: "po4",
  ammonium: "nh4",
  boron: "b",
};

/** Short ways of writing, and the ways they stand for. */
const shortWays: Readonly<Record<string, string>> = {
  "°dH": "German degree",
  dH: "German degree",
  dGH: "German degree",
  dKH: "German degree",
  "°fH": "French degree",
  fH: "French degree",
  "°e": "English degree",
  gpg: "grain/US gal",
};

function figure(line: ReportLine, f: ReportFigure): number {
  const plain = f.as
    .trim()
    .replace(/\s+as\s+/, " ")
    .replace(/\s+/g, " ");
  const factor = (ways[line] as Readonly<Record<string, number>>)[shortWays[plain] ?? plain];
  if (factor === undefined) {
    throw new ChemistryError("bad-input", line, `"${f.as}" must be one of ${Object.keys(ways[line]).join(", ")}`);
  }
  if (!Number.isFinite(f.value) || (f.value < 0 && line !== "alkalinity")) {
    throw new ChemistryError("bad-input", line, `${f.value} must be a number of at least 0`);
  }
  return f.value * factor;
}

/**
 * Reads a water report in whatever notation each line is written.
 * @throws ChemistryError for an unknown notation or a value below 0.
 */
export function readReport(report: WaterReport): ReadReport {
  const mmol: Partial<Record<ReportLine, number>> = {};
  for (const line of reportLines) {
    const f = report[line];
    if (f) mmol[line] = figure(line, f);
  }
  const remarks: Remark[] = [];
  const say = (code: RemarkCode, text: string) => remarks.push({ code, text });

  const { calcium, magnesium, alkalinity } = mmol;
  const summed = calcium !== undefined && magnesium !== undefined ? calcium + magnesium : undefined;
  const hardness = summed ?? mmol.hardness;
  if (summed !== undefined && mmol.hardness !== undefined) {
    const off = Math.abs(summed - mmol.hardness);
    if (off > Math.max(mismatch * mmol.hardness, smallestMismatch)) {
      say(
        "hardness-mismatch",
        `calcium and magnesium make ${(summed * M.caco3).toFixed(1)} mg/L as CaCO3, the report says ${(mmol.hardness * M.caco3).toFixed(1)}`,
      );
    }
  }
  if (summed === undefined && hardness !== undefined) {
    say("hardness-split-unknown", "the report does not part the hardness into calcium and magnesium");
  }

  const kh = alkalinity === undefined ? null : alkalinity / meqPerDegree;
  if (kh === null) say("no-alkalinity", "without alkalinity neither buffer nor CO2 can be told");
  else if (kh < veryLowBuffer) {
    say("very-low-buffer", `only ${kh.toFixed(2)} dKH: very little buffer, pH will swing with every breath of CO2`);
  } else if (kh < lowBuffer)
    say("low-buffer", `${kh.toFixed(1)} dKH is a small buffer; watch it where soil or filters use it up`);
  if (alkalinity !== undefined && hardness !== undefined && alkalinity > 2 * hardness * (1 + mismatch)) {
    say("alkalinity-above-hardness", "more alkalinity than hardness: sodium or potassium bicarbonate, e.g. a softener");
  }
  if (report.organicCarbon !== undefined && alkalinity !== undefined) {
    if (report.organicCarbon * organicCharge > organicShare * Math.abs(alkalinity)) {
      say(
        "organic-acids",
        `${report.organicCarbon} mg/L of organic carbon carries acids that titrate as alkalinity: CO2 from pH and KH is weak here`,
      );
    }
  }
  const nitrate = (mmol.nitrate ?? 0) * M.no3;
  if (nitrate > nitrateLimit) {
    say(
      "high-nitrate",
      `${nitrate.toFixed(0)} mg/L of nitrate is above the ${nitrateLimit} mg/L guideline for drinking water`,
    );
  }

  let charges: ChargeCheck | null = null;
  const cations = 2 * (hardness ?? 0) + (mmol.sodium ?? 0) + (mmol.potassium ?? 0) + (mmol.ammonium ?? 0);
  const anions =
    (alkalinity ?? 0) + (mmol.chloride ?? 0) + 2 * (mmol.sulfate ?? 0) + (mmol.nitrate ?? 0) + (mmol.nitrite ?? 0);
  const complete =
    hardness !== undefined &&
    mmol.sodium !== undefined &&
    alkalinity !== undefined &&
    mmol.chloride !== undefined &&
    mmol.sulfate !== undefined;
  if (complete && cations + anions > 0) {
    charges = { cations, anions, error: (200 * (cations - anions)) / (cations + anions) };
    if (Math.abs(charges.error) > chargeLimit) {
      say(
        "charge-balance",
        `cations and anions differ by ${charges.error.toFixed(1)} %: a figure or a unit may be wrong`,
      );
    }
  } else if (hardness !== undefined && alkalinity !== undefined) {
    say("balance-open", "some main ions are not told; the gap is closed with sodium or chloride where needed");
  }

  let co2: number | null = null;
  let conductivity: number | null = null;
  const co2Trade = kh !== null && report.ph !== undefined ? tradeCo2(kh, report.ph) : null;
  if (alkalinity !== undefined && report.ph !== undefined) {
    const t = report.temperature ?? 15;
    const totals = { ...pureWater };
    const molal = (x: number) => perKilogram(x / 1000, t);
    for (const line of reportLines) {
      const name = totalOfLine[line];
      if (name) totals[name] = molal(mmol[line] ?? 0);
    }
    if (summed === undefined) totals.ca = molal(hardness ?? 0);
    const gap = molal(cations - anions);
    if (!complete) {
      if (gap > 0) totals.cl += gap;
      else totals.na -= gap;
    }
    if (totalNames.every((n) => totals[n] >= 0)) {
      try {
        const water = speciate(totals, t, { ph: report.ph, alk: molal(alkalinity) });
        co2 = perLitre(water.co2, t) * M.co2 * 1000;
        conductivity = conductivityAt25(water);
      } catch (error) {
        if (!(error instanceof ChemistryError)) throw error;
        say("no-carbonate-answer", `pH and alkalinity do not go together: ${error.what}`);
      }
    }
    if (conductivity !== null && report.conductivity !== undefined) {
      const off = conductivity / report.conductivity - 1;
      if (Math.abs(off) > conductivityLimit) {
        say(
          "conductivity-mismatch",
          `the ions make ${conductivity.toFixed(0)} µS/cm, the report says ${report.conductivity.toFixed(0)}`,
        );
      }
    }
  }
  return {
    mmol,
    gh: hardness === undefined ? null : hardness / mmolPerDegree,
    kh,
    hardnessAsCaCO3: hardness === undefined ? null : hardness * M.caco3,
    charges,
    co2Trade,
    co2,
    conductivity,
    remarks,
  };
}
