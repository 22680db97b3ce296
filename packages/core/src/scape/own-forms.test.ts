import { describe, expect, test } from "vitest";
import { createRandom } from "../numerics/index.ts";
import {
  applyChanges,
  applyToRaw,
  invert,
  pieceDensity,
  type RawPlan,
  readPlan,
  resolvePlan,
  sameJson,
  unpackMesh,
} from "../plan/index.ts";
import { binaryStlOf, objOf, text, textStlOf } from "../solids/files.testing.ts";
import {
  icosphere,
  type Mesh,
  MeshFault,
  meshBounds,
  meshVolume,
  mostTriangles,
  readMesh,
  writeGlb,
} from "../solids/index.ts";
import { box, meshOf } from "../solids/shapes.testing.ts";
import {
  type Board,
  billOf,
  formFromMesh,
  mostKept,
  type OwnForm,
  type OwnFormOptions,
  ownPiece,
  scapeOf,
  sideLimits,
} from "./index.ts";

/** A ball with a scanner's noise of a thousandth of its radius, squeezed to half axes. */
function scan(axes: readonly [number, number, number], parts = 40): Mesh {
  const random = createRandom(7);
  const { positions, triangles } = icosphere(parts);
  for (let k = 0; k < positions.length; k += 3) {
    const r = 1 + 0.002 * (random.uniform() - 0.5);
    for (let axis = 0; axis < 3; axis++) positions[k + axis]! *= r * axes[axis]!;
  }
  return { positions, triangles };
}

/** Volume of an ellipsoid. */
const ellipsoid = ([a, b, c]: readonly [number, number, number]): number => (4 / 3) * Math.PI * a * b * c;

function sides(mesh: Mesh): number[] {
  const { min, max } = meshBounds(mesh);
  return [0, 1, 2].map((axis) => max[axis]! - min[axis]!);
}

async function formOf(bytes: Uint8Array, name: string, options: OwnFormOptions = {}): Promise<OwnForm> {
  return formFromMesh(await readMesh(bytes, name), options);
}

async function refused(bytes: Uint8Array, name: string, options: OwnFormOptions = {}): Promise<Error> {
  return formOf(bytes, name, options).then(
    (form) => new Error(`it was taken: ${form.said.join("; ")}`),
    (error: Error) => error,
  );
}

/** Half axes of a stone of 200 by 160 by 120 mm, m. */
const stone = [0.1, 0.08, 0.06] as const;
const whole = scan(stone);
const inMillimetres: Mesh = { ...whole, positions: whole.positions.map((v) => 1000 * v) };
const width = sides(whole)[0]!;

/** The box, the measured fill and the sizes against the ellipsoid's own figures. */
function expectStone(form: OwnForm, [x, y, z]: readonly [number, number, number] = stone): void {
  expect(form.volume / ellipsoid(stone)).toBeGreaterThan(0.999);
  expect(form.volume / ellipsoid(stone)).toBeLessThan(1.001);
  // The noise reaches out by a thousandth at most.
  for (const [size, half] of [
    [form.width, x],
    [form.breadth, y],
    [form.height, z],
  ] as const) {
    expect(Math.abs(size / (2 * half) - 1)).toBeLessThan(0.0015);
  }
  const packed = unpackMesh(form.model)!;
  expect(packed.mesh.triangles.length / 3).toBe(form.kept);
  expect(form.kept).toBeLessThanOrEqual(mostKept);
  expect(sides(packed.mesh)).toEqual([1, 1, 1]);
  // A ball fills pi/6 of its box, whatever its axes.
  expect(Math.abs(packed.fill / (Math.PI / 6) - 1)).toBeLessThan(0.004);
  expect(packed.fill * form.width * form.breadth * form.height).toBeCloseTo(form.volume, 9);
  // Thinned, it still is that ball to the eye.
  expect(Math.abs(meshVolume(packed.mesh) / (Math.PI / 6) - 1)).toBeLessThan(0.05);
}

