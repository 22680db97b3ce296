/**
 * Evaporation from a water surface. Rates in kg/m²/s, positive when water leaves; temperatures in °C; vapour pressures
 * in Pa: `overWater` is the saturation pressure at the water's temperature, `inRoom` that of the room's vapour.
 */
import { airConductivity, airHeatCapacity, airViscosity, dryAirDensity, vapourDiffusivity } from "./air-film.ts";
import { gravity, standardPressure, vapourGasConstant, zeroCelsius } from "./constants.ts";
import { levelPlateUpNusselt, levelPlateUpNusseltSmooth } from "./convection.ts";
import { dryPartDensity, humidityRatio, moistAirDensity } from "./moist-air.ts";
import { latentHeat } from "./saturation.ts";

const secondsPerHour = 3600;

/** Least exchange of a surface in still or stable air, kg/m²/s per Pa. Source: shah-2014. */
export const stillAirFloor = 5e-5 / secondsPerHour;

/**
 * Pool equation with air moving over the surface at `airSpeed` m/s. `activity` 1 is a busy public pool, 0.5 a quiet one;
 * undisturbed pools were measured at 0.74. Sources: carrier-1918, smith-1998.
 */
export function carrierEvaporation(
  water: number,
  overWater: number,
  inRoom: number,
  airSpeed: number,
  activity = 1,
): number {
  return (((overWater - inRoom) / 1000) * (0.089 + 0.0782 * airSpeed) * activity) / latentHeat(water);
}

/** The pool equation as pool engineers shorten it (0.1 m/s, 2400 kJ/kg). Source: energyplus-pool. */
export function shortPoolEvaporation(overWater: number, inRoom: number, activity = 0.5): number {
  return ((4e-5 * (overWater - inRoom)) / 1000) * activity;
}

/** Which density Shah's formula means: of the mixture, or of its dry part (his nomenclature as remembered). */
export type ShahReading = "moist" | "dry";

/**
 * Undisturbed indoor pools, by the density difference of room air and air at the surface; 0 in stable air, where its
 * author's floor takes over (`stillAirFloor`). Mean deviation 18 % on pools of 0.07-425 m². Sources: shah-2002, shah-2014.
 */
export function shahEvaporation(
  water: number,
  room: number,
  overWater: number,
  inRoom: number,
  reading: ShahReading,
  pressure: number = standardPressure,
): number {
  const density = reading === "moist" ? moistAirDensity : dryPartDensity;
  const atSurface = density(water, overWater, pressure);
  const lift = density(room, inRoom, pressure) - atSurface;
  if (lift <= 0) return 0;
  const factor = lift > 0.02 ? 35 : 40;
  const ratios = humidityRatio(overWater, pressure) - humidityRatio(inRoom, pressure);
  return (factor * atSurface * Math.cbrt(lift) * ratios) / secondsPerHour;
}

/** Properties of the air film over a surface, worked out once for all that happens in it. */
interface Film {
  /** K */
  kelvin: number;
  /** kg/m³, dry */
  density: number;
  /** W/m/K */
  conductivity: number;
  /** m²/s */
  viscosity: number;
  /** Of heat, m²/s. */
  diffusivity: number;
  /** Of vapour, m²/s. */
  vapourDiffusivity: number;
}

function newFilm(): Film {
  return { kelvin: 0, density: 0, conductivity: 0, viscosity: 0, diffusivity: 0, vapourDiffusivity: 0 };
}

function setFilm(film: Film, kelvin: number, pressure: number): void {
  film.kelvin = kelvin;
  film.density = dryAirDensity(kelvin, pressure);
  film.conductivity = airConductivity(kelvin);
  film.viscosity = airViscosity(kelvin) / film.density;
  film.diffusivity = film.conductivity / (film.density * airHeatCapacity);
  film.vapourDiffusivity = vapourDiffusivity(kelvin, pressure);
}

/**
 * Vapour and heat leave together, so the heat transfer coefficient follows from the vapour's (Lewis): W/m²/K for a
 * surface whose vapour exchange is 1 kg/m²/s per Pa.
 */
function heatPerExchange(film: Film): number {
  const lewis = film.diffusivity / film.vapourDiffusivity;
  return vapourGasConstant * film.kelvin * film.density * airHeatCapacity * Math.cbrt(lewis * lewis);
}

/** The larger of two numbers, rounded off where they come within `width` of each other (at most width/6 above). */
function smoothMaximum(a: number, b: number, width: number): number {
  const gap = width - Math.abs(a - b);
  const top = Math.max(a, b);
  return gap > 0 ? top + (gap * gap * gap) / (6 * width * width) : top;
}

