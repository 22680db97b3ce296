import { RelationError, relation } from "../relation/index.ts";
import { quantity, temperature } from "./usual-inputs.ts";

/**
 * Beta response to temperature: 1 at the best temperature, 0 at and beyond both ends.
 * @param t temperature, °C; @param min lower end, °C; @param best °C; @param max upper end, °C; min < best < max
 * @returns 0..1. Source: yan-hunt-1999
 */
export function betaTemperature(t: number, min: number, best: number, max: number): number {
  if (t <= min || t >= max) return 0;
  return ((max - t) / (max - best)) * ((t - min) / (best - min)) ** ((best - min) / (max - best));
}

/**
 * Cardinal temperature response.
 * @param t temperature, °C; ends and best temperature, °C, with best > (min + max)/2
 * @returns 0..1. Source: rosso-1993
 */
export function cardinalTemperature(t: number, min: number, best: number, max: number): number {
  if (t <= min || t >= max) return 0;
  const above = (best - min) * (t - best) - (best - max) * (best + min - 2 * t);
  return ((t - max) * (t - min) ** 2) / ((best - min) * above);
}

/**
 * Duckweed response: falls from 1 at the best temperature to 0.1 at both limits, and goes on falling beyond.
 * @param t temperature, °C; @param min lower limit; @param best; @param max upper limit, °C
 * @returns 0..1. Source: klein-2022
 */
export function duckweedTemperature(t: number, min: number, best: number, max: number): number {
  const z = (t - best) / ((t < best ? min : max) - best);
  return 10 ** (-z * z);
}

/**
 * Bell-shaped response, 1 at a reference temperature.
 * @param t, best, reference °C; @param width °C
 * @returns factor, above 1 between reference and best. Source: pcditch
 */
export function bellTemperature(t: number, best: number, width: number, reference: number): number {
  return Math.exp(-0.5 * (((t - best) ** 2 - (reference - best) ** 2) / width ** 2));
}

/**
 * Sigmoid response without decline in warmth, about 1 at 20 °C.
 * @param t °C. Source: charisma
 */
export function sigmoidTemperature(t: number): number {
  const cube = Math.max(0, t) ** 3;
  return (1.35 * cube) / (cube + 14 ** 3);
}

/**
 * Growth of a rate with temperature.
 * @param t °C; @param q10 factor per 10 °C; @param reference °C where the factor is 1
 */
export function q10Factor(t: number, q10: number, reference = 20): number {
  return q10 ** ((t - reference) / 10);
}

const ends = {
  temperature,
  temperature_min: quantity("lower end", "°C", -20, 40, 8),
  temperature_best: quantity("best temperature", "°C", 0, 45, 25),
  temperature_max: quantity("upper end", "°C", 5, 60, 37),
};
/** Beyond these a bell or a pair of readings tells of a slip, not of a plant. Design values. */
const HIGHEST_BELL = 1000;
const LOWEST_Q10 = 0.1;
const HIGHEST_Q10 = 20;

/** Refuses ends and best temperature that are out of order. @throws RelationError */
export function inOrder(id: string, min: number, best: number, max: number, lowestBest = min): void {
  const message = `must lie above ${lowestBest} °C and below the upper end`;
  if (!(best > lowestBest && best < max)) throw new RelationError(id, [{ input: "temperature_best", message }]);
}

const factor = { factor: { label: "temperature factor", unit: "1" } };

