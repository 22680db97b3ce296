import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fieldFrom, fieldFromCorners, fieldHeight, fieldVolume, type HeightField } from "../geometry/index.ts";
import { icosphere } from "./icosphere.ts";
import { meshVolume, partSolid, placeMesh, volumeBelowField, volumeBelowLevel } from "./index.ts";
import { box, turned } from "./shapes.testing.ts";

const flat = (height: number, cells = 8): HeightField =>
  fieldFrom({ length: 1, width: 0.6, columns: cells + 1, rows: cells + 1 }, () => height);

function within(got: number, want: number, share = 1e-3): void {
  expect(Math.abs(got - want)).toBeLessThan(share * Math.abs(want) + 1e-12);
}

describe("below a level", () => {
  test("a cone filled to a height: V h³ from its point, within 0.1 %", () => {
    const onPoint = turned(
      [
        [1e-9, 0],
        [0.2, 0.4],
      ],
      240,
    );
    const full = (Math.PI * 0.04 * 0.4) / 3;
    for (const h of [0.05, 0.1, 0.2, 0.39, 0.4, 0.5]) {
      within(volumeBelowLevel(onPoint, h), full * (Math.min(h, 0.4) / 0.4) ** 3);
    }
    expect(volumeBelowLevel(onPoint, 0)).toBe(0);
  });

  test("a ball: pi h² (r - h / 3)", () => {
    const ball = placeMesh(icosphere(70), { scale: 0.1, shift: [0, 0, 0.1] });
    for (const h of [0.02, 0.05, 0.1, 0.17]) within(volumeBelowLevel(ball, h), Math.PI * h * h * (0.1 - h / 3));
    // Against the mesh itself it is exact: caps at h and 2 r - h make the whole.
    within(volumeBelowLevel(ball, 0.06) + volumeBelowLevel(ball, 0.14), meshVolume(ball), 1e-9);
  });

  test("a box lying anyhow: parts below and above are the whole", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -90, max: 90 }),
        fc.integer({ min: -90, max: 90 }),
        fc.double({ min: -0.5, max: 0.5, noNaN: true }),
        (tip, lean, level) => {
          const brick = placeMesh(box(0.3, 0.2, 0.1), { tip, lean });
          const upsideDown = placeMesh(box(0.3, 0.2, 0.1), { tip, lean, turn: 0 });
          upsideDown.positions.forEach((value, k) => {
            // Turned half about the x axis.
            if (k % 3 > 0) upsideDown.positions[k] = -value;
          });
          const below = volumeBelowLevel(brick, level);
          expect(below + volumeBelowLevel(upsideDown, -level)).toBeCloseTo(0.006, 12);
          expect(below).toBeGreaterThanOrEqual(-1e-15);
          expect(below).toBeLessThanOrEqual(0.006 + 1e-15);
        },
      ),
    );
  });
});

