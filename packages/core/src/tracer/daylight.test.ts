import { describe, expect, test } from "vitest";
import { reflectedFromAir, reflectedFromWater } from "./interface.ts";
import type { Scene, Side } from "./scene.ts";
import { blackWalls, block, meanOf, sumOf, tank } from "./scenes.testing.ts";
import { trace } from "./trace.ts";

const sides: readonly (Side | "top")[] = ["left", "right", "front", "back", "top"];

/** A scene of daylight alone on the sides named. */
const room = (lit: readonly (Side | "top")[], changes: Partial<Scene> = {}): Scene =>
  tank({ lamps: [], daylight: lit.map((side) => ({ side })), ...changes });

/** Area of a side of the test tank (0.6 m x 0.3 m, 0.3 m of water), m2. */
const areaOf = (side: Side | "top"): number => (side === "left" || side === "right" ? 0.09 : 0.18);

/**
 * View factor between two rectangles that meet at a right angle along an edge: from the one of width w to that of width h.
 * Source: catalogue of radiation configuration factors, J. R. Howell, C-14 (from memory); a cube has 0.20004.
 */
function rightAngle(w: number, h: number, edge: number): number {
  const [W, H] = [w / edge, h / edge];
  const s = W * W + H * H;
  const a = ((1 + W * W) * (1 + H * H)) / (1 + s);
  const b = ((W * W * (1 + s)) / ((1 + W * W) * s)) ** (W * W);
  const c = ((H * H * (1 + s)) / ((1 + H * H) * s)) ** (H * H);
  const r = Math.sqrt(s);
  return (
    (W * Math.atan(1 / W) + H * Math.atan(1 / H) - r * Math.atan(1 / r) + 0.25 * Math.log(a * b * c)) / (Math.PI * W)
  );
}

