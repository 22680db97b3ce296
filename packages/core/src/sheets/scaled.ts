/** Drawings at a round scale on paper. */
import {
  type DrawingNode,
  type ElevationDrawing,
  elevationDrawing,
  type PlanDrawing,
  type PlanShow,
  planDrawing,
  type ScapeScene,
  type WrittenLength,
} from "../drawing/index.ts";

/** Round scales, 1 to so many. */
const scales = [1, 2, 5, 10, 20, 25, 50, 100] as const;

/** mm on paper for a px of a drawing, before it is brought to scale: lettering of 12 px is then 3 mm high. Design value. */
const letterScale = 0.25;

/** Room beside and above the glass in a drawing, px, and the most that it may be high against its width: see `scape-view`. */
const beside = { plan: 38, front: 128 } as const;

/** A drawing set on paper. */
export interface OnPaper<T> {
  readonly drawing: T;
  /** mm on paper for a px of the drawing. */
  readonly factor: number;
  /** mm */
  readonly width: number;
  readonly height: number;
}

type Length = (metres: number) => WrittenLength;

function onPaper<T extends { readonly scale: number; readonly width: number; readonly height: number }>(
  drawing: T,
  scale: number,
): OnPaper<T> {
  // the drawing's own scale is what was drawn, not what was asked for
  const factor = 1000 / scale / drawing.scale;
  return { drawing, factor, width: drawing.width * factor, height: drawing.height * factor };
}

const perMetre = (scale: number): number => 1000 / scale / letterScale;

/** The plan at a scale of 1 to `scale`. */
export function planAt(
  scene: ScapeScene,
  scale: number,
  length: Length,
  show: Partial<PlanShow>,
): OnPaper<PlanDrawing> {
  const { length: long, width: deep, glass } = scene.tank;
  const px = perMetre(scale);
  const width = Math.max((long + 2 * glass) * px + beside.plan, ((deep + 2 * glass) * px) / 0.95);
  return onPaper(planDrawing(scene, { width, length, show: { light: false, names: true, ...show } }), scale);
}

/** The front elevation, its front pane at a scale of 1 to `scale`. */
export function frontAt(scene: ScapeScene, scale: number, length: Length): OnPaper<ElevationDrawing> {
  const { length: long, height, glass, base } = scene.tank;
  const px = perMetre(scale);
  const width = Math.max((long + 2 * glass) * px + beside.front, ((height + base) * px) / 0.8);
  return onPaper(elevationDrawing(scene, { width, length, show: { animals: false } }), scale);
}

/**
 * The largest round scale at which both drawings stand one over the other within a width and a height, mm.
 * @throws RangeError for a tank that no scale brings onto the sheet
 */
export function roundScale(scene: ScapeScene, length: Length, width: number, height: number): number {
  const { length: long, width: deep, height: high } = scene.tank;
  for (const scale of scales) {
    const k = 1000 / scale;
    if (long * k > width || (deep + high) * k > height || perMetre(scale) * long > 2200) continue;
    const [plan, front] = [planAt(scene, scale, length, {}), frontAt(scene, scale, length)];
    if (Math.max(plan.width, front.width) <= width && plan.height + front.height <= height) return scale;
  }
  throw new RangeError(`a tank of ${long} x ${deep} x ${high} m fits on no sheet at 1:${scales.at(-1)}`);
}

/** The drawing's tree at a place on the sheet, without what is only there for a hand. */
export function placed(
  { drawing, factor }: OnPaper<PlanDrawing | ElevationDrawing>,
  x: number,
  y: number,
): DrawingNode {
  const { node } = drawing;
  return {
    tag: "g",
    attributes: { class: String(node.attributes.class), transform: `translate(${x} ${y}) scale(${factor})` },
    children: (node.children ?? []).filter((c) => typeof c === "string" || c.attributes.class !== "d-hits"),
  };
}
