import { boxTree } from "./boxes.ts";
import type { Mesh } from "./mesh.ts";
import type { Pace } from "./pace.ts";
import type { Point3 } from "./vector.ts";

/** How a surface cuts through itself. */
export interface SelfCut {
  /** Pairs of triangles that cut each other. */
  readonly pairs: number;
  /** Length of all cuts together; the search stops once it is over the limit. */
  readonly length: number;
  /** Middle of the longest cut found; null where there is none. */
  readonly place: Point3 | null;
}

/**
 * Looks for triangles that cut through each other by more than `touch`, which counts as touching. Triangles that share an
 * edge, and coplanar ones, are not looked at. Source: Möller 1997, A fast triangle-triangle intersection test, J.
 * Graphics Tools 2(2):25-30 (from memory).
 * @param enough length of cuts at which the search may stop.
 */
export async function findSelfCuts(mesh: Mesh, touch: number, enough: number, pace: Pace): Promise<SelfCut> {
  const { positions, triangles } = mesh;
  const tree = await boxTree(mesh, pace);
  const found = { pairs: 0, length: 0, longest: 0, place: null as Point3 | null };
  const test = createCutTest(positions, triangles, touch);
  const visit = (a: number, b: number): void => {
    const length = test.cut(3 * tree.order[a]!, 3 * tree.order[b]!);
    if (!(length > touch)) return;
    found.pairs += 1;
    found.length += length;
    if (length <= found.longest) return;
    found.longest = length;
    found.place = test.place();
  };
  await pace.slices(tree.leaves, 1024, (from, to) => {
    if (found.length <= enough) tree.pairs(from, to, visit);
  });
  return { pairs: found.pairs, length: found.length, place: found.place };
}

/** Tests pairs of triangles, given by their first positions in the list of corners. */
export function createCutTest(positions: Float64Array, triangles: Uint32Array, touch: number) {
  const planeA = new Float64Array(4);
  const planeB = new Float64Array(4);
  const distances = new Float64Array(3);
  const spanA = new Float64Array(2);
  const spanB = new Float64Array(2);
  const line = new Float64Array(3);
  const middle = { along: 0, t: 0 };

  /** Writes the plane of a triangle, its normal of length 1; false for a sliver. */
  function plane(t: number, into: Float64Array): boolean {
    const [a, b, c] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    const ux = positions[b]! - positions[a]!;
    const uy = positions[b + 1]! - positions[a + 1]!;
    const uz = positions[b + 2]! - positions[a + 2]!;
    const vx = positions[c]! - positions[a]!;
    const vy = positions[c + 1]! - positions[a + 1]!;
    const vz = positions[c + 2]! - positions[a + 2]!;
    const nx = uy * vz - uz * vy;
    const ny = uz * vx - ux * vz;
    const nz = ux * vy - uy * vx;
    const length = Math.sqrt(nx * nx + ny * ny + nz * nz);
    const longest = Math.max(ux * ux + uy * uy + uz * uz, vx * vx + vy * vy + vz * vz);
    if (!(length > touch * Math.sqrt(longest))) return false;
    into[0] = nx / length;
    into[1] = ny / length;
    into[2] = nz / length;
    into[3] = into[0]! * positions[a]! + into[1]! * positions[a + 1]! + into[2]! * positions[a + 2]!;
    return true;
  }

  /** Distances of a triangle's corners from a plane; whether it has corners well on both sides. */
  function straddles(t: number, plane: Float64Array): boolean {
    let below = false;
    let above = false;
    for (let k = 0; k < 3; k++) {
      const at = 3 * triangles[t + k]!;
      const d =
        plane[0]! * positions[at]! + plane[1]! * positions[at + 1]! + plane[2]! * positions[at + 2]! - plane[3]!;
      distances[k] = d;
      if (d > touch) above = true;
      else if (d < -touch) below = true;
    }
    return below && above;
  }

  /** Where a triangle meets the plane that `distances` are from, along the line of both planes. */
  function span(t: number, into: Float64Array): void {
    into[0] = Infinity;
    into[1] = -Infinity;
    for (let k = 0; k < 3; k++) {
      const n = k === 2 ? 0 : k + 1;
      const [a, b] = [3 * triangles[t + k]!, 3 * triangles[t + n]!];
      const [da, db] = [distances[k]!, distances[n]!];
      const alongA = line[0]! * positions[a]! + line[1]! * positions[a + 1]! + line[2]! * positions[a + 2]!;
      let meets = alongA;
      if (Math.abs(da) > touch) {
        if (!((da > touch && db < -touch) || (da < -touch && db > touch))) continue;
        const alongB = line[0]! * positions[b]! + line[1]! * positions[b + 1]! + line[2]! * positions[b + 2]!;
        meets = alongA + ((alongB - alongA) * da) / (da - db);
      }
      into[0] = Math.min(into[0]!, meets);
      into[1] = Math.max(into[1]!, meets);
    }
  }

  function shared(a: number, b: number): number {
    let count = 0;
    for (let k = 0; k < 3; k++) {
      const corner = triangles[a + k]!;
      if (corner === triangles[b] || corner === triangles[b + 1] || corner === triangles[b + 2]) count += 1;
    }
    return count;
  }

  return {
    /** Length of the cut of two triangles; 0 for none. */
    cut(a: number, b: number): number {
      if (shared(a, b) > 1 || !plane(a, planeA) || !straddles(b, planeA) || !plane(b, planeB)) return 0;
      line[0] = planeA[1]! * planeB[2]! - planeA[2]! * planeB[1]!;
      line[1] = planeA[2]! * planeB[0]! - planeA[0]! * planeB[2]!;
      line[2] = planeA[0]! * planeB[1]! - planeA[1]! * planeB[0]!;
      const length = Math.sqrt(line[0]! ** 2 + line[1]! ** 2 + line[2]! ** 2);
      if (!(length > 1e-9)) return 0;
      for (let axis = 0; axis < 3; axis++) line[axis]! /= length;
      span(b, spanB);
      if (!straddles(a, planeB)) return 0;
      span(a, spanA);
      const from = Math.max(spanA[0]!, spanB[0]!);
      const to = Math.min(spanA[1]!, spanB[1]!);
      middle.along = (from + to) / 2;
      middle.t = a;
      return Math.max(0, to - from);
    },
    /** Middle of the last cut. */
    place(): Point3 {
      const sine = planeA[0]! * planeB[0]! + planeA[1]! * planeB[1]! + planeA[2]! * planeB[2]!;
      // The point of both planes nearest to the origin, and along their line from there.
      const part = 1 - sine * sine;
      const s = (planeA[3]! - planeB[3]! * sine) / part;
      const t = (planeB[3]! - planeA[3]! * sine) / part;
      return [0, 1, 2].map((k) => s * planeA[k]! + t * planeB[k]! + middle.along * line[k]!) as [
        number,
        number,
        number,
      ];
    },
  };
}
