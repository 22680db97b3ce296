import { plain, shown, type UnitSystem } from "../design/index.ts";
import type { DrawingNode, PlanDrawing, ScapeScene, WrittenLength } from "../drawing/index.ts";
import { boundsOf, fieldHeight } from "../geometry/index.ts";
import { type Amount, billOf, type Scape } from "../scape/index.ts";
import { meshBounds } from "../solids/index.ts";
import {
  box,
  broken,
  type Column,
  ink,
  line,
  type PaperName,
  paperSizes,
  paragraph,
  rowHeight,
  table,
  words,
} from "./paper.ts";
import { frontAt, type OnPaper, placed, planAt, roundScale } from "./scaled.ts";

export interface SheetOptions {
  readonly paper: PaperName;
  readonly units: UnitSystem;
  /** As it is to be printed; nothing where it is empty. */
  readonly date: string;
}

/** One sheet of paper. */
export interface Sheet {
  readonly title: string;
  /** An `svg` element in mm. */
  readonly node: DrawingNode;
  /** mm */
  readonly width: number;
  readonly height: number;
}

/** Edge of the sheet to its frame, and the frame to what stands in it, mm. Design values. */
const [edge, gap] = [8, 6];
/** Of the box with name, scale and number, mm. */
const plate = { width: 84, height: 27 } as const;

const inch = 0.0254;

interface Page {
  readonly title: string;
  readonly scale: number | null;
  readonly nodes: readonly DrawingNode[];
}

interface Desk {
  readonly scape: Scape;
  readonly scene: ScapeScene;
  readonly options: SheetOptions;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  /** Where the plate begins. */
  readonly bottom: number;
  readonly wide: number;
  readonly length: (metres: number) => WrittenLength;
  /** The same in one word without unit. */
  readonly short: (metres: number) => string;
  readonly unit: string;
  readonly scale: number;
}

/** White paper under the drawings of a sheet, as a rule of its own. */
export const whitePaper = ":root{--paper:#fff;--raised:#fff}";

/**
 * The sheets to build a scape by.
 * @throws RangeError for a tank that fits on no sheet
 */
export function sheetsOf(scape: Scape, scene: ScapeScene, options: SheetOptions): readonly Sheet[] {
  const [width, height] = paperSizes[options.paper];
  const us = options.units === "us";
  const short = (m: number): string => (us ? plain(m / inch, 1) : plain(m * 1000, 0));
  const unit = us ? "in" : "mm";
  const length = (m: number): WrittenLength => ({ number: short(m), unit });
  const [left, right, top] = [edge + gap, width - edge - gap, edge + gap];
  const bottom = height - edge - plate.height;
  // over each of the two drawings stands a line of words
  const scale = roundScale(scene, length, right - left + 2 * gap - 2, bottom - top - 22);
  const desk: Desk = {
    scape,
    scene,
    options,
    left,
    right,
    top,
    bottom,
    wide: right - left,
    length,
    short,
    unit,
    scale,
  };
  const pages = [views(desk), ...settingOut(desk), ...planting(desk), ...bill(desk), cautions(desk)];
  return pages.map((page, k) => ({
    title: page.title,
    width,
    height,
    node: {
      tag: "svg",
      attributes: {
        xmlns: "http://www.w3.org/2000/svg",
        width: `${width}mm`,
        height: `${height}mm`,
        viewBox: `0 0 ${width} ${height}`,
        role: "img",
        "aria-label": `${scape.plan.name}, ${page.title}`,
      },
      children: [
        box(edge, edge, width - 2 * edge, height - 2 * edge, false, 0.5),
        ...page.nodes,
        ...titlePlate(desk, page, k + 1, pages.length),
      ],
    },
  }));
}

