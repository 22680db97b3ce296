/** The drawing itself: everything that stays while figures change under the finger. */
import { type DrawnAnimals, drawAnimals } from "./animals.ts";
import { drawFittings, drawGlass } from "./equipment.ts";
import { CAPTION_SIZE, type Frame, frameOf, millimetres, type SectionOptions } from "./frame.ts";
import { type Box, clamp, mix, overlap, type Point, grown as widened } from "./geometry.ts";
import { apron, CUT, drawCut, drawSlope, type Ground, groundOf } from "./ground.ts";
import { type Disc, placeDiscs, spreadOut } from "./labels.ts";
import { type Lettering, SMALL, text, textBox } from "./lettering.ts";
import { drawBeam, drawLamp, drawSurface, drawWater, lampSpan } from "./light.ts";
import { held } from "./mesh-piece.ts";
import { type DrawingNode, element, group, paths } from "./node.ts";
import { Pen, round1 } from "./pen.ts";
import { drawForm } from "./piece-in-section.ts";
import { coverOf, drawPlant, tonesOf } from "./plants.ts";
import { type DrawnScene, drawable, type Place, type SectionScene } from "./scene.ts";
import type { Item, Stage } from "./stage.ts";
import { drawStone } from "./stone.ts";
import { type Face, fitted, numberAndUnit, sizeText, textWidth } from "./text.ts";
import { drawWood } from "./wood.ts";

/** One entry of the plant key; x and y are the middle of its number in the drawing, px. */
export interface SectionKey {
  readonly number: number;
  readonly label: string;
  readonly x: number;
  readonly y: number;
}

export interface DrawingOptions extends SectionOptions {
  /** Whether room is kept under the tank, left of the key, for figures. */
  readonly figureRow?: boolean;
  /** Whether pieces, plants and lamp carry figure ids ("piece:0", "zone:1", "lamp:0"), so that a hand can take hold of them. */
  readonly held?: boolean;
}

/** The unchanging part of a section, with what is needed to place figures on it. */
export interface SectionDrawing {
  readonly node: DrawingNode;
  readonly frame: Frame;
  readonly keys: readonly SectionKey[];
  /** Height of the part drawn so far, px. */
  readonly height: number;
  /** What leader lines have to keep clear of: lettering, and the discs of the key numbers. */
  readonly texts: readonly Box[];
  readonly discs: readonly Box[];
  /** Where a figure of each place points; more than one where there is a choice, the best first. */
  readonly targets: Readonly<Record<Place, readonly Point[]>>;
  /** Room for figures under the tank. */
  readonly row: { readonly left: number; readonly right: number; readonly baseline: number };
  /** Of each kind of animal, how many are drawn of how many there are. */
  readonly animals: readonly { readonly label: string; readonly count: number; readonly drawn: number }[];
}

const KEY_RADIUS = 7.5;

function caption(scene: DrawnScene, frame: Frame): Lettering {
  const nodes: DrawingNode[] = [];
  const boxes: Box[] = [];
  if (!scene.lamp) return { nodes, boxes };
  const { left, right } = lampSpan(scene, frame);
  const x = (left + right) / 2;
  const { lines, lift } = frame.caption;
  const pendant = scene.lamp.kind === "pendant";
  const last = frame.lamp.under - frame.lamp.thick - lift;
  const at = pendant ? x + 8 : x;
  lines.forEach(({ bold, plain, width }, i) => {
    const y = last - (lines.length - 1 - i) * 15;
    const children = [
      ...(bold === "" ? [] : [element("tspan", { class: "d-strong" }, [bold])]),
      ...(plain === "" ? [] : [bold === "" ? plain : ` ${plain}`]),
    ];
    nodes.push(
      element(
        "text",
        { class: "d-label", x: round1(at), y: round1(y), ...(pendant ? {} : { "text-anchor": "middle" }) },
        children,
      ),
    );
    boxes.push(textBox(at, y, width, CAPTION_SIZE, pendant ? "start" : "middle"));
  });
  return { nodes, boxes };
}

