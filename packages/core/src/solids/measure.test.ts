import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { icosphere } from "./icosphere.ts";
import {
  joinMeshes,
  meshArea,
  meshBounds,
  meshCentroid,
  meshVolume,
  type Placement,
  placeDirection,
  placeMesh,
  placeNormal,
} from "./index.ts";
import { box, isClosed, meshOf, tetrahedron, torus, turned } from "./shapes.testing.ts";

const angle = fc.integer({ min: -180, max: 180 });
const metres = fc.double({ min: -3, max: 3, noNaN: true });
const scale = fc.double({ min: 0.2, max: 4, noNaN: true });

function close(got: number, want: number, share: number): void {
  expect(Math.abs(got / want - 1)).toBeLessThan(share);
}

describe("volume, area and centre of solids with closed forms", () => {
  test("box, prism and tetrahedron to rounding", () => {
    const brick = box(0.3, 0.2, 0.1);
    expect(meshVolume(brick)).toBeCloseTo(0.006, 15);
    expect(meshArea(brick)).toBeCloseTo(0.22, 15);
    meshCentroid(brick).forEach((c, axis) => {
      expect(c).toBeCloseTo([0.15, 0.1, 0.05][axis]!, 15);
    });
    // Area of a regular hexagon of radius r: 3 sqrt(3) / 2 r².
    const prism = turned(
      [
        [0.2, 0],
        [0.2, 0.5],
      ],
      6,
    );
    expect(meshVolume(prism)).toBeCloseTo(((3 * Math.sqrt(3)) / 2) * 0.04 * 0.5, 14);
    const corner = tetrahedron([0, 0, 0], [1, 0, 0], [0, 2, 0], [0, 0, 3]);
    expect(meshVolume(corner)).toBeCloseTo(1, 14);
    expect(meshCentroid(corner)).toEqual([0.25, 0.5, 0.75].map((c) => expect.closeTo(c, 14)));
    expect(meshVolume({ ...corner, triangles: corner.triangles.slice().reverse() })).toBeCloseTo(-1, 14);
  });

  test("ball, torus and cone from fine meshes within 0.1 %", () => {
    const ball = icosphere(40);
    expect(isClosed(ball)).toBe(true);
    close(meshVolume(ball), (4 / 3) * Math.PI, 1e-3);
    close(meshArea(ball), 4 * Math.PI, 1e-3);
    const ring = torus(0.3, 0.1, 200, 100);
    expect(isClosed(ring)).toBe(true);
    close(meshVolume(ring), 2 * Math.PI ** 2 * 0.3 * 0.01, 1e-3);
    close(meshArea(ring), 4 * Math.PI ** 2 * 0.3 * 0.1, 1e-3);
    const cone = turned(
      [
        [0.2, 0],
        [1e-9, 0.6],
      ],
      240,
    );
    expect(isClosed(cone)).toBe(true);
    close(meshVolume(cone), (Math.PI * 0.04 * 0.6) / 3, 1e-3);
    close(meshCentroid(cone)[2], 0.15, 1e-3);
  });

  test("bounds, and what has none", () => {
    expect(meshBounds(placeMesh(box(1, 2, 3), { shift: [1, 1, 1] }))).toEqual({ min: [1, 1, 1], max: [2, 3, 4] });
    expect(() => meshBounds(meshOf([], []))).toThrow(RangeError);
    expect(() => meshCentroid(meshOf([], []))).toThrow(RangeError);
    expect(meshVolume(meshOf([], []))).toBe(0);
    // Corners that no triangle uses are not part of the mesh.
    const brick = box(1, 1, 1);
    const stray = { ...brick, positions: Float64Array.from([...brick.positions, 99, 99, 99]) };
    expect(meshBounds(stray).max).toEqual([1, 1, 1]);
  });
});

describe("placing", () => {
  const solid = turned(
    [
      [0.1, 0],
      [0.3, 0.2],
      [0.05, 0.5],
    ],
    7,
  );

  test("volume and area do not change with where and how a piece stands", () => {
    fc.assert(
      fc.property(angle, angle, angle, metres, metres, metres, scale, (tip, lean, turn, x, y, z, size) => {
        const moved = placeMesh(solid, { tip, lean, turn, shift: [x, y, z], scale: size });
        close(meshVolume(moved), meshVolume(solid) * size ** 3, 1e-10);
        close(meshArea(moved), meshArea(solid) * size ** 2, 1e-10);
        // Its centre goes along as a place of the mesh does.
        const point = meshOf([meshCentroid(solid)], []);
        const centre = placeMesh(point, { tip, lean, turn, shift: [x, y, z], scale: size }).positions;
        meshCentroid(moved).forEach((c, axis) => {
          expect(Math.abs(c - centre[axis]!)).toBeLessThan(1e-10);
        });
      }),
    );
    fc.assert(
      fc.property(scale, scale, scale, (a, b, c) => {
        close(meshVolume(placeMesh(solid, { scale: [a, b, c] })), meshVolume(solid) * a * b * c, 1e-10);
      }),
    );
  });

  test("tip goes to the back, lean to the right, turn counter-clockwise", () => {
    const up = meshOf([[0, 0, 1]], []);
    const right = meshOf([[1, 0, 0]], []);
    const near = (placement: Placement, of: ReturnType<typeof meshOf>, want: readonly number[]): void => {
      expect([...placeMesh(of, placement).positions]).toEqual(want.map((w) => expect.closeTo(w, 12)));
    };
    near({ tip: 90 }, up, [0, 1, 0]);
    near({ lean: 90 }, up, [1, 0, 0]);
    near({ turn: 90 }, right, [0, 1, 0]);
    near({ lean: 90, turn: 90 }, up, [0, 1, 0]);
    near({ tip: 90, lean: 90 }, up, [0, 1, 0]);
    near({ scale: 2, shift: [1, 0, 0] }, up, [1, 0, 2]);
    expect(placeDirection([0, 0, 2], { lean: 90, shift: [9, 9, 9] })).toEqual(
      [1, 0, 0].map((w) => expect.closeTo(w, 12)),
    );
  });

  test("planes and their normals stay square under uneven scales", () => {
    fc.assert(
      fc.property(angle, angle, angle, scale, scale, scale, (tip, lean, turn, a, b, c) => {
        const placement = { tip, lean, turn, scale: [a, b, c] as const };
        const normal = placeNormal([1, 2, 2], placement);
        for (const along of [
          [2, -1, 0],
          [0, 1, -1],
        ] as const) {
          const moved = placeDirection(along, placement);
          expect(Math.abs(moved[0] * normal[0] + moved[1] * normal[1] + moved[2] * normal[2])).toBeLessThan(1e-12);
        }
      }),
    );
  });

  test("bad placements are refused", () => {
    expect(() => placeMesh(solid, { scale: 0 })).toThrow("scale 0, 0, 0");
    expect(() => placeMesh(solid, { scale: [1, -1, 1] })).toThrow(RangeError);
    expect(() => placeMesh(solid, { turn: Number.NaN })).toThrow("turn NaN");
    expect(() => placeMesh(solid, { shift: [0, 0, Number.POSITIVE_INFINITY] })).toThrow(RangeError);
  });

  test("joined meshes add up", () => {
    const both = joinMeshes([solid, placeMesh(solid, { shift: [1, 0, 0] }), box(1, 1, 1)]);
    expect(meshVolume(both)).toBeCloseTo(2 * meshVolume(solid) + 1, 12);
    expect(isClosed(both)).toBe(true);
    expect(joinMeshes([]).triangles).toHaveLength(0);
  });
});
