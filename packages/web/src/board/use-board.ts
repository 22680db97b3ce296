import { scapeScene } from "@lentic/core/design";
import type { ScapeScene } from "@lentic/core/drawing";
import type { Brush } from "@lentic/core/geometry";
import { applyToRaw, type Change, type Plan, type RawPlan, resolvePlan } from "@lentic/core/plan";
import {
  type Bill,
  type Board,
  billOf,
  type Scape,
  type ScapeFinding,
  scapeFindings,
  scapeOf,
  underBrush,
} from "@lentic/core/scape";
import { useCallback, useMemo, useRef, useState } from "react";
import { useSettings } from "../data/settings.ts";
import { useRested } from "./use-rested.ts";

/** The plan on the board with what the hand is doing to it. */
export interface BoardState {
  readonly raw: RawPlan;
  readonly plan: Plan;
  readonly scape: Scape;
  readonly scene: ScapeScene;
  /** For edits, which start from here. */
  readonly board: Board;
}

export interface BoardDoor {
  readonly state: BoardState;
  /** The state as it was when the hand last rested: for words and tables, which need not follow every frame. */
  readonly still: BoardState;
  readonly bill: Bill;
  readonly findings: readonly ScapeFinding[];
  /** True while a hand is moving something that is not kept yet. */
  readonly moving: boolean;
  /** Shows the bed under strokes that are not laid yet; what stands on it follows once they are kept. */
  readonly shape: (strokes: readonly Brush[]) => void;
  /** Shows changes without keeping them, from the plan as kept. */
  readonly show: (changes: readonly Change[]) => void;
  /** Keeps changes, or those shown last. */
  readonly keep: (changes?: readonly Change[]) => void;
  /** Leaves what was shown. */
  readonly leave: () => void;
  /** Edits start from the plan as kept, however far the hand has come. */
  readonly kept: Board;
}

const none: readonly Change[] = [];
const unbrushed: readonly Brush[] = [];

/** Whether the same number of things is there, so that what names a thing of one names it in the other. */
const sameThings = ({ scene: a }: BoardState, { scene: b }: BoardState): boolean =>
  a.pieces.length === b.pieces.length && a.zones.length === b.zones.length && a.lamps.length === b.lamps.length;

function stateOf(raw: RawPlan, units: Board["units"], before: ScapeScene | undefined): BoardState | null {
  const resolved = resolvePlan(raw);
  if (!resolved.ok) return null;
  const scape = scapeOf(resolved.plan);
  return { raw, plan: resolved.plan, scape, scene: scapeScene(scape, before), board: { raw, scape, units } };
}

/**
 * The scape of a plan under a moving hand: what is shown follows at once, what is let go is kept as one change.
 * @param onKeep keeps changes in the plan
 */
export function useBoard(
  raw: RawPlan,
  plan: Plan,
  onKeep: (name: string, changes: readonly Change[]) => void,
): BoardDoor {
  const { units } = useSettings();
  const [trial, setTrial] = useState<{
    readonly on: RawPlan;
    readonly changes: readonly Change[];
    readonly strokes: readonly Brush[];
  }>({ on: raw, changes: none, strokes: unbrushed });
  const drawn = useRef<ScapeScene | undefined>(undefined);
  const changes = trial.on === raw ? trial.changes : none;
  const strokes = trial.on === raw ? trial.strokes : unbrushed;

  const kept = useMemo((): BoardState => {
    const scape = scapeOf(plan);
    return { raw, plan, scape, scene: scapeScene(scape, drawn.current), board: { raw, scape, units } };
  }, [raw, plan, units]);
  const state = useMemo(() => {
    if (strokes.length > 0) {
      const scape = underBrush(kept.scape, strokes);
      return { ...kept, scape, scene: { ...scapeScene(scape, drawn.current), standing: kept.scene.ground } };
    }
    return changes.length === 0 ? kept : (stateOf(applyToRaw(raw, changes), units, drawn.current) ?? kept);
  }, [kept, raw, changes, strokes, units]);
  drawn.current = state.scene;

  const rested = useRested(state);
  const still = changes.length === 0 || strokes.length > 0 ? kept : sameThings(rested, state) ? rested : state;
  const bill = useMemo(() => billOf(still.scape), [still]);
  const findings = useMemo(() => scapeFindings(kept.scape), [kept]);

  const show = useCallback(
    (next: readonly Change[]) => setTrial({ on: raw, changes: next, strokes: unbrushed }),
    [raw],
  );
  const shape = useCallback(
    (next: readonly Brush[]) => setTrial({ on: raw, changes: none, strokes: [...next] }),
    [raw],
  );
  const leave = useCallback(() => setTrial({ on: raw, changes: none, strokes: unbrushed }), [raw]);
  const keep = useCallback(
    (given?: readonly Change[]) => {
      const all = given ?? changes;
      const name = all.at(-1)?.name;
      if (name === undefined) return;
      onKeep(name, all);
      setTrial({ on: raw, changes: all, strokes: unbrushed });
    },
    [changes, onKeep, raw],
  );
  return {
    state,
    still,
    bill,
    findings,
    moving: changes.length + strokes.length > 0,
    shape,
    show,
    keep,
    leave,
    kept: kept.board,
  };
}
