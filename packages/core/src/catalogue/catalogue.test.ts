import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as animals from "../animals/index.ts";
import * as chemistry from "../chemistry/index.ts";
import * as gas from "../gas/index.ts";
import * as geometry from "../geometry/index.ts";
import * as heat from "../heat/index.ts";
import * as light from "../light/index.ts";
import * as plants from "../plants/index.ts";
import * as units from "../units/index.ts";
import {
  type AnyRelation,
  catalogue,
  evaluate,
  findRelation,
  type Input,
  nearestRelations,
  type RawInputs,
  type RawOutputs,
  RelationError,
  usualValue,
} from "./index.ts";

const { parseUnit } = units;
const rooms = { units, geometry, chemistry, gas, heat, plants, animals, light };

/** What an output may be without end for, and on which side. */
type Ends = Readonly<Record<string, "+" | "-" | "+-">>;
const never = "+";
const logarithmOfNothing = "-";

/** Outputs that are rightly endless somewhere in range; every other one must be a figure. */
const endless: Readonly<Record<string, Ends>> = {
  // water without calcium, or without carbon
  ...Object.fromEntries(
    [
      "water-from-ph-and-alkalinity",
      "water-from-carbon-and-alkalinity",
      "water-from-co2-and-alkalinity",
      "water-from-air-and-alkalinity",
      "water-from-ph-and-carbon",
      "water-from-ph-and-co2",
      "water-from-carbon-and-co2",
    ].map((id) => [
      id,
      { log_pco2: logarithmOfNothing, si_calcite: logarithmOfNothing, si_aragonite: logarithmOfNothing },
    ]),
  ),
  "mixed-waters": { si_closed: logarithmOfNothing, si_air: logarithmOfNothing },
  "remineralised-water": { si_air: logarithmOfNothing },
  "changed-water": { si_before: logarithmOfNothing, si_closed: logarithmOfNothing, si_air: logarithmOfNothing },
  // times of what does not happen
  "rate-from-transfer-velocity": { half_life: never },
  "co2-time-to-level": { hours: never },
  "warm-up": { time: never },
  "warm-up-simple": { time: never },
  "stuck-heater": { hours_to_alarm: never },
  "power-cut": { time: never },
  "room-leak": { fall_time: never },
  "film-growth": { days_to_nuisance: never },
  "ammonia-limits": { days_to_chronic: never, days_to_unionised: never },
  // no light, no exchange is enough
  "compensation-light": { ppfd: "+" },
  "species-growth": { compensation_ppfd: "+" },
  "night-oxygen": { exchange_needed: "+" },
  "loss-rate-from-balance": { k: "+" },
  // without an upper end: the yellowest yellow, a fit that the readings do not bound, steam without air
  "indicator-reading": { colour_high: "+" },
  "decay-fit": { k_high: "+" },
  "decay-fit-known-end": { k_high: "+" },
  "decay-fit-from-ph": { k_high: "+" },
  "saturation-vapour-pressure": { humidity_ratio: "+" },
};

/**
 * Ranges tried instead of the declared ones. At the ends of its ranges the first takes minutes (steps grow with uptake over
 * half-saturation, periods with one over the share changed) and the second never ends (nothing bounds a planting that
 * neither shades itself nor loses anything).
 */
const narrowed: Readonly<Record<string, Readonly<Record<string, readonly [number, number]>>>> = {
  "patch-course": { extinction: [0.001, 0.5], mortality: [0.001, 0.5] },
};

/** Even over the range; or near its lower end, in powers of ten; or an end itself. */
function numberWithin(min: number, max: number): fc.Arbitrary<number> {
  const share = fc.integer({ min: 0, max: 1_000_000 }).map((v) => v / 1_000_000);
  const small = fc.tuple(share, fc.integer({ min: 1, max: 8 })).map(([u, k]) => u * 10 ** -k);
  return fc.oneof(
    { weight: 5, arbitrary: share.map((u) => Math.min(max, min + u * (max - min))) },
    { weight: 2, arbitrary: small.map((u) => min + u * (max - min)) },
    { weight: 1, arbitrary: fc.constantFrom(min, max) },
  );
}

