import { relation } from "../../relation/index.ts";
import { activityCoefficient, daviesCoefficient } from "../activity.ts";
import { calciteBalanceClosed, calciteBalanceOpen, quickSaturation } from "../calcite.ts";
import { conductivity, conductivityAt25 } from "../conductivity.ts";
import { log10K, type Reaction, reactionNames } from "../equilibrium-constants.ts";
import { hydrogenRoot, noAcids } from "../hydrogen-root.ts";
import { molarMasses as M } from "../molar-masses.ts";
import { type Given, type Speciation, speciate } from "../speciate.ts";
import { createSpeciator } from "../speciator.ts";
import { alkalinityFromIons, type WaterTotals } from "../species.ts";
import { debyeHuckel, perLitre } from "../water-properties.ts";
import { alkalinity, ionInputs, ionicStrength, out, ph, quantity, totalsOf, waterTemperature } from "./usual-inputs.ts";

const room = "chemistry";

const speciationOutputs = {
  ph: out("pH", "1"),
  co2: out("dissolved CO2", "mmol/kg"),
  co2_mg: out("dissolved CO2", "mg/L"),
  hco3: out("free HCO3", "mmol/kg"),
  co3: out("free CO3", "mmol/kg"),
  dic: out("dissolved inorganic carbon", "mmol/kg"),
  alk: out("total alkalinity", "meq/kg"),
  ca: out("total calcium", "mmol/kg"),
  log_pco2: out("log10 of pCO2 in atm", "1"),
  ionic_strength: out("ionic strength", "mol/kg"),
  si_calcite: out("saturation index of calcite", "1"),
  si_aragonite: out("saturation index of aragonite", "1"),
  charge_balance: out("charge left over", "meq/kg"),
  ec: out("conductivity at the water's temperature", "uS/cm"),
  ec25: out("conductivity at 25 °C", "uS/cm"),
} as const;

function told(s: Speciation) {
  return {
    ph: s.ph,
    co2: s.co2 * 1000,
    co2_mg: perLitre(s.co2, s.temperature) * M.co2 * 1000,
    hco3: s.hco3 * 1000,
    co3: s.co3 * 1000,
    dic: s.dic * 1000,
    alk: s.alk * 1000,
    ca: s.totals.ca * 1000,
    log_pco2: Math.log10(s.pco2),
    ionic_strength: s.ionicStrength,
    si_calcite: s.siCalcite,
    si_aragonite: s.siAragonite,
    charge_balance: s.chargeBalance * 1000,
    ec: conductivity(s),
    ec25: conductivityAt25(s),
  };
}

const speciationText = {
  room,
  equation:
    "mass balances of Ca, Mg, Na, K, SO4, carbonate, phosphate, borate, ammonium with their ion pairs; log γ = -A z² √I/(1 + B a √I) + b I; I = ½ Σ m z²",
  sources: ["pb82", "wq4f", "iapws-r11", "truesdell-jones-1974", "munhoven-2013"],
  validity: "5 to 35 °C, ionic strength to 0.03 mol/kg (fair to 0.1); pairs and activity included.",
} as const;

const dic = quantity("dissolved inorganic carbon", "mmol/kg", 0, 200);
const co2 = quantity("dissolved CO2", "mmol/kg", 0, 100);
const logPco2 = quantity("log10 of pCO2 in atm", "1", -8, 0.7);

const solveFor = (
  inputs: Readonly<Record<keyof WaterTotals, number>> & { readonly temperature: number },
  given: Given,
) => told(speciate(totalsOf(inputs), inputs.temperature, given));

