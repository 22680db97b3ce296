import { openWater, type Scape } from "@lentic/core/scape";
import { memo, useMemo } from "react";

const percent = (share: number): string => `${Math.round(100 * share)} %`;

/** What the aid of balance says beside its drawing. */
export const OpenWaterLine = memo(function OpenWaterLine({ scape }: { readonly scape: Scape }) {
  const { view, volume } = useMemo(() => openWater(scape), [scape]);
  return (
    <p className="board-told" data-testid="open-water">
      Open water: <strong>{percent(view)}</strong> of the view from the front, <strong>{percent(volume)}</strong> of the
      room under the water line, plantings counted as closed. Under the drawing, what the eye weighs left and right of
      the middle.
    </p>
  );
});
