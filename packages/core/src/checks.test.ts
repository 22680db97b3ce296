/**
 * Outside check tables: every file in `checks/` names relations, inputs, published values, tolerance and source.
 * One row may hold several values; each value is counted under its source.
 */
import { readdirSync, readFileSync } from "node:fs";
import { afterAll, describe, expect, test } from "vitest";
import { parse } from "yaml";
import { type AnyRelation, evaluate, type RawInputs } from "./relation/index.ts";

interface Tolerance {
  readonly absolute?: number;
  readonly relative?: number;
}

interface Table {
  readonly table: string;
  readonly source: string;
  readonly how: string;
  readonly relation: string;
  readonly tolerance: Tolerance;
  /** Tolerance of single outputs, where it differs. */
  readonly tolerances?: Readonly<Record<string, Tolerance>>;
  /** Why the tolerance is what it is, where the source does not say. */
  readonly why?: string;
  readonly fixed?: RawInputs;
  readonly inputs: readonly string[];
  readonly outputs: readonly string[];
  /** Inputs, then expected outputs; null = the source gives no value. */
  readonly rows: readonly (readonly (number | string | readonly number[] | null)[])[];
}

const folder = new URL("../../../checks/", import.meta.url);
const only = process.env.CHECKS?.split(",");
const counts = new Map<string, number>();

const files = readdirSync(folder).filter((f) => f.endsWith(".yaml") && (!only || only.includes(f.slice(0, -5))));

function allowed(expected: number, t: Tolerance): number {
  return Math.max(t.absolute ?? 0, Math.abs(expected) * (t.relative ?? 0));
}

for (const file of files) {
  const room = file.slice(0, -5);
  const { relations } = (await import(`./${room}/index.ts`)) as { relations: readonly AnyRelation[] };
  const tables = parse(readFileSync(new URL(file, folder), "utf8")) as readonly Table[];
  describe(room, () => {
    test.each(tables)("$table", (table) => {
      const relation = relations.find((r) => r.id === table.relation);
      if (!relation) throw new Error(`no relation ${table.relation} in ${room}`);
      expect(table.source.length).toBeGreaterThan(3);
      expect(table.rows.length).toBeGreaterThan(0);
      const misses: string[] = [];
      for (const row of table.rows) {
        expect(row.length, `row width of ${JSON.stringify(row)}`).toBe(table.inputs.length + table.outputs.length);
        const inputs: Record<string, number | string | readonly number[]> = {};
        for (const [k, v] of Object.entries(table.fixed ?? {})) if (v !== undefined) inputs[k] = v;
        table.inputs.forEach((name, i) => {
          const v = row[i];
          if (v !== null && v !== undefined) inputs[name] = v;
        });
        const result = evaluate(relation, inputs);
        table.outputs.forEach((name, i) => {
          const want = row[table.inputs.length + i];
          if (want === null || want === undefined) return;
          if (typeof want !== "number") throw new Error(`expected value of ${name} must be a number`);
          const got = result[name];
          const tolerance = allowed(want, table.tolerances?.[name] ?? table.tolerance);
          if (!(tolerance > 0 || want === 0)) throw new Error(`table ${table.table} states no tolerance for ${name}`);
          counts.set(table.source, (counts.get(table.source) ?? 0) + 1);
          if (typeof got !== "number" || !(Math.abs(got - want) <= tolerance)) {
            misses.push(`${JSON.stringify(inputs)} ${name}: got ${got}, published ${want} ± ${tolerance}`);
          }
        });
      }
      expect(misses, misses.join("\n")).toEqual([]);
    });
  });
}

if (files.length === 0) test.skip("no check tables", () => undefined);

afterAll(() => {
  let total = 0;
  for (const n of counts.values()) total += n;
  const lines = [...counts].sort((a, b) => b[1] - a[1]).map(([source, n]) => `  ${String(n).padStart(4)}  ${source}`);
  console.log(`Outside check values: ${total}\n${lines.join("\n")}`);
  if (!only) expect(total).toBeGreaterThanOrEqual(250);
});
