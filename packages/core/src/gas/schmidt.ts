import { relation } from "../relation/index.ts";
import { co2DiffusivityZeebe, diffusivity, oxygenDiffusivityHanBartels } from "./diffusivity.ts";
import { choice, quantity } from "./usual-inputs.ts";
import { kinematicViscosity } from "./water.ts";

export type SchmidtSet = "wanninkhof-2014" | "wanninkhof-1992" | "raymond-2012";
export type SurfaceGas = "co2" | "o2";

interface Fit {
  readonly co2: readonly [number, number, number, number, number];
  readonly o2: readonly [number, number, number, number, number];
  readonly low: number;
  readonly high: number;
}

const WANNINKHOF_2014: Fit = {
  co2: [1923.6, -125.06, 4.3773, -0.085681, 0.00070284],
  o2: [1745.1, -124.34, 4.8055, -0.10115, 0.00086842],
  low: -2,
  high: 40,
};
const OTHERS: Readonly<Record<Exclude<SchmidtSet, "wanninkhof-2014">, Fit>> = {
  "wanninkhof-1992": {
    co2: [1911.1, -118.11, 3.4527, -0.04132, 0],
    o2: [1800.6, -120.1, 3.7818, -0.047608, 0],
    low: 0,
    high: 30,
  },
  "raymond-2012": {
    co2: [1742, -91.24, 2.208, -0.0219, 0],
    o2: [1568, -86.04, 2.142, -0.0216, 0],
    low: 4,
    high: 35,
  },
};

function evaluateFit(a: Fit["co2"], t: number): number {
  return a[0] + t * (a[1] + t * (a[2] + t * (a[3] + t * a[4])));
}

/**
 * Schmidt number (viscosity over diffusivity) of a gas in fresh water.
 * @param gas "co2" or "o2"
 * @param t water temperature, °C; -2 to 40 for the recommended set
 * @param set polynomial set; the older ones are kept for comparison
 * @returns pure number; 600 for CO2 at 20 °C by convention
 * @throws RangeError when an older set is asked outside its range, where its cubic falls to nonsense.
 * Sources: wanninkhof-2014, wanninkhof-1992, raymond-2012
 */
export function schmidt(gas: SurfaceGas, t: number, set: SchmidtSet = "wanninkhof-2014"): number {
  if (set === "wanninkhof-2014") return evaluateFit(WANNINKHOF_2014[gas], t);
  const fit = OTHERS[set];
  if (t < fit.low || t > fit.high) {
    throw new RangeError(`Schmidt set ${set} holds from ${fit.low} to ${fit.high} °C, not at ${t} °C`);
  }
  return evaluateFit(fit[gas], t);
}

export type RatioSet = SchmidtSet | "jaehne-ferrell" | "jaehne-han";

/** Share of the oxygen transfer velocity that CO2 has at a free surface; published sets give 0.89 to 0.94. Pure number. */
export const CO2_PER_O2_AT_SURFACE = { value: 0.92, low: 0.89, high: 0.94 } as const;

/**
 * Transfer velocity of CO2 over that of oxygen at a free surface; it does not hold for air bubbles.
 * @param t water temperature, °C, 10 to 30
 * @param exponent 0.5 for a moving surface, 2/3 for a smooth or filmed one
 * @param set where the Schmidt numbers come from
 * @returns pure number. Sources: wanninkhof-2014, wanninkhof-1992, raymond-2012, jaehne-1987, ferrell-himmelblau-1967, han-bartels-1996
 */
export function co2PerO2(t: number, exponent = 0.5, set: RatioSet = "wanninkhof-2014"): number {
  let ratio: number;
  if (set === "jaehne-ferrell") ratio = diffusivity("o2", t) / diffusivity("co2", t);
  else if (set === "jaehne-han") ratio = oxygenDiffusivityHanBartels(t) / diffusivity("co2", t);
  else ratio = schmidt("co2", t, set) / schmidt("o2", t, set);
  return ratio ** -exponent;
}

