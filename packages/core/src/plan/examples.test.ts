import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { findMaterial } from "../facts/index.ts";
import { type Plan, readPlan, resolvePlan } from "./index.ts";

const folder = new URL("../../../../examples/", import.meta.url);
const good = readdirSync(folder).filter((f) => f.endsWith(".yaml"));
const bad = readdirSync(new URL("bad/", folder));

function planOf(file: string, alternative?: string): Plan {
  const reading = readPlan(
    readFileSync(new URL(file, folder), "utf8"),
    alternative === undefined ? {} : { alternative },
  );
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  return reading.plan;
}

describe("plans that run", () => {
  test.each(good)("%s reads without a fault or a note, with each of its alternatives", (file) => {
    const text = readFileSync(new URL(file, folder), "utf8");
    const reading = readPlan(text);
    expect(reading.ok ? reading.notes : reading.faults).toEqual([]);
    for (const alternative of reading.ok ? reading.plan.alternatives : []) {
      const other = readPlan(text, { alternative });
      expect(other.ok ? [] : other.faults).toEqual([]);
      expect(other.ok && other.plan).not.toEqual(reading.ok && reading.plan);
    }
  });

  test("the shortest plan has three lines", () => {
    const lines = readFileSync(new URL("minimal.yaml", folder), "utf8").trim().split("\n");
    expect(lines.filter((line) => !line.startsWith("#"))).toHaveLength(3);
  });

  test("a usual plan resolves fast enough to follow a finger (printed, not judged: machines differ)", () => {
    for (const file of good) {
      const reading = readPlan(readFileSync(new URL(file, folder), "utf8"));
      if (!reading.ok) throw new Error(file);
      for (let i = 0; i < 50; i++) resolvePlan(reading.raw);
      const start = performance.now();
      for (let i = 0; i < 200; i++) resolvePlan(reading.raw);
      console.log(`resolvePlan ${file}: ${((performance.now() - start) / 200).toFixed(3)} ms`);
    }
  });
});

describe("the demonstration tank", () => {
  const plan = planOf("quarry-bank.yaml");

  test("is marked invented and holds 97 L of water, give or take one", () => {
    expect(plan.invented).toBe(true);
    const { length, width, height, glass, base, belowRim } = plan.tank;
    const floor = (length.value - 2 * glass.value) * (width.value - 2 * glass.value);
    let water = floor * (height.value - base.value - belowRim.value);
    for (const layer of plan.substrate) {
      const fact = findMaterial(layer.material);
      if (fact?.kind !== "substrate") throw new Error(layer.material);
      const corners = layer.frontLeft.value + layer.frontRight.value + layer.backLeft.value + layer.backRight.value;
      water -= floor * (corners / 4) * (1 - fact.porosity.value);
    }
    for (const { material, mass } of plan.hardscape) {
      const fact = findMaterial(material);
      if (fact?.kind === "stone") water -= mass.value / fact.density.value;
      else if (fact?.kind === "wood") water -= mass.value / (1000 * (1 + (1 - 1 / 1.54) * fact.basicGravity.value));
    }
    expect(water * 1000).toBeGreaterThan(96);
    expect(water * 1000).toBeLessThan(98);
  });

  test("keeps what was typed, with mark and note", () => {
    expect(plan.water.kh).toMatchObject({ known: "measured", note: "drop test, 4 Nov", text: "4.0 dKH" });
    // 1 dKH is 0.35665 meq/L (10 mg/L CaO a degree).
    expect(plan.water.kh.value).toBeCloseTo(4 * 0.35665, 3);
    expect(plan.co2?.bubbles).toMatchObject({ value: 1, known: "measured", note: "counted 22 Nov" });
    expect(plan.co2?.bubble).toMatchObject({ value: 0.23, known: "measured" });
    expect(plan.light?.power).toMatchObject({ value: 46, known: "label" });
    expect(plan.light?.strength.value).toBeCloseTo(0.65, 12);
    expect([plan.light?.on.value, plan.light?.off.value, plan.light?.ramp.value]).toEqual([10, 18, 0.5]);
    expect(plan.filter?.flow).toMatchObject({ value: 380, note: "bucket and stopwatch" });
    expect(plan.surface).toMatchObject({ ripple: { value: 3 }, exchange: { value: 0.27 } });
    expect(plan.room.co2.value).toBe(600);
    expect(plan.room.night).toMatchObject({ value: 21, known: "assumed" });
    expect(plan.plants.map((p) => p.species)).toContain("hygrophila-pinnatifida");
    expect(plan.animals.map((a) => a.count.value)).toEqual([14, 8, 20]);
    expect(plan.readings).toEqual([
      { what: "co2", value: 18, error: 4, at: 12.5, note: "colour cell" },
      { what: "ph", value: 7.08, error: 0.05, at: 9 + 50 / 60, note: "pen" },
    ]);
  });

  test("its alternatives change what they say", () => {
    expect(plan.alternatives).toEqual(["earlier valve", "calmer surface", "shorter, brighter day"]);
    expect(planOf("quarry-bank.yaml", "earlier valve").co2?.opens.value).toBeCloseTo(7 + 20 / 60, 12);
    expect(planOf("quarry-bank.yaml", "calmer surface").surface).toMatchObject({
      ripple: { value: 2 },
      exchange: null,
    });
    expect(planOf("quarry-bank.yaml", "shorter, brighter day").light).toMatchObject({
      on: { value: 11 },
      off: { value: 17 },
    });
  });
});

