import {
  elevationDrawing,
  type LightMap,
  planDrawing,
  type ScapeScene,
  type WrittenLength,
} from "@lentic/core/drawing";
import type { Point2 } from "@lentic/core/geometry";
import type { Target } from "@lentic/core/scape";
import { memo, type PointerEvent, useEffect, useMemo, useRef } from "react";
import { Grips } from "./grips.tsx";
import type { Handle } from "./hand.ts";
import { NodeView } from "./node-view.tsx";
import { boxOf, sameTarget, targetOf } from "./selection.ts";
import { useStable } from "./use-stable.ts";

/** What a hand does on a view: where, in metres, and on what. */
export interface HandEvent {
  /** From above: x and y; from the front: x and height above the floor. */
  readonly at: Point2;
  readonly target: Target | null;
  readonly handle: Handle;
  /** Whether the thing is to be taken along with what is held already. */
  readonly add: boolean;
}

interface ViewProps {
  readonly scene: ScapeScene;
  readonly width: number;
  readonly target: Target | null;
  readonly length: (metres: number) => WrittenLength;
  readonly onBegin: (event: HandEvent) => void;
  readonly onMove: (event: HandEvent) => void;
  readonly onEnd: () => void;
  readonly onCancel: () => void;
}

/** What lies under a pointer or finger. */
function underOf(element: Element): Pick<HandEvent, "target" | "handle"> & { readonly onHandle: boolean } {
  const handle = element.getAttribute?.("data-handle") as Handle | null;
  return {
    target: targetOf(element.closest?.("[data-figure]")?.getAttribute("data-figure")),
    handle: handle ?? "body",
    onHandle: handle !== null,
  };
}

/**
 * Pointer events of a drawing as hand events; the drawing keeps the pointer until it is let go. A finger that goes up or
 * down scrolls the page, unless it draws or is on the thing in hand.
 */
function useHand(
  p: Pick<ViewProps, "target" | "onBegin" | "onMove" | "onEnd" | "onCancel">,
  toMetres: (x: number, y: number) => Point2,
  draws = false,
) {
  const box = useRef<SVGSVGElement>(null);
  const down = useRef(false);
  /** A finger that may still come to scroll. */
  const waiting = useRef<HandEvent | null>(null);
  const takes = useStable((element: Element): boolean => {
    const { target, onHandle } = underOf(element);
    return draws || onHandle || (p.target !== null && sameTarget(target, p.target));
  });
  useEffect(() => {
    const drawing = box.current;
    if (!drawing) return;
    const start = (event: TouchEvent): void => {
      if (event.touches.length === 1 && takes(event.target as Element)) event.preventDefault();
    };
    drawing.addEventListener("touchstart", start, { passive: false });
    return () => drawing.removeEventListener("touchstart", start);
  }, [takes]);
  const at = (event: PointerEvent): Point2 => {
    const matrix = box.current?.getScreenCTM()?.inverse();
    if (!matrix) return [0, 0];
    return toMetres(
      matrix.a * event.clientX + matrix.c * event.clientY + matrix.e,
      matrix.b * event.clientX + matrix.d * event.clientY + matrix.f,
    );
  };
  const told = (event: PointerEvent): HandEvent => {
    const { target, handle } = underOf(event.target as Element);
    return { at: at(event), target, handle, add: event.shiftKey };
  };
  const began = (): void => {
    if (waiting.current) p.onBegin(waiting.current);
    waiting.current = null;
  };
  return {
    ref: box,
    onPointerDown: (event: PointerEvent<SVGSVGElement>) => {
      if (event.button !== 0) return;
      down.current = true;
      waiting.current = told(event);
      if (event.pointerType !== "touch" || takes(event.target as Element)) began();
      event.currentTarget.setPointerCapture(event.pointerId);
    },
    onPointerMove: (event: PointerEvent<SVGSVGElement>) => {
      if (!down.current) return;
      began();
      p.onMove(told(event));
    },
    onPointerUp: () => {
      if (down.current) {
        began();
        p.onEnd();
      }
      down.current = false;
    },
    onPointerCancel: () => {
      if (down.current && !waiting.current) p.onCancel();
      waiting.current = null;
      down.current = false;
    },
  };
}

interface PlanViewProps extends ViewProps {
  readonly light: LightMap | null;
  readonly show: {
    readonly light: boolean;
    readonly height: boolean;
    readonly planting: boolean;
    readonly thirds: boolean;
  };
  /** Whether the tool in hand draws over the plan: then a finger on it never scrolls the page. */
  readonly draws: boolean;
  /** Places that the hand has drawn so far, m. */
  readonly path: readonly Point2[] | null;
}

/** The scape from above, under the hand. */
export const PlanView = memo(function PlanView(p: PlanViewProps) {
  const { scene, width, light, show, target, path, length } = p;
  const drawing = useMemo(
    () => planDrawing(scene, { width, length, show, light, selected: target }),
    [scene, width, length, show, light, target],
  );
  const hand = useHand(p, drawing.toMetres, p.draws);
  const box = target && boxOf(target, scene);
  const corner = box && drawing.toPage(box.min[0], box.max[1]);
  const other = box && drawing.toPage(box.max[0], box.min[1]);
  return (
    <svg
      {...hand}
      className="d-section board-drawing"
      viewBox={`0 0 ${drawing.width} ${drawing.height}`}
      role="group"
      aria-label="The scape from above; its things are listed below"
    >
      {/* biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group takes no focus */}
      <g aria-hidden="true">
        <NodeView node={drawing.node} />
        {path && path.length > 1 && (
          <polyline className="hand-path" points={path.map(([x, y]) => drawing.toPage(x, y).join(",")).join(" ")} />
        )}
        {target && corner && other && (
          <Grips from={corner} to={other} turns={target.kind !== "zone"} sizes={target.kind !== "lamp"} />
        )}
      </g>
    </svg>
  );
});

interface FrontViewProps extends ViewProps {
  readonly show: {
    readonly planting: boolean;
    readonly thirds: boolean;
    readonly balance: boolean;
    readonly animals: boolean;
  };
}

/** The scape from the front, to scale, under the hand. */
export const FrontView = memo(function FrontView(p: FrontViewProps) {
  const { scene, width, target, length, show } = p;
  const { planting, thirds, balance, animals } = show;
  const drawing = useMemo(
    () =>
      elevationDrawing(scene, {
        width,
        length,
        selected: target,
        show: { planting, animals, thirds, golden: thirds, balance },
      }),
    [scene, width, length, target, planting, thirds, balance, animals],
  );
  const depth = useRef(0);
  const hand = useHand(p, (px, py) => drawing.toMetres(px, py, depth.current));
  const box = target && target.kind !== "lamp" ? boxOf(target, scene) : null;
  depth.current = box ? (box.min[1] + box.max[1]) / 2 : 0;
  const corner = box && drawing.toPage(box.min[0], depth.current, box.max[2]);
  const other = box && drawing.toPage(box.max[0], depth.current, box.min[2]);
  return (
    <svg
      {...hand}
      className="d-section board-drawing"
      viewBox={`0 0 ${drawing.width} ${drawing.height}`}
      role="group"
      aria-label="The scape from the front; its things are listed below"
    >
      {/* biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group takes no focus */}
      <g aria-hidden="true">
        <NodeView node={drawing.node} />
        {target && corner && other && (
          <Grips from={corner} to={other} turns={target.kind === "piece"} sizes={target.kind === "piece"} />
        )}
      </g>
    </svg>
  );
});
