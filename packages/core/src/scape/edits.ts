/**
 * What a hand does on the drawing board, as changes of the plan: each is reversible, named for the list of steps, and
 * writes what a person would have typed. Lengths are written in the reader's own unit.
 */
import { findPlant } from "../facts/index.ts";
import {
  type Brush,
  brushField,
  type HeightField,
  layerTops,
  outlineCentroid,
  type Point2,
  resampleField,
} from "../geometry/index.ts";
import {
  applyToRaw,
  type Change,
  changeAt,
  type HardscapeKind,
  lampProgramme,
  layerField,
  type Path,
  programmeText,
  type RawPlan,
  valueAt,
} from "../plan/index.ts";
import { restingHeight } from "../solids/index.ts";
import type { Scape } from "./scape.ts";
import { areaAbout } from "./zones.ts";

/** Something on the board. Lamp 0 is the tank's first, the others follow in the order of the plan's list. */
export interface Target {
  readonly kind: "piece" | "zone" | "lamp";
  readonly index: number;
}

/** The plan as typed beside the scape that it makes. */
export interface Board {
  readonly raw: RawPlan;
  readonly scape: Scape;
  readonly units: "metric" | "us";
}

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

/** A share of the floor as typed, to a tenth of a percent. */
const percent = (share: number): string => `${Number((clamp(share, 0, 1) * 100).toFixed(1))} %`;

/** A length as typed: whole millimetres, or hundredths of an inch. */
export function lengthText(metres: number, units: Board["units"]): string {
  return units === "us" ? `${Number((metres / 0.0254).toFixed(2))} in` : `${Math.round(metres * 1000)} mm`;
}

const degrees = (angle: number): string => {
  const turned = ((((Math.round(angle) + 180) % 360) + 360) % 360) - 180;
  return `${turned} deg`;
};

const placeText = (points: readonly (readonly [number, number])[]): string =>
  points.map(([x, y]) => `${percent(x)} ${percent(y)}`).join(", ");

/** Where a target's own values stand in the plan. */
export function pathOfTarget({ kind, index }: Target): Path {
  if (kind === "piece") return ["hardscape", index];
  if (kind === "zone") return ["plants", index];
  return index === 0 ? ["light"] : ["lamps", index - 1];
}

/** What a target is called in the list of steps. */
export function targetName({ scape }: Board, { kind, index }: Target): string {
  if (kind === "piece") return scape.pieces[index]?.names[0] ?? "";
  if (kind === "zone") return scape.zones[index]?.fact.name ?? "";
  return index === 0 ? "lamp" : `lamp ${index + 1}`;
}

/** Sets values one after another, each from where the last left the plan. */
class Steps {
  raw: RawPlan;
  readonly changes: Change[] = [];
  private readonly name: string;

  constructor(raw: RawPlan, name: string) {
    this.raw = raw;
    this.name = name;
  }

  set(path: Path, after: unknown): this {
    const change = changeAt(this.raw, path, after, this.name);
    this.raw = applyToRaw(this.raw, [change]);
    this.changes.push(change);
    return this;
  }
}

/** Pieces that move together with one: its group, unless they are locked. */
function together({ scape }: Board, index: number): readonly number[] {
  const { hardscape } = scape.plan;
  const group = hardscape[index]?.group ?? null;
  const all = group === null ? [index] : hardscape.flatMap((p, i) => (p.group === group ? [i] : []));
  return all.filter((i) => !hardscape[i]!.locked);
}

/**
 * Moves a target so that its middle stands at a place of the floor; its group goes with it, plants tied to it stay tied.
 * A locked piece stays. @param x m from the left pane; @param y m from the front pane
 */
