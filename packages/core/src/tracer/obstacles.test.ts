import { describe, expect, test } from "vitest";
import { fieldFrom } from "../geometry/index.ts";
import { lampThroughSurface } from "../light/index.ts";
import { trace } from "./index.ts";
import type { Scene } from "./scene.ts";
import { blackWalls, block, cellAt, meanOf, pointLamp, sumOf, tank } from "./scenes.testing.ts";

const cosine = { kind: "lobe", exponent: 1 } as const;

describe("ground", () => {
  const sloped = (height: (x: number, y: number) => number, changes: Partial<Scene> = {}): Scene =>
    tank({
      bands: [{ absorption: 0.4 }],
      materials: [{ albedo: [0.3] }],
      ground: fieldFrom({ length: 0.6, width: 0.3, columns: 13, rows: 7 }, height),
      ...changes,
    });

  test("a level height field is the floor, and at 0.1 m the floor of a tank 0.1 m shallower", () => {
    const options = { photons: 5e4, seed: 2, directNoise: 0.01 };
    const floor = trace(tank({ bands: [{ absorption: 0.4 }], materials: [{ albedo: [0.3] }] }), options).lamps[0]!;
    const field = trace(
      sloped(() => 0),
      options,
    ).lamps[0]!;
    expect([...field.ground[0]!]).toEqual([...floor.ground[0]!]);
    const raised = trace(
      sloped(() => 0.1),
      options,
    ).lamps[0]!;
    const shallow = trace(
      tank({
        box: { length: 0.6, width: 0.3, surface: 0.2, index: 1.333 },
        bands: [{ absorption: 0.4 }],
        materials: [{ albedo: [0.3] }],
        lamps: [{ ...tank().lamps[0]!, emitters: tank().lamps[0]!.emitters.map((e) => ({ ...e, z: e.z - 0.1 })) }],
      }),
      options,
    ).lamps[0]!;
    expect(Math.abs(meanOf(raised.ground[0]!) / meanOf(shallow.ground[0]!) - 1)).toBeLessThan(1e-6);
  });

  test("a bump too small to see takes the uneven ground's own way to the same figures", () => {
    const options = { photons: 1e5, seed: 2, directNoise: 0.006 };
    const floor = trace(
      sloped(() => 0),
      options,
    ).lamps[0]!;
    const bumped = trace(
      sloped((x, y) => 1e-7 * (1 + Math.sin(30 * x) * Math.cos(40 * y))),
      options,
    ).lamps[0]!;
    expect(Math.abs(meanOf(bumped.ground[0]!) / meanOf(floor.ground[0]!) - 1)).toBeLessThan(0.001);
    expect(Math.abs(meanOf(bumped.slope[0]!) / meanOf(floor.slope[0]!) - 1)).toBeLessThan(0.001);
  });

  test("on a slope: mirror images and paths agree, level and along the slope, and the flux on it is the budget's", () => {
    const scene = sloped((x, y) => 0.02 + 0.35 * y + 0.02 * Math.sin(9 * x));
    const split = trace(scene, { photons: 2e5, smooth: false }).lamps[0]!;
    const paths = trace(scene, { photons: 6e5, mode: "forward", seed: 5 }).lamps[0]!;
    expect(Math.abs(meanOf(split.ground[0]!) / meanOf(paths.ground[0]!) - 1)).toBeLessThan(0.004);
    expect(Math.abs(meanOf(split.slope[0]!) / meanOf(paths.slope[0]!) - 1)).toBeLessThan(0.004);
    const rms = Math.sqrt(meanOf(split.ground[0]!.map((v, k) => (v - paths.ground[0]![k]!) ** 2)));
    const noise = Math.hypot(split.noise.total, paths.noise.total);
    expect(rms / meanOf(split.ground[0]!)).toBeLessThan(1.2 * noise);
    expect(meanOf(split.slope[0]!) / meanOf(split.ground[0]!)).toBeLessThan(0.98);
  });

  test("ground steeper than the light shades itself", () => {
    // A ridge with sides of 63 degrees: mirror images with lines of sight against paths.
    const scene = sloped((x) => Math.max(0.02, 0.2 - 2 * Math.abs(x - 0.3)), {
      ground: fieldFrom({ length: 0.6, width: 0.3, columns: 25, rows: 3 }, (x) =>
        Math.max(0.02, 0.2 - 2 * Math.abs(x - 0.3)),
      ),
      lamps: [pointLamp(0.1, 0.15, 0.4, cosine)],
      materials: [{ albedo: [0] }],
    });
    const split = trace(scene, { photons: 0 }).lamps[0]!.ground[0]!;
    const paths = trace(scene, { photons: 5e5, mode: "forward" }).lamps[0]!.ground[0]!;
    const lee = (map: Float64Array) => meanOf([0.06, 0.08, 0.1].map((x) => cellAt(map, scene, x, 0)));
    const luff = (map: Float64Array) => meanOf([-0.06, -0.08, -0.1].map((x) => cellAt(map, scene, x, 0)));
    expect(Math.abs(meanOf(split) / meanOf(paths) - 1)).toBeLessThan(0.007);
    expect(lee(split)).toBeLessThan(0.3 * luff(split));
    expect(Math.abs(luff(split) / luff(paths) - 1)).toBeLessThan(0.05);
  });

  test("a bank out of the water is lit through the air, without bending or absorption", () => {
    const bank = (x: number) => Math.min(0.36, Math.max(0.05, 0.05 + 3 * (x - 0.45)));
    const scene = sloped(bank, {
      bands: [{ absorption: 5 }],
      ground: fieldFrom({ length: 0.6, width: 0.3, columns: 61, rows: 3 }, bank),
      materials: [{ albedo: [0.2] }],
      lamps: [pointLamp(0.5, 0.15, 0.6, cosine)],
    });
    const split = trace(scene, { photons: 2e5, smooth: false }).lamps[0]!;
    // Point lamp over a level place in air: I cos / r2, with the cosine lobe cos4/(pi H2).
    const cell = cellAt(split.ground[0]!, scene, 0.27, 0.0001) - cellAt(split.diffuse[0]!, scene, 0.27, 0.0001);
    const [dx, h] = [0.07, 0.24];
    const closed = h ** 4 / (dx * dx + h * h) ** 2 / (Math.PI * h * h);
    expect(Math.abs(cell / closed - 1)).toBeLessThan(0.004);
    const paths = trace(scene, { photons: 5e5, mode: "forward", seed: 5 }).lamps[0]!;
    expect(Math.abs(meanOf(split.ground[0]!) / meanOf(paths.ground[0]!) - 1)).toBeLessThan(0.006);
    expect(Math.abs(sumOf(Object.values(split.budget[0]!)) - 1)).toBeLessThan(1e-12);
    expect(split.budget[0]!.top).toBeGreaterThan(0.01);
  });
});

