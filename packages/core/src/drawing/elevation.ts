/** The front elevation of a scape: what a viewer before the tank sees, with its measures. */
import { boundsOf } from "../geometry/index.ts";
import type { Mesh } from "../solids/index.ts";
import { drawAnimals } from "./animals.ts";
import { crests, drawBox, drawFrontCut, drawRise } from "./elevation-ground.ts";
import { drawBeams, drawLamps, lampHead, type PlacedLamp, placeLamps } from "./elevation-lamps.ts";
import {
  BALANCE,
  elevationAids,
  elevationDimensions,
  FOOT,
  LEFT_MARGIN,
  rightMargin,
  type Weight,
} from "./elevation-lines.ts";
import { type PlantRow, rowNode, type ZonePlants, zonePlants } from "./elevation-plants.ts";
import { type Box, clamp, grown, overlap, type Point } from "./geometry.ts";
import { groundUnder, groundUnderPiece } from "./ground-under.ts";
import { placeDiscs } from "./labels.ts";
import { type Lettering, SMALL, text, textBox } from "./lettering.ts";
import { Memory } from "./memory.ts";
import { type DrawingNode, element, group, paths } from "./node.ts";
import { Pen, round1 } from "./pen.ts";
import { type ElevationOptions, figureOf, inMillimetres, usualElevation } from "./plan-options.ts";
import { asItStands, blockedBy, hitArea, type PlacedSolid, placedSolids, soundLamps } from "./scape-common.ts";
import type { ScapeScene, ScapeZone } from "./scape-scene.ts";
import { zoneTones } from "./scape-tones.ts";
import { drawableTank, type ElevationFrame, elevationFrame, groundOf, pageWidth, paleness } from "./scape-view.ts";
import { soundOutline } from "./scattered.ts";
import { selectionMarks } from "./selection.ts";
import type { Item } from "./stage.ts";
import { textWidth } from "./text.ts";

export interface ElevationDrawing {
  readonly kind: "elevation";
  /** An `svg` element. */
  readonly node: DrawingNode;
  /** px */
  readonly width: number;
  readonly height: number;
  /** px per m at the front pane. */
  readonly scale: number;
  /** Inner faces of the panes, floor and rim at the front pane, px. */
  readonly inner: Box;
  readonly toPage: (x: number, y: number, z: number) => Point;
  /** Place along the tank and height, m, of a place on the page at a depth (m behind the front pane, 0 = at it). */
  readonly toMetres: (x: number, y: number, depth?: number) => readonly [x: number, z: number];
  readonly lampBox: (index: number) => Box | undefined;
  /** Room that lettering takes. */
  readonly texts: readonly Box[];
}

interface Backdrop {
  readonly box: { readonly fill: readonly DrawingNode[]; readonly lines: readonly DrawingNode[] };
  readonly rise: readonly DrawingNode[];
  readonly crests: readonly Item[];
  readonly cut: readonly DrawingNode[];
}

const backdrops = new Memory<ScapeScene["ground"], Backdrop>();
const plantings = new Memory<ScapeZone, ZonePlants>();
const rowNodes = new Memory<PlantRow, { readonly node: DrawingNode | undefined }>();
const pieceNodes = new Memory<PlacedSolid["drawn"], DrawingNode>();
const shoals = new Memory<ScapeScene["animals"], readonly DrawingNode[]>();

interface Planted {
  readonly zone: ScapeZone;
  readonly plants: ZonePlants;
  readonly items: readonly Item[];
}

/** The ground that a planting stands on: under its outline, or under the piece that it grows on. */
function underZone(scene: ScapeScene, zone: ScapeZone, host: Mesh | undefined): ScapeScene["ground"] {
  if (host) return groundUnderPiece(host, scene.ground);
  const outline = soundOutline(zone);
  return outline.length > 0 ? groundUnder(zone, boundsOf(outline), scene.ground) : scene.ground;
}

/** With more plantings than this each is drawn less full. Design value. */
const FULL = 9;

