/** Solids whose volumes have closed forms, for the tests of this room. All stand about or on the origin. */
import type { Mesh } from "./mesh.ts";

export function meshOf(positions: readonly (readonly number[])[], triangles: readonly (readonly number[])[]): Mesh {
  return { positions: Float64Array.from(positions.flat()), triangles: Uint32Array.from(triangles.flat()) };
}

/** From the origin to l, w, h. */
export function box(l: number, w: number, h: number): Mesh {
  const places = [0, h].flatMap((z) => [
    [0, 0, z],
    [l, 0, z],
    [l, w, z],
    [0, w, z],
  ]);
  const sides = [0, 1, 2, 3].flatMap((k) => [
    [k, (k + 1) % 4, 4 + ((k + 1) % 4)],
    [k, 4 + ((k + 1) % 4), 4 + k],
  ]);
  return meshOf(places, [[0, 2, 1], [0, 3, 2], [4, 5, 6], [4, 6, 7], ...sides]);
}

/** Rings of `sides` points at heights with radii, closed by fans: cones, cylinders, balls. */
export function turned(profile: readonly (readonly [radius: number, height: number])[], sides: number): Mesh {
  const places: number[][] = [];
  const faces: number[][] = [];
  profile.forEach(([radius, z], ring) => {
    for (let k = 0; k < sides; k++) {
      const turn = (2 * Math.PI * k) / sides;
      places.push([radius * Math.cos(turn), radius * Math.sin(turn), z]);
      if (ring === 0) continue;
      const [a, b] = [(ring - 1) * sides + k, (ring - 1) * sides + ((k + 1) % sides)];
      faces.push([a, b, b + sides], [a, b + sides, a + sides]);
    }
  });
  const last = (profile.length - 1) * sides;
  places.push([0, 0, profile[0]![1]], [0, 0, profile.at(-1)![1]]);
  for (let k = 0; k < sides; k++) {
    faces.push([places.length - 2, (k + 1) % sides, k], [places.length - 1, last + k, last + ((k + 1) % sides)]);
  }
  return meshOf(places, faces);
}

/** About the vertical: radius of the ring, radius of its section. */
export function torus(big: number, small: number, around: number, across: number): Mesh {
  const places: number[][] = [];
  const faces: number[][] = [];
  for (let i = 0; i < around; i++) {
    for (let j = 0; j < across; j++) {
      const [u, v] = [(2 * Math.PI * i) / around, (2 * Math.PI * j) / across];
      const r = big + small * Math.cos(v);
      places.push([r * Math.cos(u), r * Math.sin(u), small * Math.sin(v)]);
      const at = (a: number, b: number): number => (a % around) * across + (b % across);
      faces.push([at(i, j), at(i + 1, j), at(i + 1, j + 1)], [at(i, j), at(i + 1, j + 1), at(i, j + 1)]);
    }
  }
  return meshOf(places, faces);
}

export function tetrahedron(a: number[], b: number[], c: number[], d: number[]): Mesh {
  return meshOf(
    [a, b, c, d],
    [
      [0, 2, 1],
      [0, 1, 3],
      [1, 2, 3],
      [2, 0, 3],
    ],
  );
}

/** Every edge is shared by two triangles that run through it in opposite directions. */
export function isClosed({ triangles }: Mesh): boolean {
  const edges = new Set<string>();
  for (let t = 0; t < triangles.length; t += 3) {
    for (let k = 0; k < 3; k++) {
      const edge = `${triangles[t + k]} ${triangles[t + ((k + 1) % 3)]}`;
      if (edges.has(edge)) return false;
      edges.add(edge);
    }
  }
  return [...edges].every((edge) => edges.has(edge.split(" ").reverse().join(" ")));
}