describe("a form of an owner's file", () => {
  test("STL, OBJ and GLB of one scan come to the same stone", async () => {
    const known = { side: "width", metres: width } as const;
    expectStone(await formOf(binaryStlOf(inMillimetres), "scan.stl", { known }));
    expectStone(await formOf(textStlOf(inMillimetres), "scan.stl", { known }));
    expectStone(await formOf(objOf(inMillimetres), "scan.obj", { known }));
    const glb = await formOf(writeGlb([{ name: "scan", mesh: whole }]), "scan.glb");
    expectStone(glb);
    expect(glb.found).toBe(32_000);
    expect(glb.said).toEqual([`drawn with ${glb.kept} of 32000 triangles; volume and mass are those of the whole`]);
  });

  test("an STL in mm of a 200 mm stone is scaled by its known width", async () => {
    const form = await formOf(binaryStlOf(inMillimetres), "scan.stl", { known: { side: "width", metres: width } });
    expect(form.said).toContain("1 unit of the file taken as 1 mm");
    expect(form.width).toBeCloseTo(width, 12);
    const inches = { ...whole, positions: whole.positions.map((v) => v / 0.0254) };
    const longest = await formOf(objOf(inches), "scan.obj", { known: { side: "longest", metres: width } });
    expect(longest.said).toContain("1 unit of the file taken as 25.4 mm");
    expectStone(longest);
    const height = await formOf(objOf(inches), "scan.obj", { known: { side: "height", metres: 0.24 } });
    expect(height.volume / ellipsoid(stone) / 8).toBeCloseTo(1, 2);
  });

  test("a model that the file has in m may still be scaled", async () => {
    const glb = writeGlb([{ name: "scan", mesh: whole }]);
    const half = await formOf(glb, "a.glb", { known: { side: "width", metres: width / 2 } });
    expect(half.said).toContain("1 m of the file taken as 500 mm");
    expect((8 * half.volume) / ellipsoid(stone)).toBeCloseTo(1, 2);
  });

  test("what has its y axis up is set upright, and is not mirrored", async () => {
    // A wedge that tells every direction: long to the right, high at the back.
    const wedge = meshOf(
      [
        [0, 0, 0],
        [0.3, 0, 0],
        [0.3, 0.2, 0],
        [0, 0.2, 0],
        [0, 0.2, 0.1],
        [0.3, 0.2, 0.1],
      ],
      [
        [0, 3, 2],
        [0, 2, 1],
        [0, 1, 5],
        [0, 5, 4],
        [3, 4, 5],
        [3, 5, 2],
        [0, 4, 3],
        [1, 2, 5],
      ],
    );
    const turned = meshOf(
      [...Array(6).keys()].map((k) => {
        const [x, y, z] = wedge.positions.subarray(3 * k, 3 * k + 3);
        return [x!, z!, -y!];
      }),
      [...Array(8).keys()].map((k) => [...wedge.triangles.subarray(3 * k, 3 * k + 3)]),
    );
    const known = { side: "width", metres: 0.3 } as const;
    const upright = await formOf(objOf(wedge), "wedge.obj", { known });
    const laid = await formOf(objOf(turned), "wedge.obj", { known, up: "y" });
    expect(laid.said).toContain("turned upright: the file's y axis points up");
    expect(laid.model).toBe(upright.model);
    expect([laid.width, laid.breadth, laid.height].map((v) => Number(v.toFixed(9)))).toEqual([0.3, 0.2, 0.1]);
    expect(laid.volume).toBeCloseTo(0.003, 12);
    // glTF fixes up: the choice has no effect there.
    const glb = writeGlb([{ name: "wedge", mesh: wedge }]);
    expect((await formOf(glb, "a.glb", { up: "y" })).height).toBeCloseTo(0.1, 7);
  });

  test("a mesh with one triangle missing is mended, and that is said", async () => {
    const open = { ...inMillimetres, triangles: inMillimetres.triangles.slice(3) };
    const known = { side: "width", metres: width } as const;
    const form = await formOf(objOf(open), "scan.obj", { known });
    expect(form.said[0]).toMatch(/^1 hole closed, the widest .* % of its size$/);
    expectStone(form);
  });

  test("an open foot is refused unless it is to be closed flat", async () => {
    const foot = { ...box(0.3, 0.2, 0.1), triangles: box(0.3, 0.2, 0.1).triangles.slice(6) };
    const known = { side: "width", metres: 0.3 } as const;
    const error = await refused(objOf(foot), "foot.obj", { known });
    expect(error).toBeInstanceOf(MeshFault);
    expect(error.message).toMatch(/^at .*open by a hole 0.361 across.*allowed: holes up to 10 %/);
    const closed = await formOf(objOf(foot), "foot.obj", { known, closeWide: true });
    expect(closed.volume).toBeCloseTo(0.006, 12);
    // A brick fills its box, and no more than that for rounding.
    expect(unpackMesh(closed.model)!.fill).toBe(1);
  });

  test("what is no solid, or of no size that a plan takes, is refused with where and why", async () => {
    const known = { side: "width", metres: 0.2 } as const;
    const rows: readonly (readonly [Uint8Array, string, OwnFormOptions, RegExp])[] = [
      [objOf(ribbon()), "ribbon.obj", { known, closeWide: true }, /^at .*one side/],
      [objOf(throughItself()), "two.obj", { known }, /^at .*cuts through itself/],
      [new Uint8Array(0), "nothing.obj", { known }, /^byte 0: the file is empty/],
      [text("v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n"), "one.obj", { known }, /^at .*open by a hole/],
      [text("v 0 0 0\nv 0 x 0\n"), "word.obj", { known }, /^line 2: a corner that is not numbers/],
      [announced(mostTriangles + 1), "huge.stl", { known }, /^byte 80: 2000001 triangles or more/],
      [
        writeGlb([{ name: "cliff", mesh: box(30, 20, 10) }]),
        "cliff.glb",
        {},
        /would be 30 m by 20 m by 10 m .*allowed: 5 mm to 6 m/,
      ],
      [objOf(box(1, 0.001, 1)), "sheet.obj", { known }, /^file: the piece would be 200 mm by 0.2 mm by 200 mm/],
      [writeGlb([{ name: "plate", mesh: scan([1, 1, 0.003]) }]), "plate.glb", {}, /^file: its form is lost with 2000/],
    ];
    for (const [bytes, name, options, word] of rows) {
      const error = await refused(bytes, name, options);
      expect(error.message, name).toMatch(word);
      expect(error, name).toBeInstanceOf(MeshFault);
    }
  });

  test("a known length that is missing or makes no sense is refused", async () => {
    const bytes = objOf(box(3, 2, 1));
    expect((await refused(bytes, "a.obj")).message).toMatch(/OBJ files have no unit: one length/);
    for (const metres of [0, -1, Number.NaN, 7, Number.POSITIVE_INFINITY, 0.001]) {
      const error = await refused(bytes, "a.obj", { known: { side: "width", metres } });
      expect(error).toBeInstanceOf(RangeError);
      expect(error.message).toMatch(/0.005 to 6 m are allowed/);
    }
  });

  test("work can be stopped at any point, and tells how far it is", async () => {
    const read = await readMesh(objOf(inMillimetres), "scan.obj");
    const known = { side: "width", metres: 0.2 } as const;
    const shares: number[] = [];
    await formFromMesh(read, { known, onProgress: (share) => shares.push(share) });
    expect(shares.at(-1)).toBe(1);
    expect([...shares].sort((a, b) => a - b)).toEqual(shares);
    const stop = new AbortController();
    stop.abort(new Error("enough"));
    await expect(formFromMesh(read, { known, signal: stop.signal })).rejects.toThrow("enough");
    const later = new AbortController();
    const running = formFromMesh(read, {
      known,
      signal: later.signal,
      onProgress: () => later.abort(new Error("enough")),
    });
    await expect(running).rejects.toThrow("enough");
  });
});

