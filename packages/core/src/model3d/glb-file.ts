/**
 * A binary glTF 2.0 file in the making. Places come in the tank's own axes (x from the left pane, y to the back, z up, m)
 * and are written with y up and the front towards +z, as the standard has it; the frame stays right-handed. Lengths are
 * rounded to a thousandth of a millimetre, so that Node and browsers write the same bytes.
 * Source: Khronos Group, glTF 2.0 specification (ISO/IEC 12113:2022).
 */
import type { Vector } from "./plants/vector.ts";

export interface GlbMaterial {
  readonly name: string;
  /** Red, green, blue, linear, 0..1. */
  readonly colour: Vector;
  /** How opaque, 0..1; usually 1. */
  readonly opaque?: number;
  readonly roughness: number;
  readonly bothSides?: boolean;
  /** Light that it gives off, linear, 0..1. */
  readonly glow?: Vector;
}

export interface GlbPrimitive {
  readonly positions: ArrayLike<number>;
  readonly triangles: ArrayLike<number>;
  /** Unit vectors of the corners; without them each face is flat. */
  readonly normals?: ArrayLike<number>;
  /** Of the corners, red, green, blue, linear 0..1, by which the material's colour is multiplied. */
  readonly colours?: ArrayLike<number>;
  /** From `material`. */
  readonly material: number;
}

/** Where a node stands: its own axes in those of the tank, and its size along them. */
export interface GlbPlace {
  readonly at: Vector;
  readonly along: Vector;
  readonly across: Vector;
  readonly up: Vector;
  /** Sizes along its own axes. */
  readonly size: Vector;
}

export interface GlbNode {
  readonly name: string;
  readonly mesh?: number;
  readonly place?: GlbPlace;
  readonly children?: readonly number[];
  readonly extras?: Readonly<Record<string, string | number>>;
}

const [floats, bytes, shorts, words] = [5126, 5121, 5123, 5125];
const [corners, indices] = [34962, 34963];

/** To a millionth, without a negative nothing. */
const round = (value: number): number => Math.round(value * 1e6) / 1e6 + 0;

/** The tank's axes turned to those of the file. */
const turned = ([x, y, z]: Vector): [number, number, number] => [round(x), round(z), round(-y)];

export class GlbFile {
  readonly #views: Record<string, number>[] = [];
  readonly #accessors: Record<string, unknown>[] = [];
  readonly #meshes: Record<string, unknown>[] = [];
  readonly #nodes: Record<string, unknown>[] = [];
  readonly #materials: Record<string, unknown>[] = [];
  readonly #data: Uint8Array[] = [];
  #size = 0;

