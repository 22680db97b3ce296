import { relation } from "../relation/index.ts";
import { integral } from "./quadrature.ts";
import { quantity } from "./usual-inputs.ts";

/** Laws of gross photosynthesis against light; all start with the same slope except that fits of one are not another's. */
export type ResponseLaw = "tanh" | "exponential" | "hyperbola";

/**
 * Gross photosynthesis.
 * @param ppfd photon flux density, umol/m2/s, >= 0; @param top rate at full light, any unit
 * @param ik flux at which the initial slope reaches the top, top/slope, umol/m2/s
 * @returns in the unit of `top`. Sources: jassby-platt-1976, webb-1974
 */
export function grossRateAt(law: ResponseLaw, ppfd: number, top: number, ik: number): number {
  const x = ppfd / ik;
  if (law === "tanh") return top * Math.tanh(x);
  if (law === "exponential") return -top * Math.expm1(-x);
  return (top * x) / (1 + x);
}

/**
 * Light at which gross photosynthesis makes up for a loss.
 * @param loss share of the top rate lost, 0 to below 1
 * @throws RangeError when no light is enough
 */
export function compensationLight(law: ResponseLaw, loss: number, ik: number): number {
  if (!(loss >= 0 && loss < 1)) {
    throw new RangeError(
      `compensation: the loss is ${loss} of the greatest rate; allowed is 0 to below 1, else no light is enough`,
    );
  }
  if (law === "tanh") return ik * Math.atanh(loss);
  if (law === "exponential") return -ik * Math.log1p(-loss);
  return (ik * loss) / (1 - loss);
}

/**
 * Photosynthesis that strong light slows.
 * @param top rate that would be reached without slowing; @param slope per umol/m2/s; @param slowing per umol/m2/s, >= 0
 * Source: platt-1980
 */
export const inhibitedRate = (ppfd: number, top: number, slope: number, slowing: number): number =>
  -top * Math.expm1((-slope * ppfd) / top) * Math.exp((-slowing * ppfd) / top);

/** Light of the greatest rate under `inhibitedRate`, umol/m2/s. @param slowing above 0 */
export const bestInhibitedLight = (top: number, slope: number, slowing: number): number =>
  (top / slope) * Math.log1p(slope / slowing);

/** Photosynthesis with one optimum of light. Source: steele-1962 */
export const optimumRate = (ppfd: number, top: number, optimum: number): number =>
  top * (ppfd / optimum) * Math.exp(1 - ppfd / optimum);

/**
 * Hyperbolic response summed over a stand in which light fades by Beer's law.
 * @param above photon flux on top, umol/m2/s; @param half half-saturation, umol/m2/s
 * @param extinction per leaf area; @param area of leaves per ground
 * @returns leaf area's worth of full rate
 */
export function standHyperbola(above: number, half: number, extinction: number, area: number): number {
  const below = above * Math.exp(-extinction * area);
  return Math.log1p((above - below) / (half + below)) / extinction;
}

/** Tanh response summed over a stand in which light fades by Beer's law; arguments as `standHyperbola`, ik for half. */
export function standTanh(above: number, ik: number, extinction: number, area: number): number {
  // by depth of fading, cut where the response bends
  const total = extinction * area;
  const bend = Math.min(total, Math.max(0, Math.log(above / ik)));
  const rate = (depth: number): number => Math.tanh((above / ik) * Math.exp(-depth));
  const end = Math.min(total, bend + 40);
  return (integral(rate, 0, bend) + integral(rate, bend, end)) / extinction;
}

/** Classes of light need to start from: Ik and compensation light, umol/m2/s. Source: trade-light */
export const lightClasses = [
  { id: "shade", ik: 40, compensation: [5, 10] },
  { id: "medium", ik: 90, compensation: [10, 20] },
  { id: "sun", ik: 200, compensation: [20, 40] },
] as const;

const ppfd = quantity("photon flux density", "umol/m2/s", 0, 3000);
const top = quantity("greatest gross rate, as a figure in any unit", "1", 0.01, 1000, 1);
const ik = quantity("light at which the initial slope reaches the top (top/slope)", "umol/m2/s", 1, 2000, 90);
const loss = quantity("respiration over the greatest rate", "1", 0, 0.9, 0.1);
const light = (label: string) => ({ label, unit: "umol/m2/s" }) as const;
const rate = (label: string) => ({ label, unit: "1" }) as const;
const three = ["jassby-platt-1976", "webb-1974", "pclake"] as const;

