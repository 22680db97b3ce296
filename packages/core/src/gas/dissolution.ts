import { dormandPrinceError, dormandPrinceWeights } from "../numerics/index.ts";
import { relation, yesNo } from "../relation/index.ts";
import { waterVapourPressure } from "./air.ts";
import { bubbleReynolds, bubbleSpeed, bubbleTransfer, type Interface, skinTransfer } from "./bubble.ts";
import { ATMOSPHERE, BAR, DRY_AIR, GAS_CONSTANT, GRAVITY, MOLAR_MASS, ZERO_CELSIUS } from "./constants.ts";
import { diffusivity } from "./diffusivity.ts";
import { co2Henry, co2PartialPressure, henryDimensionless, nitrogenHenry, oxygenHenry } from "./solubility.ts";
import { airPressure, choice, quantity, waterTemperature } from "./usual-inputs.ts";
import { kinematicViscosity, surfaceTension, waterDensity, waterViscosity } from "./water.ts";

export interface DissolutionInput {
  /** Width of the bubble as it leaves the device, mm. */
  readonly diameterMm: number;
  /** Depth at which it leaves, m. */
  readonly depthM: number;
  /** Water temperature, °C. */
  readonly t: number;
  /** CO2 already in the water, mg/L. */
  readonly co2MgL: number;
  /** Air pressure, atm. */
  readonly pressureAtm?: number;
  /** Water speed downwards, m/s, as in a reactor; 0 in a tank. */
  readonly downflow?: number;
  readonly skin?: Interface;
}

export interface Dissolution {
  /** Share of the CO2 that dissolves, at most 1; below 0 where over-full water feeds the bubble. */
  readonly fraction: number;
  /** The same by the closed form for a bubble of pure CO2 at one speed and pressure, without down-flow. */
  readonly closedForm: number;
  /** Width at the surface, mm; 0 if the bubble is gone or held. */
  readonly outgoingDiameter: number;
  /** Amount that reaches the surface over the amount that left the device, mole fraction. */
  readonly outgoingShare: number;
  /** Dry make-up of what is left of the bubble, mole fractions. */
  readonly composition: { readonly co2: number; readonly o2: number; readonly n2: number };
  /** Whether a down-flow holds the bubble until it is dissolved. */
  readonly held: boolean;
}

/** A held bubble is followed no longer than this, s. */
const HELD_LIMIT = 1800;
/** A held bubble that loses less than this share of its first CO2 a second has given what it will, 1/s. */
const SLOW = 1e-6;
/** A bubble with less than this share of its gas left is gone. */
const GONE = 1e-7;

/**
 * Follows one bubble of CO2 from the device to the surface while CO2 leaves it and oxygen and nitrogen enter it. The
 * water holds oxygen and nitrogen at equilibrium with the air.
 * @returns see `Dissolution`; 0.01 between integrators and constants, 0.1 between published bubble laws.
 * Sources: clift-1978, johnson-1969, ranz-marshall-1952
 */
