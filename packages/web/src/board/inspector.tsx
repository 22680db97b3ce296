import { plain, shown } from "@lentic/core/design";
import { type Change, fields, lampsOf, type Plan, type RawPlan } from "@lentic/core/plan";
import {
  type Board,
  duplicate,
  letDown,
  lock,
  pathOfTarget,
  type Scape,
  type Target,
  takeOut,
} from "@lentic/core/scape";
import { lazy, memo, Suspense } from "react";
import { useSettings } from "../data/settings.ts";
import { Fields } from "../form/fields.tsx";
import { ImportLamp } from "./import-lamp.tsx";
import { labelOf } from "./selection.ts";
import type { BoardState } from "./use-board.ts";

const LampLight = lazy(() => import("./lamp-light.tsx").then((m) => ({ default: m.LampLight })));

interface InspectorProps {
  readonly tank: string;
  readonly raw: RawPlan;
  readonly plan: Plan;
  readonly scape: Scape;
  /** Edits start from here. */
  readonly board: Board;
  readonly target: Target;
  readonly onKeep: (name: string, changes: readonly Change[]) => void;
  readonly onSelect: (target: Target | null) => void;
}

const groupOf: Readonly<Record<Target["kind"], string>> = { piece: "hardscape[]", zone: "plants[]", lamp: "lamps[]" };

/** One sentence on the thing in hand: its size, mass, how it lies, or its area and portions. */
export function Summary({ state, target }: { readonly state: BoardState; readonly target: Target }) {
  const { units } = useSettings();
  const { scape, plan } = state;
  const length = (metres: number): string => {
    const told = shown(metres * 1000, "mm", 0, units);
    return units === "us" ? `${plain(metres / 0.0254, 1)} in` : `${told.text} mm`;
  };
  if (target.kind === "piece") {
    const piece = scape.pieces[target.index]!;
    const own = plan.hardscape[target.index]!;
    const mass = shown(piece.mass, "kg", piece.mass < 10 ? 1 : 0, units);
    const size = [own.width, own.breadth, own.height].map((e) => length(e.value).replace(/ (mm|in)$/, "")).join(" × ");
    const unit = units === "us" ? "in" : "mm";
    const buried = Math.round(100 * piece.shareInBed);
    const out = Math.round(100 * (1 - piece.shareUnderWater));
    return (
      <p className="board-told">
        <b>{labelOf(target, scape)}</b> {size} {unit}, {mass.text} {mass.unit}
        {piece.weighed ? "" : " by its size"}
        {buried > 0 && `, ${buried} % in the bed`}
        {out > 0 && `, ${out} % above the water`}
        {own.locked && ", locked"}
        {own.group && `, ${own.group}`}
      </p>
    );
  }
  if (target.kind === "zone") {
    const zone = scape.zones[target.index]!;
    const area = units === "us" ? `${Math.round(zone.area / 0.00064516)} in²` : `${Math.round(zone.area * 1e4)} cm²`;
    return (
      <p className="board-told">
        <b>{zone.key}</b> <em>{zone.fact.name}</em> {area}, {zone.portions}{" "}
        {zone.portions === 1 ? "portion" : "portions"}, {length(zone.planting.height.value)} high
      </p>
    );
  }
  return (
    <p className="board-told">
      <b>{labelOf(target, scape)}</b>
    </p>
  );
}

/** Fields that a day drawn point by point stands for. */
const drawnDay = (plan: Plan, index: number): readonly string[] =>
  lampsOf(plan)[index]?.programme ? ["on", "off", "ramp"] : [];

/** The thing in hand: what can be done with it, and every figure of it, to be typed. */
export const Inspector = memo(function Inspector({
  tank,
  raw,
  plan,
  scape,
  board,
  target,
  onKeep,
  onSelect,
}: InspectorProps) {
  const group = target.kind === "lamp" && target.index === 0 ? "light" : groupOf[target.kind];
  // a lamp's day is drawn below, its hours are not asked for beside it
  const drawn = target.kind === "lamp" ? drawnDay(plan, target.index) : [];
  const own = fields.filter(
    (f) =>
      f.path.startsWith(`${group}.`) &&
      !f.drawn &&
      f.kind !== "programme" &&
      !drawn.some((key) => f.path.endsWith(`.${key}`)),
  );
  const act = (label: string, changes: () => readonly Change[], then?: Target | null) => (
    <button
      type="button"
      className="link"
      onClick={() => {
        const made = changes();
        if (made.length > 0) onKeep(made.at(-1)!.name, made);
        if (then !== undefined) onSelect(then);
      }}
    >
      {label}
    </button>
  );
  const piece = target.kind === "piece" ? plan.hardscape[target.index] : undefined;
  const path = pathOfTarget(target);
  const index = typeof path[1] === "number" ? path[1] : null;
  return (
    <section className="inspector" aria-label={labelOf(target, scape)}>
      <p className="inspector-acts">
        {piece && act("let down", () => letDown(board, target.index))}
        {act("the same again", () => duplicate(board, target))}
        {piece && act(piece.locked ? "unlock" : "lock", () => lock(board, target.index, !piece.locked))}
        {act("take out", () => takeOut(board, target), null)}
      </p>
      <Fields
        key={`${group}|${index}`}
        tank={tank}
        raw={raw}
        plan={plan}
        fields={own}
        index={index}
        wanted=""
        onKeep={onKeep}
      />
      {target.kind === "lamp" && (
        <Suspense fallback={<p className="waiting">Opening …</p>}>
          <LampLight key={target.index} raw={raw} plan={plan} index={target.index} onKeep={onKeep} />
        </Suspense>
      )}
      {target.kind === "lamp" && <ImportLamp key={target.index} board={board} target={target} onKeep={onKeep} />}
    </section>
  );
});
