import { describe, expect, test } from "vitest";
import { type RawPlan, resolvePlan } from "../plan/index.ts";
import { type TraceOptions, trace } from "../tracer/index.ts";
import {
  fullHours,
  groundAt,
  LampError,
  type LightReport,
  lampsOf,
  lightAt,
  lightFindings,
  lightReport,
  lightScene,
  type Scape,
  scapeOf,
} from "./index.ts";

/** 0.6 m x 0.3 m inside, 0.34 m of water. */
const tank: RawPlan = {
  length: "610 mm",
  width: "310 mm",
  height: "365 mm",
  glass: "5 mm",
  base: "5 mm",
  below_rim: "20 mm",
};
const level: RawPlan = { substrate: [{ material: "baked soil", depth: "40 mm" }] };

function scape(more: RawPlan): Scape {
  const made = resolvePlan({ lentic: 1, tank, ...level, ...more });
  if (!made.ok) throw new Error(JSON.stringify(made.faults));
  return scapeOf(made.plan);
}

/** Quick: direct light, and few paths for what soil and stones throw back. */
const quick: TraceOptions = { photons: 2500, directNoise: 0.05 };
/** The direct light alone, which carries no noise of paths. */
const direct: TraceOptions = { photons: 0, directNoise: 0.02 };

function look(more: RawPlan, options = quick): { readonly scape: Scape; readonly report: LightReport } {
  const s = scape(more);
  const light = lightScene(s)!;
  return { scape: s, report: lightReport(s, light, trace(light.scene, options)) };
}

const bar: RawPlan = { kind: "bar", power: "24 W", efficacy: "2 umol/J", length: "500 mm", above_rim: "60 mm" };

describe("what the trade knows", () => {
  // common practice, no source: a 60 cm tank under 20 to 30 W of good diodes has medium to high light at the substrate
  test("a usual lamp over a usual tank is medium to high light; a third of it is low", () => {
    const full = look({ light: bar }).report;
    expect(full.mean).toBeGreaterThan(50);
    expect(["medium", "high"]).toContain(full.level);
    const dim = look({ light: { ...bar, strength: "25 %" } }).report;
    expect(dim.level).toBe("low");
    expect(dim.mean / full.mean).toBeCloseTo(0.25, 6);
  });

  // common practice, no source; farther up it no longer holds, since the panes throw what would pass them back to the rim
  test("a lamp hung higher gives less light, and evener light", () => {
    const [low, high] = ["20 mm", "120 mm"].map(
      (above_rim) => look({ light: { ...bar, length: "250 mm", above_rim } }, direct).report,
    );
    expect(high!.mean).toBeLessThan(0.85 * low!.mean);
    expect(high!.evenness).toBeGreaterThan(1.05 * low!.evenness);
    expect(high!.max / high!.mean).toBeLessThan(low!.max / low!.mean);
  });

  test("two lamps of half the power light it more evenly than one", () => {
    const pendant: RawPlan = {
      kind: "pendant",
      power: "24 W",
      efficacy: "2 umol/J",
      length: "80 mm",
      above_rim: "40 mm",
    };
    const one = look({ light: { ...pendant, at: "50 %" } }, direct).report;
    const half = { ...pendant, power: "12 W" };
    const two = look({ light: { ...half, at: "25 %" }, lamps: [{ ...half, at: "75 %" }] }, direct).report;
    expect(two.evenness).toBeGreaterThan(one.evenness);
    expect(two.max).toBeLessThan(one.max);
    expect(two.mean).toBeGreaterThan(0.8 * one.mean);
  });

  test("tannin takes light, a white back pane and pale sand give some back", () => {
    const clear = look({ light: bar, water: { stain: "0.1 1/m" } }).report;
    const tea = look({ light: bar, water: { stain: "6 1/m" } }).report;
    expect(tea.mean).toBeLessThan(0.85 * clear.mean);
    expect(tea.budget.water).toBeGreaterThan(2 * clear.budget.water);
    const white = look({ light: bar, tank: { ...tank, background: "white" } }).report;
    const black = look({ light: bar, tank: { ...tank, background: "black" } }).report;
    expect(white.budget.background).toBeLessThan(0.5 * black.budget.background);
    expect(white.mean).toBeGreaterThan(1.02 * black.mean);
  });
});

