import { describe, expect, test } from "vitest";
import { icosphere } from "./icosphere.ts";
import { type Mesh, mendMesh, meshBounds, meshVolume, placeMesh, thinMesh } from "./index.ts";
import { box } from "./shapes.testing.ts";

/** Each triangle parted into four, several times. */
function finer({ positions, triangles }: Mesh, times: number): Mesh {
  if (times === 0) return { positions, triangles };
  const places = [...positions];
  const list: number[] = [];
  const known = new Map<string, number>();
  const half = (a: number, b: number): number => {
    const key = `${Math.min(a, b)} ${Math.max(a, b)}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    for (let axis = 0; axis < 3; axis++) places.push((places[3 * a + axis]! + places[3 * b + axis]!) / 2);
    known.set(key, places.length / 3 - 1);
    return places.length / 3 - 1;
  };
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [triangles[t]!, triangles[t + 1]!, triangles[t + 2]!];
    const [ab, bc, ca] = [half(a, b), half(b, c), half(c, a)];
    list.push(a, ab, ca, ab, b, bc, ca, bc, c, ab, bc, ca);
  }
  return finer({ positions: Float64Array.from(places), triangles: Uint32Array.from(list) }, times - 1);
}

describe("thinning for the eye", () => {
  const ball = placeMesh(icosphere(60), { scale: [0.2, 0.1, 0.15], shift: [0.3, 0.4, 0.5] });

  test("about as many triangles as asked for, of much the same shape", async () => {
    for (const wanted of [500, 2000, 10_000]) {
      const thin = await thinMesh(ball, wanted);
      expect(Math.abs(thin.triangles.length / 3 / wanted - 1)).toBeLessThan(0.25);
      expect(Math.abs(meshVolume(thin) / meshVolume(ball) - 1)).toBeLessThan(wanted < 1000 ? 0.04 : 0.015);
      for (const end of ["min", "max"] as const) {
        meshBounds(thin)[end].forEach((value, axis) => {
          expect(Math.abs(value - meshBounds(ball)[end][axis]!)).toBeLessThan(0.01);
        });
      }
      // Every corner lies on the ellipsoid within its flattening.
      for (let k = 0; k < thin.positions.length; k += 3) {
        const [x, y, z] = [0.3, 0.4, 0.5].map((c, axis) => thin.positions[k + axis]! - c) as [number, number, number];
        expect(Math.abs(Math.hypot(x / 0.2, y / 0.1, z / 0.15) - 1)).toBeLessThan(0.06);
      }
    }
  });

  test("edges and corners of a box stay sharp", async () => {
    const fine = placeMesh(finer(box(0.31, 0.22, 0.13), 6), { turn: 10, tip: 5 });
    const thin = await thinMesh(fine, 800);
    expect(Math.abs(meshVolume(thin) / (0.31 * 0.22 * 0.13) - 1)).toBeLessThan(0.01);
    for (const end of ["min", "max"] as const) {
      meshBounds(thin)[end].forEach((value, axis) => {
        expect(Math.abs(value - meshBounds(fine)[end][axis]!)).toBeLessThan(0.003);
      });
    }
  });

  test("a mesh that is small enough stays, and still is a solid after thinning a scan", async () => {
    const brick = box(1, 1, 1);
    expect(await thinMesh(brick, 100)).toBe(brick);
    const thin = await thinMesh(ball, 4000);
    expect((await mendMesh(thin)).done).toEqual([]);
  });

  test("bad numbers are refused, and it can be stopped", async () => {
    await expect(thinMesh(ball, 10)).rejects.toThrow("10 triangles: 50 to");
    await expect(thinMesh(ball, 99.5)).rejects.toThrow(RangeError);
    const none = { positions: new Float64Array(3), triangles: new Uint32Array(300) };
    await expect(thinMesh(none, 50)).rejects.toThrow("in one place");
    await expect(thinMesh(ball, 500, { signal: AbortSignal.abort() })).rejects.toMatchObject({ name: "AbortError" });
  });
});
