import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { drawingCss } from "../drawing/index.ts";
import { goodPlans, wildPlans } from "../plan/arbitrary.ts";
import { applyToRaw, type RawPlan, readPlan, resolvePlan } from "../plan/index.ts";
import { compareDays } from "./compare.ts";
import { dayContext } from "./context.ts";
import { beyond } from "./curves.ts";
import { cite } from "./figures.ts";
import { knobsOf, suitable, turn } from "./knobs.ts";
import { dayReport, PlanError, quickDay } from "./report.ts";
import { shown, shownDoubt, shownLength } from "./shown.ts";
import { topOf } from "./solve.ts";
import { plain, span } from "./words.ts";

const example = (name: string): string =>
  readFileSync(new URL(`../../../../examples/${name}.yaml`, import.meta.url), "utf8");
const rawOf = (text: string): RawPlan => {
  const reading = readPlan(text);
  if (!reading.ok) throw new Error(reading.faults.map((f) => `${f.line}: ${f.path}: ${f.message}`).join("\n"));
  return reading.raw;
};
const withFields = (raw: RawPlan, fields: Record<string, unknown>): RawPlan =>
  applyToRaw(
    raw,
    Object.entries(fields).map(([path, after]) => ({ name: path, path: path.split("."), before: undefined, after })),
  );

const demo = rawOf(example("quarry-bank"));

describe("the demo's day", () => {
  const { report, doubt } = dayReport(demo);
  const finding = (id: string) => report.findings.find((f) => f.id === id);

  test("says first what is late and offers remedies that the model has tried", () => {
    const late = finding("co2-late")!;
    expect(report.headline.map((p) => p.words).join("")).toContain(late.title);
    expect(late.next.length).toBe(2);
    for (const remedy of late.next) {
      const day = quickDay(applyToRaw(demo, remedy.changes));
      const before = quickDay(demo);
      // each remedy brings the wanted CO2 to lights-on, to what a timer or a needle can be set to
      expect(day.curves.wanted!.atOn).toBeGreaterThan(before.curves.wanted!.value * 0.985);
      expect(before.curves.wanted!.atOn).toBeLessThan(before.curves.wanted!.value * 0.96);
    }
  });
  test("the safer remedy stands first and its promise holds when tried", () => {
    const [first, second] = finding("co2-late")!.next;
    expect(first!.safe).toBe(true);
    expect(second!.safe).toBe(false);
    const limit = report.limits.find((l) => l.series === "co2")!.value;
    const tried = (r: NonNullable<typeof first>) => {
      const raw = applyToRaw(demo, r.changes);
      const resolved = resolvePlan(raw);
      if (!resolved.ok) throw new Error("remedy breaks the plan");
      return dayContext(resolved.plan, raw, "metric").day;
    };
    expect(topOf(tried(first!))).toBeLessThanOrEqual(limit);
    expect(topOf(tried(second!))).toBeGreaterThan(limit);
    expect(first!.effect).toContain(plain(topOf(tried(first!)), 1));
  });
  test("one more class of ripple: the price in gas is what the same CO2 then takes", () => {
    const note = finding("ripple-price")!;
    const price = Number(/costs (\d+) %/.exec(note.title)![1]);
    expect(price).toBeGreaterThan(5);
    const gained = Number(/gives ([\d.]+) mg/.exec(note.title)![1]);
    expect(gained).toBeGreaterThan(0);
  });
  test("every figure opens to its inputs, equation and sources; ledgers add up to the result", () => {
    for (const figure of report.figures) {
      expect(figure.working.equation.length, figure.id).toBeGreaterThan(10);
      expect(figure.working.sources.length, figure.id).toBeGreaterThan(0);
      expect(Number.isFinite(figure.value), figure.id).toBe(true);
    }
    for (const id of ["co2-at-lights-on", "oxygen-at-dawn"]) {
      const { terms } = report.figures.find((f) => f.id === id)!.working;
      const [result, ...rest] = terms;
      const sum = rest.reduce((s, t) => s + (t.sign === "−" ? -1 : 1) * Number(t.value.text), 0);
      // each printed term is rounded to 0.1
      expect(Math.abs(sum - Number(result!.value.text)), id).toBeLessThan(0.05 * terms.length + 1e-9);
    }
  });
  test("likely ranges hold the figure, widen with ignorance, and name what widens them", () => {
    for (const id of ["co2-at-lights-on", "oxygen-at-dawn", "water-temperature", "lowest-ph"]) {
      const f = report.figures.find((x) => x.id === id)!;
      expect(f.low!).toBeLessThan(f.value);
      expect(f.high!).toBeGreaterThan(f.value);
      expect(f.working.doubt).toMatch(/widens it most/);
    }
    const vague = dayReport(
      withFields(demo, { "co2.bubble": "0.23 mg (assumed)", "co2.bubbles": "1.0 bubbles/s (assumed)" }),
    );
    const width = (d: typeof doubt) => d.figures["co2-at-lights-on"]!.high - d.figures["co2-at-lights-on"]!.low;
    expect(width(vague.doubt)).toBeGreaterThan(1.3 * width(doubt));
    for (let i = 0; i < report.curves.hours.length; i += 7) {
      expect(doubt.bands.co2.low[i]!).toBeLessThanOrEqual(report.curves.series.co2[i]!);
      expect(doubt.bands.co2.high[i]!).toBeGreaterThanOrEqual(report.curves.series.co2[i]!);
    }
  });
  test("both unit systems tell the same day", () => {
    const us = dayReport(demo, { units: "us" }).report;
    const metric = report.figures.find((f) => f.id === "water-temperature")!;
    const fahrenheit = us.figures.find((f) => f.id === "water-temperature")!;
    expect(fahrenheit.value).toBeCloseTo(metric.value, 9);
    expect(Number(fahrenheit.shown.text)).toBeCloseTo(metric.value * 1.8 + 32, 1);
    expect(us.figures.find((f) => f.id === "net-water")!.shown.unit).toMatch(/gal/);
  });
  test("the drawing's scene is to the plan's scale", () => {
    expect(report.scene.tank.length).toBeCloseTo(0.76, 9);
    expect(report.scene.plants).toHaveLength(6);
    expect(report.placed.map((p) => p.id)).toContain("co2-at-lights-on");
    expect(drawingCss.length).toBeGreaterThan(100);
  });
});

