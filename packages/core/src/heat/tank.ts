import { standardPressure } from "./constants.ts";

/** A glass box of water as the heat balance sees it. */
export interface HeatTank {
  /** Outside, left to right, m. */
  readonly length: number;
  /** Outside, front to back, m. */
  readonly width: number;
  /** Outside, m. */
  readonly height: number;
  /** Thickness of the upright panes, m. */
  readonly glass: number;
  /** Thickness of the bottom pane, m. */
  readonly base: number;
  /** Water above the bottom pane, m. */
  readonly waterDepth: number;
  readonly cover: "open" | "lid";
  /** Share of the surface that a lid leaves open (0-1): cut-outs, gaps. Default 0, a well-fitting lid. */
  readonly gap?: number;
  /** Speed of the air over the surface, m/s (0-5): a fan. Default 0, a still room. */
  readonly airSpeed?: number;
  /** Evaporation against the formula's, from a measured top-up; 0.5-2, default 1. */
  readonly evaporationFactor?: number;
  /** Air pressure, Pa; default 101325. */
  readonly pressure?: number;
}

/** Areas and lengths of a tank's wetted inside, by which all losses are reckoned. */
export interface WettedShape {
  /** Upright glass below the water line, m². */
  readonly paneArea: number;
  /** Floor, and water surface too, m². */
  readonly planArea: number;
  /** Area over perimeter of the surface, m. */
  readonly surfaceLength: number;
  /** Water if nothing else is in the tank, m³. */
  readonly volume: number;
}

/**
 * Wetted inside areas of a tank.
 * @throws RangeError when the sizes cannot belong to one tank.
 */
export function wettedShape(tank: HeatTank): WettedShape {
  const length = tank.length - 2 * tank.glass;
  const width = tank.width - 2 * tank.glass;
  if (!(length > 0 && width > 0)) throw new RangeError("the panes leave no room inside");
  if (!(tank.waterDepth > 0)) throw new RangeError("the water depth must be above 0");
  // A hair of slack: depth is often itself height less base less freeboard.
  if (tank.waterDepth > tank.height - tank.base + 1e-9) {
    throw new RangeError("the water depth is more than the height inside the tank");
  }
  const planArea = length * width;
  const perimeter = 2 * (length + width);
  return {
    paneArea: perimeter * tank.waterDepth,
    planArea,
    surfaceLength: planArea / perimeter,
    volume: planArea * tank.waterDepth,
  };
}

/** The settings of a tank with every default filled in and its range kept. */
export interface SurfaceSettings {
  /** Share of the surface that lies open: 1 without a lid. */
  readonly bare: number;
  readonly airSpeed: number;
  readonly evaporationFactor: number;
  readonly pressure: number;
}

/** @throws RangeError for an air speed, gap, factor or pressure outside what the balance is made for. */
export function surfaceSettings(tank: HeatTank): SurfaceSettings {
  const airSpeed = tank.airSpeed ?? 0;
  const evaporationFactor = tank.evaporationFactor ?? 1;
  const gap = tank.gap ?? 0;
  const pressure = tank.pressure ?? standardPressure;
  if (!(airSpeed >= 0 && airSpeed <= 5)) throw new RangeError("the air speed must be 0 to 5 m/s");
  if (!(gap >= 0 && gap <= 1)) throw new RangeError("the share that a lid leaves open must be 0 to 1");
  if (!(evaporationFactor >= 0.5 && evaporationFactor <= 2)) {
    throw new RangeError("the evaporation factor must be 0.5 to 2");
  }
  if (!(pressure >= 50_000 && pressure <= 110_000)) throw new RangeError("the air pressure must be 50000 to 110000 Pa");
  return { bare: tank.cover === "lid" ? gap : 1, airSpeed, evaporationFactor, pressure };
}