function titlePlate({ scape, options, right, bottom }: Desk, page: Page, number: number, count: number): DrawingNode[] {
  const [x, y] = [right + gap - plate.width, bottom];
  const cells: readonly (readonly [label: string, what: string, at: number])[] = [
    ["scale", page.scale === null ? "not to scale" : `1:${page.scale}, print at 100 %`, 0],
    ["date", options.date, 41],
    ["sheet", `${number} of ${count}`, 68],
  ];
  return [
    box(x, y, plate.width, plate.height, false, 0.5),
    ...(scape.plan.invented ? [words(x + 2, y + 3.6, "Invented example", { size: 2.4 })] : []),
    words(x + 2, y + 10, scape.plan.name, { size: 6, face: "serif", weight: 600 }),
    words(x + 2, y + 15, page.title, { size: 2.9 }),
    line(x, y + 17.5, x + plate.width, y + 17.5, 0.3),
    ...cells.flatMap(([label, what, at]) => [
      ...(at > 0 ? [line(x + at, y + 17.5, x + at, y + plate.height, 0.3)] : []),
      words(x + at + 2, y + 21, label, { size: 2.2 }),
      words(x + at + 2, y + 25, what, { size: 2.9 }),
    ]),
  ];
}

const heading = (x: number, y: number, content: string): DrawingNode =>
  words(x, y, content, { size: 4.6, face: "serif", weight: 600 });

/** A bar of a round length on paper, in four parts, to be held against a ruler. */
function scaleBar({ right, scale, options, short, unit }: Desk, y: number): readonly DrawingNode[] {
  const us = options.units === "us";
  const long = us ? 50.8 : 40;
  const x = right - long - 14;
  const said = us ? `1:${scale} when this bar measures 2 in` : `1:${scale} when this bar measures 40 mm`;
  return [
    words(x - 2, y, said, { anchor: "end" }),
    {
      tag: "g",
      attributes: { class: "s-bar" },
      children: [0, 1, 2, 3].map((k) => box(x + (k * long) / 4, y - 2, long / 4, 1.4, k % 2 === 0)),
    },
    words(x + long + 2, y, `${short((long * scale) / 1000)} ${unit}`),
  ];
}

/** Sheet 1: how it looks from the front and from above. */
function views(desk: Desk): Page {
  const { scene, scale, length, left, top, wide } = desk;
  const [front, plan] = [frontAt(scene, scale, length), planAt(scene, scale, length, { lamps: true })];
  const second = top + 10 + front.height + 6;
  return {
    title: "Front elevation and plan",
    scale,
    nodes: [
      heading(left, top + 4, "Front elevation"),
      ...scaleBar(desk, top + 4),
      placed(front, left + (wide - front.width) / 2, top + 7),
      heading(left, second, "Plan"),
      words(left + 14, second, "dots: height of the bed; dashes: planting; long dashes: lamp"),
      placed(plan, left + (wide - plan.width) / 2, second + 3),
      words(left, desk.bottom + 10, "The plan and the front pane are to scale;"),
      words(left, desk.bottom + 14, "what stands behind the pane is drawn smaller."),
    ],
  };
}

/** Rulers along the inside of the left and the front pane. */
function rulers(desk: Desk, { drawing, factor }: OnPaper<PlanDrawing>, x: number, y: number): readonly DrawingNode[] {
  const { scene, scale, options, short } = desk;
  const us = options.units === "us";
  const fine = us ? inch : 0.01;
  const every = stepOf(us ? [2, 4, 8, 12, 24] : [50, 100, 200, 500], us ? inch : 0.001, scale, 11);
  const out: DrawingNode[] = [];
  const along = (extent: number, mark: (m: number, long: boolean) => void): void => {
    for (let k = 0; k * fine <= extent + 1e-9; k++) {
      const m = k * fine;
      const long = Math.abs(m / every - Math.round(m / every)) < 1e-6;
      if (long || (fine * 1000) / scale >= 0.9) mark(m, long);
    }
  };
  along(scene.tank.length, (m, long) => {
    const [px, py] = drawing.toPage(m, 0);
    const [tx, ty] = [x + px * factor, y + py * factor];
    out.push(line(tx, ty, tx, ty - (long ? 2.2 : 1.1), 0.12));
    if (long && m > 0) out.push(words(tx, ty - 2.8, short(m), { size: 2.2, anchor: "middle" }));
  });
  along(scene.tank.width, (m, long) => {
    const [px, py] = drawing.toPage(0, m);
    const [tx, ty] = [x + px * factor, y + py * factor];
    out.push(line(tx, ty, tx + (long ? 2.2 : 1.1), ty, 0.12));
    if (long && m > 0) out.push(words(tx + 2.8, ty + 0.8, short(m), { size: 2.2 }));
  });
  return out;
}

