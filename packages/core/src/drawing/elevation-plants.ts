/** Plantings from the front: single plants over their area, or rows of low ones, each at its own depth. */
import { outlineArea } from "../geometry/index.ts";
import { type Box, clamp } from "./geometry.ts";
import { type DrawingNode, group, paths } from "./node.ts";
import { pieceCells } from "./piece-cells.ts";
import type { Tone } from "./plants.ts";
import { streamOf } from "./random.ts";
import type { Point2, ScapeScene, ScapeZone } from "./scape-scene.ts";
import { type ElevationFrame, groundOf, paleness } from "./scape-view.ts";
import { middleOf, scattered, soundOutline } from "./scattered.ts";
import { drawSpecimen, type Parts, type Spot } from "./specimens.ts";

interface Plant {
  readonly x: number;
  readonly y: number;
  readonly parts: Parts;
}

/** Plants of one depth; what is shown of them depends on what lies there. */
export interface PlantRow {
  readonly y: number;
  readonly plants: readonly Plant[];
  /** Whether its plants may be joined into one path of each class. */
  readonly joined: boolean;
}

export interface ZonePlants {
  readonly rows: readonly PlantRow[];
  /** Round its plants on the page, from their feet to their height. */
  readonly box: Box | undefined;
  /** Middle depth, m. */
  readonly y: number;
}

/** How far plants stand apart, m, and how many of one zone are drawn at most. Design values, by eye. */
function habitOf({ form, leaf, spread, cover }: ScapeZone): { pitch: number; most: number; joined: boolean } {
  const wide = clamp(Number.isFinite(spread) ? spread : 0.05, 0.01, 0.3);
  const dense = 1 / Math.sqrt(clamp(Number.isFinite(cover) ? cover : 0.6, 0.12, 1));
  switch (form) {
    case "runner":
      return leaf === "needle"
        ? { pitch: 0.007 * dense, most: 260, joined: true }
        : { pitch: clamp(wide * 0.42, 0.012, 0.05) * dense, most: 40, joined: false };
    case "stem":
      return { pitch: clamp(wide * 0.55, 0.016, 0.06) * dense, most: 30, joined: false };
    case "rosette":
    case "bulb":
      return { pitch: clamp(wide * 0.48, 0.02, 0.16) * dense, most: 14, joined: false };
    case "carpet":
      return leaf === "needle" || leaf === "ribbon"
        ? { pitch: 0.0085 * dense, most: 420, joined: true }
        : { pitch: 0.0125 * dense, most: 150, joined: true };
    case "moss":
      return { pitch: 0.011 * dense, most: 70, joined: true };
    case "rhizome":
      return { pitch: clamp(wide * 0.36, 0.02, 0.08) * dense, most: 14, joined: false };
    case "floating":
      return { pitch: clamp(wide * 0.4, 0.016, 0.06) * dense, most: 40, joined: true };
  }
}

/** Rows of low plants this far apart, m. */
const ROW = 0.011;

type Seat = readonly [x: number, y: number, z: number];

/** Places on the piece within the outline; where it lies beside the piece, the places nearest its middle. */
function seatsOn(scene: ScapeScene, zone: ScapeZone, outline: readonly Point2[], pitch: number, most: number): Seat[] {
  const piece = zone.on === null ? undefined : scene.pieces[zone.on];
  if (!piece) return [];
  const cells = pieceCells(piece.mesh, scene.ground);
  const random = streamOf(scene.seed, "seats", zone.index);
  const on = (places: readonly Point2[]): Seat[] =>
    places.flatMap(([x, y]): Seat[] => {
      const z = cells.top(x, y);
      return z === undefined ? [] : [[x, y, z]];
    });
  const count = clamp(Math.round((outlineArea(outline) / (pitch * pitch)) * 0.8), 1, most);
  const direct = on(scattered(outline, pitch * 0.6, most * 4, random));
  if (direct.length > 0) return every(direct, count);
  const middle = middleOf(zone);
  if (!middle) return [];
  const near = [...cells.seats]
    .sort((a, b) => Math.hypot(a[0] - middle[0], a[1] - middle[1]) - Math.hypot(b[0] - middle[0], b[1] - middle[1]))
    .slice(0, 40);
  return every(near, Math.min(count, 6));
}

const every = <T>(list: readonly T[], count: number): T[] =>
  list.length <= count
    ? [...list]
    : Array.from({ length: count }, (_, i) => list[Math.floor(((i + 0.5) / count) * list.length)]!);

