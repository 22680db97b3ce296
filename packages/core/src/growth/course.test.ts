import { describe, expect, test } from "vitest";
import { readPlan } from "../plan/index.ts";
import { type GrowthOptions, type GrowthStep, type GrowthWeek, growth, growthOf } from "./index.ts";

interface Ask {
  readonly plants?: readonly string[];
  readonly light?: string;
  readonly gas?: string;
  readonly heater?: string;
  readonly room?: string;
}

/** A small invented tank, quick to follow. */
function plan({
  plants = ["{ species: Eleocharis acicularis, cover: 40 %, at: 50 %, depth: 25 % }"],
  light = "light: { power: 30 W, ppfd: 90 umol/m2/s }",
  gas = "co2: { bubbles: 1 bubbles/s }",
  heater = "heater: { set: 24 degC }",
  room = "",
}: Ask = {}) {
  const text = `lentic: 1
name: Small glass
tank: { length: 40 cm, width: 25 cm, height: 30 cm }
substrate: [{ material: baked soil, depth: 4 cm }]
${[light, gas, heater, room].filter((line) => line !== "").join("\n")}
plants:
${plants.map((line) => `  - ${line}`).join("\n")}
`;
  const read = readPlan(text);
  if (!read.ok) throw new Error(read.faults.map((f) => `${f.path}: ${f.message}; ${f.allowed}`).join("\n"));
  return read.plan;
}

const quick: GrowthOptions = { photons: 1000, weeks: 4, start: "plan" };
const last = (weeks: readonly GrowthWeek[]): GrowthWeek => weeks.at(-1)!;
const massOf = (ask: Ask, options: GrowthOptions = quick): number =>
  last(growthOf(plan(ask), options)).plantings[0]!.mass.value;

