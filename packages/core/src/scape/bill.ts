/** What to buy: every item with what the plan needs of it, what is bought, and its price where one is given. */
import { findSubstrate } from "../facts/index.ts";
import { bagsNeeded } from "../geometry/index.ts";
import type { Entry } from "../plan/index.ts";
import type { Scape } from "./scape.ts";

export type BillGroup = "tank" | "bed" | "stone" | "wood" | "plants" | "equipment";

/** An amount in the unit that it is bought in. */
export interface Amount {
  readonly value: number;
  readonly unit: "L" | "kg" | "cm2" | "pieces" | "bags" | "portions";
}

export interface BillItem {
  readonly group: BillGroup;
  /** Letter of the planting in the key; empty for other items. */
  readonly key: string;
  readonly what: string;
  /** What the plan needs. */
  readonly needs: Amount;
  readonly buy: Amount;
  /** Price of all that is bought; null where the plan gives none. */
  readonly price: number | null;
  /** Anything that the reader should know of the figures. */
  readonly note: string;
}

export interface Bill {
  readonly items: readonly BillItem[];
  /** Sum of the prices given. */
  readonly total: number;
  /** Items without a price. */
  readonly unpriced: number;
  /** In which prices are given; empty where the plan does not say. */
  readonly currency: string;
}

/** Bought over the bed's volume, since grains settle and some are lost. Common practice 10 to 20 %, no source. */
export const settling = 0.1;

const priceOf = (entry: Entry | null, count: number): number | null => (entry === null ? null : entry.value * count);

const sum = (values: readonly number[]): number => values.reduce((all, value) => all + value, 0);

const counted = (n: number, one: string, more: string): string => `${n} ${n === 1 ? one : more}`;

function bedItems({ plan, layers }: Scape): readonly BillItem[] {
  return layers.map(({ volume }, i): BillItem => {
    const layer = plan.substrate[i]!;
    const { bulkDensity } = findSubstrate(layer.material)!;
    const litres = volume * 1000;
    const wanted = litres * (1 + settling);
    const needs: Amount = { value: litres, unit: "L" };
    const heavy = `${Math.round(volume * bulkDensity.value * 10) / 10} kg dry`;
    if (!layer.bag) {
      return {
        group: "bed",
        key: "",
        what: layer.material,
        needs,
        buy: { value: wanted, unit: "L" },
        price: priceOf(layer.price, wanted),
        note: heavy,
      };
    }
    const bags = bagsNeeded(volume, { litres: layer.bag.value * 1000 }, bulkDensity.value, settling);
    const left = bags * layer.bag.value * 1000 - wanted;
    const bag = `bags of ${Number((layer.bag.value * 1000).toPrecision(3))} L`;
    return {
      group: "bed",
      key: "",
      what: layer.material,
      needs,
      buy: { value: bags, unit: "bags" },
      price: priceOf(layer.price, bags),
      note: [bag, heavy, `${Number(left.toPrecision(2))} L left over`].join("; "),
    };
  });
}

/** Stones of one rock are bought together, by weight; each piece of wood by itself. */
function hardscapeItems({ plan, pieces }: Scape): readonly BillItem[] {
  const rocks = [...new Set(pieces.filter((p) => p.kind === "stone").map((p) => p.material))];
  const stones = rocks.map((rock): BillItem => {
    const own = pieces.filter((p) => p.kind === "stone" && p.material === rock);
    const prices = own.flatMap((p) => plan.hardscape[p.index]!.price?.value ?? []);
    const weighed = own.filter((p) => p.weighed).length;
    const mass = sum(own.map((p) => p.mass));
    return {
      group: "stone",
      key: own.map((p) => p.key).join(", "),
      what: `${rock}, ${counted(own.length, "piece", "pieces")}`,
      needs: { value: mass, unit: "kg" },
      buy: { value: own.length, unit: "pieces" },
      price: prices.length === own.length ? sum(prices) : null,
      note: [
        weighed === own.length ? "weighed" : weighed === 0 ? "mass from size and shape" : `${weighed} of them weighed`,
        prices.length > 0 && prices.length < own.length ? `only ${prices.length} of them priced` : "",
      ]
        .filter(Boolean)
        .join("; "),
    };
  });
  const woods = pieces
    .filter((p) => p.kind === "wood")
    .map(
      (p): BillItem => ({
        group: "wood",
        key: p.key,
        what: plan.hardscape[p.index]!.name ?? p.material,
        needs: { value: p.mass, unit: "kg" },
        buy: { value: 1, unit: "pieces" },
        price: priceOf(plan.hardscape[p.index]!.price, 1),
        note: [
          p.weighed ? "weighed" : "soaked mass from size and shape",
          p.ballast > 0.05 ? ballastWord(p.ballast) : "",
        ]
          .filter(Boolean)
          .join("; "),
      }),
    );
  return [...stones, ...woods];
}