  material({ name, colour, opaque = 1, roughness, bothSides = false, glow }: GlbMaterial): number {
    this.#materials.push({
      name,
      pbrMetallicRoughness: {
        baseColorFactor: [...colour.map(round), opaque],
        metallicFactor: 0,
        roughnessFactor: roughness,
      },
      ...(glow ? { emissiveFactor: glow.map(round) } : {}),
      ...(opaque < 1 ? { alphaMode: "BLEND" } : {}),
      ...(bothSides ? { doubleSided: true } : {}),
    });
    return this.#materials.length - 1;
  }

  /** @throws RangeError for a place that single precision cannot hold, a missing corner, or nothing to write. */
  mesh(name: string, primitives: readonly GlbPrimitive[]): number {
    const written = primitives.filter((p) => p.triangles.length > 0);
    if (written.length === 0) throw new RangeError(`${name}: a mesh without triangles cannot be written`);
    this.#meshes.push({ name, primitives: written.map((p) => this.#primitive(name, p)) });
    return this.#meshes.length - 1;
  }

  #primitive(name: string, { positions, triangles, normals, colours, material }: GlbPrimitive): object {
    const count = positions.length / 3;
    const places = turnedAll(positions);
    if (!places.every(Number.isFinite)) throw new RangeError(`${name}: a place that is not a number`);
    const attributes: Record<string, number> = {
      POSITION: this.#accessor(places, { componentType: floats, count, type: "VEC3", ...extremes(places) }, corners),
    };
    if (normals)
      attributes.NORMAL = this.#accessor(turnedAll(normals), { componentType: floats, count, type: "VEC3" }, corners);
    if (colours) {
      const worn = new Uint8Array(4 * count);
      for (let k = 0; k < count; k++) {
        for (let c = 0; c < 3; c++) worn[4 * k + c] = Math.round(255 * Math.min(1, Math.max(0, colours[3 * k + c]!)));
        worn[4 * k + 3] = 255;
      }
      const kind = { componentType: bytes, normalized: true, count, type: "VEC4" };
      attributes.COLOR_0 = this.#accessor(worn, kind, corners);
    }
    for (let k = 0; k < triangles.length; k++)
      if (!(triangles[k]! < count))
        throw new RangeError(`${name}: a triangle names corner ${triangles[k]} of ${count}`);
    // the greatest number of a width is kept free, as the standard asks
    const short = count < 65_535;
    const order = short ? Uint16Array.from(triangles) : Uint32Array.from(triangles);
    const kind = { componentType: short ? shorts : words, count: triangles.length, type: "SCALAR" };
    return { attributes, indices: this.#accessor(order, kind, indices), material, mode: 4 };
  }

  #accessor(
    values: Float32Array | Uint8Array | Uint16Array | Uint32Array,
    kind: Record<string, unknown>,
    target: number,
  ): number {
    const data = new Uint8Array(Math.ceil(values.byteLength / 4) * 4);
    const view = new DataView(data.buffer);
    values.forEach((value, k) => {
      if (values instanceof Float32Array) view.setFloat32(4 * k, value, true);
      else if (values instanceof Uint32Array) view.setUint32(4 * k, value, true);
      else if (values instanceof Uint16Array) view.setUint16(2 * k, value, true);
      else view.setUint8(k, value);
    });
    this.#views.push({ buffer: 0, byteOffset: this.#size, byteLength: values.byteLength, target });
    this.#accessors.push({ bufferView: this.#views.length - 1, ...kind });
    this.#data.push(data);
    this.#size += data.length;
    return this.#accessors.length - 1;
  }

  node({ name, mesh, place, children, extras }: GlbNode): number {
    this.#nodes.push({
      name,
      ...(mesh === undefined ? {} : { mesh }),
      ...(place ? placed(place) : {}),
      ...(children && children.length > 0 ? { children } : {}),
      ...(extras ? { extras } : {}),
    });
    return this.#nodes.length - 1;
  }

  /** The file, with one node at its root. */
  write(root: number, scene: string): Uint8Array {
    const json = new TextEncoder().encode(
      JSON.stringify({
        asset: { version: "2.0", generator: "Lentic" },
        scene: 0,
        scenes: [{ name: scene, nodes: [root] }],
        nodes: this.#nodes,
        meshes: this.#meshes,
        materials: this.#materials,
        accessors: this.#accessors,
        bufferViews: this.#views,
        buffers: [{ byteLength: this.#size }],
      }),
    );
    const padded = Math.ceil(json.length / 4) * 4;
    const file = new Uint8Array(12 + 8 + padded + 8 + this.#size);
    const view = new DataView(file.buffer);
    // "glTF", version, length; then the chunks "JSON" and "BIN", each with its length before it
    [0x46546c67, 2, file.length, padded, 0x4e4f534a].forEach((word, k) => {
      view.setUint32(4 * k, word, true);
    });
    file.fill(32, 20, 20 + padded);
    file.set(json, 20);
    view.setUint32(20 + padded, this.#size, true);
    view.setUint32(24 + padded, 0x004e4942, true);
    let at = 28 + padded;
    for (const part of this.#data) {
      file.set(part, at);
      at += part.length;
    }
    return file;
  }
}

function turnedAll(values: ArrayLike<number>): Float32Array {
  const out = new Float32Array(values.length);
  for (let k = 0; k < values.length; k += 3) out.set(turned([values[k]!, values[k + 1]!, values[k + 2]!]), k);
  return out;
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

/** Shift, turn and size of a node, in the axes of the file. */
function placed({ at, along, across, up, size }: GlbPlace): Record<string, readonly number[]> {
  // what was x, y, z of the part is x, -z, y of the file; so are its axes
  const [x, y, z] = [turned(along), turned(up), turned(across).map((v) => 0 - v) as [number, number, number]];
  return { translation: turned(at), rotation: quaternion(x, y, z), scale: [size[0], size[2], size[1]].map(round) };
}

/** The turn (x, y, z, w) that takes the axes to three unit vectors square to each other (Shepperd 1978, from memory). */
function quaternion(x: Vector, y: Vector, z: Vector): readonly number[] {
  const [a, b, c] = [x[0], y[1], z[2]];
  const w = 1 + a + b + c;
  const found =
    w > 0.5
      ? [y[2] - z[1], z[0] - x[2], x[1] - y[0], w]
      : a >= b && a >= c
        ? [1 + a - b - c, x[1] + y[0], z[0] + x[2], y[2] - z[1]]
        : b >= c
          ? [x[1] + y[0], 1 + b - a - c, y[2] + z[1], z[0] - x[2]]
          : [z[0] + x[2], y[2] + z[1], 1 + c - a - b, x[1] - y[0]];
  const length = Math.hypot(...found);
  return found.map((v) => round(v / length));
}