export function zonePlants(scene: ScapeScene, zone: ScapeZone, frame: ElevationFrame, fullness: number): ZonePlants {
  const outline = soundOutline(zone);
  const middle = middleOf(zone);
  if (outline.length === 0 || !middle) return { rows: [], box: undefined, y: 0 };
  const { length, width, waterLine } = scene.tank;
  const ground = groundOf(scene);
  const random = streamOf(scene.seed, "elevation", zone.index, zone.form);
  const { pitch, most, joined } = habitOf(zone);
  const limit = Math.max(joined ? 40 : 4, Math.round(most * fullness));
  const places: Seat[] =
    zone.on !== null
      ? seatsOn(scene, zone, outline, pitch, limit)
      : scattered(outline, pitch, limit, random).map(([x, y]): Seat => {
          const [a, b] = [clamp(x, 0, length), clamp(y, 0, width)];
          return [a, b, zone.form === "floating" ? waterLine : ground(a, b)];
        });
  const height = clamp(Number.isFinite(zone.height) ? zone.height : 0.05, 0.004, 2 * scene.tank.height);
  const plain = frame.width < 420 || fullness < 0.35;
  const box = { ...frame.inner, left: frame.inner.left + 1, right: frame.inner.right - 1 };
  const ys = places.map(([, y]) => y);
  const [front, back] = [Math.min(...ys), Math.max(...ys)];
  let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
  const plants = places.map(([x, y, z]): Plant => {
    const [px, py] = frame.toPage(x, y, z);
    const k = frame.shrink(y);
    const roof = frame.toPage(x, y, waterLine)[1] + 1.5;
    const tall = height * frame.view.scale * k;
    const spot: Spot = {
      foot: [px, py],
      height: tall,
      scale: frame.view.scale * k,
      roof,
      box: zone.form === "floating" ? { ...box, top: Math.max(frame.inner.top, roof - 30) } : { ...box, top: roof - 1 },
      plain,
      random: streamOf(scene.seed, "plant", zone.index, Math.round(x * 4000), Math.round(y * 4000)),
    };
    left = Math.min(left, px - 4);
    right = Math.max(right, px + 4);
    const reach = zone.form === "floating" ? py - 4 : Math.max(roof, py - tall);
    top = Math.min(top, reach);
    bottom = Math.max(bottom, zone.form === "floating" ? py + tall : py + 2);
    const row = Math.floor((y - front) / ROW);
    const near = (y - front) / Math.max(ROW, back - front);
    const shade = near > 0.75 ? 0 : (row * 7 + zone.index) % 3 === 0 ? 1 : near < 0.2 ? 2 : 1 + (row % 2);
    return { x, y, parts: drawSpecimen(zone.form, zone.leaf, spot, shade) };
  });
  const rows = new Map<number, Plant[]>();
  plants.forEach((plant, i) => {
    const key = joined ? Math.floor(plant.y / ROW) : i;
    const list = rows.get(key);
    if (list) list.push(plant);
    else rows.set(key, [plant]);
  });
  return {
    rows: [...rows.values()].map((list) => ({
      plants: list,
      joined,
      y: list.reduce((sum, p) => sum + p.y, 0) / list.length,
    })),
    box:
      right >= left
        ? {
            left: clamp(left, frame.inner.left, frame.inner.right),
            right: clamp(right, frame.inner.left, frame.inner.right),
            top: clamp(top, frame.inner.top, frame.inner.bottom),
            bottom: clamp(bottom, frame.inner.top, frame.inner.bottom),
          }
        : undefined,
    y: places.reduce((sum, [, y]) => sum + y, 0) / Math.max(1, places.length),
  };
}

/** What of a row is shown: all that nothing lies on. */
export function rowNode(
  row: PlantRow,
  tone: Tone,
  width: number,
  shown: (plant: { readonly x: number; readonly y: number }) => boolean,
): DrawingNode | undefined {
  const plants = row.plants.filter(shown);
  if (plants.length === 0) return undefined;
  const classes = `d-plant d-${tone} d-back-${paleness(row.y, width)}`;
  if (!row.joined || plants.length === 1) return group(classes, paths(...plants.flatMap((p) => p.parts)));
  const order: string[] = [];
  const joined = new Map<string, string>();
  for (const { parts } of plants) {
    for (const [className, d] of parts) {
      const before = joined.get(className);
      if (before === undefined) order.push(className);
      joined.set(className, (before ?? "") + d);
    }
  }
  return group(classes, paths(...order.map((c) => [c, joined.get(c) ?? ""] as const)));
}
