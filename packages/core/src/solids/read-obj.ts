import { TextReader } from "./ascii.ts";
import { MeshBuilder } from "./build.ts";
import { MeshFault } from "./fault.ts";
import type { Mesh } from "./mesh.ts";
import type { Pace } from "./pace.ts";

/** Most corners of one face. Design value. */
const mostSides = 10_000;

/**
 * Corners (`v`) and faces (`f`) of an OBJ file; all else is passed over. Faces of more than three corners become fans, as
 * their writers part them; they are taken as flat and not hollow. Source: Wavefront object file format, version 3.0
 * (from memory).
 * @throws MeshFault
 */
export async function readObj(bytes: Uint8Array, pace: Pace): Promise<Mesh> {
  const reader = new TextReader(bytes);
  const builder = new MeshBuilder();
  const where = (): string => `line ${reader.line}`;

  function corner(): void {
    const place = [0, 0, 0];
    for (let axis = 0; axis < 3; axis++) {
      if (!reader.toWord()) throw new MeshFault(where(), `a corner with ${axis} numbers`, "three numbers: v x y z");
      const value = reader.number();
      if (!Number.isFinite(value)) throw new MeshFault(where(), "a corner that is not numbers", "v and three numbers");
      place[axis] = value;
    }
    builder.corner(place[0]!, place[1]!, place[2]!);
  }

  /** The corner that a word such as 3, 3/1, 3//2 or -1 names. */
  function named(): number {
    const { bytes: text } = reader;
    const negative = text[reader.at] === 45;
    if (negative) reader.at += 1;
    let value = 0;
    let digits = 0;
    for (let byte = text[reader.at]!; byte >= 48 && byte <= 57; byte = text[++reader.at]!) {
      value = value * 10 + (byte - 48);
      digits += 1;
    }
    const after = reader.at < text.length ? text[reader.at]! : 32;
    if (digits === 0 || digits > 9 || (after > 32 && after !== 47))
      throw new MeshFault(where(), "a face that names no corner", "f and whole numbers such as 3, 3/1 or 3//2");
    reader.skipWord();
    const index = negative ? builder.corners - value : value - 1;
    if (value === 0 || index < 0 || index >= builder.corners)
      throw new MeshFault(
        where(),
        `a face names corner ${negative ? "-" : ""}${value}, but ${builder.corners} are there so far`,
        `1 to ${builder.corners}`,
      );
    return index;
  }

  function face(): void {
    let count = 0;
    let first = 0;
    let before = 0;
    while (reader.toWord()) {
      if (reader.bytes[reader.at] === 35) break;
      const index = named();
      count += 1;
      if (count > mostSides) throw new MeshFault(where(), `a face of more than ${mostSides} corners`, "smaller faces");
      if (count === 1) first = index;
      else if (count > 2) builder.triangle(first, before, index, where);
      before = index;
    }
    if (count < 3) throw new MeshFault(where(), `a face of ${count} corners`, "three corners or more");
  }

  function line(): void {
    if (reader.toWord()) {
      const key = reader.bytes[reader.at]!;
      const next = reader.bytes[reader.at + 1] ?? 10;
      if (next <= 32 && (key === 118 || key === 102)) {
        reader.at += 1;
        if (key === 118) corner();
        else face();
      }
      // A line that carries on is passed over to its very end.
      while (reader.toWord()) reader.skipWord();
    }
    reader.nextLine();
  }

  await pace.slices(bytes.length, 1 << 16, (_, to) => {
    while (reader.at < to) line();
  });
  if (builder.corners === 0)
    throw new MeshFault("file", "no corners: this is no OBJ mesh", "lines v x y z and f 1 2 3");
  return builder.mesh();
}