function within(relation: AnyRelation, name: string, input: Input): fc.Arbitrary<number | string | number[]> {
  if (input.kind === "choice") return fc.constantFrom(...input.options);
  const [min, max] = narrowed[relation.id]?.[name] ?? [input.min, input.max];
  const number = numberWithin(min, max);
  if (input.kind === "number") return number;
  // series of one length more often than not, since most relations need that
  const length = fc.oneof(fc.constant(input.atLeast), fc.integer({ min: input.atLeast, max: input.atLeast + 3 }));
  return length.chain((n) => fc.array(number, { minLength: n, maxLength: n }));
}

/** Fails on what is no number, and on endless figures that are not known to be so. */
function expectFigures(relation: AnyRelation, given: RawInputs, outputs: RawOutputs): void {
  expect(Object.keys(outputs).sort()).toEqual(Object.keys(relation.outputs).sort());
  for (const [name, value] of Object.entries(outputs)) {
    const ends = endless[relation.id]?.[name] ?? "";
    for (const v of typeof value === "number" ? [value] : value) {
      const fine = Number.isFinite(v) || (!Number.isNaN(v) && ends.includes(v > 0 ? "+" : "-"));
      expect(fine, `${name} = ${v} of ${JSON.stringify(given)}`).toBe(true);
    }
  }
}

/** The outputs, or null when the inputs are refused in words; anything else thrown is a fault. */
function answered(relation: AnyRelation, given: RawInputs): RawOutputs | null {
  try {
    return evaluate(relation, given);
  } catch (error) {
    if (!(error instanceof RelationError || error instanceof RangeError)) throw error;
    // each room has its own words for inputs that contradict each other
    expect(error.message).not.toContain("together, though each is in range");
    expect(error.message.length).toBeGreaterThan(relation.id.length + 8);
    return null;
  }
}

test("there are relations of every room, each under a name of its own", () => {
  const ids = catalogue.map((e) => e.relation.id);
  expect(new Set(ids).size, ids.filter((id, i) => ids.indexOf(id) !== i).join()).toBe(ids.length);
  for (const [name, { relations }] of Object.entries(rooms)) {
    expect(relations.length).toBeGreaterThan(5);
    expect(catalogue.filter((e) => e.relation.room === name).map((e) => e.relation)).toEqual([...relations]);
  }
  expect(catalogue).toHaveLength(Object.values(rooms).reduce((sum, { relations }) => sum + relations.length, 0));
  expect(ids.length).toBeGreaterThan(250);
});

test("a relation is found by its name, and near its name", () => {
  expect(findRelation("oxygen-saturation")!.relation.room).toBe("gas");
  expect(findRelation("oxygen")).toBeUndefined();
  expect(findRelation("__proto__")).toBeUndefined();
  for (const slip of ["oxygen-saturatoin", "oxigen-saturation", "saturation-oxygen", "Oxygen saturation"]) {
    expect(nearestRelations(slip)[0], slip).toBe("oxygen-saturation");
  }
  expect(nearestRelations("ammonia-share")).toContain("ammonium-share");
  expect(nearestRelations("xyzzy")).toEqual([]);
  expect(nearestRelations("")).toEqual([]);
  expect(nearestRelations("a".repeat(10_000))).toEqual([]);
  expect(nearestRelations("gas", 3)).toHaveLength(3);
});

test("what is told of endless and narrowed relations is true of some relation", () => {
  for (const [id, ends] of Object.entries(endless)) {
    const relation = findRelation(id)?.relation;
    expect(relation, id).toBeDefined();
    for (const name of Object.keys(ends)) expect(relation!.outputs, id).toHaveProperty(name);
  }
  for (const [id, ranges] of Object.entries(narrowed)) {
    for (const name of Object.keys(ranges)) expect(findRelation(id)!.relation.inputs).toHaveProperty(name);
  }
});

