import { checkTriangles, MeshFault } from "./fault.ts";
import { readGltfText, takenMark } from "./gltf-text.ts";
import type { Mesh } from "./mesh.ts";
import type { Pace } from "./pace.ts";
import { joinMeshes } from "./place.ts";

/** A JSON object of a file that nobody has vouched for. */
type Loose = Readonly<Record<string, unknown>>;

const jsonChunk = 0x4e4f534a;
const binChunk = 0x004e4942;
const magic = 0x46546c67;

export function isGlb(bytes: Uint8Array): boolean {
  return bytes.length >= 4 && new DataView(bytes.buffer, bytes.byteOffset).getUint32(0, true) === magic;
}

/**
 * A glTF 2.0 file, text (data embedded) or binary: the triangles of its scene, set by its nodes, in m, with up turned
 * from y to z and the front towards negative y. Source: Khronos glTF 2.0 specification (from memory).
 * @throws MeshFault
 */
export async function readGltf(bytes: Uint8Array, pace: Pace): Promise<Mesh> {
  if (!isGlb(bytes)) return readScene(bytes, null, pace);
  const { json, data } = chunks(bytes);
  return readScene(json, data, pace);
}

function chunks(bytes: Uint8Array): { readonly json: Uint8Array; readonly data: Uint8Array | null } {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 20) throw new MeshFault(`byte ${bytes.length}`, "the file ends early", "a header and a structure");
  const version = view.getUint32(4, true);
  if (version !== 2) throw new MeshFault("byte 4", `version ${version} of the container`, "version 2");
  const length = view.getUint32(8, true);
  if (length > bytes.length)
    throw new MeshFault(
      "byte 8",
      `${length} bytes are announced, but the file ends after ${bytes.length}`,
      "a whole file",
    );
  let json: Uint8Array | null = null;
  let data: Uint8Array | null = null;
  for (let at = 12; at + 8 <= length; ) {
    const size = view.getUint32(at, true);
    const kind = view.getUint32(at + 4, true);
    if (at + 8 + size > length)
      throw new MeshFault(`byte ${at}`, `a chunk of ${size} bytes reaches beyond the end`, "chunks within the file");
    const chunk = bytes.subarray(at + 8, at + 8 + size);
    if (kind === jsonChunk && !json) json = chunk;
    else if (kind === binChunk && !data) data = chunk;
    at += 8 + size;
  }
  if (!json) throw new MeshFault("byte 12", "no structure", "a JSON chunk first");
  return { json, data };
}

async function readScene(text: Uint8Array, bin: Uint8Array | null, pace: Pace): Promise<Mesh> {
  const { json, taken } = await readGltfText(text, pace);
  const file = new Gltf(json, bin, taken);
  const placed = file.placedPrimitives();
  let count = 0;
  for (const { primitive, where } of placed) {
    count += file.triangleCount(primitive, where);
    checkTriangles(count, where);
  }
  const meshes: Mesh[] = [];
  let done = 0;
  for (const item of placed) {
    pace.part(0.5 + (0.5 * done) / placed.length, 0.5 + (0.5 * (done + 1)) / placed.length);
    meshes.push(await file.read(item, pace));
    done += 1;
  }
  return joinMeshes(meshes);
}

/** Column by column, as the format has it. */
type Matrix = readonly number[];

const identity: Matrix = [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1];

interface Placed {
  readonly primitive: Loose;
  readonly matrix: Matrix;
  readonly where: string;
}

/** Bytes of the numbers that indices and positions may have. */
const sizes: Readonly<Record<number, number>> = { 5121: 1, 5123: 2, 5125: 4, 5126: 4 };

/** Deepest nesting of nodes. Design value. */
const deepest = 64;

/** Most uses of meshes in a scene. Design value. */
const mostPlaced = 10_000;

type Lists = Readonly<Record<"scenes" | "nodes" | "meshes" | "accessors" | "bufferViews", readonly Loose[]>>;

class Gltf {
  private readonly root: Loose;
  private readonly lists: Lists;
  private readonly buffers: readonly (() => Uint8Array)[];

