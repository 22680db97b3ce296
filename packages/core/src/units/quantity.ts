import { convert, parseUnit, sameKind } from "./convert.ts";
import { expectationOf, fit } from "./expectation.ts";
import { type DimensionName, kindOf, siUnit } from "./named-dimension.ts";
import { along } from "./ratio.ts";
import { resolve, type Unit } from "./unit.ts";
import { UnitError } from "./unit-error.ts";

/** A value with its unit, of a kind that the compiler keeps apart from other kinds. */
export interface Quantity<D extends DimensionName> {
  readonly dimension: D;
  readonly value: number;
  /** House spelling of the unit of `value`. */
  readonly unit: string;
  /** In SI units. */
  readonly si: number;
}

/** The unit that a text means where a quantity of this kind is due. */
function unitFor(text: string, dimension: DimensionName): Unit {
  const made = resolve(text, "code");
  const expectation = expectationOf(dimension);
  const units = made.kind === "unit" ? [made.unit] : made.kind === "ask" ? made.readings.map((r) => r.unit) : [];
  const fitting = units.filter((u) => fit(u, expectation) !== "no");
  const [unit] = fitting;
  if (unit && fitting.length === 1) {
    return fit(unit, expectation) === "as difference" ? parseUnit(`Δ${unit.symbol}`) : unit;
  }
  const [other] = units;
  if (!other || unit) return parseUnit(text);
  throw new UnitError(`${text} is ${kindOf(other)}; ${expectation.label} is needed`, [text]);
}

/**
 * Makes a quantity, e.g. `quantity("volume", 60, "L")`.
 * @throws UnitError when the unit is unknown, ambiguous or of another kind, or the value is not finite
 */
export function quantity<D extends DimensionName>(dimension: D, value: number, unit: string): Quantity<D> {
  const made = unitFor(unit, dimension);
  const si = along(made.toSi, value);
  if (!Number.isFinite(si)) throw new UnitError(`${value} ${unit} is not a finite quantity`, [unit]);
  return { dimension, value, unit: made.symbol, si };
}

type Maker<D extends DimensionName> = (value: number, unit: string) => Quantity<D>;

function maker<D extends DimensionName>(dimension: D): Maker<D> {
  return (value, unit) => quantity(dimension, value, unit);
}

export const length: Maker<"length"> = maker("length");
export const area: Maker<"area"> = maker("area");
export const volume: Maker<"volume"> = maker("volume");
export const mass: Maker<"mass"> = maker("mass");
export const time: Maker<"time"> = maker("time");
/** A reading on a thermometer's scale: `temperature(24, "°C")`. */
export const temperature: Maker<"temperature"> = maker("temperature");
/** A difference of temperatures: `temperatureDifference(2, "°C")` is 2 K. */
export const temperatureDifference: Maker<"temperatureDifference"> = maker("temperatureDifference");
export const power: Maker<"power"> = maker("power");
export const energy: Maker<"energy"> = maker("energy");
export const flow: Maker<"flow"> = maker("flow");
export const velocity: Maker<"velocity"> = maker("velocity");
export const pressure: Maker<"pressure"> = maker("pressure");
export const concentrationMass: Maker<"concentrationMass"> = maker("concentrationMass");
export const concentrationAmount: Maker<"concentrationAmount"> = maker("concentrationAmount");
export const alkalinity: Maker<"alkalinity"> = maker("alkalinity");
export const hardness: Maker<"hardness"> = maker("hardness");
export const rate: Maker<"rate"> = maker("rate");
export const fraction: Maker<"fraction"> = maker("fraction");
export const ppfd: Maker<"ppfd"> = maker("ppfd");
export const bubbleRate: Maker<"bubbleRate"> = maker("bubbleRate");

/** The value of a quantity in another unit. @throws UnitError */
export function valueIn(q: Quantity<DimensionName>, unit: string): number {
  return convert(q.value, q.unit, unitFor(unit, q.dimension).symbol);
}

/** The same quantity told in another unit. @throws UnitError */
export function inUnit<D extends DimensionName>(q: Quantity<D>, unit: string): Quantity<D> {
  return quantity(q.dimension, valueIn(q, unit), unit);
}

/** Kinds that can be added; two readings of a thermometer cannot, see {@link warmedBy}. */
export type Additive = Exclude<DimensionName, "temperature">;

/** Sum, in the unit of the first. */
export function add<D extends Additive>(a: Quantity<D>, b: Quantity<NoInfer<D>>): Quantity<D> {
  return quantity(a.dimension, a.value + valueIn(b, a.unit), a.unit);
}

/** Difference, in the unit of the first. */
export function subtract<D extends Additive>(a: Quantity<D>, b: Quantity<NoInfer<D>>): Quantity<D> {
  return quantity(a.dimension, a.value - valueIn(b, a.unit), a.unit);
}

/** A multiple, in the same unit. */
export function scale<D extends Additive>(q: Quantity<D>, by: number): Quantity<D> {
  return quantity(q.dimension, q.value * by, q.unit);
}

/** Below 0 when the first is the smaller, 0 when they are equal. */
export function compare<D extends DimensionName>(a: Quantity<D>, b: Quantity<NoInfer<D>>): number {
  return a.si - b.si;
}

/** A temperature and a difference make a temperature, in the unit of the first. */
export function warmedBy(
  t: Quantity<"temperature">,
  difference: Quantity<"temperatureDifference">,
): Quantity<"temperature"> {
  return quantity("temperature", convert(t.si + difference.si, siUnit("temperature").symbol, t.unit), t.unit);
}

/** How much warmer the second is, in K. */
export function warming(from: Quantity<"temperature">, to: Quantity<"temperature">): Quantity<"temperatureDifference"> {
  return quantity("temperatureDifference", to.si - from.si, "K");
}

/** Whether two units tell the same kind of quantity. @throws UnitError when one is unknown or ambiguous */
export function commensurable(a: string, b: string): boolean {
  return sameKind(parseUnit(a), parseUnit(b));
}
