/** A scape seen from above, to scale. */

import type { ValueLine } from "./figured-lines.ts";
import { figuredLines } from "./figured-lines.ts";
import { type Box, boxOf, isInside, overlap, type Point } from "./geometry.ts";
import { SMALL, text, textBox, turnedBox, turnedText } from "./lettering.ts";
import { Memory } from "./memory.ts";
import { type DrawingNode, element, group, paths } from "./node.ts";
import { Pen, round1 } from "./pen.ts";
import { pieceCells } from "./piece-cells.ts";
import { drawEdges, drawPlanGround, heightLines, lightLines } from "./plan-ground.ts";
import { figureOf, inMillimetres, type LightMap, type PlanOptions, usualPlan } from "./plan-options.ts";
import { drawPlanZone, type PlanZone, planZoneNodes } from "./plan-zones.ts";
import { asItStands, blockedBy, coveredBy, hitArea, placedSolids, soundLamps } from "./scape-common.ts";
import type { Point2, ScapeLamp, ScapeScene, ScapeTank, ScapeZone } from "./scape-scene.ts";
import { zoneTones } from "./scape-tones.ts";
import { drawableTank, type PlanFrame, pageWidth, planFrame } from "./scape-view.ts";
import { selectionMarks } from "./selection.ts";
import { fitted, textWidth } from "./text.ts";
import { placeLetters } from "./zone-letters.ts";

export interface PlanDrawing {
  readonly kind: "plan";
  /** An `svg` element. */
  readonly node: DrawingNode;
  /** px */
  readonly width: number;
  readonly height: number;
  /** px per m. */
  readonly scale: number;
  /** Inner faces of the panes, px. */
  readonly inner: Box;
  readonly toPage: (x: number, y: number) => Point;
  /** Place in the tank, m, of a place on the page; beyond the panes too. */
  readonly toMetres: (x: number, y: number) => Point2;
  /** Room that lettering takes. */
  readonly texts: readonly Box[];
}

const grounds = new Memory<ScapeScene["ground"], DrawingNode>();
const heights = new Memory<ScapeScene["ground"], ValueLine[]>();
const lights = new Memory<LightMap, ValueLine[]>();
const zones = new Memory<ScapeZone, PlanZone | undefined>();
const shownZones = new Memory<ScapeZone, DrawingNode>();

/** Sizes of figures on lines, px. */
const FIGURE = 10.5;

/**
 * Draws a scape from above: the front pane below, as seen by who stands before it.
 * @throws RangeError where the tank has no drawable size or a light map does not fit its own size.
 */
