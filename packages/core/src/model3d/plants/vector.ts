/** A place or a direction, m: x to the right, y to the back, z up. */
export type Vector = readonly [x: number, y: number, z: number];

export const add = (a: Vector, b: Vector): Vector => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const minus = (a: Vector, b: Vector): Vector => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const times = (a: Vector, k: number): Vector => [a[0] * k, a[1] * k, a[2] * k];
export const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/** The direction with length 1; of nothing, upwards. */
export function unit(a: Vector): Vector {
  const length = Math.hypot(a[0], a[1], a[2]);
  return length > 1e-12 ? times(a, 1 / length) : [0, 0, 1];
}

/** Along a heading (rad, counter-clockwise from x) and a rise over the level (rad). */
export const towards = (heading: number, rise: number): Vector => [
  Math.cos(heading) * Math.cos(rise),
  Math.sin(heading) * Math.cos(rise),
  Math.sin(rise),
];
