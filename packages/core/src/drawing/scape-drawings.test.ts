import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { placeMesh } from "../solids/index.ts";
import { demoGround, demoLight, demoScape, demoScapeIn, demoTank, setPiece } from "./demo-scape.ts";
import { type Box, overlap } from "./geometry.ts";
import {
  type DrawingNode,
  elevationDrawing,
  keyOf,
  planDrawing,
  type ScapeScene,
  type ScapeTank,
  type ScapeZone,
  selectionMarks,
  toSvg,
} from "./index.ts";
import { nodesOf, pathPoints, wordsOf, xmlFault } from "./svg.testing.ts";

const forms = ["stem", "rosette", "runner", "carpet", "moss", "bulb", "rhizome", "floating"] as const;
const leaves = ["ribbon", "fern", "lobed", "oval", "needle", "round"] as const;
const everything = { names: true, thirds: true, golden: true, balance: true, horizon: true };

const sized = (length: number, width: number, height: number): ScapeTank => ({
  ...demoTank,
  length,
  width,
  height,
  waterLine: height * 0.95,
});

/** Every form with every leaf, in the ground, on wood and afloat. */
const crowded: ScapeScene = {
  ...demoScape,
  zones: Array.from({ length: 48 }, (_, i): ScapeZone => {
    const [x, y] = [0.01 + (i % 8) * 0.09, 0.01 + Math.floor(i / 8) * 0.058];
    const form = forms[i % 8] ?? "stem";
    return {
      index: i,
      key: String.fromCharCode(65 + (i % 26)),
      label: `Planta numerus ${i}`,
      form,
      leaf: leaves[(i + Math.floor(i / 8)) % 6] ?? "oval",
      outline: [
        [x, y],
        [x + 0.08, y],
        [x + 0.08, y + 0.05],
        [x, y + 0.05],
      ],
      height: 0.02 + 0.05 * (i % 7),
      cover: 0.6,
      on: (form === "moss" || form === "rhizome") && i % 3 === 0 ? 8 : null,
      spread: 0.05,
    };
  }),
};

const named: readonly (readonly [string, ScapeScene])[] = [
  ["demo", demoScape],
  ["a cube of 200 mm", demoScapeIn(sized(0.2, 0.2, 0.2))],
  ["3 m long", demoScapeIn(sized(3, 0.5, 0.5))],
  ["a tower", demoScapeIn(sized(0.3, 0.3, 1.2))],
  ["a tray", demoScapeIn(sized(1, 1, 0.06))],
  ["a strip", demoScapeIn(sized(2, 0.05, 0.3))],
  ["every form and leaf", crowded],
  ["bare glass", { ...demoScape, layers: [], edges: [], pieces: [], zones: [], lamps: [], animals: [] }],
  [
    "many lamps",
    {
      ...demoScape,
      lamps: (["bar", "panel", "tube", "pendant"] as const).map((kind, index) => ({
        index,
        kind,
        length: 0.1 + index * 0.4,
        width: 0.1,
        x: 0.1 + index * 0.2,
        y: 0.18,
        z: 0.38 + index * 0.2,
        turn: index * 40,
        tilt: index * 10,
        strength: index / 3,
        caption: `lamp number ${index}`,
      })),
    },
  ],
];

const real = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
const careless = fc.oneof(real(-1, 3), fc.constantFrom(Number.NaN, Number.POSITIVE_INFINITY, -1e9, 0, 1e9));
const anyZone = fc.record({
  key: fc.string({ maxLength: 2 }),
  label: fc.string({ maxLength: 30, unit: "binary" }),
  form: fc.constantFrom(...forms),
  leaf: fc.constantFrom(...leaves),
  outline: fc.array(fc.tuple(careless, careless), { maxLength: 7 }),
  height: careless,
  cover: careless,
  on: fc.option(fc.integer({ min: 0, max: 12 }), { nil: null }),
  spread: careless,
});