/** Waterline mark, height of the tank, heights of the ground. */
function dimensions(scene: DrawnScene, frame: Frame, ground: Ground, written: (m: number) => string): Lettering {
  const { outer, inner, surface, scale, compact } = frame;
  const nodes: DrawingNode[] = [];
  const boxes: Box[] = [];
  const number = (m: number): string => numberAndUnit(written(m))[0];
  const lettered = (x: number, y: number, content: string, anchor: "start" | "end"): void => {
    nodes.push(text("d-note", x, y, content, anchor === "end" ? "end" : undefined));
    boxes.push(textBox(x, y, textWidth(content, SMALL), SMALL, anchor));
  };
  const lines = new Pen();

  // The mark stands on the surface inside; under a lid or a low lamp there is no room for its words.
  const roomAbove =
    surface - inner.top + (scene.tank.cover === "lid" ? -4 : scene.lamp ? inner.top - frame.lamp.under : 20);
  const words = `waterline ${number(scene.tank.waterLine)}`;
  const afloat = scene.plants.some((p) => p.form === "floating");
  const inside = !afloat && roomAbove > 13 && inner.right - inner.left > textWidth(words, SMALL) + 110;
  const markX = inside ? inner.right - 20 : outer.right + 6;
  const half = inside ? 5 : 4;
  const mark = new Pen().polyline(
    [
      [markX - half, surface - half * 1.6 - 0.6],
      [markX + half, surface - half * 1.6 - 0.6],
      [markX, surface - 0.6],
    ],
    true,
  );
  if (inside) lettered(markX - 9, surface - 3, words, "end");
  else lettered(markX + 5, surface - 1, number(scene.tank.waterLine), "start");
  nodes.push(...paths(["d-level", mark.d]));

  const x = outer.right + 15 + frame.numbers;
  if (x < frame.width - 4) {
    lines
      .move(outer.right + 4, outer.top)
      .line(x + 5, outer.top)
      .move(outer.right + 4, outer.bottom)
      .line(x + 5, outer.bottom);
    lines.move(x, outer.top).line(x, outer.bottom);
    for (const y of [outer.top, outer.bottom]) lines.move(x - 3, y + 3).line(x + 3, y - 3);
  }

  if (scene.layers.length > 0) {
    const height = (y: number): number => (inner.bottom - y) / scale;
    const back = ground.y(inner.right, 1);
    const cut = ground.y(inner.right, CUT);
    // The height of the tank and the mark of the waterline stand in the same margin.
    const taken = inside ? -Infinity : surface + 6;
    const wanted = (back < cut - 3 ? [back, cut] : [cut]).filter((y) => y > taken + 6 && height(y) > 0.0005);
    const tops = spreadOut(
      wanted.map((y) => ({ want: y - 6, size: 12 })),
      0,
      taken + 2,
      outer.bottom + 4,
    );
    wanted.forEach((y, i) => {
      const at = (tops[i] as number) + 6;
      const content = number(height(y));
      if (textWidth(content, SMALL) > frame.numbers + 2) return;
      lines.polyline([
        [outer.right + 2, y],
        [outer.right + 5, y],
        [outer.right + 8, at],
      ]);
      lettered(outer.right + 10, at + 4, content, "start");
    });
    const left = ground.y(inner.left, CUT);
    if (height(left) > 0.0005) {
      const content = number(height(left));
      const free = compact ? outer.left : outer.left - frame.column - frame.columnWidth;
      if (textWidth(content, SMALL) < free - 11) {
        lines.move(outer.left - 2, left).line(outer.left - 8, left);
        lettered(outer.left - 10, left + 4, content, "end");
      }
    }
  }
  if (x < frame.width - 4) {
    // Upright beside its line, where the heights of the ground leave room.
    const content = number(scene.tank.height);
    const half = textWidth(content, SMALL) / 2 + 1;
    const room = (y: number): Box => ({ left: x - 14, right: x, top: y - half, bottom: y + half });
    const middle = (outer.top + outer.bottom) / 2;
    const y = [0, -0.14, 0.14, -0.26, 0.26, -0.36, 0.36]
      .map((k) => middle + k * (outer.bottom - outer.top))
      .find((at) => boxes.every((b) => !overlap(b, room(at))));
    if (y !== undefined) {
      nodes.push(
        element(
          "text",
          {
            class: "d-note",
            transform: `translate(${round1(x - 4)} ${round1(y)}) rotate(-90)`,
            "text-anchor": "middle",
          },
          [content],
        ),
      );
      boxes.push(room(y));
    }
  }
  nodes.unshift(...paths(["d-dimension", lines.d]));
  return { nodes, boxes };
}

