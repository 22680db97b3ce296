import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type Mesh,
  meshBounds,
  meshVolume,
  mostBranches,
  type StoneShape,
  stoneFill,
  stoneMesh,
  woodFill,
  woodMesh,
} from "./index.ts";
import { isClosed } from "./shapes.testing.ts";

const shapes: readonly StoneShape[] = ["irregular", "faceted", "layered", "rounded"];
const size = fc.double({ min: 0.01, max: 2, noNaN: true });
const seeds = fc.integer({ min: -(2 ** 31), max: 2 ** 31 - 1 });

/** Exactly the box, its middle over the origin, its foot at 0. */
function fits(mesh: Mesh, width: number, breadth: number, height: number): void {
  expect(meshBounds(mesh)).toEqual({
    min: [-width / 2, -breadth / 2, 0],
    max: [width / 2, breadth / 2, height],
  });
}

describe("stones", () => {
  test.each(shapes)("%s: closed, outward, filling the box exactly, of a plausible share", (shape) => {
    fc.assert(
      fc.property(size, size, size, seeds, (width, breadth, height, seed) => {
        const { mesh, grain } = stoneMesh({ shape, width, breadth, height, seed });
        expect(isClosed(mesh)).toBe(true);
        fits(mesh, width, breadth, height);
        expect(Math.hypot(...grain)).toBeCloseTo(1, 12);
        const share = meshVolume(mesh) / (width * breadth * height);
        expect(share).toBeGreaterThan(stoneFill[shape][0] - 1e-9);
        expect(share).toBeLessThan(stoneFill[shape][1] + 1e-9);
        // A faceted stone may have a few less.
        expect(mesh.triangles.length / 3).toBeGreaterThanOrEqual(80);
        expect(mesh.triangles.length / 3).toBeLessThanOrEqual(400);
      }),
      { numRuns: 60 },
    );
  });

  test("the same seed gives the same stone, another one another", () => {
    for (const shape of shapes) {
      const form = { shape, width: 0.3, breadth: 0.2, height: 0.15, seed: 5 };
      expect(stoneMesh(form)).toEqual(stoneMesh(form));
      expect(stoneMesh({ ...form, seed: 6 })).not.toEqual(stoneMesh(form));
    }
  });

  test("a faceted stone is convex", () => {
    const { mesh } = stoneMesh({ shape: "faceted", width: 1, breadth: 1, height: 1, seed: 3 });
    const { positions, triangles } = mesh;
    for (let t = 0; t < triangles.length; t += 3) {
      const [a, b, c] = [0, 1, 2].map((k) => positions.subarray(3 * triangles[t + k]!, 3 * triangles[t + k]! + 3));
      const [u, v] = [b!, c!].map((p) => [p[0]! - a![0]!, p[1]! - a![1]!, p[2]! - a![2]!]) as [number[], number[]];
      const normal = [u[1]! * v[2]! - u[2]! * v[1]!, u[2]! * v[0]! - u[0]! * v[2]!, u[0]! * v[1]! - u[1]! * v[0]!];
      for (let k = 0; k < positions.length; k += 3) {
        const over = [0, 1, 2].reduce((sum, n) => sum + normal[n]! * (positions[k + n]! - a![n]!), 0);
        expect(over / Math.hypot(...normal)).toBeLessThan(1e-9);
      }
    }
  });

  test("beds of a layered stone are told: most of its ledges lie square to the grain", () => {
    const { mesh, grain } = stoneMesh({ shape: "layered", width: 0.4, breadth: 0.3, height: 0.2, seed: 9 });
    const { positions, triangles } = mesh;
    let flat = 0;
    let whole = 0;
    for (let t = 0; t < triangles.length; t += 3) {
      const [a, b, c] = [0, 1, 2].map((k) => positions.subarray(3 * triangles[t + k]!, 3 * triangles[t + k]! + 3));
      const [u, v] = [b!, c!].map((p) => [p[0]! - a![0]!, p[1]! - a![1]!, p[2]! - a![2]!]) as [number[], number[]];
      const area = [u[1]! * v[2]! - u[2]! * v[1]!, u[2]! * v[0]! - u[0]! * v[2]!, u[0]! * v[1]! - u[1]! * v[0]!];
      const along = Math.abs(area[0]! * grain[0] + area[1]! * grain[1] + area[2]! * grain[2]);
      if (along > 0.985 * Math.hypot(...area)) flat += along;
      whole += Math.hypot(...area);
    }
    expect(flat / whole).toBeGreaterThan(0.3);
  });

  test("bad forms are refused", () => {
    const form = { shape: "rounded", width: 0.3, breadth: 0.2, height: 0.15, seed: 5 } as const;
    expect(() => stoneMesh({ ...form, width: 0 })).toThrow("width 0 m");
    expect(() => stoneMesh({ ...form, height: 11 })).toThrow(RangeError);
    expect(() => stoneMesh({ ...form, seed: 0.5 })).toThrow(RangeError);
    expect(() => stoneMesh({ ...form, shape: "square" as StoneShape })).toThrow("irregular, faceted, layered, rounded");
  });
});

describe("wood", () => {
  // Boxes as pieces of wood have them: no side shorter than a fifth of the longest.
  const boxes = fc
    .record({
      length: size,
      a: fc.double({ min: 0.2, max: 1, noNaN: true }),
      b: fc.double({ min: 0.2, max: 1, noNaN: true }),
    })
    .chain(({ length, a, b }) =>
      fc.shuffledSubarray([length, length * a, length * b], { minLength: 3 }).map((s) => s as [number, number, number]),
    );

  test("one closed surface, outward, filling the box exactly, of a plausible share", () => {
    fc.assert(
      fc.property(boxes, fc.integer({ min: 0, max: 9 }), seeds, ([width, breadth, height], branches, seed) => {
        const piece = woodMesh({ width, breadth, height, branches, seed });
        expect(isClosed(piece.mesh)).toBe(true);
        fits(piece.mesh, width, breadth, height);
        expect(Math.hypot(...piece.grain)).toBeCloseTo(1, 12);
        expect(piece.branches).toBeLessThanOrEqual(branches);
        const share = meshVolume(piece.mesh) / (width * breadth * height);
        expect(share).toBeGreaterThan(woodFill[0]);
        expect(share).toBeLessThan(woodFill[1]);
        // A ball with no handles: corners - edges + faces = 2.
        const faces = piece.mesh.triangles.length / 3;
        expect(piece.mesh.positions.length / 3 - faces / 2).toBe(2);
      }),
      { numRuns: 16 },
    );
  });

  test("most branches asked for find room; the same seed gives the same piece", () => {
    const form = { width: 0.6, breadth: 0.3, height: 0.35, branches: 7 };
    let found = 0;
    for (let seed = 0; seed < 20; seed++) found += woodMesh({ ...form, seed }).branches;
    expect(found / 140).toBeGreaterThan(0.8);
    expect(woodMesh({ ...form, seed: 4 })).toEqual(woodMesh({ ...form, seed: 4 }));
    expect(woodMesh({ ...form, seed: 4 })).not.toEqual(woodMesh({ ...form, seed: 5 }));
  });

  test("bad forms are refused", () => {
    const form = { width: 0.6, breadth: 0.3, height: 0.35, branches: 7, seed: 1 };
    expect(() => woodMesh({ ...form, branches: -1 })).toThrow("-1 branches: 0 to 24");
    expect(() => woodMesh({ ...form, branches: mostBranches + 1 })).toThrow(RangeError);
    expect(() => woodMesh({ ...form, breadth: Number.NaN })).toThrow("breadth NaN m");
  });
});
