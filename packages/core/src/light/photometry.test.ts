import { readdirSync, readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  intensityAt,
  lightOutputRatio,
  PHOTOMETRY_LIMITS,
  type Photometry,
  photonFluxOf,
  photonIntensityAt,
  readPhotometry,
  tiltFactorAt,
  zonalFlux,
} from "./index.ts";

const folder = (name: string): URL => new URL(`./${name}-photometry/`, import.meta.url);
const text = (name: string, file: string): string => readFileSync(new URL(file, folder(name)), "utf8");

function good(file: string): Photometry {
  const read = readPhotometry(text("good", file));
  if (!read.ok) throw new Error(`${file}: line ${read.faults[0]!.line}: ${read.faults[0]!.message}`);
  return read.photometry;
}

const RAD = Math.PI / 180;

describe("files that are read", () => {
  const all = readdirSync(folder("good"));

  test.each(all)("%s is read, without notes but those expected", (file) => {
    const read = readPhotometry(text("good", file));
    expect(read.ok).toBe(true);
    if (!read.ok) return;
    const expected = file.startsWith("tilt-elsewhere") ? [expect.stringContaining("stands in another file")] : [];
    expect(read.notes).toEqual(expected);
    expect(file).toContain(read.photometry.layout);
  });

  test("every layout and every symmetry is on the shelf", () => {
    const photometries = all.map(good);
    expect(new Set(photometries.map((p) => p.layout)).size).toBe(5);
    expect(new Set(photometries.map((p) => p.symmetry)).size).toBe(5);
  });

  // a matt emitter of 100 cd gives 100 pi lm; the rule of the mid zone meets it, since a cosine is straight in its zones
  test.each([
    "matt-1995.ies",
    "upwards-1995.ies",
    "tilted-1986.ies",
    "leaning-half-2019.ies",
    "leaning-across-1995.ies",
  ])("%s gives 314.159 lm", (file) => {
    // written with four decimals: 1e-4 cd in each of nine zones
    expect(Math.abs(zonalFlux(good(file)) - 100 * Math.PI)).toBeLessThan(5e-4);
  });

  test("a narrow beam in steps of 5 deg adds up to 1086.4 lm by the rule of zones", () => {
    // exact 2 pi 1000/5.8188 = 1079.8; the rule itself errs by 0.6 %
    expect(zonalFlux(good("beam-60-absolute-2002.ies"))).toBeCloseTo(1086.4, 1);
  });

  test("factors: an old file multiplies candela, ballast and ballast-lamp factor, a new one only the first two", () => {
    expect(intensityAt(good("tilted-1986.ies"), 0, 0)).toBeCloseTo(100, 9);
    expect(intensityAt(good("bar-quarter-1991.ies"), 0, 77)).toBeCloseTo(200 * 0.9 * 0.95, 9);
    expect(intensityAt(good("leaning-half-2019.ies"), 0, 12)).toBeCloseTo(100, 9);
  });

  test("rating, watts, sizes and shape", () => {
    expect(good("beam-60-absolute-2002.ies")).toMatchObject({
      lamps: 1,
      lumensPerLamp: null,
      watts: 10,
      opening: { width: 0.05, length: 0.05, height: 0, round: true },
    });
    expect(lightOutputRatio(good("beam-60-absolute-2002.ies"))).toBeNull();
    const bar = good("bar-quarter-1991.ies");
    expect(bar).toMatchObject({ lamps: 2, lumensPerLamp: 350, watts: 22 });
    expect(bar.opening.length).toBeCloseTo(3.9 * 0.3048, 12);
    expect(bar.opening.width).toBeCloseTo(0.25 * 0.3048, 12);
    expect(bar.opening.round).toBe(false);
    expect(lightOutputRatio(good("matt-1995.ies"))).toBeCloseTo(314.159 / 400, 5);
  });

  test("keywords: continued lines are joined, free lines of 1986 kept", () => {
    expect(good("beam-60-absolute-2002.ies").keywords.get("LUMCAT")).toBe("round lens of 60 degrees\nsecond line");
    expect(good("tilted-1986.ies").keywords.get("")).toBe("Invented lamp with a tilt table\nits second line");
  });

  test("a byte mark before the text and an end mark after it mean nothing", () => {
    const plain = text("good", "matt-1995.ies");
    expect(readPhotometry(`\uFEFF${plain}\x1a`)).toEqual(readPhotometry(plain));
  });

  test("tilt: straight between its angles, 1 without a table, refused beyond", () => {
    const tilted = good("tilted-1986.ies");
    expect([0, 22.5, 45, -90].map((angle) => tiltFactorAt(tilted, angle))).toEqual([1, 0.975, 0.95, 0.9]);
    expect(() => tiltFactorAt(tilted, 91)).toThrow("the file holds 0 to 90 deg");
    expect(tiltFactorAt(good("matt-1995.ies"), 91)).toBe(1);
  });

  test("photons follow from the spectrum", () => {
    const matt = good("matt-1995.ies");
    expect(photonFluxOf(matt, 69.4)).toBeCloseTo(314.159 / 69.4, 5);
    expect(photonIntensityAt(matt, 0, 0, 69.4)).toBeCloseTo(100 / 69.4, 12);
  });
});

