import { RelationError, relation } from "../relation/index.ts";
import { CO2_CRITICAL, co2LiquidDensity, co2Pressure, co2VapourDensity, co2VapourPressure } from "./co2-state.ts";
import { quantity } from "./usual-inputs.ts";

/**
 * Largest fills that codes allow, kg of CO2 per litre of water capacity. The cylinder's own stamp and the filler decide.
 * Sources: cfr-173-304a, adr-p200
 */
export const fillLimits = [
  { rule: "US, 1800 psi cylinder", kgPerLitre: 0.68, source: "cfr-173-304a" },
  { rule: "US, 2000 psi cylinder", kgPerLitre: 0.703, source: "cfr-173-304a" },
  { rule: "US, 2265 psi cylinder", kgPerLitre: 0.732, source: "cfr-173-304a" },
  { rule: "US, 2400 psi cylinder", kgPerLitre: 0.745, source: "cfr-173-304a" },
  { rule: "UN, 190 bar test pressure", kgPerLitre: 0.68, source: "adr-p200" },
  { rule: "UN, 250 bar test pressure", kgPerLitre: 0.76, source: "adr-p200" },
] as const;

/** Usual outlets of CO2 cylinders; never adapt one to another by force. From memory. */
export const valveOutlets = [
  { region: "North America", outlet: "CGA 320" },
  { region: "Europe", outlet: "DIN 477-1 No. 6, W21.8 x 1/14 in" },
  { region: "United Kingdom", outlet: "BS 341-3 No. 8" },
] as const;

/** Usual pressure after the regulator, bar above the air. Common practice, no source. */
export const workingPressures = [
  { device: "open diffuser", low: 0.5, high: 1.5 },
  { device: "in-line or fine porous", low: 1.5, high: 2.5 },
] as const;

/** Inlet pressure, bar, below which many regulators creep up at the outlet. Common practice, no source. */
export const REGULATOR_CREEP_BAR = 10;

/**
 * Pressure in a closed cylinder. While liquid is left it is the vapour pressure, whatever the contents; above, it is
 * that of one dense or thin phase.
 * @param kgPerLitre CO2 per litre of water capacity, 0 to 1
 * @param t temperature, °C, -20 to 65
 * @returns bar, absolute; 1 %. Source: span-wagner-1996
 */
export function cylinderPressure(kgPerLitre: number, t: number): number {
  const density = kgPerLitre * 1000;
  const single = () => co2Pressure(density, t);
  if (t >= CO2_CRITICAL.t) return single();
  const flat = co2VapourPressure(t);
  if (density <= co2VapourDensity(t)) return Math.min(flat, single());
  return density >= co2LiquidDensity(t) ? Math.max(flat, single()) : flat;
}

/**
 * Temperature at which a filled cylinder holds no more vapour space; from there its pressure climbs steeply.
 * @param kgPerLitre fill, 0.4677 to 1.1
 * @returns °C. Source: span-wagner-1996
 */
export function allLiquidTemperature(kgPerLitre: number): number {
  let low = -56;
  let high: number = CO2_CRITICAL.t;
  for (let i = 0; i < 60; i++) {
    const middle = 0.5 * (low + high);
    if (co2LiquidDensity(middle) > kgPerLitre * 1000) low = middle;
    else high = middle;
  }
  return 0.5 * (low + high);
}

/**
 * What is left when the last liquid is gone and the gauge begins to fall.
 * @param t temperature, °C, -20 to 30.97
 * @returns kg per litre of water capacity. Source: span-wagner-1996
 */
export function contentsAtGaugeFall(t: number): number {
  return co2VapourDensity(t) / 1000;
}

/** Share of the vapour pressure below which no liquid is left; the rest is rounding. Design value. */
const LIQUID_GONE = 0.995;

/**
 * What is left at a gauge that has begun to fall; null while liquid is left, when the gauge tells nothing.
 * @param barAbs pressure, bar absolute
 * @param t temperature, °C, -20 to 30.97
 * @returns kg per litre of water capacity, or null. Source: span-wagner-1996
 */
export function contentsFromPressure(barAbs: number, t: number): number | null {
  if (barAbs >= co2VapourPressure(t) * LIQUID_GONE) return null;
  let low = 0;
  let high = co2VapourDensity(t);
  for (let i = 0; i < 60; i++) {
    const middle = 0.5 * (low + high);
    if (co2Pressure(middle, t) < barAbs) low = middle;
    else high = middle;
  }
  return (0.5 * (low + high)) / 1000;
}

