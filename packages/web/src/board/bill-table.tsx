import { shown } from "@lentic/core/design";
import { type Amount, type Bill, billCsv } from "@lentic/core/scape";
import { memo, useMemo } from "react";
import { useSettings } from "../data/settings.ts";
import { fileName } from "../parts/file-name.ts";

const words: Readonly<Record<Amount["unit"], readonly [one: string, more: string]>> = {
  L: ["L", "L"],
  kg: ["kg", "kg"],
  cm2: ["cm²", "cm²"],
  pieces: ["piece", "pieces"],
  bags: ["bag", "bags"],
  portions: ["portion", "portions"],
};

function amountText({ value, unit }: Amount, units: "metric" | "us"): string {
  if (unit === "L" || unit === "kg") {
    const told = shown(value, unit, value < 10 ? 1 : 0, units);
    return `${told.text} ${told.unit}`;
  }
  if (unit === "cm2") {
    return units === "us" ? `${Math.round(value / 6.4516)} in²` : `${Math.round(value)} cm²`;
  }
  return `${value} ${words[unit][value === 1 ? 0 : 1]}`;
}

/** What to buy, with amounts and the prices that the owner gave. */
export const BillTable = memo(function BillTable({ bill, name }: { readonly bill: Bill; readonly name: string }) {
  const { units } = useSettings();
  const priced = bill.items.some((i) => i.price !== null);
  const csv = useMemo(() => `data:text/csv;charset=utf-8,${encodeURIComponent(billCsv(bill))}`, [bill]);
  return (
    <section className="bill" aria-labelledby="bill-title">
      <h2 id="bill-title">To be bought</h2>
      <table>
        <thead>
          <tr>
            <th scope="col">
              <span className="hidden-text">key</span>
            </th>
            <th scope="col">what</th>
            <th scope="col">the plan needs</th>
            <th scope="col">buy</th>
            {priced && <th scope="col">{bill.currency || "price"}</th>}
          </tr>
        </thead>
        <tbody>
          {bill.items.map((i) => (
            <tr key={`${i.group}|${i.key}|${i.what}|${i.note}`}>
              <td className="bill-key">{i.group === "plants" ? i.key : ""}</td>
              <th scope="row" className={i.group === "plants" ? "botanical" : undefined}>
                {i.what}
                {i.note && <small>{i.note}</small>}
              </th>
              <td>{i.group === "tank" || i.group === "equipment" ? "" : amountText(i.needs, units)}</td>
              <td>{amountText(i.buy, units)}</td>
              {priced && <td>{i.price === null ? "" : i.price.toFixed(2)}</td>}
            </tr>
          ))}
        </tbody>
        {priced && (
          <tfoot>
            <tr>
              <td />
              <th scope="row" colSpan={3}>
                All{bill.unpriced > 0 ? `, ${bill.unpriced} without a price` : ""}
              </th>
              <td>{bill.total.toFixed(2)}</td>
            </tr>
          </tfoot>
        )}
      </table>
      <p className="bill-acts">
        <a className="link" href={csv} download={`${fileName(name)}-bill.csv`}>
          Save as a table (CSV)
        </a>
        {!priced && <span> Prices are yours: enter them with each item below.</span>}
      </p>
    </section>
  );
});
