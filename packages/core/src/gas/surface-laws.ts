import { relation } from "../relation/index.ts";
import { GRAVITY } from "./constants.ts";
import { type SurfaceGas, schmidt } from "./schmidt.ts";
import { scaleTransfer } from "./transfer.ts";
import { choice, quantity, waterTemperature } from "./usual-inputs.ts";
import { kinematicViscosity, waterDensity, waterExpansion } from "./water.ts";

const CM_H = 3.6e5;
const NU_20 = kinematicViscosity(20);
const SCHMIDT_O2_20 = schmidt("o2", 20);
/** Small-eddy coefficient of theory and compilation. */
const EDDY_COEFFICIENT = 0.4;

export type WindLaw = "cole-caraco" | "crusius-wanninkhof-power" | "crusius-wanninkhof-lines" | "macintyre";

/**
 * Standard transfer velocity of lakes under wind; an anchor for indoor water, which has none.
 * @param wind wind speed 10 m above the water, m/s, 0 to 15
 * @param law published law
 * @returns k600, cm/h. Sources: cole-caraco-1998, crusius-wanninkhof-2003, macintyre-1995
 */
export function windTransfer(wind: number, law: WindLaw): number {
  if (law === "cole-caraco") return 2.07 + 0.215 * wind ** 1.7;
  if (law === "crusius-wanninkhof-power") return 0.168 + 0.228 * wind ** 2.2;
  if (law === "macintyre") return 0.45 * wind ** 1.64;
  return wind < 3.7 ? 0.72 * wind : 4.33 * wind - 13.3;
}

/**
 * Transfer velocity of oxygen at 20 °C in a stream; tanks (0.01 to 0.15 m/s) lie below the speeds it was fitted on.
 * @param speed water speed, m/s, 0.15 to 0.5 as fitted
 * @param depth depth of water, m, 0.3 to 9 as fitted
 * @returns cm/h. Source: oconnor-dobbins-1958
 */
export function streamTransfer(speed: number, depth: number): number {
  return (100 / 24) * 3.93 * Math.sqrt(speed / depth);
}

/**
 * Transfer velocity from the dissipation of turbulence close under the surface. Do not feed it the mean dissipation of
 * a tank: a pump spends its power near the nozzle, and the result is about ten times too high.
 * @param dissipation W/kg at the surface
 * @param t water temperature, °C
 * @param schmidtNumber of the gas
 * @param coefficient 0.4 theory; 0.523 bubbles in a stirred vessel; 0.42 field; 0.161 open channel
 * @returns cm/h. Sources: lamont-scott-1970, katul-2018
 */
export function smallEddyTransfer(
  dissipation: number,
  t: number,
  schmidtNumber: number,
  coefficient = EDDY_COEFFICIENT,
): number {
  return (CM_H * coefficient * (dissipation * kinematicViscosity(t)) ** 0.25) / Math.sqrt(schmidtNumber);
}

/**
 * Power of a jet that returns into the tank.
 * @param flowLh flow, L/h
 * @param boreMm inner width of the nozzle, mm
 * @param t water temperature, °C
 * @returns nozzle speed, m/s, and power, W
 */
export function returnJet(
  flowLh: number,
  boreMm: number,
  t: number,
): { readonly speed: number; readonly power: number } {
  const flow = flowLh / 3.6e6;
  const speed = flow / ((Math.PI / 4) * (boreMm / 1000) ** 2);
  return { speed, power: 0.5 * waterDensity(t) * flow * speed * speed };
}

/**
 * Factor on the transfer velocity when the power of the same jet changes.
 * @param powerRatio new power over old power, pure number
 * @returns pure number; a doubled flow through the same nozzle is eight times the power and gives 1.68
 */
export function transferFactorOfPower(powerRatio: number): number {
  return powerRatio ** 0.25;
}

/**
 * Standard transfer velocity by convection alone, as warm water loses heat at its surface. Water that gains heat there
 * lies still: 0.
 * @param surfaceHeatLoss net heat lost at the surface, W/m2; open top 50 to 100, covered 10 to 25 (design values)
 * @param t water temperature, °C, 5 to 40
 * @returns k600 part, cm/h; its slope is infinite at 0 W/m2. Source: closure-design
 */
export function convectionTransfer(surfaceHeatLoss: number, t = 25): number {
  if (surfaceHeatLoss <= 0) return 0;
  const expansion = Math.max(0, waterExpansion(t));
  const buoyancy = (GRAVITY * expansion * surfaceHeatLoss) / (waterDensity(t) * 4182);
  return (CM_H * EDDY_COEFFICIENT * (buoyancy * NU_20) ** 0.25) / Math.sqrt(600);
}