const gas = choice("gas", ["co2", "o2"], "co2");
const schmidtOutput = { schmidt: { label: "Schmidt number", unit: "1" } } as const;
const polynomial = "Sc = a0 + a1 t + a2 t^2 + a3 t^3 + a4 t^4";

export const schmidtRelations = [
  relation({
    id: "schmidt-number",
    title: "Schmidt number of CO2 or oxygen in fresh water",
    room: "gas",
    inputs: { gas, temperature: quantity("water temperature", "°C", -2, 40) },
    outputs: schmidtOutput,
    equation: polynomial,
    sources: ["wanninkhof-2014"],
    compute: ({ gas, temperature }) => ({ schmidt: schmidt(gas, temperature) }),
  }),
  relation({
    id: "schmidt-number-wanninkhof-1992",
    title: "Schmidt number, older set for comparison",
    room: "gas",
    inputs: { gas, temperature: quantity("water temperature", "°C", 0, 30) },
    outputs: schmidtOutput,
    equation: polynomial,
    sources: ["wanninkhof-1992"],
    validity: "Never above 30 °C: the cubic collapses there.",
    compute: ({ gas, temperature }) => ({ schmidt: schmidt(gas, temperature, "wanninkhof-1992") }),
  }),
  relation({
    id: "schmidt-number-raymond-2012",
    title: "Schmidt number, set used for streams, for comparison",
    room: "gas",
    inputs: { gas, temperature: quantity("water temperature", "°C", 4, 35) },
    outputs: schmidtOutput,
    equation: polynomial,
    sources: ["raymond-2012"],
    compute: ({ gas, temperature }) => ({ schmidt: schmidt(gas, temperature, "raymond-2012") }),
  }),
  relation({
    id: "schmidt-number-from-diffusivity",
    title: "Schmidt number from viscosity and diffusivity, for comparison",
    room: "gas",
    inputs: {
      method: choice("diffusivity", ["jaehne co2", "zeebe co2", "ferrell o2", "han o2"], "jaehne co2"),
      temperature: quantity("water temperature", "°C", 0, 40),
    },
    outputs: schmidtOutput,
    equation: "Sc = nu / D",
    sources: ["kestin-1978", "jaehne-1987", "zeebe-2011", "ferrell-himmelblau-1967", "han-bartels-1996"],
    compute: ({ method, temperature: t }) => {
      const d = {
        "jaehne co2": diffusivity("co2", t),
        "zeebe co2": co2DiffusivityZeebe(t),
        "ferrell o2": diffusivity("o2", t),
        "han o2": oxygenDiffusivityHanBartels(t),
      }[method];
      return { schmidt: kinematicViscosity(t) / d };
    },
  }),
  relation({
    id: "co2-to-oxygen-transfer-ratio",
    title: "How fast CO2 crosses the surface against oxygen",
    room: "gas",
    inputs: {
      temperature: quantity("water temperature", "°C", 4, 30),
      exponent: quantity("Schmidt exponent", "1", 0.5, 0.6667, 0.5),
      set: choice(
        "Schmidt numbers from",
        ["wanninkhof-2014", "wanninkhof-1992", "raymond-2012", "jaehne-ferrell", "jaehne-han"],
        "wanninkhof-2014",
      ),
    },
    outputs: { ratio: { label: "CO2 over oxygen", unit: "1" } },
    equation: "(Sc_CO2 / Sc_O2)^-n",
    sources: [
      "wanninkhof-2014",
      "wanninkhof-1992",
      "raymond-2012",
      "jaehne-1987",
      "ferrell-himmelblau-1967",
      "han-bartels-1996",
    ],
    validity: "Free surface only; air bubbles behave differently.",
    compute: ({ temperature, exponent, set }) => ({ ratio: co2PerO2(temperature, exponent, set) }),
  }),
] as const;
