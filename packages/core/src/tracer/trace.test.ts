import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fieldFrom } from "../geometry/index.ts";
import { createTrace, type Scene, trace, weigh } from "./index.ts";
import { createPaths, createTallies } from "./paths.ts";
import { prepare } from "./prepare.ts";
import { rapidRandom } from "./rapid-random.ts";
import { block, meanOf, panel, sumOf, tank } from "./scenes.testing.ts";

const bands = [{ absorption: 0.02 }, { absorption: 0.4 }, { absorption: 2 }];
const lively: Scene = tank({
  bands,
  walls: { left: "bare", right: "bare", front: "bare", back: { albedo: [0.5, 0.4, 0.3] } },
  materials: [{ albedo: [0.3, 0.2, 0.1] }, { albedo: [0.1, 0.2, 0.6] }],
  ground: fieldFrom({ length: 0.6, width: 0.3, columns: 7, rows: 4 }, (x, y) => 0.02 + 0.2 * y + 0.03 * x),
  solids: [{ mesh: block([0.2, 0.1, 0], [0.3, 0.2, 0.15]), material: 1 }],
  water: {
    columns: 6,
    rows: 3,
    layers: 4,
    leaves: { density: new Float64Array(72).fill(2), absorptance: [0.8, 0.7, 0.6] },
  },
  lamps: [panel([0.2, 0.15, 0.45], 0.2, 0.1, 0.3), panel([0.45, 0.1, 0.4], 0.1, 0.1, 0.3)],
});

describe("a trace", () => {
  test("the same seed gives the same result to the bit, in one go or piece by piece; another seed another", () => {
    const options = { photons: 2e4, directNoise: 0.02, seed: 11 };
    const whole = trace(lively, options);
    const task = createTrace(lively, options);
    let pieces = 1;
    let shares = 0;
    for (;;) {
      const { result, share, lamps } = task.step(pieces);
      expect(share).toBeGreaterThanOrEqual(shares);
      expect(share).toBeLessThanOrEqual(1);
      shares = share;
      pieces = (pieces % 7) + 1;
      if (!result) continue;
      expect([share, lamps]).toEqual([1, 2]);
      expect(result).toEqual(whole);
      break;
    }
    const other = trace(lively, { ...options, seed: 12 });
    expect(other.lamps[0]!.diffuse[0]).not.toEqual(whole.lamps[0]!.diffuse[0]);
    for (const lamp of whole.lamps) {
      for (const map of [...lamp.ground, ...lamp.slope, ...lamp.water, ...lamp.solids])
        expect(map.every((value) => Number.isFinite(value) && value >= 0)).toBe(true);
    }
  });

  test("energy closes to 1e-12 in every band of any tank", () => {
    const albedo = fc.double({ min: 0, max: 1, noNaN: true });
    const optics = fc.record({
      absorption: fc.double({ min: 0, max: 5, noNaN: true }),
      scattering: fc.constantFrom(0, 0.5, 8),
      asymmetry: fc.constantFrom(0, 0.9, -0.4),
    });
    fc.assert(
      fc.property(
        fc.array(optics, { minLength: 1, maxLength: 3 }),
        albedo,
        albedo,
        fc.boolean(),
        fc.boolean(),
        fc.integer(),
        (water, ground, solid, leaves, emergent, seed) => {
          const each = <T>(value: T): T[] => water.map(() => value);
          const scene = tank({
            bands: water,
            walls: { left: "bare", right: { albedo: each(0.5) }, front: "bare", back: "bare" },
            materials: [{ albedo: each(ground) }, { albedo: each(solid) }],
            ground: fieldFrom({ length: 0.6, width: 0.3, columns: 4, rows: 3 }, (x, y) => 0.1 + 0.2 * y - 0.1 * x),
            solids: [{ mesh: block([0.2, 0.1, 0], [0.3, 0.2, emergent ? 0.34 : 0.2]), material: 1 }],
            water: leaves
              ? {
                  columns: 3,
                  rows: 3,
                  layers: 3,
                  leaves: { density: new Float64Array(27).fill(4), absorptance: each(0.6) },
                }
              : null,
          });
          const { budget } = trace(scene, { photons: 4096, mode: "forward", seed }).lamps[0]!;
          for (const terms of budget) {
            expect(Math.abs(sumOf(Object.values(terms)) - 1)).toBeLessThan(1e-12);
            for (const [term, share] of Object.entries(terms))
              if (term !== "balance") expect(share).toBeGreaterThanOrEqual(0);
          }
        },
      ),
      { numRuns: 40, seed: 1 },
    );
  });

  test("split and forward agree on everything, each band", () => {
    const scene = { ...lively, lamps: lively.lamps.slice(0, 1) };
    const split = trace(scene, { photons: 1.5e5, directNoise: 0.006 }).lamps[0]!;
    const paths = trace(scene, { photons: 2.5e5, mode: "forward", seed: 9 }).lamps[0]!;
    bands.forEach((_, b) => {
      expect(Math.abs(meanOf(split.ground[b]!) / meanOf(paths.ground[b]!) - 1)).toBeLessThan(0.008);
      expect(Math.abs(meanOf(split.slope[b]!) / meanOf(paths.slope[b]!) - 1)).toBeLessThan(0.008);
      expect(Math.abs(meanOf(split.water[b]!) / meanOf(paths.water[b]!) - 1)).toBeLessThan(0.008);
      expect(Math.abs(split.solids[b]![0]! / paths.solids[b]![0]! - 1)).toBeLessThan(0.02);
    });
    const rms = Math.sqrt(meanOf(split.ground[1]!.map((v, k) => (v - paths.ground[1]![k]!) ** 2)));
    // Stated noise is that of all bands together, so one band may have somewhat more.
    expect(rms / meanOf(split.ground[1]!)).toBeLessThan(1.5 * paths.noise.total);
  });

  test("the direct light of the budget, by paths, is that of the mirror images", () => {
    const scene = { ...lively, lamps: lively.lamps.slice(0, 1) };
    const p = prepare(scene);
    const tallies = createTallies(p);
    createPaths(p, [0, 1, 2], false).run(0, 2e5, rapidRandom(5, 0), tallies);
    const images = trace(scene, { photons: 0, directNoise: 0.01 }).lamps[0]!;
    bands.forEach((_, b) => {
      // Flux on the slope of the ground, from level and slope maps of the direct light alone.
      const flux = sumOf(images.slope[b]!) * Math.hypot(1, 0.2, 0.03) * (0.18 / 450);
      expect(Math.abs(tallies.direct[b]! / 2e5 / flux - 1)).toBeLessThan(0.008);
    });
  });

  test("noise falls as one over the square root of the paths, and is what it says", () => {
    const scene = tank({
      bands: [{ absorption: 0.4 }],
      materials: [{ albedo: [0.3] }],
      cells: { columns: 20, rows: 10 },
    });
    const of = (photons: number, seed: number) => trace(scene, { photons, seed, mode: "forward" }).lamps[0]!;
    const truth = trace(scene, { photons: 4e5, seed: 99, directNoise: 0.002 }).lamps[0]!.ground[0]!;
    const rms = (map: Float64Array) => Math.sqrt(meanOf(map.map((v, k) => (v - truth[k]!) ** 2))) / meanOf(truth);
    const counts = [32_768, 131_072, 524_288];
    const found = counts.map((photons, k) => {
      const lamp = of(photons, k + 1);
      const error = rms(lamp.ground[0]!);
      expect(Math.abs(lamp.noise.total / error - 1)).toBeLessThan(0.2);
      return error;
    });
    for (const k of [1, 2]) {
      const ratio = found[k - 1]! / found[k]!;
      expect(ratio).toBeGreaterThan(1.75);
      expect(ratio).toBeLessThan(2.25);
    }
  });

  test("a wanted noise ends the paths early, and the direct light keeps its own", () => {
    const scene = tank({ bands: [{ absorption: 0.4 }], materials: [{ albedo: [0.3] }] });
    const lamp = trace(scene, { photons: 1e7, noise: 0.01 }).lamps[0]!;
    expect(lamp.noise.total).toBeLessThanOrEqual(0.01);
    // Unless it is told otherwise, three quarters of what is wanted.
    expect(lamp.noise.direct).toBeLessThanOrEqual(0.0075);
    expect(lamp.paths).toBeLessThan(1e6);
    const fine = trace(scene, { photons: 5e5, seed: 40, directNoise: 0.002 }).lamps[0]!.ground[0]!;
    const rms = Math.sqrt(meanOf(lamp.ground[0]!.map((v, k) => (v - fine[k]!) ** 2))) / meanOf(fine);
    expect(rms).toBeLessThan(0.013);
  });
});

