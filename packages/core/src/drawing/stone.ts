/** Stones in three textures: layered (slabs with bedding lines), faceted (broken faces), rounded (water-worn). */
import type { Frame } from "./frame.ts";
import { type Box, clamp, cutPolygon, cutSegment, distance, mix, mixPoint, type Point } from "./geometry.ts";
import type { Ground } from "./ground.ts";
import { type DrawingNode, group, paths } from "./node.ts";
import { Pen } from "./pen.ts";
import { between, type Random, streamOf } from "./random.ts";
import type { DrawnScene, SectionHardscape } from "./scene.ts";
import type { Perch } from "./stage.ts";

export interface Drawn {
  readonly nodes: DrawingNode[];
  readonly perches: readonly Perch[];
  /** What it covers of the picture, px. */
  readonly box: Box;
}

/** One face of a stone: 1 lit to 4 in shade. */
interface Face {
  readonly points: readonly Point[];
  readonly tone: 1 | 2 | 3 | 4;
}

interface StoneShape {
  readonly faces: readonly Face[];
  /** Thin strokes: bedding, cracks, hatching. */
  readonly strokes: Pen;
  readonly dots: Pen;
}

/** Where the piece stands: its box on the page, kept between the panes and under the rim. */
export function footprint(piece: SectionHardscape, frame: Frame, ground: Ground): Box {
  const { inner, scale } = frame;
  const half = Math.min(piece.width * scale, inner.right - inner.left - 4) / 2;
  const x = clamp(mix(inner.left, inner.right, piece.at), inner.left + 2 + half, inner.right - 2 - half);
  const feet = [-1, -0.5, 0, 0.5, 1].map((k) => ground.y(x + half * k * 0.8, piece.depth));
  const foot = feet.reduce((sum, y) => sum + y, 0) / feet.length;
  const height = Math.min(piece.height * scale, foot - frame.inner.top - 2);
  return {
    left: x - half,
    right: x + half,
    top: foot - Math.max(height, 3),
    bottom: Math.min(Math.max(...feet) + 5, inner.bottom),
  };
}

/** Unit outline (u -0.5..0.5, v 0..1 up) to the box, v = 0 at its foot. */
const placed = (box: Box, points: readonly (readonly [number, number])[]): Point[] =>
  points.map(([u, v]) => [mix(box.left, box.right, u + 0.5), mix(box.bottom, box.top, v)]);

/** Stretches faces so that together they fill the box from side to side and to its top. */
function fitted(faces: readonly Face[], box: Box): { faces: Face[]; map: (p: Point) => Point } {
  const all = faces.flatMap((f) => f.points);
  const xs = all.map((p) => p[0]);
  const top = Math.min(...all.map((p) => p[1]));
  const [x0, x1] = [Math.min(...xs), Math.max(...xs)];
  const map = ([x, y]: Point): Point => [
    box.left + ((x - x0) / (x1 - x0 || 1)) * (box.right - box.left),
    y >= box.bottom ? box.bottom : box.bottom - ((box.bottom - y) / (box.bottom - top || 1)) * (box.bottom - box.top),
  ];
  return { map, faces: faces.map((f) => ({ tone: f.tone, points: f.points.map(map) })) };
}

