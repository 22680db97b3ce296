import { MeshFault } from "./fault.ts";
import type { Pace } from "./pace.ts";

/** The structure of a glTF file with the data that its text carried. */
export interface GltfText {
  readonly json: unknown;
  /** What stood in the text as data URIs; their strings in `json` are `taken:` and the position here. */
  readonly taken: readonly Uint8Array[];
}

/** Largest structure without its data. Design value: it is read in one go. */
const mostStructure = 4 * 1024 * 1024;

const quote = 34;
const backslash = 92;

/** Marks a string of the structure whose data was taken out. */
export const takenMark = "taken:";

/**
 * Reads the JSON of a glTF file. Data URIs are decoded on the way and never become part of one long string.
 * @throws MeshFault
 */
export async function readGltfText(bytes: Uint8Array, pace: Pace): Promise<GltfText> {
  const spans = await dataSpans(bytes, pace.part(0, 0.2));
  const taken: Uint8Array[] = [];
  const parts: Uint8Array[] = [];
  let at = 0;
  for (const [from, to] of spans) {
    parts.push(bytes.subarray(at, from), new TextEncoder().encode(`${takenMark}${taken.length}`));
    taken.push(await decodeUri(bytes.subarray(from, to), from, pace.part(0.2, 0.5)));
    at = to;
  }
  parts.push(bytes.subarray(at));
  const size = parts.reduce((sum, p) => sum + p.length, 0);
  if (size > mostStructure)
    throw new MeshFault("file", `a structure of ${size} bytes without its data`, `up to ${mostStructure} bytes`);
  const joined = new Uint8Array(size);
  let filled = 0;
  for (const part of parts) {
    joined.set(part, filled);
    filled += part.length;
  }
  try {
    return { json: JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(joined)), taken };
  } catch {
    throw new MeshFault("file", "its structure is not JSON, or ends early", "a whole glTF 2.0 file");
  }
}

/** Where strings that start with `data:` lie, without their quotes. */
async function dataSpans(bytes: Uint8Array, pace: Pace): Promise<readonly (readonly [number, number])[]> {
  const spans: [number, number][] = [];
  let start = -1;
  let escaped = false;
  await pace.slices(bytes.length, 1 << 18, (from, to) => {
    for (let k = from; k < to; k++) {
      const byte = bytes[k]!;
      if (start < 0) {
        if (byte === quote) start = k + 1;
      } else if (escaped) escaped = false;
      else if (byte === backslash) escaped = true;
      else if (byte === quote) {
        if (isData(bytes, start)) spans.push([start, k]);
        start = -1;
      }
    }
  });
  return spans;
}

function isData(bytes: Uint8Array, at: number): boolean {
  return [..."data:"].every((letter, k) => bytes[at + k] === letter.charCodeAt(0));
}

const digits = new Int8Array(256).fill(-1);
[..."ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/"].forEach((letter, k) => {
  digits[letter.charCodeAt(0)] = k;
});

/** Some writers escape each slash; without that a string of base64 has no escapes. */
async function plain(quoted: Uint8Array, pace: Pace): Promise<Uint8Array> {
  if (!quoted.includes(backslash)) return quoted;
  const bare = new Uint8Array(quoted.length);
  let count = 0;
  await pace.slices(quoted.length, 1 << 18, (from, to) => {
    for (let k = from; k < to; k++) if (quoted[k] !== backslash) bare[count++] = quoted[k]!;
  });
  return bare.subarray(0, count);
}

async function decodeUri(quoted: Uint8Array, place: number, pace: Pace): Promise<Uint8Array> {
  const uri = await plain(quoted, pace);
  const comma = uri.indexOf(44);
  const head = String.fromCharCode(...uri.subarray(0, Math.min(Math.max(comma, 0), 200)));
  const where = `byte ${place}`;
  if (comma < 0 || !head.endsWith(";base64"))
    throw new MeshFault(where, "embedded data that is not base64", "data:application/octet-stream;base64,...");
  let end = uri.length;
  while (end > comma + 1 && uri[end - 1] === 61) end -= 1;
  const letters = end - comma - 1;
  const data = new Uint8Array(Math.floor((letters * 3) / 4));
  await pace.slices(Math.ceil(letters / 4), 1 << 16, (from, to) => {
    for (let group = from; group < to; group++) {
      const at = comma + 1 + 4 * group;
      let word = 0;
      for (let k = 0; k < 4; k++) {
        const digit = at + k < end ? digits[uri[at + k]!]! : 0;
        if (digit < 0) throw new MeshFault(`byte ${place + at + k}`, "a letter that is not base64", "A-Z a-z 0-9 + /");
        word = (word << 6) | digit;
      }
      data[3 * group] = (word >> 16) & 255;
      data[3 * group + 1] = (word >> 8) & 255;
      data[3 * group + 2] = word & 255;
    }
  });
  return data;
}
