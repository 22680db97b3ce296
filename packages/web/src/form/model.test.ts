import { readFileSync } from "node:fs";
import {
  applyChanges,
  applyToRaw,
  type Field,
  fields,
  groups,
  type Path,
  pathText,
  type RawPlan,
  readPlan,
  resolvePlan,
} from "@lentic/core/plan";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { appPlaces, fieldPlace } from "../pages/places.ts";
import {
  addItem,
  askedOf,
  attempt,
  attemptWithNeighbours,
  changeName,
  type Followed,
  follow,
  ghostText,
  groupsOf,
  inColumns,
  measureOf,
  moveItem,
  otherUnit,
  pathOf,
  suggestions,
  summary,
  takeItem,
  typedText,
  writtenValue,
} from "./model.ts";

const text = readFileSync(new URL("../../../../examples/quarry-bank.yaml", import.meta.url), "utf8");
const reading = readPlan(text);
if (!reading.ok) throw new Error("the demo tank has faults");
const { raw, plan } = reading;
const field = (path: string): Field => {
  const found = fields.find((f) => f.path === path);
  if (!found) throw new Error(`no field ${path}`);
  return found;
};
const of = (group: string): readonly Field[] => fields.filter((f) => f.path.startsWith(`${group}[].`) && !f.drawn);
const tried = (path: Path, value: unknown) => attempt(raw, [{ path, value, name: "x" }]);

describe("places", () => {
  test("every field of the plan has exactly one place where it is edited, and that place is named by its path", () => {
    const shown = appPlaces.flatMap((p) =>
      groupsOf(p.fields).flatMap((g) => g.fields.map((f) => [f.path, p.path] as const)),
    );
    const all = fields.filter((f) => f.kind !== "version" && f.kind !== "alternatives" && !f.drawn);
    expect(shown.map(([path]) => path).sort()).toEqual(all.map((f) => f.path).sort());
    for (const [path, place] of shown) expect([path, fieldPlace(path)]).toEqual([path, place]);
  });

  test("two columns hold every group once, in order, neither much longer than the other", () => {
    for (const { fields: places } of appPlaces) {
      const list = groupsOf(places);
      const [left, right] = inColumns(list, raw);
      expect([...left, ...right]).toEqual(list);
      if (list.length > 1) expect(left.length).toBeGreaterThan(0);
    }
  });
});