export function planDrawing(scene: ScapeScene, options: PlanOptions = {}): PlanDrawing {
  const tank = drawableTank(scene.tank);
  const width = pageWidth(options.width, 520);
  const frame = planFrame(tank, width);
  const show = { ...usualPlan, ...options.show };
  const written = options.length ?? inMillimetres;
  const { inner, view } = frame;

  const still = asItStands(scene);
  const solids = placedSolids(still, view, width);
  const blocked = blockedBy(still);
  const over = coveredBy(still);
  const covered = (px: number, py: number): boolean => over(...frame.toMetres(px, py));
  const ground = grounds.of(scene.ground, `${view.name} ${scene.seed}`, [scene.layers], () =>
    group("d-plan-ground", drawPlanGround(scene, frame)),
  );

  const tones = zoneTones(scene.zones);
  const planted = show.planting
    ? scene.zones.flatMap((zone, i) => {
        const drawn = zones.of(zone, `${view.name} ${scene.seed}`, [], () => drawPlanZone(zone, frame, scene.seed));
        if (!drawn) return [];
        const hidden = drawn.marks.map((m) => (blocked(m.x, m.y) ? "1" : "0")).join("");
        const node = shownZones.of(zone, `${view.name} ${scene.seed} ${tones[i]} ${hidden}`, [], () =>
          planZoneNodes(zone, drawn, tones[i] ?? "fresh", blocked),
        );
        return [{ zone, drawn, node, over: zone.on !== null || zone.form === "floating" }];
      })
    : [];

  const dimensions = show.dimensions ? planDimensions(tank, frame, written) : { nodes: [], boxes: [] };
  const texts: Box[] = [...dimensions.boxes];
  const names = show.names ? pieceNames(still, solids, frame, texts) : [];
  const lit = show.light && options.light ? options.light : undefined;
  const lightSet = lit
    ? figuredLines(
        lights.of(lit, view.name, [], () => lightLines(lit, scene, frame)),
        FIGURE,
        inner,
        texts,
        covered,
      )
    : undefined;
  texts.push(...(lightSet?.boxes ?? []));
  const heightSet = show.height
    ? figuredLines(
        heights.of(scene.ground, `${view.name} ${written(1).number}${written(1).unit}`, [], () =>
          heightLines(scene.ground, frame, written),
        ),
        FIGURE,
        inner,
        texts,
        covered,
      )
    : undefined;
  texts.push(...(heightSet?.boxes ?? []));
  const grounded = planted
    .filter((p) => !p.over)
    .map(({ drawn }) => ({ points: drawn.points, box: boxOf(drawn.points) }));
  const plantedAt = (x: number, y: number): number => {
    let count = 0;
    for (const { points, box } of grounded)
      if (x > box.left && x < box.right && y > box.top && y < box.bottom && isInside([x, y], points)) count++;
    return count;
  };
  const letters = placeLetters(
    planted.map((p) => p.drawn.points),
    { left: inner.left + 1, right: inner.right - 1, top: inner.top + 1, bottom: inner.bottom - 1 },
    texts,
    (x, y) => (covered(x, y) ? 1 : 0) + 0.4 * Math.max(0, plantedAt(x, y) - 1),
  );
  for (const letter of letters) if (letter) texts.push(letter.box);

  const lamps = show.lamps ? soundLamps(scene) : [];
  const figures = (className: string, set: typeof lightSet): DrawingNode[] =>
    (set?.figures ?? []).map(({ x, y, angle, text: words }) => turnedText(className, x, y, angle, words));
  const order = [...solids].sort((a, b) => b.drawn.away - a.drawn.away);
  const drawing = element("g", { role: "img", "aria-label": described(scene) }, [
    ...glass(frame),
    ground,
    ...planted.filter((p) => !p.over).map((p) => p.node),
    ...paths(["d-height-line", heightSet?.d ?? ""], ["d-light-line", lightSet?.d ?? ""]),
    ...drawEdges(scene, frame),
    ...order.map(({ drawn }) => group("d-piece", drawn.nodes)),
    ...planted.filter((p) => p.over).map((p) => p.node),
    ...(show.thirds ? thirds(frame) : []),
    ...lamps.map((lamp) => element("path", { class: "d-lamp-outline", d: lampPath(lamp, frame) })),
    ...figures("d-height-figure d-halo", heightSet),
    ...figures("d-light-figure d-halo", lightSet),
    ...planted.flatMap(({ zone }, i) => {
      const letter = letters[i];
      return letter ? [text("d-letter d-halo", letter.at[0], letter.at[1] + 5.5, zone.key, "middle")] : [];
    }),
    ...names,
    ...dimensions.nodes,
  ]);
  const hits = group("d-hits", [
    ...planted
      .filter((p) => !p.over)
      .flatMap(({ zone, drawn }) =>
        hitArea(figureOf({ kind: "zone", index: zone.index }), `${zone.key} ${zone.label}`, drawn.outline),
      ),
    ...order.flatMap(({ piece, drawn }) =>
      hitArea(figureOf({ kind: "piece", index: piece.index }), `${piece.key} ${piece.label}`, drawn.outline),
    ),
    ...planted
      .filter((p) => p.over)
      .flatMap(({ zone, drawn }) =>
        hitArea(figureOf({ kind: "zone", index: zone.index }), `${zone.key} ${zone.label}`, drawn.outline, true),
      ),
    ...lamps.flatMap((lamp) =>
      hitArea(figureOf({ kind: "lamp", index: lamp.index }), lamp.caption, lampPath(lamp, frame), true),
    ),
  ]);
  const plain: PlanDrawing = {
    kind: "plan",
    width,
    height: frame.height,
    scale: view.scale,
    inner,
    toPage: frame.toPage,
    toMetres: frame.toMetres,
    texts,
    node: drawing,
  };
  const marks = options.selected ? selectionMarks(plain, scene, options.selected) : undefined;
  return {
    ...plain,
    node: element(
      "svg",
      {
        xmlns: "http://www.w3.org/2000/svg",
        class: "d-section d-scape d-plan",
        viewBox: `0 0 ${round1(width)} ${frame.height}`,
      },
      [drawing, hits, ...(marks ? [marks] : [])],
    ),
  };
}

