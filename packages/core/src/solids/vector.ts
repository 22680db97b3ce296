/** A place or a direction; a tank's own: x from the left pane, y from the front pane, z up from the inside floor. */
export type Point3 = readonly [x: number, y: number, z: number];

export function minus(a: Point3, b: Point3): Point3 {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
}

export function plus(a: Point3, b: Point3, times = 1): Point3 {
  return [a[0] + b[0] * times, a[1] + b[1] * times, a[2] + b[2] * times];
}

export function dot(a: Point3, b: Point3): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

export function cross(a: Point3, b: Point3): Point3 {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

/** The same direction with length 1; straight up for nothing. */
export function unit(a: Point3): Point3 {
  const length = Math.hypot(a[0], a[1], a[2]);
  return length > 0 ? [a[0] / length, a[1] / length, a[2] / length] : [0, 0, 1];
}
