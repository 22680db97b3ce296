import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { MOST_DRAWN } from "./animals.ts";
import { demoFigures, demoScene } from "./demo-scene.ts";
import { type Box, overlap, segmentMeets } from "./geometry.ts";
import { type SectionFigure, type SectionScene, section, sectionDrawing, sectionFigures, toSvg } from "./index.ts";
import type { DrawingNode } from "./node.ts";
import { nodesOf, pathPoints, wordsOf, xmlFault } from "./svg.testing.ts";

const forms = ["stem", "rosette", "runner", "carpet", "moss", "bulb", "rhizome", "floating"] as const;
const leaves = ["ribbon", "fern", "lobed", "oval", "needle", "round"] as const;
const places = ["outlet", "surface", "water-upper", "water", "thermometer", "diffuser", "substrate", "lamp"] as const;

const real = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
const words = fc.string({ minLength: 0, maxLength: 40, unit: "binary" });

const tank = fc
  .record({
    length: real(0.2, 2.4),
    width: real(0.15, 1),
    height: real(0.15, 0.9),
    glass: real(0.003, 0.02),
    fill: real(0.3, 1.2),
    lid: fc.boolean(),
  })
  .map(({ fill, lid, ...t }): SectionScene["tank"] => ({
    ...t,
    base: t.glass,
    waterLine: (t.height - t.glass) * fill,
    cover: lid ? "lid" : "open",
  }));

const layer = fc.record({
  material: fc.constantFrom("soil", "sand", "gravel"),
  frontLeft: real(0, 0.08),
  frontRight: real(0, 0.08),
  backLeft: real(0, 0.3),
  backRight: real(0, 0.3),
});
const piece = fc.record({
  kind: fc.constantFrom("stone", "wood"),
  texture: fc.constantFrom("layered", "faceted", "rounded"),
  at: real(-0.2, 1.2),
  depth: real(0, 1),
  width: real(0.01, 1),
  height: real(0.01, 0.8),
  lean: real(-1, 1),
});
const plant = fc.record({
  label: words,
  form: fc.constantFrom(...forms),
  leaf: fc.constantFrom(...leaves),
  at: real(-0.1, 1.1),
  depth: real(0, 1),
  width: real(0.01, 0.8),
  height: real(0.005, 1.2),
});
const animal = fc.record({
  label: words,
  body: fc.constantFrom("slender", "deep", "eel", "catfish", "shrimp", "snail"),
  layer: fc.constantFrom("top", "mid", "bottom"),
  count: fc.integer({ min: 0, max: 300 }),
  length: real(0.005, 0.3),
});

const anyScene: fc.Arbitrary<SectionScene> = fc
  .record({
    tank,
    layers: fc.array(layer, { maxLength: 3 }),
    hardscape: fc.array(piece, { maxLength: 4 }),
    plants: fc.array(plant, { maxLength: 8 }),
    animals: fc.array(animal, { maxLength: 4 }),
    lamp: fc.option(
      fc.record({
        kind: fc.constantFrom("bar", "panel", "tube", "pendant"),
        length: real(0.05, 3),
        aboveRim: real(0, 1),
        strength: real(0, 1),
        caption: words,
      }),
      { nil: undefined },
    ),
    pipes: fc.option(fc.record({ outlet: fc.boolean(), intake: fc.boolean(), ripple: real(0, 4) }), { nil: undefined }),
    diffuser: fc.option(
      fc.record({ device: fc.constantFrom("ceramic disc", "bell", "inline reactor"), bubbles: real(0, 8) }),
      { nil: undefined },
    ),
    airStone: fc.boolean(),
    heater: fc.boolean(),
    thermometer: fc.option(real(5, 40), { nil: undefined }),
    seed: fc.integer(),
  })
  .map(({ lamp, pipes, diffuser, thermometer, ...rest }) => ({
    ...rest,
    ...(lamp ? { lamp } : {}),
    ...(pipes ? { pipes } : {}),
    ...(diffuser ? { diffuser } : {}),
    ...(thermometer === undefined ? {} : { thermometer }),
  }));

