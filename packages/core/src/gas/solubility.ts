import { relation } from "../relation/index.ts";
import { waterVapourPressure } from "./air.ts";
import { ATMOSPHERE, DRY_AIR, GAS_CONSTANT_L_ATM, type Gas, GRAVITY, MOLAR_MASS, ZERO_CELSIUS } from "./constants.ts";
import { oxygenSaturation } from "./oxygen.ts";
import { airCo2, airPressure, choice, quantity, waterTemperature } from "./usual-inputs.ts";
import { waterDensity } from "./water.ts";

/** mg/L in one mol/L of CO2. */
const CO2_MG = MOLAR_MASS.co2 * 1000;

/**
 * Solubility of CO2 in fresh water, per litre.
 * @param t temperature, °C, 0 to 40
 * @returns mol/(L*atm). Source: weiss-1974
 */
export function co2Henry(t: number): number {
  const c = (t + ZERO_CELSIUS) / 100;
  return Math.exp(-58.0931 + 90.5069 / c + 22.294 * Math.log(c));
}

/**
 * Solubility of CO2 in fresh water, per kilogram; `co2Henry` divided by the density, fitted on its own.
 * @param t temperature, °C, 0 to 40
 * @returns mol/(kg*atm). Source: weiss-1974
 */
export function co2HenryPerKg(t: number): number {
  const c = (t + ZERO_CELSIUS) / 100;
  return Math.exp(-60.2409 + 93.4517 / c + 23.3585 * Math.log(c));
}

/**
 * Solubility of CO2 as used in carbonate work; +0.3 % at 5 °C and -0.7 % at 40 °C against Weiss.
 * @param t temperature, °C, 0 to 250
 * @returns mol/(kg*atm). Source: plummer-busenberg-1982
 */
export function co2HenryPlummerBusenberg(t: number): number {
  const k = t + ZERO_CELSIUS;
  return 10 ** (108.3865 + 0.01985076 * k - 6919.53 / k - 40.45154 * Math.log10(k) + 669365 / (k * k));
}

/**
 * Solubility of oxygen in fresh water, taken from the saturation in air.
 * @param t temperature, °C, 0 to 40
 * @returns mol/(L*atm). Source: benson-krause-1984
 */
export function oxygenHenry(t: number): number {
  return oxygenSaturation(t) / (MOLAR_MASS.o2 * 1000 * DRY_AIR.o2 * (1 - waterVapourPressure(t)));
}

/**
 * Solubility of nitrogen in fresh water.
 * @param t temperature, °C, 0 to 75
 * @returns mol/(L*atm). Source: battino-rettich-1984
 */
export function nitrogenHenry(t: number): number {
  const c = (t + ZERO_CELSIUS) / 100;
  const moleFraction = Math.exp(-67.38765 + 86.32129 / c + 24.79808 * Math.log(c));
  return (moleFraction / MOLAR_MASS.water) * waterDensity(t);
}

/**
 * Solubility of one of the three gases.
 * @param gas "co2", "o2" or "n2"
 * @param t temperature, °C, 0 to 40
 * @returns mol/(L*atm). Sources: weiss-1974, benson-krause-1984, battino-rettich-1984
 */
export function henry(gas: Gas, t: number): number {
  if (gas === "co2") return co2Henry(t);
  return gas === "o2" ? oxygenHenry(t) : nitrogenHenry(t);
}

/**
 * Dimensionless Henry number C_gas / C_water.
 * @param k solubility, mol/(L*atm)
 * @param t temperature, °C
 * @returns pure number; 1.2 for CO2 and 32 for oxygen at 25 °C
 */
export function henryDimensionless(k: number, t: number): number {
  return 1 / (k * GAS_CONSTANT_L_ATM * (t + ZERO_CELSIUS));
}

/**
 * Vapour pressure of water by the equation that the wide-range guideline is built on.
 * @param kelvin temperature, K, 273.16 to 647
 * @returns Pa. Source: wagner-pruss-1993
 */
function vapourPressureWide(kelvin: number): number {
  const tau = 1 - kelvin / 647.096;
  const sum =
    -7.85951783 * tau +
    1.84408259 * tau ** 1.5 -
    11.7866497 * tau ** 3 +
    22.6807411 * tau ** 3.5 -
    15.9618719 * tau ** 4 +
    1.80122502 * tau ** 7.5;
  return 22.064e6 * Math.exp((647.096 / kelvin) * sum);
}

