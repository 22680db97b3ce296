import { describe, expect, test } from "vitest";
import { fieldHeight, fieldVolume } from "../geometry/index.ts";
import { bedTops, type Json, layerField, type Plan, type RawPlan, resolvePlan, tankVolumes } from "./index.ts";

const bare: RawPlan = {
  lentic: 1,
  tank: { length: "1016 mm", width: "516 mm", height: "458 mm", glass: "8 mm", base: "8 mm" },
};

function plan(more: RawPlan): Plan {
  const made = resolvePlan({ ...bare, ...more });
  if (!made.ok) throw new Error(JSON.stringify(made.faults));
  return made.plan;
}

function faults(more: RawPlan): readonly string[] {
  const made = resolvePlan({ ...bare, ...more });
  return made.ok ? [] : made.faults.map((f) => `${f.path}: ${f.message}; ${f.allowed}`);
}

const soil = (more: RawPlan): RawPlan => ({ substrate: [{ material: "baked soil", ...more }] });

describe("depths on a grid", () => {
  test("are written from the back and read from the front, in the unit at the end of the row", () => {
    const [layer] = plan(soil({ heights: ["60 70 90 mm", "2 3 4 cm"] })).substrate;
    expect(layer!.heights).toEqual([
      [0.02, 0.03, 0.04],
      [0.06, 0.07, 0.09],
    ]);
    expect([layer!.frontLeft.value, layer!.backRight.value]).toEqual([0.02, 0.09]);
    const field = layerField(layer!, 1, 0.5);
    expect(fieldHeight(field, 0.5, 0)).toBeCloseTo(0.03, 12);
    expect(fieldHeight(field, 0.75, 0.25)).toBeCloseTo((0.035 + 0.08) / 2, 12);
  });

  test("hold as much as the same bed given by its corners", () => {
    const corners = plan(soil({ front_left: "20 mm", front_right: "40 mm", back_left: "60 mm", back_right: "100 mm" }));
    const grid = plan(soil({ heights: ["60 80 100 mm", "40 55 70 mm", "20 30 40 mm"] }));
    expect(tankVolumes(grid).net).toBeCloseTo(tankVolumes(corners).net, 12);
  });

  const refused: readonly (readonly [Json, RegExp])[] = [
    ["60 70 mm", /list of rows belongs here/],
    [["60 70 mm"], /these are 1 rows/],
    [["60 70 mm", "60 70 80 mm"], /2 rows of 2 and 3 depths/],
    [["60 70", "60 70"], /row 1, 60 70, is no row of depths/],
    [["60 -70 mm", "60 70 mm"], /row 1/],
    [["60 7x0 mm", "60 70 mm"], /row 1/],
    [["60 70 m", "60 70 mm"], /row 1/],
    [[{ a: 1 }, "60 70 mm"], /row 1 is no row/],
    [Array.from({ length: 66 }, () => "1 2 mm"), /these are 66 rows/],
  ];
  test.each(refused)("%j is refused: what is wrong and what is allowed", (heights, message) => {
    const [fault, ...more] = faults(soil({ heights }));
    expect(more).toEqual([]);
    expect(fault).toMatch(message);
    expect(fault).toContain("the back row first");
  });

  test("beside another way of saying a depth they are a fault", () => {
    expect(faults(soil({ depth: "5 cm", heights: ["1 2 mm", "1 2 mm"] }))[0]).toMatch(/given in two ways/);
  });

  test("a hill that breaks the surface between low corners is a fault", () => {
    const heights = ["10 10 10 mm", "10 500 10 mm", "10 10 10 mm"];
    expect(faults(soil({ heights }))[0]).toMatch(/the substrate reaches 500 mm, to the water line or above/);
  });
});

