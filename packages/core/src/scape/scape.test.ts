import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fieldHeight, fieldVolume, outlineArea } from "../geometry/index.ts";
import { goodPlans } from "../plan/arbitrary.ts";
import { type Plan, type RawPlan, readPlan, resolvePlan, tankVolumes } from "../plan/index.ts";
import { meshBounds, meshVolume } from "../solids/index.ts";
import { billCsv, billOf, type Scape, scapeFindings, scapeOf, settling } from "./index.ts";
import { areaAbout, letterOf } from "./zones.ts";

/** 1 m x 0.5 m x 0.45 m inside, 0.4 m of water. */
const tank: RawPlan = {
  length: "1016 mm",
  width: "516 mm",
  height: "458 mm",
  glass: "8 mm",
  base: "8 mm",
  below_rim: "50 mm",
};

function planOf(more: RawPlan): Plan {
  const made = resolvePlan({ lentic: 1, tank, ...more });
  if (!made.ok) throw new Error(JSON.stringify(made.faults));
  return made.plan;
}

const scape = (more: RawPlan): Scape => scapeOf(planOf(more));
const ids = (more: RawPlan): readonly string[] => scapeFindings(scape(more)).map((f) => f.id);

const stone: RawPlan = { kind: "stone", material: "slate", width: "200 mm", breadth: "150 mm", height: "160 mm" };
const level: RawPlan = { substrate: [{ material: "quartz sand", depth: "60 mm" }] };

describe("pieces", () => {
  test("stand on their ground, set in as far as they were told", () => {
    const [piece] = scape({ ...level, hardscape: [{ ...stone, at: "30 %", depth: "40 %", raise: "-20 mm" }] }).pieces;
    const { min, max } = meshBounds(piece!.mesh);
    expect(min[2]).toBeCloseTo(0.04, 9);
    expect(max[2]).toBeCloseTo(0.2, 9);
    expect((min[0] + max[0]) / 2).toBeCloseTo(0.3, 9);
    expect((min[1] + max[1]) / 2).toBeCloseTo(0.2, 9);
  });

  test("turned a quarter, width and breadth change places", () => {
    const [piece] = scape({ hardscape: [{ ...stone, turn: "90 deg" }] }).pieces;
    const { min, max } = meshBounds(piece!.mesh);
    expect(max[0] - min[0]).toBeCloseTo(0.15, 9);
    expect(max[1] - min[1]).toBeCloseTo(0.2, 9);
  });

  test("what is in the bed displaces bed, what is above it water: the net water knows", () => {
    const bare = tankVolumes(planOf(level));
    const buried = { ...stone, height: "50 mm", raise: "-55 mm" };
    const inBed = planOf({ ...level, hardscape: [buried] });
    const [piece] = scapeOf(inBed).pieces;
    expect(piece!.shareInBed).toBeCloseTo(1, 6);
    // sand of 41.5 % pores: a buried stone takes that share of its volume of water
    expect(bare.net - tankVolumes(inBed).net).toBeCloseTo(0.415 * piece!.volume, 6);
    const onTop = planOf({ ...level, hardscape: [{ ...stone, raise: "0 mm" }] });
    const [standing] = scapeOf(onTop).pieces;
    expect(bare.net - tankVolumes(onTop).net).toBeCloseTo(standing!.volume, 5);
  });

  test("a weighed stone displaces its mass over its density, whatever its form", () => {
    const bare = tankVolumes(planOf({ substrate: [] }));
    const weighed = tankVolumes(planOf({ substrate: [], hardscape: [{ ...stone, raise: "0 mm", mass: "5.5 kg" }] }));
    expect(bare.net - weighed.net).toBeCloseTo(5.5 / 2750, 6);
  });

  test("of a stone that stands out of the water only the wet part counts", () => {
    const tall = { ...stone, height: "440 mm", raise: "0 mm", shape: "rounded" };
    const plan = planOf({ substrate: [], hardscape: [tall] });
    const [piece] = scapeOf(plan).pieces;
    expect(piece!.shareUnderWater).toBeLessThan(1);
    expect(piece!.shareUnderWater).toBeGreaterThan(0.85);
    const net = tankVolumes(planOf({ substrate: [] })).net - tankVolumes(plan).net;
    expect(net).toBeCloseTo(meshVolume(piece!.mesh) * piece!.shareUnderWater, 4);
  });
});

