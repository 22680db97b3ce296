import type { RandomStream } from "../numerics/index.ts";
import type { RawForm } from "./fit.ts";
import type { Mesh } from "./mesh.ts";
import { dot, type Point3, plus, unit } from "./vector.ts";

/** A convex body by its corners and, for each face, their positions counter-clockwise from outside. */
interface Body {
  readonly corners: Point3[];
  readonly faces: readonly (readonly number[])[];
}

const large = 13;
const chips = 26;

/** A block broken along planes: large breaks on all sides first, then chips off what sticks out. */
export function facetedForm(random: RandomStream): RawForm {
  let body = cube();
  const break_ = (depth: () => number): void => {
    // A plane that all but meets a corner would leave a splinter: draw again.
    for (let tries = 0; tries < 50; tries++) {
      const normal = unit([random.normal(), random.normal(), random.normal()]);
      const reach = Math.max(...used(body).map((k) => dot(normal, body.corners[k]!)));
      const distance = reach - depth();
      if (used(body).some((k) => Math.abs(dot(normal, body.corners[k]!) - distance) < splinter)) continue;
      const less = cut(body, normal, distance);
      if (!less) continue;
      body = less;
      return;
    }
  };
  for (let k = 0; k < large; k++) break_(() => 0.3 + 0.34 * random.uniform());
  for (let k = 0; k < chips; k++) break_(() => 0.04 + 0.08 * random.uniform());
  return { mesh: triangulated(body), across: unit([0.3 * random.normal(), 0.3 * random.normal(), 1]) };
}

/** Nearest that a plane passes by a corner, against the half side of the block. */
const splinter = 0.012;

function used(body: Body): readonly number[] {
  return [...new Set(body.faces.flat())];
}

function cube(): Body {
  const corners: Point3[] = [];
  for (let k = 0; k < 8; k++) corners.push([k & 1 ? 1 : -1, k & 2 ? 1 : -1, k & 4 ? 1 : -1]);
  const faces = [
    [0, 2, 3, 1],
    [4, 5, 7, 6],
    [0, 1, 5, 4],
    [2, 6, 7, 3],
    [0, 4, 6, 2],
    [1, 3, 7, 5],
  ];
  return { corners, faces };
}

/** What of a convex body lies at normal . place <= distance; null when the cut face has fewer than three corners. */
function cut(body: Body, normal: Point3, distance: number): Body | null {
  const corners = [...body.corners];
  const over = corners.map((c) => dot(normal, c) - distance);
  const made = new Map<string, number>();
  const crossing = (a: number, b: number): number => {
    const key = a < b ? `${a} ${b}` : `${b} ${a}`;
    const before = made.get(key);
    if (before !== undefined) return before;
    const share = over[a]! / (over[a]! - over[b]!);
    const [from, to] = [corners[a]!, corners[b]!];
    corners.push(plus(plus(from, from, -share), to, share));
    made.set(key, corners.length - 1);
    return corners.length - 1;
  };
  const faces: number[][] = [];
  const rim = new Map<number, number>();
  for (const face of body.faces) {
    const kept: number[] = [];
    let leaves = -1;
    let enters = -1;
    face.forEach((b, k) => {
      const a = face[(k + face.length - 1) % face.length]!;
      if (over[a]! <= 0 !== over[b]! <= 0) {
        const at = crossing(a, b);
        kept.push(at);
        if (over[b]! > 0) leaves = at;
        else enters = at;
      }
      if (over[b]! <= 0) kept.push(b);
    });
    if (kept.length >= 3) faces.push(kept);
    // The lid runs along each cut face the other way round.
    if (leaves >= 0) rim.set(enters, leaves);
  }
  if (rim.size < 3) return null;
  const lid: number[] = [];
  const start = rim.keys().next().value as number;
  for (let at: number | undefined = start; at !== undefined && lid.length < rim.size; at = rim.get(at)) lid.push(at);
  faces.push(lid);
  return { corners, faces };
}

function triangulated(body: Body): Mesh {
  const places = new Map(used(body).map((corner, k) => [corner, k]));
  const triangles = body.faces.flatMap((face) => {
    // The fan starts where the face is blunt: at the corner across from its longest diagonal, to avoid splinters.
    const start = bestStart(body.corners, face);
    return Array.from({ length: face.length - 2 }, (_, k) =>
      [0, k + 1, k + 2].map((n) => places.get(face[(start + n) % face.length]!)!),
    ).flat();
  });
  const positions = [...places.keys()].flatMap((corner) => [...body.corners[corner]!]);
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}

/** The corner whose fan has the greatest smallest triangle. */
function bestStart(corners: readonly Point3[], face: readonly number[]): number {
  let best = 0;
  let most = -1;
  face.forEach((_, start) => {
    let least = Number.POSITIVE_INFINITY;
    for (let k = 1; k < face.length - 1; k++) {
      const [a, b, c] = [0, k, k + 1].map((n) => corners[face[(start + n) % face.length]!]!) as [
        Point3,
        Point3,
        Point3,
      ];
      least = Math.min(least, area(a, b, c));
    }
    if (least > most) {
      most = least;
      best = start;
    }
  });
  return best;
}

function area(a: Point3, b: Point3, c: Point3): number {
  const u = plus(b, a, -1);
  const v = plus(c, a, -1);
  return Math.hypot(u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]) / 2;
}
