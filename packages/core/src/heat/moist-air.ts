import { dryAirGasConstant, standardPressure, vapourGasConstant, vapourToAirMass, zeroCelsius } from "./constants.ts";
import { dewPoint, saturationPressure } from "./saturation.ts";

/** Vapour pressure, Pa, of air at `temperature` °C and relative humidity 0..1. */
export function vapourPressure(temperature: number, humidity: number): number {
  return humidity * saturationPressure(temperature);
}

/** Mass of vapour per mass of dry air, kg/kg, from vapour pressure and air pressure in Pa. Source: ashrae-fundamentals. */
export function humidityRatio(vapour: number, pressure: number = standardPressure): number {
  return (vapourToAirMass * vapour) / (pressure - vapour);
}

/** Vapour pressure, Pa, that belongs to a humidity ratio (kg/kg) at an air pressure (Pa). */
export function vapourPressureOfRatio(ratio: number, pressure: number = standardPressure): number {
  return (pressure * ratio) / (vapourToAirMass + ratio);
}

/** Enthalpy of moist air per kg of dry air, kJ/kg, zero for dry air at 0 °C. Source: ashrae-fundamentals. */
export function airEnthalpy(temperature: number, ratio: number): number {
  return 1.006 * temperature + ratio * (2501 + 1.86 * temperature);
}

/** Density of moist air, kg/m³, from °C, vapour pressure Pa and air pressure Pa (mixture of two ideal gases). */
export function moistAirDensity(temperature: number, vapour: number, pressure: number): number {
  const t = temperature + zeroCelsius;
  return (pressure - vapour) / (dryAirGasConstant * t) + vapour / (vapourGasConstant * t);
}

/** Mass of the dry part of moist air per volume of the mixture, kg/m³. */
export function dryPartDensity(temperature: number, vapour: number, pressure: number): number {
  return (pressure - vapour) / (dryAirGasConstant * (temperature + zeroCelsius));
}

/** Volume of moist air per kg of dry air, m³/kg. */
export function specificVolume(temperature: number, vapour: number, pressure: number): number {
  return 1 / dryPartDensity(temperature, vapour, pressure);
}

/** Air pressure, Pa, at an altitude in m (-500 to 11000 m, standard atmosphere). Source: ashrae-fundamentals. */
export function pressureAtAltitude(altitude: number): number {
  return standardPressure * (1 - 2.25577e-5 * altitude) ** 5.2559;
}

/**
 * Humidity ratio, kg/kg, of air whose dry-bulb and wet-bulb readings are given in °C (air pressure in Pa), by the heat
 * balance of adiabatic saturation; over ice below 0 °C wet-bulb. Source: ashrae-fundamentals.
 */
export function humidityRatioFromWetBulb(dry: number, wet: number, pressure: number = standardPressure): number {
  const saturated = humidityRatio(saturationPressure(wet), pressure);
  if (wet >= 0) {
    return ((2501 - 2.326 * wet) * saturated - 1.006 * (dry - wet)) / (2501 + 1.86 * dry - 4.186 * wet);
  }
  return ((2830 - 0.24 * wet) * saturated - 1.006 * (dry - wet)) / (2830 + 1.86 * dry - 2.1 * wet);
}

/**
 * Wet-bulb temperature, °C, of air at `temperature` °C with the given vapour pressure (Pa) at an air pressure (Pa): the
 * lowest a water surface in that air can be cooled to by evaporation alone. Source: ashrae-fundamentals.
 */
export function wetBulb(temperature: number, vapour: number, pressure: number = standardPressure): number {
  const ratio = humidityRatio(vapour, pressure);
  let low = Math.min(dewPoint(vapour), temperature);
  let high = temperature;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (humidityRatioFromWetBulb(temperature, middle, pressure) > ratio) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}

/**
 * Vapour pressure, Pa, from an aspirated pair of thermometers, dry and wet, °C (wet above 0 °C), air pressure Pa.
 * Source: wmo-8.
 */
export function psychrometerVapourPressure(dry: number, wet: number, pressure: number = standardPressure): number {
  return saturationPressure(wet) - 6.53e-4 * (1 + 0.000944 * wet) * pressure * (dry - wet);
}

export interface MoistAir {
  /** Pa */
  readonly vapourPressure: number;
  /** kg vapour per kg dry air */
  readonly humidityRatio: number;
  /** °C */
  readonly dewPoint: number;
  /** °C */
  readonly wetBulb: number;
  /** kJ per kg dry air */
  readonly enthalpy: number;
  /** kg/m³ of the mixture */
  readonly density: number;
  /** m³ per kg dry air */
  readonly specificVolume: number;
}

/**
 * All of the common figures of moist air at once, from °C, relative humidity above 0 to 1 and air pressure in Pa.
 * Source: ashrae-fundamentals, hyland-wexler-1983.
 */
export function moistAir(temperature: number, humidity: number, pressure: number = standardPressure): MoistAir {
  const vapour = vapourPressure(temperature, humidity);
  const ratio = humidityRatio(vapour, pressure);
  return {
    vapourPressure: vapour,
    humidityRatio: ratio,
    dewPoint: dewPoint(vapour),
    wetBulb: wetBulb(temperature, vapour, pressure),
    enthalpy: airEnthalpy(temperature, ratio),
    density: moistAirDensity(temperature, vapour, pressure),
    specificVolume: specificVolume(temperature, vapour, pressure),
  };
}