export function dissolvedFraction(input: DissolutionInput): Dissolution {
  const { diameterMm, depthM, t, co2MgL, pressureAtm = 1, downflow = 0, skin = "contaminated" } = input;
  const density = waterDensity(t);
  const viscosity = waterViscosity(t);
  const nu = viscosity / density;
  const tension = surfaceTension(t);
  const vapour = waterVapourPressure(t) * ATMOSPHERE;
  const air = pressureAtm * ATMOSPHERE;
  const rt = GAS_CONSTANT * (t + ZERO_CELSIUS);
  const toSi = 1000 / ATMOSPHERE;
  const solubility = [co2Henry(t) * toSi, oxygenHenry(t) * toSi, nitrogenHenry(t) * toSi] as const;
  const diffusion = [diffusivity("co2", t), diffusivity("o2", t), diffusivity("n2", t)] as const;
  const mass = [MOLAR_MASS.co2 / 1000, MOLAR_MASS.o2 / 1000, MOLAR_MASS.n2 / 1000] as const;
  const water = [
    co2MgL / MOLAR_MASS.co2,
    solubility[1] * DRY_AIR.o2 * (air - vapour),
    // Argon is counted with the nitrogen, so that a bubble of plain air neither grows nor shrinks in such water.
    solubility[2] * (1 - DRY_AIR.o2) * (air - vapour),
  ] as const;

  const d0 = diameterMm / 1000;
  const pressureAt = (z: number, d: number) => air + density * GRAVITY * z + (4 * tension) / d;
  /** Width of a bubble that holds an amount at a depth: dry gas law with the pull of the skin, by Newton steps. */
  const widthOf = (amount: number, z: number, guess: number): number => {
    let d = guess;
    for (let i = 0; i < 30; i++) {
      const dry = air + density * GRAVITY * z - vapour;
      const value = (Math.PI / 6) * d * d * (dry * d + 4 * tension) - amount * rt;
      const slope = (Math.PI / 6) * d * (3 * dry * d + 8 * tension);
      const next = Math.max(d / 4, d - value / slope);
      if (Math.abs(next - d) < 1e-13 * d) return next;
      d = next;
    }
    return d;
  };

  const start = ((pressureAt(depthM, d0) - vapour) * Math.PI * d0 ** 3) / (6 * rt);
  // Amounts as shares of the first amount of CO2, then depth as a share of the depth of release.
  let state = [1, 0, 0, 1];
  let width = d0;
  let risesNow = true;

  const rates = (y: readonly number[], into: number[]): void => {
    const co2 = Math.max(0, y[0]!);
    const o2 = Math.max(0, y[1]!);
    const n2 = Math.max(0, y[2]!);
    const total = Math.max(co2 + o2 + n2, GONE / 10);
    const z = y[3]! * depthM;
    width = widthOf(total * start, z, width);
    const dry = pressureAt(z, width) - vapour;
    const gasDensity = ((co2 * mass[0] + o2 * mass[1] + n2 * mass[2]) * start) / ((Math.PI / 6) * width ** 3);
    const re = bubbleReynolds(width, density, viscosity, density - gasDensity, tension);
    const speed = (re * viscosity) / (density * width);
    const area = Math.PI * width * width;
    const flow = (share: number, i: 0 | 1 | 2) =>
      (-skinTransfer(width, speed, nu, diffusion[i], skin) *
        area *
        (solubility[i] * (share / total) * dry - water[i])) /
      start;
    into[0] = flow(co2, 0);
    into[1] = flow(o2, 1);
    into[2] = flow(n2, 2);
    risesNow = speed > downflow;
    // A bubble that sinks stays at the bottom of the down-flow.
    into[3] = y[3]! >= 1 && !risesNow ? 0 : -(speed - downflow) / depthM;
  };

  // Steps of its own: the rise speed jumps where the bubble changes shape, and in a down-flow a bubble can hover on that
  // jump, where an integrator that holds its error rejects for ever. Here the step has a floor, at which it is taken.
  const k = dormandPrinceWeights.map(() => [0, 0, 0, 0]);
  const trial = [0, 0, 0, 0];
  let time = 0;
  let step = 1e-3;
  let held = false;
  rates(state, k[0]!);
  for (let i = 0; i < 200000; i++) {
    for (let s = 1; s < 7; s++) {
      const weights = dormandPrinceWeights[s]!;
      for (let c = 0; c < 4; c++) {
        let sum = state[c]!;
        for (let j = 0; j < s; j++) sum += step * weights[j]! * k[j]![c]!;
        trial[c] = sum;
      }
      rates(trial, k[s]!);
    }
    let error = 0;
    for (let c = 0; c < 4; c++) {
      let difference = 0;
      for (let j = 0; j < 7; j++) difference += step * dormandPrinceError[j]! * k[j]![c]!;
      error = Math.max(error, Math.abs(difference) / (1e-9 + 1e-7 * Math.abs(state[c]!)));
    }
    const next = [0, 0, 0, 0];
    const weights = dormandPrinceWeights[6]!;
    for (let c = 0; c < 4; c++) {
      let sum = state[c]!;
      for (let j = 0; j < 6; j++) sum += step * weights[j]! * k[j]![c]!;
      next[c] = sum;
    }
    const tooFar = next[3]! < -1e-9 || next[0]! < -1e-6;
    if ((error > 1 || tooFar) && step > 1e-12) {
      step *= tooFar ? 0.5 : Math.max(0.2, 0.9 * error ** -0.2);
      continue;
    }
    time += step;
    state = next.map((v, c) => (c === 3 ? Math.min(1, v) : Math.max(0, v)));
    const left = state[0]! + state[1]! + state[2]!;
    if (left < GONE) {
      held = downflow > 0 && state[3]! > 1e-6;
      break;
    }
    if (state[3]! <= 1e-9) break;
    rates(state, k[0]!);
    // Held for good: all CO2 that will dissolve has gone, or the time is up.
    if (state[3]! >= 1 && !risesNow && (k[0]![0]! > -SLOW || time > HELD_LIMIT)) {
      held = true;
      break;
    }
    step *= Math.min(4, 0.9 * Math.max(error, 1e-6) ** -0.2);
    // Land on the surface, not beyond it.
    const upward = -k[0]![3]!;
    if (upward > 0) step = Math.min(step, Math.max(state[3]! / upward, 1e-9));
  }

  const left = state[0]! + state[1]! + state[2]!;
  const gone = left < GONE;
  const surfaced = !gone && !held;
  return {
    fraction: gone ? 1 : 1 - state[0]!,
    closedForm: dissolvedFractionClosed(input),
    outgoingDiameter: surfaced ? 1000 * widthOf(left * start, 0, width) : 0,
    outgoingShare: surfaced ? left : 0,
    composition: gone
      ? { co2: 0, o2: 0, n2: 0 }
      : { co2: state[0]! / left, o2: state[1]! / left, n2: state[2]! / left },
    held,
  };
}