/** A scene in which everything but the tank and its ground may be wrong. */
const anyScene: fc.Arbitrary<ScapeScene> = fc
  .record({
    length: real(0.1, 3),
    width: real(0.1, 1),
    height: real(0.1, 1),
    zones: fc.array(anyZone, { maxLength: 6 }),
    lamps: fc.array(
      fc.record({
        kind: fc.constantFrom("bar", "panel", "tube", "pendant"),
        length: careless,
        width: careless,
        x: careless,
        y: careless,
        z: careless,
        turn: careless,
        tilt: careless,
        strength: careless,
        caption: fc.string({ maxLength: 60, unit: "binary" }),
      }),
      { maxLength: 3 },
    ),
    shift: fc.tuple(real(-1, 1), real(-1, 1), real(-0.5, 0.5)),
    seed: fc.integer(),
  })
  .map(({ length, width, height, zones, lamps, shift, seed }) => {
    const scene = demoScapeIn(sized(length, width, height));
    return {
      ...scene,
      seed,
      pieces: scene.pieces.map((p, i) => (i % 3 === 0 ? { ...p, mesh: placeMesh(p.mesh, { shift }) } : p)),
      zones: zones.map((z, index) => ({ ...z, index })),
      lamps: lamps.map((l, index) => ({ ...l, index })),
    };
  });

function soundPicture(node: DrawingNode, width: number, height: number): void {
  const svg = toSvg(node);
  expect(xmlFault(svg)).toBeUndefined();
  expect(svg).not.toMatch(/ (?:d|x|y|cx|cy|r|width|height|transform|viewBox)="[^"]*(?:NaN|Infinity|undefined)/);
  expect(node.attributes.viewBox).toBe(`0 0 ${width} ${height}`);
  for (const { node: n, around } of nodesOf(node)) {
    const { d } = n.attributes;
    if (typeof d !== "string") continue;
    for (const [x, y] of pathPoints(d)) {
      const inside = x >= -0.2 && x <= width + 0.2 && y >= -0.2 && y <= height + 0.2;
      if (!inside) throw new Error(`${n.attributes.class} in ${around.join(" ")} at ${x}, ${y} of ${width}, ${height}`);
    }
  }
}

/** What grows and lies in the tank keeps within the panes and above the floor. */
function within(node: DrawingNode, inner: Box): void {
  for (const { node: n, around } of nodesOf(node)) {
    const { d } = n.attributes;
    if (typeof d !== "string" || !["d-plant", "d-piece", "d-animal", "d-zone"].some((c) => around.includes(c)))
      continue;
    for (const [x, y] of pathPoints(d, true)) {
      if (x < inner.left - 0.11 || x > inner.right + 0.11 || y > inner.bottom + 0.11)
        throw new Error(`${n.attributes.class} in ${around.join(" ")} at ${x}, ${y}`);
    }
  }
}

function apart(boxes: readonly Box[], width: number): void {
  const less = (b: Box): Box => ({
    left: b.left + 0.5,
    right: b.right - 0.5,
    top: b.top + 0.5,
    bottom: b.bottom - 0.5,
  });
  boxes.forEach((a, i) => {
    for (const b of boxes.slice(i + 1))
      if (overlap(less(a), less(b))) throw new Error(`texts cover each other: ${JSON.stringify([a, b])}`);
    expect(a.left).toBeGreaterThanOrEqual(0);
    expect(a.right).toBeLessThanOrEqual(width + 0.5);
  });
}

const figuresOf = (node: DrawingNode): (string | undefined)[] =>
  [...nodesOf(node)].flatMap(({ node: n }) => (n.figure === undefined ? [] : [n.figure]));

describe("any tank", () => {
  test.each(named)("%s", (_, scene) => {
    for (const width of [760, 480, 300]) {
      const plan = planDrawing(scene, { width, light: demoLight(scene), show: everything });
      const front = elevationDrawing(scene, { width, show: everything });
      for (const drawing of [plan, front]) {
        soundPicture(drawing.node, width, drawing.height);
        within(drawing.node, drawing.inner);
        apart(drawing.texts, width);
      }
    }
  });

  test("careless scenes are drawn as far as they can be", () => {
    fc.assert(
      fc.property(anyScene, fc.constantFrom(760, 320), (scene, width) => {
        for (const drawing of [
          planDrawing(scene, { width, light: demoLight(scene), show: everything }),
          elevationDrawing(scene, { width, show: everything }),
        ]) {
          soundPicture(drawing.node, width, drawing.height);
          within(drawing.node, drawing.inner);
          apart(drawing.texts, width);
        }
      }),
      { numRuns: 10 },
    );
  });

  test("the same scene gives the same drawing, also when it is not the same object; another seed another", () => {
    const copy = structuredClone(demoScape);
    for (const draw of [
      (s: ScapeScene) => planDrawing(s, { light: demoLight(s) }).node,
      (s: ScapeScene) => elevationDrawing(s).node,
    ]) {
      expect(toSvg(draw(copy))).toBe(toSvg(draw(demoScape)));
      expect(toSvg(draw({ ...demoScape, seed: 8 }))).not.toBe(toSvg(draw(demoScape)));
    }
  });

  test("a tank without size, or one that is a mere thread, is refused with its sizes", () => {
    for (const length of [0, -1, Number.NaN, Number.POSITIVE_INFINITY, 60]) {
      const scene = { ...demoScape, tank: { ...demoTank, length } };
      expect(() => planDrawing(scene)).toThrow(RangeError);
      expect(() => elevationDrawing(scene)).toThrow(`${length} x`);
    }
  });

  test("a light map that does not fit its own size is refused", () => {
    const light = { columns: 4, rows: 4, values: new Float64Array(15), levels: [20] };
    expect(() => planDrawing(demoScape, { light })).toThrow("light map of 15 values");
    expect(() => planDrawing(demoScape, { light: { ...light, columns: 0 } })).toThrow(RangeError);
  });
});

