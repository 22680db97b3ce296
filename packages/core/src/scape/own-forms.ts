/**
 * An owner's own stone or wood, from a scan or a model of it: a closed solid of a known size, thinned for the plan, and
 * the changes that lay it in the tank.
 */
import type { Point2 } from "../geometry/index.ts";
import { applyToRaw, type Change, changeAt, type HardscapeKind, packMesh, valueAt } from "../plan/index.ts";
import {
  type Mesh,
  MeshFault,
  mendMesh,
  meshBounds,
  meshVolume,
  type ReadMesh,
  thinMesh,
  type WorkOptions,
} from "../solids/index.ts";
import { addPiece, type Board } from "./edits.ts";

/** Most triangles of a form in a plan. Design value: a stone's outline stays true, and its text about 24 kB. */
export const mostKept = 2000;

/** Smallest and largest side of a piece, m, as a plan takes them. */
export const sideLimits = [0.005, 6] as const;
const [smallest, largest] = sideLimits;

/** Least share of the whole volume that the thinned form must still enclose; less is a torn form. Design value. */
const leastLeft = 0.5;

/** A length that the owner measured. */
export interface KnownLength {
  /** From left to right, front to back, foot to tip, or the longest of the three. */
  readonly side: "width" | "breadth" | "height" | "longest";
  readonly metres: number;
}

export interface OwnFormOptions extends WorkOptions {
  /** Needed where the file fixes no unit; where it does, the length given goes before. */
  readonly known?: KnownLength | undefined;
  /** The file's axis that points up, where its format leaves that open; default "z". */
  readonly up?: "y" | "z";
  /** Closes wide holes too, such as the foot of a piece that was scanned where it stood. */
  readonly closeWide?: boolean;
}

/** A form ready for a plan. */
export interface OwnForm {
  /** As the plan's `model`. */
  readonly model: string;
  /** Sizes of the whole, m. */
  readonly width: number;
  readonly breadth: number;
  readonly height: number;
  /** Of the whole before thinning, m³. */
  readonly volume: number;
  /** Triangles as mended, and as kept in the plan. */
  readonly found: number;
  readonly kept: number;
  /** What was done to it, in words. */
  readonly said: readonly string[];
}

/**
 * Makes a form for a plan of a mesh as a file has it: mended, turned upright, brought to its size, measured, thinned and
 * packed. Gives way to other work, and can be stopped.
 * @throws MeshFault for a surface that bounds no solid (with the place, in the file's own measure) or a size that no plan
 * takes; RangeError for a known length that is missing or is none; the signal's reason when stopped
 */
export async function formFromMesh(read: ReadMesh, options: OwnFormOptions = {}): Promise<OwnForm> {
  const { known, up = "z", closeWide = false, signal, onProgress } = options;
  checkKnown(read, known);
  const part = (from: number, to: number): WorkOptions => ({
    ...(signal ? { signal } : {}),
    ...(onProgress ? { onProgress: (share: number) => onProgress(from + (to - from) * share) } : {}),
  });
  const mended = await mendMesh(read.mesh, { ...part(0, 0.85), ...(closeWide ? { largestHole: 1 } : {}) });
  const said = [...mended.done];

  const upright = !read.unitsKnown && up === "y" ? turnedUp(mended.mesh) : mended.mesh;
  if (upright !== mended.mesh) said.push("turned upright: the file's y axis points up");
  const factor = factorFor(upright, known);
  const whole = factor === 1 ? upright : scaled(upright, factor);
  if (factor !== 1) said.push(`1 ${read.unitsKnown ? "m" : "unit"} of the file taken as ${inWords(factor)}`);

  const sides = sidesOf(whole);
  checkSides(sides);
  const volume = meshVolume(whole);
  const [width, breadth, height] = sides;
  if (!(volume > 0)) throw new MeshFault("file", "the surface encloses no volume", "a solid");

  const found = whole.triangles.length / 3;
  const thin = await thinned(whole, part(0.85, 1));
  const kept = thin.triangles.length / 3;
  if (kept < found) said.push(`drawn with ${kept} of ${found} triangles; volume and mass are those of the whole`);
  // A brick fills its box; the rounding of its corners must not make it fill more.
  const model = packMesh(thin, Math.min(1, volume / (width * breadth * height)));
  onProgress?.(1);
  return { model, width, breadth, height, volume, found, kept, said };
}

function checkKnown({ format, unitsKnown }: ReadMesh, known: KnownLength | undefined): void {
  if (!known && !unitsKnown)
    throw new RangeError(`${format} files have no unit: one length measured on the piece is needed`);
  if (known && !(known.metres >= smallest && known.metres <= largest))
    throw new RangeError(`the known length is ${known.metres} m: ${smallest} to ${largest} m are allowed`);
}

