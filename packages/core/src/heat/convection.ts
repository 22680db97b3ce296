import { airConductivity, airHeatCapacity, airViscosity, dryAirDensity } from "./air-film.ts";
import { gravity, standardPressure, zeroCelsius } from "./constants.ts";

/** Nusselt number of a vertical plate of one temperature, any Rayleigh number from 0 to 1e12. Source: churchill-chu-1975. */
export function verticalPlateNusselt(rayleigh: number, prandtl: number): number {
  // The powers 9/16 and 8/27 by roots, which is twice as fast as by logarithms.
  const sixteenth = Math.sqrt(Math.sqrt(Math.sqrt(Math.sqrt(0.492 / prandtl))));
  const ninth = eighthPower(sixteenth) * sixteenth;
  const prandtlFactor = eighthPower(Math.cbrt(Math.cbrt(Math.cbrt(1 + ninth))));
  const root = 0.825 + (0.387 * Math.sqrt(Math.cbrt(rayleigh))) / prandtlFactor;
  return root * root;
}

function eighthPower(x: number): number {
  const fourth = x * x * x * x;
  return fourth * fourth;
}

/** Nusselt number of a vertical plate in laminar flow, Rayleigh number up to 1e9. Source: churchill-chu-1975. */
export function verticalPlateLaminarNusselt(rayleigh: number, prandtl: number): number {
  return 0.68 + (0.67 * rayleigh ** 0.25) / (1 + (0.492 / prandtl) ** (9 / 16)) ** (4 / 9);
}

/**
 * Nusselt number of a level plate that drives the flow (warm side up): the quarter law below a Rayleigh number of 1e7
 * (published from 1e4), the third law above it (to 1e11). The published pair jumps by 6 % at 1e7. Source: mcadams.
 */
export function levelPlateUpNusselt(rayleigh: number): number {
  return rayleigh < 1e7 ? 0.54 * rayleigh ** 0.25 : 0.15 * Math.cbrt(rayleigh);
}

/** Nusselt number of a level plate that the flow lies quiet under (warm side down), 1e5 to 1e10. Source: mcadams. */
export function levelPlateDownNusselt(rayleigh: number): number {
  return 0.27 * rayleigh ** 0.25;
}

const blendFrom = 0.9e7;
const blendTo = 1.1e7;
const blendFromLog = Math.log(blendFrom);
const blendWidth = Math.log(blendTo) - blendFromLog;

/**
 * As `levelPlateUpNusselt`, with the jump at 1e7 spread smoothly over 0.9e7 to 1.1e7 so that a solver of the tank's
 * motion never meets a step; equal to the published laws outside that band.
 */
export function levelPlateUpNusseltSmooth(rayleigh: number): number {
  if (rayleigh <= blendFrom) return 0.54 * Math.sqrt(Math.sqrt(rayleigh));
  const third = 0.15 * Math.cbrt(rayleigh);
  if (rayleigh >= blendTo) return third;
  const x = (Math.log(rayleigh) - blendFromLog) / blendWidth;
  const share = x * x * x * (10 + x * (6 * x - 15));
  return third * share + 0.54 * Math.sqrt(Math.sqrt(rayleigh)) * (1 - share);
}

/**
 * Heat transfer coefficient by natural convection in room air at a vertical surface, W/m²/K. `excess` is surface minus
 * air in K (either sign), `height` in m, `pressure` in Pa. Source: churchill-chu-1975 with dry-air film properties.
 */
export function verticalAirCoefficient(
  excess: number,
  air: number,
  height: number,
  pressure: number = standardPressure,
): number {
  const film = air + zeroCelsius + excess / 2;
  const conductivity = airConductivity(film);
  const density = dryAirDensity(film, pressure);
  const viscosity = airViscosity(film) / density;
  const diffusivity = conductivity / (density * airHeatCapacity);
  const rayleigh = (gravity * Math.abs(excess) * height * height * height) / (film * viscosity * diffusivity);
  return (verticalPlateNusselt(rayleigh, viscosity / diffusivity) * conductivity) / height;
}

/** Room-air rule for tall walls, W/m²/K, from the temperature difference in K. Source: ashrae-room-air. */
export function wallRuleCoefficient(difference: number): number {
  return 1.31 * Math.cbrt(Math.abs(difference));
}

/** Room-air rule for a level surface, W/m²/K: lively where it is unstable, quiet where stable. Source: ashrae-room-air. */
export function levelRuleCoefficient(difference: number, unstable: boolean): number {
  return (unstable ? 9.482 / (7.283 - 1) : 1.81 / (1.382 + 1)) * Math.cbrt(Math.abs(difference));
}
