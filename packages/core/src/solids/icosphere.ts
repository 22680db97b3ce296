import type { Mesh } from "./mesh.ts";

const golden = (1 + Math.sqrt(5)) / 2;

const corners = [
  [-1, golden, 0],
  [1, golden, 0],
  [-1, -golden, 0],
  [1, -golden, 0],
  [0, -1, golden],
  [0, 1, golden],
  [0, -1, -golden],
  [0, 1, -golden],
  [golden, 0, -1],
  [golden, 0, 1],
  [-golden, 0, -1],
  [-golden, 0, 1],
];

const faces = [
  [0, 11, 5, 0, 5, 1, 0, 1, 7, 0, 7, 10, 0, 10, 11],
  [1, 5, 9, 5, 11, 4, 11, 10, 2, 10, 7, 6, 7, 1, 8],
  [3, 9, 4, 3, 4, 2, 3, 2, 6, 3, 6, 8, 3, 8, 9],
  [4, 9, 5, 2, 4, 11, 6, 2, 10, 8, 6, 7, 9, 8, 1],
];

/** A ball of radius 1 about the origin from an icosahedron, each edge parted into `parts`: 20 parts² triangles. */
export function icosphere(parts: number): Mesh {
  const points: number[] = [];
  const known = new Map<string, number>();
  const triangles: number[] = [];
  const list = faces.flat();
  for (let t = 0; t < list.length; t += 3) {
    const ends = [list[t]!, list[t + 1]!, list[t + 2]!];
    // The point with shares i, j and the rest of a face; those on edges and corners are shared with its neighbours.
    const point = (i: number, j: number): number => {
      const shares = [parts - i - j, i, j];
      const key = ends
        .map((end, k) => [end, shares[k]!] as const)
        .filter(([, share]) => share > 0)
        .sort(([a], [b]) => a - b)
        .join();
      const before = known.get(key);
      if (before !== undefined) return before;
      const sum = [0, 1, 2].map((axis) => ends.reduce((all, end, k) => all + shares[k]! * corners[end]![axis]!, 0)) as [
        number,
        number,
        number,
      ];
      const length = Math.hypot(...sum);
      known.set(key, points.length / 3);
      points.push(...sum.map((s) => s / length));
      return points.length / 3 - 1;
    };
    for (let j = 0; j < parts; j++) {
      for (let i = 0; i + j < parts; i++) {
        triangles.push(point(i, j), point(i + 1, j), point(i, j + 1));
        if (i + j < parts - 1) triangles.push(point(i + 1, j), point(i + 1, j + 1), point(i, j + 1));
      }
    }
  }
  return { positions: Float64Array.from(points), triangles: Uint32Array.from(triangles) };
}