const anyFigures: fc.Arbitrary<SectionFigure[]> = fc
  .array(
    fc.record({
      label: words,
      value: fc.constantFrom("3", "18.4", "1 240", "0.25"),
      unit: fc.constantFrom("", "mg/L", "µmol/m²s", "bubbles/s"),
      note: words,
      place: fc.constantFrom(...places),
      selected: fc.boolean(),
      warn: fc.boolean(),
    }),
    { maxLength: 10 },
  )
  .map((list) => list.map((f, i) => ({ ...f, id: `f${i}` })));

const anyOptions = fc.record({ width: fc.constantFrom(320, 390, 660, 720, 1100), compact: fc.boolean() });

const bare: SectionScene = { tank: demoScene.tank, layers: [], hardscape: [], plants: [], animals: [], seed: 1 };
const sized = (length: number, width: number, height: number): SectionScene => ({
  ...demoScene,
  tank: { ...demoScene.tank, length, width, height, waterLine: height * 0.9 },
});
const many: SectionScene = {
  ...demoScene,
  plants: Array.from({ length: 25 }, (_, i) => ({
    label: `Planta numerus ${i + 1}`,
    form: forms[i % forms.length] as (typeof forms)[number],
    leaf: leaves[(i * 5) % leaves.length] as (typeof leaves)[number],
    at: (i + 0.5) / 25,
    width: 0.1,
    height: 0.05 + 0.03 * (i % 7),
  })),
  animals: [{ label: "Paracheirodon innesi", body: "slender", layer: "mid", count: 200, length: 0.03 }],
};
const named: readonly (readonly [string, SectionScene])[] = [
  ["demo", demoScene],
  ["nano cube", sized(0.3, 0.3, 0.3)],
  ["long", sized(1.8, 0.5, 0.5)],
  ["tall", sized(0.4, 0.4, 0.7)],
  ["shallow", sized(0.9, 0.9, 0.25)],
  ["nothing but glass", bare],
  ["25 plants and 200 fish", many],
  ["25 plants in a nano cube", { ...many, tank: sized(0.3, 0.3, 0.3).tank }],
  ["25 plants in a tank drawn a thumb's breadth high", { ...many, tank: sized(2.4, 0.3, 0.15).tank }],
  ["lid", { ...demoScene, tank: { ...demoScene.tank, cover: "lid" } }],
];

/** What grows, lives or stands in the tank, as distinct from glassware, lettering and lines. */
const livesInside = (around: readonly string[]): boolean =>
  ["d-plant", "d-animal", "d-piece"].some((c) => around.includes(c));

function outside(node: DrawingNode, inner: Box): string[] {
  const out: string[] = [];
  // Points are rounded to 0.1 px.
  const by = 0.11;
  for (const { node: n, around } of nodesOf(node)) {
    if (!livesInside([...around, ...String(n.attributes.class ?? "").split(" ")])) continue;
    const d = n.attributes.d;
    if (typeof d !== "string") continue;
    for (const [x, y] of pathPoints(d, true)) {
      if (x < inner.left - by || x > inner.right + by || y < inner.top - by || y > inner.bottom + by) {
        out.push(`${n.attributes.class} in ${around.join(" ")} at ${x.toFixed(1)}, ${y.toFixed(1)}`);
      }
    }
  }
  return out;
}

/** Pairs of texts that cover each other; a hair's touch does not count. */
function covering(boxes: readonly Box[]): string[] {
  const out: string[] = [];
  const less = (b: Box): Box => ({
    left: b.left + 0.5,
    right: b.right - 0.5,
    top: b.top + 0.5,
    bottom: b.bottom - 0.5,
  });
  boxes.forEach((a, i) => {
    for (const b of boxes.slice(i + 1)) if (overlap(less(a), less(b))) out.push(JSON.stringify([a, b]));
  });
  return out;
}

