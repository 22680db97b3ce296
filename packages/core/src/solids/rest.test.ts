import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fieldFrom, fieldHeight, type HeightField, outlineArea, outlineContains } from "../geometry/index.ts";
import { icosphere } from "./icosphere.ts";
import {
  beyondBox,
  floatingGap,
  footprint,
  heightMaps,
  meshBounds,
  meshVolume,
  overlapVolume,
  placeMesh,
  restingHeight,
  silhouetteEdges,
  unionVolume,
} from "./index.ts";
import { box, tetrahedron, torus, turned } from "./shapes.testing.ts";

const floor = { length: 1, width: 0.6, columns: 9, rows: 7 };
const flat: HeightField = fieldFrom(floor, () => 0.1);
const wavy: HeightField = fieldFrom(floor, (x, y) => 0.1 + 0.04 * Math.sin(11 * x) * Math.cos(9 * y));

describe("coming to rest", () => {
  test("on level ground the lowest place touches", () => {
    const ball = placeMesh(icosphere(6), { scale: 0.1, shift: [0.5, 0.3, 0.7] });
    const rest = restingHeight(ball, flat);
    expect(rest.shift).toBeCloseTo(0.1 - meshBounds(ball).min[2], 12);
    expect(rest.on).toBe("ground");
    expect(rest.at[2]).toBeCloseTo(0.1, 12);
  });

  test("on a slope a level box touches with its uphill edge", () => {
    const slope = fieldFrom(floor, (x) => 0.3 * x);
    const rest = restingHeight(placeMesh(box(0.2, 0.2, 0.1), { shift: [0.3, 0.1, 0] }), slope);
    expect(rest.shift).toBeCloseTo(0.15, 12);
    expect(rest.at[0]).toBeCloseTo(0.5, 12);
  });

  test("a ridge under a flat base, and a post under a cup, are met between corners", () => {
    const ridge = fieldFrom({ ...floor, columns: 101 }, (x) => 0.3 - 0.5 * Math.abs(x - 0.5));
    expect(restingHeight(placeMesh(box(0.4, 0.1, 0.1), { shift: [0.33, 0.2, 0] }), ridge).shift).toBeCloseTo(0.3, 12);
    const post = placeMesh(
      turned(
        [
          [0.01, 0],
          [0.01, 0.3],
        ],
        8,
      ),
      { shift: [0.5, 0.3, 0] },
    );
    const plate = placeMesh(box(0.3, 0.3, 0.02), { shift: [0.36, 0.13, 0] });
    const rest = restingHeight(plate, flat, [post]);
    expect(rest.shift).toBeCloseTo(0.3, 12);
    expect(rest.on).toBe(0);
  });

  test("two crossed ridges touch where they cross", () => {
    const ridge = tetrahedron([0.5, 0.5, 0], [0.5, 0.1, 0], [0.7, 0.3, 0.3], [0.3, 0.3, 0.3]);
    const keel = tetrahedron([0.55, 0.45, 1], [0.45, 0.15, 1], [0.7, 0.3, 1.3], [0.3, 0.3, 1.3]);
    expect(Math.min(meshVolume(ridge), meshVolume(keel))).toBeGreaterThan(0);
    const rest = restingHeight(keel, flat, [ridge]);
    expect(rest.on).toBe(0);
    expect(rest.at.map((c) => Math.round(c * 1e9) / 1e9)).toEqual([0.5, 0.3, 0.3]);
    expect(rest.shift).toBeCloseTo(-0.7, 12);
  });

  test("at rest no place is below the support and one touches, on any ground", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 0.9, noNaN: true }),
        fc.double({ min: 0.1, max: 0.5, noNaN: true }),
        fc.integer({ min: 0, max: 90 }),
        fc.integer({ min: -60, max: 60 }),
        (x, y, turn, tip) => {
          const stone = placeMesh(box(0.2, 0.12, 0.08), { turn, tip, shift: [x, y, 1] });
          const under = placeMesh(icosphere(5), { scale: 0.08, shift: [0.5, 0.3, 0.15] });
          const { shift, at, on } = restingHeight(stone, wavy, [under]);
          const rested = placeMesh(stone, { shift: [0, 0, shift] });
          const grid = { ...floor, columns: 129, rows: 97 };
          const piece = heightMaps(rested, grid);
          const ball = heightMaps(under, grid);
          piece.bottom.forEach((z, k) => {
            if (z === Number.POSITIVE_INFINITY) return;
            const ground = fieldHeight(wavy, (k % 129) / 128, (0.6 * Math.floor(k / 129)) / 96);
            expect(z).toBeGreaterThan(Math.max(ground, ball.top[k]!) - 1e-9);
          });
          if (on === "ground") expect(at[2]).toBeCloseTo(fieldHeight(wavy, at[0], at[1]), 9);
          expect(floatingGap(rested, wavy, [under])).toBeLessThan(1e-9);
        },
      ),
      { numRuns: 40 },
    );
  });
});

