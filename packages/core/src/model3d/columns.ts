import type { ScapeTank } from "../drawing/index.ts";
import { fieldHeight, type HeightField } from "../geometry/index.ts";
import type { Mesh } from "../solids/index.ts";

/** The inside floor in even cells, row by row from the front. */
export interface FloorGrid {
  /** m */
  readonly length: number;
  readonly width: number;
  readonly columns: number;
  readonly rows: number;
}

/** Cells along the longer side. Design value. */
const most = 192;

/** Room under a piece in which nothing is planted, m. Design value, as in the drawings. */
const crouch = 0.02;

/** Height over the ground up to which a piece throws a shade on it, m. Design value. */
const shadeReach = 0.07;

export function floorGrid({ length, width }: Pick<ScapeTank, "length" | "width">): FloorGrid {
  const side = Math.max(length, width) / most;
  return {
    length,
    width,
    columns: Math.max(2, Math.round(length / side)),
    rows: Math.max(2, Math.round(width / side)),
  };
}

/** Cells of the floor that a piece lies over, with its lowest and highest place there, m. */
export interface PieceCover {
  readonly cells: readonly number[];
  readonly low: readonly number[];
  readonly high: readonly number[];
}

/** @param shift what the mesh is moved by first, m. */
export function coverOf(
  { positions, triangles }: Mesh,
  shift: readonly [number, number, number],
  grid: FloorGrid,
): PieceCover {
  const { columns, rows, length, width } = grid;
  const [dx, dy] = [length / columns, width / rows];
  const found = new Map<number, [low: number, high: number]>();
  const meet = (i: number, j: number, z: number): void => {
    const cell = j * columns + i;
    const known = found.get(cell);
    if (!known) found.set(cell, [z, z]);
    else {
      if (z < known[0]) known[0] = z;
      if (z > known[1]) known[1] = z;
    }
  };
  for (let t = 0; t + 2 < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    const [ax, ay] = [positions[a]! + shift[0], positions[a + 1]! + shift[1]];
    const [bx, by] = [positions[b]! + shift[0], positions[b + 1]! + shift[1]];
    const [cx, cy] = [positions[c]! + shift[0], positions[c + 1]! + shift[1]];
    const twice = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
    if (!(Math.abs(twice) > 1e-14)) continue;
    const i0 = Math.max(0, Math.ceil(Math.min(ax, bx, cx) / dx - 0.5));
    const i1 = Math.min(columns - 1, Math.floor(Math.max(ax, bx, cx) / dx - 0.5));
    const j0 = Math.max(0, Math.ceil(Math.min(ay, by, cy) / dy - 0.5));
    const j1 = Math.min(rows - 1, Math.floor(Math.max(ay, by, cy) / dy - 0.5));
    for (let j = j0; j <= j1; j++) {
      for (let i = i0; i <= i1; i++) {
        const [x, y] = [(i + 0.5) * dx, (j + 0.5) * dy];
        const v = ((x - ax) * (cy - ay) - (y - ay) * (cx - ax)) / twice;
        const w = ((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / twice;
        if (v < 0 || w < 0 || v + w > 1) continue;
        const [za, zb, zc] = [positions[a + 2]!, positions[b + 2]!, positions[c + 2]!];
        meet(i, j, za + (zb - za) * v + (zc - za) * w + shift[2]);
      }
    }
  }
  return {
    cells: [...found.keys()],
    low: [...found.values()].map(([low]) => low),
    high: [...found.values()].map(([, high]) => high),
  };
}

/** What lies on the floor, cell by cell. */
export interface FloorCover {
  /** 1 where a piece leaves no room for a plant. */
  readonly taken: Uint8Array;
  /** Shade that the pieces throw on the ground next to them, 0 to 1. */
  readonly shade: Float32Array;
}

export function floorCover(covers: readonly PieceCover[], ground: HeightField, grid: FloorGrid): FloorCover {
  const { columns, rows, length, width } = grid;
  const taken = new Uint8Array(columns * rows);
  const shade = new Float32Array(columns * rows);
  for (const { cells, low, high } of covers) {
    cells.forEach((cell, k) => {
      const [x, y] = [
        ((cell % columns) + 0.5) * (length / columns),
        (Math.floor(cell / columns) + 0.5) * (width / rows),
      ];
      const floor = fieldHeight(ground, x, y);
      if (!(high[k]! > floor)) return;
      if (low[k]! < floor + crouch) taken[cell] = 1;
      shade[cell] = Math.max(shade[cell]!, 1 - Math.max(0, low[k]! - floor) / shadeReach);
    });
  }
  return { taken, shade: softened(shade, columns, rows) };
}

/** Cells over which a shade fades at its edge. Design value. */
const soft = 4;

function softened(values: Float32Array, columns: number, rows: number): Float32Array {
  const along = new Float32Array(values.length);
  const both = new Float32Array(values.length);
  slide(values, along, rows, columns, columns, 1);
  slide(along, both, columns, rows, 1, columns);
  return both;
}

/** Running means of `2 soft + 1` neighbours along lines of cells. */
function slide(from: Float32Array, to: Float32Array, lines: number, count: number, line: number, step: number): void {
  for (let k = 0; k < lines; k++) {
    const at = k * line;
    let sum = 0;
    for (let i = 0; i < Math.min(soft, count); i++) sum += from[at + i * step]!;
    for (let i = 0; i < count; i++) {
      if (i + soft < count) sum += from[at + (i + soft) * step]!;
      if (i - soft - 1 >= 0) sum -= from[at + (i - soft - 1) * step]!;
      to[at + i * step] = sum / (2 * soft + 1);
    }
  }
}

/** Whether a piece lies at a place, m. */
export function isTaken({ taken }: FloorCover, grid: FloorGrid, x: number, y: number): boolean {
  const i = Math.min(grid.columns - 1, Math.max(0, Math.floor((x / grid.length) * grid.columns)));
  const j = Math.min(grid.rows - 1, Math.max(0, Math.floor((y / grid.width) * grid.rows)));
  return taken[j * grid.columns + i] === 1;
}
