import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { TextReader } from "./ascii.ts";
import { binaryStlOf, type GltfJson, gltfOf, objOf, text, textStlOf } from "./files.testing.ts";
import { icosphere } from "./icosphere.ts";
import {
  joinMeshes,
  type Mesh,
  MeshFault,
  meshBounds,
  meshVolume,
  mostBytes,
  placeMesh,
  readMesh,
  writeGlb,
} from "./index.ts";
import { box } from "./shapes.testing.ts";

const brick = box(0.3, 0.2, 0.1);
const ball = placeMesh(icosphere(6), { scale: 0.1, shift: [0.2, -0.3, 0.4] });

async function fault(bytes: Uint8Array, name: string): Promise<MeshFault> {
  const error = await readMesh(bytes, name).then(
    () => new Error("it was read"),
    (e: unknown) => e,
  );
  expect(error).toBeInstanceOf(MeshFault);
  return error as MeshFault;
}

function same(got: Mesh, want: Mesh): void {
  expect(got.triangles.length).toBe(want.triangles.length);
  // Single precision and welding aside they are the same solid.
  expect(meshVolume(got)).toBeCloseTo(meshVolume(want), 8);
  meshBounds(got).min.forEach((value, axis) => {
    expect(value).toBeCloseTo(meshBounds(want).min[axis]!, 6);
  });
}

