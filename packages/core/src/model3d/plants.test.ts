import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Leaf, PlantForm } from "../drawing/index.ts";
import { createRandom } from "../numerics/index.ts";
import { growPlant } from "./plants/grow.ts";

const forms: readonly PlantForm[] = ["stem", "rosette", "runner", "carpet", "moss", "bulb", "rhizome", "floating"];
const leaves: readonly Leaf[] = ["ribbon", "fern", "lobed", "oval", "needle", "round"];

const grown = (form: PlantForm, leaf: Leaf, height: number, spread: number, room: number, seed = 3, detail = 1) => {
  const random = createRandom(seed);
  return growPlant({ form, leaf, height, spread, room, detail, random: () => random.uniform() });
};

/** Lowest and highest corner, and the furthest from the axis. */
function extentsOf(positions: Float32Array): { low: number; high: number; out: number } {
  let [low, high, out] = [Infinity, -Infinity, 0];
  for (let k = 0; k < positions.length; k += 3) {
    low = Math.min(low, positions[k + 2]!);
    high = Math.max(high, positions[k + 2]!);
    out = Math.max(out, Math.hypot(positions[k]!, positions[k + 1]!));
  }
  return { low, high, out };
}

describe("every growth form with every leaf", () => {
  for (const form of forms) {
    for (const leaf of leaves) {
      test(`${form}, ${leaf}: whole, finite, and as large as it is said to be`, () => {
        const { positions, marks, triangles } = grown(form, leaf, 0.12, 0.08, 0.33);
        expect(triangles.length / 3).toBeGreaterThanOrEqual(40);
        // plants are drawn hundreds of times: more would stop a small computer
        expect(triangles.length / 3).toBeLessThan(9000);
        expect(marks.length / 4).toBe(positions.length / 3);
        expect(positions.every(Number.isFinite) && marks.every(Number.isFinite)).toBe(true);
        expect(Math.max(...triangles)).toBe(positions.length / 3 - 1);
        const { low, high, out } = extentsOf(positions);
        if (form === "floating") {
          expect(low).toBeLessThan(-0.06);
          expect(low).toBeGreaterThan(-0.125);
          expect(high).toBeLessThan(0.05);
        } else {
          // a cushion of moss is no higher than its width lets it be
          expect(high).toBeGreaterThan(form === "moss" ? 0.07 : 0.119);
          expect(high).toBeLessThan(0.121);
          expect(low).toBeGreaterThan(-0.03);
        }
        // half of its width, and what arches over it
        expect(out).toBeGreaterThan(form === "runner" ? 0.015 : 0.03);
        expect(out).toBeLessThan(form === "runner" && leaf === "ribbon" ? 0.08 : 0.065);
      });
    }
  }

  test("any size gives finite plants that keep below the surface", () => {
    const size = fc.double({ min: 0.003, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        fc.constantFrom(...forms),
        fc.constantFrom(...leaves),
        size,
        size,
        fc.double({ min: 0.02, max: 0.8, noNaN: true }),
        (form, leaf, height, spread, room) => {
          const { positions, triangles } = grown(form, leaf, height, spread, room);
          expect(triangles.length).toBeGreaterThan(0);
          expect(positions.every(Number.isFinite)).toBe(true);
          // an edge of a plant that is pressed as far as it may be can stand over the surface; the picture lays it down
          if (form !== "floating") expect(extentsOf(positions).high).toBeLessThan(room * 1.25 + 0.01);
        },
      ),
      { numRuns: 300, seed: 11 },
    );
  });

  test("the same seed grows the same plant, another seed another", () => {
    for (const form of forms) {
      expect(grown(form, "oval", 0.1, 0.06, 0.3, 5).positions).toEqual(
        grown(form, "oval", 0.1, 0.06, 0.3, 5).positions,
      );
      expect(grown(form, "oval", 0.1, 0.06, 0.3, 6).positions).not.toEqual(
        grown(form, "oval", 0.1, 0.06, 0.3, 5).positions,
      );
    }
  });

  test("one of a crowd is drawn with fewer triangles, and as high", () => {
    // needles are as plain as they can be from the start
    for (const leaf of leaves.filter((kind) => kind !== "needle")) {
      const [near, far] = [grown("stem", leaf, 0.2, 0.06, 0.3, 3, 1), grown("stem", leaf, 0.2, 0.06, 0.3, 3, 0.4)];
      expect(far.triangles.length).toBeLessThan(0.75 * near.triangles.length);
      expect(extentsOf(far.positions).high).toBeCloseTo(extentsOf(near.positions).high, 3);
    }
  });

  test("a height, spread or room of nothing is refused by name", () => {
    expect(() => grown("stem", "oval", 0, 0.06, 0.3)).toThrow(/height 0 m/);
    expect(() => grown("stem", "oval", 0.1, Number.NaN, 0.3)).toThrow(/spread NaN m/);
    expect(() => grown("stem", "oval", 0.1, 0.06, -1)).toThrow(/room -1 m/);
  });
});

describe("a long ribbon", () => {
  test("lies down along the surface where it is longer than the water is deep", () => {
    const short = extentsOf(grown("runner", "ribbon", 0.2, 0.05, 0.3).positions);
    const long = extentsOf(grown("runner", "ribbon", 0.5, 0.05, 0.3).positions);
    expect(long.high).toBeLessThan(0.31);
    expect(long.out).toBeGreaterThan(3 * short.out);
  });
});
