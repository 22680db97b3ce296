import { boxesMeet } from "./boxes.ts";
import type { Mesh } from "./mesh.ts";
import { createCutTest } from "./self-cut.ts";
import { cross, dot, minus, type Point3, plus, unit } from "./vector.ts";

/** Corners round every ring of a tube; a branch springs from a patch of two by two faces, whose rim has as many. */
const sides = 8;

/** The middle line of a tube: places with the radius there, m. */
export interface Limb {
  readonly line: readonly Point3[];
  readonly radii: readonly number[];
}

interface Ring {
  readonly corners: readonly number[];
  readonly middle: Point3;
}

/** A tube that has been grown. */
export interface Tube {
  readonly rings: readonly Ring[];
  /** 0 for a face that a branch has opened. */
  readonly faces: Uint8Array;
  /** 1 for a face that a branch has opened or that lies beside such. */
  readonly taken: Uint8Array;
  /** Triangles of its blunt foot and its tip. */
  readonly caps: readonly number[];
}

/** Grows tubes out of each other into one closed surface that cuts itself nowhere, so that no volume is counted twice. */
export class TubeGrower {
  private readonly places: Point3[] = [];
  /** The places in a row, for the cutting tests. */
  private flat: Float64Array<ArrayBuffer> = new Float64Array(3 * 1024);
  private readonly tubes: Tube[] = [];
  private readonly rough: (place: Point3) => number;
  private readonly touch: number;

  /**
   * @param rough what the radius is multiplied with at a place, about 1.
   * @param touch cuts shorter than this count as touching, m.
   */
  constructor(rough: (place: Point3) => number, touch: number) {
    this.rough = rough;
    this.touch = touch;
  }

  /** A first tube with a blunt foot; null when it cuts itself. */
  trunk(limb: Limb): Tube | null {
    const along = unit(minus(limb.line[1]!, limb.line[0]!));
    const frame = across(along);
    const first = this.ring(limb, 0, along, frame);
    const foot = this.add(plus(limb.line[0]!, along, -0.25 * limb.radii[0]!));
    const caps = first.corners.flatMap((corner, k) => [foot, first.corners[(k + 1) % sides]!, corner]);
    return this.accepted(this.grow(limb, [first], frame, caps));
  }

  /**
   * A tube out of the side of another, at the patch nearest to a place whose face looks most along a direction; `limb`
   * gives its middle line from the middle of that patch on, which looks `out`. Null, and nothing changed, when every patch near is taken,
   * there is no such line, or the tube would cut the surface that is there.
   */
  branch(parent: Tube, near: Point3, towards: Point3, limb: (start: Point3, out: Point3) => Limb | null): Tube | null {
    const patch = this.patch(parent, near, towards);
    if (!patch) return null;
    const { ring, side } = patch;
    const corner = (i: number, k: number): number => parent.rings[ring + i]!.corners[(side + k) % sides]!;
    // Once round the patch, counter-clockwise from outside.
    const rim = [
      [0, 0],
      [0, 1],
      [0, 2],
      [1, 2],
      [2, 2],
      [2, 1],
      [2, 0],
      [1, 0],
    ].map(([i, k]) => corner(i!, k!));
    const middle = rim.reduce<Point3>((sum, c) => plus(sum, this.places[c]!, 1 / sides), [0, 0, 0]);
    const grown = limb(middle, unit(minus(this.places[corner(1, 1)]!, parent.rings[ring + 1]!.middle)));
    if (!grown) return null;
    const faces = parent.faces.slice();
    const taken = parent.taken.slice();
    for (let i = -1; i <= 2; i++) {
      if (ring + i < 0 || ring + i >= parent.rings.length - 1) continue;
      for (let k = -1; k <= 2; k++) {
        const face = (ring + i) * sides + ((side + k + sides) % sides);
        parent.taken[face] = 1;
        if ((i === 0 || i === 1) && (k === 0 || k === 1)) parent.faces[face] = 0;
      }
    }
    const before = this.places.length;
    const along = unit(minus(grown.line[1]!, grown.line[0]!));
    const first = minus(this.places[rim[0]!]!, middle);
    const frame = unit(plus(first, along, -dot(first, along)));
    const tube = this.accepted(this.grow(grown, [{ corners: rim, middle }], frame, []));
    if (tube) return tube;
    this.places.length = before;
    parent.faces.set(faces);
    parent.taken.set(taken);
    return null;
  }

  private patch(parent: Tube, near: Point3, towards: Point3): { ring: number; side: number } | null {
    let best: { ring: number; side: number } | null = null;
    let most = 0.2;
    for (let ring = 1; ring < parent.rings.length - 3; ring++) {
      const { middle, corners } = parent.rings[ring + 1]!;
      const away = Math.hypot(...minus(middle, near));
      const radius = Math.hypot(...minus(this.places[corners[0]!]!, middle));
      for (let side = 0; side < sides; side++) {
        const looks = dot(unit(minus(this.places[corners[(side + 1) % sides]!]!, middle)), towards);
        const value = looks - away / (6 * radius);
        if (value <= most || isTaken(parent, ring, side)) continue;
        most = value;
        best = { ring, side };
      }
    }
    return best;
  }

