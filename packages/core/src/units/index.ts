/** The door of the units room. */

export { convert, convertAmount, parseUnit } from "./convert.ts";
export { elements } from "./elements.ts";
export type { FormatOptions } from "./format.ts";
export { displayUnit, formatQuantity, formatRange, formatWithDoubt } from "./format.ts";
export { atomCounts, elementShare, FormulaError, molarMass } from "./molar-mass.ts";
export type { DimensionName } from "./named-dimension.ts";
export { dimensions } from "./named-dimension.ts";
export type { Candidate, ParseOptions, QuantityText, ReadQuantity, RefusedQuantity } from "./parse-quantity.ts";
export { parseQuantity } from "./parse-quantity.ts";
export type { Additive, Quantity } from "./quantity.ts";
export {
  add,
  alkalinity,
  area,
  bubbleRate,
  commensurable,
  compare,
  concentrationAmount,
  concentrationMass,
  energy,
  flow,
  fraction,
  hardness,
  inUnit,
  length,
  mass,
  power,
  ppfd,
  pressure,
  quantity,
  rate,
  scale,
  subtract,
  temperature,
  temperatureDifference,
  time,
  valueIn,
  velocity,
  volume,
  warmedBy,
  warming,
} from "./quantity.ts";
export { relations } from "./relations.ts";
export type { Rounded } from "./rounding.ts";
export { roundToDoubt, roundToPlace } from "./rounding.ts";
export { sources } from "./sources.ts";
export type { Unit } from "./unit.ts";
export { UnitError } from "./unit-error.ts";
export type { UnitSystem } from "./unit-system.ts";
export { inSystem, metricUnit, usUnit } from "./unit-system.ts";
