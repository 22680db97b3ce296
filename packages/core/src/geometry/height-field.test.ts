import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  brushField,
  type Corners,
  cellsNearLines,
  fieldAtLevel,
  fieldFrom,
  fieldFromCorners,
  fieldFromRows,
  fieldHeight,
  fieldMean,
  fieldRange,
  fieldVolume,
  type HeightField,
  isolines,
  outlineArea,
  resampleField,
  slopeAt,
  slopes,
  steepestPlace,
  sumFields,
} from "./index.ts";

const millimetres = (min: number, max: number) => fc.integer({ min, max }).map((n) => n * 1e-3);
const fields: fc.Arbitrary<HeightField> = fc
  .record({
    length: millimetres(100, 2000),
    width: millimetres(100, 1000),
    columns: fc.integer({ min: 2, max: 9 }),
    rows: fc.integer({ min: 2, max: 9 }),
  })
  .chain((grid) =>
    fc
      .array(millimetres(0, 400), { minLength: grid.columns * grid.rows, maxLength: grid.columns * grid.rows })
      .map((heights) => ({ ...grid, heights: Float64Array.from(heights) })),
  );
const share = fc.double({ min: 0, max: 1, noNaN: true });

/** Midpoint sums, as an independent way. */
function quadrature(field: HeightField, of: (h: number) => number, n: number): number {
  let sum = 0;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++)
      sum += of(fieldHeight(field, ((i + 0.5) / n) * field.length, ((j + 0.5) / n) * field.width));
  }
  return (sum * field.length * field.width) / (n * n);
}

describe("making height fields", () => {
  test("four corners give the bilinear surface, rows are taken as they stand", () => {
    const corners = { frontLeft: 0.03, frontRight: 0.05, backLeft: 0.12, backRight: 0.2 };
    const field = fieldFromCorners({ length: 1.2, width: 0.5, columns: 5, rows: 4 }, corners);
    expect(fieldHeight(field, 0.6, 0.25)).toBeCloseTo(0.1, 12);
    expect(fieldHeight(field, 0, 0.5)).toBeCloseTo(0.12, 12);
    const rows = fieldFromRows(1, 0.5, [
      [0, 0.1, 0],
      [0.2, 0.3, 0.2],
    ]);
    expect([rows.columns, rows.rows]).toEqual([3, 2]);
    expect(fieldHeight(rows, 0.5, 0)).toBe(0.1);
    expect(fieldHeight(rows, 0.75, 0.25)).toBeCloseTo(0.15, 12);
    expect(fieldHeight(rows, 9, 9)).toBe(0.2);
  });

  test("bad grids are refused with what is allowed", () => {
    const flat: Corners = { frontLeft: 0, frontRight: 0, backLeft: 0, backRight: 0 };
    const grid = { length: 1, width: 1, columns: 2, rows: 2 };
    expect(() => fieldFromCorners({ ...grid, columns: 1 }, flat)).toThrow("1 columns: a height field has 2 to 129");
    expect(() => fieldFromCorners({ ...grid, rows: 130 }, flat)).toThrow("130 rows");
    expect(() => fieldFromCorners({ ...grid, rows: 2.5 }, flat)).toThrow(RangeError);
    expect(() => fieldFromCorners({ ...grid, length: 0 }, flat)).toThrow("length 0 m");
    expect(() => fieldFromCorners({ ...grid, width: Number.NaN }, flat)).toThrow(RangeError);
    expect(() => fieldFromRows(1, 1, [[0, 0], [0]])).toThrow("row 2 has 1 heights");
    expect(() => fieldFromRows(1, 1, [])).toThrow(RangeError);
    expect(() =>
      fieldFromRows(1, 1, [
        [0, 0],
        [-0.1, 0],
      ]),
    ).toThrow("height -0.1 m at column 1, row 2");
    expect(() =>
      fieldFromRows(1, 1, [
        [0, Number.POSITIVE_INFINITY],
        [0, 0],
      ]),
    ).toThrow(RangeError);
    expect(() => fieldMean({ ...grid, heights: new Float64Array(3) })).toThrow("3 heights for 2 columns");
    expect(() => sumFields([])).toThrow(RangeError);
    const other = fieldFromCorners({ ...grid, length: 2 }, flat);
    expect(() => sumFields([fieldFromCorners(grid, flat), other])).toThrow("the same floor");
  });

  test("refining by a whole factor changes nothing anywhere", () => {
    fc.assert(
      fc.property(fields, fc.integer({ min: 1, max: 5 }), share, share, (field, factor, u, v) => {
        const fine = resampleField(field, (field.columns - 1) * factor + 1, (field.rows - 1) * factor + 1);
        const [x, y] = [u * field.length, v * field.width];
        expect(Math.abs(fieldHeight(fine, x, y) - fieldHeight(field, x, y))).toBeLessThan(1e-12);
        expect(Math.abs(fieldVolume(fine) - fieldVolume(field))).toBeLessThan(1e-12);
      }),
    );
  });

  test("sums are sums everywhere on a common grid", () => {
    const floor = { length: 0.9, width: 0.45 };
    const bumpy = (columns: number, rows: number, k: number) =>
      fieldFrom({ ...floor, columns, rows }, (x, y) => 0.1 + 0.05 * Math.sin(k * x + 3 * y));
    const parts = [bumpy(4, 5, 7), bumpy(7, 3, 11), bumpy(3, 3, 5)];
    const sum = sumFields(parts);
    expect([sum.columns, sum.rows]).toEqual([7, 5]);
    for (const [x, y] of [
      [0.1, 0.2],
      [0.44, 0.33],
      [0.9, 0],
      [0.777, 0.123],
    ] as const) {
      expect(fieldHeight(sum, x, y)).toBeCloseTo(
        parts.reduce((all, f) => all + fieldHeight(f, x, y), 0),
        12,
      );
    }
    expect(sumFields(parts, { columns: 9, rows: 2 }).columns).toBe(9);
    // 127 and 128 cells have no common grid within 128.
    expect(sumFields([bumpy(128, 2, 3), bumpy(129, 2, 3)]).columns).toBe(129);
  });
});