describe("plantings", () => {
  test("an area about a place has the size asked for and stays on the floor", () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(share, share, fc.double({ min: 0.001, max: 1, noNaN: true }), (x, y, part) => {
        const outline = areaAbout([x * 0.9, y * 0.4], part * 0.36, 0.9, 0.4);
        expect(outlineArea(outline)).toBeCloseTo(part * 0.36, 9);
        for (const [px, py] of outline) {
          expect(px).toBeGreaterThanOrEqual(-1e-9);
          expect(px).toBeLessThanOrEqual(0.9 + 1e-9);
          expect(py).toBeGreaterThanOrEqual(-1e-9);
          expect(py).toBeLessThanOrEqual(0.4 + 1e-9);
        }
      }),
    );
  });

  test("keys run on after Z", () => {
    expect([0, 25, 26, 51, 52, 701, 702].map(letterOf)).toEqual(["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]);
  });

  test("portions follow area and usual density, or are as planned", () => {
    const outline = "0 % 0 %, 50 % 0 %, 50 % 50 %, 0 % 50 %"; // 0.125 m2
    const [usual, own] = scape({
      plants: [
        { species: "Eleocharis acicularis", outline },
        { species: "Eleocharis acicularis", outline, portions: 7 },
      ],
    }).zones;
    expect(usual!.area).toBeCloseTo(0.125, 9);
    expect(usual!.portions).toBe(Math.ceil(usual!.fact.density * 0.125));
    expect(own!.portions).toBe(7);
  });

  test("a plant tied to a piece by its name or number lies where the piece lies", () => {
    const made = scape({
      hardscape: [stone, { kind: "wood", name: "old root", at: "70 %" }],
      plants: [
        { species: "Anubias barteri", on: "old root", cover: "2 %" },
        { species: "Anubias barteri", on: "W1", cover: "2 %" },
      ],
    });
    expect(made.zones.map((z) => z.on)).toEqual([1, 1]);
    const xs = made.zones[0]!.outline.map(([x]) => x);
    expect((Math.min(...xs) + Math.max(...xs)) / 2).toBeCloseTo(made.pieces[1]!.middle[0], 6);
  });
});

describe("bill", () => {
  const plan: RawPlan = {
    currency: "EUR",
    substrate: [{ material: "baked soil", depth: "60 mm", bag: "9 L", price: 23 }],
    hardscape: [
      { ...stone, mass: "2 kg", price: 12 },
      { ...stone, mass: "3 kg", price: 15.5 },
      { kind: "wood", material: "root wood", name: "=old root" },
    ],
    plants: [{ species: "Eleocharis acicularis", portions: 6, cover: "10 %", price: 5.9 }],
  };

  test("counts bags with settling, stones by rock, portions, and sums what is priced", () => {
    const { items, total, unpriced, currency } = billOf(scape(plan));
    const of = (group: string) => items.find((i) => i.group === group)!;
    // 1 m x 0.5 m x 60 mm = 30 L, and 10 % for settling: 33 L are four bags of 9 L
    expect(of("bed").needs).toEqual({ value: expect.closeTo(30, 9), unit: "L" });
    expect(30 * (1 + settling)).toBeCloseTo(33, 9);
    expect(of("bed").buy).toEqual({ value: 4, unit: "bags" });
    expect(of("bed").price).toBe(92);
    expect(of("bed").note).toContain("3 L left over");
    expect(of("stone").needs.value).toBeCloseTo(5, 9);
    expect(of("stone").price).toBe(27.5);
    expect(of("plants").price).toBeCloseTo(35.4, 9);
    expect(total).toBeCloseTo(92 + 27.5 + 35.4, 9);
    expect(unpriced).toBe(items.filter((i) => i.price === null).length);
    expect(currency).toBe("EUR");
  });

  test("as CSV: one line an item, quoted where need be, nothing that a spreadsheet would run", () => {
    const csv = billCsv(billOf(scape(plan)));
    const lines = csv.trimEnd().split("\r\n");
    expect(lines[0]).toBe("group,key,item,needs,needs unit,buy,buy unit,price,currency,note");
    expect(lines).toHaveLength(billOf(scape(plan)).items.length + 2);
    expect(csv).toContain('stone,"S1, S2","slate, 2 pieces",5,kg,2,pieces,27.50,EUR,weighed');
    expect(csv).toContain("wood,W1,'=old root");
    expect(lines.at(-1)).toBe(",,total of the prices given,,,,,154.90,EUR,");
  });
});