describe("intensity in a direction", () => {
  test("straight between measured angles, both ways", () => {
    const matt = good("matt-1995.ies");
    expect(intensityAt(matt, 15, 123)).toBeCloseTo(50 * (Math.cos(10 * RAD) + Math.cos(20 * RAD)), 4);
    const full = good("up-and-down-full-2002.ies");
    const at = (v: number, h: number): number =>
      50 + 30 * Math.cos(v * RAD) + 10 * Math.sin(v * RAD) * Math.sin(h * RAD);
    const corners = [at(30, 45), at(45, 45), at(30, 90), at(45, 90)];
    expect(intensityAt(full, 37.5, 67.5)).toBeCloseTo(corners.reduce((a, b) => a + b) / 4, 3);
    expect(intensityAt(full, 180, 10)).toBeCloseTo(20, 9);
  });

  test.each([
    ["leaning-half-2019.ies", (h: number) => Math.cos(h * RAD)],
    ["leaning-across-1995.ies", (h: number) => Math.sin(h * RAD)],
  ] as const)("%s leans where it was made to lean, on both halves", (file, lean) => {
    const lamp = good(file);
    for (let h = -360; h <= 720; h += file.includes("across") ? 45 : 30) {
      const want = 100 * Math.cos(40 * RAD) * (1 + 0.4 * lean(h) * Math.sin(40 * RAD));
      expect(intensityAt(lamp, 40, h), `${h}`).toBeCloseTo(want, 3);
    }
  });

  test("a quarter stands for the other three", () => {
    const bar = good("bar-quarter-1991.ies");
    fc.assert(
      fc.property(fc.double({ min: 0, max: 90, noNaN: true }), fc.double({ min: 0, max: 90, noNaN: true }), (v, h) => {
        const here = intensityAt(bar, v, h);
        for (const other of [180 - h, 180 + h, -h, 360 - h, h + 720]) {
          expect(intensityAt(bar, v, other)).toBeCloseTo(here, 6);
        }
      }),
    );
  });

  test("no light in a half-space that was not measured; no figure for what is no direction", () => {
    expect(intensityAt(good("matt-1995.ies"), 120, 0)).toBe(0);
    expect(intensityAt(good("upwards-1995.ies"), 60, 0)).toBe(0);
    expect(() => intensityAt(good("matt-1995.ies"), 181, 0)).toThrow("vertical must be 0 to 180 deg");
    expect(() => intensityAt(good("matt-1995.ies"), 10, Number.NaN)).toThrow(RangeError);
  });

  test("never negative, never above the greatest that was measured", () => {
    for (const file of readdirSync(folder("good"))) {
      const lamp = good(file);
      const most = Math.max(...lamp.candela.flat());
      fc.assert(
        fc.property(
          fc.double({ min: 0, max: 180, noNaN: true }),
          fc.double({ min: -1e4, max: 1e4, noNaN: true }),
          (v, h) => {
            const i = intensityAt(lamp, v, h);
            expect(i).toBeGreaterThanOrEqual(0);
            expect(i).toBeLessThanOrEqual(most * (1 + 1e-12));
          },
        ),
      );
    }
  });
});

test("zones between measured angles add up to the whole; a cut zone takes its part", () => {
  for (const file of readdirSync(folder("good"))) {
    const lamp = good(file);
    const edges = [0, 30, 60, 90, 120, 180];
    const parts = edges.slice(1).map((to, i) => zonalFlux(lamp, edges[i], to));
    expect(parts.every((p) => p >= 0)).toBe(true);
    expect(parts.reduce((a, b) => a + b)).toBeCloseTo(zonalFlux(lamp), 6);
  }
  // half of a matt emitter's light lies within 45 deg; the cut at 45 splits a zone of 10 deg
  expect(zonalFlux(good("matt-1995.ies"), 0, 45) / zonalFlux(good("matt-1995.ies"))).toBeCloseTo(0.5, 2);
  expect(() => zonalFlux(good("matt-1995.ies"), 50, 40)).toThrow("rising pair");
});

