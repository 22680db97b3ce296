import { sceneOf } from "@lentic/core/design";
import {
  drawMesh,
  fromFront,
  type PlanLight,
  planDrawing,
  type ScapeScene,
  sectionDrawing,
  toSvg,
} from "@lentic/core/drawing";
import type { Point2 } from "@lentic/core/geometry";
import type { Plan } from "@lentic/core/plan";
import type { Target } from "@lentic/core/scape";
import { type PointerEvent, type ReactNode, useMemo, useRef } from "react";
import type { Handle } from "./hand.ts";
import { NodeView } from "./node-view.tsx";
import { boxOf, targetOf } from "./selection.ts";

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
  readonly length: (metres: number) => string;
  readonly onBegin: (event: HandEvent) => void;
  readonly onMove: (event: HandEvent) => void;
  readonly onEnd: () => void;
  readonly onCancel: () => void;
}

/** Pointer events of a drawing as hand events; the drawing keeps the pointer until it is let go. */
function useHand(
  p: Pick<ViewProps, "onBegin" | "onMove" | "onEnd" | "onCancel">,
  toMetres: (x: number, y: number) => Point2,
) {
  const box = useRef<SVGSVGElement>(null);
  const down = useRef(false);
  const at = (event: PointerEvent): Point2 => {
    const matrix = box.current?.getScreenCTM()?.inverse();
    if (!matrix) return [0, 0];
    return toMetres(
      matrix.a * event.clientX + matrix.c * event.clientY + matrix.e,
      matrix.b * event.clientX + matrix.d * event.clientY + matrix.f,
    );
  };
  const told = (event: PointerEvent): HandEvent => {
    const element = event.target as Element;
    const handle = element.getAttribute?.("data-handle") as Handle | null;
    return {
      at: at(event),
      target: targetOf(element.closest?.("[data-figure]")?.getAttribute("data-figure")),
      handle: handle ?? "body",
      add: event.shiftKey,
    };
  };
  return {
    ref: box,
    onPointerDown: (event: PointerEvent<SVGSVGElement>) => {
      if (event.button !== 0) return;
      down.current = true;
      event.currentTarget.setPointerCapture(event.pointerId);
      p.onBegin(told(event));
    },
    onPointerMove: (event: PointerEvent<SVGSVGElement>) => {
      if (down.current) p.onMove(told(event));
    },
    onPointerUp: () => {
      if (down.current) p.onEnd();
      down.current = false;
    },
    onPointerCancel: () => {
      if (down.current) p.onCancel();
      down.current = false;
    },
  };
}

type Corner = readonly [number, number];

/** The frame round the thing in hand, with corners to size it and a handle to turn it. */
function Handles({
  left,
  top,
  right,
  bottom,
  turns,
  sizes,
}: {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
  readonly turns: boolean;
  readonly sizes: boolean;
}) {
  const corners: readonly Corner[] = [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom],
  ];
  const middle = (left + right) / 2;
  return (
    <g className="handles">
      <rect className="handle-frame" x={left} y={top} width={right - left} height={bottom - top} />
      {turns && (
        <>
          <line className="handle-frame" x1={middle} y1={top} x2={middle} y2={top - 18} />
          <circle className="handle-grip" cx={middle} cy={top - 18} r={5} />
          <circle className="handle-hit" data-handle="turn" cx={middle} cy={top - 18} r={16} />
        </>
      )}
      {sizes &&
        corners.map(([x, y]) => (
          <g key={`${x},${y}`}>
            <rect className="handle-grip" x={x - 4} y={y - 4} width={8} height={8} />
            <rect className="handle-hit" data-handle="corner" x={x - 14} y={y - 14} width={28} height={28} />
          </g>
        ))}
    </g>
  );
}

interface PlanViewProps extends ViewProps {
  readonly light: PlanLight | null;
  readonly show: { readonly height: boolean; readonly planting: boolean; readonly thirds: boolean };
  /** Places that the hand has drawn so far, m. */
  readonly path: readonly Point2[] | null;
}

