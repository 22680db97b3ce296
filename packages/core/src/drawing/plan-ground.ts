/** The ground from above: its grains by material, lines of its height and of the light on it, retained steps. */
import { fieldFrom, fieldHeight, fieldRange, type HeightField, isolines, outlineContains } from "../geometry/index.ts";
import type { ValueLine } from "./figured-lines.ts";
import { clamp, type Point } from "./geometry.ts";
import { type DrawingNode, element, group, paths } from "./node.ts";
import { Pen, round1 } from "./pen.ts";
import { heightLevels, type LightMap, type WrittenLength } from "./plan-options.ts";
import { between, streamOf } from "./random.ts";
import type { ScapeLayer, ScapeScene } from "./scape-scene.ts";
import type { PlanFrame } from "./scape-view.ts";
import { soundOutline } from "./scattered.ts";

const outlineOf = (layer: ScapeLayer) => (layer.within ? soundOutline({ outline: layer.within }) : []);

/** A layer this thin does not hide what lies under it, m. Design value. */
const THIN = 0.0015;

/** The uppermost layer at a place, as a position in the list; -1 on the bare floor. */
export function layerAt(layers: readonly ScapeLayer[], x: number, y: number): number {
  for (let i = layers.length - 1; i >= 0; i--) {
    const layer = layers[i]!;
    if (layer.within && !outlineContains(layer.within, [x, y])) continue;
    const under = i > 0 ? fieldHeight(layers[i - 1]!.top, x, y) : 0;
    // What fills a limited area is there, however thin its grains lie.
    if (layer.within || fieldHeight(layer.top, x, y) - under > THIN) return i;
  }
  return -1;
}

/** Distance of grains, px, and the share of open places. Design values. */
const PITCH = 8.5;

export function drawPlanGround(scene: ScapeScene, frame: PlanFrame): DrawingNode[] {
  const { inner } = frame;
  const { layers } = scene;
  const floor = layers.findLast((layer) => layer.within === null)?.material;
  const nodes: DrawingNode[] = [
    element("rect", {
      class: `d-bed-${floor ?? "bare"}`,
      x: round1(inner.left),
      y: round1(inner.top),
      width: round1(inner.right - inner.left),
      height: round1(inner.bottom - inner.top),
    }),
  ];
  for (const layer of layers) {
    const outline = outlineOf(layer);
    if (outline.length === 0) continue;
    const pen = new Pen(inner).loop(outline.map(([x, y]) => frame.toPage(x, y)));
    nodes.push(...paths([`d-bed-${layer.material} d-bed-edge`, pen.d]));
  }
  const random = streamOf(scene.seed, "plan-grains");
  const pens = {
    soil: [new Pen(), new Pen()],
    sand: [new Pen(), new Pen()],
    gravel: [new Pen(), new Pen()],
  } as const;
  const step = Math.max(PITCH, Math.sqrt(((inner.right - inner.left) * (inner.bottom - inner.top)) / 5000));
  for (let py = inner.top + step * 0.5; py < inner.bottom; py += step) {
    for (let px = inner.left + step * 0.5; px < inner.right; px += step) {
      const x = clamp(px + between(random, -0.6, 0.6) * step, inner.left + 2, inner.right - 2);
      const y = clamp(py + between(random, -0.6, 0.6) * step, inner.top + 2, inner.bottom - 2);
      const keep = random();
      const large = random() < 0.22;
      const i = layerAt(layers, ...frame.toMetres(x, y));
      const material = layers[i]?.material;
      if (!material || keep > (material === "gravel" ? 0.5 : 0.8)) continue;
      pens[material][large ? 1 : 0].dot(x, y);
    }
  }
  nodes.push(
    ...paths(
      ["d-plan-soil", pens.soil[0].d],
      ["d-plan-soil d-large", pens.soil[1].d],
      ["d-plan-sand", pens.sand[0].d + pens.sand[1].d],
      ["d-plan-gravel", pens.gravel[0].d],
      ["d-plan-gravel-in", pens.gravel[0].d],
      ["d-plan-gravel d-large", pens.gravel[1].d],
      ["d-plan-gravel-in d-large", pens.gravel[1].d],
    ),
  );
  return nodes;
}

