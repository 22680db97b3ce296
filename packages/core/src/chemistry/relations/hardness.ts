import { relation } from "../../relation/index.ts";
import {
  alkalinityOfDegrees,
  convertHardness,
  degreesOfAlkalinity,
  type HardnessNotation,
  hardnessFromIons,
  hardnessNotations,
  meqPerDegree,
  mmolPerDegree,
} from "../hardness.ts";
import { molarMasses as M } from "../molar-masses.ts";
import { readReport } from "../water-report.ts";
import { out, quantity } from "./usual-inputs.ts";

const room = "chemistry";

export const hardnessRelations = [
  relation({
    id: "hardness-notation",
    title: "Hardness or alkalinity in every notation",
    room,
    inputs: {
      value: quantity("value", "1", 0, 1e6),
      notation: { kind: "choice", label: "written as", options: hardnessNotations },
    },
    outputs: {
      mmol: out("as CaCO3", "mmol/L"),
      meq: out("charge", "meq/L"),
      as_caco3: out("mg/L as CaCO3", "mg/L"),
      german: out("German degrees", "1"),
      french: out("French degrees", "1"),
      english: out("English degrees", "1"),
      grains: out("grains per US gallon", "1"),
    },
    equation: "1 German degree = 10 mg/L CaO; 1 French degree = 10 mg/L CaCO3; 1 grain = 64.79891 mg CaCO3",
    sources: ["german-degree", "iupac-2021"],
    compute: ({ value, notation }) => {
      const to = (n: HardnessNotation) => convertHardness(value, notation as HardnessNotation, n);
      return {
        mmol: to("mmol/L"),
        meq: to("meq/L"),
        as_caco3: to("mg/L CaCO3"),
        german: to("German degree"),
        french: to("French degree"),
        english: to("English degree"),
        grains: to("grain/US gal"),
      };
    },
  }),
  relation({
    id: "general-hardness",
    title: "General hardness from calcium and magnesium",
    room,
    inputs: {
      calcium: quantity("calcium", "mg/L", 0, 1e4),
      magnesium: quantity("magnesium", "mg/L", 0, 1e4),
    },
    outputs: {
      mmol: out("calcium and magnesium", "mmol/L"),
      gh: out("general hardness", "dGH"),
      as_caco3: out("as CaCO3", "mg/L"),
    },
    equation: "GH = (Ca/40.078 + Mg/24.305) / 0.178326",
    sources: ["german-degree", "iupac-2021"],
    compute: ({ calcium, magnesium }) => {
      const h = hardnessFromIons(calcium, magnesium);
      return { mmol: h.mmol, gh: h.degrees, as_caco3: h.asCaCO3 };
    },
  }),
  relation({
    id: "carbonate-hardness",
    title: "Carbonate hardness of the trade and alkalinity",
    room,
    inputs: { kh: quantity("carbonate hardness", "dKH", 0, 1e3) },
    outputs: {
      alk: out("alkalinity", "meq/L"),
      as_caco3: out("as CaCO3", "mg/L"),
      as_hco3: out("as HCO3", "mg/L"),
      kh: out("carbonate hardness", "dKH"),
    },
    equation: "Alk = 0.356652 KH meq/L",
    sources: ["german-degree", "iupac-2021"],
    validity: "All alkalinity is counted, whatever carries it: KH may exceed GH.",
    compute: ({ kh }) => {
      const alk = alkalinityOfDegrees(kh);
      return { alk, as_caco3: (alk * M.caco3) / 2, as_hco3: alk * M.hco3, kh: degreesOfAlkalinity(alk) };
    },
  }),
  relation({
    id: "degree-in-ions",
    title: "What German degrees are in ions",
    room,
    inputs: { degrees: quantity("German degrees", "1", 0, 1e3, 1) },
    outputs: {
      calcium: out("all as calcium", "mg/L"),
      magnesium: out("all as magnesium", "mg/L"),
      magnesia: out("all as MgO", "mg/L"),
      bicarbonate: out("alkalinity, all as HCO3", "mg/L"),
    },
    equation: "1 degree = 0.178326 mmol/L Ca + Mg = 0.356652 meq/L",
    sources: ["german-degree", "iupac-2021"],
    compute: ({ degrees }) => ({
      calcium: degrees * mmolPerDegree * M.ca,
      magnesium: degrees * mmolPerDegree * M.mg,
      magnesia: degrees * mmolPerDegree * M.mgo,
      bicarbonate: degrees * meqPerDegree * M.hco3,
    }),
  }),
  relation({
    id: "analysis-charge-balance",
    title: "Charge balance of a water analysis",
    room,
    inputs: {
      calcium: quantity("calcium", "mg/L", 0, 1e5, 0),
      magnesium: quantity("magnesium", "mg/L", 0, 1e5, 0),
      sodium: quantity("sodium", "mg/L", 0, 1e5, 0),
      potassium: quantity("potassium", "mg/L", 0, 1e5, 0),
      chloride: quantity("chloride", "mg/L", 0, 1e5, 0),
      sulfate: quantity("sulfate", "mg/L", 0, 1e5, 0),
      nitrate: quantity("nitrate", "mg/L", 0, 1e5, 0),
      alkalinity: quantity("alkalinity", "meq/L", 0, 1e3, 0),
    },
    outputs: {
      cations: out("cations", "meq/L"),
      anions: out("anions", "meq/L"),
      error: out("difference over half the sum", "%"),
    },
    equation: "200 (cations - anions)/(cations + anions)",
    sources: ["standard-methods-1030"],
    validity: "A good analysis keeps within 5 %.",
    compute: (i) => {
      const figure = (value: number) => ({ value, as: "mg/L" });
      const { charges } = readReport({
        calcium: figure(i.calcium),
        magnesium: figure(i.magnesium),
        sodium: figure(i.sodium),
        potassium: figure(i.potassium),
        chloride: figure(i.chloride),
        sulfate: figure(i.sulfate),
        nitrate: figure(i.nitrate),
        alkalinity: { value: i.alkalinity, as: "meq/L" },
      });
      return charges ?? { cations: 0, anions: 0, error: 0 };
    },
  }),
] as const;
