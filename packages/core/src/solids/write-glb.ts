import type { Mesh } from "./mesh.ts";

/** A mesh to be written, with what it is called and looks like. */
export interface NamedMesh {
  readonly name: string;
  readonly mesh: Mesh;
  /** Red, green, blue and, where it is not 1, how opaque: each 0..1, linear as glTF has them. Grey without. */
  readonly colour?: readonly [number, number, number] | readonly [number, number, number, number];
}

/**
 * Meshes as one binary glTF 2.0 file, in m, each a node of its own with flat shading left to the viewer. Places are kept
 * to single precision. Source: Khronos glTF 2.0 specification (from memory).
 * @throws RangeError for no meshes, one without triangles, places that single precision cannot hold, or a bad colour.
 */
export function writeGlb(meshes: readonly NamedMesh[]): Uint8Array {
  if (meshes.length === 0) throw new RangeError("no meshes to write: at least one is needed");
  const views: { buffer: number; byteOffset: number; byteLength: number; target: number }[] = [];
  const accessors: Record<string, unknown>[] = [];
  let size = 0;
  const data = meshes.map(({ name, mesh, colour }) => {
    check(name, mesh, colour);
    const places = turned(mesh);
    views.push({ buffer: 0, byteOffset: size, byteLength: places.byteLength, target: 34962 });
    accessors.push({
      bufferView: views.length - 1,
      componentType: 5126,
      count: places.length / 3,
      type: "VEC3",
      ...extremes(places),
    });
    size += places.byteLength;
    views.push({ buffer: 0, byteOffset: size, byteLength: mesh.triangles.byteLength, target: 34963 });
    accessors.push({
      bufferView: views.length - 1,
      componentType: 5125,
      count: mesh.triangles.length,
      type: "SCALAR",
    });
    size += mesh.triangles.byteLength;
    return { places, triangles: mesh.triangles };
  });
  const json = {
    asset: { version: "2.0", generator: "Lentic" },
    scene: 0,
    scenes: [{ nodes: meshes.map((_, k) => k) }],
    nodes: meshes.map(({ name }, k) => ({ name, mesh: k })),
    meshes: meshes.map(({ name }, k) => ({
      name,
      primitives: [{ attributes: { POSITION: 2 * k }, indices: 2 * k + 1, material: k, mode: 4 }],
    })),
    materials: meshes.map(({ name, colour = [0.5, 0.5, 0.5] }) => ({
      name,
      pbrMetallicRoughness: {
        baseColorFactor: [colour[0], colour[1], colour[2], colour[3] ?? 1],
        metallicFactor: 0,
        roughnessFactor: 1,
      },
      ...((colour[3] ?? 1) < 1 ? { alphaMode: "BLEND" } : {}),
    })),
    accessors,
    bufferViews: views,
    buffers: [{ byteLength: size }],
  };
  return container(new TextEncoder().encode(JSON.stringify(json)), size, data);
}

function check(name: string, { positions, triangles }: Mesh, colour: NamedMesh["colour"]): void {
  if (triangles.length === 0) throw new RangeError(`${name}: a mesh without triangles cannot be written`);
  const corners = positions.length / 3;
  const wrong = triangles.findIndex((corner) => corner >= corners);
  if (wrong >= 0) throw new RangeError(`${name}: a triangle names corner ${triangles[wrong]} of ${corners}`);
  if (!positions.every((value) => Number.isFinite(Math.fround(value))))
    throw new RangeError(`${name}: a place that is not a number of single precision`);
  if (colour && !colour.every((c) => c >= 0 && c <= 1)) throw new RangeError(`${name}: colour ${colour}: each 0 to 1`);
}

/** Up from z to y, the front towards positive z. */
function turned({ positions }: Mesh): Float32Array {
  const places = new Float32Array(positions.length);
  for (let k = 0; k < positions.length; k += 3) {
    places[k] = positions[k]!;
    places[k + 1] = positions[k + 2]!;
    // Without a negative nothing, which some readers print.
    places[k + 2] = 0 - positions[k + 1]!;
  }
  return places;
}

function extremes(places: Float32Array): { readonly min: number[]; readonly max: number[] } {
  const min = [Infinity, Infinity, Infinity];
  const max = [-Infinity, -Infinity, -Infinity];
  places.forEach((value, k) => {
    min[k % 3] = Math.min(min[k % 3]!, value);
    max[k % 3] = Math.max(max[k % 3]!, value);
  });
  return { min, max };
}

function container(
  json: Uint8Array,
  size: number,
  data: readonly { readonly places: Float32Array; readonly triangles: Uint32Array }[],
): Uint8Array {
  const padded = Math.ceil(json.length / 4) * 4;
  const file = new Uint8Array(12 + 8 + padded + 8 + size);
  const view = new DataView(file.buffer);
  const words = (at: number, ...values: number[]): void => {
    values.forEach((value, k) => {
      view.setUint32(at + 4 * k, value, true);
    });
  };
  words(0, 0x46546c67, 2, file.length, padded, 0x4e4f534a);
  file.fill(32, 20, 20 + padded);
  file.set(json, 20);
  let at = 20 + padded;
  words(at, size, 0x004e4942);
  at += 8;
  for (const { places, triangles } of data) {
    for (const value of places) {
      view.setFloat32(at, value, true);
      at += 4;
    }
    for (const value of triangles) {
      view.setUint32(at, value, true);
      at += 4;
    }
  }
  return file;
}