export const carbonateRelations = [
  relation({
    id: "carbonate-constants",
    title: "Constants of the carbonate system",
    room,
    inputs: { temperature: waterTemperature },
    outputs: {
      log_kh: out("log10 of CO2 solubility, mol/(kg*atm)", "1"),
      pk1: out("pK1 of carbonic acid", "1"),
      pk2: out("pK2 of carbonic acid", "1"),
      pkw: out("pKw of water", "1"),
      pks_calcite: out("pKs of calcite", "1"),
      pks_aragonite: out("pKs of aragonite", "1"),
      log_k_cahco3: out("log10 K of CaHCO3", "1"),
      log_k_caco3: out("log10 K of dissolved CaCO3", "1"),
      log_k_mghco3: out("log10 K of MgHCO3", "1"),
    },
    equation: "log10 K = a + b T + c/T + d log10 T + e/T²",
    sources: ["pb82", "wq4f", "iapws-r11"],
    validity: "0 to 90 °C, zero ionic strength.",
    compute: ({ temperature: t }) => ({
      log_kh: log10K("henry", t),
      pk1: -log10K("k1", t),
      pk2: -log10K("k2", t),
      pkw: -log10K("kw", t),
      pks_calcite: -log10K("calcite", t),
      pks_aragonite: -log10K("aragonite", t),
      log_k_cahco3: log10K("caHCO3", t),
      log_k_caco3: log10K("caCO3", t),
      log_k_mghco3: log10K("mgHCO3", t),
    }),
  }),
  relation({
    id: "equilibrium-constant",
    title: "Constant of one dissolved reaction",
    room,
    inputs: {
      reaction: { kind: "choice", label: "reaction", options: reactionNames },
      temperature: waterTemperature,
    },
    outputs: { log_k: out("log10 K", "1") },
    equation: "log10 K by fit in temperature, or from 25 °C and the reaction's enthalpy",
    sources: ["pb82", "wq4f", "iapws-r11", "gypsum-1990"],
    validity: "Zero ionic strength.",
    compute: ({ reaction, temperature }) => ({ log_k: log10K(reaction as Reaction, temperature) }),
  }),
  relation({
    id: "debye-hueckel-coefficients",
    title: "Debye-Hückel coefficients of water",
    room,
    inputs: { temperature: waterTemperature },
    outputs: { a: out("A, kg^½/mol^½", "1"), b: out("B, kg^½/(mol^½ Å)", "1") },
    equation: "A = 1.824829e6 √ρ/(εT)^1.5; B = 50.2916 √ρ/√(εT)",
    sources: ["kell-1975", "malmberg-maryott-1956"],
    compute: ({ temperature }) => debyeHuckel(temperature),
  }),
  relation({
    id: "davies-activity",
    title: "Activity coefficient after Davies",
    room,
    inputs: {
      temperature: waterTemperature,
      ionic_strength: ionicStrength,
      charge: quantity("charge of the ion", "1", -3, 3),
    },
    outputs: { gamma: out("activity coefficient", "1") },
    equation: "log10 γ = -A z² (√I/(1+√I) - 0.3 I)",
    sources: ["davies-1962"],
    compute: ({ temperature, ionic_strength, charge }) => ({
      gamma: daviesCoefficient(charge, ionic_strength, temperature),
    }),
  }),
  relation({
    id: "ion-activity",
    title: "Activity coefficients of the main ions",
    room,
    inputs: { temperature: waterTemperature, ionic_strength: ionicStrength },
    outputs: {
      h: out("hydrogen", "1"),
      oh: out("hydroxide", "1"),
      hco3: out("bicarbonate", "1"),
      co3: out("carbonate", "1"),
      ca: out("calcium", "1"),
      mg: out("magnesium", "1"),
      na: out("sodium", "1"),
      k: out("potassium", "1"),
      cl: out("chloride", "1"),
      so4: out("sulfate", "1"),
      no3: out("nitrate", "1"),
      nh4: out("ammonium", "1"),
    },
    equation: "log10 γ = -A z² √I/(1 + B a √I) + b I",
    sources: ["truesdell-jones-1974"],
    validity: "Ionic strength to 0.1 mol/kg.",
    compute: ({ temperature: t, ionic_strength: i }) => ({
      h: activityCoefficient("H", i, t),
      oh: activityCoefficient("OH", i, t),
      hco3: activityCoefficient("HCO3", i, t),
      co3: activityCoefficient("CO3", i, t),
      ca: activityCoefficient("Ca", i, t),
      mg: activityCoefficient("Mg", i, t),
      na: activityCoefficient("Na", i, t),
      k: activityCoefficient("K", i, t),
      cl: activityCoefficient("Cl", i, t),
      so4: activityCoefficient("SO4", i, t),
      no3: activityCoefficient("NO3", i, t),
      nh4: activityCoefficient("NH4", i, t),
    }),
  }),
  relation({
    id: "ideal-carbonate-root",
    title: "pH of ideal water from alkalinity and carbon",
    room,
    inputs: {
      alk: quantity("alkalinity (eq/L)", "mol/L", -1, 1),
      dic: quantity("dissolved inorganic carbon", "mol/L", 0, 1),
      boron: quantity("total boron", "mol/L", 0, 0.1, 0),
      phosphate: quantity("total phosphate", "mol/L", 0, 0.1, 0),
      pk1: quantity("pK1 of carbonic acid", "1", 4, 9, 6.352),
      pk2: quantity("pK2 of carbonic acid", "1", 8, 13, 10.329),
      pkw: quantity("pKw", "1", 12, 16, 14),
      pkb: quantity("pK of boric acid", "1", 7, 11, 9.24),
      pkp1: quantity("pK1 of phosphoric acid", "1", 1, 4, 2.148),
      pkp2: quantity("pK2 of phosphoric acid", "1", 5, 9, 7.198),
      pkp3: quantity("pK3 of phosphoric acid", "1", 10, 14, 12.35),
    },
    outputs: { ph: out("pH", "1"), co2: out("dissolved CO2", "mol/L") },
    equation: "Alk = HCO3 + 2 CO3 + B(OH)4 + HPO4 + 2 PO4 - H3PO4 + OH - H",
    sources: ["munhoven-2013", "dickson-1981"],
    validity: "No activity and no pairs.",
    compute: (i) => {
      const acids = noAcids();
      acids.dic = i.dic;
      acids.k1 = 10 ** -i.pk1;
      acids.k2 = 10 ** -i.pk2;
      acids.kw = 10 ** -i.pkw;
      acids.boron = i.boron;
      acids.kBoric = 10 ** -i.pkb;
      acids.phosphate = i.phosphate;
      acids.kPO4 = 10 ** -i.pkp3;
      acids.kH2PO4 = 10 ** i.pkp2;
      acids.kH3PO4 = 10 ** (i.pkp1 + i.pkp2);
      const root = { h: 0, evaluations: 0 };
      hydrogenRoot(i.alk, acids, 1e-12, root);
      const { h } = root;
      const share = (h * h) / (h * h + acids.k1 * h + acids.k1 * acids.k2);
      return { ph: -Math.log10(h), co2: i.dic * share };
    },
  }),
  relation({
    ...speciationText,
    id: "water-from-ph-and-alkalinity",
    title: "A water from its ions, pH and alkalinity",
    inputs: { ...ionInputs, alk: alkalinity, ph, temperature: waterTemperature },
    outputs: speciationOutputs,
    compute: (i) => solveFor(i, { ph: i.ph, alk: i.alk / 1000 }),
  }),
  relation({
    ...speciationText,
    id: "water-from-carbon-and-alkalinity",
    title: "A water from its ions, carbon and alkalinity",
    inputs: { ...ionInputs, alk: alkalinity, dic, temperature: waterTemperature },
    outputs: speciationOutputs,
    compute: (i) => solveFor(i, { dic: i.dic / 1000, alk: i.alk / 1000 }),
  }),
  relation({
    ...speciationText,
    id: "water-from-co2-and-alkalinity",
    title: "A water from its ions, CO2 and alkalinity",
    inputs: { ...ionInputs, alk: alkalinity, co2, temperature: waterTemperature },
    outputs: speciationOutputs,
    compute: (i) => solveFor(i, { co2: i.co2 / 1000, alk: i.alk / 1000 }),
  }),
  relation({
    ...speciationText,
    id: "water-from-air-and-alkalinity",
    title: "A water in balance with a gas of known CO2",
    inputs: { ...ionInputs, alk: alkalinity, log_pco2: logPco2, temperature: waterTemperature },
    outputs: speciationOutputs,
    compute: (i) => solveFor(i, { pco2: 10 ** i.log_pco2, alk: i.alk / 1000 }),
  }),
  relation({
    ...speciationText,
    id: "water-from-ph-and-carbon",
    title: "A water from its ions, pH and carbon",
    inputs: { ...ionInputs, dic, ph, temperature: waterTemperature },
    outputs: speciationOutputs,
    compute: (i) => solveFor(i, { ph: i.ph, dic: i.dic / 1000 }),
  }),
  relation({
    ...speciationText,
    id: "water-from-ph-and-co2",
    title: "A water from its ions, pH and CO2",
    inputs: { ...ionInputs, co2, ph, temperature: waterTemperature },
    outputs: speciationOutputs,
    compute: (i) => solveFor(i, { ph: i.ph, co2: i.co2 / 1000 }),
  }),
  relation({
    ...speciationText,
    id: "water-from-carbon-and-co2",
    title: "A water from its ions, carbon and CO2",
    inputs: { ...ionInputs, dic, co2, temperature: waterTemperature },
    outputs: speciationOutputs,
    compute: (i) => solveFor(i, { dic: i.dic / 1000, co2: i.co2 / 1000 }),
  }),
  relation({
    id: "simplified-chemistry-error",
    title: "What leaving out activity or pairs costs",
    room,
    inputs: {
      ...ionInputs,
      ca: quantity("calcium", "mmol/kg", 1e-6, 200),
      alk: alkalinity,
      ph,
      temperature: waterTemperature,
      simplification: { kind: "choice", label: "simplification", options: ["davies", "no-pairs", "ideal"] },
    },
    outputs: {
      co2_error: out("error of CO2", "%"),
      si_error: out("error of the saturation index of calcite", "1"),
    },
    equation: "simplified / full - 1 at the same pH and alkalinity",
    sources: ["pb82", "davies-1962", "truesdell-jones-1974"],
    compute: (i) => {
      const full = createSpeciator();
      const less = createSpeciator(
        i.simplification === "davies"
          ? { activity: "davies" }
          : i.simplification === "no-pairs"
            ? { pairs: false }
            : { activity: "none", pairs: false },
      );
      const totals = totalsOf(i);
      full.solve(totals, i.temperature, "ph-alk", i.ph, i.alk / 1000);
      less.solve(totals, i.temperature, "ph-alk", i.ph, i.alk / 1000);
      return { co2_error: 100 * (less.co2 / full.co2 - 1), si_error: less.siCalcite() - full.siCalcite() };
    },
  }),
  relation({
    id: "alkalinity-from-ions",
    title: "Alkalinity as the balance of charges",
    room,
    inputs: ionInputs,
    outputs: { alk: out("total alkalinity", "meq/kg") },
    equation: "Alk = Na + K + 2 Ca + 2 Mg + NH4 - Cl - NO3 - 2 SO4 - PO4",
    sources: ["wolf-gladrow-2007"],
    compute: (i) => ({ alk: alkalinityFromIons(totalsOf(i)) * 1000 }),
  }),
  relation({
    id: "calcite-balance-closed",
    title: "A water brought to balance with calcite, no gas exchanged",
    room,
    inputs: { ...ionInputs, alk: alkalinity, dic, temperature: waterTemperature },
    outputs: {
      ...speciationOutputs,
      precipitated: out("calcite that leaves the water", "mmol/kg"),
      precipitated_mg: out("calcite that leaves the water", "mg/kg"),
    },
    equation: "SI(Ca - x, DIC - x, Alk - 2x) = 0",
    sources: ["pb82", "standard-methods-2330"],
    validity: "Lime falls out only well above SI 0.5 in practice: the result is a potential.",
    compute: (i) => {
      const { water, precipitated } = calciteBalanceClosed(totalsOf(i), i.temperature, i.alk / 1000, i.dic / 1000);
      return {
        ...told(water),
        precipitated: precipitated * 1000,
        precipitated_mg: precipitated * M.caco3 * 1000,
      };
    },
  }),
  relation({
    id: "calcite-balance-open",
    title: "A water brought to balance with calcite and a gas",
    room,
    inputs: { ...ionInputs, alk: alkalinity, log_pco2: logPco2, temperature: waterTemperature },
    outputs: { ...speciationOutputs, precipitated: out("calcite that leaves the water", "mmol/kg") },
    equation: "SI(Ca - x, Alk - 2x) = 0 at fixed pCO2",
    sources: ["pb82", "stumm-morgan", "appelo-postma"],
    compute: (i) => {
      const { water, precipitated } = calciteBalanceOpen(totalsOf(i), i.temperature, i.alk / 1000, 10 ** i.log_pco2);
      return { ...told(water), precipitated: precipitated * 1000 };
    },
  }),
  relation({
    id: "calcite-saturation-short-form",
    title: "Saturation index of calcite by the handbook's short form",
    room,
    inputs: {
      ph,
      ca: quantity("total calcium", "mmol/L", 1e-6, 100),
      hco3: quantity("bicarbonate", "mmol/L", 1e-6, 100),
      ionic_strength: quantity("ionic strength", "mol/L", 0, 0.5),
      temperature: waterTemperature,
    },
    outputs: { si: out("saturation index", "1") },
    equation: "pHs = pK2 - pKs + p[Ca] + p[HCO3] + 5 pfm; SI = pH - pHs",
    sources: ["standard-methods-2330"],
    validity: "No pairs: 0.02 to 0.08 above the full model.",
    compute: (i) => ({
      si: quickSaturation(i.ph, i.ca / 1000, i.hco3 / 1000, i.ionic_strength, i.temperature),
    }),
  }),
] as const;
