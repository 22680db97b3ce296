import { type Dimension, inBaseUnits } from "./dimension.ts";
import { resolve, type Unit } from "./unit.ts";
import type { Scale } from "./unit-parts.ts";

interface NamedDimension {
  /** SI unit, in which `si` values are told. */
  readonly si: string;
  /** With its article, for messages. */
  readonly label: string;
  /** Units to offer. */
  readonly units: readonly string[];
}

/**
 * Kinds of quantity by name. Some share a dimension (density and concentration; hardness and amount per volume): the
 * compiler keeps them apart by name, conversion does not.
 */
export const dimensions = {
  fraction: { si: "1", label: "a share", units: ["%", "1"] },
  length: { si: "m", label: "a length", units: ["cm", "mm", "m", "in", "ft"] },
  area: { si: "m2", label: "an area", units: ["m2", "cm2", "ft2", "in2"] },
  volume: { si: "m3", label: "a volume", units: ["L", "mL", "m3", "US gal", "imp gal"] },
  mass: { si: "kg", label: "a mass", units: ["g", "mg", "kg", "lb"] },
  time: { si: "s", label: "a time", units: ["s", "min", "h", "d", "week"] },
  temperature: { si: "K", label: "a temperature", units: ["°C", "°F", "K"] },
  temperatureDifference: { si: "K", label: "a temperature difference", units: ["K", "Δ°C", "Δ°F"] },
  temperatureRate: { si: "K/s", label: "a rate of warming", units: ["K/h", "°C/h", "°F/h"] },
  amount: { si: "mol", label: "an amount of substance", units: ["mol", "mmol", "umol"] },
  charge: { si: "eq", label: "an amount of charge equivalents", units: ["eq", "meq"] },
  count: { si: "pieces", label: "a count", units: ["pieces", "plants", "animals", "bubbles"] },
  angle: { si: "rad", label: "an angle", units: ["deg", "rad"] },
  rate: { si: "1/s", label: "a rate per time", units: ["1/h", "1/d", "%/d", "mL/d per 50 L"] },
  velocity: { si: "m/s", label: "a speed", units: ["cm/s", "m/s", "cm/h", "ft/s"] },
  acceleration: { si: "m/s2", label: "an acceleration", units: ["m/s2"] },
  flow: { si: "m3/s", label: "a flow of volume", units: ["L/h", "L/min", "mL/min", "mL/d", "US gal/h"] },
  massFlow: { si: "kg/s", label: "a flow of mass", units: ["g/h", "mg/h", "g/d"] },
  amountFlow: { si: "mol/s", label: "a flow of substance or photons", units: ["umol/s", "mmol/h"] },
  bubbleRate: { si: "bubbles/s", label: "a bubble rate", units: ["bubbles/s", "bubbles/min"] },
  concentrationMass: { si: "kg/m3", label: "a mass per volume", units: ["mg/L", "ug/L", "g/L"] },
  density: { si: "kg/m3", label: "a density", units: ["kg/L", "kg/m3", "lb/ft3"] },
  concentrationAmount: {
    si: "mol/m3",
    label: "an amount per volume, such as a hardness",
    units: ["mmol/L", "umol/L", "mol/L"],
  },
  molality: { si: "mol/kg", label: "an amount per mass", units: ["mmol/kg", "mol/kg"] },
  alkalinity: { si: "eq/m3", label: "an alkalinity", units: ["dKH", "meq/L", "mg/L CaCO3", "mg/L HCO3"] },
  hardness: { si: "mol/m3", label: "a hardness", units: ["dGH", "mmol/L", "mg/L CaCO3", "°fH", "gpg"] },
  exchangeCapacity: { si: "eq/kg", label: "an exchange capacity", units: ["cmolc/kg", "meq per 100 g"] },
  molarMass: { si: "kg/mol", label: "a molar mass", units: ["g/mol"] },
  massPerArea: { si: "kg/m2", label: "a mass per area", units: ["g/m2", "kg/m2", "lb/ft2"] },
  massFlux: { si: "kg/m2/s", label: "a flow of mass per area", units: ["kg/m2/h", "g/m2/d"] },
  ppfd: { si: "mol/m2/s", label: "a photon flux density", units: ["umol/m2/s", "mol/m2/d"] },
  lightDose: { si: "mol/m2", label: "a dose of photons per area", units: ["mol/m2"] },
  photonEfficacy: { si: "mol/J", label: "a photon efficacy", units: ["umol/J"] },
  luminousFlux: { si: "lm", label: "a luminous flux", units: ["lm"] },
  illuminance: { si: "lx", label: "an illuminance", units: ["lx", "fc"] },
  force: { si: "N", label: "a force", units: ["N", "kN", "lbf"] },
  pressure: { si: "Pa", label: "a pressure", units: ["bar", "kPa", "hPa", "psi", "atm"] },
  energy: { si: "J", label: "an energy", units: ["kWh", "Wh", "J"] },
  power: { si: "W", label: "a power", units: ["W", "kW", "BTU/h"] },
  powerPerVolume: { si: "W/m3", label: "a power per volume", units: ["W/L", "W/US gal"] },
  heatFlux: { si: "W/m2", label: "a flow of heat or light energy per area", units: ["W/m2"] },
  heatTransfer: { si: "W/m2/K", label: "a heat transfer coefficient", units: ["W/m2/K"] },
  heatConductance: { si: "W/K", label: "a heat loss per degree", units: ["W/K"] },
  heatCapacity: { si: "J/K", label: "a heat capacity", units: ["kJ/K", "J/K"] },
  dynamicViscosity: { si: "Pa*s", label: "a viscosity", units: ["mPa*s"] },
  diffusivity: { si: "m2/s", label: "a diffusivity", units: ["m2/s", "cm2/s"] },
  current: { si: "A", label: "an electric current", units: ["A", "mA"] },
  voltage: { si: "V", label: "a voltage", units: ["V", "mV"] },
  conductivity: { si: "S/m", label: "an electrical conductivity", units: ["uS/cm", "mS/cm"] },
} as const satisfies Readonly<Record<string, NamedDimension>>;

