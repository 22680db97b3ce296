import { expect, test } from "vitest";
import { type AnyRelation, evaluate, type RawInputs, RelationError } from "../relation/index.ts";
import { co2Findings, exposureLimits, fillLimits, relations, sources } from "./index.ts";

/** Readings that fall: three alike, as the middles are, have no rate. */
const falling: Readonly<Record<string, RawInputs>> = {
  "decay-from-two-readings": { hours: 2, first: 30, second: 20, end: 1 },
  "decay-from-three-readings": { spacing: 1, first: 30, second: 20, third: 14 },
};

/** Every input at its default or in the middle of its range. */
function middle(r: AnyRelation): RawInputs {
  const inputs: Record<string, number | string | readonly number[]> = {};
  for (const [name, spec] of Object.entries(r.inputs)) {
    if (spec.kind === "choice") inputs[name] = spec.options[0]!;
    else if (spec.kind === "number") {
      inputs[name] = spec.default ?? (spec.min > 0 ? Math.sqrt(spec.min * spec.max) : 0.5 * (spec.min + spec.max));
    }
  }
  return inputs;
}

test("names, rooms and sources of every relation are in order", () => {
  const ids = relations.map((r) => r.id);
  expect(new Set(ids).size).toBe(ids.length);
  for (const r of relations) {
    expect(r.room).toBe("gas");
    expect(r.id).toMatch(/^[a-z][a-z0-9]*(-[a-z0-9]+)*$/);
    for (const name of [...Object.keys(r.inputs), ...Object.keys(r.outputs)]) expect(name).toMatch(/^[a-z][a-z0-9_]*$/);
    expect(r.sources.length).toBeGreaterThan(0);
    for (const key of r.sources) expect(Object.hasOwn(sources, key), `${r.id}: ${key}`).toBe(true);
  }
});

test("data tables cite sources that exist", () => {
  for (const { source } of [...exposureLimits, ...fillLimits, ...co2Findings]) {
    expect(Object.hasOwn(sources, source), source).toBe(true);
  }
});

test.each(relations.filter((r) => !Object.values(r.inputs).some((i) => i.kind === "series")))(
  "$id gives every output it promises",
  (r) => {
    const out = evaluate(r, falling[r.id] ?? middle(r));
    expect(Object.keys(out).sort()).toEqual(Object.keys(r.outputs).sort());
    for (const value of Object.values(out)) expect(typeof value).toBe("number");
  },
);

test("inputs that contradict each other are refused in words, with what is allowed", () => {
  const refused = (id: string, given: RawInputs) => {
    const relation = relations.find((r) => r.id === id)!;
    try {
      return evaluate(relation, given);
    } catch (error) {
      if (!(error instanceof RelationError)) throw error;
      return error.message;
    }
  };
  expect(refused("cylinder-contents-from-gauge", { pressure: 60, temperature: 20 })).toMatch(
    /pressure: at 60 bar and 20 °C liquid is left .* weigh the cylinder; below 57\.0 bar is allowed/,
  );
  expect(refused("cylinder-contents-from-gauge", { pressure: 40, temperature: 20 })).toHaveProperty("contents");
  const two = (first: number, second: number, end: number) =>
    refused("decay-from-two-readings", { hours: 2, first, second, end });
  expect(two(20, 25, 2)).toMatch(/second: 25 mg\/L does not lie .* from 20 to just short of 2 mg\/L is allowed/);
  expect(two(20, 2, 2)).toMatch(/second: 2 mg\/L does not lie/);
  expect(two(20, 1, 2)).toMatch(/second: 1 mg\/L does not lie/);
  expect(two(2, 2, 2)).toMatch(/first: must differ from the value after long, 2 mg\/L/);
  expect(two(20, 20, 2)).toEqual({ k: 0 });
  // a climb back towards the end value is as good
  expect(two(3, 5, 8)).toHaveProperty("k", Math.log(5 / 3) / 2);
  const three = (first: number, second: number, third: number) =>
    refused("decay-from-three-readings", { spacing: 2, first, second, third });
  expect(three(30, 20, 9)).toMatch(/third: the step from 20 to 9 .* between 10 and 20 mg\/L is allowed/);
  expect(three(30, 20, 20)).toMatch(/third: /);
  expect(three(30, 20, 25)).toMatch(/third: /);
  expect(three(30, 30, 30)).toMatch(/second: must differ from the first reading/);
  expect(three(3, 5, 6)).toHaveProperty("end", 7);
  expect(refused("air-stone-transfer", { flow: 0, volume: 100, depth: 0.3, temperature: 25 })).toMatchObject({
    o2: 0,
    ratio: expect.closeTo(
      (refused("air-stone-transfer", { flow: 60, volume: 100, depth: 0.3, temperature: 25 }) as { ratio: number })
        .ratio,
      12,
    ),
  });
});

test("a bad input is refused with what is allowed", () => {
  const older = relations.find((r) => r.id === "schmidt-number-wanninkhof-1992")!;
  expect(() => evaluate(older, { gas: "o2", temperature: 36 })).toThrow(RelationError);
  const saturation = relations.find((r) => r.id === "oxygen-saturation")!;
  expect(() => evaluate(saturation, { temperature: 55 })).toThrow(/0 to 40/);
});
