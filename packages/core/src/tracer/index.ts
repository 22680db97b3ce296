export type { Budget } from "./budget.ts";
export type { TraceOptions } from "./options.ts";
export { type RectangleLamp, rectangleLamp } from "./rectangle.ts";
export { type LampField, type Noise, type TraceResult, type WeighedField, weigh } from "./result.ts";
export type {
  Band,
  Beam,
  Box,
  CellGrid,
  Emitter,
  IntensityTable,
  Lamp,
  Leaves,
  Lobe,
  Material,
  Scene,
  Side,
  Solid,
  Wall,
  Walls,
  WaterGrid,
} from "./scene.ts";
export { createTrace, type Trace, type TraceProgress, trace } from "./trace.ts";
