import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { hoursProgramme, lightKey, type Plan, type RawPlan, resolvePlan } from "../plan/index.ts";
import { compile } from "./compile.ts";
import { type DayLamp, dayOf, fullHoursOf, lampClock, lampEdges } from "./lamps.ts";
import { repeatingDay } from "./repeating-day.ts";
import { setupOf } from "./setup.ts";

const hours = (on: number, off: number, ramp: number, strength = 1) => dayOf(hoursProgramme(on, off, ramp), strength);
const lamp = (day: DayLamp["day"]): DayLamp => ({ lamp: 0, part: 1, brightest: 1, day, meter: 100, heat: 10 });

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
  const heatOf = (plan: Plan): number =>
    repeatingDay(compile(setupOf(plan)))
      .ledgers.find((l) => l.of === "heat")!
      .lines.find((l) => l.id === "heat.lamp")!.into;

  test("a siesta dims light and heat in the middle of the day; hours typed beside it move it", () => {
    const { on: _on, off: _off, ramp: _ramp, ...lamp } = raw.light as RawPlan;
    const light = { ...lamp, programme: "10:00 0 %, 10:30 65 %, 14:00 40 %, 16:00 65 %, 18:00 0 %" };
    const plan = planOf({ ...raw, light });
    const steady = planOf({ ...raw, light: { ...lamp, on: "10:00", off: "18:00" } });
    expect(meterAt(plan, 14) / meterAt(steady, 14)).toBeCloseTo(0.4, 9);
    expect(meterAt(plan, 16) / meterAt(steady, 14)).toBeCloseTo(0.65, 9);
    // 3.7 of 8 full hours, by hand: 0.5 x 0.325 + 3.5 x 0.525 + 2 x 0.525 + 2 x 0.325
    expect(heatOf(plan) / heatOf(steady)).toBeCloseTo(3.7 / 8, 6);
    const moved = planOf({ ...raw, light: { ...light, on: "12:00" } });
    expect(meterAt(moved, 16) / meterAt(plan, 14)).toBeCloseTo(1, 9);
    const dimmed = planOf({ ...raw, light: { ...light, strength: "50 %" } });
    expect(meterAt(dimmed, 14) / meterAt(plan, 14)).toBeCloseTo(0.5, 9);
  });
  test("a programme runs through midnight", () => {
    const { on: _on, off: _off, ramp: _ramp, ...lamp } = raw.light as RawPlan;
    const plan = planOf({ ...raw, light: { ...lamp, programme: "20:00 0 %, 21:00 80 %, 01:00 80 %, 02:00 0 %" } });
    expect(meterAt(plan, 0.5) / meterAt(plan, 22)).toBeCloseTo(1, 9);
    expect(meterAt(plan, 1.5) / meterAt(plan, 22)).toBeCloseTo(0.5, 9);
    expect(meterAt(plan, 12)).toBe(0);
  });
  test("channels are dimmed and timed apart, in light and heat, and grow plants together", () => {
    const { ramp: _, ...light } = raw.light as RawPlan;
    const channels = [
      { spectrum: "6500 K", share: "75 %" },
      { spectrum: "deep red", strength: "50 %", programme: "12:00 0 %, 12:00 100 %, 14:00 100 %, 14:00 0 %" },
    ];
    const plain = planOf({ ...raw, light });
    const plan = planOf({ ...raw, light: { ...light, channels } });
    expect(meterAt(plan, 11) / meterAt(plain, 11)).toBeCloseTo(0.75, 9);
    expect(meterAt(plan, 13) / meterAt(plain, 13)).toBeCloseTo(0.75 + 0.125, 9);
    expect(heatOf(plan) / heatOf(plain)).toBeCloseTo((0.75 * 8 + 0.125 * 2) / 8, 6);
    // the meter's reading is of all channels together
    const measured = planOf({ ...raw, light: { ...light, channels, ppfd: "60 umol/m2/s" } });
    expect(meterAt(measured, 13)).toBeCloseTo(60, 9);
  });
  test("daylight comes in its own hours, brings no heat of a lamp, and a reading of the lamp leaves it as it is", () => {
    const daylight = { side: "left", ppfd: "30 umol/m2/s", rise: "06:00", set: "20:00" };
    const plan = planOf({ ...raw, daylight });
    const alone = planOf(raw);
    expect(meterAt(plan, 8)).toBeGreaterThan(0);
    expect(meterAt(alone, 8)).toBe(0);
    const sky = meterAt(plan, 13) - meterAt(alone, 13);
    expect(meterAt(plan, 8) / sky).toBeCloseTo(Math.sin((Math.PI * 2) / 14), 2);
    expect(heatOf(plan)).toBeCloseTo(heatOf(alone), 6);
    const measured = planOf({ ...raw, daylight, light: { ...(raw.light as RawPlan), ppfd: "60 umol/m2/s" } });
    expect(meterAt(measured, 13)).toBeCloseTo(60 + sky, 6);
    expect(setupOf(measured).light).toMatchObject({ meter: expect.closeTo(60, 9), daylight: expect.closeTo(sky, 6) });
  });
  test("watts that were followed, such as a photometric file's, heat the water", () => {
    const plan = planOf(raw);
    const key = lightKey(plan);
    const light = { meter: 50, plantings: [70], span: [0.8, 1.2] as const };
    const heat = (watts: number): number =>
      setupOf(plan, [{ key, lights: [{ ...light, watts }], arrives: 0.5, noise: 0.01 }]).lamps[0]!.heat;
    expect(heat(20) / heat(40)).toBeCloseTo(0.5, 12);
    expect(heat(40)).toBeCloseTo(setupOf(plan).lamps[0]!.heat, 12);
  });
  test("light followed for another plan is not taken", () => {
    const plan = planOf(raw);
    const lights = [{ meter: 50, plantings: [70], span: [0.8, 1.2] as const, watts: 40 }];
    const known = { lights, arrives: 0.5, noise: 0.01 };
    expect(setupOf(plan, [{ key: "another", ...known }]).light.followed).toBe(false);
  });
});
