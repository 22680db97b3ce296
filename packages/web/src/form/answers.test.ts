import { findPlant } from "@lentic/core/facts";
import { readPlan } from "@lentic/core/plan";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { easyPlants, fieldOf, has, outcomeOf, planOf, questions, things } from "./answers.ts";

const size = { length: "60 cm", width: "30 cm", height: "36 cm" };

describe("a tank from answers", () => {
  test("three sizes make a tank; what is not said is not in the plan", () => {
    const reading = readPlan(planOf(size));
    expect(reading.ok && Object.keys(reading.raw).sort()).toEqual(["filter", "heater", "lentic", "name", "tank"]);
  });

  test("what is said stands in the plan as typed", () => {
    const typed = {
      ...size,
      name: "Hall: <b>x</b>",
      kh: "4 dKH",
      lightPower: "30 W",
      gas: "yes",
      heater: "no",
      plants: "Anubias barteri\nVallisneria spiralis",
    };
    const reading = readPlan(planOf(typed));
    expect(reading.ok && reading.raw).toMatchObject({
      name: "Hall: <b>x</b>",
      water: { kh: "4 dKH" },
      light: { power: "30 W" },
      co2: {},
      plants: [{ species: "Anubias barteri" }, { species: "Vallisneria spiralis" }],
    });
    expect(reading.ok && reading.plan.heater).toBeNull();
  });

  test("the water is less than the sizes multiplied, and the same in both systems", () => {
    const litres = Number.parseFloat(outcomeOf(size, false).water!);
    expect(litres).toBeGreaterThan(40);
    expect(litres).toBeLessThan(6 * 3 * 3.6);
    // 1 US gallon = 3.785412 L (NIST SP 811, 2008, B.8); both are told whole
    expect(Math.abs(Number.parseFloat(outcomeOf(size, true).water!) * 3.785412 - litres)).toBeLessThan(2.5);
    expect(outcomeOf(size, true).water).toMatch(/US gal$/);
  });

  test("a fault is told at the question that it belongs to", () => {
    const { faults, water } = outcomeOf({ ...size, width: "45 potatoes" }, false);
    expect(water).toBeNull();
    expect(faults.map((f) => f.path)).toEqual(["tank.width"]);
    expect(questions.find((q) => q.path === faults[0]!.path)?.key).toBe("width");
    expect(
      outcomeOf({}, false)
        .faults.map((f) => f.path)
        .sort(),
    ).toEqual(["tank.height", "tank.length", "tank.width"]);
  });

  test("any answers whatever come to a tank or to faults, never to neither", () => {
    fc.assert(
      fc.property(
        fc.record({ name: fc.string(), length: fc.string(), width: fc.string(), height: fc.string(), kh: fc.string() }),
        (typed) => {
          const { faults, water } = outcomeOf(typed, false);
          expect(water === null).toBe(faults.length > 0);
        },
      ),
      { numRuns: 60 },
    );
  });

  test("every question stands for a field, every thing has a usual answer, and every plant offered is known", () => {
    for (const q of questions) expect(fieldOf(q), q.key).toBeDefined();
    expect(things.map((t) => has({}, t))).toEqual(things.map((t) => t.usual));
    expect(easyPlants.length).toBeGreaterThan(3);
    for (const name of easyPlants) expect(findPlant(name)?.co2Need).toBe("none");
  });
});