/**
 * Share of the CO2 of a bubble that dissolves, closed form: pure CO2, one pressure (at half depth), one rise speed and
 * transfer coefficient. 5 to 10 % under the full model; smooth, so it can stand in for it in quick work.
 * @returns 0 to 1. Source: clift-1978
 */
export function dissolvedFractionClosed(input: Omit<DissolutionInput, "downflow">): number {
  const { diameterMm, depthM, t, co2MgL, pressureAtm = 1, skin = "contaminated" } = input;
  const middle = pressureAtm + (waterDensity(t) * GRAVITY * depthM) / (2 * ATMOSPHERE) - waterVapourPressure(t);
  const filled = co2PartialPressure(co2MgL, t) / middle;
  const lost =
    (2 * bubbleTransfer("co2", diameterMm, t, skin) * (1 - filled) * depthM) /
    (henryDimensionless(co2Henry(t), t) * (diameterMm / 1000) * bubbleSpeed(diameterMm, t));
  return 1 - Math.max(0, 1 - lost) ** 3;
}

/**
 * Life of a still microbubble of CO2.
 * @param radiusMm first radius, mm
 * @param t water temperature, °C
 * @param filled CO2 of the water over its equilibrium with the bubble, 0 to below 1
 * @returns s. Source: epstein-plesset-1950
 */
export function microbubbleLife(radiusMm: number, t: number, filled = 0): number {
  const r = radiusMm / 1000;
  return (r * r * henryDimensionless(co2Henry(t), t)) / (2 * diffusivity("co2", t) * (1 - filled));
}

export interface InLineShear {
  /** Water speed in the hose, m/s. */
  readonly speed: number;
  readonly reynolds: number;
  /** Mean dissipation in the hose, W/kg. */
  readonly dissipation: number;
  /** Transfer coefficient of a bubble, m/s. */
  readonly transfer: number;
  /** Time in the hose, s. */
  readonly seconds: number;
  /** Width that a bubble of CO2 loses on the way, mm. */
  readonly diameterLossMm: number;
}