/** Numbers in the drawing and the names to them under it, then the animals, then what is seen. */
function key(
  scene: DrawnScene,
  frame: Frame,
  animals: readonly DrawnAnimals[],
  written: (m: number) => string,
  figureRow: boolean,
): Lettering & { bottom: number; row: SectionDrawing["row"] } {
  const { strip, compact } = frame;
  const nodes: DrawingNode[] = [];
  const boxes: Box[] = [];
  const line = 17;
  const size = 12.5;
  // The key stands right of the figures, on a narrow page under them.
  const withRow = figureRow && !compact;
  const beside = withRow && strip.right - strip.left >= 440;
  const left = strip.left + (beside ? 236 : 0);
  const room = strip.right - left;
  const numberWidth = scene.plants.length > 9 ? 18 : 12;
  const longest = Math.max(0, ...scene.plants.map((p) => textWidth(p.label, size, "italic")));
  const two = room >= 2 * (numberWidth + Math.min(longest, 140)) + 14 && scene.plants.length > 1;
  const column = two ? Math.min(numberWidth + longest + 18, room / 2) : room;
  const put = (
    className: string,
    x: number,
    y: number,
    content: string,
    fontSize: number,
    face: Face = "plain",
  ): void => {
    nodes.push(text(className, x, y, content));
    boxes.push(textBox(x, y, textWidth(content, fontSize, face), fontSize));
  };
  let y = strip.baseline + (withRow && !beside ? 72 : 0);
  scene.plants.forEach((plant, i) => {
    const x = left + (two ? (i % 2) * column : 0);
    const row = y + (two ? Math.floor(i / 2) : i) * line;
    put("d-key-number", x, row, String(i + 1), SMALL, "bold");
    put(
      "d-key-name",
      x + numberWidth,
      row,
      fitted(plant.label, size, column - numberWidth - 5, "italic"),
      size,
      "italic",
    );
  });
  y += Math.ceil(scene.plants.length / (two ? 2 : 1)) * line;

  const kinds = animals.filter((a) => a.animal.count > 0);
  let x = left;
  kinds.forEach(({ animal, drawn }) => {
    const count = drawn < animal.count ? `${drawn} drawn of ${animal.count}` : String(animal.count);
    const countWidth = textWidth(count, SMALL);
    const name = fitted(animal.label, size, room - countWidth - 6, "italic");
    const width = textWidth(name, size, "italic") + 5 + countWidth;
    if (x > left && x + width > strip.right) {
      x = left;
      y += line;
    }
    put("d-key-name", x, y, name, size, "italic");
    put("d-note", x + textWidth(name, size, "italic") + 5, y, count, SMALL);
    x += width + 16;
  });
  if (kinds.length > 0) y += line;
  const { tank } = scene;
  const seen = `Section looking to the back. ${sizeText([tank.length, tank.width, tank.height].map(written))} outside.`;
  const [first, second] =
    textWidth(seen, SMALL) <= room
      ? [seen, undefined]
      : ["Section looking to the back.", `${sizeText([tank.length, tank.width, tank.height].map(written))} outside.`];
  put("d-note", left, y, first, SMALL);
  if (second !== undefined) {
    y += 15;
    put("d-note", left, y, second, SMALL);
  }
  return {
    nodes,
    boxes,
    bottom: y + 6,
    row: { left: strip.left, right: beside ? left - 14 : strip.right, baseline: strip.baseline },
  };
}

