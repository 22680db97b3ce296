/** Scenes with closed forms or published figures. Unit flux throughout. */
import { describe, expect, test } from "vitest";
import { bentRay, lampThroughSurface } from "../light/index.ts";
import { trace } from "./index.ts";
import type { Scene } from "./scene.ts";
import { blackWalls, block, cellAt, meanOf, panel, pointLamp, sumOf, tank } from "./scenes.testing.ts";

const wide = (side: number, surface: number, index: number, changes: Partial<Scene> = {}): Scene =>
  tank({
    box: { length: side, width: side, surface, index },
    walls: blackWalls(),
    cells: { columns: 5, rows: 5 },
    lamps: [
      {
        axis: [0, 0, -1],
        along: [1, 0, 0],
        beam: { kind: "lobe", exponent: 1 },
        emitters: [
          {
            x: side / 2,
            y: side / 2,
            z: surface + 0.001,
            share: 1,
            halves: [
              [side / 2, 0, 0],
              [0, side / 2, 0],
            ],
          },
        ],
      },
    ],
    ...changes,
  });
/** Mean of the nine middle cells of 5 x 5, which see nothing of the walls of a wide shallow box. */
const middle = (map: Float64Array): number => meanOf([6, 7, 8, 11, 12, 13, 16, 17, 18].map((k) => map[k]!));
/** Everything by paths: an even sky a hair over the water is no lamp for mirror images. */
const forward = (scene: Scene, photons: number): Float64Array =>
  trace(scene, { photons, mode: "forward", seed: 4 }).lamps[0]!.ground[0]!;
const direct = (scene: Scene, directNoise: number): Float64Array =>
  trace(scene, { photons: 0, directNoise }).lamps[0]!.ground[0]!;

describe("over the water", () => {
  test("share of a panel that enters the opening is the view factor: 0.62852", () => {
    // Closed form of two parallel rectangles (catalogue of view factors, J. R. Howell; formula recomputed).
    const { spill } = trace(tank({ cells: { columns: 2, rows: 2 } }), { photons: 3e6, seed: 3 }).lamps[0]!.budget[0]!;
    expect(Math.abs(1 - spill - 0.62852)).toBeLessThan(0.0006);
  });

  test.each([
    [1, 1, 0.5],
    [2, 1, 0.6464],
    [4.8188, 0.5, 0.4775],
  ])(
    "a lobe of exponent %f sends 1 - cos^(m+1) into a disc of radius %f at unit distance",
    (exponent, radius, inside) => {
      // Exact algebra. Without refraction, cells of 1 cm within the disc.
      const scene = wide(2, 1e-6, 1, {
        cells: { columns: 200, rows: 200 },
        lamps: [pointLamp(1, 1, 1, { kind: "lobe", exponent })],
      });
      const map = forward(scene, 4e5);
      let within = 0;
      for (let j = 0; j < 200; j++) {
        for (let i = 0; i < 200; i++) {
          if (Math.hypot(i - 99.5, j - 99.5) < 100 * radius) within += map[j * 200 + i]! * 1e-4;
        }
      }
      expect(Math.abs(within - inside)).toBeLessThan(0.003);
    },
  );
});

