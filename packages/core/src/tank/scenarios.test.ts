/**
 * Keepers' cases from public list archives (1992-2005), retold as plans: what they measured, against what the model does.
 * Kits of the time read CO2 within 2 mg/L; figures derived from the reports carry the tolerance that they deserve.
 */
import { describe, expect, test } from "vitest";
import { readPlan } from "../plan/index.ts";
import { compile } from "./compile.ts";
import { S } from "./quantities.ts";
import { guessStart, repeatingDay } from "./repeating-day.ts";
import { runTank } from "./run.ts";
import { exchangeOf, type Setup, setupOf } from "./setup.ts";

function setup(text: string): Setup {
  const reading = readPlan(text);
  if (!reading.ok) throw new Error(reading.faults.map((f) => `${f.line}: ${f.path}: ${f.message}`).join("\n"));
  return setupOf(reading.plan);
}

/** A state with a given CO2, mg/L, at lamp-off conditions: found by bisection on the carbon. */
function withCo2(s: Setup, mgL: number): Float64Array {
  const model = compile(s);
  const y = guessStart(model);
  let low = s.start.alkalinity * 0.5 * s.waterMass;
  let high = s.start.alkalinity * s.waterMass + 0.02 * s.waterMass;
  for (let i = 0; i < 60; i += 1) {
    y[S.dic] = (low + high) / 2;
    const run = runTank(model, y, { from: 0, to: 1e-6, grid: 1e-6 * 60 });
    if (run.marks[0]!.co2 < mgL) low = y[S.dic]!;
    else high = y[S.dic]!;
  }
  return y;
}

describe("how fast CO2 leaves (one tank, four set-ups; public list archive, test of 1992)", () => {
  const tank = (exchange: number): Setup =>
    setup(`
lentic: 1
name: four set-ups
tank: { length: 48 in, width: 18 in, height: 24 in, glass: 10 mm, below_rim: 1.5 in }
water: { kh: 4 dKH }
surface: { exchange: ${exchange} 1/h }
heater: { power: 200 W, set: 79 °F }
room: { day: 22 °C, night: 22 °C, co2: 500 ppm }
feeding: { food: 0 g/day }
`);
  test.each([
    { set: "a, trickle filter and turbulence", k: 0.46, after: [21, 13.5] },
    { set: "b, ripples without splash", k: 0.335, after: [24, 17] },
    { set: "c, trickle, quiet surface", k: 0.17, after: [28, null] },
    { set: "d, slow drift", k: 0.15, after: [28.5, null] },
  ])("$set: from 33 mg/L, gas off", ({ k, after }) => {
    const s = tank(k);
    expect(exchangeOf(s, 26.1)).toBeCloseTo(k, 2);
    const run = runTank(compile(s), withCo2(s, 33), { from: 0, to: 2, grid: 60 });
    expect(run.series.co2[0]).toBeCloseTo(33, 1);
    // kit error 2 mg/L; the bed's breath, which the report does not give, adds about 0.3 mg/L an hour here
    after.forEach((mg, i) => {
      if (mg !== null) expect(Math.abs(run.series.co2[i + 1]! - mg)).toBeLessThan(2);
    });
  });
});

describe("a cylinder lasts eight months (114 L, 2.27 kg, gas day and night; public list archive)", () => {
  // 9.3 g a day as 1.08 bubbles/s of 0.1 mg; a quiet surface measured at 0.13-0.15 per hour in the first case
  const text = (device: string, exchange: string): string => `
lentic: 1
name: eight months
tank: { length: 36 in, width: 12 in, height: 18 in, glass: 6 mm, below_rim: 1 in }
water: { kh: 5 dKH }
light: { kind: tube, power: 80 W, on: "10:00", off: "20:00", efficacy: 1.0 umol/J }
co2: { bubbles: 1.0764 bubbles/s, bubble: 0.1 mg, device: ${device}, opens: "00:00", closes: "24:00", cylinder: 5 lb, wanted: 20 mg/L }
surface: { ${exchange} }
plants:
  - { species: Vallisneria spiralis, cover: 40 %, biomass: 60 g/m2 }
  - { species: Cryptocoryne wendtii, cover: 30 %, biomass: 60 g/m2 }
heater: { power: 100 W, set: 25 °C }
feeding: { food: 0.3 g/day }
`;
  test("nine grams a day at a quiet surface land at 18 to 32 mg/L", () => {
    const s = setup(text("reactor", "exchange: 0.14 1/h"));
    expect(s.gas!.rate * 44.0095 * 86400).toBeCloseTo(9.3, 1);
    expect(s.volume * 1000).toBeGreaterThan(95);
    expect(s.volume * 1000).toBeLessThan(120);
    const day = repeatingDay(compile({ ...s, gas: { ...s.gas!, always: true } }));
    const mean = day.series.co2.reduce((a, b) => a + b, 0) / day.series.co2.length;
    expect(mean).toBeGreaterThan(18);
    expect(mean).toBeLessThan(32);
  });
  test("by the look of the surface alone (slow drift) the answer keeps to the class's own spread of a factor 2", () => {
    const s = setup(text("reactor", "ripple: 2"));
    const day = repeatingDay(compile({ ...s, gas: { ...s.gas!, always: true } }));
    const mean = day.series.co2.reduce((a, b) => a + b, 0) / day.series.co2.length;
    expect(mean).toBeGreaterThan(12);
    expect(mean).toBeLessThan(64);
  });
  test("the cylinder's life: 2268 g at 9.3 g a day are eight months", () => {
    expect(2268 / 9.3 / 30.4).toBeGreaterThan(7.5);
    expect(2268 / 9.3 / 30.4).toBeLessThan(8.5);
  });
});