function checkLabels(
  scene: SectionScene,
  figures: readonly SectionFigure[],
  options: { width?: number; compact?: boolean },
): void {
  const drawing = sectionDrawing(scene, options);
  const set = sectionFigures(drawing, figures);
  const lettering = [...drawing.texts, ...set.placed.map((p) => p.box)];
  expect(covering(lettering)).toEqual([]);
  // Discs are round: they keep apart by their middles, and clear of lettering by their boxes.
  drawing.keys.forEach((a, i) => {
    for (const b of drawing.keys.slice(i + 1))
      expect(Math.hypot(a.x - b.x, a.y - b.y), `keys ${a.number}, ${b.number}`).toBeGreaterThan(14);
    const disc = drawing.discs[i] as Box;
    expect(covering([disc, ...lettering.filter((t) => overlap(t, disc))])).toEqual([]);
  });
  const boxes = [...lettering, ...drawing.discs];
  for (const { id, box, leader } of set.placed) {
    for (let i = 1; i < leader.length; i++) {
      const [a, b] = [leader[i - 1], leader[i]];
      if (!a || !b) continue;
      for (const other of boxes) {
        if (other !== box && segmentMeets(a, b, other))
          throw new Error(`leader of ${id} runs through a text at ${JSON.stringify(other)}`);
      }
    }
  }
}

describe("any tank", () => {
  test("the same scene gives the same drawing, another seed another", () => {
    fc.assert(
      fc.property(anyScene, anyFigures, anyOptions, (scene, figures, options) => {
        expect(toSvg(section(scene, figures, options).node)).toBe(
          toSvg(section(structuredClone(scene), figures, options).node),
        );
      }),
      { numRuns: 6 },
    );
    const [a, b] = [7, 8].map((seed) => toSvg(section({ ...demoScene, seed }, demoFigures).node));
    expect(a).not.toBe(b);
  });

  test("is well-formed and plain, keeps what lives inside the glass, and its lettering apart and on the page", () => {
    fc.assert(
      fc.property(anyScene, anyFigures, anyOptions, (scene, figures, options) => {
        const { node, height } = section(scene, figures, options);
        const svg = toSvg(node);
        expect(xmlFault(svg)).toBeUndefined();
        expect(svg).not.toMatch(/ (?:d|x|y|cx|cy|r|width|height|transform|viewBox)="[^"]*(?:NaN|Infinity|undefined)/);
        expect(node.attributes.viewBox).toBe(`0 0 ${options.width} ${height}`);
        for (const { node: n } of nodesOf(node)) {
          const d = n.attributes.d;
          if (typeof d === "string") expect(pathPoints(d).length).toBeGreaterThan(0);
        }
        const drawing = sectionDrawing(scene, options);
        expect(outside(drawing.node, drawing.frame.inner)).toEqual([]);
        checkLabels(scene, figures, options);
        const set = sectionFigures(drawing, figures);
        for (const box of [...drawing.texts, ...set.placed.map((p) => p.box)]) {
          expect(box.left).toBeGreaterThanOrEqual(0);
          expect(box.right).toBeLessThanOrEqual(options.width + 0.5);
        }
      }),
      { numRuns: 40 },
    );
  });

  test.each(named)("%s", (_, scene) => {
    for (const options of [{}, { width: 360, compact: true }]) {
      checkLabels(scene, demoFigures, options);
      const { node } = section(scene, demoFigures, options);
      expect(xmlFault(toSvg(node))).toBeUndefined();
      const drawing = sectionDrawing(scene, options);
      expect(outside(drawing.node, drawing.frame.inner)).toEqual([]);
      expect(drawing.keys.map((k) => k.label)).toEqual(scene.plants.map((p) => p.label));
    }
  });

  test("a tank without size cannot be drawn", () => {
    for (const length of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => sectionDrawing({ ...bare, tank: { ...bare.tank, length } })).toThrow(RangeError);
    }
  });

  test("careless figures of everything else are brought into range", () => {
    const careless: SectionScene = {
      ...demoScene,
      tank: { ...demoScene.tank, glass: Number.NaN, waterLine: 9 },
      plants: demoScene.plants.map((p) => ({ ...p, at: Number.NaN, height: -1, width: Number.POSITIVE_INFINITY })),
      animals: demoScene.animals.map((a) => ({ ...a, count: -3.5, length: Number.NaN })),
      hardscape: demoScene.hardscape.map((h) => ({ ...h, lean: 40, depth: Number.NaN })),
      thermometer: Number.NaN,
      seed: Number.NaN,
    };
    const svg = toSvg(section(careless, demoFigures).node);
    expect(xmlFault(svg)).toBeUndefined();
    expect(svg).not.toMatch(/NaN|Infinity/);
  });
});

