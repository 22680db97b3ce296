import { relation } from "../relation/index.ts";
import { ZERO_CELSIUS } from "./constants.ts";
import { quantity } from "./usual-inputs.ts";

/** Critical point of CO2: °C, bar, kg/m3. Source: span-wagner-1996 */
export const CO2_CRITICAL = { t: 304.1282 - ZERO_CELSIUS, bar: 73.773, density: 467.6 } as const;
const TC = 304.1282;
/** Gas constant of CO2 as the equation of state uses it, J/(kg*K). */
const R = 188.9241;

/** Polynomial terms of the residual Helmholtz energy, then those with e^(-delta^c): n, d, t, c. */
const POWER: readonly (readonly [number, number, number, number])[] = [
  [0.38856823203161, 1, 0, 0],
  [2.938547594274, 1, 0.75, 0],
  [-5.5867188534934, 1, 1, 0],
  [-0.76753199592477, 1, 2, 0],
  [0.31729005580416, 2, 0.75, 0],
  [0.54803315897767, 2, 2, 0],
  [0.12279411220335, 3, 0.75, 0],
  [2.165896154322, 1, 1.5, 1],
  [1.5841735109724, 2, 1.5, 1],
  [-0.23132705405503, 4, 2.5, 1],
  [0.058116916431436, 5, 0, 1],
  [-0.55369137205382, 5, 1.5, 1],
  [0.48946615909422, 5, 2, 1],
  [-0.024275739843501, 6, 0, 1],
  [0.062494790501678, 6, 1, 1],
  [-0.12175860225246, 6, 2, 1],
  [-0.37055685270086, 1, 3, 2],
  [-0.016775879700426, 1, 6, 2],
  [-0.11960736637987, 4, 3, 2],
  [-0.045619362508778, 4, 6, 2],
  [0.035612789270346, 4, 8, 2],
  [-0.0074427727132052, 7, 6, 2],
  [-0.0017395704902432, 8, 0, 2],
  [-0.021810121289527, 2, 7, 3],
  [0.024332166559236, 3, 12, 3],
  [-0.037440133423463, 3, 16, 3],
  [0.14338715756878, 5, 22, 4],
  [-0.13491969083286, 5, 24, 4],
  [-0.02315122505348, 6, 16, 4],
  [0.012363125492901, 7, 24, 4],
  [0.002105832197294, 8, 8, 4],
  [-0.00033958519026368, 10, 2, 4],
  [0.0055993651771592, 4, 28, 5],
  [-0.00030335118055646, 8, 14, 6],
];
/** Bell-shaped terms: n, d, t, alpha, beta, gamma. */
const BELL: readonly (readonly [number, number, number, number, number, number])[] = [
  [-213.6548868832, 2, 1, 25, 325, 1.16],
  [26641.569149272, 2, 0, 25, 300, 1.19],
  [-24027.212204557, 2, 1, 25, 300, 1.19],
  [-283.41603423999, 3, 3, 15, 275, 1.25],
  [212.47284400179, 3, 3, 20, 275, 1.22],
];
/** Terms of the critical region: n, a, b, B, C; A = 0.7, beta = 0.3, D = 275. */
const CRITICAL: readonly (readonly [number, number, number, number, number])[] = [
  [-0.66642276540751, 3.5, 0.875, 0.3, 10],
  [0.72608632349897, 3.5, 0.925, 0.3, 10],
  [0.055068668612842, 3, 0.875, 1, 12.5],
];

interface Slopes {
  /** delta times the slope of the residual energy with reduced density. */
  readonly density: number;
  /** tau times the slope with reduced inverse temperature. */
  readonly temperature: number;
}

function residualSlopes(kelvin: number, density: number): Slopes {
  const tau = TC / kelvin;
  const delta = density / CO2_CRITICAL.density;
  let byDelta = 0;
  let byTau = 0;
  for (const [n, d, t, c] of POWER) {
    const bent = c === 0 ? 0 : delta ** c;
    const term = n * delta ** d * tau ** t * Math.exp(-bent);
    byDelta += term * (d - c * bent);
    byTau += term * t;
  }
  for (const [n, d, t, alpha, beta, gamma] of BELL) {
    const term = n * delta ** d * tau ** t * Math.exp(-alpha * (delta - 1) ** 2 - beta * (tau - gamma) ** 2);
    byDelta += term * (d - 2 * alpha * delta * (delta - 1));
    byTau += term * (t - 2 * beta * tau * (tau - gamma));
  }
  const off = delta - 1;
  const off2 = off * off;
  for (const [n, a, b, bigB, bigC] of CRITICAL) {
    const theta = 1 - tau + 0.7 * off2 ** (1 / 0.6);
    const distance = theta * theta + bigB * off2 ** a;
    if (distance === 0) continue;
    const bell = Math.exp(-bigC * off2 - 275 * (tau - 1) ** 2);
    const power = distance ** b;
    const distanceByDelta = off * ((0.7 * theta * 2 * off2 ** (1 / 0.6 - 1)) / 0.3 + 2 * bigB * a * off2 ** (a - 1));
    const slope = power * (1 - 2 * bigC * off * delta) + b * distance ** (b - 1) * distanceByDelta * delta;
    byDelta += n * delta * bell * slope;
    byTau += n * delta * tau * bell * (-2 * theta * b * distance ** (b - 1) - 550 * (tau - 1) * power);
  }
  return { density: byDelta, temperature: byTau };
}