  constructor(json: unknown, bin: Uint8Array | null, taken: readonly Uint8Array[]) {
    if (!isObject(json)) throw new MeshFault("file", "its structure is not an object", "a glTF 2.0 file");
    this.root = json;
    const asset = isObject(json.asset) ? json.asset : {};
    const version = typeof asset.version === "string" ? asset.version : "";
    if (!/^2\./.test(version))
      throw new MeshFault(
        "asset",
        version ? `version ${version.slice(0, 20)}` : "no version: this is no glTF file",
        "version 2.0",
      );
    const required = Array.isArray(json.extensionsRequired) ? json.extensionsRequired : [];
    if (required.length > 0)
      throw new MeshFault(
        "extensionsRequired",
        `the file needs ${required.map((name) => String(name).slice(0, 60)).join(", ")}`,
        "plain glTF 2.0; save it without compression and quantising",
      );
    this.lists = {
      scenes: list(json.scenes),
      nodes: list(json.nodes),
      meshes: list(json.meshes),
      accessors: list(json.accessors),
      bufferViews: list(json.bufferViews),
    };
    this.buffers = list(json.buffers).map((buffer, k) => () => bufferOf(buffer, k, bin, taken));
  }

  /** Every primitive that the scene shows, with the matrix that sets it. */
  placedPrimitives(): readonly Placed[] {
    const placed: Placed[] = [];
    const seen = new Set<unknown>();
    const visit = (index: unknown, above: Matrix, depth: number, from: string): void => {
      const node = this.item("nodes", index, from);
      const where = `node ${index}`;
      if (seen.has(index))
        throw new MeshFault(where, "it hangs in the scene twice, or within itself", "a tree of nodes");
      if (depth > deepest) throw new MeshFault(where, `nodes nested deeper than ${deepest}`, "a flatter scene");
      if (node.skin !== undefined)
        throw new MeshFault(where, "a mesh moved by a skeleton", "plain meshes; bake it first");
      seen.add(index);
      const matrix = times(above, matrixOf(node, where));
      if (node.mesh !== undefined) {
        const mesh = this.item("meshes", node.mesh, where);
        list(mesh.primitives).forEach((primitive, n) => {
          placed.push({ primitive, matrix, where: `mesh ${node.mesh}, primitive ${n}` });
        });
        if (placed.length > mostPlaced)
          throw new MeshFault(where, `meshes used more than ${mostPlaced} times`, `up to ${mostPlaced}`);
      }
      if (Array.isArray(node.children)) for (const child of node.children) visit(child, matrix, depth + 1, where);
    };
    for (const index of this.roots()) visit(index, identity, 1, "scene");
    if (placed.length === 0) throw new MeshFault("scene", "no mesh in it", "one mesh or more");
    return placed;
  }

  private roots(): readonly unknown[] {
    const { nodes, scenes } = this.lists;
    if (scenes.length > 0) {
      const scene = this.item("scenes", this.root.scene ?? 0, "file");
      return Array.isArray(scene.nodes) ? scene.nodes : [];
    }
    const children = new Set(nodes.flatMap((node) => (Array.isArray(node.children) ? node.children : [])));
    return nodes.map((_, k) => k).filter((k) => !children.has(k));
  }

  private item(kind: keyof Lists, index: unknown, where: string): Loose {
    const items = this.lists[kind];
    const item = typeof index === "number" ? items[index] : undefined;
    if (!item)
      throw new MeshFault(where, `${kind} has no item ${String(index).slice(0, 20)}`, `0 to ${items.length - 1}`);
    return item;
  }

  triangleCount(primitive: Loose, where: string): number {
    const mode = primitive.mode ?? 4;
    if (mode !== 4 && mode !== 5 && mode !== 6)
      throw new MeshFault(where, `mode ${String(mode).slice(0, 20)}: points or lines`, "triangles, strips and fans");
    const attributes = isObject(primitive.attributes) ? primitive.attributes : {};
    if (attributes.POSITION === undefined) throw new MeshFault(where, "no POSITION", "corners with places");
    const accessor = this.item("accessors", primitive.indices ?? attributes.POSITION, where);
    const count = whole(accessor.count, `${where}, count of its accessor`);
    if (mode === 4 && count % 3 !== 0)
      throw new MeshFault(where, `${count} corners of triangles`, "a multiple of three");
    return mode === 4 ? count / 3 : Math.max(0, count - 2);
  }

