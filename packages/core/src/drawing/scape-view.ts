/** Where a scape stands on the page: from above, and from the front. Lengths in m, places on the page in px. */
import { fieldHeight } from "../geometry/index.ts";
import { type Box, clamp, type Point } from "./geometry.ts";
import type { ScapeScene, ScapeTank } from "./scape-scene.ts";

/** A place in the tank on the page, with how far it lies from the eye, m. */
type Seen = readonly [x: number, y: number, away: number];

/** How places in the tank come to lie on the page. */
export interface View {
  readonly kind: "plan" | "elevation";
  /** px per m; from the front that of the front pane. */
  readonly scale: number;
  readonly see: (x: number, y: number, z: number) => Seen;
  /** Towards the light, unit vector in the tank's coordinates. */
  readonly light: readonly [x: number, y: number, z: number];
  /** Nothing is drawn outside. */
  readonly keep: Box;
  /** The same for two views in which everything lies at the same place. */
  readonly name: string;
}

/** Light from the upper left in front, as draughtsmen have it. */
const LIGHT = [-0.42, -0.38, 0.82] as const;
const lightLength = Math.hypot(...LIGHT);
const light = [LIGHT[0] / lightLength, LIGHT[1] / lightLength, LIGHT[2] / lightLength] as const;

/**
 * The tank with panes and water line brought into range.
 * @throws RangeError where it has no size, or is more than 100 times as long as wide or high.
 */
export function drawableTank(tank: ScapeTank): ScapeTank {
  const sides = [tank.length, tank.width, tank.height];
  const [least, most] = [Math.min(...sides), Math.max(...sides)];
  if (!(sides.every((s) => s > 0 && s < 100) && most / least < 100))
    throw new RangeError(
      `tank of ${sides.join(" x ")} m inside has no drawable size: each side above 0 and below 100 m, ratios below 100`,
    );
  const finite = (value: number, low: number, high: number, otherwise: number): number =>
    Number.isFinite(value) ? clamp(value, low, high) : otherwise;
  return {
    ...tank,
    glass: finite(tank.glass, 0, Math.min(tank.length, tank.width) / 8, 0),
    base: finite(tank.base, 0, tank.height / 8, 0),
    waterLine: finite(tank.waterLine, tank.height * 0.05, tank.height * 0.995, tank.height * 0.95),
  };
}

/** Height of the ground anywhere, m. */
export const groundOf =
  (scene: ScapeScene) =>
  (x: number, y: number): number =>
    fieldHeight(scene.ground, x, y);

export const pageWidth = (width: number | undefined, usual: number): number =>
  clamp(width !== undefined && Number.isFinite(width) ? width : usual, 160, 2400);

export interface PlanFrame {
  readonly width: number;
  readonly height: number;
  readonly outer: Box;
  readonly inner: Box;
  readonly view: View;
  readonly toPage: (x: number, y: number) => Point;
  readonly toMetres: (x: number, y: number) => Point;
}

export function planFrame(tank: ScapeTank, width: number): PlanFrame {
  const margin = { left: 30, right: 8, top: 8, bottom: 32 };
  const [long, deep] = [tank.length + 2 * tank.glass, tank.width + 2 * tank.glass];
  const scale = Math.min((width - margin.left - margin.right) / long, (width * 0.95) / deep);
  const left = margin.left + (width - margin.left - margin.right - long * scale) / 2;
  const outer: Box = { left, right: left + long * scale, top: margin.top, bottom: margin.top + deep * scale };
  // A pane thinner than this would be a mere line; then the inside is drawn at a little less than the scale.
  const pane = Math.min(Math.max(tank.glass * scale, 2), (deep * scale) / 8);
  const inner: Box = {
    left: outer.left + pane,
    right: outer.right - pane,
    top: outer.top + pane,
    bottom: outer.bottom - pane,
  };
  const kx = (inner.right - inner.left) / tank.length;
  const ky = (inner.bottom - inner.top) / tank.width;
  const toPage = (x: number, y: number): Point => [inner.left + x * kx, inner.bottom - y * ky];
  return {
    width,
    height: Math.ceil(outer.bottom + margin.bottom),
    outer,
    inner,
    toPage,
    toMetres: (x, y) => [(x - inner.left) / kx, (inner.bottom - y) / ky],
    view: {
      kind: "plan",
      scale: kx,
      see: (x, y, z) => [inner.left + x * kx, inner.bottom - y * ky, -z],
      light,
      keep: inner,
      name: `plan ${width} ${tank.length} ${tank.width} ${tank.glass}`,
    },
  };
}

