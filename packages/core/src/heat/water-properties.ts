import { zeroCelsius } from "./constants.ts";

/** Density of pure water at 1 atm, kg/m³, from °C (0-100; 0.003 kg/m³ of the steam tables at 5-35 °C). Source: kell-1975. */
export function waterDensity(t: number): number {
  return densityTop(t) / densityBottom(t);
}

function densityTop(t: number): number {
  return (
    999.83952 + t * (16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12))))
  );
}

function densityBottom(t: number): number {
  return 1 + 16.87985e-3 * t;
}

/** Growth of volume per kelvin of pure water, 1/K, from °C (0-100; negative below 4 °C). Derivative of kell-1975. */
export function waterExpansion(t: number): number {
  const slope =
    16.945176 + t * (-2 * 7.9870401e-3 + t * (-3 * 46.170461e-6 + t * (4 * 105.56302e-9 - t * 5 * 280.54253e-12)));
  return 16.87985e-3 / densityBottom(t) - slope / densityTop(t);
}

/** Dynamic viscosity of water, Pa·s, from °C (0-100; 0.1 % at 5-35 °C). Source: kestin-1978. */
export function waterViscosity(t: number): number {
  const d = 20 - t;
  return 1.002e-3 * 10 ** ((d / (t + 96)) * (1.2364 - 1.37e-3 * d + 5.7e-6 * d * d));
}

/** Heat capacity of water at constant pressure, J/kg/K, from °C (0-100; 0.1 %). Source: popiel-1998. */
export function waterHeatCapacity(t: number): number {
  const root = Math.sqrt(t);
  return 1000 * (4.2174356 + t * (-0.0056181625 + 0.0012992528 * root + t * (-0.00011535353 + 4.14964e-6 * root)));
}

/** Thermal conductivity of water, W/m/K, from °C (1-95; 0.7 % worst case of the source, 0.2 % here). Source: ramires-1995. */
export function waterConductivity(t: number): number {
  const x = (t + zeroCelsius) / 298.15;
  return 0.6065 * (-1.48445 + x * (4.12292 - 1.63866 * x));
}

export interface WaterProperties {
  /** kg/m³ */
  readonly density: number;
  /** Pa·s */
  readonly viscosity: number;
  /** m²/s */
  readonly kinematicViscosity: number;
  /** J/kg/K */
  readonly heatCapacity: number;
  /** W/m/K */
  readonly conductivity: number;
  /** Viscosity against heat diffusion, pure number. */
  readonly prandtl: number;
  /** 1/K */
  readonly expansion: number;
}

/** Properties of pure water at 1 atm from °C, 1-95. Sources: kell-1975, kestin-1978, popiel-1998, ramires-1995. */
export function waterProperties(t: number): WaterProperties {
  const density = waterDensity(t);
  const viscosity = waterViscosity(t);
  const heatCapacity = waterHeatCapacity(t);
  const conductivity = waterConductivity(t);
  return {
    density,
    viscosity,
    kinematicViscosity: viscosity / density,
    heatCapacity,
    conductivity,
    prandtl: (viscosity * heatCapacity) / conductivity,
    expansion: waterExpansion(t),
  };
}

/** Heat that warms a volume of fresh water (m³) near `temperature` °C by one kelvin, J/K. */
export function heatCapacityOfVolume(volume: number, temperature = 25): number {
  return volume * waterDensity(temperature) * waterHeatCapacity(temperature);
}
