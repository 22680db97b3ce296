import { readFileSync } from "node:fs";
import { type Field, fields, groups, type RawPlan, readPlan } from "@lentic/core/plan";
import { convert } from "@lentic/core/units";
import { describe, expect, test } from "vitest";
import { appPlaces, fieldPlace } from "../pages/places.ts";
import { attempt, ghostText, groupsOf, pathOf, pathText, starter, summary, typedText, writtenValue } from "./model.ts";

const text = readFileSync(new URL("../../../../examples/quarry-bank.yaml", import.meta.url), "utf8");
const reading = readPlan(text);
if (!reading.ok) throw new Error("the demo tank has faults");
const { raw, plan } = reading;
const field = (path: string): Field => {
  const found = fields.find((f) => f.path === path);
  if (!found) throw new Error(`no field ${path}`);
  return found;
};

describe("places", () => {
  test("every field of the plan has exactly one place where it is edited, and that place is named by its path", () => {
    const shown = appPlaces.flatMap((p) =>
      groupsOf(p.fields).flatMap((g) => g.fields.map((f) => [f.path, p.path] as const)),
    );
    const inGroups = fields.filter((f) =>
      groups.some((g) => f.path.startsWith(`${g.path}.`) || f.path.startsWith(`${g.path}[]`)),
    );
    expect(shown.map(([path]) => path).sort()).toEqual(inGroups.map((f) => f.path).sort());
    for (const [path, place] of shown) expect([path, fieldPlace(path)]).toEqual([path, place]);
  });
});

describe("a field", () => {
  test("shows what was typed, and nothing where a default stands", () => {
    expect(typedText(raw, plan, ["tank", "length"])).toBe("760 mm");
    expect(typedText(raw, plan, ["water", "kh"])).toBe("4.0 dKH");
    const left = fields
      .filter((f) => !f.path.includes("[]"))
      .find((f) => f.kind === "quantity" && typedText(raw, plan, pathOf(f, null)) === "");
    expect(left).toBeDefined();
  });

  test("every default can be read as a word in both kinds of unit", () => {
    for (const f of fields) {
      for (const us of [false, true]) {
        const ghost = ghostText(plan, f, pathOf(f, 0), convert, us);
        expect(ghost, f.path).not.toMatch(/NaN|undefined|Infinity/);
      }
    }
  });

  test("a mark is written only where it is not the usual one, and a note follows it", () => {
    const kh = field("water.kh");
    expect(writtenValue(kh, " 5 dKH ")).toBe("5 dKH");
    expect(writtenValue(kh, "5 dKH", "assumed")).toBe("5 dKH (assumed)");
    expect(writtenValue(kh, "5 dKH", undefined, "drop test")).toBe("5 dKH (drop test)");
    expect(writtenValue(kh, "5 dKH (label)", "assumed")).toBe("5 dKH (label)");
    expect(writtenValue(kh, "  ")).toBeUndefined();
  });

  test("what the plan cannot hold is told at that field, and nothing changes", () => {
    const { faults } = attempt(raw, ["tank", "length"], "7 apples", "Length");
    expect(faults[0]?.path).toBe("tank.length");
    expect(faults[0]?.allowed).toBeTruthy();
    expect(attempt(raw, ["tank", "length"], "80 cm", "Length")).toMatchObject({
      faults: [],
      change: { name: "Length 80 cm" },
    });
  });

  test("a path is written as the plan writes it", () => {
    expect(pathText(pathOf(field("plants[].cover"), 2))).toBe("plants[2].cover");
    expect(pathText(pathOf(field("co2.bubbles"), null))).toBe("co2.bubbles");
  });
});

describe("a list", () => {
  const first: Readonly<Record<string, string>> = {
    substrate: "quartz sand",
    hardscape: "slate",
    plants: "Anubias barteri",
    animals: "Neocaridina davidi",
    readings: "co2",
  };
  for (const group of groups.filter((g) => g.list)) {
    test(`a new item of ${group.path} makes a plan that reads, and tells itself in a line`, () => {
      const item = starter(group.path, first[group.path] ?? "");
      const { change, faults } = attempt(raw, [group.path], [item], group.label);
      expect(faults).toEqual([]);
      expect(summary({ ...raw, [group.path]: [item] } as RawPlan, group.path, 0)).toContain(first[group.path]);
      expect(change.after).toEqual([item]);
    });
  }
});