describe("US units", () => {
  const plan = planOf("us-units.yaml");

  test("are kept as typed and come to the same figures", () => {
    // Exact: 1 in = 25.4 mm, 1 lb = 0.45359237 kg, 1 US gal = 3.785411784 L (NIST SP 811).
    expect(plan.tank.length).toMatchObject({ text: "36 in" });
    expect(plan.tank.length.value).toBeCloseTo(0.9144, 12);
    expect(plan.tank.glass.value).toBeCloseTo(0.009525, 12);
    expect(plan.hardscape[0]?.mass.value).toBeCloseTo(3 * 0.45359237, 12);
    expect(plan.filter?.rated.value).toBeCloseTo(265 * 3.785411784, 9);
    expect(plan.heater?.set.value).toBeCloseTo((76 - 32) / 1.8, 12);
    expect(plan.room.volume.value).toBeCloseTo(1800 * 0.3048 ** 3, 9);
    // 71 mg/L as CaCO3 is 3.98 degrees at 17.848 mg/L a degree.
    expect(plan.water.kh.value / 0.35665).toBeCloseTo(71 / 17.848, 2);
    // A difference of temperature has no offset: half a degree Fahrenheit is 0.278 K.
    expect(plan.readings[0]?.error).toBeCloseTo(0.5 / 1.8, 12);
    expect(plan.animals[0]?.species).toBe("paracheirodon-innesi");
  });
});

describe("the shelf of bad plans", () => {
  test("holds at least 25", () => {
    expect(bad.length).toBeGreaterThanOrEqual(25);
  });

  test.each(bad)("%s gives the faults that its head names, and no other", (file) => {
    const text = readFileSync(new URL(`bad/${file}`, folder), "utf8");
    const expected = [...text.matchAll(/^# expected: (.*?): (.*)$/gm)].map(([, path, words]) => ({
      path: path === "(file)" ? "" : path,
      words: words ?? "",
    }));
    expect(expected.length).toBeGreaterThan(0);
    const reading = readPlan(text);
    if (reading.ok) throw new Error("this plan was accepted");
    const lines = text.split("\n");
    for (const { path, words } of expected) {
      const found = reading.faults.find((f) => f.path === path && f.message.includes(words));
      expect(found, `${path}: ${words} among ${JSON.stringify(reading.faults)}`).toBeDefined();
    }
    expect(reading.faults).toHaveLength(expected.length);
    for (const fault of reading.faults) {
      expect(fault.column).toBeGreaterThanOrEqual(1);
      expect(fault.column).toBeLessThanOrEqual((lines[fault.line - 1] ?? "").length + 1);
      expect(fault.allowed).not.toBe("");
    }
  });
});
