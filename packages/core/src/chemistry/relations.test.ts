import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { evaluate, RelationError } from "../relation/index.ts";
import { parseUnit } from "../units/index.ts";
import { relations, sources } from "./index.ts";

test("ids are unique and every source is known", () => {
  expect(new Set(relations.map((r) => r.id)).size).toBe(relations.length);
  for (const r of relations) {
    expect(r.room).toBe("chemistry");
    expect(r.sources.length, r.id).toBeGreaterThan(0);
    for (const s of r.sources) expect(Object.keys(sources), r.id).toContain(s);
  }
});

test("no source is kept that no relation or docstring names", () => {
  const named = new Set(relations.flatMap((r) => r.sources));
  const folder = new URL("./", import.meta.url);
  const code = readdirSync(folder)
    .filter((f) => f.endsWith(".ts") && !f.includes(".test.") && f !== "sources.ts")
    .map((f) => readFileSync(new URL(f, folder), "utf8"))
    .join("\n");
  expect(Object.keys(sources).filter((s) => !named.has(s) && !code.includes(`source ${s}`))).toEqual([]);
});

describe("every relation", () => {
  test.each(relations.map((r) => [r.id, r] as const))("%s reads its units and evaluates inside its range", (_id, r) => {
    const inputs: Record<string, number | string> = {};
    for (const [name, spec] of Object.entries(r.inputs)) {
      expect(name).toMatch(/^[a-z][a-z0-9_]*$/);
      if (spec.kind === "choice") {
        if (spec.default === undefined) inputs[name] = spec.options[0]!;
        continue;
      }
      expect(() => parseUnit(spec.unit)).not.toThrow();
      if (spec.kind === "number" && spec.default === undefined) {
        inputs[name] = name.endsWith("ph") || name === "ph" ? 7.2 : usual(name, spec.min, spec.max);
      }
    }
    for (const spec of Object.values(r.outputs)) expect(() => parseUnit(spec.unit)).not.toThrow();
    if (r.id === "salt-for-ion-rise") inputs.counted = "K";
    if (r.id === "soil-cation-exchange") Object.assign(inputs, { soil_ca: 0.1, ca: 1 });
    if (r.id === "blend-share") Object.assign(inputs, { target: 3, tap: 10 });
    const result = evaluate(r, inputs);
    expect(Object.keys(result).sort()).toEqual(Object.keys(r.outputs).sort());
    for (const [name, value] of Object.entries(result)) {
      expect(typeof value, name).toBe("number");
      expect(Number.isNaN(value as number), name).toBe(false);
    }
  });
});

/** A plain value inside a range; carbon above the CO2 in it. */
function usual(name: string, min: number, max: number): number {
  if (name === "dic") return Math.min(3, max);
  if (name === "co2") return 0.5;
  if (name === "log_pco2") return -3;
  return Math.min(Math.max(2, min), max);
}

test("a value out of range is refused by name", () => {
  const r = relations.find((x) => x.id === "water-from-ph-and-alkalinity")!;
  expect(() => evaluate(r, { ph: 20, alk: 2, temperature: 25 })).toThrow(RelationError);
});
