import { relation } from "../relation/index.ts";
import { BAR, GAS_CONSTANT, MOLAR_MASS, ZERO_CELSIUS } from "./constants.ts";
import { quantity } from "./usual-inputs.ts";

const MOLAR_KG = MOLAR_MASS.co2 / 1000;
/** One atmosphere, bar. */
const ATM_BAR = 1.01325;

/**
 * Compressibility of CO2 gas at low pressure.
 * @param t temperature, °C, 0 to 40
 * @param bar absolute pressure, bar, up to 5
 * @returns pure number; 0.995 at 1 atm. Source: span-wagner-1996 (own fit of the second virial coefficient)
 */
export function co2Compressibility(t: number, bar: number): number {
  const virial = (-150.3 + t * (1.237 - 0.0058 * t)) * 1e-6;
  return 1 + (virial * bar * BAR) / (GAS_CONSTANT * (t + ZERO_CELSIUS));
}

/**
 * Density of CO2 gas.
 * @param t temperature, °C, 0 to 40
 * @param bar absolute pressure, bar, up to 5; one atmosphere when left out
 * @returns kg/m3, which is also mg/mL; within 0.1 %. Source: span-wagner-1996
 */
export function co2Density(t: number, bar = ATM_BAR): number {
  return (MOLAR_KG * bar * BAR) / (co2Compressibility(t, bar) * GAS_CONSTANT * (t + ZERO_CELSIUS));
}

/**
 * Mass of one bubble of CO2 in a bubble counter, which sits before the device: at 2 bar a bubble holds twice the gas.
 * @param volumeMl volume of the bubble, mL
 * @param pressureBarAbs absolute pressure in the counter, bar
 * @param t temperature, °C
 * @returns mg. Source: span-wagner-1996
 */
export function bubbleMass(volumeMl: number, pressureBarAbs: number, t: number): number {
  return volumeMl * co2Density(t, pressureBarAbs);
}

/** Volume of a counted bubble when nothing is known, mL; usual tips of 1 to 3 mm give 0.02 to 0.07. Common practice, size by Tate. */
export const USUAL_BUBBLE = { value: 0.045, low: 0.02, high: 0.07 } as const;

/**
 * Mass rate of counted bubbles.
 * @param bubblesPerSecond 1/s
 * @param bubbleMg mass of one bubble, mg
 * @returns g/h
 */
export function rateFromBubbles(bubblesPerSecond: number, bubbleMg: number): number {
  return 3.6 * bubblesPerSecond * bubbleMg;
}

/**
 * Mass rate of a gas flow.
 * @param mlPerMin flow, mL/min, at the temperature and pressure given
 * @param t temperature of the gas, °C
 * @param bar absolute pressure, bar
 * @returns g/h. Source: span-wagner-1996
 */
export function rateFromFlow(mlPerMin: number, t: number, bar = ATM_BAR): number {
  return 0.06 * mlPerMin * co2Density(t, bar);
}

/**
 * Mass rate from two weighings of the cylinder; the best calibration there is.
 * @param grams mass lost, g
 * @param days between the weighings, d
 * @param hoursPerDay hours of gas a day, h
 * @returns g/h
 */
export function rateFromWeighing(grams: number, days: number, hoursPerDay: number): number {
  return grams / (days * hoursPerDay);
}

const gasTemperature = quantity("temperature of the gas", "°C", 0, 40, 22);
const absolutePressure = quantity("absolute pressure", "bar", 0.5, 5, ATM_BAR);

export const meteringRelations = [
  relation({
    id: "co2-gas-density",
    title: "Density of CO2 gas",
    room: "gas",
    inputs: { temperature: gasTemperature, pressure: absolutePressure },
    outputs: {
      density: { label: "density, also mg/mL", unit: "kg/m3" },
      ideal: { label: "density of an ideal gas", unit: "kg/m3" },
      specific_volume: { label: "volume of 1 kg", unit: "m3" },
    },
    equation: "rho = M P/(Z R T), Z = 1 + B P/(R T), B = -150.3 + 1.237 t - 0.0058 t^2 cm3/mol",
    sources: ["span-wagner-1996"],
    compute: ({ temperature, pressure }) => {
      const density = co2Density(temperature, pressure);
      return {
        density,
        ideal: density * co2Compressibility(temperature, pressure),
        specific_volume: 1 / density,
      };
    },
  }),
  relation({
    id: "co2-bubble-mass",
    title: "Mass of CO2 in one counted bubble",
    room: "gas",
    inputs: {
      volume: quantity("volume of a bubble", "mL", 1e-4, 1, USUAL_BUBBLE.value),
      pressure: quantity("absolute pressure in the counter", "bar", 0.8, 5, ATM_BAR),
      temperature: gasTemperature,
    },
    outputs: { mass: { label: "mass of one bubble", unit: "mg" } },
    equation: "m = V rho(P, t)",
    sources: ["span-wagner-1996", "tate-1864"],
    validity: "One bubble a second spans 0.13 to 0.9 g/h: weigh the cylinder over a week to know.",
    compute: ({ volume, pressure, temperature }) => ({ mass: bubbleMass(volume, pressure, temperature) }),
  }),
  relation({
    id: "co2-rate-from-bubbles",
    title: "CO2 rate from counted bubbles",
    room: "gas",
    inputs: {
      bubbles: quantity("bubbles", "bubbles/s", 0, 20),
      volume: quantity("volume of a bubble", "mL", 1e-4, 1, USUAL_BUBBLE.value),
      pressure: quantity("absolute pressure in the counter", "bar", 0.8, 5, ATM_BAR),
      temperature: gasTemperature,
    },
    outputs: { rate: { label: "CO2 rate", unit: "g/h" } },
    equation: "3.6 n m_b, m_b in mg",
    sources: ["span-wagner-1996"],
    validity: "Weigh the cylinder over a week to calibrate.",
    compute: ({ bubbles, volume, pressure, temperature }) => ({
      rate: rateFromBubbles(bubbles, bubbleMass(volume, pressure, temperature)),
    }),
  }),
  relation({
    id: "co2-rate-from-flow",
    title: "CO2 rate from a gas flow",
    room: "gas",
    inputs: {
      flow: quantity("flow", "mL/min", 0, 10000),
      temperature: gasTemperature,
      pressure: absolutePressure,
    },
    outputs: { rate: { label: "CO2 rate", unit: "g/h" } },
    equation: "0.06 Q rho",
    sources: ["span-wagner-1996"],
    compute: ({ flow, temperature, pressure }) => ({ rate: rateFromFlow(flow, temperature, pressure) }),
  }),
  relation({
    id: "co2-rate-from-weighing",
    title: "CO2 rate from two weighings of the cylinder",
    room: "gas",
    inputs: {
      mass: quantity("mass lost", "g", 0, 50000),
      days: quantity("days between the weighings", "d", 0.1, 1000, 7),
      hours: quantity("hours of gas a day", "h", 0.1, 24),
    },
    outputs: { rate: { label: "CO2 rate", unit: "g/h" } },
    equation: "m/(days x hours)",
    sources: ["definition"],
    compute: ({ mass, days, hours }) => ({ rate: rateFromWeighing(mass, days, hours) }),
  }),
] as const;