describe("the demo", () => {
  test("goes to scale: px per metre along and up, water and ground at their heights", () => {
    const { frame, texts } = sectionDrawing(demoScene);
    const { outer, inner, scale, surface } = frame;
    expect((outer.right - outer.left) / scale).toBeCloseTo(0.76, 6);
    expect((outer.bottom - outer.top) / scale).toBeCloseTo(0.4, 6);
    expect((inner.right - inner.left) / scale).toBeCloseTo(0.744, 6);
    expect((inner.bottom - surface) / scale).toBeCloseTo(0.372, 6);
    expect(texts.length).toBeGreaterThan(10);
  });

  test("animals have their length to scale", () => {
    const length = 0.1;
    const scene: SectionScene = {
      ...bare,
      animals: [{ label: "one", body: "slender", layer: "mid", count: 1, length }],
    };
    const drawing = sectionDrawing(scene);
    const body = [...nodesOf(drawing.node)].find(({ node }) => node.attributes.class === "d-body");
    const xs = pathPoints(String(body?.node.attributes.d)).map((p) => p[0]);
    // Tilted by up to 0.1 rad, which shortens it by up to 0.5 %, and lengthens by its height.
    expect((Math.max(...xs) - Math.min(...xs)) / drawing.frame.scale / length).toBeCloseTo(1, 1);
  });

  test("says what it shows", () => {
    const { node, keys } = section(demoScene, demoFigures);
    const text = wordsOf(node);
    expect(text).toContain("Section looking to the back. 760 × 380 × 400 mm outside.");
    expect(text).toContain("waterline 372");
    expect(text).toContain("bar lamp, 46 W at 65 %, 90 mm over the rim");
    expect(keys.map((k) => k.number)).toEqual([1, 2, 3, 4, 5, 6]);
    const { inner } = sectionDrawing(demoScene).frame;
    for (const k of keys) {
      expect(k.x).toBeGreaterThan(inner.left);
      expect(k.x).toBeLessThan(inner.right);
      expect(k.y).toBeGreaterThan(inner.top);
      expect(k.y).toBeLessThan(inner.bottom);
    }
  });

  test("takes lengths as they are written elsewhere", () => {
    const text = wordsOf(section(demoScene, [], { length: (m) => `${(m / 0.0254).toFixed(1)} in` }).node);
    // 0.0254 m to the inch, by definition (international yard and pound agreement, 1959).
    expect(text).toContain("29.9 × 15.0 × 15.7 in outside.");
    expect(text).toContain("3.5 in over the rim");
  });

  test("makes a button of each figure", () => {
    const { node } = section(demoScene, demoFigures);
    const found = [...nodesOf(node)].filter(({ node: n }) => n.figure !== undefined);
    expect(found.map(({ node: n }) => n.figure).sort()).toEqual(demoFigures.map((f) => f.id).sort());
    for (const f of demoFigures) {
      const group = found.find(({ node: n }) => n.figure === f.id)?.node;
      expect(wordsOf(group as DrawingNode)).toContain(f.value);
      expect(toSvg(group as DrawingNode)).toContain(`data-figure="${f.id}"`);
    }
    const chosen = found.filter(({ node: n }) => String(n.attributes.class).includes("d-selected"));
    expect(chosen.map(({ node: n }) => n.figure)).toEqual(["co2"]);
  });

  test("every figure of the demo has its leader, and changing values moves nothing", () => {
    const drawing = sectionDrawing(demoScene);
    const before = sectionFigures(drawing, demoFigures);
    const after = sectionFigures(
      drawing,
      demoFigures.map((f) => ({ ...f, value: "9.9" })),
    );
    for (const p of before.placed) expect(p.leader.length).toBeGreaterThan(1);
    expect(after.placed.map((p) => p.box)).toEqual(before.placed.map((p) => p.box));
    expect(after.placed.map((p) => p.leader.at(-1))).toEqual(before.placed.map((p) => p.leader.at(-1)));
  });

  test("a warning is hatched and worded", () => {
    const { node } = section(demoScene, [{ ...(demoFigures[0] as SectionFigure), warn: true }]);
    const warned = [...nodesOf(node)]
      .filter(({ around }) => around.includes("d-warn"))
      .map(({ node: n }) => n.attributes.class);
    expect(warned).toContain("d-hatch");
    expect(warned).toContain("d-word");
  });

  test("is small and quick", () => {
    const svg = toSvg(section(demoScene, demoFigures).node);
    expect(svg.length).toBeLessThanOrEqual(250_000);
    // The quickest of some runs: on a shared machine the rest measure its other guests.
    let quickest = Number.POSITIVE_INFINITY;
    for (let i = 0; i < 25; i++) {
      const start = performance.now();
      toSvg(section({ ...demoScene, seed: i }, demoFigures).node);
      quickest = Math.min(quickest, performance.now() - start);
    }
    expect(quickest).toBeLessThanOrEqual(30);
  });

  test("has light only with a lamp, and more of it the stronger the lamp is", () => {
    const classes = (scene: SectionScene): string => toSvg(sectionDrawing(scene).node);
    const { lamp, ...dark } = demoScene;
    expect(classes(dark)).not.toContain("d-beam");
    expect(classes(dark)).not.toContain('class="d-lamp"');
    if (!lamp) throw new Error("the demo has a lamp");
    expect(classes({ ...demoScene, lamp: { ...lamp, strength: 0 } })).not.toContain("d-beam");
    expect(classes({ ...demoScene, lamp: { ...lamp, strength: 1 } })).toContain("d-strength-4");
    expect(classes({ ...demoScene, lamp: { ...lamp, strength: 0.25 } })).toContain("d-strength-1");
  });
});

