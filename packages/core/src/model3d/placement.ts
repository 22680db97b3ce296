import type { Point2, ScapeZone } from "../drawing/index.ts";
import {
  boundsOf,
  fieldHeight,
  type HeightField,
  outlineArea,
  outlineCentroid,
  outlineContains,
} from "../geometry/index.ts";
import { createRandom } from "../numerics/index.ts";
import type { Mesh } from "../solids/index.ts";
import { cross, minus, unit, type Vector } from "./plants/vector.ts";

/** Where one plant of a planting stands. */
export interface Stand {
  /** Its foot, m. */
  readonly at: Vector;
  /** The way it grows. */
  readonly up: Vector;
  /** Turned about that, rad. */
  readonly turn: number;
  /** Its size against the planting's own. */
  readonly size: number;
  /** How wide it is against that: above 1 where fewer plants are drawn than grow. */
  readonly broad: number;
  /** 0 to 1, to tell neighbours apart. */
  readonly tint: number;
}

/** What the plants stand on. */
export interface Site {
  readonly ground: HeightField;
  /** m above the floor. */
  readonly waterLine: number;
  readonly seed: number;
  /** Whether a piece leaves no room at a place, m. */
  readonly taken: (x: number, y: number) => boolean;
  /** The piece that the planting grows on, or null. */
  readonly piece: Mesh | null;
}

/** Most plants that are drawn of one planting. Design values. */
const mostStands: Readonly<Record<ScapeZone["form"], number>> = {
  stem: 160,
  rosette: 200,
  runner: 250,
  carpet: 600,
  moss: 300,
  bulb: 150,
  rhizome: 150,
  floating: 300,
};

/** Widest that one plant of a form is drawn, m: a wider one is drawn as several. Design values. */
const widest: Readonly<Partial<Record<ScapeZone["form"], number>>> = { stem: 0.07, runner: 0.07, carpet: 0.05 };

/** Plants drawn on an area against those that fit beside each other: leaves reach over each other. Design values. */
const overlapping: Readonly<Record<ScapeZone["form"], number>> = {
  stem: 3.4,
  runner: 2.4,
  carpet: 2.2,
  moss: 1.6,
  rosette: 2,
  bulb: 2,
  rhizome: 2.2,
  floating: 1.2,
};

/** Least way between two plants, share of their width. Design value. */
const apart = 0.42;

/** The plastic number: its powers spread places evenly over a square (Roberts 2018, from memory). */
const plastic = 1.324717957244746;

/** Faces steeper than this carry no plants: upward part of their normal. Design value. */
const steepest = 0.12;

/** Height above the ground from which a piece's surface is free, m. Design value. */
const free = 0.003;

/** Width over which one plant spreads, m. */
export function widthOf({ spread, form, height }: Pick<ScapeZone, "spread" | "form" | "height">): number {
  return Math.max(0.004, Math.min(spread, form === "moss" ? 3.2 * height : (widest[form] ?? Infinity)));
}

/** How many plants cover so much of an area, before the limit of what is drawn. */
function wanted(zone: ScapeZone, area: number): number {
  const width = widthOf(zone);
  return zone.cover > 0
    ? Math.max(1, Math.round((zone.cover * area * overlapping[zone.form]) / ((Math.PI / 4) * width * width)))
    : 0;
}

/**
 * The plants of a planting, the same for the same seed. More cover adds plants and leaves the others where they are;
 * floating ones lie on the water line, those on a piece on its upper side, the others on the ground beside the pieces.
 */
export function standsOf(zone: ScapeZone, site: Site): readonly Stand[] {
  if (zone.outline.length < 3) return [];
  const seats = zone.on === null || !site.piece ? null : seatsOn(site.piece, zone.outline, site.ground);
  const area = seats ? Math.min(seats.area, outlineArea(zone.outline)) : outlineArea(zone.outline);
  const all = wanted(zone, area);
  const count = Math.min(all, mostStands[zone.form]);
  const broad = Math.min(2.5, Math.sqrt(Math.max(1, all / mostStands[zone.form])));
  const random = createRandom(Math.trunc(site.seed) | 0, 7919 * (zone.index + 1));
  const offset = [random.uniform(), random.uniform()] as const;
  const gap = apart * widthOf(zone) * broad;
  const near = new Nearby(gap);
  const stands: Stand[] = [];
  const mostTries = 12 * count + 60;
  for (let k = 1; k <= mostTries && stands.length < count; k++) {
    const [u, v] = [(offset[0] + k / plastic) % 1, (offset[1] + k / plastic ** 2) % 1];
    const [jx, jy, turn, size, tint] = [
      random.uniform(),
      random.uniform(),
      random.uniform(),
      random.uniform(),
      random.uniform(),
    ];
    const found = seats ? seats.at(u, v, jx) : onGround(zone, site, u + 0.02 * (jx - 0.5), v + 0.02 * (jy - 0.5));
    if (!found || near.has(found.at)) continue;
    near.add(found.at);
    stands.push({ ...found, turn: 2 * Math.PI * turn, size: 0.82 + 0.26 * size, broad, tint });
  }
  if (stands.length === 0 && count > 0 && !seats) {
    const [x, y] = outlineCentroid(zone.outline);
    if (outlineContains(zone.outline, [x, y]) && !site.taken(x, y))
      stands.push({ at: [x, y, heightAt(zone, site, x, y)], up: [0, 0, 1], turn: 0, size: 1, broad, tint: 0.5 });
  }
  return stands;
}

