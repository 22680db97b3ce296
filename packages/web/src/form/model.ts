import {
  applyToRaw,
  type Change,
  changeAt,
  type Entry,
  type Fault,
  type Field,
  fields,
  type Group,
  groups,
  type Place,
  type Plan,
  type RawPlan,
  resolvePlan,
  valueAt,
} from "@lentic/core/plan";

/** Where a field of the table stands in one plan: list groups have a position. */
export type Path = readonly (string | number)[];

/** "plants[].cover" at position 2 -> ["plants", 2, "cover"]. */
export function pathOf(field: Field, index: number | null): Path {
  const [head, ...rest] = field.path.split(".");
  if (head!.endsWith("[]")) return [head!.slice(0, -2), index ?? 0, ...rest];
  return [head!, ...rest];
}

/** "plants[2].cover" */
export const pathText = (path: Path): string =>
  path.reduce<string>((text, s) => (typeof s === "number" ? `${text}[${s}]` : text ? `${text}.${s}` : s), "");

/** Groups of some places, in the table's order, each with its fields. */
export function groupsOf(
  places: readonly Place[],
): readonly { readonly group: Group; readonly fields: readonly Field[] }[] {
  return groups
    .map((group) => ({
      group,
      fields: fields.filter(
        (f) =>
          (f.path.startsWith(`${group.path}.`) || f.path.startsWith(`${group.path}[]`)) && places.includes(f.place),
      ),
    }))
    .filter((g) => g.fields.length > 0);
}

const camel = (key: string): string => key.replace(/_([a-z])/g, (_, c: string) => c.toUpperCase());

/** The resolved value at a path: an entry, a bare value, or undefined where the plan has no such thing. */
export function resolvedAt(plan: Plan, path: Path): Entry<number | string> | string | number | boolean | undefined {
  let at: unknown = plan;
  for (const segment of path) {
    if (typeof at !== "object" || at === null) return undefined;
    at = (at as Record<string | number, unknown>)[typeof segment === "string" ? camel(segment) : segment];
  }
  return (at ?? undefined) as ReturnType<typeof resolvedAt>;
}

export const isEntry = (value: unknown): value is Entry<number | string> =>
  typeof value === "object" && value !== null && "known" in value;

/** What stands in the field: the quantity as typed, without mark and note; empty for a default. */
export function typedText(raw: RawPlan, plan: Plan, path: Path): string {
  const resolved = resolvedAt(plan, path);
  if (isEntry(resolved)) return resolved.text ?? "";
  const typed = valueAt(raw, path);
  return typed === undefined || typed === null || typeof typed === "object" ? "" : String(typed);
}

const number = (value: number): string => String(Number(value.toPrecision(4)));

/** How a default reads in the field: with the unit people use. */
export function ghostText(
  plan: Plan,
  field: Field,
  path: Path,
  convert: (value: number, from: string, to: string) => number,
  us: boolean,
): string {
  const resolved = resolvedAt(plan, path);
  const value = isEntry(resolved) ? resolved.value : resolved;
  if (typeof value !== "number" && typeof value !== "string") return field.fallback?.text ?? "";
  if (field.kind === "time" && typeof value === "number") {
    const minutes = Math.round(value * 60);
    return `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
  }
  if (field.kind === "quantity" && typeof value === "number") {
    const unit = us ? field.us : field.metric;
    if (field.ion) return `${number(value)} ${field.unit}`;
    try {
      return `${number(convert(value, field.unit, unit))} ${unit}`.trim();
    } catch {
      return `${number(value)} ${field.unit}`;
    }
  }
  return typeof value === "number" ? number(value) : value;
}

/** The value to write for what was typed; undefined takes the field back to its default. */
export function writtenValue(field: Field, text: string, mark?: string, note?: string): unknown {
  const typed = text.trim();
  if (typed === "") return undefined;
  if (field.kind === "count") return Number.isFinite(Number(typed)) ? Number(typed) : typed;
  if (field.kind === "flag") return typed === "true";
  if (field.kind === "variant" && Number.isFinite(Number(typed))) return Number(typed);
  if (field.kind !== "quantity" || /\(.*\)\s*$/.test(typed)) return typed;
  const words = [...(mark && mark !== field.usual ? [mark] : []), ...(note?.trim() ? [note.trim()] : [])];
  return words.length > 0 ? `${typed} (${words.join(", ")})` : typed;
}

export interface Attempt {
  readonly change: Change;
  /** Faults that the change would bring, those of the field itself first. */
  readonly faults: readonly Fault[];
}

/** Tries a value in the plan without keeping it. */
export function attempt(raw: RawPlan, path: Path, value: unknown, label: string): Attempt {
  const shown =
    value === undefined ? "as assumed" : typeof value === "object" ? "" : String(value).replace(/\s*\(.*\)$/, "");
  const change = changeAt(raw, path, value, `${label} ${shown}`.trim().slice(0, 120));
  const resolved = resolvePlan(applyToRaw(raw, [change]));
  if (resolved.ok) return { change, faults: [] };
  const own = pathText(path);
  const faults = [...resolved.faults].sort((a, b) => Number(b.path.startsWith(own)) - Number(a.path.startsWith(own)));
  return { change, faults };
}

/** What a new item of a list begins with; the rest is assumed and shows. */
export function starter(group: string, word: string): unknown {
  switch (group) {
    case "substrate":
      return { material: word, depth: "3 cm" };
    case "hardscape":
      return /wood/i.test(word)
        ? { kind: "wood", material: word, mass: "1 kg" }
        : { kind: "stone", material: word, mass: "2 kg" };
    case "plants":
      return { species: word };
    case "animals":
      return { species: word, count: 6 };
    default:
      return {
        what: word,
        value: word === "ph" ? 7 : word === "temperature" ? "24 °C" : word === "oxygen" ? "8 mg/L" : "20 mg/L",
        at: "12:00",
      };
  }
}

/** One line that tells a list item when it is folded. */
export function summary(raw: RawPlan, group: string, index: number): string {
  const item = valueAt(raw, [group, index]);
  if (typeof item !== "object" || item === null || Array.isArray(item)) return "";
  const map = item as Readonly<Record<string, unknown>>;
  const words = (value: unknown): string =>
    (typeof value === "object" && value !== null && "value" in value ? String(value.value) : String(value)).replace(
      /\s*\(.*\)$/,
      "",
    );
  const head = map.species ?? map.material ?? map.what ?? map.kind ?? "";
  const rest = Object.entries(map)
    .filter(([key]) => !["species", "material", "what", "kind"].includes(key))
    .slice(0, 4)
    .map(([key, value]) => `${key.replaceAll("_", " ")} ${words(value)}`);
  return [words(head), ...rest].filter(Boolean).join(", ");
}
