import { add, cross, dot, minus, times, towards, unit, type Vector } from "./vector.ts";

/** What a part of a plant is, for the pen: each is inked in its own way. */
const partKinds = { leaf: 0, blade: 1, thread: 2, root: 3, body: 4 } as const;
export type PartKind = keyof typeof partKinds;

/** One plant as triangles, m; its foot at the origin. */
export interface PlantMesh {
  readonly positions: Float32Array;
  /** Of each corner: share along its part, place across it (-1 to 1), shade (0 under to 1 young), kind of part. */
  readonly marks: Float32Array;
  readonly triangles: Uint32Array;
}

/** The middle line of a part: a parabola from its base by a control point to its tip. */
export interface Rib {
  readonly base: Vector;
  readonly control: Vector;
  readonly tip: Vector;
}

export function ribAt({ base, control, tip }: Rib, t: number): Vector {
  const s = 1 - t;
  return add(add(times(base, s * s), times(control, 2 * s * t)), times(tip, t * t));
}

export function ribTangent({ base, control, tip }: Rib, t: number): Vector {
  return unit(add(times(minus(control, base), 1 - t), times(minus(tip, control), t)));
}

/** A rib that leaves its base along a heading and a rise (rad) and droops by a share of its length. */
export function ribFrom(base: Vector, heading: number, rise: number, length: number, droop: number): Rib {
  const way = towards(heading, rise);
  const out = towards(heading, 0);
  return {
    base,
    control: add(base, times(way, length * 0.55)),
    tip: add(add(base, times(way, length * (1 - 0.3 * droop))), [
      out[0] * length * 0.3 * droop,
      out[1] * length * 0.3 * droop,
      -length * 0.6 * droop,
    ]),
  };
}

/** Half of the width at a share of the length, against the widest. */
export type Profile = (t: number) => number;

export const profiles = {
  oval: (t) => 0.04 + 0.96 * Math.sin(Math.PI * t ** 0.8) ** 0.85,
  lance: (t) => 0.04 + 0.96 * Math.sin(Math.PI * t ** 0.62) ** 1.1,
  ribbon: (t) => (t < 0.75 ? 0.8 + 0.27 * t : 1 - ((t - 0.75) / 0.25) ** 2 * 0.95),
  round: (t) => 0.05 + 0.95 * Math.sqrt(Math.max(0, 1 - (2 * t - 1) ** 2)),
  blade: (t) => 1 - 0.92 * t ** 1.5,
  even: () => 1,
} as const satisfies Readonly<Record<string, Profile>>;

interface LeafForm {
  readonly rib: Rib;
  /** Half of the widest width, m. */
  readonly half: number;
  readonly profile: Profile;
  /** Direction across it. */
  readonly side: Vector;
  readonly kind: PartKind;
  /** 0 old and under the others, 1 young and on top. */
  readonly shade: number;
  /** Cross rows, 2 or more. */
  readonly rows: number;
  /** How far its halves fold up, share of the half width; 0 = flat, with no corners along its middle. */
  readonly fold?: number;
  /** Waves along its edges, share of the half width. */
  readonly ripple?: number;
}

/** Gathers the parts of one plant. */
export class Sprout {
  readonly #positions: number[] = [];
  readonly #marks: number[] = [];
  readonly #triangles: number[] = [];

  get corners(): number {
    return this.#positions.length / 3;
  }

  corner(place: Vector, along: number, across: number, shade: number, kind: PartKind): number {
    this.#positions.push(...place);
    this.#marks.push(along, across, shade, partKinds[kind]);
    return this.corners - 1;
  }

  triangle(a: number, b: number, c: number): void {
    this.#triangles.push(a, b, c);
  }