describe("weighing", () => {
  const result = trace(lively, { photons: 8192, directNoise: 0.05 });
  const by = (dim: number, other: number) =>
    weigh(result, [bands.map((_, b) => dim * (b + 1)), bands.map(() => other)]);

  test("is the sum over lamps and bands, and scales exactly", () => {
    const map = by(60, 25);
    const cell = 217;
    const [one, two] = result.lamps;
    const sum =
      60 * one!.ground[0]![cell]! +
      120 * one!.ground[1]![cell]! +
      180 * one!.ground[2]![cell]! +
      25 * (two!.ground[0]![cell]! + two!.ground[1]![cell]! + two!.ground[2]![cell]!);
    expect(map[cell]).toBeCloseTo(sum, 10);
    expect([...by(120, 50)]).toEqual([...map].map((v) => 2 * v));
    expect(weigh(result, [[1, 1, 1], [0, 0, 0]], "water")).toHaveLength(72); // biome-ignore format: one line
    expect(weigh(result, [[1, 1, 1], [0, 0, 0]], "solids")).toHaveLength(1); // biome-ignore format: one line
  });

  test("refuses weights that do not fit", () => {
    expect(() => weigh(result, [[1, 1, 1]])).toThrow(/2 are needed/);
    expect(() => weigh(result, [[1, 1], [1, 1, 1]])).toThrow(/3 are needed/); // biome-ignore format: one line
    expect(() => weigh(result, [[1, 1, Number.NaN], [1, 1, 1]])).toThrow(/band 3/); // biome-ignore format: one line
  });
});
