import type { ScapeLamp } from "../drawing/index.ts";
import type { Vector } from "./plants/vector.ts";

/** A lamp's own axes: along it, across it and out of its lower face. */
export function lampAxes({
  turn,
  tilt,
}: Pick<ScapeLamp, "turn" | "tilt">): readonly [along: Vector, across: Vector, down: Vector] {
  const [a, b] = [(turn * Math.PI) / 180, (tilt * Math.PI) / 180];
  const along: Vector = [Math.cos(a), Math.sin(a), 0];
  const level: Vector = [-Math.sin(a), Math.cos(a), 0];
  // tilted about its long axis so that its face turns to the back
  const across: Vector = [level[0] * Math.cos(b), level[1] * Math.cos(b), Math.sin(b)];
  const down: Vector = [level[0] * Math.sin(b), level[1] * Math.sin(b), -Math.cos(b)];
  return [along, across, down];
}

/** Thickness of the lamps' boxes, m. Design values. */
export const lampThickness: Readonly<Record<ScapeLamp["kind"], number>> = {
  bar: 0.012,
  panel: 0.02,
  tube: 0.026,
  pendant: 0.12,
};