describe("a field", () => {
  test("shows what was typed, and nothing where a default stands", () => {
    expect(typedText(raw, plan, ["tank", "length"])).toBe("760 mm");
    expect(typedText(raw, plan, ["water", "kh"])).toBe("4.0 dKH");
    expect(typedText(raw, plan, ["tank", "base"])).toBe("");
    // an even layer gives its corners their depth, but nobody typed them
    expect(typedText(raw, plan, ["substrate", 1, "depth"])).toBe("20 mm");
    expect(typedText(raw, plan, ["substrate", 1, "front_left"])).toBe("");
    const long = applyToRaw(raw, [
      { name: "x", path: ["readings", 0, "value"], before: "18 mg/L", after: { value: "19 mg/L", note: "again" } },
    ]);
    const read = resolvePlan(long);
    expect(read.ok && typedText(long, read.plan, ["readings", 0, "value"])).toBe("19 mg/L");
  });

  test("every default can be read as a word in both kinds of unit", () => {
    for (const f of fields) {
      for (const us of [false, true]) {
        expect(ghostText(plan, f, pathOf(f, 0), us), f.path).not.toMatch(/NaN|undefined|Infinity/);
      }
    }
  });

  test("a default as it reads may be typed as it stands, in both kinds of unit, and comes to the same", () => {
    const least = readPlan(
      "lentic: 1\ntank: { length: 60 cm, width: 30 cm, height: 36 cm }\nlight: {}\nco2: {}\nfilter: {}\nair: {}\nheater: {}\n",
    );
    if (!least.ok) throw new Error("the least plan has faults");
    for (const f of fields.filter((g) => g.kind === "quantity" && !g.path.includes("[]") && g.fallback !== null)) {
      for (const us of [false, true]) {
        const path = pathOf(f, null);
        const before = resolvedNumber(least.plan, path);
        if (before === null) continue;
        const { changes, faults } = attempt(least.raw, [
          { path, value: ghostText(least.plan, f, path, us), name: "x" },
        ]);
        expect(faults, f.path).toEqual([]);
        const after = resolvePlan(applyToRaw(least.raw, changes));
        // three figures are written; a place on a scale of warmth may move by half of its last
        const slack = f.path.startsWith("room.") || f.path === "heater.set" ? 0.1 : Math.abs(before) * 0.006;
        expect(after.ok && Math.abs(resolvedNumber(after.plan, path)! - before), f.path).toBeLessThanOrEqual(slack);
      }
    }
  });

  test("the readers' own unit stands beside a value typed in another", () => {
    const length = measureOf(field("tank.length"), null);
    // 1 in = 25.4 mm exactly (NIST SP 811, 2008, B.8)
    expect(otherUnit("762 mm", length, true)).toBe("30 in");
    expect(otherUnit("30 in", length, true)).toBe("");
    expect(otherUnit("762 mm", length, false)).toBe("");
    expect(otherUnit("77 °F", measureOf(field("heater.set"), null), false)).toBe("25 °C");
    expect(otherUnit("nonsense", length, true)).toBe("");
  });

  test("a mark is written only where it is not the usual one, and a note follows it", () => {
    const kh = field("water.kh");
    expect(writtenValue(kh, " 5 dKH ")).toBe("5 dKH");
    expect(writtenValue(kh, "5 dKH", "assumed")).toBe("5 dKH (assumed)");
    expect(writtenValue(kh, "5 dKH", undefined, "drop test")).toBe("5 dKH (drop test)");
    expect(writtenValue(kh, "5 dKH (label)", "assumed")).toBe("5 dKH (label)");
    expect(writtenValue(kh, "  ")).toBeUndefined();
    expect(writtenValue(field("surface.ripple"), "3")).toBe(3);
    expect(writtenValue(field("surface.ripple"), "3", "assumed", "by eye")).toBe("3 (assumed, by eye)");
    expect(writtenValue(field("light.on"), "10:00", "label")).toBe("10:00 (label)");
    expect(writtenValue(field("invented"), "true")).toBe(true);
  });

  test("a mark and a note are read back as they were written, whatever is typed", () => {
    const kh = field("water.kh");
    const note = fc.string({ maxLength: 40 }).map((s) => s.replace(/[\r\n]/g, " ").trim());
    fc.assert(
      fc.property(fc.constantFrom("measured", "label", "assumed"), note, (known, words) => {
        fc.pre(!/^(measured|label|assumed)\b/.test(words));
        const value = writtenValue(kh, "5 dKH", known, words);
        const { changes, faults } = tried(["water", "kh"], value);
        expect(faults).toEqual([]);
        const after = resolvePlan(applyToRaw(raw, changes));
        expect(after.ok && after.plan.water.kh).toMatchObject({
          known,
          text: "5 dKH",
          ...(words ? { note: words } : {}),
        });
      }),
    );
  });

  test("what the plan cannot hold is told at that field, and nothing changes", () => {
    const { faults } = tried(["tank", "length"], "7 apples");
    expect(faults[0]?.path).toBe("tank.length");
    expect(faults[0]?.allowed).toBeTruthy();
    expect(tried(["tank", "length"], "80 cm")).toMatchObject({ faults: [], changes: [{ after: "80 cm" }] });
    expect(tried(["tank", "length"], "760 mm")).toEqual({ faults: [], changes: [] });
  });

  test("a change is named for the list of what can be undone", () => {
    const name = (path: string, index: number | null, value: unknown) =>
      changeName(raw, field(path), pathOf(field(path), index), value);
    expect(name("water.kh", null, "5 dKH (drop test)")).toBe("KH 5 dKH");
    expect(name("heater.power", null, "100 W")).toBe("Heater: power 100 W");
    expect(name("plants[].cover", 0, "14 %")).toBe("Vallisneria nana: cover 14 %");
    expect(name("tank.base", null, undefined)).toBe("Bottom pane as assumed");
    expect(name("about", null, "x".repeat(500)).length).toBeLessThanOrEqual(120);
  });

  test("a path is written as the plan writes it", () => {
    expect(pathText(pathOf(field("plants[].cover"), 2))).toBe("plants[2].cover");
    expect(pathText(pathOf(field("co2.bubbles"), null))).toBe("co2.bubbles");
  });
});