describe("scale and places", () => {
  test("plan: places come back, sides are to scale", () => {
    const { toPage, toMetres, scale, inner } = planDrawing(demoScape);
    fc.assert(
      fc.property(real(-0.2, 1), real(-0.2, 1), (x, y) => {
        const [a, b] = toMetres(...toPage(x, y));
        expect(a).toBeCloseTo(x, 9);
        expect(b).toBeCloseTo(y, 9);
      }),
    );
    expect((inner.right - inner.left) / scale).toBeCloseTo(demoTank.length, 9);
    expect((inner.bottom - inner.top) / scale).toBeCloseTo(demoTank.width, 3);
    // The front pane is below.
    expect(toPage(0, 0)[1]).toBeGreaterThan(toPage(0, 0.3)[1]);
  });

  test("front: places come back at any depth, the front pane is to scale, what lies behind is smaller", () => {
    const { toPage, toMetres, scale, inner } = elevationDrawing(demoScape);
    fc.assert(
      fc.property(real(-0.2, 1), real(0, 0.364), real(-0.2, 1), (x, y, z) => {
        const [a, b] = toMetres(...toPage(x, y, z), y);
        expect(a).toBeCloseTo(x, 9);
        expect(b).toBeCloseTo(z, 9);
      }),
    );
    expect((inner.right - inner.left) / scale).toBeCloseTo(demoTank.length, 9);
    expect((inner.bottom - inner.top) / scale).toBeCloseTo(demoTank.height, 3);
    const wide = (y: number): number => toPage(0.5, y, 0.1)[0] - toPage(0.2, y, 0.1)[0];
    expect(wide(0)).toBeCloseTo(0.3 * scale, 6);
    expect(wide(0.364)).toBeLessThan(wide(0.1));
    expect(wide(0.364)).toBeGreaterThan(wide(0) * 0.75);
  });

  test("measures are those of the tank, in the unit that is asked for", () => {
    const inches = { length: (m: number) => ({ number: (m / 0.0254).toFixed(1), unit: "in" }) };
    expect(wordsOf(planDrawing(demoScape).node)).toContain("760 mm front, seen from here");
    // 0.0254 m to the inch, by definition (international yard and pound agreement, 1959): 760 mm are 29.9 in.
    expect(wordsOf(planDrawing(demoScape, inches).node)).toContain("29.9 in front, seen from here");
    const words = wordsOf(elevationDrawing(demoScape).node);
    expect(words).toContain("760 mm");
    expect(words).toContain("400");
    expect(words).toContain("380 water");
    // The lamp hangs 90 mm over a rim 12 mm above the water.
    expect(words.split("\n")).toContain("102");
  });

  test("lines of height carry round figures within the ground's range", () => {
    const words = wordsOf(planDrawing(demoScape, { show: { planting: false } }).node).split("\n");
    const figures = words.map(Number).filter((n) => Number.isInteger(n) && n > 0 && n < 200);
    expect(figures).toEqual(expect.arrayContaining([40, 60]));
    for (const n of figures) expect(n % 20).toBe(0);
  });
});

