import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { demoScene } from "./demo-scene.ts";
import { frameOf } from "./frame.ts";
import { isInside, type Point, segmentMeets } from "./geometry.ts";
import { CUT, groundOf } from "./ground.ts";
import { placeDiscs, spreadOut } from "./labels.ts";
import { element, toSvg } from "./node.ts";
import { OpenWater } from "./open-water.ts";
import { Pen } from "./pen.ts";
import { randomFrom, streamOf } from "./random.ts";
import { drawable } from "./scene.ts";
import { drawingCss, lightTokens, roomTokens, type Tokens, tokenCss } from "./styles.ts";
import { pathPoints, xmlFault } from "./svg.testing.ts";
import { fitted, formulaRuns, numberAndUnit, sizeText, textWidth, wrapped } from "./text.ts";

describe("colours", () => {
  /** Relative luminance and contrast ratio: W3C, Web Content Accessibility Guidelines 2.2, 2023 (definitions). */
  const luminance = (hex: string): number => {
    const [r, g, b] = [1, 3, 5]
      .map((i) => Number.parseInt(hex.slice(i, i + 2), 16) / 255)
      .map((v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4)) as [number, number, number];
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const contrast = (a: string, b: string): number => {
    const [high, low] = [luminance(a), luminance(b)].sort((x, y) => y - x) as [number, number];
    return (high + 0.05) / (low + 0.05);
  };
  test("the measure itself: black on white is 21, the same on the same is 1", () => {
    expect(contrast("#000000", "#FFFFFF")).toBeCloseTo(21, 6);
    expect(contrast("#777777", "#777777")).toBe(1);
    // Widely printed worked value: #767676 is the lightest grey that passes 4.5:1 on white (from memory).
    expect(contrast("#767676", "#FFFFFF")).toBeGreaterThanOrEqual(4.5);
    expect(contrast("#777777", "#FFFFFF")).toBeLessThan(4.5);
  });
  test.each([
    ["light", lightTokens],
    ["room", roomTokens],
  ] as const)("%s: lettering meets 4.5:1 on what it stands on", (_, tokens: Tokens) => {
    const on = (ink: keyof Tokens, ground: keyof Tokens): number =>
      contrast(tokens[ink] as string, tokens[ground] as string);
    for (const ink of ["--ink", "--ink-2", "--ink-3", "--warn", "--drag", "--water", "--leaf"] as const) {
      expect(on(ink, "--paper"), `${ink} on paper`).toBeGreaterThanOrEqual(4.5);
      expect(on(ink, "--raised"), `${ink} on raised`).toBeGreaterThanOrEqual(4.5);
    }
    // Key numbers on their discs, letters on theirs, the waterline's words in the beam.
    expect(on("--ink", "--raised")).toBeGreaterThanOrEqual(4.5);
    expect(on("--paper", "--ink")).toBeGreaterThanOrEqual(4.5);
    expect(on("--ink-3", "--d-beam")).toBeGreaterThanOrEqual(4.5);
  });
  test("both sets name the same tokens, and the rules use none that is missing", () => {
    expect(Object.keys(roomTokens)).toEqual(Object.keys(lightTokens));
    const local = new Set(["--f", "--g", "--l", "--s", "--a", "--b", "--h"]);
    for (const [, name] of drawingCss.matchAll(/var\((--[\w-]+)/g)) {
      expect(local.has(name as string) || (name as string) in lightTokens, name).toBe(true);
    }
    expect(tokenCss).toContain("[data-theme=room]{");
  });
});

describe("tree", () => {
  test("escapes text and attributes", () => {
    const svg = toSvg(element("text", { "aria-label": `a"<&>` }, [`</text><script>&`]));
    expect(svg).toBe(`<text aria-label="a&quot;&lt;&amp;&gt;">&lt;/text&gt;&lt;script&gt;&amp;</text>`);
    expect(xmlFault(svg)).toBeUndefined();
  });
  test("the reader of the tests finds faults", () => {
    for (const bad of [
      "<a><b></a></b>",
      "<a x=1/>",
      "<a>&</a>",
      '<a x="<"/>',
      "<a/><b/>",
      "<a",
      "x<a/>",
      '<a x="1" x="2"/>',
      "<a>\u0001</a>",
    ]) {
      expect(xmlFault(bad), bad).toBeDefined();
    }
    expect(xmlFault('<a x="1"><b/>t&amp;</a>')).toBeUndefined();
  });
});

describe("pen", () => {
  test("rounds to 0.1 without drift", () => {
    const points: Point[] = Array.from({ length: 400 }, (_, i) => [i * 0.33, Math.sin(i) * 7.77]);
    const read = pathPoints(new Pen().polyline(points).d);
    read.forEach(([x, y], i) => {
      expect(Math.abs(x - (points[i] as Point)[0])).toBeLessThan(0.0501);
      expect(Math.abs(y - (points[i] as Point)[1])).toBeLessThan(0.0501);
    });
  });
  test("stays in its box, control points too", () => {
    const box = { left: 10, right: 20, top: 5, bottom: 9 };
    fc.assert(
      fc.property(
        fc.array(
          fc.tuple(fc.double({ min: -50, max: 50, noNaN: true }), fc.double({ min: -50, max: 50, noNaN: true })),
          { minLength: 3, maxLength: 9 },
        ),
        (points) => {
          for (const [x, y] of pathPoints(new Pen(box).loop(points).curve(points).d, true)) {
            expect(x).toBeGreaterThanOrEqual(10 - 1e-9);
            expect(x).toBeLessThanOrEqual(20 + 1e-9);
            expect(y).toBeGreaterThanOrEqual(5 - 1e-9);
            expect(y).toBeLessThanOrEqual(9 + 1e-9);
          }
        },
      ),
    );
  });
});

describe("generator", () => {
  test("spreads evenly and has streams of its own", () => {
    const random = randomFrom(5);
    const bins = new Array<number>(10).fill(0);
    for (let i = 0; i < 10000; i++) {
      const k = Math.floor(random() * 10);
      bins[k] = (bins[k] ?? 0) + 1;
    }
    // Chi-squared with 9 degrees of freedom: 27.9 is passed by chance once in a thousand (Abramowitz and Stegun 1964, table 26.8).
    expect(bins.reduce((sum, n) => sum + (n - 1000) ** 2 / 1000, 0)).toBeLessThan(27.9);
    expect(streamOf(1, "a", 0)()).not.toBe(streamOf(1, "a", 1)());
    expect(streamOf(1, "a")()).not.toBe(streamOf(2, "a")());
    expect(streamOf(1, "a")()).toBe(streamOf(1, "a")());
  });
});

describe("labels", () => {
  const slots = fc.array(
    fc.record({
      want: fc.double({ min: -100, max: 600, noNaN: true }),
      size: fc.double({ min: 5, max: 70, noNaN: true }),
    }),
    { maxLength: 12 },
  );
  test("never cover each other and start no higher than they may", () => {
    fc.assert(
      fc.property(slots, (list) => {
        const tops = spreadOut(list, 6, 4, 400);
        tops.forEach((top, i) => {
          expect(top).toBeGreaterThanOrEqual(4 - 1e-6);
          const next = tops[i + 1];
          if (next !== undefined) expect(next - top).toBeGreaterThanOrEqual((list[i]?.size ?? 0) + 6 - 1e-6);
        });
        const total = list.reduce((sum, s) => sum + s.size + 6, -6);
        const last = list.length - 1;
        if (list.length > 0 && total <= 396)
          expect((tops[last] ?? 0) + (list[last]?.size ?? 0)).toBeLessThanOrEqual(400 + 1e-6);
      }),
    );
  });
  test("stand where they want to where there is room, else share the shift", () => {
    expect(
      spreadOut(
        [
          { want: 10, size: 5 },
          { want: 50, size: 5 },
        ],
        2,
        0,
        100,
      ),
    ).toEqual([10, 50]);
    // Two that want the same place: least squares puts each half of 12 away from it.
    expect(
      spreadOut(
        [
          { want: 50, size: 10 },
          { want: 50, size: 10 },
        ],
        2,
        0,
        100,
      ),
    ).toEqual([44, 56]);
  });
  test("discs keep apart while there is room for them", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.double({ min: 0, max: 400, noNaN: true }), fc.double({ min: 0, max: 200, noNaN: true })), {
          maxLength: 25,
        }),
        (anchors) => {
          const discs = placeDiscs(
            anchors.map((at) => ({ at, first: [] })),
            {
              radius: 7.5,
              within: { left: 0, right: 400, top: 0, bottom: 200 },
              blocked: [{ left: 100, right: 180, top: 50, bottom: 70 }],
              cost: () => 0,
            },
          );
          discs.forEach((a, i) => {
            expect(a.x < 92 || a.x > 188 || a.y < 42 || a.y > 78).toBe(true);
            for (const b of discs.slice(i + 1))
              expect(Math.hypot(a.x - b.x, a.y - b.y)).toBeGreaterThanOrEqual(18 - 1e-6);
          });
        },
      ),
    );
  });
  test("a segment meets a box or passes it by", () => {
    const box = { left: 0, right: 10, top: 0, bottom: 10 };
    expect(segmentMeets([-5, 5], [15, 5], box)).toBe(true);
    expect(segmentMeets([2, 2], [3, 3], box)).toBe(true);
    expect(segmentMeets([-5, 0], [0, -5.1], box)).toBe(false);
    expect(segmentMeets([-5, 12], [15, 12], box)).toBe(false);
  });
});

