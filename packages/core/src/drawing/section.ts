/** The whole sheet: the drawing and the figures on it. */
import type { SectionOptions } from "./frame.ts";
import { type DrawingNode, element } from "./node.ts";
import { round1 } from "./pen.ts";
import type { SectionFigure, SectionScene } from "./scene.ts";
import { type SectionKey, sectionDrawing } from "./section-drawing.ts";
import { isBelow, sectionFigures } from "./section-figures.ts";

export interface Section {
  /** An `svg` element. */
  readonly node: DrawingNode;
  /** px at the asked width. */
  readonly height: number;
  readonly keys: readonly SectionKey[];
}

/**
 * The section of a tank with figures in their places.
 * @param options `width` in px (720), `compact` for a phone, `length` writes a length given in m.
 * @throws RangeError where the tank has no drawable size.
 */
export function section(scene: SectionScene, figures: readonly SectionFigure[], options: SectionOptions = {}): Section {
  const drawing = sectionDrawing(scene, { ...options, figureRow: figures.some((f) => isBelow(f.place)) });
  const set = sectionFigures(drawing, figures);
  const shift = -set.top;
  const height = Math.ceil(Math.max(drawing.height, set.bottom) + shift);
  const parts = [drawing.node, ...set.nodes];
  const node = element(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      class: "d-section",
      viewBox: `0 0 ${round1(drawing.frame.width)} ${height}`,
    },
    shift > 0 ? [element("g", { transform: `translate(0 ${round1(shift)})` }, parts)] : parts,
  );
  return { node, height, keys: drawing.keys.map((k) => ({ ...k, y: round1(k.y + shift) })) };
}