function plantedOf(scene: ScapeScene, frame: ElevationFrame): Planted[] {
  const tones = zoneTones(scene.zones);
  const blocked = blockedBy(scene);
  const fullness = Math.min(1, FULL / Math.max(1, scene.zones.length));
  return scene.zones.map((zone, i) => {
    const host = zone.on === null ? undefined : scene.pieces[zone.on];
    const name = `${frame.view.name} ${scene.seed} ${fullness}`;
    const plants = plantings.of(zone, name, [underZone(scene, zone, host?.mesh), host?.mesh], () =>
      zonePlants(scene, zone, frame, fullness),
    );
    const rooted = zone.on === null && zone.form !== "floating";
    const tone = tones[i] ?? "fresh";
    const items = plants.rows.flatMap((row): Item[] => {
      const hidden = rooted ? row.plants.map((p) => (blocked(p.x, p.y) ? "1" : "0")).join("") : "";
      const { node } = rowNodes.of(row, `${tone} ${hidden}`, [], () => ({
        node: rowNode(row, tone, scene.tank.width, (p) => !(rooted && blocked(p.x, p.y))),
      }));
      // What grows on a piece is seen before it.
      return node ? [{ depth: zone.on === null ? row.y : row.y - 0.01, nodes: [node] }] : [];
    });
    return { zone, plants, items };
  });
}

/**
 * Draws a scape from the front. The front pane is to scale; what stands behind it is drawn smaller.
 * @throws RangeError where the tank has no drawable size.
 */
export function elevationDrawing(input: ScapeScene, options: ElevationOptions = {}): ElevationDrawing {
  const tank = drawableTank(input.tank);
  const scene = { ...input, tank };
  const width = pageWidth(options.width, 760);
  const show = { ...usualElevation, ...options.show };
  const written = options.length ?? inMillimetres;
  const lamps = show.lamps ? soundLamps(scene) : [];
  const aids = show.thirds || show.golden;
  const frame = elevationFrame(tank, width, {
    left: show.dimensions ? LEFT_MARGIN : 6,
    right: show.dimensions ? rightMargin(width) : 6,
    head: (scale) => Math.max(lampHead(lamps, tank, scale), aids ? 20 : 0, tank.cover === "lid" ? 12 : 0) + 8,
  });
  const { inner, outer, surface, view } = frame;
  const height = Math.ceil(outer.bottom + (show.dimensions ? FOOT : 6) + (show.balance ? BALANCE : 0));

  const placed = placeLamps(lamps, tank, frame);
  const beams = drawBeams(placed, frame);
  const backdrop = backdrops.of(scene.ground, `${view.name} ${scene.seed}`, [scene.layers], () => ({
    box: drawBox(scene, frame),
    rise: drawRise(scene, frame),
    crests: crests(scene, frame),
    cut: drawFrontCut(scene, frame),
  }));
  const still = asItStands(scene);
  const solids = placedSolids(still, view, width);
  const planted = show.planting ? plantedOf(still, frame) : [];
  const items: Item[] = [
    ...backdrop.crests,
    ...solids.map(({ drawn }): Item => {
      const pale = paleness(drawn.away, tank.width);
      const node = pieceNodes.of(drawn, String(pale), [], () => group(`d-piece d-back-${pale}`, drawn.nodes));
      return { depth: drawn.away, nodes: [node] };
    }),
    ...planted.flatMap((p) => p.items),
  ].sort((a, b) => b.depth - a.depth);
  const animals = show.animals ? shoal(still, frame, planted) : [];

  const dimensions = show.dimensions
    ? elevationDimensions(scene, frame, placed, written, show.balance)
    : { nodes: [], boxes: [] };
  const lampSet = drawLamps(placed, frame);
  const texts: Box[] = [...dimensions.boxes, ...lampSet.boxes];
  const aidSet = elevationAids(scene, frame, show, weightsOf(solids, planted), [...texts, ...placed.map((p) => p.box)]);
  texts.push(...aidSet.boxes);
  const names = show.names ? namesOf(solids, planted, frame, texts) : { nodes: [], boxes: [] };
  texts.push(...names.boxes);

  const clip = `d-front-${[inner.left, inner.top, inner.right, inner.bottom].map((v) => Math.round(v * 10)).join("-")}`;
  const drawing = element("g", { role: "img", "aria-label": described(scene) }, [
    element("clipPath", { id: clip }, [
      element("rect", {
        x: round1(inner.left),
        y: 0,
        width: round1(inner.right - inner.left),
        height: round1(inner.bottom),
      }),
    ]),
    ...beams.air,
    element("g", { "clip-path": `url(#${clip})` }, [
      ...backdrop.box.fill,
      ...beams.water,
      ...backdrop.box.lines,
      ...backdrop.rise,
      ...items.flatMap((item) => item.nodes),
      ...animals,
      ...backdrop.cut,
    ]),
    ...paths(["d-surface", new Pen().move(inner.left, surface).line(inner.right, surface).d]),
    ...glass(frame, tank.cover),
    ...lampSet.nodes,
    ...aidSet.nodes,
    ...names.nodes,
    ...dimensions.nodes,
  ]);
  const plain: ElevationDrawing = {
    kind: "elevation",
    node: drawing,
    width,
    height,
    scale: view.scale,
    inner,
    toPage: frame.toPage,
    toMetres: frame.toMetres,
    lampBox: (index) => placed.find((p) => p.lamp.index === index)?.box,
    texts,
  };
  const marks = options.selected ? selectionMarks(plain, scene, options.selected) : undefined;
  return {
    ...plain,
    node: element(
      "svg",
      {
        xmlns: "http://www.w3.org/2000/svg",
        class: "d-section d-scape d-elevation",
        viewBox: `0 0 ${round1(width)} ${height}`,
      },
      [drawing, hitsOf(solids, planted, placed), ...(marks ? [marks] : [])],
    ),
  };
}

