import { type Point2, pointToSegment } from "../../geometry/index.ts";
import type { SandPath } from "./path.ts";
import { type Relief, reliefOf } from "./relief.ts";
import type { Site } from "./site.ts";

export interface BankShape {
  /** Rise per metre run. */
  readonly slope: number;
  /** Depth of the path at the front, m, and its rise per metre towards the back. */
  readonly front: number;
  readonly climb: number;
  /** Height of the banks over the path along its sides, m. */
  readonly step: number;
  /** Highest ground of the banks, m. */
  readonly left: number;
  readonly right: number;
}

/**
 * Greatest depth of sand in a path, m, and as a share of the depth of water: fine sand deeper than 80 mm tends to lose its
 * oxygen (common practice). Design values.
 */
const deepestSand = 0.06;
const mostSand = 0.2;

/** Reliefs of a path and of the banks on either side, which rise from it towards the sides and the back. */
export function banksBeside(site: Site, path: SandPath, shape: BankShape): Record<"floor" | "left" | "right", Relief> {
  const { length, width, depth } = site;
  const deepest = Math.min(deepestSand, Math.max(shape.front, mostSand * depth));
  const lines = path.lines.map((line) => line.map(([u, v]): Point2 => [u * length, v * width]));
  const sand = (y: number): number => Math.min(deepest, shape.front + shape.climb * y);
  const bank = (line: readonly Point2[], most: number, on: (u: number, v: number) => boolean): Relief =>
    reliefOf(
      site,
      (x, y) => {
        const v = y / width;
        if (!on(x / length, v)) return sand(y) + shape.step;
        const away = Math.min(...line.slice(1).map((to, k) => pointToSegment([x, y], line[k]!, to)));
        // the front stays low, so that what stands behind is seen
        const least = sand(y) + shape.step;
        return Math.min(Math.max(least, most), least + shape.slope * away * (0.35 + 0.65 * v));
      },
      shape.slope,
      0.012,
    );
  return {
    floor: reliefOf(site, (_, y) => sand(y), shape.slope, 0.01),
    left: bank(lines[0]!, shape.left, (u, v) => u < path.left(v)),
    right: bank(lines[1]!, shape.right, (u, v) => u > path.right(v)),
  };
}
