/** Bark: short strokes that run along the limbs of a piece of wood, found from how its surface bends. */
import type { Mesh } from "../solids/index.ts";
import type { Point } from "./geometry.ts";
import type { Pen } from "./pen.ts";
import { between, type Random } from "./random.ts";
import type { View } from "./scape-view.ts";
import type { SolidFaces } from "./solid-faces.ts";
import { thinned } from "./solid-lines.ts";
import type { SolidRaster } from "./solid-raster.ts";

/** Along the limb at each corner of a mesh, as the upper half of x·xᵀ (six numbers): a line has no front end. */
type Lines = Float64Array;

const known = new WeakMap<Mesh, Lines>();

/**
 * The way in which the surface bends least, at each corner. From the change of the normals along the edges of a
 * triangle (Rusinkiewicz 2004, from memory), averaged over the triangles round the corner.
 */
function limbLines(mesh: Mesh): Lines {
  const before = known.get(mesh);
  if (before) return before;
  const { positions, triangles } = mesh;
  const corners = Math.floor(positions.length / 3);
  const normals = new Float64Array(corners * 3);
  for (let t = 0; t + 2 < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    const [ux, uy, uz] = [0, 1, 2].map((k) => positions[b + k]! - positions[a + k]!) as [number, number, number];
    const [vx, vy, vz] = [0, 1, 2].map((k) => positions[c + k]! - positions[a + k]!) as [number, number, number];
    const n = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    for (const at of [a, b, c]) for (let k = 0; k < 3; k++) normals[at + k]! += n[k]!;
  }
  for (let k = 0; k < normals.length; k += 3) {
    const length = Math.hypot(normals[k]!, normals[k + 1]!, normals[k + 2]!) || 1;
    for (let j = 0; j < 3; j++) normals[k + j]! /= length;
  }
  const lines = new Float64Array(corners * 6);
  for (let t = 0; t + 2 < triangles.length; t += 3) {
    const at = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    const way = leastBend(positions, normals, at);
    if (!way) continue;
    const [x, y, z] = way;
    const six = [x * x, x * y, x * z, y * y, y * z, z * z];
    for (const a of at) for (let k = 0; k < 6; k++) lines[2 * a + k]! += six[k]!;
  }
  known.set(mesh, lines);
  return lines;
}

type Vector = readonly [number, number, number];
const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

function leastBend(positions: Float64Array, normals: Float64Array, at: readonly number[]): Vector | undefined {
  const vector = (list: Float64Array, from: number, to: number): Vector => [
    list[to]! - list[from]!,
    list[to + 1]! - list[from + 1]!,
    list[to + 2]! - list[from + 2]!,
  ];
  const [a, b, c] = [at[0]!, at[1]!, at[2]!];
  const first = vector(positions, a, b);
  const length = Math.hypot(...first);
  if (!(length > 0)) return undefined;
  const u: Vector = [first[0] / length, first[1] / length, first[2] / length];
  const other = vector(positions, a, c);
  const part = dot(other, u);
  const rest: Vector = [other[0] - u[0] * part, other[1] - u[1] * part, other[2] - u[2] * part];
  const height = Math.hypot(...rest);
  if (!(height > length * 1e-4)) return undefined;
  const v: Vector = [rest[0] / height, rest[1] / height, rest[2] / height];
  // Least squares for the bend (p, q; q, r): for each edge (e, f), p·e + q·f and q·e + r·f are the change of the normal.
  let [see, sef, sff, pe, pf, re, rf] = [0, 0, 0, 0, 0, 0, 0];
  for (const [from, to] of [
    [a, b],
    [b, c],
    [c, a],
  ] as const) {
    const edge = vector(positions, from, to);
    const turn = vector(normals, from, to);
    const [e, f] = [dot(edge, u), dot(edge, v)];
    const [g, h] = [dot(turn, u), dot(turn, v)];
    see += e * e;
    sef += e * f;
    sff += f * f;
    pe += g * e;
    pf += g * f;
    re += h * e;
    rf += h * f;
  }
  const whole = see * sff - sef * sef;
  if (!(whole > 0)) return undefined;
  const p = (pe * sff - pf * sef) / whole;
  const r = (rf * see - re * sef) / whole;
  const q = ((pf * see - pe * sef) / whole + (re * sff - rf * sef) / whole) / 2;
  // Axes of the symmetric bend; the one with the smaller amount of bend runs along the limb.
  const turn = 0.5 * Math.atan2(2 * q, p - r);
  const middle = (p + r) / 2;
  const half = Math.hypot((p - r) / 2, q);
  const along = Math.abs(middle + half) <= Math.abs(middle - half) ? turn : turn + Math.PI / 2;
  const [k, m] = [Math.cos(along), Math.sin(along)];
  return [u[0] * k + v[0] * m, u[1] * k + v[1] * m, u[2] * k + v[2] * m];
}

