import type { DrawingNode } from "@lentic/core/drawing";
import { memo, useLayoutEffect, useRef } from "react";
import { showDrawing } from "./node-patch.ts";

/**
 * A drawing on the page. Its tree has thousands of parts of which a moving hand changes few: it is brought up to date
 * by the parts themselves rather than through an element of the framework for each.
 */
export const NodeView = memo(function NodeView({ node }: { readonly node: DrawingNode }) {
  const host = useRef<SVGGElement>(null);
  useLayoutEffect(() => {
    if (host.current) showDrawing(host.current, node);
  }, [node]);
  return <g ref={host} />;
});
