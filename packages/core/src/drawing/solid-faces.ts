/** The faces of a mesh that an eye sees above the ground, as polygons on the page. */
import type { Mesh } from "../solids/index.ts";
import type { View } from "./scape-view.ts";

export interface SolidFace {
  /** Corners, as positions in the lists of `SolidFaces`. */
  readonly corners: readonly number[];
  /** Position of its triangle in the mesh. */
  readonly triangle: number;
  readonly normal: readonly [x: number, y: number, z: number];
  /** How squarely the light falls on it, 0 to 1. */
  readonly lit: number;
}

export interface SolidFaces {
  /** Corners on the page and their distance from the eye, then their places in the tank. */
  readonly px: readonly number[];
  readonly py: readonly number[];
  readonly away: readonly number[];
  readonly places: readonly (readonly [x: number, y: number, z: number])[];
  readonly faces: readonly SolidFace[];
  /** Corners from this one on were made where the ground cuts the piece. */
  readonly firstCut: number;
}

/**
 * Faces turned to the eye, cut off at the ground. Neighbours share corners, also those made by the cut, so that their
 * edges can be told from outlines.
 */
export function solidFaces(mesh: Mesh, view: View, ground: (x: number, y: number) => number): SolidFaces {
  const { positions, triangles } = mesh;
  const count = Math.floor(positions.length / 3);
  const px: number[] = [];
  const py: number[] = [];
  const away: number[] = [];
  const places: [number, number, number][] = [];
  const over: number[] = [];
  const add = (x: number, y: number, z: number, above: number): number => {
    const [a, b, c] = view.see(x, y, z);
    px.push(a);
    py.push(b);
    away.push(c);
    places.push([x, y, z]);
    over.push(above);
    return places.length - 1;
  };
  for (let k = 0; k < count; k++) {
    const [x, y, z] = [positions[3 * k]!, positions[3 * k + 1]!, positions[3 * k + 2]!];
    add(x, y, z, z - ground(x, y));
  }
  const cuts = new Map<number, number>();
  const cut = (a: number, b: number): number => {
    const key = Math.min(a, b) * count + Math.max(a, b);
    const known = cuts.get(key);
    if (known !== undefined) return known;
    const t = over[a]! / (over[a]! - over[b]!);
    const [p, q] = [places[a]!, places[b]!];
    const made = add(p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t, p[2] + (q[2] - p[2]) * t, 0);
    cuts.set(key, made);
    return made;
  };
  const faces: SolidFace[] = [];
  for (let t = 0; t + 2 < triangles.length; t += 3) {
    const [a, b, c] = [triangles[t]!, triangles[t + 1]!, triangles[t + 2]!];
    // Seen from outside corners turn counter-clockwise; on the page, where y runs down, that is a negative area.
    const area = (px[b]! - px[a]!) * (py[c]! - py[a]!) - (py[b]! - py[a]!) * (px[c]! - px[a]!);
    if (!(area < -1e-3)) continue;
    if (over[a]! <= 0 && over[b]! <= 0 && over[c]! <= 0) continue;
    const normal = normalOf(places[a]!, places[b]!, places[c]!);
    if (!normal) continue;
    let corners = [a, b, c];
    if (over[a]! < 0 || over[b]! < 0 || over[c]! < 0) {
      const kept: number[] = [];
      for (let k = 0; k < 3; k++) {
        const [p, q] = [corners[k]!, corners[(k + 1) % 3]!];
        if (over[p]! >= 0) kept.push(p);
        if (over[p]! >= 0 !== over[q]! >= 0 && over[p] !== 0 && over[q] !== 0) kept.push(cut(p, q));
      }
      if (kept.length < 3) continue;
      corners = kept;
    }
    const lit = Math.max(0, normal[0] * view.light[0] + normal[1] * view.light[1] + normal[2] * view.light[2]);
    faces.push({ corners, triangle: t / 3, normal, lit });
  }
  return { px, py, away, places, faces: evened(faces, places.length), firstCut: count };
}

/** Faces that meet at a flatter angle than this pass for one when they are shaded; cosine. Design value. */
const FLAT = 0.94;

/** The same faces, each lit as it and those next to it that lie nearly in its plane: so no face falls in two by its tone. */
function evened(faces: readonly SolidFace[], corners: number): SolidFace[] {
  const beside: number[][] = faces.map(() => []);
  const open = new Map<number, number>();
  faces.forEach((face, f) => {
    for (let k = 0; k < face.corners.length; k++) {
      const [a, b] = [face.corners[k]!, face.corners[(k + 1) % face.corners.length]!];
      const key = Math.min(a, b) * corners + Math.max(a, b);
      const other = open.get(key);
      if (other === undefined) {
        open.set(key, f);
        continue;
      }
      const [n, m] = [face.normal, faces[other]!.normal];
      if (n[0] * m[0] + n[1] * m[1] + n[2] * m[2] < FLAT) continue;
      beside[f]!.push(other);
      beside[other]!.push(f);
    }
  });
  let lit = faces.map((face) => face.lit);
  for (let round = 0; round < 2; round++) {
    lit = lit.map(
      (own, f) => (own + beside[f]!.reduce((sum, other) => sum + lit[other]!, 0)) / (1 + beside[f]!.length),
    );
  }
  return faces.map((face, f) => ({ ...face, lit: lit[f]! }));
}

type Place = readonly [number, number, number];

function normalOf(a: Place, b: Place, c: Place): Place | undefined {
  const [ux, uy, uz] = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
  const [vx, vy, vz] = [c[0] - a[0], c[1] - a[1], c[2] - a[2]];
  const [x, y, z] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
  const length = Math.hypot(x, y, z);
  return length > 0 ? [x / length, y / length, z / length] : undefined;
}

/**
 * Outlines of a set of faces: edges that two of them share fall away. Each runs as its faces turn, so that filled by
 * the non-zero rule they cover what the faces cover.
 */
export function outlinesOf(faces: readonly SolidFace[]): number[][] {
  const next = new Map<number, number[]>();
  for (const { corners } of faces) {
    for (let k = 0; k < corners.length; k++) {
      const [a, b] = [corners[k]!, corners[(k + 1) % corners.length]!];
      const back = next.get(b);
      const at = back?.indexOf(a) ?? -1;
      if (back && at >= 0) {
        back.splice(at, 1);
        continue;
      }
      const list = next.get(a);
      if (list) list.push(b);
      else next.set(a, [b]);
    }
  }
  const loops: number[][] = [];
  for (const [start, list] of next) {
    while (list.length > 0) {
      const loop = [start];
      let at = list.pop()!;
      while (at !== start) {
        loop.push(at);
        const onward = next.get(at)?.pop();
        if (onward === undefined) break;
        at = onward;
      }
      if (loop.length > 2) loops.push(loop);
    }
  }
  return loops;
}
