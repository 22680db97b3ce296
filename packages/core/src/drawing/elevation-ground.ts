/** Water and ground from the front: the box of water, the ground rising behind the front pane, the cut at the pane. */
import { fieldHeight, outlineContains } from "../geometry/index.ts";
import { clamp, type Point } from "./geometry.ts";
import { drawCut } from "./ground.ts";
import { type DrawingNode, group, paths } from "./node.ts";
import { Pen } from "./pen.ts";
import { layerAt } from "./plan-ground.ts";
import { between, streamOf } from "./random.ts";
import type { ScapeScene } from "./scape-scene.ts";
import { type ElevationFrame, groundOf, paleness } from "./scape-view.ts";
import type { Item } from "./stage.ts";

/** Depths at which the ground is followed, and every how many of them a line is drawn. Design values. */
const DEPTHS = 12;
const LINE_EVERY = 3;

const across = (frame: ElevationFrame): number =>
  Math.round(clamp((frame.inner.right - frame.inner.left) / 12, 12, 64));

function profileAt(scene: ScapeScene, frame: ElevationFrame, y: number): Point[] {
  const ground = groundOf(scene);
  const n = across(frame);
  return Array.from({ length: n + 1 }, (_, i): Point => {
    const x = (scene.tank.length * i) / n;
    return frame.toPage(x, y, ground(x, y));
  });
}

const depthAt = (scene: ScapeScene, k: number): number => (scene.tank.width * k) / DEPTHS;

/** The box of water, its light, and over that its edges and an engraver's lines. */
export function drawBox(scene: ScapeScene, frame: ElevationFrame): { fill: DrawingNode[]; lines: DrawingNode[] } {
  const { length, width, waterLine } = scene.tank;
  const { inner } = frame;
  const corner = (x: number, y: number, z: number): Point => frame.toPage(x, y, z);
  const front = [corner(0, 0, 0), corner(length, 0, 0), corner(length, 0, waterLine), corner(0, 0, waterLine)];
  const back = [
    corner(0, width, 0),
    corner(length, width, 0),
    corner(length, width, waterLine),
    corner(0, width, waterLine),
  ];
  const edges = new Pen();
  for (let k = 0; k < 4; k++) edges.polyline([front[k]!, back[k]!]);
  edges.polyline([back[3]!, back[0]!]).polyline([back[2]!, back[1]!]);
  const engraved = new Pen(inner);
  const random = streamOf(scene.seed, "engraving");
  const deep = inner.bottom - frame.surface;
  for (let i = 0; i < 9; i++) {
    const y = frame.surface + 9 + i * 4 + i * i * 1.3;
    if (y > frame.surface + deep * 0.55) break;
    let x = inner.left + between(random, 6, 50);
    while (x < inner.right - 16) {
      const dash = between(random, 18, 110 - i * 7);
      engraved.move(x, y).line(Math.min(x + dash, inner.right - 5), y);
      x += dash + between(random, 18, 40 + i * 32);
    }
  }
  const plane = new Pen().polyline([front[3]!, front[2]!, back[2]!, back[3]!], true);
  return {
    fill: paths(["d-water-side", new Pen().polyline(front, true).d], ["d-water", new Pen().polyline(back, true).d]),
    lines: paths(["d-engraved", engraved.d], ["d-surface-plane", plane.d], ["d-box-edge", edges.d]),
  };
}

