/** A stone or a piece of wood drawn from its own form: tones by how its faces lie to the light, folds, beds and grain. */
import type { Mesh, Point3 } from "../solids/index.ts";
import type { Box, Point } from "./geometry.ts";
import { type DrawingNode, group, paths } from "./node.ts";
import { Pen } from "./pen.ts";
import { between, type Random } from "./random.ts";

/** How a drawing looks at the tank. */
export interface View {
  /** Page place of a place in the tank, m. */
  readonly project: (x: number, y: number, z: number) => Point;
  /** Towards the reader, unit vector in the tank's coordinates. */
  readonly toReader: Point3;
  /** Towards the light, unit vector in the tank's coordinates. */
  readonly toLight: Point3;
}

/** What is drawn of a piece. */
export interface PieceForm {
  readonly kind: "stone" | "wood";
  readonly mesh: Mesh;
  /** Square to the beds of a stone, along the grain of wood. */
  readonly grain: Point3;
  readonly texture: "layered" | "faceted" | "rounded" | "irregular";
}

interface Fold {
  readonly from: number;
  readonly to: number;
  readonly faces: readonly [number, number];
}

interface Faces {
  /** Unit normals, face by face. */
  readonly normals: Float64Array;
  /** Edges at which the surface bends sharply. */
  readonly folds: readonly Fold[];
}

/** Faces and folds of meshes already drawn: a piece that is only moved keeps its triangles. */
const known = new WeakMap<Mesh, Faces>();

/** Cosine of the least bend that is drawn as a fold. Design value. */
const sharp = Math.cos((34 * Math.PI) / 180);

function facesOf(mesh: Mesh): Faces {
  const before = known.get(mesh);
  if (before) return before;
  const { positions, triangles } = mesh;
  const normals = new Float64Array(triangles.length);
  const edges = new Map<number, number>();
  const folds: Fold[] = [];
  const corners = positions.length / 3;
  for (let f = 0; f < triangles.length / 3; f++) {
    const [a, b, c] = [3 * triangles[3 * f]!, 3 * triangles[3 * f + 1]!, 3 * triangles[3 * f + 2]!];
    const u = [0, 1, 2].map((k) => positions[b + k]! - positions[a + k]!) as [number, number, number];
    const v = [0, 1, 2].map((k) => positions[c + k]! - positions[a + k]!) as [number, number, number];
    const n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]] as const;
    const size = Math.hypot(...n) || 1;
    for (let k = 0; k < 3; k++) normals[3 * f + k] = n[k]! / size;
  }
  const dot = (f: number, g: number): number =>
    normals[3 * f]! * normals[3 * g]! +
    normals[3 * f + 1]! * normals[3 * g + 1]! +
    normals[3 * f + 2]! * normals[3 * g + 2]!;
  for (let f = 0; f < triangles.length / 3; f++) {
    for (let k = 0; k < 3; k++) {
      const [from, to] = [triangles[3 * f + k]!, triangles[3 * f + ((k + 1) % 3)]!];
      const other = edges.get(to * corners + from);
      if (other === undefined) edges.set(from * corners + to, f);
      else if (dot(f, other) < sharp) folds.push({ from, to, faces: [f, other] });
    }
  }
  const made = { normals, folds };
  known.set(mesh, made);
  return made;
}

export interface DrawnMesh {
  readonly nodes: readonly DrawingNode[];
  /** What it covers of the page, px. */
  readonly box: Box;
  /** Its faces towards the reader, on the page. */
  readonly faces: readonly (readonly [Point, Point, Point])[];
}

/** Tones from lit to shaded: the least cosine of each. Design values. */
const tones = [0.72, 0.42, 0.08] as const;

function toneOf(lit: number): 1 | 2 | 3 | 4 {
  return lit > tones[0] ? 1 : lit > tones[1] ? 2 : lit > tones[2] ? 3 : 4;
}

/** Faces that look away by less than this are still drawn, so that no gap opens at the outline. */
const grazing = -1e-6;