export function moveTo(board: Board, target: Target, x: number, y: number): readonly Change[] {
  const { scape, raw } = board;
  const { length, width, plan } = scape;
  const steps = new Steps(raw, `${targetName(board, target)} moved`);
  const path = pathOfTarget(target);
  if (target.kind === "zone") {
    const zone = scape.zones[target.index]!;
    if (!zone.drawn)
      return steps.set([...path, "at"], percent(x / length)).set([...path, "depth"], percent(y / width)).changes;
    const [cx, cy] = outlineCentroid(zone.outline);
    const xs = zone.outline.map(([px]) => px);
    const ys = zone.outline.map(([, py]) => py);
    const dx = clamp(x - cx, -Math.min(...xs), length - Math.max(...xs));
    const dy = clamp(y - cy, -Math.min(...ys), width - Math.max(...ys));
    const moved = zone.outline.map(([px, py]) => [(px + dx) / length, (py + dy) / width] as const);
    return steps.set([...path, "outline"], placeText(moved)).changes;
  }
  if (target.kind === "lamp") {
    return steps.set([...path, "at"], percent(x / length)).set([...path, "depth"], percent(y / width)).changes;
  }
  const lead = plan.hardscape[target.index]!;
  const dx = clamp(x / length, 0, 1) - lead.at.value;
  const dy = clamp(y / width, 0, 1) - lead.depth.value;
  for (const i of together(board, target.index)) {
    const piece = plan.hardscape[i]!;
    steps.set(["hardscape", i, "at"], percent(piece.at.value + dx));
    steps.set(["hardscape", i, "depth"], percent(piece.depth.value + dy));
  }
  return steps.changes;
}

/** Sizes of a piece or lamp, m; what is left out stays. */
export interface Sizes {
  readonly width?: number;
  readonly breadth?: number;
  readonly height?: number;
}

const smallest = 0.005;
const largest = 6;

/** Gives a piece other sizes. */
export function resize(board: Board, index: number, sizes: Sizes): readonly Change[] {
  const steps = new Steps(board.raw, `${targetName(board, { kind: "piece", index })} resized`);
  for (const key of ["width", "breadth", "height"] as const) {
    const size = sizes[key];
    if (size !== undefined) {
      steps.set(["hardscape", index, key], lengthText(clamp(size, smallest, largest), board.units));
    }
  }
  return steps.changes;
}

/** Scales a piece in all directions. */
export function scaleBy(board: Board, index: number, factor: number): readonly Change[] {
  const { width, breadth, height } = board.scape.plan.hardscape[index]!;
  return resize(board, index, {
    width: width.value * factor,
    breadth: breadth.value * factor,
    height: height.value * factor,
  });
}

/** Turns about the vertical, leans to a side or tips to the back, degrees. */
export function turnTo(
  board: Board,
  target: Target,
  key: "turn" | "lean" | "tip" | "tilt",
  angle: number,
): readonly Change[] {
  const most = key === "turn" ? 360 : key === "tilt" ? 60 : 90;
  const name = `${targetName(board, target)} ${key === "turn" ? "turned" : key === "lean" ? "leant" : key === "tip" ? "tipped" : "tilted"}`;
  const text = key === "turn" ? degrees(angle) : `${Math.round(clamp(angle, -most, most))} deg`;
  return new Steps(board.raw, name).set([...pathOfTarget(target), key], text).changes;
}

/** Raises a piece's foot above its ground, or sets it in, m; no deeper than the bed. */
export function raiseTo(board: Board, index: number, raise: number): readonly Change[] {
  const name = targetName(board, { kind: "piece", index });
  return new Steps(board.raw, `${name} ${raise < 0 ? "set in" : "raised"}`).set(
    ["hardscape", index, "raise"],
    lengthText(clamp(raise, -2, 2), board.units),
  ).changes;
}

/** Lets a piece down on what is below it: ground or other pieces. */
export function letDown(board: Board, index: number): readonly Change[] {
  const { scape } = board;
  const piece = scape.pieces[index]!;
  const others = scape.pieces.filter((p) => p.index !== index).map((p) => p.mesh);
  const { shift } = restingHeight(piece.mesh, scape.ground, others);
  const raise = scape.plan.hardscape[index]!.raise.value + shift;
  return new Steps(board.raw, `${piece.names[0]} let down`).set(
    ["hardscape", index, "raise"],
    lengthText(clamp(raise, -2, 2), board.units),
  ).changes;
}

const listLength = (raw: RawPlan, key: string): number => {
  const list = valueAt(raw, [key]);
  return Array.isArray(list) ? list.length : 0;
};

