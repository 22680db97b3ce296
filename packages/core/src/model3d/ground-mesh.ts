import type { Point2, ScapeLayer, ScapeScene } from "../drawing/index.ts";
import { boundsOf, fieldHeight, type HeightField, outlineContains } from "../geometry/index.ts";
import type { FloorGrid } from "./columns.ts";

const materials = ["soil", "sand", "gravel"] as const;

/** The bed: its surface, and its section behind the four panes. */
interface GroundMesh {
  readonly positions: Float32Array;
  /** Of each corner: 0 surface, 1 left or right pane, 2 front or back pane; then the material behind a pane. */
  readonly sides: Float32Array;
  readonly triangles: Uint32Array;
  /** Ends of the lines where layers meet behind the panes and where the surface meets them, m. */
  readonly lines: Float32Array;
}

/** Longest part of a line laid on the ground, m: short enough to follow it. */
const laidStep = 0.006;

/** Layers thinner than this are not drawn, m. */
const thinnest = 0.0004;

export function groundMesh({ tank, ground, layers }: Pick<ScapeScene, "tank" | "ground" | "layers">): GroundMesh {
  const { columns, rows } = ground;
  const positions: number[] = [];
  const sides: number[] = [];
  const triangles: number[] = [];
  const lines: number[] = [];
  const corner = (x: number, y: number, z: number, side: number, material: number): number => {
    positions.push(x, y, z);
    sides.push(side, material);
    return positions.length / 3 - 1;
  };
  for (let j = 0; j < rows; j++)
    for (let i = 0; i < columns; i++)
      corner((tank.length * i) / (columns - 1), (tank.width * j) / (rows - 1), ground.heights[j * columns + i]!, 0, 0);
  for (let j = 0; j + 1 < rows; j++)
    for (let i = 0; i + 1 < columns; i++) {
      const a = j * columns + i;
      triangles.push(a, a + 1, a + columns + 1, a, a + columns + 1, a + columns);
    }
  const along = (count: number, to: (share: number) => Point2): Point2[] =>
    Array.from({ length: count }, (_, k) => to(k / (count - 1)));
  const panes: readonly (readonly [side: number, path: readonly Point2[]])[] = [
    [2, along(columns, (s) => [s * tank.length, 0])],
    [1, along(rows, (s) => [tank.length, s * tank.width])],
    [2, along(columns, (s) => [(1 - s) * tank.length, tank.width])],
    [1, along(rows, (s) => [0, (1 - s) * tank.width])],
  ];
  for (const [side, path] of panes) {
    let below = path.map(() => 0);
    layers.forEach((layer, order) => {
      const last = order === layers.length - 1;
      // the top of the whole bed is where the last layer ends
      const top = path.map(([x, y], k) => Math.max(below[k]!, fieldHeight(last ? ground : layer.top, x, y)));
      if (top.every((z, k) => z - below[k]! < thinnest)) return;
      band(side, path, below, top, materials.indexOf(layer.material));
      for (let k = 0; k + 1 < path.length; k++) {
        if (top[k]! - below[k]! < thinnest && top[k + 1]! - below[k + 1]! < thinnest) continue;
        lines.push(path[k]![0], path[k]![1], top[k]!, path[k + 1]![0], path[k + 1]![1], top[k + 1]!);
      }
      below = top;
    });
  }
  return {
    positions: Float32Array.from(positions),
    sides: Float32Array.from(sides),
    triangles: Uint32Array.from(triangles),
    lines: Float32Array.from(lines),
  };

  function band(
    side: number,
    path: readonly Point2[],
    low: readonly number[],
    high: readonly number[],
    material: number,
  ): void {
    path.forEach(([x, y], k) => {
      const a = corner(x, y, low[k]!, side, material);
      corner(x, y, high[k]!, side, material);
      if (k > 0) triangles.push(a - 2, a, a + 1, a - 2, a + 1, a - 1);
    });
  }
}

/** The uppermost material of each cell of the floor, as its position in `materials`. */
export function topMaterials(layers: readonly ScapeLayer[], grid: FloorGrid): Uint8Array {
  const { columns, rows, length, width } = grid;
  const out = new Uint8Array(columns * rows);
  layers.forEach((layer, order) => {
    const below = order === 0 ? null : layers[order - 1]!.top;
    const bounds = layer.within ? boundsOf(layer.within) : null;
    const material = materials.indexOf(layer.material);
    for (let j = 0; j < rows; j++) {
      const y = ((j + 0.5) * width) / rows;
      if (bounds && (y < bounds.front || y > bounds.back)) continue;
      for (let i = 0; i < columns; i++) {
        const x = ((i + 0.5) * length) / columns;
        if (bounds && (x < bounds.left || x > bounds.right)) continue;
        if (layer.within && !outlineContains(layer.within, [x, y])) continue;
        if (!layer.within && below && fieldHeight(layer.top, x, y) - fieldHeight(below, x, y) < thinnest) continue;
        out[j * columns + i] = material;
      }
    }
  });
  return out;
}

/** A line seen from above, laid on the ground as far as that lies within the panes: ends of its parts, m. */
export function laidLine(
  path: readonly Point2[],
  closed: boolean,
  { length, width }: Pick<HeightField, "length" | "width">,
  height: (x: number, y: number) => number,
): Float32Array {
  const out: number[] = [];
  const inside = ([x, y]: Point2): boolean => x >= 0 && x <= length && y >= 0 && y <= width;
  const count = closed ? path.length : path.length - 1;
  for (let k = 0; k < count; k++) {
    const [from, to] = [path[k]!, path[(k + 1) % path.length]!];
    const parts = Math.max(1, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / laidStep));
    const at = (share: number): Point2 => [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share];
    for (let p = 0; p < parts; p++) {
      const [a, b] = [at(p / parts), at((p + 1) / parts)];
      if (inside(a) && inside(b)) out.push(...a, height(...a), ...b, height(...b));
    }
  }
  return Float32Array.from(out);
}