/** The first of some round steps that is at least so many mm on paper, m. */
function stepOf(steps: readonly number[], unit: number, scale: number, least: number): number {
  return unit * (steps.find((s) => (s * unit * 1000) / scale >= least) ?? steps.at(-1)!);
}

/** Sheet 2: heights of the bed, and where the pieces lie. */
function settingOut(desk: Desk): readonly Page[] {
  const { scape, scene, scale, length, short, unit, left, top, wide, options } = desk;
  const us = options.units === "us";
  const step = stepOf(us ? [2, 4, 8, 12, 24] : [50, 100, 200, 500], us ? inch : 0.001, scale, 8.5);
  const plan = planAt(scene, scale, length, { planting: false, lamps: false, height: false });
  const [x, y] = [left + (wide - plan.width) / 2, top + 12];
  const spots: DrawingNode[] = [];
  for (let i = 0; i * step <= scene.tank.length + 1e-9; i++)
    for (let j = 0; j * step <= scene.tank.width + 1e-9; j++) {
      const [mx, my] = [i * step, j * step];
      const [px, py] = plan.drawing.toPage(mx, my);
      const [tx, ty] = [x + px * plan.factor, y + py * plan.factor];
      const [atLeft, atRight] = [i === 0, mx + 0.004 * scale > scene.tank.length];
      const atBack = my + 0.004 * scale > scene.tank.width;
      spots.push(line(tx - 0.8, ty, tx + 0.8, ty, 0.12), line(tx, ty - 0.8, tx, ty + 0.8, 0.12));
      const written = words(
        tx + (atLeft ? 0.8 : atRight ? -0.8 : 0),
        atBack ? ty + 3 : ty - 1.1,
        short(fieldHeight(scene.ground, mx, my)),
        { size: 2.3, anchor: atLeft ? "start" : atRight ? "end" : "middle" },
      );
      // legible over stones as well
      const halo = { stroke: "#fff", "stroke-width": 0.7, "stroke-linejoin": "round", "paint-order": "stroke" };
      spots.push({ ...written, attributes: { ...written.attributes, ...halo } });
    }
  const columns: readonly Column[] = [
    { head: "", share: 8 },
    { head: "what", share: 30 },
    { head: `wide × deep × high, ${unit}`, share: 34, right: true },
    { head: us ? "lb" : "kg", share: 13, right: true },
    { head: "left", share: 13, right: true },
    { head: "front", share: 13, right: true },
    { head: "turned", share: 14, right: true },
    { head: "foot", share: 12, right: true },
    { head: "top", share: 12, right: true },
  ];
  const rows = scape.pieces.map((piece) => {
    const own = scape.plan.hardscape[piece.index]!;
    const { min, max } = meshBounds(piece.mesh);
    return [
      piece.key,
      own.name ?? piece.material,
      [own.width, own.breadth, own.height].map((e) => short(e.value)).join(" × "),
      shown(piece.mass, "kg", piece.mass < 10 ? 1 : 0, options.units).text,
      short(piece.middle[0]),
      short(piece.middle[1]),
      `${Math.round(own.turn.value)}°`,
      short(min[2]),
      short(max[2]),
    ];
  });
  const tableTop = y + plan.height + 8;
  const first: Page = {
    title: "Setting out: heights of the bed, stones and wood",
    scale,
    nodes: [
      heading(left, top + 4, "Setting out"),
      ...scaleBar(desk, top + 4),
      words(
        left,
        top + 9.5,
        `at each cross: height of the bed over the inside floor, ${unit}; crosses every ${short(step)} ${unit} from the inside of the left and front panes`,
      ),
      placed(plan, x, y),
      ...spots,
      ...(rows.length > 0 ? [heading(left, tableTop, "Stones and wood")] : []),
    ],
  };
  const told = paragraph(
    left,
    0,
    desk.wide - plate.width + gap - 8,
    "Left, front: from the inside of the panes to the middle of the piece as it lies. Foot, top: over the inside floor. Turned: counter-clockwise seen from above.",
  );
  const pages = withTable(desk, first, tableTop + 2, columns, rows);
  const last = pages.at(-1)!;
  const note: DrawingNode = {
    tag: "g",
    attributes: { transform: `translate(0 ${desk.bottom + 8})` },
    children: told.nodes,
  };
  return rows.length === 0 ? pages : [...pages.slice(0, -1), { ...last, nodes: [...last.nodes, note] }];
}