/** From y up and z to the front, to z up and y to the back. */
function turnedUp({ positions, triangles }: Mesh): Mesh {
  const places = new Float64Array(positions.length);
  for (let k = 0; k < positions.length; k += 3) {
    places[k] = positions[k]!;
    places[k + 1] = -positions[k + 2]!;
    places[k + 2] = positions[k + 1]!;
  }
  return { positions: places, triangles };
}

function scaled({ positions, triangles }: Mesh, factor: number): Mesh {
  return { positions: positions.map((value) => value * factor), triangles };
}

type Sides = readonly [width: number, breadth: number, height: number];

function sidesOf(mesh: Mesh): Sides {
  const { min, max } = meshBounds(mesh);
  return [max[0] - min[0], max[1] - min[1], max[2] - min[2]];
}

/** By what the mesh is to be scaled so that one side is as long as was measured. */
function factorFor(mesh: Mesh, known: KnownLength | undefined): number {
  if (!known) return 1;
  const [width, breadth, height] = sidesOf(mesh);
  const side = { width, breadth, height, longest: Math.max(width, breadth, height) }[known.side];
  if (!(side > 0))
    throw new MeshFault("file", `the solid has no ${known.side}`, "a solid with an extent in every direction");
  return known.metres / side;
}

/** A length in words, to three digits. */
function inWords(metres: number): string {
  return metres < 1 ? `${Number((1000 * metres).toPrecision(3))} mm` : `${Number(metres.toPrecision(3))} m`;
}

function checkSides(sides: Sides): void {
  if (sides.every((side) => side >= smallest && side <= largest)) return;
  throw new MeshFault(
    "file",
    `the piece would be ${sides.map(inWords).join(" by ")} (width, breadth, height)`,
    `${inWords(smallest)} to ${inWords(largest)} each way; check the known length and which way is up`,
  );
}

/** The same solid of no more triangles than a plan takes. */
async function thinned(mesh: Mesh, options: WorkOptions): Promise<Mesh> {
  if (mesh.triangles.length <= 3 * mostKept) return mesh;
  const volume = meshVolume(mesh);
  // Thinning comes within a fifth of what is asked for.
  for (let wanted = Math.round(0.85 * mostKept); wanted >= mostKept / 4; wanted = Math.round(0.8 * wanted)) {
    const thin = used(await thinMesh(mesh, wanted, options));
    if (thin.triangles.length > 3 * mostKept) continue;
    if (meshVolume(thin) < leastLeft * volume) break;
    return thin;
  }
  throw new MeshFault(
    "file",
    `its form is lost with ${mostKept} triangles, as that of thin sheets and twigs is`,
    `a solid that keeps half of its volume when thinned; simplify it to ${mostKept} triangles first`,
  );
}

/** Without corners that no triangle names: they would stretch the box that a form is packed in. */
function used({ positions, triangles }: Mesh): Mesh {
  const names = new Map<number, number>();
  const list = triangles.map((corner) => {
    const name = names.get(corner) ?? names.size;
    names.set(corner, name);
    return name;
  });
  const places = Float64Array.from([...names.keys()].flatMap((c) => [...positions.subarray(3 * c, 3 * c + 3)]));
  return { positions: places, triangles: list };
}

/** A measured size as typed: to a tenth of a millimetre or a thousandth of an inch, so that the volume stays true. */
const sizeText = (metres: number, units: Board["units"]): string =>
  units === "us" ? `${Number((metres / 0.0254).toFixed(3))} in` : `${Number((metres * 1000).toFixed(1))} mm`;

/**
 * Lays an owner's own piece on the board. Its mass is left out of the plan: it follows from volume and material until the
 * owner weighs it.
 * @param place m from the left and from the front pane
 */
export function ownPiece(
  board: Board,
  kind: HardscapeKind,
  form: Pick<OwnForm, "model" | "width" | "breadth" | "height">,
  place: Point2,
  material: string,
): readonly Change[] {
  const name = `own ${kind === "stone" ? "stone" : "wood"} brought in`;
  const changes = addPiece(board, kind, place, material).map((change) => ({ ...change, name }));
  let raw = applyToRaw(board.raw, changes);
  const list = valueAt(raw, ["hardscape"]);
  const index = Array.isArray(list) ? list.length - 1 : 0;
  const values = {
    width: sizeText(form.width, board.units),
    breadth: sizeText(form.breadth, board.units),
    height: sizeText(form.height, board.units),
    model: form.model,
  };
  for (const [key, value] of Object.entries(values)) {
    const change = changeAt(raw, ["hardscape", index, key], value, name);
    raw = applyToRaw(raw, [change]);
    changes.push(change);
  }
  return changes;
}