describe("what can be taken hold of", () => {
  const all = [
    ...demoScape.pieces.map((p) => `piece:${p.index}`),
    ...demoScape.zones.map((z) => `zone:${z.index}`),
    ...demoScape.lamps.map((l) => `lamp:${l.index}`),
  ].sort();

  test("every piece, planting and lamp has one area on each drawing", () => {
    expect(figuresOf(planDrawing(demoScape).node).sort()).toEqual(all);
    expect(figuresOf(elevationDrawing(demoScape).node).sort()).toEqual(all);
  });

  test("marks: a box round the thing, corners and a turning handle where it can be sized and turned", () => {
    const plan = planDrawing(demoScape);
    const front = elevationDrawing(demoScape);
    const handles = (node: DrawingNode | undefined): string[] =>
      node ? [...nodesOf(node)].flatMap(({ node: n }) => (n.attributes["data-handle"] as string) ?? []) : [];
    const piece = { kind: "piece", index: 3 } as const;
    for (const drawing of [plan, front])
      expect(handles(selectionMarks(drawing, demoScape, piece))).toEqual([
        "corner",
        "corner",
        "corner",
        "corner",
        "turn",
      ]);
    expect(handles(selectionMarks(plan, demoScape, { kind: "zone", index: 0 }))).toHaveLength(4);
    expect(handles(selectionMarks(plan, demoScape, { kind: "lamp", index: 0 }))).toEqual(["turn"]);
    expect(selectionMarks(front, demoScape, { kind: "lamp", index: 0 })).toBeDefined();
    expect(selectionMarks(plan, demoScape, { kind: "zone", index: 99 })).toBeUndefined();
    expect(toSvg(planDrawing(demoScape, { selected: piece }).node)).toContain("d-selection");
    // The box holds the piece: its corners lie just outside the outermost places of the mesh.
    const box = pathPoints(
      String(
        [...nodesOf(selectionMarks(plan, demoScape, piece)!)].find(({ node }) => node.attributes.d)?.node.attributes.d,
      ),
    );
    const { positions } = demoScape.pieces[3]!.mesh;
    const xs = Array.from({ length: positions.length / 3 }, (_, k) => plan.toPage(positions[3 * k]!, 0)[0]);
    expect(Math.min(...box.map((p) => p[0]))).toBeCloseTo(Math.min(...xs) - 3, 0);
    expect(Math.max(...box.map((p) => p[0]))).toBeCloseTo(Math.max(...xs) + 3, 0);
  });

  test("the key names every piece, each species once, every lamp", () => {
    const twice = { ...demoScape, zones: [...demoScape.zones, { ...demoScape.zones[0]!, index: 6 }] };
    const rows = keyOf(twice);
    expect(rows).toHaveLength(9 + 6 + 1);
    expect(rows.find((r) => r.key === "A")).toEqual({
      key: "A",
      label: "Vallisneria nana",
      kind: "zone",
      figures: ["zone:0", "zone:6"],
    });
    expect(rows.flatMap((r) => r.figures).sort()).toEqual([...all, "zone:6"].sort());
  });
});

describe("what is drawn anew", () => {
  test("when one stone is moved, the others and the plantings off it are the same nodes as before", () => {
    const moved = demoScape.pieces.map((p) =>
      p.index === 6 ? { ...p, mesh: placeMesh(p.mesh, { shift: [0.004, 0, 0] }) } : p,
    );
    for (const draw of [(s: ScapeScene) => planDrawing(s).node, (s: ScapeScene) => elevationDrawing(s).node]) {
      const before = new Set([...nodesOf(draw(demoScape))].map(({ node }) => node.children));
      const after = [...nodesOf(draw({ ...demoScape, pieces: moved }))].filter(
        ({ node }) => String(node.attributes.class).startsWith("d-piece") && node.children,
      );
      expect(after).toHaveLength(9);
      expect(after.filter(({ node }) => !before.has(node.children))).toHaveLength(1);
    }
  });

  test("changed ground, planting or light is seen at once", () => {
    const plan = (s: ScapeScene, level = 20): string =>
      toSvg(planDrawing(s, { light: { ...demoLight(s), levels: [level] } }).node);
    const front = (s: ScapeScene): string => toSvg(elevationDrawing(s).node);
    expect(plan(demoScape, 50)).not.toBe(plan(demoScape));
    const flat = { ...demoScape, ground: { ...demoScape.ground, heights: demoScape.ground.heights.map(() => 0.03) } };
    const grown = { ...demoScape, zones: demoScape.zones.map((z) => ({ ...z, height: z.height * 1.4 })) };
    for (const changed of [flat, grown]) expect(front(changed)).not.toBe(front(demoScape));
    expect(plan(flat)).not.toBe(plan(demoScape));
  });
});

