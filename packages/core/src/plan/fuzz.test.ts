import fc from "fast-check";
import { expect, test } from "vitest";
import { goodPlans, goodTexts, spoiledTexts, wildPlans } from "./arbitrary.ts";
import { type Fault, fields, formatPlan, readPlan, resolvePlan } from "./index.ts";

const runs = Number(process.env.PLAN_RUNS ?? 250);

/** Every number reachable in a value. */
function numbers(value: unknown): number[] {
  if (typeof value === "number") return [value];
  if (typeof value !== "object" || value === null) return [];
  return Object.values(value).flatMap(numbers);
}

function insideText(text: string, fault: Fault): boolean {
  const lines = text.split(/\n/);
  const line = lines[fault.line - 1];
  return line !== undefined && fault.column >= 1 && fault.column <= line.length + 1;
}

test("generated plans resolve, to finite numbers within the bounds of their fields", () => {
  fc.assert(
    fc.property(goodPlans, (raw) => {
      const made = resolvePlan(raw);
      expect(made.ok ? [] : made.faults).toEqual([]);
      if (!made.ok) return;
      expect(numbers(made.plan).filter((n) => !Number.isFinite(n))).toEqual([]);
      for (const field of fields) {
        if (field.kind !== "quantity" && field.kind !== "count" && field.kind !== "time") continue;
        const [group = "", key = ""] = field.path.replace("[]", "").split(".");
        const name = key.replace(/_(\w)/g, (_, c: string) => c.toUpperCase());
        const holder = (made.plan as unknown as Record<string, unknown>)[group];
        for (const item of Array.isArray(holder) ? holder : [holder]) {
          const value: unknown = item?.[name]?.value;
          if (typeof value !== "number" || group === "readings") continue;
          const slack = 1e-9 * Math.max(Math.abs(field.min), Math.abs(field.max));
          expect(value, field.path).toBeGreaterThanOrEqual(field.min - slack);
          expect(value, field.path).toBeLessThanOrEqual(field.max + slack);
        }
      }
    }),
    { numRuns: runs },
  );
});

test("generated texts read to the same plan as their raw form, before and after formatting", () => {
  fc.assert(
    fc.property(goodTexts, (text) => {
      const reading = readPlan(text);
      expect(reading.ok ? [] : reading.faults).toEqual([]);
      if (!reading.ok) return;
      const made = resolvePlan(reading.raw);
      expect(made.ok && made.plan).toEqual(reading.plan);
      const formatted = formatPlan(text);
      const again = readPlan(formatted);
      expect(again.ok && again.plan).toEqual(reading.plan);
      expect(formatPlan(formatted)).toBe(formatted);
    }),
    { numRuns: Math.ceil(runs / 2) },
  );
});

test("spoiled texts give a plan or faults that stand inside the text", () => {
  let refused = 0;
  fc.assert(
    fc.property(spoiledTexts, (text) => {
      const reading = readPlan(text);
      if (reading.ok) {
        expect(numbers(reading.plan).every(Number.isFinite)).toBe(true);
        return;
      }
      refused += 1;
      expect(reading.faults.length).toBeGreaterThan(0);
      for (const fault of reading.faults) {
        expect(insideText(text, fault), JSON.stringify(fault)).toBe(true);
        expect(fault.message).not.toBe("");
        expect(fault.allowed).not.toBe("");
      }
      expect(formatPlan(text)).toBeTypeOf("string");
    }),
    { numRuns: runs },
  );
  expect(refused).toBeGreaterThan(runs / 20);
});

test("any text at all gives faults, never an exception", () => {
  fc.assert(
    fc.property(fc.oneof(fc.string(), fc.string({ unit: "binary" }), fc.json()), (text) => {
      const reading = readPlan(text);
      expect(reading.ok).toBe(false);
      if (!reading.ok) expect(reading.faults.every((f) => insideText(text, f))).toBe(true);
    }),
    { numRuns: runs },
  );
});

test("wild values anywhere give a plan with finite numbers, or faults", () => {
  fc.assert(
    fc.property(wildPlans, (raw) => {
      const made = resolvePlan(raw);
      if (made.ok) expect(numbers(made.plan).every(Number.isFinite)).toBe(true);
      else for (const fault of made.faults) expect(fault.message).not.toMatch(/undefined|NaN|\[object/);
    }),
    { numRuns: runs },
  );
});
