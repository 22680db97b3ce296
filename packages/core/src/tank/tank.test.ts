import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { sources as animalSources } from "../animals/index.ts";
import { sources as chemistrySources } from "../chemistry/index.ts";
import { sources as gasSources } from "../gas/index.ts";
import { sources as heatSources } from "../heat/index.ts";
import { createDormandPrince } from "../numerics/index.ts";
import { applyToRaw, type RawPlan, readPlan, resolvePlan } from "../plan/index.ts";
import { sources as plantSources } from "../plants/index.ts";
import { compile, flows, ordered } from "./compile.ts";
import type { Process } from "./process.ts";
import { processes } from "./processes/index.ts";
import { Q, S, stateIds } from "./quantities.ts";
import { guessStart, repeatingDay } from "./repeating-day.ts";
import { runTank } from "./run.ts";
import { type Setup, setupOf } from "./setup.ts";

const example = (name: string): string =>
  readFileSync(new URL(`../../../../examples/${name}.yaml`, import.meta.url), "utf8");

function rawOf(text: string): RawPlan {
  const reading = readPlan(text);
  if (!reading.ok) throw new Error(reading.faults.map((f) => `${f.line}: ${f.path}: ${f.message}`).join("\n"));
  return reading.raw;
}

function setupFrom(raw: RawPlan): Setup {
  const resolved = resolvePlan(raw);
  if (!resolved.ok) throw new Error(resolved.faults.map((f) => `${f.path}: ${f.message}`).join("\n"));
  return setupOf(resolved.plan);
}

const demo = setupFrom(rawOf(example("quarry-bank")));

describe("processes", () => {
  test("each need is provided once, whatever the order of the list", () => {
    const backwards = ordered([...processes].reverse());
    expect(backwards).toHaveLength(processes.length);
    for (const process of backwards) {
      const before = backwards.slice(0, backwards.indexOf(process)).flatMap((p) => p.provides);
      for (const need of process.needs) expect(before, `${process.id} needs ${need}`).toContain(need);
    }
  });
  test("a need without provider, two providers and a ring are refused", () => {
    const bare = { title: "", about: "", sources: [], flows: [], start: () => null };
    const a: Process = { ...bare, id: "a", needs: ["ph"], provides: ["co2"] };
    const b: Process = { ...bare, id: "b", needs: ["co2"], provides: ["ph"] };
    expect(() => ordered([a])).toThrow(/a needs ph/);
    expect(() => ordered([a, { ...a, id: "c" }])).toThrow(/both a and c/);
    expect(() => ordered([a, b])).toThrow(/ring/);
  });
  test("flows have names of their own and cite what exists", () => {
    expect(new Set(flows.map((f) => f.id)).size).toBe(flows.length);
    const known = { ...gasSources, ...chemistrySources, ...heatSources, ...plantSources, ...animalSources };
    for (const p of processes) for (const key of p.sources) expect(known, `${p.id} cites ${key}`).toHaveProperty([key]);
  });
  test("no process reads a quantity it has not declared, nor writes one it does not provide", () => {
    const model = compile(demo);
    const y = new Float64Array(stateIds.length + flows.length);
    y.set(guessStart(model));
    model.begin(36000, 37000);
    const full = model.observe(36500, y).slice();
    const names = Object.keys(Q) as (keyof typeof Q)[];
    for (const process of processes) {
      const rates = process.start(demo);
      if (!rates) continue;
      rates.begin?.(36500);
      const q = new Float64Array(full.length).fill(Number.NaN);
      for (const id of process.needs) q[Q[id]] = full[Q[id]]!;
      const flow = new Float64Array(process.flows.length);
      rates.at(36500, y, q, flow, 0);
      for (const v of flow) expect(v, `${process.id} reads something undeclared`).not.toBeNaN();
      for (const id of process.provides) expect(q[Q[id]], `${process.id} provides ${id}`).not.toBeNaN();
      for (const name of names) {
        if (!process.needs.includes(name) && !process.provides.includes(name)) {
          expect(q[Q[name]], `${process.id} writes ${name}`).toBeNaN();
        }
      }
    }
  });
});

describe("ledgers", () => {
  test.each(["quarry-bank", "small-no-gas", "long-high-light", "us-units", "minimal"])(
    "carbon, oxygen, alkalinity, heat and water close over %s",
    (name) => {
      const model = compile(setupFrom(rawOf(example(name))));
      for (const rtol of [1e-2, 1e-5]) {
        const run = runTank(model, guessStart(model), { to: 96, rtol });
        expect(run.ledgers.map((l) => l.of)).toEqual(["carbon", "oxygen", "alkalinity", "heat", "water"]);
        for (const ledger of run.ledgers) expect(Math.abs(ledger.residual), ledger.of).toBeLessThan(1e-9);
        expect(run.ledgers.find((l) => l.of === "carbon")!.lines.some((l) => Math.abs(l.into) > 1e-6)).toBe(true);
      }
    },
  );
  test("a flow that vanished on the way would show", () => {
    const model = compile(demo);
    const run = runTank(model, guessStart(model));
    const carbon = run.ledgers.find((l) => l.of === "carbon")!;
    const without = carbon.lines.filter((l) => l.id !== "plants.fixation").reduce((sum, l) => sum + l.into, 0);
    expect(Math.abs(carbon.after - carbon.before - without)).toBeGreaterThan(1e-3);
  });
});