/** Lines of equal height with their figures. */
export function heightLines(
  ground: HeightField,
  frame: PlanFrame,
  length: (metres: number) => WrittenLength,
): ValueLine[] {
  const { min, max } = fieldRange(ground);
  return isolines(ground, heightLevels(min, max, length)).map(({ level, closed, points }) => ({
    closed,
    figure: length(level).number,
    points: points.map(([x, y]) => frame.toPage(x, y)),
  }));
}

/** Most nodes a side that a light map is read at. */
const FINEST = 97;

/** Lines of equal light: the map is read at the corners of its cells, which smooths it by a cell. */
export function lightLines(map: LightMap, scene: ScapeScene, frame: PlanFrame): ValueLine[] {
  const { columns, rows, values } = map;
  if (!(Number.isInteger(columns) && Number.isInteger(rows) && columns > 0 && rows > 0))
    throw new RangeError(`light map of ${columns} by ${rows} cells: both must be whole and above 0`);
  if (values.length !== columns * rows)
    throw new RangeError(`light map of ${values.length} values: ${columns} by ${rows} cells need ${columns * rows}`);
  const at = (i: number, j: number): number => {
    const value = values[clamp(j, 0, rows - 1) * columns + clamp(i, 0, columns - 1)]!;
    return Number.isFinite(value) ? Math.max(0, value) : 0;
  };
  const { length, width } = scene.tank;
  const grid = { length, width, columns: Math.min(FINEST, columns + 1), rows: Math.min(FINEST, rows + 1) };
  const field = fieldFrom(grid, (x, y) => {
    const [u, v] = [(x / length) * columns - 0.5, (y / width) * rows - 0.5];
    const [i, j] = [Math.floor(u), Math.floor(v)];
    const [s, t] = [u - i, v - j];
    return (at(i, j) * (1 - s) + at(i + 1, j) * s) * (1 - t) + (at(i, j + 1) * (1 - s) + at(i + 1, j + 1) * s) * t;
  });
  const levels = [...new Set(map.levels)].filter((level) => Number.isFinite(level) && level > 0);
  return isolines(field, levels).map(({ level, closed, points }) => ({
    closed,
    figure: String(Math.round(level * 10) / 10),
    points: points.map(([x, y]) => frame.toPage(x, y)),
  }));
}

/** Retained steps: a line with ticks to its lower side. */
export function drawEdges(scene: ScapeScene, frame: PlanFrame): DrawingNode[] {
  const [line, ticks] = [new Pen(frame.inner), new Pen(frame.inner)];
  for (const edge of scene.edges) {
    const sound = edge.filter(([x, y]) => Number.isFinite(x) && Number.isFinite(y));
    const points = sound.map(([x, y]) => frame.toPage(x, y));
    line.polyline(points);
    for (let i = 0; i + 1 < points.length; i++) {
      const [a, b] = [points[i] as Point, points[i + 1] as Point];
      const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
      if (!(length > 0)) continue;
      const [nx, ny] = [-(b[1] - a[1]) / length, (b[0] - a[0]) / length];
      const middle: Point = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
      const heightBeside = (s: number): number => {
        const [x, y] = frame.toMetres(middle[0] + nx * s * 8, middle[1] + ny * s * 8);
        return fieldHeight(scene.ground, x, y);
      };
      const down = heightBeside(1) <= heightBeside(-1) ? 1 : -1;
      for (let at = 3; at < length; at += 6) {
        const [x, y] = [a[0] + ((b[0] - a[0]) * at) / length, a[1] + ((b[1] - a[1]) * at) / length];
        ticks.move(x, y).line(x + nx * down * 4, y + ny * down * 4);
      }
    }
  }
  return line.d === "" ? [] : [group("d-steps", paths(["d-step", line.d], ["d-step-tick", ticks.d]))];
}