describe("text", () => {
  test("is fitted and wrapped within its width", () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 60 }), fc.integer({ min: 30, max: 200 }), (text, width) => {
        const lines = wrapped(text, 12, width, 2);
        expect(lines.length).toBeLessThanOrEqual(2);
        for (const line of lines) expect([...line].length <= 2 || textWidth(line, 12) <= width).toBe(true);
        const one = fitted(text, 12, width);
        expect([...one].length <= 2 || textWidth(one, 12) <= width).toBe(true);
      }),
    );
  });
  test("formulas get their numbers low, other words do not", () => {
    const low = (text: string): string =>
      formulaRuns(text)
        .map((r) => (r.low ? `_${r.text}` : r.text))
        .join("");
    expect(low("CO2 at lights-on")).toBe("CO_2 at lights-on");
    expect(low("O2, NO3 and H2O")).toBe("O_2, NO_3 and H_2O");
    expect(low("BIO2, O25 and room 2")).toBe("BIO2, O25 and room 2");
  });
  test("lengths share their unit where they have the same", () => {
    expect(numberAndUnit("760 mm")).toEqual(["760", "mm"]);
    expect(numberAndUnit("29 15/16 in")).toEqual(["29 15/16", "in"]);
    expect(sizeText(["760 mm", "1.2 m"])).toBe("760 mm × 1.2 m");
    expect(sizeText(["30″", "15″"])).toBe("30 × 15 ″");
  });
});