/**
 * Pressure of CO2 at a density and temperature by the reference equation of state. Between the densities of liquid and
 * vapour it returns the unstable branch: use `cylinderPressure` there.
 * @param density kg/m3, 0 to 1300
 * @param t temperature, °C, -56 to 800
 * @returns bar, absolute; 0.05 % in the range of a cylinder. Source: span-wagner-1996
 */
export function co2Pressure(density: number, t: number): number {
  const kelvin = t + ZERO_CELSIUS;
  return (density * R * kelvin * (1 + residualSlopes(kelvin, density).density)) / 1e5;
}

function below(t: number): number {
  const theta = 1 - (t + ZERO_CELSIUS) / TC;
  if (!(theta >= 0)) throw new RangeError(`CO2 has no liquid above 30.98 °C; ${t} °C was asked`);
  return theta;
}

/**
 * Vapour pressure of liquid CO2.
 * @param t temperature, °C, -56 to 30.978
 * @returns bar, absolute. @throws RangeError above the critical point. Source: span-wagner-1996
 */
export function co2VapourPressure(t: number): number {
  const theta = below(t);
  const sum = theta * (-7.0602087 + 1.9391218 * theta ** 0.5 + theta * (-1.6463597 - 3.2995634 * theta * theta));
  return CO2_CRITICAL.bar * Math.exp((TC / (t + ZERO_CELSIUS)) * sum);
}

/**
 * Density of liquid CO2 under its own vapour.
 * @param t temperature, °C, -56 to 30.978
 * @returns kg/m3. @throws RangeError above the critical point. Source: span-wagner-1996
 */
export function co2LiquidDensity(t: number): number {
  const theta = below(t);
  return (
    CO2_CRITICAL.density *
    Math.exp(
      1.9245108 * theta ** 0.34 -
        0.62385555 * theta ** 0.5 -
        0.32731127 * theta ** (10 / 6) +
        0.39245142 * theta ** (11 / 6),
    )
  );
}

/**
 * Density of CO2 vapour over its liquid.
 * @param t temperature, °C, -56 to 30.978
 * @returns kg/m3. @throws RangeError above the critical point. Source: span-wagner-1996
 */
export function co2VapourDensity(t: number): number {
  const theta = below(t);
  return (
    CO2_CRITICAL.density *
    Math.exp(
      -1.7074879 * theta ** 0.34 -
        0.8227467 * theta ** 0.5 -
        4.6008549 * theta -
        10.111178 * theta ** (7 / 3) -
        29.742252 * theta ** (14 / 3),
    )
  );
}

/**
 * Heat that evaporates liquid CO2, which cools a cylinder and its regulator.
 * @param t temperature, °C, -56 to 30.978
 * @returns kJ/kg. @throws RangeError above the critical point. Source: span-wagner-1996
 */
export function co2HeatOfEvaporation(t: number): number {
  const kelvin = t + ZERO_CELSIUS;
  const liquid = residualSlopes(kelvin, co2LiquidDensity(t));
  const vapour = residualSlopes(kelvin, co2VapourDensity(t));
  return (R * kelvin * (vapour.temperature + vapour.density - liquid.temperature - liquid.density)) / 1000;
}

export const co2StateRelations = [
  relation({
    id: "co2-saturation",
    title: "Liquid CO2 and its vapour",
    room: "gas",
    inputs: { temperature: quantity("temperature of the cylinder", "°C", -56.56, 30.97) },
    outputs: {
      pressure: { label: "vapour pressure, absolute", unit: "bar" },
      liquid: { label: "density of the liquid", unit: "kg/m3" },
      vapour: { label: "density of the vapour", unit: "kg/m3" },
      heat: { label: "heat of evaporation", unit: "kJ/kg" },
    },
    equation:
      "ln(p/pc) = (Tc/T)(-7.0602087 th + 1.9391218 th^1.5 - 1.6463597 th^2 - 3.2995634 th^4), th = 1 - T/Tc; densities likewise; heat from the equation of state",
    sources: ["span-wagner-1996"],
    compute: ({ temperature: t }) => ({
      pressure: co2VapourPressure(t),
      liquid: co2LiquidDensity(t),
      vapour: co2VapourDensity(t),
      heat: co2HeatOfEvaporation(t),
    }),
  }),
  relation({
    id: "co2-state-pressure",
    title: "Pressure of CO2 at a density",
    room: "gas",
    inputs: {
      density: quantity("density", "kg/m3", 0, 1300),
      temperature: quantity("temperature", "°C", -56.56, 800),
    },
    outputs: { pressure: { label: "pressure, absolute", unit: "bar" } },
    equation: "p = rho R T (1 + delta dphi/ddelta), residual Helmholtz energy of 42 terms",
    sources: ["span-wagner-1996"],
    validity: "One phase only.",
    compute: ({ density, temperature }) => ({ pressure: co2Pressure(density, temperature) }),
  }),
] as const;
