import { describe, expect, test } from "vitest";
import { convert, parseQuantity } from "../units/index.ts";
import type { Field, Measure } from "./field.ts";
import { fields, groups } from "./index.ts";
import { root } from "./tree.ts";

function measuresOf(f: Field): readonly (readonly [string, Measure])[] {
  if (f.kind === "quantity") return [[f.path, f]];
  return f.kind === "variant" ? Object.entries(f.measures).map(([by, m]) => [`${f.path} ${by}`, m]) : [];
}

const measures = fields.flatMap(measuresOf);

describe("the fields table", () => {
  test("has each path once, and every group has fields", () => {
    expect(new Set(fields.map((f) => f.path)).size).toBe(fields.length);
    for (const group of groups) {
      const start = group.list ? `${group.path}[].` : `${group.path}.`;
      expect(fields.filter((f) => f.path.startsWith(start)).length, group.path).toBeGreaterThan(0);
    }
    const counted = [...root.values()].reduce((n, node) => n + (node.type === "group" ? node.children.size : 1), 0);
    expect(counted).toBe(fields.length);
  });

  test("words: a label, a sentence of help, and a reason for every default", () => {
    for (const { path, label, help, fallback } of fields) {
      expect(label, path).toMatch(/^[A-Z]/);
      expect(help, path).toMatch(/\.$/);
      if (fallback) {
        expect(fallback.text, path).not.toBe("");
        expect(fallback.reason.length, path).toBeGreaterThan(5);
      }
    }
  });

  test.each(measures)("%s: its three units tell the same thing, and its bounds are in order", (_, m) => {
    expect(m.min).toBeLessThan(m.max);
    expect(m.step).toBeGreaterThan(0);
    expect(m.usStep).toBeGreaterThan(0);
    expect(Number.isFinite(convert(1, m.metric, m.us))).toBe(true);
    if (!m.ion) expect(Number.isFinite(convert(1, m.metric, m.unit))).toBe(true);
    const typed = parseQuantity(`1 ${m.metric === "1" ? "" : m.metric}`, { expect: m.metric });
    expect(typed.ok).toBe(true);
  });

  test("defaults written as a value can be typed as they stand", () => {
    for (const field of fields) {
      if (field.kind !== "quantity" || !field.fallback || field.fallback.rule) continue;
      const read = parseQuantity(field.fallback.text, { expect: field.ion ? "mmol/L" : field.metric });
      expect(read.ok, field.path).toBe(true);
    }
  });
});
