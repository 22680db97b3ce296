import { checkGrid, type FieldGrid } from "../geometry/index.ts";
import { meshBounds } from "./measure.ts";
import type { Mesh } from "./mesh.ts";

/** Upright lines on an even grid, m. */
export interface Rays {
  readonly left: number;
  readonly front: number;
  readonly stepX: number;
  readonly stepY: number;
  readonly columns: number;
  readonly rows: number;
}

/** Called for a crossing: the ray's position row by row, the height, and 1 where a ray from below goes in, -1 where out. */
type Visit = (ray: number, z: number, way: 1 | -1) => void;

/**
 * Tells of every crossing of rays with triangles. A ray through an edge counts as a hair to one side of it, the same for
 * both its triangles, so that rays through a closed mesh go in as often as they come out.
 */
export function castRays({ positions, triangles }: Mesh, rays: Rays, visit: Visit): void {
  const { left, front, stepX, stepY, columns, rows } = rays;
  for (let t = 0; t < triangles.length; t += 3) {
    const [ka, kb, kc] = [triangles[t]!, triangles[t + 1]!, triangles[t + 2]!];
    const [a, b, c] = [3 * ka, 3 * kb, 3 * kc];
    const [ax, bx, cx] = [positions[a]!, positions[b]!, positions[c]!];
    const [ay, by, cy] = [positions[a + 1]!, positions[b + 1]!, positions[c + 1]!];
    const twice = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay);
    if (twice === 0) continue;
    const way = twice > 0 ? -1 : 1;
    const first = Math.max(0, Math.ceil((Math.min(ax, bx, cx) - left) / stepX));
    const last = Math.min(columns - 1, Math.floor((Math.max(ax, bx, cx) - left) / stepX));
    const firstRow = Math.max(0, Math.ceil((Math.min(ay, by, cy) - front) / stepY));
    const lastRow = Math.min(rows - 1, Math.floor((Math.max(ay, by, cy) - front) / stepY));
    for (let j = firstRow; j <= lastRow; j++) {
      const y = front + j * stepY;
      for (let i = first; i <= last; i++) {
        const x = left + i * stepX;
        const overA = turn(positions, kb, kc, x, y);
        const overB = turn(positions, kc, ka, x, y);
        const overC = turn(positions, ka, kb, x, y);
        const lies = isLeft(overA, kb, kc);
        if (lies !== (way === -1) || isLeft(overB, kc, ka) !== lies || isLeft(overC, ka, kb) !== lies) continue;
        const z = (overA * positions[a + 2]! + overB * positions[b + 2]! + overC * positions[c + 2]!) / twice;
        visit(j * columns + i, z, way);
      }
    }
  }
}

/** Twice the area of an edge and a place, worked from the lower corner on so that both triangles agree to the bit. */
function turn(positions: Float64Array, from: number, to: number, x: number, y: number): number {
  const [a, b] = from < to ? [3 * from, 3 * to] : [3 * to, 3 * from];
  const ax = positions[a]!;
  const ay = positions[a + 1]!;
  const twice = (positions[b]! - ax) * (y - ay) - (x - ax) * (positions[b + 1]! - ay);
  return from < to ? twice : -twice;
}

function isLeft(twice: number, from: number, to: number): boolean {
  return from < to ? twice >= 0 : twice > 0;
}

/** Highest and lowest place of a mesh along upright lines. */
export interface HeightMaps {
  /** m; -Infinity where there is nothing. */
  readonly top: Float64Array;
  /** m; Infinity where there is nothing. */
  readonly bottom: Float64Array;
}

/** Top and bottom of a mesh at the nodes of a grid over the floor, row by row from the front. */
export function heightMaps(mesh: Mesh, grid: FieldGrid): HeightMaps {
  checkGrid(grid);
  const { columns, rows } = grid;
  return mapsAlong(mesh, {
    left: 0,
    front: 0,
    stepX: grid.length / (columns - 1),
    stepY: grid.width / (rows - 1),
    columns,
    rows,
  });
}