export interface ElevationFrame {
  readonly width: number;
  readonly outer: Box;
  /** Inner faces of the panes, the floor and the rim, at the front pane. */
  readonly inner: Box;
  /** Page y of the water surface at the front pane. */
  readonly surface: number;
  /** Room right of the glass for heights. */
  readonly margin: number;
  readonly view: View;
  readonly toPage: (x: number, y: number, z: number) => Point;
  readonly toMetres: (x: number, y: number, depth?: number) => Point;
  /** How much smaller a length is drawn at a depth, 1 at the front pane. */
  readonly shrink: (y: number) => number;
}

/**
 * The front pane is to scale; what lies behind it is drawn smaller, as seen by an eye a good way off and a little under
 * the surface, so that floor and surface can be told apart. Distance and height of the eye are design values.
 */
export function elevationFrame(
  tank: ScapeTank,
  width: number,
  margin: { readonly left: number; readonly right: number; readonly head: (scale: number) => number },
): ElevationFrame {
  const [long, high] = [tank.length + 2 * tank.glass, tank.height + tank.base];
  const room = width - margin.left - margin.right;
  const scale = Math.min(room / long, (width * 0.8) / high);
  const left = margin.left + (room - long * scale) / 2;
  const top = margin.head(scale);
  const outer: Box = { left, right: left + long * scale, top, bottom: top + high * scale };
  const pane = Math.max(tank.glass * scale, Math.min(2.5, (long * scale) / 8));
  const inner: Box = {
    left: outer.left + pane,
    right: outer.right - pane,
    top: outer.top,
    bottom: outer.bottom - Math.max(tank.base * scale, Math.min(2.5, (high * scale) / 8)),
  };
  const kx = (inner.right - inner.left) / tank.length;
  const kz = (inner.bottom - inner.top) / tank.height;
  const eye = { x: tank.length / 2, z: tank.waterLine * 0.86 };
  const distance = 2.7 * Math.max(tank.length, tank.height, 2 * tank.width);
  const shrink = (y: number): number => distance / (distance + y);
  const see = (x: number, y: number, z: number): Seen => {
    const k = shrink(y);
    return [inner.left + kx * (eye.x + (x - eye.x) * k), inner.bottom - kz * (eye.z + (z - eye.z) * k), y];
  };
  return {
    width,
    outer,
    inner,
    surface: inner.bottom - tank.waterLine * kz,
    margin: margin.right,
    shrink,
    toPage: (x, y, z) => {
      const [px, py] = see(x, y, z);
      return [px, py];
    },
    toMetres: (px, py, depth = 0) => {
      const k = shrink(depth);
      return [eye.x + ((px - inner.left) / kx - eye.x) / k, eye.z + ((inner.bottom - py) / kz - eye.z) / k];
    },
    view: {
      kind: "elevation",
      scale: kx,
      see,
      light,
      // Wood may stand out of the water, and over the rim.
      keep: { ...inner, top: 2 },
      name: `elevation ${width} ${top} ${tank.length} ${tank.width} ${tank.height} ${tank.glass} ${tank.base} ${tank.waterLine}`,
    },
  };
}

/** How far back something stands, 0 to 4: the further, the paler it is drawn. */
export const paleness = (y: number, width: number): number => Math.round(clamp(y / width, 0, 1) * 4);
