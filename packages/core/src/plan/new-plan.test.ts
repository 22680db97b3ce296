import { describe, expect, test } from "vitest";
import { formatPlan } from "./format.ts";
import { type Answers, newPlan, readPlan } from "./index.ts";

const least: Answers = { length: "60 cm", width: "30 cm", height: "36 cm" };
const most: Answers = {
  name: 'Office: "north", # 3',
  place: "first floor",
  length: "36 in",
  width: "18 in",
  height: "17 in",
  kh: "4 dKH (measured, drop test, 4 Nov)",
  gh: "7 dGH",
  lightPower: "40 W",
  lightOn: "10:00",
  lightOff: "18:00",
  gas: true,
  bubbles: "1.5 bubbles/s",
  filterRated: "250 US gal/h",
  heaterPower: "100 W",
  plants: ["Vallisneria nana", "Cryptocoryne wendtii"],
  animals: [{ species: "Boraras brigittae", count: 12 }],
};

describe("a new plan", () => {
  test.each([least, { ...least, light: true, gas: true, filter: true, heater: true }, most])(
    "reads, and is in the house layout",
    (answers) => {
      const text = newPlan(answers);
      const reading = readPlan(text);
      expect(reading.ok ? reading.notes : reading.faults).toEqual([]);
      expect(formatPlan(text)).toBe(text);
    },
  );

  test("holds the answers as given and nothing else", () => {
    const reading = readPlan(newPlan(most));
    if (!reading.ok) throw new Error("refused");
    expect(reading.raw).toEqual({
      lentic: 1,
      name: most.name,
      place: most.place,
      tank: { length: "36 in", width: "18 in", height: "17 in" },
      water: { kh: most.kh, gh: "7 dGH" },
      light: { power: "40 W", on: "10:00", off: "18:00" },
      co2: { bubbles: "1.5 bubbles/s" },
      filter: { rated: "250 US gal/h" },
      heater: { power: "100 W" },
      plants: [{ species: "Vallisneria nana" }, { species: "Cryptocoryne wendtii" }],
      animals: [{ species: "Boraras brigittae", count: 12 }],
    });
  });

  test("without gas, lamp, filter or heater leaves them out", () => {
    const reading = readPlan(newPlan(least));
    expect(reading.ok && Object.keys(reading.raw)).toEqual(["lentic", "name", "tank"]);
  });

  test("a wrong answer is told by reading, not hidden", () => {
    const reading = readPlan(newPlan({ ...least, length: "60" }));
    expect(reading.ok ? [] : reading.faults.map((f) => f.path)).toEqual(["tank.length"]);
  });
});
