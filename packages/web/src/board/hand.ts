import type { ScapeScene } from "@lentic/core/drawing";
import { type Brush, outlineCentroid, type Point2, simplifyOutline } from "@lentic/core/geometry";
import type { Change } from "@lentic/core/plan";
import {
  addEdge,
  addPiece,
  addSand,
  addZone,
  type Board,
  brushed,
  drawZone,
  moveTo,
  raiseTo,
  resize,
  type Target,
  turnTo,
} from "@lentic/core/scape";

/** What the hand holds. */
export type Tool = "select" | "ground" | "stone" | "wood" | "plant" | "sand" | "step";

export type GroundKind = Brush["kind"];

/** How the ground tool works, lengths in m. */
export interface GroundBrush {
  readonly kind: GroundKind;
  readonly radius: number;
  /** Raised or lowered by a press, m; smoothing and levelling work by shares. */
  readonly strength: number;
}

/** Strokes closer than this to the last are part of it, share of the brush's radius. */
const strokeStep = 0.35;

/** One stroke of the ground brush at a place. */
export function strokeAt(brush: GroundBrush, [x, y]: Point2): Brush {
  const share = brush.kind === "smooth" || brush.kind === "level";
  return { kind: brush.kind, x, y, radius: brush.radius, strength: share ? 0.5 : brush.strength };
}

/** Whether a place is far enough from the last stroke for another one. */
export function nextStroke(strokes: readonly Brush[], [x, y]: Point2): boolean {
  const last = strokes.at(-1);
  return !last || Math.hypot(x - last.x, y - last.y) > strokeStep * last.radius;
}

/** Shortest path that counts as drawn rather than pressed, m. */
const pressedWithin = 0.015;

/** A freehand path as an outline within the glass, or null for a mere press. */
function outlineOf(path: readonly Point2[], scene: ScapeScene): readonly Point2[] | null {
  const { length, width } = scene.tank;
  const inside = path.map(([x, y]): Point2 => [Math.min(length, Math.max(0, x)), Math.min(width, Math.max(0, y))]);
  const xs = inside.map(([x]) => x);
  const ys = inside.map(([, y]) => y);
  const across = Math.hypot(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys));
  if (!(across > pressedWithin) || inside.length < 3) return null;
  const outline = simplifyOutline(inside, 0.004);
  return outline.length < 3 ? null : outline;
}

/** A line along a freehand path, or null for a mere press. */
function lineOf(path: readonly Point2[], scene: ScapeScene): readonly Point2[] | null {
  const { length, width } = scene.tank;
  const inside = path.map(([x, y]): Point2 => [Math.min(length, Math.max(0, x)), Math.min(width, Math.max(0, y))]);
  const [a, b] = [inside[0], inside.at(-1)];
  if (!a || !b || Math.hypot(b[0] - a[0], b[1] - a[1]) < pressedWithin) return null;
  const middle = inside[Math.floor(inside.length / 2)]!;
  return [a, middle, b];
}

/** What a tool's path over the plan comes to when the hand lets go. */
export function drawn(
  board: Board,
  scene: ScapeScene,
  tool: Tool,
  path: readonly Point2[],
  species: string,
  target: Target | null,
): readonly Change[] {
  const place = path[0];
  if (!place) return [];
  const outline = outlineOf(path, scene);
  switch (tool) {
    case "stone":
    case "wood":
      return addPiece(board, tool, place);
    case "plant":
      if (outline && target?.kind === "zone" && sameSpecies(board, target.index, species)) {
        return drawZone(board, target.index, outline);
      }
      return addZone(board, species, outline ?? place);
    case "sand":
      return outline ? addSand(board, outline) : [];
    case "step": {
      const line = lineOf(path, scene);
      return line ? addEdge(board, line) : [];
    }
    default:
      return [];
  }
}

const sameSpecies = ({ scape }: Board, index: number, species: string): boolean =>
  scape.zones[index]?.fact.name === species;

/** Ground strokes as changes. */
export const shaped = (board: Board, strokes: readonly Brush[]): readonly Change[] => brushed(board, strokes);

