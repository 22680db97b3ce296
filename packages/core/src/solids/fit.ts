import { meshBounds } from "./measure.ts";
import type { Mesh } from "./mesh.ts";
import type { Point3 } from "./vector.ts";

/** Sizes of an upright box, m: left to right, front to back, and up. */
export interface BoxSize {
  readonly width: number;
  readonly breadth: number;
  readonly height: number;
}

/** A piece made by rule, upright: its middle over the origin, its foot at height 0. */
export interface MadePiece {
  readonly mesh: Mesh;
  /** Unit vector: square to the beds of a stone, along the grain of wood. */
  readonly grain: Point3;
}

/** A stone in its own proportions, before it is fitted to its box. */
export interface RawForm {
  readonly mesh: Mesh;
  /** Square to its beds. */
  readonly across: Point3;
}

/** @throws RangeError for a size that is not above 0, up to 10 m. */
export function checkSize(size: BoxSize): void {
  for (const name of ["width", "breadth", "height"] as const) {
    if (!(size[name] > 0 && size[name] <= 10))
      throw new RangeError(`${name} ${size[name]} m: it must be above 0, up to 10 m`);
  }
}

/** Stretches a mesh along the axes until it fills a box exactly, and tells the stretch along each. */
export function fitToBox(mesh: Mesh, size: BoxSize): { readonly mesh: Mesh; readonly stretch: Point3 } {
  const { min, max } = meshBounds(mesh);
  const extent = [size.width, size.breadth, size.height];
  const offset = [-size.width / 2, -size.breadth / 2, 0];
  const positions = mesh.positions.map((value, k) => {
    const axis = k % 3;
    return ((value - min[axis]!) / (max[axis]! - min[axis]!)) * extent[axis]! + offset[axis]!;
  });
  const stretch = extent.map((e, axis) => e / (max[axis]! - min[axis]!)) as [number, number, number];
  return { mesh: { positions, triangles: mesh.triangles }, stretch };
}
