import { describe, expect, test } from "vitest";
import { evaluate, RelationError } from "../relation/index.ts";
import { displayUnit, relations, sources } from "./index.ts";

const byId = (id: string) => {
  const found = relations.find((r) => r.id === id);
  if (!found) throw new Error(`no relation ${id}`);
  return found;
};

describe("relations of the units room", () => {
  test("names are unique, sources are listed and units are units", () => {
    expect(new Set(relations.map((r) => r.id)).size).toBe(relations.length);
    for (const r of relations) {
      for (const key of r.sources) expect(sources, `${r.id}: ${key}`).toHaveProperty([key]);
      for (const part of [...Object.values(r.inputs), ...Object.values(r.outputs)]) {
        if ("unit" in part) expect(() => displayUnit(part.unit), `${r.id}: ${part.unit}`).not.toThrow();
      }
    }
  });

  test("every unit of the free conversion is told in itself", () => {
    const from = byId("unit-conversion").inputs.from;
    if (from?.kind !== "choice") throw new Error("the unit is a choice");
    for (const unit of from.options) {
      expect(evaluate(byId("unit-conversion"), { value: 7, from: unit, to: unit }).value, unit).toBeCloseTo(7, 12);
    }
  });

  test("faults name the input", () => {
    expect(() => evaluate(byId("unit-conversion"), { value: 1, from: "cm", to: "L" })).toThrow(RelationError);
    expect(() => evaluate(byId("ion-and-element"), { concentration: 1, from: "N", to: "PO4" })).toThrow(
      /allowed: N, NO3/,
    );
    expect(() => evaluate(byId("element-content"), { formula: "KNO3", element: "Fe" })).toThrow(/allowed: K, N, O/);
    expect(() => evaluate(byId("temperature-scales"), { value: -300, scale: "°C" })).toThrow(/absolute zero/);
  });

  test("told there and back, a concentration is the same", () => {
    const amount = evaluate(byId("amount-concentration"), { concentration: 30, molar_mass: 44.009 })
      .concentration as number;
    expect(
      evaluate(byId("mass-concentration"), { concentration: amount, molar_mass: 44.009 }).concentration,
    ).toBeCloseTo(30, 12);
    expect(evaluate(byId("molality"), { concentration: 30, molar_mass: 44.009, density: 1 }).molality).toBeCloseTo(
      amount,
      12,
    );
    const ion = evaluate(byId("ion-and-element"), { concentration: 10, from: "NO3", to: "N" }).concentration as number;
    expect(evaluate(byId("ion-and-element"), { concentration: ion, from: "N", to: "NO3" }).concentration).toBeCloseTo(
      10,
      12,
    );
  });
});