describe("a probe left out of the water (189 L, KH 5, gas on all night; public list archive)", () => {
  const s = setup(`
lentic: 1
name: probe out
tank: { length: 48 in, width: 15 in, height: 18 in, glass: 8 mm, below_rim: 1 in }
water: { kh: 5 dKH }
co2: { bubbles: 10 bubbles/s, bubble: 0.125 mg, device: reactor, opens: "08:00", closes: "20:00", wanted: 25 mg/L }
surface: { ripple: 1 }
animals:
  - { species: Paracheirodon axelrodi, count: 19 }
  - { species: Corydoras aeneus, count: 6 }
heater: { power: 150 W, set: 25 °C }
`);
  const model = compile({ ...s, gas: { ...s.gas!, always: true } });
  const run = runTank(model, withCo2(s, 30), { from: 20, to: 32, grid: 10 });
  const top = run.series.co2.at(-1)!;

  test("one night takes pH from the controller's set point to about 5.9 and CO2 beyond any limit", () => {
    expect(run.series.ph[0]).toBeGreaterThan(6.55);
    expect(run.series.ph[0]).toBeLessThan(6.85);
    // pH pen 0.1; the keeper read 5.9
    expect(Math.abs(run.series.ph.at(-1)! - 5.9)).toBeLessThan(0.15);
    expect(top).toBeGreaterThan(150);
  });
  test("at least 30 g of gas dissolve in the night", () => {
    const carbon = run.ledgers.find((l) => l.of === "carbon")!.lines.find((l) => l.id === "injection.dissolved")!;
    expect(carbon.into * 44.0095).toBeGreaterThan(30);
  });
  test("danger comes long before the morning: from 30 to 60 mg/L takes hours, not the night", () => {
    const i = run.series.co2.findIndex((v) => v >= 60);
    const hours = run.hours[i]! - 20;
    expect(hours).toBeGreaterThan(0.5);
    expect(hours).toBeLessThan(4);
  });
  test("changing half the water only halves the excess", () => {
    const y = run.end.slice();
    const fresh = s.start.alkalinity * s.waterMass * 1.02;
    y[S.dic] = 0.5 * y[S.dic]! + 0.5 * fresh;
    const after = runTank(compile({ ...s, gas: null }), y, { from: 8, to: 8.01, grid: 0.6 });
    expect(after.series.co2[0]! / top).toBeGreaterThan(0.45);
    expect(after.series.co2[0]! / top).toBeLessThan(0.58);
  });
});

describe("trade facts (common practice, no source)", () => {
  const s = setup(`
lentic: 1
name: four feet
tank: { length: 120 cm, width: 60 cm, height: 45 cm, glass: 10 mm, below_rim: 1 cm }
substrate: [{ material: gravel, depth: 1 cm }]
water: { kh: 4 dKH }
light: { kind: bar, power: 90 W, on: "10:00", off: "18:00" }
co2: { bubbles: 2.5 bubbles/s, device: fine plate, opens: "08:00", closes: "17:00", wanted: 15 mg/L }
surface: { ripple: 3 }
plants:
  - { species: Vallisneria spiralis, cover: 30 %, biomass: 80 g/m2 }
  - { species: Cryptocoryne wendtii, cover: 30 %, biomass: 80 g/m2 }
heater: { power: 300 W, set: 24 °C }
`);
  test("120 x 60 x 45 cm is about 320 L or 80 to 90 US gal, about 300 L once glass, bed and freeboard are off", () => {
    const nominal = s.volumes.nominal * 1000;
    expect(nominal).toBeGreaterThan(315);
    expect(nominal).toBeLessThan(330);
    expect(nominal / 3.785411784).toBeGreaterThan(80);
    expect(nominal / 3.785411784).toBeLessThan(90);
    expect(s.volume * 1000).toBeGreaterThan(280);
    expect(s.volume * 1000).toBeLessThan(310);
  });
  test("at about 300 L with a lively ripple 2 to 3 bubbles/s, opened two hours early, land at 10 to 30 mg/L by day", () => {
    // the usual range of a planted tank is 15-30; how large a bubble is spans a factor 7, the default is a middle one
    for (const factor of [2 / 2.5, 1, 3 / 2.5]) {
      const day = repeatingDay(compile({ ...s, gas: { ...s.gas!, rate: s.gas!.rate * factor } }));
      const top = day.series.co2.reduce((a, b) => Math.max(a, b));
      expect(top).toBeGreaterThan(10);
      expect(top).toBeLessThan(30);
    }
  });
});
