import { describe, expect, test } from "vitest";
import { type RawPlan, resolvePlan } from "../plan/index.ts";
import { type TraceOptions, trace } from "../tracer/index.ts";
import {
  dimmed,
  groundAt,
  LampError,
  type LightReport,
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

/** An invented photometric file of absolute photometry, the same all round. */
const ies = (angles: readonly number[], candela: readonly (number | string)[], watts: number): string =>
  [
    "IESNA:LM-63-2002",
    "[TEST] invented",
    "[TESTLAB] invented",
    "[ISSUEDATE] 1 Jan 2026",
    "[MANUFAC] invented",
    "TILT=NONE",
    `1 -1 1 ${angles.length} 1 1 2 0 0 0`,
    `1 1 ${watts}`,
    angles.join(" "),
    "0",
    candela.join(" "),
  ].join("\n");

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
    const photometry = ies(angles, candela, 24);
    const lobe = look({ light: { ...bar, photons: "48 umol/s", beam: "120 deg" } }, direct).report;
    const file = look({ light: { ...bar, photons: "48 umol/s", photometry } }, direct).report;
    expect(file.mean / lobe.mean).toBeCloseTo(1, 1);
    expect(file.evenness).toBeCloseTo(lobe.evenness, 1);
  });
});

describe("what a lamp gives", () => {
  const tens = Array.from({ length: 10 }, (_, i) => 10 * i);
  /** 100 cos: 314.159 lm by the zonal rule (exactly 100 pi: it is exact for a cosine), at 10 W. */
  const cosine = ies(
    tens,
    tens.map((a) => (100 * Math.cos((a * Math.PI) / 180)).toFixed(4)),
    10,
  );
  const output = (light: RawPlan) => lightScene(scape({ light }))!.outputs[0]!;

  test("a photometric file gives lumens and watts, with the spectrum photons; what is typed beats it", () => {
    const read = output({ photometry: cosine });
    expect(read).toMatchObject({ from: "photometric file", watts: 10, wattsFrom: "photometric file" });
    // 69.3 lm for each umol/s of a 6500 K white (CIE LED-B5, 69.4)
    expect(read.photons).toBeCloseTo(314.159 / 69.3, 1);
    expect(read.lumens).toBeCloseTo(314.159, 1);
    expect(output({ photometry: cosine, lumens: "300 lm" })).toMatchObject({ from: "lumens", disagreements: [] });
    expect(output({ photometry: cosine, photons: "4.6 umol/s" })).toMatchObject({ from: "photons", photons: 4.6 });
    expect(output({ power: "10 W" }).from).toBe("watts at a usual efficacy");
    expect(output({ power: "10 W", efficacy: "2 umol/J" })).toMatchObject({ from: "watts and efficacy", photons: 20 });
  });

  test("figures more than 15 % apart are told, with both", () => {
    const made = scape({ light: { photometry: cosine, lumens: "500 lm", power: "24 W" } });
    const light = lightScene(made)!;
    const report = lightReport(made, light, trace(light.scene, { photons: 0, directNoise: 0.2 }));
    const titles = lightFindings(made, report).map((f) => f.title);
    expect(titles).toContain("The lamp: the lumens typed say 500 lm, its photometric file 314 lm");
    expect(titles).toContain("The lamp: the power typed says 24 W, its photometric file 10 W");
    expect(output({ photometry: cosine, lumens: "340 lm", power: "11 W" }).disagreements).toEqual([]);
  });

  test("what the file sends upwards misses the tank", () => {
    const all = Array.from({ length: 19 }, (_, i) => 10 * i);
    const even = ies(
      all,
      all.map(() => 100),
      10,
    );
    const { report } = look({ light: { photometry: even } }, { photons: 4000, directNoise: 0.1 });
    expect(report.budget.spill).toBeGreaterThan(0.5);
  });

  test("channels by shares mix their photons: lux per photon of the mixture", () => {
    // 70 % of the photons of a 6500 K white and 30 % at 660 nm: 51.08 (CIE LED-B5 and the eye's curve, integrated)
    const mixed = output({
      photons: "40 umol/s",
      channels: [{ spectrum: "6500 K", share: "70 %" }, { spectrum: "660 nm 20 nm wide" }],
    });
    expect(mixed.luxPerPhoton).toBeCloseTo(51.08, 0);
    expect(mixed.parts.map(({ photons }) => photons)).toEqual([28, expect.closeTo(12, 9)]);
    // the same lamp by its lumens
    const lumens = output({
      lumens: `${40 * mixed.luxPerPhoton} lm`,
      channels: [{ spectrum: "6500 K", share: "70 %" }, { spectrum: "660 nm 20 nm wide" }],
    });
    expect(lumens.photons).toBeCloseTo(40, 9);
  });

  test("channels with outputs of their own add up, each by the best that is known of it", () => {
    const apart = output({
      power: "30 W",
      efficacy: "2 umol/J",
      channels: [
        { spectrum: "4000 K", lumens: "2100 lm" },
        { spectrum: "deep red", photons: "12 umol/s" },
        { spectrum: "blue", power: "4 W" },
      ],
    });
    expect(apart.from).toBe("its channels");
    // 69.75 lm for each umol/s of a 4000 K white (CIE LED-B3)
    expect(apart.parts[0]!.photons).toBeCloseTo(2100 / 69.8, 0);
    expect(apart.parts.slice(1).map(({ photons }) => photons)).toEqual([expect.closeTo(12, 9), expect.closeTo(8, 9)]);
  });

  test("one trace serves all channels; each counts by its own dimmer and hours", () => {
    const light = {
      ...bar,
      strength: "80 %",
      programme: "10:00 0 %, 11:00 100 %, 17:00 100 %, 18:00 0 %",
      channels: [
        { spectrum: "6500 K", share: "75 %" },
        { spectrum: "deep red", strength: "50 %", programme: "12:00 0 %, 12:00 100 %, 14:00 100 %, 14:00 0 %" },
      ],
    };
    const made = scape({ light });
    const scene = lightScene(made)!;
    expect(scene.scene.lamps).toHaveLength(1);
    const result = trace(scene.scene, quick);
    const maps = [0, 1].map((k) => groundAt(scene, result, k === 0 ? [1, 0] : [0, 1]).values);
    const report = lightReport(made, scene, result);
    report.ground.values.forEach((v, i) => {
      expect(v).toBeCloseTo(0.8 * maps[0]![i]! + 0.4 * maps[1]![i]!, 9);
    });
    const mean = (values: Float64Array): number => values.reduce((a, b) => a + b, 0) / values.length;
    // the white at 80 % for 7 h, the red at 40 % for 2 h
    const daily = (0.8 * 7 * mean(maps[0]!) + 0.4 * 2 * mean(maps[1]!)) * 3600e-6;
    expect(report.daily).toBeCloseTo(daily, 9);
    // water takes red: as many photons give fewer on the ground
    expect(mean(maps[1]!) / mean(maps[0]!)).toBeLessThan(0.98 * (0.25 / 0.75));
  });
});