describe("solids", () => {
  test("shadow of a block under a point lamp ends where the bent ray over its edge lands", () => {
    const box = { length: 1, width: 0.5, surface: 0.3, index: 1.333 };
    const [h, top, edge] = [0.2, 0.1, 0.6];
    const lamps = [pointLamp(0.4, 0.25, 0.5, cosine)];
    const scene = tank({
      box,
      walls: blackWalls(),
      cells: { columns: 200, rows: 1 },
      lamps,
      solids: [{ mesh: block([0.5, -0.1, 0], [edge, 0.6, top]), material: 0 }],
    });
    const map = trace(scene, { photons: 0 }).lamps[0]!.ground[0]!;
    // A lamp and a wall as long as the tank is wide: seen along y the ray over the edge in the plane y = 0.25 is the
    // furthest; cells are 0.5 m wide in y, so a thin strip of cells in the middle is looked at instead.
    const strip = tank({ ...scene, cells: { columns: 200, rows: 101 } });
    const middle = trace(strip, { photons: 0, directNoise: 0.02 }).lamps[0]!.ground[0]!.subarray(50 * 200, 51 * 200);
    // Sine of the angle in air whose ray passes the block's upper edge, by bisection on h tan a + (0.2) tan w = 0.2.
    let [low, high] = [0, 1];
    for (let k = 0; k < 60; k++) {
      const s = (low + high) / 2;
      const reach = (h * s) / Math.sqrt(1 - s * s) + (0.2 * s) / Math.sqrt(1.333 ** 2 - s * s);
      if (reach > edge - 0.4) high = s;
      else low = s;
    }
    const end = edge + (top * low) / Math.sqrt(1.333 ** 2 - low * low);
    const first = [...middle].findIndex((value, i) => i > 125 && value > 0);
    // The ray lands at 0.643 m; the cell it lands in is the first with light, the next has it all.
    expect(first).toBe(Math.floor(end / 0.005));
    const next = (first + 1.5) * 0.005;
    const full = lampThroughSurface((c) => c / Math.PI, {
      height: h,
      depth: 0.3,
      offset: next - 0.4,
      index: 1.333,
      absorption: 0,
    });
    expect(Math.abs(middle[first + 1]! / full - 1)).toBeLessThan(0.004);
    const part = first + 1 - end / 0.005;
    expect(Math.abs(middle[first]! / full - part)).toBeLessThan(0.08);
    for (let i = 100; i < first; i++) expect(middle[i]).toBe(0);
    expect(map[125]).toBe(0);
  });

  test("light on a solid: the lid of a box over the floor gets what the floor of a shallower tank does", () => {
    const slab = block([-0.1, -0.1, 0.02], [0.7, 0.4, 0.1]);
    const scene = tank({ bands: [{ absorption: 0.4 }], solids: [{ mesh: slab, material: 0 }] });
    const lamp = trace(scene, { photons: 4e5 }).lamps[0]!;
    const shallow = tank({
      box: { length: 0.6, width: 0.3, surface: 0.2, index: 1.333 },
      bands: [{ absorption: 0.4 }],
      lamps: [{ ...tank().lamps[0]!, emitters: tank().lamps[0]!.emitters.map((e) => ({ ...e, z: e.z - 0.1 })) }],
    });
    const floor = meanOf(trace(shallow, { photons: 0, directNoise: 0.001 }).lamps[0]!.ground[0]!);
    expect(Math.abs(lamp.budget[0]!.solids / (floor * 0.18) - 1)).toBeLessThan(0.005);
    expect(meanOf(lamp.ground[0]!)).toBe(0);
    // Its mean is over every face whose middle lies in the box: both triangles of top and bottom.
    expect(lamp.solids[0]![0]! * 2 * 0.8 * 0.5).toBeCloseTo(lamp.budget[0]!.solids, 9);
  });

  test("a stone that breaks the surface is seen from the air, shades it and gives light back", () => {
    const stone = block([0.25, 0.1, 0.1], [0.35, 0.2, 0.35]);
    const scene = tank({
      bands: [{ absorption: 0.4 }],
      materials: [{ albedo: [0.2] }, { albedo: [0.5] }],
      solids: [{ mesh: stone, material: 1 }],
    });
    const split = trace(scene, { photons: 1e5, smooth: false, directNoise: 0.006 }).lamps[0]!;
    const paths = trace(scene, { photons: 2e5, mode: "forward", seed: 8 }).lamps[0]!;
    const rms = Math.sqrt(meanOf(split.ground[0]!.map((v, k) => (v - paths.ground[0]![k]!) ** 2)));
    expect(rms / meanOf(split.ground[0]!)).toBeLessThan(1.2 * Math.hypot(split.noise.total, paths.noise.total));
    expect(Math.abs(meanOf(split.ground[0]!) / meanOf(paths.ground[0]!) - 1)).toBeLessThan(0.006);
    expect(Math.abs(sumOf(Object.values(split.budget[0]!)) - 1)).toBeLessThan(1e-12);
  });
});
