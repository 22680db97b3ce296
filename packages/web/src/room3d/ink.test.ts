import { dot, floorGrid, groundMesh, laidLine, lampAxes, minus, topMaterials, type Vector } from "@lentic/core/model3d";
import { icosphere, type Mesh, placeMesh, stoneMesh, woodMesh } from "@lentic/core/solids";
import { describe, expect, test } from "vitest";
import { demoScene } from "./demo.ts";
import { grainStrokes } from "./grain-strokes.ts";
import { colourOf, tonesOf } from "./look.ts";
import { axesOf, between, orbitFor, turned, viewAngle } from "./orbit.ts";
import { meetBox, meetLamp, meetLevel, meetMesh, meetPlants } from "./pick.ts";
import { solidSurface } from "./solid-surface.ts";

/** A cube of side 2 about the origin. */
const cube: Mesh = {
  positions: Float64Array.from(
    [0, 1, 2, 3, 4, 5, 6, 7].flatMap((k) => [k & 1 ? 1 : -1, k & 2 ? 1 : -1, k & 4 ? 1 : -1]),
  ),
  triangles: Uint32Array.from([
    0, 2, 3, 0, 3, 1, 4, 5, 7, 4, 7, 6, 0, 1, 5, 0, 5, 4, 2, 6, 7, 2, 7, 3, 0, 4, 6, 0, 6, 2, 1, 3, 7, 1, 7, 5,
  ]),
};

describe("faces and creases", () => {
  test("a cube has twelve creases and six tones", () => {
    const surface = solidSurface(cube, false);
    expect(surface.creases.length / 6).toBe(12);
    const normals = new Set<string>();
    for (let k = 0; k < surface.normals.length; k += 3)
      normals.add([...surface.normals.subarray(k, k + 3)].map((v) => v.toFixed(3)).join());
    expect(normals.size).toBe(6);
  });

  test("a smooth ball has no creases, and its normals point outwards", () => {
    const ball = icosphere(3);
    const surface = solidSurface(ball, true);
    expect(surface.creases).toHaveLength(0);
    for (let k = 0; k < surface.positions.length; k += 3) {
      const at = [...surface.positions.subarray(k, k + 3)] as unknown as Vector;
      expect(dot(at, [...surface.normals.subarray(k, k + 3)] as unknown as Vector)).toBeGreaterThan(
        0.99 * Math.hypot(...at),
      );
    }
  });

  test("a layered stone has flat faces of several triangles", () => {
    const { mesh } = stoneMesh({ width: 0.2, breadth: 0.1, height: 0.15, shape: "layered", seed: 11 });
    const surface = solidSurface(mesh, false);
    expect(surface.positions.every(Number.isFinite)).toBe(true);
    expect(surface.creases.length / 6).toBeGreaterThan(20);
    expect(surface.creases.length / 6).toBeLessThan(mesh.triangles.length / 2);
  });
});

describe("grain of wood", () => {
  test("strokes lie on the wood and run along it", () => {
    const piece = woodMesh({ width: 0.4, breadth: 0.05, height: 0.05, branches: 0, seed: 3 });
    const strokes = grainStrokes(piece.mesh, piece.grain, 1);
    expect(strokes.length / 6).toBeGreaterThan(60);
    expect(strokes.every(Number.isFinite)).toBe(true);
    let [along, whole] = [0, 0];
    for (let k = 0; k < strokes.length; k += 6) {
      const run = [0, 1, 2].map((axis) => strokes[k + 3 + axis]! - strokes[k + axis]!) as unknown as Vector;
      along += Math.abs(dot(run, piece.grain));
      whole += Math.hypot(...run);
    }
    // a trunk that winds: most of the way of the strokes still lies along it
    expect(along / whole).toBeGreaterThan(0.75);
    expect(grainStrokes(piece.mesh, piece.grain, 1)).toEqual(strokes);
    expect(grainStrokes(piece.mesh, piece.grain, 2)).not.toEqual(strokes);
  });
});

describe("the bed", () => {
  const scene = demoScene();
  test("its surface has the ground's nodes, its section ends at the surface", () => {
    const mesh = groundMesh(scene);
    const { columns, rows, heights } = scene.ground;
    for (let k = 0; k < columns * rows; k++) expect(mesh.positions[3 * k + 2]).toBeCloseTo(heights[k]!, 6);
    expect(Math.max(...mesh.triangles)).toBe(mesh.positions.length / 3 - 1);
    // two layers behind each of four panes: gravel and soil; the sand on top has no thickness of its own
    const corners = mesh.positions.length / 3 - columns * rows;
    expect(corners).toBe(2 * 2 * 2 * (columns + rows));
  });

  test("the uppermost material is that of the last layer there", () => {
    const grid = floorGrid(scene.tank);
    const top = topMaterials(scene.layers, grid);
    const at = (x: number, y: number) =>
      top[Math.floor((y / grid.width) * grid.rows) * grid.columns + Math.floor((x / grid.length) * grid.columns)];
    expect(at(0.46, 0.02)).toBe(1);
    expect(at(0.2, 0.2)).toBe(0);
  });

  test("a laid line keeps within the panes and follows the ground", () => {
    const line = laidLine(
      [
        [-0.1, 0.1],
        [0.3, 0.1],
      ],
      false,
      { length: 0.5, width: 0.3 },
      (x) => x,
    );
    for (let k = 0; k < line.length; k += 3) {
      expect(line[k]).toBeGreaterThanOrEqual(0);
      expect(line[k + 2]).toBe(line[k]);
    }
    expect(line[line.length - 3]).toBeCloseTo(0.3, 6);
  });
});