/** Width of the rounding between natural convection and floor, as a share of the floor: adds 0.33 % at most. */
const rounding = 0.02;

/**
 * Grashof number of a wet, level surface in still air: the lift of the warm moist air at it. 0 or less in stable air.
 */
function grashofNumber(
  water: number,
  room: number,
  overWater: number,
  inRoom: number,
  length: number,
  pressure: number,
  film: Film,
): number {
  const roomDensity = moistAirDensity(room, inRoom, pressure);
  const surfaceDensity = moistAirDensity(water, overWater, pressure);
  const mean = (roomDensity + surfaceDensity) / 2;
  return (
    (gravity * (roomDensity - surfaceDensity) * length * length * length) / (mean * film.viscosity * film.viscosity)
  );
}

/** Vapour in the air at the surface less that in the room's air, kg/m³. */
function vapourExcess(water: number, room: number, overWater: number, inRoom: number): number {
  return (overWater / (water + zeroCelsius) - inRoom / (room + zeroCelsius)) / vapourGasConstant;
}

export interface SurfaceExchange {
  /** kg/m²/s */
  readonly evaporation: number;
  /** W/m²/K */
  readonly heatCoefficient: number;
}

/**
 * The natural-convection analogy alone, with the published level-plate laws: evaporation and heat transfer coefficient
 * of an open surface in still air; zeros in stable air. `length` is area over perimeter, m. Source: mcadams.
 */
export function naturalConvectionExchange(
  water: number,
  room: number,
  overWater: number,
  inRoom: number,
  length: number,
  pressure: number = standardPressure,
): SurfaceExchange {
  const film = newFilm();
  setFilm(film, (water + room) / 2 + zeroCelsius, pressure);
  const grashof = grashofNumber(water, room, overWater, inRoom, length, pressure, film);
  if (grashof <= 0) return { evaporation: 0, heatCoefficient: 0 };
  const sherwood = levelPlateUpNusselt((grashof * film.viscosity) / film.vapourDiffusivity);
  const nusselt = levelPlateUpNusselt((grashof * film.viscosity) / film.diffusivity);
  const transfer = (sherwood * film.vapourDiffusivity) / length;
  return {
    evaporation: transfer * vapourExcess(water, room, overWater, inRoom),
    heatCoefficient: (nusselt * film.conductivity) / length,
  };
}

/** An open surface, prepared for many calls. */
export interface OpenSurface {
  /** Writes [vapour kg/m²/s, heat W/m²/K] into `out`; allocation-free. */
  exchange(water: number, room: number, overWater: number, inRoom: number, out: Float64Array): void;
}

/**
 * Exchange of an open surface by the rule this room recommends. Still air: natural convection, but no less than the
 * floor. Moving air (`airSpeed` above 0, m/s): the pool equation, with the heat by Lewis. The vapour turns negative (dew
 * on cold water) when the room holds more than the surface. `length` is area over perimeter, m; `pressure` in Pa.
 */
export function openSurface(length: number, airSpeed: number, pressure: number): OpenSurface {
  const film = newFilm();
  function exchange(water: number, room: number, overWater: number, inRoom: number, out: Float64Array): void {
    const difference = overWater - inRoom;
    setFilm(film, (water + room) / 2 + zeroCelsius, pressure);
    const perExchange = heatPerExchange(film);
    if (airSpeed > 0) {
      const moving = (0.089 + 0.0782 * airSpeed) / (1000 * latentHeat(water));
      out[0] = moving * difference;
      out[1] = moving * perExchange;
      return;
    }
    const floor = stillAirFloor * difference;
    const floorHeat = stillAirFloor * perExchange;
    const grashof = grashofNumber(water, room, overWater, inRoom, length, pressure, film);
    if (grashof <= 0) {
      out[0] = floor;
      out[1] = floorHeat;
      return;
    }
    const sherwood = levelPlateUpNusseltSmooth((grashof * film.viscosity) / film.vapourDiffusivity);
    const nusselt = levelPlateUpNusseltSmooth((grashof * film.viscosity) / film.diffusivity);
    const rising = ((sherwood * film.vapourDiffusivity) / length) * vapourExcess(water, room, overWater, inRoom);
    out[0] = floor > 0 ? smoothMaximum(rising, floor, rounding * floor) : floor;
    out[1] = smoothMaximum((nusselt * film.conductivity) / length, floorHeat, rounding * floorHeat);
  }
  return { exchange };
}