/** A band with half a turn in it, as thick as nothing: a surface with one side. */
function ribbon(): Mesh {
  const around = 40;
  const places: number[][] = [];
  const faces: number[][] = [];
  for (let i = 0; i < around; i++) {
    const u = (2 * Math.PI * i) / around;
    for (const v of [-0.3, 0.3]) {
      const r = 1 + v * Math.cos(u / 2);
      places.push([r * Math.cos(u), r * Math.sin(u), v * Math.sin(u / 2)]);
    }
    const [a, b] = [2 * i, 2 * i + 1];
    // After one round the edges have changed places.
    const [c, d] = i < around - 1 ? [a + 2, a + 3] : [1, 0];
    faces.push([a, c, b], [b, c, d]);
  }
  return meshOf(places, faces);
}

/** One closed surface that runs through itself: a ball whose top was pushed out through its foot. */
function throughItself(): Mesh {
  const { positions, triangles } = icosphere(8);
  for (let k = 2; k < positions.length; k += 3) if (positions[k]! > 0.8) positions[k]! -= 2.5;
  return { positions, triangles };
}

/** The head of a binary STL file that says it has so many triangles. */
function announced(count: number): Uint8Array {
  const bytes = new Uint8Array(84);
  new DataView(bytes.buffer).setUint32(80, count, true);
  return bytes;
}