/** Name of a kind of quantity: an entry of {@link dimensions}. */
export type DimensionName = keyof typeof dimensions;

export function isDimensionName(text: string): text is DimensionName {
  return Object.hasOwn(dimensions, text);
}

interface Known {
  readonly name: DimensionName;
  readonly unit: Unit;
}

function known(): readonly Known[] {
  return (Object.keys(dimensions) as DimensionName[]).map((name) => {
    const made = resolve(dimensions[name].si, "code");
    if (made.kind !== "unit") throw new RangeError(`${name}: ${dimensions[name].si} is not a unit`);
    return { name, unit: made.unit };
  });
}

const byName: ReadonlyMap<DimensionName, Unit> = new Map(known().map((k) => [k.name, k.unit]));
const byKey: ReadonlyMap<string, DimensionName> = new Map(
  known()
    .toReversed()
    .map((k) => [k.unit.dimension.key, k.name]),
);

/** SI unit of a named dimension. */
export function siUnit(name: DimensionName): Unit {
  return byName.get(name) as Unit;
}

/** The first name that fits a dimension, or null. Differences of temperature are told by the unit's scale. */
export function nameOf(dimension: Dimension, scale: Scale = "plain"): DimensionName | null {
  return scale === "difference" ? "temperatureDifference" : (byKey.get(dimension.key) ?? null);
}

/** The kind of a quantity in words: "a volume", or its base units where it has no name. */
export function kindOf({ dimension, scale }: Pick<Unit, "dimension" | "scale">): string {
  const name = nameOf(dimension, scale);
  return name ? dimensions[name].label : `a quantity in ${inBaseUnits(dimension)}`;
}