function ballastWord(kg: number): string {
  return `dry it floats: ${Number(kg.toPrecision(2))} kg of stone holds it down until it is soaked`;
}

function plantItems({ zones }: Scape): readonly BillItem[] {
  return zones.map(({ key, fact, area, planting, portions }) => ({
    group: "plants",
    key,
    what: fact.name,
    needs: { value: area * 1e4, unit: "cm2" },
    buy: { value: portions, unit: "portions" },
    price: priceOf(planting.price, portions),
    note: planting.portions ? "number as planned" : `${fact.density} portions a square metre is usual`,
  }));
}

function equipmentItems({ plan }: Scape): readonly BillItem[] {
  const { tank, light, lamps, filter, heater, co2, air } = plan;
  const mm = (entry: Entry): number => Math.round(entry.value * 1000);
  const item = (group: BillGroup, what: string, price: Entry | null, note = ""): BillItem => ({
    group,
    key: "",
    what,
    needs: { value: 1, unit: "pieces" },
    buy: { value: 1, unit: "pieces" },
    price: priceOf(price, 1),
    note,
  });
  return [
    item("tank", "glass tank", tank.price, `${mm(tank.length)} x ${mm(tank.width)} x ${mm(tank.height)} mm outside`),
    ...[...(light ? [light] : []), ...lamps].map((lamp) =>
      item("equipment", `${lamp.kind.value} lamp`, lamp.price, `${lamp.power.value} W`),
    ),
    ...(filter
      ? [item("equipment", `${filter.kind.value} filter`, filter.price, `${filter.rated.value} L/h rated`)]
      : []),
    ...(heater ? [item("equipment", "heater", heater.price, `${heater.power.value} W`)] : []),
    ...(co2
      ? [item("equipment", "CO2 set: cylinder, regulator, valve, counter, tube", co2.price, `${co2.device.value}`)]
      : []),
    ...(air ? [item("equipment", "air pump and stone", null, `${air.flow.value} L/h`)] : []),
  ];
}

/** The bill of a scape: bed, stone, wood and plants first, then the rest. */
export function billOf(scape: Scape): Bill {
  const items = [...bedItems(scape), ...hardscapeItems(scape), ...plantItems(scape), ...equipmentItems(scape)];
  return {
    items,
    total: sum(items.map((i) => i.price ?? 0)),
    unpriced: items.filter((i) => i.price === null).length,
    currency: scape.plan.currency ?? "",
  };
}

/** A field of a comma-separated file (RFC 4180); words that a spreadsheet would take for a formula are kept words. */
function csvField(value: string | number): string {
  const text = typeof value === "string" && /^[=+\-@\t\r]/.test(value) ? `'${value}` : String(value);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

const digits = (value: number): number => Number(value.toPrecision(4));

/** The bill as comma-separated values (RFC 4180), one item a line, the total last. */
export function billCsv(bill: Bill): string {
  const head = ["group", "key", "item", "needs", "needs unit", "buy", "buy unit", "price", "currency", "note"];
  const rows = bill.items.map((i) => [
    i.group,
    i.key,
    i.what,
    digits(i.needs.value),
    i.needs.unit,
    digits(i.buy.value),
    i.buy.unit,
    i.price === null ? "" : i.price.toFixed(2),
    i.price === null ? "" : bill.currency,
    i.note,
  ]);
  const total = ["", "", "total of the prices given", "", "", "", "", bill.total.toFixed(2), bill.currency, ""];
  return `${[head, ...rows, total].map((row) => row.map(csvField).join(",")).join("\r\n")}\r\n`;
}
