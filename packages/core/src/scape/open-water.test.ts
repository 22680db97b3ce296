import { describe, expect, test } from "vitest";
import { type RawPlan, resolvePlan } from "../plan/index.ts";
import { type OpenWater, openWater, scapeOf } from "./index.ts";

/** A box of 1000 x 400 x 500 mm inside, water 480 mm deep. */
const raw: RawPlan = {
  lentic: 1,
  tank: { length: "1020 mm", width: "420 mm", height: "510 mm", glass: "10 mm", base: "10 mm", below_rim: "20 mm" },
  substrate: [{ material: "quartz sand", depth: "48 mm" }],
  light: {},
};
const of = (more: RawPlan): OpenWater => {
  const resolved = resolvePlan({ ...raw, ...more });
  if (!resolved.ok) throw new Error(JSON.stringify(resolved.faults));
  return openWater(scapeOf(resolved.plan));
};

describe("open water", () => {
  test("over a level bed is what stands above it", () => {
    const { view, volume } = of({});
    expect(view).toBeCloseTo(0.9, 2);
    expect(volume).toBeCloseTo(0.9, 6);
  });
  test("a sloped bed hides as far as its highest place behind, and fills half of the wedge", () => {
    const { view, volume } = of({ substrate: [{ material: "quartz sand", front: "48 mm", back: "144 mm" }] });
    // sounded in the middle of each of 24 strips, the last of them half a strip before the back pane
    expect(Math.abs(view - 0.7)).toBeLessThan(0.015);
    expect(volume).toBeCloseTo(1 - (0.1 + 0.3) / 2, 3);
  });
  test("a planting closes its outline up to its height, before and behind", () => {
    const plants = [
      { species: "Rotala rotundifolia", outline: "25 % 0 %, 75 % 0 %, 75 % 50 %, 25 % 50 %", height: "240 mm" },
    ];
    const { view, volume } = of({ plants });
    expect(view).toBeCloseTo(0.9 - 0.5 * 0.5, 2);
    expect(volume).toBeCloseTo(0.9 - 0.5 * 0.25 * 1, 2);
  });
  test("a stone hides its outline, and the more of them the less is open", () => {
    const stone = (at: string) => ({ kind: "stone", material: "granite", width: "200 mm", height: "200 mm", at });
    const none = of({});
    const one = of({ hardscape: [stone("30 %")] });
    const two = of({ hardscape: [stone("30 %"), stone("70 %")] });
    // a stone fills between a third and all of its box seen from the front
    expect(none.view - one.view).toBeGreaterThan((0.2 * 0.2) / (1 * 0.48) / 3);
    expect(none.view - one.view).toBeLessThan((0.2 * 0.2) / (1 * 0.48));
    expect(two.view).toBeLessThan(one.view);
    expect(two.volume).toBeLessThan(one.volume);
  });
});