  /** Rings along a limb after the one that is there, and a rounded tip. */
  private grow(limb: Limb, rings: Ring[], sideways: Point3, foot: readonly number[]): Tube {
    let frame = sideways;
    const count = limb.line.length;
    for (let k = 1; k < count; k++) {
      const along = unit(minus(limb.line[Math.min(k + 1, count - 1)]!, limb.line[k - 1]!));
      // Carried along without twist.
      frame = unit(plus(frame, along, -dot(frame, along)));
      rings.push(this.ring(limb, k, along, frame));
    }
    const last = rings.at(-1)!;
    const along = unit(minus(limb.line[count - 1]!, limb.line[count - 2]!));
    const tip = this.add(plus(last.middle, along, 0.8 * limb.radii[count - 1]!));
    const caps = [...foot, ...last.corners.flatMap((corner, k) => [tip, corner, last.corners[(k + 1) % sides]!])];
    const faces = (rings.length - 1) * sides;
    return { rings, faces: new Uint8Array(faces).fill(1), taken: new Uint8Array(faces), caps };
  }

  private ring(limb: Limb, k: number, along: Point3, frame: Point3): Ring {
    const middle = limb.line[k]!;
    const other = cross(along, frame);
    const corners = Array.from({ length: sides }, (_, n) => {
      const turn = (2 * Math.PI * n) / sides;
      const out = plus(plus([0, 0, 0], frame, Math.cos(turn)), other, Math.sin(turn));
      return this.add(plus(middle, out, limb.radii[k]! * this.rough(plus(middle, out, limb.radii[k]!))));
    });
    return { corners, middle };
  }

  private add(place: Point3): number {
    const at = 3 * this.places.length;
    if (at === this.flat.length) {
      const more = new Float64Array(2 * at);
      more.set(this.flat);
      this.flat = more;
    }
    this.flat.set(place, at);
    this.places.push(place);
    return this.places.length - 1;
  }

  /** Takes a tube in when it cuts neither itself nor those that are there. */
  private accepted(tube: Tube): Tube | null {
    if (this.cuts(trianglesOf(tube))) return null;
    this.tubes.push(tube);
    return tube;
  }

  /** Whether any of these triangles cuts another of them or of the tubes that are there. */
  private cuts(own: readonly number[]): boolean {
    const around = this.boxOf(own, 0, own.length);
    const list = [...own];
    for (const tube of this.tubes) {
      const there = trianglesOf(tube);
      for (let t = 0; t < there.length; t += 3) {
        if (boxesMeet(this.boxOf(there, t, t + 3), 0, around, 0)) list.push(there[t]!, there[t + 1]!, there[t + 2]!);
      }
    }
    const boxes = new Float64Array(2 * list.length);
    for (let t = 0; t < list.length; t += 3) boxes.set(this.boxOf(list, t, t + 3), 2 * t);
    const test = createCutTest(this.flat, Uint32Array.from(list), this.touch);
    for (let a = 0; a < own.length; a += 3) {
      for (let b = a + 3; b < list.length; b += 3) {
        if (boxesMeet(boxes, 2 * a, boxes, 2 * b) && test.cut(a, b) > this.touch) return true;
      }
    }
    return false;
  }

  private readonly box = new Float64Array(6);

  /** Low x, y, z and high x, y, z of some corners of a list; one triangle's is good until the next is asked. */
  private boxOf(list: readonly number[], from: number, to: number): Float64Array {
    const box = to - from === 3 ? this.box : new Float64Array(6);
    box.fill(Infinity, 0, 3).fill(-Infinity, 3);
    for (let k = from; k < to; k++) {
      const at = 3 * list[k]!;
      for (let axis = 0; axis < 3; axis++) {
        const value = this.flat[at + axis]!;
        if (value < box[axis]!) box[axis] = value;
        if (value > box[3 + axis]!) box[3 + axis] = value;
      }
    }
    return box;
  }

  /** The whole surface, without the corners inside opened patches. */
  mesh(): Mesh {
    const kept = new Map<number, number>();
    const triangles = this.tubes.flatMap(trianglesOf).map((corner) => {
      if (!kept.has(corner)) kept.set(corner, kept.size);
      return kept.get(corner)!;
    });
    const positions = [...kept.keys()].flatMap((corner) => [...this.places[corner]!]);
    return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
  }
}

function isTaken(tube: Tube, ring: number, side: number): boolean {
  for (const i of [0, 1]) {
    for (const k of [0, 1]) if (tube.taken[(ring + i) * sides + ((side + k) % sides)]) return true;
  }
  return false;
}

function trianglesOf({ rings, faces, caps }: Tube): number[] {
  const list = [...caps];
  for (let ring = 0; ring < rings.length - 1; ring++) {
    const [low, high] = [rings[ring]!.corners, rings[ring + 1]!.corners];
    for (let k = 0; k < sides; k++) {
      if (!faces[ring * sides + k]) continue;
      const next = (k + 1) % sides;
      list.push(low[k]!, low[next]!, high[next]!, low[k]!, high[next]!, high[k]!);
    }
  }
  return list;
}

function across(along: Point3): Point3 {
  return unit(cross(along, Math.abs(along[2]) < 0.8 ? [0, 0, 1] : [1, 0, 0]));
}
