import { catalogue } from "@lentic/core/catalogue";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { InputError } from "../fault.ts";
import { type CalcOptions, calcCommand } from "./calc.ts";

const metric = { units: "metric" } as const;

/** What calc prints, or its words of refusal. */
async function printed(name: string, words: readonly string[], options: CalcOptions = metric) {
  const parts: string[] = [];
  const { write } = process.stdout;
  process.stdout.write = ((part: string) => parts.push(part) > 0) as typeof write;
  try {
    await calcCommand(name, words, options);
    return { out: parts.join(""), refused: null };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { out: parts.join(""), refused: error.message };
  } finally {
    process.stdout.write = write;
  }
}

/** Words as a shell would part them. */
const parted = (line: string): string[] =>
  (line.match(/(?:[^\s"]|"[^"]*")+/g) ?? []).map((word) => word.replaceAll('"', ""));

describe("every relation", () => {
  // all its amounts have a default of none, and an empty exchanger has no answer
  const withoutAnswer = new Set(["soil-cation-exchange"]);
  test.each(catalogue.map(({ relation }) => [relation.id, relation] as const))(
    "%s is described, with an example that has an answer",
    async (id, relation) => {
      const help = await printed(id, [], { ...metric, help: true });
      expect(help.refused).toBeNull();
      for (const name of [...Object.keys(relation.inputs), ...Object.keys(relation.outputs)]) {
        expect(help.out).toMatch(new RegExp(`^ {2}${name} `, "m"));
      }
      expect(help.out).toMatch(/^source: /m);
      if (relation.caution) expect(help.out).toMatch(/^! /m);
      const [lentic, calc, named, ...words] = parted(help.out.trimEnd().split("\n").at(-1)!);
      expect([lentic, calc, named]).toEqual(["lentic", "calc", id]);
      const answer = await printed(id, words);
      if (withoutAnswer.has(id)) {
        expect(answer.refused).toMatch(/no charge/);
        return;
      }
      expect(answer.refused).toBeNull();
      expect(answer.out).not.toMatch(/^\w+ +[−-]?(NaN|undefined|Infinity)/m);
      const json = JSON.parse((await printed(id, words, { ...metric, json: true })).out);
      expect(json).toMatchObject({ id, equation: relation.equation });
      expect(Object.keys(json.inputs)).toEqual(Object.keys(relation.inputs));
      for (const [name, { unit }] of Object.entries(relation.outputs)) {
        expect(json.outputs[name].unit).toBe(unit);
        const { value, words: said } = json.outputs[name];
        expect(value === null ? typeof said : typeof value).toMatch(/^(string|number|object)$/);
        if (said === undefined) for (const v of [value].flat()) expect(Number.isFinite(v)).toBe(true);
      }
    },
  );
});

test("a value goes in with any unit of its kind", async () => {
  const kelvin = await printed("oxygen-saturation", ["temperature=298.15 K"]);
  expect(kelvin.out).toBe((await printed("oxygen-saturation", ["temperature=25"])).out);
  expect(kelvin.out).toBe((await printed("oxygen-saturation", ["temperature=77°F"])).out);
  // APHA 4500-O, 25 °C: 8.263 mg/L
  expect(kelvin.out).toMatch(/^oxygen {2}8\.263/);
});

test("any words are answered or refused in words", async () => {
  const words = fc.array(
    fc.oneof(
      fc.string({ maxLength: 20 }),
      fc.string({ maxLength: 12, unit: "binary" }).map((v) => `temperature=${v}`),
      fc.double().map((v) => `temperature=${v}`),
      fc.constantFrom("temperature=1e999", "salinity=,", "pressure=1 atm, 2 atm", "=", "temperature=", "toString=1"),
    ),
    { minLength: 1, maxLength: 3 },
  );
  await fc.assert(
    fc.asyncProperty(words, async (given) => {
      const { out, refused } = await printed("oxygen-saturation", given);
      if (refused === null) expect(out).toMatch(/^oxygen {2}\d/);
      else expect(refused.length).toBeGreaterThan(8);
    }),
    { numRuns: 300 },
  );
});
