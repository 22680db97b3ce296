/**
 * The form of a scanned or modelled piece as one word of text, so that a plan file stays whole in itself: corners as
 * 16-bit shares of its box, triangles as 16-bit positions, and the share of the box that the solid fills as it was
 * measured on the whole mesh before it was thinned for drawing. The piece's width, breadth and height give its size.
 */
import type { Mesh } from "../solids/index.ts";

/** Most triangles of a packed form: enough for the eye, and small enough for a plan file. */
export const mostPacked = 4000;

const mark = "m1:";
const header = 12;
const steps = 65_535;

const letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
const values = new Map([...letters].map((letter, value) => [letter, value]));

/** Base 64 with the alphabet that is safe in names (RFC 4648, section 5), without padding. */
function toText(bytes: Uint8Array): string {
  let text = "";
  for (let i = 0; i < bytes.length; i += 3) {
    const [a, b, c] = [bytes[i]!, bytes[i + 1] ?? 0, bytes[i + 2] ?? 0];
    const all = (a << 16) | (b << 8) | c;
    const count = Math.min(3, bytes.length - i) + 1;
    for (let k = 0; k < count; k++) text += letters[(all >> (18 - 6 * k)) & 63];
  }
  return text;
}

function fromText(text: string): Uint8Array | null {
  const bytes = new Uint8Array(Math.floor((text.length * 3) / 4));
  for (let i = 0, out = 0; i < text.length; i += 4) {
    let all = 0;
    const count = Math.min(4, text.length - i);
    if (count === 1) return null;
    for (let k = 0; k < 4; k++) {
      const value = k < count ? values.get(text[i + k]!) : 0;
      if (value === undefined) return null;
      all = (all << 6) | value;
    }
    for (let k = 0; k < count - 1; k++) bytes[out++] = (all >> (16 - 8 * k)) & 255;
  }
  return bytes;
}

/** A form and how much of its box it fills. */
export interface PackedForm {
  /** Within the unit box: each coordinate 0 to 1. */
  readonly mesh: Mesh;
  /** Volume over that of its box, above 0 to 1. */
  readonly fill: number;
}

/**
 * Packs a closed mesh.
 * @param fill share of its box that the whole solid fills, measured before thinning
 * @throws RangeError for more triangles than `mostPacked`, a flat mesh or a share outside 0..1
 */
export function packMesh({ positions, triangles }: Mesh, fill: number): string {
  const [corners, faces] = [positions.length / 3, triangles.length / 3];
  if (faces > mostPacked) throw new RangeError(`${faces} triangles: at most ${mostPacked} can be packed`);
  if (!(fill > 0 && fill <= 1))
    throw new RangeError(`the solid fills ${fill} of its box: it must be above 0 and at most 1`);
  const low = [0, 1, 2].map((axis) => extreme(positions, axis, Math.min, Number.POSITIVE_INFINITY));
  const high = [0, 1, 2].map((axis) => extreme(positions, axis, Math.max, Number.NEGATIVE_INFINITY));
  if (!low.every((value, axis) => high[axis]! > value)) throw new RangeError("a flat mesh has no box to be packed in");
  const bytes = new Uint8Array(header + 6 * corners + 6 * faces);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, corners);
  view.setUint32(4, faces);
  view.setFloat32(8, fill);
  for (let i = 0; i < positions.length; i++) {
    const axis = i % 3;
    const share = (positions[i]! - low[axis]!) / (high[axis]! - low[axis]!);
    view.setUint16(header + 2 * i, Math.round(share * steps));
  }
  for (let i = 0; i < triangles.length; i++) view.setUint16(header + 6 * corners + 2 * i, triangles[i]!);
  return mark + toText(bytes);
}

function extreme(positions: Float64Array, axis: number, pick: (a: number, b: number) => number, start: number): number {
  let found = start;
  for (let i = axis; i < positions.length; i += 3) found = pick(found, positions[i]!);
  return found;
}

/** Unpacks a form; null for a text that is none, or is damaged. */
export function unpackMesh(text: string): PackedForm | null {
  const bytes = text.startsWith(mark) ? fromText(text.slice(mark.length)) : null;
  if (!bytes || bytes.length < header) return null;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  const corners = view.getUint32(0);
  const faces = view.getUint32(4);
  const fill = view.getFloat32(8);
  if (corners < 4 || faces < 4 || faces > mostPacked || corners > steps) return null;
  if (bytes.length !== header + 6 * corners + 6 * faces || !(fill > 0 && fill <= 1)) return null;
  const positions = Float64Array.from({ length: 3 * corners }, (_, i) => view.getUint16(header + 2 * i) / steps);
  const triangles = Uint32Array.from({ length: 3 * faces }, (_, i) => view.getUint16(header + 6 * corners + 2 * i));
  return triangles.every((corner) => corner < corners) ? { mesh: { positions, triangles }, fill } : null;
}