/** A seed that no piece has yet. */
function freshSeed({ scape }: Board): number {
  const taken = new Set(scape.plan.hardscape.map((p) => p.seed.value));
  let seed = scape.plan.hardscape.length + 1;
  while (taken.has(seed)) seed += 1;
  return seed;
}

/** Adds a stone or a piece of wood of a middling size for the tank, of the material used most. */
export function addPiece(board: Board, kind: HardscapeKind, [x, y]: Point2, material?: string): readonly Change[] {
  const { raw, scape, units } = board;
  const own = scape.plan.hardscape.filter((p) => p.kind === kind).map((p) => p.material);
  const most = [...own].sort((a, b) => own.filter((m) => m === b).length - own.filter((m) => m === a).length)[0];
  const rock = material ?? most ?? (kind === "stone" ? "slate" : "root wood");
  const room = Math.min(scape.length, 2 * scape.width, 2 * scape.waterDepth);
  const [w, b, h] = kind === "stone" ? [0.2, 0.15, 0.16] : [0.5, 0.25, 0.3];
  const item = {
    kind,
    material: rock,
    at: percent(x / scape.length),
    depth: percent(y / scape.width),
    width: lengthText(Math.max(smallest, w * room), units),
    breadth: lengthText(Math.max(smallest, b * room), units),
    height: lengthText(Math.max(smallest, h * room), units),
    seed: freshSeed(board),
  };
  const name = kind === "stone" ? "a stone more" : "a piece of wood more";
  return new Steps(raw, name).set(["hardscape", listLength(raw, "hardscape")], item).changes;
}

/** Plants a species over an area, or over a small one about a place. */
export function addZone(board: Board, species: string, area: readonly Point2[] | Point2): readonly Change[] {
  const { raw, scape } = board;
  const { length, width } = scape;
  const isPlace = (a: readonly Point2[] | Point2): a is Point2 => typeof a[0] === "number";
  const outline = isPlace(area) ? areaAbout(area, 0.08 * length * width, length, width) : area;
  const shares = outline.map(([x, y]) => [x / length, y / width] as const);
  const name = findPlant(species)?.name ?? species;
  const item = { species: name, outline: placeText(shares) };
  return new Steps(raw, `${name} planted`).set(["plants", listLength(raw, "plants")], item).changes;
}

/** Gives a planting another area; its cover then follows from it. @param outline m */
export function drawZone(board: Board, index: number, outline: readonly Point2[]): readonly Change[] {
  const { length, width } = board.scape;
  const steps = new Steps(board.raw, `${targetName(board, { kind: "zone", index })}: area drawn`);
  for (const key of ["cover", "at", "depth"]) {
    if (valueAt(board.raw, ["plants", index, key]) !== undefined) steps.set(["plants", index, key], undefined);
  }
  const shares = outline.map(([x, y]) => [x / length, y / width] as const);
  return steps.set(["plants", index, "outline"], placeText(shares)).changes;
}

/** Hangs a further lamp like the first beside it; the first where there is none. */
export function addLamp(board: Board): readonly Change[] {
  const { raw } = board;
  const light = valueAt(raw, ["light"]);
  if (light === undefined || light === "none") return new Steps(raw, "a lamp").set(["light"], {}).changes;
  const item = typeof light === "object" && light !== null && !Array.isArray(light) ? { ...light } : {};
  const { ppfd: _ppfd, price: _price, ...own } = item as Record<string, unknown>;
  const { on: _on, off: _off, ramp: _ramp, programme: _programme, ...like } = own;
  return new Steps(raw, "a lamp more").set(["lamps", listLength(raw, "lamps")], { ...like, at: "75 %" }).changes;
}