describe("sight", () => {
  test("the whole tank is seen in every named view, at any shape of the picture", () => {
    const scene = demoScene();
    const { length, width, height, glass, base } = scene.tank;
    for (const view of ["front", "above", "corner"] as const) {
      for (const aspect of [0.5, 0.65, 1, 1.43, 3]) {
        const orbit = orbitFor(scene, view, aspect);
        const [back, right, up] = axesOf(orbit);
        let widest = 0;
        for (let k = 0; k < 8; k++) {
          const corner: Vector = [
            k & 1 ? length + glass : -glass,
            k & 2 ? width + glass : -glass,
            k & 4 ? height : -base,
          ];
          const away = minus(corner, orbit.target);
          const deep = orbit.distance - dot(away, back);
          const high = Math.tan(viewAngle / 2);
          const [x, y] = [dot(away, right) / deep / (high * aspect), dot(away, up) / deep / high];
          expect(Math.max(Math.abs(x), Math.abs(y))).toBeLessThan(1.001);
          widest = Math.max(widest, Math.abs(x), Math.abs(y));
        }
        expect(widest).toBeGreaterThan(0.75);
      }
    }
  });

  test("turning stops short of looking straight down, and the way between two stands takes the shorter side", () => {
    const orbit = orbitFor(demoScene(), "corner", 1);
    expect(turned(orbit, 0, 9).elevation).toBeLessThan(Math.PI / 2);
    expect(turned(orbit, 0, -9).elevation).toBeLessThan(0);
    const middle = between({ ...orbit, azimuth: 3 }, { ...orbit, azimuth: -3 }, 0.5);
    expect(Math.cos(middle.azimuth)).toBeCloseTo(-1, 6);
  });

  test("rays meet boxes, meshes, plants and levels where they should", () => {
    const ray = { from: [0.2, 0.1, 5], way: [0, 0, -2] } as const;
    expect(meetBox(ray, [-1, -1, -1], [1, 1, 1])).toBeCloseTo(2, 12);
    expect(meetMesh(ray, cube)).toBeCloseTo(2, 12);
    expect(meetMesh({ ...ray, from: [2, 0, 5] }, cube)).toBe(Number.POSITIVE_INFINITY);
    expect(meetLevel(ray, 1)).toEqual([0.2, 0.1]);
    expect(meetLevel({ ...ray, way: [0, 0, 1] }, 1)).toBeNull();
    const stand = { at: [0.2, 0.1, 0], up: [0, 0, 1], turn: 0, size: 1, broad: 1, tint: 0 } as const;
    expect(meetPlants(ray, [stand], 0.1, 1)).toBeCloseTo(2, 12);
    // one that hangs from the surface is met at its leaves
    expect(meetPlants(ray, [stand], 0.1, -1)).toBeCloseTo(2.5, 12);
  });

  test("a lamp that is tilted throws its light to the back, one that is turned lies across", () => {
    const [, , down] = lampAxes({ turn: 0, tilt: 20 });
    expect(down[1]).toBeCloseTo(Math.sin((20 * Math.PI) / 180), 12);
    expect(down[2]).toBeLessThan(-0.9);
    const [along] = lampAxes({ turn: 90, tilt: 0 });
    expect(along[1]).toBeCloseTo(1, 12);
    const lamp = { ...demoScene().lamps[0]!, x: 0, y: 0, z: 1, turn: 90 };
    expect(meetLamp({ from: [0, 0.25, 3], way: [0, 0, -1] }, lamp)).toBeCloseTo(1.988, 9);
    expect(meetLamp({ from: [0.25, 0, 3], way: [0, 0, -1] }, lamp)).toBe(Number.POSITIVE_INFINITY);
  });
});

describe("colours", () => {
  test("are those of the drawings, in both themes; a token without colour is refused", () => {
    expect(colourOf("paper", "--paper").map((c) => Math.round(255 * c))).toEqual([0xf6, 0xf3, 0xea]);
    expect(colourOf("room", "--d-lit").map((c) => Math.round(255 * c))).toEqual([0x21, 0x38, 0x34]);
    expect(() => colourOf("paper", "--night")).toThrow(/--night is rgba/);
    expect(() => colourOf("paper", "--nothing")).toThrow(/undefined/);
  });

  test("one plant wears one tint, two of a form are told apart", () => {
    const zone = (key: string, label: string) => ({ key, label, form: "carpet", leaf: "needle" }) as const;
    expect(tonesOf([zone("A", "one"), zone("A", "one"), zone("B", "two")])).toEqual(["grass", "grass", "wine"]);
  });

  test("a mesh that has been moved is inked the same", () => {
    const { mesh } = stoneMesh({ width: 0.1, breadth: 0.1, height: 0.1, shape: "faceted", seed: 4 });
    const moved = solidSurface(placeMesh(mesh, { shift: [0.5, 0, 0] }), false);
    expect(moved.creases.length).toBe(solidSurface(mesh, false).creases.length);
  });
});