function glass({ outer, inner }: PlanFrame): DrawingNode[] {
  const rect = (box: Box): Point[] => [
    [box.left, box.top],
    [box.right, box.top],
    [box.right, box.bottom],
    [box.left, box.bottom],
  ];
  return paths(["d-glass", new Pen().polyline(rect(outer), true).polyline(rect(inner).reverse(), true).d]);
}

function thirds({ inner }: PlanFrame): DrawingNode[] {
  const [third, golden] = [new Pen(), new Pen()];
  for (const [pen, share] of [
    [third, 1 / 3],
    [third, 2 / 3],
    [golden, (Math.sqrt(5) - 1) / 2],
    [golden, (3 - Math.sqrt(5)) / 2],
  ] as const) {
    const x = inner.left + (inner.right - inner.left) * share;
    pen.move(x, inner.top).line(x, inner.bottom);
  }
  return paths(["d-third", third.d], ["d-golden", golden.d]);
}

/** Corners of a lamp seen from above, m; tilted, it looks narrower. */
function lampPath(lamp: ScapeLamp, frame: PlanFrame): string {
  const [c, s] = [Math.cos((lamp.turn * Math.PI) / 180), Math.sin((lamp.turn * Math.PI) / 180)];
  const half = (lamp.width / 2) * Math.max(0.1, Math.abs(Math.cos((lamp.tilt * Math.PI) / 180)));
  const page: Box = { left: 1, right: frame.width - 1, top: 1, bottom: frame.height - 1 };
  const place = (along: number, across: number): Point =>
    frame.toPage(lamp.x + along * c - across * s, lamp.y + along * s + across * c);
  const pen = new Pen(page);
  if (lamp.kind === "pendant") {
    pen.loop(
      Array.from({ length: 12 }, (_, i) => {
        const a = (i / 12) * 2 * Math.PI;
        return place((Math.cos(a) * lamp.length) / 2, Math.sin(a) * half);
      }),
    );
  } else {
    const l = lamp.length / 2;
    pen.polyline([place(-l, -half), place(l, -half), place(l, half), place(-l, half)], true);
  }
  return pen.d;
}

/** Keys of the pieces, each on a part of its own that no other piece covers. */
function pieceNames(
  scene: ScapeScene,
  solids: ReturnType<typeof placedSolids>,
  frame: PlanFrame,
  texts: Box[],
): DrawingNode[] {
  const { inner } = frame;
  const all = scene.pieces.map((piece) => pieceCells(piece.mesh, scene.ground));
  const shows = (mine: number, px: number, py: number): boolean => {
    const [x, y] = frame.toMetres(px, py);
    const top = all[mine]?.top(x, y);
    return top !== undefined && all.every((cells, i) => i === mine || (cells.top(x, y) ?? -Infinity) <= top);
  };
  const out: DrawingNode[] = [];
  solids.forEach(({ piece, drawn: { box } }, mine) => {
    if (!box) return;
    const wide = textWidth(piece.key, SMALL, "bold");
    for (const [u, v] of nameShares) {
      const [x, y] = [box.left + (box.right - box.left) * u, box.top + (box.bottom - box.top) * v];
      if (!shows(mine, x, y)) continue;
      const room = textBox(x, y + 4, wide, SMALL, "middle");
      if (room.left < inner.left || room.right > inner.right || room.top < inner.top || room.bottom > inner.bottom)
        continue;
      if (texts.some((t) => overlap(t, room))) continue;
      texts.push(room);
      out.push(text("d-name d-halo", x, y + 4, piece.key, "middle"));
      return;
    }
  });
  return out;
}

