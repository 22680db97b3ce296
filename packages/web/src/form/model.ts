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
  type Measure,
  type Path,
  type Place,
  type Plan,
  pathText,
  type RawPlan,
  resolvePlan,
  sameJson,
  valueAt,
} from "@lentic/core/plan";
import { convert, convertAmount, metricUnit, molarMass, parseQuantity, usUnit } from "@lentic/core/units";

// Where a field stands ------------------------------------------------------------------------------------------------

/** "plants[].cover" at position 2 -> ["plants", 2, "cover"]. */
export function pathOf(field: Field, index: number | null): Path {
  const [head, ...rest] = field.path.split(".");
  if (head!.endsWith("[]")) return [head!.slice(0, -2), index ?? 0, ...rest];
  return [head!, ...rest];
}

/** "plants[].cover" of "plants[2].cover". */
const rowOf = (path: string): string => path.replace(/\[\d+\]/, "[]");

/** Values that stand at the head of the plan, outside every group. */
const head: Group = {
  path: "",
  label: "Name and place",
  place: "tank",
  help: "What the tank is called and where it stands.",
  list: false,
  absent: "defaults",
};

interface FormGroup {
  readonly group: Group;
  readonly fields: readonly Field[];
}

/** Groups of some places, in the table's order, each with its fields; what stands outside every group comes last. */
export function groupsOf(places: readonly Place[]): readonly FormGroup[] {
  const inPlace = fields.filter(
    (f) => places.includes(f.place) && f.kind !== "version" && f.kind !== "alternatives" && !f.drawn,
  );
  return [...groups, head]
    .map((group) => ({
      group,
      fields: inPlace.filter((f) =>
        group === head ? !f.path.includes(".") : f.path.startsWith(`${group.path}${group.list ? "[]" : ""}.`),
      ),
    }))
    .filter((g) => g.fields.length > 0);
}

/** Groups in two columns about as long as each other, the order kept. They are set once: nothing jumps when one grows. */
export function inColumns(
  list: readonly FormGroup[],
  raw: RawPlan,
): readonly [readonly FormGroup[], readonly FormGroup[]] {
  const lengthOf = ({ group, fields: own }: FormGroup): number => {
    const value = valueAt(raw, [group.path]);
    if (Array.isArray(value)) return 3 + 0.8 * value.length;
    return 2 + own.filter((f) => f.fallback === null || valueAt(raw, pathOf(f, null)) !== undefined).length;
  };
  const all = list.reduce((sum, g) => sum + lengthOf(g), 0);
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  let sum = 0;
  for (let i = 0; i <= list.length; i += 1) {
    const longer = Math.max(sum, all - sum);
    if (longer < least) {
      least = longer;
      best = i;
    }
    if (i < list.length) sum += lengthOf(list[i]!);
  }
  return [list.slice(0, best), list.slice(best)];
}

// What stands there ---------------------------------------------------------------------------------------------------

const camel = (key: string): string => key.replace(/_([a-z])/g, (_, c: string) => c.toUpperCase());

type Resolved = Entry<number | string> | string | number | boolean | undefined;

/** The resolved value at a path: an entry, a bare value, or undefined where the plan has no such thing. */
export function resolvedAt(plan: Plan, path: Path): Resolved {
  let at: unknown = plan;
  for (const segment of path) {
    if (typeof at !== "object" || at === null) return undefined;
    at = (at as Record<string | number, unknown>)[typeof segment === "string" ? camel(segment) : segment];
  }
  return (at ?? undefined) as Resolved;
}

export const isEntry = (value: unknown): value is Entry<number | string> =>
  typeof value === "object" && value !== null && "known" in value;

/** What stands in the field: the quantity as typed, without mark and note; empty for a default. */
export function typedText(raw: RawPlan, plan: Plan, path: Path): string {
  const typed = valueAt(raw, path);
  if (typed === undefined || typed === null) return "";
  const resolved = resolvedAt(plan, path);
  if (isEntry(resolved) && resolved.text !== undefined) return resolved.text;
  if (typeof typed === "object") return "value" in typed ? String(typed.value) : "";
  return String(typed);
}

/** Three figures, or all of a whole number: as many as a guess deserves. */
const figures = (value: number): string =>
  String(Math.abs(value) >= 1000 ? Math.round(value) : Number(value.toPrecision(3)));