/** Slabs side by side along the bedding, each slipped a little against its neighbour. */
function layered(box: Box, lean: number, random: Random, compact: boolean): StoneShape {
  const [w, h] = [box.right - box.left, box.bottom - box.top];
  const upright = h > w * 0.8;
  const j = (by: number): number => between(random, -by, by);
  const outline: readonly (readonly [number, number])[] = upright
    ? [
        [-0.5, 0],
        [-0.48, 0.26 + j(0.05)],
        [-0.38 + j(0.03), 0.6 + j(0.05)],
        [-0.22, 0.88 + j(0.03)],
        [-0.08 + j(0.04), 1],
        [0.1, 0.95 + j(0.03)],
        [0.27 + j(0.03), 0.74 + j(0.05)],
        [0.4, 0.46 + j(0.05)],
        [0.48, 0.2],
        [0.5, 0],
      ]
    : [
        [-0.5, 0],
        [-0.48 + j(0.02), 0.4 + j(0.06)],
        [-0.33 + j(0.03), 0.76 + j(0.05)],
        [-0.14, 0.96],
        [0.08 + j(0.06), 1],
        [0.26, 0.84 + j(0.05)],
        [0.41 + j(0.03), 0.5 + j(0.06)],
        [0.5, 0.16],
        [0.5, 0],
      ];
  const sheared = placed(
    box,
    outline.map(([u, v]) => [u + lean * v * (upright ? 0.42 : 0.16), v] as const),
  );
  // Bedding runs up a standing stone and dips gently through a lying one.
  const tilt = upright
    ? Math.atan2(lean * 0.42 * w, h)
    : Math.PI / 2 - (0.3 + 0.2 * Math.abs(lean)) * (lean < 0 ? -1 : 1);
  const bed: Point = [Math.sin(tilt), -Math.cos(tilt)];
  const across: Point = upright ? [-bed[1], bed[0]] : bed[0] > 0 ? [bed[1], -bed[0]] : [-bed[1], bed[0]];
  const offset = (p: Point): number => p[0] * across[0] + p[1] * across[1];
  const offsets = sheared.map(offset);
  const [low, high] = [Math.min(...offsets), Math.max(...offsets)];
  const count = Math.round(clamp((high - low) / 22, 2, 6));
  const shares = Array.from({ length: count }, (_, i) => (i === 0 ? 0.55 : 0.75 + 0.7 * random()));
  const total = shares.reduce((a, b) => a + b, 0);

  const faces: Face[] = [];
  const beds: (readonly [Point, Point])[] = [];
  let from = low;
  for (let i = 0; i < count; i++) {
    const to = i === count - 1 ? high + 1 : from + ((shares[i] as number) / total) * (high - low);
    const [a, b] = [from, to];
    const slip = i === 0 ? 0 : j(upright ? 0.05 * h : 0.04 * w);
    const band = cutPolygon(
      cutPolygon(sheared, (p) => offset(p) - a),
      (p) => b - offset(p),
    ).map((p): Point => [p[0] + bed[0] * slip, Math.min(p[1] + bed[1] * slip, box.bottom)]);
    from = to;
    if (band.length < 3) continue;
    const tone = i === 0 ? 1 : i % 2 === 1 ? 3 : i === count - 1 ? 4 : 2;
    faces.push({ points: band, tone });
    // The broken end of the slab catches the light.
    const ends = band.map((p) => p[0] * bed[0] + p[1] * bed[1]);
    const end = Math.max(...ends) - (upright ? 0.07 * h : 0.1 * w) * (0.6 + 0.6 * random());
    const slant = j(0.5);
    const cap = cutPolygon(band, (p) => p[0] * bed[0] + p[1] * bed[1] + slant * (offset(p) - (a + b) / 2) - end);
    if (i > 0 && cap.length > 2) faces.push({ points: cap, tone: i % 2 === 1 ? 2 : 1 });
    const lines = Math.floor((b - a) / (compact ? 6 : tone === 1 ? 5 : 3.6));
    for (let k = 1; k < lines; k++) {
      const o = mix(a, b, (k + j(0.25)) / lines);
      const reach = Math.max(w, h) * 2;
      const c = mixPoint(band[0] as Point, band[Math.floor(band.length / 2)] as Point, 0.5);
      const shift = o - offset(c);
      const mid: Point = [c[0] + across[0] * shift, c[1] + across[1] * shift];
      const cuts = cutSegment(
        [mid[0] - bed[0] * reach, mid[1] - bed[1] * reach],
        [mid[0] + bed[0] * reach, mid[1] + bed[1] * reach],
        band,
      );
      for (const [p, q] of cuts) {
        let t = 0.02 + 0.3 * random();
        while (t < 0.9) {
          const u = Math.min(0.97, t + 0.18 + 0.55 * random());
          if (random() < 0.85) beds.push([mixPoint(p, q, t), mixPoint(p, q, u)]);
          t = u + 0.03 + 0.14 * random();
        }
      }
    }
  }
  const { faces: fit, map } = fitted(faces, box);
  const strokes = new Pen(box);
  for (const [p, q] of beds) if (distance(p, q) > 2.5) strokes.polyline([map(p), map(q)]);
  return { faces: fit, strokes, dots: new Pen() };
}

