import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  boundsOf,
  cellOverlaps,
  clipToRectangle,
  outlineArea,
  outlineCentroid,
  outlineContains,
  type Point2,
  pointToSegment,
  scatterInside,
  selfCrossing,
  simplifyLine,
  simplifyOutline,
  smoothOutline,
} from "./index.ts";

const square: readonly Point2[] = [
  [0, 0],
  [1, 0],
  [1, 1],
  [0, 1],
];
// An L of three unit squares.
const angle: readonly Point2[] = [
  [0, 0],
  [2, 0],
  [2, 1],
  [1, 1],
  [1, 2],
  [0, 2],
];

function regular(sides: number, radius: number, x = 0, y = 0): readonly Point2[] {
  return Array.from({ length: sides }, (_, k) => {
    const turn = (2 * Math.PI * k) / sides;
    return [x + radius * Math.cos(turn), y + radius * Math.sin(turn)];
  });
}

/** Star-shaped outlines about the middle of a unit square: never self-crossing, mostly hollow. */
const stars: fc.Arbitrary<readonly Point2[]> = fc
  .array(fc.double({ min: 0.05, max: 0.9, noNaN: true }), { minLength: 3, maxLength: 14 })
  .map((radii) =>
    radii.map((r, k) => {
      const turn = (2 * Math.PI * (k + 0.1)) / radii.length;
      return [0.5 + r * Math.cos(turn), 0.5 + r * Math.sin(turn)];
    }),
  );

describe("outlines", () => {
  test("area, centre and bounds of known figures", () => {
    expect(outlineArea(square)).toBe(1);
    expect(outlineArea(angle)).toBe(3);
    expect(outlineArea([...angle].reverse())).toBe(3);
    expect(outlineCentroid(angle)).toEqual([expect.closeTo(5 / 6, 12), expect.closeTo(5 / 6, 12)]);
    // Regular polygon: n r² sin(2 pi / n) / 2.
    expect(outlineArea(regular(7, 2, 100, -50))).toBeCloseTo(14 * Math.sin((2 * Math.PI) / 7), 10);
    expect(outlineCentroid(regular(7, 2, 100, -50))).toEqual([expect.closeTo(100, 9), expect.closeTo(-50, 9)]);
    expect(boundsOf(angle)).toEqual({ left: 0, front: 0, right: 2, back: 2 });
    expect(
      outlineCentroid([
        [0, 0],
        [1, 1],
        [2, 2],
      ]),
    ).toEqual([1, 1]);
    expect(() =>
      outlineCentroid([
        [0, 0],
        [1, 1],
      ]),
    ).toThrow("2 points");
    expect(() =>
      outlineCentroid([
        [0, 0],
        [1, 1],
        [2, Number.NaN],
      ]),
    ).toThrow("point 3");
    expect(() => boundsOf([])).toThrow(RangeError);
  });

  test("what lies inside", () => {
    expect(outlineContains(angle, [0.5, 1.5])).toBe(true);
    expect(outlineContains(angle, [1.5, 1.5])).toBe(false);
    expect(outlineContains(angle, [-0.5, 0.5])).toBe(false);
    fc.assert(
      fc.property(stars, fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }), (star, turn) => {
        // Along a ray from the middle of a star its border is met once.
        let changes = 0;
        let inside = true;
        for (let k = 0; k <= 100; k++) {
          const now = outlineContains(star, [0.5 + 0.0101 * k * Math.cos(turn), 0.5 + 0.0101 * k * Math.sin(turn)]);
          if (now !== inside) changes += 1;
          inside = now;
        }
        // Three points may leave the middle outside.
        if (outlineContains(star, [0.5, 0.5]) && star.length > 4) expect(changes).toBe(1);
      }),
    );
  });

  test("a crossing is found with its place, and none where there is none", () => {
    expect(selfCrossing(square)).toBeNull();
    expect(selfCrossing(angle)).toBeNull();
    expect(
      selfCrossing([
        [0, 0],
        [1, 1],
        [1, 0],
        [0, 1],
      ]),
    ).toEqual({ x: 0.5, y: 0.5, sides: [0, 2] });
    // A side that turns back on the one before, and a corner that touches another side.
    expect(
      selfCrossing([
        [0, 0],
        [2, 0],
        [1, 0],
        [1, 1],
      ]),
    ).toMatchObject({ sides: [0, 1] });
    expect(
      selfCrossing([
        [0, 0],
        [2, 0],
        [2, 1],
        [1, 0],
        [0, 1],
      ]),
    ).toMatchObject({ x: 1, y: 0 });
    fc.assert(
      fc.property(stars, (star) => {
        if (star.length > 4) expect(selfCrossing(star)).toBeNull();
      }),
    );
  });
});

