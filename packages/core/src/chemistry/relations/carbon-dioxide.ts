import { relation } from "../../relation/index.ts";
import {
  co2AtRest,
  co2Pressure,
  co2PressureFor,
  co2Saturated,
  co2Solubility,
  co2SolubilityPerLitre,
  waterVapour,
} from "../atmosphere.ts";
import { alkalinityOfDegrees } from "../hardness.ts";
import { blueShare, cellCo2, cellPh, co2OfColour, type IndicatorColour, indicatorColours } from "../indicator-cell.ts";
import {
  co2AfterDrop,
  co2AlkalinityFactor,
  dropFor,
  exactCo2,
  exactCoefficient,
  standardMethodsCo2,
  tradeCo2,
  usgsCo2,
} from "../trade-rule.ts";
import { perKilogram } from "../water-properties.ts";
import { ionicStrength, out, ph, quantity, waterTemperature } from "./usual-inputs.ts";

const room = "chemistry";
const gasCaution =
  "CO2 harms fish well before plants are satisfied, and gas from a cylinder can gather in a room: watch the animals, keep air moving, follow the maker's instructions.";
const kh = quantity("carbonate hardness", "dKH", 0.01, 100);
const salt = (label: string) => quantity(label, "mmol/L", 0, 100, 0);
const ppm = quantity("CO2 of the dry air", "ppm(v)", 0, 1e5, 420);

