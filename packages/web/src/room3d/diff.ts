import type { ScapeLamp, ScapePiece, ScapeScene, ScapeZone } from "@lentic/core/drawing";
import type { HeightField } from "@lentic/core/geometry";
import type { Mesh } from "@lentic/core/solids";

/** What became of one piece. */
type PieceChange =
  | { readonly kind: "same" }
  | { readonly kind: "moved"; readonly from: number; readonly shift: readonly [number, number, number] }
  | { readonly kind: "new" };

/** What has to be made anew to come from one scene to the next. */
export interface SceneChange {
  readonly tank: boolean;
  readonly ground: boolean;
  readonly pieces: readonly PieceChange[];
  /** Position of each piece in the scene before, or -1. */
  readonly piecesFrom: readonly number[];
  readonly zones: readonly boolean[];
  readonly lamps: readonly boolean[];
}

/** A shift that strays more than this over the corners is no shift, m. */
const stray = 1e-9;

/** How far all corners of a mesh have moved alike to make another, or null where they have not. */
export function shiftBetween(before: Mesh, after: Mesh): readonly [number, number, number] | null {
  if (before === after) return [0, 0, 0];
  const [p, q] = [before.positions, after.positions];
  if (p.length !== q.length || p.length === 0 || !sameNumbers(before.triangles, after.triangles)) return null;
  const shift = [q[0]! - p[0]!, q[1]! - p[1]!, q[2]! - p[2]!] as const;
  for (let k = 3; k < p.length; k++) if (Math.abs(q[k]! - p[k]! - shift[k % 3]!) > stray) return null;
  return shift;
}

function sameNumbers(a: ArrayLike<number>, b: ArrayLike<number>): boolean {
  if (a === b) return true;
  if (a.length !== b.length) return false;
  for (let k = 0; k < a.length; k++) if (a[k] !== b[k]) return false;
  return true;
}

function sameField(a: HeightField, b: HeightField): boolean {
  return (
    a === b ||
    (a.length === b.length && a.width === b.width && a.columns === b.columns && sameNumbers(a.heights, b.heights))
  );
}

const samePath = (a: readonly (readonly [number, number])[], b: readonly (readonly [number, number])[]): boolean =>
  a === b || (a.length === b.length && a.every((p, k) => p[0] === b[k]![0] && p[1] === b[k]![1]));

const sameZone = (a: ScapeZone, b: ScapeZone): boolean =>
  a === b ||
  (a.index === b.index &&
    a.key === b.key &&
    a.label === b.label &&
    a.form === b.form &&
    a.leaf === b.leaf &&
    a.height === b.height &&
    a.cover === b.cover &&
    a.on === b.on &&
    a.spread === b.spread &&
    samePath(a.outline, b.outline));

const lampFigures = ["kind", "length", "width", "x", "y", "z", "turn", "tilt", "strength"] as const;
const sameLamp = (a: ScapeLamp, b: ScapeLamp): boolean => a === b || lampFigures.every((name) => a[name] === b[name]);

function sameGround(a: ScapeScene, b: ScapeScene): boolean {
  if (!sameField(a.ground, b.ground) || a.layers.length !== b.layers.length || a.edges.length !== b.edges.length)
    return false;
  return (
    a.edges.every((edge, k) => samePath(edge, b.edges[k]!)) &&
    a.layers.every((layer, k) => {
      const other = b.layers[k]!;
      const within =
        layer.within && other.within ? samePath(layer.within, other.within) : layer.within === other.within;
      return layer === other || (layer.material === other.material && within && sameField(layer.top, other.top));
    })
  );
}

function sameTank(a: ScapeScene["tank"], b: ScapeScene["tank"]): boolean {
  const figures = ["length", "width", "height", "glass", "base", "waterLine", "cover"] as const;
  return a === b || figures.every((name) => a[name] === b[name]);
}

function pieceChange(before: ScapePiece | undefined, from: number, after: ScapePiece): PieceChange {
  if (!before || before.kind !== after.kind || before.texture !== after.texture) return { kind: "new" };
  const shift = shiftBetween(before.mesh, after.mesh);
  if (!shift) return { kind: "new" };
  if (shift.every((s) => s === 0)) return { kind: "same" };
  return { kind: "moved", from, shift };
}

/**
 * What differs between two scenes: first by identity, then by figures, so that a scene written anew from the same plan
 * costs nothing. A planting counts as changed also where what it grows on has changed.
 */
export function sceneChange(before: ScapeScene | null, after: ScapeScene): SceneChange {
  if (!before)
    return {
      tank: true,
      ground: true,
      pieces: after.pieces.map(() => ({ kind: "new" })),
      piecesFrom: after.pieces.map(() => -1),
      zones: after.zones.map(() => true),
      lamps: after.lamps.map(() => true),
    };
  const tank = !sameTank(before.tank, after.tank);
  const ground = tank || !sameGround(before, after);
  const places = new Map(before.pieces.map((piece, k) => [piece.mesh, k]));
  const kept = new Set(after.pieces.map((piece) => places.get(piece.mesh)).filter((k) => k !== undefined));
  // a piece with a new mesh takes the place in the list that nobody else has kept
  const piecesFrom = after.pieces.map(
    ({ mesh }, k) => places.get(mesh) ?? (k < before.pieces.length && !kept.has(k) ? k : -1),
  );
  const pieces = after.pieces.map((piece, k) => pieceChange(before.pieces[piecesFrom[k]!], piecesFrom[k]!, piece));
  const afresh = ground || before.seed !== after.seed;
  return {
    tank,
    ground,
    pieces,
    piecesFrom,
    zones: after.zones.map((zone, k) => {
      const old = before.zones[k];
      if (afresh || !old || !sameZone(old, zone)) return true;
      return zone.on !== null && pieces[zone.on] !== undefined && pieces[zone.on]!.kind !== "same";
    }),
    lamps: after.lamps.map((lamp, k) => tank || !before.lamps[k] || !sameLamp(before.lamps[k], lamp)),
  };
}