/** Takes a target out. Pieces after it keep their forms, and what grew on it stays in the ground. */
export function takeOut(board: Board, target: Target): readonly Change[] {
  const { raw, scape } = board;
  const steps = new Steps(raw, `without ${targetName(board, target)}`);
  if (target.kind === "piece") {
    const names = scape.pieces[target.index]!.names;
    scape.plan.plants.forEach((planting, i) => {
      if (planting.on !== null && names.includes(planting.on)) steps.set(["plants", i, "on"], undefined);
    });
    renameTied(board, target.index, steps);
    scape.plan.hardscape.forEach((piece, i) => {
      if (i > target.index && piece.seed.text === undefined) steps.set(["hardscape", i, "seed"], piece.seed.value);
    });
  }
  if (target.kind === "lamp" && target.index === 0 && scape.plan.lamps.length > 0) {
    const { on, off, ramp } = scape.plan.light!;
    const hours = (h: number): string =>
      `${String(Math.floor(h)).padStart(2, "0")}:${String(Math.round((h % 1) * 60)).padStart(2, "0")}`;
    const next = valueAt(raw, ["lamps", 0]) as Record<string, unknown>;
    const second = scape.plan.lamps[0]!;
    const timed = [second.on, second.off, second.ramp].some(({ text }) => text !== undefined);
    // it kept the first lamp's day; what that was it now says itself
    const day =
      scape.plan.light!.programme && !timed
        ? { programme: programmeText(lampProgramme(scape.plan, 0)) }
        : { on: hours(on.value), off: hours(off.value), ramp: `${Math.round(ramp.value * 60)} min` };
    const kept = second.programme ? next : { ...day, ...next };
    return steps.set(["light"], kept).set(["lamps", 0], undefined).changes;
  }
  return steps.set(pathOfTarget(target), undefined).changes;
}

/** Plants tied to a later piece by its number are tied to its new number. */
function renameTied({ scape }: Board, gone: number, steps: Steps): void {
  const { kind } = scape.pieces[gone]!;
  for (const piece of scape.pieces) {
    if (piece.index <= gone || piece.kind !== kind) continue;
    const next = `${piece.key[0]}${Number(piece.key.slice(1)) - 1}`;
    scape.plan.plants.forEach((planting, i) => {
      if (planting.on === piece.key) steps.set(["plants", i, "on"], next);
    });
  }
}

/** The same again beside it. */
export function duplicate(board: Board, target: Target): readonly Change[] {
  const { raw, scape } = board;
  const item = valueAt(raw, pathOfTarget(target));
  if (target.kind === "lamp") return addLamp(board);
  if (typeof item !== "object" || item === null || Array.isArray(item)) return [];
  const steps = new Steps(raw, `${targetName(board, target)} twice`);
  if (target.kind === "piece") {
    const piece = scape.plan.hardscape[target.index]!;
    const { name: _name, group: _group, ...rest } = item as Record<string, unknown>;
    const at = piece.at.value > 0.8 ? piece.at.value - 0.15 : piece.at.value + 0.15;
    const twin = { ...rest, at: percent(at), depth: percent(piece.depth.value), seed: piece.seed.value };
    return steps.set(["hardscape", listLength(raw, "hardscape")], twin).changes;
  }
  const zone = scape.zones[target.index]!;
  const [cx] = outlineCentroid(zone.outline);
  const dx = (cx > scape.length / 2 ? -0.2 : 0.2) * scape.length;
  const shares = zone.outline.map(([x, y]) => [clamp((x + dx) / scape.length, 0, 1), y / scape.width] as const);
  const { cover: _cover, at: _at, depth: _depth, on: _on, ...rest } = item as Record<string, unknown>;
  return steps.set(["plants", listLength(raw, "plants")], { ...rest, outline: placeText(shares) }).changes;
}

/** Locks a piece in its place, or sets it free. */
export function lock(board: Board, index: number, locked: boolean): readonly Change[] {
  const name = targetName(board, { kind: "piece", index });
  return new Steps(board.raw, `${name} ${locked ? "locked" : "free"}`).set(
    ["hardscape", index, "locked"],
    locked ? true : undefined,
  ).changes;
}

/** Binds pieces into a group that moves together, or parts them. */
export function group(board: Board, indexes: readonly number[], bound: boolean): readonly Change[] {
  const taken = new Set(board.scape.plan.hardscape.map((p) => p.group));
  let number = 1;
  while (taken.has(`group ${number}`)) number += 1;
  const steps = new Steps(board.raw, bound ? `${indexes.length} pieces grouped` : "group parted");
  for (const i of indexes) steps.set(["hardscape", i, "group"], bound ? `group ${number}` : undefined);
  return steps.changes;
}