export const warmthRelations = [
  relation({
    id: "beta-temperature",
    title: "Temperature factor of photosynthesis, beta form",
    room: "plants",
    inputs: ends,
    outputs: factor,
    equation: "f = (Tx - T)/(Tx - To) ((T - Tn)/(To - Tn))^((To - Tn)/(Tx - To)), 0 outside Tn..Tx",
    sources: ["yan-hunt-1999"],
    validity: "lower end < best < upper end",
    compute: (i) => {
      inOrder("beta-temperature", i.temperature_min, i.temperature_best, i.temperature_max);
      return { factor: betaTemperature(i.temperature, i.temperature_min, i.temperature_best, i.temperature_max) };
    },
  }),
  relation({
    id: "cardinal-temperature",
    title: "Temperature factor, cardinal form",
    room: "plants",
    inputs: ends,
    outputs: factor,
    equation: "f = (T - Tx)(T - Tn)^2/{(To - Tn)[(To - Tn)(T - To) - (To - Tx)(To + Tn - 2T)]}",
    sources: ["rosso-1993"],
    validity: "best temperature above the middle of the two ends",
    compute: (i) => {
      const middle = (i.temperature_min + i.temperature_max) / 2;
      inOrder("cardinal-temperature", i.temperature_min, i.temperature_best, i.temperature_max, middle);
      return { factor: cardinalTemperature(i.temperature, i.temperature_min, i.temperature_best, i.temperature_max) };
    },
  }),
  relation({
    id: "duckweed-temperature",
    title: "Temperature factor of duckweed",
    room: "plants",
    inputs: {
      temperature,
      temperature_min: { ...ends.temperature_min, default: 8 },
      temperature_best: { ...ends.temperature_best, default: 26.7 },
      temperature_max: { ...ends.temperature_max, default: 40.5 },
    },
    outputs: factor,
    equation: "f = 10^-((T - To)/(Tm - To))^2, Tm the limit on the side of T",
    sources: ["klein-2022"],
    compute: (i) => {
      inOrder("duckweed-temperature", i.temperature_min, i.temperature_best, i.temperature_max);
      return { factor: duckweedTemperature(i.temperature, i.temperature_min, i.temperature_best, i.temperature_max) };
    },
  }),
  relation({
    id: "bell-temperature",
    title: "Temperature factor of floating algae, bell form",
    room: "plants",
    inputs: {
      temperature,
      temperature_best: quantity("best temperature", "°C", 0, 45, 25),
      width: quantity("width of the bell", "°C", 1, 60, 15),
      reference: quantity("temperature where the factor is 1", "°C", 0, 45, 20),
    },
    outputs: factor,
    equation: "f = exp(-1/2 [(T - To)^2 - (Tr - To)^2]/s^2)",
    sources: ["pcditch"],
    validity: "a factor of at most 1000 at the best temperature",
    compute: (i) => {
      const least = Math.abs(i.reference - i.temperature_best) / Math.sqrt(2 * Math.log(HIGHEST_BELL));
      if (i.width < least) {
        const message = `${i.width} °C is too narrow where the factor is to be 1 at ${i.reference} °C, ${Math.abs(i.reference - i.temperature_best)} °C from the best; at least ${Math.ceil(10 * least) / 10} °C is allowed`;
        throw new RelationError("bell-temperature", [{ input: "width", message }]);
      }
      return { factor: bellTemperature(i.temperature, i.temperature_best, i.width, i.reference) };
    },
  }),
  relation({
    id: "sigmoid-temperature",
    title: "Temperature factor without decline in warmth",
    room: "plants",
    inputs: { temperature },
    outputs: factor,
    equation: "f = 1.35 T^3/(T^3 + 14^3)",
    sources: ["charisma"],
    compute: (i) => ({ factor: sigmoidTemperature(i.temperature) }),
  }),
  relation({
    id: "respiration-from-oxygen",
    title: "Temperature coefficient and dry loss from two oxygen rates in the dark",
    room: "plants",
    inputs: {
      rate_low: quantity("oxygen use at the lower temperature, per dry mass", "umol/g/h", 0.5, 2000),
      rate_high: quantity("oxygen use at the higher temperature", "umol/g/h", 0.5, 2000),
      temperature_low: quantity("lower temperature", "°C", 0, 45, 15),
      temperature_high: quantity("higher temperature", "°C", 0, 45, 25),
      temperature: { ...temperature, default: 20 },
      carbon: quantity("carbon in dry mass", "1", 0.1, 0.6, 0.4),
    },
    outputs: {
      q10: { label: "factor per 10 °C", unit: "1" },
      loss: { label: "dry mass respired, one carbon per oxygen", unit: "1/d" },
    },
    equation: "Q10 = (R2/R1)^(10/(T2 - T1)); loss = R(T) 24 h 12.011 g/mol / carbon share",
    sources: ["salsugineum-photosynthesis", "arithmetic"],
    validity: "the two temperatures lie at least 1 °C apart; a factor of 0.1 to 20 per 10 °C",
    compute: (i) => {
      const refuse = (input: string, message: string): never => {
        throw new RelationError("respiration-from-oxygen", [{ input, message }]);
      };
      const apart = i.temperature_high - i.temperature_low;
      if (apart < 1) refuse("temperature_high", `must lie at least 1 °C above ${i.temperature_low} °C`);
      const q10 = (i.rate_high / i.rate_low) ** (10 / apart);
      if (!(q10 >= LOWEST_Q10 && q10 <= HIGHEST_Q10)) {
        const [low, high] = [LOWEST_Q10, HIGHEST_Q10].map((q) => (i.rate_low * q ** (apart / 10)).toPrecision(3));
        refuse(
          "rate_high",
          `from ${i.rate_low} to ${i.rate_high} umol/g/h over ${apart} °C is no respiration's rise; ${low} to ${high} umol/g/h is allowed`,
        );
      }
      const rate = i.rate_low * q10Factor(i.temperature, q10, i.temperature_low);
      return { q10, loss: (rate * 24 * 12.011e-6) / i.carbon };
    },
  }),
] as const;