describe("reading what is good", () => {
  test("OBJ, both kinds of STL and glTF give the same solid", async () => {
    for (const mesh of [brick, ball]) {
      const obj = await readMesh(objOf(mesh), "a.obj");
      expect(obj).toMatchObject({ format: "OBJ", unitsKnown: false });
      expect([...obj.mesh.positions]).toEqual([...mesh.positions]);
      same(obj.mesh, mesh);
      const stl = await readMesh(textStlOf(mesh), "a.stl");
      expect(stl).toMatchObject({ format: "STL", unitsKnown: false });
      same(stl.mesh, mesh);
      same((await readMesh(binaryStlOf(mesh), "a.stl")).mesh, mesh);
      // glTF has y up and z to the front: what was written as x, y, z comes as x, -z, y.
      const gltf = await readMesh(gltfOf(mesh), "a.gltf");
      expect(gltf).toMatchObject({ format: "glTF", unitsKnown: true });
      same(gltf.mesh, placeMesh(mesh, { tip: -90 }));
      expect(meshBounds(gltf.mesh).max[2]).toBeCloseTo(meshBounds(mesh).max[1], 6);
    }
  });

  test("what a file is comes from its bytes where they tell", async () => {
    expect((await readMesh(objOf(brick), "scan")).format).toBe("OBJ");
    expect((await readMesh(textStlOf(brick), "scan.txt")).format).toBe("STL");
    expect((await readMesh(gltfOf(brick), "scan.json")).format).toBe("glTF");
    expect((await readMesh(writeGlb([{ name: "b", mesh: brick }]), "scan.stl")).format).toBe("glTF");
    // A binary file whose header starts like a text one.
    const bytes = binaryStlOf(brick);
    bytes.set(text("solid by some scanner"));
    same((await readMesh(bytes, "scan.stl")).mesh, brick);
  });

  test("spellings of OBJ: comments, colours, carried lines, polygons, counts from the end", async () => {
    const words = [
      "\uFEFF# top",
      "mtllib none.mtl",
      "v 0 0 0 0.5 0.5 0.5",
      "v 1.0e0 0 0\r",
      "v 1 1 \\",
      "  0",
      "v 0 +1 0",
      "\tv .5 .5 1.",
      "vn 0 0 1",
      "s off",
      "f 4/1/1 3/2/1 2/3/1 1/4/1 # below",
      "f -5 -4 -1",
      "f 2 3 5",
      "f 3//1 4//1 5//1",
      "f 4 1 5",
      "l 1 2",
    ].join("\n");
    const { mesh } = await readMesh(text(words.slice(1)), "pyramid.obj");
    expect(mesh.triangles).toHaveLength(18);
    expect(meshVolume(mesh)).toBeCloseTo(1 / 3, 14);
  });

  test("numbers of text are read as the language reads them", () => {
    const same = (word: string): void => {
      expect(new TextReader(text(`${word} `)).number()).toBe(Number(word));
    };
    for (const word of [
      "0",
      "-0",
      "1e5",
      "1.5E-3",
      "+2",
      "123456789012345678901",
      "1e-300",
      "4.9e-324",
      "0.1",
      "-7.25e+2",
    ])
      same(word);
    fc.assert(fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => same(String(value))));
    fc.assert(fc.property(fc.double({ noNaN: true, min: -1e6, max: 1e6 }), (value) => same(value.toFixed(7))));
    for (const word of ["", ".", "e5", "1e", "1.2.3", "1,5", "nan", "Infinity", "0x10", "--1"])
      expect(new TextReader(text(`${word} `)).number()).toBeNaN();
  });

  test("nodes of glTF set their meshes: nested, scaled, turned, mirrored, used twice", async () => {
    const bytes = gltfOf(brick, (json) => {
      json.nodes = [
        { children: [1, 2], translation: [0, 0, 5], scale: [2, 2, 2] },
        { mesh: 0, rotation: [0, Math.SQRT1_2, 0, Math.SQRT1_2], translation: [1, 0, 0] },
        { mesh: 0, matrix: [-1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 3, 0, 1] },
      ];
    });
    const { mesh } = await readMesh(bytes, "a.gltf");
    // Twice eight times the brick; the mirrored one still outward.
    expect(meshVolume(mesh)).toBeCloseTo(16 * 0.006, 7);
    const bounds = meshBounds(mesh);
    // Right: the turned one from 2 to 2.2 (its depth of 0.1), the mirrored from -0.6 to 0. Up: 0 to 6.4. Front at -y.
    expect(bounds.min.map((v) => Math.round(v * 1e5) / 1e5)).toEqual([-0.6, -5.2, 0]);
    expect(bounds.max.map((v) => Math.round(v * 1e5) / 1e5)).toEqual([2.2, -4.4, 6.4]);
  });

  test("strips and fans are parted with their turns, other chunks passed over", async () => {
    // A tetrahedron as a strip: 0 1 2, 2 1 3, 2 3 0, 0 3 1.
    const tetra: Mesh = {
      positions: Float64Array.from([0, 0, 0, 0, 1, 0, 1, 0, 0, 0, 0, 1]),
      triangles: Uint32Array.from([0, 1, 2, 3, 0, 1]),
    };
    const strip = gltfOf(tetra, (json) => {
      json.meshes[0]!.primitives[0]!.mode = 5;
      json.buffers[0]!.uri = String(json.buffers[0]!.uri)
        .replaceAll("/", "\\/")
        .replace("application\\/", "application/");
    });
    const unescaped = text(new TextDecoder().decode(strip).replaceAll("\\\\/", "\\/"));
    expect(Math.abs(meshVolume((await readMesh(unescaped, "a.gltf")).mesh))).toBeCloseTo(1 / 6, 12);
    const fan = gltfOf({ ...tetra, triangles: Uint32Array.from([0, 1, 3, 2, 1]) }, (json) => {
      json.meshes[0]!.primitives[0]!.mode = 6;
    });
    expect((await readMesh(fan, "a.gltf")).mesh.triangles).toHaveLength(9);
  });

  test("what is written as .glb is read again", async () => {
    const pieces = [
      { name: "stone", mesh: ball, colour: [0.4, 0.4, 0.45] as const },
      { name: "wood", mesh: brick, colour: [0.3, 0.2, 0.1, 0.5] as const },
    ];
    const bytes = writeGlb(pieces);
    const { mesh, unitsKnown } = await readMesh(bytes, "scape.glb");
    expect(unitsKnown).toBe(true);
    const joined = joinMeshes([ball, brick]);
    expect([...mesh.triangles]).toEqual([...joined.triangles]);
    mesh.positions.forEach((value, k) => {
      expect(value).toBe(Math.fround(joined.positions[k]!));
    });
    const view = new DataView(bytes.buffer);
    expect(view.getUint32(8, true)).toBe(bytes.length);
    expect(bytes.length % 4).toBe(0);
    const json = JSON.parse(new TextDecoder().decode(bytes.subarray(20, 20 + view.getUint32(12, true))));
    expect(json.accessors[0].min).toEqual(
      [0, 1, 2].map((k) => Math.min(...turnedOf(ball).filter((_, n) => n % 3 === k))),
    );
    expect(json.materials[1]).toMatchObject({ alphaMode: "BLEND", name: "wood" });
    for (const v of json.bufferViews) expect(v.byteOffset % 4).toBe(0);
    expect(() => writeGlb([])).toThrow(RangeError);
    expect(() => writeGlb([{ name: "x", mesh: { ...brick, triangles: new Uint32Array(0) } }])).toThrow(
      "x: a mesh without",
    );
    expect(() => writeGlb([{ name: "x", mesh: brick, colour: [2, 0, 0] }])).toThrow(RangeError);
    expect(() => writeGlb([{ name: "x", mesh: { ...brick, triangles: Uint32Array.of(0, 1, 99) } }])).toThrow(
      "corner 99 of 8",
    );
  });
});