export const responseRelations = [
  relation({
    id: "photosynthesis-by-light",
    title: "Photosynthesis against light, three laws",
    room: "light",
    inputs: { ppfd, top, ik },
    outputs: {
      tanh: rate("hyperbolic tangent"),
      exponential: rate("exponential"),
      hyperbola: rate("rectangular hyperbola"),
    },
    equation: "P tanh(I/Ik); P (1 - exp(-I/Ik)); P I/(I + Ik)",
    sources: three,
    validity: "Figures fitted with one law are not those of another: slopes differ by about 24 %.",
    compute: (i) => ({
      tanh: grossRateAt("tanh", i.ppfd, i.top, i.ik),
      exponential: grossRateAt("exponential", i.ppfd, i.top, i.ik),
      hyperbola: grossRateAt("hyperbola", i.ppfd, i.top, i.ik),
    }),
  }),
  relation({
    id: "photosynthesis-compensation",
    title: "Light at which photosynthesis makes up for respiration, three laws",
    room: "light",
    inputs: { loss, ik, hours: quantity("hours of light a day; 24 = at the moment", "h", 1, 24, 24) },
    outputs: {
      tanh: light("hyperbolic tangent"),
      exponential: light("exponential"),
      hyperbola: light("rectangular hyperbola"),
    },
    equation: "Ik atanh(x); -Ik ln(1 - x); Ik x/(1 - x), x = R/P x 24/hours",
    sources: three,
    validity: "Respiration goes on day and night.",
    compute: (i) => {
      const x = (i.loss * 24) / i.hours;
      return {
        tanh: compensationLight("tanh", x, i.ik),
        exponential: compensationLight("exponential", x, i.ik),
        hyperbola: compensationLight("hyperbola", x, i.ik),
      };
    },
  }),
  relation({
    id: "photosynthesis-slowed",
    title: "Photosynthesis that strong light slows",
    room: "light",
    inputs: {
      ppfd,
      top,
      slope: quantity("initial slope, per umol/m2/s", "m2*s/umol", 1e-4, 100),
      slowing: quantity("slowing by strong light, per umol/m2/s", "m2*s/umol", 1e-6, 10),
    },
    outputs: { rate: rate("rate"), best: light("light of the greatest rate"), best_rate: rate("that rate") },
    equation: "P (1 - exp(-a I/P)) exp(-b I/P); best at (P/a) ln((a + b)/b)",
    sources: ["platt-1980"],
    validity: "In tanks below 400 umol/m2/s slowing is slight but for shade plants; mind it above five times Ik.",
    compute: (i) => {
      const best = bestInhibitedLight(i.top, i.slope, i.slowing);
      return {
        rate: inhibitedRate(i.ppfd, i.top, i.slope, i.slowing),
        best,
        best_rate: inhibitedRate(best, i.top, i.slope, i.slowing),
      };
    },
  }),
  relation({
    id: "photosynthesis-optimum",
    title: "Photosynthesis with one optimum of light",
    room: "light",
    inputs: { ppfd, top, optimum: quantity("light of the greatest rate", "umol/m2/s", 5, 2000) },
    outputs: { rate: rate("rate") },
    equation: "P (I/Iopt) exp(1 - I/Iopt)",
    sources: ["steele-1962"],
    compute: (i) => ({ rate: optimumRate(i.ppfd, i.top, i.optimum) }),
  }),
  relation({
    id: "stand-photosynthesis",
    title: "Photosynthesis of a stand of leaves",
    room: "light",
    inputs: {
      ppfd: { ...ppfd, label: "photon flux density on top" },
      ik: { ...ik, label: "half-saturation of the hyperbola, or Ik of the tangent" },
      extinction: quantity("extinction per leaf area", "1", 0.05, 3, 0.5),
      area: quantity("leaf area per ground area", "1", 0, 20),
    },
    outputs: {
      hyperbola: rate("leaf area's worth of full rate, hyperbola"),
      tanh: rate("leaf area's worth of full rate, hyperbolic tangent"),
    },
    equation: "(1/k) ln((K + I)/(K + I exp(-k L))); integral(tanh(I exp(-k l)/Ik) dl)",
    sources: ["pclake", "jassby-platt-1976", "definition"],
    compute: (i) => ({
      hyperbola: standHyperbola(i.ppfd, i.ik, i.extinction, i.area),
      tanh: standTanh(i.ppfd, i.ik, i.extinction, i.area),
    }),
  }),
] as const;