describe("a planted scape over the weeks", { timeout: 120_000 }, () => {
  test("begins as the plan tells it, and the same seed gives the same course", () => {
    const made = plan();
    const weeks = growthOf(made, quick);
    expect(weeks.map((w) => w.week)).toEqual([0, 1, 2, 3, 4]);
    const [planting] = made.plants;
    expect(weeks[0]!.plantings[0]!.biomass).toBe(planting!.biomass.value);
    expect(weeks[0]!.plantings[0]!.height.value).toBe(planting!.height.value);
    expect(growthOf(made, quick)).toEqual(weeks);
  });

  test("low and high courses lie about the one told, further apart from week to week", () => {
    const weeks = growthOf(plan(), quick);
    const span = weeks.map(({ plantings: [p] }) => p!.mass.high - p!.mass.low);
    for (const { plantings } of weeks) {
      const { low, value, high } = plantings[0]!.mass;
      expect(low <= value && value <= high).toBe(true);
    }
    expect(span[4]).toBeGreaterThan(span[1]!);
    expect(span[1]).toBeGreaterThan(0);
  });

  test("from planting day it begins with portions and leaves raised in air, and melts first", () => {
    const [first, second] = growthOf(plan(), { ...quick, start: "planting", weeks: 1 });
    expect(first!.plantings[0]!.settled).toBe(0);
    expect(first!.plantings[0]!.cover.value).toBeLessThan(0.4);
    expect(second!.plantings[0]!.mass.value).toBeLessThan(first!.plantings[0]!.mass.value);
    const wet = plan({ plants: ["{ species: Eleocharis acicularis, cover: 40 %, raised: submerged }"] });
    const [, later] = growthOf(wet, { ...quick, start: "planting", weeks: 1 });
    expect(later!.plantings[0]!.mass.value).toBeGreaterThan(second!.plantings[0]!.mass.value);
  });

  test("more CO2 and more light grow more; cold slows; without light it shrinks", () => {
    const plants = ["{ species: Rotala rotundifolia, cover: 30 %, height: 10 cm, biomass: 30 g/m2, cut_at: 90 cm }"];
    const short = { ...quick, weeks: 2 };
    const usual = massOf({ plants }, short);
    expect(massOf({ plants, gas: "" }, short)).toBeLessThan(usual);
    expect(massOf({ plants, light: "light: { power: 30 W, ppfd: 160 umol/m2/s }" }, short)).toBeGreaterThan(usual);
    expect(massOf({ plants, heater: "", room: "room: { day: 13 degC, night: 12 degC }" }, short)).toBeLessThan(usual);
    const dark = growthOf(plan({ plants, light: "" }), quick).map((w) => w.plantings[0]!.mass.value);
    expect(dark).toEqual([...dark].sort((a, b) => b - a));
    expect(dark.at(-1)).toBeLessThan(0.9 * dark[0]!);
  });

  const stems = "{ species: Rotala rotundifolia, cover: 45 %, at: 50 %, depth: 40 %, height: 12 cm, biomass: 60 g/m2";
  const lawn = "{ species: Eleocharis acicularis, cover: 40 %, at: 50 %, depth: 30 %, height: 5 cm, biomass: 30 g/m2 }";

  test("a tall neighbour takes the lawn's light, and a cut gives it back", () => {
    const light = (more: string): readonly number[] =>
      growthOf(plan({ plants: [lawn, `${stems}${more} }`] }), { ...quick, weeks: 5 }).map((w) => w.plantings[0]!.ppfd);
    const uncut = light(", cut_at: 90 cm");
    expect(uncut.at(-1)).toBeLessThan(0.9 * uncut[0]!);
    const weeks = growthOf(plan({ plants: [lawn, `${stems}, cut_at: 16 cm, cut_to: 6 cm }`] }), { ...quick, weeks: 5 });
    const cut = weeks.find((w) => w.plantings[1]!.cut !== null)!;
    expect(cut.plantings[1]!.cut!.to).toBeCloseTo(0.06, 12);
    expect(cut.plantings[1]!.cut!.taken).toBeGreaterThan(0);
    expect(cut.plantings[0]!.ppfd).toBeGreaterThan(weeks[cut.week - 1]!.plantings[0]!.ppfd * 1.1);
  });

  test("the owner's reading sets the scale once: the light of later weeks may fall below it", () => {
    const weeks = growthOf(plan({ plants: [lawn, `${stems}, cut_at: 90 cm }`] }), { ...quick, weeks: 5 });
    expect(weeks[0]!.plantings[0]!.ppfd).toBeGreaterThan(70);
    expect(last(weeks).plantings[0]!.ppfd).toBeLessThan(0.9 * weeks[0]!.plantings[0]!.ppfd);
  });

  test("findings name what does not fill its ground, what lies on the surface, and what was tried", () => {
    const plants = [
      lawn,
      "{ species: Vallisneria nana, cover: 45 %, at: 50 %, depth: 60 %, height: 24 cm, biomass: 120 g/m2 }",
      "{ species: Cryptocoryne wendtii, cover: 10 %, at: 10 %, depth: 10 %, biomass: 8 g/m2 }",
    ];
    const steps: GrowthStep[] = [...growth(plan({ plants }), { ...quick, weeks: 3 })];
    const end = steps.at(-1)!;
    expect(end.kind).toBe("findings");
    if (end.kind !== "findings") return;
    const told = end.findings.map((f) => `${f.id}: ${f.title}. ${f.reason}`);
    expect(told.join("\n")).toMatch(/surface-B: B, Vallisneria nana, lies on the surface .*Cut it to \d+ mm in week/);
    expect(told.join("\n")).toMatch(/unfilled-C: C, Cryptocoryne wendtii, covers \d+ % of its ground in week 3/);
  });

  test("weeks out of range are refused in words", () => {
    expect(() => growthOf(plan(), { weeks: 0 })).toThrow("1 to 52");
    expect(() => growthOf(plan(), { weeks: 2.5 })).toThrow("1 to 52");
  });
});
