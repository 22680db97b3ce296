import { describe, expect, test } from "vitest";
import { type Plan, pieceForm, type RawPlan, resolvePlan } from "./index.ts";
import { openCharge } from "./rules.ts";

const bare: RawPlan = { lentic: 1, tank: { length: "90 cm", width: "45 cm", height: "45 cm" } };

function plan(more: RawPlan = {}): Plan {
  const made = resolvePlan({ ...bare, ...more });
  if (!made.ok) throw new Error(JSON.stringify(made.faults));
  return made.plan;
}

function notes(more: RawPlan): readonly string[] {
  const made = resolvePlan({ ...bare, ...more });
  return made.ok ? made.notes.map((n) => n.path) : ["refused"];
}

const all: RawPlan = {
  light: {},
  co2: {},
  filter: {},
  air: {},
  heater: {},
  hardscape: [{ kind: "stone" }, { kind: "wood" }],
  plants: [{ species: "Vallisneria nana" }, { species: "Lemna minor" }, { species: "Eleocharis acicularis" }],
  animals: [{ species: "Boraras brigittae", count: 10 }],
};

describe("defaults", () => {
  test("every one is marked assumed and gives its reason in a sentence", () => {
    const visit = (value: unknown): void => {
      if (typeof value !== "object" || value === null) return;
      if ("known" in value && "value" in value) {
        const entry = value as { text?: string; reason?: string; known: string };
        expect((entry.text === undefined) !== (entry.reason === undefined)).toBe(true);
        if (entry.text === undefined) {
          expect(entry.known).toBe("assumed");
          expect(entry.reason?.length).toBeGreaterThan(3);
        }
        return;
      }
      Object.values(value).forEach(visit);
    };
    visit(plan());
    visit(plan(all));
  });

  test("what is left out is not there, or stands at its usual value", () => {
    const made = plan();
    expect([made.light, made.co2, made.filter, made.air, made.heater]).toEqual([null, null, null, null, null]);
    expect([made.plants, made.animals, made.hardscape, made.readings, made.alternatives]).toEqual([[], [], [], [], []]);
    expect(made.name).toBe("Unnamed tank");
    expect("place" in made).toBe(false);
    expect(plan({ co2: "none", plants: "none", heater: "none" })).toEqual(made);
  });

  test("glass by height and length: common panes of rimless tanks", () => {
    const glass = (length: string, width: string, height: string) =>
      plan({ tank: { length, width, height } }).tank.glass.value * 1000;
    // Common practice, no source: 60 x 30 x 36 cm 5 mm, 90 x 45 x 45 cm 8 mm, 120 x 50 x 50 cm 10 mm, 150 x 60 x 60 cm 15 mm.
    expect(glass("60 cm", "30 cm", "36 cm")).toBeCloseTo(5, 9);
    expect(glass("90 cm", "45 cm", "45 cm")).toBeCloseTo(8, 9);
    expect(glass("120 cm", "50 cm", "50 cm")).toBeCloseTo(10, 9);
    expect(glass("150 cm", "60 cm", "60 cm")).toBeCloseTo(15, 9);
    expect(plan().tank.base.value).toBe(plan().tank.glass.value);
  });

  test("substrate: 5 cm in all, named with its pores", () => {
    const [layer] = plan().substrate;
    expect(layer?.material).toBe("gravel");
    expect(layer?.frontLeft).toMatchObject({ value: 0.05, known: "assumed" });
    expect(layer?.frontLeft.reason).toMatch(/^assumed 5 cm of substrate, pores 41 %/);
    const two = plan({ substrate: [{ material: "gravel" }, { material: "baked soil" }] }).substrate;
    expect(two.map((l) => l.backRight.value)).toEqual([0.025, 0.025]);
    expect(plan({ substrate: [] }).substrate).toEqual([]);
  });

  test("substrate: one depth, front and back, four corners", () => {
    const made = plan({
      substrate: [
        { material: "gravel", depth: "1 cm" },
        { material: "gravel", front: "2 cm", back: "5 cm" },
        { material: "gravel", front_left: "1 mm", front_right: "2 mm", back_left: "3 mm", back_right: "4 mm" },
      ],
    });
    const millimetres = made.substrate.map((l) =>
      [l.frontLeft, l.frontRight, l.backLeft, l.backRight].map((e) => Math.round(e.value * 1000)),
    );
    expect(millimetres).toEqual([
      [10, 10, 10, 10],
      [20, 20, 50, 50],
      [1, 2, 3, 4],
    ]);
    expect(made.substrate[1]?.backLeft).toMatchObject({ text: "5 cm", known: "measured" });
  });

  test("light, gas and food follow the lamp's hours", () => {
    const made = plan({ ...all, light: { on: "12:00", off: "20:00" } });
    expect([made.co2?.opens.value, made.co2?.closes.value]).toEqual([10.5, 19]);
    expect([made.air?.on.value, made.air?.off.value]).toEqual([20, 12]);
    expect(made.feeding.at.value).toBe(19.5);
    expect(made.light).toMatchObject({ ramp: { value: 0 }, ppfd: null, strength: { value: 1 } });
    expect(made.light?.length.value).toBeCloseTo(0.72, 12);
  });

  test("hours at the edges of the day stay inside it", () => {
    for (const [on, off] of [
      ["00:00", "00:30"],
      ["00:15", "24:00"],
      ["23:30", "24:00"],
      ["00:00", "24:00"],
    ] as const) {
      const made = plan({ ...all, light: { on, off } });
      expect(made.co2!.closes.value, on).toBeGreaterThan(made.co2!.opens.value);
      expect(made.air!.on.value).not.toBe(made.air!.off.value);
    }
    expect(plan({ ...all, light: { on: "20:00" } }).light?.off.value).toBe(24);
    const dark = plan({ ...all, light: "none", co2: { opens: "18:00" } });
    expect(dark.co2?.closes.value).toBe(24);
  });

  test("the share dissolved goes by the device", () => {
    const dissolved = (device: string) => plan({ co2: { device } }).co2?.dissolved.value;
    expect(["fine plate", "coarse plate", "open line", "in-line", "reactor"].map(dissolved)).toEqual([
      0.85, 0.5, 0.14, 0.95, 0.97,
    ]);
    // 0.045 mL at 1.3 bar and 22 °C by the ideal gas law: 44.01 g/mol x 1.3e5 Pa x 0.045e-6 m3 / (8.314 x 295.15 K).
    const ideal = (44.0095 * 2e5 * 0.045e-6 * 1000) / (8.314462 * 295.15);
    expect(plan({ co2: {} }).co2!.bubble.value / ideal).toBeCloseTo(1, 1);
  });

  test("filter rated six times the water an hour, 60 % of it delivered", () => {
    const { filter } = plan({ filter: {} });
    const litres = (0.9 - 0.016) * (0.45 - 0.016) * (0.45 - 0.008 - 0.02) * 1000;
    expect(filter!.rated.value / (6 * litres)).toBeCloseTo(1, 1);
    expect(filter!.flow.value).toBeCloseTo(0.6 * filter!.rated.value, 9);
    expect(plan({ filter: { rated: "650 L/h" } }).filter!.flow.value).toBeCloseTo(390, 9);
  });

  test("a piece of stone gets its mass from its size, or its size from its mass", () => {
    const [sized, weighed, half] = plan({
      hardscape: [
        { kind: "stone", width: "20 cm", height: "15 cm" },
        { kind: "stone", mass: "3 kg" },
        { kind: "stone", mass: "3 kg", height: "20 cm" },
      ],
    }).hardscape;
    // slate of 2750 kg/m3 in a box of 20 x 15 x 15 cm, of which layered stones fill 38 to 50 %
    const share = sized!.mass.value / (0.2 * 0.15 * 0.15 * 2750);
    expect(share).toBeGreaterThan(0.37);
    expect(share).toBeLessThan(0.51);
    expect(sized!.mass.value).toBeCloseTo(pieceForm(sized!).volume * 2750, 2);
    for (const piece of [weighed, half]) {
      const { width, height } = piece!;
      const mass = 0.45 * width.value * height.value * Math.min(width.value, height.value) * 2750;
      expect(mass / 3, piece?.material).toBeCloseTo(1, 1);
    }
    expect(half?.height.text).toBe("20 cm");
  });

  test("plants stand side by side at their usual height, within the water", () => {
    const { plants } = plan(all);
    expect(plants.map((p) => p.at.value)).toEqual([1 / 6, 0.5, 5 / 6]);
    expect(plants.map((p) => p.biomass.value)).toEqual([75, 50, 50]);
    const low = plan({
      tank: { length: "60 cm", width: "30 cm", height: "20 cm" },
      plants: [{ species: "Vallisneria nana" }],
    });
    expect(low.plants[0]!.height.value).toBeLessThanOrEqual(0.18);
    expect(low.plants[0]!.height.reason).toMatch(/up to the surface/);
  });

  test("no animals, no food; animals are fed 1.5 % of a mass guessed from their length", () => {
    expect(plan().feeding.food.value).toBe(0);
    const { animals, feeding } = plan(all);
    const grams = 10 * 0.012 * (animals[0]!.length.value * 100) ** 3;
    expect(feeding.food.value / (0.015 * grams)).toBeCloseTo(1, 1);
  });
});

