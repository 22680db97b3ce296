/** A scape from above, to scale: ground and its heights, plantings by growth form, stones and wood from their own forms, light. */
import {
  fieldHeight,
  fieldRange,
  type HeightField,
  isolines,
  outlineCentroid,
  scatterInside,
} from "../geometry/index.ts";
import { millimetres } from "./frame.ts";
import { clamp, type Point } from "./geometry.ts";
import { drawMesh, fromAbove, held } from "./mesh-piece.ts";
import { type DrawingNode, element, group, paths } from "./node.ts";
import { Pen, round1 } from "./pen.ts";
import { between, type Random, streamOf } from "./random.ts";
import type { Point2, ScapeLamp, ScapePiece, ScapeScene, ScapeZone } from "./scape-scene.ts";
import { numberAndUnit, textWidth } from "./text.ts";

/** Light on the ground: figures at the middles of even cells, row by row from the front, umol/m2/s. */
export interface PlanLight {
  readonly columns: number;
  readonly rows: number;
  readonly values: Float64Array;
}

export interface PlanOptions {
  /** px of the whole drawing. */
  readonly width: number;
  readonly light?: PlanLight;
  readonly show?: Partial<Readonly<Record<"height" | "planting" | "thirds" | "lamps", boolean>>>;
  /** How a length in metres is written. */
  readonly length?: (metres: number) => string;
}

export interface PlanDrawing {
  readonly node: DrawingNode;
  readonly width: number;
  readonly height: number;
  /** px per metre. */
  readonly scale: number;
  /** Page place of a place on the floor, m. */
  readonly toPage: (x: number, y: number) => Point;
  readonly toFloor: (px: number, py: number) => Point2;
}

const margin = { left: 40, right: 10, top: 8, bottom: 38 } as const;

/** From above: what the page shows where. */
interface Sheet {
  readonly scene: ScapeScene;
  readonly scale: number;
  readonly toPage: (x: number, y: number) => Point;
  readonly random: (word: string, index?: number) => Random;
}

/** Distances between height lines, m, the first that gives few enough of them. */
const heightSteps = [0.005, 0.01, 0.02, 0.025, 0.05, 0.1, 0.25, 0.5];
const lightSteps = [5, 10, 20, 25, 50, 100, 200, 500, 1000];
const mostLines = 7;

function levelsOf(min: number, max: number, steps: readonly number[]): readonly number[] {
  const step = steps.find((s) => (max - min) / s <= mostLines) ?? steps.at(-1)!;
  const levels: number[] = [];
  for (let k = Math.floor(min / step) + 1; k * step < max; k++) levels.push(k * step);
  return levels;
}

/** A curve through the places of a line on the page, closed where the line is. */
function curveOf(sheet: Sheet, points: readonly Point2[], closed: boolean): string {
  const page = points.map(([x, y]) => sheet.toPage(x, y));
  return closed && page.length > 2 ? new Pen().loop(page).d : new Pen().curve(page).d;
}

/** Shortest line that is drawn, and that bears a figure, px. */
const shortest = 36;
const shortestNamed = 90;

interface Label {
  readonly x: number;
  readonly y: number;
  readonly text: string;
}