test("a report at other settings is the report of the plan that has them", () => {
  const plan = (strength: string, red: string, second: string): RawPlan => ({
    light: {
      ...bar,
      strength,
      programme: "10:00 0 %, 11:00 80 %, 17:00 80 %, 18:00 0 %",
      channels: [
        { spectrum: "6500 K", share: "75 %" },
        { spectrum: "deep red", strength: red },
      ],
    },
    lamps: [{ ...bar, at: "20 %", strength: second, on: "12:00", off: "14:00" }],
    daylight: { lux: "500 lx" },
    plants: [{ species: "Cryptocoryne wendtii", outline: "5 % 5 %, 40 % 5 %, 40 % 50 %, 5 % 50 %" }],
  });
  const before = look(plan("100 %", "100 %", "100 %")).report;
  const after = look(plan("60 %", "30 %", "0 %")).report;
  const moved = dimmed(before, ({ lamp, channel }) => ({
    dimmer: lamp === 0 ? 0.6 : lamp === 1 ? 0 : 1,
    own: lamp === 0 && channel === 1 ? 0.3 : 1,
  }));
  moved.ground.values.forEach((v, i) => {
    expect(v).toBeCloseTo(after.ground.values[i]!, 9);
  });
  expect(moved.daily).toBeCloseTo(after.daily, 9);
  expect(moved.zones[0]!.mean).toBeCloseTo(after.zones[0]!.mean, 9);
  expect(moved.zones[0]!.daily).toBeCloseTo(after.zones[0]!.daily, 9);
  expect(moved.level).toBe(after.level);
});

describe("daylight", () => {
  const window: RawPlan = { side: "left", ppfd: "20 umol/m2/s", rise: "06:00", set: "18:00" };

  test("comes beside the lamps, brighter towards its pane, by its own hours", () => {
    const { report } = look({ daylight: window }, { photons: 20_000 });
    const { values, columns } = report.ground;
    let [near, far] = [0, 0];
    values.forEach((v, i) => {
      if (i % columns < columns / 2) near += v;
      else far += v;
    });
    expect(near).toBeGreaterThan(1.05 * far);
    // half a sine over 12 h: 2/pi of it at full
    expect(report.daily / ((report.mean * 12 * (2 / Math.PI) * 3600) / 1e6)).toBeCloseTo(1, 2);
    const lamp = look({ light: bar }, quick).report;
    const both = look({ light: bar, daylight: window }, quick).report;
    expect(both.mean).toBeGreaterThan(lamp.mean);
    expect(both.mean).toBeLessThan(lamp.mean + 20);
  });

  test("no lamp and a covered back pane is no light", () => {
    expect(lightScene(scape({ tank: { ...tank, background: "black" }, daylight: { side: "back" } }))).toBeNull();
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
