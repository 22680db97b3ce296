import type { Known } from "./plan.ts";

const knowns: readonly string[] = ["measured", "label", "assumed"] satisfies readonly Known[];

export const allowedMarks = "measured, label or assumed";

export function isKnown(word: unknown): word is Known {
  return typeof word === "string" && knowns.includes(word);
}

/** A typed value parted from what stands in brackets behind it. */
interface Marked {
  readonly words: string;
  readonly known?: Known;
  readonly note?: string;
}

/**
 * `46 W (label)`, `4 dKH (measured, drop test, 4 Nov)`, `4 dKH (drop test)`. Brackets that belong to a unit stand close
 * to it, as in `ppm(v)`, so only a bracket after a space opens a mark.
 * @returns null when a bracket is not closed at the end of the text.
 */
export function readMarks(text: string): Marked | null {
  const trimmed = text.trim();
  const open = trimmed.search(/\s\(/);
  if (open < 0) return { words: trimmed };
  if (!trimmed.endsWith(")")) return null;
  const words = trimmed.slice(0, open).trimEnd();
  const inside = trimmed.slice(trimmed.indexOf("(", open) + 1, -1).trim();
  const comma = inside.indexOf(",");
  const first = (comma < 0 ? inside : inside.slice(0, comma)).trim();
  const known = isKnown(first) ? first : undefined;
  const note = known ? (comma < 0 ? "" : inside.slice(comma + 1).trim()) : inside;
  return { words, ...(known ? { known } : {}), ...(note ? { note } : {}) };
}
