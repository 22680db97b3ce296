import { readFileSync } from "node:fs";
import { applyToRaw, type RawPlan, readPlan } from "@lentic/core/plan";
import fc from "fast-check";
import { expect, test } from "vitest";
import { differences, valueText } from "./differences.ts";

test("the smallest parts that differ", () => {
  const before = { co2: { opens: "08:00", bubbles: "1 bubbles/s" }, plants: [{ cover: "10 %" }], air: null };
  const after = { co2: { opens: "07:20" }, plants: [{ cover: "12 %" }, { cover: "5 %" }], air: null, light: {} };
  expect(differences(before, after)).toEqual([
    { path: ["co2", "opens"], before: "08:00", after: "07:20" },
    { path: ["co2", "bubbles"], before: "1 bubbles/s", after: undefined },
    { path: ["plants", 0, "cover"], before: "10 %", after: "12 %" },
    { path: ["plants", 1], before: undefined, after: { cover: "5 %" } },
    { path: ["light"], before: undefined, after: {} },
  ]);
  expect([valueText(undefined), valueText("a"), valueText(3), valueText({ a: 1 })]).toEqual([
    "left out",
    "a",
    "3",
    '{"a":1}',
  ]);
});

test("made as changes, they turn a plan into its alternative", () => {
  const text = readFileSync(new URL("../../../examples/quarry-bank.yaml", import.meta.url), "utf8");
  const base = readPlan(text);
  if (!base.ok) throw new Error("the demo does not read");
  expect(base.plan.alternatives.length).toBeGreaterThan(2);
  for (const alternative of base.plan.alternatives) {
    const reading = readPlan(text, { alternative });
    if (!reading.ok) throw new Error(`${alternative} does not read`);
    const found = differences(base.raw, reading.raw);
    expect(found.length).toBeGreaterThan(0);
    expect(
      applyToRaw(
        base.raw,
        found.map((d) => ({ name: "try", ...d })),
      ),
    ).toEqual(reading.raw);
  }
});

test("nothing differs from itself, whatever the value", () => {
  fc.assert(
    fc.property(fc.dictionary(fc.string(), fc.jsonValue()), (value) => {
      expect(differences(value as RawPlan, structuredClone(value) as RawPlan)).toEqual([]);
    }),
  );
});