describe("through the surface", () => {
  test("a point lamp: every cell as the closed form of the bent ray", () => {
    const box = { length: 0.81, width: 0.11, surface: 0.4, index: 1.333 };
    const scene = tank({
      box,
      bands: [{ absorption: 0.4 }],
      walls: blackWalls(),
      cells: { columns: 81, rows: 11 },
      lamps: [pointLamp(0.405, 0.055, 0.55, { kind: "lobe", exponent: 1 })],
    });
    const map = direct(scene, 5e-4);
    for (const [offset, published] of [
      [0, undefined],
      [0.1, undefined],
      // I 100, h 0.15, d 0.40, r 0.2, a 0.4, cosine lobe: 313.25 (ring argument, traced with 2e7 rays to 0.3 %).
      [0.2, 313.25],
      [0.3, undefined],
    ] as const) {
      const got = cellAt(map, scene, offset, 0);
      const path = { height: 0.15, depth: 0.4, offset, index: 1.333, absorption: 0.4 };
      const closed = lampThroughSurface((cosine) => cosine / Math.PI, path);
      expect(Math.abs(got / closed - 1), `at ${offset} m`).toBeLessThan(0.001);
      if (published) expect(Math.abs((got * 100 * Math.PI) / published - 1)).toBeLessThan(0.002);
    }
    // On the axis the other way round: I T/(n h' + d')^2 with both ends exchanged, times n^2 (reciprocity).
    const [h, d, n] = [0.15, 0.4, 1.333];
    const T = 1 - ((n - 1) / (n + 1)) ** 2;
    const swapped = ((n * n * T * Math.exp(-0.4 * d)) / (n * h + d) ** 2) * (1 / Math.PI);
    expect(Math.abs(cellAt(map, scene, 0, 0) / swapped - 1)).toBeLessThan(0.001);
    expect(bentRay({ height: h, depth: d, offset: 0, index: n }).entry).toBe(0);
  });

  test("panel over water without side walls", () => {
    // Image method without images, 120 x 36 emitters: E at (0, 0), (0.2, 0), (0, 0.2).
    for (const [absorption, figures] of [
      [0, [1.9295, 1.462, 1.342]],
      [0.4, [1.706, 1.287, 1.177]],
    ] as const) {
      const scene = tank({
        box: { length: 0.82, width: 0.82, surface: 0.3, index: 1.333 },
        bands: [{ absorption }],
        walls: blackWalls(),
        cells: { columns: 41, rows: 41 },
        lamps: [panel([0.41, 0.41, 0.45], 0.4, 0.12, 0.3)],
      });
      const map = trace(scene, { photons: 0, directNoise: 0.001 }).lamps[0]!.ground[0]!;
      const got = [cellAt(map, scene, 0, 0), cellAt(map, scene, 0.2, 0), cellAt(map, scene, 0, 0.2)];
      got.forEach((value, k) => {
        expect(Math.abs(value / figures[k]! - 1), `${value} for ${figures[k]}`).toBeLessThan(0.004);
      });
    }
  });

  test("an even sky over a slab that absorbs: T(0.1) = 0.82868, T(0.4) = 0.58017, T(0) = 0.93359", () => {
    // Quadrature of n^2 2 mu (1 - R) exp(-tau/mu). The middle of a wide slab sees no walls.
    for (const [tau, passed] of [
      [0, 0.93359],
      [0.1, 0.82868],
      [0.4, 0.58017],
    ] as const) {
      const scene = wide(1, 0.1, 1.333, { bands: [{ absorption: tau / 0.1 }] });
      expect(Math.abs(middle(forward(scene, 6e5)) / passed - 1)).toBeLessThan(0.006);
    }
  });

  test("a matt floor under a flat slab: gain 1.3111 at albedo 0.5, 1.1049 at 0.2", () => {
    // 1/(1 - albedo r), r = 0.47459 the hemispheric reflectance from within (quadrature; 4e6-photon tracing 1.3112).
    for (const [albedo, gain] of [
      [0.2, 1.1049],
      [0.5, 1.3111],
    ] as const) {
      const scene = wide(4, 0.01, 1.333, { materials: [{ albedo: [albedo] }] });
      expect(Math.abs((middle(forward(scene, 5e5)) * 16) / (0.93359 * gain) - 1)).toBeLessThan(0.006);
    }
  });
});

describe("walls", () => {
  test("of an even sky, 0.0791 lies beyond a wall's limit and leaves a deep shaft; none at n = 1.42", () => {
    // Quadrature and 4e6-ray sampling agree to 0.1 % on the share.
    const shaft = (index: number): number => {
      const scene = wide(0.3, 60, index, {
        walls: { left: "bare", right: "bare", front: "bare", back: "bare" },
        cells: { columns: 1, rows: 1 },
      });
      const { left, right, front, back, spill, reflected } = trace(scene, { photons: 60_000, mode: "forward" })
        .lamps[0]!.budget[0]!;
      return (left + right + front + back) / (1 - spill - reflected);
    };
    expect(Math.abs(shaft(1.333) - 0.0791)).toBeLessThan(0.0025);
    expect(shaft(1.42)).toBe(0);
  });

  test("closed matt box of side 1: area mean 1/(6 (1 - albedo)), faces as sampled with 4e5 rays (0.002)", () => {
    // Without refraction, lit evenly from the top, which is a lid a hair over the water that gives back as the rest.
    for (const [albedo, faces] of [
      [0, [0.1994, 0.2003, 0]],
      [0.5, [0.343, 0.362, 0.209]],
      [0.8, [undefined, undefined, undefined]],
    ] as const) {
      const matt = { albedo: [albedo] };
      const scene = wide(1, 1, 1, {
        walls: { left: matt, right: matt, front: matt, back: matt },
        materials: [matt],
        solids: [{ mesh: block([-0.1, -0.1, 1.0012], [1.1, 1.1, 1.1]), material: 0 }],
      });
      const lamp = trace(scene, { photons: 2e4 + 1e5 * (1 - albedo), mode: "forward", seed: 2 }).lamps[0]!;
      const budget = lamp.budget[0]!;
      const bottom = budget.ground / (1 - albedo);
      const side = budget.walls / (1 - albedo) / 4;
      const top = budget.solids / (1 - albedo);
      const [b, s, t] = faces;
      if (b !== undefined) expect(Math.abs(bottom - b)).toBeLessThan(0.005);
      if (s !== undefined) expect(Math.abs(side - s)).toBeLessThan(0.004);
      if (t !== undefined) expect(Math.abs(top - t)).toBeLessThan(0.004);
      // A slit of 1.2 mm all round lets out 0.08 % of the area's share at each turn.
      expect(Math.abs((bottom + 4 * side + top) * (1 - albedo) - 1)).toBeLessThan(0.004 / (1 - albedo));
      expect(Math.abs(sumOf(Object.values(budget)) - 1)).toBeLessThan(1e-12);
    }
  });
});