/** Draws a piece. @param pitch px between the lines of beds and grain; @param above heights of the ground below a place, m; what lies under it is left out */
export function drawMesh(
  form: PieceForm,
  view: View,
  random: Random,
  pitch: number,
  above?: (x: number, y: number) => number,
): DrawnMesh {
  const { mesh, kind } = form;
  const { positions, triangles } = mesh;
  const { normals, folds } = facesOf(mesh);
  const [rx, ry, rz] = view.toReader;
  const [lx, ly, lz] = view.toLight;
  const points: Point[] = [];
  for (let i = 0; i < positions.length; i += 3) {
    points.push(view.project(positions[i]!, positions[i + 1]!, positions[i + 2]!));
  }
  const seen = (f: number): boolean =>
    normals[3 * f]! * rx + normals[3 * f + 1]! * ry + normals[3 * f + 2]! * rz > grazing;
  const open = (corner: number): boolean =>
    !above || positions[3 * corner + 2]! >= above(positions[3 * corner]!, positions[3 * corner + 1]!);
  const faces: (readonly [Point, Point, Point])[] = [];
  const whole = new Pen();
  const byTone = [new Pen(), new Pen(), new Pen(), new Pen()];
  const box = { left: Infinity, right: -Infinity, top: Infinity, bottom: -Infinity };
  const beds = new Pen();
  for (let f = 0; f < triangles.length / 3; f++) {
    if (!seen(f)) continue;
    const [a, b, c] = [triangles[3 * f]!, triangles[3 * f + 1]!, triangles[3 * f + 2]!];
    if (!open(a) && !open(b) && !open(c)) continue;
    const face = [points[a]!, points[b]!, points[c]!] as const;
    faces.push(face);
    for (const [x, y] of face) {
      box.left = Math.min(box.left, x);
      box.right = Math.max(box.right, x);
      box.top = Math.min(box.top, y);
      box.bottom = Math.max(box.bottom, y);
    }
    whole.polyline(face, true);
    const lit = normals[3 * f]! * lx + normals[3 * f + 1]! * ly + normals[3 * f + 2]! * lz;
    byTone[toneOf(lit) - 1]!.polyline(face, true);
    if (form.texture === "layered" || kind === "wood") bedLines(form, f, face, view, random, pitch, beds);
  }
  const creases = new Pen();
  for (const { from, to, faces: pair } of folds) {
    if (!(seen(pair[0]) && seen(pair[1])) || !open(from) || !open(to)) continue;
    creases.polyline([points[from]!, points[to]!]);
  }
  const nodes =
    kind === "wood"
      ? paths(
          ["d-wood", whole.d],
          ["d-wood-shade", byTone[3]!.d + byTone[2]!.d],
          ["d-bark", beds.d],
          ["d-bark", creases.d],
        )
      : paths(
          ["d-stone d-mass d-tone-2", whole.d],
          ...([4, 3, 1] as const).map((k) => [`d-face d-tone-${k}`, byTone[k - 1]!.d] as const),
          ["d-crease", creases.d],
          ["d-bed", beds.d],
        );
  return { nodes, box, faces };
}

/** Where planes of the material cut one face: beds lie square to the grain of a stone, bark runs along that of wood. */
function bedLines(
  { kind, grain, mesh }: PieceForm,
  f: number,
  face: readonly [Point, Point, Point],
  view: View,
  random: Random,
  pitch: number,
  pen: Pen,
): void {
  const { positions, triangles } = mesh;
  const [gx, gy, gz] = kind === "stone" ? grain : across(grain, view.toReader);
  const at = (k: 0 | 1 | 2): number => {
    const i = 3 * triangles[3 * f + k]!;
    return gx * positions[i]! + gy * positions[i + 1]! + gz * positions[i + 2]!;
  };
  const values = [at(0), at(1), at(2)] as const;
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const [px, py] = view.project(0, 0, 0);
  const [qx, qy] = view.project(1, 1, 1);
  const step = pitch / Math.max(1, Math.max(Math.abs(qx - px), Math.abs(qy - py)));
  if (!(step > 0) || (high - low) / step > 200) return;
  for (let k = Math.ceil(low / step); k * step < high; k++) {
    const level = k * step;
    const cut: Point[] = [];
    for (const [i, j] of [
      [0, 1],
      [1, 2],
      [2, 0],
    ] as const) {
      const [u, v] = [values[i], values[j]];
      if (u < level === v < level) continue;
      const t = (level - u) / (v - u);
      cut.push([face[i][0] + (face[j][0] - face[i][0]) * t, face[i][1] + (face[j][1] - face[i][1]) * t]);
    }
    const [from, to] = cut;
    // broken here and there, as beds weather out
    if (!from || !to || hashed(k, f) < 0.34 + between(random, 0, 0.1)) continue;
    if (Math.hypot(to[0] - from[0], to[1] - from[1]) > 1.2) pen.polyline([from, to]);
  }
}

/** 0..1 from two whole numbers, so that neighbours on one bed break alike. */
function hashed(k: number, f: number): number {
  const h = Math.imul(k ^ 0x9e3779b9, 0x85ebca6b) ^ Math.imul(f >> 3, 0xc2b2ae35);
  return ((h ^ (h >>> 15)) >>> 0) / 4294967296;
}

/** Square to the grain and to the reader's line of sight: lines of equal height along it run with the grain. */
function across([ax, ay, az]: Point3, [bx, by, bz]: Point3): Point3 {
  const [x, y, z] = [ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx];
  const size = Math.hypot(x, y, z) || 1;
  return [x / size, y / size, z / size];
}

/** A group that a hand can take hold of. */
export function held(figure: string, className: string, nodes: readonly DrawingNode[]): DrawingNode {
  return { ...group(className, nodes), figure };
}

/** Page height of the uppermost face at page x; null where there is none. */
function crestAt(faces: DrawnMesh["faces"], x: number): number | null {
  let top: number | null = null;
  for (const face of faces) {
    for (let i = 0; i < 3; i++) {
      const [a, b] = [face[i]!, face[(i + 1) % 3]!];
      if (a[0] > x === b[0] > x) continue;
      const y = a[1] + ((b[1] - a[1]) * (x - a[0])) / (b[0] - a[0]);
      top = top === null ? y : Math.min(top, y);
    }
  }
  return top;
}

/** Places along the upper edge of a piece where something can grow. */
export function crestOf(drawn: DrawnMesh, count: number): readonly Point[] {
  const { left, right } = drawn.box;
  return Array.from({ length: count }, (_, i): Point | null => {
    const x = left + ((right - left) * (i + 1)) / (count + 1);
    const y = crestAt(drawn.faces, x);
    return y === null ? null : [x, y];
  }).filter((p): p is Point => p !== null);
}

/** From the front, lit from the upper left. */
export const fromFront = { toReader: [0, -1, 0], toLight: [-0.45, -0.58, 0.68] } as const satisfies Omit<
  View,
  "project"
>;