function heightAt({ form }: ScapeZone, { ground, waterLine }: Site, x: number, y: number): number {
  return form === "floating" ? waterLine : fieldHeight(ground, x, y);
}

function onGround(zone: ScapeZone, site: Site, u: number, v: number): Pick<Stand, "at" | "up"> | null {
  const { left, right, front, back } = boundsOf(zone.outline);
  const [x, y] = [left + u * (right - left), front + v * (back - front)];
  if (!outlineContains(zone.outline, [x, y]) || (zone.form !== "floating" && site.taken(x, y))) return null;
  return { at: [x, y, heightAt(zone, site, x, y)], up: [0, 0, 1] };
}

/** Places that are taken already, found by cells of the least way between two. */
class Nearby {
  readonly #cells = new Map<string, Vector[]>();
  readonly #gap: number;

  constructor(gap: number) {
    this.#gap = gap;
  }

  #cell(at: Vector, i: number, j: number): string {
    return `${Math.floor(at[0] / this.#gap) + i},${Math.floor(at[1] / this.#gap) + j}`;
  }

  add(at: Vector): void {
    const name = this.#cell(at, 0, 0);
    const known = this.#cells.get(name);
    if (known) known.push(at);
    else this.#cells.set(name, [at]);
  }

  has(at: Vector): boolean {
    for (let i = -1; i <= 1; i++)
      for (let j = -1; j <= 1; j++)
        for (const other of this.#cells.get(this.#cell(at, i, j)) ?? [])
          if (Math.hypot(other[0] - at[0], other[1] - at[1], other[2] - at[2]) < this.#gap) return true;
    return false;
  }
}

interface Seats {
  /** Of the surface that carries plants, m². */
  readonly area: number;
  readonly at: (share: number, v: number, w: number) => Pick<Stand, "at" | "up"> | null;
}

/** The upper side of a piece within an outline, where it stands out of the ground. */
function seatsOn({ positions, triangles }: Mesh, outline: readonly Point2[], ground: HeightField): Seats {
  const corner = (k: number): Vector => [positions[3 * k]!, positions[3 * k + 1]!, positions[3 * k + 2]!];
  const faces: (readonly [a: Vector, b: Vector, c: Vector, up: Vector])[] = [];
  const ends: number[] = [];
  let area = 0;
  for (let t = 0; t + 2 < triangles.length; t += 3) {
    const [a, b, c] = [corner(triangles[t]!), corner(triangles[t + 1]!), corner(triangles[t + 2]!)];
    const middle: Vector = [(a[0] + b[0] + c[0]) / 3, (a[1] + b[1] + c[1]) / 3, (a[2] + b[2] + c[2]) / 3];
    const normal = cross(minus(b, a), minus(c, a));
    const twice = Math.hypot(...normal);
    if (!(normal[2] > steepest * twice) || !outlineContains(outline, [middle[0], middle[1]])) continue;
    if (middle[2] < fieldHeight(ground, middle[0], middle[1]) + free) continue;
    area += twice / 2;
    ends.push(area);
    const [nx, ny, nz] = unit(normal);
    faces.push([a, b, c, unit([nx * 0.6, ny * 0.6, nz * 0.6 + 0.55])]);
  }
  return {
    area,
    at: (share, v, w) => {
      const face = faces[ends.findIndex((end) => end >= share * area)];
      if (!face) return null;
      const [a, b, c, up] = face;
      const s = Math.sqrt(v);
      const [ka, kb, kc] = [1 - s, s * (1 - w), s * w];
      const at: Vector = [
        ka * a[0] + kb * b[0] + kc * c[0],
        ka * a[1] + kb * b[1] + kc * c[1],
        ka * a[2] + kb * b[2] + kc * c[2],
      ];
      return outlineContains(outline, [at[0], at[1]]) ? { at, up } : null;
    },
  };
}
