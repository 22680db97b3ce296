import { relation } from "../relation/index.ts";
import { choice, plantArea, quantity, tankVolume } from "./usual-inputs.ts";

/** Molar masses, g/mol. Source: iupac-weights */
export const molarMass = {
  carbon: 12.011,
  nitrogen: 14.007,
  phosphorus: 30.974,
  potassium: 39.098,
  co2: 44.009,
  oxygen: 31.998,
  nitrate: 62.004,
  phosphate: 94.97,
} as const;

/** Composition of new growth, share of dry mass; design value inside the published ranges. */
export const tissue = {
  carbon: 0.4,
  nitrogen: 0.025,
  phosphorus: 0.003,
  potassium: 0.025,
  calcium: 0.01,
  magnesium: 0.0035,
  iron: 0.0005,
} as const;

/** Carbon in one gram of dry growth, mol/g. */
export const molCarbonPerGram = tissue.carbon / molarMass.carbon;

/**
 * Oxygen given per carbon fixed, mol/mol: nitrate taken up is reduced and frees two oxygen per nitrogen.
 * @param carbon, nitrogen share of dry mass; @param form of nitrogen taken up
 */
export function oxygenPerCarbon(carbon: number, nitrogen: number, form: "nitrate" | "ammonium"): number {
  if (form === "ammonium") return 1;
  return 1 + (2 * (nitrogen / molarMass.nitrogen)) / (carbon / molarMass.carbon);
}

/** Oxygen given per carbon fixed by new growth on nitrate, mol/mol: 1.107. */
export const photosyntheticQuotient = oxygenPerCarbon(tissue.carbon, tissue.nitrogen, "nitrate");

/** Carbon dioxide given per oxygen used in respiration, mol/mol. */
export const respiratoryQuotient = 1;

/** Alkalinity of one German degree of carbonate hardness, meq/L. */
const meqPerDegree = 0.356653;

/** Fresh mass over dry mass; duckweed, and inside the 8 to 20 of stems and leaves. Source: klein-2022 */
export const freshPerDry = 16.7;

const carbonShare = quantity("carbon in dry mass", "1", 0.1, 0.6, tissue.carbon);
const nitrogenShare = quantity("nitrogen in dry mass", "1", 0.001, 0.12, tissue.nitrogen);
const phosphorusShare = quantity("phosphorus in dry mass", "1", 0.0001, 0.03, tissue.phosphorus);
const nitrogenForm = choice("form of nitrogen taken up", ["nitrate", "ammonium"], "nitrate");

