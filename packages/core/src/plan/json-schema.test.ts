import { readdirSync, readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parse } from "yaml";
import { fromJSONSchema } from "zod";
import { goodPlans } from "./arbitrary.ts";
import { fields, jsonSchema, newPlan } from "./index.ts";

const folder = new URL("../../../../examples/", import.meta.url);
const schema = fromJSONSchema(jsonSchema() as Parameters<typeof fromJSONSchema>[0]);
const accepts = (value: unknown) => schema.safeParse(value).success;

describe("as an outside validator reads it", () => {
  test.each(readdirSync(folder).filter((f) => f.endsWith(".yaml")))("%s is accepted", (file) => {
    const made = schema.safeParse(parse(readFileSync(new URL(file, folder), "utf8")));
    expect(made.success ? [] : made.error.issues).toEqual([]);
  });

  test("every generated good plan is accepted", () => {
    fc.assert(
      fc.property(goodPlans, (raw) => accepts(raw)),
      { numRuns: 200 },
    );
  });

  // Faults of shape; those of units, bounds and of one value against another are beyond a schema.
  test.each([
    "mistyped-key",
    "unknown-group",
    "tank-missing",
    "height-missing",
    "group-empty",
    "value-empty",
    "list-as-map",
    "map-as-list",
    "unit-missing",
    "share-without-percent",
    "count-in-parts",
    "ripple-class-seven",
    "half-past-25",
    "mark-unknown",
    "device-unknown",
    "version-newer",
    "version-missing",
    "alternative-is-a-word",
  ])("bad/%s is refused", (name) => {
    expect(accepts(parse(readFileSync(new URL(`bad/${name}.yaml`, folder), "utf8")))).toBe(false);
  });
});

test("a new plan is accepted", () => {
  const text = newPlan({ length: "60 cm", width: "30 cm", height: "36 cm", gas: true, kh: "4 dKH" });
  expect(accepts(parse(text))).toBe(true);
});

test("every field of the table stands in the schema, with its help and what stands in for it", () => {
  const root = jsonSchema() as { properties: Record<string, Record<string, unknown>> };
  for (const field of fields) {
    const [group = "", key] = field.path.replace("[]", "").split(".");
    const text = JSON.stringify(root.properties[group]);
    expect(text, field.path).toContain(JSON.stringify(field.help).slice(1, -1));
    if (key) expect(text).toContain(`"${key}":`);
    if (field.fallback) expect(text).toContain(JSON.stringify(field.fallback.reason).slice(1, -1));
  }
});