/** Lines of equal height or light with their figure on them; labels keep clear of each other. */
function contours(
  sheet: Sheet,
  field: HeightField,
  levels: readonly number[],
  className: string,
  write: (level: number) => string,
  taken: Label[],
  shift: Point2 = [0, 0],
): DrawingNode {
  const nodes: DrawingNode[] = [];
  for (const line of isolines(field, levels)) {
    const points = line.points.map(([x, y]): Point2 => [x + shift[0], y + shift[1]]);
    const size = points.reduce((sum, [x, y], i) => {
      const [px, py] = points[i === 0 ? 0 : i - 1]!;
      return sum + Math.hypot(x - px, y - py) * sheet.scale;
    }, 0);
    // islands smaller than their own figure would be noise on the page
    if (points.length < 3 || size < shortest) continue;
    nodes.push(...paths([className, curveOf(sheet, points, line.closed)]));
    if (size < shortestNamed) continue;
    const text = write(line.level);
    const tried = [0.5, 0.3, 0.7, 0.15, 0.85].map((t) => points[Math.floor(t * (points.length - 1))]!);
    const half = textWidth(text, 10.5) / 2 + 4;
    const free = tried
      .map(([x, y]) => sheet.toPage(x, y))
      .find(([x, y]) => taken.every((l) => Math.abs(l.x - x) > half + 26 || Math.abs(l.y - y) > 20));
    if (!free) continue;
    taken.push({ x: free[0], y: free[1], text });
    nodes.push(element("text", { class: `${className}-figure`, x: round1(free[0]), y: round1(free[1] + 3.6) }, [text]));
  }
  return group("d-contours", nodes);
}

function lightField(
  { columns, rows, values }: PlanLight,
  { length, width }: { length: number; width: number },
): HeightField {
  return {
    length: length * (1 - 1 / columns),
    width: width * (1 - 1 / rows),
    columns,
    rows,
    heights: values,
  };
}

function outlinePath(sheet: Sheet, outline: readonly Point2[]): string {
  return new Pen().polyline(
    outline.map(([x, y]) => sheet.toPage(x, y)),
    true,
  ).d;
}

function ground(sheet: Sheet): DrawingNode[] {
  const { scene, toPage } = sheet;
  const { length, width } = scene.tank;
  const whole = scene.layers.filter((l) => !l.within).at(-1)?.material ?? "gravel";
  const floor: readonly Point2[] = [
    [0, 0],
    [length, 0],
    [length, width],
    [0, width],
  ];
  const random = sheet.random("grains");
  const grains = new Pen();
  const count = Math.round(clamp((length * width * sheet.scale ** 2) / 130, 30, 1400));
  for (let i = 0; i < count; i++) grains.dot(...toPage(random() * length, random() * width));
  const sand = scene.layers.filter((l) => l.within);
  return [
    group(`d-${whole}`, paths(["d-ground", outlinePath(sheet, floor)], ["d-grain-back", grains.d])),
    ...sand.map((layer) =>
      group(`d-${layer.material}`, paths(["d-ground d-plan-sand", outlinePath(sheet, layer.within!)])),
    ),
  ];
}

/** Marks of a growth form seen from above, about one for each plant. */
function marks(sheet: Sheet, zone: ScapeZone): DrawingNode[] {
  const random = sheet.random("plants", zone.index);
  const spread = clamp(zone.spread, 0.012, 0.25);
  const area = zone.outline.reduce((sum, [x, y], i) => {
    const [nx, ny] = zone.outline[(i + 1) % zone.outline.length]!;
    return sum + x * ny - nx * y;
  }, 0);
  const closeness = zone.form === "carpet" || zone.form === "moss" ? 2.4 : 1.1;
  const wanted = (Math.abs(area) / 2 / spread ** 2) * closeness * clamp(zone.cover, 0.2, 1);
  const count = Math.round(clamp(wanted, 3, 120));
  const places = scatterInside(zone.outline, count, sheet.scene.seed + zone.index);
  const lines = new Pen();
  const fills = new Pen();
  const size = clamp((spread * sheet.scale) / 2, 3, 34) * (0.55 + 0.45 * zone.cover);
  for (const [mx, my] of places) {
    const [x, y] = sheet.toPage(mx, my);
    const turn = random() * Math.PI * 2;
    switch (zone.form) {
      case "rosette":
      case "rhizome":
      case "bulb":
        for (let k = 0; k < 6; k++)
          leafFromAbove(lines, x, y, turn + (k * Math.PI) / 3, size * between(random, 0.7, 1), zone.leaf);
        break;
      case "stem":
        for (let k = 0; k < 4; k++) leafFromAbove(lines, x, y, turn + (k * Math.PI) / 2, size * 0.62, zone.leaf);
        break;
      case "runner":
        for (let k = 0; k < 3; k++) {
          const a = between(random, -0.5, 0.5) + (k - 1) * 0.7;
          lines.move(x, y).quad(x + size * 0.6, y - a * 5, x + size * 1.4, y + a * 8);
        }
        break;
      case "floating":
        fills.move(x + size * 0.5, y);
        for (let k = 1; k <= 8; k++)
          fills.line(x + Math.cos((k * Math.PI) / 4) * size * 0.5, y + Math.sin((k * Math.PI) / 4) * size * 0.5);
        fills.close();
        break;
      case "moss":
        for (let k = 0; k < 3; k++)
          lines
            .move(x, y)
            .quad(
              x + between(random, -4, 4),
              y + between(random, -4, 4),
              x + between(random, -6, 6),
              y + between(random, -6, 6),
            );
        break;
      default:
        for (let k = -1; k <= 1; k++) lines.move(x, y + 2).line(x + k * 2.6, y - 3.5 + Math.abs(k));
    }
  }
  return paths(["d-plan-leaf", lines.d], ["d-plan-pad", fills.d]);
}

