/** Plain solids of a tank as triangles, seen from outside counter-clockwise; m, in the tank's own axes. */
import type { ScapeLayer, ScapeTank } from "../drawing/index.ts";
import {
  boundsOf,
  clipToRectangle,
  fieldHeight,
  type HeightField,
  outlineContains,
  type Point2,
} from "../geometry/index.ts";
import type { Mesh } from "../solids/index.ts";
import type { Vector } from "./plants/vector.ts";

export class Faces {
  readonly #positions: number[] = [];
  readonly #triangles: number[] = [];

  /** A flat face by its corners, convex. */
  face(...at: readonly Vector[]): this {
    const first = this.#positions.length / 3;
    for (const corner of at) this.#positions.push(...corner);
    for (let k = 2; k < at.length; k++) this.#triangles.push(first, first + k - 1, first + k);
    return this;
  }

  /** A box by two opposite corners. */
  box([x0, y0, z0]: Vector, [x1, y1, z1]: Vector): this {
    return this.face([x0, y0, z0], [x0, y1, z0], [x1, y1, z0], [x1, y0, z0])
      .face([x0, y0, z1], [x1, y0, z1], [x1, y1, z1], [x0, y1, z1])
      .face([x0, y0, z0], [x1, y0, z0], [x1, y0, z1], [x0, y0, z1])
      .face([x1, y1, z0], [x0, y1, z0], [x0, y1, z1], [x1, y1, z1])
      .face([x0, y1, z0], [x0, y0, z0], [x0, y0, z1], [x0, y1, z1])
      .face([x1, y0, z0], [x1, y1, z0], [x1, y1, z1], [x1, y0, z1]);
  }

