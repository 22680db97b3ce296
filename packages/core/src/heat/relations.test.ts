import { describe, expect, test } from "vitest";
import { evaluate, RelationError } from "../relation/index.ts";
import { parseUnit } from "../units/index.ts";
import { relations } from "./relations.ts";
import { sources } from "./sources.ts";

describe("descriptors", () => {
  test("ids are unique and well formed", () => {
    const ids = relations.map((r) => r.id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of ids) expect(id).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/);
  });

  test("every unit is one that the units room reads", () => {
    for (const r of relations) {
      for (const part of [...Object.values(r.inputs), ...Object.values(r.outputs)]) {
        if ("unit" in part) expect(() => parseUnit(part.unit), `${r.id}: ${part.unit}`).not.toThrow();
      }
    }
    expect(() => parseUnit("furlongs per fortnight")).toThrow();
  });

  test.each(relations.map((r) => [r.id, r] as const))("%s cites sources that exist and names its room", (_, r) => {
    expect(r.room).toBe("heat");
    expect(r.sources.length).toBeGreaterThan(0);
    for (const key of r.sources) expect(Object.keys(sources)).toContain(key);
    for (const name of [...Object.keys(r.inputs), ...Object.keys(r.outputs)])
      expect(name).toMatch(/^[a-z0-9]+(_[a-z0-9]+)*$/);
  });

  test("every source is used or belongs to a constant of the balance", () => {
    const used = new Set(relations.flatMap((r) => r.sources));
    const constants = ["incropera-9-2", "keeper-report"];
    expect(Object.keys(sources).filter((key) => !used.has(key) && !constants.includes(key))).toEqual([]);
  });

  test("whatever touches mains or hot water carries a caution", () => {
    for (const id of [
      "heater-need",
      "heater-duty",
      "stuck-heater",
      "warm-up",
      "refill-temperature",
      "hot-cold-share",
      "chiller-duty",
    ]) {
      expect(relations.find((r) => r.id === id)?.caution?.length).toBeGreaterThan(40);
    }
  });
});

const byId = (id: string) => {
  const found = relations.find((r) => r.id === id);
  if (!found) throw new Error(`no relation ${id}`);
  return found;
};
const tank = { length: 120, width: 60, height: 45, glass: 12, water_depth: 41 };

describe("faults", () => {
  test("a water line above the rim is refused by name", () => {
    const call = () =>
      evaluate(byId("tank-heat-loss"), { ...tank, water_depth: 60, water_temperature: 25, room_temperature: 20 });
    expect(call).toThrow(RelationError);
    expect(call).toThrow(/water_depth/);
  });

  test("a wet bulb above the dry bulb, or too low for any air, is refused", () => {
    expect(() => evaluate(byId("psychrometer"), { dry_bulb: 20, wet_bulb: 21 })).toThrow(/above/);
    expect(() => evaluate(byId("moist-air-from-wet-bulb"), { dry_bulb: 40, wet_bulb: 2 })).toThrow(/dry air/);
  });

  test("volumes and temperatures must pair up", () => {
    expect(() => evaluate(byId("temperature-blend"), { volumes: [1, 2], temperatures: [20] })).toThrow(/temperatures/);
    expect(() => evaluate(byId("temperature-blend"), { volumes: [0], temperatures: [20] })).toThrow(/volumes/);
  });

  test("humidity told as a share below 1 % is refused", () => {
    expect(() => evaluate(byId("moist-air"), { temperature: 20, humidity: 0.5 })).toThrow(/humidity/);
  });
});

describe("sense of the answers", () => {
  test("boiling is told at 100 °C and a target out of reach as infinite", () => {
    const small = { length: 20, width: 20, height: 20, glass: 4, water_depth: 17, cover: "lid", room_temperature: 22 };
    expect(evaluate(byId("stuck-heater"), { ...small, rating: 2000 }).steady_temperature).toBeCloseTo(100, 3);
    const cold = evaluate(byId("warm-up"), { ...tank, room_temperature: 15, heat: 50, start: 15, target: 25 });
    expect(cold.time).toBe(Number.POSITIVE_INFINITY);
    expect(cold.steady_temperature as number).toBeLessThan(25);
  });

  test("a net volume warms faster than the bare box, in proportion", () => {
    const given = { ...tank, room_temperature: 20, heat: 300, start: 20, target: 25 };
    const bare = evaluate(byId("warm-up"), given).time as number;
    const net = evaluate(byId("warm-up"), { ...given, net_volume: 227.5 }).time as number;
    expect(net / bare).toBeCloseTo(227.5 / 277.724, 4);
  });

  test("the energy of a duty is what the need asks for", () => {
    const result = evaluate(byId("heater-duty"), {
      ...tank,
      water_temperature: 25,
      room_temperature: 20,
      rating: 300,
      tariff: 0.3,
    });
    expect(result.energy_per_day).toBeCloseTo(((result.need as number) * 24) / 1000, 9);
    expect(result.cost_per_month).toBeCloseTo((result.energy_per_day as number) * 30.4 * 0.3, 9);
    expect(result.undersized).toBe(0);
    const weak = evaluate(byId("heater-duty"), { ...tank, water_temperature: 25, room_temperature: 20, rating: 100 });
    expect(weak.undersized).toBe(1);
    expect(weak.duty).toBe(100);
    expect(weak.shortfall).toBeCloseTo((weak.need as number) - 100, 9);
  });

  test("a lid keeps at least 90 % of the water in", () => {
    const state = { ...tank, water_temperature: 25, room_temperature: 20 };
    const open = evaluate(byId("evaporation"), state).per_day as number;
    const covered = evaluate(byId("evaporation"), { ...state, cover: "lid" }).per_day as number;
    expect(covered).toBeGreaterThan(0);
    expect(covered).toBeLessThanOrEqual(0.1 * open);
  });
});