export const carbonDioxideRelations = [
  relation({
    id: "co2-from-ph-and-kh",
    title: "CO2 from pH and KH: the trade's rule and the exact figure",
    room,
    inputs: {
      kh,
      ph,
      temperature: waterTemperature,
      nacl: salt("sodium chloride beside the bicarbonate"),
      caso4: salt("calcium sulfate beside the bicarbonate"),
      cacl2: salt("calcium chloride beside the bicarbonate"),
      mgso4: salt("magnesium sulfate beside the bicarbonate"),
    },
    outputs: {
      exact: out("CO2 with activity and pairs", "mg/L"),
      trade: out("CO2 by the trade's rule", "mg/L"),
      ratio: out("trade over exact", "1"),
      ideal: out("CO2 without activity and pairs", "mg/L"),
    },
    equation: "trade: CO2 = 3 KH 10^(7-pH); ideal: 15.696 KH 10^(pK1-pH)",
    sources: ["trade-rule", "pb82"],
    validity: "All alkalinity taken as carbonate; pH known to 0.1 means CO2 known to 26 %.",
    caution: gasCaution,
    compute: (i) => {
      const molal = (x: number) => perKilogram(x / 1000, i.temperature);
      const exact = exactCo2(i.kh, i.ph, i.temperature, {
        ca: molal(i.caso4 + i.cacl2),
        mg: molal(i.mgso4),
        na: molal(alkalinityOfDegrees(i.kh) + i.nacl),
        k: 0,
        cl: molal(i.nacl + 2 * i.cacl2),
        so4: molal(i.caso4 + i.mgso4),
        no3: 0,
        po4: 0,
        nh4: 0,
        b: 0,
      });
      const trade = tradeCo2(i.kh, i.ph);
      return { exact, trade, ratio: trade / exact, ideal: exactCoefficient(i.temperature) * i.kh * 10 ** (7 - i.ph) };
    },
  }),
  relation({
    id: "co2-coefficient",
    title: "What should stand for the trade's 3",
    room,
    inputs: { temperature: waterTemperature, ionic_strength: { ...ionicStrength, default: 0 } },
    outputs: { coefficient: out("mg/L of CO2 per dKH at pH 7", "1") },
    equation: "15.696 · 10^(pK1-7) · γHCO3/γCO2",
    sources: ["pb82", "truesdell-jones-1974"],
    compute: ({ temperature, ionic_strength }) => ({ coefficient: exactCoefficient(temperature, ionic_strength) }),
  }),
  relation({
    id: "co2-handbook-forms",
    title: "CO2 by two handbooks' forms without activity",
    room,
    inputs: { ph, kh },
    outputs: { usgs: out("USGS form", "mg/L"), standard_methods: out("handbook form", "mg/L") },
    equation: "1.60 · 10^(6-pH) · HCO3; 2.0 · B · 10^(6-pH), B as CaCO3",
    sources: ["usgs-twri-5a1", "standard-methods-4500"],
    compute: (i) => {
      const alk = alkalinityOfDegrees(i.kh);
      return { usgs: usgsCo2(alk * 61.017, i.ph), standard_methods: standardMethodsCo2(alk * 50.043, i.ph) };
    },
  }),
  relation({
    id: "co2-alkalinity-factor",
    title: "CO2 per alkalinity as CaCO3, without activity",
    room,
    inputs: { temperature: waterTemperature, ph },
    outputs: { factor: out("mg of CO2 per mg of CaCO3", "1") },
    equation: "2 · 44.009/100.086 · 10^(pK1-pH)",
    sources: ["pb82", "wurts-durborow-1992"],
    compute: ({ temperature, ph: p }) => ({ factor: co2AlkalinityFactor(temperature, p) }),
  }),
  relation({
    id: "ph-drop",
    title: "CO2 after a drop of pH",
    room,
    inputs: {
      resting: quantity("resting CO2", "mg/L", 0.01, 1000),
      drop: quantity("drop of pH", "1", -3, 4, 1),
      wanted: quantity("wanted CO2", "mg/L", 0.01, 2000, 30),
    },
    outputs: { co2: out("CO2 after the drop", "mg/L"), drop_for_wanted: out("drop of pH for the wanted CO2", "1") },
    equation: "CO2 = resting · 10^drop",
    sources: ["pb82"],
    validity:
      "Constant alkalinity, below pH 8. Only as good as the resting CO2, which in a tank is above that of aerated water.",
    caution: gasCaution,
    compute: ({ resting, drop, wanted }) => ({
      co2: co2AfterDrop(resting, drop),
      drop_for_wanted: dropFor(wanted, resting),
    }),
  }),
  relation({
    id: "indicator-cell",
    title: "pH of an indicator cell from the tank's CO2",
    room,
    inputs: {
      co2: quantity("CO2 in the tank", "mg/L", 0.01, 1000),
      kh: { ...kh, default: 4 },
      temperature: waterTemperature,
      salt: { kind: "choice", label: "salt of the reference water", options: ["NaHCO3", "KHCO3"], default: "NaHCO3" },
    },
    outputs: { ph: out("pH of the cell", "1"), blue: out("blue share of bromothymol blue", "1") },
    equation: "equal pCO2 in cell and tank; reference water of known KH",
    sources: ["pb82", "trade-indicator", "bromothymol-blue"],
    validity: "Equal temperature; the cell lags 1 to 3 h.",
    compute: (i) => {
      const cell = cellPh(i.co2, i.kh, i.temperature, i.salt);
      return { ph: cell, blue: blueShare(cell) };
    },
  }),
  relation({
    id: "indicator-dye",
    title: "Blue share of bromothymol blue",
    room,
    inputs: { ph },
    outputs: { blue: out("blue share", "1") },
    equation: "1/(1 + 10^(7.1 - pH))",
    sources: ["bromothymol-blue"],
    compute: (i) => ({ blue: blueShare(i.ph) }),
  }),
  relation({
    id: "indicator-reading",
    title: "The tank's CO2 from an indicator cell",
    room,
    inputs: {
      ph,
      colour: { kind: "choice", label: "colour seen", options: indicatorColours, default: "green" },
      kh: { ...kh, default: 4 },
      temperature: waterTemperature,
    },
    outputs: {
      co2: out("CO2 at that pH", "mg/L"),
      colour_low: out("least CO2 of the colour", "mg/L"),
      colour_high: out("most CO2 of the colour", "mg/L"),
    },
    equation: "as the indicator cell, read backwards; colours by pH",
    sources: ["pb82", "trade-indicator", "bromothymol-blue"],
    caution: gasCaution,
    compute: (i) => {
      const range = co2OfColour(i.colour as IndicatorColour, i.kh, i.temperature);
      return { co2: cellCo2(i.ph, i.kh, i.temperature), colour_low: range.low, colour_high: range.high };
    },
  }),
  relation({
    id: "co2-solubility-forms",
    title: "Solubility of CO2 by three forms",
    room,
    inputs: { temperature: waterTemperature },
    outputs: {
      pb82: out("recommended", "mol/(kg*atm)"),
      weiss: out("Weiss 1974", "mol/(kg*atm)"),
      weiss_volume: out("Weiss 1974, by volume", "mol/(L*atm)"),
      sander: out("one enthalpy, 6 % low at 5 °C", "mol/(kg*atm)"),
    },
    equation: "ln K0 = -60.2409 + 93.4517 (100/T) + 23.3585 ln(T/100), and others",
    sources: ["pb82", "weiss-1974", "sander-2015"],
    compute: ({ temperature: t }) => ({
      pb82: co2Solubility(t),
      weiss: co2Solubility(t, "weiss"),
      weiss_volume: co2SolubilityPerLitre(t),
      sander: co2Solubility(t, "sander"),
    }),
  }),
  relation({
    id: "co2-of-resting-water",
    title: "CO2 of water at rest with room air",
    room,
    inputs: { temperature: waterTemperature, ppm, pressure: quantity("air pressure", "atm", 0.5, 1.2, 1) },
    outputs: {
      co2: out("dissolved CO2", "mg/L"),
      pco2: out("partial pressure", "atm"),
      vapour: out("vapour pressure of water", "atm"),
    },
    equation: "CO2 = KH(t) x (P - pH2O); ln pH2O = 24.4543 - 67.4509 (100/T) - 4.8489 ln(T/100)",
    sources: ["pb82", "weiss-price-1980", "noaa-2023"],
    validity: "Rooms people live in hold 600 to 1500 ppm.",
    compute: ({ temperature, ppm: x, pressure }) => ({
      co2: co2AtRest(temperature, x, pressure),
      pco2: co2Pressure(temperature, x, pressure),
      vapour: waterVapour(temperature),
    }),
  }),
  relation({
    id: "co2-under-pure-gas",
    title: "CO2 of water under pure CO2",
    room,
    inputs: { temperature: waterTemperature, pressure: quantity("total pressure", "atm", 0.5, 10, 1) },
    outputs: { co2: out("dissolved CO2", "g/L") },
    equation: "CO2 = KH(t) (P - pH2O)",
    sources: ["pb82", "weiss-price-1980"],
    caution: gasCaution,
    compute: ({ temperature, pressure }) => ({ co2: co2Saturated(temperature, pressure) }),
  }),
  relation({
    id: "pco2-for-co2",
    title: "Partial pressure in balance with dissolved CO2",
    room,
    inputs: { temperature: waterTemperature, co2: quantity("dissolved CO2", "mg/L", 0, 3000) },
    outputs: { pco2: out("partial pressure", "atm") },
    equation: "pCO2 = CO2 / KH(t)",
    sources: ["pb82"],
    compute: ({ temperature, co2 }) => ({ pco2: co2PressureFor(co2, temperature) }),
  }),
] as const;
