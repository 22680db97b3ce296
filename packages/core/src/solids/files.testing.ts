/** Files of meshes, written plainly, for the tests of this room. */
import type { Mesh } from "./mesh.ts";

export const text = (words: string): Uint8Array => new TextEncoder().encode(words);

export function objOf({ positions, triangles }: Mesh): Uint8Array {
  const lines: string[] = ["# a mesh", "o piece"];
  for (let k = 0; k < positions.length; k += 3) lines.push(`v ${positions.subarray(k, k + 3).join(" ")}`);
  for (let t = 0; t < triangles.length; t += 3) {
    lines.push(`f ${[0, 1, 2].map((k) => `${triangles[t + k]! + 1}//1`).join(" ")}`);
  }
  return text(`${lines.join("\n")}\n`);
}

export function textStlOf({ positions, triangles }: Mesh): Uint8Array {
  const lines = ["solid piece"];
  for (let t = 0; t < triangles.length; t += 3) {
    lines.push("  facet normal 0 0 0", "    outer loop");
    for (let k = 0; k < 3; k++) {
      const at = 3 * triangles[t + k]!;
      lines.push(`      vertex ${positions.subarray(at, at + 3).join(" ")}`);
    }
    lines.push("    endloop", "  endfacet");
  }
  return text(`${lines.join("\n")}\nendsolid piece\n`);
}

export function binaryStlOf({ positions, triangles }: Mesh): Uint8Array {
  const count = triangles.length / 3;
  const bytes = new Uint8Array(84 + 50 * count);
  const view = new DataView(bytes.buffer);
  view.setUint32(80, count, true);
  for (let t = 0; t < count; t++) {
    for (let k = 0; k < 9; k++) {
      const value = positions[3 * triangles[3 * t + Math.floor(k / 3)]! + (k % 3)]!;
      view.setFloat32(84 + 50 * t + 12 + 4 * k, value, true);
    }
  }
  return bytes;
}

/** A .gltf file with one triangle list, embedded; `change` may spoil its structure. */
export function gltfOf({ positions, triangles }: Mesh, change: (json: GltfJson) => void = () => undefined): Uint8Array {
  const places = new Uint8Array(Float32Array.from(positions).buffer);
  const named = new Uint8Array(Uint16Array.from(triangles).buffer);
  const data = new Uint8Array(places.length + named.length);
  data.set(places);
  data.set(named, places.length);
  const uri = `data:application/octet-stream;base64,${Buffer.from(data).toString("base64")}`;
  const json: GltfJson = {
    asset: { version: "2.0" },
    scene: 0,
    scenes: [{ nodes: [0] }],
    nodes: [{ mesh: 0 }],
    meshes: [{ primitives: [{ attributes: { POSITION: 0 }, indices: 1 }] }],
    accessors: [
      { bufferView: 0, componentType: 5126, count: positions.length / 3, type: "VEC3" },
      { bufferView: 1, componentType: 5123, count: triangles.length, type: "SCALAR" },
    ],
    bufferViews: [
      { buffer: 0, byteLength: places.length },
      { buffer: 0, byteOffset: places.length, byteLength: named.length },
    ],
    buffers: [{ byteLength: data.length, uri }],
  };
  change(json);
  return text(JSON.stringify(json, null, 1));
}

type Item = Record<string, unknown>;

export interface GltfJson {
  asset: Item;
  scene: number;
  scenes: Item[];
  nodes: Item[];
  meshes: { primitives: Item[] }[];
  accessors: Item[];
  bufferViews: Item[];
  buffers: Item[];
  extensionsRequired?: string[];
}