/**
 * Standard transfer velocity by drift alone, the stream law carried to Sc 600.
 * @param surfaceSpeed visible speed of the surface, m/s
 * @param depth depth of water, m
 * @returns k600 part, cm/h. Sources: closure-design, oconnor-dobbins-1958
 */
export function driftTransfer(surfaceSpeed: number, depth: number): number {
  return streamTransfer(surfaceSpeed, depth) * Math.sqrt(SCHMIDT_O2_20 / 600);
}

export type Film = "clean" | "ordinary" | "visible film";
/** Damping of the transfer by a surface film; literature spans 0.33 to 1. Design values within that span. */
export const FILM_FACTOR: Readonly<Record<Film, number>> = { clean: 1, ordinary: 0.7, "visible film": 0.4 };

/**
 * Standard transfer velocity of a tank from heat loss, drift and film. The renewal rates of the two motions add, so
 * their parts add in quadrature. An engineering choice of this project, good to a factor 1.5 to 2: a measured rate
 * is always better.
 * @param surfaceHeatLoss net heat lost at the surface, W/m2
 * @param surfaceSpeed visible speed of the surface, m/s
 * @param depth depth of water, m
 * @param filmFactor 1 clean or skimmed, 0.7 ordinary, 0.4 visible film
 * @param t water temperature, °C
 * @returns k600, cm/h. Source: closure-design
 */
export function surfaceTransfer(
  surfaceHeatLoss: number,
  surfaceSpeed: number,
  depth: number,
  filmFactor = 0.7,
  t = 25,
): number {
  const convection = convectionTransfer(surfaceHeatLoss, t);
  const drift = driftTransfer(surfaceSpeed, depth);
  return filmFactor * Math.sqrt(convection * convection + drift * drift);
}

/**
 * Transfer through the surface in series with the air change of the space under a lid.
 * @param openLh transfer through the open surface (k_L times area), L/h
 * @param airChangeM3h air change of the space under the lid, m3/h
 * @param henryNumber dimensionless Henry number of the gas, C_gas / C_water
 * @returns effective transfer, L/h; CO2 suffers, oxygen hardly
 */
export function lidTransfer(openLh: number, airChangeM3h: number, henryNumber: number): number {
  const air = airChangeM3h * 1000 * henryNumber;
  return (openLh * air) / (openLh + air);
}

const depth = quantity("depth of water", "m", 0.02, 20);
const dissipation = quantity("dissipation under the surface", "W/kg", 0, 10);
const k600 = { label: "k600", unit: "cm/h" } as const;