/** The scape from above, under the hand. */
export function PlanView(p: PlanViewProps) {
  const { scene, width, light, show, target, path, length } = p;
  const drawing = useMemo(
    () => planDrawing(scene, { width, length, show, ...(light ? { light } : {}) }),
    [scene, width, length, show, light],
  );
  const hand = useHand(p, drawing.toFloor);
  let marks: ReactNode = null;
  if (target) {
    const { min, max } = boxOf(target, scene);
    const [left, top] = drawing.toPage(min[0], max[1]);
    const [right, bottom] = drawing.toPage(max[0], min[1]);
    marks = (
      <Handles
        left={left}
        top={top}
        right={right}
        bottom={bottom}
        turns={target.kind !== "zone"}
        sizes={target.kind !== "lamp"}
      />
    );
  }
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
        {marks}
      </g>
    </svg>
  );
}

interface FrontViewProps extends ViewProps {
  /** The plan as kept: drawn whole only when the hand has let go. */
  readonly plan: Plan;
  readonly moving: boolean;
  readonly thirds: boolean;
  readonly animals: boolean;
}

/** The scape from the front, to scale; while a piece is moved it goes before the rest, which is drawn anew afterwards. */
export function FrontView(p: FrontViewProps) {
  const { scene, plan, width, target, moving, length, thirds, animals } = p;
  const drawing = useMemo(() => {
    const section = sceneOf(plan);
    const made = sectionDrawing(
      { ...section, ...(animals ? {} : { animals: [] }) },
      { width, compact: width < 560, length, figureRow: false, held: true },
    );
    return { ...made, markup: toSvg(made.node) };
  }, [plan, width, length, animals]);
  const { inner, scale } = drawing.frame;
  const page = (x: number, z: number): Corner => [inner.left + x * scale, inner.bottom - z * scale];
  const hand = useHand(p, (px, py) => [(px - inner.left) / scale, (inner.bottom - py) / scale]);
  let marks: ReactNode = null;
  if (target && target.kind !== "lamp") {
    const { min, max } = boxOf(target, scene);
    const [left, top] = page(min[0], max[2]);
    const [right, bottom] = page(max[0], min[2]);
    marks = (
      <Handles
        left={left}
        top={top}
        right={right}
        bottom={bottom}
        turns={target.kind === "piece"}
        sizes={target.kind === "piece"}
      />
    );
  }
  const lifted = moving && target?.kind === "piece" ? scene.pieces[target.index] : undefined;
  const ghost = lifted
    ? drawMesh(
        { kind: lifted.kind, mesh: lifted.mesh, grain: lifted.grain, texture: lifted.texture },
        { ...fromFront, project: (x, _y, z) => page(x, z) },
        () => 0.5,
        4,
      )
    : null;
  const lines = [1 / 3, 0.382, 0.618, 2 / 3];
  return (
    <svg
      {...hand}
      className="d-section board-drawing"
      viewBox={`0 0 ${width} ${Math.ceil(drawing.height)}`}
      role="group"
      aria-label="The scape from the front; its things are listed below"
    >
      {/* biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group takes no focus */}
      <g
        aria-hidden="true"
        className={lifted ? "waits" : undefined}
        // biome-ignore lint/security/noDangerouslySetInnerHtml: our own drawing, escaped where it is written
        dangerouslySetInnerHTML={{ __html: drawing.markup }}
      />
      {/* biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group takes no focus */}
      <g aria-hidden="true">
        {thirds &&
          lines.map((share) => {
            const [x, top] = page(share * scene.tank.length, scene.tank.height);
            return (
              <g key={share}>
                <line
                  className={share === 0.382 || share === 0.618 ? "d-aid d-golden" : "d-aid"}
                  x1={x}
                  x2={x}
                  y1={top}
                  y2={inner.bottom}
                />
                <text className="d-note d-centred" x={x} y={top - 4}>
                  {share < 0.35 ? "1/3" : share > 0.65 ? "2/3" : share.toFixed(3)}
                </text>
              </g>
            );
          })}
        {ghost?.nodes.map((node, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a drawing's parts have no other name
          <NodeView key={i} node={node} />
        ))}
        {marks}
      </g>
    </svg>
  );
}
