import { TextReader } from "./ascii.ts";
import { MeshBuilder } from "./build.ts";
import { checkTriangles, MeshFault } from "./fault.ts";
import type { Mesh } from "./mesh.ts";
import type { Pace } from "./pace.ts";

const header = 84;
const record = 50;

/** Triangles that a binary STL file says it has; NaN when it is too short to say. */
function stlCount(bytes: Uint8Array): number {
  if (bytes.length < header) return Number.NaN;
  return new DataView(bytes.buffer, bytes.byteOffset).getUint32(80, true);
}

/** Whether a file is as long as a binary STL file of its own count. */
export function isBinaryStl(bytes: Uint8Array): boolean {
  return bytes.length === header + record * stlCount(bytes);
}

/**
 * A binary STL file: 80 bytes, a count, then 50 bytes a triangle (normal, three corners, two spare). Each triangle has
 * corners of its own until they are welded. Source: 3D Systems, StereoLithography interface specification (from memory).
 * @throws MeshFault
 */
export async function readBinaryStl(bytes: Uint8Array, pace: Pace): Promise<Mesh> {
  const count = stlCount(bytes);
  if (Number.isNaN(count)) throw new MeshFault(`byte ${bytes.length}`, "the file ends early", "a header of 84 bytes");
  checkTriangles(count, "byte 80");
  const needed = header + record * count;
  if (bytes.length < needed)
    throw new MeshFault(
      "byte 80",
      `${count} triangles are announced, which takes ${needed} bytes, but the file ends after ${bytes.length}`,
      "a whole file",
    );
  const view = new DataView(bytes.buffer, bytes.byteOffset);
  const positions = new Float64Array(9 * count);
  const triangles = new Uint32Array(3 * count);
  await pace.slices(count, 8192, (from, to) => {
    for (let t = from; t < to; t++) {
      const at = header + record * t + 12;
      for (let k = 0; k < 9; k++) positions[9 * t + k] = view.getFloat32(at + 4 * k, true);
      for (let k = 3 * t; k < 3 * t + 3; k++) triangles[k] = k;
      let sum = 0;
      for (let k = 0; k < 9; k++) sum += positions[9 * t + k]!;
      if (!Number.isFinite(sum))
        throw new MeshFault(`byte ${at}`, `triangle ${t + 1} has a corner that is not a number`, "finite numbers");
    }
  });
  return { positions, triangles };
}

const vertex = [118, 101, 114, 116, 101, 120];

/** A text STL file. @throws MeshFault */
export async function readTextStl(bytes: Uint8Array, pace: Pace): Promise<Mesh> {
  const reader = new TextReader(bytes);
  const builder = new MeshBuilder();
  const where = (): string => `line ${reader.line}`;
  let corners = 0;
  let open = false;
  let closed = false;

  function isVertex(): boolean {
    return vertex.every((letter, k) => (reader.bytes[reader.at + k]! | 32) === letter);
  }

  function line(): void {
    if (reader.toWord()) {
      if (isVertex()) corner();
      else keyword(reader.word().toLowerCase());
    }
    reader.nextLine();
  }

  function corner(): void {
    reader.skipWord();
    if (!open || corners === 3)
      throw new MeshFault(where(), open ? "a fourth corner in one facet" : "a corner outside a facet", "three a facet");
    const place = [0, 0, 0];
    for (let axis = 0; axis < 3; axis++) {
      const value = reader.toWord() ? reader.number() : Number.NaN;
      if (!Number.isFinite(value))
        throw new MeshFault(where(), "a corner that is not numbers", "vertex and three numbers");
      place[axis] = value;
    }
    builder.corner(place[0]!, place[1]!, place[2]!);
    corners += 1;
  }

  function keyword(word: string): void {
    if (reader.ended && word !== "endsolid")
      throw new MeshFault(where(), "the file ends early", "endsolid as its last line");
    if (word === "facet") {
      if (open) throw new MeshFault(where(), "a facet within a facet", "endfacet before the next facet");
      open = true;
      corners = 0;
    } else if (word === "endfacet") {
      if (!open || corners !== 3) throw new MeshFault(where(), `a facet of ${corners} corners`, "three corners");
      open = false;
      const last = builder.corners;
      builder.triangle(last - 3, last - 2, last - 1, where);
    } else if (word === "endsolid") closed = true;
    else if (word === "solid") closed = false;
    else if (word !== "outer" && word !== "endloop" && word !== "color")
      throw new MeshFault(
        where(),
        `"${word}" is no word of an STL file`,
        "solid, facet, outer loop, vertex and their ends",
      );
  }

  await pace.slices(bytes.length, 1 << 16, (_, to) => {
    while (reader.at < to) line();
  });
  if (open || !closed) throw new MeshFault(where(), "the file ends early", "endsolid as its last line");
  return builder.mesh();
}