describe("what does not hold, fit or suit", () => {
  test("a slope steeper than the grains hold is told with its place; a retained step is none", () => {
    // 200 mm over 0.5 m is 22 degrees; sand is laid up to 22, holds 30
    const rows = ["200 200 200 mm", "0 0 0 mm"];
    const steep = ["200 200 200 mm", "200 200 200 mm", "0 0 0 mm", "0 0 0 mm", "0 0 0 mm"];
    const bed = (heights: readonly string[], more: RawPlan = {}): RawPlan => ({
      substrate: [{ material: "quartz sand", heights }],
      ...more,
    });
    expect(ids(bed(rows))).not.toContain("slope");
    const [finding] = scapeFindings(scape(bed(steep)));
    // 200 mm over 125 mm: 58 degrees
    expect(finding!.title).toMatch(/the quartz sand stands at 58°; under water it holds 30°/);
    expect(finding!.severity).toBe("caution");
    expect(finding!.at![1]).toBeGreaterThan(0.24);
    const step = { edges: [{ line: "0 % 60 %, 100 % 60 %" }, { line: "0 % 70 %, 100 % 70 %" }] };
    expect(ids(bed(steep, { edges: [{ line: "0 % 50 %, 0 % 75 %" }] }))).toContain("slope");
    const held = Array.from({ length: 9 }, (_, i) => ({ line: `0 % ${50 + 3.2 * i} %, 100 % ${50 + 3.2 * i} %` }));
    expect(step.edges).toHaveLength(2);
    expect(ids(bed(steep, { edges: held }))).not.toContain("slope");
  });

  test("pieces through the glass, hanging free, above the rim, or heavier than solid rock", () => {
    expect(ids({ ...level, hardscape: [{ ...stone, at: "5 %" }] })).toContain("through-S1");
    expect(ids({ ...level, hardscape: [{ ...stone, raise: "30 mm" }] })).toContain("floating-S1");
    expect(ids({ ...level, hardscape: [{ ...stone, height: "420 mm" }] })).toContain("above-S1");
    expect(ids({ ...level, hardscape: [{ ...stone, mass: "20 kg" }] })).toContain("mass-S1");
    expect(ids({ ...level, hardscape: [stone] })).toEqual([]);
    // 200 x 150 x 160 mm of solid slate would weigh 13.2 kg
    expect(ids({ ...level, hardscape: [{ ...stone, mass: "12 kg" }] })).not.toContain("mass-S1");
  });

  test("a stone on a stone does not hang free", () => {
    const on = { ...stone, height: "80 mm", width: "80 mm", breadth: "80 mm", raise: "140 mm" };
    expect(
      ids({
        ...level,
        hardscape: [
          { ...stone, shape: "rounded" },
          { ...on, shape: "rounded" },
        ],
      }),
    ).toEqual([]);
  });

  test("what a species needs and the place cannot give", () => {
    const one = (species: string, more: RawPlan = {}): readonly string[] =>
      ids({ ...level, plants: [{ species }], ...more });
    expect(one("Hemianthus callitrichoides")).toContain("co2-A");
    expect(one("Hemianthus callitrichoides", { co2: {} })).not.toContain("co2-A");
    expect(one("Anubias barteri")).toContain("epiphyte-A");
    expect(one("Hygrophila pinnatifida")).not.toContain("epiphyte-A");
    expect(one("Cryptocoryne wendtii")).toContain("roots-A");
    expect(one("Vallisneria spiralis", { heater: { set: "33 °C" } })).toContain("warm-A");
    expect(one("Cryptocoryne wendtii", { room: { day: "14 °C", night: "12 °C" } })).toContain("cold-A");
    expect(one("Vallisneria spiralis", { substrate: [] })).toContain("rooting-A");
  });
});

describe("any plan", () => {
  test("has a scape of finite figures, a bill, and findings in whole sentences", () => {
    fc.assert(
      fc.property(goodPlans, (raw) => {
        const made = resolvePlan(raw);
        if (!made.ok) return;
        const s = scapeOf(made.plan);
        for (const piece of s.pieces) {
          expect(piece.mesh.positions.every(Number.isFinite)).toBe(true);
          expect(piece.shareInBed).toBeLessThanOrEqual(piece.shareUnderWater);
          expect(Number.isFinite(piece.mass + piece.volume + piece.ballast)).toBe(true);
        }
        expect(s.ground.heights.every((h) => h >= 0 && h < s.waterDepth)).toBe(true);
        expect(s.layers.reduce((sum, l) => sum + l.volume, 0)).toBeCloseTo(fieldVolume(s.ground), 9);
        expect(Number.isFinite(fieldHeight(s.ground, s.length / 2, s.width / 2))).toBe(true);
        for (const item of billOf(s).items) expect(Number.isFinite(item.needs.value + item.buy.value)).toBe(true);
        for (const f of scapeFindings(s)) expect(`${f.title} ${f.reason}`).not.toMatch(/NaN|undefined|Infinity/);
      }),
      { numRuns: 60 },
    );
  });

  test("the examples read, and their texts give the same scape twice", () => {
    const text = "lentic: 1\ntank: { length: 60 cm, width: 30 cm, height: 36 cm }\nhardscape:\n  - { kind: wood }\n";
    const [a, b] = [readPlan(text), readPlan(text)];
    if (!a.ok || !b.ok) throw new Error("must read");
    expect([...scapeOf(a.plan).pieces[0]!.mesh.positions]).toEqual([...scapeOf(b.plan).pieces[0]!.mesh.positions]);
  });
});