  async read({ primitive, matrix, where }: Placed, pace: Pace): Promise<Mesh> {
    const attributes = primitive.attributes as Loose;
    const places = this.numbers(attributes.POSITION, "VEC3", [5126], `${where}, POSITION`);
    const corners = places.count;
    const positions = new Float64Array(3 * corners);
    await pace.slices(corners, 16384, (from, to) => {
      for (let k = from; k < to; k++) {
        const [x, y, z] = [places.at(k, 0), places.at(k, 1), places.at(k, 2)];
        if (!Number.isFinite(x + y + z))
          throw new MeshFault(where, `corner ${k} is ${x}, ${y}, ${z}`, "finite numbers");
        const right = matrix[0]! * x + matrix[4]! * y + matrix[8]! * z + matrix[12]!;
        const up = matrix[1]! * x + matrix[5]! * y + matrix[9]! * z + matrix[13]!;
        const near = matrix[2]! * x + matrix[6]! * y + matrix[10]! * z + matrix[14]!;
        positions[3 * k] = right;
        // Not -0, which prints as such.
        positions[3 * k + 1] = 0 - near;
        positions[3 * k + 2] = up;
      }
    });
    const named =
      primitive.indices === undefined
        ? null
        : this.numbers(primitive.indices, "SCALAR", [5121, 5123, 5125], `${where}, indices`);
    const count = this.triangleCount(primitive, where);
    const triangles = new Uint32Array(3 * count);
    const mode = primitive.mode ?? 4;
    const mirrored = determinant(matrix) < 0;
    const corner = (k: number): number => {
      const index = named ? named.at(k, 0) : k;
      if (index >= corners)
        throw new MeshFault(where, `index ${k} names corner ${index}, but there are ${corners}`, `0 to ${corners - 1}`);
      return index;
    };
    await pace.slices(count, 8192, (from, to) => {
      for (let t = from; t < to; t++) {
        // Strips turn every other triangle; fans share their first corner.
        const first = mode === 4 ? 3 * t : mode === 5 ? t : 0;
        const [second, third] = mode === 4 ? [3 * t + 1, 3 * t + 2] : [t + 1, t + 2];
        const turned = mirrored !== (mode === 5 && t % 2 === 1);
        triangles[3 * t] = corner(first);
        triangles[3 * t + 1] = corner(turned ? third : second);
        triangles[3 * t + 2] = corner(turned ? second : third);
      }
    });
    return { positions, triangles };
  }

  /** The numbers of an accessor, checked to lie within its buffer. */
  private numbers(index: unknown, type: string, components: readonly number[], where: string) {
    const accessor = this.item("accessors", index, where);
    const component = typeof accessor.componentType === "number" ? accessor.componentType : 0;
    if (accessor.type !== type || !components.includes(component))
      throw new MeshFault(
        where,
        `type ${String(accessor.type).slice(0, 20)} of ${component}`,
        `${type} of ${components.join(", ")}`,
      );
    if (accessor.sparse !== undefined) throw new MeshFault(where, "a sparse accessor", "plain accessors");
    if (accessor.bufferView === undefined) throw new MeshFault(where, "an accessor without data", "a bufferView");
    const view = this.item("bufferViews", accessor.bufferView, where);
    const buffer = this.buffers[whole(view.buffer, where)]?.();
    if (!buffer) throw new MeshFault(where, `buffer ${String(view.buffer)} does not exist`, "a buffer of the file");
    const count = whole(accessor.count, where);
    const width = type === "VEC3" ? 3 : 1;
    const size = sizes[component]!;
    const start = whole(view.byteOffset ?? 0, where) + whole(accessor.byteOffset ?? 0, where);
    const stride = view.byteStride === undefined ? width * size : whole(view.byteStride, where);
    if (stride < width * size)
      throw new MeshFault(where, `${stride} bytes from one to the next`, `${width * size} bytes or more`);
    const end = count > 0 ? start + stride * (count - 1) + width * size : start;
    const viewEnd = whole(view.byteOffset ?? 0, where) + whole(view.byteLength, where);
    if (end > viewEnd || viewEnd > buffer.length)
      throw new MeshFault(
        where,
        `it reaches to byte ${Math.max(end, viewEnd)} of a buffer of ${buffer.length} and a view to ${viewEnd}`,
        "data within its view and buffer",
      );
    const data = new DataView(buffer.buffer, buffer.byteOffset, buffer.byteLength);
    const at = (k: number, n: number): number => {
      const byte = start + stride * k + size * n;
      if (component === 5126) return data.getFloat32(byte, true);
      if (component === 5125) return data.getUint32(byte, true);
      return component === 5123 ? data.getUint16(byte, true) : data.getUint8(byte);
    };
    return { count, at };
  }
}