/** The strongest direction of summed lines, by power iteration. */
function mainWay(six: readonly number[]): Vector | undefined {
  const [xx, xy, xz, yy, yz, zz] = six as [number, number, number, number, number, number];
  let way: Vector = xx >= yy && xx >= zz ? [1, 0.01, 0.01] : yy >= zz ? [0.01, 1, 0.01] : [0.01, 0.01, 1];
  for (let k = 0; k < 6; k++) {
    const [x, y, z] = way;
    const next: Vector = [xx * x + xy * y + xz * z, xy * x + yy * y + yz * z, xz * x + yz * y + zz * z];
    const length = Math.hypot(...next);
    if (!(length > 0)) return undefined;
    way = [next[0] / length, next[1] / length, next[2] / length];
  }
  return way;
}

/** Distance of the strokes, and their length, px. Design values. */
const PITCH = 3.4;
const STEP = 2.2;

/** Writes the strokes; they keep clear of each other. */
export function bark(
  pen: Pen,
  mesh: Mesh,
  solid: SolidFaces,
  view: View,
  raster: SolidRaster,
  random: Random,
  compact: boolean,
): void {
  const lines = limbLines(mesh);
  const ways = solid.faces.map(({ corners, triangle }): Point | undefined => {
    const six = [0, 0, 0, 0, 0, 0];
    for (let k = 0; k < 3; k++) {
      const at = 6 * mesh.triangles[3 * triangle + k]!;
      for (let j = 0; j < 6; j++) six[j]! += lines[at + j]!;
    }
    const way = mainWay(six);
    if (!way) return undefined;
    const [x, y, z] = solid.places[corners[0]!]!;
    const by = 0.002;
    const from = view.see(x, y, z);
    const to = view.see(x + way[0] * by, y + way[1] * by, z + way[2] * by);
    const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
    const length = Math.hypot(dx, dy);
    // Where a limb points at the eye there is no way to be seen.
    return length > by * view.scale * 0.25 ? [dx / length, dy / length] : undefined;
  });
  const pitch = compact ? PITCH * 1.4 : PITCH;
  const [wide, high] = [raster.columns * raster.cell, raster.rows * raster.cell];
  const grid = Math.max(pitch, Math.sqrt((wide * high) / 30_000));
  const taken = new Uint32Array(Math.ceil(wide / grid + 2) * Math.ceil(high / grid + 2));
  const columns = Math.ceil(wide / grid + 2);
  const cellAt = ([x, y]: Point): number =>
    Math.floor((y - raster.top) / grid) * columns + Math.floor((x - raster.left) / grid);
  let number = 0;
  const traced = (start: Point, sign: 1 | -1, longest: number): Point[] => {
    const out: Point[] = [];
    let at = start;
    let heading: Point | undefined;
    for (let gone = 0; gone < longest; gone += STEP) {
      const way = ways[raster.faceAt(at[0], at[1])];
      if (!way) break;
      let turned: Point = [way[0] * sign, way[1] * sign];
      if (heading) {
        const same = way[0] * heading[0] + way[1] * heading[1];
        if (Math.abs(same) < 0.5) break;
        turned = same < 0 ? [-way[0], -way[1]] : way;
      }
      const before = raster.awayAt(at[0], at[1]);
      heading = turned;
      at = [at[0] + turned[0] * STEP, at[1] + turned[1] * STEP];
      if (!(Math.abs(raster.awayAt(at[0], at[1]) - before) < 0.008)) break;
      const cell = cellAt(at);
      if (taken[cell] !== 0 && taken[cell] !== number) break;
      taken[cell] = number;
      out.push(at);
    }
    return out;
  };
  for (let y = grid / 2; y < high; y += grid) {
    for (let x = grid / 2; x < wide; x += grid) {
      const start: Point = [
        raster.left + x + between(random, -0.45, 0.45) * grid,
        raster.top + y + between(random, -0.45, 0.45) * grid,
      ];
      const f = raster.faceAt(start[0], start[1]);
      if (f < 0 || taken[cellAt(start)] !== 0) continue;
      // Fewer and shorter strokes where the light falls.
      if (random() < solid.faces[f]!.lit * 0.55) continue;
      number++;
      taken[cellAt(start)] = number;
      const longest = between(random, 7, 30);
      const ahead = traced(start, 1, longest);
      const back = traced(start, -1, longest);
      const line = [...back.reverse(), start, ...ahead];
      const [a, b] = [line[0]!, line.at(-1)!];
      if (Math.hypot(a[0] - b[0], a[1] - b[1]) > 4) pen.curve(thinned(line, 5));
    }
  }
}
