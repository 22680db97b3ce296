/** Texts on a drawing, and the room they take. */
import type { Box } from "./geometry.ts";
import { type DrawingNode, element } from "./node.ts";
import { round1 } from "./pen.ts";

/** Size of small lettering, px. */
export const SMALL = 11.5;

export interface Lettering {
  readonly nodes: DrawingNode[];
  readonly boxes: Box[];
}

export function text(className: string, x: number, y: number, content: string, anchor?: "end" | "middle"): DrawingNode {
  return element(
    "text",
    { class: className, x: round1(x), y: round1(y), ...(anchor ? { "text-anchor": anchor } : {}) },
    [content],
  );
}

/** A text about its middle, turned by an angle in degrees. */
export function turnedText(className: string, x: number, y: number, angle: number, content: string): DrawingNode {
  return element(
    "text",
    {
      class: className,
      transform: `translate(${round1(x)} ${round1(y)}) rotate(${Math.round(angle)})`,
      "text-anchor": "middle",
      dy: ".34em",
    },
    [content],
  );
}

/** The upright box round a text of some width whose middle is turned by an angle in degrees. */
export function turnedBox(x: number, y: number, angle: number, width: number, size: number): Box {
  const [c, s] = [Math.abs(Math.cos((angle * Math.PI) / 180)), Math.abs(Math.sin((angle * Math.PI) / 180))];
  const [halfX, halfY] = [(width * c + size * s) / 2, (width * s + size * c) / 2];
  return { left: x - halfX, right: x + halfX, top: y - halfY, bottom: y + halfY };
}

export const textBox = (
  x: number,
  baseline: number,
  width: number,
  size: number,
  anchor: "start" | "middle" | "end" = "start",
): Box => {
  const left = anchor === "start" ? x : anchor === "end" ? x - width : x - width / 2;
  return { left, right: left + width, top: baseline - size * 0.78, bottom: baseline + size * 0.24 };
};