describe("the repeating day", () => {
  test("ends as it began, and is where plain days lead in the end", () => {
    const model = compile(demo);
    const day = repeatingDay(model);
    expect(day.repeats).toBe(true);
    expect(day.days).toBeLessThan(12);
    const last = runTank(model, runTank(model, guessStart(model), { to: 24 * 30 }).end);
    for (const id of ["co2", "oxygen", "ph", "temperature"] as const) {
      for (let i = 0; i < day.hours.length; i += 6) {
        expect(day.series[id][i]).toBeCloseTo(last.series[id][i]!, 2);
      }
    }
  });
  test("does not depend on where the search begins", () => {
    const model = compile(demo);
    const a = repeatingDay(model);
    const odd = a.start.map((v, i) => (i === S.water || i === S.alkalinity ? v : v * 1.1));
    const b = repeatingDay(model, { start: odd });
    expect(b.repeats).toBe(true);
    for (let i = 0; i < a.hours.length; i += 12) expect(b.series.co2[i]).toBeCloseTo(a.series.co2[i]!, 2);
  });
  test("agrees with an explicit method of another family", () => {
    const model = compile(demo);
    const day = repeatingDay(model, { rtol: 1e-7 });
    const y = new Float64Array(stateIds.length + flows.length);
    y.set(day.start);
    const integrator = createDormandPrince(model.system, { rtol: 1e-8, atol: 1e-9 });
    // midnight to the opening of the valve: one smooth stretch
    const stop = demo.gas!.opens * 3600;
    model.begin(0, stop);
    expect(integrator.run(0, stop, y).status).toBe("done");
    const mark = day.marks.find((m) => m.hour === demo.gas!.opens)!;
    for (let i = 0; i < stateIds.length; i += 1) expect(y[i]! / mark.y[i]!).toBeCloseTo(1, 5);
  });
  test("tolerance: a hundred times looser moves CO2 by less than a keeper can read", () => {
    const fine = repeatingDay(compile(demo), { rtol: 1e-8 });
    const loose = repeatingDay(compile(demo), { rtol: 1e-4 });
    for (let i = 0; i < fine.hours.length; i += 1) {
      expect(Math.abs(loose.series.co2[i]! - fine.series.co2[i]!)).toBeLessThan(0.05);
      expect(Math.abs(loose.series.oxygen[i]! - fine.series.oxygen[i]!)).toBeLessThan(0.02);
    }
  });
});

const daysTop = (setup: Setup): number => repeatingDay(compile(setup)).series.co2.reduce((a, b) => Math.max(a, b), 0);
const dawn = (setup: Setup): number => repeatingDay(compile(setup)).series.oxygen.reduce((a, b) => Math.min(a, b), 99);

