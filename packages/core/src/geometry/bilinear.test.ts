import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { aboveLevel, type Corners, heightAt, meanHeight, slopes } from "./bilinear.ts";

// Whole micrometres: fine enough for any bed, and levels that just meet corners come up often.
const micrometres = (min: number, max: number) => fc.integer({ min, max }).map((n) => n * 1e-6);
const height = micrometres(0, 400_000);
const corners: fc.Arbitrary<Corners> = fc.record({
  frontLeft: height,
  frontRight: height,
  backLeft: height,
  backRight: height,
});

/** Midpoint sums on a grid, as an independent way to the same figures. */
function quadrature(c: Corners, level: number, n = 400) {
  let mean = 0;
  let share = 0;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      const h = heightAt(c, (i + 0.5) / n, (j + 0.5) / n) - level;
      if (h > 0) {
        mean += h;
        share += 1;
      }
    }
  }
  return { mean: mean / (n * n), share: share / (n * n) };
}

describe("a surface from four corners", () => {
  test("mean and what stands above a level agree with a fine grid", () => {
    fc.assert(
      fc.property(corners, micrometres(0, 450_000), (c, level) => {
        const exact = aboveLevel(c, level);
        const grid = quadrature(c, level, 200);
        expect(Math.abs(exact.mean - grid.mean)).toBeLessThan(1e-5);
        // A grid of 200 x 200 finds the border to about a cell: 1/200 of the area, more where it is nearly level.
        expect(Math.abs(exact.share - grid.share)).toBeLessThan(0.02);
        expect(Math.abs(meanHeight(c) - quadrature(c, 0, 50).mean)).toBeLessThan(1e-12);
      }),
      { numRuns: 60 },
    );
  });

  test("share is the slope of the mean against the level", () => {
    fc.assert(
      fc.property(corners, micrometres(20_000, 380_000), (c, level) => {
        const step = 1e-6;
        const slope = (aboveLevel(c, level - step).mean - aboveLevel(c, level + step).mean) / (2 * step);
        const { share } = aboveLevel(c, level);
        const spread = aboveLevel(c, level - 2 * step).share - aboveLevel(c, level + 2 * step).share;
        expect(Math.abs(slope - share)).toBeLessThan(1e-6 + Math.abs(spread));
      }),
    );
  });

  test("known wedges: a plane half under water, a corner, a saddle", () => {
    const plane = { frontLeft: 0, frontRight: 0, backLeft: 0.2, backRight: 0.2 };
    expect(aboveLevel(plane, 0.1)).toEqual({ mean: expect.closeTo(0.025, 12), share: expect.closeTo(0.5, 12) });
    const tilted = { frontLeft: 0, frontRight: 0.2, backLeft: 0, backRight: 0.2 };
    expect(aboveLevel(tilted, 0.1)).toEqual({ mean: expect.closeTo(0.025, 12), share: expect.closeTo(0.5, 12) });
    // h = 4 u v above 1: share = 1 - (1 + ln 4)/4; mean = [u2 - u + ln(u)/8] from 1/4 to 1 = 3/16 + ln(4)/8.
    const corner = { frontLeft: 0, frontRight: 0, backLeft: 0, backRight: 4 };
    const share = 1 - (1 + Math.log(4)) / 4;
    const mean = 3 / 16 + Math.log(4) / 8;
    const got = aboveLevel(corner, 1);
    expect(got.share).toBeCloseTo(share, 12);
    expect(got.mean).toBeCloseTo(mean, 12);
    const saddle = { frontLeft: 1, frontRight: 0, backLeft: 0, backRight: 1 };
    expect(aboveLevel(saddle, 0.5).share).toBeCloseTo(0.5, 12);
  });

  test("stays within its bounds, even where corners all but meet the level", () => {
    const near = fc.oneof(
      height,
      fc.integer({ min: -6, max: 6 }).map((n) => 0.1 + n * 2 ** -56),
    );
    for (const tiny of [5e-324, 1e-310, 1e-200]) {
      for (const level of [0, tiny]) {
        const corner = aboveLevel({ frontLeft: 0, frontRight: tiny, backLeft: 2 * tiny, backRight: 0 }, level);
        expect(corner.mean).toBeCloseTo(0, 12);
        expect(corner.share).toBeGreaterThanOrEqual(0);
        expect(corner.share).toBeLessThanOrEqual(1);
      }
    }
    const nearCorners = fc.record({ frontLeft: near, frontRight: near, backLeft: near, backRight: near });
    fc.assert(
      fc.property(nearCorners, (c) => {
        const { mean, share } = aboveLevel(c, 0.1);
        expect(share).toBeGreaterThanOrEqual(-1e-12);
        expect(share).toBeLessThanOrEqual(1 + 1e-12);
        expect(mean).toBeGreaterThanOrEqual(-1e-15);
        expect(mean).toBeLessThanOrEqual(0.3 * share + 1e-12);
      }),
      { numRuns: 2000 },
    );
  });

  test("all above and all below", () => {
    const c = { frontLeft: 0.1, frontRight: 0.12, backLeft: 0.2, backRight: 0.15 };
    expect(aboveLevel(c, 0.3)).toEqual({ mean: 0, share: 0 });
    expect(aboveLevel(c, 0)).toEqual({ mean: expect.closeTo(meanHeight(c), 14), share: expect.closeTo(1, 14) });
  });

  test("slopes of a plane are its angles, and no place is less steep than the mean", () => {
    const rise = Math.tan((20 * Math.PI) / 180) * 0.4;
    const plane = slopes(
      { frontLeft: 0.03, frontRight: 0.03, backLeft: 0.03 + rise, backRight: 0.03 + rise },
      0.6,
      0.4,
    );
    expect(plane.frontToBack).toBeCloseTo(20, 10);
    expect(plane.leftToRight).toBe(0);
    expect(plane.steepest).toBeCloseTo(20, 10);
    fc.assert(
      fc.property(corners, (c) => {
        const s = slopes(c, 0.6, 0.4);
        expect(s.steepest + 1e-9).toBeGreaterThanOrEqual(Math.abs(s.frontToBack));
        expect(s.steepest + 1e-9).toBeGreaterThanOrEqual(Math.abs(s.leftToRight));
      }),
    );
  });
});
