import { relation } from "../relation/index.ts";
import { ATMOSPHERE, GAS_CONSTANT, type Gas, GRAVITY, MOLAR_MASS, ZERO_CELSIUS } from "./constants.ts";
import { diffusivity } from "./diffusivity.ts";
import { choice, quantity, waterTemperature } from "./usual-inputs.ts";
import { surfaceTension, waterDensity, waterViscosity } from "./water.ts";

/**
 * How gas crosses the skin of a bubble: "contaminated" (stiff skin, right for tank water), "frossling" (the same with
 * another published law), "clean" (mobile skin of pure water).
 */
export type Interface = "contaminated" | "frossling" | "clean";

/**
 * Reynolds number of a bubble rising alone in contaminated water: a sphere while small, an ellipsoid when large.
 * @param d width of the bubble, m, 1e-6 to 0.02
 * @param density of the water, kg/m3
 * @param viscosity of the water, Pa*s
 * @param lift density of water less that of the gas, kg/m3
 * @param tension surface tension, N/m
 * @returns pure number; the published pieces leave a step at the change of shape (17 % in speed near 0.5 mm) and meet
 * within 0.5 % elsewhere. Source: clift-1978
 */
export function bubbleReynolds(d: number, density: number, viscosity: number, lift: number, tension: number): number {
  const eotvos = (GRAVITY * lift * d * d) / tension;
  const morton = (GRAVITY * viscosity ** 4 * lift) / (density * density * tension ** 3);
  const h = (4 / 3) * eotvos * morton ** -0.149 * (viscosity / 9e-4) ** -0.14;
  if (h >= 2) {
    const j = h <= 59.3 ? 0.94 * h ** 0.757 : 3.42 * h ** 0.441;
    return morton ** -0.149 * (j - 0.857);
  }
  const best = (4 * density * lift * GRAVITY * d ** 3) / (3 * viscosity * viscosity);
  if (best <= 73) return best * (1 / 24 + best * (-1.7569e-4 + best * (6.9252e-7 - best * 2.3027e-10)));
  const w = Math.log10(best);
  return best <= 580
    ? 10 ** (-1.7095 + w * (1.33438 - w * 0.11591))
    : 10 ** (-1.81391 + w * (1.34671 + w * (-0.12427 + w * 0.006344)));
}

/**
 * Transfer coefficient of the skin of a bubble.
 * @param d width, m
 * @param speed rise speed, m/s
 * @param nu kinematic viscosity of the water, m2/s
 * @param diffusion diffusivity of the gas, m2/s
 * @param skin kind of interface
 * @returns m/s. Sources: clift-1978, ranz-marshall-1952, johnson-1969
 */
export function skinTransfer(d: number, speed: number, nu: number, diffusion: number, skin: Interface): number {
  if (skin === "clean") {
    const cm = 1.13 * Math.sqrt((diffusion * 1e4 * speed * 100) / (0.45 + 20 * d));
    return cm / 100;
  }
  const re = (speed * d) / nu;
  const sc = nu / diffusion;
  if (skin === "frossling") return ((2 + 0.6 * Math.sqrt(re) * Math.cbrt(sc)) * diffusion) / d;
  const pe = re * sc;
  let sherwood: number;
  if (re < 1) sherwood = 1 + Math.cbrt(1 + pe);
  else if (re < 100) sherwood = 1 + Math.cbrt(1 + 1 / pe) * re ** 0.41 * Math.cbrt(sc);
  else if (re < 2000) sherwood = 1 + 0.724 * re ** 0.48 * Math.cbrt(sc);
  else sherwood = 1 + 0.425 * re ** 0.55 * Math.cbrt(sc);
  return (sherwood * diffusion) / d;
}

/**
 * Rise speed of a bubble alone in tank water.
 * @param diameterMm width, mm, 0.001 to 20
 * @param t water temperature, °C, 0 to 40
 * @param gasDensity density of the gas inside, kg/m3; CO2 at 1 atm when left out
 * @returns m/s. Source: clift-1978
 */
export function bubbleSpeed(diameterMm: number, t: number, gasDensity = pureCo2Density(t)): number {
  const density = waterDensity(t);
  const viscosity = waterViscosity(t);
  const d = diameterMm / 1000;
  const re = bubbleReynolds(d, density, viscosity, density - gasDensity, surfaceTension(t));
  return (re * viscosity) / (density * d);
}

