import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { packMesh, unpackMesh } from "./packed-mesh.ts";

/** A box parted into a fan of triangles is enough of a mesh here. */
const box = {
  positions: Float64Array.from([0, 0, 0, 2, 0, 0, 2, 1, 0, 0, 1, 0, 0, 0, 3, 2, 0, 3, 2, 1, 3, 0, 1, 3]),
  triangles: Uint32Array.from([
    0, 2, 1, 0, 3, 2, 4, 5, 6, 4, 6, 7, 0, 1, 5, 0, 5, 4, 1, 2, 6, 1, 6, 5, 2, 3, 7, 2, 7, 6, 3, 0, 4, 3, 4, 7,
  ]),
};

describe("packed forms", () => {
  test("come back within the unit box, with their triangles and fill", () => {
    const back = unpackMesh(packMesh(box, 0.75))!;
    expect([...back.mesh.positions]).toEqual([...box.positions].map((v, i) => v / [2, 1, 3][i % 3]!));
    expect([...back.mesh.triangles]).toEqual([...box.triangles]);
    expect(back.fill).toBeCloseTo(0.75, 6);
  });

  test("round to a 16-bit share of the box", () => {
    const coordinate = fc.double({ min: -5, max: 5, noNaN: true });
    fc.assert(
      fc.property(fc.array(coordinate, { minLength: 12, maxLength: 60 }), (list) => {
        const positions = Float64Array.from(list.slice(0, list.length - (list.length % 3)));
        const [low, high] = [0, 1, 2]
          .map((a) => positions.filter((_, i) => i % 3 === a))
          .map((v) => [Math.min(...v), Math.max(...v)] as const)
          .reduce(
            ([l, h], [a, b]) => [
              [...l, a],
              [...h, b],
            ],
            [[], []] as [number[], number[]],
          );
        fc.pre(low.every((v, i) => high[i]! - v > 1e-3));
        const back = unpackMesh(
          packMesh({ positions, triangles: Uint32Array.from([0, 1, 2, 0, 2, 3, 0, 3, 1, 1, 3, 2]) }, 1),
        )!;
        positions.forEach((v, i) => {
          expect(low[i % 3]! + back.mesh.positions[i]! * (high[i % 3]! - low[i % 3]!)).toBeCloseTo(v, 3);
        });
      }),
    );
  });

  test("what is none, or is damaged anywhere, is told apart", () => {
    const whole = packMesh(box, 0.5);
    for (const text of [
      "",
      "m1:",
      "m2:AAAA",
      "scan.glb",
      `${whole}AAAA`,
      whole.slice(0, -4),
      whole.replace("m1:", ""),
    ]) {
      expect(unpackMesh(text)).toBeNull();
    }
    fc.assert(
      fc.property(fc.nat({ max: whole.length - 4 }), fc.constantFrom("A", "_", "~", "é"), (at, letter) => {
        const read = unpackMesh(whole.slice(0, at + 3) + letter + whole.slice(at + 4));
        if (!read) return;
        const corners = read.mesh.positions.length / 3;
        expect(read.mesh.triangles.every((t) => t < corners)).toBe(true);
        expect(read.mesh.positions.every((v) => v >= 0 && v <= 1)).toBe(true);
      }),
    );
  });

  test("flat, overfull and oversized forms are refused", () => {
    expect(() => packMesh({ ...box, positions: box.positions.map((v, i) => (i % 3 === 1 ? 0 : v)) }, 0.5)).toThrow(
      /flat/,
    );
    expect(() => packMesh(box, 1.2)).toThrow(/above 0 and at most 1/);
    expect(() => packMesh({ ...box, triangles: new Uint32Array(3 * 4001) }, 0.5)).toThrow(/at most 4000/);
  });
});