  /** A flat or folded part along a rib. */
  leaf({ rib, half, profile, side, kind, shade, rows, fold = 0, ripple = 0 }: LeafForm): void {
    const columns = fold === 0 ? 2 : 3;
    const first = this.corners;
    for (let row = 0; row < rows; row++) {
      const t = row / (rows - 1);
      const middle = ribAt(rib, t);
      const tangent = ribTangent(rib, t);
      const across = unit(minus(side, times(tangent, dot(side, tangent))));
      const up = cross(tangent, across);
      const wide = half * profile(t);
      for (let column = 0; column < columns; column++) {
        const v = (2 * column) / (columns - 1) - 1;
        const lift = wide * (Math.abs(v) * fold + v * ripple * Math.sin(11 * t + v));
        this.corner(add(add(middle, times(across, v * wide)), times(up, lift)), t, v, shade, kind);
      }
      if (row === 0) continue;
      const at = first + (row - 1) * columns;
      for (let column = 0; column < columns - 1; column++) {
        const [a, b, c, d] = [at + column, at + column + 1, at + columns + column, at + columns + column + 1];
        this.triangle(a, b, d);
        this.triangle(a, d, c);
      }
    }
  }

  /** A round stalk or stem of three sides. */
  stalk(rib: Rib, half: number, shade: number, kind: PartKind = "thread", rows = 4): void {
    const first = this.corners;
    for (let row = 0; row < rows; row++) {
      const t = row / (rows - 1);
      const tangent = ribTangent(rib, t);
      const across = unit(cross(tangent, Math.abs(tangent[2]) > 0.9 ? [1, 0, 0] : [0, 0, 1]));
      const other = cross(tangent, across);
      for (let k = 0; k < 3; k++) {
        const turn = (2 * Math.PI * k) / 3;
        const out = add(times(across, Math.cos(turn)), times(other, Math.sin(turn)));
        this.corner(add(ribAt(rib, t), times(out, half * (1 - 0.35 * t))), t, 0, shade, kind);
      }
      if (row === 0) continue;
      for (let k = 0; k < 3; k++) {
        const [a, b] = [first + (row - 1) * 3 + k, first + (row - 1) * 3 + ((k + 1) % 3)];
        this.triangle(a, b, b + 3);
        this.triangle(a, b + 3, a + 3);
      }
    }
  }

  /** The upper part of a rounded body (a cushion, a bulb), from its foot at `at`; m. */
  body(at: Vector, radius: number, height: number, shade: number, rough: (k: number) => number): void {
    const [rings, sides] = [4, 9];
    const first = this.corners;
    for (let ring = 0; ring < rings; ring++) {
      const turn = (ring / rings) * (Math.PI / 2);
      for (let k = 0; k < sides; k++) {
        const reach = radius * Math.cos(turn) * rough(ring * sides + k);
        const a = (2 * Math.PI * (k + 0.5 * (ring % 2))) / sides;
        const place: Vector = [Math.cos(a) * reach, Math.sin(a) * reach, height * Math.sin(turn)];
        this.corner(add(at, place), ring / rings, 0, shade, "body");
      }
    }
    const top = this.corner(add(at, [0, 0, height]), 1, 0, shade, "body");
    for (let ring = 0; ring < rings; ring++) {
      for (let k = 0; k < sides; k++) {
        const [a, b] = [first + ring * sides + k, first + ring * sides + ((k + 1) % sides)];
        if (ring === rings - 1) this.triangle(a, b, top);
        else {
          this.triangle(a, b, b + sides);
          this.triangle(a, b + sides, a + sides);
        }
      }
    }
  }

  /** Draws all upright lengths in or out so that the highest corner stands at a height, m; by no more than `most`. */
  raiseTo(height: number, most: number): void {
    let high = 0;
    for (let k = 2; k < this.#positions.length; k += 3) high = Math.max(high, this.#positions[k]!);
    if (!(high > 0)) return;
    const factor = Math.min(most, Math.max(1 / most, height / high));
    for (let k = 2; k < this.#positions.length; k += 3) this.#positions[k]! *= factor;
  }

  /** Draws in what reaches further from the axis than a radius, m; to no less than half. */
  keepWithin(radius: number): void {
    let out = 0;
    for (let k = 0; k < this.#positions.length; k += 3)
      out = Math.max(out, Math.hypot(this.#positions[k]!, this.#positions[k + 1]!));
    if (!(out > radius)) return;
    const factor = Math.max(0.5, radius / out);
    for (let k = 0; k < this.#positions.length; k += 3) {
      this.#positions[k]! *= factor;
      this.#positions[k + 1]! *= factor;
    }
  }

  mesh(): PlantMesh {
    return {
      positions: Float32Array.from(this.#positions),
      marks: Float32Array.from(this.#marks),
      triangles: Uint32Array.from(this.#triangles),
    };
  }
}
