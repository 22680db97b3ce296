import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import {
  applyToRaw,
  type FollowedLight,
  keepReading,
  type Plan,
  type RawPlan,
  readPlan,
  resolvePlan,
  withAlternative,
} from "../plan/index.ts";
import { followedLightOf, lightReport, lightScene, scapeOf } from "../scape/index.ts";
import { compile, repeatingDay, setupOf } from "../tank/index.ts";
import { trace } from "../tracer/index.ts";
import { turn } from "./knobs.ts";
import { dayReport, quickDay } from "./report.ts";

const reading = readPlan(readFileSync(new URL("../../../../examples/quarry-bank.yaml", import.meta.url), "utf8"));
if (!reading.ok) throw new Error("the demo does not read");
const demo = reading.raw;

const planOf = (raw: RawPlan): Plan => {
  const resolved = resolvePlan(raw);
  if (!resolved.ok) throw new Error(resolved.faults.map((f) => `${f.path}: ${f.message}`).join("\n"));
  return resolved.plan;
};
const quality = { seed: 1, photons: 4000, directNoise: 0.05 } as const;
const followed = (raw: RawPlan): FollowedLight => followedLightOf(planOf(raw), quality)!;
const light = (raw: RawPlan): RawPlan => raw.light as RawPlan;
const strength = (raw: RawPlan, value: string): RawPlan => ({ ...raw, light: { ...light(raw), strength: value } });
const figure = (raw: RawPlan, lights: readonly FollowedLight[]): number =>
  quickDay(raw, { light: lights }).figures.find((f) => f.id === "light-at-bed")!.value;

const known = followed(demo);

describe("the day's light", () => {
  test("is that of the drawing board: plantings get the same, with and without the owner's reading", () => {
    const { ppfd: _, measured_at: __, ...bare } = light(demo);
    for (const raw of [demo, { ...demo, light: bare }]) {
      const plan = planOf(raw);
      const scape = scapeOf(plan);
      const scene = lightScene(scape)!;
      const report = lightReport(scape, scene, trace(scene.scene, quality));
      const setup = setupOf(plan, [followed(raw)]);
      expect(setup.light.followed).toBe(true);
      report.zones.forEach(({ index, mean }) => {
        const now = setup.patches[index]!.light[0]! * plan.light!.strength.value;
        expect(now / mean).toBeCloseTo(1, 9);
      });
    }
  });

  test("is followed a little coarser than the drawing board does, and comes to the same within a few per cent", () => {
    const usual = followedLightOf(planOf(demo))!;
    const fine = followedLightOf(planOf(demo), { seed: 7, photons: 200_000, directNoise: 0.005 })!;
    usual.lights[0]!.plantings.forEach((light, i) => {
      // its doubt is taken as 15 per cent beside that of the lamps
      expect(Math.abs(light / fine.lights[0]!.plantings[i]! - 1)).toBeLessThan(0.04);
    });
    expect(Math.abs(usual.lights[0]!.meter / fine.lights[0]!.meter - 1)).toBeLessThan(0.04);
  });

  test("one following serves every setting of dimmer, timer and reading, and none but its own layout", () => {
    const at40 = strength(demo, "40 %");
    expect(setupOf(planOf(at40), [known]).light.followed).toBe(true);
    const later = { ...demo, light: { ...light(demo), on: "11:00", ppfd: "90 umol/m2/s (measured)" } };
    expect(setupOf(planOf(later), [known]).light.followed).toBe(true);
    const higher = { ...demo, light: { ...light(demo), above_rim: "140 mm" } };
    expect(setupOf(planOf(higher), [known]).light.followed).toBe(false);
    const fewer = { ...demo, plants: (demo.plants as readonly RawPlan[]).slice(1) };
    expect(setupOf(planOf(fewer), [known]).light.followed).toBe(false);
  });

  test("a taller neighbour takes light from a low planting, and the day's uptake falls with it", () => {
    const low: RawPlan = {
      species: "Staurogyne repens",
      outline: "10 % 10 %, 50 % 10 %, 50 % 45 %, 10 % 45 %",
      height: "50 mm",
    };
    const tall = (height: string): RawPlan => ({
      species: "Rotala rotundifolia",
      outline: "10 % 46 %, 50 % 46 %, 50 % 95 %, 10 % 95 %",
      height,
      biomass: "160 g/m2",
    });
    const raw = (height: string): RawPlan => ({
      lentic: 1,
      name: "Neighbours",
      tank: { length: "600 mm", width: "300 mm", height: "360 mm" },
      light: { kind: "bar", power: "30 W", depth: "75 %" },
      co2: {},
      plants: [low, tall(height)],
    });
    const [short, high] = [raw("60 mm"), raw("300 mm")].map((r) => ({ r, f: followed(r) }));
    expect(high!.f.lights[0]!.plantings[0]!).toBeLessThan(0.85 * short!.f.lights[0]!.plantings[0]!);
    const uptake = ({ r, f }: { r: RawPlan; f: FollowedLight }): number => {
      const setup = setupOf(planOf(r), [f]);
      const day = repeatingDay(compile({ ...setup, patches: setup.patches.slice(0, 1) }));
      return day.ledgers.find((l) => l.of === "carbon")!.lines.find((l) => l.id === "plants.fixation")!.into;
    };
    expect(Math.abs(uptake(high!))).toBeLessThan(Math.abs(uptake(short!)));
  });
});

