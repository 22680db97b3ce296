/** How much of a scape is left open: seen straight from the front, and of the water itself. */
import { fieldHeight, outlineArea, type Point2 } from "../geometry/index.ts";
import type { Mesh } from "../solids/index.ts";
import type { Scape } from "./scape.ts";

export interface OpenWater {
  /** Share of the front view between floor and water line that neither bed, stones, wood nor plants cover. */
  readonly view: number;
  /** Share of the room between the floor and the water line that is free water outside plantings: where fish can swim. */
  readonly volume: number;
}

/** Cells of the front view along the tank and up; design values. */
const columns = 160;
const rows = 96;
/** Places in depth at which bed and outlines are sounded. Design value. */
const depths = 24;

type Cover = Uint8Array;

/** Fills the cells of one column whose middles lie between two heights, as shares of the depth of the water. */
function fill(cover: Cover, column: number, from: number, to: number): void {
  const first = Math.max(0, Math.ceil(from * rows - 0.5));
  const last = Math.min(rows - 1, Math.floor(to * rows - 0.5));
  for (let k = first; k <= last; k++) cover[k * columns + column] = 1;
}

/** What a mesh hides, seen along the depth. */
function fillMesh(cover: Cover, { positions, triangles }: Mesh, length: number, height: number): void {
  for (let t = 0; t + 2 < triangles.length; t += 3) {
    const corner = (i: number): Point2 => {
      const at = 3 * triangles[t + i]!;
      return [(positions[at]! / length) * columns, positions[at + 2]! / height];
    };
    const [a, b, c] = [corner(0), corner(1), corner(2)];
    const from = Math.max(0, Math.ceil(Math.min(a[0], b[0], c[0]) - 0.5));
    const to = Math.min(columns - 1, Math.floor(Math.max(a[0], b[0], c[0]) - 0.5));
    for (let i = from; i <= to; i++) {
      const x = i + 0.5;
      let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
      for (const [p, q] of [
        [a, b],
        [b, c],
        [c, a],
      ] as const) {
        if ((x < p[0] && x < q[0]) || (x > p[0] && x > q[0])) continue;
        const share = p[0] === q[0] ? 0 : (x - p[0]) / (q[0] - p[0]);
        const z = p[1] + share * (q[1] - p[1]);
        low = Math.min(low, z);
        high = Math.max(high, z);
        if (p[0] === q[0]) {
          low = Math.min(low, q[1]);
          high = Math.max(high, q[1]);
        }
      }
      fill(cover, i, low, high);
    }
  }
}

function inside([x, y]: Point2, outline: readonly Point2[]): boolean {
  let within = false;
  outline.forEach(([ax, ay], i) => {
    const [bx, by] = outline[(i + 1) % outline.length]!;
    if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) within = !within;
  });
  return within;
}

/** Open water of a scape, plantings counted as closed up to their height. Straight view, no perspective. */
export function openWater(scape: Scape): OpenWater {
  const { length, width, waterDepth, ground, pieces, zones } = scape;
  const cover: Cover = new Uint8Array(columns * rows);
  const at = (j: number): number => ((j + 0.5) / depths) * width;
  let free = 0;
  for (let i = 0; i < columns; i++) {
    const x = ((i + 0.5) / columns) * length;
    let bed = 0;
    for (let j = 0; j < depths; j++) {
      const y = at(j);
      const floor = Math.min(waterDepth, Math.max(0, fieldHeight(ground, x, y)));
      bed = Math.max(bed, floor);
      let planted = 0;
      for (const zone of zones) {
        if (zone.on !== null || !inside([x, y], zone.outline)) continue;
        const height = zone.planting.height.value;
        if (zone.afloat) fill(cover, i, (waterDepth - height) / waterDepth, 1);
        else fill(cover, i, floor / waterDepth, (floor + height) / waterDepth);
        planted = Math.max(planted, Math.min(height, waterDepth - floor));
      }
      free += (waterDepth - floor - planted) / (columns * depths);
    }
    fill(cover, i, 0, bed / waterDepth);
  }
  for (const piece of pieces) fillMesh(cover, piece.mesh, length, waterDepth);
  for (const zone of zones) {
    const host = zone.on === null ? undefined : pieces[zone.on];
    if (!host) continue;
    // what grows on a piece stands on its top, as wide as the area that it takes
    const top = host.mesh.positions.reduce((most, v, k) => (k % 3 === 2 ? Math.max(most, v) : most), 0);
    const half = Math.sqrt(outlineArea(zone.outline)) / 2;
    for (let i = 0; i < columns; i++) {
      const x = ((i + 0.5) / columns) * length;
      if (Math.abs(x - host.middle[0]) < half)
        fill(cover, i, top / waterDepth, (top + zone.planting.height.value) / waterDepth);
    }
  }
  const covered = cover.reduce((sum, c) => sum + c, 0);
  const solids = pieces.reduce((sum, p) => sum + p.volume * (p.shareUnderWater - p.shareInBed), 0);
  const room = length * width * waterDepth;
  return {
    view: 1 - covered / cover.length,
    volume: Math.max(0, (free * length * width - solids) / room),
  };
}