const GUIDELINE: Readonly<Record<Gas, readonly [number, number, number]>> = {
  n2: [-9.67578, 4.72162, 11.70585],
  o2: [-9.44833, 4.43822, 11.42005],
  co2: [-8.55445, 4.01195, 9.52345],
};

/**
 * Henry constant of the international guideline, an independent wide-range fit kept as a cross-check.
 * @param gas "co2", "o2" or "n2"
 * @param t temperature, °C, 0 to 300
 * @returns natural logarithm of k_H in GPa per mole fraction. Source: iapws-g7-04
 */
export function guidelineHenryLog(gas: Gas, t: number): number {
  const kelvin = t + ZERO_CELSIUS;
  const reduced = kelvin / 647.096;
  const tau = 1 - reduced;
  const [a, b, c] = GUIDELINE[gas];
  const ratio = a / reduced + (b * tau ** 0.355) / reduced + c * reduced ** -0.41 * Math.exp(tau);
  return ratio + Math.log(vapourPressureWide(kelvin) / 1e9);
}

/**
 * Solubility by the international guideline. Within 1.5 % of the recommended forms from 16 °C up; it runs low for CO2
 * below that (-3.5 % at 5 °C) and should not be used there.
 * @param gas "co2", "o2" or "n2"
 * @param t temperature, °C, 0 to 300
 * @returns mol/(kg*atm). Source: iapws-g7-04
 */
export function guidelineHenryPerKg(gas: Gas, t: number): number {
  return (ATMOSPHERE * 1000) / (MOLAR_MASS.water * Math.exp(guidelineHenryLog(gas, t)) * 1e9);
}

/**
 * Solubility carried from 25 °C to another temperature.
 * @param at25 solubility at 298.15 K, any unit
 * @param slope d ln H / d(1/T), K
 * @param t temperature, °C
 * @returns solubility in the unit given. Source: sander-2023
 */
export function henryFrom25(at25: number, slope: number, t: number): number {
  return at25 * Math.exp(slope * (1 / (t + ZERO_CELSIUS) - 1 / 298.15));
}

/**
 * CO2 in water that stands in equilibrium with air.
 * @param t water temperature, °C, 0 to 40
 * @param ppm CO2 of the dry air, mole fraction in parts per million; outdoors about 425, lived-in rooms 600 to 1500
 * @param pressureAtm pressure at the tank, atm
 * @returns mg/L. Source: weiss-1974
 */
export function co2AirEquilibrium(t: number, ppm: number, pressureAtm = 1): number {
  return co2Henry(t) * ppm * 1e-6 * (pressureAtm - waterVapourPressure(t)) * CO2_MG;
}

/**
 * Nitrogen in water that stands in equilibrium with air.
 * @param t water temperature, °C, 0 to 40
 * @param pressureAtm pressure at the tank, atm
 * @returns mg/L. Source: battino-rettich-1984
 */
export function nitrogenAirEquilibrium(t: number, pressureAtm = 1): number {
  return nitrogenHenry(t) * DRY_AIR.n2 * (pressureAtm - waterVapourPressure(t)) * MOLAR_MASS.n2 * 1000;
}

/**
 * Partial pressure of CO2 that dissolved CO2 stands for; animals answer to this, not to mg/L.
 * @param mgL dissolved CO2, mg/L
 * @param t water temperature, °C, 0 to 40
 * @returns atm. Source: weiss-1974
 */
export function co2PartialPressure(mgL: number, t: number): number {
  return mgL / (co2Henry(t) * CO2_MG);
}

/**
 * Dissolved CO2 at a partial pressure.
 * @param atm partial pressure of CO2, atm
 * @param t water temperature, °C, 0 to 40
 * @returns mg/L. Source: weiss-1974
 */
export function co2FromPartialPressure(atm: number, t: number): number {
  return atm * co2Henry(t) * CO2_MG;
}

/**
 * Sum of the pressures of the gases dissolved in the water, with water vapour. Free bubbles last or grow at a depth
 * only where this exceeds the air pressure plus the weight of the water above.
 * @param gases oxygen, nitrogen and CO2, mg/L
 * @param t water temperature, °C, 0 to 40
 * @returns atm. Sources: benson-krause-1984, battino-rettich-1984, weiss-1974
 */