describe("buried in the ground", () => {
  test("a ball in a level bed, against the closed form and the level cut", () => {
    const ball = placeMesh(icosphere(40), { scale: 0.1, shift: [0.41, 0.33, 0.15] });
    const bed = flat(0.1);
    within(volumeBelowField(ball, bed), Math.PI * 0.05 ** 2 * (0.1 - 0.05 / 3));
    within(volumeBelowField(ball, bed), volumeBelowLevel(ball, 0.1), 1e-10);
  });

  test("a box in a slope: the prism under the plane", () => {
    const brick = placeMesh(box(0.2, 0.1, 0.2), { shift: [0.3, 0.2, 0.05] });
    const slope = fieldFrom({ length: 1, width: 0.6, columns: 12, rows: 7 }, (x, y) => 0.02 + 0.2 * x + 0.1 * y);
    // Mean ground over the box, less its foot, times its area: 0.02 + 0.08 + 0.025 - 0.05.
    within(volumeBelowField(brick, slope), 0.02 * 0.075, 1e-9);
  });

  test("turned pieces in a twisted bed, against sums over many places", () => {
    const twisted = fieldFromCorners(
      { length: 1, width: 0.6, columns: 2, rows: 2 },
      { frontLeft: 0.02, frontRight: 0.05, backLeft: 0.05, backRight: 0.25 },
    );
    const wavy = fieldFrom(
      { length: 1, width: 0.6, columns: 9, rows: 7 },
      (x, y) => 0.1 + 0.05 * Math.sin(9 * x + 7 * y),
    );
    for (const field of [twisted, wavy]) {
      // An upright box turned by 30 degrees: what the ground fills of it is the ground over its base.
      const brick = placeMesh(box(0.3, 0.2, 0.5), { turn: 30, shift: [0.5, 0.15, 0] });
      let sum = 0;
      const n = 400;
      const [c, s] = [Math.cos(Math.PI / 6), Math.sin(Math.PI / 6)];
      for (let i = 0; i < n; i++) {
        for (let j = 0; j < n; j++) {
          const [u, v] = [(0.3 * (i + 0.5)) / n, (0.2 * (j + 0.5)) / n];
          sum += fieldHeight(field, 0.5 + c * u - s * v, 0.15 + s * u + c * v);
        }
      }
      within(volumeBelowField(brick, field), (sum * 0.06) / (n * n), 2e-4);
    }
  });

  test("a block over the whole floor is buried by the volume of the bed", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 300 }), { minLength: 20, maxLength: 20 }), (heights) => {
        const field = {
          length: 1,
          width: 0.6,
          columns: 5,
          rows: 4,
          heights: Float64Array.from(heights, (h) => h / 1000),
        };
        const block = placeMesh(box(1, 0.6, 0.4), {});
        within(volumeBelowField(block, field), fieldVolume(field), 1e-9);
        // And below a cap the bed below it.
        const capped = volumeBelowField(block, field, 0.1);
        expect(capped).toBeLessThanOrEqual(volumeBelowField(block, field) + 1e-12);
        expect(capped).toBeLessThanOrEqual(0.06 + 1e-12);
      }),
      { numRuns: 10 },
    );
  });

  test("ground that lies just at the cap counts once", () => {
    expect(volumeBelowField(box(1, 0.6, 0.4), flat(0.1), 0.1)).toBeCloseTo(0.06, 12);
    expect(volumeBelowField(box(1, 0.6, 0.4), flat(0.2), 0.1)).toBeCloseTo(0.06, 12);
  });

  test("beyond the panes the ground goes on", () => {
    const brick = placeMesh(box(0.2, 0.2, 0.2), { shift: [-0.1, -0.1, 0] });
    within(volumeBelowField(brick, flat(0.05)), 0.04 * 0.05, 1e-9);
  });
});

describe("parted by ground and water", () => {
  test("what is buried, wet and dry makes the whole; a post shows each", () => {
    const post = placeMesh(box(0.1, 0.1, 0.5), { shift: [0.2, 0.2, 0] });
    const parts = partSolid(post, flat(0.1), 0.4);
    expect(parts).toEqual({
      volume: expect.closeTo(0.005, 12),
      buried: expect.closeTo(0.001, 12),
      inWater: expect.closeTo(0.003, 12),
      inAir: expect.closeTo(0.001, 12),
    });
    // Ground above the water line: no water there, so nothing is displaced.
    const shore = partSolid(post, flat(0.45), 0.4);
    expect(shore.inWater).toBeCloseTo(0, 12);
    expect(shore.buried).toBeCloseTo(0.0045, 12);
    const ball = icosphere(8);
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 0.5, noNaN: true }),
        fc.double({ min: 0, max: 0.4, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (water, high, x) => {
          const stone = placeMesh(ball, { scale: [0.2, 0.1, 0.15], shift: [x, 0.3, 0.2], turn: 20 });
          const bank = fieldFrom({ length: 1, width: 0.6, columns: 6, rows: 4 }, (u, v) => high * u * v);
          const { volume, buried, inWater, inAir } = partSolid(stone, bank, water);
          expect(Math.min(buried, inWater, inAir)).toBeGreaterThan(-1e-7 * volume);
          expect(buried + inWater + inAir).toBeCloseTo(volume, 12);
        },
      ),
      { numRuns: 40 },
    );
    expect(() => partSolid(post, flat(0.1), Number.NaN)).toThrow(RangeError);
  });
});
