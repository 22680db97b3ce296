import type { Mesh } from "./mesh.ts";
import { type Point3, unit } from "./vector.ts";

/** How a piece is set: scaled, tipped, leant, turned and shifted, in this order, about the origin of its own mesh. */
export interface Placement {
  /** Along its own x, y and z, above 0; one number for all. */
  readonly scale?: number | Point3;
  /** Degrees about the x axis; above 0 its top goes to the back. */
  readonly tip?: number;
  /** Degrees about the y axis; above 0 its top goes to the right. */
  readonly lean?: number;
  /** Degrees about the vertical, counter-clockwise from above. */
  readonly turn?: number;
  /** m */
  readonly shift?: Point3;
}

/** The mesh where a placement sets it. @throws RangeError for a scale that is not above 0 or a figure that is not finite. */
export function placeMesh(mesh: Mesh, placement: Placement): Mesh {
  const [ax, ay, az, bx, by, bz, cx, cy, cz] = matrix(placement);
  const [sx, sy, sz] = placement.shift ?? [0, 0, 0];
  if (!Number.isFinite(sx + sy + sz)) throw new RangeError(`shift ${sx}, ${sy}, ${sz} m: all must be numbers`);
  const { positions } = mesh;
  const moved = new Float64Array(positions.length);
  for (let k = 0; k < positions.length; k += 3) {
    const [x, y, z] = [positions[k]!, positions[k + 1]!, positions[k + 2]!];
    moved[k] = ax * x + ay * y + az * z + sx;
    moved[k + 1] = bx * x + by * y + bz * z + sy;
    moved[k + 2] = cx * x + cy * y + cz * z + sz;
  }
  return { positions: moved, triangles: mesh.triangles };
}

/** A direction that runs with the material, such as the grain of wood, after a placement; length 1. */
export function placeDirection([x, y, z]: Point3, placement: Placement): Point3 {
  const [ax, ay, az, bx, by, bz, cx, cy, cz] = matrix(placement);
  return unit([ax * x + ay * y + az * z, bx * x + by * y + bz * z, cx * x + cy * y + cz * z]);
}

/** A direction square to planes in the material, such as that across the beds of a stone, after a placement; length 1. */
export function placeNormal([x, y, z]: Point3, placement: Placement): Point3 {
  const [sx, sy, sz] = scales(placement);
  return placeDirection([x / (sx * sx), y / (sy * sy), z / (sz * sz)], placement);
}

function scales({ scale = 1 }: Placement): Point3 {
  const each: Point3 = typeof scale === "number" ? [scale, scale, scale] : scale;
  if (!each.every((s) => s > 0 && Number.isFinite(s)))
    throw new RangeError(`scale ${each.join(", ")}: it must be above 0`);
  return each;
}

type Matrix = readonly [number, number, number, number, number, number, number, number, number];

function matrix(placement: Placement): Matrix {
  const { tip = 0, lean = 0, turn = 0 } = placement;
  for (const [name, angle] of [
    ["tip", tip],
    ["lean", lean],
    ["turn", turn],
  ] as const) {
    if (!Number.isFinite(angle)) throw new RangeError(`${name} ${angle} degrees: it must be a number`);
  }
  const [sx, sy, sz] = scales(placement);
  const [cx, nx] = turnOf(-tip);
  const [cy, ny] = turnOf(lean);
  const [cz, nz] = turnOf(turn);
  return [
    cz * cy * sx,
    (cz * ny * nx - nz * cx) * sy,
    (cz * ny * cx + nz * nx) * sz,
    nz * cy * sx,
    (nz * ny * nx + cz * cx) * sy,
    (nz * ny * cx - cz * nx) * sz,
    -ny * sx,
    cy * nx * sy,
    cy * cx * sz,
  ];
}

function turnOf(angle: number): readonly [cosine: number, sine: number] {
  const turn = (angle * Math.PI) / 180;
  return [Math.cos(turn), Math.sin(turn)];
}

/** Several meshes as one; where they overlap, volumes count twice (`unionVolume` counts them once). */
export function joinMeshes(meshes: readonly Mesh[]): Mesh {
  const positions = new Float64Array(meshes.reduce((sum, m) => sum + m.positions.length, 0));
  const triangles = new Uint32Array(meshes.reduce((sum, m) => sum + m.triangles.length, 0));
  let corner = 0;
  let triangle = 0;
  for (const mesh of meshes) {
    positions.set(mesh.positions, corner);
    for (let t = 0; t < mesh.triangles.length; t++) triangles[triangle + t] = mesh.triangles[t]! + corner / 3;
    corner += mesh.positions.length;
    triangle += mesh.triangles.length;
  }
  return { positions, triangles };
}
