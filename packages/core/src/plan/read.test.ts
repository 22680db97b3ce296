import { describe, expect, test } from "vitest";
import { readPlan } from "./index.ts";

const tank = "tank: { length: 60 cm, width: 30 cm, height: 36 cm }\n";
const start = `lentic: 1\n${tank}`;

function faults(text: string) {
  const reading = readPlan(text);
  return reading.ok ? [] : reading.faults;
}

function plan(text: string) {
  const reading = readPlan(text);
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  return reading.plan;
}

describe("places of faults", () => {
  test("the value that is wrong, the key that is unknown, the group where something is missing", () => {
    const text = `lentic: 1\ntank:\n  length: 60 cm\n  width: 30 stone\nanimals:\n  - species: Boraras brigittae\n    cuont: 12\n`;
    expect(faults(text).map((f) => [f.path, f.line, f.column])).toEqual([
      ["tank.height", 2, 1],
      ["tank.width", 4, 10],
      ["animals[0].count", 6, 5],
      ["animals[0].cuont", 7, 5],
    ]);
  });

  test("the value inside the long form", () => {
    const [fault] = faults(`${start}water:\n  kh: { value: 4 L, known: measured }\n`);
    expect(fault).toMatchObject({ path: "water.kh.value", line: 4, column: 16 });
  });

  test("a file over 1 MB is refused at once, by bytes and not by letters", () => {
    expect(faults(`${start}about: ${"x".repeat(1_000_000)}`)[0]?.message).toMatch(/1001 kB/);
    expect(faults(`${start}about: ${"é".repeat(510_000)}`)[0]?.allowed).toMatch(/1 MB/);
    expect(faults(`${start}about: ${"x".repeat(900_000)}\n`)).toEqual([]);
  });

  test("thousands of faults come as a readable number", () => {
    const text = `${start}${Array.from({ length: 5000 }, () => "kh: 1").join("\n")}\n`;
    expect(faults(text).length).toBeLessThanOrEqual(101);
  });

  test("nesting deep enough to fell a reader is refused", () => {
    for (const unit of ["[", "{a: ", "- ", "? "]) {
      expect(faults(`${start}plants: ${unit.repeat(20_000)}`).length, unit).toBeGreaterThan(0);
    }
  });
});

describe("forms of a text", () => {
  test("JSON, tabs and all, reads as YAML does", () => {
    const json = '{\n\t"lentic": 1,\n\t"tank": { "length": "60 cm", "width": "30 cm", "height": "36 cm" }\n}';
    expect(plan(json)).toEqual(plan(start));
  });

  test("Windows line ends and a byte order mark read as their absence does", () => {
    expect(plan(`\uFEFF${start.replaceAll("\n", "\r\n")}`)).toEqual(plan(start));
  });

  test("times of day need no quotes", () => {
    expect(plan(`${start}light: { on: 09:30, off: 17:45 }\n`).light).toMatchObject({
      on: { value: 9.5 },
      off: { value: 17.75 },
    });
  });

  test("anchors and aliases within reason are read", () => {
    const text = `${start}plants:\n  - &first { species: Vallisneria nana, cover: 5 % }\n  - *first\n`;
    expect(plan(text).plants).toHaveLength(2);
  });

  test("a key named __proto__ is an unknown key like any other", () => {
    expect(faults(`${start}__proto__: { polluted: true }\n`)[0]?.path).toBe("__proto__");
    expect(faults(`${start}constructor: 1\n`)[0]?.path).toBe("constructor");
    expect(faults(`${start}water: { toString: 1 }\n`)[0]?.path).toBe("water.toString");
  });
});

