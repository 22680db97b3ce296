import { RelationError, relation } from "../relation/index.ts";
import { airPressure, number, output } from "./inputs.ts";
import {
  airEnthalpy,
  humidityRatio,
  humidityRatioFromWetBulb,
  moistAir,
  pressureAtAltitude,
  psychrometerVapourPressure,
  specificVolume,
  vapourPressureOfRatio,
} from "./moist-air.ts";
import { dewPoint, latentHeat, magnusPressure, saturationPressure } from "./saturation.ts";
import { waterProperties } from "./water-properties.ts";

export const saturationVapourPressure = relation({
  id: "saturation-vapour-pressure",
  title: "Vapour pressure over water",
  room: "heat",
  inputs: {
    temperature: number("temperature", "°C", -60, 200),
    pressure: airPressure,
  },
  outputs: {
    saturation_pressure: output("vapour pressure at saturation", "Pa"),
    short_form: output("the same by the short Magnus form", "Pa"),
    humidity_ratio: output("vapour in saturated air, kg per kg of dry air", "1"),
  },
  equation:
    "ln p = -5800.2206/T + 1.3914993 - 0.048640239 T + 4.1764768e-5 T2 - 1.4452093e-8 T3 + 6.5459673 ln T (over ice below 0.01 °C)",
  sources: ["hyland-wexler-1983", "wmo-8", "ashrae-fundamentals"],
  validity: "0.03 % over water; the short form -0.1 to -0.3 % at 5-30 °C",
  compute: ({ temperature, pressure }) => {
    const saturated = saturationPressure(temperature);
    return {
      saturation_pressure: saturated,
      short_form: magnusPressure(temperature),
      humidity_ratio: saturated < pressure ? humidityRatio(saturated, pressure) : Number.POSITIVE_INFINITY,
    };
  },
});

export const latentHeatOfWater = relation({
  id: "latent-heat",
  title: "Heat taken by evaporation",
  room: "heat",
  inputs: { temperature: number("water temperature", "°C", 0, 60) },
  outputs: { latent_heat: output("heat to evaporate 1 kg", "kJ/kg") },
  equation: "h = 2501 - 2.3626 t",
  sources: ["iapws-95"],
  validity: "0.5 kJ/kg at 0-40 °C",
  compute: ({ temperature }) => ({ latent_heat: latentHeat(temperature) }),
});

export const moistAirState = relation({
  id: "moist-air",
  title: "Moist air from temperature and relative humidity",
  room: "heat",
  inputs: {
    temperature: number("air temperature", "°C", -40, 80),
    humidity: number("relative humidity", "%", 1, 100),
    pressure: airPressure,
  },
  outputs: {
    vapour_pressure: output("vapour pressure", "Pa"),
    humidity_ratio: output("vapour, kg per kg of dry air", "1"),
    dew_point: output("dew point", "°C"),
    wet_bulb: output("wet-bulb temperature", "°C"),
    enthalpy: output("enthalpy per kg of dry air", "kJ/kg"),
    density: output("density of the moist air", "kg/m3"),
    specific_volume: output("volume per kg of dry air", "m3/kg"),
  },
  equation:
    "p_v = RH p_ws; W = 0.621945 p_v/(P - p_v); h = 1.006 t + W (2501 + 1.86 t); density = (P - p_v)/(287.042 T) + p_v/(461.52 T)",
  sources: ["ashrae-fundamentals", "hyland-wexler-1983"],
  compute: ({ temperature, humidity, pressure }) => {
    const air = moistAir(temperature, humidity / 100, pressure);
    return {
      vapour_pressure: air.vapourPressure,
      humidity_ratio: air.humidityRatio,
      dew_point: air.dewPoint,
      wet_bulb: air.wetBulb,
      enthalpy: air.enthalpy,
      density: air.density,
      specific_volume: air.specificVolume,
    };
  },
});

