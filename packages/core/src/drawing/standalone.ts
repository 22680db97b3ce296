import type { DrawingNode } from "./node.ts";
import { toSvg } from "./node.ts";
import { drawingCss, tokenCss } from "./styles.ts";

export interface StandaloneOptions {
  /** Colours for a dark room; usually paper. */
  readonly dark?: boolean;
  /** Further rules, such as `@font-face` with the letters within. */
  readonly css?: string;
  /** Size in px at which it is shown; without it the drawing fills its place. */
  readonly size?: readonly [width: number, height: number];
}

/** What is only there for a hand: unseen areas over the picture. */
const forHands = (node: DrawingNode | string): boolean =>
  typeof node !== "string" && node.attributes.class === "d-hits";

/** A drawing (an `svg` element) as a file that needs nothing beside it: its rules and colours stand within. */
export function standaloneSvg(node: DrawingNode, { dark = false, css = "", size }: StandaloneOptions = {}): string {
  const children = (node.children ?? []).filter((child) => !forHands(child));
  const rules: DrawingNode = {
    tag: "style",
    attributes: {},
    children: [`${tokenCss}${drawingCss} svg{background:var(--paper)}${css}`],
  };
  const attributes = {
    ...node.attributes,
    ...(dark ? { "data-theme": "room" } : {}),
    ...(size ? { width: size[0], height: size[1], style: `width:${size[0]}px;height:${size[1]}px` } : {}),
  };
  return `<?xml version="1.0" encoding="UTF-8"?>\n${toSvg({ ...node, attributes, children: [rules, ...children] })}\n`;
}