describe("clipping", () => {
  const grid = { length: 1, width: 1, columns: 6, rows: 8 };

  test("known cuts", () => {
    const half = clipToRectangle(angle, { left: 0.5, front: 0.5, right: 3, back: 3 });
    expect(outlineArea(half)).toBeCloseTo(1.5 * 0.5 + 0.5 * 1, 12);
    expect(clipToRectangle(square, { left: 2, front: 2, right: 3, back: 3 })).toEqual([]);
    expect(outlineArea(clipToRectangle(square, { left: -1, front: -1, right: 2, back: 2 }))).toBe(1);
    // A quarter of a circle of many sides in a corner.
    const quarter = clipToRectangle(regular(720, 1), { left: 0, front: 0, right: 1, back: 1 });
    expect(outlineArea(quarter)).toBeCloseTo(90 * Math.sin(Math.PI / 360), 9);
  });

  test("cells share out the whole, and each is the clip to it", () => {
    fc.assert(
      fc.property(stars, (star) => {
        const areas = cellOverlaps(star, grid);
        const whole = outlineArea(clipToRectangle(star, { left: 0, front: 0, right: 1, back: 1 }));
        expect(areas.reduce((a, b) => a + b, 0)).toBeCloseTo(whole, 12);
        areas.forEach((area, k) => {
          const [i, j] = [k % 5, Math.floor(k / 5)];
          expect(area).toBeLessThanOrEqual(1 / 35 + 1e-12);
          const box = { left: i / 5, front: j / 7, right: (i + 1) / 5, back: (j + 1) / 7 };
          expect(area).toBeCloseTo(outlineArea(clipToRectangle(star, box)), 12);
        });
      }),
    );
  });

  test("areas of cells against a count of places", () => {
    const areas = cellOverlaps(regular(60, 0.37, 0.45, 0.55), grid);
    areas.forEach((area, k) => {
      let count = 0;
      for (let a = 0; a < 60; a++) {
        for (let b = 0; b < 60; b++) {
          const x = ((k % 5) + (a + 0.5) / 60) / 5;
          const y = (Math.floor(k / 5) + (b + 0.5) / 60) / 7;
          if (outlineContains(regular(60, 0.37, 0.45, 0.55), [x, y])) count += 1;
        }
      }
      expect(Math.abs(area - count / 3600 / 35)).toBeLessThan(0.01 / 35);
    });
  });
});

describe("lines and places", () => {
  test("a simpler line stays within the tolerance", () => {
    const wave: readonly Point2[] = Array.from({ length: 200 }, (_, k) => [k * 0.01, 0.1 * Math.sin(k * 0.1)]);
    fc.assert(
      fc.property(fc.double({ min: 1e-4, max: 0.2, noNaN: true }), (tolerance) => {
        const simple = simplifyLine(wave, tolerance);
        expect([simple[0], simple.at(-1)]).toEqual([wave[0], wave.at(-1)]);
        for (const p of wave) {
          const away = Math.min(...simple.slice(1).map((to, k) => pointToSegment(p, simple[k]!, to)));
          expect(away).toBeLessThanOrEqual(tolerance + 1e-12);
        }
      }),
    );
    expect(
      simplifyOutline(
        [
          [0, 0],
          [0.5, 0.001],
          [1, 0],
          [1, 1],
          [0, 1],
        ],
        0.01,
      ),
    ).toHaveLength(4);
    expect(simplifyOutline(square, 10)).toHaveLength(4);
    expect(() => simplifyLine(square, -1)).toThrow(RangeError);
  });

  test("a smooth curve runs through its points and round a circle", () => {
    const curve = smoothOutline(regular(12, 1), 6);
    expect(curve).toHaveLength(72);
    regular(12, 1).forEach((p, k) => {
      expect(curve[6 * k]).toEqual(p);
    });
    for (const [x, y] of curve) expect(Math.abs(Math.hypot(x, y) - 1)).toBeLessThan(0.003);
    expect(outlineArea(curve) / Math.PI).toBeCloseTo(1, 2);
    expect(smoothOutline([...square, [0, 1]], 2)).toHaveLength(8);
    expect(() =>
      smoothOutline([
        [0, 0],
        [0, 0],
        [1, 1],
      ]),
    ).toThrow(RangeError);
    expect(() => smoothOutline(square, 0)).toThrow(RangeError);
  });

  test("scattered places lie inside, evenly, and repeat for the same seed", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), fc.integer({ min: 0, max: 1e6 }), (count, seed) => {
        const places = scatterInside(angle, count, seed);
        expect(places).toHaveLength(count);
        for (const p of places) expect(outlineContains(angle, p)).toBe(true);
        expect(scatterInside(angle, count, seed)).toEqual(places);
      }),
      { numRuns: 30 },
    );
    const places = scatterInside(angle, 100, 7);
    const nearest = places.map(([x, y], k) =>
      Math.min(...places.filter((_, n) => n !== k).map(([px, py]) => Math.hypot(x - px, y - py))),
    );
    // Hexagonal packing of 100 places on 3 m² has a spacing of 0.186 m; even scattering reaches well over half of it.
    expect(Math.min(...nearest)).toBeGreaterThan(0.55 * Math.sqrt((2 / Math.sqrt(3)) * 0.03));
    expect(scatterInside(angle, 3, 8)).not.toEqual(scatterInside(angle, 3, 9));
    expect(scatterInside(square, 0, 1)).toEqual([]);
    expect(() => scatterInside(square, -1, 1)).toThrow(RangeError);
    expect(() =>
      scatterInside(
        [
          [0, 0],
          [1, 1],
          [2, 2],
        ],
        3,
        1,
      ),
    ).toThrow("too thin");
  });
});
