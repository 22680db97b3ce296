/**
 * The four reference scenes: figures computed for them with general tools, none of which this room shares code with. MC =
 * an analog photon tracer in C, 3e8 photons (standard error 0.12 % for a pair of cells); IM = image method, 120 x 36
 * emitters; RAD = Radiance 5.4a, PBRT = pbrt-v3, both general renderers. Unit flux, figures in 1/m2.
 * Tolerances: means 0.5 %, cells 1.5 % (the general renderers' own noise is 0.15 to 0.5 %) plus three times the stated
 * noise of this trace, terms of the budget 0.001.
 */
import { describe, expect, test } from "vitest";
import type { Budget } from "./budget.ts";
import { trace } from "./index.ts";
import type { Scene } from "./scene.ts";
import { block, cellAt, layerMeans, meanOf, sumOf, tank } from "./scenes.testing.ts";

const layers = { columns: 6, rows: 3, layers: 12 };
const dull = (albedo: number) => ({ albedo: [albedo] });
const bare = { left: "bare", right: "bare", front: "bare", back: "bare" } as const;

type Cells = readonly (readonly [x: number, y: number, ...figures: number[]])[];

/** Mean of a cell and its mirror images where the scene has them. */
function pair(map: Float64Array, scene: Scene, x: number, y: number, mirrors: "x" | "xy" | "none"): number {
  const xs = mirrors === "none" ? [x] : [x, -x];
  const ys = mirrors === "xy" ? [y, -y] : [y];
  return meanOf(xs.flatMap((px) => ys.map((py) => cellAt(map, scene, px, py))));
}

function held(
  scene: Scene,
  cells: Cells,
  mirrors: "x" | "xy" | "none",
  mean: readonly number[],
  budget: Partial<Budget>,
  photons: number,
): ReturnType<typeof trace>["lamps"][number] {
  const lamp = trace(scene, { photons, seed: 7, directNoise: 0.002 }).lamps[0]!;
  const map = lamp.ground[0]!;
  for (const figure of mean) expect(Math.abs(meanOf(map) / figure - 1)).toBeLessThan(0.005);
  for (const [x, y, ...figures] of cells) {
    const value = pair(map, scene, x, y, mirrors);
    for (const figure of figures) {
      const off = Math.abs(value / figure - 1);
      expect(off, `cell ${x}, ${y}: ${value} for ${figure}`).toBeLessThan(0.015 + 3 * lamp.noise.total);
    }
  }
  for (const [term, share] of Object.entries(budget)) {
    const value = lamp.budget[0]![term as keyof Budget];
    expect(Math.abs(value - share), `${term} ${value} for ${share}`).toBeLessThan(0.001);
  }
  expect(Math.abs(sumOf(Object.values(lamp.budget[0]!)) - 1)).toBeLessThan(1e-12);
  expect(Math.abs(lamp.budget[0]!.balance)).toBeLessThan(5e-6);
  return lamp;
}

function heldLayers(water: Float64Array, figures: readonly number[]): void {
  layerMeans(water, figures.length).forEach((value, k) => {
    expect(Math.abs(value / figures[k]! - 1), `layer ${k + 1}: ${value}`).toBeLessThan(0.01);
  });
}

