import { relation } from "../../relation/index.ts";
import { molarMass } from "../../units/index.ts";
import { conductivityAt25 } from "../conductivity.ts";
import { blendShare, type CarriedWater, evaporate, mixWaters } from "../mixing.ts";
import { molarMasses as M } from "../molar-masses.ts";
import {
  type CalciumSalt,
  type CarbonateSalt,
  calciumSalts,
  carbonateSalts,
  type MagnesiumSalt,
  magnesiumSalts,
  remineralise,
} from "../remineralise.ts";
import {
  hydrateSolubility,
  mgPerDegree,
  type NutrientNotation,
  nutrientFactor,
  nutrientNotations,
  saltFormulas,
  saltForRise,
  salts,
  saltYield,
  solubility,
} from "../salts.ts";
import { speciate } from "../speciate.ts";
import type { WaterTotals } from "../species.ts";
import { perLitre } from "../water-properties.ts";
import { airCo2, alkalinity, ionInputs, out, ph, quantity, totalsOf, waterTemperature } from "./usual-inputs.ts";

const room = "chemistry";
const saltChoice = { kind: "choice", label: "salt", options: saltFormulas } as const;
const solubleSalts = salts.filter((s) => "solubility" in s).map((s) => s.formula);

/** Ions of a second water, with `b_` before their names. */
const secondIons = {
  b_ca: ionInputs.ca,
  b_mg: ionInputs.mg,
  b_na: ionInputs.na,
  b_k: ionInputs.k,
  b_cl: ionInputs.cl,
  b_so4: ionInputs.so4,
  b_no3: ionInputs.no3,
} as const;

function carried(totals: WaterTotals, temperature: number, alk: number, given: { ph: number } | { pco2: number }) {
  const s =
    "ph" in given
      ? speciate(totals, temperature, { ph: given.ph, alk })
      : speciate(totals, temperature, { pco2: given.pco2, alk });
  const water: CarriedWater = { totals, temperature, alk, dic: s.dic };
  return { speciation: s, water };
}