/** Broken faces round three inner corners, hatched on the shaded side. */
function faceted(box: Box, lean: number, random: Random, compact: boolean): StoneShape {
  const n = 11;
  const rim: [number, number][] = [];
  for (let i = 0; i <= n; i++) {
    const a = Math.PI * (1 - i / n);
    const c = Math.cos(a);
    const reach = 0.86 + 0.26 * random();
    const v = Math.sin(a) ** 0.7 * reach;
    rim.push([
      Math.sign(c) * Math.abs(c) ** 0.75 * 0.5 * (0.88 + 0.2 * random()) + lean * 0.3 * v,
      i === 0 || i === n ? 0 : v,
    ]);
  }
  const ridges: [number, number][] = [
    [-0.16 + lean * 0.2 + between(random, -0.05, 0.05), 0.66 + between(random, -0.08, 0.08)],
    [0.14 + lean * 0.16 + between(random, -0.05, 0.05), 0.58 + between(random, -0.08, 0.08)],
    [0.0 + between(random, -0.06, 0.06), 0.24],
  ];
  const nearest = (p: readonly [number, number]): [number, number] =>
    ridges.reduce((best, r) =>
      Math.hypot(r[0] - p[0], r[1] - p[1]) < Math.hypot(best[0] - p[0], best[1] - p[1]) ? r : best,
    );
  const faces: Face[] = [{ points: placed(box, ridges), tone: 2 }];
  const ring: [number, number][] = [...rim, [0, 0]];
  for (let i = 0; i < ring.length; i++) {
    const a = ring[i] as [number, number];
    const b = ring[(i + 1) % ring.length] as [number, number];
    const [ra, rb] = [nearest(a), nearest(b)];
    const corners = ra === rb ? [a, b, ra] : [a, b, rb, ra];
    const middle: Point = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
    const light = -middle[0] * 0.9 + (middle[1] - 0.45) * 0.9 + between(random, -0.16, 0.16);
    faces.push({ points: placed(box, corners), tone: light > 0.32 ? 1 : light > 0.02 ? 2 : light > -0.3 ? 3 : 4 });
  }
  const { faces: fit } = fitted(faces, box);
  const strokes = new Pen(box);
  const heading = 0.5;
  const along: Point = [Math.sin(heading), -Math.cos(heading)];
  for (const face of fit) {
    if (face.tone < 3) continue;
    const gap = (face.tone === 4 ? 2.6 : 4) * (compact ? 1.6 : 1);
    const across = face.points.map((p) => p[0] * -along[1] + p[1] * along[0]);
    for (let o = Math.min(...across) + gap; o < Math.max(...across); o += gap) {
      const mid: Point = [-along[1] * (o + between(random, -0.5, 0.5)), along[0] * o];
      const far = 4000;
      for (const [p, q] of cutSegment(
        [mid[0] - along[0] * far, mid[1] - along[1] * far],
        [mid[0] + along[0] * far, mid[1] + along[1] * far],
        face.points,
      )) {
        const t = 0.3 * random();
        if (distance(p, q) > 3) strokes.polyline([mixPoint(p, q, t), mixPoint(p, q, 0.7 + 0.28 * random())]);
      }
    }
  }
  return { faces: fit, strokes, dots: new Pen() };
}