/** Ideal density of CO2 at 1 atm, kg/m3. */
function pureCo2Density(t: number): number {
  return (MOLAR_MASS.co2 * 1e-3 * ATMOSPHERE) / (GAS_CONSTANT * (t + ZERO_CELSIUS));
}

/**
 * Transfer coefficient of a gas through the skin of a rising bubble.
 * @param gas "co2", "o2" or "n2"
 * @param diameterMm width, mm, 0.001 to 20
 * @param t water temperature, °C, 0 to 40
 * @param skin kind of interface
 * @returns m/s. Sources: clift-1978, johnson-1969, ranz-marshall-1952
 */
export function bubbleTransfer(gas: Gas, diameterMm: number, t: number, skin: Interface = "contaminated"): number {
  const nu = waterViscosity(t) / waterDensity(t);
  return skinTransfer(diameterMm / 1000, bubbleSpeed(diameterMm, t), nu, diffusivity(gas, t), skin);
}

/** What a slow bubble leaves a tip or pore with. */
export interface OrificeBubble {
  readonly volumeMl: number;
  readonly diameterMm: number;
}

/**
 * Bubble that leaves a wetted round tip slowly (below about 5 a second); an upper bound for porous plates.
 * @param orificeMm inner width, mm
 * @param t water temperature, °C
 * @returns volume, mL, and width, mm. Source: tate-1864
 */
export function orificeBubble(orificeMm: number, t: number): OrificeBubble {
  const lift = waterDensity(t) - pureCo2Density(t);
  const volume = (Math.PI * (orificeMm / 1000) * surfaceTension(t)) / (lift * GRAVITY);
  return { volumeMl: volume * 1e6, diameterMm: 1000 * Math.cbrt((6 * volume) / Math.PI) };
}

/**
 * Pressure that pushes water out of a pore, which the supply must exceed.
 * @param poreMm width of the pore, mm
 * @param t water temperature, °C
 * @returns bar
 */
export function poreEntryPressure(poreMm: number, t: number): number {
  return (4 * surfaceTension(t)) / (poreMm / 1000) / 1e5;
}

export const bubbleRelations = [
  relation({
    id: "bubble-rise-and-transfer",
    title: "Rise speed and gas transfer of a bubble",
    room: "gas",
    inputs: {
      diameter: quantity("width of the bubble", "mm", 0.01, 10),
      gas: choice("gas", ["co2", "o2", "n2"], "co2"),
      skin: choice("interface", ["contaminated", "frossling", "clean"], "contaminated"),
      temperature: waterTemperature,
    },
    outputs: {
      speed: { label: "rise speed", unit: "cm/s" },
      transfer: { label: "transfer coefficient", unit: "m/s" },
    },
    equation:
      "sphere or ellipsoid by H' = 4/3 Eo Mo^-0.149 (mu/9e-4)^-0.14; Sh(Re, Pe, Sc); k = Sh D/d; clean: 1.13 (D u/(0.45 + 0.2 d))^1/2 cgs",
    sources: ["clift-1978", "ranz-marshall-1952", "johnson-1969", "olsen-sintef", "alves-2005"],
    validity: "One bubble alone in still water.",
    compute: ({ diameter, gas, skin, temperature }) => ({
      speed: 100 * bubbleSpeed(diameter, temperature),
      transfer: bubbleTransfer(gas, diameter, temperature, skin),
    }),
  }),
  relation({
    id: "bubble-from-orifice",
    title: "Size of a bubble that leaves a tip or pore",
    room: "gas",
    inputs: { orifice: quantity("inner width of the tip or pore", "mm", 1e-3, 10), temperature: waterTemperature },
    outputs: {
      volume: { label: "volume", unit: "mL" },
      diameter: { label: "width", unit: "mm" },
      entry_pressure: { label: "pressure to open it", unit: "bar" },
    },
    equation: "V = pi d sigma/(drho g); entry pressure 4 sigma/d",
    sources: ["tate-1864", "iapws-r1-76"],
    validity: "Slow bubbling from a wetted tip; upper bound for porous plates.",
    compute: ({ orifice, temperature }) => {
      const bubble = orificeBubble(orifice, temperature);
      return {
        volume: bubble.volumeMl,
        diameter: bubble.diameterMm,
        entry_pressure: poreEntryPressure(orifice, temperature),
      };
    },
  }),
] as const;