describe("animals", () => {
  test("of a large shoal only some are drawn, and the key says so", () => {
    const drawing = sectionDrawing(many);
    expect(drawing.animals).toEqual([{ label: "Paracheirodon innesi", count: 200, drawn: MOST_DRAWN.slender }]);
    expect(wordsOf(drawing.node)).toContain(`${MOST_DRAWN.slender} drawn of 200`);
    const eyes = [...nodesOf(drawing.node)].find(
      ({ node, around }) => around.includes("d-slender") && node.attributes.class === "d-eye",
    );
    expect(String(eyes?.node.attributes.d).match(/h0/g)?.length).toBe(MOST_DRAWN.slender);
  });

  test("keep to their layer", () => {
    const middles = (layer: "top" | "mid" | "bottom"): number => {
      const drawing = sectionDrawing({
        ...bare,
        animals: [{ label: "a", body: "slender", layer, count: 12, length: 0.02 }],
      });
      const body = [...nodesOf(drawing.node)].find(({ node }) => node.attributes.class === "d-body");
      const ys = pathPoints(String(body?.node.attributes.d)).map((p) => p[1]);
      return ys.reduce((a, b) => a + b, 0) / ys.length;
    };
    expect(middles("top")).toBeLessThan(middles("mid"));
    expect(middles("mid")).toBeLessThan(middles("bottom"));
  });
});

describe("hostile text", () => {
  const hostile = `<script>alert("1")</script>&amp;'\u0000\ud800]]>`;
  test("is written as text, never as markup", () => {
    const scene: SectionScene = {
      ...demoScene,
      plants: demoScene.plants.map((p) => ({ ...p, label: hostile })),
      animals: demoScene.animals.map((a) => ({ ...a, label: hostile })),
      lamp: { kind: "bar", length: 0.3, aboveRim: 0.1, strength: 1, caption: hostile },
      diffuser: { device: hostile, bubbles: 1 },
    };
    const figures: SectionFigure[] = [
      { id: `"><script>`, label: hostile, value: hostile, unit: hostile, note: hostile, place: "water" },
    ];
    for (const compact of [false, true]) {
      const svg = toSvg(section(scene, figures, { compact, length: (m) => `${m}<b>` }).node);
      expect(xmlFault(svg)).toBeUndefined();
      expect(svg).not.toContain("<script");
      expect(svg).not.toContain("<b>");
    }
  });
});