/** Places in a box from its middle outwards. */
const nameShares: readonly Point[] = [0.5, 0.35, 0.65, 0.2, 0.8]
  .flatMap((u) => [0.5, 0.35, 0.65, 0.2, 0.8].map((v): Point => [u, v]))
  .sort((a, b) => Math.hypot(a[0] - 0.5, a[1] - 0.5) - Math.hypot(b[0] - 0.5, b[1] - 0.5));

/** Outside length under the front pane, outside width left of it. */
function planDimensions(
  tank: ScapeTank,
  { outer, width }: PlanFrame,
  written: NonNullable<PlanOptions["length"]>,
): { nodes: DrawingNode[]; boxes: Box[] } {
  const lines = new Pen();
  const ticks = new Pen();
  const y = outer.bottom + 13;
  const x = outer.left - 11;
  lines.move(outer.left, outer.bottom + 3).line(outer.left, y + 5);
  lines.move(outer.right, outer.bottom + 3).line(outer.right, y + 5);
  lines.move(outer.left - 3, outer.top).line(x - 5, outer.top);
  lines.move(outer.left - 3, outer.bottom).line(x - 5, outer.bottom);
  const tick = (a: number, b: number): void => {
    ticks.move(a - 3, b + 3).line(a + 3, b - 3);
  };
  tick(outer.left, y);
  tick(outer.right, y);
  tick(x, outer.top);
  tick(x, outer.bottom);
  const long = written(tank.length + 2 * tank.glass);
  const size = 12;
  const words = [`${long.number} ${long.unit} front, seen from here`, `${long.number} front`, long.number].map((w) => ({
    w,
    wide: textWidth(w, size),
  }));
  const span = outer.right - outer.left;
  const fit = words.find(({ wide }) => wide < span - 24);
  const middle = (outer.left + outer.right) / 2;
  const nodes: DrawingNode[] = [];
  const boxes: Box[] = [];
  if (fit) {
    lines.move(outer.left, y).line(middle - fit.wide / 2 - 5, y);
    lines.move(middle + fit.wide / 2 + 5, y).line(outer.right, y);
    nodes.push(text("d-label", middle, y + 4, fit.w, "middle"));
    boxes.push(textBox(middle, y + 4, fit.wide, size, "middle"));
  } else {
    const content = fitted(words[2]!.w, size, width - 8);
    lines.move(outer.left, y).line(outer.right, y);
    nodes.push(text("d-label", middle, y + 16, content, "middle"));
    boxes.push(textBox(middle, y + 16, textWidth(content, size), size, "middle"));
  }
  const deep = written(tank.width + 2 * tank.glass).number;
  const wide = textWidth(deep, size);
  const [cy, high] = [(outer.top + outer.bottom) / 2, outer.bottom - outer.top];
  lines.move(x, outer.top).line(x, outer.bottom);
  if (wide < high + 8) {
    nodes.push(turnedText("d-label", x - 9, cy, -90, deep));
    boxes.push(turnedBox(x - 9, cy, -90, wide, size));
  }
  return { nodes: [...paths(["d-dimension", lines.d], ["d-tick", ticks.d]), ...nodes], boxes };
}

function described(scene: ScapeScene): string {
  const stones = scene.pieces.filter((p) => p.kind === "stone").length;
  const wood = scene.pieces.length - stones;
  const things = [
    stones > 0 ? `${stones} ${stones === 1 ? "stone" : "stones"}` : "",
    wood > 0 ? `${wood} ${wood === 1 ? "piece" : "pieces"} of wood` : "",
    ...new Set(scene.zones.map((z) => `${z.key} ${z.label}`)),
  ].filter((t) => t !== "");
  return `The tank from above, drawn to scale, its front pane below. ${things.join(", ")}`.trim();
}