describe("findings that could be wrong", () => {
  const ids = (raw: RawPlan): string[] => dayReport(raw).report.findings.map((f) => f.id);
  const find = (raw: RawPlan, id: string) => dayReport(raw).report.findings.find((f) => f.id === id);

  test("a calm tank gets no caution about its gas", () => {
    const calm = withFields(demo, { "co2.opens": "06:40", "co2.wanted": "15 mg/L" });
    expect(ids(calm)).not.toContain("co2-late");
    expect(ids(calm)).not.toContain("co2-high");
    expect(
      dayReport(calm)
        .report.headline.map((p) => p.words)
        .join(""),
    ).toMatch(/in time/);
  });
  test("too much gas: closing earlier or fewer bubbles brings it under the limit", () => {
    const strong = withFields(demo, { "co2.bubbles": "2.5 bubbles/s" });
    const high = find(strong, "co2-high")!;
    expect(high.severity).not.toBe("note");
    expect(high.next.length).toBeGreaterThan(0);
    for (const remedy of high.next) {
      const day = quickDay(applyToRaw(strong, remedy.changes));
      expect(beyond(day.curves, day.curves.series.co2, 25.01, "over"), remedy.text).toBeNull();
    }
  });
  test("a still surface over a full tank: oxygen is short at dawn and more ripple mends it", () => {
    const still = withFields(demo, {
      "surface.exchange": "0.03 1/h",
      animals: [{ species: "Corydoras aeneus", count: 30 }],
      co2: undefined,
    });
    const low = find(still, "oxygen-low")!;
    expect(low.next[0]!.id).toBe("more-ripple");
    const before = quickDay(still).curves.extremes.find((e) => e.series === "oxygen" && e.kind === "low")!.value;
    const after = quickDay(applyToRaw(still, low.next[0]!.changes)).curves.extremes.find(
      (e) => e.series === "oxygen" && e.kind === "low",
    )!.value;
    expect(after).toBeGreaterThan(before + 0.5);
  });
  test("gas into the night, a weak heater, a hot room, dim light, a small room are each told", () => {
    expect(ids(withFields(demo, { "co2.closes": "22:00" }))).toContain("gas-after-dark");
    expect(
      ids(withFields(demo, { heater: { power: "15 W", set: "25 °C" }, room: { day: "16 °C", night: "13 °C" } })),
    ).toContain("heater-weak");
    expect(ids(withFields(demo, { room: { day: "33 °C", night: "30 °C" } }))).toContain("water-warm");
    expect(ids(withFields(demo, { "light.ppfd": "6 umol/m2/s" }))).toContain("light-short");
    expect(find(withFields(demo, { "room.volume": "12 m3" }), "cylinder-room")!.severity).toBe("stop");
    expect(ids(withFields(demo, { "room.volume": "5000 m3" }))).not.toContain("cylinder-room");
    expect(ids(withFields(demo, { heater: { power: "400 W", set: "24 °C" } }))).toContain("heater-stuck");
  });
  test("a stronger heater, as advised, holds the set point better", () => {
    const weak = withFields(demo, { heater: { power: "15 W", set: "25 °C" }, room: { day: "16 °C", night: "13 °C" } });
    const remedy = find(weak, "heater-weak")!.next[0]!;
    const lowest = (raw: RawPlan): number =>
      quickDay(raw).curves.series.temperature.reduce((a, b) => Math.min(a, b), 99);
    expect(lowest(applyToRaw(weak, remedy.changes))).toBeGreaterThan(lowest(weak) + 0.5);
  });
  test("the valve left open: told with the time to danger", () => {
    const strong = withFields(demo, {
      "co2.bubbles": "2 bubbles/s",
      "surface.exchange": "0.15 1/h",
      "co2.closes": "12:00",
    });
    const open = find(strong, "valve-left-open")!;
    expect(open.severity).toBe("caution");
    expect(open.reason).toMatch(/60 mg\/L within/);
  });
});