describe("measuring height fields", () => {
  test("mean and volume agree with sums that are exact for bilinear cells", () => {
    fc.assert(
      fc.property(fields, (field) => {
        // Midpoints are exact for bilinear cells when every cell holds a whole number of them.
        const n = (field.columns - 1) * (field.rows - 1);
        const volume = quadrature(field, (h) => h, n);
        expect(Math.abs(fieldVolume(field) - volume)).toBeLessThan(1e-12);
        expect(fieldMean(field) * field.length * field.width).toBeCloseTo(volume, 12);
        const { min, max } = fieldRange(field);
        expect(fieldMean(field)).toBeGreaterThanOrEqual(min - 1e-15);
        expect(fieldMean(field)).toBeLessThanOrEqual(max + 1e-15);
      }),
      { numRuns: 30 },
    );
  });

  test("a level parts the room, against fine sums within 0.1 %", () => {
    fc.assert(
      fc.property(fields, millimetres(0, 450), (field, level) => {
        const parts = fieldAtLevel(field, level);
        const n = 840;
        const scale = field.length * field.width * 0.4;
        const below = quadrature(field, (h) => Math.min(h, level), n);
        expect(Math.abs(parts.below - below)).toBeLessThan(1e-3 * scale);
        expect(Math.abs(parts.over - quadrature(field, (h) => Math.max(level - h, 0), n))).toBeLessThan(1e-3 * scale);
        expect(parts.below + parts.above).toBeCloseTo(fieldVolume(field), 12);
        expect(parts.dryArea).toBeGreaterThanOrEqual(-1e-12);
        expect(parts.dryArea).toBeLessThanOrEqual(field.length * field.width * (1 + 1e-12));
      }),
      { numRuns: 12 },
    );
    const ramp = fieldFromRows(1, 0.5, [
      [0, 0.2],
      [0, 0.2],
    ]);
    // Half the ramp is dry: a wedge 0.5 m long and 0.1 m high, over a width of 0.5 m.
    expect(fieldAtLevel(ramp, 0.1)).toEqual({
      above: expect.closeTo(0.0125, 12),
      below: expect.closeTo(0.0375, 12),
      over: expect.closeTo(0.0125, 12),
      dryArea: expect.closeTo(0.25, 12),
    });
    expect(() => fieldAtLevel(ramp, -1)).toThrow(RangeError);
  });

  test("slope is the difference quotient, and nowhere above that of the steepest place", () => {
    fc.assert(
      fc.property(fields, share, share, (field, u, v) => {
        const [x, y] = [u * field.length, v * field.width];
        const here = slopeAt(field, x, y);
        const steepest = steepestPlace(field)!;
        expect(here.angle).toBeLessThanOrEqual(steepest.angle + 1e-9);
        const step = 1e-7;
        const i = Math.floor((x / field.length) * (field.columns - 1));
        const next = Math.floor(((x + step) / field.length) * (field.columns - 1));
        if (i === next && x + step < field.length) {
          const quotient = (fieldHeight(field, x + step, y) - fieldHeight(field, x, y)) / step;
          expect(Math.abs(quotient - here.dx)).toBeLessThan(1e-5 * (1 + Math.abs(here.dx)));
        }
      }),
    );
    const corners = { frontLeft: 0.03, frontRight: 0.07, backLeft: 0.1, backRight: 0.25 };
    const field = fieldFromCorners({ length: 0.9, width: 0.4, columns: 4, rows: 3 }, corners);
    const steepest = steepestPlace(field)!;
    expect(steepest.angle).toBeCloseTo(slopes(corners, 0.9, 0.4).steepest, 10);
    expect([steepest.x, steepest.y]).toEqual([expect.closeTo(0.9, 12), expect.closeTo(0.4, 12)]);
  });

  test("a retained step does not count, the free slope behind it does", () => {
    const step = fieldFrom({ length: 1, width: 0.4, columns: 41, rows: 17 }, (x) => (x < 0.49 ? 0.05 : 0.2 + 0.1 * x));
    expect(steepestPlace(step)!.angle).toBeGreaterThan(75);
    const edge = [
      [0.487, -0.1],
      [0.487, 0.5],
    ] as const;
    const masked = steepestPlace(step, cellsNearLines(step, [edge]));
    expect(masked!.angle).toBeCloseTo((Math.atan(0.1) * 180) / Math.PI, 10);
    expect(masked!.x).toBeGreaterThan(0.49);
    expect(steepestPlace(step, new Uint8Array(640).fill(1))).toBeNull();
    expect(() => steepestPlace(step, new Uint8Array(3))).toThrow(RangeError);
  });

  test("cells near a line are those with a place within the distance", () => {
    const grid = { length: 1, width: 1, columns: 11, rows: 11 };
    const diagonal = cellsNearLines(grid, [
      [
        [0.02, 0.01],
        [0.98, 0.99],
      ],
    ]);
    for (let k = 0; k < 10; k++) expect(diagonal[k * 11]).toBe(1);
    expect(diagonal[9]).toBe(0);
    fc.assert(
      fc.property(share, share, share, share, fc.double({ min: 0, max: 0.3, noNaN: true }), (ax, ay, bx, by, near) => {
        const marks = cellsNearLines(
          grid,
          [
            [
              [ax, ay],
              [bx, by],
            ],
          ],
          near,
        );
        // Walk the line and a ring about each place on it: every cell found so must be marked.
        for (let k = 0; k <= 20; k++) {
          const [x, y] = [ax + ((bx - ax) * k) / 20, ay + ((by - ay) * k) / 20];
          for (let turn = 0; turn < 8; turn++) {
            const px = x + 0.999 * near * Math.cos((turn * Math.PI) / 4);
            const py = y + 0.999 * near * Math.sin((turn * Math.PI) / 4);
            if (px < 0 || py < 0 || px >= 1 || py >= 1) continue;
            expect(marks[Math.floor(py * 10) * 10 + Math.floor(px * 10)]).toBe(1);
          }
        }
        // A cell whose middle is further than the distance and half its diagonal has no place within it.
        for (let j = 0; j < 10; j++) {
          for (let i = 0; i < 10; i++) {
            let away = 9;
            for (let k = 0; k <= 200; k++)
              away = Math.min(
                away,
                Math.hypot(ax + ((bx - ax) * k) / 200 - i / 10 - 0.05, ay + ((by - ay) * k) / 200 - j / 10 - 0.05),
              );
            if (away > near + 0.0708 + 0.006) expect(marks[j * 10 + i]).toBe(0);
          }
        }
      }),
      { numRuns: 40 },
    );
    expect(() => cellsNearLines(grid, [], -1)).toThrow(RangeError);
    expect(() => cellsNearLines(grid, [[[0, Number.NaN]]])).toThrow(RangeError);
    expect(cellsNearLines(grid, [[[0.55, 0.55]]])[55]).toBe(1);
  });
});

