import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Leaf, PlantForm, Point2, ScapeZone } from "../drawing/index.ts";
import { fieldFrom, fieldHeight, outlineContains } from "../geometry/index.ts";
import { type Mesh, placeMesh, stoneMesh } from "../solids/index.ts";
import { coverOf, floorCover, floorGrid, isTaken } from "./columns.ts";
import { type Site, standsOf } from "./placement.ts";

const ground = fieldFrom({ length: 0.6, width: 0.3, columns: 21, rows: 11 }, (x, y) => 0.03 + 0.1 * y + 0.02 * x);
/** A ring of corners about a middle, m. */
const oval = (x: number, y: number, a: number, b: number): Point2[] =>
  Array.from({ length: 20 }, (_, k) => {
    const angle = (2 * Math.PI * k) / 20;
    return [x + a * Math.cos(angle), y + b * Math.sin(angle)];
  });

const site: Site = { ground, waterLine: 0.35, seed: 4, taken: () => false, piece: null };

const zone = (change: Partial<ScapeZone> = {}): ScapeZone => ({
  index: 0,
  key: "A",
  label: "a plant",
  form: "carpet" as PlantForm,
  leaf: "oval" as Leaf,
  outline: oval(0.3, 0.15, 0.2, 0.1),
  height: 0.04,
  cover: 0.6,
  on: null,
  spread: 0.025,
  ...change,
});

const stoneAt = (x: number, y: number, z: number): Mesh =>
  placeMesh(stoneMesh({ width: 0.12, breadth: 0.1, height: 0.09, shape: "rounded", seed: 2 }).mesh, {
    shift: [x, y, z],
  });

describe("plants over their outline", () => {
  test("stand inside it, on the ground, the same for the same seed", () => {
    const stands = standsOf(zone(), site);
    expect(stands.length).toBeGreaterThan(60);
    for (const { at } of stands) {
      expect(outlineContains(zone().outline, [at[0], at[1]])).toBe(true);
      expect(at[2]).toBeCloseTo(fieldHeight(ground, at[0], at[1]), 12);
    }
    expect(standsOf(zone(), site)).toEqual(stands);
    expect(standsOf(zone(), { ...site, seed: 5 })).not.toEqual(stands);
    expect(standsOf(zone({ index: 1 }), site)).not.toEqual(stands);
  });

  test("any star-shaped outline keeps its plants inside", () => {
    const star = fc.array(fc.double({ min: 0.01, max: 0.14, noNaN: true }), { minLength: 3, maxLength: 14 });
    fc.assert(
      fc.property(star, fc.double({ min: 0, max: 1, noNaN: true }), (reach, cover) => {
        const outline = reach.map((r, k): Point2 => {
          const a = (2 * Math.PI * k) / reach.length;
          return [0.3 + r * Math.cos(a), 0.15 + r * Math.sin(a)];
        });
        const stands = standsOf(zone({ outline, cover }), site);
        expect(stands.length).toBeLessThanOrEqual(600);
        for (const { at } of stands) expect(outlineContains(outline, [at[0], at[1]])).toBe(true);
      }),
      { numRuns: 150, seed: 3 },
    );
  });

  test("more cover adds plants and leaves the others where they are; none has none", () => {
    const few = standsOf(zone({ cover: 0.2 }), site);
    const many = standsOf(zone({ cover: 0.8 }), site);
    expect(many.length).toBeGreaterThan(2 * few.length);
    expect(many.slice(0, few.length)).toEqual(few);
    expect(standsOf(zone({ cover: 0 }), site)).toEqual([]);
    expect(standsOf(zone({ cover: 1e-6 }), site)).toHaveLength(1);
  });

  test("spread evenly: each quarter of an oval has about a quarter of them", () => {
    const stands = standsOf(zone({ cover: 1 }), site);
    for (const [right, back] of [
      [0, 0],
      [0, 1],
      [1, 0],
      [1, 1],
    ]) {
      const share =
        stands.filter(({ at }) => Number(at[0] > 0.3) === right && Number(at[1] > 0.15) === back).length /
        stands.length;
      expect(share).toBeGreaterThan(0.17);
      expect(share).toBeLessThan(0.33);
    }
  });

  test("a huge area is drawn with fewer and broader plants", () => {
    const stands = standsOf(zone({ spread: 0.005, cover: 1 }), site);
    expect(stands.length).toBeLessThanOrEqual(600);
    expect(stands[0]!.broad).toBeGreaterThan(1.5);
  });

  test("floating ones lie on the water line, above stones too", () => {
    const stands = standsOf(zone({ form: "floating", leaf: "round" }), { ...site, taken: () => true });
    expect(stands.length).toBeGreaterThan(0);
    expect(stands.every(({ at }) => at[2] === 0.35)).toBe(true);
  });
});

describe("plants and pieces", () => {
  const stone = stoneAt(0.3, 0.15, 0.03);

  test("on a piece: on its surface, on its upper side, above the ground", () => {
    const stands = standsOf(zone({ form: "moss", on: 0, height: 0.015, spread: 0.02 }), { ...site, piece: stone });
    expect(stands.length).toBeGreaterThan(4);
    for (const { at, up } of stands) {
      expect(up[2]).toBeGreaterThan(0.5);
      expect(Math.hypot(...up)).toBeCloseTo(1, 9);
      expect(at[2]).toBeGreaterThan(fieldHeight(ground, at[0], at[1]) - 0.01);
      expect(distanceTo(stone, at)).toBeLessThan(1e-9);
    }
  });

  test("in the ground: none where a stone lies", () => {
    const grid = floorGrid({ length: 0.6, width: 0.3 });
    const floor = floorCover([coverOf(stone, [0, 0, 0], grid)], ground, grid);
    expect(isTaken(floor, grid, 0.3, 0.15)).toBe(true);
    expect(isTaken(floor, grid, 0.1, 0.15)).toBe(false);
    const free = standsOf(zone(), { ...site, taken: (x, y) => isTaken(floor, grid, x, y) });
    expect(free.some(({ at }) => Math.hypot(at[0] - 0.3, at[1] - 0.15) < 0.03)).toBe(false);
    expect(standsOf(zone(), site).some(({ at }) => Math.hypot(at[0] - 0.3, at[1] - 0.15) < 0.03)).toBe(true);
  });

  test("a piece without a free upper side carries none", () => {
    expect(standsOf(zone({ on: 0 }), { ...site, piece: stoneAt(0.3, 0.15, -0.5) })).toEqual([]);
  });
});

/** Distance of a place from the planes of the triangles over which it lies, m. */
function distanceTo({ positions, triangles }: Mesh, [x, y, z]: readonly [number, number, number]): number {
  let least = Infinity;
  const corner = (k: number) => [0, 1, 2].map((axis) => positions[3 * k + axis]!) as [number, number, number];
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [corner(triangles[t]!), corner(triangles[t + 1]!), corner(triangles[t + 2]!)];
    const whole = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
    const v = ((x - a[0]) * (c[1] - a[1]) - (y - a[1]) * (c[0] - a[0])) / whole;
    const w = ((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) / whole;
    if (v < -1e-9 || w < -1e-9 || v + w > 1 + 1e-9) continue;
    least = Math.min(least, Math.abs(a[2] + (b[2] - a[2]) * v + (c[2] - a[2]) * w - z));
  }
  return least;
}