/** A handle of the thing in hand. */
export type Handle = "corner" | "turn" | "body";

/** What dragging a handle of a thing comes to: by how far, seen from above. */
export function draggedFromAbove(
  board: Board,
  target: Target,
  handle: Handle,
  start: Point2,
  now: Point2,
): readonly Change[] {
  const { scape } = board;
  const middle = middleOf(board, target);
  if (handle === "body") return moveTo(board, target, middle[0] + now[0] - start[0], middle[1] + now[1] - start[1]);
  const angle = (p: Point2): number => (Math.atan2(p[1] - middle[1], p[0] - middle[0]) * 180) / Math.PI;
  if (handle === "turn" && target.kind !== "zone") {
    const { plan } = scape;
    const lamp = target.index === 0 ? plan.light : plan.lamps[target.index - 1];
    const before = target.kind === "piece" ? plan.hardscape[target.index]!.turn.value : lamp!.turn.value;
    return turnTo(board, target, "turn", before + angle(now) - angle(start));
  }
  if (handle === "corner" && target.kind === "piece") {
    const factor = ratio(now, start, middle);
    const { width, breadth } = scape.plan.hardscape[target.index]!;
    return resize(board, target.index, { width: width.value * factor, breadth: breadth.value * factor });
  }
  if (handle === "corner" && target.kind === "zone") {
    const factor = ratio(now, start, middle);
    const outline = scape.zones[target.index]!.outline.map(
      ([x, y]): Point2 => [
        Math.min(scape.length, Math.max(0, middle[0] + (x - middle[0]) * factor)),
        Math.min(scape.width, Math.max(0, middle[1] + (y - middle[1]) * factor)),
      ],
    );
    return drawZone(board, target.index, outline);
  }
  return [];
}

/** The same seen from the front: x and height. */
export function draggedFromFront(
  board: Board,
  target: Target,
  handle: Handle,
  start: readonly [x: number, z: number],
  now: readonly [x: number, z: number],
): readonly Change[] {
  const { scape } = board;
  const middle = middleOf(board, target);
  if (handle === "body") {
    const moved = moveTo(board, target, middle[0] + now[0] - start[0], middle[1]);
    if (target.kind !== "piece" || moved.length === 0) return moved;
    const lift = now[1] - start[1];
    // a hand that moves sideways does not mean to lift
    if (Math.abs(lift) < liftFrom) return moved;
    return [...moved, ...raiseTo(board, target.index, scape.plan.hardscape[target.index]!.raise.value + lift)];
  }
  if (handle === "corner" && target.kind === "piece") {
    const { width, height } = scape.plan.hardscape[target.index]!;
    return resize(board, target.index, {
      width: width.value + 2 * Math.sign(start[0] - middle[0]) * (now[0] - start[0]),
      height: height.value + (now[1] - start[1]),
    });
  }
  if (handle === "turn" && target.kind === "piece") {
    const { lean } = scape.plan.hardscape[target.index]!;
    return turnTo(board, target, "lean", lean.value + ((now[0] - start[0]) / 0.1) * 30);
  }
  return [];
}

/** Lift that is meant, m. */
const liftFrom = 0.012;

function middleOf({ scape }: Board, { kind, index }: Target): Point2 {
  if (kind === "piece") {
    const piece = scape.plan.hardscape[index]!;
    return [piece.at.value * scape.length, piece.depth.value * scape.width];
  }
  if (kind === "lamp") {
    const lamp = (index === 0 ? scape.plan.light : scape.plan.lamps[index - 1])!;
    return [lamp.at.value * scape.length, lamp.depth.value * scape.width];
  }
  return outlineCentroid(scape.zones[index]!.outline);
}

function ratio(now: Point2, start: Point2, middle: Point2): number {
  const before = Math.hypot(start[0] - middle[0], start[1] - middle[1]);
  const after = Math.hypot(now[0] - middle[0], now[1] - middle[1]);
  return before > 0 ? Math.max(0.05, after / before) : 1;
}
