import type { Json, Path, RawPlan } from "@lentic/core/plan";

/** One place in which two plans differ; undefined = left out. */
export interface Difference {
  readonly path: Path;
  readonly before: Json | undefined;
  readonly after: Json | undefined;
}

const isMap = (value: Json | undefined): value is RawPlan =>
  typeof value === "object" && value !== null && !Array.isArray(value);
const isList = (value: Json | undefined): value is readonly Json[] => Array.isArray(value);

/** Where two plans differ as typed: the smallest parts, in the order of the first. */
export function differences(before: Json | undefined, after: Json | undefined, path: Path = []): Difference[] {
  if (isMap(before) && isMap(after)) {
    const keys = [...new Set([...Object.keys(before), ...Object.keys(after)])];
    return keys.flatMap((key) => differences(own(before, key), own(after, key), [...path, key]));
  }
  if (isList(before) && isList(after)) {
    const length = Math.max(before.length, after.length);
    return Array.from({ length }, (_, i) => differences(before[i], after[i], [...path, i])).flat();
  }
  return Object.is(before, after) ? [] : [{ path, before, after }];
}

const own = (map: RawPlan, key: string): Json | undefined => (Object.hasOwn(map, key) ? map[key] : undefined);

/** A value of a plan in one short line. */
export function valueText(value: Json | undefined): string {
  if (value === undefined) return "left out";
  return typeof value === "object" ? JSON.stringify(value) : String(value);
}
