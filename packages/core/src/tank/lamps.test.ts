import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Plan, type RawPlan, resolvePlan } from "../plan/index.ts";
import { compile } from "./compile.ts";
import { type DayLamp, fullHoursOf, lampClock, lampEdges, stretchesOf } from "./lamps.ts";
import { repeatingDay } from "./repeating-day.ts";
import { setupOf } from "./setup.ts";

const hours = (on: number, off: number, ramp: number, strength = 1) =>
  stretchesOf({
    on: { value: on, known: "measured" },
    off: { value: off, known: "measured" },
    ramp: { value: ramp, known: "measured" },
    strength: { value: strength, known: "measured" },
  });
const lamp = (day: DayLamp["day"]): DayLamp => ({ day, meter: 100, heat: 10 });

/** Strength at an hour, as a process would meet it: the clock is told the smooth stretch that the hour lies in. */
function strengthAt(lamps: readonly DayLamp[], hour: number): number {
  const clock = lampClock(lamps);
  const edges = [0, ...lampEdges(lamps).map((h) => h % 24), 24].sort((a, b) => a - b);
  const k = edges.findIndex((edge) => edge > hour);
  clock.begin(((edges[k - 1]! + edges[k]!) / 2) * 3600);
  return clock.at(hour * 3600)[0]!;
}

const planOf = (raw: RawPlan): Plan => {
  const resolved = resolvePlan(raw);
  if (!resolved.ok) throw new Error(resolved.faults.map((f) => `${f.path}: ${f.message}`).join("\n"));
  return resolved.plan;
};

const raw: RawPlan = {
  lentic: 1,
  name: "Two lamps",
  tank: { length: "800 mm", width: "350 mm", height: "400 mm" },
  light: { kind: "bar", power: "40 W", on: "10:00", off: "18:00", ramp: "30 min" },
  co2: {},
  plants: [{ species: "Rotala rotundifolia", cover: "30 %", height: "200 mm" }],
};

describe("a lamp's day", () => {
  test("rises and falls in straight lines, and is dark outside its hours", () => {
    const lamps = [lamp(hours(10, 18, 1, 0.8))];
    for (const [h, strength] of [
      [9.9, 0],
      [10.25, 0.2],
      [10.5, 0.4],
      [11, 0.8],
      [14, 0.8],
      [17.5, 0.4],
      [18, 0],
      [23, 0],
    ] as const) {
      expect(strengthAt(lamps, h)).toBeCloseTo(strength, 12);
    }
  });
  test("runs through midnight", () => {
    const lamps = [lamp(hours(20, 2, 0.5))];
    expect([21, 0, 1, 1.75, 3].map((h) => strengthAt(lamps, h))).toEqual([
      1,
      1,
      1,
      expect.closeTo(0.5, 12) as unknown as number,
      0,
    ]);
  });
  test("its full hours are the area under it, for any hours and ramp", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 23.9, noNaN: true }),
        fc.double({ min: 0.2, max: 23.9, noNaN: true }),
        fc.double({ min: 0, max: 6, noNaN: true }),
        fc.double({ min: 0.05, max: 1, noNaN: true }),
        (on, long, ramp, strength) => {
          const day = hours(on, (on + long) % 24, ramp, strength);
          const lamps = [lamp(day)];
          const n = 4800;
          let sum = 0;
          for (let i = 0; i < n; i++) sum += strengthAt(lamps, (24 * (i + 0.5)) / n);
          // the midpoint rule misses less than one step at each of four edges
          expect(Math.abs((sum * 24) / n - fullHoursOf(day))).toBeLessThan((4 * 24) / n);
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe("lamps in the day", () => {
  const meterAt = (plan: Plan, hour: number): number =>
    repeatingDay(compile(setupOf(plan))).series.light[Math.round(hour * 12)]!;

  test("a dimmed lamp gives less, also where its light was measured at another setting", () => {
    const measured = { ...(raw.light as RawPlan), ppfd: "80 umol/m2/s (measured)", strength: "80 %" };
    const present = planOf({ ...raw, light: measured });
    const dimmed = planOf({ ...raw, light: { ...measured, strength: "40 %", measured_at: "80 %" } });
    expect(meterAt(present, 14)).toBeCloseTo(80, 9);
    expect(meterAt(dimmed, 14)).toBeCloseTo(40, 9);
  });
  test("a second lamp adds its light and its heat in its own hours, and plants grow by it", () => {
    const one = planOf(raw);
    const two = planOf({ ...raw, lamps: [{ kind: "bar", power: "20 W", on: "12:00", off: "15:00", ramp: "0 min" }] });
    expect(meterAt(two, 11)).toBeCloseTo(meterAt(one, 11), 9);
    expect(meterAt(two, 14)).toBeGreaterThan(meterAt(one, 14) * 1.3);
    const fixed = (plan: Plan): number =>
      repeatingDay(compile(setupOf(plan)))
        .ledgers.find((l) => l.of === "carbon")!
        .lines.find((l) => l.id === "plants.fixation")!.into;
    // by less than the light: carbon is what they are short of here
    expect(Math.abs(fixed(two))).toBeGreaterThan(Math.abs(fixed(one)) * 1.02);
    const heat = (plan: Plan): number =>
      repeatingDay(compile(setupOf(plan)))
        .ledgers.find((l) => l.of === "heat")!
        .lines.find((l) => l.id === "heat.lamp")!.into;
    // 20 W for three hours, as much of it into the water as of the first lamp's 40 W in 7.5 full hours
    expect(heat(two) / heat(one)).toBeCloseTo(1 + (20 * 3) / (40 * 7.5), 6);
  });
  test("light followed for another plan is not taken", () => {
    const plan = planOf(raw);
    const known = { lamps: [{ meter: 50, plantings: [70], span: [0.8, 1.2] as const }], arrives: 0.5, noise: 0.01 };
    expect(setupOf(plan, [{ key: "another", ...known }]).light.followed).toBe(false);
  });
});