describe("a light reading", () => {
  test("moves with the dimmer: the knob writes down where it was read", () => {
    const { measured_at: _, ...rest } = light(demo);
    const raw = { ...demo, light: rest };
    expect(figure(raw, [known])).toBeCloseTo(72, 6);
    const dimmed = applyToRaw(raw, turn(raw, planOf(raw), "strength", 26));
    expect(light(dimmed).measured_at).toBe("65 %");
    expect(figure(dimmed, [known])).toBeCloseTo((72 * 26) / 65, 6);
  });
  test("moves with an alternative that dims, and with a field of the form", () => {
    const { measured_at: _, ...rest } = light(demo);
    const raw = { ...demo, light: rest };
    expect(figure(withAlternative(raw, { light: { strength: "13 %" } }), [known])).toBeCloseTo(72 / 5, 6);
    const typed = keepReading(raw, [{ name: "s", path: ["light", "strength"], before: "65 %", after: "13 %" }]);
    expect(figure(applyToRaw(raw, typed), [known])).toBeCloseTo(72 / 5, 6);
  });
  test("a new reading typed with a new setting stands by itself", () => {
    const changes = keepReading(demo, [
      { name: "s", path: ["light", "strength"], before: "65 %", after: "13 %" },
      { name: "p", path: ["light", "ppfd"], before: light(demo).ppfd, after: "20 umol/m2/s" },
    ]);
    expect(changes).toHaveLength(2);
  });
  test("that no lamp of this kind could give is believed, and said", () => {
    const ids = (ppfd: string): string[] =>
      dayReport({ ...demo, light: { ...light(demo), ppfd } }, { light: [known] }).report.findings.map((f) => f.id);
    expect(ids("72 umol/m2/s")).not.toContain("light-reading-off");
    expect(ids("20 umol/m2/s")).toContain("light-reading-off");
    expect(ids("400 umol/m2/s")).toContain("light-reading-off");
  });
});

test("too little light: the lamp turned up as proposed gives each planting its least", () => {
  const dim = strength(demo, "20 %");
  const before = dayReport(dim, { light: [known] }).report.findings.find((f) => f.id === "light-short")!;
  const [remedy] = before.next;
  expect(remedy!.id).toBe("lamp-up");
  const after = dayReport(applyToRaw(dim, remedy!.changes), { light: [known] }).report;
  expect(after.findings.map((f) => f.id)).not.toContain("light-short");
  // a per cent less would not do
  const percent = Number(/(\d+) %/.exec(remedy!.text)![1]);
  const less = dayReport(strength(dim, `${percent - 1} %`), { light: [known] }).report;
  expect(less.findings.map((f) => f.id)).toContain("light-short");
});

test("the section names the lamps that hang beside the first one", () => {
  const caption = (lamps: readonly RawPlan[]): string => quickDay({ ...demo, lamps }).scene.lamp!.caption;
  expect(caption([])).toBe("bar lamp, 46 W at 65 %");
  const pendant = { kind: "pendant", power: "10 W", strength: "80 %" };
  expect(caption([pendant])).toBe("bar lamp, 46 W at 65 % and one more, pendant lamp, 10 W at 80 %");
  expect(caption([pendant, pendant])).toBe("bar lamp, 46 W at 65 % and 2 more");
});