/** Words for those who do not see the drawing. */
function described(scene: DrawnScene): string {
  const parts = [`Section of the tank looking to the back, drawn to scale.`];
  if (scene.lamp) parts.push("Lamp over the rim.");
  const pieces = (kind: "stone" | "wood"): number => scene.hardscape.filter((h) => h.kind === kind).length;
  const things = [
    pieces("stone") > 0 ? `${pieces("stone")} stones` : "",
    pieces("wood") > 0 ? `${pieces("wood")} pieces of wood` : "",
    ...scene.plants.map((p, i) => `${i + 1} ${p.label}`),
    ...scene.animals.map((a) => `${a.count} ${a.label}`),
  ].filter((t) => t !== "");
  if (things.length > 0) parts.push(`${things.join(", ")}.`);
  return parts.join(" ");
}

/**
 * Draws a tank's section looking to the back, to scale.
 * @throws RangeError where the tank has no drawable size.
 */
export function sectionDrawing(input: SectionScene, options: DrawingOptions = {}): SectionDrawing {
  const scene = drawable(input);
  const frame = frameOf(scene, options);
  const written = options.length ?? millimetres;
  const ground = groundOf(scene, frame);
  const { inner, surface, compact } = frame;
  const depth = inner.bottom - surface;
  const water: Box = {
    left: inner.left + 1,
    right: inner.right - 1,
    top: surface + Math.min(2.5, depth * 0.3),
    bottom: inner.bottom - Math.min(1, depth * 0.1),
  };

  const pieces = scene.hardscape.map((piece, i) => ({
    piece,
    drawn: piece.form
      ? drawForm(scene, frame, piece, piece.form, i)
      : (piece.kind === "wood" ? drawWood : drawStone)(scene, frame, ground, piece, i),
  }));
  // What lies behind a nearer stone is no place to be seen on.
  const hidden = ([x, y]: Point, depth: number): boolean =>
    pieces.some(({ piece, drawn: { box } }) => {
      const inset = (box.right - box.left) * 0.12;
      return (
        piece.kind === "stone" &&
        piece.depth < depth &&
        x > box.left + inset &&
        x < box.right - inset &&
        y > box.top + inset
      );
    });
  const perches = pieces.flatMap((p) => p.drawn.perches).filter((p) => !hidden(p.point, p.depth));
  const stage: Stage = {
    scene,
    frame,
    ground,
    water,
    perches,
    fullness: Math.min(1, 9 / Math.max(1, scene.plants.length)),
  };
  const covers = scene.plants.map((plant) => coverOf(stage, plant));
  const fittings = drawFittings(scene, frame, ground, covers);

  const items: Item[] = [...fittings.items];
  const grip = (figure: string, nodes: readonly DrawingNode[]): readonly DrawingNode[] =>
    options.held ? [held(figure, "d-held", nodes)] : nodes;
  for (const [i, { piece, drawn }] of pieces.entries()) {
    items.push({
      depth: piece.depth,
      nodes: [
        ...grip(`piece:${i}`, drawn.nodes),
        ...apron(scene, frame, ground, drawn.box.left - 5, drawn.box.right + 5, Math.max(0, piece.depth - 0.04)),
      ],
    });
  }
  const tones = tonesOf(scene.plants);
  const grown = scene.plants.map((plant, i) => drawPlant(stage, plant, tones[i] ?? "fresh", i));
  const growing = grown.flatMap((g, i) =>
    g.items.map((item): Item => ({ ...item, nodes: grip(`zone:${i}`, item.nodes) })),
  );
  const order = (list: readonly Item[]): DrawingNode[] =>
    [...list].sort((a, b) => b.depth - a.depth).flatMap((i) => i.nodes);
  const perched = new Set(growing.filter((g) => g.depth > CUT));
  // Hardscape near the front is still sunk in the cut; plants near the front stand before it.
  const behind = order([...items, ...perched]);
  const before = order(growing.filter((g) => !perched.has(g)));

  const animals = drawAnimals(stage, [
    ...covers.map((box) => ({ box, weight: 1 })),
    ...pieces.map(({ drawn }) => ({ box: drawn.box, weight: 0.8 })),
    ...fittings.covers.map((box) => ({ box, weight: 1 })),
  ]);
  const creatures = animals.flatMap((a) => (a.node ? [a.node] : []));

  // The same clip has the same name, so that two drawings on one page do not disturb each other.
  const clip = `d-inner-${[inner.left, inner.top, inner.right, inner.bottom].map((v) => Math.round(v * 10)).join("-")}`;
  const clipping = { "clip-path": `url(#${clip})` };
  const backdrop = element("g", clipping, [...drawWater(scene, frame), ...drawSlope(scene, frame, ground)]);
  const clipped = element("g", clipping, [...behind, ...drawCut(scene, frame, ground), ...before, ...creatures]);

  const title = caption(scene, frame);
  const sizes = dimensions(scene, frame, ground, written);
  const legend = key(scene, frame, animals, written, options.figureRow ?? true);

  const discs = keyDiscs(
    grown.map((g) => g.anchor),
    covers,
    pieces.map((p) => p.drawn.box),
    [...sizes.boxes, ...title.boxes],
    fittings.diffuser,
  );
  const stand = new Pen()
    .move(Math.max(2, frame.outer.left - 14), frame.outer.bottom + 1.6)
    .line(Math.min(frame.width - 2, frame.outer.right + 14), frame.outer.bottom + 1.6);
  const node = element("g", { class: "d-static", role: "img", "aria-label": described(scene) }, [
    element("clipPath", { id: clip }, [
      element("rect", {
        x: round1(inner.left),
        y: round1(inner.top),
        width: round1(inner.right - inner.left),
        height: round1(inner.bottom - inner.top),
      }),
    ]),
    ...drawBeam(scene, frame),
    backdrop,
    ...fittings.back,
    clipped,
    ...fittings.front,
    ...drawSurface(scene, frame),
    ...drawGlass(scene, frame),
    ...grip("lamp:0", drawLamp(scene, frame)),
    ...paths(["d-stand", stand.d]),
    ...sizes.nodes,
    ...title.nodes,
    ...discs.nodes,
    ...legend.nodes,
  ]);
  return {
    node,
    frame,
    keys: scene.plants.map((plant, i) => ({
      number: i + 1,
      label: plant.label,
      x: round1(discs.discs[i]?.x ?? 0),
      y: round1(discs.discs[i]?.y ?? 0),
    })),
    height: legend.bottom,
    texts: [...title.boxes, ...sizes.boxes, ...legend.boxes],
    discs: discs.boxes,
    targets: targetsOf(scene, frame, ground, fittings),
    row: legend.row,
    animals: animals.map(({ animal, drawn }) => ({ label: animal.label, count: animal.count, drawn })),
  };

  function keyDiscs(
    pointed: readonly Point[],
    covers: readonly Box[],
    stones: readonly Box[],
    texts: readonly Box[],
    diffuser: Point | undefined,
  ): Lettering & { discs: Disc[] } {
    const r = compact ? 7 : KEY_RADIUS;
    const anchors = scene.plants.map((plant, i) => {
      const at = pointed[i] as Point;
      const first: Point[] = [];
      if (plant.form === "carpet") {
        const half = (plant.width * frame.scale) / 2;
        for (const k of [0, -0.3, 0.3, -0.55, 0.55, -0.8, 0.8]) {
          const x = at[0] + k * half;
          const top = ground.y(x, 0);
          const room = inner.bottom - top;
          if (room > r * 2 + 5) first.push([x, Math.min(top + room * 0.55, inner.bottom - r - 3)]);
        }
      } else if (plant.form === "floating") for (const k of [0, -20, 20, -40, 40]) first.push([at[0] + k, at[1] + 26]);
      return { at, first };
    });
    const within: Box = {
      left: inner.left + r + 3,
      right: inner.right - r - 3,
      top: Math.min(surface + r + 3, inner.bottom - r - 3),
      bottom: inner.bottom - r - 2,
    };
    const discs = placeDiscs(anchors, {
      radius: r,
      within,
      spill: { ...within, top: r + 2 },
      blocked: [
        ...texts,
        ...(diffuser
          ? [{ left: diffuser[0] - 3, right: diffuser[0] + 3, top: diffuser[1] - 6, bottom: inner.bottom }]
          : []),
      ],
      cost: (x, y) => {
        if (y > ground.y(x, 0)) return 0;
        const box = widened({ left: x, right: x, top: y, bottom: y }, r);
        const over = [...covers, ...stones].filter(
          (c) => c.left < box.right && c.right > box.left && c.top < box.bottom && c.bottom > box.top,
        ).length;
        // Figures come in from the left: their lines run there.
        const leaders = !compact && x < mix(inner.left, inner.right, 0.3) && y < ground.y(x, 0) - 12 ? 16 : 0;
        return over * 7 + leaders;
      },
    });
    const nodes: DrawingNode[] = [];
    const lines = new Pen();
    discs.forEach((disc, i) => {
      const anchor = anchors[i]?.at ?? [disc.x, disc.y];
      // Under a carpet the number points straight up.
      const at: Point =
        scene.plants[i]?.form === "carpet" && disc.y > ground.y(disc.x, 0) ? [disc.x, ground.y(disc.x, 0) - 5] : anchor;
      const far = Math.hypot(at[0] - disc.x, at[1] - disc.y);
      if (far > r + 3)
        lines.move(disc.x + ((at[0] - disc.x) / far) * r, disc.y + ((at[1] - disc.y) / far) * r).line(at[0], at[1]);
    });
    nodes.push(...paths(["d-lead", lines.d]));
    discs.forEach((disc, i) => {
      nodes.push(
        element("circle", { class: "d-key", cx: round1(disc.x), cy: round1(disc.y), r }),
        text("d-key-mark", disc.x, disc.y + 4, String(i + 1), "middle"),
      );
    });
    return {
      nodes: [group("d-keys", nodes)],
      discs,
      boxes: discs.map((d) => widened({ left: d.x, right: d.x, top: d.y, bottom: d.y }, r)),
    };
  }
}