/** Cells of about this size are what a hand can shape, m. Design value. */
const handsBreadth = 0.03;
const mostCells = 32;

/** Which layer a brush works on: the uppermost that covers the whole floor. */
export function brushedLayer({ scape }: Pick<Board, "scape">): number {
  return scape.plan.substrate.findLastIndex((layer) => layer.within === null);
}

/** The layer under the brush on a grid fine enough for a hand. */
export function brushedField(board: Pick<Board, "scape">): HeightField | null {
  const index = brushedLayer(board);
  if (index < 0) return null;
  const { length, width, plan } = board.scape;
  const layer = plan.substrate[index]!;
  const field = layerField(layer, length, width);
  if (layer.heights) return field;
  const cells = (extent: number): number => Math.round(clamp(extent / handsBreadth, 4, mostCells));
  return resampleField(field, cells(length) + 1, cells(width) + 1);
}

/** Depths as typed: the back row first, whole millimetres. */
export function heightRows({ columns, rows, heights }: HeightField): readonly string[] {
  return Array.from({ length: rows }, (_, j) => {
    const start = (rows - 1 - j) * columns;
    const row = Array.from(heights.subarray(start, start + columns), (h) => Math.round(h * 1000));
    return `${row.join(" ")} mm`;
  });
}

/** Strokes on the bed, in order; the layer is from then on given on a grid. */
export function brushed(board: Board, strokes: readonly Brush[]): readonly Change[] {
  const index = brushedLayer(board);
  let field = brushedField(board);
  if (!field) return [];
  for (const stroke of strokes) field = brushField(field, stroke);
  return laid(board, index, field, "ground shaped");
}

/** A scape as its bed looks under strokes not yet laid: what stands on it stays where it stood until they are. */
export function underBrush(scape: Scape, strokes: readonly Brush[]): Scape {
  const index = brushedLayer({ scape });
  let field = brushedField({ scape });
  if (!field) return scape;
  for (const stroke of strokes) field = brushField(field, stroke);
  const { plan, length, width } = scape;
  const tops = layerTops(plan.substrate.map((layer, i) => (i === index ? field : layerField(layer, length, width))));
  return { ...scape, ground: tops.at(-1)!, layers: scape.layers.map((layer, i) => ({ ...layer, top: tops[i]! })) };
}

/** Lays a layer on a grid of its own. */
export function laid(board: Board, index: number, field: HeightField, name: string): readonly Change[] {
  const steps = new Steps(board.raw, name);
  const base: Path = Array.isArray(valueAt(board.raw, ["substrate"])) ? ["substrate", index] : ["substrate", 0];
  for (const key of ["depth", "front", "back", "front_left", "front_right", "back_left", "back_right"]) {
    if (valueAt(board.raw, [...base, key]) !== undefined) steps.set([...base, key], undefined);
  }
  return steps.set([...base, "heights"], heightRows(field)).changes;
}

/** Draws a retained step along a line. @param line m */
export function addEdge({ raw, scape }: Board, line: readonly Point2[]): readonly Change[] {
  const shares = line.map(([x, y]) => [x / scape.length, y / scape.width] as const);
  return new Steps(raw, "a step drawn").set(["edges", listLength(raw, "edges")], { line: placeText(shares) }).changes;
}

/** Lays sand for looks over an area. @param outline m */
export function addSand({ raw, scape, units }: Board, outline: readonly Point2[]): readonly Change[] {
  const shares = outline.map(([x, y]) => [x / scape.length, y / scape.width] as const);
  const steps = new Steps(raw, "sand laid");
  // a bed that was only assumed would be gone once a layer is named
  const assumed = listLength(raw, "substrate") === 0 ? scape.plan.substrate[0] : undefined;
  if (assumed) {
    steps.set(["substrate", 0], { material: assumed.material, depth: lengthText(assumed.frontLeft.value, units) });
  }
  const item = { material: "quartz sand", depth: lengthText(0.01, units), within: placeText(shares) };
  return steps.set(["substrate", listLength(steps.raw, "substrate")], item).changes;
}
