import { quantity as number, output, RelationError } from "../relation/index.ts";
import { type HeatTank, wettedShape } from "./tank.ts";

export { number, output };

export const airPressure = number("air pressure", "Pa", 50_000, 110_000, 101_325);
export const humidity = number("relative humidity of the room", "%", 1, 100, 50);
export const roomTemperature = number("room temperature", "°C", 0, 45);
export const waterTemperature = number("water temperature", "°C", 1, 50);

/** Inputs that describe the tank to the heat balance. */
export const tankInputs = {
  length: number("outside length", "cm", 10, 600),
  width: number("outside width, front to back", "cm", 10, 300),
  height: number("outside height", "cm", 10, 200),
  glass: number("glass thickness", "mm", 2, 40),
  water_depth: number("water above the bottom pane", "cm", 3, 200),
  cover: { kind: "choice", label: "cover", options: ["open", "lid"], default: "open" },
  air_speed: number("air speed over the surface", "m/s", 0, 5, 0),
  evaporation_factor: number("evaporation against the formula's, from a measured top-up", "1", 0.5, 2, 1),
  pressure: airPressure,
} as const;

interface TankValues {
  readonly length: number;
  readonly width: number;
  readonly height: number;
  readonly glass: number;
  readonly water_depth: number;
  readonly cover: "open" | "lid";
  readonly air_speed: number;
  readonly evaporation_factor: number;
  readonly pressure: number;
}

/** The tank that a relation's inputs describe (bottom pane as thick as the others); `id` names the relation in errors. */
export function tankOf(id: string, values: TankValues): HeatTank {
  const tank: HeatTank = {
    length: values.length / 100,
    width: values.width / 100,
    height: values.height / 100,
    glass: values.glass / 1000,
    base: values.glass / 1000,
    waterDepth: values.water_depth / 100,
    cover: values.cover,
    airSpeed: values.air_speed,
    evaporationFactor: values.evaporation_factor,
    pressure: values.pressure,
  };
  try {
    wettedShape(tank);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    // The inputs' own ranges leave only the depth to clash with the other sizes.
    throw new RelationError(id, [{ input: "water_depth", message: error.message }]);
  }
  return tank;
}

export const secondsPerHour = 3600;
export const secondsPerDay = 86_400;