/** A page with as much of a table as it holds, and pages for the rest. */
function withTable(
  desk: Desk,
  first: Page,
  y: number,
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
): readonly Page[] {
  if (rows.length === 0) return [first];
  const { left, wide, top, bottom } = desk;
  const room = (from: number): number => Math.floor((bottom - 3 - from) / rowHeight) - 1;
  const fits = Math.max(0, Math.min(rows.length, room(y)));
  const pages: Page[] = [
    fits > 0 ? { ...first, nodes: [...first.nodes, ...table(left, y, wide, columns, rows.slice(0, fits))] } : first,
  ];
  for (let from = fits; from < rows.length; ) {
    const count = room(top + 8);
    const nodes = [
      heading(left, top + 4, `${first.title}, continued`),
      ...table(left, top + 8, wide, columns, rows.slice(from, from + count)),
    ];
    pages.push({ title: `${first.title}, continued`, scale: null, nodes });
    from += count;
  }
  return pages;
}

/** Sheet 3: what is planted where. */
function planting(desk: Desk): readonly Page[] {
  const { scape, scene, scale, length, short, unit, left, top, wide, options } = desk;
  if (scape.zones.length === 0) return [];
  const plan = planAt(scene, scale, length, { height: false, lamps: false });
  const [x, y] = [left + (wide - plan.width) / 2, top + 12];
  const us = options.units === "us";
  const rows = scape.zones.map(({ key, fact, area, portions, outline, on, afloat }) => {
    const at = boundsOf(outline);
    const from = (a: number, b: number): string => `${short(a)}–${short(b)}`;
    return [
      key,
      fact.name,
      us ? plain(area / inch ** 2, 0) : plain(area * 1e4, 0),
      String(portions),
      fact.heightMax > 0 ? from(fact.heightMin, fact.heightMax) : "",
      afloat ? "afloat" : on === null ? "in the bed" : `on ${scape.pieces[on]?.key ?? ""}`,
      from(at.left, at.right),
      from(at.front, at.back),
    ];
  });
  const columns: readonly Column[] = [
    { head: "", share: 8 },
    { head: "species", share: 46, italic: true },
    { head: us ? "in²" : "cm²", share: 13, right: true },
    { head: "portions", share: 15, right: true },
    { head: `height to expect, ${unit}`, share: 33, right: true },
    { head: "where", share: 20 },
    { head: "from left", share: 20, right: true },
    { head: "from front", share: 20, right: true },
  ];
  const tableTop = y + plan.height + 8;
  const first: Page = {
    title: "Planting",
    scale,
    nodes: [
      heading(left, top + 4, "Planting"),
      ...scaleBar(desk, top + 4),
      words(
        left,
        top + 9.5,
        `rulers and distances from the inside of the left and front panes, ${unit}; a planting lies between the distances given`,
      ),
      placed(plan, x, y),
      ...rulers(desk, plan, x, y),
      heading(left, tableTop, "Plant key"),
    ],
  };
  return withTable(desk, first, tableTop + 2, columns, rows);
}

const counted: Readonly<Partial<Record<Amount["unit"], readonly [one: string, more: string]>>> = {
  pieces: ["piece", "pieces"],
  bags: ["bag", "bags"],
  portions: ["portion", "portions"],
};