const base = "lentic: 1\ntank: { length: 900 mm, width: 450 mm, height: 450 mm }\n";

function rawOf(written: string): RawPlan {
  const read = readPlan(written);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.raw;
}

function boardOf(raw: RawPlan, units: Board["units"]): Board {
  const made = resolvePlan(raw);
  if (!made.ok) throw new Error(JSON.stringify(made.faults));
  return { raw, scape: scapeOf(made.plan), units };
}

describe("an own piece in the tank", () => {
  test("a plan takes every side that a form may have", async () => {
    for (const side of sideLimits) {
      const form = await formOf(objOf(box(1, 1, 1)), "cube.obj", { known: { side: "longest", metres: side } });
      const board = boardOf(rawOf(base), "us");
      const after = boardOf(applyToRaw(board.raw, ownPiece(board, "stone", form, [0.3, 0.2], "slate")), "us");
      expect(after.scape.plan.hardscape[0]!.width.value).toBeCloseTo(side, 4);
    }
  });

  const made = formOf(writeGlb([{ name: "scan", mesh: whole }]), "scan.glb");

  test("lies where it was put, with the mass of its volume, in either system of units", async () => {
    const form = await made;
    for (const units of ["metric", "us"] as const) {
      for (const hardscape of ["", "hardscape:\n  - kind: wood\n"]) {
        const board = boardOf(rawOf(base + hardscape), units);
        const changes = ownPiece(board, "stone", form, [0.3, 0.2], "basalt");
        const raw = applyToRaw(board.raw, changes);
        const after = boardOf(raw, units);
        const piece = after.scape.pieces.at(-1)!;
        expect(piece.middle[0]).toBeCloseTo(0.3, 3);
        expect(piece.middle[1]).toBeCloseTo(0.2, 3);
        // Sizes are written to a tenth of a millimetre or finer.
        expect(Math.abs(piece.volume / form.volume - 1)).toBeLessThan(0.001);
        expect(piece.mass).toBe(piece.volume * pieceDensity({ kind: "stone", material: "basalt" }));
        expect(piece.weighed).toBe(false);
        const back = [...changes].reverse().map(invert);
        expect(sameJson(applyToRaw(raw, back), board.raw)).toBe(true);
        expect(sameJson(rawOf(applyChanges(base + hardscape, changes)), raw)).toBe(true);
        expect(billOf(after.scape).items.find((i) => i.what.startsWith("basalt"))!.needs.value).toBeCloseTo(
          piece.mass,
          9,
        );
      }
    }
  });

  test("wood takes the mass of soaked wood", async () => {
    const form = await made;
    const board = boardOf(rawOf(base), "metric");
    const after = boardOf(applyToRaw(board.raw, ownPiece(board, "wood", form, [0.3, 0.2], "oak")), "metric");
    // Basic gravity 0.67 (table of woods): soaked 1 + 0.35 x 0.67 = 1.235.
    expect(after.scape.pieces[0]!.mass / form.volume / 1235).toBeCloseTo(1, 2);
  });
});