const rectangle = (box: Box): Point[] => [
  [box.left, box.top],
  [box.right, box.top],
  [box.right, box.bottom],
  [box.left, box.bottom],
];

function glass({ outer, inner }: ElevationFrame, cover: "open" | "lid"): DrawingNode[] {
  const pen = new Pen().polyline(
    [
      [outer.left, outer.top],
      [inner.left, outer.top],
      [inner.left, inner.bottom],
      [inner.right, inner.bottom],
      [inner.right, outer.top],
      [outer.right, outer.top],
      [outer.right, outer.bottom],
      [outer.left, outer.bottom],
    ],
    true,
  );
  if (cover === "lid") pen.polyline(rectangle({ ...outer, top: outer.top - 3.4, bottom: outer.top }), true);
  return paths(["d-glass", pen.d]);
}

/** Areas to take hold of, the nearest on top. */
function hitsOf(
  solids: readonly PlacedSolid[],
  planted: readonly Planted[],
  lamps: readonly PlacedLamp[],
): DrawingNode {
  const areas = [
    ...planted.flatMap(({ zone, plants }) =>
      plants.box
        ? [
            {
              depth: plants.y,
              nodes: hitArea(
                figureOf({ kind: "zone", index: zone.index }),
                `${zone.key} ${zone.label}`,
                new Pen().polyline(rectangle(plants.box), true).d,
              ),
            },
          ]
        : [],
    ),
    ...solids.map(({ piece, drawn }) => ({
      depth: drawn.away,
      nodes: hitArea(figureOf({ kind: "piece", index: piece.index }), `${piece.key} ${piece.label}`, drawn.outline),
    })),
  ].sort((a, b) => b.depth - a.depth);
  return group("d-hits", [
    ...areas.flatMap((a) => a.nodes),
    ...lamps.flatMap(({ lamp, box }) =>
      hitArea(figureOf({ kind: "lamp", index: lamp.index }), lamp.caption, new Pen().polyline(rectangle(box), true).d),
    ),
  ]);
}

/** Animals over open water; they stay where they are while a piece is moved. */
function shoal(scene: ScapeScene, frame: ElevationFrame, planted: readonly Planted[]): readonly DrawingNode[] {
  const { inner, surface, view } = frame;
  const ground = groundOf(scene);
  const { length } = scene.tank;
  return shoals.of(scene.animals, `${view.name} ${scene.seed} ${planted.length}`, [scene.ground, scene.zones], () =>
    drawAnimals(
      {
        scene: { animals: scene.animals, seed: scene.seed },
        frame: { scale: view.scale },
        ground: {
          y: (px) => {
            const [x] = frame.toMetres(px, inner.bottom);
            return frame.toPage(clamp(x, 0, length), 0, ground(clamp(x, 0, length), 0))[1];
          },
        },
        water: {
          left: inner.left + 1,
          right: inner.right - 1,
          top: surface + Math.min(2.5, (inner.bottom - surface) * 0.3),
          bottom: inner.bottom - 1,
        },
        perches: [],
      },
      planted.flatMap(({ plants }) => (plants.box ? [{ box: plants.box, weight: 1 }] : [])),
    ).flatMap((a) => (a.node ? [a.node] : [])),
  );
}

/** Dark and solid things draw the eye more than leaves. Shares of their boxes: design values. */
function weightsOf(solids: readonly PlacedSolid[], planted: readonly Planted[]): Weight[] {
  const area = (box: Box): number => (box.right - box.left) * (box.bottom - box.top);
  return [
    ...solids.flatMap(({ piece, drawn: { box } }) =>
      box ? [{ box, weight: area(box) * (piece.kind === "stone" ? 0.7 : 0.35) }] : [],
    ),
    ...planted.flatMap(({ zone, plants: { box } }) =>
      box ? [{ box, weight: area(box) * 0.5 * clamp(zone.cover, 0, 1) }] : [],
    ),
  ];
}