describe("files that are read with a doubt", () => {
  const head = "IESNA:LM-63-1995\nTILT=NONE\n";
  const notes = (body: string): string => {
    const read = readPhotometry(head + body);
    if (!read.ok) throw new Error(read.faults[0]!.message);
    return read.notes.join("; ");
  };
  test("more light than the lamps give, hardly any, more than a watt can be", () => {
    expect(notes("1 100 1 3 1 1 2 0 0 0 1 1 10 0 45 90 0 100 70 0")).toContain("times the rating of the lamps");
    expect(notes("1 9000 1 3 1 1 2 0 0 0 1 1 10 0 45 90 0 100 70 0")).toContain("only 0.0");
    expect(notes("1 -1 1 3 1 1 2 0 0 0 1 1 0.5 0 45 90 0 100 70 0")).toContain("lm/W");
  });
  test("planes that do not meet", () => {
    expect(notes("1 -1 1 3 2 1 2 0 0 0 1 1 9 0 45 90 0 90 100 70 0 120 70 0")).toContain("straight down");
    expect(notes("1 -1 1 3 2 1 2 0 0 0 1 1 9 0 45 90 0 360 100 70 0 100 60 0")).toContain("0 and 360");
  });
  test("keywords that the layout asks for", () => {
    const body = "TILT=NONE\n1 -1 1 3 1 1 2 0 0 0 1 1 9 0 45 90 0 100 70 0";
    const read = readPhotometry(`IESNA:LM-63-2002\n[TEST] x\n${body}`);
    expect(read.ok && read.notes).toEqual([
      "keywords that the layout of 2002 asks for are missing: TESTLAB, ISSUEDATE, MANUFAC",
    ]);
  });
});

describe("files that are refused", () => {
  // biome-ignore format: one file a line
  const shelf: readonly (readonly [file: string, line: number, message: string, allowed: string])[] = [
   ["a-page.ies", 2, "there is no TILT= line", "TILT=NONE, TILT=INCLUDE or TILT=file name"],
   ["angles-broken.ies", 7, "number of vertical angles is 3.5", "a whole number from 2 to 721"],
   ["ballast-lamp-zero-1991.ies", 4, "ballast-lamp factor is 0", "above 0, up to 10"],
   ["ballast-zero.ies", 8, "ballast factor is 0", "above 0, up to 10"],
   ["binary.ies", 2, "the line holds bytes that are no text", "plain text after IES LM-63"],
   ["candela-left-over.ies", 12, "2 values are left over after the last intensity", "as many intensities as vertical times horizontal angles"],
   ["candela-missing.ies", 11, "the file ends before intensity at vertical 90, horizontal 0", "0 or more"],
   ["candela-negative.ies", 11, "intensity at vertical 45, horizontal 0 is -70", "0 or more"],
   ["candela-not-finite.ies", 11, "intensity at vertical 45, horizontal 0: \"NaN\" is not a number", "0 or more"],
   ["candela-overflow.ies", 11, "intensity at vertical 45, horizontal 0: \"1e999\" is not a number", "0 or more"],
   ["cut-off.ies", 8, "the file ends before input watts", "0 to 100000"],
   ["dark.ies", 11, "the intensities give no light, or more than can be counted", "some intensity above 0"],
   ["decimal-comma.ies", 9, "vertical angle 3 of 3 is 0", "above 10, the one before it, up to 180 deg"],
   ["empty.ies", 1, "the file is empty", "a photometric file after IES LM-63"],
   ["horizontal-not-zero.ies", 10, "horizontal angles run from 45 to 45", "0 alone, 0 to 90, 0 to 180, 0 to 360 or 90 to 270"],
   ["horizontal-stops-short.ies", 10, "horizontal angles run from 0 to 120", "0 alone, 0 to 90, 0 to 180, 0 to 360 or 90 to 270"],
   ["layout-unknown.ies", 1, "layout \"IESNA:LM-63-2099\" is not known", "IESNA91, IESNA:LM-63-1995, IESNA:LM-63-2002, IES:LM-63-2019, or none (1986)"],
   ["line-without-keyword.ies", 3, "\"a line of its own\" stands before TILT= without a keyword", "[KEYWORD] text, or TILT="],
   ["lumens-negative.ies", 7, "lumens per lamp is -1000", "above 0, or -1 for absolute photometry"],
   ["more-before-keyword.ies", 2, "[MORE] has no keyword before it to go on from", "a keyword line first"],
   ["multiplier-zero.ies", 7, "candela multiplier is 0", "above 0"],
   ["no-lamps.ies", 7, "number of lamps is 0", "a whole number from 1 to 10000"],
   ["no-tilt.ies", 10, "there is no TILT= line", "TILT=NONE, TILT=INCLUDE or TILT=file name"],
   ["one-vertical-angle.ies", 7, "number of vertical angles is 1", "a whole number from 2 to 721"],
   ["opening-huge.ies", 7, "length of the opening is 4000", "-100 to 100 (negative for round shapes)"],
   ["tilt-angles-fall.ies", 9, "tilt angle 2 of 2 is 0", "above 90, the one before it, up to 180 deg"],
   ["tilt-empty.ies", 6, "TILT= says nothing", "TILT=NONE, TILT=INCLUDE or TILT=file name"],
   ["tilt-position-unknown.ies", 7, "lamp position of the tilt table is 4", "a whole number from 1 to 3"],
   ["too-many-angles.ies", 7, "number of vertical angles is 100000", "a whole number from 2 to 721"],
   ["too-many-values.ies", 7, "700 by 700 angles make 490000 intensities", "up to 260000"],
   ["type-a.ies", 7, "photometric type 3 (A, vehicle lamps) is not read", "type 1 (C): ask the maker for that, or have the file turned into it"],
   ["type-b.ies", 7, "photometric type 2 (B, floodlights) is not read", "type 1 (C): ask the maker for that, or have the file turned into it"],
   ["type-unknown.ies", 7, "photometric type is 4", "a whole number from 1 to 3"],
   ["unit-unknown.ies", 7, "unit of lengths is 3", "a whole number from 1 to 2"],
   ["vertical-beyond.ies", 9, "vertical angle 3 of 3 is 200", "above 90, the one before it, up to 180 deg"],
   ["vertical-falls.ies", 9, "vertical angle 3 of 3 is 45", "above 60, the one before it, up to 180 deg"],
   ["vertical-stops-short.ies", 9, "vertical angles run from 0 to 60", "0 to 90, 0 to 180 or 90 to 180"],
   ["vertical-twice.ies", 9, "vertical angle 2 of 3 is 0", "above 0, the one before it, up to 180 deg"],
   ["watts-negative.ies", 8, "input watts is -10", "0 to 100000"],
   ["word-for-number.ies", 7, "lumens per lamp: \"bright\" is not a number", "above 0, or -1 for absolute photometry"],
  ];

  test.each(shelf)("%s, at line %i: %s", (file, line, message, allowed) => {
    const read = readPhotometry(text("bad", file));
    expect(read).toEqual({ ok: false, faults: [{ line, message, allowed }] });
  });

  test("the shelf and the list hold the same files", () => {
    expect(readdirSync(folder("bad")).sort()).toEqual(shelf.map(([file]) => file).sort());
    expect(shelf.length).toBeGreaterThanOrEqual(15);
  });

  test("too long a file, before anything in it is looked at", () => {
    const read = readPhotometry("x".repeat(PHOTOMETRY_LIMITS.characters + 1));
    expect(read).toMatchObject({ ok: false, faults: [{ line: 1, allowed: "up to 2000000" }] });
  });

  test("a long word is not told whole", () => {
    const read = readPhotometry(`TILT=NONE\n${"9".repeat(5000)}`);
    expect(read.ok || read.faults[0]!.message.length).toBeLessThan(80);
  });
});