function amount({ value, unit }: Amount, units: UnitSystem): string {
  if (unit === "L" || unit === "kg") {
    const told = shown(value, unit, value < 10 ? 1 : 0, units);
    return `${told.text} ${told.unit}`;
  }
  if (unit === "cm2") return units === "us" ? `${plain(value / 6.4516, 0)} in²` : `${plain(value, 0)} cm²`;
  return `${value} ${counted[unit]?.[value === 1 ? 0 : 1] ?? unit}`;
}

/** The bill, on sheets of its own. */
function bill(desk: Desk): readonly Page[] {
  const { scape, left, top, wide, options } = desk;
  const { items, total, unpriced, currency } = billOf(scape);
  const priced = items.some((i) => i.price !== null);
  const rows = items.flatMap((i) => {
    // what does not find room beside the item goes on under it
    const [note = "", ...rest] = broken(i.note, 0.42 * wide);
    const own = [
      i.group === "plants" || i.group === "wood" ? i.key : "",
      i.what,
      i.group === "tank" || i.group === "equipment" ? "" : amount(i.needs, options.units),
      amount(i.buy, options.units),
      i.price === null ? "" : i.price.toFixed(2),
      note,
    ];
    return [own, ...rest.map((line) => ["", "", "", "", "", line])];
  });
  const all = [
    "",
    unpriced > 0 ? `All that is priced; ${unpriced} without a price` : "All",
    "",
    "",
    total.toFixed(2),
    "",
  ];
  const columns: readonly Column[] = [
    { head: "", share: 9 },
    { head: "what", share: 48 },
    { head: "the plan needs", share: 20, right: true },
    { head: "buy", share: 18, right: true },
    { head: priced ? currency || "price" : "price", share: 14, right: true },
    { head: "", share: 82 },
  ];
  const first: Page = { title: "To be bought", scale: null, nodes: [heading(left, top + 4, "To be bought")] };
  return withTable(desk, first, top + 8, columns, priced ? [...rows, all] : rows);
}

/** What can hurt, with the usual caution beside it. */
function cautions({ scape, left, top, wide, options }: Desk): Page {
  const { masses, loadPerArea, net } = scape.volumes;
  const told = (value: number, unit: string): string => {
    const s = shown(value, unit, 0, options.units);
    return `${s.text} ${s.unit}`;
  };
  const texts = [
    `Filled it weighs ${told(masses.total, "kg")}: glass ${told(masses.glass, "kg")}, water ${told(masses.water, "kg")}, bed dry ${told(masses.substrate, "kg")}, stones and wood ${told(masses.solids, "kg")}; stand, lamp and people leaning on it come on top. On its footprint that is ${told(loadPerArea, "kg/m2")}. This is arithmetic, not a verdict on a floor, a stand or a pane: ask the maker, and for floors a structural engineer.`,
    `It holds ${told(net * 1000, "L")} of water when filled. Try it for leaks where water does no harm, level and on the mat that its maker asks for, before anything is built in it.`,
    "Set stones on the floor or on a firm base before the bed is filled in, never on edge against a pane. What is leant or stacked must hold by itself.",
    "Lift in pairs, and never a tank with water or stones in it.",
    "Mains devices on a residual-current device, cables with a drip loop, plugs out before hands go in. Local wiring rules and the makers' instructions come first.",
    ...(scape.plan.co2
      ? ["CO2 gathers in low places: chain the cylinder upright, air the room, and follow the rules of its filler."]
      : []),
    "Plants and animals are never released, and cuttings do not go into open waters or drains.",
  ];
  const nodes: DrawingNode[] = [heading(left, top + 4, "Cautions")];
  let y = top + 12;
  for (const content of texts) {
    const { nodes: lines, next } = paragraph(left + 5, y, wide - 10, content);
    nodes.push({ tag: "circle", attributes: { cx: left + 1.5, cy: y - 1, r: 0.7, fill: ink } }, ...lines);
    y = next + 1;
  }
  return { title: "Cautions", scale: null, nodes };
}