/** The ground behind the front pane, the further the paler, with a line along it at some depths. */
export function drawRise(scene: ScapeScene, frame: ElevationFrame): DrawingNode[] {
  const { width, length } = scene.tank;
  const ground = groundOf(scene);
  const nodes: DrawingNode[] = [];
  const wall = (x: number, k: number): Point[] =>
    Array.from({ length: k + 1 }, (_, j): Point => {
      const y = depthAt(scene, j);
      return frame.toPage(x, y, ground(x, y));
    });
  const middle = layerAt(scene.layers, length / 2, width / 2);
  const material = scene.layers[middle]?.material ?? "bare";
  for (let k = DEPTHS; k > 0; k--) {
    const profile = profileAt(scene, frame, depthAt(scene, k));
    const body = new Pen(frame.inner).polyline(profile);
    for (const p of wall(length, k).reverse().slice(1)) body.line(p[0], p[1]);
    body.line(frame.inner.right, frame.inner.bottom).line(frame.inner.left, frame.inner.bottom);
    for (const p of wall(0, k).slice(0, -1)) body.line(p[0], p[1]);
    body.close();
    const line = k % LINE_EVERY === 0 ? new Pen(frame.inner).curve(profile).d : "";
    nodes.push(
      group(
        `d-rise-${material} d-back-${paleness(depthAt(scene, k), width)}`,
        paths(["d-rise", body.d], ["d-rise-line", line]),
      ),
    );
  }
  const random = streamOf(scene.seed, "rise");
  const grains = [new Pen(frame.inner), new Pen(frame.inner)] as const;
  const count = Math.round(clamp((frame.inner.right - frame.inner.left) * 0.9, 80, 900));
  for (let i = 0; i < count; i++) {
    const [x, y] = [random() * length, width * random() ** 1.5];
    const [px, py] = frame.toPage(x, y, ground(x, y));
    grains[random() < 0.2 ? 1 : 0].dot(px, py + 1);
  }
  nodes.push(group(`d-rise-${material}`, paths(["d-rise-grain", grains[0].d], ["d-rise-grain d-large", grains[1].d])));
  return nodes;
}

/** Where nearer ground stands so high that it hides ground behind it: painted over what stands there. */
export function crests(scene: ScapeScene, frame: ElevationFrame): Item[] {
  const profiles = Array.from({ length: DEPTHS + 1 }, (_, k) => profileAt(scene, frame, depthAt(scene, k)));
  const n = across(frame);
  const material = scene.layers[layerAt(scene.layers, scene.tank.length / 2, scene.tank.width / 2)]?.material ?? "bare";
  const items: Item[] = [];
  /** Page y of a profile at page x. */
  const at = (profile: readonly Point[], x: number): number | undefined => {
    const [a, b] = [profile[0]!, profile.at(-1)!];
    const f = ((x - a[0]) / (b[0] - a[0])) * n;
    if (!(f >= 0 && f <= n)) return undefined;
    const i = Math.min(n - 1, Math.floor(f));
    return profile[i]![1] + (profile[i + 1]![1] - profile[i]![1]) * (f - i);
  };
  for (let k = 1; k < DEPTHS; k++) {
    const profile = profiles[k]!;
    let run: Point[] = [];
    const flush = (): void => {
      if (run.length > 1) {
        const low = run.map(([x, y]): Point => [x, Math.max(y, at(profiles[k - 1]!, x) ?? y)]).reverse();
        items.push({
          depth: depthAt(scene, k),
          nodes: [
            group(
              `d-rise-${material} d-back-${paleness(depthAt(scene, k), scene.tank.width)}`,
              paths(
                ["d-rise", new Pen(frame.inner).polyline([...run, ...low], true).d],
                ["d-rise-line", new Pen(frame.inner).polyline(run).d],
              ),
            ),
          ],
        });
      }
      run = [];
    };
    for (const point of profile) {
      const hides = profiles.slice(k + 1).some((other) => {
        const y = at(other, point[0]);
        return y !== undefined && y > point[1] + 0.8;
      });
      if (hides) run.push(point);
      else flush();
    }
    flush();
  }
  return items;
}

/** The cut along the front pane, layer by layer. */
export function drawFrontCut(scene: ScapeScene, frame: ElevationFrame): DrawingNode[] {
  const { inner } = frame;
  const perPx = scene.tank.length / (inner.right - inner.left);
  const perMetre = (inner.bottom - inner.top) / scene.tank.height;
  if (scene.layers.length === 0) return [];
  const cut = drawCut(
    scene,
    { inner, scale: frame.view.scale, compact: frame.width < 420 },
    {
      cutHeight: (px, index) => {
        const x = (px - inner.left) * perPx;
        let height = 0;
        for (let i = 0; i <= index; i++) {
          const layer = scene.layers[i]!;
          if (layer.within && !outlineContains(layer.within, [x, 0.001])) continue;
          height = Math.max(height, fieldHeight(layer.top, x, 0));
        }
        return height * perMetre;
      },
    },
  );
  // Once more over all layers: each covers part of the line above it.
  return [...cut, ...paths(["d-cut", new Pen(inner).polyline(profileAt(scene, frame, 0)).d])];
}