export const stoichiometryRelations = [
  relation({
    id: "growth-stoichiometry",
    title: "What a gram of dry growth takes and gives",
    room: "plants",
    inputs: {
      growth: quantity("dry growth", "g", 0, 1e6, 1),
      carbon: carbonShare,
      nitrogen: nitrogenShare,
      phosphorus: phosphorusShare,
      nitrogen_form: nitrogenForm,
    },
    outputs: {
      co2: { label: "carbon dioxide taken up", unit: "g" },
      oxygen: { label: "oxygen given", unit: "g" },
      photosynthetic_quotient: { label: "oxygen given per carbon fixed", unit: "mol/mol" },
      nitrate: { label: "nitrate taken up, were it the only source", unit: "g" },
      phosphate: { label: "phosphate taken up", unit: "g" },
      carbon_to_nitrogen: { label: "carbon to nitrogen", unit: "mol/mol" },
      carbon_to_phosphorus: { label: "carbon to phosphorus", unit: "mol/mol" },
      nitrogen_to_phosphorus: { label: "nitrogen to phosphorus", unit: "mol/mol" },
    },
    equation: "CO2 = g C/12.011 44.009; O2 = g C/12.011 PQ 31.998; PQ = 1 + 2 N:C on nitrate, 1 on ammonium",
    sources: ["redfield", "iupac-weights", "chosen"],
    compute: (i) => {
      const c = i.carbon / molarMass.carbon;
      const n = i.nitrogen / molarMass.nitrogen;
      const p = i.phosphorus / molarMass.phosphorus;
      const quotient = oxygenPerCarbon(i.carbon, i.nitrogen, i.nitrogen_form);
      return {
        co2: i.growth * c * molarMass.co2,
        oxygen: i.growth * c * quotient * molarMass.oxygen,
        photosynthetic_quotient: quotient,
        nitrate: i.growth * n * molarMass.nitrate,
        phosphate: i.growth * p * molarMass.phosphate,
        carbon_to_nitrogen: c / n,
        carbon_to_phosphorus: c / p,
        nitrogen_to_phosphorus: n / p,
      };
    },
  }),
  relation({
    id: "growth-alkalinity",
    title: "Alkalinity moved by nitrogen uptake",
    room: "plants",
    inputs: {
      growth: quantity("dry growth", "g", 0, 1e6),
      nitrogen: nitrogenShare,
      nitrogen_form: nitrogenForm,
      volume: tankVolume,
    },
    outputs: {
      alkalinity: { label: "change of alkalinity", unit: "meq/L" },
      total: { label: "change of alkalinity in the tank, thousandths of an equivalent", unit: "mmol" },
      carbonate_hardness: { label: "change of carbonate hardness", unit: "dKH" },
    },
    equation: "+1 equivalent per mole of nitrate taken up, -1 per mole of ammonium",
    sources: ["goldman-brewer-1980"],
    compute: (i) => {
      const total = ((i.nitrogen_form === "nitrate" ? 1000 : -1000) * i.growth * i.nitrogen) / molarMass.nitrogen;
      return { alkalinity: total / i.volume, total, carbonate_hardness: total / i.volume / meqPerDegree };
    },
  }),
  relation({
    id: "nutrient-demand",
    title: "What a growing patch takes from the water each day",
    room: "plants",
    inputs: {
      area: plantArea,
      biomass: quantity("dry biomass per area", "g/m2", 0, 2000),
      growth_rate: quantity("relative growth rate", "1/d", 0, 1),
      volume: tankVolume,
      carbon: carbonShare,
      nitrogen: nitrogenShare,
      phosphorus: phosphorusShare,
      potassium: quantity("potassium in dry mass", "1", 0, 0.1, tissue.potassium),
      calcium: quantity("calcium in dry mass", "1", 0, 0.1, tissue.calcium),
      magnesium: quantity("magnesium in dry mass", "1", 0, 0.05, tissue.magnesium),
      iron: quantity("iron in dry mass", "1", 0, 0.01, tissue.iron),
    },
    outputs: {
      growth: { label: "dry growth", unit: "g/d" },
      nitrate: { label: "nitrate", unit: "mg/L/d" },
      phosphate: { label: "phosphate", unit: "mg/L/d" },
      potassium: { label: "potassium", unit: "mg/L/d" },
      calcium: { label: "calcium", unit: "mg/L/d" },
      magnesium: { label: "magnesium", unit: "mg/L/d" },
      iron: { label: "iron", unit: "mg/L/d" },
      co2: { label: "carbon dioxide", unit: "mg/L/d" },
    },
    equation: "A B mu Q_X 1000/V, sum over patches",
    sources: ["arithmetic", "chosen"],
    compute: (i) => {
      const growth = i.area * i.biomass * i.growth_rate;
      const perLitre = (growth * 1000) / i.volume;
      return {
        growth,
        nitrate: (perLitre * i.nitrogen * molarMass.nitrate) / molarMass.nitrogen,
        phosphate: (perLitre * i.phosphorus * molarMass.phosphate) / molarMass.phosphorus,
        potassium: perLitre * i.potassium,
        calcium: perLitre * i.calcium,
        magnesium: perLitre * i.magnesium,
        iron: perLitre * i.iron,
        co2: (perLitre * i.carbon * molarMass.co2) / molarMass.carbon,
      };
    },
  }),
] as const;