describe("every relation", () => {
  const runs = process.env.LENTIC_SOAK ? 600 : 25;
  const all = catalogue.map((e) => [e.relation.id, e] as const);

  test.each(all)("%s is described", (id, { relation, sources }) => {
    expect(id).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/);
    expect(relation.title.length).toBeGreaterThan(3);
    expect(relation.equation.length).toBeGreaterThan(3);
    const known = rooms[relation.room as keyof typeof rooms].sources;
    for (const key of relation.sources) expect(known, key).toHaveProperty([key]);
    expect(sources.map((s) => s.cite)).toEqual(relation.sources.map((key) => known[key]!.cite));
    expect(sources.length).toBeGreaterThan(0);
    expect(Object.keys(relation.outputs).length).toBeGreaterThan(0);
    for (const [name, input] of Object.entries(relation.inputs)) {
      expect(name).toMatch(/^[a-z0-9]+(_[a-z0-9]+)*$/);
      expect(input.label.length).toBeGreaterThan(1);
      if (input.kind === "choice") {
        expect(new Set(input.options).size).toBe(input.options.length);
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
      expect(name).toMatch(/^[a-z0-9]+(_[a-z0-9]+)*$/);
      expect(() => parseUnit(output.unit), `${name} in ${output.unit}`).not.toThrow();
    }
  });

  /** Refused for all values tried below: its amounts all default to none, and an empty exchanger has no answer. */
  const withoutAnswer = new Set(["soil-cation-exchange"]);
  test.each(all)("%s has an answer at its defaults and in the middle of its ranges", (id, { relation }) => {
    const inside = (min: number, max: number, share: number): number =>
      min > 0 && max / min > 100 ? min * (max / min) ** share : min + (max - min) * share;
    const value = (input: Input, share: number): number | string | readonly number[] => {
      if (input.kind === "choice") return input.default ?? input.options[0]!;
      if (input.kind === "number") return input.default ?? inside(input.min, input.max, share);
      const count = Math.max(3, input.atLeast);
      // bent this way or that, as readings of a decay are
      const bend = share > 0.5 ? 2 : 0.5;
      return Array.from({ length: count }, (_, i) => inside(input.min, input.max, ((share + i) / (count + 1)) ** bend));
    };
    let answers = 0;
    for (let k = 0; k < 12 && answers === 0; k += 1) {
      // no two inputs alike, now rising and now falling: some need an order
      const stride = k % 2 === 0 ? 0.618 : 0.382;
      const given = Object.fromEntries(
        Object.entries(relation.inputs).map(([name, input], i) => [
          name,
          value(input, 0.15 + 0.7 * ((i * stride + k * 0.618) % 1)),
        ]),
      );
      const outputs = answered(relation, given);
      if (!outputs) continue;
      expectFigures(relation, given, outputs);
      answers += 1;
    }
    expect(answers).toBe(withoutAnswer.has(id) ? 0 : 1);
  });

  test.each(all)("%s gives figures or words for whatever lies in its ranges", (_, { relation }) => {
    const inputs = fc.record(
      Object.fromEntries(Object.entries(relation.inputs).map(([name, input]) => [name, within(relation, name, input)])),
    );
    fc.assert(
      fc.property(inputs, (given) => {
        const outputs = answered(relation, given);
        if (outputs) expectFigures(relation, given, outputs);
      }),
      { numRuns: runs, seed: 20261125 },
    );
  });

  test.each(all)("%s refuses what lies outside, naming it", (_, { relation }) => {
    for (const [name, input] of Object.entries(relation.inputs)) {
      const wrong =
        input.kind === "choice" ? ["no such choice", 1] : [input.max + Math.max(1, input.max), Number.NaN, "five"];
      for (const value of wrong) {
        const given = { [name]: input.kind === "series" ? [value as number] : value };
        expect(() => evaluate(relation, given)).toThrow(RelationError);
        expect(() => evaluate(relation, given)).toThrow(`${name}: `);
      }
    }
    expect(() => evaluate(relation, { no_such_input: 1 })).toThrow("no_such_input: is not an input");
  });
});

test("usual values lie in their ranges, and stand for most inputs of the examples", () => {
  let known = 0;
  let all = 0;
  for (const { relation } of catalogue) {
    for (const [name, input] of Object.entries(relation.inputs)) {
      const value = usualValue(relation.id, name, input);
      all += 1;
      if (value === undefined) continue;
      known += 1;
      if (input.kind === "choice") expect(input.options).toContain(value);
      else
        for (const v of [value].flat()) {
          expect(v).toBeGreaterThanOrEqual(input.min);
          expect(v).toBeLessThanOrEqual(input.max);
        }
    }
  }
  expect(known / all).toBeGreaterThan(0.5);
});