function resolvedNumber(from: unknown, path: Path): number | null {
  let at = from;
  for (const segment of path) {
    const key = String(segment).replace(/_([a-z])/g, (_, c: string) => c.toUpperCase());
    at = (at as Readonly<Record<string, unknown>> | null)?.[key];
  }
  const value = (at as { value?: unknown } | null)?.value;
  return typeof value === "number" ? value : null;
}

describe("values that only hold together", () => {
  test("lights-on after the present lights-off waits for the other and is kept with it", () => {
    const on = { path: ["light", "on"], value: "19:00", name: "Lights on 19:00" };
    expect(attemptWithNeighbours(raw, on, {}).faults[0]?.path).toBe("light.off");
    const off = { path: ["light", "off"], value: "23:00", name: "Lights off 23:00" };
    const kept = attemptWithNeighbours(raw, off, { "light.on": "19:00" });
    expect(kept.faults).toEqual([]);
    expect([...kept.settled].sort()).toEqual(["light.off", "light.on"]);
    expect(applyToRaw(raw, kept.changes).light).toMatchObject({ on: "19:00", off: "23:00" });
  });

  test("a neighbour that is wrong in itself does not hold a good value back", () => {
    const off = { path: ["light", "off"], value: "17:00", name: "x" };
    const kept = attemptWithNeighbours(raw, off, { "light.on": "noon", "water.kh": "9 apples" });
    expect(kept.faults).toEqual([]);
    expect(kept.settled).toEqual(["light.off"]);
  });

  test("a layer goes from one depth to four corners", () => {
    const corners = ["front_left", "front_right", "back_left", "back_right"];
    const drafts = Object.fromEntries(corners.map((c) => [`substrate[1].${c}`, "25 mm"]));
    const kept = attemptWithNeighbours(raw, { path: ["substrate", 1, "depth"], value: undefined, name: "x" }, drafts);
    expect(kept.faults).toEqual([]);
    expect(kept.settled).toHaveLength(5);
  });
});

describe("what may have been meant", () => {
  const offered = (path: string, typed: string, us = false) => {
    const at = pathOf(field(path), 0);
    const works = (t: string): boolean => tried(at, t).faults.length === 0;
    return suggestions(typed, tried(at, typed).faults[0]!, measureOf(field(path), null), us, works).map((s) => s.text);
  };
  test("ambiguous units, units left out, near names, each only where it would do", () => {
    expect(offered("filter.flow", "100 gal/h")).toEqual(["100 US gal/h", "100 imp gal/h"]);
    expect(offered("water.kh", "71 ppm")).toEqual(["71 mg/L CaCO3 (alkalinity)"]);
    expect(offered("water.nitrate", "10 mg/L")).toEqual(["10 mg/L NO3", "10 mg/L NO3-N"]);
    // 36 mm is too little and 36 m too much for a tank
    expect(offered("tank.length", "36")).toEqual(["36 cm"]);
    expect(offered("tank.length", "36", true)).toContain("36 in");
    expect(offered("plants[].species", "Anubas barteri")).toEqual(["Anubias barteri"]);
    expect(offered("tank.length", "7 apples")).toEqual([]);
  });
});