function leafFromAbove(pen: Pen, x: number, y: number, turn: number, size: number, leaf: ScapeZone["leaf"]): void {
  const [tx, ty] = [x + Math.cos(turn) * size, y + Math.sin(turn) * size];
  if (leaf === "needle" || leaf === "ribbon") {
    pen.move(x, y).line(tx, ty);
    return;
  }
  const half = size * (leaf === "round" ? 0.42 : 0.24);
  const [nx, ny] = [-Math.sin(turn) * half, Math.cos(turn) * half];
  const [cx, cy] = [(x + tx) / 2, (y + ty) / 2];
  pen
    .move(x, y)
    .quad(cx + nx, cy + ny, tx, ty)
    .quad(cx - nx, cy - ny, x, y);
}

function planting(sheet: Sheet, zone: ScapeZone): DrawingNode {
  const afloat = zone.form === "floating";
  return held(`zone:${zone.index}`, `d-zone${afloat ? " d-afloat" : ""}`, [
    ...paths(["d-zone-area", outlinePath(sheet, zone.outline)]),
    ...marks(sheet, zone),
  ]);
}

function letter(sheet: Sheet, zone: ScapeZone): DrawingNode {
  const [x, y] = sheet.toPage(...outlineCentroid(zone.outline));
  return element("text", { class: "d-zone-key", x: round1(x), y: round1(y + 6) }, [zone.key]);
}

/** What was drawn for an object that did not change since, at the same size and place. */
const drawn = new WeakMap<object, Map<string, { readonly key: string; readonly nodes: readonly DrawingNode[] }>>();

function remembered(sheet: Sheet, of: object, part: string, make: () => readonly DrawingNode[]): readonly DrawingNode[] {
  const key = `${sheet.scale}|${sheet.toPage(0, 0).join("|")}|${sheet.scene.seed}`;
  const parts = drawn.get(of) ?? new Map<string, { readonly key: string; readonly nodes: readonly DrawingNode[] }>();
  drawn.set(of, parts);
  const before = parts.get(part);
  if (before?.key === key) return before.nodes;
  const nodes = make();
  parts.set(part, { key, nodes });
  return nodes;
}

function piece(sheet: Sheet, one: ScapePiece): readonly DrawingNode[] {
  return remembered(sheet, one, "piece", () => {
    const bed = sheet.scene.ground;
    const view = { ...fromAbove, project: (x: number, y: number) => sheet.toPage(x, y) };
    const form = { kind: one.kind, mesh: one.mesh, grain: one.grain, texture: one.texture };
    const made = drawMesh(form, view, sheet.random("piece", one.index), 3.4, (x, y) => fieldHeight(bed, x, y) - 0.002);
    return [held(`piece:${one.index}`, one.locked ? "d-piece d-locked" : "d-piece", made.nodes)];
  });
}