describe("whatever text it is given, it answers", () => {
  const answered = (given: string): void => {
    const read = readPhotometry(given);
    if (read.ok) {
      const flux = zonalFlux(read.photometry);
      expect(flux > 0 && Number.isFinite(flux)).toBe(true);
    } else {
      expect(read.faults.length).toBeGreaterThan(0);
      const lines = given.split(/\r\n|\n|\r/).length;
      for (const { line, message, allowed } of read.faults) {
        expect(line >= 1 && line <= lines).toBe(true);
        expect(message.length * allowed.length).toBeGreaterThan(0);
        // what the file says is quoted; the rest is ours
        expect(`${message}${allowed}`.replace(/".*"/s, "")).not.toMatch(/undefined|NaN|Infinity|\[object/);
      }
    }
  };
  test("any text", () => fc.assert(fc.property(fc.string({ maxLength: 400, unit: "binary" }), answered)));
  test("good files cut off, doubled, or with a word changed", () => {
    const files = readdirSync(folder("good")).map((file) => text("good", file));
    const words = fc.constantFrom(
      "",
      "-1",
      "0",
      "1e308",
      "9999999",
      "x",
      "NaN",
      "1.5",
      "TILT=INCLUDE",
      "[MORE]",
      "\n",
      "Infinity",
    );
    fc.assert(
      fc.property(fc.constantFrom(...files), fc.nat(), words, fc.boolean(), (file, n, word, cut) => {
        const parts = file.split(/(?<=\s)/);
        const at = n % parts.length;
        answered(
          cut ? parts.slice(0, at).join("") : [...parts.slice(0, at), `${word} `, ...parts.slice(at + 1)].join(""),
        );
      }),
      { numRuns: 400 },
    );
  });
});