describe("reference scenes, traced with general renderers and an independent tracer", () => {
  test("B0: clear water, black floor", () => {
    const cells: Cells = [
      // IM, MC, RAD, PBRT where it was run
      [0.01, 0, 3.288, 3.291, 3.293, 3.289],
      [0.11, 0, 3.349, 3.349, 3.355],
      [0.19, 0, 3.5, 3.499, 3.508, 3.503],
      [0.29, 0, 3.43, 3.426, 3.429],
      [0.01, 0.14, 3.132, 3.132, 3.133],
      [0.29, 0.14, 3.476, 3.477, 3.462, 3.486],
    ];
    const budget = { spill: 0.37145, reflected: 0.01717, left: 0.0021, right: 0.0021, ground: 0.60716 };
    const lamp = held(tank({ water: layers }), cells, "xy", [3.3731, 3.3736], budget, 1.5e6);
    // Front and back leak nothing: the panel's far edge lies nearer than where the wall's limit is reached.
    expect([lamp.budget[0]!.front, lamp.budget[0]!.back]).toEqual([0, 0]);
    expect(Math.min(...lamp.ground[0]!)).toBeGreaterThan(3.075 * 0.985);
    expect(Math.max(...lamp.ground[0]!)).toBeLessThan(3.541 * 1.015);
    const tops = layerMeans(lamp.water[0]!, 12);
    expect(Math.abs(tops[0]! / 3.798 - 1)).toBeLessThan(0.01);
    expect(Math.abs(tops[11]! / 3.769 - 1)).toBeLessThan(0.01);
  });

  test("B1: 0.4 1/m, black floor", () => {
    const cells: Cells = [
      [0.01, 0, 2.887, 2.892, 2.883, 2.878],
      [0.11, 0, 2.931, 2.929, 2.933],
      [0.19, 0, 3.052, 3.053, 3.054],
      [0.29, 0, 2.986, 2.986, 2.981],
      [0.01, 0.14, 2.756, 2.759, 2.751],
      [0.29, 0.14, 3.03, 3.032, 3.026, 3.013],
    ];
    const scene = tank({ bands: [{ absorption: 0.4 }], water: layers });
    const budget = { water: 0.07633, left: 0.00201, right: 0.00202, ground: 0.531 };
    const lamp = held(scene, cells, "xy", [2.95, 2.9485], budget, 1e6);
    heldLayers(lamp.water[0]!, [3.776, 3.728, 3.681, 3.635, 3.591, 3.548, 3.506, 3.465, 3.426, 3.387, 3.349, 3.312]);
  });

  test("C1: floor 0.30, back wall opaque 0.50", () => {
    const cells: Cells = [
      [0.01, 0, 2.425, 2.444, 2.418],
      [0.11, 0, 2.481, 2.495, 2.483],
      [0.19, 0, 2.574, 2.59, 2.567],
      [0.29, 0, 2.524, 2.534, 2.505],
      [0.01, 0.14, 1.604, 1.617, 1.6],
      [0.01, -0.14, 2.829],
      [0.29, 0.14, 1.724, 1.731, 1.725],
      [0.29, -0.14, 3.124, 3.123],
    ];
    const scene = tank({
      bands: [{ absorption: 0.4 }],
      walls: { ...bare, back: dull(0.5) },
      materials: [dull(0.3)],
      water: layers,
    });
    const budget = {
      top: 0.05625,
      left: 0.0172,
      right: 0.01721,
      front: 0.04138,
      water: 0.09196,
      ground: 0.30817,
      walls: 0.07917,
    };
    const lamp = held(scene, cells, "x", [2.4458, 2.446], budget, 1e6);
    expect(Math.abs(meanOf(lamp.ground[0]!) * 0.18 - 0.44025)).toBeLessThan(0.001);
    heldLayers(lamp.water[0]!, [4.719, 4.592, 4.472, 4.362, 4.263, 4.179, 4.111, 4.062, 4.035, 4.035, 4.074, 4.183]);
  });

  test("D1: floor 0.20, back wall 0.05, a block of 0.15", () => {
    const cells: Cells = [
      [0.01, 0, 2.328, 2.327, 2.322],
      [0.11, 0, 2.376, 2.373],
      [-0.25, 0, 1.953, 1.951, 1.96],
      [-0.21, 0, 1.05, 1.051, 1.058],
      [0.25, 0, 2.444, 2.434],
      [-0.13, -0.1, 2.974, 2.967],
      [-0.13, 0.1, 1.318, 1.32],
      [0.29, 0.14, 1.582, 1.576],
    ];
    const scene = tank({
      bands: [{ absorption: 0.4 }],
      walls: { ...bare, back: dull(0.05) },
      materials: [dull(0.2), dull(0.15)],
      solids: [{ mesh: block([0.1, 0.1, 0], [0.25, 0.22, 0.12]), material: 1 }],
    });
    const budget = { top: 0.02911, left: 0.00737, right: 0.00823, front: 0.01023, water: 0.07367, ground: 0.28836 };
    const lamp = held(scene, cells, "none", [2.0025, 2.0024], budget, 1e6);
    expect(Math.abs(lamp.budget[0]!.solids + lamp.budget[0]!.walls - 0.19437)).toBeLessThan(0.001);
    // Cells under the block are dark.
    expect(cellAt(lamp.ground[0]!, scene, -0.13, 0.01)).toBe(0);
  });
});
