export { type HeatLoss, tankHeatLoss } from "./balance.ts";
export { baseConductance, conductanceOfLayers, lidConductance, lidLeak } from "./base-and-lid.ts";
export {
  levelPlateDownNusselt,
  levelPlateUpNusselt,
  levelPlateUpNusseltSmooth,
  levelRuleCoefficient,
  verticalAirCoefficient,
  verticalPlateLaminarNusselt,
  verticalPlateNusselt,
  wallRuleCoefficient,
} from "./convection.ts";
export { chillerDuty, chillerPower, type FanCooling, fanCooling, summerTemperature } from "./cooling.ts";
export {
  carrierEvaporation,
  naturalConvectionExchange,
  type OpenSurface,
  openSurface,
  type ShahReading,
  type SurfaceExchange,
  shahEvaporation,
  shortPoolEvaporation,
  stillAirFloor,
} from "./evaporation.ts";
export { createHeatBalance, type HeatBalance } from "./fast-balance.ts";
export {
  daysPerMonth,
  type HeaterAdvice,
  type HeaterReading,
  type HeaterStanding,
  heaterAdvice,
  heaterEnergyPerDay,
  heaterReading,
  heaterStanding,
  pairShare,
  ratingMargin,
  stuckHeaterTemperature,
} from "./heater.ts";
export {
  airEnthalpy,
  dryPartDensity,
  humidityRatio,
  humidityRatioFromWetBulb,
  type MoistAir,
  moistAir,
  moistAirDensity,
  pressureAtAltitude,
  psychrometerVapourPressure,
  specificVolume,
  vapourPressure,
  vapourPressureOfRatio,
  wetBulb,
} from "./moist-air.ts";
export { glassConductivity, type Pane, type PaneLoss, paneHeatLoss, waterSideCoefficient } from "./pane.ts";
export { glassEmissivity, radiantCoefficient, radiantFlux, waterEmissivity } from "./radiation.ts";
export { relations } from "./relations.ts";
export { dewPoint, latentHeat, magnusPressure, saturationPressure } from "./saturation.ts";
export { sources } from "./sources.ts";
export { lossFunction, type RoomAir, steadyTemperature, tankHeatCapacity, timeToTemperature } from "./steady.ts";
export { type HeatTank, type WettedShape, wettedShape } from "./tank.ts";
export { blendTemperature, hotShare, refillTemperature } from "./temperature-blend.ts";
export { type SimpleWarmUp, simpleWarmUp, warmingRate } from "./warm-up.ts";
export {
  heatCapacityOfVolume,
  type WaterProperties,
  waterConductivity,
  waterDensity,
  waterExpansion,
  waterHeatCapacity,
  waterProperties,
  waterViscosity,
} from "./water-properties.ts";
