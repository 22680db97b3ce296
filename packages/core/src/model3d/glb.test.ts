import { validateBytes } from "gltf-validator";
import { describe, expect, test } from "vitest";
import type { ScapeScene } from "../drawing/index.ts";
import { fieldFrom, fieldVolume, outlineArea } from "../geometry/index.ts";
import { meshBounds, meshVolume, placeMesh, stoneMesh, woodMesh } from "../solids/index.ts";
import { GlbFile } from "./glb-file.ts";
import { scapeGlb } from "./scape-glb.ts";
import { Faces, glassMesh, layerMesh, waterMesh } from "./solids-of.ts";

const floor = { length: 0.74, width: 0.36, columns: 25, rows: 13 };
const soil = fieldFrom(floor, (x, y) => 0.03 + 0.1 * y + 0.01 * x);
const area = [
  [0.1, 0.02],
  [0.4, 0.03],
  [0.42, 0.2],
  [0.3, 0.1],
  [0.12, 0.18],
] as const;
const sandTop = fieldFrom(floor, (x, y) => 0.04 + 0.1 * y + 0.01 * x);

/** Invented: a tank with all that can stand in one. */
const scene: ScapeScene = {
  tank: { length: 0.74, width: 0.36, height: 0.4, glass: 0.008, base: 0.008, waterLine: 0.37, cover: "lid" },
  layers: [
    { material: "soil", top: soil, within: null },
    { material: "sand", top: sandTop, within: area },
  ],
  ground: sandTop,
  edges: [],
  pieces: [
    {
      index: 0,
      key: "S1",
      label: "slate",
      kind: "stone",
      texture: "layered",
      mesh: placeMesh(stoneMesh({ width: 0.16, breadth: 0.1, height: 0.12, shape: "layered", seed: 4 }).mesh, {
        shift: [0.5, 0.2, 0.03],
      }),
      grain: [0, 0, 1],
      locked: false,
    },
    {
      index: 1,
      key: "W1",
      label: "root wood",
      kind: "wood",
      texture: "layered",
      mesh: placeMesh(woodMesh({ width: 0.3, breadth: 0.15, height: 0.2, branches: 3, seed: 4 }).mesh, {
        shift: [0.3, 0.25, 0.05],
      }),
      grain: [1, 0, 0],
      locked: false,
    },
  ],
  zones: (["stem", "rosette", "runner", "carpet", "moss", "bulb", "rhizome", "floating"] as const).map(
    (form, index) => ({
      index,
      key: String.fromCharCode(65 + index),
      label: `a ${form} plant`,
      form,
      leaf: (["lobed", "oval", "ribbon", "needle", "needle", "ribbon", "fern", "round"] as const)[index]!,
      outline: [
        [0.05 + 0.08 * index, 0.1],
        [0.12 + 0.08 * index, 0.1],
        [0.12 + 0.08 * index, 0.32],
        [0.05 + 0.08 * index, 0.32],
      ],
      height: form === "runner" ? 0.45 : 0.08,
      cover: 0.4,
      on: form === "rhizome" ? 1 : null,
      spread: 0.05,
    }),
  ),
  lamps: [
    {
      index: 0,
      kind: "bar",
      length: 0.6,
      width: 0.1,
      x: 0.37,
      y: 0.18,
      z: 0.5,
      turn: 10,
      tilt: 15,
      strength: 0.7,
      caption: "bar lamp",
    },
    {
      index: 1,
      kind: "pendant",
      length: 0.1,
      width: 0.1,
      x: 0.6,
      y: 0.18,
      z: 0.6,
      turn: 0,
      tilt: 0,
      strength: 0,
      caption: "pendant lamp",
    },
  ],
  animals: [],
  seed: 9,
};

interface Json {
  readonly nodes: readonly {
    readonly name: string;
    readonly mesh?: number;
    readonly children?: readonly number[];
    readonly extras?: Record<string, string>;
    readonly rotation?: readonly [number, number, number, number];
    readonly translation?: readonly [number, number, number];
    readonly scale?: readonly [number, number, number];
  }[];
  readonly meshes: readonly {
    readonly name: string;
    readonly primitives: readonly { readonly attributes: { readonly POSITION: number } }[];
  }[];
  readonly accessors: readonly { readonly min: readonly number[]; readonly max: readonly number[] }[];
}

function jsonOf(file: Uint8Array): Json {
  const view = new DataView(file.buffer, file.byteOffset);
  return JSON.parse(new TextDecoder().decode(file.subarray(20, 20 + view.getUint32(12, true)))) as Json;
}