export function dissolvedGasPressure(
  gases: { readonly o2MgL: number; readonly n2MgL: number; readonly co2MgL: number },
  t: number,
): number {
  return (
    gases.o2MgL / (MOLAR_MASS.o2 * 1000 * oxygenHenry(t)) +
    gases.n2MgL / (MOLAR_MASS.n2 * 1000 * nitrogenHenry(t)) +
    co2PartialPressure(gases.co2MgL, t) +
    waterVapourPressure(t)
  );
}

const perLitre = { label: "solubility", unit: "mol/(L*atm)" } as const;
const perKg = { label: "solubility", unit: "mol/(kg*atm)" } as const;
const dimensionless = { label: "C_gas/C_water", unit: "1" } as const;

export const solubilityRelations = [
  relation({
    id: "co2-solubility",
    title: "Solubility of CO2 in fresh water",
    room: "gas",
    inputs: { temperature: waterTemperature },
    outputs: {
      per_litre: perLitre,
      per_kg: perKg,
      mg_per_litre: { label: "dissolved under 1 atm of CO2", unit: "mg/L" },
      dimensionless,
    },
    equation:
      "ln K0 = -58.0931 + 90.5069 (100/T) + 22.2940 ln(T/100) per litre; -60.2409 + 93.4517 (100/T) + 23.3585 ln(T/100) per kg; Hcc = 1/(K R T)",
    sources: ["weiss-1974"],
    compute: ({ temperature: t }) => ({
      per_litre: co2Henry(t),
      per_kg: co2HenryPerKg(t),
      mg_per_litre: co2FromPartialPressure(1, t),
      dimensionless: henryDimensionless(co2Henry(t), t),
    }),
  }),
  relation({
    id: "co2-solubility-plummer-busenberg",
    title: "Solubility of CO2, form used in carbonate work",
    room: "gas",
    inputs: { temperature: waterTemperature },
    outputs: { per_kg: perKg },
    equation: "log10 K = 108.3865 + 0.01985076 T - 6919.53/T - 40.45154 log10 T + 669365/T^2",
    sources: ["plummer-busenberg-1982"],
    compute: ({ temperature }) => ({ per_kg: co2HenryPlummerBusenberg(temperature) }),
  }),
  relation({
    id: "oxygen-solubility",
    title: "Solubility of oxygen in fresh water",
    room: "gas",
    inputs: { temperature: waterTemperature },
    outputs: { per_litre: perLitre, dimensionless },
    equation: "K = C*/(31.998 x 0.20946 (1 - Pwv)) / 1000; Hcc = 1/(K R T)",
    sources: ["benson-krause-1984"],
    compute: ({ temperature: t }) => ({
      per_litre: oxygenHenry(t),
      dimensionless: henryDimensionless(oxygenHenry(t), t),
    }),
  }),
  relation({
    id: "nitrogen-solubility",
    title: "Solubility of nitrogen in fresh water",
    room: "gas",
    inputs: { temperature: waterTemperature },
    outputs: { per_litre: perLitre, dimensionless },
    equation: "ln x = -67.38765 + 86.32129 (100/T) + 24.79808 ln(T/100); K = x rho / 18.01528; Hcc = 1/(K R T)",
    sources: ["battino-rettich-1984"],
    compute: ({ temperature: t }) => ({
      per_litre: nitrogenHenry(t),
      dimensionless: henryDimensionless(nitrogenHenry(t), t),
    }),
  }),
  relation({
    id: "gas-solubility-guideline",
    title: "Solubility of a gas by the international guideline, for comparison",
    room: "gas",
    inputs: {
      gas: choice("gas", ["co2", "o2", "n2"], "co2"),
      temperature: quantity("water temperature", "°C", 0, 300),
    },
    outputs: { per_kg: perKg, ln_henry: { label: "ln(k_H / 1 GPa)", unit: "1" } },
    equation: "ln(k_H/p*) = A/Tr + B tau^0.355/Tr + C Tr^-0.41 e^tau; Tr = T/647.096, tau = 1 - Tr",
    sources: ["iapws-g7-04", "wagner-pruss-1993"],
    validity: "Wide-range fit: within 1.5 % from 16 °C up; too low for CO2 in colder water.",
    compute: ({ gas, temperature }) => ({
      per_kg: guidelineHenryPerKg(gas, temperature),
      ln_henry: guidelineHenryLog(gas, temperature),
    }),
  }),
  relation({
    id: "solubility-from-25-degrees",
    title: "Solubility carried from 25 °C to another temperature",
    room: "gas",
    inputs: {
      at_25: quantity("solubility at 25 °C", "mol/(L*atm)", 1e-7, 10),
      slope: quantity("d ln H / d(1/T)", "K", 0, 10000),
      temperature: waterTemperature,
    },
    outputs: { per_litre: perLitre },
    equation: "H(T) = H25 exp(B (1/T - 1/298.15))",
    sources: ["sander-2023"],
    compute: ({ at_25, slope, temperature }) => ({ per_litre: henryFrom25(at_25, slope, temperature) }),
  }),
  relation({
    id: "co2-air-equilibrium",
    title: "CO2 in water that stands under air",
    room: "gas",
    inputs: { temperature: waterTemperature, air_co2: airCo2, pressure: airPressure },
    outputs: { co2: { label: "CO2 at equilibrium", unit: "mg/L" } },
    equation: "C = K0 x (P - Pwv) 44009.5",
    sources: ["weiss-1974", "benson-krause-1984"],
    compute: ({ temperature, air_co2, pressure }) => ({ co2: co2AirEquilibrium(temperature, air_co2, pressure) }),
  }),
  relation({
    id: "nitrogen-air-equilibrium",
    title: "Nitrogen in water that stands under air",
    room: "gas",
    inputs: { temperature: waterTemperature, pressure: airPressure },
    outputs: { nitrogen: { label: "nitrogen at equilibrium", unit: "mg/L" } },
    equation: "C = K 0.78084 (P - Pwv) 28013.4",
    sources: ["battino-rettich-1984", "benson-krause-1984"],
    compute: ({ temperature, pressure }) => ({ nitrogen: nitrogenAirEquilibrium(temperature, pressure) }),
  }),
  relation({
    id: "co2-partial-pressure",
    title: "Pressure of dissolved CO2, which animals feel",
    room: "gas",
    inputs: { co2: quantity("dissolved CO2", "mg/L", 0, 3000), temperature: waterTemperature },
    outputs: {
      pressure: { label: "partial pressure", unit: "atm" },
      pressure_hpa: { label: "partial pressure", unit: "hPa" },
    },
    equation: "p = C / (K0 44009.5)",
    sources: ["weiss-1974"],
    validity: "The same mg/L is a higher pressure in warm water: limits from cold water do not carry over.",
    compute: ({ co2, temperature }) => {
      const pressure = co2PartialPressure(co2, temperature);
      return { pressure, pressure_hpa: pressure * 1013.25 };
    },
  }),
  relation({
    id: "co2-from-partial-pressure",
    title: "Dissolved CO2 at a partial pressure",
    room: "gas",
    inputs: { pressure: quantity("partial pressure of CO2", "hPa", 0, 2000), temperature: waterTemperature },
    outputs: { co2: { label: "dissolved CO2", unit: "mg/L" } },
    equation: "C = K0 p 44009.5",
    sources: ["weiss-1974"],
    compute: ({ pressure, temperature }) => ({ co2: co2FromPartialPressure(pressure / 1013.25, temperature) }),
  }),
  relation({
    id: "dissolved-gas-pressure",
    title: "Whether free bubbles last in the water",
    room: "gas",
    inputs: {
      oxygen: quantity("oxygen", "mg/L", 0, 60),
      nitrogen: quantity("nitrogen", "mg/L", 0, 60),
      co2: quantity("dissolved CO2", "mg/L", 0, 500),
      temperature: waterTemperature,
      depth: quantity("depth of the bubble", "m", 0, 5, 0),
      pressure: airPressure,
    },
    outputs: {
      total: { label: "pressure of all dissolved gases and vapour", unit: "atm" },
      excess: { label: "excess over the pressure at that depth; bubbles last above 0", unit: "atm" },
    },
    equation: "sum pO2 + pN2 + pCO2 + pH2O against P + rho g z",
    sources: ["benson-krause-1984", "battino-rettich-1984", "weiss-1974"],
    compute: ({ oxygen, nitrogen, co2, temperature, depth, pressure }) => {
      const total = dissolvedGasPressure({ o2MgL: oxygen, n2MgL: nitrogen, co2MgL: co2 }, temperature);
      return { total, excess: total - pressure - (waterDensity(temperature) * GRAVITY * depth) / ATMOSPHERE };
    },
  }),
] as const;
