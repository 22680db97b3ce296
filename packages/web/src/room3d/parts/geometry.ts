import { BufferAttribute, BufferGeometry, LineSegments } from "three";
import { Ink, type SharedInk } from "../ink.ts";
import { lineFragment, lineVertex } from "../shaders.ts";

export function geometryOf(
  attributes: Readonly<Record<string, readonly [values: Float32Array, size: number]>>,
  triangles?: Uint32Array,
): BufferGeometry {
  const geometry = new BufferGeometry();
  for (const [name, [values, size]] of Object.entries(attributes))
    geometry.setAttribute(name, new BufferAttribute(values, size));
  if (triangles) geometry.setIndex(new BufferAttribute(triangles, 1));
  return geometry;
}

interface LineLook {
  readonly token: `--${string}`;
  readonly alpha?: number;
  /** Length of a dash with its gap, m; 0 = whole. */
  readonly dash?: number;
  /** How far it pales towards the back. */
  readonly pale?: number;
  /** Brought forward, so that faces do not hide it. */
  readonly nearer?: number;
}

export function lineInk(
  shared: SharedInk,
  { token, alpha = 1, dash = 0, pale = 0.45, nearer = 0.0002 }: LineLook,
): Ink {
  return new Ink(shared, {
    vertex: lineVertex,
    fragment: lineFragment,
    uniforms: { uAlpha: alpha, uDash: dash, uPale: pale, uNearer: nearer },
    tokens: { uLine: token, uWater: "--d-water" },
    see: alpha < 1,
  });
}

export function lines(ends: Float32Array, ink: Ink): LineSegments {
  const drawn = new LineSegments(geometryOf({ position: [ends, 3] }), ink.material);
  drawn.frustumCulled = false;
  return drawn;
}

/** The twelve edges of a box: their ends. */
export function boxEdges(min: readonly [number, number, number], max: readonly [number, number, number]): Float32Array {
  const out: number[] = [];
  const corner = (k: number) => [k & 1 ? max[0] : min[0], k & 2 ? max[1] : min[1], k & 4 ? max[2] : min[2]];
  for (let k = 0; k < 8; k++) for (const bit of [1, 2, 4]) if (!(k & bit)) out.push(...corner(k), ...corner(k | bit));
  return Float32Array.from(out);
}