/** The outline of a water-worn stone, and its shaded side as stipple. */
function rounded(box: Box, lean: number, random: Random): { outline: Point[]; strokes: Pen; dots: Pen } {
  const n = 10;
  const raw: [number, number][] = [];
  for (let i = 0; i <= n; i++) {
    const a = Math.PI * (1 - i / n);
    const c = Math.cos(a);
    const v = Math.sin(a) ** 0.62;
    raw.push([
      Math.sign(c) * Math.abs(c) ** 0.7 * 0.5 * (0.95 + 0.08 * random()) + lean * 0.16 * v,
      v * (0.96 + 0.08 * random()),
    ]);
  }
  const { faces } = fitted([{ points: placed(box, raw), tone: 2 }], box);
  const outline = [...(faces[0]?.points ?? [])];
  const dots = new Pen(box);
  const strokes = new Pen(box);
  const [w, h] = [box.right - box.left, box.bottom - box.top];
  const size = Math.round(clamp((w * h) / 26, 12, 260));
  for (let i = 0; i < size; i++) {
    // Denser to the lower right: the light comes from the upper left.
    const a = between(random, -0.25, 0.5) * Math.PI;
    const r = 1 - random() ** 1.8 * 0.6;
    const x = mix(box.left, box.right, 0.5 + lean * 0.05) + Math.cos(a) * r * w * 0.46;
    const y = box.bottom - h * 0.5 + Math.sin(a) * r * h * 0.44;
    dots.dot(x, y);
  }
  for (const k of [0.74, 0.5]) {
    const arc = Array.from({ length: 5 }, (_, i): Point => {
      const a = Math.PI * (0.93 - 0.13 * i - (1 - k) * 0.2);
      return [
        mix(box.left, box.right, 0.5) + Math.cos(a) * w * 0.46 * k,
        box.bottom - Math.sin(a) ** 0.7 * h * 0.92 * k,
      ];
    });
    strokes.curve(arc);
  }
  return { outline, strokes, dots };
}

/** The highest page y of the faces at page x, or the box's foot. */
function crest(faces: readonly { points: readonly Point[] }[], x: number, foot: number): number {
  let top = foot;
  for (const { points } of faces) {
    for (let i = 0; i < points.length; i++) {
      const a = points[i] as Point;
      const b = points[(i + 1) % points.length] as Point;
      if (a[0] > x === b[0] > x) continue;
      top = Math.min(top, mix(a[1], b[1], (x - a[0]) / (b[0] - a[0])));
    }
  }
  return top;
}

export function drawStone(
  scene: DrawnScene,
  frame: Frame,
  ground: Ground,
  piece: SectionHardscape,
  index: number,
): Drawn {
  const random = streamOf(scene.seed, "stone", index);
  const box = footprint(piece, frame, ground);
  const nodes: DrawingNode[] = [];
  let faces: readonly { points: readonly Point[] }[];
  if (piece.texture === "rounded") {
    const { outline, strokes, dots } = rounded(box, piece.lean, random);
    faces = [{ points: outline }];
    const body = new Pen(frame.inner).curve(outline).line(box.right, box.bottom).line(box.left, box.bottom).close();
    nodes.push(...paths(["d-stone d-tone-2", body.d], ["d-bed", strokes.d], ["d-stone-dots", dots.d]));
  } else {
    const shape = (piece.texture === "layered" ? layered : faceted)(box, piece.lean, random, frame.compact);
    faces = shape.faces;
    for (const face of shape.faces) {
      nodes.push(...paths([`d-stone d-tone-${face.tone}`, new Pen(frame.inner).polyline(face.points, true).d]));
    }
    nodes.push(...paths(["d-bed", shape.strokes.d]));
  }
  const perches: Perch[] = [];
  const w = box.right - box.left;
  for (let i = 1; i < 10; i++) {
    const x = mix(box.left, box.right, i / 10);
    perches.push({
      point: [x, crest(faces, x, box.bottom)],
      heading: (i - 5) * 0.12,
      radius: w / 2,
      depth: piece.depth,
      on: "stone",
    });
  }
  return { nodes: [group("d-piece", nodes)], perches, box };
}