describe("water", () => {
  const cases: readonly RawPlan[] = [
    {},
    { kh: "0 dKH", gh: "12 dGH" },
    { kh: "15 dKH", gh: "1 dGH" },
    { kh: "1 dKH", chloride: "3 mmol/L" },
    { gh: "0 dGH", potassium: "2 mmol/L", nitrate: "0 mmol/L" },
    { calcium: "1 mmol/L", magnesium: "0.5 mmol/L", sulfate: "3 mmol/L" },
  ];

  test.each(cases)("%j: sodium and chloride close the charge balance and neither is negative", (water) => {
    const made = plan({ water });
    const { sodium, chloride } = made.water;
    expect(sodium.value).toBeGreaterThanOrEqual(0);
    expect(chloride.value).toBeGreaterThanOrEqual(0);
    expect(sodium.value - chloride.value - openCharge(made)).toBeCloseTo(0, 12);
    expect(made.water.calcium.value + made.water.magnesium.value).toBeCloseTo(made.water.gh.value, 12);
  });

  test("calcium and magnesium by GH, and GH by them", () => {
    expect(plan({ water: { gh: "4 mmol/L" } }).water).toMatchObject({ calcium: { value: 3 }, magnesium: { value: 1 } });
    expect(plan({ water: { gh: "4 mmol/L", calcium: "1 mmol/L" } }).water.magnesium.value).toBe(3);
    expect(plan({ water: { calcium: "3 mmol/L" } }).water.gh.value).toBe(4);
    expect(plan({ water: { magnesium: "1 mmol/L" } }).water.gh.value).toBe(4);
    expect(plan({ water: { calcium: "1 mmol/L", magnesium: "1 mmol/L" } }).water.gh.value).toBe(2);
  });
});

describe("notes", () => {
  test("tell what is odd without refusing it", () => {
    expect(notes({ plants: [{ species: "Vallisneria nana" }] })).toEqual(["plants"]);
    expect(notes({ filter: { rated: "300 L/h", flow: "400 L/h" } })).toEqual(["filter.flow"]);
    expect(notes({ feeding: { food: "1 g/day" } })).toEqual(["feeding.food"]);
    expect(notes({ water: { gh: "8 dGH", calcium: "0.2 mmol/L", magnesium: "0.1 mmol/L" } })).toEqual(["water.gh"]);
    expect(notes({ water: { sodium: "0 mmol/L", chloride: "5 mmol/L" } })).toEqual(["water"]);
    expect(notes(all)).toEqual([]);
  });
});

test("a value typed past what a default needs is refused by its own bounds, not carried on", () => {
  const made = resolvePlan({ ...bare, filter: { rated: "0 L/h" } });
  expect(made.ok ? [] : made.faults.map((f) => f.path)).toEqual(["filter.rated"]);
});
