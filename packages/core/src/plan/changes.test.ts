import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { goodPlans } from "./arbitrary.ts";
import { applyToRaw, type Change, changeAt, invert, sameJson, squash, valueAt } from "./changes.ts";
import type { Json, Path, RawPlan } from "./plan.ts";

const raw: RawPlan = {
  lentic: 1,
  tank: { length: "60 cm", width: "30 cm", height: "36 cm" },
  light: "none",
  plants: [{ species: "a" }, { species: "b", cover: "10 %" }, { species: "c" }],
};

describe("changeAt", () => {
  test("replaces, adds and takes out", () => {
    expect(applyToRaw(raw, [changeAt(raw, ["tank", "length"], "80 cm", "longer")]).tank).toMatchObject({
      length: "80 cm",
    });
    expect(valueAt(applyToRaw(raw, [changeAt(raw, ["tank", "glass"], "6 mm", "glass")]), ["tank", "glass"])).toBe(
      "6 mm",
    );
    expect(applyToRaw(raw, [changeAt(raw, ["plants"], undefined, "bare")])).not.toHaveProperty("plants");
  });

  test("stands at the first missing parent, so that undoing leaves no empty group behind", () => {
    const change = changeAt(raw, ["co2", "bubbles"], "1 bubbles/s", "gas");
    expect(change).toEqual({ name: "gas", path: ["co2"], before: undefined, after: { bubbles: "1 bubbles/s" } });
    expect(applyToRaw(applyToRaw(raw, [change]), [invert(change)])).toEqual(raw);
  });

  test("puts a map in the place of a word", () => {
    const change = changeAt(raw, ["light", "power"], "20 W", "lamp");
    expect(applyToRaw(raw, [change]).light).toEqual({ power: "20 W" });
    expect(applyToRaw(applyToRaw(raw, [change]), [invert(change)])).toEqual(raw);
  });

  test("appends beyond the end of a list, and takes items out of the middle", () => {
    const more = changeAt(raw, ["plants", 9], { species: "d" }, "plant");
    expect(more.path).toEqual(["plants", 3]);
    expect(valueAt(applyToRaw(raw, [more]), ["plants", 3, "species"])).toBe("d");
    const less = changeAt(raw, ["plants", 1], undefined, "pull out");
    const after = applyToRaw(raw, [less]);
    expect(after.plants).toEqual([{ species: "a" }, { species: "c" }]);
    expect(applyToRaw(after, [invert(less)])).toEqual(raw);
  });

  test("of a thing that is not there to nothing changes nothing", () => {
    for (const path of [
      ["co2", "bubbles"],
      ["animals", 0, "count"],
      ["plants", 7],
      ["tank", "glass"],
    ] as Path[]) {
      expect(applyToRaw(raw, [changeAt(raw, path, undefined, "none")])).toEqual(raw);
    }
  });
});

test("squash makes one change of a drag, under the last name", () => {
  let plan = raw;
  const drag: Change[] = [];
  for (let i = 1; i <= 50; i++) {
    const change = changeAt(plan, ["tank", "length"], `${60 + i} cm`, `length ${60 + i} cm`);
    drag.push(change);
    plan = applyToRaw(plan, [change]);
  }
  expect(squash(drag)).toEqual([{ name: "length 110 cm", path: ["tank", "length"], before: "60 cm", after: "110 cm" }]);
});

const keys = ["a", "b", "c"] as const;
const small: fc.Arbitrary<Json> = fc.constantFrom<Json>(
  "x",
  "y",
  1,
  true,
  [],
  ["p", "q"],
  {},
  { a: "in" },
  { b: { c: 2 } },
);
const path: fc.Arbitrary<Path> = fc
  .tuple(fc.constantFrom(...keys), fc.array(fc.oneof(fc.constantFrom(...keys), fc.nat(3)), { maxLength: 2 }))
  .map(([first, rest]) => [first, ...rest]);
const step = fc.tuple(path, fc.option(small, { nil: undefined }));
const start: fc.Arbitrary<RawPlan> = fc.dictionary(fc.constantFrom(...keys), small, { noNullPrototype: true });

/** A chain of changes, each made on what the ones before it left. */
function chain(from: RawPlan, steps: readonly (readonly [Path, Json | undefined])[]): Change[] {
  let plan = from;
  return steps.map(([where, after], i) => {
    const change = changeAt(plan, where, after, `step ${i}`);
    plan = applyToRaw(plan, [change]);
    return change;
  });
}

test("undoing every change, last first, brings the plan back", () => {
  fc.assert(
    fc.property(start, fc.array(step, { maxLength: 8 }), (from, steps) => {
      const changes = chain(from, steps);
      const undone = applyToRaw(applyToRaw(from, changes), changes.map(invert).reverse());
      expect(sameJson(undone, from)).toBe(true);
      expect(changes.map(invert).map(invert)).toEqual(changes);
    }),
    { numRuns: 2000 },
  );
});

test("squashed changes do the same, undo the same, squash to themselves, and cancel with their undoing", () => {
  fc.assert(
    fc.property(start, fc.array(step, { maxLength: 10 }), (from, steps) => {
      const changes = chain(from, steps);
      const fewer = squash(changes);
      const end = applyToRaw(from, changes);
      expect(fewer.length).toBeLessThanOrEqual(changes.length);
      expect(sameJson(applyToRaw(from, fewer), end)).toBe(true);
      expect(sameJson(applyToRaw(end, fewer.map(invert).reverse()), from)).toBe(true);
      expect(squash(fewer)).toEqual(fewer);
      expect(squash([...changes, ...changes.map(invert).reverse()])).toEqual([]);
    }),
    { numRuns: 2000 },
  );
});

test("changes never touch the plan they are given", () => {
  fc.assert(
    fc.property(goodPlans, (plan) => {
      const before = JSON.stringify(plan);
      applyToRaw(plan, [
        changeAt(plan, ["tank", "length"], "77 cm", "n"),
        changeAt(plan, ["plants", 0], undefined, "n"),
      ]);
      expect(JSON.stringify(plan)).toBe(before);
    }),
    { numRuns: 50 },
  );
});