describe("knobs", () => {
  const resolved = resolvePlan(demo);
  if (!resolved.ok) throw new Error("demo has faults");
  const { plan } = resolved;

  test("turning a knob sets it, for every knob across its travel", () => {
    for (const knob of knobsOf(plan, "metric")) {
      for (const share of [0, 0.3, 0.7, 1]) {
        const value = Math.round((knob.min + share * (knob.max - knob.min)) / knob.step) * knob.step;
        const within = Math.max(knob.min, Math.min(knob.max, value));
        const raw = applyToRaw(demo, turn(demo, plan, knob.id, within));
        const after = resolvePlan(raw);
        expect(after.ok, `${knob.id} at ${within}: ${after.ok ? "" : after.faults.map((f) => f.message).join()}`).toBe(
          true,
        );
        if (!after.ok) continue;
        const back = knobsOf(after.plan, "metric").find((k) => k.id === knob.id)!;
        expect(Math.abs(back.value - within), knob.id).toBeLessThanOrEqual(knob.step * 0.51 + 1e-9);
      }
    }
  });
  test("a value set from the screen is not passed off as measured", () => {
    const raw = applyToRaw(demo, turn(demo, plan, "bubbles", 2));
    const after = resolvePlan(raw);
    expect(after.ok && after.plan.co2!.bubbles.known).toBe("assumed");
  });
  test("what is said to suit does suit", () => {
    const day = quickDay(demo);
    const stretches = suitable(demo, plan, day.curves.start);
    const { exchange } = stretches;
    expect(exchange).toBeDefined();
    const middle = (exchange!.from + exchange!.to) / 2;
    const tried = quickDay(applyToRaw(demo, turn(demo, plan, "exchange", middle)));
    const limit = tried.limits.find((l) => l.series === "co2")!.value;
    expect(tried.curves.series.co2.reduce((a, b) => Math.max(a, b))).toBeLessThan(limit);
  });
});

describe("alternatives", () => {
  test("run beside the plan, in the plan's order", () => {
    const { names, days } = compareDays(example("quarry-bank"));
    expect(names[0]).toBe("as planned");
    expect(names.length).toBe(4);
    expect(days[1]!.curves.wanted!.atOn).toBeGreaterThan(days[0]!.curves.wanted!.atOn);
  });
  test("an unknown name is refused with those that there are", () => {
    expect(() => compareDays(example("quarry-bank"), {}, ["nonsense"])).toThrow(/earlier valve/);
  });
});

describe("any plan", () => {
  const runs = process.env.LENTIC_SOAK ? 10_000 : 120;
  test(`${runs} generated plans: a day without a gap, or faults that say where`, { timeout: 3_600_000 }, () => {
    let good = 0;
    let bad = 0;
    const check = (raw: RawPlan): void => {
      const resolved = resolvePlan(raw);
      if (!resolved.ok) {
        bad += 1;
        expect(resolved.faults.length).toBeGreaterThan(0);
        for (const fault of resolved.faults) expect(fault.message.length).toBeGreaterThan(3);
        expect(() => quickDay(raw)).toThrow(PlanError);
        return;
      }
      good += 1;
      const day = quickDay(raw);
      for (const [id, values] of Object.entries(day.curves.series)) {
        for (const v of values) expect(Number.isFinite(v), `${id} of ${JSON.stringify(raw)}`).toBe(true);
      }
      for (const v of day.curves.series.oxygen) expect(v).toBeGreaterThan(-1e-3);
      for (const v of day.curves.series.co2) expect(v).toBeGreaterThanOrEqual(0);
      for (const f of day.figures) expect(Number.isFinite(f.value), f.id).toBe(true);
    };
    fc.assert(fc.property(fc.oneof({ weight: 3, arbitrary: goodPlans }, { weight: 1, arbitrary: wildPlans }), check), {
      numRuns: runs,
      seed: 20261125,
    });
    expect(good).toBeGreaterThan(runs / 4);
    expect(bad).toBeGreaterThan(0);
  });
});

describe("words", () => {
  test("numbers are rounded to their doubt and keep their unit", () => {
    expect(shownDoubt(18.43, 2.4, "mg/L").text).toBe("18");
    expect(shownDoubt(7.42, 0.31, "mg/L").text).toBe("7.4");
    expect(shown(24, "°C", 1, "us")).toEqual({ text: "75.2", unit: "°F" });
    expect(shownLength(0.76, "us")).toEqual({ text: "29.9", unit: "in" });
    expect(plain(-0.001, 1)).toBe("0.0");
    expect(span(70 / 60)).toBe("70 min");
    expect(span(2.66)).toBe("2 h 40 min");
  });
  test("a citation that no room holds is refused", () => {
    expect(() => cite(["nobody-1900"])).toThrow(/nobody-1900/);
  });
});
