import type { DrawingNode } from "@lentic/core/drawing";
import { createElement, memo } from "react";

const camel = (name: string): string =>
  name === "class" ? "className" : name.replace(/-([a-z])/g, (_, c: string) => c.toUpperCase());

/** A drawing's tree as elements; a part that is the same object as before is left as it is. */
export const NodeView = memo(function NodeView({ node }: { readonly node: DrawingNode }) {
  const attributes: Record<string, unknown> = {};
  for (const [name, value] of Object.entries(node.attributes)) attributes[camel(name)] = value;
  if (node.figure !== undefined) attributes["data-figure"] = node.figure;
  const children = node.children?.map((child, i) =>
    // biome-ignore lint/suspicious/noArrayIndexKey: a drawing's parts have no other name
    typeof child === "string" ? child : <NodeView key={i} node={child} />,
  );
  return createElement(node.tag, attributes, children);
});