describe("checks of a piece", () => {
  const ball = placeMesh(icosphere(10), { scale: 0.1 });

  test("how far it hangs free", () => {
    const low = meshBounds(ball).min[2];
    const at = (z: number) => placeMesh(ball, { shift: [0.5, 0.3, z - low] });
    expect(floatingGap(at(0.13), flat)).toBeCloseTo(0.03, 12);
    expect(floatingGap(at(0.05), flat)).toBe(0);
    // Over a plate, and under an arch whose top is above it.
    const plate = placeMesh(box(0.3, 0.3, 0.02), { shift: [0.35, 0.15, 0.1] });
    expect(floatingGap(at(0.13), flat, [plate])).toBeCloseTo(0.01, 12);
    const over = placeMesh(plate, { shift: [0, 0, 0.5] });
    expect(floatingGap(at(0.13), flat, [over])).toBeCloseTo(0.03, 12);
    // Held by a wall that it cuts into.
    const wall = placeMesh(box(0.2, 0.5, 0.6), { shift: [0.55, 0.05, 0] });
    expect(floatingGap(at(0.3), flat, [wall])).toBe(0);
  });

  test("how far it cuts through the panes", () => {
    const beyond = beyondBox(placeMesh(box(1.2, 0.2, 0.3), { shift: [-0.05, 0.45, 0.3] }), {
      length: 1,
      width: 0.6,
      height: 0.5,
    });
    expect(beyond).toEqual({
      left: expect.closeTo(0.05, 12),
      right: expect.closeTo(0.15, 12),
      front: 0,
      back: expect.closeTo(0.05, 12),
      floor: 0,
      top: expect.closeTo(0.1, 12),
    });
  });

  test("overlap of boxes is exact, of balls their lens within 2 %", () => {
    const brick = box(0.3, 0.2, 0.1);
    const other = placeMesh(brick, { shift: [0.2, 0.1, 0.05] });
    expect(overlapVolume(brick, other)).toBeCloseTo(0.1 * 0.1 * 0.05, 9);
    expect(overlapVolume(brick, placeMesh(brick, { shift: [0.3, 0, 0] }))).toBe(0);
    expect(overlapVolume(brick, placeMesh(brick, { shift: [0, 0, 5] }))).toBe(0);
    expect(unionVolume([brick, other])).toBeCloseTo(0.012 - 0.0005, 4);
    expect(unionVolume([])).toBe(0);
    // Lens of two balls of radius r at distance d: pi (4 r + d) (2 r - d)² / 12.
    const fine = placeMesh(icosphere(24), { scale: 0.1 });
    const lens = (Math.PI * (0.4 + 0.1) * 0.1 ** 2) / 12;
    for (const shift of [
      [0.1, 0, 0],
      [0, 0, 0.1],
      [0.06, 0.08, 0],
    ] as const) {
      expect(Math.abs(overlapVolume(fine, placeMesh(fine, { shift })) / lens - 1)).toBeLessThan(0.02);
    }
    expect(unionVolume([fine, fine]) / meshVolume(fine)).toBeCloseTo(1, 2);
    expect(() => overlapVolume(brick, other, 0)).toThrow(RangeError);
  });
});

describe("seen from above and from the side", () => {
  test("height maps of a ball", () => {
    const ball = placeMesh(icosphere(30), { scale: 0.2, shift: [0.5, 0.3, 0.2] });
    const { top, bottom } = heightMaps(ball, { ...floor, columns: 41, rows: 25 });
    top.forEach((z, k) => {
      const away = Math.hypot((k % 41) / 40 - 0.5, (0.6 * Math.floor(k / 41)) / 24 - 0.3);
      if (away > 0.2) expect([z, bottom[k]]).toEqual([Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY]);
      else if (away < 0.18) {
        expect(z).toBeCloseTo(0.2 + Math.sqrt(0.04 - away * away), 2);
        expect(bottom[k]).toBeCloseTo(0.2 - Math.sqrt(0.04 - away * away), 2);
      }
    });
    // Rays that run along edges and through corners of a box still find it.
    const maps = heightMaps(box(0.5, 0.3, 0.2), floor);
    expect(maps.top[9 + 1]).toBe(0.2);
    expect(maps.bottom[9 + 1]).toBe(0);
  });

  test("footprints: a turned box, a ring with its hole", () => {
    const brick = placeMesh(box(0.3, 0.1, 0.2), { turn: 33, shift: [0.4, 0.2, 0] });
    const print = footprint(brick);
    expect(print.area / 0.03).toBeCloseTo(1, 1);
    expect(print.outlines).toHaveLength(1);
    expect(Math.abs(outlineArea(print.outlines[0]!) / 0.03 - 1)).toBeLessThan(0.03);
    expect(outlineContains(print.outlines[0]!, [0.5, 0.3])).toBe(true);
    const ring = footprint(torus(0.2, 0.05, 60, 20));
    expect(ring.outlines).toHaveLength(2);
    expect(Math.abs(ring.area / (Math.PI * (0.25 ** 2 - 0.15 ** 2)) - 1)).toBeLessThan(0.02);
    expect(() => footprint(brick, 2)).toThrow(RangeError);
  });

  test("the silhouette of a box is its rim", () => {
    const edges = silhouetteEdges(box(0.3, 0.2, 0.1), [0, -1, 0.001]);
    const length = edges.reduce((sum, [a, b]) => sum + Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]), 0);
    // Seen from the front and a hair from above: front rim below and at the sides, top rim behind.
    expect(length).toBeCloseTo(0.3 + 2 * 0.1 + 2 * 0.2 + 0.3, 12);
  });
});
