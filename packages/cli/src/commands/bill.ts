import { shown, type UnitSystem } from "@lentic/core/design";
import { type Amount, billCsv, billOf, scapeFindings, scapeOf } from "@lentic/core/scape";
import { exit } from "../fault.ts";
import { paperOf, table, toJson, wrap } from "../paper.ts";
import { resolvedPlan } from "../plan-file.ts";

export interface BillOptions {
  readonly units: UnitSystem;
  readonly alternative?: string;
  readonly json?: boolean;
  readonly csv?: boolean;
}

const words: Readonly<Record<Amount["unit"], readonly [one: string, more: string]>> = {
  L: ["L", "L"],
  kg: ["kg", "kg"],
  cm2: ["cm2", "cm2"],
  pieces: ["piece", "pieces"],
  bags: ["bag", "bags"],
  portions: ["portion", "portions"],
};

function told({ value, unit }: Amount, units: UnitSystem): string {
  if (unit === "L" || unit === "kg") {
    const { text, unit: own } = shown(value, unit, value < 10 ? 1 : 0, units);
    return `${text} ${own}`;
  }
  if (unit === "cm2") return units === "us" ? `${Math.round(value / 6.4516)} in2` : `${Math.round(value)} cm2`;
  return `${value} ${words[unit][value === 1 ? 0 : 1]}`;
}

/** What to buy for the scape, and what in it does not hold or fit. */
export function billCommand(file: string, options: BillOptions): number {
  const scape = scapeOf(resolvedPlan(file, options.alternative));
  const bill = billOf(scape);
  if (options.csv) {
    process.stdout.write(billCsv(bill));
    return exit.fine;
  }
  const findings = scapeFindings(scape);
  if (options.json) {
    const { items, total, unpriced, currency } = bill;
    process.stdout.write(`${toJson({ items, total, unpriced, currency, findings })}\n`);
    return exit.fine;
  }
  const { width } = paperOf();
  const priced = bill.items.some((i) => i.price !== null);
  const rows = bill.items.map((i) => {
    const own = i.group === "tank" || i.group === "equipment";
    return [
      i.group === "plants" ? i.key : "",
      i.what,
      own ? "" : told(i.needs, options.units),
      told(i.buy, options.units),
      ...(priced ? [i.price === null ? "" : i.price.toFixed(2)] : []),
      i.note,
    ];
  });
  const head = ["", "what", "needs", "buy", ...(priced ? [bill.currency || "price"] : []), ""];
  const right = [false, false, true, true, priced, false];
  process.stdout.write(`${table([head, ...rows], { right, width })}\n`);
  if (priced) {
    const rest = bill.unpriced > 0 ? `, ${bill.unpriced} items without a price` : "";
    process.stdout.write(`\nall that is priced: ${bill.total.toFixed(2)} ${bill.currency}${rest}\n`);
  }
  for (const f of findings) {
    process.stdout.write(`\n${wrap(`${f.severity === "caution" ? "!" : "-"} ${f.title}. ${f.reason}`, width, "  ")}\n`);
  }
  return exit.fine;
}
