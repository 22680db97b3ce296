import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Input, RawInputs } from "../relation/index.ts";
import { evaluate, RelationError } from "../relation/index.ts";
import { parseUnit } from "../units/index.ts";
import { catalogue, findRelation, nearestRelations } from "./index.ts";

const within = (input: Input): fc.Arbitrary<number | string | number[]> => {
  if (input.kind === "choice") return fc.constantFrom(...input.options);
  const number = fc.double({ min: input.min, max: input.max, noNaN: true });
  return input.kind === "series"
    ? fc.array(number, { minLength: input.atLeast, maxLength: input.atLeast + 3 })
    : number;
};

test("there are relations of every room, each under a name of its own", () => {
  const ids = catalogue.map((e) => e.relation.id);
  expect(new Set(ids).size, ids.filter((id, i) => ids.indexOf(id) !== i).join()).toBe(ids.length);
  expect(ids.length).toBeGreaterThan(250);
  expect(new Set(catalogue.map((e) => e.relation.room))).toEqual(
    new Set(["units", "geometry", "chemistry", "gas", "heat", "plants", "animals"]),
  );
  expect(findRelation("oxygen-saturation")!.relation.room).toBe("gas");
  expect(nearestRelations("oxygen-saturatoin")).toContain("oxygen-saturation");
});

describe("every relation", () => {
  const runs = process.env.LENTIC_SOAK ? 400 : 25;
  test.each(catalogue.map((e) => [e.relation.id, e] as const))("%s", (_, { relation, sources }) => {
    expect(relation.id).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/);
    expect(relation.title.length).toBeGreaterThan(3);
    expect(relation.equation.length).toBeGreaterThan(3);
    expect(sources).toHaveLength(relation.sources.length);
    expect(sources.length).toBeGreaterThan(0);
    for (const [name, input] of Object.entries(relation.inputs)) {
      expect(name).toMatch(/^[a-z0-9]+(_[a-z0-9]+)*$/);
      if (input.kind === "choice") {
        if (input.default !== undefined) expect(input.options).toContain(input.default);
        continue;
      }
      expect(() => parseUnit(input.unit), `${name} in ${input.unit}`).not.toThrow();
      expect(input.min).toBeLessThan(input.max);
      if (input.kind === "number" && input.default !== undefined) {
        expect(input.default).toBeGreaterThanOrEqual(input.min);
        expect(input.default).toBeLessThanOrEqual(input.max);
      }
    }
    for (const [name, output] of Object.entries(relation.outputs)) {
      expect(() => parseUnit(output.unit), `${name} in ${output.unit}`).not.toThrow();
    }
    const inputs = fc.record(Object.fromEntries(Object.entries(relation.inputs).map(([k, i]) => [k, within(i)])));
    fc.assert(
      fc.property(inputs, (given) => {
        let result: Readonly<Record<string, number | readonly number[]>>;
        try {
          result = evaluate(relation, given as RawInputs);
        } catch (error) {
          // inputs that contradict each other may be refused, in words
          if (
            error instanceof RelationError ||
            error instanceof RangeError ||
            (error as Error).name === "ChemistryError"
          ) {
            expect((error as Error).message.length).toBeGreaterThan(5);
            return;
          }
          throw error;
        }
        expect(Object.keys(result).sort()).toEqual(Object.keys(relation.outputs).sort());
        for (const [name, value] of Object.entries(result)) {
          for (const v of typeof value === "number" ? [value] : value) {
            expect(Number.isNaN(v), `${name} of ${JSON.stringify(given)}`).toBe(false);
          }
        }
      }),
      { numRuns: runs, seed: 20261125 },
    );
  });
});