const clock = (hours: number): string => {
  const minutes = Math.round(hours * 60);
  return `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
};

/** The unit and bounds of a field; those of a reading follow from what was read. */
export function measureOf(field: Field, item: unknown): Measure | null {
  if (field.kind === "quantity") return field;
  if (field.kind !== "variant" || typeof item !== "object" || item === null) return null;
  return field.measures[String((item as Readonly<Record<string, unknown>>)[field.by])] ?? null;
}

/** A resolved number as one would type it, in the unit that these readers use. */
function quantityText(value: number, measure: Measure, us: boolean): string {
  if (measure.ion) {
    // nitrate and phosphate are told both as themselves and as their element
    const said = measure.ion === "NO3" || measure.ion === "PO4" ? ` ${measure.ion}` : "";
    return `${figures(convertAmount(value, "mmol/L", "mg/L", molarMass(measure.ion)))} mg/L${said}`;
  }
  const unit = us ? measure.us : measure.metric;
  const shown = figures(measure.difference ? value : convert(value, measure.unit, unit));
  return unit === "1" ? shown : `${shown} ${unit}`;
}

/** How a default reads in the field: with the unit people use; where nothing is assumed, what its absence means. */
export function ghostText(plan: Plan, field: Field, path: Path, us: boolean): string {
  const resolved = resolvedAt(plan, path);
  const value = isEntry(resolved) ? resolved.value : resolved;
  if (typeof value === "number" && Number.isFinite(value)) {
    if (field.kind === "time") return clock(value);
    const measure = measureOf(field, resolvedAt(plan, path.slice(0, -1)));
    return measure ? quantityText(value, measure, us) : figures(value);
  }
  if (typeof value === "string" && value !== "") return value;
  return field.fallback?.text ?? unitHint(field, us);
}

/** A quiet word on what a needed value looks like. */
function unitHint(field: Field, us: boolean): string {
  if (field.kind === "quantity") return `in ${us ? field.us : field.metric}`;
  return field.kind === "time" ? "17:30" : "";
}

/** The same value for readers of the other system; empty where the unit typed is theirs. */
export function otherUnit(typed: string, measure: Measure | null, us: boolean): string {
  if (!measure || measure.ion || measure.difference) return "";
  const read = parseQuantity(typed, { expect: measure.metric });
  if (!read.ok) return "";
  const unit = us ? usUnit(read.unit) : metricUnit(read.unit);
  return unit === read.unit ? "" : `${figures(convert(read.value, read.unit, unit))} ${unit}`;
}

// What is written -----------------------------------------------------------------------------------------------------

/** The value to write for what was typed; undefined takes the field back to its default. */
export function writtenValue(field: Field, text: string, mark?: string, note?: string): unknown {
  const typed = text.trim();
  if (typed === "") return undefined;
  if (field.kind === "flag") return typed === "true";
  if (!("usual" in field) || /\s\(.*\)$/.test(typed)) return typed;
  const words = [...(mark && mark !== field.usual ? [mark] : []), ...(note?.trim() ? [note.trim()] : [])];
  if (words.length > 0) return `${typed} (${words.join(", ")})`;
  return (field.kind === "count" || field.kind === "variant") && Number.isFinite(Number(typed)) ? Number(typed) : typed;
}

/** One value to be set in a plan. */
interface Edit {
  readonly path: Path;
  readonly value: unknown;
  readonly name: string;
}

interface Attempt {
  readonly changes: readonly Change[];
  readonly faults: readonly Fault[];
}

/** Tries values in the plan without keeping them: the changes they come to, and every fault they would bring. */
export function attempt(raw: RawPlan, edits: readonly Edit[]): Attempt {
  let tried = raw;
  const changes: Change[] = [];
  for (const { path, value, name } of edits) {
    const change = changeAt(tried, path, value, name);
    tried = applyToRaw(tried, [change]);
    if (!sameJson(change.before, change.after)) changes.push(change);
  }
  const resolved = resolvePlan(tried);
  return { changes, faults: resolved.ok ? [] : resolved.faults };
}

/** Name of a change for the list of what can be undone: "KH 5 dKH", "Vallisneria nana: cover 14 %". */
export function changeName(raw: RawPlan, field: Field, path: Path, value: unknown): string {
  const shown = value === undefined ? "as assumed" : String(value).replace(/\s\(.*\)$/, "");
  const short = shown.length > 40 ? `${shown.slice(0, 39)}…` : shown;
  const item = typeof path[1] === "number" ? headWord(valueAt(raw, path.slice(0, 2))) : "";
  const shared = fields.filter((f) => f.label === field.label).length > 1;
  const of = item || (shared ? (groups.find((g) => g.path === path[0])?.label ?? "") : "");
  const label = of ? `${of}: ${field.label.toLowerCase()}` : field.label;
  return `${label} ${short}`.slice(0, 120);
}

/** Values typed beside one another that could not be kept by themselves. */
function neighbours(edit: Edit, drafts: Readonly<Record<string, string>>): readonly (Edit & { own: string })[] {
  const own = pathText(edit.path);
  const index = typeof edit.path[1] === "number" ? edit.path[1] : null;
  const stem = pathText(edit.path.slice(0, index === null ? 1 : 2));
  return Object.entries(drafts).flatMap(([path, text]) => {
    const field = path !== own && path.startsWith(`${stem}.`) ? fields.find((f) => f.path === rowOf(path)) : undefined;
    if (!field) return [];
    return [{ path: pathOf(field, index), value: writtenValue(field, text), name: edit.name, own: path }];
  });
}

/**
 * Tries what was typed in one field: with what stands refused beside it, for values that only hold together (lights on
 * and off, a layer's four corners), else alone.
 * @param drafts texts entered in other fields and not kept, by path
 * @returns the changes to keep and the paths that they settle, or the faults with those of the field itself first
 */
export function attemptWithNeighbours(
  raw: RawPlan,
  edit: Edit,
  drafts: Readonly<Record<string, string>>,
): Attempt & { readonly settled: readonly string[] } {
  const own = pathText(edit.path);
  const others = neighbours(edit, drafts);
  if (others.length > 0) {
    const together = attempt(raw, [...others, edit]);
    if (together.faults.length === 0) return { ...together, settled: [own, ...others.map((o) => o.own)] };
  }
  const alone = attempt(raw, [edit]);
  if (alone.faults.length === 0) return { ...alone, settled: [own] };
  const ofOwn = (f: Fault): number => Number(f.path === own || f.path.startsWith(`${own}.`));
  return { changes: [], faults: [...alone.faults].sort((a, b) => ofOwn(b) - ofOwn(a)), settled: [] };
}

/** A spelling that would do, put in place of what was typed by one press. */
interface Suggestion {
  readonly text: string;
  readonly meaning: string;
}

/**
 * Spellings that settle what was typed: the units it may have meant, the names it comes near to. Only those that read.
 * @param fault what is wrong: it may name what is near, or all that is allowed
 * @param works whether a text would be accepted in the field
 */
export function suggestions(
  typed: string,
  fault: Fault,
  measure: Measure | null,
  us: boolean,
  works: (text: string) => boolean,
): readonly Suggestion[] {
  const text = typed.trim();
  if (text === "") return [];
  const read = measure ? parseQuantity(text, { expect: measure.metric }) : null;
  const meant = read && !read.ok ? (read.candidates ?? []) : [];
  const local = us && measure && /^[\d.,]+$/.test(text) ? [{ text: `${text} ${measure.us}`, meaning: "" }] : [];
  const near = /did you mean (.+)\?/.exec(fault.message)?.[1] ?? "";
  const named = `${near}, ${fault.allowed}`.split(/ or |, /).map((word) => ({ text: word.trim(), meaning: "" }));
  const found = new Map<string, Suggestion>();
  for (const { text: spelling, meaning } of [...local, ...meant, ...named]) {
    if (spelling && found.size < 4 && !found.has(spelling) && works(spelling)) {
      found.set(spelling, { text: spelling, meaning: meaning === `in ${spelling.split(" ").at(-1)}` ? "" : meaning });
    }
  }
  return [...found.values()];
}

// Lists ---------------------------------------------------------------------------------------------------------------

/** What has to be said of a new item: its name, and all that has no default; where all has, its first value. */
export const askedOf = (list: readonly Field[]): readonly Field[] => {
  const asked = list.filter((f) => f.kind === "fact" || f.fallback === null);
  return asked.length > 0 ? asked : list.slice(0, 1);
};

const itemsOf = (raw: RawPlan, group: string): readonly unknown[] => {
  const items = valueAt(raw, [group]);
  return Array.isArray(items) ? (items as readonly unknown[]) : [];
};

/** Puts an item at the end; the layout and comments of the others stay. */
export const addItem = (raw: RawPlan, group: string, item: unknown, name: string): Change =>
  changeAt(raw, [group, itemsOf(raw, group).length], item, name);

export const takeItem = (raw: RawPlan, group: string, index: number, name: string): Change =>
  changeAt(raw, [group, index], undefined, name);

/** Takes an item out and puts it in again elsewhere; the layout and comments of the others stay, its own comment does not. */
export function moveItem(raw: RawPlan, group: string, from: number, to: number, name: string): readonly Change[] {
  const item = itemsOf(raw, group)[from];
  return [
    { name, path: [group, from], before: item, after: undefined },
    { name, path: [group, to], before: undefined, after: item },
  ];
}

/** An item of a list with an identity of its own, which it keeps when it moves or is edited. */
export interface Followed {
  readonly id: number;
  readonly item: unknown;
}

/** Gives items their identities again after a change: equal items first, then those left in the same position. */
export function follow(before: readonly Followed[], items: readonly unknown[]): readonly Followed[] {
  const free = new Map(before.map((b, i) => [i, b]));
  const next: (Followed | null)[] = items.map((item, i) => {
    const same = free.get(i);
    if (!same || !sameJson(same.item, item)) return null;
    free.delete(i);
    return { id: same.id, item };
  });
  const fill = (pick: (item: unknown, i: number) => number | undefined): void => {
    items.forEach((item, i) => {
      const from = next[i] ? undefined : pick(item, i);
      const taken = from === undefined ? undefined : free.get(from);
      if (from === undefined || !taken) return;
      free.delete(from);
      next[i] = { id: taken.id, item };
    });
  };
  fill((item) => [...free].find(([, b]) => sameJson(b.item, item))?.[0]);
  // an edit changes one item where it stands; after a removal the place of the last is free but no longer its own
  if (items.length >= before.length) fill((_, i) => (free.has(i) ? i : undefined));
  let fresh = Math.max(-1, ...before.map((b) => b.id));
  return next.map((n, i) => {
    fresh += n ? 0 : 1;
    return n ?? { id: fresh, item: items[i] };
  });
}

const bare = (value: unknown): string =>
  (typeof value === "object" && value !== null && "value" in value ? String(value.value) : String(value)).replace(
    /\s\(.*\)$/,
    "",
  );

function headWord(item: unknown): string {
  if (typeof item !== "object" || item === null) return "";
  const map = item as Readonly<Record<string, unknown>>;
  const word = map.species ?? map.material ?? map.what ?? map.kind;
  return word === undefined ? "" : bare(word);
}

const spelled: Readonly<Record<string, string>> = { co2: "CO2", ph: "pH" };

/** A word of the file as people write it. */
export const wordOf = (choice: string): string => spelled[choice] ?? choice;

interface Summary {
  /** The name that the item goes by. */
  readonly head: string;
  /** Its first values as typed, each with its label. */
  readonly rest: string;
  /** How many further values are assumed. */
  readonly assumed: number;
}

/** A share that is measured is a place on the ground: it says little in a line. */
const isPosition = (field: Field): boolean =>
  field.kind === "quantity" && field.unit === "1" && field.usual === "measured";

/** One line that tells a list item when it is folded: "Vallisneria nana, cover 14 %, height 330 mm". */
export function summary(plan: Plan, raw: RawPlan, list: readonly Field[], index: number): Summary {
  const named = list.find((f) => f.kind === "fact") ?? askedOf(list)[0];
  const values: string[] = [];
  let name = "";
  let assumed = 0;
  for (const field of list) {
    const path = pathOf(field, index);
    const typed = valueAt(raw, path);
    const resolved = resolvedAt(plan, path);
    if (field === named) name = typed === undefined ? String(resolved ?? "") : bare(typed);
    else if (typed === undefined) assumed += isEntry(resolved) && resolved.text === undefined ? 1 : 0;
    else if (field.kind !== "choice" && !isPosition(field))
      values.push(`${field.label.toLowerCase()} ${bare(typed).replaceAll(" ", "\u00a0")}`);
  }
  return { head: wordOf(name), rest: values.slice(0, 4).join(", "), assumed };
}
