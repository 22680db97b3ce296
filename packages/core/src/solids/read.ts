import { checkTriangles, MeshFault, mostBytes } from "./fault.ts";
import type { Mesh } from "./mesh.ts";
import { Pace, type WorkOptions } from "./pace.ts";
import { isGlb, readGltf } from "./read-gltf.ts";
import { readObj } from "./read-obj.ts";
import { isBinaryStl, readBinaryStl, readTextStl } from "./read-stl.ts";

/** A mesh as a file has it: not yet welded, mended or scaled. */
export interface ReadMesh {
  readonly mesh: Mesh;
  readonly format: "OBJ" | "STL" | "glTF";
  /**
   * Whether the mesh is in m with up along z, as glTF fixes it. OBJ and STL tell neither: scale by one known length, and
   * tip it where it lies on its side.
   */
  readonly unitsKnown: boolean;
}

/**
 * Reads OBJ, STL (text and binary) and glTF 2.0 (.glb, and .gltf with its data embedded). What it is comes from the
 * bytes and, where these leave it open, from the ending of `name`. Gives way to other work at least every 30 ms or so.
 * @throws MeshFault for what is not a mesh, is damaged or too large; the signal's reason when stopped.
 */
export async function readMesh(bytes: Uint8Array, name: string, options: WorkOptions = {}): Promise<ReadMesh> {
  const pace = new Pace(options);
  if (bytes.length === 0) throw new MeshFault("byte 0", "the file is empty", "OBJ, STL or glTF 2.0");
  if (bytes.length > mostBytes)
    throw new MeshFault("file", `${bytes.length} bytes`, `up to ${mostBytes} bytes; simplify it first`);
  const format = formatOf(bytes, name);
  const mesh = await readers[format](bytes, pace);
  await checkMesh(mesh, pace);
  options.onProgress?.(1);
  const family = format === "text STL" || format === "binary STL" ? "STL" : format;
  return { mesh, format: family, unitsKnown: format === "glTF" };
}

type Format = "OBJ" | "text STL" | "binary STL" | "glTF";

const readers: Readonly<Record<Format, (bytes: Uint8Array, pace: Pace) => Promise<Mesh>>> = {
  OBJ: readObj,
  "text STL": readTextStl,
  "binary STL": readBinaryStl,
  glTF: readGltf,
};

function formatOf(bytes: Uint8Array, name: string): Format {
  if (isGlb(bytes)) return "glTF";
  if (isBinaryStl(bytes)) return "binary STL";
  const ending = /\.([a-z0-9]+)$/i.exec(name)?.[1]?.toLowerCase() ?? "";
  const start = String.fromCharCode(...bytes.subarray(0, 1024));
  const isText = !start.includes("\0");
  if (isText && /^(?:\u00EF\u00BB\u00BF)?\s*\{/.test(start)) return "glTF";
  if (ending === "stl") return isText && /^\s*solid\b/i.test(start) ? "text STL" : "binary STL";
  if (isText && /^\s*solid\b[^\n]*\n\s*facet\b/i.test(start)) return "text STL";
  if (isText && (ending === "obj" || /^\s*v[ \t]+-?[\d.]/m.test(start))) return "OBJ";
  throw new MeshFault(
    "byte 0",
    "this is not a mesh that can be read here",
    "OBJ, STL (text or binary), glTF 2.0 (.glb, .gltf)",
  );
}

/** Smallest and largest extent, in whatever unit, and furthest from the origin in extents. Design values. */
const leastExtent = 1e-6;
const mostExtent = 1e6;
const furthest = 1e5;

async function checkMesh({ positions, triangles }: Mesh, pace: Pace): Promise<void> {
  if (triangles.length === 0) throw new MeshFault("file", "no triangles", "one closed surface or more");
  checkTriangles(triangles.length / 3, "file");
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  await pace.part(1, 1).slices(triangles.length, 1 << 17, (from, to) => {
    for (let t = from; t < to; t++) {
      for (let axis = 0; axis < 3; axis++) {
        const value = positions[3 * triangles[t]! + axis]!;
        if (value < low[axis]!) low[axis] = value;
        if (value > high[axis]!) high[axis] = value;
      }
    }
  });
  const extent = Math.max(high[0]! - low[0]!, high[1]! - low[1]!, high[2]! - low[2]!);
  const away = Math.max(...low.map(Math.abs), ...high.map(Math.abs));
  if (!(extent >= leastExtent && extent <= mostExtent))
    throw new MeshFault("file", `its largest extent is ${extent}`, `${leastExtent} to ${mostExtent} units`);
  if (away > furthest * extent)
    throw new MeshFault(
      "file",
      `it lies ${away} units from the origin but is only ${extent} large, so its places have few digits left`,
      "a mesh near its origin",
    );
}