describe("pieces and ground", () => {
  const ground = demoGround(demoTank);
  const only = (pieces: ScapeScene["pieces"], more: Partial<ScapeScene> = {}): ScapeScene => ({
    ...demoScape,
    zones: [],
    animals: [],
    pieces,
    ...more,
  });
  const stone = setPiece(0, "stone", "faceted", [0.1, 0.08, 0.08], [0.3, 0.1], ground, { buried: 0.3 });
  const hitPoints = (node: DrawingNode): (readonly [number, number])[] =>
    [...nodesOf(node)].flatMap(({ node: n, around }) =>
      around.includes("d-hit-group") && typeof n.attributes.d === "string" ? pathPoints(n.attributes.d) : [],
    );

  test("what is buried is not drawn: nothing of the stone lies below the ground in front of it", () => {
    const drawing = elevationDrawing(only([stone], { lamps: [] }));
    const lowest = Math.max(...hitPoints(drawing.node).map((p) => p[1]));
    const floor = drawing.toPage(0.3, 0.05, 0)[1];
    expect(lowest).toBeLessThan(floor - 0.02 * drawing.scale);
    const deep = { ...stone, mesh: placeMesh(stone.mesh, { shift: [0, 0, -0.2] }) };
    expect(hitPoints(elevationDrawing(only([deep], { lamps: [] })).node)).toEqual([]);
    expect(hitPoints(planDrawing(only([deep], { lamps: [] })).node)).toEqual([]);
  });

  test.each(["layered", "faceted", "rounded", "irregular"] as const)("a %s stone shows its texture", (texture) => {
    const piece = setPiece(0, "stone", texture, [0.16, 0.12, 0.12], [0.3, 0.1], ground, {});
    const svg = toSvg(elevationDrawing(only([piece])).node);
    expect(svg).toContain('class="d-stone-');
    expect(svg).toContain(texture === "rounded" ? 'class="d-stone-dots"' : 'class="d-bed"');
  });

  test("nothing roots where a stone lies", () => {
    const zone: ScapeZone = {
      ...demoScape.zones[2]!,
      outline: [
        [0.26, 0.07],
        [0.34, 0.07],
        [0.34, 0.13],
        [0.26, 0.13],
      ],
    };
    const blades = (s: ScapeScene): number =>
      [...nodesOf(elevationDrawing(s).node)]
        .filter(({ node }) => String(node.attributes.class).startsWith("d-blades"))
        .reduce((sum, { node }) => sum + String(node.attributes.d).length, 0);
    const free = blades(only([], { zones: [zone] }));
    expect(blades(only([stone], { zones: [zone] }))).toBeLessThan(free * 0.7);
  });

  test("attached plants sit on their piece, and are gone with it", () => {
    const ferns = (s: ScapeScene): number[] =>
      [...nodesOf(elevationDrawing(s).node)]
        .filter(({ node, around }) => around.includes("d-pine") && String(node.attributes.class).startsWith("d-leaf"))
        .flatMap(({ node }) => pathPoints(String(node.attributes.d)).map((p) => p[1]));
    const fern = { ...demoScape.zones[5]!, on: 0 };
    const wood = demoScape.pieces[8]!;
    const scene = only([wood], { zones: [fern] });
    expect(ferns(scene).length).toBeGreaterThan(20);
    const raised = only([{ ...wood, mesh: placeMesh(wood.mesh, { shift: [0, 0, -0.08] }) }], { zones: [fern] });
    const mean = (list: number[]): number => list.reduce((a, b) => a + b, 0) / list.length;
    expect(mean(ferns(raised))).toBeGreaterThan(mean(ferns(scene)) + 20);
    expect(ferns(only([], { zones: [fern] }))).toEqual([]);
  });
});

describe("hostile text", () => {
  const hostile = `<script>alert("1")</script>&amp;'\u0000\ud800]]>`;
  test("is written as text, never as markup", () => {
    const scene: ScapeScene = {
      ...demoScape,
      pieces: demoScape.pieces.map((p) => ({ ...p, key: hostile, label: hostile })),
      zones: demoScape.zones.map((z) => ({ ...z, key: hostile, label: hostile })),
      lamps: demoScape.lamps.map((l) => ({ ...l, caption: hostile })),
      animals: demoScape.animals.map((a) => ({ ...a, label: hostile })),
    };
    const length = (m: number) => ({ number: `${m}<b>`, unit: hostile });
    for (const { node } of [
      planDrawing(scene, { length, show: everything }),
      elevationDrawing(scene, { length, show: everything }),
    ]) {
      const svg = toSvg(node);
      expect(xmlFault(svg)).toBeUndefined();
      expect(svg).not.toContain("<script");
      expect(svg).not.toContain("<b>");
    }
  });
});