const topOf = ({ mesh }: ScapePiece): number => {
  let top = 0;
  for (let i = 2; i < mesh.positions.length; i += 3) top = Math.max(top, mesh.positions[i]!);
  return top;
};

function lamp(sheet: Sheet, { index, x, y, length, width, turn }: ScapeLamp): DrawingNode {
  const [c, s] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
  const corner = (u: number, v: number): Point =>
    sheet.toPage(x + (c * u * length) / 2 - (s * v * width) / 2, y + (s * u * length) / 2 + (c * v * width) / 2);
  const d = new Pen().polyline([corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)], true).d;
  return held(`lamp:${index}`, "d-plan-lamp", paths(["d-plan-lamp-edge", d]));
}

function steps(sheet: Sheet): DrawingNode[] {
  const pen = new Pen();
  for (const line of sheet.scene.edges) {
    const page = line.map(([x, y]) => sheet.toPage(x, y));
    pen.polyline(page);
    page.slice(1).forEach((to, i) => {
      const from = page[i]!;
      const size = Math.hypot(to[0] - from[0], to[1] - from[1]);
      const [nx, ny] = [(to[1] - from[1]) / size, -(to[0] - from[0]) / size];
      for (let t = 5; t < size; t += 9) {
        const [x, y] = [from[0] + ((to[0] - from[0]) * t) / size, from[1] + ((to[1] - from[1]) * t) / size];
        pen.move(x, y).line(x - nx * 4, y - ny * 4);
      }
    });
  }
  return paths(["d-edge", pen.d]);
}

function thirds(sheet: Sheet): DrawingNode[] {
  const { length, width } = sheet.scene.tank;
  const pen = new Pen();
  for (const share of [1 / 3, 2 / 3]) {
    pen.polyline([sheet.toPage(share * length, 0), sheet.toPage(share * length, width)]);
    pen.polyline([sheet.toPage(0, share * width), sheet.toPage(length, share * width)]);
  }
  const golden = new Pen();
  for (const share of [0.382, 0.618]) {
    golden.polyline([sheet.toPage(share * length, 0), sheet.toPage(share * length, width)]);
  }
  return paths(["d-aid", pen.d], ["d-aid d-golden", golden.d]);
}

/** The glass and its two sizes: the front is the lower side, as the reader stands. */
function glass(sheet: Sheet, options: PlanOptions, width: number): DrawingNode[] {
  const { scene, toPage } = sheet;
  const { length, width: deep, glass: pane } = scene.tank;
  const written = options.length ?? millimetres;
  const [x0, y1] = toPage(-pane, -pane);
  const [x1, y0] = toPage(length + pane, deep + pane);
  const [ix0, iy1] = toPage(0, 0);
  const [ix1, iy0] = toPage(length, deep);
  const panes = new Pen()
    .polyline(
      [
        [x0, y0],
        [x1, y0],
        [x1, y1],
        [x0, y1],
      ],
      true,
    )
    .polyline(
      [
        [ix0, iy0],
        [ix0, iy1],
        [ix1, iy1],
        [ix1, iy0],
      ],
      true,
    );
  const dimension = new Pen();
  const below = y1 + 15;
  dimension.polyline([
    [x0, below],
    [x1, below],
  ]);
  const aside = x0 - 13;
  dimension.polyline([
    [aside, y0],
    [aside, y1],
  ]);
  for (const [x, y] of [
    [x0, below],
    [x1, below],
    [aside, y0],
    [aside, y1],
  ] as const) {
    dimension.polyline([
      [x - 3.5, y + 3.5],
      [x + 3.5, y - 3.5],
    ]);
  }
  const [number] = numberAndUnit(written(length + 2 * pane));
  const front = `${written(length + 2 * pane)} front, seen from here`;
  const shown = textWidth(front, 12) < width - 90 ? front : number;
  const middle = (y0 + y1) / 2;
  return [
    ...paths(["d-plan-glass", panes.d]),
    ...paths(["d-dimension", dimension.d]),
    element("text", { class: "d-label d-centred d-haloed", x: round1((x0 + x1) / 2), y: round1(below + 4) }, [shown]),
    element(
      "text",
      {
        class: "d-label d-centred d-haloed",
        x: 0,
        y: 0,
        transform: `translate(${round1(aside + 4)} ${round1(middle)}) rotate(-90)`,
      },
      [numberAndUnit(written(deep + 2 * pane))[0]],
    ),
  ];
}