describe("the scape as glTF", () => {
  test("the standard's own validator finds no fault and nothing to warn of", async () => {
    const report = await validateBytes(scapeGlb(scene, "Invented glass"), { maxIssues: 20, writeTimestamp: false });
    expect(report.issues.messages.filter(({ severity }) => severity < 2)).toEqual([]);
    expect(report.issues).toMatchObject({ numErrors: 0, numWarnings: 0 });
    expect(report.mimeType).toBe("model/gltf-binary");
    expect(report.info.drawCallCount).toBeGreaterThan(20);
  });

  test("the validator does find a planted fault", async () => {
    const file = scapeGlb(scene, "Invented glass");
    const spoilt = file.slice();
    const at = new TextDecoder("latin1").decode(file).indexOf('"mode":4');
    expect(at).toBeGreaterThan(0);
    spoilt[at + 7] = "9".charCodeAt(0);
    const report = await validateBytes(spoilt, { writeTimestamp: false });
    expect(report.issues.numErrors).toBeGreaterThan(0);
  });

  test("an empty tank is a file as well", async () => {
    const bare: ScapeScene = {
      ...scene,
      layers: [],
      ground: fieldFrom(floor, () => 0),
      pieces: [],
      zones: [],
      lamps: [],
    };
    const report = await validateBytes(scapeGlb(bare, "Bare"), { writeTimestamp: false });
    expect(report.issues).toMatchObject({ numErrors: 0, numWarnings: 0 });
  });

  test("nodes carry keys and names of the plan; plants of a planting share their meshes", () => {
    const { nodes, meshes } = jsonOf(scapeGlb(scene, "Invented glass"));
    expect(nodes.find(({ name }) => name === "S1 slate")?.extras).toEqual({ key: "S1", plan: "hardscape[0]" });
    expect(nodes.find(({ extras }) => extras?.plan === "lamps[0]")?.name).toBe("pendant lamp 2");
    const carpet = nodes.find(({ extras }) => extras?.plan === "plants[3]")!;
    expect(carpet.extras).toMatchObject({ key: "D", species: "a carpet plant", form: "carpet" });
    expect(carpet.children!.length).toBeGreaterThan(3);
    const shapes = new Set(carpet.children!.map((k) => nodes[k]!.mesh));
    expect(shapes.size).toBeLessThanOrEqual(3);
    expect([...shapes].every((k) => meshes[k!]!.name.startsWith("D a carpet plant"))).toBe(true);
  });

  test("up is y, the viewer stands towards z, lengths are metres", () => {
    const { nodes, meshes, accessors } = jsonOf(scapeGlb(scene, "Invented glass"));
    const glass = meshes[nodes.find(({ name }) => name === "glass")!.mesh!]!;
    const { min, max } = accessors[glass.primitives[0]!.attributes.POSITION]!;
    expect(min.map((v) => Math.round(v * 1e6))).toEqual([-8000, -8000, -368_000]);
    expect(max.map((v) => Math.round(v * 1e6))).toEqual([748_000, 400_000, 8000]);
  });

  test("plants grow upwards on the bed, also where they are turned and sized", () => {
    const { nodes } = jsonOf(scapeGlb(scene, "Invented glass"));
    const stems = nodes.find(({ extras }) => extras?.plan === "plants[0]")!.children!.map((k) => nodes[k]!);
    for (const { rotation, translation, scale } of stems) {
      const [x, y, z, w] = rotation!;
      expect(Math.hypot(x, y, z, w)).toBeCloseTo(1, 5);
      // the file's y axis, turned by the quaternion, still points up
      expect(1 - 2 * (x * x + z * z)).toBeCloseTo(1, 5);
      expect(translation![1]).toBeGreaterThan(0.03);
      expect(translation![2]).toBeLessThan(0);
      expect(Math.min(...scale!)).toBeGreaterThan(0.5);
    }
  });

  test("a quarter turn about the upright axis goes to the left, seen from above", () => {
    const file = new GlbFile();
    const mesh = file.mesh("box", [
      {
        ...new Faces().box([0, 0, 0], [1, 1, 1]).mesh,
        material: file.material({ name: "m", colour: [1, 1, 1], roughness: 1 }),
      },
    ]);
    const node = file.node({
      name: "turned",
      mesh,
      place: { at: [1, 2, 3], along: [0, 1, 0], across: [-1, 0, 0], up: [0, 0, 1], size: [2, 3, 4] },
    });
    const { nodes } = jsonOf(file.write(node, "turned"));
    expect(nodes[0]!.translation).toEqual([1, 3, -2]);
    expect(nodes[0]!.scale).toEqual([2, 4, 3]);
    const [x, y, z, w] = nodes[0]!.rotation!;
    // x of the part comes to lie along the tank's y, which is -z of the file: R e_x = (0, 0, -1)
    expect(
      [1 - 2 * (y * y + z * z), 2 * (x * y + z * w), 2 * (x * z - y * w)].map((v) => Math.round(v * 1e4) / 1e4 + 0),
    ).toEqual([0, 0, -1]);
  });

  test("what it cannot write it refuses in words", () => {
    const file = new GlbFile();
    expect(() => file.mesh("nothing", [])).toThrow(/without triangles/);
    expect(() =>
      file.mesh("far", [{ positions: [0, 0, Infinity, 1, 0, 0, 0, 1, 0], triangles: [0, 1, 2], material: 0 }]),
    ).toThrow(/not a number/);
    expect(() => file.mesh("odd", [{ positions: [0, 0, 0], triangles: [0, 1, 2], material: 0 }])).toThrow(
      /corner 1 of 1/,
    );
  });
});

describe("the solids", () => {
  test("the panes hold their glass: outside box less the inside, closed and seen from outside", () => {
    const { length, width, height, glass, base } = scene.tank;
    const outside = (length + 2 * glass) * (width + 2 * glass) * (height + base);
    expect(meshVolume(glassMesh(scene.tank))).toBeCloseTo(outside - length * width * height, 9);
  });

  test("a layer holds what it is laid with, an area of sand too", () => {
    expect(meshVolume(layerMesh(scene.layers[0]!, null)) / fieldVolume(soil)).toBeCloseTo(1, 3);
    // 1 cm of sand over the area that the shoelace formula gives
    expect(meshVolume(layerMesh(scene.layers[1]!, soil)) / (0.01 * outlineArea(area))).toBeCloseTo(1, 2);
  });

  test("the water fills what the bed leaves", () => {
    const { length, width, waterLine } = scene.tank;
    const water = meshVolume(waterMesh(scene.tank, sandTop));
    expect(water / (length * width * waterLine - fieldVolume(sandTop))).toBeCloseTo(1, 2);
    expect(meshBounds(waterMesh(scene.tank, sandTop)).max[2]).toBeCloseTo(waterLine, 9);
  });
});