describe("coupled behaviours", () => {
  test("more movement at the surface: more oxygen at dawn, less CO2 for the same gas", () => {
    let oxygen = 0;
    let co2 = 1000;
    for (const k600 of [1, 2, 3.5, 7, 15]) {
      const setup = { ...demo, k600 };
      expect(dawn(setup)).toBeGreaterThan(oxygen);
      expect(daysTop(setup)).toBeLessThan(co2);
      oxygen = dawn(setup);
      co2 = daysTop(setup);
    }
  });
  test("the valve opened earlier brings more CO2 to lights-on and more growth; opened late it costs growth", () => {
    const at = (opens: number) => {
      const day = repeatingDay(compile({ ...demo, gas: { ...demo.gas!, opens } }));
      return { on: day.marks.find((m) => m.hour === demo.lamps[0]!.day[0]!.from)!.co2, fixed: fixedCarbon(day) };
    };
    const early = at(7);
    const usual = at(9);
    const late = at(12);
    expect(early.on).toBeGreaterThan(usual.on + 2);
    expect(usual.on).toBeGreaterThan(late.on + 2);
    expect(early.fixed).toBeGreaterThan(usual.fixed);
    expect(usual.fixed).toBeGreaterThan(late.fixed * 1.02);
  });
  test("a valve left open climbs through the night to its balance with the surface", () => {
    const open = { ...demo, gas: { ...demo.gas!, always: true } };
    const day = repeatingDay(compile(open));
    const night = day.series.co2[12 * 4]!;
    expect(night).toBeGreaterThan(daysTop(demo) + 2);
    // closed form in the dark: C = C_eq + (S + R) / (k V)
    const respired = ["plants.respiration", "animals.respiration", "microbes.waste", "microbes.bed"];
    const before = day.marks[0]!;
    const dusk = day.marks.find((m) => m.hour === demo.lamps[0]!.day[0]!.from)!;
    const n = stateIds.length;
    const id = (name: string): number => n + flows.findIndex((f) => f.id === name);
    const sum = (ids: readonly string[]): number =>
      ids.reduce((s, name) => s + dusk.y[id(name)]! - before.y[id(name)]!, 0);
    const source = sum(["injection.dissolved", ...respired]) / (dusk.hour * 3600);
    const lost = sum(["surface.co2"]) / (dusk.hour * 3600);
    const rate = lost / (night / 44.0095 - day.series.co2AtAir[12 * 4]! / 44.0095);
    expect(night).toBeCloseTo(day.series.co2AtAir[12 * 4]! + (source / rate) * 44.0095, 0);
  });
  test("weak gas with strong light: CO2 falls by day and rises at night", () => {
    const weak: Setup = {
      ...demo,
      gas: { ...demo.gas!, rate: demo.gas!.rate * 0.05, always: true },
      k600: 1.5,
      patches: demo.patches.map((p) => ({ ...p, light: p.light.map((l) => l * 3), grams: p.grams * 4 })),
    };
    const day = repeatingDay(compile(weak));
    const at = (h: number): number => day.series.co2[h * 12]!;
    expect(at(17)).toBeLessThan(at(10) - 1);
    expect(at(9)).toBeGreaterThan(at(22) + 0.5);
    expect(day.series.oxygen[17 * 12]!).toBeGreaterThan(day.series.oxygen[10 * 12]! + 1);
  });
  test("an unheated tank follows the room; evaporation cools it, lamp and pump warm it", () => {
    const heated = (heat: number) => demo.lamps.map((lamp) => ({ ...lamp, heat }));
    const cold = repeatingDay(compile({ ...demo, heater: null, lamps: heated(0), pumpHeat: 0 }));
    const warm = repeatingDay(compile({ ...demo, heater: null, lamps: heated(30), pumpHeat: 10 }));
    const mean = (v: Float64Array): number => v.reduce((a, b) => a + b, 0) / v.length;
    const room = mean(cold.series.room);
    expect(mean(cold.series.temperature)).toBeLessThan(room - 0.3);
    expect(mean(warm.series.temperature)).toBeGreaterThan(mean(cold.series.temperature) + 1);
    const swing = (v: Float64Array): number => v.reduce((a, b) => Math.max(a, b)) - v.reduce((a, b) => Math.min(a, b));
    expect(swing(cold.series.temperature)).toBeLessThan(swing(cold.series.room));
  });
  test("a lid keeps oxygen exchange nearly whole and halves that of CO2, and warms the tank", () => {
    const raw = rawOf(example("quarry-bank"));
    const lid = setupFrom(applyToRaw(raw, [{ name: "lid", path: ["tank", "cover"], before: "open", after: "lid" }]));
    const open = repeatingDay(compile(demo));
    const shut = repeatingDay(compile(lid));
    expect(daysTop(lid)).toBeGreaterThan(daysTop(demo) * 1.05);
    expect(dawn(lid)).toBeGreaterThan(dawn(demo) - 0.5);
    const duty = (d: typeof open): number => d.series.heaterDuty.reduce((a, b) => a + b, 0);
    expect(duty(shut)).toBeLessThan(0.6 * duty(open));
  });
  test("an air stone at night lifts the dawn's oxygen and lowers the morning's CO2", () => {
    const still = { ...demo, k600: 1.5 };
    const bubbled = { ...still, air: { on: 18, off: 10, kCo2: 0.15, kOxygen: 0.2 } };
    expect(dawn(bubbled)).toBeGreaterThan(dawn(still) + 0.3);
    const morning = (s: Setup): number => repeatingDay(compile(s)).series.co2[8 * 12]!;
    expect(morning(bubbled)).toBeLessThan(morning(still) - 0.3);
  });
  test("more animals: less oxygen, more CO2", () => {
    const crowded = { ...demo, stockFactor: 10 };
    expect(dawn(crowded)).toBeLessThan(dawn(demo) - 0.2);
    expect(daysTop(crowded)).toBeGreaterThan(daysTop(demo));
  });
  test("higher up, both gases are lower in balance with air, the exchange is not", () => {
    const high = { ...demo, pressure: 0.8 };
    const a = repeatingDay(compile(demo)).series;
    const b = repeatingDay(compile(high)).series;
    expect(b.oxygenAtAir[0]! / a.oxygenAtAir[0]!).toBeGreaterThan(0.77);
    expect(b.oxygenAtAir[0]! / a.oxygenAtAir[0]!).toBeLessThan(0.82);
    expect(b.co2AtAir[0]!).toBeLessThan(a.co2AtAir[0]!);
  });
});

function fixedCarbon(run: { marks: readonly { y: Float64Array }[] }): number {
  const k = stateIds.length + flows.findIndex((f) => f.id === "plants.fixation");
  return run.marks.at(-1)!.y[k]!;
}
