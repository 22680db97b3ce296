import { isolines, outlineArea, type Point2 } from "../geometry/index.ts";
import { mapsAlong } from "./columns.ts";
import { meshBounds } from "./measure.ts";
import type { Mesh } from "./mesh.ts";
import { dot, type Point3 } from "./vector.ts";

/** What of the floor a piece covers, seen from above. */
export interface Footprint {
  /** m²; parts under overhangs included. */
  readonly area: number;
  /** Outlines of its parts, counter-clockwise, and of holes through it, clockwise, m. */
  readonly outlines: readonly (readonly Point2[])[];
}

/** Rays along each side of a cell whose cover is judged. Design value. */
const raysPerCell = 4;

/**
 * The floor that a closed mesh covers, from upright rays: `cells` along its longer side, each judged by 4 x 4 rays; the
 * border comes out within about a quarter of a cell.
 */
export function footprint(mesh: Mesh, cells = 64): Footprint {
  if (!(Number.isInteger(cells) && cells >= 4 && cells <= 120))
    throw new RangeError(`${cells} cells a side: 4 to 120 are allowed`);
  const { min, max } = meshBounds(mesh);
  const step = Math.max(max[0] - min[0], max[1] - min[1]) / cells;
  if (!(step > 0)) return { area: 0, outlines: [] };
  // One empty cell all round, so that every outline closes.
  const columns = Math.ceil((max[0] - min[0]) / step) + 2;
  const rows = Math.ceil((max[1] - min[1]) / step) + 2;
  const [left, front] = [min[0] - step, min[1] - step];
  const fine = step / raysPerCell;
  const across = columns * raysPerCell;
  const { top } = mapsAlong(mesh, {
    left: left + fine / 2,
    front: front + fine / 2,
    stepX: fine,
    stepY: fine,
    columns: across,
    rows: rows * raysPerCell,
  });
  const heights = new Float64Array(columns * rows);
  let hit = 0;
  top.forEach((z, ray) => {
    if (z === Number.NEGATIVE_INFINITY) return;
    hit += 1;
    const i = Math.floor((ray % across) / raysPerCell);
    const j = Math.floor(ray / across / raysPerCell);
    heights[j * columns + i]! += 1 / raysPerCell ** 2;
  });
  const field = { length: (columns - 1) * step, width: (rows - 1) * step, columns, rows, heights };
  const outlines = isolines(field, [0.5])
    .map(({ points }) => points.map(([x, y]): Point2 => [x + left + step / 2, y + front + step / 2]))
    .sort((a, b) => outlineArea(b) - outlineArea(a));
  return { area: hit * fine * fine, outlines };
}

/**
 * The edges at which a closed mesh turns away from a viewer far off in a direction: its silhouette and the folds before
 * it, as pairs of places, m.
 */
export function silhouetteEdges(mesh: Mesh, towardsViewer: Point3): readonly (readonly [Point3, Point3])[] {
  const { positions, triangles } = mesh;
  const corners = positions.length / 3;
  const place = (k: number): Point3 => [positions[3 * k]!, positions[3 * k + 1]!, positions[3 * k + 2]!];
  const faces = new Map<number, boolean>();
  const edges: (readonly [Point3, Point3])[] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [place(triangles[t]!), place(triangles[t + 1]!), place(triangles[t + 2]!)];
    const normal: Point3 = [
      (b[1] - a[1]) * (c[2] - a[2]) - (b[2] - a[2]) * (c[1] - a[1]),
      (b[2] - a[2]) * (c[0] - a[0]) - (b[0] - a[0]) * (c[2] - a[2]),
      (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]),
    ];
    const seen = dot(normal, towardsViewer) > 0;
    for (let k = 0; k < 3; k++) {
      const [from, to] = [triangles[t + k]!, triangles[t + ((k + 1) % 3)]!];
      const key = Math.min(from, to) * corners + Math.max(from, to);
      const other = faces.get(key);
      if (other === undefined) faces.set(key, seen);
      else if (other !== seen) edges.push([place(from), place(to)]);
    }
  }
  return edges;
}
