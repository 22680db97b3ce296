import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { scapeScene } from "../design/index.ts";
import { type DrawingNode, toSvg } from "../drawing/index.ts";
import { readPlan } from "../plan/index.ts";
import { scapeOf } from "../scape/index.ts";
import { sheetsOf } from "./index.ts";

function sheets(length: number, width: number, height: number, units: "metric" | "us" = "metric", rest = "") {
  const text = `lentic: 1\nname: Invented glass\ntank: { length: ${length} mm, width: ${width} mm, height: ${height} mm }\n${rest}`;
  const reading = readPlan(text);
  if (!reading.ok) throw new Error(reading.faults.map((f) => f.message).join("; "));
  const scape = scapeOf(reading.plan);
  const paper = units === "us" ? "letter" : "a4";
  return { scape, sheets: sheetsOf(scape, scapeScene(scape), { paper, units, date: "1 May" }) };
}

/** Length of the plan's outer glass on the first sheet, mm, and the scale that the sheet names. */
function glassOn(sheet: DrawingNode): { readonly wide: number; readonly scale: number } {
  const group = sheet.children!.find(
    (c): c is DrawingNode => typeof c !== "string" && String(c.attributes.class).includes("d-plan"),
  )!;
  const factor = Number(/scale\(([\d.e-]+)\)/.exec(String(group.attributes.transform))![1]);
  // the outer edge of the glass is a rectangle whose first side runs to the right
  const wide = Number(/class="d-glass" d="M[\d.]+ [\d.]+l([\d.]+) 0l/.exec(toSvg(group))![1]);
  const scale = Number(/1:(\d+), print at 100 %/.exec(toSvg(sheet))![1]);
  return { wide: wide * factor, scale };
}

describe("sheets to build by", () => {
  test("any tank is drawn to its scale within 0.2 mm", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 250, max: 2000 }),
        fc.integer({ min: 200, max: 700 }),
        fc.integer({ min: 200, max: 700 }),
        (length, width, height) => {
          const { wide, scale } = glassOn(sheets(length, width, height).sheets[0]!.node);
          expect(Math.abs(wide - length / scale)).toBeLessThan(0.2);
        },
      ),
      { numRuns: 12 },
    );
  });

  test("heights, pieces, plants, bill and cautions stand on their sheets", () => {
    const plants = "plants: [{ species: Eleocharis acicularis, outline: 10 % 10 %, 50 % 10 %, 50 % 40 % }]";
    const stones = "hardscape: [{ kind: stone, material: slate, at: 50 %, depth: 50 % }]";
    const quoted = plants.replace(/outline: ([^}]+?) }/, 'outline: "$1" }');
    const { sheets: all, scape } = sheets(760, 380, 400, "metric", `${stones}\n${quoted}\n`);
    expect(all.map((s) => s.title)).toEqual([
      "Front elevation and plan",
      "Setting out: heights of the bed, stones and wood",
      "Planting",
      "To be bought",
      "Cautions",
    ]);
    const text = (k: number): string => toSvg(all[k]!.node);
    expect(text(1)).toContain(">S1<");
    expect(text(2)).toContain(">Eleocharis acicularis<");
    // 10 % and 50 % of the inside length, from the left pane
    expect(text(2)).toContain(`>${Math.round(scape.length * 100)}–${Math.round(scape.length * 500)}<`);
    expect(text(4)).toMatch(/arithmetic, not a verdict/);
    expect(all.every((s) => !/NaN|undefined/.test(toSvg(s.node)))).toBe(true);
  });

  test("a long list goes on over further sheets, every row once", () => {
    const stones = Array.from(
      { length: 60 },
      (_, k) => `  - { kind: stone, material: slate, at: ${k + 20} %, width: 30 mm, height: 20 mm, breadth: 20 mm }`,
    );
    const { sheets: all } = sheets(900, 400, 400, "us", `hardscape:\n${stones.join("\n")}\n`);
    const listed = all
      .filter((s) => s.title.startsWith("Setting out"))
      .map((s) => toSvg(s.node))
      .join("");
    expect(all.filter((s) => s.title.endsWith("continued")).length).toBeGreaterThan(0);
    const keys = listed.match(/<text [^>]*fill="#14241F">S\d+</g) ?? [];
    expect(new Set(keys.map((k) => k.replace(/.*>/, ""))).size).toBeLessThanOrEqual(60);
    for (let k = 1; k <= 60; k++) expect(listed).toContain(`>S${k}<`);
    expect(all[0]!.width).toBe(215.9);
  });
});
