/**
 * From the plan as typed to the plan that the model runs on. Two passes over the fields table: first every typed value
 * is read, then what was left out is filled in, in the order of the table. A value that cannot be read leaves NaN (or
 * the first choice) behind, so that the other checks still run and every fault is told at once; such a plan is never
 * handed out.
 */
import { crossIssues, notes } from "./cross-checks.ts";
import { faultOf, type Issue } from "./issue.ts";
import { corners, type LayerTyped, layerIssues } from "./layers.ts";
import { readMarks } from "./marks.ts";
import { migrate } from "./migrate.ts";
import {
  type Entry,
  isMap,
  type Json,
  type Path,
  type Plan,
  pathText,
  type RawPlan,
  type ReadingPlan,
  type Resolution,
} from "./plan.ts";
import { closest, short } from "./suggest.ts";
import { type FieldNode, type GroupNode, root } from "./tree.ts";
import { defaultEntry, placeholder, readValue } from "./value.ts";

type Item = Record<string, unknown>;

/** Most entries of one list: more than any tank holds. */
const longestList = 200;

class Resolver {
  readonly issues: Issue[] = [];
  /** Groups of one map, lists of maps, and single values, by their names in the resolved plan. */
  readonly draft: Item = {};

  say(path: Path, message: string, allowed: string, at: Issue["at"] = "value"): void {
    this.issues.push({ path, at, message, allowed });
  }

  unknownKey(path: Path, key: string, keys: readonly string[]): void {
    const near = closest(key, keys);
    const hint = near === undefined ? "" : `; did you mean ${near}?`;
    const parent = pathText(path) || "a plan";
    this.say([...path, key], `${short(key)} is not known in ${parent}${hint}`, keys.join(", "), "key");
  }

  /** Reads the typed values of one map. */
  readItem(raw: RawPlan, group: GroupNode, path: Path): Item {
    const item: Item = {};
    for (const key of Object.keys(raw)) {
      const node = group.children.get(key);
      if (raw[key] === undefined) continue;
      if (!node) {
        if (!isTornNote(raw, key)) this.unknownKey(path, key, [...group.children.keys()]);
      } else item[node.name] = readValue(node.field, raw[key] as Json, raw, [...path, key], this.issues);
    }
    return item;
  }

  readGroup(node: GroupNode, raw: Json | undefined): void {
    const { group, key, name } = node;
    const { list, absent } = group;
    if (raw === undefined || (raw === "none" && absent === "none")) {
      const empty = list ? (absent === "defaults" ? [{}] : []) : absent === "defaults" ? {} : null;
      this.draft[name] = empty;
      if (raw === undefined && absent === "defaults" && !list) this.missingGroup(node);
      return;
    }
    this.draft[name] = list ? this.readList(node, raw) : this.readMap(node, raw);
    if (raw === null) {
      const otherwise =
        absent === "none" ? `the key left out, or ${key}: ${list ? "[]" : "{}"} for every default` : "the key left out";
      this.say([key], `${key} is empty`, otherwise);
    }
  }

  readMap(node: GroupNode, raw: Json): Item {
    if (isMap(raw)) return this.readItem(raw, node, [node.key]);
    if (raw !== null)
      this.say([node.key], `${node.key} must be a map of keys and values`, [...node.children.keys()].join(", "));
    return this.standIns(node);
  }

  readList(node: GroupNode, raw: Json): Item[] {
    if (raw === null) return [];
    if (!Array.isArray(raw)) {
      this.say(
        [node.key],
        `${node.key} must be a list`,
        `entries that start with a dash, each with ${[...node.children.keys()].join(", ")}`,
      );
      return [];
    }
    const entries = raw as readonly Json[];
    if (entries.length > longestList) {
      this.say([node.key], `${node.key} holds ${entries.length} entries`, `at most ${longestList}`);
    }
    return entries.slice(0, longestList).map((entry, i) => {
      if (isMap(entry)) return this.readItem(entry, node, [node.key, i]);
      this.say(
        [node.key, i],
        "an entry of this list must be a map of keys and values",
        [...node.children.keys()].join(", "),
      );
      return this.standIns(node);
    });
  }