function turnedOf({ positions }: Mesh): number[] {
  const places: number[] = [];
  for (let k = 0; k < positions.length; k += 3) {
    places.push(Math.fround(positions[k]!), Math.fround(positions[k + 2]!), Math.fround(-positions[k + 1]!));
  }
  return places;
}

/** Every one is refused with the place and the reason. */
const shelf: readonly (readonly [what: string, bytes: Uint8Array, name: string, where: string, reason: RegExp])[] = [
  ["nothing at all", new Uint8Array(0), "a.obj", "byte 0", /empty/],
  ["a letter", text("Dear keeper,\n\nthe tank is well.\n"), "letter.txt", "byte 0", /not a mesh/],
  ["a letter that calls itself OBJ", text("Dear keeper,\n\nthe tank is well.\n"), "a.obj", "file", /no corners/],
  ["a picture", Uint8Array.of(0x89, 80, 78, 71, 13, 10, 26, 10, 0, 0, 0, 13), "a.png", "byte 0", /not a mesh/],
  ["a corner of words", text("v 0 0 0\nv one 0 0\n"), "a.obj", "line 2", /not numbers/],
  ["a corner that is not finite", text("v 0 0 0\nv 0 1e999 0\n"), "a.obj", "line 2", /not numbers/],
  ["a corner cut off", text("v 0 0 0\nv 0 1"), "a.obj", "line 2", /a corner with 2 numbers/],
  ["a face beyond the corners", text("v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 4\n"), "a.obj", "line 4", /corner 4.*1 to 3/],
  ["a face from before the start", text("v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 -4\n"), "a.obj", "line 4", /corner -4/],
  ["a face of corner 0", text("v 0 0 0\nv 1 0 0\nv 0 1 0\nf 0 1 2\n"), "a.obj", "line 4", /corner 0/],
  ["a face of two corners", text("v 0 0 0\nv 1 0 0\nf 1 2\n"), "a.obj", "line 3", /2 corners/],
  ["a face of words", text("v 0 0 0\nv 1 0 0\nf a b c\n"), "a.obj", "line 3", /names no corner/],
  ["corners without faces", text("v 0 0 0\nv 1 0 0\nv 0 1 0\n"), "a.obj", "file", /no triangles/],
  ["all in one place", text("v 1 1 1\nv 1 1 1\nv 1 1 1\nf 1 2 3\n"), "a.obj", "file", /largest extent is 0/],
  ["as large as the earth", text("v 0 0 0\nv 1.2e7 0 0\nv 0 1 0\nf 1 2 3\n"), "a.obj", "file", /extent is 12000000/],
  ["far from its origin", text("v 1e8 0 0\nv 100000001 0 0\nv 1e8 1 0\nf 1 2 3\n"), "a.obj", "file", /few digits left/],
  ["a text STL cut off", textStlOf(brick).slice(0, 700), "a.stl", "line 40", /ends early/],
  ["a text STL without its end", textStlOf(brick).slice(0, -15), "a.stl", "line 86", /ends early/],
  [
    "a facet of four corners",
    text(
      "solid a\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 1 0 0\nvertex 0 1 0\nvertex 1 1 0\nendloop\nendfacet\nendsolid\n",
    ),
    "a.stl",
    "line 7",
    /fourth corner/,
  ],
  [
    "a facet of two corners",
    text("solid a\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 1 0 0\nendloop\nendfacet\nendsolid\n"),
    "a.stl",
    "line 7",
    /facet of 2/,
  ],
  ["an STL with a foreign word", text("solid a\nfacet normal 0 0 1\nbanana\n"), "a.stl", "line 3", /"banana"/],
  ["an STL of nothing", text("solid a\nendsolid a\n"), "a.stl", "file", /no triangles/],
  ["a binary STL cut off", binaryStlOf(ball).slice(0, 500), "a.stl", "byte 80", /720 triangles.*36084.*500/],
  ["a binary STL without a count", new Uint8Array(60), "a.stl", "byte 60", /ends early/],
  ["a binary STL with a wild count", changed(binaryStlOf(brick), 83, 200), "a.stl", "byte 80", /triangles or more/],
  [
    "a binary STL with a corner that is not a number",
    changed(changed(binaryStlOf(brick), 84 + 50 + 15, 127), 84 + 50 + 14, 192),
    "a.stl",
    "byte 146",
    /triangle 2/,
  ],
  ["a glb cut off", writeGlb([{ name: "b", mesh: ball }]).slice(0, 400), "a.glb", "byte 8", /ends after 400/],
  ["a glb of version 1", changed(writeGlb([{ name: "b", mesh: ball }]), 4, 1), "a.glb", "byte 4", /version 1/],
  [
    "a glb with a chunk beyond its end",
    changed(writeGlb([{ name: "b", mesh: ball }]), 14, 9),
    "a.glb",
    "byte 12",
    /reaches beyond/,
  ],
  ["JSON cut off", gltfOf(brick).slice(0, 300), "a.gltf", "file", /not JSON/],
  ["JSON of something else", text("{}"), "a.gltf", "asset", /no version/],
  [
    "glTF 1.0",
    spoilt((json) => {
      json.asset.version = "1.0";
    }),
    "a.gltf",
    "asset",
    /version 1.0/,
  ],
  [
    "compressed glTF",
    spoilt((json) => {
      json.extensionsRequired = ["KHR_draco_mesh_compression"];
    }),
    "a.gltf",
    "extensionsRequired",
    /KHR_draco_mesh_compression/,
  ],
  [
    "data in another file",
    spoilt((json) => {
      json.buffers[0]!.uri = "scan.bin";
    }),
    "a.gltf",
    "buffer 0",
    /scan.bin/,
  ],
  [
    "data that is not base64",
    spoilt((json) => {
      json.buffers[0]!.uri = "data:text/plain,abc";
    }),
    "a.gltf",
    "byte 646",
    /not base64/,
  ],
  [
    "a buffer shorter than it says",
    spoilt((json) => {
      json.buffers[0]!.byteLength = 9999;
    }),
    "a.gltf",
    "buffer 0",
    /9999 bytes/,
  ],
  [
    "an index out of range",
    gltfOf({ ...brick, triangles: Uint32Array.of(0, 1, 2, 0, 2, 8) }),
    "a.gltf",
    "mesh 0, primitive 0",
    /corner 8.*0 to 7/,
  ],
  [
    "an accessor beyond its view",
    spoilt((json) => {
      json.accessors[0]!.count = 900;
    }),
    "a.gltf",
    "mesh 0, primitive 0, POSITION",
    /reaches to byte/,
  ],
  [
    "whole numbers for places",
    spoilt((json) => {
      json.accessors[0]!.componentType = 5123;
    }),
    "a.gltf",
    "mesh 0, primitive 0, POSITION",
    /VEC3 of 5126/,
  ],
  [
    "places that are not numbers",
    gltfOf({ ...brick, positions: brick.positions.map((v, k) => (k === 4 ? Number.NaN : v)) }),
    "a.gltf",
    "mesh 0, primitive 0",
    /corner 1 is/,
  ],
  [
    "lines instead of triangles",
    spoilt((json) => {
      json.meshes[0]!.primitives[0]!.mode = 1;
    }),
    "a.gltf",
    "mesh 0, primitive 0",
    /points or lines/,
  ],
  [
    "a primitive without places",
    spoilt((json) => {
      json.meshes[0]!.primitives[0]!.attributes = {};
    }),
    "a.gltf",
    "mesh 0, primitive 0",
    /no POSITION/,
  ],
  [
    "a node within itself",
    spoilt((json) => {
      json.nodes[0]!.children = [0];
    }),
    "a.gltf",
    "node 0",
    /within itself/,
  ],
  [
    "a mesh that does not exist",
    spoilt((json) => {
      json.nodes[0]!.mesh = 3;
    }),
    "a.gltf",
    "node 0",
    /meshes has no item 3/,
  ],
  [
    "a node moved by words",
    spoilt((json) => {
      json.nodes[0]!.translation = ["a", 0, 0];
    }),
    "a.gltf",
    "node 0",
    /not numbers/,
  ],
  [
    "a scene of nothing",
    spoilt((json) => {
      json.scenes[0]!.nodes = [];
    }),
    "a.gltf",
    "scene",
    /no mesh/,
  ],
];