describe("in the water", () => {
  test("matt scattering slab without absorption: passes 0.5532 of diffuse light at depth 1, 0.7040 at 0.5", () => {
    // Exact solution for isotropic scattering between black plates (Heaslet & Warming 1965), from memory.
    for (const [depth, passed] of [
      [0.5, 0.704],
      [1, 0.5532],
    ] as const) {
      const scene = wide(4, 0.02, 1, { bands: [{ absorption: 0, scattering: depth / 0.02 }] });
      // The four by four metres are lit by unit flux.
      expect(Math.abs((middle(forward(scene, 4e5)) * 16) / passed - 1)).toBeLessThan(0.01);
    }
  });

  test("scattering straight ahead is no scattering; bands that scatter apart keep their own figures", () => {
    const bands = [{ absorption: 0.4 }, { absorption: 0.4, scattering: 3, asymmetry: 0.99999 }];
    const scene = tank({ bands, materials: [{ albedo: [0, 0] }], cells: { columns: 6, rows: 3 } });
    const [clear, ahead] = trace(scene, { photons: 4e5, smooth: false }).lamps[0]!.ground;
    expect(Math.abs(meanOf(ahead!) / meanOf(clear!) - 1)).toBeLessThan(0.004);
  });

  test("leaves in a vertical beam: exp(-1) = 0.36788 behind depth 1; in an even sky 2 E3(1) = 0.21938", () => {
    const grid = { columns: 2, rows: 2, layers: 4 };
    const leaves = (density: number) => ({
      ...grid,
      leaves: { density: new Float64Array(16).fill(density), absorptance: [1] },
    });
    const beam = pointLamp(0.5, 0.5, 0.3, { kind: "lobe", exponent: 100_000 });
    const narrow = (density: number, mode: "split" | "forward"): number =>
      meanOf(
        trace(wide(1, 0.2, 1, { water: leaves(density), lamps: [beam] }), { photons: 2e5, mode }).lamps[0]!.ground[0]!,
      );
    expect(Math.abs(narrow(10, "split") / narrow(0, "split") - 0.36788)).toBeLessThan(1e-4);
    expect(Math.abs(narrow(10, "forward") / narrow(0, "forward") - 0.36788)).toBeLessThan(0.004);
    const sky = wide(8, 0.2, 1, { water: leaves(10) });
    expect(Math.abs(middle(forward(sky, 6e5)) * 64 - 0.21938)).toBeLessThan(0.0025);
  });

  test("what leaves take is their light times what they meet", () => {
    const density = Float64Array.from({ length: 8 * 4 * 6 }, (_, k) => (k < 64 ? 12 : 0));
    const scene = tank({
      bands: [{ absorption: 0.4 }],
      materials: [{ albedo: [0.3] }],
      water: { columns: 8, rows: 4, layers: 6, leaves: { density, absorptance: [0.7] } },
    });
    const lamp = trace(scene, { photons: 2e5, directNoise: 0.01 }).lamps[0]!;
    const volume = (0.6 * 0.3 * 0.3) / density.length;
    const taken = sumOf(lamp.water[0]!.map((light, k) => light * 0.5 * density[k]! * 0.7 * volume));
    expect(Math.abs(taken / lamp.budget[0]!.leaves - 1)).toBeLessThan(0.008);
  });

  test("light in the water times absorption is what the water takes; the limit of none is the path's length", () => {
    const of = (absorption: number) =>
      trace(tank({ bands: [{ absorption }], water: { columns: 6, rows: 3, layers: 6 } }), {
        photons: 2e5,
        mode: "forward",
      }).lamps[0]!;
    const weak = of(1e-9);
    const none = of(0);
    const light = sumOf(none.water[0]!) * ((0.6 * 0.3 * 0.3) / 108);
    expect(Math.abs((sumOf(weak.water[0]!) * ((0.6 * 0.3 * 0.3) / 108)) / light - 1)).toBeLessThan(1e-8);
    expect(Math.abs(weak.budget[0]!.water / 1e-9 / light - 1)).toBeLessThan(1e-5);
    // Split and forward agree on the water too.
    const split = trace(tank({ water: { columns: 6, rows: 3, layers: 6 } }), { photons: 0 }).lamps[0]!;
    expect(Math.abs((sumOf(split.water[0]!) * ((0.6 * 0.3 * 0.3) / 108)) / light - 1)).toBeLessThan(0.004);
  });
});