  /** Placeholders for the fields that may not be left out, where a fault has been told already. */
  standIns(node: GroupNode): Item {
    const item: Item = {};
    for (const child of node.children.values()) {
      if (!child.field.fallback) item[child.name] = placeholder(child.field);
    }
    return item;
  }

  missingGroup(node: GroupNode): void {
    const needed = [...node.children.values()].filter((child) => !child.field.fallback).map((child) => child.key);
    if (needed.length === 0) return;
    this.say([node.key], `${node.key} is missing`, `${node.key} with at least ${needed.join(", ")}`);
    this.draft[node.name] = this.standIns(node);
  }

  /** Fills what one map leaves out. */
  fill(item: Item, node: GroupNode, path: Path, index: number): void {
    for (const child of node.children.values()) {
      if (item[child.name] !== undefined) continue;
      item[child.name] = this.missing(child, path, index);
    }
  }

  missing(node: FieldNode, path: Path, index: number): unknown {
    const { field, key } = node;
    if (field.fallback) return defaultEntry(field, this.draft as unknown as Plan, index);
    this.say([...path, key], `${key} is missing`, field.help);
    return placeholder(field);
  }

  fillGroup(node: GroupNode): void {
    const value = this.draft[node.name];
    if (value === null) return;
    if (Array.isArray(value)) {
      (value as Item[]).forEach((item, i) => {
        this.fill(item, node, [node.key, i], i);
      });
    } else this.fill(value as Item, node, [node.key], 0);
  }
}

/** The rest of a note that a comma tore off its value between { and }; the value's own fault says so. */
function isTornNote(raw: RawPlan, key: string): boolean {
  return raw[key] === null && Object.values(raw).some((v) => typeof v === "string" && !readMarks(v));
}

/** A reading without the trimmings of an entry. */
function bareReading(item: Item): ReadingPlan {
  const value = item.value as Entry;
  const note = (item.note as string | null) ?? value.note;
  return {
    what: item.what as ReadingPlan["what"],
    value: value.value,
    error: (item.error as Entry | null)?.value ?? null,
    at: (item.at as Entry).value,
    ...(note === undefined ? {} : { note }),
  };
}

/** The issues of a raw plan, or the plan. The version must be the current one. */
export function resolve(raw: RawPlan): { readonly plan: Plan; readonly issues: readonly Issue[] } {
  const resolver = new Resolver();
  const { draft } = resolver;
  for (const key of Object.keys(raw)) {
    if (!root.has(key) && raw[key] !== undefined) resolver.unknownKey([], key, [...root.keys()]);
  }
  for (const node of root.values()) {
    const value = Object.hasOwn(raw, node.key) ? raw[node.key] : undefined;
    if (node.type === "group") resolver.readGroup(node, value);
    else if (value !== undefined) draft[node.name] = readValue(node.field, value, raw, [node.key], resolver.issues);
  }
  for (const node of root.values()) {
    if (node.type === "group") resolver.fillGroup(node);
    else draft[node.name] ??= resolver.missing(node, [], 0);
  }
  const layers = draft.substrate as readonly LayerTyped[];
  resolver.issues.push(...layers.flatMap(layerIssues));
  const { lentic: _version, place, started, about, currency, ...rest } = draft;
  const stated = Object.entries({ place, started, about, currency }).filter(([, value]) => value !== null);
  const plan = {
    ...rest,
    ...Object.fromEntries(stated),
    substrate: layers.map(corners),
    readings: (draft.readings as readonly Item[]).map(bareReading),
  } as unknown as Plan;
  resolver.issues.push(...crossIssues(plan, resolver.issues.length === 0));
  return { plan, issues: resolver.issues };
}

/**
 * The plan that a raw plan means, every default filled in, or every fault at once (line and column 0, for want of a
 * text). Patches of alternatives are not tried here; readPlan does that. Quick enough to run at every move of a slider.
 */
export function resolvePlan(raw: RawPlan): Resolution {
  const migrated = migrate(raw);
  if ("message" in migrated) return { ok: false, faults: [migrated] };
  const { plan, issues } = resolve(migrated.raw);
  return issues.length > 0
    ? { ok: false, faults: issues.map((issue) => faultOf(issue)) }
    : { ok: true, plan, notes: notes(plan).map((issue) => faultOf(issue)) };
}