/**
 * How long a charge lasts.
 * @param kg CO2 in the cylinder by weight: gross less the tare on the shoulder
 * @param gramsPerHour rate while the valve is open, g/h
 * @param hoursPerDay open, h
 * @returns d
 */
export function runningTime(kg: number, gramsPerHour: number, hoursPerDay: number): number {
  return (1000 * kg) / (gramsPerHour * hoursPerDay);
}

const caution =
  "Filling, testing and repair are for trained people. Follow local codes, the cylinder's stamp and the gas supplier; a heated full cylinder can burst its disc.";
const temperature = quantity("temperature of the cylinder", "°C", -20, 65);
const liquidTemperature = quantity("temperature of the cylinder", "°C", -20, 30.97, 20);

export const cylinderRelations = [
  relation({
    id: "cylinder-pressure",
    title: "Pressure in a CO2 cylinder",
    room: "gas",
    inputs: { contents: quantity("CO2 per litre of water capacity", "kg/L", 1e-4, 1), temperature },
    outputs: { pressure: { label: "pressure, absolute", unit: "bar" } },
    equation: "vapour pressure while liquid is left, else the equation of state at the density contents/volume",
    sources: ["span-wagner-1996"],
    caution,
    compute: ({ contents, temperature }) => ({ pressure: cylinderPressure(contents, temperature) }),
  }),
  relation({
    id: "cylinder-all-liquid",
    title: "Temperature at which a cylinder is full of liquid",
    room: "gas",
    inputs: { fill: quantity("fill per litre of water capacity", "kg/L", 0.4677, 1.1) },
    outputs: { temperature: { label: "temperature", unit: "°C" } },
    equation: "density of the liquid = fill",
    sources: ["span-wagner-1996", "cfr-173-304a", "adr-p200"],
    caution,
    compute: ({ fill }) => ({ temperature: allLiquidTemperature(fill) }),
  }),
  relation({
    id: "cylinder-gauge-fall",
    title: "What is left when the gauge begins to fall",
    room: "gas",
    inputs: {
      fill: quantity("first fill per litre of water capacity", "kg/L", 0.3, 1, 0.68),
      temperature: liquidTemperature,
    },
    outputs: {
      contents: { label: "left, per litre of water capacity", unit: "kg/L" },
      share: { label: "left, share of the fill", unit: "%" },
      pressure: { label: "pressure until then, absolute", unit: "bar" },
    },
    equation: "contents/volume = density of the vapour",
    sources: ["span-wagner-1996"],
    validity: "Until then the gauge shows temperature, not contents: only weighing tells.",
    caution,
    compute: ({ fill, temperature }) => {
      const contents = contentsAtGaugeFall(temperature);
      return { contents, share: (100 * contents) / fill, pressure: co2VapourPressure(temperature) };
    },
  }),
  relation({
    id: "cylinder-contents-from-gauge",
    title: "What is left at a gauge that has begun to fall",
    room: "gas",
    inputs: { pressure: quantity("pressure, absolute", "bar", 1, 74), temperature: liquidTemperature },
    outputs: { contents: { label: "left, per litre of water capacity", unit: "kg/L" } },
    equation: "density of gas at the pressure",
    sources: ["span-wagner-1996"],
    validity: "Only once the last liquid is gone: below the vapour pressure.",
    caution,
    compute: ({ pressure, temperature }) => {
      const contents = contentsFromPressure(pressure, temperature);
      if (contents !== null) return { contents };
      const limit = (co2VapourPressure(temperature) * LIQUID_GONE).toFixed(1);
      const message = `at ${pressure} bar and ${temperature} °C liquid is left and the gauge tells nothing: weigh the cylinder; below ${limit} bar is allowed`;
      throw new RelationError("cylinder-contents-from-gauge", [{ input: "pressure", message }]);
    },
  }),
  relation({
    id: "cylinder-running-time",
    title: "How long a charge of CO2 lasts",
    room: "gas",
    inputs: {
      contents: quantity("CO2 in the cylinder by weight", "kg", 0, 50),
      rate: quantity("rate while the valve is open", "g/h", 1e-4, 1000),
      hours: quantity("hours open a day", "h", 0.1, 24),
    },
    outputs: { days: { label: "running time", unit: "d" } },
    equation: "m/(rate x hours)",
    sources: ["definition"],
    validity: "Plan the change for when the gauge first drops: about a quarter is left then.",
    caution,
    compute: ({ contents, rate, hours }) => ({ days: runningTime(contents, rate, hours) }),
  }),
] as const;