describe("ground", () => {
  const scene = drawable(demoScene);
  const frame = frameOf(scene, {});
  const ground = groundOf(scene, frame);
  const height = (x: number, depth: number): number => (frame.inner.bottom - ground.y(x, depth)) / frame.scale;
  test("has the thickness of its layers in the corners of the back and never less than nothing", () => {
    expect(height(frame.inner.right, 1)).toBeCloseTo(0.15, 6);
    expect(height(frame.inner.left, 1)).toBeCloseTo(0.038, 6);
    for (let x = frame.inner.left; x <= frame.inner.right; x += 5) expect(height(x, 0.5)).toBeGreaterThan(0);
  });
  test("at the cut lies between front and back, and nearer than the cut is the cut", () => {
    const cut = height(frame.inner.right, CUT);
    expect(cut).toBeGreaterThan(0.07);
    expect(cut).toBeLessThan(0.15);
    expect(height(frame.inner.right, 0)).toBe(cut);
  });
  test("too deep a bed is squeezed under the water", () => {
    const deep = drawable({
      ...demoScene,
      layers: [{ material: "sand", frontLeft: 2, frontRight: 2, backLeft: 2, backRight: 2 }],
    });
    expect(deep.layers[0]?.backRight).toBeLessThanOrEqual(0.85 * deep.tank.waterLine + 1e-9);
  });
});

describe("open water", () => {
  test("is found where nothing stands", () => {
    const open = new OpenWater({ left: 0, right: 300, top: 0, bottom: 100 }, () => 100);
    open.take({ left: 0, right: 180, top: 0, bottom: 100 }, 1);
    const { x, y } = open.emptiest(60, 40, 20, 80);
    expect(x).toBeGreaterThan(200);
    expect(y).toBeGreaterThanOrEqual(20);
    expect(y).toBeLessThanOrEqual(80);
  });
});

test("a point is inside a polygon or not", () => {
  const square: Point[] = [
    [0, 0],
    [4, 0],
    [4, 4],
    [0, 4],
  ];
  expect(isInside([2, 2], square)).toBe(true);
  expect(isInside([5, 2], square)).toBe(false);
});