describe("a scape's light", () => {
  test("the budget is whole: every photon ends somewhere", () => {
    const { report } = look({
      light: bar,
      hardscape: [
        { kind: "stone", material: "granite", at: "40 %" },
        { kind: "wood", at: "65 %" },
      ],
      plants: [{ species: "Cryptocoryne wendtii", outline: "5 % 5 %, 40 % 5 %, 40 % 50 %, 5 % 50 %" }],
    });
    const sum = Object.values(report.budget).reduce((a, b) => a + b, 0);
    // what ending weak paths by lot took or gave is noise about nothing and told by no name
    expect(sum).toBeGreaterThan(0.98);
    expect(sum).toBeLessThan(1.02);
    for (const share of Object.values(report.budget)) expect(share).toBeGreaterThanOrEqual(0);
  });

  test("is dark behind a stone, and a planting there is told so", () => {
    const wall: RawPlan = {
      kind: "stone",
      material: "slate",
      shape: "faceted",
      at: "50 %",
      depth: "55 %",
      width: "420 mm",
      breadth: "60 mm",
      height: "330 mm",
      raise: "-10 mm",
    };
    const behind = "20 % 72 %, 80 % 72 %, 80 % 98 %, 20 % 98 %";
    const before = "20 % 5 %, 80 % 5 %, 80 % 30 %, 20 % 30 %";
    const made = look({
      light: { ...bar, depth: "15 %", power: "14 W" },
      hardscape: [wall],
      plants: [
        { species: "Eleocharis acicularis", outline: behind, height: "20 mm", biomass: "2 g/m2" },
        { species: "Eleocharis acicularis", outline: before, height: "20 mm", biomass: "2 g/m2" },
      ],
    });
    const [dark, lit] = made.report.zones;
    expect(dark!.mean).toBeLessThan(0.5 * lit!.mean);
    const told = lightFindings(made.scape, made.report);
    expect(told.map((f) => f.id)).toContain("dark-A");
    expect(told.map((f) => f.id)).not.toContain("dark-B");
    expect(told.find((f) => f.id === "dark-A")!.title).toMatch(/under 50 it does not live for long/);
  });

  test("leaves shade what grows under them", () => {
    const carpet: RawPlan = {
      species: "Eleocharis acicularis",
      outline: "10 % 10 %, 90 % 10 %, 90 % 90 %, 10 % 90 %",
      height: "20 mm",
      biomass: "2 g/m2",
    };
    const roof: RawPlan = { species: "Lemna minor", cover: "100 %", biomass: "60 g/m2" };
    const open = look({ light: bar, plants: [carpet] }).report;
    const shaded = look({ light: bar, plants: [carpet, roof] }).report;
    expect(shaded.zones[0]!.mean).toBeLessThan(0.6 * open.zones[0]!.mean);
    expect(shaded.budget.leaves).toBeGreaterThan(0.3);
  });

  test("the owner's reading sets the scale, whatever the label says", () => {
    const carpet: RawPlan = {
      species: "Eleocharis acicularis",
      outline: "10 % 10 %, 90 % 10 %, 90 % 90 %, 10 % 90 %",
      height: "20 mm",
    };
    const read = look({ light: { ...bar, ppfd: "66 umol/m2/s" }, plants: [carpet] }).report;
    expect(read.zones[0]!.mean).toBeCloseTo(66, 6);
    const weak = look({ light: { ...bar, power: "12 W", ppfd: "66 umol/m2/s" }, plants: [carpet] }).report;
    expect(weak.zones[0]!.mean).toBeCloseTo(66, 6);
    expect(weak.calibration / read.calibration).toBeCloseTo(2, 6);
  });

  test("photon output counts before lumens, lumens before watts", () => {
    const photons = (light: RawPlan): number => lightScene(scape({ light }))!.sources[0]!.photons;
    expect(photons({ ...bar })).toBeCloseTo(48, 9);
    // 69.3 lm for each umol/s of a 6500 K white (CIE LED-B5, 69.4)
    expect(photons({ ...bar, lumens: "3470 lm" })).toBeCloseTo(50, 0);
    expect(photons({ ...bar, lumens: "3470 lm", photons: "61 umol/s" })).toBe(61);
  });

  test("a day's light counts each ramp half, and each lamp by its own hours", () => {
    const [lamp] = lampsOf(scape({ light: { ...bar, on: "10:00", off: "18:00", ramp: "60 min" } }));
    expect(fullHours(lamp!)).toBe(7);
    const { report } = look({ light: { ...bar, on: "10:00", off: "18:00", ramp: "60 min" } });
    expect(report.daily).toBeCloseTo((report.mean * 7 * 3600) / 1e6, 9);
  });

  test("a dimmer is one weighted sum", () => {
    const s = scape({ light: bar, lamps: [{ ...bar, at: "20 %" }] });
    const light = lightScene(s)!;
    const result = trace(light.scene, quick);
    const [both, one, other] = [
      [1, 1],
      [1, 0],
      [0, 1],
    ].map((strengths) => groundAt(light, result, strengths).values);
    for (const [i, v] of both!.entries()) expect(v).toBeCloseTo(one![i]! + other![i]!, 9);
    const map = groundAt(light, result, [1, 1]);
    expect(lightAt(map, s, [0.3, 0.15])).toBe(
      map.values[Math.floor(map.rows / 2) * map.columns + Math.floor(map.columns / 2)],
    );
  });

  test("a lamp tilted to the back lights the back", () => {
    const halves = (tilt: string): number => {
      const { values, columns, rows } = look({ light: { ...bar, beam: "50 deg", tilt } }).report.ground;
      let [front, back] = [0, 0];
      values.forEach((v, i) => {
        if (Math.floor(i / columns) < rows / 2) front += v;
        else back += v;
      });
      return back / front;
    };
    expect(halves("0 deg")).toBeCloseTo(1, 1);
    expect(halves("25 deg")).toBeGreaterThan(1.3);
  });

  test("no lamp is no light; a lamp that cannot be followed says which and why", () => {
    expect(lightScene(scape({}))).toBeNull();
    const broken = scape({ light: { ...bar, photometry: "IESNA:LM-63-2002\nTILT=NONE\n1 -1 1 nonsense\n" } });
    expect(() => lightScene(broken)).toThrow(LampError);
    expect(() => lightScene(broken)).toThrow(/photometric file, line 3: .*allowed/);
    const dipped = scape({ light: { ...bar, width: "250 mm", tilt: "60 deg", above_rim: "0 mm" } });
    expect(() => lightScene(dipped)).toThrow(/above the water/);
  });

  test("a photometric file with the lobe's own figures gives the lobe's light", () => {
    const angles = Array.from({ length: 19 }, (_, i) => 5 * i);
    const candela = angles.map((a) => (1000 * Math.cos((a * Math.PI) / 180)).toFixed(2));
    const photometry = [
      "IESNA:LM-63-2002",
      "[TEST] invented",
      "[TESTLAB] invented",
      "[ISSUEDATE] 1 Jan 2026",
      "[MANUFAC] invented",
      "TILT=NONE",
      "1 -1 1 19 1 1 2 0 0 0",
      "1 1 24",
      angles.join(" "),
      "0",
      candela.join(" "),
    ].join("\n");
    const lobe = look({ light: { ...bar, beam: "120 deg" } }, direct).report;
    const file = look({ light: { ...bar, photometry } }, direct).report;
    expect(file.mean / lobe.mean).toBeCloseTo(1, 1);
    expect(file.evenness).toBeCloseTo(lobe.evenness, 1);
  });
});

test("every plan with a lamp is lit by finite figures", () => {
  const plans: readonly RawPlan[] = [
    { tank: { length: "20 cm", width: "20 cm", height: "20 cm" }, light: {} },
    { tank: { length: "300 cm", width: "70 cm", height: "70 cm" }, light: { kind: "tube" } },
    { light: { kind: "pendant", above_rim: "500 mm" }, substrate: [] },
  ];
  for (const raw of plans) {
    const { report } = look(raw, { photons: 200, directNoise: 0.5 });
    expect([...report.ground.values].every((v) => Number.isFinite(v) && v >= 0)).toBe(true);
  }
});
