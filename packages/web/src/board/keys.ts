import type { ScapeScene } from "@lentic/core/drawing";
import { outlineCentroid } from "@lentic/core/geometry";
import type { Change } from "@lentic/core/plan";
import {
  type Board,
  duplicate,
  letDown,
  lock,
  moveTo,
  raiseTo,
  scaleBy,
  type Target,
  takeOut,
  turnTo,
} from "@lentic/core/scape";

interface Pressed {
  readonly key: string;
  readonly shiftKey: boolean;
  readonly altKey: boolean;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
}

/** Steps of the arrow keys, m: usual, with shift, with alt. */
const steps = { usual: 0.005, large: 0.025, small: 0.001 } as const;

/** What the keys do, in the order in which they are told to the reader. */
export const keyHelp: readonly (readonly [keys: string, what: string])[] = [
  ["arrows", "move by 5 mm; shift 25 mm, alt 1 mm"],
  ["page up, page down", "raise, set in"],
  ["[ ]", "turn by 5 degrees"],
  ["+ −", "larger, smaller"],
  ["D", "the same again"],
  ["G", "let down on what is below"],
  ["L", "lock, unlock"],
  ["delete", "take out"],
];

/** The changes that a key asks for on a thing, or null where it means nothing here. */
export function pressed(board: Board, scene: ScapeScene, target: Target, event: Pressed): readonly Change[] | null {
  if (event.ctrlKey || event.metaKey) return null;
  const step = event.shiftKey ? steps.large : event.altKey ? steps.small : steps.usual;
  const { scape } = board;
  const piece = target.kind === "piece" ? scape.plan.hardscape[target.index]! : null;
  const move = (dx: number, dy: number): readonly Change[] => {
    const at = piece
      ? ([piece.at.value * scape.length, piece.depth.value * scape.width] as const)
      : middleOf(target, scene);
    return moveTo(board, target, at[0] + dx, at[1] + dy);
  };
  switch (event.key) {
    case "ArrowLeft":
      return move(-step, 0);
    case "ArrowRight":
      return move(step, 0);
    case "ArrowUp":
      return move(0, step);
    case "ArrowDown":
      return move(0, -step);
    case "Delete":
    case "Backspace":
      return takeOut(board, target);
    case "d":
      return duplicate(board, target);
    case "[":
      return turned(board, target, 5);
    case "]":
      return turned(board, target, -5);
  }
  if (!piece) return null;
  switch (event.key) {
    case "PageUp":
      return raiseTo(board, target.index, piece.raise.value + step);
    case "PageDown":
      return raiseTo(board, target.index, piece.raise.value - step);
    case "+":
    case "=":
      return scaleBy(board, target.index, 1.05);
    case "-":
      return scaleBy(board, target.index, 1 / 1.05);
    case "g":
      return letDown(board, target.index);
    case "l":
      return lock(board, target.index, !piece.locked);
  }
  return null;
}

function turned(board: Board, target: Target, by: number): readonly Change[] | null {
  const { plan } = board.scape;
  if (target.kind === "zone") return null;
  const lamp = target.index === 0 ? plan.light : plan.lamps[target.index - 1];
  const now = target.kind === "piece" ? plan.hardscape[target.index]!.turn.value : lamp!.turn.value;
  return turnTo(board, target, "turn", now + by);
}

function middleOf(target: Target, scene: ScapeScene): readonly [number, number] {
  if (target.kind === "lamp") {
    const { x, y } = scene.lamps[target.index]!;
    return [x, y];
  }
  return outlineCentroid(scene.zones[target.index]!.outline);
}