/**
 * Bubbles of CO2 carried in the return hose behind an in-line device.
 * @param flowLh flow, L/h
 * @param boreMm inner width of the hose, mm
 * @param lengthM length of hose behind the device, m
 * @param t water temperature, °C
 * @param co2MgL CO2 of the water, mg/L
 * @returns see `InLineShear`. Sources: linek-2004, blasius-1913
 */
export function inLineShear(flowLh: number, boreMm: number, lengthM: number, t: number, co2MgL: number): InLineShear {
  const bore = boreMm / 1000;
  const nu = kinematicViscosity(t);
  const speed = flowLh / 3.6e6 / ((Math.PI / 4) * bore * bore);
  const reynolds = (speed * bore) / nu;
  // Laminar below 2300, where the friction law of Blasius no longer holds.
  const friction = reynolds < 2300 ? 64 / reynolds : 0.3164 * reynolds ** -0.25;
  const dissipation = (friction * speed ** 3) / (2 * bore);
  const transfer = (0.523 * (dissipation * nu) ** 0.25) / Math.sqrt(nu / diffusivity("co2", t));
  const seconds = lengthM / speed;
  const filled = co2PartialPressure(co2MgL, t);
  const loss = (2 * transfer * seconds * (1 - filled)) / henryDimensionless(co2Henry(t), t);
  return { speed, reynolds, dissipation, transfer, seconds, diameterLossMm: 1000 * loss };
}

/**
 * Pressure of CO2 that a closed reactor's pocket keeps once the gases of the air have filled it: the overpressure, less
 * what water rich in oxygen adds. The reactor then works poorly until it is vented.
 * @param overpressureBar pressure in the reactor above the air, bar
 * @param t water temperature, °C
 * @param oxygenPercent oxygen of the water, % of saturation; nitrogen and argon at equilibrium with the air
 * @param pressureAtm air pressure, atm
 * @returns bar, 0 when the pocket keeps no CO2 at all. Source: benson-krause-1984
 */
export function filledPocketPressure(overpressureBar: number, t: number, oxygenPercent = 100, pressureAtm = 1): number {
  const extraOxygen = DRY_AIR.o2 * (oxygenPercent / 100 - 1) * (pressureAtm - waterVapourPressure(t));
  return Math.max(0, overpressureBar - extraOxygen * (ATMOSPHERE / BAR));
}

const caution =
  "The visible mist at the surface is largely oxygen and nitrogen: it does not show how much CO2 was lost.";
const skinChoice = choice("interface", ["contaminated", "frossling", "clean"], "contaminated");
const co2InWater = quantity("CO2 already in the water", "mg/L", 0, 200, 20);