describe("diffuse light through a pane", () => {
  test("without water it goes by view factors (Howell's catalogue)", () => {
    expect(rightAngle(1, 1, 1)).toBeCloseTo(0.20004, 5);
    const box = { length: 0.6, width: 0.3, surface: 0.3, index: 1 };
    const walls = { ...blackWalls(), front: "bare" } as const;
    const { lamps } = trace(room(["front"], { box, walls }), { photons: 60_000 });
    const [budget] = lamps[0]!.budget;
    const toFloor = rightAngle(0.3, 0.3, 0.6);
    expect(budget!.ground).toBeCloseTo(toFloor, 2.5);
    // up to the opening as much as down to the floor, the rest to the three black walls
    expect(budget!.top).toBeCloseTo(toFloor, 2.5);
    expect(budget!.walls).toBeCloseTo(1 - 2 * toFloor, 2.5);
    expect((meanOf(lamps[0]!.ground[0]!) * 0.18) / toFloor).toBeCloseTo(1, 1.5);
  });

  // reference: 1 - 0.06641, the hemispheric reflectance of a flat surface of water (Fresnel, n 1.333)
  test.each(sides)("6.64 %% of it is thrown back on entering: %s", (side) => {
    const { lamps } = trace(room([side]), { photons: 30_000 });
    expect(lamps[0]!.budget[0]!.reflected).toBeCloseTo(0.06641, 3);
  });

  test("in clear water it keeps to the cone of 48.6 degrees: floor by quadrature over pane and directions", () => {
    const n = 1.333;
    const [L, D, H] = [0.6, 0.3, 0.3];
    let floor = 0;
    const steps = 24;
    const middle = (i: number): number => (i + 0.5) / steps;
    for (let i = 0; i < steps; i++)
      for (let k = 0; k < steps; k++)
        for (let r = 0; r < steps; r++)
          for (let a = 0; a < 2 * steps; a++) {
            const [x, z] = [L * middle(i), H * middle(k)];
            const sine = Math.sqrt(middle(r));
            const turn = (Math.PI * (a + 0.5)) / steps;
            const inside = Math.sqrt(1 - (sine / n) ** 2);
            const [dx, dy, dz] = [(sine / n) * Math.cos(turn), inside, (sine / n) * Math.sin(turn)];
            const far = Math.min(D / dy, dx > 0 ? (L - x) / dx : -x / dx);
            const down = dz < 0 ? -z / dz : (H - z) / dz + H / dz;
            if (down > far) continue;
            const kept = dz < 0 ? 1 : reflectedFromWater(dz, n);
            floor += kept * (1 - reflectedFromAir(Math.sqrt(1 - sine * sine), inside, n));
          }
    floor /= 2 * steps ** 4;
    const walls = { ...blackWalls(), front: "bare" } as const;
    const { lamps } = trace(room(["front"], { walls }), { photons: 120_000 });
    expect(lamps[0]!.budget[0]!.ground / floor).toBeCloseTo(1, 2);
  });

  test("light and way back are one (reciprocity), in hazy water over sand, with stones and leaves", () => {
    const water = { columns: 6, rows: 3, layers: 3 };
    const density = Float64Array.from({ length: 54 }, (_, i) => (i < 18 ? 8 : 0));
    const scene = room(["top", "front", "left"], {
      bands: [{ absorption: 0.4, scattering: 1, asymmetry: 0.9 }],
      materials: [{ albedo: [0.4] }],
      solids: [{ mesh: block([0.1, 0.05, 0], [0.25, 0.2, 0.15]), material: 0 }],
      water: { ...water, leaves: { density, absorptance: [0.7] } },
    });
    const [top, front, left] = trace(scene, { photons: 150_000 }).lamps.map((l) => l.budget[0]!);
    expect((top!.front * areaOf("top")) / (front!.top * areaOf("front"))).toBeCloseTo(1, 1.5);
    expect((top!.left * areaOf("top")) / (left!.top * areaOf("left"))).toBeCloseTo(1, 1.5);
    expect((front!.left * areaOf("front")) / (left!.front * areaOf("left"))).toBeCloseTo(1, 1);
  });

  test("a bright room on all sides of a white tank fills it evenly: n2 times as much light as outside", () => {
    const scene = room(sides, {
      materials: [{ albedo: [1] }],
      water: { columns: 2, rows: 1, layers: 2 },
      cells: { columns: 2, rows: 1 },
    });
    const { lamps } = trace(scene, { photons: 60_000 });
    const square = 1.333 ** 2;
    // each side weighed by its area: one unit on every m2 of all of them
    const all = (map: (k: number) => Float64Array): number[] =>
      Array.from(map(0), (_, i) => sumOf(sides.map((side, k) => map(k)[i]! * areaOf(side))));
    for (const level of all((k) => lamps[k]!.ground[0]!)) expect(level / square).toBeCloseTo(1, 1.7);
    for (const round of all((k) => lamps[k]!.water[0]!)) expect(round / (4 * square)).toBeCloseTo(1, 1.7);
  });

  test("no photon is lost: the budget adds up, whatever stands in the way", () => {
    const heights = Float64Array.from({ length: 9 }, (_, i) => (i < 3 ? 0.02 : i < 6 ? 0.1 : 0.34));
    const scene = room(["top", "front", "left", "right"], {
      bands: [{ absorption: 0.2 }, { absorption: 3, scattering: 2, asymmetry: 0.8 }],
      materials: [{ albedo: [0.3, 0.1] }],
      walls: { left: "bare", right: "bare", front: "bare", back: { albedo: [0.5, 0.5] } },
      ground: { length: 0.6, width: 0.3, columns: 3, rows: 3, heights },
      solids: [{ mesh: block([0.1, 0.05, 0], [0.2, 0.15, 0.4]), material: 0 }],
    });
    for (const { budget } of trace(scene, { photons: 8_000 }).lamps)
      for (const band of budget) expect(sumOf(Object.values(band))).toBeCloseTo(1, 9);
  });

  test("what falls on the pane below the ground stays outside", () => {
    const heights = new Float64Array(4).fill(0.1);
    const ground = { length: 0.6, width: 0.3, columns: 2, rows: 2, heights };
    const { lamps } = trace(room(["front"], { ground }), { photons: 30_000 });
    expect(lamps[0]!.budget[0]!.spill).toBeCloseTo(1 / 3, 2);
  });

  test("lamps keep their light beside it, to the bit", () => {
    const alone = trace(tank({ bands: [{ absorption: 0.4 }] }), { photons: 5000 });
    const both = trace(tank({ bands: [{ absorption: 0.4 }], daylight: [{ side: "left" }] }), { photons: 5000 });
    expect(both.lamps).toHaveLength(2);
    expect(both.lamps[0]!.ground[0]).toEqual(alone.lamps[0]!.ground[0]);
  });

  test("a covered pane is refused", () => {
    const walls = { ...blackWalls(), front: "bare" } as const;
    expect(() => trace(room(["back"], { walls }))).toThrow(/daylight on the back side: that wall is opaque/);
    expect(() => trace(tank({ lamps: [] }))).toThrow(/at least one of either/);
  });
});