export const moistAirFromWetBulb = relation({
  id: "moist-air-from-wet-bulb",
  title: "Moist air from dry-bulb and wet-bulb temperature",
  room: "heat",
  inputs: {
    dry_bulb: number("dry-bulb temperature", "°C", -20, 80),
    wet_bulb: number("wet-bulb temperature", "°C", -20, 60),
    pressure: airPressure,
  },
  outputs: {
    humidity_ratio: output("vapour, kg per kg of dry air", "1"),
    humidity: output("relative humidity", "%"),
    dew_point: output("dew point", "°C"),
    enthalpy: output("enthalpy per kg of dry air", "kJ/kg"),
    specific_volume: output("volume per kg of dry air", "m3/kg"),
  },
  equation: "W = ((2501 - 2.326 t*) W_s* - 1.006 (t - t*)) / (2501 + 1.86 t - 4.186 t*)",
  sources: ["ashrae-fundamentals"],
  validity: "wet-bulb no higher than dry-bulb and not below that of dry air",
  compute: ({ dry_bulb, wet_bulb, pressure }) => {
    requireWetBulb("moist-air-from-wet-bulb", dry_bulb, wet_bulb);
    const ratio = humidityRatioFromWetBulb(dry_bulb, wet_bulb, pressure);
    requireMoisture("moist-air-from-wet-bulb", ratio);
    const vapour = vapourPressureOfRatio(ratio, pressure);
    return {
      humidity_ratio: ratio,
      humidity: (100 * vapour) / saturationPressure(dry_bulb),
      dew_point: dewPoint(vapour),
      enthalpy: airEnthalpy(dry_bulb, ratio),
      specific_volume: specificVolume(dry_bulb, vapour, pressure),
    };
  },
});

export const psychrometer = relation({
  id: "psychrometer",
  title: "Humidity from an aspirated pair of thermometers",
  room: "heat",
  inputs: {
    dry_bulb: number("dry thermometer", "°C", 0, 60),
    wet_bulb: number("wet thermometer", "°C", 0, 60),
    pressure: airPressure,
  },
  outputs: {
    vapour_pressure: output("vapour pressure", "Pa"),
    humidity: output("relative humidity", "%"),
  },
  equation: "p_v = p_ws(t*) - 6.53e-4 (1 + 0.000944 t*) P (t - t*)",
  sources: ["wmo-8"],
  validity:
    "a fan draws air over both bulbs; the wick is wet and clean; within 0.005 of the wet-bulb balance at 18-32 °C, 40-95 %",
  compute: ({ dry_bulb, wet_bulb, pressure }) => {
    requireWetBulb("psychrometer", dry_bulb, wet_bulb);
    const vapour = psychrometerVapourPressure(dry_bulb, wet_bulb, pressure);
    requireMoisture("psychrometer", vapour);
    return { vapour_pressure: vapour, humidity: (100 * vapour) / saturationPressure(dry_bulb) };
  },
});

export const airPressureAtAltitude = relation({
  id: "air-pressure-at-altitude",
  title: "Air pressure at an altitude",
  room: "heat",
  inputs: { altitude: number("altitude above the sea", "m", -500, 11_000) },
  outputs: { pressure: output("air pressure", "Pa") },
  equation: "P = 101325 (1 - 2.25577e-5 z)^5.2559",
  sources: ["ashrae-fundamentals"],
  compute: ({ altitude }) => ({ pressure: pressureAtAltitude(altitude) }),
});

export const waterPropertiesAt = relation({
  id: "water-thermal-properties",
  title: "Properties of fresh water",
  room: "heat",
  inputs: { temperature: number("water temperature", "°C", 1, 95) },
  outputs: {
    density: output("density", "kg/m3"),
    viscosity: output("dynamic viscosity", "mPa*s"),
    kinematic_viscosity: output("kinematic viscosity", "m2/s"),
    heat_capacity: output("heat capacity", "J/kg/K"),
    conductivity: output("thermal conductivity", "W/m/K"),
    prandtl: output("Prandtl number", "1"),
    expansion: output("growth of volume per kelvin", "1/K"),
  },
  equation:
    "published fits: density Kell, viscosity Kestin et al., heat capacity Popiel & Wojtkowiak, conductivity Ramires et al.",
  sources: ["kell-1975", "kestin-1978", "popiel-1998", "ramires-1995"],
  validity: "pure water at 1 atm",
  compute: ({ temperature }) => {
    const water = waterProperties(temperature);
    return {
      density: water.density,
      viscosity: water.viscosity * 1000,
      kinematic_viscosity: water.kinematicViscosity,
      heat_capacity: water.heatCapacity,
      conductivity: water.conductivity,
      prandtl: water.prandtl,
      expansion: water.expansion,
    };
  },
});

function requireWetBulb(id: string, dry: number, wet: number): void {
  if (wet > dry) {
    throw new RelationError(id, [{ input: "wet_bulb", message: "must not be above the dry-bulb temperature" }]);
  }
}

function requireMoisture(id: string, amount: number): void {
  if (!(amount > 0)) {
    throw new RelationError(id, [{ input: "wet_bulb", message: "is lower than even dry air would give" }]);
  }
}