export const dissolutionRelations = [
  relation({
    id: "bubble-dissolution",
    title: "Share of a CO2 bubble that dissolves on its way up",
    room: "gas",
    inputs: {
      diameter: quantity("width of the bubble at the device", "mm", 0.1, 10),
      depth: quantity("depth of release", "m", 0.02, 3),
      temperature: waterTemperature,
      co2: co2InWater,
      pressure: airPressure,
      downflow: quantity("water speed downwards", "m/s", 0, 1, 0),
      skin: skinChoice,
    },
    outputs: {
      fraction: { label: "share dissolved", unit: "1" },
      closed_form: { label: "share dissolved, closed form", unit: "1" },
      outgoing_diameter: { label: "width at the surface", unit: "mm" },
      outgoing_share: { label: "gas that surfaces over gas released", unit: "1" },
      outgoing_co2: { label: "CO2 in what is left, dry", unit: "1" },
      outgoing_o2: { label: "oxygen in what is left, dry", unit: "1" },
      outgoing_n2: { label: "nitrogen in what is left, dry", unit: "1" },
      held: yesNo("whether a down-flow holds the bubble"),
    },
    equation:
      "dn_i/dt = -k_i pi d^2 (K_i p_i - C_i), i = CO2, O2, N2; p_i = y_i (P - Pwv), P = Pair + rho g z + 4 sigma/d; dz/dt = -(u - w)",
    sources: ["clift-1978", "ranz-marshall-1952", "johnson-1969", "weiss-1974", "jaehne-1987"],
    validity: `Single bubbles; swarms merge and rise faster. ${caution}`,
    compute: ({ diameter, depth, temperature, co2, pressure, downflow, skin }) => {
      const result = dissolvedFraction({
        diameterMm: diameter,
        depthM: depth,
        t: temperature,
        co2MgL: co2,
        pressureAtm: pressure,
        downflow,
        skin,
      });
      return {
        fraction: result.fraction,
        closed_form: result.closedForm,
        outgoing_diameter: result.outgoingDiameter,
        outgoing_share: result.outgoingShare,
        outgoing_co2: result.composition.co2,
        outgoing_o2: result.composition.o2,
        outgoing_n2: result.composition.n2,
        held: result.held ? 1 : 0,
      };
    },
  }),
  relation({
    id: "microbubble-life",
    title: "Life of a still microbubble of CO2",
    room: "gas",
    inputs: {
      radius: quantity("radius", "mm", 1e-4, 1),
      temperature: waterTemperature,
      filled: quantity("CO2 of the water over equilibrium with the bubble", "1", 0, 0.99, 0),
    },
    outputs: { life: { label: "life", unit: "s" } },
    equation: "t = R^2 Hcc/(2 D (1 - f))",
    sources: ["epstein-plesset-1950"],
    compute: ({ radius, temperature, filled }) => ({ life: microbubbleLife(radius, temperature, filled) }),
  }),
  relation({
    id: "in-line-shear",
    title: "CO2 bubbles carried in the return hose",
    room: "gas",
    inputs: {
      flow: quantity("flow", "L/h", 10, 20000),
      bore: quantity("inner width of the hose", "mm", 4, 60),
      length: quantity("length of hose behind the device", "m", 0.05, 20),
      temperature: waterTemperature,
      co2: co2InWater,
    },
    outputs: {
      speed: { label: "water speed", unit: "m/s" },
      reynolds: { label: "Reynolds number", unit: "1" },
      dissipation: { label: "dissipation", unit: "W/kg" },
      transfer: { label: "transfer coefficient", unit: "m/s" },
      seconds: { label: "time in the hose", unit: "s" },
      diameter_loss: { label: "width a bubble loses", unit: "mm" },
    },
    equation: "k = 0.523 (eps nu)^1/4 Sc^-1/2; eps = f v^3/(2 D), f = 0.3164 Re^-1/4; loss 2 k t (1 - f)/Hcc",
    sources: ["linek-2004", "blasius-1913"],
    compute: ({ flow, bore, length, temperature, co2 }) => {
      const { diameterLossMm, ...rest } = inLineShear(flow, bore, length, temperature, co2);
      return { ...rest, diameter_loss: diameterLossMm };
    },
  }),
  relation({
    id: "reactor-pocket-pressure",
    title: "CO2 pressure of a reactor pocket filled with air gases",
    room: "gas",
    inputs: {
      overpressure: quantity("pressure in the reactor above the air", "bar", 0, 3),
      temperature: waterTemperature,
      oxygen: quantity("oxygen of the water, share of saturation", "%", 0, 300, 100),
      pressure: airPressure,
    },
    outputs: { co2_pressure: { label: "CO2 pressure of the pocket", unit: "bar" } },
    equation: "p = P - pN2 - pO2 - Pwv",
    sources: ["definition", "benson-krause-1984"],
    validity: "Nitrogen and argon of the water at equilibrium with the air.",
    compute: ({ overpressure, temperature, oxygen, pressure }) => ({
      co2_pressure: filledPocketPressure(overpressure, temperature, oxygen, pressure),
    }),
  }),
] as const;