describe("brushing", () => {
  const flat = fieldFrom({ length: 1, width: 0.6, columns: 101, rows: 61 }, () => 0.1);
  const at = { x: 0.5, y: 0.3, radius: 0.2 };

  test("raising adds the volume under a cosine bell", () => {
    // Integral of (1 + cos(pi r / R)) / 2 over a disc: pi R² (1/2 - 2/pi²).
    const bell = Math.PI * 0.04 * (0.5 - 2 / Math.PI ** 2);
    const raised = brushField(flat, { kind: "raise", ...at, strength: 0.03 });
    expect((fieldVolume(raised) - fieldVolume(flat)) / (0.03 * bell)).toBeCloseTo(1, 3);
    expect(fieldHeight(raised, 0.5, 0.3)).toBeCloseTo(0.13, 12);
    expect(fieldHeight(raised, 0.71, 0.3)).toBe(0.1);
    expect(flat.heights.every((h) => h === 0.1)).toBe(true);
  });

  test("lowering stops at the floor, levelling meets its height", () => {
    const lowered = brushField(flat, { kind: "lower", ...at, strength: 0.5 });
    expect(fieldRange(lowered)).toEqual({ min: 0, max: 0.1 });
    const levelled = brushField(lowered, { kind: "level", ...at, strength: 1, height: 0.07 });
    expect(fieldHeight(levelled, 0.5, 0.3)).toBeCloseTo(0.07, 12);
    const own = brushField(lowered, { kind: "level", ...at, strength: 1 });
    expect(fieldHeight(own, 0.5, 0.3)).toBe(0);
  });

  test("smoothing leaves planes, lowers ridges and stays within the range; no stroke makes a bad field", () => {
    const plane = fieldFrom({ length: 1, width: 0.6, columns: 21, rows: 13 }, (x, y) => 0.05 + 0.1 * x + 0.2 * y);
    const smoothed = brushField(plane, { kind: "smooth", x: 0, y: 0.6, radius: 0.5, strength: 1 });
    smoothed.heights.forEach((h, k) => {
      expect(h).toBeCloseTo(plane.heights[k]!, 12);
    });
    fc.assert(
      fc.property(
        fields,
        fc.constantFrom("raise" as const, "lower" as const, "smooth" as const, "level" as const),
        share,
        share,
        share,
        millimetres(1, 900),
        (field, kind, x, y, strength, radius) => {
          const after = brushField(field, { kind, x, y, radius, strength });
          const [before, now] = [fieldRange(field), fieldRange(after)];
          if (kind === "smooth" || kind === "level") {
            expect(now.min).toBeGreaterThanOrEqual(before.min - 1e-12);
            expect(now.max).toBeLessThanOrEqual(before.max + 1e-12);
          }
          expect(fieldRange(brushField(field, { kind, x, y, radius, strength: 0 }))).toEqual(before);
        },
      ),
    );
    const ridge = fieldFrom({ length: 1, width: 0.6, columns: 41, rows: 25 }, (x) => 0.2 - 0.3 * Math.abs(x - 0.5));
    const worn = brushField(ridge, { kind: "smooth", x: 0.5, y: 0.3, radius: 0.3, strength: 1 });
    expect(fieldHeight(worn, 0.5, 0.3)).toBeLessThan(0.195);
    // A grid of twice the fineness is smoothed to nearly the same shape.
    const fine = brushField(resampleField(ridge, 81, 49), { kind: "smooth", x: 0.5, y: 0.3, radius: 0.3, strength: 1 });
    expect(Math.abs(fieldHeight(fine, 0.5, 0.3) - fieldHeight(worn, 0.5, 0.3))).toBeLessThan(0.002);
  });

  test("bad strokes are refused", () => {
    const stroke = { kind: "smooth", ...at, strength: 1 } as const;
    expect(() => brushField(flat, { ...stroke, radius: 0 })).toThrow("radius 0 m");
    expect(() => brushField(flat, { ...stroke, strength: 1.5 })).toThrow("0 to 1");
    expect(() => brushField(flat, { ...stroke, kind: "raise", strength: -1 })).toThrow("0 or more, in m");
    expect(() => brushField(flat, { ...stroke, x: Number.NaN })).toThrow(RangeError);
    expect(() => brushField(flat, { ...stroke, kind: "level", height: -1 })).toThrow("height -1 m");
  });
});