/** The scape from above. */
export function planDrawing(scene: ScapeScene, options: PlanOptions): PlanDrawing {
  const { length, width: deep, glass: pane } = scene.tank;
  const { show = {} } = options;
  const scale = (options.width - margin.left - margin.right) / (length + 2 * pane);
  const [left, back] = [margin.left + pane * scale, margin.top + (deep + pane) * scale];
  const sheet: Sheet = {
    scene,
    scale,
    toPage: (x, y) => [left + x * scale, back - y * scale],
    random: (word, index = 0) => streamOf(scene.seed, word, index),
  };
  const { min, max } = fieldRange(scene.ground);
  const labels: Label[] = [];
  const light = options.light;
  const inGround = scene.zones.filter((z) => z.on === null && z.form !== "floating");
  const above = scene.zones.filter((z) => z.on !== null || z.form === "floating");
  const pieces = [...scene.pieces].sort((a, b) => topOf(a) - topOf(b));
  const [ix, iy] = sheet.toPage(0, deep);
  const clip = `d-floor-${Math.round(length * scale)}-${Math.round(deep * scale)}`;
  const floor = element("rect", {
    x: round1(ix),
    y: round1(iy),
    width: round1(length * scale),
    height: round1(deep * scale),
  });
  const node = element("g", { class: "d-plan" }, [
    element("clipPath", { id: clip }, [floor]),
    ...remembered(sheet, scene.layers, "ground", () => ground(sheet)),
    ...(show.planting === false
      ? []
      : [
          element(
            "g",
            { "clip-path": `url(#${clip})` },
            inGround.flatMap((z) => remembered(sheet, z, "zone", () => [planting(sheet, z)])),
          ),
        ]),
    ...(show.height === false || max - min < 0.004
      ? []
      : [
          contours(
            sheet,
            scene.ground,
            levelsOf(min, max, heightSteps),
            "d-height",
            (l) => `${Math.round(l * 1000)}`,
            labels,
          ),
        ]),
    ...pieces.flatMap((p) => piece(sheet, p)),
    ...(show.planting === false
      ? []
      : [
          element(
            "g",
            { "clip-path": `url(#${clip})` },
            above.flatMap((z) => remembered(sheet, z, "zone", () => [planting(sheet, z)])),
          ),
        ]),
    ...steps(sheet),
    ...(light ? [lightLines(sheet, light, labels)] : []),
    ...(show.thirds ? thirds(sheet) : []),
    ...(show.lamps === false ? [] : scene.lamps.map((l) => lamp(sheet, l))),
    ...(show.planting === false ? [] : scene.zones.map((z) => letter(sheet, z))),
    ...glass(sheet, options, options.width),
  ]);
  return {
    node,
    width: options.width,
    height: Math.ceil(margin.top + (deep + 2 * pane) * scale + margin.bottom),
    scale,
    toPage: sheet.toPage,
    toFloor: (px, py) => [(px - left) / scale, (back - py) / scale],
  };
}

function lightLines(sheet: Sheet, light: PlanLight, labels: Label[]): DrawingNode {
  const { length, width } = sheet.scene.tank;
  const field = lightField(light, { length, width });
  const { min, max } = fieldRange(field);
  const shift: Point2 = [length / light.columns / 2, width / light.rows / 2];
  return contours(sheet, field, levelsOf(min, max, lightSteps), "d-light", (l) => `${l}`, labels, shift);
}