describe("a list", () => {
  const said: Readonly<Record<string, Readonly<Record<string, unknown>>>> = {
    substrate: { material: "quartz sand" },
    hardscape: { kind: "stone", material: "slate" },
    plants: { species: "Anubias barteri" },
    animals: { species: "Neocaridina davidi", count: 6 },
    readings: { what: "co2", value: "20 mg/L", at: "12:00" },
    lamps: { kind: "pendant" },
  };
  // what is only drawn is not asked for
  for (const group of groups.filter((g) => g.list && of(g.path).length > 0)) {
    test(`what is asked of a new item of ${group.path} is enough, and no value is made up for it`, () => {
      const item = said[group.path]!;
      expect(
        askedOf(of(group.path))
          .map((f) => f.path.split(".")[1])
          .sort(),
      ).toEqual(Object.keys(item).sort());
      const change = addItem(raw, group.path, item, group.label);
      const after = applyToRaw(raw, [change]);
      const read = resolvePlan(after);
      expect(read.ok).toBe(true);
      const items = after[group.path] as unknown as readonly unknown[];
      expect(items.at(-1)).toEqual(item);
      if (read.ok) {
        const { head } = summary(read.plan, after, of(group.path), items.length - 1);
        expect(head).toBe({ co2: "CO2" }[String(item.what)] ?? item.species ?? item.material ?? item.kind);
      }
    });
  }

  test("the first item makes the list; without any, the list is told apart from its default", () => {
    const none = applyToRaw(raw, [{ name: "x", path: ["plants"], before: raw.plants, after: undefined }]);
    expect(addItem(none, "plants", { species: "Anubias barteri" }, "x")).toMatchObject({ path: ["plants"] });
  });

  test("a line tells the name and first values, and how much is assumed", () => {
    expect(summary(plan, raw, of("plants"), 0)).toEqual({
      head: "Vallisneria nana",
      rest: "height 330\u00a0mm, price 5.5, dry mass 90\u00a0g/m2",
      // cover and place follow from the area drawn
      assumed: 4,
    });
    const least = readPlan(
      "lentic: 1\ntank: { length: 60 cm, width: 30 cm, height: 36 cm }\nplants: [{ species: Anubias barteri }]\n",
    );
    expect(least.ok && summary(least.plan, least.raw, of("plants"), 0)).toEqual({
      head: "Anubias barteri",
      rest: "",
      assumed: 6,
    });
  });

  test("items are added, moved and taken out one by one: comments and layout of the others stay", () => {
    const line = (after: string, words: string) => after.split("\n").find((l) => l.includes(words));
    const before = line(text, "Bolbitis");
    expect(before).toMatch(/# tied to the root/);
    for (const changes of [
      [addItem(raw, "plants", { species: "Anubias barteri" }, "x")],
      [takeItem(raw, "plants", 0, "x")],
      moveItem(raw, "plants", 0, 1, "x"),
      moveItem(raw, "plants", 3, 2, "x"),
    ]) {
      const after = applyChanges(text, changes);
      expect(line(after, "Bolbitis")).toBe(before);
      expect(readPlan(after).ok).toBe(true);
    }
    expect((applyToRaw(raw, moveItem(raw, "plants", 0, 2, "x")).plants as unknown as RawPlan[])[2]).toEqual(
      (raw.plants as unknown as RawPlan[])[0],
    );
  });

  test("items keep their identity when they move, are edited, go, or come", () => {
    const first = follow([], ["a", "b", "c"]);
    const ids = (rows: readonly Followed[]) => rows.map((r) => r.id);
    expect(ids(first)).toEqual([0, 1, 2]);
    expect(ids(follow(first, ["b", "a", "c"]))).toEqual([1, 0, 2]);
    expect(ids(follow(first, ["a", "B", "c"]))).toEqual([0, 1, 2]);
    expect(ids(follow(first, ["b", "c"]))).toEqual([1, 2]);
    expect(ids(follow(first, ["a", "b", "c", "d"]))).toEqual([0, 1, 2, 3]);
    const equal = follow([], ["a", "a"]);
    expect(ids(follow(equal, ["a"]))).toEqual([0]);
    fc.assert(
      fc.property(fc.array(fc.string({ maxLength: 2 })), fc.array(fc.string({ maxLength: 2 })), (before, after) => {
        const rows = follow(follow([], before), after);
        expect(rows.map((r) => r.item)).toEqual(after);
        expect(new Set(ids(rows)).size).toBe(after.length);
      }),
    );
  });
});