describe("lines of equal height", () => {
  test("those of a cone are circles", () => {
    const cone = fieldFrom({ length: 1, width: 1, columns: 101, rows: 101 }, (x, y) =>
      Math.max(0, 0.3 - Math.hypot(x - 0.5, y - 0.5)),
    );
    const lines = isolines(cone, [0.05, 0.1, 0.2]);
    expect(lines.map((l) => l.closed)).toEqual([true, true, true]);
    for (const { level, points } of lines) {
      const radius = 0.3 - level;
      for (const [x, y] of points) expect(Math.abs(Math.hypot(x - 0.5, y - 0.5) - radius)).toBeLessThan(2e-4);
      expect(outlineArea(points) / (Math.PI * radius * radius)).toBeCloseTo(1, 2);
    }
  });

  test("points lie on the surface; open lines end at panes; higher ground lies left", () => {
    fc.assert(
      fc.property(fields, millimetres(1, 399), (field, level) => {
        for (const { points, closed } of isolines(field, [level])) {
          for (const [x, y] of points) expect(Math.abs(fieldHeight(field, x, y) - level)).toBeLessThan(1e-9);
          if (closed) continue;
          for (const [x, y] of [points[0]!, points.at(-1)!]) {
            const gap = Math.min(x, y, Math.abs(field.length - x), Math.abs(field.width - y));
            expect(gap).toBeLessThan(1e-9);
          }
        }
      }),
    );
    const ramp = fieldFromRows(1, 1, [
      [0.2, 0],
      [0.2, 0],
    ]);
    expect(isolines(ramp, [0.1])).toEqual([
      {
        level: 0.1,
        closed: false,
        points: [
          [0.5, 0],
          [0.5, 1],
        ],
      },
    ]);
    expect(isolines(ramp, [0.3])).toEqual([]);
    expect(() => isolines(ramp, [Number.NaN])).toThrow(RangeError);
  });

  test("a saddle is parted as the bilinear surface is", () => {
    const saddle = fieldFromRows(1, 1, [
      [0.3, 0],
      [0, 0.2],
    ]);
    // The middle height of the saddle is 0.3 * 0.2 / 0.5 = 0.12.
    for (const [level, joined] of [
      [0.11, true],
      [0.13, false],
    ] as const) {
      const lines = isolines(saddle, [level]);
      expect(lines).toHaveLength(2);
      for (const { points } of lines) {
        const [a, b] = [points[0]!, points[1]!];
        const corner = [
          [0, 0],
          [1, 1],
        ].some(([cx, cy]) => [a, b].every(([x, y]) => x === cx || y === cy));
        expect(corner).toBe(!joined);
      }
    }
  });
});