function targetsOf(
  scene: DrawnScene,
  frame: Frame,
  ground: Ground,
  fittings: ReturnType<typeof drawFittings>,
): SectionDrawing["targets"] {
  const { inner, surface } = frame;
  const length = inner.right - inner.left;
  const shares = [0.2, 0.17, 0.24, 0.14, 0.28, 0.1, 0.06, 0.33, 0.38, 0.45];
  const across = (y: (x: number) => number): Point[] =>
    shares.map((s): Point => [inner.left + length * s, y(inner.left + length * s)]);
  const depth = (x: number): number => ground.y(x, 0) - surface;
  const surfaces = across(() => surface);
  const lamp = scene.lamp ? lampSpan(scene, frame) : undefined;
  return {
    lamp: lamp ? [[lamp.left + 4, frame.lamp.under - frame.lamp.thick / 2]] : surfaces,
    outlet: fittings.outlet ? [fittings.outlet] : surfaces,
    surface: surfaces,
    "water-upper": across((x) => surface + depth(x) * 0.3),
    water: across((x) => surface + depth(x) * 0.58),
    thermometer: fittings.thermometer ? [fittings.thermometer] : across((x) => surface + depth(x) * 0.8),
    diffuser: fittings.diffuser ? [fittings.diffuser] : across((x) => surface + depth(x) * 0.9),
    substrate: [0.29, 0.26, 0.33, 0.38, 0.22, 0.43, 0.5, 0.58, 0.66, 0.74, 0.15].map((s): Point => {
      const x = inner.left + length * s;
      return [x, clamp(ground.y(x, 0) - 2, surface + 4, inner.bottom - 2)];
    }),
  };
}