export const recipeRelations = [
  relation({
    id: "salt-yield",
    title: "Element in a pure salt",
    room,
    inputs: {
      salt: saltChoice,
      element: {
        kind: "choice",
        label: "element",
        options: ["N", "P", "K", "S", "Ca", "Mg", "Na", "Cl", "Fe", "Mn", "Zn", "Cu", "B", "Mo", "C"],
      },
    },
    outputs: { content: out("element", "mg/g"), molar_mass: out("molar mass, g/mol", "1") },
    equation: "1000 n M(element)/M(salt)",
    sources: ["iupac-2021"],
    compute: ({ salt, element }) => ({ content: saltYield(salt, element), molar_mass: molarMass(salt) }),
  }),
  relation({
    id: "salt-for-ion-rise",
    title: "Salt for a wanted rise",
    room,
    inputs: {
      salt: saltChoice,
      counted: {
        kind: "choice",
        label: "counted as",
        options: [
          "NO3",
          "NO2",
          "NH4",
          "PO4",
          "SO4",
          "HCO3",
          "N",
          "P",
          "K",
          "S",
          "Ca",
          "Mg",
          "Na",
          "Cl",
          "Fe",
          "Mn",
          "Zn",
          "Cu",
          "B",
          "Mo",
        ],
      },
      rise: quantity("wanted rise", "mg/L", 0, 1e4),
      volume: quantity("water", "L", 0, 1e6),
    },
    outputs: {
      grams: out("salt", "g"),
      potassium: out("potassium that comes with it", "mg/L"),
      sodium: out("sodium that comes with it", "mg/L"),
      sulfur: out("sulfur that comes with it", "mg/L"),
      chloride: out("chloride that comes with it", "mg/L"),
      alk: out("alkalinity that comes with it", "meq/L"),
    },
    equation: "rise · volume · M(salt)/(n M(counted))",
    sources: ["iupac-2021"],
    validity: "Pure salt.",
    compute: (i) => {
      const dose = saltForRise(i.salt, i.counted, i.rise, i.volume);
      return {
        grams: dose.grams,
        potassium: dose.rises.K ?? 0,
        sodium: dose.rises.Na ?? 0,
        sulfur: dose.rises.S ?? 0,
        chloride: dose.rises.Cl ?? 0,
        alk: dose.alk,
      };
    },
  }),
  relation({
    id: "salt-per-degree",
    title: "Salt per litre and German degree",
    room,
    inputs: { salt: saltChoice },
    outputs: { gh: out("per dGH; 0 = raises none", "mg/L"), kh: out("per dKH; 0 = raises none", "mg/L") },
    equation: "0.178326 M(salt)/n or 0.356652 M(salt)/n",
    sources: ["german-degree", "iupac-2021"],
    compute: ({ salt }) => mgPerDegree(salt),
  }),
  relation({
    id: "nutrient-notation",
    title: "A nutrient told as another thing",
    room,
    inputs: {
      value: quantity("value", "1", 0, 1e9, 1),
      from: { kind: "choice", label: "told as", options: nutrientNotations },
      to: { kind: "choice", label: "wanted as", options: nutrientNotations },
    },
    outputs: { value: out("value", "1") },
    equation: "ratio of formula masses per atom of the element",
    sources: ["iupac-2021"],
    compute: ({ value, from, to }) => ({
      value: value * nutrientFactor(from as NutrientNotation, to as NutrientNotation),
    }),
  }),
  relation({
    id: "fertiliser-label",
    title: "Elements behind a fertiliser's label",
    room,
    inputs: {
      n: quantity("N on the label", "%", 0, 100, 0),
      p2o5: quantity("P2O5 on the label", "%", 0, 100, 0),
      k2o: quantity("K2O on the label", "%", 0, 100, 0),
      mgo: quantity("MgO on the label", "%", 0, 100, 0),
      so3: quantity("SO3 on the label", "%", 0, 100, 0),
    },
    outputs: {
      nitrogen: out("N", "mg/g"),
      phosphorus: out("P", "mg/g"),
      potassium: out("K", "mg/g"),
      magnesium: out("Mg", "mg/g"),
      sulfur: out("S", "mg/g"),
    },
    equation: "10 mg/g per per cent, oxides turned to elements",
    sources: ["iupac-2021"],
    compute: (i) => ({
      nitrogen: 10 * i.n,
      phosphorus: 10 * i.p2o5 * nutrientFactor("P2O5", "P"),
      potassium: 10 * i.k2o * nutrientFactor("K2O", "K"),
      magnesium: 10 * i.mgo * nutrientFactor("MgO", "Mg"),
      sulfur: 10 * i.so3 * nutrientFactor("SO3", "S"),
    }),
  }),
  relation({
    id: "remineralised-water",
    title: "Salts that make soft water fit",
    room,
    inputs: {
      volume: quantity("water", "L", 0, 1e6),
      gh: quantity("rise of general hardness", "dGH", 0, 60),
      kh: quantity("rise of carbonate hardness", "dKH", 0, 60, 0),
      calcium_share: quantity("share of the hardness that is calcium", "1", 0, 1, 0.75),
      calcium_salt: { kind: "choice", label: "calcium salt", options: calciumSalts, default: "CaSO4·2H2O" },
      magnesium_salt: { kind: "choice", label: "magnesium salt", options: magnesiumSalts, default: "MgSO4·7H2O" },
      carbonate_salt: { kind: "choice", label: "carbonate salt", options: carbonateSalts, default: "KHCO3" },
      temperature: waterTemperature,
      log_pco2: airCo2,
    },
    outputs: {
      calcium_salt: out("calcium salt", "g"),
      magnesium_salt: out("magnesium salt", "g"),
      carbonate_salt: out("carbonate salt", "g"),
      calcium: out("calcium", "mg/L"),
      magnesium: out("magnesium", "mg/L"),
      potassium: out("potassium", "mg/L"),
      sodium: out("sodium", "mg/L"),
      sulfate: out("sulfate", "mg/L"),
      chloride: out("chloride", "mg/L"),
      bicarbonate: out("alkalinity as HCO3", "mg/L"),
      ec25: out("conductivity at 25 °C", "uS/cm"),
      ph_air: out("pH at rest in air", "1"),
      si_air: out("saturation index of calcite at rest in air", "1"),
      co2_at_7: out("CO2 at pH 7.00", "mmol/kg"),
    },
    equation: "mmol per degree times molar mass; pH from pCO2 and alkalinity",
    sources: ["german-degree", "iupac-2021", "pb82"],
    validity: "Pure salts into water without anything in it.",
    compute: (i) => {
      const { salts: doses, water } = remineralise({
        volume: i.volume,
        gh: i.gh,
        kh: i.kh,
        calciumShare: i.calcium_share,
        calciumSalt: i.calcium_salt as CalciumSalt,
        magnesiumSalt: i.magnesium_salt as MagnesiumSalt,
        carbonateSalt: i.carbonate_salt as CarbonateSalt,
        temperature: i.temperature,
      });
      const grams = (formula: string) => doses.find((d) => d.formula === formula)?.grams ?? 0;
      const mg = (molal: number, mass: number) => perLitre(molal, i.temperature) * mass * 1000;
      const { totals, alk } = water;
      const inAir = speciate(totals, i.temperature, { pco2: 10 ** i.log_pco2, alk });
      return {
        calcium_salt: grams(i.calcium_salt),
        magnesium_salt: grams(i.magnesium_salt),
        carbonate_salt: grams(i.carbonate_salt),
        calcium: mg(totals.ca, M.ca),
        magnesium: mg(totals.mg, M.mg),
        potassium: mg(totals.k, M.k),
        sodium: mg(totals.na, M.na),
        sulfate: mg(totals.so4, M.so4),
        chloride: mg(totals.cl, M.cl),
        bicarbonate: mg(alk, M.hco3),
        ec25: conductivityAt25(inAir),
        ph_air: inAir.ph,
        si_air: inAir.siCalcite,
        co2_at_7: alk > 0 ? speciate(totals, i.temperature, { ph: 7, alk }).co2 * 1000 : 0,
      };
    },
  }),
  relation({
    id: "blend-share",
    title: "Share of tap water in a blend",
    room,
    inputs: {
      target: quantity("wanted", "1", -1e6, 1e6),
      tap: quantity("tap water", "1", -1e6, 1e6),
      pure: quantity("other water", "1", -1e6, 1e6, 0),
    },
    outputs: { share: out("share of tap water", "1") },
    equation: "(target - other)/(tap - other)",
    sources: ["wolf-gladrow-2007"],
    validity: "Any quantity that mixes by share: alkalinity, hardness, an ion. Not pH.",
    compute: ({ target, tap, pure }) => ({ share: blendShare(target, tap, pure) }),
  }),
  relation({
    id: "mixed-waters",
    title: "Two waters mixed",
    room,
    inputs: {
      ...ionInputs,
      alk: alkalinity,
      ph,
      temperature: waterTemperature,
      ...secondIons,
      b_alk: { ...alkalinity, default: 0 },
      b_ph: { ...ph, default: 5.598 },
      b_temperature: waterTemperature,
      share: quantity("share of the first water", "1", 0, 1),
      log_pco2: airCo2,
    },
    outputs: {
      ph_closed: out("pH at once", "1"),
      si_closed: out("saturation index of calcite at once", "1"),
      ph_air: out("pH at rest in air", "1"),
      si_air: out("saturation index of calcite at rest in air", "1"),
      ec25_air: out("conductivity at 25 °C at rest in air", "uS/cm"),
      alk: out("alkalinity", "meq/kg"),
      temperature: out("temperature", "°C"),
      averaged_ph: out("average of the two pH, which is wrong", "1"),
    },
    equation: "ions, alkalinity, carbon and heat by share; pH solved",
    sources: ["wolf-gladrow-2007", "pb82"],
    compute: (i) => {
      const first = carried(totalsOf(i), i.temperature, i.alk / 1000, { ph: i.ph }).water;
      const secondTotals = totalsOf({
        ca: i.b_ca,
        mg: i.b_mg,
        na: i.b_na,
        k: i.b_k,
        cl: i.b_cl,
        so4: i.b_so4,
        no3: i.b_no3,
        po4: 0,
        nh4: 0,
        b: 0,
      });
      const second = carried(secondTotals, i.b_temperature, i.b_alk / 1000, { ph: i.b_ph }).water;
      const mix = mixWaters([
        { water: first, amount: i.share },
        { water: second, amount: 1 - i.share },
      ]);
      const closed = speciate(mix.totals, mix.temperature, { dic: mix.dic, alk: mix.alk });
      const air = speciate(mix.totals, mix.temperature, { pco2: 10 ** i.log_pco2, alk: mix.alk });
      return {
        ph_closed: closed.ph,
        si_closed: closed.siCalcite,
        ph_air: air.ph,
        si_air: air.siCalcite,
        ec25_air: conductivityAt25(air),
        alk: mix.alk * 1000,
        temperature: mix.temperature,
        averaged_ph: i.share * i.ph + (1 - i.share) * i.b_ph,
      };
    },
  }),
  relation({
    id: "changed-water",
    title: "A water heated, dosed or evaporated",
    room,
    inputs: {
      ...ionInputs,
      alk: alkalinity,
      start: { kind: "choice", label: "carbon known by", options: ["ph", "air"], default: "ph" },
      ph: { ...ph, default: 7 },
      temperature: waterTemperature,
      end_temperature: waterTemperature,
      add_alk: quantity("alkalinity added", "meq/kg", -50, 50, 0),
      add_dic: quantity("carbon added", "mmol/kg", -50, 50, 0),
      add_na: quantity("sodium added", "mmol/kg", -50, 50, 0),
      add_cl: quantity("chloride added", "mmol/kg", -50, 50, 0),
      evaporated: quantity("share evaporated", "1", 0, 0.95, 0),
      log_pco2: airCo2,
    },
    outputs: {
      ph_before: out("pH before", "1"),
      co2_before: out("CO2 before", "mmol/kg"),
      si_before: out("saturation index of calcite before", "1"),
      ec25_before: out("conductivity at 25 °C before", "uS/cm"),
      alk: out("alkalinity after", "meq/kg"),
      ph_closed: out("pH after, no gas exchanged", "1"),
      co2_closed: out("CO2 after, no gas exchanged", "mmol/kg"),
      si_closed: out("saturation index of calcite after, no gas exchanged", "1"),
      ph_air: out("pH after, at rest in air", "1"),
      si_air: out("saturation index of calcite after, at rest in air", "1"),
      ec25_air: out("conductivity at 25 °C after, at rest in air", "uS/cm"),
    },
    equation: "alkalinity, carbon and ions carried; pH solved before and after",
    caution:
      "Strong acids and lyes burn eyes and skin: follow the maker's safety sheet. Change the water of animals slowly.",
    sources: ["wolf-gladrow-2007", "pb82"],
    compute: (i) => {
      const pco2 = 10 ** i.log_pco2;
      const before = carried(totalsOf(i), i.temperature, i.alk / 1000, i.start === "ph" ? { ph: i.ph } : { pco2 });
      const dosed: CarriedWater = {
        ...before.water,
        totals: {
          ...before.water.totals,
          na: before.water.totals.na + i.add_na / 1000,
          cl: before.water.totals.cl + i.add_cl / 1000,
        },
        alk: before.water.alk + i.add_alk / 1000,
        dic: before.water.dic + i.add_dic / 1000,
      };
      const after = evaporate(dosed, i.evaporated);
      const closed = speciate(after.totals, i.end_temperature, { dic: after.dic, alk: after.alk });
      const air = speciate(after.totals, i.end_temperature, { pco2, alk: after.alk });
      return {
        ph_before: before.speciation.ph,
        co2_before: before.speciation.co2 * 1000,
        si_before: before.speciation.siCalcite,
        ec25_before: conductivityAt25(before.speciation),
        alk: after.alk * 1000,
        ph_closed: closed.ph,
        co2_closed: closed.co2 * 1000,
        si_closed: closed.siCalcite,
        ph_air: air.ph,
        si_air: air.siCalcite,
        ec25_air: conductivityAt25(air),
      };
    },
  }),
  relation({
    id: "salt-solubility",
    title: "Solubility of a salt for stock solutions",
    room,
    inputs: {
      salt: { kind: "choice", label: "salt", options: solubleSalts },
      temperature: quantity("temperature", "°C", 10, 25, 20),
    },
    outputs: {
      per_100g: out("salt in 100 g of added water", "g"),
      molality: out("dissolved, crystal water counted as water", "mol/kg"),
      safe: out("80 % of it in 100 g of added water", "g"),
    },
    equation: "table at 10, 20 and 25 °C, straight lines between",
    sources: ["crc-solubility"],
    validity: "Take the coldest temperature of storage and stay at 80 %.",
    compute: ({ salt, temperature }) => {
      const s = solubility(salt, temperature);
      return { per_100g: s.per100g, molality: s.molality, safe: s.safe };
    },
  }),
  relation({
    id: "hydrate-solubility",
    title: "Hydrate in added water from mass per cent of dry salt",
    room,
    inputs: {
      mass_percent: quantity("dry salt in the saturated solution", "%", 0, 90),
      hydrate: { kind: "choice", label: "hydrate", options: ["MgSO4·7H2O", "MgCl2·6H2O", "CaCl2·2H2O", "CaSO4·2H2O"] },
    },
    outputs: { per_100g: out("hydrate in 100 g of added water", "g") },
    equation: "100 w R/(100 - w R), R = M(hydrate)/M(dry)",
    sources: ["crc-solubility", "iupac-2021"],
    compute: ({ mass_percent, hydrate }) => ({
      per_100g: hydrateSolubility(mass_percent, hydrate, hydrate.slice(0, hydrate.indexOf("·"))),
    }),
  }),
  relation({
    id: "gypsum-saturation",
    title: "Whether gypsum falls out",
    room,
    inputs: {
      ca: quantity("calcium", "mol/kg", 1e-9, 0.1),
      so4: quantity("sulfate", "mol/kg", 1e-9, 0.1),
      mg: quantity("magnesium", "mol/kg", 0, 0.1, 0),
      na: quantity("sodium", "mol/kg", 0, 0.1, 0),
      cl: quantity("chloride", "mol/kg", 0, 0.2, 0),
      temperature: waterTemperature,
    },
    outputs: { si: out("saturation index of gypsum", "1") },
    equation: "SI = log10(aCa aSO4) + 4.58",
    sources: ["gypsum-1990", "wq4f"],
    validity: "Fair to 0.1 mol/kg of ionic strength; stronger stocks need another law.",
    compute: (i) => {
      const totals: WaterTotals = {
        ca: i.ca,
        mg: i.mg,
        na: i.na,
        k: 0,
        cl: i.cl,
        so4: i.so4,
        no3: 0,
        po4: 0,
        nh4: 0,
        b: 0,
      };
      return { si: speciate(totals, i.temperature, { ph: 7, dic: 0 }).siGypsum };
    },
  }),
] as const;