const RADIUS = 8;

/** A place within a box that as few nearer things as can be may hide. */
function shownPlace(box: Box, nearer: readonly Box[]): Point {
  let best: Point = [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
  let least = Infinity;
  for (const v of [0.45, 0.3, 0.6, 0.75, 0.15]) {
    for (const u of [0.5, 0.35, 0.65, 0.2, 0.8, 0.08, 0.92]) {
      const [x, y] = [box.left + (box.right - box.left) * u, box.top + (box.bottom - box.top) * v];
      const hidden = nearer.filter((n) => x > n.left && x < n.right && y > n.top && y < n.bottom).length;
      const cost = hidden * 3 + Math.abs(u - 0.5) + Math.abs(v - 0.45);
      if (cost < least) [best, least] = [[x, y], cost];
    }
  }
  return best;
}

function namesOf(
  solids: readonly PlacedSolid[],
  planted: readonly Planted[],
  { inner, surface }: ElevationFrame,
  taken: readonly Box[],
): Lettering {
  const nodes: DrawingNode[] = [];
  const boxes: Box[] = [];
  for (const { piece, drawn } of [...solids].sort((a, b) => a.drawn.away - b.drawn.away)) {
    const { box } = drawn;
    if (!box) continue;
    const wide = textWidth(piece.key, SMALL, "bold");
    const before = solids.flatMap(({ drawn: other }) => (other.box && other.away < drawn.away ? [other.box] : []));
    const at = shownPlace(box, before);
    const x = clamp(at[0], inner.left + wide / 2 + 1, inner.right - wide / 2 - 1);
    const y = clamp(at[1], surface + 10, inner.bottom - 4);
    const room = textBox(x, y + 4, wide, SMALL, "middle");
    if ([...taken, ...boxes].some((b) => overlap(b, room))) continue;
    boxes.push(room);
    nodes.push(text("d-name d-halo", x, y + 4, piece.key, "middle"));
  }
  const nearer = [
    ...solids.flatMap(({ drawn: { box, away } }) => (box ? [{ box, depth: away }] : [])),
    ...planted.flatMap(({ plants: { box, y } }) => (box ? [{ box, depth: y }] : [])),
  ];
  const lettered = planted.flatMap(({ zone, plants }) => {
    const { box, y } = plants;
    return box
      ? [
          {
            zone,
            at: shownPlace(
              box,
              nearer.filter((n) => n.depth < y - 1e-9).map((n) => n.box),
            ),
          },
        ]
      : [];
  });
  const within: Box = {
    left: inner.left + RADIUS + 2,
    right: inner.right - RADIUS - 2,
    top: Math.min(surface + RADIUS + 2, inner.bottom - RADIUS - 2),
    bottom: inner.bottom - RADIUS - 2,
  };
  const discs = placeDiscs(
    lettered.map(({ at }) => ({ at, first: [at] })),
    { radius: RADIUS, within, spill: { ...within, top: RADIUS + 2 }, blocked: [...taken, ...boxes], cost: () => 0 },
  );
  const leads = new Pen();
  const letters: DrawingNode[] = [];
  discs.forEach((disc, i) => {
    const { at, zone } = lettered[i]!;
    // Where there is no room left a letter is left out: it stands in the key.
    const room = grown({ left: disc.x, right: disc.x, top: disc.y, bottom: disc.y }, RADIUS - 2);
    if ([...taken, ...boxes].some((b) => overlap(b, room))) return;
    boxes.push(room);
    const far = Math.hypot(at[0] - disc.x, at[1] - disc.y);
    if (far > RADIUS + 3)
      leads
        .move(disc.x + ((at[0] - disc.x) / far) * RADIUS, disc.y + ((at[1] - disc.y) / far) * RADIUS)
        .line(at[0], at[1]);
    letters.push(
      element("circle", { class: "d-key", cx: round1(disc.x), cy: round1(disc.y), r: RADIUS }),
      text("d-key-letter", disc.x, disc.y + 4.5, zone.key, "middle"),
    );
  });
  nodes.push(...paths(["d-lead", leads.d]), ...letters);
  return { nodes, boxes };
}

function described(scene: ScapeScene): string {
  const things = [
    ...scene.pieces.map((p) => `${p.key} ${p.label}`),
    ...new Set(scene.zones.map((z) => `${z.key} ${z.label}`)),
    ...scene.animals.map((a) => `${a.count} ${a.label}`),
  ];
  return `The tank from the front, drawn to scale at its front pane. ${things.join(", ")}`.trim();
}