export function mapsAlong(mesh: Mesh, rays: Rays): HeightMaps {
  const top = new Float64Array(rays.columns * rays.rows).fill(Number.NEGATIVE_INFINITY);
  const bottom = new Float64Array(rays.columns * rays.rows).fill(Number.POSITIVE_INFINITY);
  castRays(mesh, rays, (ray, z) => {
    top[ray] = Math.max(top[ray]!, z);
    bottom[ray] = Math.min(bottom[ray]!, z);
  });
  return { top, bottom };
}

/** Rays along each side of the room that is searched. Design value: a stone's overlap comes out within about 2 %. */
const overlapRays = 96;

/**
 * Volume that two closed pieces share, m³: an estimate from columns over the part of the floor that both cover, 0 when
 * no column meets both.
 */
export function overlapVolume(one: Mesh, other: Mesh, raysPerSide = overlapRays): number {
  const [a, b] = [meshBounds(one), meshBounds(other)];
  const low = [0, 1, 2].map((axis) => Math.max(a.min[axis]!, b.min[axis]!)) as [number, number, number];
  const high = [0, 1, 2].map((axis) => Math.min(a.max[axis]!, b.max[axis]!)) as [number, number, number];
  if (low.some((value, axis) => value >= high[axis]!)) return 0;
  return sharedVolume([one, other], { left: low[0], front: low[1], right: high[0], back: high[1] }, raysPerSide, 2);
}

/** Volume that any of several closed pieces takes, m³: overlaps once; an estimate from columns. */
export function unionVolume(meshes: readonly Mesh[], raysPerSide = 256): number {
  const bounds = meshes.map(meshBounds);
  if (bounds.length === 0) return 0;
  const box = {
    left: Math.min(...bounds.map((b) => b.min[0])),
    front: Math.min(...bounds.map((b) => b.min[1])),
    right: Math.max(...bounds.map((b) => b.max[0])),
    back: Math.max(...bounds.map((b) => b.max[1])),
  };
  return sharedVolume(meshes, box, raysPerSide, 1);
}

/** Volume inside `least` or more of the meshes, from columns through the middles of even cells. */
function sharedVolume(
  meshes: readonly Mesh[],
  box: { readonly left: number; readonly front: number; readonly right: number; readonly back: number },
  raysPerSide: number,
  least: number,
): number {
  if (!(Number.isInteger(raysPerSide) && raysPerSide >= 1 && raysPerSide <= 2048))
    throw new RangeError(`${raysPerSide} rays a side: 1 to 2048 are allowed`);
  const stepX = (box.right - box.left) / raysPerSide;
  const stepY = (box.back - box.front) / raysPerSide;
  const rays = {
    left: box.left + stepX / 2,
    front: box.front + stepY / 2,
    stepX,
    stepY,
    columns: raysPerSide,
    rows: raysPerSide,
  };
  const crossings: { z: number; way: number; mesh: number }[][] = [];
  meshes.forEach((mesh, k) => {
    castRays(mesh, rays, (ray, z, way) => {
      const list = crossings[ray];
      if (list) list.push({ z, way, mesh: k });
      else crossings[ray] = [{ z, way, mesh: k }];
    });
  });
  const depth = new Int32Array(meshes.length);
  let height = 0;
  for (const list of crossings) {
    if (!list) continue;
    list.sort((a, b) => a.z - b.z);
    depth.fill(0);
    let inside = 0;
    list.forEach(({ z, way, mesh }, k) => {
      if (inside >= least) height += z - list[k - 1]!.z;
      const before = depth[mesh]!;
      depth[mesh] = before + way;
      if (before <= 0 && before + way > 0) inside += 1;
      else if (before > 0 && before + way <= 0) inside -= 1;
    });
  }
  return height * stepX * stepY;
}