function bufferOf(buffer: Loose, index: number, bin: Uint8Array | null, taken: readonly Uint8Array[]): Uint8Array {
  const where = `buffer ${index}`;
  const length = whole(buffer.byteLength, where);
  const { uri } = buffer;
  if (typeof uri === "string" && !uri.startsWith(takenMark))
    throw new MeshFault(where, `its data lies in another file, ${uri.slice(0, 60)}`, "embedded data, or a .glb file");
  const data = typeof uri === "string" ? taken[Number(uri.slice(takenMark.length))] : index === 0 ? bin : null;
  if (!data) throw new MeshFault(where, "no data", "embedded data, or a .glb file");
  if (data.length < length)
    throw new MeshFault(where, `${length} bytes are announced, ${data.length} are there`, "whole data");
  return data.subarray(0, length);
}

function isObject(value: unknown): value is Loose {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** The objects of a list; anything else in it counts as empty. */
function list(value: unknown): readonly Loose[] {
  return Array.isArray(value) ? value.map((item) => (isObject(item) ? item : {})) : [];
}

function whole(value: unknown, where: string): number {
  if (typeof value !== "number" || !Number.isInteger(value) || value < 0)
    throw new MeshFault(where, `${String(value).slice(0, 20)} where a whole number belongs`, "0 or more");
  return value;
}

function numbersOf(value: unknown, count: number, where: string): readonly number[] {
  const good = Array.isArray(value) && value.length === count && value.every((v) => Number.isFinite(v));
  if (!good) throw new MeshFault(where, "a transform that is not numbers", `${count} finite numbers`);
  return value as number[];
}

function matrixOf(node: Loose, where: string): Matrix {
  if (node.matrix !== undefined) return numbersOf(node.matrix, 16, where);
  const [tx, ty, tz] = numbersOf(node.translation ?? [0, 0, 0], 3, where) as [number, number, number];
  const [x, y, z, w] = numbersOf(node.rotation ?? [0, 0, 0, 1], 4, where) as [number, number, number, number];
  const [sx, sy, sz] = numbersOf(node.scale ?? [1, 1, 1], 3, where) as [number, number, number];
  return [
    (1 - 2 * (y * y + z * z)) * sx,
    2 * (x * y + z * w) * sx,
    2 * (x * z - y * w) * sx,
    0,
    2 * (x * y - z * w) * sy,
    (1 - 2 * (x * x + z * z)) * sy,
    2 * (y * z + x * w) * sy,
    0,
    2 * (x * z + y * w) * sz,
    2 * (y * z - x * w) * sz,
    (1 - 2 * (x * x + y * y)) * sz,
    0,
    tx,
    ty,
    tz,
    1,
  ];
}

function times(a: Matrix, b: Matrix): Matrix {
  return Array.from({ length: 16 }, (_, k) => {
    const [row, column] = [k % 4, k - (k % 4)];
    let sum = 0;
    for (let n = 0; n < 4; n++) sum += a[row + 4 * n]! * b[column + n]!;
    return sum;
  });
}

function determinant(m: Matrix): number {
  const [a, b, c, d, e, f, g, h, i] = [m[0]!, m[4]!, m[8]!, m[1]!, m[5]!, m[9]!, m[2]!, m[6]!, m[10]!];
  return a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
}
