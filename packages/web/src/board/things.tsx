import type { ScapeScene } from "@lentic/core/drawing";
import type { Scape, Target } from "@lentic/core/scape";
import { type KeyboardEvent, memo } from "react";
import { allTargets, labelOf, sameTarget } from "./selection.ts";

interface ThingsProps {
  readonly scene: ScapeScene;
  readonly scape: Scape;
  readonly target: Target | null;
  /** Taken along with it. */
  readonly more: readonly Target[];
  readonly onSelect: (target: Target, add: boolean) => void;
  readonly onKeyDown: (event: KeyboardEvent) => void;
}

/** Everything on the board by name: where the keys find it. */
export const Things = memo(function Things({ scene, scape, target, more, onSelect, onKeyDown }: ThingsProps) {
  return (
    <ul className="things">
      {allTargets(scene).map((t) => (
        <li key={`${t.kind}${t.index}`}>
          <button
            type="button"
            aria-pressed={sameTarget(t, target) || more.some((m) => sameTarget(m, t))}
            onClick={(e) => onSelect(t, e.shiftKey)}
            onKeyDown={onKeyDown}
          >
            {labelOf(t, scape)}
          </button>
        </li>
      ))}
    </ul>
  );
});