export const surfaceLawRelations = [
  relation({
    id: "wind-transfer-velocity",
    title: "Transfer velocity of lakes under wind",
    room: "gas",
    inputs: {
      wind: quantity("wind speed at 10 m", "m/s", 0, 15),
      law: choice(
        "law",
        ["cole-caraco", "crusius-wanninkhof-power", "crusius-wanninkhof-lines", "macintyre"],
        "cole-caraco",
      ),
    },
    outputs: { k600 },
    equation: "2.07 + 0.215 U^1.7; 0.168 + 0.228 U^2.2; 0.72 U or 4.33 U - 13.3; 0.45 U^1.64",
    sources: ["cole-caraco-1998", "crusius-wanninkhof-2003", "macintyre-1995"],
    validity: "Lakes; an anchor only for indoor water. The two-line law steps at 3.7 m/s.",
    compute: ({ wind, law }) => ({ k600: windTransfer(wind, law) }),
  }),
  relation({
    id: "stream-transfer-velocity",
    title: "Transfer velocity of oxygen in a stream",
    room: "gas",
    inputs: { speed: quantity("water speed", "m/s", 0, 2), depth },
    outputs: {
      transfer: { label: "transfer velocity of oxygen at 20 °C", unit: "cm/h" },
      rate: { label: "reaeration rate at 20 °C", unit: "1/d" },
    },
    equation: "k2 = 3.93 U^0.5 H^-1.5 1/d; k_L = k2 H",
    sources: ["oconnor-dobbins-1958"],
    validity: "Fitted at 0.15 to 0.5 m/s and 0.3 to 9 m depth.",
    compute: ({ speed, depth }) => {
      const transfer = streamTransfer(speed, depth);
      return { transfer, rate: (0.24 * transfer) / depth };
    },
  }),
  relation({
    id: "small-eddy-transfer-velocity",
    title: "Transfer velocity from turbulence under the surface",
    room: "gas",
    inputs: {
      dissipation,
      temperature: waterTemperature,
      schmidt: quantity("Schmidt number", "1", 50, 3000, 600),
      coefficient: quantity("coefficient", "1", 0.1, 0.6, EDDY_COEFFICIENT),
    },
    outputs: { transfer: { label: "transfer velocity", unit: "cm/h" } },
    equation: "k_L = c (eps nu)^1/4 Sc^-1/2",
    sources: ["lamont-scott-1970", "katul-2018", "linek-2004", "zappa-2007", "moog-jirka-1999"],
    validity: "Dissipation at the surface, not the mean of the tank.",
    compute: ({ dissipation, temperature, schmidt, coefficient }) => ({
      transfer: smallEddyTransfer(dissipation, temperature, schmidt, coefficient),
    }),
  }),
  relation({
    id: "return-jet",
    title: "Speed and power of a return jet",
    room: "gas",
    inputs: {
      flow: quantity("flow", "L/h", 1, 50000),
      bore: quantity("inner width of the nozzle", "mm", 1, 100),
      volume: quantity("volume of water", "L", 1, 100000),
      temperature: waterTemperature,
    },
    outputs: {
      speed: { label: "speed at the nozzle", unit: "m/s" },
      power: { label: "power of the jet", unit: "W" },
      dissipation: { label: "mean dissipation of the tank", unit: "W/kg" },
    },
    equation: "P = rho Q U^2 / 2, U = Q / A",
    sources: ["definition"],
    validity: "Use it for scaling only: k_L goes with P^1/4, and with Q^3/4 through the same nozzle.",
    compute: ({ flow, bore, volume, temperature }) => {
      const { speed, power } = returnJet(flow, bore, temperature);
      return { speed, power, dissipation: (power / (waterDensity(temperature) * volume)) * 1000 };
    },
  }),
  relation({
    id: "jet-power-transfer-factor",
    title: "How the transfer velocity follows the power of the return jet",
    room: "gas",
    inputs: { power_ratio: quantity("new power over old power", "1", 0.01, 1000) },
    outputs: { factor: { label: "new transfer velocity over old", unit: "1" } },
    equation: "k_L ratio = (P ratio)^1/4; same nozzle: P goes with Q^3",
    sources: ["lamont-scott-1970"],
    compute: ({ power_ratio }) => ({ factor: transferFactorOfPower(power_ratio) }),
  }),
  relation({
    id: "surface-transfer-closure",
    title: "Transfer velocity of a tank from heat loss, drift and film",
    room: "gas",
    inputs: {
      heat_loss: quantity("net heat lost at the surface", "W/m2", 0, 500),
      surface_speed: quantity("visible speed of the surface", "m/s", 0, 1),
      depth,
      film: quantity("film factor: 1 clean, 0.7 ordinary, 0.4 visible film", "1", 0.3, 1, 0.7),
      temperature: quantity("water temperature", "°C", 5, 40, 25),
    },
    outputs: {
      convection: { label: "part of convection (k600)", unit: "cm/h" },
      drift: { label: "part of drift (k600)", unit: "cm/h" },
      k600,
      co2: { label: "transfer velocity of CO2", unit: "cm/h" },
      o2: { label: "transfer velocity of oxygen", unit: "cm/h" },
      co2_rate: { label: "rate constant of CO2, vertical walls", unit: "1/h" },
    },
    equation:
      "k600 = phi (kc^2 + ku^2)^1/2; kc = 0.4 (B nu)^1/4 600^-1/2, B = g alpha Q/(rho cp); ku = 15.10 (u/H)^1/2 cm/h",
    sources: ["closure-design", "oconnor-dobbins-1958", "lamont-scott-1970", "mesarchaki-2015"],
    validity: "A design closure, good to a factor 1.5 to 2; measure the rate where you can.",
    compute: ({ heat_loss, surface_speed, depth, film, temperature }) => {
      const total = surfaceTransfer(heat_loss, surface_speed, depth, film, temperature);
      const of = (gas: SurfaceGas) => scaleTransfer(total, gas, temperature);
      return {
        convection: convectionTransfer(heat_loss, temperature),
        drift: driftTransfer(surface_speed, depth),
        k600: total,
        co2: of("co2"),
        o2: of("o2"),
        co2_rate: of("co2") / (100 * depth),
      };
    },
  }),
  relation({
    id: "lid-transfer",
    title: "What a lid leaves of the transfer through the surface",
    room: "gas",
    inputs: {
      transfer: quantity("transfer velocity of the open surface", "cm/h", 1e-3, 200),
      area: quantity("water surface", "m2", 1e-3, 50),
      air_change: quantity("air change under the lid", "m3/h", 1e-5, 1000),
      henry: quantity("C_gas/C_water of the gas", "1", 0.5, 100),
    },
    outputs: {
      effective: { label: "effective transfer", unit: "L/h" },
      share: { label: "share of the open surface", unit: "%" },
    },
    equation: "(k_L A)_eff = 1/(1/(k_L A) + 1/(Qv Hcc))",
    sources: ["definition"],
    compute: ({ transfer, area, air_change, henry }) => {
      const open = 10 * transfer * area;
      const effective = lidTransfer(open, air_change, henry);
      return { effective, share: (100 * effective) / open };
    },
  }),
] as const;