describe("marks and notes", () => {
  const kh = (value: string) => plan(`${start}water:\n  kh: ${value}\n`).water.kh;

  test.each([
    ["4 dKH", { known: "measured", text: "4 dKH" }],
    ["4 dKH (assumed)", { known: "assumed", text: "4 dKH" }],
    ["4 dKH (label, water company)", { known: "label", note: "water company" }],
    ["4 dKH (drop test)", { known: "measured", note: "drop test" }],
    ["4 dKH (measured, drop test (fresh), 4 Nov)", { known: "measured", note: "drop test (fresh), 4 Nov" }],
    ["{ value: 4 dKH, known: label, note: yearly report }", { known: "label", note: "yearly report", text: "4 dKH" }],
    ["{ value: 4 dKH (assumed) }", { known: "assumed" }],
  ])("%s", (typed, expected) => {
    expect(kh(typed)).toMatchObject(expected);
    expect(kh(typed).value).toBeCloseTo(1.4266, 4);
    expect(kh(typed).reason).toBeUndefined();
  });

  test("an unmarked value bears its field's usual mark", () => {
    const made = plan(
      `${start}light: { power: 20 W, above_rim: 5 cm }\nplants: [{ species: Vallisneria nana, biomass: 50 g/m2 }]\n`,
    );
    expect(made.light?.power.known).toBe("label");
    expect(made.light?.aboveRim.known).toBe("measured");
    expect(made.plants[0]?.biomass.known).toBe("assumed");
  });
});

describe("units", () => {
  const water = (line: string) => plan(`${start}water: { ${line} }\n`).water;

  test("nitrate and phosphate as ion and as element", () => {
    // NO3-N x 4.427 = NO3; PO4-P x 3.066 = PO4 (from atomic weights).
    const asIon = water("nitrate: 4.427 mg/L NO3").nitrate.value;
    for (const line of [
      "nitrate: 1 mg/L NO3-N",
      "nitrate: 1 mg/L N",
      "nitrate: 1 mg/L as N",
      "nitrate: 0.0714 mmol/L",
    ]) {
      expect(water(line).nitrate.value / asIon).toBeCloseTo(1, 3);
    }
    expect(
      water("phosphate: 1 mg/L PO4-P").phosphate.value / water("phosphate: 3.066 mg/L PO4").phosphate.value,
    ).toBeCloseTo(1, 3);
  });

  test("calcium as an ion, as an amount, and as calcium carbonate", () => {
    // 40.078 g/mol Ca; 100.087 g/mol CaCO3 (IUPAC atomic weights).
    expect(water("calcium: 40.078 mg/L").calcium.value).toBeCloseTo(1, 3);
    expect(water("calcium: 1 mmol/L").calcium.value).toBe(1);
    expect(water("calcium: 100.087 mg/L CaCO3").calcium.value).toBeCloseTo(1, 3);
  });

  test("ppm is asked about everywhere but in the room's air", () => {
    expect(plan(`${start}room: { co2: 600 ppm }\n`).room.co2.value).toBe(600);
    for (const line of ["kh: 70 ppm", "gh: 100 ppm", "potassium: 10 ppm"]) {
      const [fault] = faults(`${start}water: { ${line} }\n`);
      expect(fault?.message, line).toMatch(/ppm/);
      expect(fault?.allowed).toMatch(/mg\/L/);
    }
  });

  test("a rate an hour is one number and one unit", () => {
    expect(plan(`${start}surface: { exchange: 0.32 1/h }\n`).surface.exchange?.value).toBe(0.32);
    expect(plan(`${start}surface: { exchange: 0.32 /h }\n`).surface.exchange?.value).toBe(0.32);
  });
});

describe("alternatives", () => {
  const text = `${start}heater: { power: 50 W }
alternatives:
  none:
    heater: null
  "strong, warm":
    heater: { power: 100 W, set: 26 °C }
`;

  test("one is applied when asked for; the raw plan is then the patched one", () => {
    const reading = readPlan(text, { alternative: "strong, warm" });
    expect(reading.ok && reading.plan.heater).toMatchObject({ power: { value: 100 }, set: { value: 26 } });
    expect(reading.ok && reading.raw.heater).toEqual({ power: "100 W", set: "26 °C" });
    const without = readPlan(text, { alternative: "none" });
    expect(without.ok && without.plan.heater).toBeNull();
  });

  test("one that is not there is a fault that names those that are", () => {
    const reading = readPlan(text, { alternative: "strong warm" });
    expect(reading.ok ? [] : reading.faults).toMatchObject([
      {
        path: "alternatives",
        line: 4,
        message: expect.stringContaining("did you mean strong, warm?"),
        allowed: "none, strong, warm",
      },
    ]);
    const none = readPlan(start, { alternative: "none" });
    expect(none.ok ? "" : none.faults[0]?.allowed).toMatch(/names none/);
  });

  test("a fault of the plan itself is told once, not once an alternative", () => {
    expect(faults(text.replace("50 W", "50 L"))).toHaveLength(1);
  });
});
