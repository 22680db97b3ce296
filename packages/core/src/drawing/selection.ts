/** Marks round the thing in hand: a box, handles in its corners, one to turn it by. */
import type { Box, Point } from "./geometry.ts";
import { type DrawingNode, element, paths } from "./node.ts";
import { Pen, round1 } from "./pen.ts";
import type { Selected } from "./plan-options.ts";
import type { ScapeScene } from "./scape-scene.ts";

/** What is needed of a drawing to mark something on it. */
export type Marked =
  | {
      readonly kind: "plan";
      readonly width: number;
      readonly height: number;
      readonly toPage: (x: number, y: number) => Point;
    }
  | {
      readonly kind: "elevation";
      readonly width: number;
      readonly height: number;
      readonly toPage: (x: number, y: number, z: number) => Point;
      /** Page box of a lamp by its `index`. */
      readonly lampBox: (index: number) => Box | undefined;
    };

/** Distance of the turning handle from the box, half of a handle, px. */
const STALK = 19;
const HALF = 3.5;

type Place = readonly [x: number, y: number, z: number];

function placesOf(scene: ScapeScene, { kind, index }: Selected): Place[] {
  if (kind === "piece") {
    const piece = scene.pieces.find((p) => p.index === index);
    if (!piece) return [];
    const { positions } = piece.mesh;
    return Array.from(
      { length: Math.floor(positions.length / 3) },
      (_, k): Place => [positions[3 * k]!, positions[3 * k + 1]!, positions[3 * k + 2]!],
    );
  }
  if (kind === "zone") {
    const zone = scene.zones.find((z) => z.index === index);
    if (!zone) return [];
    const { waterLine } = scene.tank;
    const height = Math.min(zone.height, waterLine);
    return zone.outline.flatMap(([x, y]): Place[] => {
      const piece = zone.on === null ? undefined : scene.pieces[zone.on];
      const foot = zone.form === "floating" ? waterLine - height : piece ? pieceTop(piece.mesh.positions) - height : 0;
      return [
        [x, y, Math.max(0, foot)],
        [x, y, Math.max(0, foot) + height],
      ];
    });
  }
  const lamp = scene.lamps.find((l) => l.index === index);
  if (!lamp) return [];
  const [c, s] = [Math.cos((lamp.turn * Math.PI) / 180), Math.sin((lamp.turn * Math.PI) / 180)];
  return [-1, 1].flatMap((a) =>
    [-1, 1].map(
      (b): Place => [
        lamp.x + (a * lamp.length * c - b * lamp.width * s) / 2,
        lamp.y + (a * lamp.length * s + b * lamp.width * c) / 2,
        lamp.z,
      ],
    ),
  );
}

function pieceTop(positions: Float64Array): number {
  let top = 0;
  for (let k = 2; k < positions.length; k += 3) top = Math.max(top, positions[k]!);
  return top;
}

/**
 * The marks as a group to be laid over a drawing, or undefined where the thing is not there. Corner handles carry
 * `data-handle="corner"`, the turning handle `"turn"`.
 */
export function selectionMarks(drawing: Marked, scene: ScapeScene, selected: Selected): DrawingNode | undefined {
  const lampBox =
    drawing.kind === "elevation" && selected.kind === "lamp" ? drawing.lampBox(selected.index) : undefined;
  const points = lampBox
    ? [[lampBox.left, lampBox.top] as const, [lampBox.right, lampBox.bottom] as const]
    : placesOf(scene, selected).map(([x, y, z]) =>
        drawing.kind === "plan" ? drawing.toPage(x, y) : drawing.toPage(x, y, z),
      );
  let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const [x, y] of points) {
    if (!Number.isFinite(x + y)) continue;
    left = Math.min(left, x);
    right = Math.max(right, x);
    top = Math.min(top, y);
    bottom = Math.max(bottom, y);
  }
  if (!(right >= left && bottom >= top)) return undefined;
  const page = (v: number, most: number): number => Math.min(Math.max(v, HALF + 1), most - HALF - 1);
  const box: Box = {
    left: page(left - 3, drawing.width),
    right: page(right + 3, drawing.width),
    top: page(top - 3, drawing.height),
    bottom: page(bottom + 3, drawing.height),
  };
  const corners: Point[] = [
    [box.left, box.top],
    [box.right, box.top],
    [box.right, box.bottom],
    [box.left, box.bottom],
  ];
  const d = new Pen().polyline(corners, true).d;
  const sized = selected.kind === "piece" || (selected.kind === "zone" && drawing.kind === "plan");
  const turned = selected.kind === "piece" || (selected.kind === "lamp" && drawing.kind === "plan");
  const middle = (box.left + box.right) / 2;
  const above = box.top - STALK > HALF + 1;
  const knob: Point = above ? [middle, box.top - STALK] : [middle, Math.min(box.bottom + STALK, drawing.height - 5)];
  return element("g", { class: "d-selection" }, [
    ...paths(["d-selected-under", d], ["d-selected", d]),
    ...(turned
      ? paths(["d-selected", new Pen().move(middle, above ? box.top : box.bottom).line(knob[0], knob[1]).d])
      : []),
    ...(sized
      ? corners.map(([x, y]) =>
          element("rect", {
            class: "d-handle",
            "data-handle": "corner",
            x: round1(x - HALF),
            y: round1(y - HALF),
            width: 2 * HALF,
            height: 2 * HALF,
          }),
        )
      : []),
    ...(turned
      ? [
          element("circle", {
            class: "d-handle",
            "data-handle": "turn",
            cx: round1(knob[0]),
            cy: round1(knob[1]),
            r: 4.5,
          }),
        ]
      : []),
  ]);
}
