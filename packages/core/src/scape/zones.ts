import { findPlant, type PlantFact } from "../facts/index.ts";
import { outlineArea, type Point2 } from "../geometry/index.ts";
import { onFloor, type Plan, type PlantingPlan } from "../plan/index.ts";
import type { PlacedPiece } from "./pieces.ts";

/** One planting with the ground, stone, wood or surface that it takes. */
export interface Zone {
  /** Position in the plan's list. */
  readonly index: number;
  /** Letter in the plant key: A, B ... Z, AA. */
  readonly key: string;
  readonly planting: PlantingPlan;
  readonly fact: PlantFact;
  /** Seen from above, m. */
  readonly outline: readonly Point2[];
  /** Whether the owner drew it; else it is a rounded area of the cover given, about its middle. */
  readonly drawn: boolean;
  /** m² */
  readonly area: number;
  /** Position in the plan's hardscape of what it grows on; null = in the ground or afloat. */
  readonly on: number | null;
  readonly afloat: boolean;
  /** Portions to plant. */
  readonly portions: number;
}

/** A, B ... Z, AA, AB. */
export function letterOf(index: number): string {
  const last = String.fromCharCode(65 + (index % 26));
  return index < 26 ? last : letterOf(Math.floor(index / 26) - 1) + last;
}

const corners = 24;
/** Area of |x|^4 + |y|^4 = 1 drawn with this many corners, by the same formula as the outline itself. */
const squircle = Array.from({ length: corners }, (_, i): Point2 => {
  const [c, s] = [Math.cos((2 * Math.PI * i) / corners), Math.sin((2 * Math.PI * i) / corners)];
  return [Math.sign(c) * Math.sqrt(Math.abs(c)), Math.sign(s) * Math.sqrt(Math.abs(s))];
});
const squircleArea = outlineArea(squircle);

/**
 * A rounded area about a middle, shaped like the floor, kept between the panes; where it would not fit, a rectangle that
 * does. Its area is the one asked for, which must be no more than the floor's.
 */
export function areaAbout([x, y]: Point2, area: number, length: number, width: number): readonly Point2[] {
  const scale = Math.sqrt(area / squircleArea / (length * width));
  const [a, b] = [scale * length, scale * width];
  const within = (middle: number, half: number, extent: number): number =>
    Math.min(extent - half, Math.max(half, middle));
  if (a <= length / 2) {
    const [cx, cy] = [within(x, a, length), within(y, b, width)];
    return squircle.map(([u, v]) => [cx + a * u, cy + b * v] as const);
  }
  const share = Math.sqrt(Math.min(1, area / (length * width)));
  const [w, d] = [(share * length) / 2, (share * width) / 2];
  const [cx, cy] = [within(x, w, length), within(y, d, width)];
  return [
    [cx - w, cy - d],
    [cx + w, cy - d],
    [cx + w, cy + d],
    [cx - w, cy + d],
  ];
}

/** Portions for an area at the species' usual density; at least one. */
export function portionsFor(fact: PlantFact, area: number): number {
  return Math.max(1, Math.ceil(fact.density * area - 1e-9));
}

/** The plantings of a plan, each with its area. */
export function zonesOf(plan: Plan, pieces: readonly PlacedPiece[], length: number, width: number): readonly Zone[] {
  return plan.plants.map((planting, index) => {
    const fact = findPlant(planting.species)!;
    const piece = planting.on === null ? undefined : pieces.find((p) => p.names.includes(planting.on!));
    const asked = planting.cover.value * length * width;
    const outline = planting.outline
      ? onFloor(planting.outline, length, width)
      : areaAbout(
          piece ? piece.middle : [planting.at.value * length, planting.depth.value * width],
          asked,
          length,
          width,
        );
    const area = planting.outline ? outlineArea(outline) : asked;
    return {
      index,
      key: letterOf(index),
      planting,
      fact,
      outline,
      drawn: planting.outline !== null,
      area,
      on: piece ? piece.index : null,
      afloat: fact.form === "floating",
      portions: planting.portions?.value ?? portionsFor(fact, area),
    };
  });
}
