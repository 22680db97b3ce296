import {
  type DrawingNode,
  type SectionFigure,
  type SectionScene,
  sectionDrawing,
  sectionFigures,
  toSvg,
} from "@lentic/core/drawing";
import { createElement, type KeyboardEvent, memo, type ReactNode, useMemo } from "react";

interface SectionProps {
  readonly scene: SectionScene;
  readonly figures: readonly SectionFigure[];
  readonly width: number;
  readonly compact: boolean;
  /** How a length in metres is written. */
  readonly length: (metres: number) => string;
  readonly onFigure: (id: string) => void;
  readonly label: string;
}

const camel = (name: string): string =>
  name === "class" ? "className" : name.replace(/-([a-z])/g, (_, c: string) => c.toUpperCase());

function toElement(node: DrawingNode | string, key: number, onFigure: (id: string) => void): ReactNode {
  if (typeof node === "string") return node;
  const attributes: Record<string, unknown> = { key };
  for (const [name, value] of Object.entries(node.attributes)) attributes[camel(name)] = value;
  if (node.figure !== undefined) {
    const id = node.figure;
    attributes.role = "button";
    attributes.tabIndex = 0;
    attributes["data-figure"] = id;
    attributes.onClick = () => onFigure(id);
    attributes.onKeyDown = (event: KeyboardEvent) => {
      if (event.key !== "Enter" && event.key !== " ") return;
      event.preventDefault();
      onFigure(id);
    };
  }
  return createElement(node.tag, attributes, ...(node.children ?? []).map((c, i) => toElement(c, i, onFigure)));
}

/** Long lists of numbers stand in the key by their length and sum. */
function summed(_: string, value: unknown): unknown {
  if (!(value instanceof Float64Array || value instanceof Uint32Array)) return value;
  let sum = 0;
  for (let i = 0; i < value.length; i++) sum += value[i]! * (1 + (i % 97));
  return [value.length, sum];
}

/** The tank in section, to scale, with its figures in their places; each figure opens its working. */
export const Section = memo(function Section({
  scene,
  figures,
  width,
  compact,
  length,
  onFigure,
  label,
}: SectionProps) {
  // the drawing is costly and stays while figures change under the finger
  const key = JSON.stringify({ ...scene, thermometer: undefined }, summed);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key stands for the scene
  const drawing = useMemo(() => {
    const made = sectionDrawing(scene, { width, compact, length, figureRow: true });
    return { made, markup: toSvg(made.node) };
  }, [key, width, compact, length]);
  const set = sectionFigures(drawing.made, figures);
  const shift = -set.top;
  const height = Math.ceil(Math.max(drawing.made.height, set.bottom) + shift);
  return (
    <svg className="d-section" viewBox={`0 0 ${drawing.made.frame.width} ${height}`} role="group" aria-label={label}>
      <g transform={shift > 0 ? `translate(0 ${shift})` : undefined}>
        {/* biome-ignore lint/security/noDangerouslySetInnerHtml: our own drawing, escaped where it is written */}
        {/* biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group takes no focus */}
        <g aria-hidden="true" dangerouslySetInnerHTML={{ __html: drawing.markup }} />
        {set.nodes.map((n, i) => toElement(n, i, onFigure))}
      </g>
    </svg>
  );
});