describe("a layer limited to an area", () => {
  const path = "30 % 0 %, 50 % 0 %, 50 % 100 %, 30 % 100 %";

  test("holds its depth over that area and nothing elsewhere", () => {
    const { substrate } = plan({ substrate: [{ material: "quartz sand", depth: "20 mm", within: path }] });
    const field = layerField(substrate[0]!, 1, 0.5);
    expect(fieldVolume(field)).toBeCloseTo(0.2 * 0.5 * 0.02, 5);
    expect(fieldHeight(field, 0.4, 0.25)).toBeCloseTo(0.02, 12);
    expect(fieldHeight(field, 0.6, 0.25)).toBe(0);
  });

  test("lies on what is below it", () => {
    const made = plan({
      substrate: [
        { material: "baked soil", depth: "40 mm" },
        { material: "quartz sand", depth: "15 mm", within: path },
      ],
    });
    const top = bedTops(made).at(-1)!;
    expect(fieldHeight(top, 0.4, 0.25)).toBeCloseTo(0.055, 9);
    expect(fieldHeight(top, 0.1, 0.25)).toBeCloseTo(0.04, 9);
  });
});

describe("areas drawn", () => {
  const plants = (more: RawPlan): RawPlan => ({ plants: [{ species: "Eleocharis acicularis", ...more }] });

  test("give cover and place, which say where they come from", () => {
    const [p] = plan(plants({ outline: "0 % 0 %, 40 % 0 %, 40 % 50 %, 0 % 50 %" })).plants;
    expect([p!.cover.value, p!.at.value, p!.depth.value]).toEqual([
      expect.closeTo(0.2, 12),
      expect.closeTo(0.2, 12),
      expect.closeTo(0.25, 12),
    ]);
    expect(p!.cover.reason).toContain("the area drawn");
  });

  const refused: readonly (readonly [Json, RegExp])[] = [
    ["10 % 20 %, 30 % 40 %", /2 places are given/],
    ["10 % 20 %, 30 40, 50 % 60 %", /place 2, 30 40, is none on the floor/],
    ["10 % 20 %, 130 % 40 %, 50 % 60 %", /place 2/],
    ["10 % 10 %, 90 % 90 %, 90 % 10 %, 10 % 90 %", /crosses itself near 50 % 50 %/],
    [["10 % 10 %"], /places on the floor belong here/],
    ["", /place 1/],
  ];
  test.each(refused)("%j is refused", (outline, message) => {
    expect(faults(plants({ outline }))[0]).toMatch(message);
  });

  test("cover typed beside an area is a fault, and so is a piece that is not there", () => {
    expect(faults(plants({ outline: "0 % 0 %, 40 % 0 %, 40 % 50 %", cover: "5 %" }))[0]).toMatch(/two ways/);
    const wood: RawPlan = { hardscape: [{ kind: "stone" }, { kind: "wood", name: "old root" }] };
    const on = (name: string) => faults({ ...wood, plants: [{ species: "Anubias barteri", on: name }] });
    expect([on("old root"), on("W1"), on("S1")]).toEqual([[], [], []]);
    expect(on("S2")[0]).toBe("plants[0].on: no piece is called S2; S1, old root");
  });

  test("two pieces of one name are a fault", () => {
    const twins = faults({
      hardscape: [
        { kind: "stone", name: "keel" },
        { kind: "wood", name: "keel" },
      ],
    });
    expect(twins[0]).toMatch(/another piece is called keel too/);
  });
});

describe("further lamps", () => {
  test("keep the first lamp's hours and have defaults of their own kind", () => {
    const { lamps } = plan({ light: { on: "11:00", off: "19:00" }, lamps: [{ kind: "pendant" }, { on: "12:00" }] });
    expect(lamps.map((l) => [l.on.value, l.off.value])).toEqual([
      [11, 19],
      [12, 19],
    ]);
    expect(lamps.map((l) => l.beam.value)).toEqual([60, 120]);
    expect(lamps[0]!.width.value).toBeCloseTo(lamps[0]!.length.value, 12);
  });

  test("without a first lamp, or with hours of their own that run backwards, they are a fault", () => {
    expect(faults({ lamps: [{}] })[0]).toMatch(/^lamps: there are further lamps but no first one/);
    expect(faults({ light: {}, lamps: [{ on: "20:00" }] })[0]).toMatch(/^lamps\[0\]\.off: lights-off comes before/);
    expect(faults({ light: {}, lamps: [{ power: "5000 W" }] })[0]).toMatch(/^lamps\[0\]\.power: .*boil/);
  });
});