function changed(bytes: Uint8Array, at: number, value: number): Uint8Array {
  const copy = bytes.slice();
  copy[at] = value;
  return copy;
}

function spoilt(change: (json: GltfJson) => void): Uint8Array {
  return gltfOf(brick, change);
}

describe("refusing what is bad, with the place and the reason", () => {
  test.each(shelf)("%s", async (_, bytes, name, where, reason) => {
    const error = await fault(bytes, name);
    expect(error.message).toMatch(reason);
    expect(error.where).toBe(where);
    expect(error.message.startsWith(`${error.where}: `)).toBe(true);
    expect(error.allowed.length).toBeGreaterThan(3);
  });

  test("a file over the limit is refused before it is read", async () => {
    const error = await fault(new Uint8Array(mostBytes + 1), "a.stl");
    expect(error.message).toContain(`up to ${mostBytes} bytes`);
  });

  test("bytes thrown together never give anything but a mesh or a fault", async () => {
    const good = [
      objOf(brick),
      textStlOf(brick),
      binaryStlOf(brick),
      gltfOf(brick),
      writeGlb([{ name: "b", mesh: brick }]),
    ];
    const names = ["a.obj", "a.stl", "a.stl", "a.gltf", "a.glb"];
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 0, max: 4 }),
        fc.array(fc.tuple(fc.nat(), fc.integer({ min: 0, max: 255 })), { minLength: 1, maxLength: 8 }),
        fc.double({ min: 0.2, max: 1, noNaN: true }),
        async (kind, bites, kept) => {
          const bytes = good[kind]!.slice(0, Math.ceil(good[kind]!.length * kept));
          for (const [at, value] of bites) bytes[at % bytes.length] = value;
          const got = await readMesh(bytes, names[kind]!).catch((e: unknown) => e);
          if (got instanceof Error) expect(got).toBeInstanceOf(MeshFault);
          else {
            const { mesh } = got as { mesh: Mesh };
            expect(mesh.positions.every(Number.isFinite)).toBe(true);
            expect(mesh.triangles.every((corner) => 3 * corner < mesh.positions.length)).toBe(true);
          }
        },
      ),
      { numRuns: 400 },
    );
  });
});

describe("long files", () => {
  const long = objOf(icosphere(60));

  test("reading gives way, tells how far it is and can be stopped", async () => {
    const shares: number[] = [];
    let turns = 0;
    const timer = setInterval(() => {
      turns += 1;
    }, 1);
    const { mesh } = await readMesh(long, "a.obj", { onProgress: (share) => shares.push(share) });
    clearInterval(timer);
    expect(mesh.triangles).toHaveLength(3 * 72_000);
    expect(turns).toBeGreaterThan(0);
    expect(shares.at(-1)).toBe(1);
    expect([...shares].sort((a, b) => a - b)).toEqual(shares);
    const stop = new AbortController();
    const stopped = readMesh(long, "a.obj", { signal: stop.signal, onProgress: () => stop.abort() });
    await expect(stopped).rejects.toMatchObject({ name: "AbortError" });
    await expect(readMesh(long, "a.obj", { signal: AbortSignal.abort() })).rejects.toMatchObject({
      name: "AbortError",
    });
  });
});