  get mesh(): Mesh {
    return { positions: Float64Array.from(this.#positions), triangles: Uint32Array.from(this.#triangles) };
  }
}

/** The five panes. */
export function glassMesh({ length, width, height, glass, base }: ScapeTank): Mesh {
  const [l, r, f, b] = [-glass, length + glass, -glass, width + glass];
  return new Faces()
    .box([l, f, -base], [r, b, 0])
    .box([l, f, 0], [r, 0, height])
    .box([l, width, 0], [r, b, height])
    .box([l, 0, 0], [0, width, height])
    .box([length, 0, 0], [r, width, height]).mesh;
}

/** Heights of two surfaces, the upper never under the lower. */
interface Between {
  readonly low: (x: number, y: number) => number;
  readonly high: (x: number, y: number) => number;
}

/** Cells along the sides of the floor, as fine as the finest of the fields and no coarser than these. Design values. */
function gridOf(...fields: readonly HeightField[]): { readonly columns: number; readonly rows: number } {
  return {
    columns: Math.max(24, ...fields.map((f) => f.columns - 1)),
    rows: Math.max(12, ...fields.map((f) => f.rows - 1)),
  };
}

/** Everything between two surfaces over the whole floor, from pane to pane. @param inset kept off the panes, m */
function slab(
  { length, width }: Pick<ScapeTank, "length" | "width">,
  { low, high }: Between,
  columns: number,
  rows: number,
  inset: number,
): Mesh {
  const positions: number[] = [];
  const triangles: number[] = [];
  const across = (i: number): number => inset + ((length - 2 * inset) * i) / columns;
  const deep = (j: number): number => inset + ((width - 2 * inset) * j) / rows;
  const stride = columns + 1;
  for (const height of [low, high])
    for (let j = 0; j <= rows; j++)
      for (let i = 0; i <= columns; i++) positions.push(across(i), deep(j), height(across(i), deep(j)));
  const lid = stride * (rows + 1);
  for (let j = 0; j < rows; j++)
    for (let i = 0; i < columns; i++) {
      const a = j * stride + i;
      const [b, c, d] = [a + 1, a + stride + 1, a + stride];
      triangles.push(a, c, b, a, d, c, lid + a, lid + b, lid + c, lid + a, lid + c, lid + d);
    }
  const rim = [
    ...Array.from({ length: columns }, (_, i) => i),
    ...Array.from({ length: rows }, (_, j) => columns + j * stride),
    ...Array.from({ length: columns }, (_, i) => rows * stride + columns - i),
    ...Array.from({ length: rows }, (_, j) => (rows - j) * stride),
  ];
  rim.forEach((a, k) => {
    const b = rim[(k + 1) % rim.length]!;
    triangles.push(a, b, lid + b, a, lid + b, lid + a);
  });
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}

/** The water over the bed, kept a hair off the panes so that the two can be told apart. */
export function waterMesh({ length, width, waterLine }: ScapeTank, ground: HeightField): Mesh {
  const low = (x: number, y: number): number => Math.min(waterLine, fieldHeight(ground, x, y));
  const { columns, rows } = gridOf(ground);
  return slab({ length, width }, { low, high: () => waterLine }, columns, rows, 0.0003);
}

/** Side of the cells in which an area is laid, m, and how often one at its edge is halved. Design values. */
const cell = 0.01;
const halvings = 3;

/** One layer of the bed, closed, between those before it and its own top. @param below null = the bare floor */
export function layerMesh(layer: ScapeLayer, below: HeightField | null): Mesh {
  const { top, within } = layer;
  const low = (x: number, y: number): number => (below ? fieldHeight(below, x, y) : 0);
  const high = (x: number, y: number): number => Math.max(low(x, y), fieldHeight(top, x, y));
  const grid = below ? gridOf(below, top) : gridOf(top);
  if (!within) return slab(top, { low, high }, grid.columns, grid.rows, 0);
  return plot(top, within, { low, high });
}

/** Everything between two surfaces over an area of the floor. */
function plot({ length, width }: HeightField, outline: readonly Point2[], { low, high }: Between): Mesh {
  const faces = new Faces();
  const { left, right, front, back } = boundsOf(outline);
  const [columns, rows] = [length, width].map((side) => Math.max(1, Math.round(side / cell))) as [number, number];
  const lay = (area: readonly Point2[]): void => {
    faces
      .face(...area.map(([x, y]): Vector => [x, y, high(x, y)]))
      .face(...area.map(([x, y]): Vector => [x, y, low(x, y)]).reverse());
  };
  const fill = (x0: number, y0: number, x1: number, y1: number, halved: number): void => {
    const inside = clipToRectangle(outline, { left: x0, right: x1, front: y0, back: y1 });
    if (inside.length < 3) return;
    const corners: readonly Point2[] = [
      [x0, y0],
      [x1, y0],
      [x1, y1],
      [x0, y1],
    ];
    const edges = outline.some((p) => p[0] > x0 && p[0] < x1 && p[1] > y0 && p[1] < y1);
    if (!edges && corners.every((p) => outlineContains(outline, p))) lay(corners);
    else if (isConvex(inside)) lay(inside);
    else if (halved < halvings) {
      const [xm, ym] = [(x0 + x1) / 2, (y0 + y1) / 2];
      fill(x0, y0, xm, ym, halved + 1);
      fill(xm, y0, x1, ym, halved + 1);
      fill(x0, ym, xm, y1, halved + 1);
      fill(xm, ym, x1, y1, halved + 1);
    } else lay(inside);
  };
  for (let j = 0; j < rows; j++) {
    const [y0, y1] = [(width * j) / rows, (width * (j + 1)) / rows];
    if (y1 < front || y0 > back) continue;
    for (let i = 0; i < columns; i++) {
      const [x0, x1] = [(length * i) / columns, (length * (i + 1)) / columns];
      if (x1 >= left && x0 <= right) fill(x0, y0, x1, y1, 0);
    }
  }
  const ring = isAround(outline) ? outline : [...outline].reverse();
  ring.forEach(([x0, y0], k) => {
    const [x1, y1] = ring[(k + 1) % ring.length]!;
    const parts = Math.max(1, Math.ceil(Math.hypot(x1 - x0, y1 - y0) / cell));
    for (let p = 0; p < parts; p++) {
      const [s, t] = [p / parts, (p + 1) / parts];
      const [a, b]: [Point2, Point2] = [
        [x0 + (x1 - x0) * s, y0 + (y1 - y0) * s],
        [x0 + (x1 - x0) * t, y0 + (y1 - y0) * t],
      ];
      faces.face([...a, low(...a)], [...b, low(...b)], [...b, high(...b)], [...a, high(...a)]);
    }
  });
  return faces.mesh;
}

const turnAt = (a: Point2, b: Point2, c: Point2): number =>
  (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]);

/** Whether an outline goes round counter-clockwise. */
function isAround(outline: readonly Point2[]): boolean {
  return (
    outline.reduce((sum, [x, y], k) => {
      const [u, v] = outline[(k + 1) % outline.length]!;
      return sum + x * v - u * y;
    }, 0) > 0
  );
}

function isConvex(outline: readonly Point2[]): boolean {
  const turns = outline.map((p, k) =>
    turnAt(p, outline[(k + 1) % outline.length]!, outline[(k + 2) % outline.length]!),
  );
  return turns.every((t) => t > -1e-12) || turns.every((t) => t < 1e-12);
}
