import type { Mesh } from "./mesh.ts";
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

/** A tube that has been grown, with its rings; `taken` marks faces that a branch has opened or lies beside. */
export interface Tube {
  readonly rings: readonly Ring[];
  readonly faces: Uint8Array;
  readonly taken: Uint8Array;
}

/** Grows tubes out of each other into one closed surface, so that no volume is counted twice. */
export class TubeGrower {
  private readonly places: Point3[] = [];
  private readonly triangles: number[] = [];
  private readonly tubes: Tube[] = [];
  private readonly rough: (place: Point3) => number;

  /** @param rough what the radius is multiplied with at a place, about 1. */
  constructor(rough: (place: Point3) => number) {
    this.rough = rough;
  }

  /** A first tube with a blunt foot. */
  trunk(limb: Limb): Tube {
    const along = unit(minus(limb.line[1]!, limb.line[0]!));
    const first = this.ring(limb, 0, along, across(along));
    const foot = this.add(plus(limb.line[0]!, along, -0.25 * limb.radii[0]!));
    first.corners.forEach((corner, k) => {
      this.triangles.push(foot, first.corners[(k + 1) % sides]!, corner);
    });
    return this.grow(limb, [first], across(along));
  }

  /**
   * A tube out of the side of another, at the patch nearest to a place whose face looks most along a direction: `line`
   * gives its middle line from the middle of that patch on. False when every patch near is taken.
   */
  branch(parent: Tube, near: Point3, towards: Point3, limb: (start: Point3) => Limb | null): Tube | null {
    const patch = this.patch(parent, near, towards);
    if (!patch) return null;
    const { ring, side } = patch;
    const corner = (i: number, k: number): number => parent.rings[ring + i]!.corners[(side + k) % sides]!;
    const rim = [
      corner(0, 0),
      corner(0, 1),
      corner(0, 2),
      corner(1, 2),
      corner(2, 2),
      corner(2, 1),
      corner(2, 0),
      corner(1, 0),
    ];
    const middle = rim.reduce<Point3>((sum, c) => plus(sum, this.places[c]!, 1 / sides), [0, 0, 0]);
    const grown = limb(middle);
    if (!grown) return null;
    for (let i = -1; i <= 2; i++) {
      for (let k = -1; k <= 2; k++) {
        if (ring + i < 0 || ring + i >= parent.rings.length - 1) continue;
        const face = (ring + i) * sides + ((side + k + sides) % sides);
        parent.taken[face] = 1;
        if ((i === 0 || i === 1) && (k === 0 || k === 1)) parent.faces[face] = 0;
      }
    }
    const along = unit(minus(grown.line[1]!, grown.line[0]!));
    const first = minus(this.places[rim[0]!]!, middle);
    const sideways = unit(plus(first, along, -dot(first, along)));
    return this.grow(grown, [{ corners: rim, middle }], sideways);
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
        if (value <= most || this.isTaken(parent, ring, side)) continue;
        most = value;
        best = { ring, side };
      }
    }
    return best;
  }

  private isTaken(tube: Tube, ring: number, side: number): boolean {
    for (const i of [0, 1])
      for (const k of [0, 1]) if (tube.taken[(ring + i) * sides + ((side + k) % sides)]) return true;
    return false;
  }

  /** Rings along a limb after the one that is there, faces between them, and a rounded tip. */
  private grow(limb: Limb, rings: Ring[], sideways: Point3): Tube {
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
    last.corners.forEach((corner, k) => {
      this.triangles.push(tip, corner, last.corners[(k + 1) % sides]!);
    });
    const faces = (rings.length - 1) * sides;
    const tube = { rings, faces: new Uint8Array(faces).fill(1), taken: new Uint8Array(faces) };
    this.tubes.push(tube);
    return tube;
  }

  private ring(limb: Limb, k: number, along: Point3, frame: Point3): Ring {
    const middle = limb.line[k]!;
    const other = cross(along, frame);
    const corners = Array.from({ length: sides }, (_, n) => {
      const turn = (2 * Math.PI * n) / sides;
      const out = plus([0, 0, 0], frame, Math.cos(turn));
      const place = plus(middle, plus(out, other, Math.sin(turn)), limb.radii[k]!);
      return this.add(plus(middle, minus(place, middle), this.rough(place)));
    });
    return { corners, middle };
  }

  private add(place: Point3): number {
    this.places.push(place);
    return this.places.length - 1;
  }

  /** The whole surface, without the corners inside opened patches. */
  mesh(): Mesh {
    const list = [...this.triangles];
    for (const { rings, faces } of this.tubes) {
      for (let ring = 0; ring < rings.length - 1; ring++) {
        for (let k = 0; k < sides; k++) {
          if (!faces[ring * sides + k]) continue;
          const next = (k + 1) % sides;
          const [low, high] = [rings[ring]!.corners, rings[ring + 1]!.corners];
          list.push(low[k]!, low[next]!, high[next]!, low[k]!, high[next]!, high[k]!);
        }
      }
    }
    const kept = new Map<number, number>();
    const triangles = list.map((corner) => {
      if (!kept.has(corner)) kept.set(corner, kept.size);
      return kept.get(corner)!;
    });
    const positions = [...kept.keys()].flatMap((corner) => [...this.places[corner]!]);
    return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
  }
}

function across(along: Point3): Point3 {
  return unit(cross(along, Math.abs(along[2]) < 0.8 ? [0, 0, 1] : [1, 0, 0]));
}
